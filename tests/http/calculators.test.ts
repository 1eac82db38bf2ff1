import { describe, expect, it } from 'vitest';
import { answerBoilingPoint } from '../../api/cooking/calculators/answer-boiling-point.ts';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import type { CoolingQuestion, FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import { explainSoaking } from '../../api/cooking/derivations/explain-soaking.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { DEMO_START, expectProblem, testApp } from './test-app.ts';

type Json = Record<string, unknown>;
const { household, kits } = demoDocuments(DEMO_START);
const soaking = { foodId: 'kidney-bean', hours: 12, waterC: 18 };
const cookTime = { foodId: 'kidney-bean', elevationM: 3000, soak: { hours: 12, waterC: 20, discardWater: true } };
const fuelUse: FuelUseQuestion = {
  stove: { typeId: 'alcohol-pot' },
  fuelId: 'ethanol',
  vessel: { kind: 'pot', capacityL: 2, material: 'aluminium', lid: 'snug' },
  waterL: 1,
  foods: [],
  startC: 10,
  airC: 5,
  elevationM: 1000,
  wind: 'still',
  holdMinutes: 10,
};
const cooling: CoolingQuestion = {
  vessel: { kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
  fillL: 5,
  startC: 93,
  airC: 10,
  insulation: { materialId: 'eps', thicknessMm: 50 },
  hours: 8,
};

describe('calculators over the API', () => {
  it.each([
    ['/api/soaking', soaking, () => answerSoaking(soaking)],
    ['/api/cook-time', cookTime, () => answerCookTime(cookTime)],
    ['/api/fuel-use', fuelUse, () => answerFuelUse(fuelUse)],
    ['/api/cooling', cooling, () => answerCooling(cooling)],
  ])(
    '%s answers what the calculation says, with its spread, and the steps when asked',
    async (path, body, calculated) => {
      const test = await testApp();
      const plain = (await (await test.send('POST', path, body)).json()) as Json;
      expect(plain).toEqual(JSON.parse(JSON.stringify(calculated())));
      expect(plain).toHaveProperty('spread');
      const explained = (await (await test.send('POST', `${path}?explain=1`, body)).json()) as Json;
      expect(explained).toMatchObject(plain);
      expect((explained.explanation as unknown[]).length).toBeGreaterThan(1);
    },
  );

  it('the boiling point, by elevation and by barometer', async () => {
    const test = await testApp();
    for (const [query, question] of [
      ['elevationM=3000', { elevationM: 3000 }],
      [
        'elevationM=2500&stationPressureKPa=72.5&gaugeKPa=80',
        { elevationM: 2500, stationPressureKPa: 72.5, gaugeKPa: 80 },
      ],
    ] as const) {
      const answer = (await (await test.get(`/api/boiling-point?${query}`)).json()) as Json;
      expect(answer).toEqual(JSON.parse(JSON.stringify(answerBoilingPoint(question))));
    }
    const explained = (await (await test.get('/api/boiling-point?elevationM=0&explain=1')).json()) as Json;
    expect((explained.explanation as unknown[]).length).toBeGreaterThan(0);
  });

  it('steps are those of the calculation', async () => {
    const test = await testApp();
    const explained = (await (await test.send('POST', '/api/soaking?explain=1', soaking)).json()) as Json;
    expect(explained.explanation).toEqual(JSON.parse(JSON.stringify(explainSoaking(soaking))));
  });

  it('what only the calculation can refuse is a problem that names the field', async () => {
    const test = await testApp();
    const twice = { ...fuelUse, fuelId: 'wood' };
    await expectProblem(test, () => test.send('POST', '/api/fuel-use', twice), { type: 'invalid-input' });
    const overfull = { ...cooling, fillL: 60 };
    await expectProblem(test, () => test.send('POST', '/api/cooling', overfull), { type: 'invalid-input' });
    const nowhere = { foodId: 'kidney-bean' };
    await expectProblem(test, () => test.send('POST', '/api/cook-time', nowhere), { type: 'invalid-input' });
    expect(test.faults).toEqual([]);
  });

  it('ways of one dish, by id or by value, refused ones last with a way out', async () => {
    const test = await testApp();
    const question = { servings: 4, startsAt: `${DEMO_START}T07:00`, eatAt: '2026-12-06T18:00' };
    for (const kit of kits.slice(0, 4)) {
      const byId = await test.send('POST', '/api/dish-options', {
        ...question,
        householdId: household.id,
        kitId: kit.id,
      });
      const byValue = await test.send('POST', '/api/dish-options', { ...question, household, kit });
      const { options } = (await byId.json()) as { options: { verdict: string; reason: string; wayOut: string }[] };
      expect(byId.status).toBe(200);
      expect(await byValue.json()).toEqual({ options });
      expect(options.some((option) => option.verdict === 'ok')).toBe(true);
      const verdicts = options.map((option) => option.verdict);
      expect([...verdicts].sort()).toEqual(verdicts);
      for (const option of options.filter(({ verdict }) => verdict === 'refused')) {
        expect(option.reason).toMatch(/\S/);
      }
    }
    const backwards = { ...question, eatAt: `${DEMO_START}T06:00`, householdId: household.id, kitId: kits[0]?.id };
    await expectProblem(test, () => test.send('POST', '/api/dish-options', backwards), {
      type: 'invalid-input',
      field: { pointer: '#/eatAt' },
    });
  });
});
