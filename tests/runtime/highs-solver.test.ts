import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import loadHighs from 'highs';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Aim, IntegerProgramme, SolveProgress, Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';
import { solveProgramme } from '../../api/runtime/highs/solve-programme.ts';
import { createHighsSolver } from '../../api/runtime/node/highs-solver.ts';

const INFINITY = Number.POSITIVE_INFINITY;

function programme(
  columns: { lower?: number; upper: number; whole?: boolean }[],
  rows: { lower?: number; upper?: number; terms: [number, number][] }[],
): IntegerProgramme {
  const starts = [0];
  for (const row of rows) starts.push((starts.at(-1) as number) + row.terms.length);
  return {
    columnNames: columns.map((_, at) => `x${at}`),
    rowNames: rows.map((_, at) => `r${at}`),
    columnLower: columns.map((column) => column.lower ?? 0),
    columnUpper: columns.map((column) => column.upper),
    isInteger: columns.map((column) => column.whole ?? true),
    starts,
    columns: rows.flatMap((row) => row.terms.map(([column]) => column)),
    coefficients: rows.flatMap((row) => row.terms.map(([, coefficient]) => coefficient)),
    rowLower: rows.map((row) => row.lower ?? -INFINITY),
    rowUpper: rows.map((row) => row.upper ?? INFINITY),
  };
}

function aim(name: string, coefficients: number[], own: Partial<Aim> = {}): Aim {
  return {
    name,
    columns: coefficients.map((_, at) => at),
    coefficients,
    absoluteGap: 0,
    relativeGap: 0,
    slack: 0,
    ...own,
  };
}

/** A small generator with a fixed seed (Numerical Recipes' constants), so that a failure can be repeated. */
function seeded(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
}

/** All points of the box that keep the rows, in the order of the aims: the least value of each aim in turn. */
function bestByTrial(problem: IntegerProgramme, aims: Aim[]): number[] | null {
  let points: number[][] = [[]];
  problem.columnUpper.forEach((upper, column) => {
    points = points.flatMap((point) => {
      const longer: number[][] = [];
      for (let value = problem.columnLower[column] as number; value <= upper; value++) longer.push([...point, value]);
      return longer;
    });
  });
  points = points.filter((point) =>
    problem.rowLower.every((lower, row) => {
      let sum = 0;
      for (let at = problem.starts[row] as number; at < (problem.starts[row + 1] as number); at++)
        sum += (problem.coefficients[at] as number) * (point[problem.columns[at] as number] as number);
      return sum >= lower - 1e-9 && sum <= (problem.rowUpper[row] as number) + 1e-9;
    }),
  );
  if (points.length === 0) return null;
  return aims.map((one) => {
    const value = (point: number[]) =>
      one.columns.reduce((sum, column, at) => sum + (one.coefficients[at] as number) * (point[column] as number), 0);
    const least = Math.min(...points.map(value));
    points = points.filter((point) => value(point) <= least + one.slack + 1e-9);
    return least;
  });
}

/** Picks of weighted things with equal ratios: no proof within a second or two. */
function hardProgramme(columns: number): IntegerProgramme {
  const random = seeded(5);
  const rows = Array.from({ length: 12 }, () => {
    const terms = Array.from({ length: columns }, (_, at): [number, number] => [at, 100 + random(900)]);
    const half = Math.floor(terms.reduce((sum, [, weight]) => sum + weight, 0) / 2);
    return { terms, half };
  });
  // Market split: each row is met exactly or pays on either side.
  return programme(
    [
      ...Array.from({ length: columns }, () => ({ upper: 1 })),
      ...rows.flatMap(() => [
        { upper: 1e6, whole: false },
        { upper: 1e6, whole: false },
      ]),
    ],
    rows.map(({ terms, half }, row) => ({
      lower: half,
      upper: half,
      terms: [...terms, [columns + 2 * row, 1], [columns + 2 * row + 1, -1]],
    })),
  );
}
const HARD_COLUMNS = 50;
const HARD = hardProgramme(HARD_COLUMNS);
const HARD_AIM: Aim = {
  name: 'split',
  columns: Array.from({ length: 24 }, (_, at) => HARD_COLUMNS + at),
  coefficients: Array.from({ length: 24 }, () => 1),
  absoluteGap: 0,
  relativeGap: 0,
  slack: 0,
};

const KNAPSACK = programme(
  [{ upper: 9 }, { upper: 9 }],
  [
    {
      lower: 7,
      terms: [
        [0, 2],
        [1, 3],
      ],
    },
  ],
);

