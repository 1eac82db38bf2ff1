import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AGE_GROUPS, CONDITIONS, type HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { householdDocumentOf, resolveHousehold } from '../../api/cooking/household/resolve-household.ts';
import { LIDS, WINDS } from '../../api/physics/table-ids.ts';

const bare: HouseholdDocument = {
  id: 'bare',
  name: 'Bare',
  places: [{ id: 'home', elevationM: 400 }],
  people: [{ label: 'A', ageGroup: 'adult' }],
};

/** A value or nothing. */
function maybe<Value>(arbitrary: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> {
  return fc.option(arbitrary, { nil: undefined });
}
const celsius = fc.integer({ min: -30, max: 40 });
const span = fc.constantFrom({ from: '07:00', to: '16:30' }, { from: '06:00', to: '23:00' });

/** Households with any mixture of given and absent fields. */
const households: fc.Arbitrary<HouseholdDocument> = fc.record({
  id: fc.constant('any'),
  name: fc.constant('Any'),
  places: fc.tuple(
    fc.record({
      id: fc.constant('home'),
      elevationM: fc.integer({ min: 0, max: 4000 }),
      timeZone: maybe(fc.constant('Europe/Zurich')),
      indoorC: maybe(celsius),
      indoorFallsToC: maybe(celsius),
      storageC: maybe(celsius),
      outdoorC: maybe(celsius),
      wind: maybe(fc.constantFrom(...WINDS)),
      daylight: maybe(span),
    }),
    fc.record({ id: fc.constant('cabin'), elevationM: fc.integer({ min: 0, max: 4000 }) }),
  ),
  people: fc.array(
    fc.record({
      label: fc.constantFrom('A', 'B', 'C'),
      ageGroup: fc.constantFrom(...AGE_GROUPS),
      sex: maybe(fc.constantFrom('f' as const, 'm' as const)),
      condition: maybe(fc.constantFrom(...CONDITIONS)),
      mealShare: maybe(fc.double({ min: 0, max: 2, noNaN: true })),
      avoids: maybe(fc.constantFrom(['gluten'], [])),
    }),
    { maxLength: 4 },
  ),
  waking: maybe(span),
  lightingsPerDay: maybe(fc.integer({ min: 0, max: 5 })),
  outdoorMinutesPerDay: maybe(fc.integer({ min: 0, max: 600 })),
  nightFeeds: maybe(fc.constant(['02:00'])),
  thermometer: maybe(fc.boolean()),
  water: maybe(
    fc.record({
      lots: maybe(
        fc.array(
          fc.record({
            id: fc.constant('lot'),
            litres: fc.integer({ min: 0, max: 200 }),
            placeId: maybe(fc.constantFrom('home', 'cabin')),
            quality: maybe(fc.constantFrom('safe' as const, 'treat' as const, 'not-for-food' as const)),
            temperatureC: maybe(celsius),
          }),
          { maxLength: 2 },
        ),
      ),
      snow: maybe(fc.boolean()),
      treatBy: maybe(fc.constantFrom('boil' as const, 'bleach' as const)),
      hygieneLPerPersonDay: maybe(fc.integer({ min: 0, max: 10 })),
      hotWaterPerDay: maybe(fc.record({ litres: fc.integer({ min: 0, max: 9 }), temperatureC: fc.constant(70) })),
    }),
  ),
  fuels: maybe(
    fc.constantFrom(
      [{ fuelId: 'wood' as const, containers: [{ id: 'stack', leftKg: 30 }] }],
      [{ fuelId: 'propane' as const, reserveShare: 0, containers: [{ id: 'c', level: 'part' as const, fullKg: 6 }] }],
    ),
  ),
  vessels: maybe(
    fc.array(
      fc.record({
        id: fc.constant('pot'),
        kind: fc.constantFrom('pot' as const, 'pressure-cooker' as const, 'flask' as const, 'soak-bowl' as const),
        capacityL: fc.integer({ min: 1, max: 20 }),
        lid: maybe(fc.constantFrom(...LIDS)),
        gaugeKPa: maybe(fc.constant(103)),
      }),
      { maxLength: 1 },
    ),
  ),
});

/** Asserts that everything said in `given` stands unchanged in `resolved`. */
function expectKept(given: unknown, resolved: unknown, path: string): void {
  if (given === undefined) return;
  if (Array.isArray(given)) {
    expect((resolved as unknown[]).length, path).toBe(given.length);
    given.forEach((inner, index) => {
      expectKept(inner, (resolved as unknown[])[index], `${path}[${index}]`);
    });
  } else if (given !== null && typeof given === 'object') {
    for (const [key, inner] of Object.entries(given)) {
      expectKept(inner, (resolved as Record<string, unknown>)[key], `${path}.${key}`);
    }
  } else {
    expect(resolved, path).toBe(given);
  }
}

describe('a household resolved', () => {
  it('never alters a given value', () => {
    fc.assert(fc.property(households, (doc) => expectKept(doc, resolveHousehold(doc).household, 'household')));
  });

  it('resolved again is the same, with nothing left to assume', () => {
    fc.assert(
      fc.property(households, (doc) => {
        const once = resolveHousehold(doc);
        const twice = resolveHousehold(once.household);
        expect(twice.household).toEqual(once.household);
        expect(twice.defaults).toEqual([]);
      }),
    );
  });

  it('that names no cap on fires may light one a meal that may be hot, and two at least', () => {
    const meal = (id: string, hot: 'wanted' | 'optional' | 'none') => ({
      id,
      slot: 'midday' as const,
      time: '12:00',
      hot,
    });
    const withMeals = (meals: ReturnType<typeof meal>[]) =>
      resolveHousehold({ id: 'a', name: 'A', places: [{ id: 'home', name: 'Home', elevationM: 0 }], people: [], meals })
        .household.lightingsPerDay;
    expect(withMeals([meal('a', 'wanted')])).toBe(2);
    expect(withMeals([meal('a', 'wanted'), meal('b', 'optional'), meal('c', 'wanted')])).toBe(3);
    expect(withMeals([meal('a', 'wanted'), meal('b', 'none'), meal('c', 'wanted')])).toBe(2);
  });

  it('as a document again resolves to the same household', () => {
    fc.assert(
      fc.property(households, (doc) => {
        const { household } = resolveHousehold(doc);
        expect(resolveHousehold(householdDocumentOf(household)).household).toEqual(household);
      }),
    );
  });

  it('leaves no field open and shares no data with the document', () => {
    fc.assert(
      fc.property(households, (doc) => {
        const before = JSON.stringify(doc);
        const { household } = resolveHousehold(doc);
        expectNoUndefined(household, 'household');
        for (const place of household.places) place.daylight.from = '00:00';
        household.nightFeeds.push('03:00');
        for (const person of household.people) person.avoids.push('x');
        expect(JSON.stringify(doc)).toBe(before);
      }),
    );
  });

  it('fills a bare household with the defaults of the trade and names them', () => {
    const { household, defaults } = resolveHousehold(bare);
    expect(household.places[0]).toMatchObject({
      timeZone: 'Etc/UTC',
      indoorC: 18,
      indoorFallsToC: 8,
      storageC: 15,
      outdoorC: 5,
      wind: 'light',
      daylight: { from: '08:00', to: '17:00' },
    });
    expect(household.meals.map((meal) => [meal.slot, meal.time, meal.hot])).toEqual([
      ['breakfast', '07:30', 'wanted'],
      ['midday', '12:30', 'optional'],
      ['evening', '18:00', 'wanted'],
    ]);
    expect(household.thermometer).toBe(false);
    expect(household.water.hotWaterPerDay).toEqual({ litres: 0.5, temperatureC: 90 });
    expect(defaults).toEqual(
      expect.arrayContaining(['places.home.indoorC', 'people.A.mealShare', 'meals', 'waking', 'water.treatBy']),
    );
    expect(new Set(defaults).size).toBe(defaults.length);
  });

  it('lets a house fall no further than the air outside, and never rise', () => {
    const warm = resolveHousehold({ ...bare, places: [{ id: 'home', elevationM: 0, indoorC: 28, outdoorC: 24 }] });
    expect(warm.household.places[0]?.indoorFallsToC).toBe(24);
    const cold = resolveHousehold({ ...bare, places: [{ id: 'home', elevationM: 0, indoorC: 3, outdoorC: -10 }] });
    expect(cold.household.places[0]?.indoorFallsToC).toBe(3);
  });

  it('puts what names no place at the first one, and says so only where there are more', () => {
    const water = { lots: [{ id: 'cans', litres: 10 }] };
    const one = resolveHousehold({ ...bare, water });
    expect(one.household.water.lots[0]?.placeId).toBe('home');
    expect(one.defaults).not.toContain('water.lots.cans.placeId');
    const two = resolveHousehold({ ...bare, water, places: [...bare.places, { id: 'cabin', elevationM: 900 }] });
    expect(two.household.water.lots[0]?.placeId).toBe('home');
    expect(two.defaults).toContain('water.lots.cans.placeId');
  });

  it('refuses a household without a place, an unknown place and an unknown vessel', () => {
    expect(() => resolveHousehold({ ...bare, places: [] })).toThrow(/place/);
    expect(() => resolveHousehold({ ...bare, water: { lots: [{ id: 'x', litres: 1, placeId: 'moon' }] } })).toThrow(
      /home/,
    );
    expect(() => resolveHousehold({ ...bare, boxes: [{ id: 'box', fits: ['nothing'] }] })).toThrow(/vessels/);
  });
});

function expectNoUndefined(value: unknown, path: string): void {
  expect(value, path).not.toBeUndefined();
  if (value !== null && typeof value === 'object') {
    for (const [key, inner] of Object.entries(value)) expectNoUndefined(inner, `${path}.${key}`);
  }
}

describe('stoves by their label', () => {
  const house = (own: object) => ({
    id: 'h',
    name: 'H',
    places: [{ id: 'p', elevationM: 0 }],
    people: [],
    stoves: [{ id: 's', typeId: 'other-spirit' as const, fuelIds: ['ethanol' as const], powerKW: 1.2, ...own }],
  });

  it('one fill lasts as long as its energy at the power of the label', () => {
    const { household, defaults } = resolveHousehold(house({ fillMl: 100 }));
    // 100 mL of ethanol, 0.789 kg/L and 26.8 MJ/kg, are 2.11 MJ; at 1.2 kW 29 min.
    expect(household.stoves[0]?.minutesPerFill).toBe(29);
    expect(defaults).toContain('stoves.s.minutesPerFill');
    expect(resolveHousehold(household)).toEqual({ household, defaults: [] });
  });

  it('what is stated is kept, and without a fill nothing is made up', () => {
    expect(resolveHousehold(house({ fillMl: 100, minutesPerFill: 40 })).household.stoves[0]?.minutesPerFill).toBe(40);
    expect(resolveHousehold(house({})).household.stoves[0]?.minutesPerFill).toBeNull();
  });
});
