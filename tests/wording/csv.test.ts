import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText, readCsv } from '../../api/wording/csv.ts';
import { readAmount, readListDate } from '../../api/wording/read-amount.ts';

describe('comma-separated values', () => {
  it('quotes what must be quoted and ends each line with CR LF (RFC 4180)', () => {
    expect(csvText([['a', 'b"c', 'd,e', 'f\ng', 3, null]])).toBe('a,"b""c","d,e","f\ng",3,\r\n');
  });

  it('keeps text from being a formula, and takes it back as it was', () => {
    const wicked = ['=1+1', '+A1', '-2', '@sum', "'=1", "''+1", '＝1', '|a', 'plain', "it's"];
    const text = csvText([wicked]);
    for (const cell of text.trim().split(',')) expect(cell).not.toMatch(/^"?[=+\-@＝]/);
    expect(readCsv(text)?.rows[0]).toEqual(wicked);
    expect(csvText([[-2]])).toBe('-2\r\n');
  });

  it('reads back any text that it wrote', () => {
    const cell = fc.string({ unit: 'grapheme' }).map((text) => text.trim());
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 5 }), (rows) => {
        const text = csvText([['x', 'y', 'z'], ...rows]);
        expect(readCsv(text)?.rows.slice(1)).toEqual(rows);
      }),
    );
  });

  it('finds out what separates, and says so where a quotation mark is left open', () => {
    expect(readCsv('\u{FEFF}a;b\r\n1,5;2\r\n')).toEqual({
      rows: [
        ['a', 'b'],
        ['1,5', '2'],
      ],
      delimiter: ';',
    });
    expect(readCsv('a\tb\n1\t2')?.rows[1]).toEqual(['1', '2']);
    expect(readCsv('sep=;\r\na;b\r\n1;2')?.rows[1]).toEqual(['1', '2']);
    expect(readCsv('a,b\n"1,2\n')).toBeNull();
  });
});

describe('amounts in lists', () => {
  it.each([
    ['3', 3, ''],
    [' 3.5 ', 3.5, ''],
    ['2,5', 2.5, ''],
    ['2,5 kg', 2.5, 'kg'],
    ['0,125', 0.125, ''],
    ['1 234,5', 1234.5, ''],
    ['1.234,5', 1234.5, ''],
    ['1,234.5', 1234.5, ''],
    ["1'234", 1234, ''],
    ['1,234,567', 1234567, ''],
    ['-4 bags', -4, 'bags'],
    ['−4', -4, ''],
    ['1234,567', 1234.567, ''],
  ])('reads %s', (text, value, unit) => {
    expect(readAmount(text, false)).toEqual({ outcome: 'amount', value, unit });
  });

  it('asks where one mark has three digits behind it, unless the list writes decimals with commas', () => {
    expect(readAmount('1,500', false)).toEqual({ outcome: 'ambiguous', readings: [1.5, 1500] });
    expect(readAmount('1,500', true)).toEqual({ outcome: 'amount', value: 1.5, unit: '' });
    expect(readAmount('1.500', true).outcome).toBe('ambiguous');
  });

  it.each(['', '  '])('finds nothing in %j', (text) => expect(readAmount(text, false).outcome).toBe('empty'));
  it.each(['three', '1,2,3', '1.2.3', '1e5', '5 x 3', '1,23,4.5', 'NaN', '∞'])('refuses %s', (text) =>
    expect(readAmount(text, false).outcome).toBe('not-a-number'),
  );
});

describe('dates in lists', () => {
  it.each([
    ['2024-02-29', '2024-02-29'],
    ['2024/2/9', '2024-02-09'],
    ['9.2.2024', '2024-02-09'],
    ['25/12/2023', '2023-12-25'],
    ['12/25/2023', '2023-12-25'],
    ['3/3/2023', '2023-03-03'],
  ])('reads %s', (text, date) => expect(readListDate(text)).toBe(date));
  it.each(['2023-02-29', '4/5/2023', 'yesterday', '', '45123', '2024-13-01', '31.4.2024'])('refuses %s', (text) =>
    expect(readListDate(text)).toBeNull(),
  );
});
