/** The aims of a solve as people know them, with value, bound and tolerance. */
import type { AimName, PlanDraft } from '../plan-types.ts';
import { round, sum } from '../rounding.ts';
import type { Aim, AimOutcome } from '../solver.ts';

const AIM_UNITS: Record<AimName, string> = {
  'safe-water': 'L',
  'night-feeds': 'nights',
  'feed-everyone': 'servings',
  'shortage-late': 'servings x days',
  energy: '% of need',
  'hot-meals': 'servings',
  'use-by': 'sets',
  'scarcest-largest-share': 'share',
  'scarcest-sum-of-shares': 'sum of shares',
  variety: 'repeats',
  tending: 'min',
  'chosen-repeats': 'repeats',
  'chosen-energy': '% of need',
  'fuel-heat': 'MJ',
  'cold-meals': 'meals',
};

const SERVICE_AIMS: AimName[] = ['feed-everyone', 'energy', 'hot-meals'];

/** What must be nothing for a week to be complete. */
const MISSED_AIMS: AimName[] = ['safe-water', 'night-feeds', ...SERVICE_AIMS];

/** Servings (and hot-water days, and litres not made safe) that the service aims left open; 0 for a complete week. */
export function missedServings(aims: AimOutcome[]): number {
  return sum(
    aims.filter((aim) => aim.name === 'service' || MISSED_AIMS.includes(aim.name as AimName)),
    (aim) => aim.value,
  );
}

/** Seconds that the aims took together. */
export function secondsOf(aims: AimOutcome[]): number {
  return sum(aims, (aim) => aim.seconds);
}

/** The aims as people know them: those that one solve took together are told apart again. */
export function separateAims(outcomes: AimOutcome[], stated: Aim[], repeatWeight: number): PlanDraft['proof']['aims'] {
  const toleranceOf = (name: string, value: number) => {
    const own = stated.find((candidate) => candidate.name === name);
    return Math.max(own?.absoluteGap ?? 0, (own?.relativeGap ?? 0) * Math.abs(value));
  };
  const row = (aim: AimName, value: number, bound: number, tolerance: number) => ({
    aim,
    value: round(value, 6),
    bound: round(bound, 6),
    tolerance: round(tolerance, 6),
    unit: AIM_UNITS[aim],
  });
  return outcomes.flatMap((outcome) => {
    const tolerance = toleranceOf(outcome.name, outcome.value);
    if (outcome.name === 'service') {
      return SERVICE_AIMS.map((name) => row(name, outcome.value, outcome.bound, tolerance));
    }
    if (outcome.name === 'variety-then-tending') {
      const repeats = Math.floor(outcome.value / repeatWeight + 1e-9);
      return [
        row('variety', repeats, Math.floor(outcome.bound / repeatWeight + 1e-9), 0.5),
        row(
          'tending',
          outcome.value - repeats * repeatWeight,
          Math.max(0, outcome.bound - repeats * repeatWeight),
          tolerance,
        ),
      ];
    }
    return [row(outcome.name as AimName, outcome.value, outcome.bound, tolerance)];
  });
}
