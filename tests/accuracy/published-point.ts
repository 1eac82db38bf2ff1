/** One published figure, as printed, with the question that asks the program for the same figure. */
import type { Api } from './ask-api.ts';
import type { Prediction } from './score.ts';

/** Models as the accuracy table lists them, with the unit of their errors. */
export const MODELS = {
  'boiling point': 'K',
  uptake: '%',
  'cook time at the boil': '%',
  'cook time at altitude': '%',
  'cook time under pressure': '%',
  'heat-up': '%',
  simmer: '%',
  evaporation: '%',
  cooling: 'K',
  'fuel of a whole task': '%',
} as const;

export type Model = keyof typeof MODELS;

export interface PublishedPoint {
  id: string;
  model: Model;
  /** What was measured or tabulated, under which conditions. */
  what: string;
  /** As printed: a value, or the ends of a range. */
  printed: number | readonly [number, number];
  unit: string;
  /** Work, year, table or place. */
  source: string;
  predict: (api: Api) => Promise<Prediction>;
}

/** A published figure that no answer of the program can be held against, with the reason. */
export interface PointNotScored {
  id: string;
  model: Model;
  what: string;
  source: string;
  reason: string;
}

/** The middle of what was printed: geometric for amounts, arithmetic for temperatures. */
export function middleOf(printed: PublishedPoint['printed'], unit: string): number {
  if (typeof printed === 'number') return printed;
  const [low, high] = printed;
  return unit === 'C' || unit === 'K' ? (low + high) / 2 : Math.sqrt(low * high);
}

export const value = (p50: number): Prediction => ({ p50 });
