/** Words for bookings: what an entry says, how a meal stands, and names in the place of ids. */
import { fuelName, thingName } from '../api/wording/names.ts';
import { textInSystem } from '../api/wording/text-in-system.ts';
import { dayName } from '../api/wording/times.ts';
import type { FuelId, Plan, StateNow } from './api-types.ts';
import { clockOn } from './dates.ts';
import { say, type UnitSystem } from './measures.ts';
import { wordsOf } from './names.ts';
import { writeShort } from './numbers.ts';

/** How a meal stands, behind its name. */
export const MEAL_STATES: Record<StateNow['meals'][number]['state'], string> = {
  eaten: 'eaten',
  skipped: 'skipped',
  changed: 'changed',
  assumed: 'not booked: counted as eaten',
  'under-way': 'under way',
  open: 'still to come',
};

const RESULTS: Record<string, string> = {
  cooked: 'went into the pot',
  eaten: 'was eaten',
  'thrown-away': 'was thrown away',
  'not-set': 'had not been put to soak',
};

/** `Saturday evening` */
export function mealWords(plan: Plan, meal: string): string {
  const slot = plan.meals.find((one) => one.id === meal)?.slot ?? meal.slice(11).replaceAll('-', ' ');
  return `${dayName(meal)} ${slot}`;
}

/** `Lentil soup and Flat bread`; empty where nothing is planned. */
export function dishesOf(plan: Plan, meal: string): string {
  const dishes = plan.meals.find((one) => one.id === meal)?.dishes ?? [];
  const names = dishes.flatMap(({ cookingId }) => plan.cookings.find(({ id }) => id === cookingId)?.kitName ?? []);
  // What the plan before had in pot or box.
  const before = (plan.continues?.underWay ?? [])
    .filter(({ meals }) => meals.includes(meal))
    .map(({ kitId }) => kitWords(plan, kitId));
  return [...new Set([...names, ...before])].join(' and ');
}

export function kitWords(plan: Plan, kitId: unknown): string {
  return plan.resolved.kits.find(({ id }) => id === kitId)?.name ?? wordsOf(String(kitId));
}

/** An entry, stored or still to be sent, in a line without its time. */
export function entryWords(
  plan: Plan,
  entry: Record<string, unknown> & { kind: string },
  units: UnitSystem,
  earlier: readonly (Record<string, unknown> & { id: string; kind: string })[] = [],
): string {
  const { household } = plan.resolved;
  const thing = (id: unknown) => thingName(household, String(id));
  const sets = (count: unknown) => (count === undefined || count === 1 ? '' : `, ${writeShort(Number(count))} sets`);
  switch (entry.kind) {
    case 'meal-eaten':
    case 'meal-skipped':
    case 'meal-changed': {
      const instead =
        entry.kind !== 'meal-changed'
          ? ''
          : ` to ${entry.kitId === undefined ? 'nothing of the kits' : `${kitWords(plan, entry.kitId)}${sets(entry.batches)}`}${
              entry.plannedDish === 'thrown-away' ? '; the planned dish was thrown away' : ''
            }`;
      return `${mealWords(plan, String(entry.meal))} (${dishesOf(plan, String(entry.meal)) || 'nothing planned'}): ${entry.kind.slice(5)}${instead}`;
    }
    case 'fuel-weighed':
      return `${wordsOf(fuelName(entry.fuelId as FuelId))}, ${wordsOf(String(entry.containerId)).toLowerCase()}: ${amountWords(entry, units)}`;
    case 'water-left':
      return `Water, ${wordsOf(String(entry.lotId)).toLowerCase()}: ${say(Number(entry.litres), 'litres', units)} left`;
    case 'soak-set':
      return `${kitWords(plan, entry.kitId)}${sets(entry.batches)} put to soak in the ${thing(entry.vesselId)}`;
    case 'soak-drained':
    case 'box-opened':
      return `${dishWords(plan, String(entry.of), earlier)} ${RESULTS[String(entry.result)] ?? ''}`;
    case 'box-read':
      return `${dishWords(plan, String(entry.of), earlier)}: ${say(Number(entry.temperatureC), 'temperatureC', units)} in box or flask`;
    case 'food-tried':
      return `${dishWords(plan, String(entry.of), earlier)}: ${entry.soft === true ? 'just soft' : 'not soft'} after ${say(Number(entry.minutes), 'minutes', units)} at the boil`;
    case 'broke':
      return `The ${thing(entry.thingId)} cannot be used`;
    case 'mended':
      return `The ${thing(entry.thingId)} can be used again`;
    case 'came':
      return `Came: ${cameWords(entry, units)}`;
    case 'left':
      return `Left: ${[...((entry.people as string[] | undefined) ?? []), ...(entry.guests === 'all' ? ['all guests'] : [])].join(', ')}`;
    case 'undo': {
      const target = earlier.find(({ id }) => id === entry.bookingId);
      return `Taken back: ${target === undefined ? 'an entry' : entryWords(plan, target, units, earlier)}`;
    }
    default:
      return wordsOf(entry.kind);
  }
}

