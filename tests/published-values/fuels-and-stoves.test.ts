/**
 * Fuels, stoves and the water boiling test against values as published, typed as printed; the reason for each tolerance
 * stands beside it. The water boiling test's definitions are the Water Boiling Test protocol, version 4.
 */
import { describe, expect, it } from 'vitest';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { pressureShare } from '../../api/physics/atmosphere.ts';
import {
  butanePressureKPa,
  cylinderCoolingK,
  isobutanePressureKPa,
  propanePressureKPa,
} from '../../api/physics/cold-fuel.ts';
import {
  altitudePowerShare,
  efficiencyTier,
  lowerHeatingValue,
  lowerHeatingValueOf,
  ratingAboveTwoThousandFeet,
  ratingFromSeaLevel,
  wetBasisShare,
} from '../../api/physics/combustion.ts';
import { FUELS, PROPANE_CYLINDER_KG } from '../../api/physics/fuels-table.ts';
import { lognormalP90Factor } from '../../api/physics/parameter.ts';
import { STOVE_TYPES } from '../../api/physics/stoves-table.ts';
import {
  btuToMj,
  fahrenheitToCelsius,
  feetToMetres,
  gallonsToLitres,
  kcalPerHourToKW,
  kgToPounds,
  kPaToPsi,
  poundsToKg,
} from '../../api/physics/units.ts';
import {
  correctedTo75K,
  equivalentDryFuelG,
  firePowerW,
  fiveLitreBenchmarkKJ,
  specificFuelGPerL,
  testEfficiency,
} from '../../api/physics/water-boiling-test.ts';
import { checkValuesOf, expectNear, expectWithinShare } from './check-values.ts';

const { checkValue, everyCheckValueIsSettled } = checkValuesOf('fuels-and-stoves');

describe('wood against moisture', () => {
  for (const [numbers, moisture, printed] of [
    [[], 0, 19.0],
    [[], 0.15, 15.79],
    [[1], 0.2, 14.72],
    [[], 0.3, 12.58],
    [[2], 0.4, 10.44],
  ] as const) {
    const title = `engineering table of wood against humidity, dry 19.0: ${printed} MJ/kg at a moisture of ${moisture}`;
    const body = () => {
      // The table was rounded from a slightly different heat of evaporation: 0.02 at 40 %.
      expectNear(lowerHeatingValue(19.0, moisture), printed, 0.025);
    };
    if (numbers.length === 0) it(title, body);
    else checkValue(numbers, title, body);
  }

  checkValue([1, 2], 'ISO 18125 form, q (1 - w) - 2.443 w: 14.71 at 20 %, 10.42 at 40 %; soft and hard wood', () => {
    expectNear(lowerHeatingValue(19.0, 0.2), 14.71, 0.006);
    expectNear(lowerHeatingValue(19.0, 0.4), 10.42, 0.006);
    expectNear(lowerHeatingValue(19.2, 0.2), 14.87, 0.006);
    expectNear(lowerHeatingValue(18.4, 0.3), 12.15, 0.006);
  });

  it('25 % on dry basis is 20 % on wet basis', () => {
    expect(wetBasisShare(0.25)).toBeCloseTo(0.2, 12);
  });
});

