/** The request for a plan, the stored stock, and the plan itself: an immutable snapshot, as the HTTP contract words it. */

import type { MethodBasis } from '../cooking/dishes/cooking-methods.ts';
import type { Kit } from '../cooking/dishes/kit.ts';
import type { Food } from '../cooking/foods/food.ts';
import type { AgeGroup, HouseholdDocument } from '../cooking/household/kitchen.ts';
import type { LearnedInUse } from '../cooking/measurements/learned.ts';
import type { Percentiles, SpreadShare } from '../physics/parameter.ts';
import type { FuelId } from '../physics/table-ids.ts';
import type { Continuation } from './bookings/continuation.ts';
import type { DishUnderWay, SoakNow } from './bookings/state-now.ts';
import type { Conflict } from './questions/conflict.ts';

export const STOCK_REASONS = ['packed', 'moved', 'opened', 'eaten', 'lost', 'counted', 'thrown-away', 'undo'] as const;
export type StockReason = (typeof STOCK_REASONS)[number];

/** One line of the ledger: append-only. A lot is (kit, part, place, packedOn); its stock is the sum of quantities. */
export interface StockEntry {
  format?: number;
  id: string;
  kitId: string;
  partId: string;
  placeId: string;
  packedOn: string;
  useBy?: string | null;
  storageC?: number;
  moisturePercent?: number;
  quantity: number;
  reason: StockReason;
  at: string;
  note?: string;
  /** From now on this lot is eaten before all others of its part. */
  useFirst?: boolean;
  /** The entry that this one takes back. */
  undoes?: string;
}

export interface StockLot {
  kitId: string;
  partId: string;
  placeId: string;
  packedOn: string;
  useBy: string | null;
  storageC: number | null;
  moisturePercent: number | null;
  quantity: number;
  /** To be eaten before all others of its part; absent: no. */
  useFirst?: true;
}

export interface Guest {
  ageGroup: AgeGroup;
  mealShare?: number;
}

export interface PlanRequest {
  householdId: string;
  placeId?: string | null;
  carryFrom?: string[];
  startsAt: string;
  days: number;
  timeLimitS?: number;
  kitIds?: string[] | null;
  attendance?: { date: string; mealId?: string | null; people?: string[]; guests?: Guest[] }[];
  pinned?: { meal: string; kitId: string; method?: PinnedMethod | null }[];
  done?: { meal: string; result: 'eaten' | 'skipped' | 'changed' }[];
  inProgress?: {
    kind: 'soak' | 'box' | 'flask';
    kitId: string;
    batches: number;
    vesselId: string;
    boxId?: string | null;
    since: string;
    temperatureC?: number | null;
  }[];
  noFlame?: { from: string; to: string }[];
  outOfUse?: { id: string; from: string; to?: string | null }[];
  replaces?: string | null;
  /** The point of the trade-off curve that the plan is made at; null or absent: the ordinary plan. */
  tradeOff?: ChosenPoint | null;
}

/** A point of the curve between fuel and hot or varied meals, as a household chooses it. */
export interface ChosenPoint {
  /** Meals that should be hot and need not be, of all days of the plan together. */
  coldMeals: number;
  /** Times that a kit may come again within two days, counted in windows of two days; null or absent: any number. */
  repeats?: number | null;
  /** Food energy that may be short for the sake of hot meals, whole % of the plan's need; absent: 0, energy comes first. */
  energyShortPercent?: number;
}

/** What of a cooking method a pin may fix; absent members stay free. */
export interface PinnedMethod {
  stoveId?: string;
  vesselId?: string;
  finish?: Finish;
  soaked?: boolean;
}

export const FINISHES = ['flame', 'box', 'flask', 'no-heat'] as const;
export type Finish = (typeof FINISHES)[number];

export interface ResourceUse {
  /** Id of the vessel, bowl, box, flask or stove that is taken. */
  resource: string;
  from: string;
  to: string;
}

export interface FuelAmount {
  fuelId: FuelId;
  kg: Percentiles;
  /** Electricity only. */
  kWh?: Percentiles;
}

