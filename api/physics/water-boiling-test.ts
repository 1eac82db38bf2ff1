/**
 * Evaluation of a water boiling test, so that a household (or a laboratory) can turn one weighed boil into an efficiency
 * of its own stove. Definitions of the Water Boiling Test 4; masses in g, temperatures in C, heating values in MJ/kg.
 */

/**
 * Dry fuel that is equivalent to the moist fuel used less the char left:
 * `[f (LHV (1 - w) - w (4.186 (Tb - Ta) + 2257)/1000) - char LHV_char] / LHV`.
 * @returns g of dry fuel
 */
export function equivalentDryFuelG(test: {
  moistFuelG: number;
  charLeftG: number;
  moistureShare: number;
  dryMJPerKg: number;
  charMJPerKg: number;
  airC: number;
  boilC: number;
}): number {
  const water = (4.186 * (test.boilC - test.airC) + 2257) / 1000;
  const moist = test.moistFuelG * (test.dryMJPerKg * (1 - test.moistureShare) - test.moistureShare * water);
  return (moist - test.charLeftG * test.charMJPerKg) / test.dryMJPerKg;
}

/** Dry fuel per litre that was boiled, g/L: water left times the share of the way to the boil. */
export function specificFuelGPerL(
  dryFuelG: number,
  waterLeftL: number,
  startC: number,
  endC: number,
  boilC: number,
): number {
  return dryFuelG / ((waterLeftL * (endC - startC)) / (boilC - startC));
}

/** The same corrected to a standard rise of 75 K. */
export function correctedTo75K(value: number, startC: number, boilC: number): number {
  return (value * 75) / (boilC - startC);
}

/** Heat into the water (sensible and steam) over the heat of the fuel, 0 to 1. */
export function testEfficiency(
  waterG: number,
  riseK: number,
  steamG: number,
  dryFuelG: number,
  dryMJPerKg: number,
): number {
  return (4.186 * waterG * riseK + 2260 * steamG) / (1000 * dryFuelG * dryMJPerKg);
}

/** Mean power of the fire, W. */
export function firePowerW(dryFuelG: number, dryMJPerKg: number, minutes: number): number {
  return (dryFuelG * dryMJPerKg * 1000) / (60 * minutes);
}

/** Energy of the 5 L benchmark, kJ: mean of cold and hot start plus simmer, all in kJ/L. */
export function fiveLitreBenchmarkKJ(coldKJPerL: number, hotKJPerL: number, simmerKJPerL: number): number {
  return 5 * ((coldKJPerL + hotKJPerL) / 2 + simmerKJPerL);
}
