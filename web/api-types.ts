/** The shapes that travel between page and server, types only: nothing of the server comes into the bundle. */
import type { LotAge } from '../api/planning/lot-age.ts';
import type { StockLot as PlannedStockLot } from '../api/planning/plan-types.ts';

export type {
  BoilingPointAnswer,
  CookTimeAnswer,
  CoolingAnswer,
  ExplanationStep,
  FuelUseAnswer,
  SoakingAnswer,
} from '../api/cooking/calculators/calculator-types.ts';
export type { ExplainedFigure, ExplainedLearned } from '../api/cooking/derivations/explain-learned.ts';
export type { DishStyle, Ingredient, Kit, KitPart, MealSlot } from '../api/cooking/dishes/kit.ts';
export type { FiguredWay, KitFigures } from '../api/cooking/dishes/kit-figures.ts';
export type { OwnFood } from '../api/cooking/foods/own-food.ts';
export type {
  AgeGroup,
  Condition,
  FuelContainer,
  FuelStore,
  HouseholdDocument,
  MealTime,
  Person,
  Place,
  RetainedHeatBox,
  Stove,
  Vessel,
  VesselKind,
  WaterLot,
  WaterQuality,
  WaterStores,
} from '../api/cooking/household/kitchen.ts';
export type { Packing } from '../api/cooking/keeping/packing.ts';
export type { Learned, LearnedFigure, LearnedInUse, MeasurementEffect } from '../api/cooking/measurements/learned.ts';
export type { Measurement, MeasurementKind } from '../api/cooking/measurements/measurements.ts';
export type { Percentiles, SpreadShare } from '../api/physics/parameter.ts';
export type {
  FuelId,
  InsulationMaterialId,
  Lid,
  StoveTypeId,
  VesselMaterialId,
  Wind,
} from '../api/physics/table-ids.ts';
export type { Booking, BookingKind, MealBooking } from '../api/planning/bookings/booking-types.ts';
export type { PlanChange } from '../api/planning/bookings/changes.ts';
export type { ContainerNow, Difference, FuelNow } from '../api/planning/bookings/fuel-now.ts';
export type { OutageReport } from '../api/planning/bookings/report.ts';
export type { DishUnderWay, SoakNow, StateNow } from '../api/planning/bookings/state-now.ts';
export type { ExplainedMeal, ExplainedPlan, MealOfPlan } from '../api/planning/plan/explain-plan.ts';
export type {
  ChosenPoint,
  Cooking,
  FuelAmount,
  FuelBalance,
  Lighting,
  Limit,
  Plan,
  PlannedMeal,
  PlanRequest,
  PlanTask,
  ScheduleStep,
  StockEntry,
  StockReason,
  WaterDay,
  WithoutSupply,
} from '../api/planning/plan-types.ts';
export type { Advice, AdviceItem } from '../api/planning/questions/advice.ts';
export type { Conflict } from '../api/planning/questions/conflict.ts';
export type { DishOption } from '../api/planning/questions/dish-options.ts';
export type { DaysServed, EndOfDays, Endurance, EndurancePoint } from '../api/planning/questions/endurance.ts';
export type { TradeOff, TradeOffPoint } from '../api/planning/questions/trade-off.ts';
export type { Missing, MissingThing } from '../api/planning/questions/what-is-missing.ts';
export type { ShareOut } from '../api/planning/share-out.ts';
export type { InspectionSign } from '../api/planning/stock-changes.ts';
export type { Containers, SetsAtPlace } from '../api/planning/stock-sets.ts';

/** A lot as `/api/stock` lists it, with what age has done to it. */
export type StockLot = PlannedStockLot & { age?: LotAge | null };
