/** How a dish is put together: water, staging, and what slows its pulses. */
import { describe, expect, it } from 'vitest';
import { createCalculations } from '../../api/cooking/calculators/calculations.ts';
import {
  computeMethod,
  type MethodChoice,
  noHeatMethod,
  type Surroundings,
} from '../../api/cooking/dishes/cooking-methods.ts';
import { acidOfDish, type DishNeeds, dishNeeds, isRefusal, type Refusal } from '../../api/cooking/dishes/dish.ts';
import type { DishStyle, Kit } from '../../api/cooking/dishes/kit.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { wholePotBoilMinutes } from '../../api/cooking/kinetics/box-cooking.ts';

const calculations = createCalculations();
const OPEN = { elevationM: 0, gaugeKPa: null };
const COOKER = { elevationM: 0, gaugeKPa: 90 };
const SOAK = { hours: 12, waterC: 18, additive: 'none' as const };
const OLD = { years: 15, temperatureC: 13, moisturePercent: 12 };

function kit(style: DishStyle, ...parts: Record<string, number>[]): Kit {
  return {
    format: 1,
    id: 'tried',
    name: 'Tried',
    servings: 5,
    divisible: true,
    style,
    suits: ['evening'],
    parts: parts.map((part, i) => ({
      id: `part-${i}`,
      name: `Part ${i}`,
      ingredients: Object.entries(part).map(([foodId, massG]) => ({ foodId, massG })),
    })),
  };
}

function passed<Answer extends object>(answer: Answer | Refusal): Answer {
  if (isRefusal(answer)) throw new Error(answer.reason);
  return answer as Answer;
}

function needs(of: Kit, pot: { elevationM: number; gaugeKPa: number | null } = OPEN, soaked = false): DishNeeds {
  return passed(dishNeeds(of, of.servings, pot, soaked ? SOAK : null, 'kept', null, calculations));
}

const minuteOf = (dish: DishNeeds, foodId: string) => dish.additions.find((one) => one.foodId === foodId)?.atMinute;

describe('water of a dish', () => {
  // Published ratios, water to dry goods by mass; boil-off is added later, so the low end counts.
  it.each([
    ['white rice, 2 cups of water to one: 1.5 to 2.5 g/g', kit('rice', { 'white-rice': 500 }), 1.5, 2.5],
    ['rolled oats, 2 cups to one or soft: 4 to 6 g/g', kit('porridge', { 'rolled-oats': 300 }), 4, 6],
    ['pasta, water-saving way: 3 g/g', kit('pasta', { pasta: 500 }), 2.9, 3.1],
  ])('%s', (_, of, least, most) => {
    const dryKg = of.parts.flatMap((part) => part.ingredients).reduce((sum, one) => sum + one.massG, 0) / 1000;
    const ratio = needs(of).waterInPotL / dryKg;
    expect(ratio).toBeGreaterThan(least);
    expect(ratio).toBeLessThan(most);
  });
  it('counts the water of milk powder and of the grain that swells in it once', () => {
    const oats = 330 * (findFood('rolled-oats')?.absorbedGPerG.value ?? 0);
    const milk = (mass: number) => mass * (findFood('whole-milk-powder')?.absorbedGPerG.value ?? 0);
    const water = (mass: number) =>
      needs(kit('porridge', { 'rolled-oats': 330 }, { 'whole-milk-powder': mass })).absorbedL * 1000;
    expect(water(160)).toBeCloseTo(oats, 6);
    expect(water(400)).toBeCloseTo(milk(400), 6);
    expect(milk(400)).toBeGreaterThan(oats);
  });
  it('keeps large pulses covered: 1.0 mL/g besides what they take up', () => {
    const beans = kit('rice', { chickpea: 600 });
    const soaked = needs(beans, OPEN, true);
    expect(soaked.waterInPotL).toBeCloseTo(soaked.absorbedL - soaked.absorbedInSoakL + 0.6, 6);
  });
});