describe('heating values', () => {
  checkValue(21, 'isopropanol, (2006.1 - 4 x 44.0)/60.096 kJ/mol and g/mol: 30.45 MJ/kg', () => {
    expectNear(lowerHeatingValueOf(2006.1, 4, 60.096), 30.45, 0.006);
    expectNear(FUELS.isopropanol.dryLhvMJPerKg, 30.45, 0.05);
  });
  it('ethanol and methanol from their heats of combustion', () => {
    expectNear(lowerHeatingValueOf(1366.8, 3, 46.069), 26.8, 0.006);
    expectNear(lowerHeatingValueOf(726.1, 2, 32.042), 19.92, 0.006);
  });

  checkValue(20, '"Alcohol fuel efficiency - ethanol vs methanol" 2013: a millilitre 21.1 and 15.8 kJ', () => {
    const perMl = (id: 'ethanol' | 'methanol'): number =>
      FUELS[id].lhvMJPerKg.value * (FUELS[id].densityKgPerL as number);
    expectNear(perMl('ethanol'), 21.1, 0.1);
    expectNear(perMl('methanol'), 15.8, 0.05);
  });

  it('GREET: ethanol 26.945 and methanol 20.089 MJ/kg, half a percent above thermochemistry', () => {
    expectWithinShare(FUELS.ethanol.lhvMJPerKg.value, 26.945, 0.01);
    expectWithinShare(FUELS.methanol.lhvMJPerKg.value, 20.089, 0.01);
  });

  it('a litre of propane holds 23.48 MJ (84 250 Btu/gal)', () => {
    const printed = btuToMj(84250) / gallonsToLitres(1);
    expectNear(FUELS.propane.lhvMJPerKg.value * 0.507, printed, 0.05);
  });

  checkValue(
    17,
    '"20 lb propane tank" pages and LP-gas data sheets, 21 548 Btu/lb: 430 960 Btu or 454.7 MJ, higher heat',
    () => {
      // 0.2 %: pages print 430 270 to 431 613 Btu.
      expectWithinShare(btuToMj(20 * 21548), 454.7, 0.002);
      // The lower heat that the program counts is 7.5 % less: an efficiency on the one basis is not one on the other.
      const ours = PROPANE_CYLINDER_KG.twentyPound * FUELS.propane.lhvMJPerKg.value;
      expectNear(454.7 / ours, 1.08, 0.005);
    },
  );

  checkValue(18, '9.072 kg of propane at 46.35 MJ/kg: 420.5 MJ lower heat, 46.7 h at 2.5 kW', () => {
    expectNear(PROPANE_CYLINDER_KG.twentyPound, 9.072, 0.003);
    const lower = poundsToKg(20) * FUELS.propane.lhvMJPerKg.value;
    // 0.5 %: lower heats in print differ by that (46.28 to 46.4).
    expectWithinShare(lower, 420.5, 0.005);
    expectWithinShare(lower / 2.5 / 3.6, 46.7, 0.005);
  });

  checkValue(
    25,
    '47.6 lb water capacity x 0.42 is 20.0 lb, and 4.76 gal at 4.2 lb/gal (NFPA 58 filling density)',
    () => {
      expectNear(47.6 * 0.42, 20.0, 0.02);
      expectNear(kgToPounds(PROPANE_CYLINDER_KG.twentyPound), 47.6 * 0.42, 0.02);
      // 4.24 lb/gal stand on other sheets, and 0.507 kg/L is between: 4.73 gal.
      const gallons = PROPANE_CYLINDER_KG.twentyPound / (FUELS.propane.densityKgPerL as number) / gallonsToLitres(1);
      expectNear(20.0 / 4.2, 4.76, 0.005);
      expectNear(gallons, 4.76, 0.04);
    },
  );
});

describe('Water Boiling Test 4, the sample test of its data form', () => {
  const test = { moistureShare: 0.12, dryMJPerKg: 19.497, charMJPerKg: 29.5, airC: 27.9, boilC: 99.8 };

  for (const [number, phase, moistFuelG, charLeftG, printed] of [
    [3, 'cold', 280, 28, 199.6262],
    [4, 'hot', 273, 56, 151.211],
    [4, 'simmer', 165, 21, 110.8282],
  ] as const)
    checkValue(number, `equivalent dry fuel, ${phase}: ${printed} g`, () => {
      expectNear(equivalentDryFuelG({ ...test, moistFuelG, charLeftG }), printed, 0.001);
    });

  checkValue(5, 'specific fuel 80.462 g/L, corrected to 75 K 83.931 g/L', () => {
    const sc = specificFuelGPerL(199.6262, 2.481, 27.9, 99.8, 99.8);
    expectNear(sc, 80.462, 0.001);
    expectNear(correctedTo75K(sc, 27.9, 99.8), 83.931, 0.001);
  });

  checkValue(6, 'power of the fire 3 815.8 W in 17 min', () => {
    expectNear(firePowerW(199.6262, 19.497, 17), 3815.8, 0.1);
  });

  checkValue(8, 'turndown 3 815.8/800.302 = 4.768', () => {
    expectNear(firePowerW(110.8282, 19.497, 45), 800.302, 0.1);
    expectNear(firePowerW(199.6262, 19.497, 17) / firePowerW(110.8282, 19.497, 45), 4.768, 0.001);
  });

  checkValue(7, 'efficiency 0.2761, hot start; 0.2050 cold', () => {
    expectNear(testEfficiency(2500, 72.6, 24, 151.211, 19.497), 0.2761, 0.0001);
    expectNear(testEfficiency(2501, 71.9, 20, 199.6262, 19.497), 0.205, 0.0001);
  });

  checkValue(9, 'benchmark of 5 L 11 626.97 kJ', () => {
    expectNear(fiveLitreBenchmarkKJ(1636.41, 1230.06, 892.162), 11626.97, 0.1);
  });
});

