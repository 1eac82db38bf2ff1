/**
 * A plan made by hand, two days of an invented household, that keeps every rule: lentil soup on the flame on the first
 * evening, couscous without fire for breakfast, hot water and a bean stew for the box on the second day.
 */
import { drinkingLPerDay } from '../../api/cooking/household/people.ts';
import type { Percentiles } from '../../api/physics/parameter.ts';
import type { Cooking, PlanDraft } from '../../api/planning/plan-types.ts';

const band = (p10: number, p50: number, p90: number): Percentiles => ({ p10, p50, p90 });
const NONE = band(0, 0, 0);
const DRINK_L = 2 * drinkingLPerDay({ ageGroup: 'adult' });

function lentils(): Cooking {
  return {
    id: '2026-12-05-evening-lentil-soup',
    kitId: 'lentil-soup',
    kitName: 'Lentil soup',
    batches: 1,
    servings: 2,
    takes: [
      { partId: 'lentils', placeId: 'home', packedOn: '2022-03-01', quantity: 1 },
      { partId: 'spice', placeId: 'home', packedOn: '2022-03-01', quantity: 1 },
    ],
    method: {
      soak: null,
      vesselId: 'pot-3',
      stoveId: 'burner',
      lightingId: '2026-12-05-1',
      finish: 'flame',
      boxId: null,
      flaskId: null,
      gaugeKPa: null,
      minutesToBoil: band(7, 9, 12),
      boilMinutes: band(22, 35, 53),
      releaseMinutes: 0,
      boxMinutes: 0,
      additions: [],
      firstWater: 'kept',
      temperatureC: 98.3,
      lectin: { verdict: 'not-applicable', boilMinutesNeeded: 0 },
      extrapolated: false,
    },
    startsAt: '2026-12-05T17:20',
    doneAt: '2026-12-05T18:25',
    uses: [
      { resource: 'pot-3', from: '2026-12-05T17:20', to: '2026-12-05T18:30' },
      { resource: 'burner', from: '2026-12-05T17:20', to: '2026-12-05T18:25' },
    ],
    fuel: [{ fuelId: 'propane', kg: band(0.03, 0.04, 0.055) }],
    fuelMJ: band(1.4, 1.85, 2.5),
    spread: [{ cause: 'wind', share: 1 }],
    waterL: { inPot: 1.2, absorbed: 0.4, boiledOff: band(0.05, 0.1, 0.2), soakPouredAway: 0, rinse: 0, total: 1.2 },
    saves: [],
    floorMJ: 0.4,
    usualMJ: 2,
    carefulMJ: 1.9,
    handsOnMinutes: 12,
  };
}

function couscous(): Cooking {
  return {
    ...lentils(),
    id: '2026-12-06-breakfast-couscous',
    kitId: 'couscous',
    kitName: 'Couscous with raisins',
    takes: [{ partId: 'all', placeId: 'home', packedOn: '2025-10-01', quantity: 1 }],
    method: {
      ...lentils().method,
      vesselId: null,
      stoveId: null,
      lightingId: null,
      finish: 'no-heat',
      minutesToBoil: null,
      boilMinutes: null,
      temperatureC: null,
    },
    startsAt: '2026-12-06T06:50',
    doneAt: '2026-12-06T07:30',
    uses: [],
    fuel: [],
    fuelMJ: NONE,
    spread: [],
    waterL: { inPot: 0.5, absorbed: 0.5, boiledOff: NONE, soakPouredAway: 0, rinse: 0, total: 0.5 },
    floorMJ: 0,
    usualMJ: 0,
    carefulMJ: 0,
  };
}

function beans(): Cooking {
  return {
    ...lentils(),
    id: '2026-12-06-evening-bean-stew',
    kitId: 'bean-stew',
    kitName: 'Bean stew',
    takes: [
      { partId: 'beans', placeId: 'home', packedOn: '2021-09-12', quantity: 1 },
      { partId: 'rest', placeId: 'home', packedOn: '2021-09-12', quantity: 1 },
    ],
    method: {
      ...lentils().method,
      soak: {
        start: 'cool',
        at: '2026-12-06T06:45',
        hours: 8,
        vesselId: 'bowl',
        additive: 'none',
        discardWater: true,
        waterL: 1.2,
        partIds: ['beans'],
      },
      vesselId: 'pot-6',
      lightingId: '2026-12-06-1',
      finish: 'box',
      boxId: 'box',
      minutesToBoil: band(12, 15, 20),
      boilMinutes: band(60, 66, 75),
      boxMinutes: 130,
      lectin: { verdict: 'safe', boilMinutesNeeded: 55 },
    },
    startsAt: '2026-12-06T14:45',
    doneAt: '2026-12-06T16:20',
    uses: [
      { resource: 'bowl', from: '2026-12-06T06:45', to: '2026-12-06T14:45' },
      { resource: 'pot-6', from: '2026-12-06T14:45', to: '2026-12-06T18:30' },
      { resource: 'burner', from: '2026-12-06T14:45', to: '2026-12-06T16:20' },
      { resource: 'box', from: '2026-12-06T16:20', to: '2026-12-06T18:30' },
    ],
    fuel: [{ fuelId: 'propane', kg: band(0.06, 0.08, 0.11) }],
    waterL: { inPot: 2.8, absorbed: 0.8, boiledOff: band(0.1, 0.2, 0.3), soakPouredAway: 0.8, rinse: 0.3, total: 4.3 },
  };
}

