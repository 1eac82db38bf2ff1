/**
 * The week as the planner sees it, free of food and heat: slots to fill, options to fill them with, fires that options
 * share, and what every option takes. `week-model.ts` states it as an integer programme; the tests search it exhaustively.
 *
 * Time is cut into periods: period p runs from the end of meal p-1 to meal p, so that an interval of hours becomes a set
 * of period numbers and "nothing is taken twice" a row per thing and period.
 */

export interface WeekSlot {
  /** `2026-12-05-evening` */
  id: string;
  day: number;
  /** Period that this meal ends. */
  period: number;
  wantServings: number;
  hotWanted: boolean;
  /** How many dishes may feed it together, where no pot is large enough for all; absent: 1. */
  mostDishes?: number;
}

/** A fire that can be lit once, on one stove, with one fuel; what is cooked on it shares its start-up. */
export interface WeekLighting {
  id: string;
  day: number;
  period: number;
  stoveId: string;
  /** Fuel for starting up, kg (kWh for electricity) by fuel id, 90th percentile. */
  startUp: Record<string, number>;
  startUpMinutes: number;
  /** Minutes that fit between the earliest hour and the meal. */
  minutesAvailable: number;
  /** Pots that stand on the fire at once; absent: 1. What stands on which is settled by `burnerOf`. */
  burners?: number;
  /** Minutes of flame that one fill of a burner without a valve gives; absent for other stoves. */
  fillMinutes?: number;
  outdoors: boolean;
  /** Hands-on minutes for lighting and shutting off. */
  tendingMinutes: number;
  /** A stove that burns anyway: neither counted against the lightings of a day nor started for cooking. */
  burnsAnyway: boolean;
}

export interface WeekUse {
  resource: string;
  period: number;
}

export interface WeekOption {
  id: string;
  slotId: string;
  kitId: string;
  /** Sets of the kit, may be a fraction for a divisible kit. */
  sets: number;
  /** Servings that count, at most the servings wanted. */
  servings: number;
  hot: boolean;
  /** Day on which fuel is used. */
  day: number;
  lightingId: string | null;
  /** Minutes on the fire, rest off it before a direct meal included. */
  minutes: number;
  /** Minutes of these with the flame burning; absent: all. */
  flameMinutes?: number;
  /** 90th percentile, kg (kWh for electricity) by fuel id, start-up excluded. */
  fuel: Record<string, number>;
  waterL: number;
  /** Day on which its water is first drawn (the evening before, with an overnight soak). */
  waterDay: number;
  uses: WeekUse[];
  tendingMinutes: number;
  energyKcal: number;
  /** A later meal that the same batch feeds hot; nothing else is cooked for it. */
  alsoFeeds?: { slotId: string; servings: number };
  /** The soak under way that it goes on with; absent: it begins with this plan. */
  begun?: string;
}

/** The meals that a way feeds, one or two. */
export function slotsFedBy(option: WeekOption): { slotId: string; servings: number }[] {
  return [
    { slotId: option.slotId, servings: option.servings },
    ...(option.alsoFeeds === undefined ? [] : [option.alsoFeeds]),
  ];
}

/**
 * Which burner of a fire a piece of work stands on, 0 the first. The dish of the meal that the fire is lit for has one to
 * itself, dishes for later meals another, and water a third; where there are fewer, the later ones share the last.
 */
export function burnerOf(work: 'meal' | 'later-meal' | 'water', burners: number): number {
  return Math.min(burners - 1, { meal: 0, 'later-meal': 1, water: 2 }[work]);
}

/** Work on a fire that is due once a day and may ride on any lighting of that day. */
export interface WeekTaskOption {
  id: string;
  day: number;
  lightingId: string;
  minutes: number;
  fuel: Record<string, number>;
  uses: WeekUse[];
  /** Water for the feeds of the night after this day, in a flask; absent: the day's hot water. */
  night?: true;
}

