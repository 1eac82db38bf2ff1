/** The list itself: complete, each topic with a file of its own, and a settling that can fail. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHECK_VALUES, NOT_APPLICABLE, settlingFaults } from './check-values.ts';

describe('the list of published values', () => {
  it('has 180 numbers in six topics', () => {
    const counts = Object.entries(CHECK_VALUES).map(([topic, list]) => [topic, Object.keys(list).length]);
    expect(Object.fromEntries(counts)).toEqual({
      'altitude-and-boiling': 31,
      'cooking-kinetics': 31,
      'fuels-and-stoves': 29,
      'people-water-food-safety': 35,
      'pots-and-heat-loss': 21,
      soaking: 33,
    });
    expect(counts.reduce((sum, [, count]) => sum + (count as number), 0)).toBe(180);
  });
  it.each(Object.keys(CHECK_VALUES))('%s has a file of its own that settles every number at its end', (topic) => {
    const text = readFileSync(new URL(`./${topic}.test.ts`, import.meta.url), 'utf8');
    expect(text).toContain(`checkValuesOf('${topic}')`);
    expect(text.trimEnd().endsWith('everyCheckValueIsSettled();')).toBe(true);
  });
  it('knows no topic besides', () => {
    expect(Object.keys(NOT_APPLICABLE).sort()).toEqual(Object.keys(CHECK_VALUES).sort());
  });
});

describe('settling', () => {
  const ledger = { 1: 'one', 2: 'two', '3a': 'three' };
  const reason = { 2: 'a relation that this program neither has nor needs' };
  it('finds nothing where every number is tested or listed', () => {
    expect(settlingFaults(ledger, reason, new Set(['1', '3a']))).toEqual([]);
  });
  it.each([
    ['a number that nobody settled', reason, ['1'], /^3a .* neither/],
    ['a number that is both', reason, ['1', '2', '3a'], /^2 .* tested and listed/],
    ['a tested number that is not in the list', reason, ['1', '3a', '4'], /^4 is not a number/],
    ['a listed number that is not in the list', { ...reason, 9: reason[2] }, ['1', '3a'], /^9 is not a number/],
    ['a listed number without a reason', { 2: 'no' }, ['1', '3a'], /^2 .* without a reason/],
  ])('finds %s', (_what, listed, tested, fault) => {
    const faults = settlingFaults(ledger, listed as Record<string, string>, new Set(tested));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(fault);
  });
});