describe('what goes in when', () => {
  it('a sour bag waits until the pulses are soft, its broth and salt too', () => {
    const dish = needs(kit('stew', { chickpea: 330 }, { 'tomato-powder': 50, 'bouillon-powder': 20, salt: 5 }));
    const late = Math.round(dish.boilMinutes.p50 - 10);
    for (const foodId of ['tomato-powder', 'bouillon-powder', 'salt']) expect(minuteOf(dish, foodId)).toBe(late);
    expect(minuteOf(dish, 'chickpea')).toBe(0);
  });
  it('milk waits for the last minutes, the salt of its bag with it', () => {
    const dish = needs(kit('porridge', { millet: 330 }, { 'whole-milk-powder': 170, salt: 3 }));
    expect(minuteOf(dish, 'salt')).toBe(minuteOf(dish, 'whole-milk-powder'));
    expect(minuteOf(dish, 'whole-milk-powder')).toBe(Math.round(dish.boilMinutes.p50 - 10));
  });
  it('broth alone goes in from the start', () => {
    expect(minuteOf(needs(kit('soup', { 'split-pea': 330 }, { 'bouillon-powder': 25 })), 'bouillon-powder')).toBe(0);
  });
});

describe('soak', () => {
  it.each([
    ['wheat-berry', true],
    ['hulled-barley', true],
    ['chickpea', true],
    ['lentil-brown', true],
    ['split-pea', true],
    ['lentil-red', false],
    ['brown-rice', false],
  ])('of %s is made where it saves ten minutes: %s', (foodId, made) => {
    const of = kit('stew', { [foodId]: 400 });
    const soaked = needs(of, OPEN, true);
    expect(soaked.soakedPartIds).toEqual(made ? ['part-0'] : []);
    const saved = needs(of).boilMinutes.p50 - soaked.boilMinutes.p50;
    if (made) expect(saved).toBeGreaterThan(9);
    else expect(saved).toBeCloseTo(0, 9);
  });
});

describe('acid', () => {
  const apart = kit('stew', { chickpea: 330 }, { 'tomato-powder': 50 });
  const plain = kit('stew', { chickpea: 330 }, { 'onion-flakes': 50 });
  const oneBag = kit('stew', { chickpea: 330, 'tomato-powder': 50 });
  it('slows pulses only where it cannot wait', () => {
    expect(acidOfDish(apart, true)).toBe('none');
    expect(acidOfDish(apart, false)).toBe('acid');
    expect(acidOfDish(oneBag, true)).toBe('acid');
    expect(acidOfDish(plain, false)).toBe('none');
    expect(acidOfDish(kit('porridge', { millet: 300, raisins: 50 }), false)).toBe('none');
  });
  it('costs minutes in a pressure cooker and in one bag', () => {
    expect(needs(apart).boilMinutes.p50).toBeCloseTo(needs(plain).boilMinutes.p50, 6);
    expect(needs(oneBag).boilMinutes.p50).toBeGreaterThan(needs(plain).boilMinutes.p50);
    expect(needs(apart, COOKER).boilMinutes.p50).toBeGreaterThan(needs(plain, COOKER).boilMinutes.p50);
  });
});

const surroundings: Surroundings = { elevationM: 0, outdoorC: 5, indoorC: 15, wind: 'still', waterC: 10 };
const choice: MethodChoice = {
  stove: {
    id: 'stove',
    name: 'Stove',
    typeId: 'lpg-home',
    fuelIds: ['propane'],
    site: 'outdoors',
    burners: 1,
  } as MethodChoice['stove'],
  fuelId: 'propane',
  fuelMoisturePercent: null,
  vessel: {
    id: 'pot',
    name: 'Pot',
    kind: 'pot',
    capacityL: 6,
    material: 'stainless',
    lid: 'snug',
  } as MethodChoice['vessel'],
  finish: 'box',
  box: {
    id: 'box',
    name: 'Box',
    materialId: 'eps',
    thicknessMm: 100,
    conductivityWPerMK: null,
    reading: { hours: 4, temperatureC: 80, startC: 95, airC: 15 },
  } as unknown as MethodChoice['box'],
  flask: null,
  soak: SOAK,
  firstWater: 'kept',
  boxMinutes: { shortest: 240, longest: 300 },
};
const full = {
  ...choice,
  stove: { ...choice.stove, powerKW: null, efficiency: null, largestPotL: null, fillMl: null, minutesPerFill: null },
  vessel: { ...choice.vessel, gaugeKPa: null, diameterMm: null, massKg: null, finned: false },
} as MethodChoice;

