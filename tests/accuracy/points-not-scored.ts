/** Published figures that are known and are not held against an answer, each with its reason. */
import type { PointNotScored } from './published-point.ts';

export const POINTS_NOT_SCORED: readonly PointNotScored[] = [];