describe('aims one after the other, on the calling thread', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await createInThreadSolver();
  });

  it('names the engine and its version', () => {
    expect(solver.version).toMatch(/^HiGHS \d+\.\d+\.\d+$/);
  });

  it('solves the hand instance: rice, then soaked beans, at 0.16 kg of propane and 6 L', async () => {
    // Columns: rice and beans on the flame on evening 1; rice, beans on the flame, beans in the box on evening 2; unfed 1, 2.
    const fuel = [0.1, 0.3, 0.1, 0.3, 0.06, 0, 0];
    const water = [2, 3, 2, 3, 4, 0, 0];
    const hand = (propaneKg: number, waterL: number) =>
      programme(
        fuel.map(() => ({ upper: 1 })),
        [
          {
            lower: 1,
            upper: 1,
            terms: [
              [0, 1],
              [1, 1],
              [5, 1],
            ],
          },
          {
            lower: 1,
            upper: 1,
            terms: [
              [2, 1],
              [3, 1],
              [4, 1],
              [6, 1],
            ],
          },
          {
            upper: 1,
            terms: [
              [0, 1],
              [2, 1],
            ],
          },
          { upper: propaneKg, terms: fuel.flatMap((kg, at): [number, number][] => (kg > 0 ? [[at, kg]] : [])) },
          {
            upper: waterL,
            terms: water.flatMap((litres, at): [number, number][] => (litres > 0 ? [[at, litres]] : [])),
          },
        ],
      );
    const aims = [aim('feed-everyone', [0, 0, 0, 0, 0, 1, 1]), aim('fuel', fuel, { absoluteGap: 1e-6 })];
    const fed = await solver.solve(hand(0.16, 6), aims, { timeLimitS: 10 });
    expect(fed).toMatchObject({ status: 'solved', closed: true, values: [1, 0, 0, 0, 1, 0, 0] });
    if (fed.status === 'solved') {
      expect(fed.aims[0]).toMatchObject({ name: 'feed-everyone', value: 0, bound: 0, closed: true });
      // The sum of the hand instance, to the engine's feasibility tolerance.
      expect(fed.aims[1]?.value).toBeCloseTo(0.16, 6);
    }
    for (const [kg, litres] of [
      [0.15, 7],
      [0.16, 5.9],
      [0.4, 4.9],
      [0.09, 9],
    ] as const) {
      const missed = await solver.solve(hand(kg, litres), aims, { timeLimitS: 10 });
      expect(missed.status === 'solved' && missed.aims[0]?.value).toBe(1);
    }
  });

  it('agrees with trying every point, aim by aim, on 120 small programmes', async () => {
    const random = seeded(20261205);
    let infeasible = 0;
    for (let round = 0; round < 120; round++) {
      const columns = 3 + random(2);
      const signed = () => random(11) - 4;
      const problem = programme(
        Array.from({ length: columns }, () => ({ upper: 1 + random(3) })),
        Array.from({ length: 3 }, () => {
          const terms = Array.from({ length: columns }, (_, at): [number, number] => [at, signed()]).filter(
            ([, coefficient]) => coefficient !== 0,
          );
          return random(2) === 0 ? { upper: random(12), terms } : { lower: 1 + random(9), terms };
        }).filter((row) => row.terms.length > 0),
      );
      const tenths = Array.from({ length: columns }, () => random(40) / 10 - 0.7);
      const aims = [
        aim('whole', Array.from({ length: columns }, signed)),
        aim('tenths', tenths, { absoluteGap: 1e-7 }),
        aim('last', Array.from({ length: columns }, signed)),
      ];
      const best = bestByTrial(problem, aims);
      const found = await solver.solve(problem, aims, { timeLimitS: 10 });
      if (best === null) {
        infeasible++;
        expect(found, `round ${round}`).toEqual({ status: 'infeasible' });
        continue;
      }
      expect(found.status, `round ${round}`).toBe('solved');
      if (found.status !== 'solved') continue;
      expect(found.closed).toBe(true);
      found.aims.forEach((outcome, at) => {
        // 1e-6: the room with which a fractional aim is held.
        expect(Math.abs(outcome.value - (best[at] as number)), `round ${round}, aim ${at}`).toBeLessThan(1e-5);
        expect(outcome.bound).toBeLessThanOrEqual(outcome.value);
        expect(outcome.value - outcome.bound).toBeLessThan(1e-5);
      });
    }
    expect(infeasible).toBeGreaterThan(0);
    expect(infeasible).toBeLessThan(60);
  });

  it('lets later aims spend the slack of an earlier one, and no more', async () => {
    const problem = programme(
      [{ upper: 9 }, { upper: 9 }],
      [
        {
          lower: 9,
          terms: [
            [0, 1],
            [1, 1],
          ],
        },
      ],
    );
    const solveWith = async (slack: number) => {
      const found = await solver.solve(problem, [aim('first', [1, 0], { slack }), aim('second', [0, 1])], {
        timeLimitS: 5,
      });
      return found.status === 'solved' ? found.values : null;
    };
    expect(await solveWith(0)).toEqual([0, 9]);
    expect(await solveWith(2)).toEqual([2, 7]);
  });

  it('takes continuous programmes, aims without columns, and columns named twice in an aim', async () => {
    const continuous = programme(
      [
        { upper: 9, whole: false },
        { upper: 9, whole: false },
      ],
      [
        {
          lower: 7,
          terms: [
            [0, 2],
            [1, 3],
          ],
        },
      ],
    );
    const aims: Aim[] = [
      { name: 'twice', columns: [0, 1, 0], coefficients: [1, 4, 2], absoluteGap: 0, relativeGap: 0, slack: 0 },
      { name: 'none', columns: [], coefficients: [], absoluteGap: 0, relativeGap: 0, slack: 0 },
    ];
    const found = await solver.solve(continuous, aims, { timeLimitS: 5 });
    expect(found).toMatchObject({ status: 'solved', closed: true });
    // 3 x + 4 y with 2 x + 3 y >= 7: y = 7/3.
    if (found.status === 'solved') expect(found.aims[0]?.value).toBeCloseTo(28 / 3, 6);
  });

  it('says infeasible', async () => {
    const never = programme([{ upper: 2 }], [{ lower: 7, terms: [[0, 2]] }]);
    expect(await solver.solve(never, [aim('any', [1])], { timeLimitS: 5 })).toEqual({ status: 'infeasible' });
  });

  it('stops at the time limit with values, a bound and an open aim, and still does the later aims', async () => {
    const started = performance.now();
    const found = await solver.solve(HARD, [HARD_AIM, aim('first column', [1])], { timeLimitS: 1 });
    // Twice the limit: other work may share the machine.
    expect((performance.now() - started) / 1000).toBeLessThan(2);
    expect(found).toMatchObject({ status: 'solved', closed: false });
    if (found.status !== 'solved') return;
    expect(found.aims[0]?.closed).toBe(false);
    expect(found.aims[0]?.bound).toBeLessThan(found.aims[0]?.value as number);
    expect(found.aims[1]?.name).toBe('first column');
    const value = HARD_AIM.columns.reduce((sum, column) => sum + (found.values[column] as number), 0);
    expect(value).toBeLessThanOrEqual((found.aims[0]?.value as number) * (1 + 1e-6));
  });

  it('settles idle columns of aims whose time never came', async () => {
    // Two columns that the first aim leaves free: one has to lie above 3 x + 4 y, one below 50 - x.
    const problem = programme(
      [{ upper: 9 }, { upper: 9 }, { upper: 1e4, whole: false }, { upper: 1e4, whole: false }],
      [
        {
          lower: 7,
          terms: [
            [0, 2],
            [1, 3],
          ],
        },
        {
          lower: 0,
          terms: [
            [0, -3],
            [1, -4],
            [2, 1],
          ],
        },
        {
          upper: 50,
          terms: [
            [0, 1],
            [3, 1],
          ],
        },
      ],
    );
    const aims = [aim('cost', [3, 4, 0, 0]), aim('above', [0, 0, 1, 0]), aim('below', [0, 0, 0, -1])];
    // A clock that stands still until the first aim is done and then passes the limit.
    let readings = 0;
    const now = () => (readings++ < 2 ? 0 : 1e9);
    const found = solveProgramme(await loadHighs(), problem, aims, { timeLimitS: 5, now });
    expect(found.status).toBe('solved');
    if (found.status !== 'solved') return;
    // 2 x + 3 y >= 7 at least cost: x = 2, y = 1.
    expect(found.values).toEqual([2, 1, 10, 48]);
    expect(found.closed).toBe(false);
    expect(found.aims[2]).toMatchObject({ value: -48, closed: false });
  });

  it('says so when no solution is found in time', async () => {
    const found = await solver.solve(HARD, [HARD_AIM], { timeLimitS: 0.001 });
    expect(found.status).toBe('no-solution-in-time');
  });

  it('goes on without presolve where a run breaks off, and fails where that breaks off too', async () => {
    const highs = await loadHighs();
    /** The engine, of which the first runs of a model break off as its presolve does on rare programmes. */
    const breaking = (runs: number, after = 0): typeof highs =>
      ({
        ...highs,
        constants: highs.constants,
        createModel: (...given: Parameters<typeof highs.createModel>) => {
          const model = highs.createModel(...given);
          const run = model.run.bind(model);
          let count = 0;
          model.run = (...own: Parameters<typeof run>) => {
            count += 1;
            if (count <= after || count > after + runs) return run(...own);
            throw Object.assign(new Error('run failed with HiGHS status -1'), { name: 'HighsError' });
          };
          return model;
        },
      }) as typeof highs;
    const aims = [aim('first', [1, 1]), aim('second', [1, 2])];
    const small = programme(
      [{ upper: 9 }, { upper: 9 }],
      [
        {
          lower: 3,
          terms: [
            [0, 1],
            [1, 1],
          ],
        },
      ],
    );
    const solve = (runs: number, after = 0) =>
      solveProgramme(breaking(runs, after), small, aims, { timeLimitS: 5, now: () => performance.now() });
    const whole = solve(0);
    expect(solve(1)).toMatchObject({ status: 'solved', closed: true, values: (whole as { values: number[] }).values });
    expect(solve(1, 1)).toMatchObject({ status: 'solved', closed: true });
    // With a solution in hand the aim is told as not closed; without any there is none to tell.
    expect(solve(2, 1)).toMatchObject({ status: 'solved', closed: false });
    expect(() => solve(2)).toThrow(/unexpected status/);
  });

  it('refuses numbers that are none, and arrays that do not fit', async () => {
    const refuse = (own: Partial<IntegerProgramme>) =>
      expect(solver.solve({ ...KNAPSACK, ...own }, [aim('cost', [3, 4])], { timeLimitS: 5 })).rejects.toThrow(
        RangeError,
      );
    await refuse({ coefficients: [2, Number.NaN] });
    await refuse({ coefficients: [2, INFINITY] });
    await refuse({ rowLower: [Number.NaN] });
    await refuse({ columnUpper: [9, Number.NaN] });
    await refuse({ columnLower: [0, 10] });
    await refuse({ columns: [0, 0] });
    await refuse({ columns: [0, 2] });
    await refuse({ starts: [0, 1] });
    await expect(solver.solve(KNAPSACK, [aim('cost', [3, Number.NaN])], { timeLimitS: 5 })).rejects.toThrow(/aim cost/);
    await expect(solver.solve(KNAPSACK, [], { timeLimitS: 5 })).rejects.toThrow(RangeError);
  });

  it('gives the same answer twice', async () => {
    const random = seeded(3);
    const problem = programme(
      Array.from({ length: 20 }, () => ({ upper: 3 })),
      Array.from({ length: 8 }, () => ({
        lower: 20,
        terms: Array.from({ length: 20 }, (_, at): [number, number] => [at, 1 + random(6)]),
      })),
    );
    const aims = [
      aim(
        'a',
        Array.from({ length: 20 }, () => 1 + random(4)),
      ),
      aim(
        'b',
        Array.from({ length: 20 }, () => 1 + random(9) / 10),
        { relativeGap: 1e-6 },
      ),
    ];
    const ask = async () => {
      const found = await solver.solve(problem, aims, { timeLimitS: 20 });
      if (found.status !== 'solved') throw new Error(found.status);
      return { values: found.values, aims: found.aims.map(({ seconds: _, ...rest }) => rest) };
    };
    const first = await ask();
    await solver.solve(KNAPSACK, [aim('cost', [3, 4])], { timeLimitS: 5 });
    expect(await ask()).toEqual(first);
  });

  it('reports the start and the end of every aim', async () => {
    const seen: SolveProgress[] = [];
    await solver.solve(KNAPSACK, [aim('cost', [3, 4]), aim('less of x', [1, 0])], {
      timeLimitS: 5,
      onProgress: (progress) => seen.push(progress),
    });
    expect(seen[0]).toMatchObject({ aim: 'cost', best: null, gap: null });
    expect(seen.findLast((row) => row.aim === 'cost')).toMatchObject({ best: 10, bound: 10, gap: 0 });
    expect(seen.at(-1)).toMatchObject({ aim: 'less of x', best: 2, gap: 0 });
    for (const [at, row] of seen.entries()) expect(row.elapsedS).toBeGreaterThanOrEqual(seen[at - 1]?.elapsedS ?? 0);
  });

  it('hands no start solution to the engine', () => {
    const folder = fileURLToPath(new URL('../../api/runtime/', import.meta.url));
    const scripts = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'));
    expect(scripts.some((name) => name.endsWith('solve-programme.ts'))).toBe(true);
    for (const name of scripts)
      expect(readFileSync(`${folder}/${name}`, 'utf8'), name).not.toMatch(/set(Sparse)?Solution\(|setBasis\(/);
  });
});

