/** Ports for the two things that a pure program cannot make: the time, and a new id. */

export interface Clock {
  /** Milliseconds since 1970-01-01T00:00Z. */
  now(): number;
}

/** A fresh id, `[a-z0-9-]{1,64}`. */
export type NewId = () => string;
