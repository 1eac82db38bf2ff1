/** What could be done in a week, as people and the programme see it: fires, ways of feeding a meal, hot and safe water. */
import type { DishMethod, NoHeatMethod, Surroundings } from '../../cooking/dishes/cooking-methods.ts';
import type { DishSoak } from '../../cooking/dishes/dish.ts';
import type { ResolvedBox, ResolvedStove, ResolvedVessel } from '../../cooking/household/resolve-household.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { CauseEffect } from '../../physics/spread.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import type { SoakNow } from '../bookings/state-now.ts';
import type { DroppedMethod } from '../plan-types.ts';
import type { Night } from './night-feeds.ts';
import type { WeekInstance } from './week-instance.ts';
import type { KitStock, SlotSituation } from './week-situation.ts';

export interface LightingDetail {
  id: string;
  slot: SlotSituation;
  stove: ResolvedStove;
  fuelId: FuelId;
  endMinute: number;
  earliestMinute: number;
  startUpKg: Percentiles;
  startUpMJ: Percentiles;
  startUpEffects: CauseEffect[];
  startUpMinutes: number;
  early: boolean;
  /** The stove burns for heating in any case: what is cooked on it costs no fuel, and nobody lights it. */
  burnsAnyway: boolean;
}

export interface OptionDetail {
  id: string;
  slot: SlotSituation;
  kit: KitStock;
  sets: number;
  servingsCooked: number;
  lighting: LightingDetail | null;
  method: DishMethod | null;
  noHeat: NoHeatMethod | null;
  soak: { startMinute: number; bowl: ResolvedVessel; dish: DishSoak; begun: SoakNow | null } | null;
  surroundings: Surroundings;
  /** A later meal fed from the same pot, which goes at the boil into a box when the first has been ladled out. */
  kept: KeptMeal | null;
}

export interface KeptMeal {
  slot: SlotSituation;
  box: ResolvedBox;
  servings: number;
  /** Of what is left in the pot, h. */
  timeConstantHours: Percentiles;
}

export interface HotWaterDetail {
  id: string;
  lighting: LightingDetail;
  vessel: ResolvedVessel;
  minutes: Percentiles;
  fuelMJ: Percentiles;
  fuelKg: Percentiles;
  fuelEffects: CauseEffect[];
  litres: number;
  /** The flask that it goes into for the feeds of a night; null: the day's hot water. */
  night: { feeds: Night; flask: ResolvedVessel } | null;
}

export interface TreatmentDetail {
  id: string;
  day: number;
  lighting: LightingDetail | null;
  vessel: ResolvedVessel | null;
  /** What the pot takes at once; more is boiled potful after potful. */
  potfulL: number;
  minutesPerL: number;
  fuelKgPerL: Percentiles;
  fuelMJPerL: Percentiles;
  fuelEffects: CauseEffect[];
  /** Snow, melted and boiled. */
  fromSnow: boolean;
}

export interface WeekCalendar {
  week: WeekInstance;
  options: Map<string, OptionDetail>;
  lightings: Map<string, LightingDetail>;
  hotWater: Map<string, HotWaterDetail>;
  treatments: Map<string, TreatmentDetail>;
  nights: Night[];
  refused: DroppedMethod[];
}
