/** Loss of pots, retained heat and whole-task benchmarks against values as published. */
import { describe, expect, it } from 'vitest';
import { answerFuelUse } from '../../api/cooking/answer-fuel-use.ts';
import { fillLimitShare } from '../../api/cooking/vessel-fill.ts';
import { saturationPressureKPa } from '../../api/physics/boiling-point.ts';
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
import { mjToKWh, rValueToM2KPerW } from '../../api/physics/units.ts';
import { type VesselShape, vesselMassKg, vesselShape } from '../../api/physics/vessel-geometry.ts';
import { VESSEL_MATERIALS } from '../../api/physics/vessel-materials-table.ts';
import { latentHeatKJPerKg, waterHeatKJ } from '../../api/physics/water-properties.ts';

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

describe('heat loss from open water tanks (engineering table, rough by its own words)', () => {
  it.each([
    [98.9, 16.2, 10.2],
    [93.3, 13.3, 8.454],
    [82.2, 8.57, 5.489],
    [71.1, 5.35, 3.47],
    [65.6, 4.16, 2.71],
    [60, 3.18, 2.082],
  ])('water at %d C in air at 15.6 C evaporates %d kg/m2h', (waterC, kg, kW) => {
    // The coefficient of the relation is 0.167 to 0.170 over the rows.
    expect(Math.abs(evaporationKgPerM2H(waterC, 15.6) / kg - 1)).toBeLessThan(0.04);
    expect(Math.abs(openEvaporationW(1, waterC, 15.6) / 1000 / kW - 1)).toBeLessThan(0.04);
  });

  it.each([
    [48.9, 1.71],
    [37.8, 0.75],
  ])('below 55 C it follows the table, not the relation: %d C gives %d', (waterC, kg) => {
    expect(Math.abs(evaporationKgPerM2H(waterC, 15.6) / kg - 1)).toBeLessThan(0.04);
    // The relation for hot water would give 27 % too much at 38 C.
    const hotRelation = 0.168 * (saturationPressureKPa(waterC) - 0.5 * saturationPressureKPa(15.6));
    expect(hotRelation).toBeGreaterThan(evaporationKgPerM2H(waterC, 15.6));
  });

  it('a dark bare wall of 0.15 m at 98.9 C loses 13.6 W/m2K', () => {
    const h = wallConvectionWPerM2K(0.15, 98.9, 15.6) + 0.9 * blackRadiationWPerM2K(98.9, 15.6);
    expect(Math.abs(h / 13.6 - 1)).toBeLessThan(0.1);
  });

  it('agrees with the short forms for air: 1.42 (dT/H)^0.25 and 1.32 (dT/(D/4))^0.25', () => {
    for (const height of [0.1, 0.14, 0.18])
      expect(Math.abs(wallConvectionWPerM2K(height, 100, 20) / (1.42 * (80 / height) ** 0.25) - 1)).toBeLessThan(0.06);
    for (const diameter of [0.16, 0.2, 0.26])
      expect(
        Math.abs(plateConvectionWPerM2K(diameter, 95, 20) / (1.32 * (75 / (diameter / 4)) ** 0.25) - 1),
      ).toBeLessThan(0.05);
  });
});

describe('a pot held at the boil', () => {
  it.each([
    ['2 L', 20, 78, 268],
    ['4 L', 20, 120, 417],
    ['6 L', 20, 160, 591],
    ['2 L', 0, 95, 285],
    ['4 L', 0, 146, 443],
    ['6 L', 0, 194, 625],
  ] as const)('%s in air at %d C loses %d W lidded and %d W open', (name, airC, lidded, open) => {
    expect(Math.abs(loss(name, 'snug', airC) / lidded - 1)).toBeLessThan(0.08);
    expect(Math.abs(loss(name, 'none', airC) / open - 1)).toBeLessThan(0.08);
  });

  it('cold air costs a lidded pot 22 % and an open one 6 %', () => {
    expect(Math.abs(loss('4 L', 'snug', 0) / loss('4 L', 'snug', 20) - 1.22)).toBeLessThan(0.04);
    expect(Math.abs(loss('4 L', 'none', 0) / loss('4 L', 'none', 20) - 1.06)).toBeLessThan(0.04);
  });

  it('soot and altitude: 164 / 439 W at emissivity 0.9, 104 / 338 W at 93.4 C', () => {
    expect(Math.abs(loss('4 L', 'snug', 20, 100, 0.9) / 164 - 1)).toBeLessThan(0.08);
    expect(Math.abs(loss('4 L', 'none', 20, 100, 0.9) / 439 - 1)).toBeLessThan(0.08);
    expect(Math.abs(loss('4 L', 'snug', 20, 93.4) / 104 - 1)).toBeLessThan(0.08);
    expect(Math.abs(loss('4 L', 'none', 20, 93.4) / 338 - 1)).toBeLessThan(0.08);
  });

  it('an open 4 L pot boils off 0.53 kg an hour', () => {
    const kg = evaporationKgPerM2H(100, 20) * POTS['4 L'].baseM2;
    expect(Math.abs(kg / 0.53 - 1)).toBeLessThan(0.08);
    expect(latentHeatKJPerKg(100) * (kg / 3.6)).toBeGreaterThan(300);
  });

  it.each([
    ['2 L', 67],
    ['4 L', 102],
    ['6 L', 132],
  ] as const)('%s pressure cooker at 117 C that does not vent loses %d W at emissivity 0.2', (name, printed) => {
    const watts = dryLossW(potLossParts(POTS[name], 2 / 3, 117, 20), 0.2, true);
    expect(Math.abs(watts / printed - 1)).toBeLessThan(0.08);
  });

  it.each(['2 L', '4 L', '6 L'] as const)('a lid saves 60 to 76 % of the simmer heat of %s', (name) => {
    const saved = 1 - loss(name, 'snug', 20) / loss(name, 'none', 20);
    expect(saved).toBeGreaterThan(0.6);
    expect(saved).toBeLessThan(0.76);
  });

  it('MacKay: a litre on a strong gas flame takes 1.055 times as long without a lid (305 s against 289 s)', () => {
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
    // Range of the page: 1.03 to 1.10; the small pot on a large flame here brings it to the upper half.
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
    expect(Math.abs(vesselShape(capacityL).diameterM * 100 - printedCm)).toBeLessThan(0.55);
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
      expect(Math.abs(kg / (masses[i] as number) - 1)).toBeLessThan(0.05);
    });
  });

  it('makers’ manuals: a 6 L pressure cooker takes 3 L of beans, 4 L of other food', () => {
    expect(6 * fillLimitShare('pressure-cooker', true)).toBeCloseTo(3, 9);
    expect(6 * fillLimitShare('pressure-cooker', false)).toBeCloseTo(4, 9);
  });
});

