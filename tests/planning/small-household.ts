/** Two adults by a small stove with a handful of kits, so that a plan of one to three days is solved in a moment. */
import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../../api/cooking/household/kitchen.ts';
import { makePlan } from '../../api/planning/make-plan.ts';
import type { PlanDraft, PlanRequest, StockEntry, StockLot } from '../../api/planning/plan-types.ts';
import type { Solver } from '../../api/planning/solver.ts';

export const EVENING = { id: 'evening', slot: 'evening', time: '18:00', hot: 'wanted' } as const;
export const MIDDAY = { id: 'midday', slot: 'midday', time: '12:30', hot: 'wanted' } as const;
export const BREAKFAST = { id: 'breakfast', slot: 'breakfast', time: '07:30', hot: 'optional' } as const;

export type WaterStore = NonNullable<HouseholdDocument['water']>;

/** Water that nobody needs to wash or keep hot with, unless a test says so. */
export function water(own: Partial<WaterStore> = {}): WaterStore {
  return {
    lots: [{ id: 'cans', litres: 120, quality: 'safe', temperatureC: 10 }],
    treatBy: 'bleach',
    hygieneLPerPersonDay: 2,
    washingUpLPerPersonMeal: 0.5,
    hotWaterPerDay: { litres: 0, temperatureC: 90 },
    ...own,
  };
}

/** The household; each test changes what it is about. */
export function household(own: Partial<HouseholdDocument> = {}): HouseholdDocument {
  return {
    id: 'brook-cottage',
    name: 'Brook cottage',
    places: [
      {
        id: 'home',
        timeZone: 'Europe/Zurich',
        elevationM: 500,
        indoorC: 14,
        indoorFallsToC: 12,
        outdoorC: 2,
        wind: 'screened',
      },
    ],
    people: [
      { label: 'A', ageGroup: 'adult', sex: 'f', mealShare: 1 },
      { label: 'B', ageGroup: 'adult', sex: 'm', mealShare: 1 },
    ],
    animals: [],
    meals: [EVENING],
    waking: { from: '06:30', to: '22:00' },
    lightingsPerDay: 2,
    outdoorMinutesPerDay: 400,
    thermometer: true,
    water: water(),
    fuels: [{ fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg: 2 }] }],
    stoves: [{ id: 'burner', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners: 1 }],
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'bowl', kind: 'soak-bowl', capacityL: 4 },
    ],
    boxes: [],
    ...own,
  };
}

/** The place with some of its figures changed. */
export function places(own: Partial<HouseholdDocument['places'][number]>): HouseholdDocument['places'] {
  const first = household().places[0];
  if (first === undefined) throw new Error('the household has a place');
  return [{ ...first, ...own }];
}

/** Propane as one bottle, without reserve. */
export function propane(leftKg: number): HouseholdDocument['fuels'] {
  return [{ fuelId: 'propane', reserveShare: 0, containers: [{ id: 'bottle', leftKg }] }];
}

export const LENTIL_SOUP: Kit = {
  id: 'lentil-soup',
  name: 'Lentil soup',
  servings: 2,
  divisible: true,
  style: 'soup',
  suits: ['midday', 'evening'],
  parts: [{ id: 'dry', name: 'Lentils', ingredients: [{ foodId: 'lentil-brown', massG: 180 }] }],
};

export const RICE: Kit = {
  id: 'plain-rice',
  name: 'Rice with carrots',
  servings: 2,
  divisible: true,
  style: 'rice',
  suits: ['midday', 'evening'],
  parts: [{ id: 'dry', name: 'Rice', ingredients: [{ foodId: 'white-rice', massG: 180 }] }],
};

export const BEAN_STEW: Kit = {
  id: 'bean-stew',
  name: 'Bean stew',
  servings: 2,
  divisible: true,
  style: 'stew',
  suits: ['midday', 'evening'],
  parts: [
    { id: 'beans', name: 'Beans', soakable: true, ingredients: [{ foodId: 'kidney-bean', massG: 180 }] },
    {
      id: 'seasoning',
      name: 'Tomato and bouillon',
      ingredients: [
        { foodId: 'tomato-powder', massG: 20 },
        { foodId: 'bouillon-powder', massG: 8 },
      ],
    },
  ],
};

