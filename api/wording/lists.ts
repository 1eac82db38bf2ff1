/** Several things in one sentence, and names that are nearest to a typed one. */
import { nearestFoods } from '../cooking/foods/nearest-foods.ts';

/** "beans, rice and oil"; `none` where there is nothing. */
export function listInWords(names: readonly string[], none = ''): string {
  return names.length < 2 ? (names[0] ?? none) : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** " Nearest: Kidney beans (kidney-bean).", to follow a sentence; empty where no name is like it. */
export function nearestInWords(text: string, rows: readonly { id: string; name: string }[]): string {
  const found = nearestFoods(text, rows).map(({ id, name }) => `${name} (${id})`);
  return found.length === 0 ? '' : ` Nearest: ${found.join(', ')}.`;
}