describe('stoves', () => {
  checkValue(
    10,
    'ARC, Shell Foundation, US EPA 2011, app. C: 24.08 g/min of fir at 19.26 MJ/kg, 7.73 kW (published 7.8)',
    () => {
      const kW = firePowerW(24.08, 19.26, 1) / 1000;
      expectNear(kW, 7.73, 0.01);
      // One digit, and rounded up from 7.73.
      expectNear(kW, 7.8, 0.08);
      // The stove of the table burns as hot within its own band.
      expect(STOVE_TYPES['three-stone'].powerKW.p10).toBeLessThan(kW);
      expect(STOVE_TYPES['three-stone'].powerKW.p90).toBeGreaterThan(kW);
    },
  );

  checkValue(11, 'PCIA 2012: 27 min to boil and 45 min simmer at those rates burn 1 077 g (published 1 112)', () => {
    expectNear(27 * 24.08 + 45 * 9.49, 1077, 1);
    // 4 %: another day of the same laboratory.
    expectWithinShare(27 * 24.08 + 45 * 9.49, 1112, 0.04);
  });

  checkValue(11, 'the open fire of the table takes the published 1 112 g for 5 L and 45 min within its band', () => {
    const answer = answerFuelUse({
      stove: { typeId: 'three-stone' },
      fuelId: 'wood',
      fuelMoisturePercent: 11,
      // The test pot is open, but the test counts its steam as heat into the pot.
      vessel: { kind: 'pot', capacityL: 7, lid: 'loose' },
      waterL: 5,
      startC: 20,
      airC: 20,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 45,
    });
    expect(answer.fuelKg?.p10).toBeLessThan(1.112);
    expect(answer.fuelKg?.p90).toBeGreaterThan(1.112);
  });

  checkValue(23, 'Pemberton-Pigott 2006: 48 g/L charcoal for 3 L in 30 min are 2.36 kW', () => {
    const kW = firePowerW(48 * 3, 29.5, 30) / 1000;
    expectNear(kW, 2.36, 0.02);
    const { powerKW } = STOVE_TYPES.charcoal;
    expect(powerKW.p10).toBeLessThan(kW);
    expect(powerKW.p90).toBeGreaterThan(kW);
  });

  for (const [kcal, printed] of [
    [1000, 1.16],
    [1400, 1.63],
    [1800, 2.09],
  ] as const)
    checkValue(24, `household burners (Mora Iannelli and Gil, ENARGAS 2020): ${kcal} kcal/h are ${printed} kW`, () => {
      expectNear(kcalPerHourToKW(kcal), printed, 0.006);
    });

  checkValue(22, 'ENARGAS 2020, 52 %: a litre from 20 to 100 C at 2.09 kW takes 13.9 g in 5.14 min', () => {
    const answer = answerFuelUse({
      stove: { typeId: 'lpg-home', efficiency: 0.52, powerKW: 2.09 },
      fuelId: 'propane',
      vessel: null,
      waterL: 1,
      startC: 20,
      endC: 100,
      airC: 20,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 0,
    });
    expectNear((answer.fuelKg?.p50 as number) * 1000, 13.9, 0.1);
    expectNear(answer.minutesToBoil.p50, 5.14, 0.05);
  });

  it('gas hobs (Gonzalez 2010): 62 % at the lowest flame, about 50 % at full on a 20 cm pot of 2 L', () => {
    const boil = (flame: 'full' | 'low'): number => {
      const answer = answerFuelUse({
        stove: { typeId: 'lpg-home', flame },
        fuelId: 'propane',
        vessel: { kind: 'pot', capacityL: 4, diameterMm: 200, lid: 'snug' },
        waterL: 2,
        startC: 20,
        airC: 20,
        elevationM: 0,
        wind: 'still',
        holdMinutes: 0,
      });
      return answer.heatToPotMJ.p50 / answer.fuelMJ.p50;
    };
    // Hobs differ: 0.42 to 0.52 lidded at full flame in print.
    expectNear(boil('low'), 0.62, 0.05);
    expectNear(boil('full'), 0.5, 0.05);
  });

  for (const [efficiency, tier] of [
    [0.52, 5],
    [0.5, 5],
    [0.4, 4],
    [0.15, 1],
    [0.1, 1],
    [0.099, 0],
  ] as const)
    checkValue(19, `ISO/TR 19867-3:2018, default efficiency tiers: ${efficiency} is tier ${tier}`, () => {
      expect(efficiencyTier(efficiency)).toBe(tier);
    });

  checkValue(26, 'rocket, CV^2 = (0.05/0.27)^2 + 0.15^2 + 0.07^2 (JCGM 100:2008): CV 0.248, factor 1.37', () => {
    const cv = Math.hypot(0.05 / 0.27, 0.15, 0.07);
    expectNear(cv, 0.248, 0.001);
    expectNear(lognormalP90Factor(cv), 1.37, 0.01);
  });
  checkValue(27, 'open fire 0.04/0.15 with 0.15 and 0.07: factor 1.48; gas 0.06/0.52 with 0.10 and 0.01: 1.22', () => {
    expectNear(lognormalP90Factor(Math.hypot(0.04 / 0.15, 0.15, 0.07)), 1.48, 0.01);
    expectNear(lognormalP90Factor(Math.hypot(0.06 / 0.52, 0.1, 0.01)), 1.22, 0.01);
  });
});

