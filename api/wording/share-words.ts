/** What a share-out says in words: how it was dealt, what does not divide, what was left out. */
import type { Kit } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import type { ShareOut } from '../planning/share-out.ts';
import { bagsText, setsText } from './stock-words.ts';

/** The rule, for page and paper. */
export const SHARE_RULE =
  'Whole sets first: each share gets its part by heads, rounded down or up. A set that does not divide goes where most servings are owed so far. Bags that make no set are dealt one by one in the same way.';

/** Lines about a share-out; empty where everything divides and is sound. */
export function shareWords(
  { undivided, notSound }: Pick<ShareOut, 'undivided' | 'notSound'>,
  kits: readonly Kit[],
): string[] {
  const lines = undivided.map(({ kitId, partId, quantity, goesTo }) => {
    const what = partId === null ? setsText(quantity) : bagsText(quantity);
    const of = partId === null ? kitName(kits, kitId) : `${partName(kits, kitId, partId)} (${kitName(kits, kitId)})`;
    const does = quantity === 1 ? 'does' : 'do';
    const extra = partId === null ? '' : `, ${quantity === 1 ? 'makes' : 'make'} no set`;
    return `${what} of ${of} ${does} not divide by the heads${extra}: ${quantity === 1 ? 'it goes' : 'they go'} to ${listOf(goesTo)}.`;
  });
  const left = notSound.map(
    ({ kitId, partId, quantity, packedOn, why }) =>
      `${bagsText(quantity)} of ${partName(kits, kitId, partId)} (${kitName(kits, kitId)}), packed ${packedOn}, left out: ${why === 'past-use-by' ? 'past the use-by date' : 'packed later than today'}.`,
  );
  return [...lines, ...left];
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

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? 'nobody') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
