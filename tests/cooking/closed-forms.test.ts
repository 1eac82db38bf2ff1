/** Closed forms of soaking, softening and the box against numerical integration of what they stand for. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import {
  boxCookValue,
  boxTemperatureC,
  cookValue,
  minutesToCoolTo,
  releaseCookValue,
} from '../../api/cooking/kinetics/cook-value.ts';
import {
  arrheniusInverse,
  hoursToShare,
  hydrationShare,
  k1AtC,
  pelegUptake,
  type SoakHistory,
  soakNumbers,
  soakTemperatureC,
  soakUptake,
} from '../../api/cooking/kinetics/hydration-kinetics.ts';
import { activationFromZ, timeFactor, zFromActivation } from '../../api/cooking/kinetics/softening-kinetics.ts';
import { rungeKutta, simpson } from '../physics/integrate.ts';

const RUNS = { numRuns: 60 };
const soaked = Object.values(FOODS).filter((food) => food.soak !== null);
const anySoaked = fc.constantFrom(...soaked.map((food) => food.id));
/** The plain numbers of a food's soak, from the first drop on. */
const soakOf = (foodId: string) => {
  const soak = FOODS[foodId]?.soak;
  if (soak === null || soak === undefined) throw new Error(`no soak: ${foodId}`);
  return { ...soakNumbers(soak), lagHours: 0 };
};

