/** The update in closed form, and that of counts, against posteriors summed here by other means. */
import { describe, expect, it } from 'vitest';
import {
  chanceHardBefore,
  chancesOfCounts,
  deviationOf,
  type HardPot,
  type LogNormal,
  logNormalOf,
  lognormalPercentiles,
  normalDeviate,
  normalShare,
  type SoftCount,
  scatterFactor,
  updateLogNormal,
  updateWithCounts,
} from '../../api/cooking/measurements/bayes.ts';

/** Percentiles of a density over a positive quantity, summed by the midpoint rule in the quantity itself, not its logarithm. */
function summed(density: (x: number) => number, from: number, to: number, shares: number[], steps = 200_000): number[] {
  const width = (to - from) / steps;
  let total = 0;
  for (let i = 0; i < steps; i += 1) total += density(from + (i + 0.5) * width);
  const found: number[] = [];
  let sum = 0;
  for (let i = 0; i < steps && found.length < shares.length; i += 1) {
    sum += density(from + (i + 0.5) * width);
    while (found.length < shares.length && sum >= (shares[found.length] as number) * total)
      found.push(from + (i + 1) * width);
  }
  return found;
}

const lognormalDensity = (x: number, { mean, sd }: LogNormal): number =>
  Math.exp(-0.5 * ((Math.log(x) - mean) / sd) ** 2) / (x * sd);
/** Chance of reading `reading` where the quantity is x. */
const likelihood = (x: number, { mean, sd }: LogNormal): number => Math.exp(-0.5 * ((mean - Math.log(x)) / sd) ** 2);

const efficiency: LogNormal = { mean: Math.log(0.47), sd: 0.16 };
const readings: LogNormal[] = [
  { mean: Math.log(0.34), sd: 0.08 },
  { mean: Math.log(0.39), sd: 0.12 },
  { mean: Math.log(0.36), sd: 0.3 },
];

describe('normal prior and normal readings in logarithms', () => {
  it.each([[readings.slice(0, 1)], [readings.slice(0, 2)], [readings]])(
    'agrees with a sum over the efficiency itself, %#',
    (seen) => {
      const { p10, p50, p90 } = lognormalPercentiles(updateLogNormal(efficiency, seen));
      const density = (x: number) =>
        seen.reduce((product, one) => product * likelihood(x, one), lognormalDensity(x, efficiency));
      const [low, middle, high] = summed(density, 0.05, 1.2, [0.1, 0.5, 0.9]) as [number, number, number];
      // The sum has steps of 6e-6.
      expect(p10).toBeCloseTo(low, 4);
      expect(p50).toBeCloseTo(middle, 4);
      expect(p90).toBeCloseTo(high, 4);
    },
  );

  it('comes out the same for readings in any order, to the last digit', () => {
    const [a, b, c] = readings as [LogNormal, LogNormal, LogNormal];
    const found = updateLogNormal(efficiency, [a, b, c]);
    for (const order of [
      [a, c, b],
      [b, a, c],
      [b, c, a],
      [c, a, b],
      [c, b, a],
    ])
      expect(updateLogNormal(efficiency, order)).toEqual(found);
  });

  it('is the same in one go as in steps, within rounding', () => {
    const [a, b] = readings as [LogNormal, LogNormal];
    const steps = updateLogNormal(updateLogNormal(efficiency, [a]), [b]);
    const once = updateLogNormal(efficiency, [a, b]);
    expect(steps.mean).toBeCloseTo(once.mean, 12);
    expect(steps.sd).toBeCloseTo(once.sd, 12);
  });

  it('gives the prior back without readings', () => {
    expect(updateLogNormal(efficiency, [])).toBe(efficiency);
  });

  it('narrows with every reading, and lies between the prior and the readings', () => {
    let before = efficiency.sd;
    for (let count = 1; count <= readings.length; count += 1) {
      const { mean, sd } = updateLogNormal(efficiency, readings.slice(0, count));
      expect(sd).toBeLessThan(before);
      expect(mean).toBeLessThan(efficiency.mean);
      expect(mean).toBeGreaterThan(Math.log(0.34));
      before = sd;
    }
  });

  it('widens readings that contradict one another, and leaves those that agree as they are', () => {
    const apart = [
      { mean: Math.log(0.34), sd: 0.07 },
      { mean: Math.log(0.6), sd: 0.07 },
    ];
    // Two of one spread: the distance over the spread and the square root of two.
    const factor = Math.log(0.6 / 0.34) / 0.07 / Math.SQRT2;
    expect(scatterFactor(apart)).toBeCloseTo(factor, 12);
    const { mean, sd } = updateLogNormal(efficiency, apart);
    const precision = 1 / efficiency.sd ** 2 + 2 / (factor * 0.07) ** 2;
    expect(sd).toBeCloseTo(1 / Math.sqrt(precision), 12);
    expect(sd).toBeGreaterThan(2 * updateLogNormal(efficiency, [apart[0] as LogNormal, apart[0] as LogNormal]).sd);
    expect(mean).toBeGreaterThan(Math.log(0.34));
    expect(scatterFactor(readings)).toBe(1);
    expect(scatterFactor(readings.slice(0, 1))).toBe(1);
  });

  it('does not move what is sure', () => {
    const sure = { mean: 0, sd: 0 };
    expect(updateLogNormal(sure, readings)).toBe(sure);
  });

  it('reads percentiles and gives them back', () => {
    const p = { p10: 0.384, p50: 0.47, p90: 0.5753 };
    const back = lognormalPercentiles(logNormalOf(p));
    expect(back.p10).toBeCloseTo(p.p10, 3);
    expect(back.p90).toBeCloseTo(p.p90, 3);
  });

  it('tells how far a reading lies from what was expected', () => {
    expect(deviationOf({ mean: 0, sd: 3 }, { mean: 10, sd: 4 })).toBeCloseTo(2, 12);
    expect(deviationOf({ mean: 0, sd: 3 }, { mean: -10, sd: 4 })).toBeCloseTo(-2, 12);
  });
});