describe('altitude', () => {
  checkValue(
    16,
    'U.S. Standard Atmosphere 1976: 0.8320 of the pressure at 1 524 m, 0.9122 of a regulated burner’s power',
    () => {
      expectNear(pressureShare(1524), 0.832, 0.0005);
      expectNear(altitudePowerShare(1524, 0.5), 0.9122, 0.0005);
    },
  );

  for (const [numbers, feet, above, fromSea] of [
    [[], 3000, 0.96, 0.88],
    [[15], 5000, 0.88, 0.8],
    [[], 7000, 0.8, 0.72],
    [[], 10000, 0.68, 0.6],
  ] as const) {
    const title = `NFPA 54 table E.1.1 and a trade magazine 2015: at ${feet} ft ${above} above 2 000 ft, ${fromSea} from sea level`;
    const body = () => {
      expect(ratingAboveTwoThousandFeet(feetToMetres(feet))).toBeCloseTo(above, 9);
      expect(ratingFromSeaLevel(feetToMetres(feet))).toBeCloseTo(fromSea, 9);
    };
    if (numbers.length === 0) it(title, body);
    else checkValue(numbers, title, body);
  }

  checkValue(
    14,
    'furnace manual, LP gas altitude table 9, 25 000 Btu/h: 24 000 in the band 2-3 kft, 17 000 in 9-10 kft',
    () => {
      expect(25000 * ratingAboveTwoThousandFeet(feetToMetres(3000))).toBeCloseTo(24000, 6);
      expect(25000 * ratingAboveTwoThousandFeet(feetToMetres(10000))).toBeCloseTo(17000, 6);
    },
  );

  it('NBS RP 553 (1933): 3 to 4 % of the gas rate per 1000 ft holds the square-root law inside it up to 5000 ft', () => {
    const share = altitudePowerShare(feetToMetres(5000), 0.5);
    expect(share).toBeGreaterThan(0.8);
    expect(share).toBeLessThan(0.95);
  });
});

