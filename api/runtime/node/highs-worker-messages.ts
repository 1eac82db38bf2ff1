/** What the solver and its worker thread say to each other. */
import type { Aim, IntegerProgramme, SolveOutcome, SolveProgress } from '../../planning/solver.ts';

export interface WorkerQuestion {
  id: number;
  programme: IntegerProgramme;
  aims: Aim[];
  timeLimitS: number;
}

export type WorkerAnswer =
  | { kind: 'ready'; version: string }
  | { kind: 'not-loaded'; message: string }
  | { kind: 'progress'; id: number; progress: SolveProgress }
  | { kind: 'outcome'; id: number; outcome: SolveOutcome }
  | { kind: 'fault'; id: number; message: string };