describe('the worker thread', () => {
  let solver: Awaited<ReturnType<typeof createHighsSolver>>;
  // A folder inside the project, so that the bundled worker finds the engine.
  const folder = fileURLToPath(new URL('../../build/test-worker/', import.meta.url));
  const entry = pathToFileURL(`${folder}highs-worker.mjs`);

  beforeAll(async () => {
    const source = fileURLToPath(new URL('../../api/runtime/node/highs-worker.ts', import.meta.url));
    await build({
      configFile: false,
      logLevel: 'error',
      ssr: { external: ['highs'] },
      build: {
        ssr: source,
        outDir: folder,
        emptyOutDir: true,
        rolldownOptions: { output: { entryFileNames: '[name].mjs' } },
      },
    });
    solver = await createHighsSolver(entry);
  }, 30_000);
  afterAll(async () => {
    await solver.close();
  });

  const cost = [aim('cost', [3, 4])];

  it('answers as the calling thread does', async () => {
    const here = await createInThreadSolver();
    expect(solver.version).toBe(here.version);
    const progress: SolveProgress[] = [];
    const found = await solver.solve(KNAPSACK, cost, { timeLimitS: 5, onProgress: (row) => progress.push(row) });
    const own = await here.solve(KNAPSACK, cost, { timeLimitS: 5 });
    expect(found.status === 'solved' && found.values).toEqual(own.status === 'solved' && own.values);
    expect(progress.at(-1)).toMatchObject({ aim: 'cost', best: 10 });
  });

  it('passes faults on as messages and goes on', async () => {
    await expect(solver.solve({ ...KNAPSACK, coefficients: [2, Number.NaN] }, cost, { timeLimitS: 5 })).rejects.toThrow(
      /coefficient NaN in row r0/,
    );
    expect(await solver.solve(KNAPSACK, cost, { timeLimitS: 5 })).toMatchObject({ status: 'solved' });
  });

  it('cancels what runs within a second, and what waits at once', async () => {
    const [running, waiting] = [new AbortController(), new AbortController()];
    const long = solver.solve(HARD, [HARD_AIM], { timeLimitS: 60, signal: running.signal });
    const behind = solver.solve(KNAPSACK, cost, { timeLimitS: 5, signal: waiting.signal });
    const last = solver.solve(KNAPSACK, cost, { timeLimitS: 5 });
    waiting.abort();
    expect(await behind).toEqual({ status: 'cancelled' });
    await new Promise((resolve) => setTimeout(resolve, 100));
    const started = performance.now();
    running.abort();
    expect(await long).toEqual({ status: 'cancelled' });
    expect(performance.now() - started).toBeLessThan(1000);
    // The worker that took its place.
    expect(await last).toMatchObject({ status: 'solved' });
    expect(await solver.solve(KNAPSACK, cost, { timeLimitS: 5, signal: running.signal })).toEqual({
      status: 'cancelled',
    });
  });

  it('lets two wait and refuses the next', async () => {
    const stop = new AbortController();
    const options = { timeLimitS: 30, signal: stop.signal };
    const taken = [1, 2, 3].map(() => solver.solve(HARD, [HARD_AIM], options));
    const refused = await solver.solve(KNAPSACK, cost, { timeLimitS: 5 }).catch((fault: unknown) => fault);
    expect(refused).toMatchObject({ name: 'SolverBusyError' });
    expect((refused as { retryAfterS: number }).retryAfterS).toBeGreaterThanOrEqual(1);
    expect((refused as { retryAfterS: number }).retryAfterS).toBeLessThanOrEqual(30);
    stop.abort();
    expect(await Promise.all(taken)).toEqual(taken.map(() => ({ status: 'cancelled' })));
    expect(await solver.solve(KNAPSACK, cost, { timeLimitS: 5 })).toMatchObject({ status: 'solved' });
  });

  it('cancels on closing, and takes nothing more', async () => {
    const own = await createHighsSolver(entry);
    const left = own.solve(HARD, [HARD_AIM], { timeLimitS: 30 });
    await own.close();
    expect(await left).toEqual({ status: 'cancelled' });
    await expect(own.solve(KNAPSACK, cost, { timeLimitS: 5 })).rejects.toThrow(/closed/);
  });

  it('reports a worker that cannot be loaded', async () => {
    await expect(createHighsSolver(pathToFileURL(`${folder}none.mjs`))).rejects.toThrow();
  });
});
