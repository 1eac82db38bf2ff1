/** Foods whose names are nearest to what somebody typed. */

/** Half of the letters may be wrong; beyond that no name is like it. */
const MOST_WRONG_SHARE = 0.5;

/**
 * Edit distance of two texts: letters put in, left out, changed, or two neighbours swapped (Damerau, restricted).
 * @returns 0 or more
 */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = (last[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min(change, (last[j] as number) + 1, (row[j - 1] as number) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (before[j - 2] as number) + 1);
      row.push(best);
    }
    before = last;
    last = row;
  }
  return last[b.length] as number;
}

/**
 * The foods that a text most likely means.
 * @param text an id or a name as typed, any case; letters after the first 64 are not looked at
 * @param foods those to choose among
 * @param most how many at most, >= 1
 * @returns nearest first; empty where no name is like it
 */
export function nearestFoods<Row extends { id: string; name: string }>(
  text: string,
  foods: readonly Row[],
  most = 3,
): Row[] {
  const typed = plain(text);
  if (typed === '') return [];
  return foods
    .map((food) => ({
      food,
      distance: Math.min(distanceTo(typed, plain(food.id)), distanceTo(typed, plain(food.name))),
    }))
    .filter(({ distance }) => distance <= MOST_WRONG_SHARE)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, most)
    .map(({ food }) => food);
}

function plain(text: string): string {
  return text
    .slice(0, 64)
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/**
 * Share of wrong letters, of the text as a whole, of its words in any order, or word by word; a word that a name begins with
 * counts as near.
 */
function distanceTo(typed: string, name: string): number {
  const sorted = (text: string): string => text.split(' ').sort().join(' ');
  const whole =
    Math.min(editDistance(typed, name), editDistance(sorted(typed), sorted(name))) /
    Math.max(typed.length, name.length);
  const words = typed.split(' ');
  const names = name.split(' ');
  const wrong = words.map((word) =>
    Math.min(...names.map((own) => editDistance(word, own) / Math.max(word.length, own.length))),
  );
  // Words that the name has besides count a little, so that the name with fewer of them comes first.
  const byWords = wrong.reduce((sum, share) => sum + share, 0) / words.length + 0.1 + 0.01 * names.length;
  const shared = words.some((word) => word.length > 2 && names.some((own) => own.startsWith(word)));
  const near = Math.min(whole, byWords);
  return shared ? Math.min(near, 0.4 + 0.05 * whole) : near;
}
