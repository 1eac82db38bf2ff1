/** Sums and rounding of planned amounts. */

/** Sum of one figure over a list. */
export function sum<Item>(items: Item[], of: (item: Item) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}

/** Rounded to a number of decimals. */
export function round(value: number, digits: number): number {
  const factor = 10 ** digits;
  return Math.round(value * factor) / factor;
}
