/** What every figure of a table must be: its unit, a range that nature or trade allows, order, source, and its mark. */
import { expect } from 'vitest';
import type { Parameter } from '../../api/physics/parameter.ts';
import { WORKS_CITED } from '../../api/references/works-cited.ts';

/** Units that a field may have, and the range outside which its figures cannot be true, with the reason. */
export interface FieldRule {
  units: readonly string[];
  from: number;
  to: number;
  why: string;
}

export const field = (units: string | readonly string[], from: number, to: number, why: string): FieldRule => ({
  units: typeof units === 'string' ? [units] : units,
  from,
  to,
  why,
});

/** Every parameter record anywhere in a value, with the path to it; places in a list are written `*`. */
export function parametersIn(value: unknown, path = ''): [string, Parameter][] {
  if (value === null || typeof value !== 'object') return [];
  if ('p10' in value && 'p90' in value && 'source' in value) return [[path, value as Parameter]];
  return Object.entries(value).flatMap(([key, inner]) => {
    const step = Array.isArray(value) ? '*' : key;
    return parametersIn(inner, path === '' ? step : `${path}.${step}`);
  });
}

/** Holds one parameter to the rule of its field. */
export function expectParameterFits(where: string, p: Parameter, rule: FieldRule | undefined): void {
  if (rule === undefined) throw new Error(`${where}: no rule says what unit and range this field has`);
  const label = `${where} (${rule.why})`;
  expect(rule.units, label).toContain(p.unit);
  for (const value of [p.p10, p.value, p.p90]) expect(Number.isFinite(value), label).toBe(true);
  expect(p.p10, label).toBeGreaterThanOrEqual(rule.from);
  expect(p.p10, label).toBeLessThanOrEqual(p.value);
  expect(p.value, label).toBeLessThanOrEqual(p.p90);
  expect(p.p90, label).toBeLessThanOrEqual(rule.to);
  expect(WORKS_CITED, label).toHaveProperty([p.source.key]);
  expect(p.source.place.trim().length, label).toBeGreaterThan(2);
  // What rests on memory or on practice alone says so; a value that is certain by definition has no range.
  const { seen } = WORKS_CITED[p.source.key];
  if ((seen === 'memory' || seen === 'common-practice') && p.p10 !== p.p90) expect(p.estimate, label).toBe(true);
}
