/** What has been said in the first minutes, kept on this device until it is stored, and the household that follows from it. */
import { type ContainerSold, containersSold } from '../../api/wording/fuel-containers-sold.ts';
import type { FuelId, HouseholdDocument, Kit, MealSlot, StoveTypeId } from '../api-types.ts';
import { newIdFrom } from '../names.ts';
import type { NamedRow, Page } from '../page-state.ts';

export interface Draft {
  screen: 1 | 2;
  people?: number | undefined;
  elevationM?: number | undefined;
  stoveTypeId?: string | undefined;
  containerId?: string | undefined;
  containers?: number | undefined;
  potL?: number | undefined;
  waterL?: number | undefined;
  packed?: string | undefined;
  /** Sets by kit. */
  sets: Record<string, number>;
}

/** What holds while a field is empty; each is marked as a default where it stands. */
export const DEFAULTS = { people: 2, elevationM: 300, potL: 5 } as const;

/** How old the dry food is, in years: old pulses boil longer, so that the default is not fresh. */
export const PACKED_YEARS = {
  '0': 'This year',
  '2': 'About 2 years ago',
  '5': 'About 5 years ago',
  '10': 'About 10 years ago',
};
export const DEFAULT_PACKED = '2';
const DAYS_AT_MOST = 7;

const DRAFT_KEY = 'draft:first-minutes';

/** The draft of an earlier visit, or an empty one. */
export function readDraft(storage: Pick<Storage, 'getItem'>): Draft {
  try {
    const kept = JSON.parse(storage.getItem(DRAFT_KEY) ?? 'null') as Draft | null;
    if (kept !== null && typeof kept.sets === 'object') return kept;
  } catch {
    // What cannot be read is as good as nothing.
  }
  return { screen: 1, sets: {} };
}

/** Keeps the draft; null takes it away. */
export function keepDraft(storage: Pick<Storage, 'setItem' | 'removeItem'>, draft: Draft | null): void {
  try {
    if (draft === null) storage.removeItem(DRAFT_KEY);
    else storage.setItem(DRAFT_KEY, JSON.stringify(draft));
  } catch {
    // Storage may be full or forbidden; the page goes on all the same.
  }
}

/** The containers that fit the chosen stove; the first is the default. */
export function containersFor(stoveTypes: readonly NamedRow[], stoveTypeId: string | undefined): ContainerSold[] {
  const type = stoveTypes.find(({ id }) => id === stoveTypeId);
  return type === undefined ? [] : containersSold((type.fuelIds ?? []) as FuelId[]);
}

/** Servings in the sets of the draft. */
export function servingsIn(draft: Draft, kits: readonly Kit[]): number {
  return kits.reduce((sum, kit) => sum + (draft.sets[kit.id] ?? 0) * kit.servings, 0);
}

/** Meals of a household that has said nothing else, with the hour until which one can still be cooked on the day itself. */
const MEALS: readonly { slot: MealSlot; until: string }[] = [
  { slot: 'breakfast', until: '06:30' },
  { slot: 'midday', until: '11:30' },
  { slot: 'evening', until: '17:00' },
];

/** Servings that some of the slots can be fed from. */
function servingsFor(draft: Draft, kits: readonly Kit[], slots: readonly MealSlot[]): number {
  return servingsIn(
    draft,
    kits.filter((kit) => kit.suits.some((slot) => slots.includes(slot))),
  );
}

/**
 * Days, today's rest included, on which the sets suffice for every meal: for each choice of slots there must be as much as
 * they take together, which for kits that suit several slots is enough as well (Hall 1935).
 * @param at wall clock at which the plan begins
 * @returns 1 to 7
 */
export function daysFed(draft: Draft, kits: readonly Kit[], at: string): number {
  const people = draft.people ?? DEFAULTS.people;
  const subsets = [1, 2, 3, 4, 5, 6, 7].map((bits) => MEALS.filter((_, index) => bits & (1 << index)));
  const isFed = (days: number) =>
    subsets.every((meals) => {
      const wanted = meals.reduce((sum, { until }) => sum + days - (at.slice(11) > until ? 1 : 0), 0);
      const slots = meals.map(({ slot }) => slot);
      return wanted * people <= servingsFor(draft, kits, slots) + 1e-9;
    });
  let days = 1;
  while (days < DAYS_AT_MOST && isFed(days + 1)) days += 1;
  return days;
}

/** Slots that nothing in the draft suits. */
export function unfedSlots(draft: Draft, kits: readonly Kit[]): MealSlot[] {
  return MEALS.flatMap(({ slot }) => (servingsFor(draft, kits, [slot]) > 0 ? [] : [slot]));
}

/**
 * The household as it is stored: what was said, and nothing else, so that the program's defaults stay marked as such.
 * @param container the chosen one
 * @returns a document with ids that no other household or place has
 */
export function householdOf(draft: Draft, container: ContainerSold, page: Pick<Page, 'households'>): HouseholdDocument {
  const id = newIdFrom(
    'our-household',
    page.households.map((one) => one.id),
  );
  const placeId = newIdFrom(
    id,
    page.households.flatMap((one) => one.placeIds),
  );
  const howMany = draft.containers ?? 0;
  return {
    id,
    name: 'Our household',
    places: [
      {
        id: placeId,
        name: 'Home',
        timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
        elevationM: draft.elevationM ?? DEFAULTS.elevationM,
      },
    ],
    people: Array.from({ length: draft.people ?? DEFAULTS.people }, (_, index) => ({
      label: index < 26 ? String.fromCharCode(65 + index) : `Person ${index + 1}`,
      ageGroup: 'adult',
    })),
    water: { lots: [{ id: 'water', litres: draft.waterL ?? 0, quality: 'safe' }] },
    fuels: [
      container.fuelId === 'electricity'
        ? { fuelId: 'electricity', leftKWh: howMany * container.holds }
        : { fuelId: container.fuelId, containers: [fuelContainer(container, howMany)] },
    ],
    stoves: [{ id: 'stove', typeId: draft.stoveTypeId as StoveTypeId, fuelIds: [container.fuelId] }],
    vessels: [
      { id: 'pot', name: 'Pot', kind: 'pot', capacityL: draft.potL ?? DEFAULTS.potL },
      // Every kitchen has a bowl or a pail to soak in.
      { id: 'bowl', name: 'Bowl', kind: 'soak-bowl', capacityL: 4 },
    ],
  };
}

/** Wood and charcoal are a heap that may be of any size; cylinders and bottles are counted. */
function fuelContainer({ id, fuelId, holds }: ContainerSold, howMany: number) {
  if (fuelId === 'wood' || fuelId === 'charcoal' || !Number.isInteger(howMany)) return { id, leftKg: howMany * holds };
  return { id, fullKg: holds, count: howMany, level: 'full' as const };
}

/** The sets of the draft as a start asks for them. */
export function setsOf(draft: Draft): { kitId: string; sets: number }[] {
  return Object.entries(draft.sets).flatMap(([kitId, sets]) => (sets > 0 ? [{ kitId, sets }] : []));
}

/** The date on which the food was packed, from the years said. @param today `YYYY-MM-DD` */
export function packedOnOf(draft: Draft, today: string): string {
  const years = Number(draft.packed ?? DEFAULT_PACKED);
  // The 29th of February exists in no other year.
  return `${Number(today.slice(0, 4)) - years}${today.slice(4).replace('-02-29', '-02-28')}`;
}
