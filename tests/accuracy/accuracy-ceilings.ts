/** What the figures of accuracy may not pass: set just above those of the day, lowered whenever they fall. */
import type { Model } from './published-point.ts';
import type { Summary } from './score.ts';

/** Mean and largest error, in % or K as `MODELS` says, and how many points there are at least. */
export const MODEL_CEILINGS: Readonly<Record<Model, { mean: number; largest: number; points: number }>> = {
  'boiling point': { mean: 0.14, largest: 0.65, points: 38 },
  uptake: { mean: 9.8, largest: 68, points: 22 },
  'cook time at the boil': { mean: 20, largest: 86, points: 68 },
  'cook time at altitude': { mean: 17, largest: 132, points: 21 },
  'cook time under pressure': { mean: 36, largest: 155, points: 44 },
  'heat-up': { mean: 16.8, largest: 75, points: 77 },
  simmer: { mean: 13.3, largest: 65, points: 16 },
  evaporation: { mean: 15.2, largest: 132, points: 12 },
  cooling: { mean: 6.3, largest: 31, points: 23 },
  'fuel of a whole task': { mean: 17.7, largest: 48, points: 46 },
};

/** What the later lots are held to, by name. */
export const LOT_CEILINGS: Readonly<Record<string, { tasks: number; medianError: number; insideShare: number }>> = {
  later: { tasks: 46, medianError: 0.165, insideShare: 0.71 },
  'after that': { tasks: 15, medianError: 0.17, insideShare: 0.66 },
  last: { tasks: 10, medianError: 0.105, insideShare: 0.9 },
  'in a fourth round': { tasks: 7, medianError: 0.17, insideShare: 0.7 },
};

/** Each lot against the program as it stood when the lot was looked up, on 2026-11-25: blind. */
export const FIRST_SCORES: Readonly<Record<string, Summary>> = {
  later: { n: 46, medianError: 0.286, within25: 22, inside: 29, banded: 46, medianWidth: 1.89 },
  'after that': { n: 15, medianError: 0.195, within25: 9, inside: 10, banded: 15, medianWidth: 1.71 },
  last: { n: 10, medianError: 0.099, within25: 9, inside: 9, banded: 10, medianWidth: 1.88 },
  'in a fourth round': { n: 7, medianError: 0.165, within25: 5, inside: 5, banded: 7, medianWidth: 1.99 },
};
