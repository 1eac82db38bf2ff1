import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fieldUnitSpellings, shownInField, storedFromField } from '../../api/wording/field-units.ts';
import { readNumber, writeNumber, writeShort } from '../../web/numbers.ts';

const number = (value: number) => ({ outcome: 'number', value });

describe('reading numbers', () => {
  test.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    [' 1.5 ', 1.5],
    ['.5', 0.5],
    [',5', 0.5],
    ['5.', 5],
    ['1/2', 0.5],
    ['1 1/2', 1.5],
    ['1½', 1.5],
    ['½', 0.5],
    ['2 ¾', 2.75],
    ['1\u20442', 0.5],
    ['-5', -5],
    ['−5', -5],
    ['– 5', -5],
    ['+5', 5],
    ['1 500', 1500],
    ['1\u202f500', 1500],
    ['1\u00a0500,25', 1500.25],
    ['12 345 678', 12345678],
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['1,234,567', 1234567],
    ['1.234.567', 1234567],
    ['1.500', 1.5],
    ['0,500', 0.5],
    ['1500', 1500],
    ['-0', 0],
  ])('%s is %d', (text, value) => {
    expect(readNumber(text)).toEqual(number(value));
  });

  test.each([
    ['1,500', [1.5, 1500]],
    ['12,345', [12.345, 12345]],
    ['-2,250', [-2.25, -2250]],
    ['1,500 m', [1.5, 1500]],
  ] as const)('%s is asked about', (text, readings) => {
    expect(readNumber(text, ['m'])).toEqual({ outcome: 'ambiguous', readings });
  });

  test.each(['abc', '1.2.3', '1/0', '1 2', '12 34', '1,23,4', '--5', '5 kg', 'NaN', 'Infinity', '1e3', '0x10', '½½'])(
    '%s is no number',
    (text) => {
      expect(readNumber(text, ['L']).outcome).toBe('not-a-number');
    },
  );

  test('nothing typed is nothing, not zero', () => {
    expect(readNumber('  ')).toEqual({ outcome: 'empty' });
  });

  test.each([
    ['2 L', 'litres', 'metric', 2],
    ['2l', 'litres', 'metric', 2],
    ['5 lb', 'kg', 'us', 5],
    ['-10 °C', 'temperatureC', 'metric', -10],
    ['14F', 'temperatureC', 'us', 14],
    ['10 %', 'share', 'metric', 10],
  ] as const)('%s with its unit', (text, quantity, system, value) => {
    expect(readNumber(text, fieldUnitSpellings(quantity, system))).toEqual(number(value));
  });

  test('no text makes it throw, and what it reads is finite', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const read = readNumber(text, ['L', 'kg']);
        if (read.outcome === 'number') expect(Number.isFinite(read.value)).toBe(true);
      }),
    );
  });
});

describe('writing numbers', () => {
  test.each([
    [0, 2, '0'],
    [1.5, 2, '1.5'],
    [-5, 1, '−5'],
    [-0.001, 2, '0'],
    [1780, 0, '1780'],
    [12345.678, 1, '12\u202f345.7'],
  ])('%d to %d decimals is %s', (value, digits, text) => {
    expect(writeNumber(value, digits)).toBe(text);
  });

  test('no number is a dash, never NaN', () => {
    expect(writeNumber(Number.NaN)).toBe('–');
    expect(writeShort(Number.POSITIVE_INFINITY)).toBe('–');
  });

  test.each(['.', ','] as const)(
    'written with "%s" and read back it is the same number, or one of two readings',
    (mark) => {
      fc.assert(
        fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 4 }), (units, digits) => {
          const value = Number((units / 10 ** digits).toFixed(digits));
          const read = readNumber(writeNumber(value, digits, mark));
          if (read.outcome === 'ambiguous') expect(read.readings).toContain(value);
          else expect(read).toEqual(number(value === 0 ? 0 : value));
          // The page itself writes a point: its own numbers are never asked about.
          if (mark === '.') expect(read.outcome).toBe('number');
        }),
      );
    },
  );

  test('a stored value shown and read back in either system is the same to nine figures', () => {
    const quantities = ['elevationM', 'temperatureC', 'litres', 'ml', 'kg', 'g', 'mm', 'kW', 'kPa', 'share'] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...quantities),
        fc.constantFrom('metric', 'us'),
        fc.integer({ min: -50_000, max: 5_000_000 }),
        (quantity, system, thousandths) => {
          const stored = thousandths / 1000;
          const back = storedFromField(
            shownInField(stored, quantity, system as 'metric' | 'us'),
            quantity,
            system as 'metric' | 'us',
          );
          // Ten significant figures are kept; 32 F away from zero costs one of them.
          expect(Math.abs(back - stored)).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(stored)));
        },
      ),
    );
  });
});
