/**
 * Solves an integer programme with a loaded HiGHS module, aim after aim. Pure but for the engine's own memory: no
 * worker, no file, no global. It blocks the thread that calls it, so that a server runs it in a worker.
 */
import type { Highs, HighsCallbackMap, Model } from 'highs';
import type { Aim, AimOutcome, IntegerProgramme, SolveOutcome, SolveProgress } from '../../planning/solver.ts';

export interface SolveProgrammeOptions {
  /** Wall-clock limit for all aims together, s, > 0. */
  timeLimitS: number;
  onProgress?: (progress: SolveProgress) => void;
  /** Milliseconds of a clock that never runs backwards. */
  now: () => number;
}

/** Codes of the engine's model status that can occur here; all others are a fault. */
const OPTIMAL = 7;
const INFEASIBLE = 8;
const INFEASIBLE_OR_UNBOUNDED = 9;
const OBJECTIVE_TARGET = 12;
const TIME_LIMIT = 13;
/** Not a code of the engine: the run itself broke off. */
const BROKE_OFF = -1;
/** `primal_solution_status` of a feasible solution; anything else leaves zeros in the columns. */
const FEASIBLE = 2;

/** Any gap below one unit proves a whole-number aim; 0.99 leaves room for the engine's own arithmetic. */
const WHOLE_NUMBER_GAP = 0.99;
/** Room above the value found when a fractional aim is locked: the engine's feasibility tolerance is 1e-6. */
const LOCK_ROOM = 1e-6;
/** Share of the time left that one aim may take while others wait: most close at once and leave theirs to the next. */
const LARGEST_SHARE_OF_TIME = 0.5;
/** Time for the linear programme that settles the columns which are not whole numbers, s. */
const SETTLING_S = 2;
/** Shorter runs are not started: presolve alone takes longer. */
const SHORTEST_RUN_S = 0.01;
/** Largest share by which a row may miss its bound after whole-number columns have been rounded. */
const ROW_TOLERANCE = 1e-4;

/**
 * Minimises the aims strictly in their order: each is solved with all earlier ones held at the value found plus their
 * slack. An aim may take half of the time that is left (the last one all of it); one that is not closed by then is held
 * at the best value found and marked as not closed. For it, the columns that are not whole numbers are settled with the
 * whole ones fixed, so that the values reported are those of the solution and not of idle slack. No start solution is
 * ever handed to the engine.
 *
 * Method: lexicographic (preemptive) optimisation by successive solves with a row for each aim done.
 * @param highs a loaded engine; its models are disposed before this returns
 * @param programme arrays as described at `IntegerProgramme`; at least one column
 * @param aims one or more; every column index within the programme
 * @returns `solved` with whole-number columns rounded, `infeasible`, or `no-solution-in-time`
 * @throws RangeError when a number of the programme is NaN or a coefficient or cost is infinite, or arrays do not fit
 *   together; Error when the engine answers a status that is not expected or values that break a row
 */
