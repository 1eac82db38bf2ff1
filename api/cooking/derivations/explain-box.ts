/** The steps behind the shortest boil before a box. */
import type { SourceRef } from '../../physics/parameter.ts';
import type { ExplanationStep } from '../calculators/calculator-types.ts';
import { foodOf } from '../foods/foods-table.ts';
import { type BoxBoilQuestion, boilBeforeBox } from '../kinetics/box-cooking.ts';
import { LECTIN_PARAMETERS } from '../kinetics/lectin-rule.ts';
import { additiveFactor, HYDRATION_Z_K } from '../kinetics/softening-kinetics.ts';
import { addAdditiveFactor } from './explain-cook-time.ts';
import { type StepList, stepList } from './explanation-steps.ts';

const COOK_VALUE: SourceRef = { key: 'planner-derivation', place: 'cook value of a cooling pot' };

/**
 * The steps behind `boilBeforeBox` of a food that is boiled; the minutes of boil come last, as `boxBoil`.
 * @throws as `boilBeforeBox`
 */
export function explainBoilBeforeBox(q: BoxBoilQuestion): ExplanationStep[] {
  const list = stepList();
  const answer = boilBeforeBox(q);
  const food = foodOf(q);
  list.fact('temperatureC', q.temperatureC, 'C');
  if (food === undefined || food.kinetics.kind === 'ready') {
    list.fact('boxBoil', 0, 'min', 'needs no boil');
    return list.steps;
  }
  const { kinetics } = food;
  list.fact('hydrationShare', q.hydrationShare, '1');
  list.fact('boxStartC', q.boxStartC, 'C');
  list.fact('boxAirC', q.airC, 'C');
  list.fact('boxTimeConstantHours', q.timeConstantHours, 'h');
  list.fact('boxMinutes', q.boxMinutes, 'min');
  const factors: string[] = [];
  if (q.measuredLot !== undefined) {
    const tests: SourceRef = { key: 'kitchenPractice', place: 'own tests of the lot' };
    list.fact('measuredLot', q.measuredLot.p50, '1', 'tests of this lot against the table', tests);
    factors.push('measuredLot');
  }
  const lot = factors.map((name) => ` * ${name}`).join('');
  list.row('softeningMinutes', kinetics.softeningMinutes, 'table row, at 100 C');
  list.row('zBelowK', kinetics.zBelowC, 'table row, up to 100 C');
  list.row('zAboveK', kinetics.zAboveC, 'table row, above 100 C');
  list.fact('cutOffC', kinetics.cutOffC, 'C', 'below this no credit is given', kinetics.cutOffSource);
  if (kinetics.hydrationMinutes !== null) {
    if (q.storageFactor !== undefined) {
      list.fact('storageFactor', q.storageFactor, '1');
      factors.push('storageFactor');
    }
    const cooking = q.cookingAdditive ?? 'none';
    const additive = additiveFactor('none', cooking, q.hydrationShare, false);
    addAdditiveFactor(list, additive.value, { soak: 'none', cooking, soakWaterKept: false });
    factors.push('additiveFactor');
    list.row('hydrationMinutes', kinetics.hydrationMinutes, 'table row, at 100 C, unsoaked');
  }
  list.row('hydrationZK', HYDRATION_Z_K);
  const kidney = food.lectin === 'kidney-family';
  if (kidney) addLectinBoil(list, q, answer.lectinBoilMinutes);
  const soften = ['softeningMinutes', ...factors].join(' * ');
  const hydrate = kinetics.hydrationMinutes === null ? '0' : `(1 - hydrationShare) * hydrationMinutes${lot}`;
  const boil =
    `boilBeforeBoxMinutes(${soften}, ${hydrate}, zBelowK, zAboveK, hydrationZK, cutOffC, temperatureC, ` +
    'boxStartC, boxAirC, boxTimeConstantHours, boxMinutes)';
  list.computed('boxBoil', answer.boilMinutes.p50, 'min', `max(1, ${kidney ? 'lectinBoil, ' : ''}${boil})`, COOK_VALUE);
  return list.steps;
}

/** What the rule for kidney-family beans asks before a box, `lectinBoil`. */
function addLectinBoil(list: StepList, q: BoxBoilQuestion, minutes: number): void {
  const rule = LECTIN_PARAMETERS;
  const below = q.temperatureC <= 100;
  list.row('lectinMinutesAt100C', rule.minutesAt100C, 'boil at 100 C that the rule asks');
  list.row('lectinZK', below ? rule.zBelow100C : rule.zAbove100C, below ? 'up to 100 C' : 'above 100 C');
  const open = q.temperatureC <= 101.5 && q.temperatureMeasured !== true;
  if (open) list.row('winterLowFactor', rule.winterLowFactor, 'open pot judged by its elevation');
  const slow = q.measuredLot === undefined ? '' : ' * max(1, measuredLot)';
  list.computed(
    'lectinBoil',
    minutes,
    'min',
    `(1 - hydrationShare) * hydrationMinutes${slow} * 10 ^ ((100 - temperatureC) / hydrationZK) + ` +
      `lectinMinutesAt100C * 10 ^ ((100 - temperatureC) / lectinZK)${open ? ' * winterLowFactor' : ''}`,
    rule.minutesAt100C.source,
    true,
  );
}
