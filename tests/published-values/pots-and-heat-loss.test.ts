/**
 * Loss of pots, retained heat and whole-task benchmarks against values as published, typed as printed. Watts of pots are
 * evaluated from published relations: walls Churchill and Chu 1975, lids McAdams (Heat Transmission), evaporation from
 * the open tanks table. The reason for each tolerance stands beside it.
 */
import { describe, expect, it } from 'vitest';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import { contentsVolumeL, fillLimitShare } from '../../api/cooking/dishes/vessel-fill.ts';
import { HOUSEHOLD_DEFAULTS } from '../../api/cooking/household/resolve-household.ts';
import { saturationPressureKPa } from '../../api/physics/boiling-point.ts';
import { INSULATION_MATERIALS } from '../../api/physics/insulation-table.ts';
import {
  blackRadiationWPerM2K,
  dryLossW,
  evaporationKgPerM2H,
  openEvaporationW,
  plateConvectionWPerM2K,
  potLossParts,
  potLossW,
  wallConvectionWPerM2K,
} from '../../api/physics/pot-heat-loss.ts';
import {
  boxHeatFlowWPerK,
  cooledTemperatureC,
  hoursAboveC,
  timeConstantFromReading,
  timeConstantHours,
} from '../../api/physics/retained-heat.ts';
import { gallonsToLitres, mjToKWh, rValueToM2KPerW } from '../../api/physics/units.ts';
import { type VesselShape, vesselMassKg, vesselShape } from '../../api/physics/vessel-geometry.ts';
import { VESSEL_MATERIALS } from '../../api/physics/vessel-materials-table.ts';
import { latentHeatKJPerKg, waterHeatKJ } from '../../api/physics/water-properties.ts';
import { checkValuesOf, expectNear, expectWithinShare } from './check-values.ts';

const { checkValue, everyCheckValueIsSettled } = checkValuesOf('pots-and-heat-loss');

/** A pot of stated diameter and height, cm. */
function pot(diameterCm: number, heightCm: number): VesselShape {
  const d = diameterCm / 100;
  const h = heightCm / 100;
  const base = (Math.PI * d * d) / 4;
  return { capacityL: base * h * 1000, diameterM: d, heightM: h, baseM2: base, sideM2: Math.PI * d * h };
}
const POTS = { '2 L': pot(16, 10), '4 L': pot(20, 12.7), '6 L': pot(24, 13.3) } as const;
const loss = (name: keyof typeof POTS, lid: 'none' | 'snug', airC: number, waterC = 100, emissivity = 0.3): number =>
  potLossW(potLossParts(POTS[name], 2 / 3, waterC, airC), emissivity, lid);

/** Heat of pots: within 8 %, the digits of the evaluated figures and the temperature at which air is taken. */
const POT_SHARE = 0.08;

