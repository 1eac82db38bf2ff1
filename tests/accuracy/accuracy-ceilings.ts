/** What the figures of accuracy may not pass: set just above those of the day, lowered whenever they fall. */
import type { Model } from './published-point.ts';
import type { Summary } from './score.ts';

/** Mean and largest error, in % or K as `MODELS` says, and how many points there are at least. */
export const MODEL_CEILINGS: Readonly<Record<Model, { mean: number; largest: number; points: number }>> = {
  'boiling point': { mean: 0.14, largest: 0.65, points: 38 },
  uptake: { mean: 9.8, largest: 68, points: 22 },
  'cook time at the boil': { mean: 20, largest: 86, points: 66 },
  'cook time at altitude': { mean: 17, largest: 132, points: 21 },
  'cook time under pressure': { mean: 36, largest: 155, points: 44 },
  'heat-up': { mean: 17.5, largest: 78, points: 68 },
  simmer: { mean: 13.3, largest: 65, points: 16 },
  evaporation: { mean: 13.5, largest: 132, points: 12 },
  cooling: { mean: 10.5, largest: 31, points: 12 },
  'fuel of a whole task': { mean: 18.5, largest: 53, points: 42 },
};

export const BLIND_CEILINGS = { tasks: 15, medianError: 0.175, insideShare: 0.73 } as const;
export const LATER_CEILINGS = { tasks: 46, medianError: 0.175, insideShare: 0.69 } as const;

/** The tasks collected last against the program of 14:27 on the same day, before powers were looked at again. */
export const FIRST_BLIND_SCORE: Summary = {
  n: 15,
  medianError: 0.195,
  within25: 9,
  inside: 10,
  banded: 15,
  medianWidth: 1.71,
};

/** The tasks collected later against the program as it stood when they were looked up, on 2026-11-25. */
export const FIRST_LATER_SCORE: Summary = {
  n: 46,
  medianError: 0.286,
  within25: 22,
  inside: 29,
  banded: 46,
  medianWidth: 1.89,
};