/** Everything of a stew in one bag: it can be neither soaked nor drained. */
export const ONE_BAG_STEW: Kit = {
  id: 'one-bag-stew',
  name: 'Stew in one bag',
  servings: 2,
  divisible: true,
  style: 'stew',
  suits: ['midday', 'evening'],
  parts: [
    {
      id: 'all',
      name: 'Beans, tomato and bouillon',
      soakable: true,
      ingredients: [
        { foodId: 'kidney-bean', massG: 180 },
        { foodId: 'tomato-powder', massG: 20 },
        { foodId: 'bouillon-powder', massG: 8 },
      ],
    },
  ],
};

export const COUSCOUS_BOWL: Kit = {
  id: 'couscous-bowl',
  name: 'Couscous and raisins',
  servings: 2,
  divisible: true,
  style: 'no-cook',
  suits: ['breakfast', 'midday', 'evening'],
  parts: [
    {
      id: 'all',
      name: 'All',
      ingredients: [
        { foodId: 'couscous', massG: 180 },
        { foodId: 'raisins', massG: 40 },
      ],
    },
  ],
};

export type Sets = [kit: Kit, sets: number][];

/** Whole sets of kits, packed a year before unless said otherwise. */
export function stockOf(sets: Sets, packedOn = '2025-11-20'): StockEntry[] {
  return sets.flatMap(([kit, quantity]) =>
    kit.parts.map((part) => ({
      id: `${kit.id}-${part.id}`,
      kitId: kit.id,
      partId: part.id,
      placeId: 'home',
      packedOn,
      storageC: 12,
      quantity: quantity * (part.containersPerSet ?? 1),
      reason: 'packed' as const,
      at: `${packedOn}T10:00`,
    })),
  );
}

export const START = '2026-12-05T07:00';

/** What a plan for the household rests on: these sets of kits, and START. */
export function inputFor<Own extends Partial<PlanRequest>>(document: HouseholdDocument, sets: Sets, own: Own) {
  return {
    request: { householdId: document.id, startsAt: START, ...own },
    household: document,
    kits: sets.map(([kit]) => kit),
    stock: stockOf(sets),
  };
}

/** A plan for the household from these sets of kits. */
export function planFor(
  solver: Solver,
  document: HouseholdDocument,
  sets: Sets,
  own: Partial<PlanRequest> = {},
): Promise<PlanDraft> {
  return makePlan(inputFor(document, sets, { days: 1, timeLimitS: 20, ...own }), {
    solver,
    now: Date.UTC(2026, 11, 5, 6),
    id: 'plan-1',
    programVersion: '0',
  });
}

/** Kits that a plan and its successors are made from in tests of the third day. */
export const WALL_KITS: Kit[] = [LENTIL_SOUP, RICE, BEAN_STEW, COUSCOUS_BOWL];

/** Two pots, a bowl and a box that fits both; two meals and two fires a day. */
export function houseWithBox(own: Partial<HouseholdDocument> = {}): HouseholdDocument {
  return household({
    meals: [MIDDAY, EVENING],
    lightingsPerDay: 2,
    vessels: [
      { id: 'pot-5', kind: 'pot', capacityL: 5, material: 'aluminium', lid: 'snug' },
      { id: 'pot-3', kind: 'pot', capacityL: 3, material: 'aluminium', lid: 'snug' },
      { id: 'bowl', kind: 'soak-bowl', capacityL: 4 },
    ],
    boxes: [{ id: 'box', fits: ['pot-5', 'pot-3'], materialId: 'eps', thicknessMm: 100 }],
    ...own,
  });
}

/** What lies at home of a part, packed in 2024, unless said otherwise. */
export function lotOf(kitId: string, partId: string, quantity: number, more: Partial<StockLot> = {}): StockLot {
  return {
    kitId,
    partId,
    placeId: 'home',
    packedOn: '2024-05-01',
    useBy: null,
    storageC: null,
    moisturePercent: null,
    quantity,
    ...more,
  };
}
