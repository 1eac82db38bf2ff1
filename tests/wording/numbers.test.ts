import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixed, NBSP, roundToStep, withFraction } from '../../api/wording/numbers.ts';
import { addMinutes, clockOnSheetOf, clockText, dayAndClock, durationText } from '../../api/wording/times.ts';
import { massBoth, massText, quantityText, temperatureBoth, volumeBoth, volumeText } from '../../api/wording/units.ts';

const positive = fc.double({ min: 0.001, max: 5000, noNaN: true });
const step = fc.constantFrom(0.01, 0.1, 0.25, 0.5, 1, 5, 10);

describe('rounding', () => {
  it('up is never below, down never above, and neither is a step away', () => {
    fc.assert(
      fc.property(positive, step, (value, size) => {
        const up = roundToStep(value, size, 'up');
        const down = roundToStep(value, size, 'down');
        // One part in a thousand million: figures that are whole steps but for the binary fraction.
        const slack = 1e-8 * Math.max(1, value);
        return up >= value - slack && down <= value + slack && up - value < size + slack && value - down < size + slack;
      }),
    );
  });

  it('leaves a multiple of the step alone in every direction', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), step, (count, size) => {
        const value = count * size;
        for (const rounding of ['up', 'down', 'nearest'] as const) {
          expect(roundToStep(value, size, rounding)).toBeCloseTo(value, 8);
        }
      }),
    );
  });

  it('never prints a safety figure lower than it is, in either system', () => {
    fc.assert(
      fc.property(fc.double({ min: 40, max: 120, noNaN: true }), (celsius) => {
        const [c, f] = numbersIn(temperatureBoth(celsius, 'metric', 'up'));
        return (c as number) >= celsius - 1e-6 && (f as number) >= celsius * 1.8 + 32 - 1e-6;
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 80, noNaN: true }), (minutes) => {
        const [first = 0, second = 0] = numbersIn(durationText(minutes));
        return (durationText(minutes).includes(`h${NBSP}`) ? first * 60 + second : first) >= minutes - 1e-6;
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 90, noNaN: true }), (kg) => {
        const [grams = 0] = numbersIn(massText(kg, 'metric', 'up'));
        return (massText(kg, 'metric', 'up').endsWith('kg') ? grams : grams / 1000) >= kg - 1e-6;
      }),
    );
  });

  it('keeps both systems within the step of the kitchen', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.25, max: 3.7, noNaN: true }), (litres) => {
        const cups = Number.parseFloat(fractionToDecimal(volumeText(litres, 'us')));
        // Half a cup is the coarsest step below 16 cups, so a quarter of one is the largest error.
        return Math.abs(cups * 0.2365882365 - litres) <= 0.06;
      }),
    );
  });
});

describe('quantities', () => {
  it.each([
    [2, 'L', 'metric', `2.0${NBSP}L (8½${NBSP}cups)`],
    [2, 'L', 'us', `8½${NBSP}cups (2.0${NBSP}L)`],
    [0.25, 'L', 'metric', `250${NBSP}mL (1${NBSP}cup)`],
    [20, 'L', 'metric', `20${NBSP}L (5¼${NBSP}gal)`],
    [275, 'g', 'metric', `275${NBSP}g (9½${NBSP}oz)`],
    [0.465, 'kg', 'metric', `465${NBSP}g (1${NBSP}lb${NBSP}½${NBSP}oz)`],
    [60, 'C', 'metric', `60${NBSP}°C (140${NBSP}°F)`],
    [12, 'drops', 'metric', `12${NBSP}drops`],
    [1, 'bag', 'metric', `1${NBSP}bag`],
    [4.2, 'servings', 'metric', `4¼${NBSP}servings`],
  ] as const)('%s %s in %s', (amount, unit, system, text) => {
    expect(quantityText(amount, unit, system)).toBe(text);
  });

  it('keep number and unit on one line', () => {
    fc.assert(
      fc.property(positive, (value) => {
        for (const text of [volumeBoth(value, 'us'), massBoth(value, 'metric')]) {
          expect(text).not.toMatch(/\d [a-z]/i);
        }
      }),
    );
  });

  it('write fractions with their signs and minus with a minus', () => {
    expect(withFraction(0.5)).toBe('½');
    expect(withFraction(3.26)).toBe('3¼');
    expect(withFraction(2)).toBe('2');
    expect(fixed(-5)).toBe('\u22125');
    expect(fixed(-0.2)).toBe('0');
    expect(fixed(12345)).toBe('12\u202f345');
  });
});

describe('times', () => {
  it('are 24-hour, and midnight is the end of its day', () => {
    expect(clockText('2026-12-05T17:05')).toBe('17:05');
    expect(clockText('2026-12-06T00:00')).toBe('24:00');
    expect(dayAndClock('2026-12-06T00:00')).toBe(`Saturday${NBSP}24:00`);
    expect(clockOnSheetOf('2026-12-05', '2026-12-06T00:00')).toBe('24:00');
    expect(clockOnSheetOf('2026-12-05', '2026-12-06T07:00')).toBe(`Sunday${NBSP}07:00`);
  });

  it('cross midnight, months and leap days', () => {
    expect(addMinutes('2026-12-31T23:50', 20)).toBe('2027-01-01T00:10');
    expect(addMinutes('2028-02-28T22:00', 180)).toBe('2028-02-29T01:00');
    fc.assert(
      fc.property(fc.integer({ min: -5000, max: 5000 }), (minutes) => {
        expect(addMinutes(addMinutes('2026-12-05T12:00', minutes), -minutes)).toBe('2026-12-05T12:00');
      }),
    );
  });
});

function numbersIn(text: string): number[] {
  return (text.match(/\d+(\.\d+)?/g) ?? []).map(Number);
}

function fractionToDecimal(text: string): string {
  const whole = /^\d*/.exec(text)?.[0] ?? '';
  const part = text.includes('¼') ? 0.25 : text.includes('½') ? 0.5 : text.includes('¾') ? 0.75 : 0;
  return String(Number(whole || '0') + part);
}
