/** What is wrong with a value that somebody sent, and what would have been allowed; where it stands is said by who points at it. */
export interface Fault {
  detail: string;
  value?: unknown;
  minimum?: number;
  maximum?: number;
  unit?: string;
  /** Allowed range of a time or date. */
  earliest?: string;
  latest?: string;
  /** What to look at, and the answer that is likely. */
  question?: string;
  likely?: string;
}