/** A fresh copy of the sound plan, to be broken at will. */
export function soundPlan(): PlanDraft {
  return {
    format: 1,
    id: 'hand-made',
    createdAt: '2026-12-05T16:00:00Z',
    request: { householdId: 'two', placeId: 'home', startsAt: '2026-12-05T17:00', days: 2 },
    resolved: {
      household: {
        id: 'two',
        name: 'Two by the wood',
        places: [
          {
            id: 'home',
            timeZone: 'Europe/Zurich',
            elevationM: 500,
            indoorC: 20,
            indoorFallsToC: 12,
            outdoorC: 2,
            wind: 'screened',
          },
          { id: 'cabin', timeZone: 'Europe/Zurich', elevationM: 900 },
        ],
        people: [
          { label: 'A', ageGroup: 'adult', mealShare: 1 },
          { label: 'B', ageGroup: 'adult', mealShare: 1 },
        ],
        animals: [{ label: 'dog', waterLPerDay: 1 }],
        meals: [
          { id: 'breakfast', slot: 'breakfast', time: '07:30', hot: 'optional' },
          { id: 'evening', slot: 'evening', time: '18:30', hot: 'wanted' },
        ],
        waking: { from: '06:30', to: '22:00' },
        lightingsPerDay: 1,
        outdoorMinutesPerDay: 160,
        thermometer: false,
        water: {
          lots: [
            { id: 'cans', placeId: 'home', litres: 20, quality: 'safe', temperatureC: 10 },
            { id: 'barrel', placeId: 'home', litres: 10, quality: 'treat' },
            { id: 'tub', placeId: 'home', litres: 40, quality: 'not-for-food' },
          ],
          dailySupply: { litres: 0, quality: 'treat' },
          treatBy: 'boil',
          hygieneLPerPersonDay: 2,
          washingUpLPerPersonMeal: 1,
          hotWaterPerDay: { litres: 2, temperatureC: 90 },
        },
        fuels: [
          {
            fuelId: 'propane',
            reserveShare: 0.1,
            containers: [
              { id: 'open', placeId: 'home', leftKg: 0.3 },
              { id: 'far', placeId: 'cabin', leftKg: 5 },
            ],
          },
        ],
        stoves: [
          { id: 'burner', placeId: 'home', typeId: 'propane-camp', fuelIds: ['propane'], site: 'outdoors', burners: 1 },
          { id: 'spirit', placeId: 'home', typeId: 'alcohol-jet', fuelIds: ['ethanol'], site: 'outdoors', burners: 1 },
        ],
        vessels: [
          { id: 'pot-3', placeId: 'home', kind: 'pot', capacityL: 3, material: 'aluminium', lid: 'snug' },
          { id: 'pot-6', placeId: 'home', kind: 'pot', capacityL: 6, material: 'aluminium', lid: 'snug' },
          { id: 'cooker', placeId: 'home', kind: 'pressure-cooker', capacityL: 6, gaugeKPa: 100 },
          { id: 'bowl', placeId: 'home', kind: 'soak-bowl', capacityL: 4 },
          { id: 'flask', placeId: 'home', kind: 'flask', capacityL: 1 },
        ],
        boxes: [{ id: 'box', placeId: 'home', fits: ['pot-6'], materialId: 'eps', thicknessMm: 50 }],
      },
      kits: [
        {
          id: 'lentil-soup',
          name: 'Lentil soup',
          servings: 2,
          style: 'soup',
          suits: ['midday', 'evening'],
          parts: [
            { id: 'lentils', name: 'Lentils', soakable: true, ingredients: [{ foodId: 'lentil-brown', massG: 160 }] },
            { id: 'spice', name: 'Spice', ingredients: [{ foodId: 'salt', massG: 5 }] },
          ],
        },
        {
          id: 'couscous',
          name: 'Couscous with raisins',
          servings: 2,
          style: 'no-cook',
          suits: ['breakfast'],
          parts: [
            {
              id: 'all',
              name: 'All',
              ingredients: [
                { foodId: 'couscous', massG: 200 },
                { foodId: 'raisins', massG: 50 },
              ],
            },
          ],
        },
        {
          id: 'bean-stew',
          name: 'Bean stew',
          servings: 2,
          style: 'stew',
          suits: ['evening'],
          parts: [
            { id: 'beans', name: 'Beans', soakable: true, ingredients: [{ foodId: 'kidney-bean', massG: 400 }] },
            {
              id: 'rest',
              name: 'Rice and tomato',
              ingredients: [
                { foodId: 'white-rice', massG: 150 },
                { foodId: 'tomato-powder', massG: 20 },
              ],
            },
          ],
        },
      ],
      stock: [
        lot('lentil-soup', 'lentils', '2022-03-01', 1),
        lot('lentil-soup', 'spice', '2022-03-01', 2),
        lot('couscous', 'all', '2025-10-01', 1),
        lot('bean-stew', 'beans', '2021-09-12', 1),
        lot('bean-stew', 'rest', '2021-09-12', 1),
      ],
      defaults: [],
    },
    versions: { program: '0', tables: '1', solver: 'by hand' },
    outcome: 'complete',
    proof: { status: 'optimal', aims: [], note: null },
    lightings: [
      {
        id: '2026-12-05-1',
        stoveId: 'burner',
        fuelId: 'propane',
        at: '2026-12-05T17:18',
        until: '2026-12-05T18:25',
        outdoors: true,
        startUpFuel: { fuelId: 'propane', kg: 0.002 },
      },
      {
        id: '2026-12-06-1',
        stoveId: 'burner',
        fuelId: 'propane',
        at: '2026-12-06T14:10',
        until: '2026-12-06T16:20',
        outdoors: true,
        startUpFuel: { fuelId: 'propane', kg: 0.002 },
      },
    ],
    cookings: [lentils(), couscous(), beans()],
    meals: [
      meal('2026-12-05', 'evening', '18:30', lentils().id, true, '2026-12-05T20:25'),
      meal('2026-12-06', 'breakfast', '07:30', couscous().id, false, '2026-12-06T08:50'),
      meal('2026-12-06', 'evening', '18:30', beans().id, true, '2026-12-06T19:00'),
    ],
    tasks: [
      {
        id: '2026-12-06-hot-water',
        kind: 'hot-water',
        at: '2026-12-06T14:15',
        lightingId: '2026-12-06-1',
        vesselId: 'pot-3',
        litres: 2,
        temperatureC: 90,
        minutes: 12,
        fuel: [{ fuelId: 'propane', kg: band(0.02, 0.03, 0.04) }],
        uses: [
          { resource: 'pot-3', from: '2026-12-06T14:15', to: '2026-12-06T14:40' },
          { resource: 'burner', from: '2026-12-06T14:15', to: '2026-12-06T14:40' },
        ],
      },
    ],
    fuel: [
      {
        fuelId: 'propane',
        onHandKg: 0.3,
        reserveKg: 0.03,
        budgetKg: 0.27,
        usedKg: band(0.12, 0.153, 0.2),
        spread: [{ cause: 'wind', share: 1 }],
        byDay: [fuelDay('2026-12-05', 0.0415, 0.2585), fuelDay('2026-12-06', 0.1115, 0.147)],
      },
    ],
    water: {
      onHandL: 70,
      byDay: [
        waterDay('2026-12-05', DRINK_L * 0.3, 1.2, 0.3, 1.2, 0, 70),
        waterDay('2026-12-06', DRINK_L, 4, 1, 3.6, 1.2, 70 - (DRINK_L * 0.3 + 1.2 + 0.3 + 1.2 + 2)),
      ],
    },
    limits: [],
    short: [],
    conflict: null,
    waysOut: [],
    energyByDay: [],
    withoutSupply: null,
    spread: [],
    comparison: { planMJ: 7, carefulCookMJ: 8, usualMJ: 9, floorMJ: 2 },
    refused: [],
    assumptions: [],
    cautions: [],
  };
}