function amountWords(entry: Record<string, unknown>, units: UnitSystem): string {
  const kg = (value: unknown) => say(Number(value), 'kg', units);
  const parts: string[] = [];
  if (entry.fullOnes !== undefined) parts.push(`${Number(entry.fullOnes)} still full`);
  if (entry.grossKg !== undefined)
    parts.push(
      `${kg(entry.grossKg)} with the container${entry.tareKg === undefined ? '' : `, ${kg(entry.tareKg)} empty`}`,
    );
  if (entry.leftKg !== undefined) parts.push(`${kg(entry.leftKg)} left`);
  if (entry.litres !== undefined) parts.push(`${say(Number(entry.litres), 'litres', units)} left`);
  if (entry.dipstickShare !== undefined) parts.push(`${Math.round(Number(entry.dipstickShare) * 100)} % by dipstick`);
  if (entry.armfuls !== undefined) parts.push(`${writeShort(Number(entry.armfuls))} armfuls`);
  if (entry.leftKWh !== undefined) parts.push(`${say(Number(entry.leftKWh), 'kWh', units)} left`);
  return parts.join(', ');
}

function cameWords(entry: Record<string, unknown>, units: UnitSystem): string {
  const fuel = entry.fuel as { fuelId: FuelId; containerId: string; kg: number } | undefined;
  const water = entry.water as { lotId: string; litres: number } | undefined;
  const guests = (entry.guests as unknown[] | undefined)?.length ?? 0;
  return [
    ...((entry.people as string[] | undefined) ?? []),
    ...(guests === 0
      ? []
      : [`${guests} ${guests === 1 ? 'guest' : 'guests'}${entry.until === undefined ? '' : ` until ${entry.until}`}`]),
    ...(fuel === undefined ? [] : [`${say(fuel.kg, 'kg', units)} of ${fuelName(fuel.fuelId)}`]),
    ...(water === undefined ? [] : [`${say(water.litres, 'litres', units)} of water`]),
  ].join(', ');
}

/** The dish of the plan, or the food that was put to soak, that an id stands for. */
function dishWords(plan: Plan, of: string, earlier: readonly (Record<string, unknown> & { id: string })[]): string {
  const cooking = plan.cookings.find(({ id }) => id === of);
  if (cooking !== undefined) return cooking.kitName;
  const before = plan.continues?.underWay.find(({ cookingId }) => cookingId === of);
  if (before !== undefined) return kitWords(plan, before.kitId);
  const set = earlier.find(({ id }) => id === of);
  return set === undefined ? 'What was in water' : kitWords(plan, set.kitId);
}

const KIND_WORDS: readonly (readonly [RegExp, string])[] = [
  [/\bmeal-eaten\b/g, 'eaten'],
  [/\bmeal-skipped\b/g, 'skipped'],
  [/\bmeal-changed\b/g, 'changed'],
];

/** A sentence of the server with days, clocks and names in the place of ids. @param now day whose date is not said */
export function plainText(plan: Plan, text: string, now: string, units: UnitSystem): string {
  const named = KIND_WORDS.reduce((said, [kind, words]) => said.replace(kind, words), text)
    .replace(/\b\d{4}-\d\d-\d\dT\d\d:\d\d/g, (time) => clockOn(time, now))
    .replace(/\b\d{4}-\d\d-\d\d-[a-z0-9-]+/g, (meal) => mealWords(plan, meal));
  return textInSystem(named, units);
}
