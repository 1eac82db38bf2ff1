import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REACH_OF_CAUSE } from '../../api/cooking/calculators/causes-of-spread.ts';
import { causeWords, testThatNarrows } from '../../api/wording/cause-names.ts';
import { quantityWords } from '../../api/wording/quantity-names.ts';

const folder = new URL('../../api/cooking/derivations/', import.meta.url);
/** Every quantity that a derivation names literally. */
const written = readdirSync(folder)
  .filter((name) => name.startsWith('explain'))
  .flatMap((name) => [...readFileSync(new URL(name, folder), 'utf8').matchAll(/\.(?:fact|row|computed)\(\s*'(\w+)'/g)])
  .map((match) => match[1] as string);

describe('quantities of a derivation', () => {
  it('are found at all', () => {
    expect(written.length).toBeGreaterThan(150);
  });

  it('all have words of their own, without the unit or the seams of an identifier', () => {
    const bare = [...new Set(written)].filter((name) => {
      const words = quantityWords(name);
      return !words.includes(' ') && words.toLowerCase() === name.toLowerCase();
    });
    // One word says it all.
    expect(bare.filter((name) => !['servings'].includes(name))).toEqual([]);
    const taken = [...new Set(written)].filter((name) => /[a-z][A-Z]/.test(quantityWords(name)));
    expect(taken).toEqual([]);
  });

  it('of a food, a kit or a condition say whose they are', () => {
    expect(quantityWords('smallRedBeanSofteningMinutes')).toBe('Softening minutes, small red bean');
    expect(quantityWords('fdChickenHeldGPerG')).toBe('Water held when done, freeze-dried chicken');
    expect(quantityWords('withoutSteamWaterL')).toBe('Water in the pot, before steam is made up for');
    expect(quantityWords('wayUp2LossKW')).toBe('On the way up, second place: loss');
    expect(quantityWords('usualLentilSofteningMinutes')).toBe('Softening minutes, lentil, the usual way');
    expect(quantityWords('carefulWithoutSteamWaterL')).toBe(
      'Water in the pot, before steam is made up for, a careful cook',
    );
    expect(quantityWords('temperatureAfter90Minutes')).toBe('Temperature after 1 h 30 min');
    expect(quantityWords('temperatureAfter480Minutes')).toBe('Temperature after 8 h');
  });
});

describe('causes of a spread', () => {
  it('all have words, and those that an own test narrows say which', () => {
    for (const cause of Object.keys(REACH_OF_CAUSE)) expect(causeWords(cause), cause).toMatch(/ /);
    expect(testThatNarrows('stove efficiency')).toBe('a boil test');
    expect(testThatNarrows('insulation')).toBe('a box or flask reading');
    expect(testThatNarrows('food lot')).toBe('a twenty-bean test or a cooking note');
    expect(testThatNarrows('wind')).toBeNull();
  });
});
