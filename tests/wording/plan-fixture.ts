/** A made-up plan of the right shape, to word and to print: its figures hold together but no solver has seen them. */

import type { Kit } from '../../api/cooking/dishes/kit.ts';
import type { Percentiles } from '../../api/physics/parameter.ts';
import type {
  Cooking,
  Lighting,
  Plan,
  PlanDraft,
  PlannedMeal,
  PlannedMethod,
  PlanTask,
} from '../../api/planning/plan-types.ts';
import { demoDocuments } from '../../api/storage/demo.ts';
import { makeSchedule } from '../../api/wording/schedule.ts';
import { addDays, addMinutes } from '../../api/wording/times.ts';

const START = '2026-12-05';

const about = (value: number): Percentiles => ({ p10: value * 0.8, p50: value, p90: value * 1.3 });

const NO_METHOD: PlannedMethod = {
  soak: null,
  vesselId: null,
  stoveId: null,
  lightingId: null,
  finish: 'no-heat',
  boxId: null,
  flaskId: null,
  gaugeKPa: null,
  minutesToBoil: null,
  boilMinutes: null,
  releaseMinutes: 0,
  boxMinutes: 0,
  additions: [],
  firstWater: 'kept',
  temperatureC: null,
  lectin: { verdict: 'not-applicable', boilMinutesNeeded: 0 },
  extrapolated: false,
};

function cookingOf(kit: Kit, id: string, startsAt: string, doneAt: string, method: Partial<PlannedMethod>): Cooking {
  const fire = method.lightingId !== undefined;
  return {
    id,
    kitId: kit.id,
    kitName: kit.name,
    batches: 0.84,
    servings: 4.2,
    takes: kit.parts.map((part) => ({ partId: part.id, placeId: 'home', packedOn: '2023-03-17', quantity: 0.84 })),
    method: { ...NO_METHOD, ...method },
    startsAt,
    doneAt,
    uses: [],
    fuel: fire ? [{ fuelId: 'propane', kg: about(0.05) }] : [],
    fuelMJ: about(fire ? 2 : 0),
    spread: fire ? [{ cause: 'stove efficiency', share: 1 }] : [],
    waterL: {
      inPot: fire ? 2.63 : kit.id.startsWith('couscous') ? 0.8 : 0,
      absorbed: 1.2,
      boiledOff: about(0.15),
      soakPouredAway: method.soak == null ? 0 : 0.62,
      rinse: method.soak == null ? 0 : 0.5,
      total: 3.2,
    },
    saves: [],
    floorMJ: 0.9,
    usualMJ: 4,
    carefulMJ: 3,
    handsOnMinutes: 15,
  };
}

