/** What to mind about the stock of a plan: food that is old, and figures that were guessed. */

import { kitFoods } from '../../cooking/dishes/dish.ts';
import { guessesIn } from '../../cooking/dishes/guesses.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { MAY_NEVER_SOFTEN_ABOVE, storageFactor } from '../../cooking/keeping/storage-age.ts';
import type { KitStock } from '../week/week-situation.ts';

/** Above this a dish is said to need longer: what a cook would notice. */
const LONGER_ABOVE = 1.15;

/**
 * Sentences on the kits that a plan cooks: own foods whose figures are guesses, and pulses that age has hardened.
 * @param cooked the kits of the plan's dishes with their stock
 */
export function stockCautions(cooked: readonly KitStock[]): string[] {
  return [
    ...cooked.flatMap((stock) => oldPulseCaution(stock) ?? []),
    ...cooked.flatMap(({ kit }) => guessCaution(kit) ?? []),
  ];
}

/** "Bean stew: the beans are 19 years old and take about 2 times as long..."; null where age changes nothing. */
function oldPulseCaution({ kit, storage }: KitStock): string | null {
  const pulses = kitFoods(kit).filter(({ food }) => food.group === 'pulse' && food.kinetics.kind === 'boil');
  if (pulses.length === 0 || storage.years <= 0) return null;
  const { value, p90 } = storageFactor(storage);
  if (value < LONGER_ABOVE) return null;
  const names = [...new Set(pulses.map(({ food }) => food.name.toLowerCase()))].join(' and ');
  const percent = Math.round(((value - 1) * 100) / 5) * 5;
  const high = Math.round(((p90 - 1) * 100) / 5) * 5;
  const years = storage.years < 1.5 ? 'about a year' : `${Math.round(storage.years)} years`;
  const longer = `${kit.name}: ${names} of ${years} at about ${Math.round(storage.temperatureC)} °C need ${percent} % longer, up to ${high} % in one case in ten; the plan counts with it.`;
  if (value > MAY_NEVER_SOFTEN_ABOVE)
    return `${longer} They may never soften: boil twenty first, use a pressure cooker or a pinch of bicarbonate in soak and pot, or eat another kit.`;
  return `${longer} A pressure cooker or a pinch of bicarbonate in soak and pot shortens it.`;
}

/** "Garden stew: cooking minutes and soaking of Garden beans are guesses..."; null where nothing was guessed. */
function guessCaution(kit: Kit): string | null {
  const guesses = guessesIn(kit);
  if (guesses.length === 0) return null;
  const list = guesses.map(({ name, guessed }) => `${listOf(guessed)} of ${name}`).join('; ');
  return `${kit.name}: guessed, because the label does not say: ${list}. Cook it once on a calm day and write down how it went.`;
}

function listOf(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