describe('retained heat', () => {
  it('Still 2005: 5 L that stay above 90 C for 90 min need 11.2 h and 0.53 W/K', () => {
    const tau = timeConstantFromReading(100, 90, 1.5, 20);
    expect(Math.abs(tau / 11.2 - 1)).toBeLessThan(0.02);
    // UA = C / tau with 5 L of water and a steel pot of 1 kg.
    expect(Math.abs(((5 * 4.19 + 0.5) * 1000) / (tau * 3600) / 0.53 - 1)).toBeLessThan(0.02);
  });

  it('home box: 7.2 h leave 45 C after 8 h from 100 C in air at 18 C', () => {
    expect(Math.abs(cooledTemperatureC(100, 18, 8, 7.2) - 45)).toBeLessThan(1);
  });

  it('picnic box: 10 L at 60 C with 20 h lose 1.0 K in half an hour', () => {
    expect(Math.abs(60 - cooledTemperatureC(60, 20, 0.5, 20) - 1)).toBeLessThan(0.05);
  });

  it.each([
    [15, 20, 9.4],
    [15, 0, 6.9],
    [7, 20, 4.4],
    [7, 0, 3.2],
    [11.2, 20, 7.0],
    [20, 20, 12.6],
  ])('from 95 C with %d h in air at %d C it stays above 60 C for %d h', (tau, airC, printed) => {
    expect(Math.abs(hoursAboveC(60, 95, airC, tau) - printed)).toBeLessThan(0.06);
  });

  it('R-7 in US units is 1.233 m2K/W', () => {
    expect(Math.abs(rValueToM2KPerW(7) / 1.233 - 1)).toBeLessThan(0.001);
    // 49 mm at 0.040 W/(m K)
    expect(Math.abs(rValueToM2KPerW(7) * 0.04 * 1000 - 49)).toBeLessThan(0.5);
  });

  it.each([
    ['2 L', 50, 0.036, 8.7],
    ['4 L', 50, 0.036, 12.0],
    ['6 L', 50, 0.036, 14.1],
    ['4 L', 25, 0.045, 6.5],
    ['4 L', 50, 0.045, 9.7],
    ['4 L', 100, 0.06, 10.3],
    ['4 L', 100, 0.036, 17.0],
  ] as const)('%s in %d mm of %d W/mK at build factor 2: %d h', (name, mm, k, printed) => {
    const capacityL = POTS[name].capacityL;
    const heat = 0.8 * capacityL * 4.0 + 0.2 * capacityL * 0.5;
    const tau = timeConstantHours(heat, boxHeatFlowWPerK(POTS[name], mm, k, 2));
    // The heat of the pot behind the printed table is not stated: 5 %.
    expect(Math.abs(tau / printed - 1)).toBeLessThan(0.05);
  });

  it('4 L in 50 mm foam at build factor 2 lose 0.31 W/K', () => {
    expect(Math.abs(boxHeatFlowWPerK(POTS['4 L'], 50, 0.036, 2) / 0.31 - 1)).toBeLessThan(0.05);
  });
});

describe('whole tasks', () => {
  it('a litre from 20 to 100 C takes 335 kJ', () => {
    expect(Math.abs(waterHeatKJ(1, 20, 100) / 335 - 1)).toBeLessThan(0.01);
  });

  it('a litre on a coil plate at 54 % takes 0.172 kWh', () => {
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
    expect(Math.abs(mjToKWh(answer.fuelMJ.p50) / 0.172 - 1)).toBeLessThan(0.05);
    expect(answer.fuelKg).toBeNull();
  });

  it('ETHOS 2006: 5 L boiled and simmered open for 45 min at 19 % take 0.86 kg dry wood', () => {
    const shape = pot(24, 15.5);
    const simmerMJ = (potLossW(potLossParts(shape, 5 / 7, 97, 25), 0.3, 'none') * 45 * 60) / 1e6;
    const usefulMJ = waterHeatKJ(5, 25, 100) / 1000 + simmerMJ;
    expect(Math.abs(usefulMJ / 0.19 / 18.5 / 0.86 - 1)).toBeLessThan(0.08);
  });

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
    expect(Math.abs(answer.floorMJ * 1000 - (printed - 4))).toBeLessThan(3);
  });

  it('QM 6322 washing-up line: 4 people take 18 L and 3.3 MJ a meal', () => {
    const perPerson = [46, 54, 77].reduce((sum, c) => sum + waterHeatKJ(1.51, 15, c), 0);
    expect(Math.abs((4 * 3 * 1.51) / 18 - 1)).toBeLessThan(0.05);
    expect(Math.abs((4 * perPerson) / 1000 / 3.3 - 1)).toBeLessThan(0.05);
  });
});
