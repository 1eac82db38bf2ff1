// Fifty households from a seed: how much of the fuel of the usual way and of a careful cook their plans take.
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '../../api/planning/check-plan.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { Plan } from '../../api/planning/plan-types.ts';
import type { Solver } from '../../api/planning/solver.ts';
import { createInThreadSolver } from '../../build/api/runtime/highs/in-thread-solver.js';
import { generatedHousehold, mixOf } from './generated-households.ts';
import { median, writeReadmePart } from './readme-part.ts';

const HOUSEHOLDS = 50;
const TIME_LIMIT_S = 5;

let solver: Solver;
beforeAll(async () => {
  solver = await createInThreadSolver();
});

describe('fifty generated households', () => {
  it('take less fuel than the usual way', async () => {
    const rows: string[] = [];
    const above: string[] = [];
    const equipped: { usual: number; careful: number; floor: number; hotMeals: 'one' | 'two' }[] = [];
    let proven = 0;
    for (let seed = 0; seed < HOUSEHOLDS; seed++) {
      const generated = generatedHousehold(seed, { days: 7, kits: 12 });
      const draft = await makePlan(
        { ...generated, request: { ...generated.request, timeLimitS: TIME_LIMIT_S } },
        { solver, now: 0, id: `bench-${seed}`, programVersion: 'bench' },
      );
      expect(checkPlan({ ...draft, schedule: [] } as Plan), `household ${seed}`).toEqual([]);
      const { planMJ, usualMJ, carefulCookMJ, floorMJ } = draft.comparison;
      const mix = mixOf(seed);
      const place = generated.household.places[0];
      if (draft.proof.status === 'optimal') proven += 1;
      if (mix.lids && (mix.box || mix.pressureCooker))
        equipped.push({
          usual: planMJ / usualMJ,
          careful: planMJ / carefulCookMJ,
          floor: planMJ / floorMJ,
          hotMeals: generated.household.meals?.some(({ id, hot }) => id === 'breakfast' && hot === 'wanted')
            ? 'two'
            : 'one',
        });
      const has = [mix.lids ? 'lid' : null, mix.box ? 'box' : null, mix.pressureCooker ? 'pressure cooker' : null];
      rows.push(
        `| ${seed} | ${generated.household.people.length} at ${place?.elevationM} m | ${has.filter((x) => x !== null).join(', ') || 'none'} | ${draft.outcome}, ${draft.proof.status} | ${planMJ.toFixed(1)} | ${percent(planMJ / usualMJ)} | ${percent(planMJ / carefulCookMJ)} | ${(planMJ / floorMJ).toFixed(1)} |`,
      );
      if (planMJ > carefulCookMJ * 1.001)
        above.push(
          `- Household ${seed}: ${percent(planMJ / carefulCookMJ)} of a careful cook's fuel, because ${mix.lids ? 'it spares what is scarcest, not the most heat' : 'its pots have no lids, which a careful cook is given'}.`,
        );
    }
    const usual = median(equipped.map((row) => row.usual));
    const careful = median(equipped.map((row) => row.careful));
    const floor = median(equipped.map((row) => row.floor));
    const ofUsual = (hotMeals: 'one' | 'two') =>
      percent(median(equipped.filter((row) => row.hotMeals === hotMeals).map((row) => row.usual)));
    const summary = `Median of the ${equipped.length} households with lids, a bowl and a box or a pressure cooker: ${percent(usual)} of the fuel of the usual way, ${percent(careful)} of a careful cook's, ${floor.toFixed(1)} times the physical floor. Those that ask for one hot meal a day: ${ofUsual('one')} of the usual way's; for a hot breakfast too: ${ofUsual('two')}. ${proven} of ${HOUSEHOLDS} plans are proven within ${TIME_LIMIT_S} s. A third of the households has no box, a third no pressure cooker, an eighth no lids; half of the kits have no pulses, a sixth is freeze-dried; boxes were tried once and kept as the tables say.`;
    writeReadmePart('households', [
      summary,
      '',
      '<details><summary>All fifty</summary>',
      '',
      '| household | people | has | plan | MJ | of the usual way | of a careful cook | times the floor |',
      '|---|---|---|---|---|---|---|---|',
      ...rows,
      '',
      '</details>',
      '',
      ...(above.length === 0 ? ['No plan takes more fuel than a careful cook.'] : above),
    ]);
    console.log(summary, '\n', above.join('\n'));
    expect(usual).toBeLessThan(1);
    expect(careful).toBeLessThan(1);
  }, 1_200_000);
});

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