export function solveProgramme(
  highs: Highs,
  programme: IntegerProgramme,
  aims: Aim[],
  options: SolveProgrammeOptions,
): Exclude<SolveOutcome, { status: 'cancelled' }> {
  requireSoundProgramme(programme, aims, options.timeLimitS);
  const startedAt = options.now();
  const elapsedS = () => Math.max(0, (options.now() - startedAt) / 1000);
  const columnCount = programme.columnLower.length;
  const model = highs.createModel({
    numCols: columnCount,
    numRows: programme.rowLower.length,
    colCost: new Float64Array(columnCount),
    colLower: programme.columnLower,
    colUpper: programme.columnUpper,
    rowLower: programme.rowLower,
    rowUpper: programme.rowUpper,
    matrix: {
      format: 'csr',
      numRows: programme.rowLower.length,
      numCols: columnCount,
      starts: programme.starts,
      indices: programme.columns,
      values: programme.coefficients,
    },
    integrality: programme.isInteger.map((whole) => (whole ? 1 : 0)),
  });
  try {
    const outcomes: AimOutcome[] = [];
    let values: number[] | null = null;
    for (const [index, aim] of aims.entries()) {
      const costs = costsOf(aim, columnCount);
      const whole = isWholeNumberAim(costs, programme.isInteger);
      const floor = trivialBound(costs, programme, whole);
      const gap = {
        absolute: whole ? Math.max(aim.absoluteGap, WHOLE_NUMBER_GAP) : aim.absoluteGap,
        relative: aim.relativeGap,
      };
      const aimStartS = elapsedS();
      const report = (best: number | null, bound: number | null) =>
        options.onProgress?.({ elapsedS: elapsedS(), aim: aim.name, best, bound, gap: gapOf(best, bound) });
      let outcome: AimOutcome | null = null;
      if (values !== null) {
        // What the earlier aims left may already be as good as the columns' own bounds allow.
        const value = aimValue(costs, values, whole);
        report(value, floor);
        if (isClosed(value, floor, gap) || value <= (aim.goodEnough ?? Number.NEGATIVE_INFINITY))
          outcome = { name: aim.name, value, bound: Math.min(value, floor), closed: true, seconds: 0, nodes: 0 };
      } else report(null, floor);
      if (outcome === null) {
        const share = index === aims.length - 1 ? 1 : LARGEST_SHARE_OF_TIME;
        const runS = (options.timeLimitS - aimStartS) * share;
        let run =
          runS < SHORTEST_RUN_S
            ? null
            : runOnce(highs, model, costs, gap, runS, report, { goodEnough: aim.goodEnough });
        const isRefused = () =>
          run?.status === INFEASIBLE || (run?.status === INFEASIBLE_OR_UNBOUNDED && isBoxed(programme));
        if (isRefused() && values === null) return { status: 'infeasible' };
        if (isRefused() || run?.status === BROKE_OFF) {
          // A solution that keeps every aim held is in hand, or the run broke off: this is the engine's presolve tripping
          // over the narrow room of the locks; without presolve it finds its way.
          const leftS = Math.max(SHORTEST_RUN_S, options.timeLimitS - elapsedS()) * share;
          run = runOnce(highs, model, costs, gap, leftS, report, { presolve: 'off', goodEnough: aim.goodEnough });
          // Should it still refuse, the aim is reported as not closed rather than the plan withheld.
          if (isRefused() || (run.status === BROKE_OFF && values !== null)) run = null;
        }
        if (run !== null && ![OPTIMAL, TIME_LIMIT, OBJECTIVE_TARGET].includes(run.status))
          throw new Error(`solver: unexpected status ${run.status} at aim ${aim.name}`);
        if (run?.values) {
          const found = roundWholeColumns(run.values, programme.isInteger);
          requireRowsHeld(programme, found);
          // A run cut short can end above what an earlier aim already left behind.
          if (values === null || aimValue(costs, found, whole) <= aimValue(costs, values, whole)) values = found;
        }
        if (values === null) {
          const bound = Math.max(floor, run?.bound ?? Number.NEGATIVE_INFINITY);
          outcomes.push({
            name: aim.name,
            value: Number.POSITIVE_INFINITY,
            bound,
            closed: false,
            seconds: elapsedS() - aimStartS,
            nodes: run?.nodes ?? 0,
          });
          return { status: 'no-solution-in-time', aims: outcomes };
        }
        if (run?.status !== OPTIMAL) {
          const settled = settleFractions(highs, model, programme, costs, values);
          if (settled !== null) values = settled;
        }
        const value = aimValue(costs, values, whole);
        const rawBound = Math.max(floor, run?.bound ?? Number.NEGATIVE_INFINITY);
        // Adding 0 turns -0 into 0.
        const bound = Math.min(value, whole ? Math.ceil(rawBound - LOCK_ROOM) : rawBound) + 0;
        outcome = {
          name: aim.name,
          value,
          bound,
          closed: isClosed(value, bound, gap) || value <= (aim.goodEnough ?? Number.NEGATIVE_INFINITY),
          seconds: elapsedS() - aimStartS,
          nodes: run?.nodes ?? 0,
        };
      }
      report(outcome.value, outcome.bound);
      outcomes.push(outcome);
      if (index < aims.length - 1) lockAim(model, costs, outcome.value, aim.slack, whole);
    }
    return {
      status: 'solved',
      closed: outcomes.every((outcome) => outcome.closed),
      values: values ?? [],
      aims: outcomes,
    };
  } finally {
    model.dispose();
  }
}

interface Gap {
  absolute: number;
  relative: number;
}

interface EngineRun {
  status: number;
  values: number[] | null;
  bound: number;
  nodes: number;
}