describe('"Heat loss from open water tanks", engineering table, Btu/ft2h (rough by its own words)', () => {
  for (const [numbers, waterC, kg, kW] of [
    [[1], 98.9, 16.2, 10.2],
    [[], 93.3, 13.3, 8.454],
    [[], 82.2, 8.57, 5.489],
    [[], 71.1, 5.35, 3.47],
    [[2], 65.6, 4.16, 2.71],
    [[], 60, 3.18, 2.082],
  ] as const) {
    const title = `water at ${waterC} C in air at 15.6 C evaporates ${kg} kg/m2h, ${kW} kW/m2`;
    const body = () => {
      // 4 %: the coefficient of the relation is 0.167 to 0.170 over the rows.
      expectWithinShare(evaporationKgPerM2H(waterC, 15.6), kg, 0.04);
      expectWithinShare(openEvaporationW(1, waterC, 15.6) / 1000, kW, 0.04);
    };
    if (numbers.length === 0) it(title, body);
    else checkValue(numbers, title, body);
  }

  for (const [waterC, kg, byRelation] of [
    [48.9, 1.71, null],
    [37.8, 0.75, 0.95],
  ] as const)
    checkValue(3, `below 55 C it follows the table, not the relation: ${kg} kg/m2h at ${waterC} C`, () => {
      expectWithinShare(evaporationKgPerM2H(waterC, 15.6), kg, 0.04);
      // The relation for hot water would give 27 % too much at 38 C (air at half its saturation).
      const hotRelation = 0.168 * (saturationPressureKPa(waterC) - 0.5 * saturationPressureKPa(15.6));
      expect(hotRelation).toBeGreaterThan(evaporationKgPerM2H(waterC, 15.6));
      if (byRelation !== null) expectNear(hotRelation, byRelation, 0.01);
    });

  checkValue(4, 'the same table, bare tank wall at 98.9 C: 13.6 W/m2K (0.15 m high, emissivity 0.9)', () => {
    const h = wallConvectionWPerM2K(0.15, 98.9, 15.6) + 0.9 * blackRadiationWPerM2K(98.9, 15.6);
    // 10 %: the height of the tank behind the table is not stated.
    expectWithinShare(h, 13.6, 0.1);
  });

  it('agrees with the short forms for air: 1.42 (dT/H)^0.25 and 1.32 (dT/(D/4))^0.25', () => {
    for (const height of [0.1, 0.14, 0.18])
      expectWithinShare(wallConvectionWPerM2K(height, 100, 20), 1.42 * (80 / height) ** 0.25, 0.06);
    for (const diameter of [0.16, 0.2, 0.26])
      expectWithinShare(plateConvectionWPerM2K(diameter, 95, 20), 1.32 * (75 / (diameter / 4)) ** 0.25, 0.05);
  });
});

describe('a pot held at the boil', () => {
  for (const [name, airC, lidded, open] of [
    ['2 L', 20, 78, 268],
    ['4 L', 20, 120, 417],
    ['6 L', 20, 160, 591],
    ['2 L', 0, 95, 285],
    ['4 L', 0, 146, 443],
    ['6 L', 0, 194, 625],
  ] as const) {
    const title = `${name} in air at ${airC} C loses ${lidded} W lidded and ${open} W open (emissivity 0.3, leak 0.10)`;
    const body = () => {
      expectWithinShare(loss(name, 'snug', airC), lidded, POT_SHARE);
      expectWithinShare(loss(name, 'none', airC), open, POT_SHARE);
    };
    if (name === '4 L' && airC === 20) checkValue([5, 6], title, body);
    else it(title, body);
  }

  checkValue(7, 'air at 0 instead of 20 C costs a lidded pot x1.22 and an open one x1.06', () => {
    // 0.04: as for the watts, but of a ratio.
    expectNear(loss('4 L', 'snug', 0) / loss('4 L', 'snug', 20), 1.22, 0.04);
    expectNear(loss('4 L', 'none', 0) / loss('4 L', 'none', 20), 1.06, 0.04);
  });

  it('soot and altitude: 164 / 439 W at emissivity 0.9, 104 / 338 W at 93.4 C', () => {
    expectWithinShare(loss('4 L', 'snug', 20, 100, 0.9), 164, POT_SHARE);
    expectWithinShare(loss('4 L', 'none', 20, 100, 0.9), 439, POT_SHARE);
    expectWithinShare(loss('4 L', 'snug', 20, 93.4), 104, POT_SHARE);
    expectWithinShare(loss('4 L', 'none', 20, 93.4), 338, POT_SHARE);
  });

  checkValue(6, 'an open 4 L pot boils off 0.53 kg an hour', () => {
    const kg = evaporationKgPerM2H(100, 20) * POTS['4 L'].baseM2;
    expectWithinShare(kg, 0.53, POT_SHARE);
    expect(latentHeatKJPerKg(100) * (kg / 3.6)).toBeGreaterThan(300);
  });

  it.each([
    ['2 L', 67],
    ['4 L', 102],
    ['6 L', 132],
  ] as const)('%s pressure cooker at 117 C that does not vent loses %d W at emissivity 0.2', (name, printed) => {
    const watts = dryLossW(potLossParts(POTS[name], 2 / 3, 117, 20), 0.2, true);
    expectWithinShare(watts, printed, POT_SHARE);
  });

  for (const name of ['2 L', '4 L', '6 L'] as const)
    checkValue(
      8,
      `home weighing test 2011, evaporation open to lidded 4, so 0.75: a lid saves 0.60 to 0.76 on ${name}`,
      () => {
        const saved = 1 - loss(name, 'snug', 20) / loss(name, 'none', 20);
        expect(saved).toBeGreaterThan(0.6);
        expect(saved).toBeLessThan(0.76);
      },
    );

  checkValue(9, 'MacKay, Lidless: a litre on domestic gas 305 s open, 289 s lidded, x1.055', () => {
    const boil = (lid: 'none' | 'snug'): number =>
      answerFuelUse({
        stove: { typeId: 'lpg-home', powerKW: 3.2 },
        fuelId: 'propane',
        vessel: { kind: 'pot', capacityL: 1.5, lid },
        waterL: 1,
        startC: 20,
        airC: 20,
        elevationM: 0,
        wind: 'still',
        holdMinutes: 0,
      }).minutesToBoil.p50;
    expectNear(305 / 289, 1.055, 0.001);
    // 1.03 to 1.10: one pan, its volume inferred; the small pot on a large flame here brings it to the upper half.
    expect(boil('none') / boil('snug')).toBeGreaterThan(1.03);
    expect(boil('none') / boil('snug')).toBeLessThan(1.1);
  });
});