export interface PlannedSoak {
  start: 'cool' | 'hot';
  /** When it is set. */
  at: string;
  hours: number;
  vesselId: string;
  additive: 'none' | 'salt' | 'bicarbonate';
  discardWater: boolean;
  waterL: number;
  /** Which parts go into the bowl. */
  partIds: string[];
  /** It was set before the plan began; its water is drawn. */
  begun?: true;
}

export interface StagedAddition {
  partId: string;
  foodId: string;
  /** Minutes after the pot first boils; negative or 0: from the start. */
  atMinute: number;
  massG: number;
}

export interface PlannedMethod {
  soak: PlannedSoak | null;
  vesselId: string | null;
  stoveId: string | null;
  lightingId: string | null;
  finish: Finish;
  boxId: string | null;
  flaskId: string | null;
  gaugeKPa: number | null;
  /** Minutes to the boil, to pressure, or to `heatToC`. */
  minutesToBoil: Percentiles | null;
  /** Minutes kept at the boil (or at pressure); 0 where it is only heated, null without a fire. */
  boilMinutes: Percentiles | null;
  /** Natural release of a pressure cooker. */
  releaseMinutes: number;
  boxMinutes: number;
  additions: StagedAddition[];
  /** First water poured away (unsoaked kidney-family beans). */
  firstWater: 'kept' | 'poured-away';
  temperatureC: number | null;
  lectin: { verdict: 'not-applicable' | 'safe'; boilMinutesNeeded: number };
  extrapolated: boolean;
  /** Only water was boiled: it is poured from the flask over the dish, which then stands; absent: the dish was boiled. */
  pours?: { standMinutes: number };
  /** The flame is turned down from the start; absent: full flame to the boil. */
  flame?: 'low';
  /** Minutes that the covered pot stands off the fire and softens on, within `releaseMinutes`; absent: none. */
  standMinutes?: number;
  /** Heated to this and no further, C: nothing in it needs a boil; absent: it boils. */
  heatToC?: number;
}

export interface Saving {
  choice:
    | 'soak'
    | 'lid'
    | 'pressure-cooker'
    | 'box'
    | 'flask'
    | 'no-heat'
    | 'low-flame'
    | 'stand'
    | 'no-boil'
    | 'stove'
    | 'shared-lighting';
  insteadOf: string;
  /** Fuel of the alternative less fuel of the choice; negative where the choice costs fuel. */
  fuelKg: Percentiles;
  fuelMJ: Percentiles;
  waterL: number;
}

export interface Cooking {
  id: string;
  kitId: string;
  kitName: string;
  batches: number;
  servings: number;
  takes: { partId: string; placeId: string; packedOn: string; quantity: number }[];
  method: PlannedMethod;
  /** When the fire is needed, when the pot goes on, when it boils, when it is done, when it is eaten. */
  startsAt: string;
  doneAt: string;
  uses: ResourceUse[];
  fuel: FuelAmount[];
  fuelMJ: Percentiles;
  /** Where the spread of the fuel comes from, largest first; empty without a fire. */
  spread: SpreadShare[];
  waterL: {
    inPot: number;
    /** Added hot while it boils, L; absent: none. */
    topUp?: number;
    absorbed: number;
    boiledOff: Percentiles;
    soakPouredAway: number;
    rinse: number;
    total: number;
  };
  saves: Saving[];
  floorMJ: number;
  usualMJ: number;
  carefulMJ: number;
  handsOnMinutes: number;
  /** A later meal that is fed from the same pot: what is left goes into a box at the boil; absent: none. */
  keptFor?: { meal: string; boxId: string; from: string; servings: number };
  /** What a dish with a fire was worked out from; absent in plans made before it was kept. */
  basis?: MethodBasis;
}

export interface PlannedMeal {
  id: string;
  mealId: string;
  slot: 'breakfast' | 'midday' | 'evening';
  eatAt: string;
  people: number;
  servingsWanted: number;
  servingsShort: number;
  hotWanted: boolean;
  /** Not hot, though it should be: the household chose to spare fuel with so many meals. Absent: no. */
  coldByChoice?: true;
  dishes: { cookingId: string; servings: number; hot: boolean; safeUntil: string }[];
  energyKcal: number;
  proteinG: number;
  cautions: string[];
}

