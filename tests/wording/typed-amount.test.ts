import { describe, expect, it } from 'vitest';
import { massOfTyped, readTypedAmount } from '../../api/wording/typed-amount.ts';

describe('typed amounts', () => {
  it.each([
    ['25 kg', 25_000],
    ['2 x 5 kg', 10_000],
    ['12×400g', 4800],
    ['1,5 kg', 1500],
    ['1.5kg', 1500],
    ['1.250,5 g', 1250.5],
    ['1,250.5 g', 1250.5],
    // Exact: the pound is 0.45359237 kg (NIST SP 811, appendix B).
    ['50 lb', 22_679.6185],
    ['8 oz', 226.796185],
  ])('%s is a mass', (text, massG) => {
    const read = readTypedAmount(text);
    expect('massG' in read ? read.massG : read).toBeCloseTo(massG, 6);
  });

  it.each([
    // The US cup as 236.588 mL.
    ['2 cups', 0.473176],
    ['500 mL', 0.5],
    ['1,5 dl', 0.15],
    ['1 gal', 3.785412],
    ['3 tbsp', 0.04436],
  ])('%s is a volume', (text, litres) => {
    const read = readTypedAmount(text);
    expect('litres' in read ? read.litres : read).toBeCloseTo(litres, 5);
  });

  it('turns a volume into a mass by the density of the heap', () => {
    // USDA SR28: a US cup of white rice (20044) weighs 185 g, 782 g/L.
    const read = massOfTyped('1 cup', 782);
    expect('massG' in read ? read.massG : read).toBeCloseTo(185, 0);
  });

  it.each([
    ['60 g a serving', 300],
    ['60 g/serving', 300],
    ['2 tbsp per person', 2 * 0.01478676 * 800 * 5],
    ['60 g', 60],
  ])('%s, for five servings', (text, massG) => {
    const read = massOfTyped(text, 800, 5);
    // The tablespoon as a sixteenth of the US cup of 236.588 mL.
    expect('massG' in read ? read.massG : read).toBeCloseTo(massG, 1);
  });

  it.each([
    ['25', /unit/],
    ['25 stone', /not known/],
    ['-3 kg', /0 or more/],
    ['kg', /number/],
    ['', /number/],
    ['1.2.3 kg', /no number/],
    ['1,2,3 kg', /no number/],
    ['1,500 g', /1\.500 or 1500/],
    ['2 x kg', /number/],
    ['Infinity kg', /number/],
  ])('%s is refused with what to type', (text, fault) => {
    const read = readTypedAmount(text);
    expect('fault' in read ? read.fault : JSON.stringify(read)).toMatch(fault);
  });
});
