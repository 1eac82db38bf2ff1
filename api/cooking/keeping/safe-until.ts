/**
 * Until when food may be eaten, and what to do with food that came out of the safe range. Clocks are in hours; whoever
 * knows the wall clock adds them.
 */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';

const DANGER_ZONE = { key: 'fsis-danger-zone', place: 'two hours; one hour above 90 F' } as const;

/** Limits of food safety. They are rules, not measurements: P10 and P90 equal the value unless agencies differ. */
export const FOOD_SAFETY = {
  hoursOut: sure(2, 'h', DANGER_ZONE),
  hoursOutHot: sure(1, 'h', DANGER_ZONE),
  /** 90 F as printed, 32 C. */
  hotAirC: sure(32, 'C', DANGER_ZONE),
  /** 140 F; the trade's Food Code holds from 57 C, the BfR 60 C. */
  hotHoldC: { ...sure(60, 'C', { key: 'bfr-037-2020', place: 'hot holding' }), p10: 57 },
  coldHoldC: { ...sure(4.4, 'C', { key: 'fsis-danger-zone', place: '40 F' }), p90: 5 },
  reheatToC: sure(74, 'C', { key: 'ndsu-cooling-food', place: 'reheat to 165 F within 2 h' }),
  /** Cooling of cooked food: 57 to 21 C, and from the start to 5 C. */
  coolTo21Hours: sure(2, 'h', { key: 'food-code-cooling', place: '3-501.14' }),
  coolTo5Hours: sure(6, 'h', { key: 'food-code-cooling', place: '3-501.14' }),
  fridgeHours: sure(4, 'h', { key: 'fsis-emergencies', place: 'refrigerator, door shut' }),
  freezerHoursFull: sure(48, 'h', { key: 'fsis-emergencies', place: 'freezer, door shut' }),
  freezerHoursHalfFull: sure(24, 'h', { key: 'fsis-emergencies', place: 'freezer, door shut' }),
  /** Formula powder is not sterile. */
  formulaWaterC: sure(70, 'C', { key: 'who-formula-2007', place: 'water no cooler than 70 C' }),
  formulaHours: sure(2, 'h', { key: 'who-formula-2007', place: 'feed within 2 h' }),
} as const;

/**
 * Hours for which food may stand without heat or cold, counted from the end of heating or from the moment at which it
 * falls to 60 C; also for rehydrated food, counted from the moment at which water was added.
 *
 * Source: FSIS, danger zone wording: 2 h, 1 h where the air is above 32 C.
 * @param airC temperature of the air around it, C, -60 to 60
 * @returns 2 or 1, h
 * @throws OutOfRangeError
 */
export function safeUntilAfterHeat(airC: number): number {
  requireInRange('airC', airC, -60, 60, 'C');
  return airC > FOOD_SAFETY.hotAirC.value ? FOOD_SAFETY.hoursOutHot.value : FOOD_SAFETY.hoursOut.value;
}

export type HoldingDecision = 'serve' | 'reheat' | 'discard';

/**
 * What to do with a dish on opening its box or flask (or after it stood).
 *
 * At 60 C or more: serve. Below for less than the limit: reheat to 74 C, all through. Longer, or unknown how long:
 * discard. Tasting tells nothing, and reheating does not destroy every toxin.
 *
 * Source: FSIS danger zone; BfR 2020; NDSU.
 * @param food `temperatureC`, null where it was not measured; `hoursBelow60C` hours since it fell to 60 C, >= 0, null
 *   where that cannot be known; `airC` C
 * @returns the decision and the reason with what to do
 * @throws OutOfRangeError
 */
export function decideOnHeldFood(food: { temperatureC: number | null; hoursBelow60C: number | null; airC: number }): {
  decision: HoldingDecision;
  reason: string;
} {
  const limit = safeUntilAfterHeat(food.airC);
  if (food.temperatureC !== null && food.temperatureC >= FOOD_SAFETY.hotHoldC.value) {
    return { decision: 'serve', reason: 'still at 60 C or hotter' };
  }
  if (food.hoursBelow60C === null) {
    return { decision: 'discard', reason: 'below 60 C, and since when cannot be known' };
  }
  requireInRange('hoursBelow60C', food.hoursBelow60C, 0, Number.MAX_VALUE, 'h');
  if (food.hoursBelow60C <= limit) {
    return { decision: 'reheat', reason: `below 60 C for no more than ${limit} h: heat to 74 C all through, then eat` };
  }
  return { decision: 'discard', reason: `below 60 C for more than ${limit} h: bacteria and their poisons` };
}

export type ColdStoreDecision = 'keep' | 'check-temperature' | 'discard-perishables';

/**
 * What an outage means for a refrigerator or freezer whose door stayed shut.
 *
 * Source: FSIS, Keep Your Food Safe During Emergencies: refrigerator 4 h, freezer 48 h full and 24 h half full; after
 * that a freezer's food is kept only where it still holds ice crystals or is at 4.4 C or colder.
 * @param store what it is, and for a freezer how full
 * @param outageHours hours without power, >= 0
 * @returns the decision and the hours for which it was safe
 * @throws OutOfRangeError
 */
export function decideOnColdStore(
  store: 'fridge' | 'freezer-full' | 'freezer-half-full',
  outageHours: number,
): { decision: ColdStoreDecision; safeHours: number } {
  requireInRange('outageHours', outageHours, 0, Number.MAX_VALUE, 'h');
  const safeHours =
    store === 'fridge'
      ? FOOD_SAFETY.fridgeHours.value
      : store === 'freezer-full'
        ? FOOD_SAFETY.freezerHoursFull.value
        : FOOD_SAFETY.freezerHoursHalfFull.value;
  if (outageHours <= safeHours) return { decision: 'keep', safeHours };
  return { decision: store === 'fridge' ? 'discard-perishables' : 'check-temperature', safeHours };
}

/**
 * Whether leftovers of a hot dish may be cooled and kept.
 *
 * Food must fall from 57 to 21 C within 2 h and to 5 C within 4 h more. A lidded pot on a cold porch does not: only a
 * shallow pan (5 cm of food) or a snow bath does, and only a thermometer can tell.
 *
 * Source: Food Code 3-501.14; NDSU (a pail of chili in a cooler: more than 20 h).
 * @returns null where it may be kept, else the refusal and the way out
 */
export function refusalToKeepCold(way: {
  cooling: 'lidded-pot' | 'shallow-pan' | 'snow-bath';
  thermometer: boolean;
  placeBelow5C: boolean;
}): { reason: string; wayOut: string } | null {
  if (!way.placeBelow5C) {
    return { reason: 'nothing here is at 5 C or colder', wayOut: 'cook what is eaten at one sitting, or keep it hot' };
  }
  if (way.cooling === 'lidded-pot') {
    return {
      reason: 'a lidded pot takes many hours to pass from 57 to 5 C, and bacteria grow all that time',
      wayOut: 'spread it 5 cm deep in open pans, or set it in a snow bath and stir, with a thermometer; or keep it hot',
    };
  }
  if (!way.thermometer) {
    return {
      reason:
        'without a thermometer it cannot be known that it was at 21 C within ' +
        `${FOOD_SAFETY.coolTo21Hours.value} h and at 5 C within ${FOOD_SAFETY.coolTo5Hours.value} h`,
      wayOut: 'eat it now, or keep it hot',
    };
  }
  return null;
}

function sure(value: number, unit: string, source: Parameter['source']): Parameter {
  return { value, p10: value, p90: value, unit, source, estimate: false };
}
