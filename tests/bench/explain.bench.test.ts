// What derivations cost: the route without and with `explain=1`, against the answer of the calculation alone.
import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../build/api/cooking/calculators/answer-boiling-point.js';
import { answerCookTime } from '../../build/api/cooking/calculators/answer-cook-time.js';
import { answerCooling } from '../../build/api/cooking/calculators/answer-cooling.js';
import { answerFuelUse } from '../../build/api/cooking/calculators/answer-fuel-use.js';
import { answerSoaking } from '../../build/api/cooking/calculators/answer-soaking.js';
import { explainBoilingPoint } from '../../build/api/cooking/derivations/explain-boiling-point.js';
import { explainCookTime } from '../../build/api/cooking/derivations/explain-cook-time.js';
import { explainCooling } from '../../build/api/cooking/derivations/explain-cooling.js';
import { explainFuelUse } from '../../build/api/cooking/derivations/explain-fuel-use.js';
import { explainSoaking } from '../../build/api/cooking/derivations/explain-soaking.js';
import { explained } from '../../build/api/http/explained.js';

const ROUND_MS = 8;
const ROUNDS = 80;

const soak = { hours: 12, waterC: 15, discardWater: true };
const QUESTIONS = [
  ['boiling-point', answerBoilingPoint, explainBoilingPoint, { elevationM: 1900 }],
  ['soaking', answerSoaking, explainSoaking, { foodId: 'kidney-bean', hours: 12, waterC: 15 }],
  ['cook-time', answerCookTime, explainCookTime, { foodId: 'kidney-bean', elevationM: 1900, soak }],
  [
    'fuel-use',
    answerFuelUse,
    explainFuelUse,
    {
      stove: { typeId: 'propane-camp' },
      fuelId: 'propane',
      vessel: { kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
      waterL: 2,
      foods: [{ foodId: 'lentil-brown', massG: 400 }],
      startC: 8,
      airC: -5,
      elevationM: 1900,
      wind: 'screened',
      holdMinutes: 30,
    },
  ],
  [
    'cooling',
    answerCooling,
    explainCooling,
    {
      vessel: { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
      fillL: 5,
      startC: 93,
      airC: 10,
      insulation: { materialId: 'eps', thicknessMm: 50 },
      hours: 8,
    },
  ],
] as unknown as [string, (question: object) => object, (question: object) => ExplanationSteps, object][];
type ExplanationSteps = ReturnType<typeof explainCooling>;

/** Microseconds of one run, over a round. */
function microseconds(run: () => unknown): number {
  const until = performance.now() + ROUND_MS;
  const from = performance.now();
  let runs = 0;
  do {
    for (let i = 0; i < 20; i += 1) run();
    runs += 20;
  } while (performance.now() < until);
  return ((performance.now() - from) * 1000) / runs;
}

describe('derivations', () => {
  it.each(QUESTIONS)('%s: not asked for, they cost nothing', (name, answerOf, explain, question) => {
    const alone = () => answerOf(question);
    const notAsked = () => explained(answerOf, explain, question, {});
    const asked = () => explained(answerOf, explain, question, { explain: '1' });
    const runs = { alone, notAsked, asked };
    const best = {
      alone: Number.POSITIVE_INFINITY,
      notAsked: Number.POSITIVE_INFINITY,
      asked: Number.POSITIVE_INFINITY,
    };
    // Compiled first: the first runs of a process are slow in the order in which they come.
    for (let round = 0; round < 10; round += 1) for (const run of Object.values(runs)) microseconds(run);
    // In turn, and the best round of each: other work on the machine can only slow a round down.
    for (let round = 0; round < ROUNDS; round += 1)
      for (const kind of ['alone', 'notAsked', 'asked'] as const)
        best[kind] = Math.min(best[kind], microseconds(runs[kind]));
    const ratio = best.notAsked / best.alone;
    console.log(
      `${name}: answer alone ${best.alone.toFixed(1)} us, not explained ${best.notAsked.toFixed(1)} us ` +
        `(ratio ${ratio.toFixed(2)}), explained ${best.asked.toFixed(1)} us (ratio ${(best.asked / best.alone).toFixed(1)})`,
    );
    // A seventh is what the best rounds still wander on a busy machine, for answers that take a microsecond.
    expect(ratio).toBeLessThan(1.15);
  });
});
