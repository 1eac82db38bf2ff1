/** The steps behind the answers on soaking. */
import { HARD_SEEDS, soakedFoodOf, soakHistory, soakKineticsOf, soakLimit } from './answer-soaking.ts';
import type { ExplanationStep, SoakingQuestion } from './calculator-types.ts';
import { FULL_SOAK, hydrationShare, k1AtC, soakNumbers, soakUptake, uptakeAsBought } from './hydration-kinetics.ts';
import { rehydratedShare, standMinutes } from './rehydration.ts';
import { soakLimitRow } from './soak-limits.ts';

/**
 * The steps behind `answerSoaking`: re-computing the last from the listed ones gives its number.
 * @throws as `answerSoaking`
 */
export function explainSoaking(q: SoakingQuestion): ExplanationStep[] {
  const food = soakedFoodOf(q.foodId);
  const history = soakHistory(q);
  const soak = soakKineticsOf(food);
  const steps: ExplanationStep[] = [];
  const add = (
    quantity: string,
    value: number | string | boolean,
    unit: string,
    relation: string,
    inputs: string[],
    source: { key: ExplanationStep['source']['key']; place: string },
    isEstimate = false,
  ) => steps.push({ quantity, value, unit, relation, inputs, source, estimate: isEstimate });
  const derived = { key: 'planner-derivation', place: 'api/cooking' } as const;
  add('hours', history.hours, 'h', 'as asked', [], derived);
  add('waterC', history.waterC, 'C', 'as asked', [], derived);
  if (soak === null) {
    const minutes = standMinutes(food, history.waterC);
    const held = food.absorbedGPerG;
    add(
      'standMinutes',
      minutes,
      'min',
      'cold figure at 15 C to hot figure at 90 C, linear in the logarithm',
      ['waterC'],
      {
        key: food.kinetics.kind === 'ready' ? food.kinetics.standMinutesCold.source.key : held.source.key,
        place: food.kinetics.kind === 'ready' ? food.kinetics.standMinutesCold.source.place : held.source.place,
      },
    );
    add('waterHeld', Math.max(0, held.value), 'g/g', 'table row', [], held.source, held.estimate);
    const share = rehydratedShare(history.hours * 60, minutes);
    add('hydrationShare', share, '', '1 - 10^(-60 hours / standMinutes)', ['hours', 'standMinutes'], derived, true);
    add(
      'uptakeGPerG',
      share * Math.max(0, held.value),
      'g/g',
      'hydrationShare * waterHeld',
      ['hydrationShare', 'waterHeld'],
      derived,
    );
  } else {
    const numbers = soakNumbers(soak);
    const water = food.waterGPer100G;
    add('k1Reference', numbers.k1Hours, 'h/(kg/kg)', 'table row', [], soak.k1Hours.source, soak.k1Hours.estimate);
    add('referenceC', numbers.referenceC, 'C', 'table row', [], soak.k1Hours.source);
    add('k2', numbers.k2, '1/(kg/kg)', 'table row', [], soak.k2.source, soak.k2.estimate);
    for (const [index, { upToC, kJPerMol }] of soak.activation.entries())
      add(
        `Ea${index + 1}`,
        kJPerMol.value,
        'kJ/mol',
        `table row, up to ${upToC} C`,
        [],
        kJPerMol.source,
        kJPerMol.estimate,
      );
    if (history.start === 'cool')
      add(
        'k1',
        k1AtC(numbers, history.waterC),
        'h/(kg/kg)',
        'k1Reference * exp(sum of Ea/R (1/T - 1/Tref) over the ranges passed)',
        ['k1Reference', 'referenceC', 'waterC'],
        soak.k1Hours.source,
      );
    const uptake = soakUptake(numbers, history);
    add(
      'uptakeDryBasis',
      uptake,
      'kg/kg dry',
      history.start === 'cool'
        ? 'hours / (k1 + k2 hours), after any lag'
        : 'I / (1 + k2 I), I = integral dt/k1(T(t)) while the water cools with 1.8 h',
      history.start === 'cool' ? ['hours', 'k1', 'k2'] : ['hours', 'waterC', 'k2'],
      soak.k2.source,
    );
    add('hardSeeds', HARD_SEEDS.value, '', 'share of seeds that take up nothing', [], HARD_SEEDS.source, true);
    add('waterAsBought', water.value / 100, 'kg/kg', 'table row', [], water.source, water.estimate);
    add(
      'uptakeFullSoak',
      soakUptake(numbers, { start: 'cool', ...FULL_SOAK }),
      'kg/kg dry',
      'the same after 12 h at 22 C',
      ['k1Reference', 'k2'],
      derived,
    );
    add(
      'hydrationShare',
      hydrationShare(numbers, history),
      '',
      'min(1, uptakeDryBasis / uptakeFullSoak)',
      ['uptakeDryBasis', 'uptakeFullSoak'],
      derived,
    );
    add(
      'uptakeGPerG',
      (1 - HARD_SEEDS.value) * uptakeAsBought(uptake, water.value / 100),
      'g/g',
      '(1 - hardSeeds) * uptakeDryBasis * (1 - waterAsBought)',
      ['hardSeeds', 'uptakeDryBasis', 'waterAsBought'],
      derived,
    );
  }
  const limit = soakLimit(food, history);
  const row = soakLimitRow(history.waterC);
  add('limitHours', limit, 'h', 'longest stand at this temperature', ['waterC'], row.source, row.estimate);
  add('safe', history.hours <= limit, '', 'hours <= limitHours', ['hours', 'limitHours'], derived);
  return steps;
}