describe('soak', () => {
  it('a soak that cools is the differential form of Peleg’s relation, d(dM)/dt = (1 - k2 dM)^2 / k1(T(t))', () => {
    fc.assert(
      fc.property(
        anySoaked,
        fc.double({ min: 0.25, max: 12, noNaN: true }),
        fc.double({ min: 60, max: 98, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (foodId, hours, waterC, airC) => {
          const soak = soakOf(foodId);
          const history: SoakHistory = { start: 'hot', hours, waterC, airC };
          const rate = (t: number, uptake: number) =>
            (1 - soak.k2 * uptake) ** 2 / k1AtC(soak, soakTemperatureC(history, t));
          const integrated = rungeKutta(rate, 0, 0, hours, 3000);
          // 0.4 %, beside a tenth between lots: 32 panels across the break of the activation energy.
          expect(Math.abs(soakUptake(soak, history) / integrated - 1), foodId).toBeLessThan(0.004);
        },
      ),
      RUNS,
    );
  });

  it('at one temperature it is Peleg’s relation, and that solves the same equation', () => {
    fc.assert(
      fc.property(
        anySoaked,
        fc.double({ min: 0.1, max: 24, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        (foodId, hours, waterC) => {
          const soak = soakOf(foodId);
          const k1 = k1AtC(soak, waterC);
          const integrated = rungeKutta((_t, uptake) => (1 - soak.k2 * uptake) ** 2 / k1, 0, 0, hours, 2000);
          expect(pelegUptake(hours, k1, soak.k2)).toBeCloseTo(integrated, 6);
          expect(soakUptake(soak, { start: 'cool', hours, waterC })).toBeCloseTo(integrated, 6);
        },
      ),
      RUNS,
    );
  });

  it('k1 over breaks of the activation energy is the integral of Ea/(R T^2)', () => {
    for (const food of soaked) {
      const soak = soakNumbers(food.soak as NonNullable<typeof food.soak>);
      for (const waterC of [2, 12, 35, 75, 98]) {
        const energyAt = (t: number) =>
          (soak.activation.find((range) => t <= range.upToC) ?? soak.activation.at(-1))?.kJPerMol as number;
        const exponent = simpson((t) => energyAt(t) / (8.314e-3 * (t + 273.15) ** 2), soak.referenceC, waterC, 20000);
        // A thousandth: Simpson's rule steps over the breaks.
        expect(Math.abs(k1AtC(soak, waterC) / (soak.k1Hours * Math.exp(-exponent)) - 1), food.id).toBeLessThan(0.001);
      }
    }
  });

  it('the hours to a share are found again by halving', () => {
    for (const food of soaked) {
      const soak = soakNumbers(food.soak as NonNullable<typeof food.soak>);
      let low = 0;
      let high = 2000;
      for (let i = 0; i < 60; i += 1) {
        const middle = (low + high) / 2;
        if (hydrationShare(soak, { start: 'cool', hours: middle, waterC: 8 }) < 0.8) low = middle;
        else high = middle;
      }
      expect(hoursToShare(soak, 0.8, 8), food.id).toBeCloseTo(high, 6);
    }
  });
});

describe('temperature dependence', () => {
  it('z over a range is Arrhenius’ energy between its ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 200, noNaN: true }),
        fc.double({ min: 60, max: 98, noNaN: true }),
        fc.double({ min: 100, max: 127, noNaN: true }),
        (kJPerMol, fromC, toC) => {
          const z = zFromActivation(kJPerMol, fromC, toC);
          const byEnergy = arrheniusInverse(1, toC, kJPerMol, fromC);
          expect(Math.abs(10 ** ((toC - fromC) / z) / byEnergy - 1)).toBeLessThan(1e-9);
          expect(activationFromZ(z, fromC, toC)).toBeCloseTo(kJPerMol, 9);
        },
      ),
      RUNS,
    );
  });
});

/** Ei(x) less its constant, by its power series. */
function exponentialIntegral(x: number): number {
  let sum = Math.log(x);
  let term = 1;
  for (let n = 1; n < 120; n += 1) {
    term *= x / n;
    sum += term / n;
  }
  return sum;
}

describe('cook value', () => {
  /** tau 10^((Ta-100)/z) [Ei(b) - Ei(b e^(-t/tau))], b = ln10 (T0 - Ta)/z. */
  const closedForm = (startC: number, airC: number, timeConstantHours: number, minutes: number, z: number): number => {
    const tau = timeConstantHours * 60;
    const b = (Math.LN10 * (startC - airC)) / z;
    const fall = exponentialIntegral(b) - exponentialIntegral(b * Math.exp(-minutes / tau));
    return tau * 10 ** ((airC - 100) / z) * fall;
  };
  // Towels keep a pot for 4 h, a vacuum vessel for 30.
  it.each([
    [-300, 0.003, '0.3 %: 64 panels over a long fall that is steep at first'],
    [61, 1e-4, 'grains: the panels end where the credit does'],
    [70, 1e-4, 'pulses: the same'],
  ])('of a box is the closed form with the exponential integral; cut off at %d C within %d (%s)', (cutOffC, share) => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 30, noNaN: true }),
        fc.double({ min: 10, max: 720, noNaN: true }),
        fc.double({ min: 80, max: 100, noNaN: true }),
        fc.double({ min: -10, max: 30, noNaN: true }),
        fc.double({ min: 15, max: 40, noNaN: true }),
        (timeConstantHours, minutes, startC, airC, z) => {
          const box = { startC, airC, timeConstantHours, minutes, zBelow: z, zAbove: z, cutOffC };
          const end = Math.min(minutes, minutesToCoolTo(cutOffC, startC, airC, timeConstantHours));
          const closed = closedForm(startC, airC, timeConstantHours, end, z);
          expect(Math.abs(boxCookValue(box) / closed - 1)).toBeLessThan(share);
        },
      ),
      RUNS,
    );
  });

  it('of a box with a cut-off ends where the box passes it', () => {
    const box = { startC: 96, airC: 12, timeConstantHours: 7, minutes: 600, zBelow: 19, zAbove: 19, cutOffC: 70 };
    const end = minutesToCoolTo(70, 96, 12, 7);
    expect(end).toBeLessThan(600);
    const fine = simpson((t) => 10 ** ((boxTemperatureC(96, 12, 7, t) - 100) / 19), 0, end);
    expect(Math.abs(boxCookValue(box) / fine - 1)).toBeLessThan(1e-5);
  });

  it('of a release is the integral over a linear fall', () => {
    for (const [fromC, minutes, z] of [
      [121, 10, 19],
      [115.8, 12, 22],
      [108.4, 6, 50],
    ] as const) {
      const fine = simpson((t) => 10 ** ((fromC - ((fromC - 100) * t) / minutes - 100) / z), 0, minutes);
      expect(releaseCookValue(fromC, minutes, z)).toBeCloseTo(fine, 8);
    }
  });

  it('of readings is the integral over the straight lines between them, with two z and a cut-off', () => {
    const readings = [
      { minutes: 0, temperatureC: 40 },
      { minutes: 12, temperatureC: 100 },
      { minutes: 18, temperatureC: 118 },
      { minutes: 40, temperatureC: 118 },
      { minutes: 55, temperatureC: 85 },
      { minutes: 90, temperatureC: 60 },
    ];
    const at = (t: number): number => {
      const i = readings.findIndex((reading) => reading.minutes > t);
      const b = readings[i === -1 ? readings.length - 1 : i] as (typeof readings)[number];
      const a = readings[(i === -1 ? readings.length - 1 : i) - 1] as (typeof readings)[number];
      return a.temperatureC + ((t - a.minutes) / (b.minutes - a.minutes)) * (b.temperatureC - a.temperatureC);
    };
    const rate = (t: number) => (at(t) < 70 ? 0 : 1 / timeFactor(at(t), 19, 22));
    // 0.02 %: the rule steps over kinks and the cut-off.
    expect(Math.abs(cookValue(readings, 19, 22, 70) / simpson(rate, 0, 90, 200000) - 1)).toBeLessThan(2e-4);
  });
});