/** A draft of seven days with one dish of each way of cooking a day, and the day's water. */
export function planDraftFixture(): PlanDraft {
  const { household, kits, stock } = demoDocuments(START);
  const kit = (id: string): Kit => kits.find((one) => one.id === id) as Kit;
  const lightings: Lighting[] = [];
  const cookings: Cooking[] = [];
  const meals: PlannedMeal[] = [];
  const tasks: PlanTask[] = [];
  const dates = Array.from({ length: 7 }, (_, day) => addDays(START, day));
  const evenings = [
    'red-bean-barley-stew',
    'chicken-noodle-pot',
    'small-red-bean-rice',
    'beef-potato-stew',
    'chickpea-tomato-stew',
    'red-lentil-rice',
    'chicken-pea-rice',
  ];
  const mornings = ['oat-apple-porridge', 'millet-raisin-porridge', 'cornmeal-milk-porridge', 'sweet-milk-rice'];
  for (const [day, date] of dates.entries()) {
    const morning: Lighting = {
      id: `${date}-1`,
      stoveId: 'camp-stove',
      fuelId: 'propane',
      at: `${date}T07:05`,
      until: `${date}T07:50`,
      outdoors: true,
      startUpFuel: { fuelId: 'propane', kg: 0.002 },
    };
    const noon: Lighting = {
      id: `${date}-2`,
      stoveId: day % 3 === 1 ? 'spirit-burner' : 'rocket',
      fuelId: day % 3 === 1 ? 'denatured-alcohol' : 'wood',
      at: `${date}T14:00`,
      until: `${date}T15:05`,
      outdoors: true,
      startUpFuel: { fuelId: day % 3 === 1 ? 'denatured-alcohol' : 'wood', kg: 0.05 },
    };
    lightings.push(morning, noon);
    const breakfast = cookingOf(
      kit(mornings[day % mornings.length] as string),
      `${date}-breakfast-1`,
      `${date}T07:10`,
      `${date}T07:40`,
      {
        vesselId: 'small-pot',
        stoveId: 'camp-stove',
        lightingId: morning.id,
        finish: 'flame',
        minutesToBoil: about(14),
        boilMinutes: about(12),
        temperatureC: 94.1,
      },
    );
    const midday = cookingOf(
      kit(day % 2 === 0 ? 'crackers-nut-butter-fruit' : 'couscous-vegetable-bowl'),
      `${date}-midday-1`,
      `${date}T12:00`,
      `${date}T12:25`,
      day % 2 === 0 ? {} : { vesselId: 'white-bowl' },
    );
    const eveningKit = kit(evenings[day] as string);
    const beans = eveningKit.parts.find((part) => part.id === 'beans' || part.id === 'chickpeas');
    const pressure = day === 4;
    const evening = cookingOf(eveningKit, `${date}-evening-1`, `${date}T14:10`, `${date}T18:00`, {
      vesselId: pressure ? 'pressure-cooker' : 'big-pot',
      stoveId: noon.stoveId,
      lightingId: noon.id,
      finish: pressure ? 'flame' : 'box',
      boxId: pressure ? null : 'foam-box',
      gaugeKPa: pressure ? 90 : null,
      minutesToBoil: about(18),
      boilMinutes: { p10: 30, p50: 34.2, p90: 51 },
      releaseMinutes: pressure ? 12 : 0,
      boxMinutes: pressure ? 0 : 180,
      temperatureC: 94.1,
      lectin:
        beans?.id === 'beans'
          ? { verdict: 'safe', boilMinutesNeeded: 33.4 }
          : { verdict: 'not-applicable', boilMinutesNeeded: 0 },
      soak:
        beans === undefined
          ? null
          : {
              start: 'cool',
              at: `${addDays(date, -1)}T21:00`,
              hours: 16,
              vesselId: 'blue-bowl',
              additive: 'none',
              discardWater: true,
              waterL: 1.1,
              partIds: [beans.id],
            },
      additions: eveningKit.parts
        .filter((part) => part.id === 'barley')
        .map((part) => ({ partId: part.id, foodId: 'pearl-barley', atMinute: 9.4, massG: 185 })),
    });
    // The first evening cannot have been soaked for.
    if (day === 0) evening.method.soak = null;
    cookings.push(breakfast, midday, evening);
    for (const [cooking, slot, eatAt] of [
      [breakfast, 'breakfast', `${date}T07:45`],
      [midday, 'midday', `${date}T12:30`],
      [evening, 'evening', `${date}T18:00`],
    ] as const) {
      meals.push({
        id: `${date}-${slot}`,
        mealId: slot,
        slot,
        eatAt,
        people: 5,
        servingsWanted: 4.2,
        servingsShort: 0,
        hotWanted: slot !== 'midday',
        dishes: [{ cookingId: cooking.id, servings: 4.2, hot: slot !== 'midday', safeUntil: addMinutes(eatAt, 120) }],
        energyKcal: 2500,
        proteinG: 90,
        cautions: [],
      });
    }
    tasks.push({
      id: `${date}-hot-water`,
      kind: 'hot-water',
      at: `${date}T14:46`,
      lightingId: noon.id,
      vesselId: 'small-pot',
      litres: 3,
      temperatureC: 85,
      minutes: 18,
      fuel: [],
      uses: [{ resource: 'flask', from: `${date}T15:04`, to: `${date}T22:00` }],
    });
    if (day % 2 === 1) {
      tasks.push({
        id: `${date}-treat`,
        kind: 'treat-water',
        at: `${date}T10:00`,
        lightingId: null,
        vesselId: null,
        litres: 20,
        temperatureC: null,
        minutes: 35,
        fuel: [],
        uses: [],
      });
    }
  }
  const fuel = (fuelId: 'wood' | 'propane' | 'denatured-alcohol', onHandKg: number, dayKg: number) => ({
    fuelId,
    onHandKg,
    reserveKg: onHandKg * 0.1,
    budgetKg: onHandKg * 0.9,
    usedKg: about(dayKg * 7),
    spread: [{ cause: 'stove efficiency', share: 1 }],
    byDay: dates.map((date, day) => ({
      date,
      usedKg: about(dayKg),
      leftKg: about(onHandKg - dayKg * (day + 1)),
      expectedReading: about(onHandKg - dayKg * (day + 1)),
      replanBelow: onHandKg - dayKg * (day + 1) * 1.3,
    })),
  });
  return {
    format: 1,
    id: '3f2a9c10-demo',
    createdAt: '2026-12-05T06:40',
    request: { householdId: household.id, startsAt: `${START}T06:45`, days: 7 },
    resolved: {
      household,
      kits,
      stock: stock.map((entry) => ({
        kitId: entry.kitId,
        partId: entry.partId,
        placeId: entry.placeId,
        packedOn: entry.packedOn,
        useBy: null,
        storageC: 13,
        moisturePercent: null,
        quantity: entry.quantity,
      })),
      defaults: [],
    },
    versions: { program: '0.1.0', tables: '2026-11', solver: 'none' },
    outcome: 'complete',
    proof: { status: 'optimal', aims: [], note: null },
    lightings,
    cookings,
    meals,
    tasks,
    fuel: [fuel('wood', 25, 0.9), fuel('propane', 2.12, 0.12), fuel('denatured-alcohol', 2, 0.05)],
    water: {
      onHandL: 210,
      byDay: dates.map((date, day) => ({
        date,
        drinkL: 10.2,
        hygieneL: 10,
        animalsL: 1,
        cookL: 6.1,
        soakL: 1.1,
        washL: 7.5,
        usedL: 28.6,
        ofWhichHeatedL: 3,
        leftL: 210 - 28.6 * (day + 1),
        replanBelow: (210 - 28.6 * (day + 1)) * 0.97 - 2,
      })),
    },
    limits: [],
    short: [],
    conflict: null,
    waysOut: [],
    energyByDay: [],
    withoutSupply: null,
    spread: [],
    comparison: { planMJ: 14, carefulCookMJ: 26, usualMJ: 41, floorMJ: 6 },
    refused: [],
    assumptions: [],
    cautions: [],
  };
}

/** The same with its steps worded. */
export function planFixture(): Plan {
  const draft = planDraftFixture();
  return { ...draft, schedule: makeSchedule(draft) };
}