export interface PlanTask {
  id: string;
  kind: 'hot-water' | 'treat-water' | 'melt-snow' | 'night-feed';
  at: string;
  lightingId: string | null;
  vesselId: string | null;
  litres: number;
  temperatureC: number | null;
  minutes: number;
  fuel: FuelAmount[];
  uses: ResourceUse[];
  /** Flask or burning stove that the water of a feed comes from; absent for other tasks. */
  from?: string;
}

export interface Lighting {
  id: string;
  stoveId: string;
  fuelId: FuelId;
  at: string;
  until: string;
  outdoors: boolean;
  startUpFuel: { fuelId: FuelId; kg: number };
  /** The stove burns for heating at these hours in any case: nobody lights it, and what stands on it takes no fuel. */
  burnsAnyway?: true;
}

export const STEP_ACTIONS = [
  'weigh',
  'soak',
  'drain',
  'light',
  'put-on',
  'boil',
  'add',
  'turn-down',
  'take-off',
  'box',
  'unbox',
  'fill-flask',
  'release-pressure',
  'rehydrate',
  'serve',
  'wash-up',
  'heat-water',
  'treat-water',
  'shut-off',
  'refill-burner',
  'throw-away',
  'night-feed',
  'check',
  'fetch',
] as const;
export type StepAction = (typeof STEP_ACTIONS)[number];

export interface ScheduleStep {
  id: string;
  at: string;
  latestAt: string | null;
  afterStepId: string | null;
  action: StepAction;
  text: string;
  quantities: { what: string; amount: number; unit: string }[];
  who: string | null;
  ifNot: string | null;
  meal: string | null;
  minutes: number;
  handsOn: boolean;
  cookingId?: string | null;
}

/** One container of a fuel, in the order in which they are opened. */
export interface ContainerUse {
  id: string;
  /** Of several like ones, 1 the first. */
  nth: number;
  kg: number;
  /** When it is typically opened, and when it is typically empty; null: not within the plan. */
  openedOn: string | null;
  emptyOn: string | null;
}

export interface FuelBalance {
  fuelId: FuelId;
  onHandKg: number;
  reserveKg: number;
  budgetKg: number;
  usedKg: Percentiles;
  /** Containers that are opened one at a time; absent: stacks, sockets, and plans made before they were told apart. */
  containers?: ContainerUse[];
  /** Where the spread of what the whole plan uses comes from, largest first. */
  spread: SpreadShare[];
  byDay: {
    date: string;
    usedKg: Percentiles;
    leftKg: Percentiles;
    expectedReading: Percentiles;
    replanBelow: number;
  }[];
}

export interface WaterDay {
  date: string;
  drinkL: number;
  hygieneL: number;
  animalsL: number;
  cookL: number;
  soakL: number;
  washL: number;
  usedL: number;
  ofWhichHeatedL: number;
  /** Gained from snow on this day; absent: none. */
  meltedL?: number;
  leftL: number;
  replanBelow: number;
}

export interface Limit {
  limit: string;
  date: string | null;
  used: number;
  allowed: number;
  slack: number;
  unit: string;
  oneMore: string | null;
}

export interface Shortage {
  what: 'fuel' | 'water' | 'food' | 'time';
  /** The fuel or the kit concerned, where one can be named. */
  id: string | null;
  from: string;
  amount: number;
  unit: string;
  text: string;
}

export type AimName =
  | 'safe-water'
  | 'night-feeds'
  | 'feed-everyone'
  | 'energy'
  | 'hot-meals'
  | 'use-by'
  | 'scarcest-largest-share'
  | 'scarcest-sum-of-shares'
  | 'variety'
  | 'tending'
  | 'shortage-late'
  | 'chosen-repeats'
  | 'chosen-energy'
  | 'fuel-heat'
  | 'cold-meals';

export interface AimProof {
  aim: AimName;
  value: number;
  bound: number;
  tolerance: number;
  unit: string;
}

