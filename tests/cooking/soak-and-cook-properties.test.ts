/** What must hold for every food, place and soak, whatever the figures are. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerCookTime } from '../../api/cooking/calculators/answer-cook-time.ts';
import { answerSoaking } from '../../api/cooking/calculators/answer-soaking.ts';
import { explainCookTime } from '../../api/cooking/derivations/explain-cook-time.ts';
import { explainSoaking } from '../../api/cooking/derivations/explain-soaking.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import {
  soakLimitHours,
  soakLimitOf,
  usualSoakHours,
  wettedFoodLimitHours,
} from '../../api/cooking/keeping/soak-limits.ts';
import { storageFactor } from '../../api/cooking/keeping/storage-age.ts';
import { boilBeforeBox } from '../../api/cooking/kinetics/box-cooking.ts';
import { FULL_SOAK, hoursToShare, hydrationShare, soakNumbers } from '../../api/cooking/kinetics/hydration-kinetics.ts';
import { minSoakHoursForLectin } from '../../api/cooking/kinetics/lectin-rule.ts';
import { cookedGPerG, cookingWater, soakWater } from '../../api/cooking/kinetics/yield.ts';
import { InvalidInputError, OutOfRangeError } from '../../api/physics/errors.ts';

const foods = Object.values(FOODS);
const boiled = foods.filter((food) => food.kinetics.kind === 'boil');
const pulses = boiled.filter((food) => food.group === 'pulse');
const anyFood = fc.constantFrom(...foods.map((food) => food.id));
const anyBoiled = fc.constantFrom(...boiled.map((food) => food.id));
const anyPulse = fc.constantFrom(...pulses.map((food) => food.id));
const elevation = fc.double({ min: 0, max: 4500, noNaN: true });
const hours = fc.double({ min: 0, max: 48, noNaN: true });
const waterC = fc.double({ min: 0, max: 30, noNaN: true });
const SLACK = 1e-9;
const RUNS = { numRuns: 150 };

describe('cook time', () => {
  it('rises with elevation, for every boiled food', () => {
    fc.assert(
      fc.property(anyBoiled, elevation, elevation, (foodId, a, b) => {
        const low = answerCookTime({ foodId, elevationM: Math.min(a, b) }).minutes.p50;
        const high = answerCookTime({ foodId, elevationM: Math.max(a, b) }).minutes.p50;
        expect(high).toBeGreaterThanOrEqual(low - SLACK);
      }),
      RUNS,
    );
  });
  it('falls with the gauge pressure', () => {
    fc.assert(
      fc.property(anyBoiled, fc.double({ min: 0, max: 120, noNaN: true }), (foodId, gaugeKPa) => {
        const open = answerCookTime({ foodId, elevationM: 1000 }).minutes.p50;
        expect(answerCookTime({ foodId, elevationM: 1000, gaugeKPa }).minutes.p50).toBeLessThanOrEqual(open + SLACK);
      }),
      RUNS,
    );
  });
  it('falls with soak hours and never below the soaked minutes', () => {
    fc.assert(
      fc.property(anyPulse, waterC, hours, hours, (foodId, water, a, b) => {
        const minutes = (h: number) =>
          answerCookTime({ foodId, temperatureC: 100, soak: { hours: h, waterC: water, discardWater: true } }).minutes
            .p50;
        const short = minutes(Math.min(a, b));
        const long = minutes(Math.max(a, b));
        expect(long).toBeLessThanOrEqual(short + SLACK);
        const { kinetics } = FOODS[foodId] as (typeof foods)[number];
        if (kinetics.kind === 'boil') expect(long).toBeGreaterThanOrEqual(kinetics.softeningMinutes.value - SLACK);
      }),
      RUNS,
    );
  });
  it('rises with years, warmth and moisture of the store', () => {
    const storage = fc.record({
      years: fc.double({ min: 0, max: 40, noNaN: true }),
      temperatureC: fc.double({ min: -10, max: 35, noNaN: true }),
      moisturePercent: fc.double({ min: 4, max: 16, noNaN: true }),
    });
    fc.assert(
      fc.property(anyPulse, storage, storage, (foodId, a, b) => {
        const worse = {
          years: Math.max(a.years, b.years),
          temperatureC: Math.max(a.temperatureC, b.temperatureC),
          moisturePercent: Math.max(a.moisturePercent, b.moisturePercent),
        };
        const of = (s: typeof a) => answerCookTime({ foodId, temperatureC: 100, storage: s }).minutes;
        expect(of(worse).p50).toBeGreaterThanOrEqual(of(a).p50 - SLACK);
        expect(storageFactor(a).value).toBeGreaterThanOrEqual(1);
        expect(storageFactor(a).value).toBeLessThanOrEqual(5);
        expect(storageFactor(a).p10).toBeGreaterThanOrEqual(1 - SLACK);
      }),
      RUNS,
    );
  });
  it('gives ordered, finite, positive percentiles, and shares of spread that add to one', () => {
    fc.assert(
      fc.property(anyFood, elevation, hours, waterC, fc.boolean(), (foodId, elevationM, h, water, discardWater) => {
        const answer = answerCookTime({ foodId, elevationM, soak: { hours: h, waterC: water, discardWater } });
        const { p10, p50, p90 } = answer.minutes;
        expect(p10).toBeLessThanOrEqual(p50);
        expect(p50).toBeLessThanOrEqual(p90);
        expect(p10).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(p90)).toBe(true);
        const shares = answer.spread.reduce((sum, row) => sum + row.share, 0);
        if (answer.spread.length > 0) expect(Math.abs(shares - 1)).toBeLessThan(0.01);
        if (answer.lectin.verdict === 'refused') expect(answer.lectin.wayOut).not.toBeNull();
      }),
      RUNS,
    );
  });
  it('says when it extrapolates: beans at 97.9 and 98 C, 127 and 127.1 C', () => {
    const at = (temperatureC: number) => answerCookTime({ foodId: 'navy-bean', temperatureC }).extrapolated;
    expect([at(97.9), at(98), at(127), at(127.1)]).toEqual([true, false, false, true]);
  });
  it('widens the range where it extrapolates', () => {
    const width = (temperatureC: number) => {
      const { p10, p90 } = answerCookTime({ foodId: 'navy-bean', temperatureC }).minutes;
      return p90 / p10;
    };
    expect(width(90)).toBeGreaterThan(width(98) * 1.05);
    expect(answerCookTime({ foodId: 'navy-bean', temperatureC: 90 }).spread.map((row) => row.cause)).toContain(
      'extrapolated kinetics',
    );
  });
  it('refuses temperatures at which the food never softens, and contradictions', () => {
    expect(() => answerCookTime({ foodId: 'navy-bean', temperatureC: 69.9 })).toThrow(OutOfRangeError);
    expect(answerCookTime({ foodId: 'navy-bean', temperatureC: 70 }).minutes.p50).toBeGreaterThan(1000);
    expect(answerCookTime({ foodId: 'navy-bean', temperatureC: 130 }).minutes.p50).toBeGreaterThan(0);
    expect(() => answerCookTime({ foodId: 'navy-bean', temperatureC: 130.1 })).toThrow(OutOfRangeError);
    expect(() => answerCookTime({ foodId: 'navy-bean' })).toThrow(InvalidInputError);
    expect(() => answerCookTime({ foodId: 'navy-bean', temperatureC: 100, elevationM: 0 })).toThrow(InvalidInputError);
    expect(() => answerCookTime({ foodId: 'no-such-food', elevationM: 0 })).toThrow(InvalidInputError);
    expect(() =>
      answerCookTime({
        foodId: 'navy-bean',
        elevationM: 0,
        storage: { years: 61, temperatureC: 20, moisturePercent: 10 },
      }),
    ).toThrow(OutOfRangeError);
  });
  it('bicarbonate shortens, acid lengthens, salt in the soak shortens', () => {
    fc.assert(
      fc.property(anyPulse, elevation, (foodId, elevationM) => {
        const soak = { hours: 12, waterC: 20, discardWater: true };
        const minutes = (more: object) => answerCookTime({ foodId, elevationM, soak, ...more }).minutes.p50;
        expect(minutes({ cookingAdditive: 'bicarbonate' })).toBeLessThan(minutes({}));
        expect(minutes({ cookingAdditive: 'acid' })).toBeGreaterThan(minutes({}));
        expect(minutes({ soak: { ...soak, additive: 'salt' } })).toBeLessThan(minutes({}));
      }),
      RUNS,
    );
  });
  it('the last step of the explanation is the answer, for every food', () => {
    for (const food of foods) {
      const q = { foodId: food.id, elevationM: 1500, soak: { hours: 6, waterC: 15, discardWater: true } };
      const steps = explainCookTime(q);
      expect(steps.at(-1)?.quantity).toBe('minutes');
      expect(Math.abs(Number(steps.at(-1)?.value) - answerCookTime(q).minutes.p50), food.id).toBeLessThan(1e-9);
    }
  });
});

describe('soak', () => {
  it('takes up more with hours and warmth, never beyond the limit', () => {
    fc.assert(
      fc.property(anyPulse, waterC, hours, hours, (foodId, water, a, b) => {
        const uptake = (h: number, w = water) => answerSoaking({ foodId, hours: h, waterC: w }).uptakeGPerG.p50;
        expect(uptake(Math.max(a, b))).toBeGreaterThanOrEqual(uptake(Math.min(a, b)) - SLACK);
        expect(uptake(a, Math.min(60, water + 5))).toBeGreaterThanOrEqual(uptake(a) - SLACK);
        const k2 = FOODS[foodId]?.soak?.k2.value ?? 1;
        expect(uptake(a)).toBeLessThan(1 / k2);
      }),
      RUNS,
    );
  });
  it('gives shares between 0 and 1, ordered percentiles and water that adds up', () => {
    fc.assert(
      fc.property(anyFood, waterC, hours, fc.boolean(), (foodId, water, h, hot) => {
        const answer = answerSoaking({ foodId, hours: h, waterC: hot ? 95 : water, ...(hot ? { start: 'hot' } : {}) });
        const { hydrationShare: f, uptakeGPerG: u, waterLPerKg: w } = answer;
        expect(f.p10).toBeGreaterThanOrEqual(0);
        expect(f.p90).toBeLessThanOrEqual(1);
        expect(f.p10).toBeLessThanOrEqual(f.p50 + SLACK);
        expect(f.p50).toBeLessThanOrEqual(f.p90 + SLACK);
        expect(u.p10).toBeLessThanOrEqual(u.p50 + SLACK);
        expect(u.p50).toBeLessThanOrEqual(u.p90 + SLACK);
        expect(Math.abs(w.supplied - w.absorbed - w.discarded)).toBeLessThan(1e-9);
        expect(answer.safe).toBe(h <= answer.limitHours);
      }),
      RUNS,
    );
  });
  it('a soak of 12 h at 22 C is a full one, and the hours to a share lead to that share', () => {
    for (const food of foods)
      if (food.soak !== null) {
        const numbers = soakNumbers(food.soak);
        expect(hydrationShare(numbers, { start: 'cool', ...FULL_SOAK })).toBeCloseTo(1, 9);
        const needed = hoursToShare(numbers, 0.8, 10);
        expect(hydrationShare(numbers, { start: 'cool', hours: needed, waterC: 10 }), food.id).toBeCloseTo(0.8, 9);
      }
  });
  it('a hot start lies between standing cool and standing hot', () => {
    fc.assert(
      fc.property(anyPulse, fc.double({ min: 0.1, max: 8, noNaN: true }), (foodId, h) => {
        const cool = answerSoaking({ foodId, hours: h, waterC: 15 }).uptakeGPerG.p50;
        const hot = answerSoaking({ foodId, hours: h, waterC: 95, start: 'hot', airC: 15 }).uptakeGPerG.p50;
        const hottest = answerSoaking({ foodId, hours: h, waterC: 95 }).uptakeGPerG.p50;
        expect(hot).toBeGreaterThan(cool - SLACK);
        expect(hot).toBeLessThan(hottest + SLACK);
      }),
      RUNS,
    );
  });
  it('ice takes up nothing, and no soak in it counts', () => {
    expect(answerSoaking({ foodId: 'kidney-bean', hours: 24, waterC: -3 }).uptakeGPerG.p50).toBe(0);
    expect(minSoakHoursForLectin(-1)).toBe(Number.POSITIVE_INFINITY);
  });
  it('the explanation carries the numbers of the answer, for every food', () => {
    for (const food of foods) {
      const q = { foodId: food.id, hours: 6, waterC: 15 };
      const steps = explainSoaking(q);
      const value = (quantity: string) => Number(steps.find((step) => step.quantity === quantity)?.value);
      const answer = answerSoaking(q);
      expect(Math.abs(value('uptakeGPerG') - answer.uptakeGPerG.p50), food.id).toBeLessThan(1e-9);
      expect(Math.abs(value('hydrationShare') - answer.hydrationShare.p50), food.id).toBeLessThan(1e-9);
      expect(steps.find((step) => step.quantity === 'safe')?.value, food.id).toBe(answer.safe);
    }
  });
  it('refuses what it cannot know', () => {
    expect(() => answerSoaking({ foodId: 'nothing', hours: 1, waterC: 20 })).toThrow(InvalidInputError);
    expect(() => answerSoaking({ foodId: 'chickpea', hours: 96.1, waterC: 20 })).toThrow(OutOfRangeError);
    expect(() => answerSoaking({ foodId: 'chickpea', hours: -0.1, waterC: 20 })).toThrow(OutOfRangeError);
    expect(() => answerSoaking({ foodId: 'chickpea', hours: 1, waterC: 100.1 })).toThrow(OutOfRangeError);
  });
});

describe('limits of a soak', () => {
  it.each([
    [0, 48],
    [5, 48],
    [5.1, 24],
    [10, 24],
    [10.1, 12],
    [20, 12],
    [25, 12],
    [25.1, 4],
    [30, 4],
    [30.1, 1],
    [59.9, 1],
    [60, 8],
  ])('%d C: %d h', (water, limit) => {
    expect(soakLimitHours(water)).toBe(limit);
  });
  it('usual hours are not longer than the limit: 24 h in the cold, 8 h at 20-25 C', () => {
    for (let water = 0; water <= 100; water += 0.5)
      expect(usualSoakHours(water)).toBeLessThanOrEqual(soakLimitHours(water));
    expect(usualSoakHours(4)).toBe(24);
    expect(usualSoakHours(22)).toBe(8);
  });
  it('the last safe hour is safe, the next minute is not', () => {
    expect(answerSoaking({ foodId: 'chickpea', hours: 12, waterC: 18 }).safe).toBe(true);
    expect(answerSoaking({ foodId: 'chickpea', hours: 12.02, waterC: 18 }).safe).toBe(false);
  });
  it('a hot soak kept above 60 C for longer than two hours is drained when it falls to 60', () => {
    const slow = { start: 'hot', waterC: 98, airC: 20, hours: 1, timeConstantHours: 6 } as const;
    expect(soakLimitOf(slow)).toBeCloseTo(6 * Math.log(78 / 40), 9);
  });
  it('rehydrated food is perishable from the first drop', () => {
    expect([5, 5.1, 32, 32.1, 60].map(wettedFoodLimitHours)).toEqual([24, 2, 2, 1, 2]);
    expect(answerSoaking({ foodId: 'fd-chicken', hours: 3, waterC: 20 }).safe).toBe(false);
  });
});

describe('box', () => {
  const box = {
    temperatureC: 95,
    hydrationShare: 0.9,
    soakedAndDrained: true,
    boxStartC: 94,
    airC: 12,
    timeConstantHours: 8,
    boxMinutes: 180,
  };
  it('never asks for less boil in a worse box, a shorter stay, a colder room or older stock', () => {
    fc.assert(
      fc.property(
        anyBoiled,
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.integer({ min: 0, max: 600 }),
        (foodId, timeConstantHours, boxMinutes) => {
          const boil = (more: object) =>
            boilBeforeBox({ ...box, foodId, timeConstantHours, boxMinutes, ...more }).boilMinutes.p50;
          const own = boil({});
          // The credit of the box is added up in steps: a thousandth of a minute.
          expect(boil({ timeConstantHours: timeConstantHours * 0.8 })).toBeGreaterThanOrEqual(own - 0.02);
          expect(boil({ boxMinutes: boxMinutes / 2 })).toBeGreaterThanOrEqual(own - 0.02);
          expect(boil({ airC: 0 })).toBeGreaterThanOrEqual(own - 0.02);
          expect(boil({ storageFactor: 1.5 })).toBeGreaterThanOrEqual(own - 0.02);
        },
      ),
      RUNS,
    );
  });
  it('without a box the boil is the cook time', () => {
    for (const food of pulses) {
      const answer = boilBeforeBox({ ...box, foodId: food.id, temperatureC: 100, hydrationShare: 0, boxMinutes: 0 });
      const cook = answerCookTime({ foodId: food.id, temperatureC: 100, firstWater: 'poured-away' });
      expect(answer.boilMinutes.p50, food.id).toBeCloseTo(cook.minutes.p50, 6);
    }
  });
  it('lets water go on entering lentils in the box', () => {
    const dry = {
      ...box,
      foodId: 'lentil-red',
      hydrationShare: 0,
      soakedAndDrained: false,
      temperatureC: 100,
      boxStartC: 98,
    };
    // Ten minutes on the flame; in a good box a boil of a minute is enough.
    expect(boilBeforeBox({ ...dry, timeConstantHours: 12, boxMinutes: 120 }).boilMinutes.p50).toBeLessThan(2);
  });
  it('says when it must be boiled again, and names the temperature', () => {
    const long = boilBeforeBox({ ...box, foodId: 'chickpea', boxMinutes: 900 });
    expect(long.reachedC).toBeLessThan(60);
    expect(long.reason).toContain('full boil again');
  });
});

describe('water', () => {
  it('dry beans are given what they hold and enough to cover them; soaked ones less', () => {
    const bean = FOODS['kidney-bean'] as (typeof foods)[number];
    const dry = cookingWater({ food: bean, massG: 1000 });
    const soaked = cookingWater({ food: bean, massG: 1000, soakUptakeGPerG: 1.1 });
    // 2.5 and 1.3 L per kg without what boils off.
    expect(Math.abs(dry.inPotL - 2.5)).toBeLessThan(0.1);
    expect(Math.abs(soaked.inPotL - 1.3)).toBeLessThan(0.1);
  });
  it('pasta is drained, unless it is boiled in little water', () => {
    const pasta = FOODS.pasta as (typeof foods)[number];
    const usual = cookingWater({ food: pasta, massG: 454, style: 'pasta' });
    // Four US quarts a pound.
    expect(Math.abs(usual.inPotL - 3.785)).toBeLessThan(0.05);
    expect(usual.drainedL).toBeCloseTo(usual.inPotL - usual.absorbedL, 9);
    expect(cookingWater({ food: pasta, massG: 454, style: 'pasta', waterSaving: true }).inPotL).toBeLessThan(1.4);
  });
  it('a soak loses what the beans do not take up: 2.0 L per kg cool, 3.1 hot', () => {
    expect(soakWater(1.1, false).discarded).toBeCloseTo(2.03, 2);
    expect(soakWater(1.1, true).discarded).toBeCloseTo(3.07, 2);
  });
  it('cooked mass is between the dry mass and six times it', () => {
    for (const food of boiled) {
      expect(cookedGPerG(food), food.id).toBeGreaterThan(0.9);
      expect(cookedGPerG(food), food.id).toBeLessThan(7);
    }
  });
});

it('an answer takes well under a tenth of a millisecond', () => {
  const soak = { start: 'hot', hours: 1, waterC: 95, airC: 15, discardWater: true } as const;
  const ask = (i: number) => answerCookTime({ foodId: 'black-bean', elevationM: i, soak });
  for (let i = 0; i < 500; i += 1) ask(i);
  const start = performance.now();
  for (let i = 0; i < 1000; i += 1) ask(i);
  // Five times what is asked, for a busy machine: a lookup gone wrong costs far more.
  expect((performance.now() - start) / 1000).toBeLessThan(0.5);
});

describe('a soak near freezing', () => {
  it.each([0, 0.5, 1, 2])('water of %s C is water: its band does not fall to that of ice', (waterC) => {
    const { uptakeGPerG, hydrationShare } = answerSoaking({ foodId: 'pinto-bean', hours: 8, waterC });
    for (const { p10, p50, p90 } of [uptakeGPerG, hydrationShare]) {
      expect(p10).toBeGreaterThan(0.75 * p50);
      expect(p90).toBeLessThan(1.35 * p50);
    }
    const soak = { hours: 8, waterC, discardWater: true };
    const { minutes } = answerCookTime({ foodId: 'pinto-bean', elevationM: 0, soak });
    const warmer = answerCookTime({ foodId: 'pinto-bean', elevationM: 0, soak: { ...soak, waterC: 5 } });
    expect(minutes.p90 / warmer.minutes.p90).toBeLessThan(1.1);
  });
});
