/** Chance that is the same in every run. */

/**
 * A small linear congruential generator (Numerical Recipes constants).
 * @returns numbers from 0 to below 1
 */
export function seeded(seed: number): () => number {
  // Near seeds would begin alike: they are spread first (Knuth, multiplicative hashing).
  let state = Math.imul(seed, 2654435761) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