/** One run with one objective; every option is set anew, because options outlive a run. */
function runOnce(
  highs: Highs,
  model: Model,
  costs: Float64Array,
  gap: Gap,
  timeLimitS: number,
  report: (best: number | null, bound: number | null) => void,
  { presolve = 'choose', goodEnough }: { presolve?: 'choose' | 'off'; goodEnough?: number | undefined } = {},
): EngineRun {
  // What the engine remembers of the run before would be a start solution, which has been seen to spoil proofs.
  model.clearSolver();
  model.zeroAllClocks();
  model.options.reset();
  model.options.set({
    output_flag: false,
    presolve,
    random_seed: 0,
    time_limit: timeLimitS,
    mip_abs_gap: gap.absolute,
    mip_rel_gap: gap.relative,
    ...(goodEnough === undefined ? {} : { objective_target: goodEnough }),
  });
  model.changeColsCost({ kind: 'range', from: 0, to: costs.length - 1 }, costs);
  const callbacks: HighsCallbackMap = {
    [highs.constants.callbackType.mipLogging](event: { data: { mip_primal_bound?: number; mip_dual_bound?: number } }) {
      report(finiteOrNull(event.data.mip_primal_bound), finiteOrNull(event.data.mip_dual_bound));
      return undefined;
    },
  };
  const status = statusOf(model, callbacks);
  if (status === BROKE_OFF) return { status, values: null, bound: Number.NEGATIVE_INFINITY, nodes: 0 };
  const hasValues = Number(model.info.get('primal_solution_status')) === FEASIBLE;
  const isMixed = Number(model.info.get('mip_node_count')) >= 0;
  const objective = hasValues ? model.getObjectiveValue() : Number.POSITIVE_INFINITY;
  return {
    status,
    values: hasValues ? Array.from(model.getSolution().colValue) : null,
    // Without whole-number columns there is no tree, and an optimal value is its own bound.
    bound: isMixed
      ? Number(model.info.get('mip_dual_bound'))
      : status === OPTIMAL
        ? objective
        : Number.NEGATIVE_INFINITY,
    nodes: Math.max(0, Number(model.info.get('mip_node_count'))),
  };
}

/** Runs the engine; on rare programmes its presolve breaks off with an error, which says nothing of the programme. */
function statusOf(model: Model, callbacks: HighsCallbackMap): number {
  try {
    return model.run(callbacks).modelStatus;
  } catch (error) {
    if ((error as Error).name !== 'HighsError') throw error;
    return BROKE_OFF;
  }
}

/** The best values of the fractional columns with the whole-number columns fixed; null where there is nothing to settle. */
function settleFractions(
  highs: Highs,
  model: Model,
  programme: IntegerProgramme,
  costs: Float64Array,
  values: number[],
): number[] | null {
  if (!costs.some((cost, column) => cost !== 0 && !programme.isInteger[column])) return null;
  const fixed = (bounds: number[]) =>
    bounds.map((bound, at) => (programme.isInteger[at] ? (values[at] as number) : bound));
  const all = { kind: 'range', from: 0, to: values.length - 1 } as const;
  model.changeColsBounds(all, fixed(programme.columnLower), fixed(programme.columnUpper));
  try {
    const run = runOnce(highs, model, costs, { absolute: 0, relative: 0 }, SETTLING_S, () => undefined);
    if (run.status !== OPTIMAL || run.values === null) return null;
    const found = roundWholeColumns(run.values, programme.isInteger);
    requireRowsHeld(programme, found);
    return aimValue(costs, found, false) <= aimValue(costs, values, false) ? found : null;
  } finally {
    model.changeColsBounds(all, programme.columnLower, programme.columnUpper);
  }
}

function finiteOrNull(value: number | undefined): number | null {
  // The engine writes 1e30 and more for "none yet".
  return value !== undefined && Math.abs(value) < 1e29 ? value : null;
}

function lockAim(model: Model, costs: Float64Array, value: number, slack: number, whole: boolean): void {
  const indices: number[] = [];
  const values: number[] = [];
  costs.forEach((cost, column) => {
    if (cost === 0) return;
    indices.push(column);
    values.push(cost);
  });
  if (indices.length === 0) return;
  const room = whole ? slack : Math.max(slack, LOCK_ROOM * Math.max(1, Math.abs(value)));
  model.addRow(Number.NEGATIVE_INFINITY, value + room, { indices, values });
}

function costsOf(aim: Aim, columnCount: number): Float64Array {
  const costs = new Float64Array(columnCount);
  aim.columns.forEach((column, at) => {
    costs[column] = (costs[column] as number) + (aim.coefficients[at] as number);
  });
  return costs;
}

function isWholeNumberAim(costs: Float64Array, isInteger: boolean[]): boolean {
  return costs.every((cost, column) => cost === 0 || (Number.isInteger(cost) && isInteger[column] === true));
}

/** The least value that the bounds of the columns allow; a proof that needs no search. */
function trivialBound(costs: Float64Array, programme: IntegerProgramme, whole: boolean): number {
  let sum = 0;
  costs.forEach((cost, column) => {
    if (cost > 0) sum += cost * (programme.columnLower[column] as number);
    else if (cost < 0) sum += cost * (programme.columnUpper[column] as number);
  });
  return whole && Number.isFinite(sum) ? Math.ceil(sum - LOCK_ROOM) : sum;
}

