/** Closed forms and fits of the physics against numerical integration of what they stand for. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { resolveFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { airPressureKPa } from '../../api/physics/atmosphere.ts';
import { saturationPressureKPa } from '../../api/physics/boiling-point.ts';
import { cylinderCoolingK } from '../../api/physics/cold-fuel.ts';
import { lognormalP90Factor } from '../../api/physics/parameter.ts';
import {
  heatUpSurfaceW,
  LEAK_BELOW_THE_BOIL,
  LEAK_SHARE,
  openEvaporationW,
  plateConvectionWPerM2K,
} from '../../api/physics/pot-heat-loss.ts';
import { boxHeatFlowWPerK, cooledTemperatureC, hoursAboveC } from '../../api/physics/retained-heat.ts';
import { celsiusToKelvin } from '../../api/physics/units.ts';
import { vesselShape } from '../../api/physics/vessel-geometry.ts';
import { flashShare, latentHeatKJPerKg, waterHeatKJ } from '../../api/physics/water-properties.ts';
import { rungeKutta, simpson } from './integrate.ts';

const RUNS = { numRuns: 60 };

describe('air and water', () => {
  it('air pressure is the integral of the weight of air that cools by 6.5 K/km: dp/dh = -p g M/(R T)', () => {
    for (const elevationM of [-430, 500, 1500, 3000, 5000, 9000]) {
      const weight = (h: number, p: number) => (-p * 9.80665 * 0.0289644) / (8.31432 * (288.15 - 0.0065 * h));
      const integrated = rungeKutta(weight, 101.325, 0, elevationM);
      expect(Math.abs(airPressureKPa(elevationM) / integrated - 1), `${elevationM} m`).toBeLessThan(1e-7);
    }
  });

  it('latent heat follows from the slope of the saturation line (Clausius and Clapeyron)', () => {
    // h = T (vg - vl) dp/dT with steam as a gas 1.5 % short of ideal at 100 C (Z 0.985, about 1 - 0.015 p/101 kPa).
    for (const t of [80, 90, 100, 110, 120]) {
      const slope = (saturationPressureKPa(t + 0.05) - saturationPressureKPa(t - 0.05)) / 0.1;
      const p = saturationPressureKPa(t);
      const kelvin = celsiusToKelvin(t);
      const steamM3PerKg = ((1 - (0.015 * p) / 101.325) * 0.461526 * kelvin) / p;
      // 0.7 %: what is left of the gas law.
      expect(Math.abs(latentHeatKJPerKg(t) / (kelvin * (steamM3PerKg - 0.00104) * slope) - 1), `${t} C`).toBeLessThan(
        0.007,
      );
    }
  });

  it('the heat of water is the integral of its specific heat', () => {
    // IAPWS-95, kJ/(kg K), every 10 C from 0 to 100 (100 as at 99.9).
    const table = [4.219, 4.195, 4.184, 4.18, 4.179, 4.181, 4.185, 4.19, 4.197, 4.205, 4.216];
    const at = (t: number): number => {
      const i = Math.min(9, Math.floor(t / 10));
      return (table[i] as number) + ((t - 10 * i) / 10) * ((table[i + 1] as number) - (table[i] as number));
    };
    // 0.3 %: one value, 4.19, for the whole way.
    for (const [from, to] of [
      [5, 100],
      [20, 95],
      [20, 90],
      [60, 100],
    ] as const)
      expect(Math.abs(waterHeatKJ(1, from, to) / simpson(at, from, to) - 1)).toBeLessThan(0.003);
  });

  it('what flashes off is the integral of cooling by boiling: dm/m = c dT / h', () => {
    for (const [from, to] of [
      [121, 100],
      [115.8, 90],
      [105, 100],
    ] as const) {
      const left = Math.exp(-simpson((t) => 4.22 / latentHeatKJPerKg(t), to, from));
      // 1.5 % of the share and 0.05 % of the water: one step with mean values instead of many.
      expect(Math.abs(flashShare(from, to) - (1 - left))).toBeLessThan(0.0005 + 0.025 * (1 - left));
    }
  });
});

describe('cooling', () => {
  it('is Newton’s law integrated, and the hours to a limit are the time it takes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 40, noNaN: true }),
        fc.double({ min: 0.2, max: 12, noNaN: true }),
        fc.double({ min: -20, max: 30, noNaN: true }),
        (tau, hours, airC) => {
          const integrated = rungeKutta((_t, y) => (airC - y) / tau, 95, 0, hours, 400);
          expect(cooledTemperatureC(95, airC, hours, tau)).toBeCloseTo(integrated, 5);
          // dt = tau dT / (T - Ta).
          expect(hoursAboveC(60, 95, airC, tau)).toBeCloseTo(
            simpson((t) => tau / (t - airC), 60, 95),
            6,
          );
        },
      ),
      RUNS,
    );
  });

  it('the mean excess over the air is the logarithmic mean of its ends', () => {
    const tau = 8;
    const end = cooledTemperatureC(95, 15, 5, tau);
    const mean = simpson((t) => cooledTemperatureC(95, 15, t, tau) - 15, 0, 5) / 5;
    expect(mean).toBeCloseTo((95 - end) / Math.log((95 - 15) / (end - 15)), 8);
  });

  it('a shell conducts by the geometric mean of its faces: within 7 % of the integral over its layers', () => {
    for (const capacityL of [2, 4, 8])
      for (const mm of [25, 50, 100]) {
        const shape = vesselShape(capacityL);
        const area = (x: number) => {
          const d = shape.diameterM + 2 * x;
          return Math.PI * d * (shape.heightM + 2 * x) + (Math.PI * d * d) / 2;
        };
        const t = mm / 1000;
        const resistance = simpson((x) => 1 / (0.04 * area(x)), 0, t) + 1 / (8 * area(t));
        expect(Math.abs(boxHeatFlowWPerK(shape, mm, 0.04, 1) * resistance - 1)).toBeLessThan(0.07);
      }
  });

  it('a gas cylinder cools by its heat balance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 1, max: 90, noNaN: true }),
        fc.double({ min: 0.3, max: 0.6, noNaN: true }),
        (powerKW, minutes, ua) => {
          const rate = (_s: number, fallen: number) => ((powerKW / 46350) * 370000 - ua * fallen) / 1500;
          expect(cylinderCoolingK(powerKW, minutes, ua)).toBeCloseTo(rungeKutta(rate, 0, 0, minutes * 60, 400), 6);
        },
      ),
      RUNS,
    );
  });
});

describe('spread', () => {
  it('nine tenths of a log-normal quantity lie below its P90 factor', () => {
    for (const cv of [0.05, 0.15, 0.3, 0.6]) {
      const sigma = Math.sqrt(Math.log(1 + cv * cv));
      const density = (x: number) => Math.exp(-((Math.log(x) / sigma) ** 2) / 2) / (x * sigma * Math.sqrt(2 * Math.PI));
      const below = simpson(density, Math.exp(-8 * sigma), lognormalP90Factor(cv), 20000);
      expect(below, `${cv}`).toBeCloseTo(0.9, 6);
      // And the spread that it was made from is its own.
      const moment = (k: number) =>
        simpson((x) => x ** k * density(x), Math.exp(-8 * sigma), Math.exp(9 * sigma), 40000);
      const mean = moment(1);
      expect(Math.sqrt(moment(2) - mean * mean) / mean, `${cv}`).toBeCloseTo(cv, 4);
    }
  });
});

describe('heating up', () => {
  const base: FuelUseQuestion = {
    stove: { typeId: 'lpg-home' },
    fuelId: 'propane',
    vessel: { kind: 'pot', capacityL: 6, lid: 'snug' },
    waterL: 4,
    startC: 5,
    airC: 15,
    elevationM: 1500,
    wind: 'still',
    holdMinutes: 0,
  };
  // Share: the error of three nodes, larger where the loss nears what the flame brings.
  it.each<[string, Partial<FuelUseQuestion>, number]>([
    ['a lidded pot on gas', {}, 0.002],
    ['an open pot on gas', { vessel: { kind: 'pot', capacityL: 6, lid: 'none' } }, 0.005],
    [
      'an open wide pot on a small flame',
      {
        stove: { typeId: 'lpg-home', powerKW: 1.6 },
        vessel: { kind: 'pot', capacityL: 6, diameterMm: 280, lid: 'none' },
      },
      0.03,
    ],
    [
      'a loose lid on an open fire in the cold',
      {
        stove: { typeId: 'three-stone' },
        fuelId: 'wood',
        airC: -15,
        vessel: { kind: 'pot', capacityL: 6, lid: 'loose' },
      },
      0.005,
    ],
  ])('%s: three nodes against a pot stepped through time', (_name, change, share) => {
    const { task, typical, parameters } = resolveFuelUse({ ...base, ...change });
    const q = { ...base, ...change };
    const vessel = q.vessel as { capacityL: number; diameterMm?: number; lid?: 'none' | 'loose' | 'snug' };
    const shape = vesselShape(vessel.capacityL, vessel.diameterMm);
    const open = vessel.lid === 'none';
    const lossKW = (t: number): number => {
      const vapour = openEvaporationW(shape.baseM2, t, q.airC) / 1000;
      const surface =
        (shape.baseM2 * plateConvectionWPerM2K(shape.diameterM, t, q.airC) * Math.max(0, t - q.airC)) / 1000;
      return open
        ? parameters['open pot'].value * (vapour + surface)
        : LEAK_BELOW_THE_BOIL * LEAK_SHARE[vessel.lid as 'loose' | 'snug'].value * vapour +
            heatUpSurfaceW(shape, t, q.airC, true, parameters['pot surface'].value) / 1000;
    };
    const heatCapacityKJPerK = (task.contentsKJ + task.potKJ) / (task.endC - q.startC);
    // Explicit steps of one second until the pot boils.
    let temperatureC = q.startC;
    let seconds = 0;
    while (temperatureC < task.endC && seconds < 1e5) {
      temperatureC += (typical.intoPotKW - lossKW(temperatureC)) / heatCapacityKJPerK;
      seconds += 1;
    }
    const minutes = seconds / 60 / task.powerShare;
    expect(Math.abs(typical.heatUpMinutes / minutes - 1), `${typical.heatUpMinutes} against ${minutes}`).toBeLessThan(
      share,
    );
  });
});