describe('cold', () => {
  for (const [number, fahrenheit, printed] of [
    [null, -30, 6.8],
    [13, 0, 24.5],
    [null, 40, 65],
    [12, 70, 110],
    [null, 100, 177],
  ] as const) {
    const title = `torch maker’s propane page: ${printed} psig at ${fahrenheit} F`;
    const body = () => {
      const gauge = kPaToPsi(propanePressureKPa(fahrenheitToCelsius(fahrenheit)) - 101.325);
      // The fit is good to 1.1 % of the absolute pressure, the trade table to about 1 % and 1 to 2 psi.
      expectNear(gauge, printed, Math.max(2, 0.02 * (printed + 14.7)));
      if (number === 13) expectNear(gauge, 24, 1);
    };
    if (number === null) it(title, body);
    else checkValue(number, title, body);
  }

  checkValue(
    13,
    'fit to NIST data: 111 kPa at -40 C; the Antoine form of a dewpoint manual agrees within 1.4 %',
    () => {
      expectNear(propanePressureKPa(-40), 111, 2);
      for (const t of [-40, -20, 0, 20, 40]) {
        const antoine = 10 ** (6.82973 - 813.2 / (248 + t)) * 0.1333224;
        expectWithinShare(propanePressureKPa(t), antoine, 0.015);
      }
    },
  );

  it.each([
    [-20, 72, 46],
    [-10, 110, 70],
    [0, 158, 104],
    [20, 301, 208],
    [40, 529, 377],
  ])('isobutane and butane at %d C: %d and %d kPa', (t, isobutane, butane) => {
    expectWithinShare(isobutanePressureKPa(t), isobutane, 0.015);
    expectWithinShare(butanePressureKPa(t), butane, 0.015);
  });

  checkValue(
    28,
    'heat balance, 370 kJ/kg of vapour, UA 0.5 W/K, 1.5 kJ/K: a 465 g cylinder at 2.5 kW falls 18 K in 30 min',
    () => {
      // 1 K: the heat capacity of a full cylinder falls while it empties.
      expectNear(cylinderCoolingK(2.5, 30), 18, 1);
      // By small steps of the balance itself: C dT/dt = UA (-dT) - P r / LHV.
      let fallenK = 0;
      for (let second = 0; second < 1800; second += 1) fallenK += ((2.5 / 46.35e3) * 370e3 - 0.5 * fallenK) / 1500;
      expectNear(cylinderCoolingK(2.5, 30), fallenK, 0.05);
    },
  );
});

describe('what moisture, wind and altitude do', () => {
  const base: FuelUseQuestion = {
    stove: { typeId: 'rocket' },
    fuelId: 'wood',
    fuelMoisturePercent: 15,
    vessel: { kind: 'pot', capacityL: 6, lid: 'snug' },
    waterL: 4,
    startC: 15,
    airC: 15,
    elevationM: 0,
    wind: 'still',
    holdMinutes: 0,
  };
  checkValue(29, 'for one heat into the pot, wetter wood is more kg and the same heat', () => {
    const dry = answerFuelUse(base);
    const wet = answerFuelUse({ ...base, fuelMoisturePercent: 28 });
    expect(wet.fuelKg?.p50).toBeGreaterThan(dry.fuelKg?.p50 as number);
    expectWithinShare(wet.fuelMJ.p50, dry.fuelMJ.p50, 0.001);
    // By the ISO 18125 form: kg go as the inverse of the heating value.
    const byForm = lowerHeatingValue(19, 0.15) / lowerHeatingValue(19, 0.28);
    expectWithinShare((wet.fuelKg?.p50 as number) / (dry.fuelKg?.p50 as number), byForm, 0.001);
  });
  checkValue(29, 'wind is more fuel', () => {
    const fuel = (['still', 'screened', 'light', 'moderate'] as const).map(
      (wind) => answerFuelUse({ ...base, wind }).fuelMJ.p50,
    );
    for (let i = 1; i < fuel.length; i += 1) expect(fuel[i]).toBeGreaterThan(fuel[i - 1] as number);
  });
  checkValue(29, 'altitude alone, one end temperature: longer on a regulated burner, the same fuel', () => {
    const gas: FuelUseQuestion = { ...base, stove: { typeId: 'lpg-home' }, fuelId: 'propane', vessel: null, endC: 80 };
    const { fuelMoisturePercent: _wood, ...plain } = gas;
    const low = answerFuelUse(plain);
    const high = answerFuelUse({ ...plain, elevationM: 1524 });
    expectWithinShare(high.fuelMJ.p50, low.fuelMJ.p50, 1e-6);
    expectWithinShare(low.minutesToBoil.p50 / high.minutesToBoil.p50, 0.9122, 0.001);
  });
});

everyCheckValueIsSettled();
