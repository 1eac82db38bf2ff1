/** What to mind about the stock of a plan: food that is old, and figures that were guessed. */

import { foodsKeptApart, kitFoods } from '../../cooking/dishes/dish.ts';
import { guessesIn } from '../../cooking/dishes/guesses.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import { isFatty, isHomeDriedMeat, shelfLifeClassOf } from '../../cooking/keeping/keeping-class.ts';
import { shelfLifeMonths } from '../../cooking/keeping/shelf-life.ts';
import { MAY_NEVER_SOFTEN_ABOVE, storageFactor } from '../../cooking/keeping/storage-age.ts';
import type { KitStock } from '../week/week-situation.ts';

/** Above this a dish is said to need longer: what a cook would notice. */
const LONGER_ABOVE = 1.15;

/**
 * Sentences on the kits that a plan cooks: pulses that age has hardened, beans that lie with other goods (trade notes H12),
 * guesses, and what is looked at and smelled before it is eaten: home-dried meat, tins, old fat (H15).
 * @param cooked the kits of the plan's dishes with their stock
 */
export function stockCautions(cooked: readonly KitStock[]): string[] {
  return [...dishCautions(cooked), ...staleCaution(cooked)];
}

/** Those of them that belong to a dish and stand beside its meal; goods that are only old are told once for the plan. */
export function dishCautions(cooked: readonly KitStock[]): string[] {
  return [
    ...cooked.flatMap((stock) => oldPulseCaution(stock) ?? []),
    ...cooked.flatMap(({ kit }) => apartCaution(kit) ?? []),
    ...cooked.flatMap(({ kit }) => guessCaution(kit) ?? []),
    ...homeDriedMeatCaution(cooked),
    ...tinCaution(cooked),
  ];
}

/** "Bean stew: the beans are 19 years old and take about 2 times as long..."; null where age changes nothing. */
function oldPulseCaution({ kit, storage }: KitStock): string | null {
  const pulses = kitFoods(kit).filter(({ food }) => food.group === 'pulse' && food.kinetics.kind === 'boil');
  if (pulses.length === 0 || storage.years <= 0) return null;
  const { value, p90 } = storageFactor(storage);
  // Lots whose minutes were tested are told by their test.
  if (value < LONGER_ABOVE || storage.measuredLots !== undefined) return null;
  const names = [...new Set(pulses.map(({ food }) => food.name.toLowerCase()))].join(' and ');
  const percent = Math.round(((value - 1) * 100) / 5) * 5;
  const high = Math.round(((p90 - 1) * 100) / 5) * 5;
  const years = storage.years < 1.5 ? 'about a year' : `${Math.round(storage.years)} years`;
  const longer = `${kit.name}: ${names} of ${years} at about ${Math.round(storage.temperatureC)} °C need ${percent} % longer, up to ${high} % in one case in ten; the plan counts with it.`;
  if (value > MAY_NEVER_SOFTEN_ABOVE)
    return `${longer} They may never soften: boil twenty first, use a pressure cooker or a pinch of bicarbonate in soak and pot, or eat another kit.`;
  return `${longer} A pressure cooker or a pinch of bicarbonate in soak and pot shortens it.`;
}

/** Beans in one bag with what a soak would pour away or spoil: how the plan cooks them, and what the cook can do. */
function apartCaution(kit: Kit): string | null {
  const refused = kit.parts.flatMap((part) => foodsKeptApart(part)).filter(({ verdict }) => verdict === 'refused');
  const [first] = refused;
  if (first === undefined) return null;
  return `${kit.name}: ${first.reason} Pick the beans out and soak them alone, or boil all of it up, pour that water away and boil it in fresh water until the beans are soft.`;
}

function homeDriedMeatCaution(cooked: readonly KitStock[]): string[] {
  const kits = cooked.filter(({ kit }) => kitFoods(kit).some(({ food }) => isHomeDriedMeat(food, false)));
  if (kits.length === 0) return [];
  return [
    `${namesOf(kits)}: home-dried meat. Where it was sealed without air, or is older than two months, throw it away unopened and untasted: botulism kills. Cook the dish without it.`,
  ];
}

function tinCaution(cooked: readonly KitStock[]): string[] {
  const kits = cooked.filter(({ kit }) => kitFoods(kit).some(({ food }) => food.group === 'tinned'));
  if (kits.length === 0) return [];
  return [
    `${namesOf(kits)}: look at each tin. A bulging, leaking or badly dented one, or one that froze and thawed, is thrown away unopened: botulism kills.`,
  ];
}

/** Fatty and moist goods past the life that the tables give them where they lie: what else is old is only stale. */
function staleCaution(cooked: readonly KitStock[]): string[] {
  const kitsOf = new Map<string, Set<string>>();
  for (const { kit, storage } of cooked)
    for (const { food } of kitFoods(kit)) {
      if (!(isFatty(food) || food.group === 'fat' || food.group === 'fruit-nut')) continue;
      if (storage.years * 12 <= shelfLifeMonths(shelfLifeClassOf(food, true), storage.temperatureC)) continue;
      const name = food.name.toLowerCase();
      kitsOf.set(name, (kitsOf.get(name) ?? new Set()).add(kit.name));
    }
  if (kitsOf.size === 0) return [];
  const list = [...kitsOf].map(([food, kits]) =>
    kits.size === 1 ? `${food} (${[...kits][0]})` : `${food} (in ${kits.size} kits)`,
  );
  return [
    `Older than it keeps where it lies: ${list.join(', ')}. Smell each before it goes into the pot; what smells rancid, sour or musty is left out, and the meal is smaller by so much.`,
  ];
}

function namesOf(cooked: readonly KitStock[]): string {
  return listOf([...new Set(cooked.map(({ kit }) => kit.name))]);
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
