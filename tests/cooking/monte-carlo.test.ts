/**
 * Low, typical and high of every calculator against a Monte Carlo of the same inputs: the parameters and the relation
 * that each calculator hands to `propagateSpread` are caught, and the relation is run at thousands of draws.
 */
import { describe, expect, it, vi } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import { answerFuelUse, resolveFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import type { FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { effectsOfThings } from '../../api/cooking/calculators/causes-of-spread.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
import { type HeatingValues, heatPot } from '../../api/physics/heating.ts';
import { type Parameter, Z_90 } from '../../api/physics/parameter.ts';
import { percentilesOf, propagateSpread, type SummandSpread, sumOfSpreads } from '../../api/physics/spread.ts';

interface Caught {
  parameters: Record<string, Parameter>;
  relation: (values: Record<string, number>) => Record<string, number>;
}
const { caught } = vi.hoisted(() => ({ caught: [] as Caught[] }));
vi.mock('../../api/physics/spread.ts', async (original) => {
  const real = await original<typeof import('../../api/physics/spread.ts')>();
  return {
    ...real,
    propagateSpread: (parameters: never, relation: never) => {
      caught.push({ parameters, relation });
      return real.propagateSpread(parameters, relation);
    },
  };
});

/** A small seeded generator (mulberry32), so that the test never wavers. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** A draw from the two-piece log-normal (normal where a percentile is not above 0) with the parameter's percentiles. */
function draw(p: Parameter, random: () => number): number {
  if (p.p10 === p.p90) return p.value;
  const steps = normal(random) / Z_90;
  const end = steps < 0 ? p.p10 : p.p90;
  return p.p10 > 0 ? p.value * (end / p.value) ** Math.abs(steps) : p.value + Math.abs(steps) * (end - p.value);
}

function percentile(sorted: readonly number[], share: number): number {
  return sorted[Math.round(share * (sorted.length - 1))] as number;
}

function bandOf(draws: number[]): { p10: number; p50: number; p90: number } {
  const sorted = draws.sort((a, b) => a - b);
  return { p10: percentile(sorted, 0.1), p50: percentile(sorted, 0.5), p90: percentile(sorted, 0.9) };
}

const DRAWS = 4000;

/** The band of one quantity of what was caught, by drawing. */
function drawn({ parameters, relation }: Caught, quantity: string, seed: number): ReturnType<typeof bandOf> {
  const random = generator(seed);
  const names = Object.keys(parameters);
  return bandOf(
    Array.from({ length: DRAWS }, () => {
      const values: Record<string, number> = {};
      for (const name of names) values[name] = draw(parameters[name] as Parameter, random);
      return relation(values)[quantity] as number;
    }),
  );
}

function lastCaught(): Caught {
  return caught.at(-1) as Caught;
}

const GAS: FuelUseQuestion = {
  stove: { typeId: 'propane-camp' },
  fuelId: 'propane',
  vessel: { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
  waterL: 3,
  startC: 8,
  airC: 0,
  elevationM: 1500,
  wind: 'screened',
  holdMinutes: 30,
};

/**
 * One-at-a-time steps are first order. Where the relation bends (losses near the power of the flame, the lowest flame, a
 * share that ends at 1) the percentiles of the draws differ: 10 % is what the kinks of these cases cost, and less than a
 * quarter of the usual distance from P50 to P90.
 */
const TOLERANCE = 0.1;

function expectNear(ours: { p10: number; p50: number; p90: number }, drawnBand: typeof ours, slack = TOLERANCE): void {
  for (const key of ['p10', 'p50', 'p90'] as const) {
    expect(Math.abs(ours[key] - drawnBand[key]), `${key} ${ours[key]} drawn ${drawnBand[key]}`).toBeLessThan(
      slack * Math.abs(drawnBand[key]) + 1e-9,
    );
  }
}

describe('fuel, minutes and steam', () => {
  it.each<[string, FuelUseQuestion]>([
    ['gas, lidded, with a hold at the lowest flame', GAS],
    ['open fire in a light wind', { ...GAS, stove: { typeId: 'three-stone' }, fuelId: 'wood', wind: 'light' }],
    [
      'open pot on a spirit burner',
      {
        ...GAS,
        stove: { typeId: 'alcohol-pot' },
        fuelId: 'denatured-alcohol',
        vessel: { kind: 'pot', capacityL: 2, lid: 'none' },
        waterL: 1,
        wind: 'still',
        holdMinutes: 0,
      },
    ],
    ['pressure cooker', { ...GAS, vessel: { kind: 'pressure-cooker', capacityL: 6, gaugeKPa: 80 }, waterL: 2 }],
    [
      'charcoal, a long open boil',
      { ...GAS, stove: { typeId: 'charcoal' }, fuelId: 'charcoal', lidDuringHold: 'none' },
    ],
  ])('%s', (_name, question) => {
    const answer = answerFuelUse(question);
    const run = lastCaught();
    expectNear(answer.fuelMJ, drawn(run, 'fuelMJ', 1));
    if (answer.fuelKg !== null) expectNear(answer.fuelKg, drawn(run, 'fuelKg', 2));
    expectNear(answer.minutesToBoil, drawn(run, 'minutesToBoil', 3));
    expectNear(answer.heatToPotMJ, drawn(run, 'heatToPotMJ', 4));
    // Steam is what is left over, so it bends most: the upper end, which is poured in, within a quarter.
    const steam = drawn(run, 'boiledOffL', 4);
    expect(Math.abs(answer.boiledOffL.p90 / Math.min(steam.p90, question.waterL) - 1)).toBeLessThan(0.25);
  });
});

describe('cook time', () => {
  it.each([
    [
      'soaked beans at altitude',
      { foodId: 'kidney-bean', elevationM: 1800, soak: { hours: 12, waterC: 15, discardWater: true } },
    ],
    ['unsoaked beans under pressure', { foodId: 'pinto-bean', elevationM: 500, gaugeKPa: 80 }],
    [
      'old chickpeas, cold soak',
      {
        foodId: 'chickpea',
        elevationM: 1500,
        soak: { hours: 8, waterC: 6, discardWater: true },
        storage: { years: 6, temperatureC: 18, moisturePercent: 11 },
      },
    ],
    ['rice', { foodId: 'white-rice', elevationM: 2400 }],
    ['lentils with acid', { foodId: 'lentil-brown', elevationM: 300, cookingAdditive: 'acid' as const }],
  ])('%s', (_name, question) => {
    const answer = answerCookTime(question);
    expectNear(answer.minutes, drawn(lastCaught(), 'minutes', 5));
  });
});

describe('soaking', () => {
  it.each([
    ['beans, cool', { foodId: 'kidney-bean', hours: 8, waterC: 12 }],
    ['chickpeas, cold', { foodId: 'chickpea', hours: 12, waterC: 5 }],
    ['beans, hot start', { foodId: 'pinto-bean', hours: 1, waterC: 98, start: 'hot' as const, airC: 15 }],
    ['freeze-dried peas', { foodId: 'fd-peas', hours: 0.3, waterC: 20 }],
  ])('%s', (_name, question) => {
    const answer = answerSoaking(question);
    expectNear(answer.uptakeGPerG, drawn(lastCaught(), 'uptakeGPerG', 6));
    const share = drawn(lastCaught(), 'hydrationShare', 7);
    // The share ends at 1: beyond, only the lower half is spread.
    expectNear({ ...answer.hydrationShare, p90: Math.min(1, share.p90) }, { ...share, p90: Math.min(1, share.p90) });
  });
});

describe('cooling', () => {
  it.each([
    [
      'box',
      {
        vessel: { kind: 'pot' as const, capacityL: 6 },
        fillL: 4,
        startC: 92,
        airC: 12,
        insulation: { materialId: 'eps' as const, thicknessMm: 50 },
        hours: 5,
      },
    ],
    ['flask', { vessel: { kind: 'flask' as const, capacityL: 1 }, fillL: 1, startC: 95, airC: 12, hours: 8 }],
    [
      'bare pot',
      {
        vessel: { kind: 'pot' as const, capacityL: 4, lid: 'loose' as const },
        fillL: 3,
        startC: 95,
        airC: 12,
        hours: 1,
      },
    ],
  ])('%s', (_name, question) => {
    const answer = answerCooling(question);
    expectNear(answer.timeConstantHours, drawn(lastCaught(), 'tauHours', 8));
  });

  it('boil before the box', () => {
    const answer = boilBeforeBox({
      foodId: 'lentil-brown',
      temperatureC: 95,
      hydrationShare: 0,
      soakedAndDrained: false,
      boxStartC: 90,
      airC: 12,
      timeConstantHours: 7,
      boxMinutes: 120,
    });
    const drawnBand = drawn(lastCaught(), 'boil', 9);
    // What the box does not give is boiled: a difference of two like figures that ends at one minute, in which steps of
    // logarithms tell the lower end badly. Nothing rests on that end; the upper one, by which fuel is set aside, holds.
    expectNear({ ...answer.boilMinutes, p10: 1 }, { ...drawnBand, p10: 1 }, 0.2);
    expect(answer.boilMinutes.p10).toBeGreaterThanOrEqual(drawnBand.p10);
  });
});

describe('a week of fires', () => {
  // Two stoves, three pots, several foods: what is shared is drawn once for the week, what is not for every cooking.
  const week = Array.from(
    { length: 14 },
    (_, index): { question: FuelUseQuestion; stoveId: string; vesselId: string } => {
      const wood = index % 3 === 2;
      return {
        stoveId: wood ? 'rocket' : 'burner',
        vesselId: `pot-${index % 3}`,
        question: {
          ...GAS,
          ...(wood ? { stove: { typeId: 'rocket' as const }, fuelId: 'wood' as const, fuelMoisturePercent: 18 } : {}),
          vessel: { kind: 'pot', capacityL: 4 + (index % 3) * 2, material: 'aluminium', lid: 'snug' },
          waterL: 1.5 + (index % 4) * 0.5,
          holdMinutes: (index % 5) * 12,
        },
      };
    },
  );
  const things = (row: (typeof week)[number], index: number) => ({
    stoveId: row.stoveId,
    fuelId: row.question.fuelId,
    vesselId: row.vesselId,
    boxId: null,
    lotId: `lot-${index % 4}`,
    dishId: `dish-${index}`,
  });
  const resolved = week.map((row) => resolveFuelUse(row.question));

  function bands() {
    const parts = week.map((row, index): SummandSpread => {
      const { task, parameters } = resolved[index] as (typeof resolved)[number];
      const spread = propagateSpread(parameters, (v) => ({ fuelMJ: heatPot(task, v as HeatingValues).fuelMJ }));
      return { value: spread.typical.fuelMJ, effects: effectsOfThings(spread.effects.fuelMJ, things(row, index)) };
    });
    const sum = sumOfSpreads(parts);
    return { ours: percentilesOf(sum.value, sum.effects), parts };
  }

  it('agrees with weeks that are drawn as a whole', () => {
    const { ours } = bands();
    const random = generator(10);
    const drawnBand = bandOf(
      Array.from({ length: DRAWS }, () => {
        // One deviate for each cause and thing of this week.
        const deviates = new Map<string, number>();
        return week.reduce((total, row, index) => {
          const { task, parameters } = resolved[index] as (typeof resolved)[number];
          const values = {} as Record<string, number>;
          for (const [name, p] of Object.entries(parameters)) {
            const cause = effectsOfThings([{ cause: name, atLow: 0, atHigh: 0 }], things(row, index))[0]?.cause ?? name;
            if (!deviates.has(cause)) deviates.set(cause, random());
            const uniform = deviates.get(cause) as number;
            // Any monotone draw serves, so long as the same deviate gives the same percentile of each parameter.
            values[name] = draw(p, generator(Math.floor(uniform * 2 ** 31)));
          }
          return total + heatPot(task, values as unknown as HeatingValues).fuelMJ;
        }, 0);
      }),
    );
    expectNear(ours, drawnBand, 0.05);
  });

  it('is wider than if nothing were shared and narrower than the sum of the 90th percentiles', () => {
    const { ours, parts } = bands();
    const sumOfP90 = parts.reduce((total, part) => total + percentilesOf(part.value, part.effects).p90, 0);
    const independent = sumOfSpreads(
      parts.map((part, index) => ({
        ...part,
        effects: part.effects.map((effect) => ({ ...effect, cause: `${effect.cause} ${index}` })),
      })),
    );
    expect(ours.p90).toBeLessThan(sumOfP90);
    expect(ours.p90).toBeGreaterThan(percentilesOf(independent.value, independent.effects).p90 * 1.05);
  });
});
