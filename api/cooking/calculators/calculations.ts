/**
 * The calculators with a memory, for one plan or one comparison: the same question is worked out once. The memory lives
 * as long as the object that `createCalculations` returns; nothing is kept in the module.
 */
import type { Percentiles } from '../../physics/parameter.ts';
import { boilBeforeBox } from '../kinetics/box-cooking.ts';
import { answerCookTime } from './answer-cook-time.ts';
import { answerCooling } from './answer-cooling.ts';
import { fuelUseWithEffects } from './answer-fuel-use.ts';
import { answerSoaking } from './answer-soaking.ts';
import type { FuelUseQuestion } from './calculator-types.ts';

function remember<Question, Answer>(answer: (question: Question) => Answer): (question: Question) => Answer {
  const known = new Map<string, Answer>();
  return (question) => {
    const key = JSON.stringify(question);
    const found = known.get(key);
    if (found !== undefined) return found;
    const fresh = answer(question);
    known.set(key, fresh);
    return fresh;
  };
}

export function createCalculations() {
  const fuelUse = remember(fuelUseWithEffects);
  return {
    cookTime: remember(answerCookTime),
    soaking: remember(answerSoaking),
    fuelUse: (question: FuelUseQuestion) => fuelUse(question).answer,
    /** What each cause of spread does to the fuel, see `fuelUseWithEffects`. */
    fuelEffects: (question: FuelUseQuestion) => fuelUse(question).fuelEffects,
    cooling: remember(answerCooling),
    boilBeforeBox: remember(boilBeforeBox),
  };
}
export type Calculations = ReturnType<typeof createCalculations>;

/** The larger of each percentile. Used where the slowest of several things sets the pace; errors are taken as shared. */
export function slowest(a: Percentiles, b: Percentiles): Percentiles {
  return { p10: Math.max(a.p10, b.p10), p50: Math.max(a.p50, b.p50), p90: Math.max(a.p90, b.p90) };
}

/** Sum of percentiles with shared errors (conservative). */
export function addPercentiles(a: Percentiles, b: Percentiles): Percentiles {
  return { p10: a.p10 + b.p10, p50: a.p50 + b.p50, p90: a.p90 + b.p90 };
}

export function scalePercentiles(a: Percentiles, factor: number): Percentiles {
  const low = Math.min(a.p10 * factor, a.p90 * factor);
  const high = Math.max(a.p10 * factor, a.p90 * factor);
  return { p10: low, p50: a.p50 * factor, p90: high };
}

export const NOTHING: Percentiles = { p10: 0, p50: 0, p90: 0 };
