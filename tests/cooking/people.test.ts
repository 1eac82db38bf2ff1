import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AGE_GROUPS, CONDITIONS } from '../../api/cooking/household/kitchen.ts';
import {
  coldIncrementKcal,
  DEFAULT_MEAL_SHARES,
  DRINKS_L_PER_DAY,
  drinkingLPerDay,
  ENERGY_NEED_KCAL,
  EXTRA_DRINKS_L_PER_DAY,
  EXTRA_ENERGY_KCAL,
  energyNeedKcal,
  isAtHigherRisk,
  mayEatHoney,
  mealShareOf,
  PROTEIN_NEED_G,
  proteinNeedG,
} from '../../api/cooking/household/people.ts';
import type { Parameter } from '../../api/physics/parameter.ts';

const eaters = fc.record({
  ageGroup: fc.constantFrom(...AGE_GROUPS),
  sex: fc.constantFrom('f' as const, 'm' as const, null),
  condition: fc.constantFrom(...CONDITIONS),
});

describe('the needs of people', () => {
  it('serve an own share where one is given, also 0, else that of the age group', () => {
    expect(mealShareOf({ ageGroup: 'adult', mealShare: 0 })).toBe(0);
    expect(mealShareOf({ ageGroup: 'adult', mealShare: 1.5 })).toBe(1.5);
    expect(AGE_GROUPS.map((ageGroup) => mealShareOf({ ageGroup }))).toEqual([0, 0.5, 0.75, 1, 1, 0.85]);
  });

  it('add the drinks of pregnancy, nursing and illness to an adult’s 2 L, and heat does not multiply them', () => {
    expect(drinkingLPerDay({ ageGroup: 'adult' })).toBe(2);
    expect(drinkingLPerDay({ ageGroup: 'adult', condition: 'pregnant' })).toBeCloseTo(2.3, 12);
    expect(drinkingLPerDay({ ageGroup: 'adult', condition: 'nursing' })).toBeCloseTo(2.7, 12);
    expect(drinkingLPerDay({ ageGroup: 'adult', condition: 'ill' })).toBe(3);
    expect(drinkingLPerDay({ ageGroup: 'young-child', condition: 'ill' })).toBeCloseTo(1.4, 12);
    expect(drinkingLPerDay({ ageGroup: 'adult', condition: 'nursing' }, { hot: true })).toBeCloseTo(4.7, 12);
    expect(() => drinkingLPerDay({ ageGroup: 'adult' }, { heatFactor: 3 })).toThrow();
  });

  it('never fall with heat, cold or hauling', () => {
    fc.assert(
      fc.property(
        eaters,
        fc.integer({ min: -30, max: 40 }),
        fc.integer({ min: 0, max: 30 }),
        (eater, meanC, colder) => {
          expect(drinkingLPerDay(eater, { hot: true })).toBeGreaterThan(drinkingLPerDay(eater));
          const here = energyNeedKcal(eater, { meanIndoorC: meanC });
          expect(energyNeedKcal(eater, { meanIndoorC: meanC - colder })).toBeGreaterThanOrEqual(here);
          expect(energyNeedKcal(eater, { meanIndoorC: meanC, haulsWater: true })).toBeGreaterThanOrEqual(here);
          expect(energyNeedKcal(eater)).toBeLessThanOrEqual(here);
          expect(proteinNeedG(eater)).toBeGreaterThanOrEqual(11);
        },
      ),
    );
  });

  it('lie between those of both sexes where the sex was not said, and protein at the higher', () => {
    const needs = (['f', 'm', null] as const).map((sex) => energyNeedKcal({ ageGroup: 'adult', sex }));
    expect(needs).toEqual([1900, 2400, 2150]);
    expect(proteinNeedG({ ageGroup: 'adult' })).toBe(56);
    expect(proteinNeedG({ ageGroup: 'adult', sex: 'f', condition: 'nursing' })).toBe(71);
  });

  it('add cold for each kelvin below 20 C, and nothing above', () => {
    expect([25, 20, 19, 8].map(coldIncrementKcal)).toEqual([0, 0, 20, 240]);
    // An adult man already needs more than the population mean, so he gets the whole increment.
    expect(energyNeedKcal({ ageGroup: 'adult', sex: 'm' }, { meanIndoorC: 10 })).toBe(2600);
    expect(energyNeedKcal({ ageGroup: 'young-child' }, { meanIndoorC: 10 })).toBeCloseTo(1100 + 200 * (1100 / 2100), 9);
  });

  it('hold who must have no lukewarm food, and no honey', () => {
    expect(isAtHigherRisk({ ageGroup: 'older-adult' })).toBe(true);
    expect(isAtHigherRisk({ ageGroup: 'adult', condition: 'pregnant' })).toBe(true);
    expect(isAtHigherRisk({ ageGroup: 'adult', condition: 'nursing' })).toBe(false);
    expect(mayEatHoney({ ageGroup: 'infant' })).toBe(false);
    expect(mayEatHoney({ ageGroup: 'young-child' })).toBe(true);
  });

  it('rest on rows whose typical value lies in its band', () => {
    const rows: Parameter[] = [
      ...Object.values(DEFAULT_MEAL_SHARES),
      ...Object.values(DRINKS_L_PER_DAY),
      ...Object.values(EXTRA_DRINKS_L_PER_DAY),
      ...Object.values(EXTRA_ENERGY_KCAL),
      ...Object.values(PROTEIN_NEED_G).flatMap((bySex) => Object.values(bySex)),
      ...Object.values(ENERGY_NEED_KCAL).flatMap((bySex) => Object.values(bySex).flatMap((row) => Object.values(row))),
    ];
    expect(rows.length).toBeGreaterThan(50);
    for (const row of rows) {
      expect(row.p10).toBeLessThanOrEqual(row.value);
      expect(row.value).toBeLessThanOrEqual(row.p90);
      expect(row.source.place).not.toBe('');
    }
  });
});