describe('size, mass and fill of pots', () => {
  it.each([
    [2, 16],
    [4, 20],
    [6, 23],
    [8, 26],
  ])('a pot of %d L is %d cm wide', (capacityL, printedCm) => {
    expectNear(vesselShape(capacityL).diameterM * 100, printedCm, 0.55);
  });

  it.each([
    ['aluminium', 1.0, [0.16, 0.26, 0.41, 0.53, 0.65]],
    ['aluminium', 2.0, [0.34, 0.54, 0.85, 1.1, 1.4]],
    ['stainless', 0.7, [0.53, 0.83, 1.3, 1.7, 2.1]],
    ['cast-iron', 4.5, [1.9, 3.1, 4.9, 6.4, 7.8]],
    ['titanium', 0.5, [0.14, 0.22, 0.35, 0.46, 0.55]],
  ] as const)('mass of %s pots of %d mm, 1 to 8 L', (material, wallMm, masses) => {
    [1, 2, 4, 6, 8].forEach((capacityL, i) => {
      const kg = vesselMassKg(vesselShape(capacityL), wallMm, VESSEL_MATERIALS[material]);
      // Two digits are printed, and fittings differ by size: 5 %.
      expectWithinShare(kg, masses[i] as number, 0.05);
    });
  });

  checkValue(25, 'two makers’ manuals (p. 6, p. 20), 1/2 and 2/3: 6 L take 3.0 L of beans, 4.0 L of other food', () => {
    expect(6 * fillLimitShare('pressure-cooker', true)).toBeCloseTo(3, 9);
    expect(6 * fillLimitShare('pressure-cooker', false)).toBeCloseTo(4, 9);
    // 1 kg of beans with 1 L left over from a soak fits; a quarter more does not.
    expect(contentsVolumeL(2, 1000)).toBeLessThan(3);
    expect(contentsVolumeL(2.3, 1000)).toBeGreaterThan(3);
  });
});

