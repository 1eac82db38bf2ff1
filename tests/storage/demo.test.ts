import { describe, expect, it } from 'vitest';
import { packableParts } from '../../api/cooking/dishes/part-choices.ts';
import { ALLERGENS } from '../../api/cooking/foods/food.ts';
import { findFood } from '../../api/cooking/foods/foods-table.ts';
import { stockLots } from '../../api/planning/stock-lots.ts';
import { completeSets, setsByPlace } from '../../api/planning/stock-sets.ts';
import { demoDocuments } from '../../api/storage/demo.ts';

const { household, kits, stock } = demoDocuments('2026-12-05');

const setsOf = (kitId: string, partId: string): number =>
  stock.filter((entry) => entry.kitId === kitId && entry.partId === partId).reduce((sum, one) => sum + one.quantity, 0);

describe('the demonstration household', () => {
  it('has five people of several ages, an animal, and somebody who is pregnant or nursing', () => {
    expect(household.people).toHaveLength(5);
    const ages = new Set(household.people.map((person) => person.ageGroup));
    for (const age of ['adult', 'teen', 'child', 'older-adult']) expect(ages).toContain(age);
    expect(household.people.some((person) => ['pregnant', 'nursing'].includes(person.condition ?? 'none'))).toBe(true);
    expect(household.animals).toHaveLength(1);
  });

  it('stands at 1,780 m in the cold with three stoves, three fuels, a box that fits both pots', () => {
    const place = household.places[0];
    expect(place).toMatchObject({ elevationM: 1780, indoorC: 13, indoorFallsToC: 9, outdoorC: -5 });
    expect(household.stoves?.map((stove) => stove.typeId)).toEqual(['rocket', 'propane-camp', 'alcohol-pot']);
    expect(household.stoves?.every((stove) => stove.site === 'outdoors')).toBe(true);
    expect(household.fuels?.map((fuel) => fuel.fuelId)).toEqual(['wood', 'propane', 'denatured-alcohol']);
    const pots = household.vessels?.filter((vessel) => vessel.kind === 'pot').map((vessel) => vessel.id);
    expect(household.boxes?.[0]?.fits).toEqual(pots);
    const lots = household.water?.lots ?? [];
    expect(lots.map((lot) => [lot.quality, lot.temperatureC])).toEqual([
      ['safe', 8],
      ['treat', 4],
    ]);
    expect(lots[0]?.litres).toBeGreaterThanOrEqual(150);
    expect(lots[1]?.litres).toBeGreaterThanOrEqual(60);
  });

  it('refers to nothing that is not there', () => {
    const places = new Set(household.places.map((place) => place.id));
    const fuels = new Set(household.fuels?.map((fuel) => fuel.fuelId));
    for (const stove of household.stoves ?? []) for (const fuel of stove.fuelIds) expect(fuels).toContain(fuel);
    for (const entry of stock) {
      expect(places).toContain(entry.placeId);
      const kit = kits.find((one) => one.id === entry.kitId);
      expect(kit !== undefined && packableParts(kit).some((part) => part.id === entry.partId)).toBe(true);
    }
    const ids = [...kits, ...stock, ...(household.vessels ?? []), ...(household.stoves ?? [])].map((one) => one.id);
    for (const id of ids) expect(id).toMatch(/^[a-z0-9-]{1,64}$/);
    expect(new Set(stock.map((entry) => entry.id)).size).toBe(stock.length);
  });
});

