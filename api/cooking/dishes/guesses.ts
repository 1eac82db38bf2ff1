/** Which figures of a kit are guesses, because it holds own foods whose labels do not say them. */
import { kitFoods } from './dish.ts';
import type { Kit } from './kit.ts';

/**
 * The own foods of a kit with what was guessed of them, each once.
 * @returns empty where everything is known; that a bean counts as kidney family is a rule and not among them
 */
export function guessesIn(kit: Kit): { name: string; guessed: string[] }[] {
  const found = new Map<string, { name: string; guessed: string[] }>();
  for (const { food } of kitFoods(kit)) {
    const guessed = food.own?.guessed.filter((what) => what !== 'lectin') ?? [];
    if (guessed.length > 0) found.set(food.id, { name: food.name, guessed });
  }
  return [...found.values()];
}