describe('retained heat', () => {
  checkValue(
    19,
    'Still 2005, design principles: 5 L above 90 C for 90 min from 100 C at 20 C, 11.2 h and 0.53 W/K',
    () => {
      const tau = timeConstantFromReading(100, 90, 1.5, 20);
      expectWithinShare(tau, 11.2, 0.02);
      // UA = C / tau with 5 L of water and a steel pot of 1 kg.
      expectWithinShare(((5 * 4.19 + 0.5) * 1000) / (tau * 3600), 0.53, 0.02);
    },
  );

  checkValue(
    20,
    'home polystyrene box (forum, one user): about 45 C after 8 h; 7.2 h from 100 C in air at 18 C',
    () => {
      expectNear(cooledTemperatureC(100, 18, 8, 7.2), 45, 1);
    },
  );

  checkValue(22, 'insulated picnic box, 10 L at 60 C (question page): 1 C per 30 min; 20 h in air at 20 C', () => {
    expectNear(60 - cooledTemperatureC(60, 20, 0.5, 20), 1, 0.05);
  });

  for (const [numbers, tau, airC, printed] of [
    [[23], 15, 20, 9.4],
    [[23], 15, 0, 6.9],
    [[], 7, 20, 4.4],
    [[], 7, 0, 3.2],
    [[], 11.2, 20, 7.0],
    [[], 20, 20, 12.6],
  ] as const) {
    const title = `tau ln((T0 - Ta)/(60 - Ta)): from 95 C, ${tau} h in air at ${airC} C stay above 60 C for ${printed} h`;
    const body = () => expectNear(hoursAboveC(60, 95, airC, tau), printed, 0.06);
    if (numbers.length === 0) it(title, body);
    else checkValue(numbers, title, body);
  }

  checkValue(21, 'R-7 (ft2hF/Btu; Still 2005) is 1.233 m2K/W, 49 mm at 0.040 W/mK', () => {
    expectWithinShare(rValueToM2KPerW(7), 1.233, 0.001);
    expectNear(rValueToM2KPerW(7) * 0.04 * 1000, 49, 0.5);
  });

  for (const [numbers, name, mm, k, printed] of [
    [[], '2 L', 50, 0.036, 8.7],
    [[24], '4 L', 50, 0.036, 12.0],
    [[], '6 L', 50, 0.036, 14.1],
    [[], '4 L', 25, 0.045, 6.5],
    [[], '4 L', 50, 0.045, 9.7],
    [[], '4 L', 100, 0.06, 10.3],
    [[], '4 L', 100, 0.036, 17.0],
  ] as const) {
    const title = `conduction through a shell, build factor 2: ${name} 80 % full in ${mm} mm of ${k} W/mK, ${printed} h`;
    const body = () => {
      const capacityL = POTS[name].capacityL;
      const heat = 0.8 * capacityL * 4.0 + 0.2 * capacityL * 0.5;
      const tau = timeConstantHours(heat, boxHeatFlowWPerK(POTS[name], mm, k, 2));
      // The heat of the pot behind the printed table is not stated: 5 %.
      expectWithinShare(tau, printed, 0.05);
    };
    if (numbers.length === 0) it(title, body);
    else checkValue(numbers, title, body);
  }

  checkValue(24, '4 L in 50 mm of moulded polystyrene (0.036, ASHRAE 2013) at build factor 2 lose 0.31 W/K', () => {
    expectWithinShare(
      boxHeatFlowWPerK(POTS['4 L'], 50, INSULATION_MATERIALS.eps.conductivityWPerMK.value, 2),
      0.31,
      0.05,
    );
  });
});