describe('the demonstration kits', () => {
  it('hold only foods that a table knows', () => {
    const unknown = kits
      .flatMap((kit) => kit.parts.flatMap((part) => part.ingredients.map((one) => one.foodId)))
      .filter((id) => findFood(id) === undefined);
    expect(unknown).toEqual([]);
  });

  it('are at least twelve, of every style, with something for each meal', () => {
    expect(kits.length).toBeGreaterThanOrEqual(12);
    expect(new Set(kits.map((kit) => kit.style)).size).toBeGreaterThanOrEqual(5);
    for (const slot of ['breakfast', 'midday', 'evening'] as const) {
      const sets = kits
        .filter((kit) => kit.suits.includes(slot))
        .reduce((sum, kit) => sum + setsOf(kit.id, kit.parts[0]?.id ?? ''), 0);
      // One set a day for a week.
      expect(sets).toBeGreaterThanOrEqual(7);
    }
  });

  it('keep kidney-family beans in a part of their own', () => {
    const beanParts = kits
      .flatMap((kit) => kit.parts)
      .filter((part) => part.ingredients.some((one) => findFood(one.foodId)?.lectin === 'kidney-family'));
    expect(beanParts.length).toBeGreaterThanOrEqual(2);
    for (const part of beanParts) expect(part.ingredients).toHaveLength(1);
  });

  it('hold whole sets, one lot of them many years old', () => {
    for (const kit of kits.filter((one) => one.id !== 'pea-sweetcorn-chowder')) {
      const counts = kit.parts.map((part) => setsOf(kit.id, part.id) / (part.containersPerSet ?? 1));
      expect(new Set(counts).size, kit.id).toBe(1);
    }
    const years = stock.map((entry) => Number(entry.packedOn.slice(0, 4)));
    expect(Math.min(...years)).toBe(2011);
    expect(stock.every((entry) => entry.reason === 'packed')).toBe(true);
  });

  it('have one dish in three parts at two places: a set at each, a third only of both together, and pulses swapped', () => {
    const kit = kits.find((one) => one.id === 'pea-sweetcorn-chowder') as (typeof kits)[number];
    expect(kit.parts).toHaveLength(3);
    const lots = stockLots(stock);
    const byPlace = setsByPlace([kit], lots, '2026-12-05');
    expect(byPlace.map(({ placeId, sets, limitingPartIds }) => [placeId, sets, limitingPartIds])).toEqual([
      ['earth-cellar', 1, ['pulses', 'freeze-dried']],
      ['home', 1, ['seasoning']],
    ]);
    expect(byPlace[0]?.alike.map((one) => one.standIns)).toEqual([['pulses-with-lentil-brown']]);
    expect(completeSets(kit, lots, '2026-12-05').sets).toBe(3);
  });

  it('weigh what a serving weighs, and no-cook kits need no fire', () => {
    for (const kit of kits) {
      const foods = kit.parts.flatMap((part) => part.ingredients);
      const dryG = foods.reduce((sum, one) => sum + one.massG, 0) / kit.servings;
      expect(dryG, kit.id).toBeGreaterThan(90);
      expect(dryG, kit.id).toBeLessThan(200);
      if (kit.style !== 'no-cook') continue;
      for (const one of foods) expect(findFood(one.foodId)?.kinetics.kind, one.foodId).toBe('ready');
    }
  });

  it('feed five people for a week on about 2,000 kcal a day or more', () => {
    let kcal = 0;
    for (const kit of kits) {
      for (const part of kit.parts) {
        for (const one of part.ingredients) {
          kcal += (setsOf(kit.id, part.id) * one.massG * (findFood(one.foodId)?.kcalPer100G.value ?? 0)) / 100;
        }
      }
    }
    const perPersonDay = kcal / (5 * 7);
    expect(perPersonDay).toBeGreaterThan(1900);
    // More than one week's worth may be in store, not two.
    expect(perPersonDay).toBeLessThan(4500);
  });

  it('know the allergens that the notes name', () => {
    const nutty = kits.find((kit) => kit.id === 'crackers-nut-butter-fruit');
    const found = nutty?.parts.flatMap((part) =>
      part.ingredients.flatMap((one) => findFood(one.foodId)?.allergens ?? []),
    );
    expect(found).toContain('peanut');
    for (const allergen of found ?? []) expect(ALLERGENS).toContain(allergen);
  });

  it('counts packing years back from the start, and refuses what is no date', () => {
    expect(demoDocuments('2030-01-02').stock.some((entry) => entry.packedOn.startsWith('2015'))).toBe(true);
    expect(() => demoDocuments('5 December')).toThrow(RangeError);
  });
});