function lot(kitId: string, partId: string, packedOn: string, quantity: number) {
  return { kitId, partId, placeId: 'home', packedOn, useBy: null, storageC: 12, moisturePercent: 10, quantity };
}

function meal(
  date: string,
  mealId: 'breakfast' | 'evening',
  time: string,
  cookingId: string,
  hot: boolean,
  safeUntil: string,
) {
  return {
    id: `${date}-${mealId}`,
    mealId,
    slot: mealId,
    eatAt: `${date}T${time}`,
    people: 2,
    servingsWanted: 2,
    servingsShort: 0,
    hotWanted: mealId === 'evening',
    dishes: [{ cookingId, servings: 2, hot, safeUntil }],
    energyKcal: 1000,
    proteinG: 40,
    cautions: [],
  };
}

function fuelDay(date: string, usedKg: number, leftKg: number) {
  return {
    date,
    usedKg: band(usedKg * 0.8, usedKg, usedKg * 1.3),
    leftKg: band(leftKg - 0.05, leftKg, leftKg + 0.03),
    expectedReading: band(leftKg - 0.05, leftKg, leftKg + 0.03),
    replanBelow: leftKg - 0.05,
  };
}

function waterDay(
  date: string,
  drinkL: number,
  hygieneL: number,
  animalsL: number,
  cookL: number,
  soakL: number,
  beforeL: number,
) {
  const usedL = drinkL + hygieneL + animalsL + cookL + soakL + 2;
  return {
    date,
    drinkL,
    hygieneL,
    animalsL,
    cookL,
    soakL,
    washL: 2,
    usedL,
    ofWhichHeatedL: 2,
    leftL: beforeL - usedL,
    replanBelow: 20,
  };
}