describe('whole tasks', () => {
  checkValue(11, 'a litre from 20 to 100 C takes 335 kJ (4.186 kJ/(kg K))', () => {
    // 1 %: with 4.19, and as a mass or a volume.
    expectWithinShare(waterHeatKJ(1, 20, 100), 335, 0.01);
  });

  checkValue(12, 'powersaving.co.za: a litre on an electric coil 0.1717 kWh, 54 %', () => {
    const answer = answerFuelUse({
      stove: { typeId: 'electric-plate', efficiency: 0.54, startUpMJ: 0 },
      fuelId: 'electricity',
      vessel: null,
      waterL: 1,
      startC: 20,
      endC: 100,
      airC: 20,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 0,
    });
    // 5 %: the start of 20 C is assumed.
    expectWithinShare(mjToKWh(answer.fuelMJ.p50), 0.172, 0.05);
    expect(answer.fuelKg).toBeNull();
  });

  checkValue(
    13,
    'Still et al., ETHOS 2006 benchmark: 5 L boiled and simmered 45 min below 850 g dry wood; 0.86 kg at 19 %',
    () => {
      const shape = pot(24, 15.5);
      const simmerMJ = (potLossW(potLossParts(shape, 5 / 7, 97, 25), 0.3, 'none') * 45 * 60) / 1e6;
      const usefulMJ = waterHeatKJ(5, 25, 100) / 1000 + simmerMJ;
      expectWithinShare(usefulMJ / 0.19 / 18.5, 0.86, POT_SHARE);
      expectWithinShare(usefulMJ / 0.19 / 18.5, 0.85, POT_SHARE);
    },
  );

  it.each([
    [1.2, 553],
    [3.0, 1156],
  ])('floor per kg dry beans with %d kg water is %d kJ less 4 kJ of gelatinisation', (water, printed) => {
    const answer = answerFuelUse({
      stove: { typeId: 'lpg-home' },
      fuelId: 'propane',
      vessel: { kind: 'pot', capacityL: 6, lid: 'snug' },
      waterL: water,
      foods: [{ foodId: 'pinto-bean', massG: 1000, specificHeatKJPerKgK: 1.84 }],
      startC: 20,
      endC: 100,
      airC: 20,
      elevationM: 0,
      wind: 'still',
      holdMinutes: 0,
    });
    // 4 kJ of gelatinisation are left out, and the end is 99.97 C.
    expectNear(answer.floorMJ * 1000, printed - 4, 3);
  });

  checkValue(
    26,
    'US Army QM 6322, mess-kit line: three 32 gal cans per 80 people, 4.5 L each; four take 18 L and 3.3 MJ',
    () => {
      const perCanL = gallonsToLitres(32) / 80;
      expectNear(perCanL, 1.51, 0.005);
      const perPersonKJ = [46, 54, 77].reduce((sum, celsius) => sum + waterHeatKJ(perCanL, 15, celsius), 0);
      // 5 %: printed to two digits.
      expectWithinShare(4 * 3 * perCanL, 18, 0.05);
      expectWithinShare((4 * perPersonKJ) / 1000, 3.3, 0.05);
      // Measured gap: a household is given 1 L a person and meal where nothing is said, 3.5 L less than this line, and no
      // heat. It stays: plates are wiped, washed warm and rinsed cold in an outage; the field line would cost as much heat as
      // a meal, and whoever washes so can say it.
      expectNear(3 * perCanL - (HOUSEHOLD_DEFAULTS.washingUpLPerPersonMeal as number), 3.5, 0.1);
    },
  );

  checkValue(
    27,
    'Ouma, Uganda (stoves list 2016): 12 kg beans a month with 288 kg charcoal a year, 2.0 kg per kg',
    () => {
      expectNear(288 / 12 / 12, 2.0, 1e-9);
      // A family's pot of 400 g, unsoaked, open, at the 1,200 m of the lake: the figure lies in the band.
      const answer = answerFuelUse({
        stove: { typeId: 'charcoal' },
        fuelId: 'charcoal',
        vessel: { kind: 'pot', capacityL: 5, lid: 'none' },
        waterL: 2.5,
        foods: [{ foodId: 'kidney-bean', massG: 400 }],
        startC: 20,
        airC: 20,
        elevationM: 1200,
        wind: 'still',
        holdMinutes: 150,
      });
      const perKg = (kg: number | undefined) => (kg ?? 0) / 0.4;
      expect(perKg(answer.fuelKg?.p10)).toBeLessThan(2.0);
      expect(perKg(answer.fuelKg?.p90)).toBeGreaterThan(2.0);
    },
  );
});

everyCheckValueIsSettled();
