import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { FOODS } from '../api/cooking/foods/foods-table.ts';
import { PROBLEM_TYPES } from '../api/http/problem.ts';
import { FUELS } from '../api/physics/fuels-table.ts';
import { INSULATION_MATERIALS } from '../api/physics/insulation-table.ts';
import { STOVE_TYPES } from '../api/physics/stoves-table.ts';
import { WORKS_CITED } from '../api/references/works-cited.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (name: string) => readFileSync(join(root, name), 'utf8');
const developers = read('DEVELOPERS.md');

const folders = (top: string): string[] =>
  (readdirSync(join(root, top), { recursive: true }) as string[]).filter((name) =>
    statSync(join(root, top, name)).isDirectory(),
  );

describe('DEVELOPERS.md', () => {
  it.each(Object.keys(PROBLEM_TYPES))('has a paragraph on the problem %s, with its status', (type) => {
    const paragraph = developers.split(`\n### ${type}\n`)[1]?.split('\n#')[0] ?? '';
    expect(paragraph).toMatch(new RegExp(`^${PROBLEM_TYPES[type as keyof typeof PROBLEM_TYPES].status}\\. \\S`));
  });

  it('has no paragraph on a problem that there is not', () => {
    const section = developers.split('\n## Problem types\n')[1]?.split('\n## ')[0] ?? '';
    const named = [...section.matchAll(/^### (\S+)$/gm)].map((match) => match[1]);
    expect(named.sort()).toEqual(Object.keys(PROBLEM_TYPES).sort());
  });

  it('shows every folder of the program in its tree', () => {
    const tree = developers.split('\n## Tree\n')[1]?.split('\n## ')[0] ?? '';
    for (const top of ['api', 'web']) {
      for (const folder of folders(top)) expect(tree, folder).toContain(`${folder.split('/').at(-1)}/ `);
    }
  });

  it('names every command of package.json', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    for (const script of Object.keys(scripts)) {
      expect(developers, script).toMatch(new RegExp(`npm (run )?${script}\\b`));
    }
  });

  it('names every setting that the program or its tests read', () => {
    const sources = ['api/runtime', 'tests']
      .flatMap((top) => (readdirSync(join(root, top), { recursive: true }) as string[]).map((name) => join(top, name)))
      .filter((name) => name.endsWith('.ts'));
    const settings = new Set(
      [...sources, 'vitest.config.ts'].flatMap((name) =>
        [...read(name).matchAll(/(?:process\.env|environment)\.([A-Z_]+)/g)].map((match) => match[1] as string),
      ),
    );
    expect([...settings]).toEqual(expect.arrayContaining(['HOST', 'PORT', 'DATA_DIR', 'CHROMIUM_PATH']));
    for (const setting of settings) expect(developers, setting).toContain(`\`${setting}\``);
  });

  it('dates every decision', () => {
    const section = developers.split('\n## Decisions\n')[1]?.split('\n## ')[0] ?? '';
    const bullets = section.split('\n').filter((line) => line.startsWith('- '));
    expect(bullets.length).toBeGreaterThan(0);
    for (const bullet of bullets) expect(bullet).toMatch(/^- 20\d\d-\d\d-\d\d\. /);
  });
});

describe('sources', () => {
  /** Every source reference in a table, with where it is. */
  function* sourcesIn(value: unknown, where: string): Generator<{ where: string; key: unknown; place: unknown }> {
    if (typeof value !== 'object' || value === null) return;
    if ('key' in value && 'place' in value) yield { where, key: value.key, place: value.place };
    for (const [name, inner] of Object.entries(value)) yield* sourcesIn(inner, `${where}/${name}`);
  }

  it.each([
    ['foods', FOODS, 50],
    ['fuels', FUELS, 10],
    ['stove types', STOVE_TYPES, 12],
    ['insulation materials', INSULATION_MATERIALS, 12],
  ])('every row of %s names works that exist, and the place in them', (_name, table, atLeast) => {
    expect(Object.keys(table).length).toBeGreaterThanOrEqual(atLeast);
    for (const [id, row] of Object.entries(table)) {
      const sources = [...sourcesIn(row, id)];
      expect(sources.length, id).toBeGreaterThan(0);
      for (const { where, key, place } of sources) {
        expect(Object.hasOwn(WORKS_CITED, String(key)), where).toBe(true);
        expect(place, where).toEqual(expect.stringMatching(/\S/));
      }
    }
  });

  it('every parameter of a row says value, unit, range and whether it is an estimate', () => {
    function* parametersIn(value: unknown, where: string): Generator<{ where: string; row: Record<string, unknown> }> {
      if (typeof value !== 'object' || value === null) return;
      if ('p10' in value && 'p90' in value && 'source' in value) yield { where, row: value as Record<string, unknown> };
      for (const [name, inner] of Object.entries(value)) yield* parametersIn(inner, `${where}/${name}`);
    }
    const rows = [...parametersIn({ FOODS, FUELS, STOVE_TYPES, INSULATION_MATERIALS }, '')];
    expect(rows.length).toBeGreaterThan(200);
    for (const { where, row } of rows) {
      expect(typeof row.unit, where).toBe('string');
      expect(typeof row.estimate, where).toBe('boolean');
      const [low, value, high] = [row.p10, row.value, row.p90] as number[];
      expect(Number.isFinite(low) && Number.isFinite(value) && Number.isFinite(high), where).toBe(true);
      expect((low as number) <= (value as number) && (value as number) <= (high as number), where).toBe(true);
    }
  });

  it('every work says what a reader needs to find it, and how it was seen', () => {
    for (const [key, work] of Object.entries(WORKS_CITED)) {
      for (const member of ['authors', 'title', 'where', 'seen'] as const) expect(work[member], key).toMatch(/\S/);
    }
  });
});
