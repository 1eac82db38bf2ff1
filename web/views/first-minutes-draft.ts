/** What has been said in the first minutes, kept on this device until it is stored, and the household that follows from it. */
import { type ContainerSold, containersSold } from '../../api/wording/fuel-containers-sold.ts';
import type { FuelId, HouseholdDocument, Kit, StoveTypeId } from '../api-types.ts';
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
const MEALS_A_DAY = 3;

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

/** Whole days that the sets feed everybody three times, 1 to 7. */
export function daysFed(draft: Draft, kits: readonly Kit[]): number {
  const aDay = (draft.people ?? DEFAULTS.people) * MEALS_A_DAY;
  return Math.min(DAYS_AT_MOST, Math.max(1, Math.floor(servingsIn(draft, kits) / aDay)));
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
