/** The steps behind the answers on cooking time. */
import type { Parameter } from '../physics/parameter.ts';
import { answerCookTime, cookedFoodOf, potTemperature, resolveCookTime } from './answer-cook-time.ts';
import type { CookTimeQuestion, ExplanationStep } from './calculator-types.ts';
import { HYDRATION_Z_K, minutesToSoft, timeFactor } from './softening-kinetics.ts';

/**
 * The steps behind `answerCookTime`: re-computing the last from the listed ones gives its number.
 * @throws as `answerCookTime`
 */
export function explainCookTime(q: CookTimeQuestion): ExplanationStep[] {
  const food = cookedFoodOf(q.foodId);
  const { kinetics } = food;
  const steps: ExplanationStep[] = [];
  const derived = { key: 'planner-derivation', place: 'api/cooking' } as const;
  const add = (
    quantity: string,
    value: number | string | boolean,
    unit: string,
    relation: string,
    inputs: string[],
    source: ExplanationStep['source'],
    isEstimate = false,
  ) => steps.push({ quantity, value, unit, relation, inputs, source, estimate: isEstimate });
  const row = (quantity: string, p: Parameter) => add(quantity, p.value, p.unit, 'table row', [], p.source, p.estimate);
  if (kinetics.kind === 'ready') {
    add(
      'temperatureC',
      potTemperature(q).temperatureC,
      'C',
      'boiling point at the air pressure',
      ['elevationM'],
      derived,
    );
    row('standMinutesHot', kinetics.standMinutesHot);
    add('minutes', 0, 'min', 'needs no boil', [], derived);
    return steps;
  }
  const r = resolveCookTime(q, food, kinetics);
  const T = r.pot.temperatureC;
  const z = T <= 100 ? kinetics.zBelowC : kinetics.zAboveC;
  const extrapolated = T < kinetics.measuredFromC || T > kinetics.measuredToC;
  add(
    'temperatureC',
    T,
    'C',
    r.pot.underPressure ? 'boiling point at air plus gauge pressure' : 'boiling point, or as given',
    [q.temperatureC === undefined ? 'elevationM' : 'temperatureC'],
    derived,
  );
  row('t_soft', kinetics.softeningMinutes);
  add(
    'z',
    z.value,
    z.unit,
    T <= 100 ? 'table row, up to 100 C' : 'table row, above 100 C',
    [],
    z.source,
    z.estimate || extrapolated,
  );
  add('f', r.share, '', 'hydration share of the soak, 0 without one', ['soak'], derived);
  add(
    'A',
    r.storage.value,
    '',
    'min(5, exp(k years)), k = 0.637 * 3^((T - 4.4)/10) * 2^(w - 17)',
    ['storage'],
    r.storage.source,
    r.storage.estimate,
  );
  add(
    'C',
    r.additive.value,
    '',
    'soak and cooking additive',
    ['soak.additive', 'cookingAdditive'],
    r.additive.source,
    r.additive.estimate,
  );
  if (kinetics.hydrationMinutes === null) {
    const S = food.soakSavesShare === null ? 0 : food.soakSavesShare.value;
    add(
      'S',
      S,
      '',
      'share of the minutes that a full soak saves',
      [],
      food.soakSavesShare?.source ?? derived,
      food.soakSavesShare?.estimate ?? false,
    );
    add(
      'minutes',
      kinetics.softeningMinutes.value *
        (1 - S * r.share) *
        timeFactor(T, kinetics.zBelowC.value, kinetics.zAboveC.value),
      'min',
      't_soft * (1 - S f) * 10^((100 - temperatureC)/z)',
      ['t_soft', 'S', 'f', 'temperatureC', 'z'],
      z.source,
      extrapolated,
    );
    return steps;
  }
  row('t_hyd', kinetics.hydrationMinutes);
  row('z_hyd', HYDRATION_Z_K);
  const parts = minutesToSoft({
    softeningMinutes: kinetics.softeningMinutes.value,
    hydrationMinutes: kinetics.hydrationMinutes.value,
    hydrationShare: r.share,
    storageFactor: r.storage.value,
    additiveFactor: r.additive.value,
    temperatureC: T,
    zBelow: kinetics.zBelowC.value,
    zAbove: kinetics.zAboveC.value,
    zHydration: HYDRATION_Z_K.value,
  });
  add(
    'softening',
    parts.softening,
    'min',
    'A C t_soft 10^((100 - temperatureC)/z)',
    ['A', 'C', 't_soft', 'temperatureC', 'z'],
    z.source,
    extrapolated,
  );
  add(
    'hydration',
    parts.hydration,
    'min',
    '(1 - f) t_hyd 10^((100 - temperatureC)/z_hyd)',
    ['f', 't_hyd', 'temperatureC', 'z_hyd'],
    HYDRATION_Z_K.source,
    true,
  );
  const { lectin } = answerCookTime(q);
  add('lectinVerdict', lectin.verdict, '', lectin.reason, ['soak', 'firstWater', 'temperatureC'], {
    key: 'fda-bad-bug-book',
    place: 'kidney beans: soak 5 h, pour away, boil 30 min in fresh water',
  });
  add(
    'boilMinutesNeeded',
    lectin.boilMinutesNeeded,
    'min',
    'missing hydration, then 30 min at 100 C by z 22 below and 30 above, x 1.15 by elevation',
    ['hydration', 'temperatureC'],
    {
      key: 'thompson-1983',
      place: 'z 22 recalled; He 2014 z 30',
    },
    true,
  );
  add('minutes', parts.total, 'min', 'softening + hydration', ['softening', 'hydration'], derived, extrapolated);
  return steps;
}
