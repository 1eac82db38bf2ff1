/** The one method of combining spreads, held against Monte Carlo. */
import { describe, expect, it } from 'vitest';
import { resolveFuelUse } from '../../api/cooking/answer-fuel-use.ts';
import type { FuelUseQuestion } from '../../api/cooking/calculator-types.ts';
import { type HeatingValues, heatPot } from '../../api/physics/heating.ts';
import {
  lognormalP90Factor,
  type Parameter,
  parameterFromCv,
  sureParameter,
  Z_90,
} from '../../api/physics/parameter.ts';
import { propagateSpread, spreadShares } from '../../api/physics/spread.ts';

const SOURCE = { key: 'kitchenPractice', place: 'test' } as const;

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

/** A draw from a two-piece log-normal with the parameter's three percentiles. */
function draw(p: Parameter, random: () => number): number {
  const z = normal(random);
  const side = z < 0 ? Math.log(p.value / p.p10) : Math.log(p.p90 / p.value);
  return p.value * Math.exp((z / Z_90) * side);
}

function percentile(sorted: number[], share: number): number {
  return sorted[Math.round(share * (sorted.length - 1))] as number;
}

describe('lognormalP90Factor', () => {
  it('is 1 without spread and grows with it', () => {
    expect(lognormalP90Factor(0)).toBe(1);
    expect(lognormalP90Factor(0.3)).toBeGreaterThan(lognormalP90Factor(0.2));
  });
});

describe('propagateSpread', () => {
  it('is exact for a product of powers of log-normal parameters', () => {
    const parameters = {
      a: parameterFromCv(2, 0.2, '1', SOURCE),
      b: parameterFromCv(5, 0.3, '1', SOURCE),
      c: sureParameter(3, '1', SOURCE),
    };
    const spread = propagateSpread(parameters, (v) => ({ y: (v.a ** 2 * v.c) / v.b }));
    const sigma = Math.hypot(2 * Math.log(lognormalP90Factor(0.2)), Math.log(lognormalP90Factor(0.3)));
    expect(spread.percentiles.y.p50).toBeCloseTo(2.4, 12);
    expect(spread.percentiles.y.p90).toBeCloseTo(2.4 * Math.exp(sigma), 10);
    expect(spread.percentiles.y.p10).toBeCloseTo(2.4 * Math.exp(-sigma), 10);
    const shares = spreadShares(spread.effects.y);
    expect(shares.map((row) => row.cause)).toEqual(['a', 'b']);
    expect(shares.reduce((sum, row) => sum + row.share, 0)).toBeCloseTo(1, 9);
  });

  it('gives a sure result no spread and no cause', () => {
    const spread = propagateSpread({ a: sureParameter(4, '1', SOURCE) }, (v) => ({ y: v.a + 1 }));
    expect(spread.percentiles.y).toEqual({ p10: 5, p50: 5, p90: 5 });
    expect(spreadShares(spread.effects.y)).toEqual([]);
  });

  const base: FuelUseQuestion = {
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
  it.each<[string, FuelUseQuestion]>([
    ['gas, lidded, with a hold at the lowest flame', base],
    ['open fire', { ...base, stove: { typeId: 'three-stone' }, fuelId: 'wood', wind: 'light' }],
    [
      'open pot on a spirit burner',
      {
        ...base,
        stove: { typeId: 'alcohol-pot' },
        fuelId: 'denatured-alcohol',
        vessel: { kind: 'pot', capacityL: 2, lid: 'none' },
        waterL: 1,
        wind: 'still',
        holdMinutes: 0,
      },
    ],
  ])('agrees with a Monte Carlo of 20 000 draws: %s', (_name, question) => {
    const { task, parameters } = resolveFuelUse(question);
    const names = Object.keys(parameters) as (keyof HeatingValues)[];
    const spread = propagateSpread(parameters, (values) => {
      const r = heatPot(task, values as unknown as HeatingValues);
      return { fuelMJ: r.fuelMJ, minutesToBoil: r.minutesToBoil };
    });
    const random = generator(20240717);
    const draws = { fuelMJ: [] as number[], minutesToBoil: [] as number[] };
    for (let i = 0; i < 20000; i += 1) {
      const values = {} as HeatingValues;
      for (const name of names) {
        const p = parameters[name];
        values[name] = p.p10 === p.p90 ? p.value : draw(p, random);
      }
      const r = heatPot(task, values);
      draws.fuelMJ.push(r.fuelMJ);
      draws.minutesToBoil.push(r.minutesToBoil);
    }
    for (const quantity of ['fuelMJ', 'minutesToBoil'] as const) {
      const sorted = draws[quantity].sort((a, b) => a - b);
      const ours = spread.percentiles[quantity];
      // One-at-a-time steps are first order: kinks and curvature cost up to 10 % at the percentiles.
      expect(Math.abs(ours.p10 / percentile(sorted, 0.1) - 1)).toBeLessThan(0.1);
      expect(Math.abs(ours.p50 / percentile(sorted, 0.5) - 1)).toBeLessThan(0.1);
      expect(Math.abs(ours.p90 / percentile(sorted, 0.9) - 1)).toBeLessThan(0.1);
    }
  });
});
