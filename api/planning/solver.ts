/**
 * The port to an integer-programme solver. It knows nothing of food: `week-model.ts` states a programme, an adapter in
 * `runtime/` solves it. Aims are met strictly in their order; each is closed before the next begins, and no start
 * solution is ever passed (it has been seen to produce a false proof).
 */

/** A mixed-integer programme in arrays: `rowLower <= A x <= rowUpper`, `columnLower <= x <= columnUpper`. */
export interface IntegerProgramme {
  /** Names for diagnosis, `[A-Za-z][A-Za-z0-9_]*`; one per column and per row. */
  columnNames: string[];
  rowNames: string[];
  columnLower: number[];
  columnUpper: number[];
  isInteger: boolean[];
  /** Compressed rows: `starts` has one more entry than there are rows. No duplicate column in one row. */
  starts: number[];
  columns: number[];
  coefficients: number[];
  rowLower: number[];
  rowUpper: number[];
}

/** One aim: minimise `sum coefficients[i] * x[columns[i]]`. */
export interface Aim {
  name: string;
  columns: number[];
  coefficients: number[];
  /** The aim counts as closed when value - bound is at most this, in the unit of the aim. */
  absoluteGap: number;
  /** ... or at most this share of the value. */
  relativeGap: number;
  /** A value at or below this is as good as proven elsewhere: the search for it ends there. Absent: it goes on to its gap. */
  goodEnough?: number;
  /** Later aims may worsen this one by at most this much above the value found; 0 for whole-number aims. */
  slack: number;
}

export interface AimOutcome {
  name: string;
  value: number;
  /** Proven lower bound. */
  bound: number;
  closed: boolean;
  seconds: number;
  nodes: number;
}

export interface SolveProgress {
  elapsedS: number;
  aim: string;
  best: number | null;
  bound: number | null;
  gap: number | null;
}

export interface SolveOptions {
  timeLimitS: number;
  signal?: AbortSignal;
  onProgress?: (progress: SolveProgress) => void;
}

export type SolveOutcome =
  | { status: 'solved' /** every aim closed */; closed: boolean; values: number[]; aims: AimOutcome[] }
  | { status: 'infeasible' }
  | { status: 'no-solution-in-time'; aims: AimOutcome[] }
  | { status: 'cancelled' };

export interface Solver {
  readonly version: string;
  /**
   * Solves the aims one after the other within one time limit.
   * @throws SolverBusyError when the queue is full; Error when the engine fails or answers a status that is not expected
   */
  solve(programme: IntegerProgramme, aims: Aim[], options: SolveOptions): Promise<SolveOutcome>;
}

/** For everything that is asked in one request, where it does not say, s. */
export const DEFAULT_TIME_LIMIT_S = 20;

/** The solver's queue is full; try again later. */
export class SolverBusyError extends Error {
  readonly retryAfterS: number;
  constructor(retryAfterS: number) {
    super('the solver is busy');
    this.name = 'SolverBusyError';
    this.retryAfterS = retryAfterS;
  }
}

/** The solver was stopped by whoever asked. */
export class SolveCancelledError extends Error {
  constructor() {
    super('solving was cancelled');
    this.name = 'SolveCancelledError';
  }
}

/**
 * Solves, where nobody but the one who cancelled could go on from a cancelled solve.
 * @throws SolveCancelledError; SolverBusyError; Error when the engine fails
 */
export async function solveOrThrow(
  solver: Solver,
  programme: IntegerProgramme,
  aims: Aim[],
  options: SolveOptions,
): Promise<Exclude<SolveOutcome, { status: 'cancelled' }>> {
  const outcome = await solver.solve(programme, aims, options);
  if (outcome.status === 'cancelled') throw new SolveCancelledError();
  return outcome;
}
