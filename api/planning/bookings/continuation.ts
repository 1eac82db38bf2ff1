/** What a plan goes on from: the state in which another has left the household, and what of it hangs on the wall. */
import type { Finish, StockEntry } from '../plan-types.ts';
import type { WeekBefore } from '../week/week-instance.ts';
import type { DishUnderWay, SoakNow } from './state-now.ts';

/** A dish of the plan on the wall that is still to be cooked, by what can be seen of it. */
export interface DishOnWall {
  cookingId: string;
  meal: string;
  kitId: string;
  batches: number;
  lightingId: string | null;
  vesselId: string | null;
  finish: Finish;
  boxId: string | null;
  flaskId: string | null;
  soakVesselId: string | null;
  keptFor: string | null;
  /** How far it is only heated, C; null: it boils, or sees no fire. */
  heatToC: number | null;
}

export interface Continuation {
  /** The plan that is replaced; null: things are under way, and no plan hangs on the wall. */
  planId: string | null;
  /** Start of the first plan of this outage: rooms cool and shares count from there. */
  firstStartsAt: string;
  /** Days of the first plan: which days are alike was settled with them. */
  firstDays: number;
  before: Omit<WeekBefore, 'soaks'>;
  /** Food energy eaten so far less what was needed, kcal; what was eaten ahead need not be eaten again. */
  kcalAhead: number;
  soaks: SoakNow[];
  underWay: DishUnderWay[];
  /** What was cooked since the first plan began and stands in no line of the ledger, as lines; `note` is the cooking. */
  taken: StockEntry[];
  /** Whether anything has happened that the plan on the wall did not expect. */
  news: boolean;
  /** Whether today's hot water is still to be made; null: as on a first day. */
  hotWaterToday: boolean | null;
  wall: { dishes: DishOnWall[]; hotWater: { lightingId: string; vesselId: string }[] };
}
