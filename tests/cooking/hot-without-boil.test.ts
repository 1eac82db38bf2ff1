/** Dishes that are fit to eat from cold water and are only heated: how long they stand, what it spares, what is refused. */
import { describe, expect, it } from 'vitest';
import { computeMethod, type MethodChoice } from '../../api/cooking/dishes/cooking-methods.ts';
import { isRefusal, needsNoFire, standsCold } from '../../api/cooking/dishes/dish.ts';
import { fireWays, isSparing } from '../../api/cooking/dishes/fire-ways.ts';
import {
  COLD_ROW_C,
  HEATED_TO_C,
  type HeatedToC,
  heatsFor,
  LEAST_REST_MINUTES,
  minutesInWater,
  REST_PACE_C,
  restAfterHeating,
  shareWhileWarming,
  standingRows,
} from '../../api/cooking/dishes/hot-without-boil.ts';
import type { Food } from '../../api/cooking/foods/food.ts';
import { FOODS } from '../../api/cooking/foods/foods-table.ts';
import { isSafeBeforeTheFire } from '../../api/cooking/household/water-treatment.ts';
import { calculations, choice, cook, kit, MILD } from './tried-dish.ts';

const COUSCOUS = kit('rice', { couscous: 400, 'fd-chicken': 80, 'fd-carrot': 30 });
const OATS = kit('porridge', { 'rolled-oats': 300, 'whole-milk-powder': 80, raisins: 60 });
const MASH = kit('porridge', { 'potato-flakes': 280, 'fd-ground-beef': 120 });

const CHOICE = choice('lpg-home');
const HEATED: MethodChoice = { ...CHOICE, heatToC: HEATED_TO_C[0] };

describe('softening in water that is not at the boil', () => {
  const foods = Object.values(FOODS).filter((food) => standingRows(food) !== null);

  it('is known for every food that is fit to eat from cold water and waits for it', () => {
    expect(foods.length).toBeGreaterThan(20);
    for (const food of foods) expect(standsCold(food), food.id).not.toBeNull();
  });

  it.each(foods.map((food) => [food.id, food] as const))(
    'goes through both rows of %s and falls between',
    (_id, food) => {
      const rows = standingRows(food);
      if (rows === null) throw new Error('asked for above');
      expect(minutesInWater(rows, COLD_ROW_C)).toBeCloseTo(rows.coldMinutes, 9);
      expect(minutesInWater(rows, rows.hotC)).toBeCloseTo(rows.hotMinutes, 9);
      let before = Number.POSITIVE_INFINITY;
      for (let atC = 0; atC <= 100; atC += 5) {
        const minutes = minutesInWater(rows, atC);
        expect(minutes).toBeLessThanOrEqual(before);
        before = minutes;
      }
    },
  );

  it('while the water warms is the sum over small steps', () => {
    for (const food of foods) {
      const rows = standingRows(food);
      if (rows === null) continue;
      const steps = 4000;
      let sum = 0;
      for (let i = 0; i < steps; i += 1) sum += 18 / steps / minutesInWater(rows, 8 + ((75 - 8) * (i + 0.5)) / steps);
      expect(shareWhileWarming(rows, 8, 75, 18), food.id).toBeCloseTo(sum, 5);
    }
  });

  it('counts ice as water at its melting point', () => {
    const rows = standingRows(FOODS.couscous as Food);
    if (rows === null) throw new Error('couscous stands');
    expect(shareWhileWarming(rows, -10, 75, 20)).toBe(shareWhileWarming(rows, 0, 75, 20));
  });
});