/** Litres made safe on a lighting, in any amount. */
export interface WeekTreatment {
  id: string;
  day: number;
  /** null: without fire (bleach). */
  lightingId: string | null;
  minutesPerL: number;
  fuelPerL: Record<string, number>;
  largestL: number;
  /** Snow that is melted and boiled: water beside what is in store, as much as the fires melt. */
  fromSnow?: true;
  /** What it takes on its fire: the pot may not be held by a dish of another fire meanwhile. */
  uses?: WeekUse[];
}

export interface WeekInstance {
  days: number;
  slots: WeekSlot[];
  lightings: WeekLighting[];
  options: WeekOption[];
  /** The day's hot water: exactly one of a day's options is wanted; a day without any is counted as missing. */
  hotWater: WeekTaskOption[];
  hotWaterDays: number[];
  /** Days whose night needs one of its flasks filled; a night without any is counted as missing. */
  nights?: number[];
  treatments: WeekTreatment[];
  /** Sets on hand by kit. */
  sets: Record<string, number>;
  /**
   * Of kits of which something passes its use-by date: sets still good on each day, and after the last day. What is
   * cooked from a day on comes out of what is still good on that day.
   */
  setsGoodOn?: Record<string, number[]>;
  /** Fuel that a plan may use up to and including each day (reserve taken off, supply added). */
  fuelByDay: Record<string, number[]>;
  /** Water for cooking and soaking up to and including each day: safe, and what could be made safe. */
  safeWaterByDay: number[];
  treatableWaterByDay: number[];
  /**
   * Where water is made safe by boiling: safe litres when the plan begins. Pots that boil may then take water as it is,
   * and what is drunk or eaten without a fire needs water that was boiled before. Absent: all water is made safe first.
   */
  boiledWater?: { safeAtStartL: number };
  /** There is snow: what people need beyond the stores is melted, and what cannot be melted is counted as missing. */
  snow?: true;
  lightingsPerDay: number;
  outdoorMinutesPerDay: number;
  needKcal: number;
  /** What an earlier plan has left behind, where this one goes on from it. */
  before?: WeekBefore;
  /** The point of the trade-off that was chosen; absent: the ordinary order of aims. */
  tradeOff?: WeekTradeOff;
}

/** How many meals need not be hot, and how much may come again, so that the fuel heat is least. */
export interface WeekTradeOff {
  /** Meals that should be hot and need not be. */
  coldMeals: number;
  /** Repeats that are allowed; null: any number. */
  repeats: number | null;
  /** Food energy that may be short for the sake of hot meals and of fewer repeats, in hundredths of the need. */
  energySteps: number;
  heat: WeekHeat;
}

/** Fuel heat of everything that burns, MJ at the 50th percentile by id; absent: none. Treatments per litre. */
export interface WeekHeat {
  options: Record<string, number>;
  lightings: Record<string, number>;
  hotWater: Record<string, number>;
  treatments: Record<string, number>;
}

/** What was done before a plan that goes on from another, as far as limits and aims count it. */
export interface WeekBefore {
  /** Used since the first plan began, kg (kWh) by fuel id, and L of cooking water: part of every share. */
  fuel: Record<string, number>;
  waterL: number;
  /** Food energy that the first plan needed, kcal: shortage is counted in hundredths of it. */
  needKcal: number;
  /** Kits that were eaten the day before (-1) and earlier today (0). */
  eaten: { kitId: string; day: number }[];
  /** Of the first day: fires lit, and minutes outdoors. */
  lightings: number;
  outdoorMinutes: number;
  /** Food in water: sets of a kit that are used in this soak or lost. */
  soaks: { id: string; kitId: string; sets: number }[];
}

/** What a solution picked. */
export interface WeekChoice {
  options: string[];
  hotWater: string[];
  lightings: string[];
  treatedL: Record<string, number>;
  /** Litres for people, by day, that no fire of the plan can make safe. */
  unsafeLByDay?: number[];
}
