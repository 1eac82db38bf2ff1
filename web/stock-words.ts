/** What is in store of a kit, in words: sets at a place, the part that limits, what is left over. */
import { listInWords } from '../api/wording/lists.ts';
import { bagsText, setsText } from '../api/wording/stock-words.ts';
import type { Containers, Kit, Place, SetsAtPlace, StockLot } from './api-types.ts';
import type { Page } from './page-state.ts';

/** Places of the household that is shown. */
export function ownPlaces(page: Page): Place[] {
  return page.household?.state().body.places ?? [];
}

/** The name of a place, or its id. */
export function placeName(page: Page, placeId: string): string {
  return ownPlaces(page).find((place) => place.id === placeId)?.name ?? placeId;
}

/** Parts that may lie in the store: those of the recipe, and those that an allowed other food was packed into. */
export function packedParts(page: Page, kit: Kit): { id: string; name: string; perSet: number }[] {
  return kit.parts.flatMap((part) => {
    const perSet = part.containersPerSet ?? 1;
    const others = part.ingredients.flatMap((one) => one.alternatives ?? []);
    return [
      { id: part.id, name: part.name, perSet },
      ...others.map((foodId) => {
        const food = foodName(page, foodId);
        const alone = part.ingredients.length === 1;
        return {
          id: `${part.id}-with-${foodId}`.slice(0, 64),
          name: alone ? food : `${part.name} with ${food.toLowerCase()}`,
          perSet,
        };
      }),
    ];
  });
}

/** The name of a part in store, or its id. */
export function packedName(page: Page, kit: Kit, partId: string): string {
  return packedParts(page, kit).find((part) => part.id === partId)?.name ?? partId;
}

/** Lots of a kit at the places of the household that is shown, with anything in them. */
export function ownLots(page: Page, kit: Kit): StockLot[] {
  const places = new Set(ownPlaces(page).map((place) => place.id));
  // What lies at the places of another household is not this one's.
  const order = packedParts(page, kit).map((part) => part.id);
  return page.stock.totals
    .filter((lot) => lot.kitId === kit.id && lot.quantity > 1e-9 && (places.size === 0 || places.has(lot.placeId)))
    .sort((a, b) => order.indexOf(a.partId) - order.indexOf(b.partId));
}

/** The sets of a kit at each place of the household that is shown. */
export function ownSets(page: Page, kit: Kit): SetsAtPlace[] {
  const places = ownPlaces(page).map((place) => place.id);
  return page.stock.sets
    .filter((row) => row.kitId === kit.id && (places.length === 0 || places.includes(row.placeId)))
    .sort((a, b) => places.indexOf(a.placeId) - places.indexOf(b.placeId));
}

/** Sets that the bags of all places would make together. */
export function setsTogether(page: Page, kit: Kit): number {
  const lots = ownSets(page, kit).flatMap((row) => [...row.alike.flatMap((one) => one.takes), ...row.leftOver]);
  return Math.min(
    ...kit.parts.map((part) => {
      const kinds = packedParts(page, { ...kit, parts: [part] });
      const sets = kinds.map(({ id, perSet }) => {
        const held = lots.filter((lot) => lot.partId === id).reduce((sum, lot) => sum + lot.quantity, 0);
        return Math.floor(held / perSet + 1e-9);
      });
      return sets.reduce((sum, count) => sum + count, 0);
    }),
  );
}

/** "1 set, with brown lentils. Milk powder limits: 1 bag lacks for one set more. Left over: 2 bags of split peas." */
export function setsSentence(page: Page, kit: Kit, row: SetsAtPlace): string {
  const swapped = row.alike
    .filter((one) => one.standIns.length > 0)
    .map((one) => {
      const names = one.standIns.map((id) => packedName(page, kit, id).toLowerCase()).join(' and ');
      return one.sets === row.sets ? `, with ${names}` : `, ${one.sets} of them with ${names}`;
    });
  const sentences = [`${setsText(row.sets)}${swapped.join('')}`];
  if (row.lacking.length > 0)
    sentences.push(
      `For one set more ${listInWords(row.lacking.map((one) => `${bagsText(one.quantity)} of ${packedName(page, kit, one.partId).toLowerCase()}`))} ${row.lacking.length === 1 && row.lacking[0]?.quantity === 1 ? 'is' : 'are'} lacking`,
    );
  if (row.leftOver.length > 0) sentences.push(`Left over: ${bagsOf(page, kit, row.leftOver)}`);
  if (row.notSound.length > 0) sentences.push(`Past the date, in no set: ${bagsOf(page, kit, row.notSound)}`);
  return `${sentences.join('. ')}.`;
}

/** "2 bags of split peas, 1 bag of milk powder" */
export function bagsOf(page: Page, kit: Kit, bags: readonly Pick<Containers, 'partId' | 'quantity'>[]): string {
  const sums = new Map<string, number>();
  for (const { partId, quantity } of bags) sums.set(partId, (sums.get(partId) ?? 0) + quantity);
  return listInWords(
    [...sums].map(([partId, quantity]) => `${bagsText(quantity)} of ${packedName(page, kit, partId).toLowerCase()}`),
  );
}

function foodName(page: Page, foodId: string): string {
  return page.tables.foods.find((food) => food.id === foodId)?.name ?? foodId.replaceAll('-', ' ');
}
