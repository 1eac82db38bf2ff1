import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { explainBoilingPoint } from '../../api/cooking/derivations/explain-boiling-point.ts';
import { explainCookTime } from '../../api/cooking/derivations/explain-cook-time.ts';
import { explainCooling } from '../../api/cooking/derivations/explain-cooling.ts';
import { explainFuelUse } from '../../api/cooking/derivations/explain-fuel-use.ts';
import { explainSoaking } from '../../api/cooking/derivations/explain-soaking.ts';
import { countsInWords, stepsBehind } from '../../web/components/derivation-steps.ts';

const fuelUse = explainFuelUse({
  stove: { typeId: 'propane-camp' },
  fuelId: 'propane',
  vessel: { kind: 'pot', capacityL: 4 },
  waterL: 2,
  foods: [],
  startC: 8,
  airC: 5,
  elevationM: 300,
  wind: 'screened',
  holdMinutes: 20,
});

describe('steps behind a figure', () => {
  it('hold all that go in, before they are used, and end with the figure', () => {
    for (const figure of ['fuelKg', 'minutesToBoil', 'floorMJ', 'boiledOffL']) {
      const steps = stepsBehind(fuelUse, [figure]);
      const seen = new Set<string>();
      for (const { quantity, inputs } of steps) {
        for (const name of inputs) expect(seen.has(name), `${quantity} needs ${name}`).toBe(true);
        seen.add(quantity);
      }
      expect(steps.at(-1)?.quantity).toBe(figure);
    }
  });

  it('leave out what the figure does not rest on', () => {
    const names = stepsBehind(fuelUse, ['floorMJ']).map(({ quantity }) => quantity);
    expect(names).toEqual([
      'startC',
      'elevationM',
      'pressureKPa',
      'boilingPointC',
      'endC',
      'waterL',
      'waterKJ',
      'contentsKJ',
      'floorMJ',
    ]);
  });

  it('take the first name that is there, else none', () => {
    expect(stepsBehind(fuelUse, ['dishFuelKg', 'startC']).map(({ quantity }) => quantity)).toEqual(['startC']);
    expect(stepsBehind(fuelUse, ['nothing'])).toEqual([]);
    expect(stepsBehind([], ['nothing'])).toEqual([]);
  });

  it('of a meal of several dishes are those of the dish with this value', () => {
    const [fact] = fuelUse;
    if (fact === undefined) throw new Error('a step was expected');
    const step = (quantity: string, value: number) => ({ ...fact, quantity, value, inputs: [] });
    // The same soup in two pots, and a rice; the air is the same for all and listed once.
    const meal = [
      step('soupAirC', 5),
      step('soupDishFuelKg', 0.05),
      step('soupDishFuelKg2', 0.08),
      step('riceDishFuelKg', 0.03),
    ];
    const last = (value: number, ...names: string[]) => stepsBehind(meal, names, value).at(-1)?.quantity;
    expect(last(0.0501, 'dishFuelKg')).toBe('soupDishFuelKg');
    expect(last(0.08, 'dishFuelKg')).toBe('soupDishFuelKg2');
    expect(last(0.03, 'dishFuelKg')).toBe('riceDishFuelKg');
    expect(last(5, 'airC')).toBe('soupAirC');
    expect(last(9, 'airC', 'dishFuelKg')).toBeUndefined();
  });

  it('of minutes say whether they lie outside what was measured', () => {
    const steps = stepsBehind(explainCookTime({ foodId: 'kidney-bean', elevationM: 3000 }), ['minutes']);
    expect(steps.find(({ quantity }) => quantity === 'extrapolated')?.value).toBe(true);
  });

  it('are counted with their estimates', () => {
    const [step] = fuelUse;
    if (step === undefined) throw new Error('a step was expected');
    expect(countsInWords([{ ...step, estimate: true }])).toBe('1 step, 1 of them an estimate.');
    expect(countsInWords([step, step])).toBe('2 steps, none of them estimates.');
  });
});

describe('figures of the calculators', () => {
  const derived = new Set(
    [
      fuelUse,
      explainBoilingPoint({ elevationM: 300, gaugeKPa: 90 }),
      explainSoaking({ foodId: 'kidney-bean', hours: 12, waterC: 15 }),
      explainCookTime({
        foodId: 'kidney-bean',
        elevationM: 300,
        soak: { hours: 12, waterC: 15, discardWater: true },
      }),
      explainCooling({ vessel: { kind: 'flask', capacityL: 2 }, fillL: 1.8, startC: 92, airC: 12, hours: 8 }),
    ].flatMap((steps) => steps.map(({ quantity }) => quantity)),
  );
  const views = new URL('../../web/views/', import.meta.url);
  const asked = readdirSync(views)
    .filter((name) => name.startsWith('numbers-'))
    .flatMap((name) => [...readFileSync(new URL(name, views), 'utf8').matchAll(/quantity=\$\{\[([^\]]+)\]\}/g)])
    .map((match) => [...(match[1] ?? '').matchAll(/'(\w+)'/g)].map((name) => name[1] as string));

  it('are found at all', () => {
    expect(asked.length).toBeGreaterThan(15);
  });

  it('all have a step of one of the names that the page asks for', () => {
    expect(asked.filter((names) => !names.some((name) => derived.has(name)))).toEqual([]);
  });
});