describe('counts of soft seeds', () => {
  const prior: LogNormal = { mean: Math.log(90), sd: 0.4 };
  const test = (own: Partial<SoftCount>): SoftCount => ({
    lnMinutes: Math.log(90),
    soft: 10,
    of: 20,
    seedSd: 0.22,
    sharedSd: 0,
    ...own,
  });
  const ways = (of: number, soft: number): number => (soft === 0 ? 1 : (ways(of, soft - 1) * (of - soft + 1)) / soft);
  /** Chance that a seed is soft, its own error function summed from the density. */
  const shareBelow = (deviate: number): number => {
    let sum = 0;
    for (let x = -8; x < deviate; x += 0.002) sum += Math.exp(-0.5 * (x + 0.001) ** 2);
    return (sum * 0.002) / Math.sqrt(2 * Math.PI);
  };
  const chance = (count: SoftCount, potMinutes: number): number => {
    const share = shareBelow((count.lnMinutes - Math.log(potMinutes)) / count.seedSd + 1.6448536);
    return ways(count.of, count.soft) * share ** count.soft * (1 - share) ** (count.of - count.soft);
  };

  it.each([
    ['half soft', [test({})]],
    ['none soft', [test({ soft: 0, lnMinutes: Math.log(60) })]],
    ['all soft', [test({ soft: 20 })]],
    ['two tests of one lot', [test({}), test({ soft: 17, lnMinutes: Math.log(120) })]],
  ])('agrees with a sum over the minutes, %s', (_name, counts) => {
    const { p10, p50, p90 } = updateWithCounts(prior, counts);
    const density = (x: number) =>
      counts.reduce((product, one) => product * chance(one, x), lognormalDensity(x, prior));
    const [low, middle, high] = summed(density, 10, 700, [0.1, 0.5, 0.9], 6000) as [number, number, number];
    // Steps of 0.115 min here, of 0.8 % in the grid, interpolated.
    expect(Math.abs(p10 / low - 1)).toBeLessThan(0.004);
    expect(Math.abs(p50 / middle - 1)).toBeLessThan(0.004);
    expect(Math.abs(p90 / high - 1)).toBeLessThan(0.004);
  });

  it.each([
    ['one test', [test({ sharedSd: 0.2 })]],
    ['two that agree', [test({ sharedSd: 0.2 }), test({ soft: 17, lnMinutes: Math.log(120), sharedSd: 0.2 })]],
    [
      'two that contradict one another',
      [
        test({ soft: 0, lnMinutes: Math.log(120), sharedSd: 0.2 }),
        test({ soft: 20, lnMinutes: Math.log(55), sharedSd: 0.2 }),
      ],
    ],
  ])('agrees with a sum over the minutes and over what all seeds share, %s', (_name, counts) => {
    const { p10, p50, p90 } = updateWithCounts(prior, counts);
    // Shares by deviate, summed once: the sum over the minutes asks for them a few hundred thousand times.
    const step = 0.005;
    const shares: number[] = [];
    for (let x = -8, sum = 0; x < 8; x += step) {
      shares.push(sum / Math.sqrt(2 * Math.PI));
      sum += Math.exp(-0.5 * (x + step / 2) ** 2) * step;
    }
    const share = (deviate: number): number =>
      shares[Math.min(shares.length - 1, Math.max(0, Math.round((deviate + 8) / step)))] as number;
    const chanceShared = ({ lnMinutes, seedSd, sharedSd, of, soft }: SoftCount, minutes: number): number => {
      let sum = 0;
      for (let e = -6; e <= 6; e += 0.1) {
        const p = share((lnMinutes + e * sharedSd - Math.log(minutes)) / seedSd + 1.6448536);
        sum += Math.exp(-0.5 * e * e) * ways(of, soft) * p ** soft * (1 - p) ** (of - soft);
      }
      return sum;
    };
    const density = (x: number) =>
      counts.reduce((product, one) => product * chanceShared(one, x), lognormalDensity(x, prior));
    const [low, middle, high] = summed(density, 10, 700, [0.1, 0.5, 0.9], 1500) as [number, number, number];
    // Steps of 0.46 min here; of 0.3 standard deviations in the shift there.
    expect(Math.abs(p10 / low - 1)).toBeLessThan(0.015);
    expect(Math.abs(p50 / middle - 1)).toBeLessThan(0.015);
    expect(Math.abs(p90 / high - 1)).toBeLessThan(0.015);
  });

  it('all soft says at most, none soft at least', () => {
    const all = updateWithCounts(prior, [test({ soft: 20, lnMinutes: Math.log(300) })]);
    const before = lognormalPercentiles(prior);
    // Soft after five hours is what nearly every lot would be: nothing is learned.
    expect(all.p50 / before.p50).toBeGreaterThan(0.98);
    const none = updateWithCounts(prior, [test({ soft: 0 })]);
    expect(none.p10).toBeGreaterThan(90);
  });

  it('says less where all seeds share an error', () => {
    const width = (p: { p10: number; p90: number }) => p.p90 / p.p10;
    expect(width(updateWithCounts(prior, [test({ sharedSd: 0.2 })]))).toBeGreaterThan(
      1.1 * width(updateWithCounts(prior, [test({})])),
    );
  });

  it('keeps a band where tests contradict the prior and one another', () => {
    const odd = [
      test({ soft: 20, lnMinutes: Math.log(2) }),
      test({ soft: 0, lnMinutes: Math.log(1400) }),
      test({ soft: 1, lnMinutes: Math.log(900) }),
    ];
    for (const counts of [odd.slice(0, 1), odd.slice(1), odd]) {
      const { p10, p50, p90 } = updateWithCounts(prior, counts);
      expect(p50 / p10).toBeGreaterThan(1.02);
      expect(p90 / p50).toBeGreaterThan(1.02);
      expect(Number.isFinite(p10 + p90)).toBe(true);
    }
  });

  it('comes out the same in any order', () => {
    const a = test({});
    const b = test({ soft: 15, lnMinutes: Math.log(110) });
    expect(updateWithCounts(prior, [a, b])).toEqual(updateWithCounts(prior, [b, a]));
  });

  it('predicts chances that add up to 1, more soft the longer they boil', () => {
    const mean = (chances: number[]) => chances.reduce((sum, one, soft) => sum + one * soft, 0);
    const short = chancesOfCounts(prior, test({ lnMinutes: Math.log(50), sharedSd: 0.1 }));
    const long = chancesOfCounts(prior, test({ lnMinutes: Math.log(150), sharedSd: 0.1 }));
    expect(short.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
    expect(mean(long)).toBeGreaterThan(mean(short) + 5);
  });
});

describe('the normal distribution', () => {
  it.each([
    // Abramowitz and Stegun 1972, table 26.1, P(x).
    [0, 0.5],
    [1, 0.8413447],
    [1.28, 0.8997274],
    [2.5, 0.9937903],
  ])('P(%d)', (deviate, share) => {
    expect(normalShare(deviate)).toBeCloseTo(share, 6);
    expect(normalShare(-deviate)).toBeCloseTo(1 - share, 6);
    expect(normalDeviate(share)).toBeCloseTo(deviate, 4);
  });
});

describe('pots that were tried and not soft', () => {
  const lot: LogNormal = { mean: 0, sd: 0.3 };
  /** Share of a normal quantity above a deviate, summed here. */
  const above = (deviate: number): number => {
    const width = 12 / 4000;
    let part = 0;
    for (let i = 0; i < 4000; i += 1) part += Math.exp(-0.5 * (deviate + (i + 0.5) * width) ** 2) * width;
    return part / Math.sqrt(2 * Math.PI);
  };
  const chance = (x: number, { lnMinutes, sd }: HardPot): number => above((lnMinutes - Math.log(x)) / sd);

  it.each<[string, HardPot[]]>([
    ['one, about when it should be soft', [{ lnMinutes: 0, sd: 0.12 }]],
    ['one, half as long again', [{ lnMinutes: Math.log(1.5), sd: 0.12 }]],
    [
      'two of one lot',
      [
        { lnMinutes: 0.1, sd: 0.1 },
        { lnMinutes: 0.3, sd: 0.2 },
      ],
    ],
  ])('agree with a sum over the factor itself: %s', (_name, hard) => {
    const { p10, p50, p90 } = updateWithCounts(lot, [], hard);
    const density = (x: number) => hard.reduce((product, one) => product * chance(x, one), lognormalDensity(x, lot));
    const [low, middle, high] = summed(density, 0.2, 5, [0.1, 0.5, 0.9], 3000) as [number, number, number];
    // The sum has steps of 1.6e-3, the grid 6e-3 of the factor.
    for (const [own, other] of [
      [p10, low],
      [p50, middle],
      [p90, high],
    ] as const)
      expect(Math.abs(own / other - 1)).toBeLessThan(0.01);
  });

  it('come out the same in any order, and say nothing where softness was out of the question', () => {
    const [one, two] = [
      { lnMinutes: 0.1, sd: 0.1 },
      { lnMinutes: 0.3, sd: 0.2 },
    ];
    expect(updateWithCounts(lot, [], [two, one])).toEqual(updateWithCounts(lot, [], [one, two]));
    const { p50 } = updateWithCounts(lot, [], [{ lnMinutes: -3, sd: 0.1 }]);
    expect(p50).toBeCloseTo(1, 2);
  });

  it('are as likely before as the prior and the trial together allow', () => {
    // Half where it is tried at the typical minutes; one in ten at 1.2816 deviates of both spreads together.
    expect(chanceHardBefore(lot, { lnMinutes: 0, sd: 0.4 })).toBeCloseTo(0.5, 6);
    expect(chanceHardBefore(lot, { lnMinutes: 1.2815515655 * 0.5, sd: 0.4 })).toBeCloseTo(0.1, 6);
  });
});