describe('the rest after heating', () => {
  it('is the shorter the longer it took to heat, and never none', () => {
    for (const of of [COUSCOUS, OATS, MASH]) {
      let before = Number.POSITIVE_INFINITY;
      for (let minutes = 0; minutes <= 120; minutes += 10) {
        const rest = restAfterHeating(of, 10, HEATED_TO_C[0], minutes);
        expect(rest).toBeLessThanOrEqual(before);
        expect(rest).toBeGreaterThanOrEqual(LEAST_REST_MINUTES);
        expect(Number.isInteger(rest)).toBe(true);
        before = rest;
      }
      expect(before).toBe(LEAST_REST_MINUTES);
    }
  });

  it('is at the pace of the mean temperature on the way from the fire to 60 C, at the most', () => {
    // Newton's law from 74 C (a degree is lost on taking it off) to 60 C in the cold: the mean over time.
    for (const airC of [-30, 0, 20]) {
      const mean = airC + (HEATED_TO_C[0] - 1 - 60) / Math.log((HEATED_TO_C[0] - 1 - airC) / (60 - airC));
      expect(REST_PACE_C).toBeLessThan(mean);
    }
  });
});

describe('a dish that is only heated', () => {
  it.each(
    HEATED_TO_C.flatMap((heatToC) => [
      ['couscous', heatToC, COUSCOUS] as const,
      ['oats', heatToC, OATS] as const,
      ['mashed potato', heatToC, MASH] as const,
    ]),
  )('takes heat in proportion to its rise: %s to %d C', (_name, heatToC, of) => {
    const boiled = cook(of, CHOICE);
    const heated = cook(of, { ...CHOICE, heatToC });
    expect(heated.holdMinutes).toEqual({ p10: 0, p50: 0, p90: 0 });
    expect(heated.needs.temperatureC).toBe(heatToC);
    // The physical floor is in proportion to the rise from 10 C, steam aside (a tenth of the water at most).
    const rises = (heatToC - 10) / (100 - 10);
    expect(heated.floorMJ / boiled.floorMJ).toBeLessThan(rises * 1.001);
    expect(heated.floorMJ / boiled.floorMJ).toBeGreaterThan(rises * 0.9);
    expect(heated.fuelMJ.p50).toBeLessThan(boiled.fuelMJ.p50 * rises * 1.02);
    expect(heated.minutesToBoil.p50).toBeLessThan(boiled.minutesToBoil.p50);
    expect(heated.boiledOffL.p50).toBeLessThan(boiled.boiledOffL.p50);
    expect(heated.waterL).toBeLessThanOrEqual(boiled.waterL);
    expect(heated.restMinutes).toBe(restAfterHeating(of, 10, heatToC, heated.minutesToBoil.p50));
    expect(heated.reachedC).toBeGreaterThanOrEqual(60);
    expect(heated.needs.additions.every(({ atMinute }) => atMinute === 0)).toBe(true);
  });

  it('is refused where something must boil', () => {
    for (const raw of ['cornmeal', 'white-rice', 'pasta', 'lentil-red', 'fd-raw-egg']) {
      const of = kit('porridge', { [raw]: 200, couscous: 100 });
      expect(needsNoFire(of), raw).toBe(false);
      const answer = computeMethod(of, 4, HEATED, MILD, null, calculations);
      expect(isRefusal(answer) && answer.reason, raw).toBe('Something in it must be boiled');
    }
  });

  it('is refused where the pot would be too cool when it is eaten, and boils then', () => {
    const small = { ...kit('rice', { couscous: 60 }), servings: 1 };
    const tiny = { ...HEATED, vessel: { ...HEATED.vessel, capacityL: 1 } };
    const frost = { ...MILD, outdoorC: -30 };
    const answer = computeMethod(small, 1, tiny, frost, null, calculations);
    expect(isRefusal(answer) && answer.reason).toMatch(/min off the fire the pot may have fallen to \d+ °C/);
    const { heatToC: _, ...boiling } = tiny;
    expect(isRefusal(computeMethod(small, 1, boiling, frost, null, calculations))).toBe(false);
  });

  it('is no hotter than water can be: high up it is at the boil', () => {
    // At 8,500 m water boils at about 71 C.
    expect(cook(MASH, HEATED, { ...MILD, elevationM: 8500 }).needs.temperatureC).toBeLessThan(HEATED_TO_C[0]);
  });

  it('needs a pot with a lid on the fire of its meal', () => {
    const heats = (choice: MethodChoice, may: readonly HeatedToC[] = HEATED_TO_C) =>
      fireWays(choice, false, may).filter((way) => way.heatToC !== undefined);
    expect(heats(CHOICE).map((way) => way.heatToC)).toEqual([75, 75, 85, 85]);
    expect(heats(CHOICE).every(isSparing)).toBe(true);
    expect(heats(CHOICE, [])).toEqual([]);
    expect(heats({ ...CHOICE, finish: 'box' })).toEqual([]);
    expect(heats({ ...CHOICE, vessel: { ...CHOICE.vessel, lid: 'none' } })).toEqual([]);
    expect(heats({ ...CHOICE, vessel: { ...CHOICE.vessel, kind: 'pressure-cooker', gaugeKPa: 90 } })).toEqual([]);
  });
});

