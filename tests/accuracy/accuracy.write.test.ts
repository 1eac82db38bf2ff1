/** `npm run accuracy`: prints the tables and writes them into the README. Not part of `npm test`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { accuracyResults } from './accuracy-results.ts';
import { accuracySection, withAccuracySection } from './accuracy-table.ts';

it('writes the accuracy tables into the README', async () => {
  const file = fileURLToPath(new URL('../../README.md', import.meta.url));
  const section = accuracySection(await accuracyResults(), new Date().toISOString().slice(0, 10));
  const readme = readFileSync(file, 'utf8');
  writeFileSync(file, withAccuracySection(readme, section));
  console.log(section);
  expect(readFileSync(file, 'utf8')).toContain(section);
});