function aimValue(costs: Float64Array, values: number[], whole: boolean): number {
  let sum = 0;
  costs.forEach((cost, column) => {
    if (cost !== 0) sum += cost * (values[column] as number);
  });
  return whole ? Math.round(sum) + 0 : sum;
}

function isClosed(value: number, bound: number, gap: Gap): boolean {
  const room = LOCK_ROOM * Math.max(1, Math.abs(value));
  return value - bound <= Math.max(gap.absolute, gap.relative * Math.abs(value)) + room;
}

function gapOf(best: number | null, bound: number | null): number | null {
  if (best === null || bound === null || !Number.isFinite(best) || !Number.isFinite(bound)) return null;
  return Math.abs(best) < 1e-12 ? Math.abs(best - bound) : Math.max(0, best - bound) / Math.abs(best);
}

function isBoxed(programme: IntegerProgramme): boolean {
  return programme.columnLower.every(Number.isFinite) && programme.columnUpper.every(Number.isFinite);
}

function roundWholeColumns(values: number[], isInteger: boolean[]): number[] {
  // Adding 0 turns -0 into 0, which would otherwise show in snapshots.
  return values.map((value, column) => (isInteger[column] ? Math.round(value) + 0 : value));
}

/** Re-adds every row: a status is a claim, the sum is the fact. */
function requireRowsHeld(programme: IntegerProgramme, values: number[]): void {
  for (let row = 0; row < programme.rowLower.length; row++) {
    let sum = 0;
    let size = 1;
    for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at++) {
      const term = (programme.coefficients[at] as number) * (values[programme.columns[at] as number] as number);
      sum += term;
      size = Math.max(size, Math.abs(term));
    }
    const room = ROW_TOLERANCE * size;
    if (sum < (programme.rowLower[row] as number) - room || sum > (programme.rowUpper[row] as number) + room)
      throw new Error(`solver: row ${programme.rowNames[row] ?? row} is ${sum}, outside its bounds`);
  }
}

function requireSoundProgramme(programme: IntegerProgramme, aims: Aim[], timeLimitS: number): void {
  const columns = programme.columnLower.length;
  const rows = programme.rowLower.length;
  const entries = programme.coefficients.length;
  const refuse = (what: string): never => {
    throw new RangeError(`solver: ${what}`);
  };
  if (!(timeLimitS > 0)) refuse(`time limit ${timeLimitS}`);
  if (columns === 0) refuse('a programme without columns');
  if (aims.length === 0) refuse('no aim');
  if (programme.columnUpper.length !== columns || programme.isInteger.length !== columns)
    refuse('column arrays of different lengths');
  if (programme.rowUpper.length !== rows || programme.starts.length !== rows + 1)
    refuse('row arrays of different lengths');
  if (programme.columns.length !== entries || programme.starts[0] !== 0 || programme.starts[rows] !== entries)
    refuse('matrix arrays of different lengths');
  for (let column = 0; column < columns; column++) {
    const [lower, upper] = [programme.columnLower[column] as number, programme.columnUpper[column] as number];
    if (!(lower <= upper)) refuse(`bounds ${lower} to ${upper} of column ${programme.columnNames[column] ?? column}`);
  }
  const lastRowWithColumn = new Int32Array(columns).fill(-1);
  for (let row = 0; row < rows; row++) {
    const name = programme.rowNames[row] ?? row;
    if (!((programme.rowLower[row] as number) <= (programme.rowUpper[row] as number)))
      refuse(`bounds ${programme.rowLower[row]} to ${programme.rowUpper[row]} of row ${name}`);
    for (let at = programme.starts[row] as number; at < (programme.starts[row + 1] as number); at++) {
      const column = programme.columns[at] as number;
      if (!(Number.isInteger(column) && column >= 0 && column < columns)) refuse(`column ${column} in row ${name}`);
      if (lastRowWithColumn[column] === row) refuse(`column ${column} twice in row ${name}`);
      lastRowWithColumn[column] = row;
      if (!Number.isFinite(programme.coefficients[at]))
        refuse(`coefficient ${programme.coefficients[at]} in row ${name}`);
    }
  }
  for (const aim of aims) {
    if (aim.columns.length !== aim.coefficients.length) refuse(`arrays of aim ${aim.name} of different lengths`);
    for (const number of [...aim.coefficients, aim.absoluteGap, aim.relativeGap, aim.slack])
      if (!Number.isFinite(number)) refuse(`number ${number} in aim ${aim.name}`);
    for (const column of aim.columns)
      if (!(Number.isInteger(column) && column >= 0 && column < columns)) refuse(`column ${column} in aim ${aim.name}`);
  }
}