describe('how far a dish may be heated', () => {
  it('is to 75 C by a thermometer only, and not at all where something, or the water, must boil', () => {
    expect(heatsFor(COUSCOUS, false, true)).toEqual([75, 85]);
    expect(heatsFor(COUSCOUS, false, false)).toEqual([85]);
    expect(heatsFor(COUSCOUS, true, true)).toEqual([]);
    expect(heatsFor(kit('porridge', { cornmeal: 300 }), false, true)).toEqual([]);
    const answer = computeMethod(COUSCOUS, 4, HEATED, { ...MILD, boilsItsWater: true }, null, calculations);
    expect(isRefusal(answer) && answer.reason).toBe('Its water must boil to be safe');
  });
});

describe('water that is made safe in the pot', () => {
  // EPA: a rolling boil of 1 min, of 3 above 5,000 ft.
  it.each([
    [1524, 1],
    [1525, 3],
  ])('boils as long as the agencies say at %d m: %d min', (elevationM, minutes) => {
    const at = { ...MILD, elevationM, boilsItsWater: true as const };
    const { heatToC: _, ...boiling } = HEATED;
    expect(cook(COUSCOUS, boiling, at).holdMinutes.p10).toBe(minutes);
    const pasta = kit('pasta', { pasta: 400 });
    const stands = cook(pasta, { ...boiling, standMinutes: 25 }, at);
    expect(stands.holdMinutes.p10).toBeGreaterThanOrEqual(Math.max(2, minutes));
  });

  it('leaves raw egg its five minutes before a stand', () => {
    const egg = kit('pasta', { pasta: 300, 'fd-raw-egg': 40 });
    const { heatToC: _, ...boiling } = HEATED;
    const dish = cook(egg, { ...boiling, standMinutes: 25 });
    expect(dish.holdMinutes.p10).toBeGreaterThanOrEqual(5);
    const raw = dish.needs.additions.find(({ foodId }) => foodId === 'fd-raw-egg');
    expect(dish.holdMinutes.p50 - (raw?.atMinute ?? Number.NaN)).toBeGreaterThanOrEqual(5);
  });
});

describe('water that is safe before the fire', () => {
  const none = { litres: 0, quality: 'treat' as const };
  it('is all that is stored safe, or made safe with bleach', () => {
    const of = (quality: 'safe' | 'treat' | 'not-for-food', treatBy: 'boil' | 'bleach', dailySupply = none) =>
      isSafeBeforeTheFire({ lots: [{ quality: 'safe' }, { quality }], dailySupply, treatBy });
    expect(of('safe', 'boil')).toBe(true);
    expect(of('not-for-food', 'boil')).toBe(true);
    expect(of('treat', 'boil')).toBe(false);
    expect(of('treat', 'bleach')).toBe(true);
    expect(of('safe', 'boil', { litres: 5, quality: 'treat' })).toBe(false);
  });
});