/** What a plan that was made at a chosen point of the trade-off comes to. */
export interface TradeOffTaken {
  /** Meals that are cold by choice, in their order. */
  coldMeals: string[];
  /** Times that a kit comes again within two days, what was eaten just before the plan included. */
  repeats: number;
  /** Typical fuel heat of everything that burns, hot water included, MJ: what is made least. */
  fuelMJ: number;
  text: string;
}

/** What becomes of a plan if none of the promised daily supply comes, and the best plan without it. */
export interface WithoutSupply {
  /** What this plan runs out of first, and on which day; null: what is in store lasts. */
  runsOut: { what: string; date: string } | null;
  /** From here on, of the plan that counts on no supply. */
  outcome: 'complete' | 'short';
  proof: Plan['proof']['status'];
  short: Shortage[];
  waysOut: string[];
  meals: { id: string; kitIds: string[]; hot: boolean; servingsShort: number }[];
  fuel: Pick<FuelBalance, 'fuelId' | 'onHandKg' | 'usedKg'>[];
  waterLeftL: number;
}

export interface DroppedMethod {
  kitId: string;
  reason: string;
  wayOut: string | null;
  count: number;
}

/** How a plan hangs together with the one that it replaces. */
export interface PlanContinues {
  planId: string | null;
  /** Start and days of the first plan of the outage. */
  firstStartsAt: string;
  firstDays: number;
  /** Used since then, kg (kWh) by fuel and L of cooking water: counted in the shares. */
  used: { fuel: Record<string, number>; waterL: number };
  /** Food energy that the first plan needed, and what was eaten ahead of the need when this one was made, kcal. */
  needKcal: number;
  kcalAhead: number;
  /** Dishes on the fire, in a box or a flask when the plan was made: what they feed is in no meal of this plan. */
  underWay: DishUnderWay[];
  /** Food that was in water: cooked by this plan, or given up, and why. */
  soaks: (SoakNow & { use: 'cooked' | 'given-up'; reason: string | null })[];
  /** Dishes of the replaced plan that were still to come, and how many of them stand as they were. */
  wall: { dishes: number; kept: number };
  /** All that the plan was made from, for questions about it. */
  from: Continuation;
}

export interface Plan {
  format?: number;
  id: string;
  createdAt: string;
  request: PlanRequest;
  resolved: {
    household: HouseholdDocument;
    kits: Kit[];
    stock: StockLot[];
    defaults: string[];
    /** Rows of the own foods in those kits; absent: there are none. */
    foods?: Food[];
    /** Figures that rest on the household's own tests; absent in plans made before there were any. */
    learned?: LearnedInUse[];
  };
  versions: { program: string; tables: string; solver: string };
  outcome: 'complete' | 'short';
  proof: { status: 'optimal' | 'within-gap' | 'time-limit'; aims: AimProof[]; note: string | null };
  lightings: Lighting[];
  cookings: Cooking[];
  meals: PlannedMeal[];
  tasks: PlanTask[];
  schedule: ScheduleStep[];
  fuel: FuelBalance[];
  water: { onHandL: number; byDay: WaterDay[] };
  limits: Limit[];
  short: Shortage[];
  /** What does not go together where people cannot be fed; null: nothing is in conflict. */
  conflict: Conflict[] | null;
  waysOut: string[];
  energyByDay: { date: string; kcal: number; needKcal: number; proteinG: number; needProteinG: number }[];
  /** The same plan without the promised daily supply; null where nothing is promised. */
  withoutSupply: WithoutSupply | null;
  spread: SpreadShare[];
  comparison: { planMJ: number; carefulCookMJ: number; usualMJ: number; floorMJ: number };
  refused: DroppedMethod[];
  /** What the plan goes on from; absent: it begins an outage. */
  continues?: PlanContinues;
  /** Where a point of the trade-off was chosen; absent: the ordinary plan. */
  tradeOff?: TradeOffTaken;
  assumptions: string[];
  cautions: string[];
}

/** A plan before its schedule of steps has been worded. */
export type PlanDraft = Omit<Plan, 'schedule'>;
