/** Columns that can only be nothing leave a programme, and what comes out is the same. */
import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { withoutUnused } from '../../api/planning/programme/without-unused.ts';
import type { Aim, IntegerProgramme, Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../api/runtime/highs/in-thread-solver.ts';

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

/** A cover of some rows by whole columns, of which some are held at nothing. */
function programmeOf(
  covers: boolean[][],
  held: boolean[],
  costs: number[],
): { programme: IntegerProgramme; aims: Aim[] } {
  const columns = held.length;
  const rows = covers.map((row) => row.slice(0, columns).flatMap((has, column) => (has ? [column] : [])));
  return {
    programme: {
      columnNames: held.map((_, column) => `c${column}`),
      rowNames: rows.map((_, row) => `r${row}`),
      columnLower: held.map(() => 0),
      columnUpper: held.map((is) => (is ? 0 : 3)),
      isInteger: held.map(() => true),
      starts: rows.reduce((starts, row) => [...starts, (starts.at(-1) as number) + row.length], [0]),
      columns: rows.flat(),
      coefficients: rows.flat().map(() => 1),
      rowLower: rows.map(() => 1),
      rowUpper: rows.map(() => 1e6),
    },
    aims: [
      {
        name: 'cost',
        columns: held.map((_, column) => column),
        coefficients: held.map((_, column) => costs[column] as number),
        absoluteGap: 1e-6,
        relativeGap: 0,
        slack: 0,
      },
    ],
  };
}

it('is as good, and as impossible, as the programme that was handed in', async () => {
  let solved = 0;
  let impossible = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(fc.boolean(), { minLength: 7, maxLength: 7 }), { minLength: 1, maxLength: 5 }),
      fc.array(fc.boolean(), { minLength: 7, maxLength: 7 }),
      fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 7, maxLength: 7 }),
      async (covers, held, costs) => {
        const { programme, aims } = programmeOf(covers, held, costs);
        const used = withoutUnused(programme, aims);
        expect(used.programme.columnNames).toEqual(programme.columnNames.filter((_, column) => held[column] === false));
        if (used.programme.columnNames.length === 0) return;
        const whole = await solver.solve(programme, aims, { timeLimitS: 5 });
        const small = await solver.solve(used.programme, used.aims, { timeLimitS: 5 });
        expect(small.status).toBe(whole.status);
        if (whole.status !== 'solved' || small.status !== 'solved') {
          impossible += 1;
          return;
        }
        solved += 1;
        expect(small.aims[0]?.value).toBeCloseTo(whole.aims[0]?.value ?? Number.NaN, 6);
        const values = used.expand(small.values);
        expect(values).toHaveLength(programme.columnNames.length);
        held.forEach((is, column) => {
          if (is) expect(values[column]).toBe(0);
        });
        for (const row of covers) {
          const sum = row.reduce((total, has, column) => total + (has ? (values[column] as number) : 0), 0);
          expect(sum).toBeGreaterThanOrEqual(1 - 1e-6);
        }
      },
    ),
    { numRuns: 60, seed: 7 },
  );
  expect(solved).toBeGreaterThan(10);
  expect(impossible).toBeGreaterThan(10);
}, 60_000);
