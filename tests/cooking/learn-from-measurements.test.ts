/** What records do to the figures of stoves, boxes, flasks and lots. */
import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerCooling } from '../../api/cooking/calculators/answer-cooling.ts';
import { answerFuelUse } from '../../api/cooking/calculators/answer-fuel-use.ts';
import type { FuelUseAnswer, FuelUseQuestion } from '../../api/cooking/calculators/calculator-types.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import {
  householdDocumentOf,
  type ResolvedHousehold,
  resolveHousehold,
} from '../../api/cooking/household/resolve-household.ts';
import { boilTestQuestion, readBoilTest } from '../../api/cooking/measurements/learn-from-boil-tests.ts';
import { lotTestQuestion } from '../../api/cooking/measurements/learn-from-lot-tests.ts';
import {
  learnFromMeasurements,
  measuredLotsOf,
  withLearned,
} from '../../api/cooking/measurements/learn-from-measurements.ts';
import type { Learned } from '../../api/cooking/measurements/learned.ts';
import type {
  BeanTest,
  BoilTest,
  CookingNote,
  CoolingMeasurement,
  Measurement,
} from '../../api/cooking/measurements/measurements.ts';
import type { Percentiles } from '../../api/physics/parameter.ts';

const DOCUMENT: HouseholdDocument = {
  id: 'house',
  name: 'House',
  places: [{ id: 'home', elevationM: 1200, indoorC: 12, outdoorC: 3, wind: 'still', storageC: 14 }],
  people: [{ label: 'A', ageGroup: 'adult' }],
  fuels: [{ fuelId: 'wood', moisturePercent: 18 }],
  stoves: [
    { id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'] },
    { id: 'fire', typeId: 'rocket', fuelIds: ['wood'] },
    { id: 'stated', typeId: 'alcohol-pot', fuelIds: ['ethanol'], efficiency: 0.5, powerKW: 1.2 },
    { id: 'plate', typeId: 'electric-plate', fuelIds: ['electricity'], site: 'vented-indoors' },
  ],
  vessels: [
    { id: 'pot', kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
    { id: 'finned', kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug', finned: true },
    { id: 'flask', kind: 'flask', capacityL: 1 },
  ],
  boxes: [{ id: 'box', fits: ['pot'], materialId: 'eps', thicknessMm: 60 }],
};
const household = resolveHousehold(DOCUMENT).household;

const boilTest = (own: Partial<BoilTest> = {}): BoilTest => ({
  kind: 'boil-test',
  id: 'boil',
  householdId: 'house',
  at: '2026-11-01T10:00',
  stoveId: 'burner',
  vesselId: 'pot',
  litres: 2,
  startC: 10,
  minutes: 9,
  fuelKg: 0.03,
  ...own,
});
const cooling = (own: Partial<CoolingMeasurement> = {}): CoolingMeasurement => ({
  kind: 'cooling-reading',
  id: 'cool',
  householdId: 'house',
  at: '2026-11-01T20:00',
  vesselId: 'pot',
  boxId: 'box',
  fillL: 3.6,
  startC: 92,
  airC: 12,
  hours: 4,
  temperatureC: 72,
  ...own,
});
const LOT = { kitId: 'stew', partId: 'beans', packedOn: '2021-11-01', foodId: 'kidney-bean' } as const;
const note = (own: Partial<CookingNote> = {}): CookingNote => ({
  kind: 'cooking-note',
  id: 'note',
  householdId: 'house',
  at: '2026-11-02T12:00',
  ...LOT,
  soak: { hours: 12, waterC: 16 },
  boiledAfterMinutes: 15,
  softAfterMinutes: 140,
  ...own,
});
const beans = (own: Partial<BeanTest> = {}): BeanTest => ({
  kind: 'twenty-bean-test',
  id: 'beans',
  householdId: 'house',
  at: '2026-11-02T12:00',
  ...LOT,
  soak: { hours: 12, waterC: 16 },
  minutes: 90,
  soft: 10,
  ...own,
});

const learn = (records: Measurement[], of: ResolvedHousehold = household): Learned =>
  learnFromMeasurements(of, records, []);
const stove = (learned: Learned, id: string) =>
  learned.stoves.find(({ stoveId }) => stoveId === id) as Learned['stoves'][number];
const coolingOf = (learned: Learned, id: string) =>
  learned.cooling.find((one) => one.id === id)?.timeConstantHours as Learned['cooling'][number]['timeConstantHours'];
const lotOf = (learned: Learned) => learned.lots[0]?.minutesFactor as Learned['lots'][number]['minutesFactor'];
const width = (p: Percentiles) => Math.log(p.p90 / p.p10);
/** A test that found `factor` times the fuel, in `slower` times the minutes, that were expected. */
function found(test: BoilTest, factor: number, slower = 1, of: ResolvedHousehold = household): BoilTest {
  const expected = answerFuelUse(boilTestQuestion(test, of) as FuelUseQuestion);
  const amount = factor * (expected.fuelKg?.p50 ?? expected.fuelMJ.p50 / 3.6);
  const { fuelKg: _fuelKg, ...rest } = test;
  const burnt = expected.fuelKg === null ? { kWh: amount } : { fuelKg: amount };
  return { ...rest, ...burnt, minutes: slower * expected.minutesToBoil.p50 };
}
/** The same boil with what was learned. */
function afterwards(test: BoilTest, learned: Learned, of: ResolvedHousehold = household): FuelUseAnswer {
  const question = boilTestQuestion(test, of) as FuelUseQuestion;
  const measured = withLearned(of, learned).stoves.find(({ id }) => id === test.stoveId)?.measured;
  return answerFuelUse({ ...question, stove: { ...question.stove, ...(measured === undefined ? {} : { measured }) } });
}

describe('boil tests', () => {
  it.each(['burner', 'fire', 'stated', 'plate'])(
    'one that found what was expected of %s moves nothing and narrows',
    (stoveId) => {
      const test = found(boilTest({ stoveId }), 1);
      const { efficiency, powerKW } = stove(learn([test]), stoveId);
      expect(efficiency.now.p50 / efficiency.table.p50).toBeCloseTo(1, 3);
      expect(powerKW.now.p50 / powerKW.table.p50).toBeCloseTo(1, 3);
      expect(width(efficiency.now)).toBeLessThan(0.95 * width(efficiency.table));
    },
  );

  it.each(['burner', 'fire', 'stated', 'plate'])(
    'the chain run backwards gives back the efficiency of %s',
    (stoveId) => {
      const test = boilTest({ stoveId });
      const question = boilTestQuestion(test, household) as FuelUseQuestion;
      const prior = stove(learn([]), stoveId);
      const truth = 0.8 * prior.efficiency.table.p50;
      const measured = {
        efficiency: { p10: truth, p50: truth, p90: truth },
        powerKW: prior.powerKW.table,
      };
      const { fuelKg, fuelMJ, minutesToBoil } = answerFuelUse({ ...question, stove: { ...question.stove, measured } });
      const burnt = fuelKg?.p50 ?? fuelMJ.p50 / 3.6;
      const reading = readBoilTest({ ...test, minutes: minutesToBoil.p50 }, question, burnt);
      expect(Math.exp(reading.efficiency.mean)).toBeCloseTo(0.8, 3);
      expect(Math.exp(reading.power.mean)).toBeCloseTo(1, 3);
    },
  );

  it('40 % more fuel than expected raises the fuel of the next boil by most of that, and says so', () => {
    const test = found(boilTest(), 1.4, 1.4);
    const learned = learn([test]);
    const before = answerFuelUse(boilTestQuestion(test, household) as FuelUseQuestion);
    const after = afterwards(test, learned);
    const ratio = (after.fuelKg?.p50 as number) / (before.fuelKg?.p50 as number);
    expect(ratio).toBeGreaterThan(1.2);
    expect(ratio).toBeLessThan(1.4);
    expect(width(after.fuelKg as Percentiles)).toBeLessThan(0.85 * width(before.fuelKg as Percentiles));
    expect(stove(learned, 'burner').efficiency.text).toMatch(
      /uses about (25|30|35) % more fuel than the table expects \(1 boil test\)/,
    );
    // The other stoves are as they were.
    expect(stove(learned, 'fire').efficiency.now).toEqual(stove(learned, 'fire').efficiency.table);
  });

  it('twenty tests still share their scale, fuel and wind: the band never closes', () => {
    const twenty = Array.from({ length: 20 }, (_, nth) => ({ ...found(boilTest(), 1), id: `b${nth}` }));
    // ln of P90 over P10 of what they share: 2 x 1.2816 x 0.03.
    expect(width(stove(learn(twenty), 'burner').efficiency.now)).toBeGreaterThan(0.0768);
  });

  it('five tests in one direction nearly take the table over', () => {
    const five = Array.from({ length: 5 }, (_, nth) => ({ ...found(boilTest(), 1.4, 1.4), id: `b${nth}` }));
    const after = afterwards(boilTest(), learn(five));
    const before = answerFuelUse(boilTestQuestion(boilTest(), household) as FuelUseQuestion);
    expect((after.fuelKg?.p50 as number) / (before.fuelKg?.p50 as number)).toBeGreaterThan(1.33);
  });

  it('a slower boil on the same fuel is a weaker flame, not a worse stove', () => {
    const { efficiency, powerKW } = stove(learn([found(boilTest({ stoveId: 'plate' }), 1, 1.3)]), 'plate');
    expect(powerKW.now.p50 / powerKW.table.p50).toBeLessThan(0.9);
    // A slower boil loses more on the way, which the stove must have made up for.
    expect(Math.abs(Math.log(efficiency.now.p50 / efficiency.table.p50))).toBeLessThan(0.06);
    expect(stove(learn([found(boilTest({ stoveId: 'plate' }), 1, 1.3)]), 'plate').powerKW.text).toMatch(/weaker/);
  });

  it('a test in the wind says less than one in still air', () => {
    const still = readBoilTest(...readable(found(boilTest(), 1)));
    const windy = readBoilTest(...readable(found(boilTest({ wind: 'moderate' }), 1)));
    expect(windy.efficiency.sd).toBeGreaterThan(1.5 * still.efficiency.sd);
  });

  it('on a pot with fins is told apart from the stove', () => {
    const test = found(boilTest({ vesselId: 'finned' }), 1);
    const { efficiency } = stove(learn([test]), 'burner');
    expect(efficiency.now.p50 / efficiency.table.p50).toBeCloseTo(1, 3);
  });

  it('a stated efficiency is the middle of what is known before', () => {
    const { efficiency, powerKW } = stove(learn([]), 'stated');
    expect(efficiency).toMatchObject({ stated: 0.5, table: { p50: 0.5 }, now: { p50: 0.5 } });
    expect(powerKW).toMatchObject({ stated: 1.2, table: { p50: 1.2 } });
  });

  it.each([
    ['three times the fuel', 3, 1, /lid|wind/],
    ['a third of the fuel', 0.45, 1, /weighed/],
    ['four times the minutes', 1, 4, /turned down/],
    ['a tenth of the minutes', 1, 0.1, /warm at the start/],
  ])('%s is questioned and does not count until it is confirmed', (_name, fuel, minutes, question) => {
    const test = found(boilTest(), fuel, minutes);
    const doubted = learn([test]);
    expect(doubted.effects).toMatchObject([
      { id: 'boil', use: 'questioned', question: expect.stringMatching(question) },
    ]);
    expect(stove(doubted, 'burner')).toMatchObject({ efficiency: { records: [], questioned: ['boil'] } });
    expect(stove(doubted, 'burner').efficiency.now).toEqual(stove(learn([]), 'burner').efficiency.now);
    const confirmed = learn([{ ...test, confirmed: true }]);
    expect(confirmed.effects).toMatchObject([{ use: 'counts', question: expect.stringMatching(question) }]);
    expect(stove(confirmed, 'burner').efficiency.records).toEqual(['boil']);
  });

  it('what lies just outside is not written like the end of the band', () => {
    const { effects } = learn([boilTest()]);
    const low = effects[0]?.expected[0]?.low as number;
    const question = learn([boilTest({ fuelKg: low * 0.98 })]).effects[0]?.question as string;
    const [, expected, written] = /Expected were ([\d.]+) g to .*; you wrote ([\d.]+) g/.exec(
      question,
    ) as RegExpExecArray;
    expect(Number(written)).toBeLessThan(Number(expected));
  });

  it('absurd tests that are confirmed leave figures, and an efficiency not above 1', () => {
    const burnt = (own: Partial<BoilTest>) => ({ ...boilTest(own), confirmed: true });
    for (const test of [
      burnt({ stoveId: 'fire', fuelKg: 0.045, minutes: 260, wind: 'moderate', lid: 'none' }),
      burnt({ stoveId: 'fire', fuelKg: 40, minutes: 2 }),
      burnt({ fuelKg: 0.017, minutes: 600 }),
      burnt({ fuelKg: 0.017, minutes: 0.5 }),
    ]) {
      const { efficiency, powerKW } = stove(learn([test]), test.stoveId);
      for (const { now } of [efficiency, powerKW]) {
        expect(now.p10).toBeGreaterThan(0);
        expect(now.p10).toBeLessThan(now.p50);
        expect(now.p50).toBeLessThan(now.p90);
      }
      expect(efficiency.now.p90).toBeLessThanOrEqual(1);
      expect(efficiency.text).not.toMatch(/NaN|Infinity/);
    }
  });

  it('tests that contradict one another leave a wider band than one alone, and are said to', () => {
    const poor = found(boilTest(), 1.4);
    const good = found(boilTest({ id: 'good' }), 0.72);
    const both = learn([poor, good]);
    expect(both.effects.map(({ use }) => use)).toEqual(['counts', 'counts']);
    const figure = (learned: Learned) => stove(learned, 'burner').efficiency;
    expect(width(figure(both).now)).toBeGreaterThan(width(figure(learn([poor])).now));
    expect(figure(both).text).toMatch(/2 boil tests, which contradict one another/);
    expect(figure(learn([poor, { ...poor, id: 'again' }])).text).toMatch(/2 boil tests\)/);
  });

  it('what is expected of a test does not depend on the others', () => {
    const a = found(boilTest(), 1.3, 1.2);
    const b = { ...found(boilTest(), 0.8), id: 'other' };
    const alone = learn([a]).effects[0];
    expect(learn([b, a]).effects.find(({ id }) => id === 'boil')).toEqual(alone);
  });
});

function readable(test: BoilTest): [BoilTest, FuelUseQuestion, number] {
  return [test, boilTestQuestion(test, household) as FuelUseQuestion, test.fuelKg as number];
}

describe('cooling readings', () => {
  it('move the time constant towards the reading, narrow it, and are used', () => {
    const learned = learn([cooling({ temperatureC: 78 })]);
    const figure = coolingOf(learned, 'box');
    expect(figure.now.p50).toBeGreaterThan(1.05 * figure.table.p50);
    expect(width(figure.now)).toBeLessThan(0.5 * width(figure.table));
    expect(figure.text).toMatch(/longer than the table expects \(1 reading\)/);
    const box = withLearned(household, learned).boxes[0];
    const model = {
      vessel: { kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
      fillL: 3.6,
      startC: 92,
      airC: 12,
      insulation: { materialId: 'eps', thicknessMm: 60 },
      hours: 4,
    } as const;
    const after = answerCooling({ ...model, ...(box?.measured === undefined ? {} : { measured: box.measured }) });
    expect(after.timeConstantHours.p50).toBeCloseTo(figure.now.p50, 6);
    expect(after.temperatureC.at(-1)?.p50).toBeGreaterThan(75);
  });

  it('of a flask half full say the same as of a full one that keeps twice as long', () => {
    const full = coolingOf(
      learn([cooling({ vesselId: 'flask', boxId: undefined as never, fillL: 1, hours: 8, temperatureC: 70 })]),
      'flask',
    );
    const half = coolingOf(
      learn([cooling({ vesselId: 'flask', boxId: undefined as never, fillL: 0.5, hours: 4, temperatureC: 70 })]),
      'flask',
    );
    expect(half.now.p50 / full.now.p50).toBeCloseTo(1, 6);
  });

  it('join the one reading that was kept with the box', () => {
    const kept = { hours: 4, temperatureC: 74, startC: 92, airC: 12 };
    const of = resolveHousehold({
      ...DOCUMENT,
      boxes: [{ ...(DOCUMENT.boxes?.[0] as object), reading: kept } as never],
    }).household;
    const both = coolingOf(learn([cooling({ temperatureC: 74 })], of), 'box');
    const one = coolingOf(learn([cooling({ temperatureC: 74 })]), 'box');
    expect(both.text).toMatch(/2 readings/);
    expect(width(both.now)).toBeLessThan(width(one.now));
    // Without records the kept reading stands as it did, with the band that plans use, and no factor is set.
    const alone = coolingOf(learn([], of), 'box');
    const used = answerCooling({
      vessel: { kind: 'pot', capacityL: 4, material: 'aluminium', lid: 'snug' },
      fillL: 3.6,
      startC: 92,
      airC: 12,
      reading: kept,
      hours: 4,
    }).timeConstantHours;
    for (const end of ['p10', 'p50', 'p90'] as const) expect(alone.now[end]).toBeCloseTo(used[end], 9);
    expect(width(both.now)).toBeLessThan(width(alone.now));
    expect(withLearned(of, learn([], of)).boxes[0]).not.toHaveProperty('measured');
  });

  it('however many, leave what one filling differs from the next', () => {
    const many = Array.from({ length: 20 }, (_, at) => cooling({ id: `cool-${at}`, temperatureC: 74 }));
    // A tenth up and down, as `learn-from-cooling.ts` has it from three published repeats.
    expect(width(coolingOf(learn(many), 'box').now)).toBeGreaterThan(2 * Math.log(1.1));
    expect(width(coolingOf(learn(many), 'box').now)).toBeLessThan(2 * Math.log(1.12));
  });

  it('far from the model are questioned', () => {
    expect(learn([cooling({ temperatureC: 30 })]).effects).toMatchObject([
      { use: 'questioned', question: expect.stringMatching(/opened in between/) },
    ]);
    expect(learn([cooling({ temperatureC: 90, hours: 8 })]).effects).toMatchObject([
      { use: 'questioned', question: expect.stringMatching(/shorter/) },
    ]);
  });
});

describe('tests of a lot', () => {
  const storage = { years: 5, temperatureC: 14, moisturePercent: 10 };
  const typical = (test: BeanTest | CookingNote): Percentiles =>
    answerCookTime(lotTestQuestion(test, storage, 1200)).minutes;

  it('a slow pot makes the lot slow, narrows it, and the next pot is planned longer', () => {
    const before = typical(note());
    const test = note({ softAfterMinutes: 15 + 1.5 * before.p50 });
    const learned = learn([test]);
    const figure = lotOf(learned);
    expect(figure.now.p50).toBeGreaterThan(1.15);
    expect(figure.now.p50).toBeLessThan(1.5);
    expect(width(figure.now)).toBeLessThan(width(figure.table));
    const { measuredLots } = measuredLotsOf(learned, [LOT], storage, () => storage) as {
      measuredLots: Record<string, Percentiles>;
    };
    expect(Object.keys(measuredLots)).toEqual(['beans/kidney-bean']);
    const after = answerCookTime({
      ...lotTestQuestion(test, storage, 1200),
      measuredLot: measuredLots['beans/kidney-bean'] as Percentiles,
    });
    expect(after.minutes.p50 / before.p50).toBeCloseTo(figure.now.p50, 6);
    expect(width(after.minutes)).toBeLessThan(0.85 * width(before));
    expect(figure.text).toMatch(/longer to soften than the table expects \(1 test\)/);
    // The lot packed in another year is another lot.
    expect(measuredLotsOf(learned, [{ ...LOT, packedOn: '2025-01-01' }], storage, () => storage)).toEqual({});
  });

  it('the factor of a lot is brought to the age that its dish is worked out for', () => {
    const learned = learn([note()]);
    const older = { years: 15, temperatureC: 20, moisturePercent: 12 };
    const at = (dish: typeof storage) => {
      const { measuredLots } = measuredLotsOf(learned, [LOT], dish, () => storage) as {
        measuredLots: Record<string, Percentiles>;
      };
      return answerCookTime({
        ...lotTestQuestion(note(), dish, 1200),
        measuredLot: measuredLots['beans/kidney-bean'] as Percentiles,
      }).minutes.p50;
    };
    // The same beans take the same minutes, but for the little water that the soak left out, which does not age.
    expect(at(older) / at(storage)).toBeGreaterThan(0.9);
    expect(at(older) / at(storage)).toBeLessThan(1.02);
  });

  it('a quick lot shortens nothing while a lot of the same part may be slower; of several tested ones the slowest counts', () => {
    const newer = { ...LOT, packedOn: '2024-11-01' };
    const newest = { ...LOT, packedOn: '2025-11-01' };
    const factorsOf = (records: Measurement[], lots: (typeof newer)[]) =>
      measuredLotsOf(learn(records), lots, storage, () => storage);
    const minutesOf = (packedOn: string, softAfterMinutes: number) =>
      note({ id: packedOn, packedOn: packedOn as typeof LOT.packedOn, softAfterMinutes });
    const quick = minutesOf(LOT.packedOn, 110);
    const slow = minutesOf(newer.packedOn, 230);
    const alone = factorsOf([quick], [LOT as never]) as { measuredLots: Record<string, Percentiles> };
    expect(alone.measuredLots['beans/kidney-bean']?.p50).toBeLessThan(0.9);
    expect(factorsOf([quick], [LOT as never, newer])).toEqual({});
    const slowAlone = factorsOf([slow], [newer]);
    expect(factorsOf([quick, slow], [LOT as never, newer])).toEqual(slowAlone);
    // What is slower than the table is reckoned with, tested or not.
    expect(factorsOf([quick, slow], [LOT as never, newer, newest])).toEqual(slowAlone);
  });

  it('a quick lot shortens no rule of safety', () => {
    const question = lotTestQuestion(note(), storage, 1200);
    const needed = answerCookTime(question).lectin;
    const quick = answerCookTime({ ...question, measuredLot: { p10: 0.2, p50: 0.25, p90: 0.3 } });
    expect(quick.minutes.p50).toBeLessThan(0.3 * answerCookTime(question).minutes.p50);
    expect(quick.lectin.boilMinutesNeeded).toBe(needed.boilMinutesNeeded);
    // Unsoaked, first water poured away: until soft by the table, whatever the lot has shown.
    const { soak: _soak, ...unsoaked } = question;
    const poured = { ...unsoaked, firstWater: 'poured-away' as const };
    const quickUnsoaked = answerCookTime({ ...poured, measuredLot: { p10: 0.2, p50: 0.25, p90: 0.3 } });
    expect(quickUnsoaked.lectin.verdict).toBe('safe');
    expect(quickUnsoaked.lectin.boilMinutesNeeded).toBeCloseTo(answerCookTime(poured).lectin.boilMinutesNeeded, 9);
    const slow = answerCookTime({
      ...lotTestQuestion(note({ soak: { hours: 6, waterC: 20 } }), storage, 1200),
      measuredLot: { p10: 2, p50: 2.5, p90: 3 },
    });
    expect(slow.lectin.boilMinutesNeeded).toBeGreaterThanOrEqual(needed.boilMinutesNeeded);
  });

  it('half of the beans soft at the expected minutes of the pot means a slow lot, all soft at most a usual one', () => {
    const minutes = Math.round(typical(note()).p50);
    expect(lotOf(learn([beans({ minutes, soft: 10 })])).now.p50).toBeGreaterThan(1.15);
    const all = lotOf(learn([beans({ minutes, soft: 20 })]));
    expect(all.now.p50).toBeLessThan(1.02);
    expect(all.now.p90).toBeLessThan(0.9 * all.table.p90);
  });

  it('none soft after two hours warns that they may never soften, once confirmed or believed', () => {
    const figure = lotOf(learn([beans({ minutes: 240, soft: 1, confirmed: true })]));
    expect(figure.now.p50).toBeGreaterThan(1.8);
    expect(figure.text).toMatch(/may never soften/);
  });

  it('a count that comes out so in any case is told as one, and what was expected reads plainly', () => {
    expect(lotOf(learn([beans({ minutes: 2, soft: 0 })])).text).toMatch(/no better known than from the table/);
    const telling = lotOf(learn([beans({ minutes: 90, soft: 10 })])).text;
    expect(telling).not.toMatch(/no better known/);
    const asked = learn([beans({ minutes: 2, soft: 12 })]).effects[0]?.question;
    expect(asked).toMatch(/^Of 20, none was expected to be soft; you wrote 12\./);
  });
  it('note and beans of one lot come out the same in any order', () => {
    const records = [
      note(),
      note({ id: 'n2', softAfterMinutes: 120 }),
      beans(),
      beans({ id: 'b2', minutes: 110, soft: 14 }),
    ];
    const found = learn(records).lots;
    expect(learn([...records].reverse()).lots).toEqual(found);
  });

  it('a pot that was soft at once is questioned', () => {
    expect(learn([note({ softAfterMinutes: 25 })]).effects).toMatchObject([
      { use: 'questioned', question: expect.stringMatching(/cooked before|soda/) },
    ]);
    expect(learn([beans({ minutes: 20, soft: 20 })]).effects).toMatchObject([{ use: 'questioned' }]);
  });
});

describe('records together', () => {
  const all: Measurement[] = [
    found(boilTest(), 1.3),
    { ...found(boilTest({ stoveId: 'fire' }), 0.9), id: 'wood' },
    cooling(),
    note(),
    beans(),
  ];

  it('come out the same in any order', () => {
    expect(learn([...all].reverse())).toEqual(learn(all));
  });

  it('leave nothing behind when they are taken away', () => {
    expect(learn(all.slice(0, 1))).toEqual(learn([all[0] as Measurement]));
    expect(learn([])).toEqual({ ...learn(all.map((record) => ({ ...record, householdId: 'elsewhere' }))) });
    expect(withLearned(household, learn([]))).toEqual(household);
  });

  it('are no part of the household as it is stored', () => {
    const carrying = withLearned(household, learn(all));
    expect(carrying.stoves[0]).toHaveProperty('measured');
    expect(householdDocumentOf(carrying)).toEqual(householdDocumentOf(household));
  });

  it('about what is not there any more are kept and not used', () => {
    const poor = resolveHousehold({ ...DOCUMENT, stoves: [], boxes: [] }).household;
    const { effects } = learn(all, poor);
    expect(effects.map(({ use }) => use)).toEqual(['not-used', 'not-used', 'not-used', 'counts', 'counts']);
    for (const effect of effects.slice(0, 3)) expect(effect.reason).toMatch(/not in the household/);
  });
});