describe('box', () => {
  const hold = (of: Kit, storage: typeof OLD | null) =>
    passed(computeMethod(of, 5, full, surroundings, storage, calculations)).holdMinutes;
  const plain = kit('stew', { chickpea: 500 }, { 'onion-flakes': 30 });

  it('old pulses are boiled longer before the box than fresh ones', () => {
    const fresh = hold(plain, null);
    const old = hold(plain, OLD);
    expect(old.p50).toBeGreaterThan(fresh.p50 + 10);
    expect(old.p90).toBeGreaterThan(old.p50);
  });
  it('what goes in late still boils as long as it must before the box', () => {
    const mixed = kit('stew', { chickpea: 400 }, { 'pearl-barley': 150 }, { 'onion-flakes': 30 });
    const { needs: dish, holdMinutes } = passed(computeMethod(mixed, 5, full, surroundings, null, calculations));
    const barleyAlone = hold(kit('stew', { 'pearl-barley': 150 }, { 'onion-flakes': 30 }), null).p50;
    expect(holdMinutes.p50 - (minuteOf(dish, 'pearl-barley') ?? 0)).toBeGreaterThanOrEqual(barleyAlone);
    for (const one of dish.additions)
      expect(holdMinutes.p50 - one.atMinute).toBeGreaterThanOrEqual(wholePotBoilMinutes(false));
    expect(minuteOf(dish, 'pearl-barley')).toBeGreaterThan(0);
  });
  it('sour goods, which go in before the box, make the boil longer', () => {
    expect(hold(kit('stew', { chickpea: 500 }, { 'tomato-powder': 30 }), OLD).p50).toBeGreaterThan(
      hold(plain, OLD).p50,
    );
  });
});

describe('fuel of a dish', () => {
  it('heats the water that will boil off too', () => {
    const rice = kit('rice', { 'brown-rice': 500 });
    const flame = { ...full, finish: 'flame' as const, box: null, soak: null };
    const method = passed(computeMethod(rice, 5, flame, surroundings, null, calculations));
    expect(method.boiledOffL.p50).toBeGreaterThan(0.05);
    // 4.19 kJ/(kg K) from the water's 10 C to 100 C, on the least that the dish itself takes up.
    const leastKJ = (method.needs.waterInPotL + method.boiledOffL.p50) * 4.19 * 90;
    expect(method.floorMJ * 1000).toBeGreaterThan(leastKJ);
  });
});

describe('without fire', () => {
  it('crackers, nut butter and dried fruit take no water and no wait', () => {
    const dry = passed(noHeatMethod(kit('no-cook', { crackers: 370, 'peanut-butter': 210, raisins: 110 }), 5));
    expect(dry).toMatchObject({ waterL: 0, standMinutes: 0 });
  });
  it('couscous takes its water and its time, raisins or not', () => {
    const bowl = passed(noHeatMethod(kit('no-cook', { couscous: 400, raisins: 50 }), 5));
    const couscous = findFood('couscous');
    expect(bowl.standMinutes).toBe(couscous?.kinetics.kind === 'ready' ? couscous.kinetics.standMinutesCold.p90 : -1);
    // 0.4 kg at about 2 g/g.
    expect(bowl.waterL).toBeGreaterThan(0.75);
  });
});
