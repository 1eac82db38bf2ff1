/** Errors of the calculation as data; wording is made at the edge (`http/problem.ts`). */

/** A quantity is outside the range for which its relation holds. */
export class OutOfRangeError extends Error {
  readonly quantity: string;
  readonly value: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly unit: string;
  constructor(quantity: string, value: number, minimum: number, maximum: number, unit: string) {
    super(`${quantity} is ${value} ${unit}, allowed from ${minimum} to ${maximum} ${unit}`);
    this.name = 'OutOfRangeError';
    this.quantity = quantity;
    this.value = value;
    this.minimum = minimum;
    this.maximum = maximum;
    this.unit = unit;
  }
}

/** Values that are each allowed but contradict one another, or a name that no table holds. */
export class InvalidInputError extends Error {
  readonly quantity: string;
  readonly value: unknown;
  /** What to do instead, in a sentence. */
  readonly wayOut: string;
  constructor(quantity: string, value: unknown, wayOut: string) {
    super(`${quantity}: ${wayOut}`);
    this.name = 'InvalidInputError';
    this.quantity = quantity;
    this.value = value;
    this.wayOut = wayOut;
  }
}

/**
 * Returns the value when it lies within the closed range.
 * @throws OutOfRangeError when it does not, or is not a number
 */
export function requireInRange(
  quantity: string,
  value: number,
  minimum: number,
  maximum: number,
  unit: string,
): number {
  // Negated comparison, so that NaN is refused as well.
  if (!(value >= minimum && value <= maximum)) throw new OutOfRangeError(quantity, value, minimum, maximum, unit);
  return value;
}
