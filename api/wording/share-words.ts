/** What a share-out says in words: how it was dealt, what does not divide, what was left out. */

import type { Kit } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import type { ShareOut } from '../planning/share-out.ts';
import { listInWords } from './lists.ts';
import { bagsText, setsText } from './stock-words.ts';

/** The rule, for page and paper. */
export const SHARE_RULE =
  'Whole sets first: each share gets its part by heads, rounded down or up. A set that does not divide goes where most servings are owed so far. Bags that make no set are dealt one by one in the same way.';

/** Lines about a share-out; empty where everything divides and is sound. */
export function shareWords(
  { undivided, notSound }: Pick<ShareOut, 'undivided' | 'notSound'>,
  kits: readonly Kit[],
): string[] {
  // Kits that leave the same over for the same share stand in one line.
  const sets = new Map<string, { quantity: number; goesTo: string[]; names: string[] }>();
  for (const { kitId, partId, quantity, goesTo } of undivided) {
    if (partId !== null) continue;
    const key = `${quantity} ${goesTo.join('|')}`;
    const line = sets.get(key) ?? { quantity, goesTo, names: [] };
    line.names.push(kitName(kits, kitId));
    sets.set(key, line);
  }
  const ofSets = [...sets.values()].map(
    ({ quantity, goesTo, names }) =>
      `${setsText(quantity)} ${names.length > 1 ? 'each of' : 'of'} ${names.join('; ')} ${quantity === 1 && names.length === 1 ? 'does' : 'do'} not divide by the heads: to ${listInWords(goesTo, 'nobody')}.`,
  );
  const ofParts = undivided.flatMap(({ kitId, partId, quantity, goesTo }) =>
    partId === null
      ? []
      : [
          `${bagsText(quantity)} of ${partName(kits, kitId, partId)} (${kitName(kits, kitId)}) ${quantity === 1 ? 'makes' : 'make'} no set and ${quantity === 1 ? 'does' : 'do'} not divide by the heads: to ${listInWords(goesTo, 'nobody')}.`,
        ],
  );
  const left = notSound.map(
    ({ kitId, partId, quantity, packedOn, why }) =>
      `${bagsText(quantity)} of ${partName(kits, kitId, partId)} (${kitName(kits, kitId)}), packed ${packedOn}, left out: ${why === 'past-use-by' ? 'past the use-by date' : 'packed later than today'}.`,
  );
  return [...ofSets, ...ofParts, ...left];
}

/** The name of a kit, or its id in words. */
export function kitName(kits: readonly Kit[], kitId: string): string {
  return kits.find((kit) => kit.id === kitId)?.name ?? kitId.replaceAll('-', ' ');
}

/** The name of a part that can lie in the store, or its id in words. */
export function partName(kits: readonly Kit[], kitId: string, partId: string): string {
  const kit = kits.find((one) => one.id === kitId);
  const part = kit === undefined ? undefined : packableParts(kit).find((one) => one.id === partId);
  return part?.name ?? partId.replaceAll('-', ' ');
}
