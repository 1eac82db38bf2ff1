/** A food that no table holds, described from its label and a class; what the label does not say is guessed and marked. */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { Allergen, CookingKinetics, Food, GuessedFigure } from './food.ts';
import { specificHeatOfFood } from './food-parameters.ts';
import { findFood } from './foods-table.ts';
import { OWN_FOOD_CLASSES, type OwnFoodClass } from './own-food-classes.ts';

/** An own food as it is stored: what its label says, per 100 g as bought. Null or absent: the label does not say. */
export interface OwnFood {
  format?: number;
  id: string;
  name: string;
  foodClass: OwnFoodClass;
  kcalPer100G?: number | null;
  proteinGPer100G?: number | null;
  fatGPer100G?: number | null;
  saltGPer100G?: number | null;
  /** Water in it as bought. */
  moistureGPer100G?: number | null;
  /** Minutes that the packet names: boiling at sea level, or standing in hot water. */
  packetMinutes?: number | null;
  /** Pulses: whether those minutes are for soaked ones; absent: they are. */
  packetMinutesSoaked?: boolean;
  /** Water it takes up, g per g. */
  waterTakenUpGPerG?: number | null;
  bulkDensityGPerL?: number | null;
  allergens?: Allergen[];
  /** Sour, as tomato or vinegar powder: it goes in when pulses are soft. */
  sour?: boolean;
  /** Dried at home: moisture is not known, whatever it looks like. */
  homeDried?: boolean;
  note?: string;
}

/** Ranges that a label may hold; the schema and the row keep to the same ones. */
export const LABEL_RANGES = {
  kcalPer100G: { minimum: 0, maximum: 902, unit: 'kcal' },
  proteinGPer100G: { minimum: 0, maximum: 100, unit: 'g' },
  fatGPer100G: { minimum: 0, maximum: 100, unit: 'g' },
  saltGPer100G: { minimum: 0, maximum: 100, unit: 'g' },
  moistureGPer100G: { minimum: 0, maximum: 95, unit: 'g' },
  packetMinutes: { minimum: 0, maximum: 600, unit: 'min' },
  waterTakenUpGPerG: { minimum: 0, maximum: 12, unit: 'g' },
  bulkDensityGPerL: { minimum: 10, maximum: 1600, unit: 'g' },
} as const;

/** A packet names the minutes of a good lot (common practice): a poor one takes half as long again. */
const PACKET_SPREAD = { low: 0.8, high: 1.5 };
/** Guessed figures are this much less sure than those of the row they come from. */
const GUESS_SPREAD = { low: 0.7, high: 1.4 };

/**
 * The row of an own food, as the calculations take it.
 *
 * What the label says stands as an entry of `food-label`; the rest comes from the class's row with a wider range, is an
 * estimate, and is named in `own.guessed`. Any bean counts as kidney family.
 * @param label as stored
 * @throws OutOfRangeError for a figure outside `LABEL_RANGES`
 */
export function ownFoodRow(label: OwnFood): Food {
  for (const [field, { minimum, maximum, unit }] of Object.entries(LABEL_RANGES)) {
    const value = label[field as keyof typeof LABEL_RANGES];
    if (typeof value === 'number') requireInRange(field, value, minimum, maximum, unit);
  }
  const { like: likeId, group, name: className } = OWN_FOOD_CLASSES[label.foodClass];
  const like = findFood(likeId);
  if (like === undefined) throw new Error(`the class ${label.foodClass} rests on ${likeId}, which no table holds`);
  const guessed: GuessedFigure[] = [];
  const figure = (
    field: keyof typeof LABEL_RANGES,
    unit: string,
    row: Parameter,
    what: GuessedFigure,
    spread: [number, number],
  ): Parameter => {
    const value = label[field];
    if (typeof value === 'number') return labelled(value, value * spread[0], value * spread[1], unit);
    guessed.push(what);
    return guess(row, className);
  };
  const pulse = group === 'pulse';
  const kcal = figure('kcalPer100G', 'kcal/100 g', like.kcalPer100G, 'energy', [0.96, 1.04]);
  const protein = figure('proteinGPer100G', 'g/100 g', like.proteinGPer100G, 'protein', [0.9, 1.1]);
  const water = figure('moistureGPer100G', 'g/100 g', like.waterGPer100G, 'moisture', [0.8, 1.2]);
  const salt =
    typeof label.saltGPer100G === 'number'
      ? labelled(label.saltGPer100G, label.saltGPer100G * 0.9, label.saltGPer100G * 1.1, 'g/100 g')
      : undefined;
  if (salt === undefined) guessed.push('salt');
  const kinetics = kineticsOf(label, like.kinetics, className);
  if (typeof label.packetMinutes !== 'number' && takesTime(like.kinetics)) guessed.push('cooking minutes');
  if (like.soak !== null) guessed.push('soaking');
  const absorbed =
    like.absorbedGPerG.p90 === 0 && typeof label.waterTakenUpGPerG !== 'number'
      ? like.absorbedGPerG
      : figure('waterTakenUpGPerG', 'g/g', like.absorbedGPerG, 'water taken up', [0.85, 1.15]);
  const density = figure('bulkDensityGPerL', 'g/L', like.bulkDensityGPerL, 'bulk density', [0.92, 1.08]);
  if (label.foodClass === 'bean') guessed.push('lectin');
  const heat = specificHeatOfFood(water.value / 100);
  return {
    ...like,
    id: label.id,
    name: label.name,
    group,
    kinetics,
    lectin: label.foodClass === 'bean' ? 'kidney-family' : 'none',
    absorbedGPerG: absorbed,
    kcalPer100G: kcal,
    proteinGPer100G: protein,
    waterGPer100G: water,
    bulkDensityGPerL: density,
    specificHeatKJPerKgK: guess(
      { ...like.specificHeatKJPerKgK, value: heat, p10: heat * 0.93, p90: heat * 1.07 },
      className,
    ),
    allergens: [...(label.allergens ?? [])],
    rawAnimal: label.foodClass === 'raw-dried-animal',
    acid: label.sour === true,
    seasoning: group === 'seasoning',
    soakable: pulse || label.foodClass === 'whole-grain',
    ...(salt === undefined ? {} : { saltGPer100G: salt }),
    own: {
      guessed,
      foodClass: label.foodClass,
      fatGPer100G: label.fatGPer100G ?? null,
      moistureKnown: typeof label.moistureGPer100G === 'number',
      homeDried: label.homeDried === true,
    },
    cautions: cautionsOf(label, like),
  };
}

function cautionsOf(label: OwnFood, like: Food): string[] {
  const cautions: string[] = [];
  if (label.foodClass === 'bean')
    cautions.push(
      `${label.name}: an own bean counts as kidney family, and is soaked, rinsed and boiled like kidney beans.`,
    );
  if (label.foodClass === 'tin')
    cautions.push('A bulging or leaking tin, or one that froze and thawed, is thrown away.');
  if ((label.allergens ?? []).length === 0)
    cautions.push(`${label.name}: no allergens were typed in. Read the label before somebody with an allergy eats it.`);
  if (label.foodClass === 'raw-dried-animal') cautions.push(...like.cautions);
  return cautions;
}

function takesTime(kinetics: CookingKinetics): boolean {
  return kinetics.kind === 'boil' || kinetics.standMinutesHot.value > 0;
}

function kineticsOf(label: OwnFood, like: CookingKinetics, className: string): CookingKinetics {
  const minutes = label.packetMinutes;
  if (like.kind === 'ready') {
    if (typeof minutes !== 'number')
      return {
        ...like,
        standMinutesCold: guess(like.standMinutesCold, className),
        standMinutesHot: guess(like.standMinutesHot, className),
      };
    // Cold water takes about three times as long as hot (common practice).
    return {
      ...like,
      standMinutesHot: packet(minutes),
      standMinutesCold: guess(
        { ...packet(minutes), value: 3 * minutes, p10: 2 * minutes, p90: 6 * minutes },
        className,
      ),
    };
  }
  const hydration = like.hydrationMinutes === null ? null : guess(like.hydrationMinutes, className);
  if (typeof minutes !== 'number')
    return { ...like, softeningMinutes: guess(like.softeningMinutes, className), hydrationMinutes: hydration };
  // Minutes for unsoaked pulses hold those in which water enters; at least a third of them soften.
  const entering = label.packetMinutesSoaked === false ? (hydration?.value ?? 0) : 0;
  return {
    ...like,
    softeningMinutes: packet(Math.max(minutes / 3, minutes - entering, 0.5)),
    hydrationMinutes: hydration,
  };
}

function packet(minutes: number): Parameter {
  return labelled(minutes, minutes * PACKET_SPREAD.low, minutes * PACKET_SPREAD.high, 'min');
}

function labelled(value: number, p10: number, p90: number, unit: string): Parameter {
  return { value, p10, p90, unit, source: { key: 'food-label', place: 'as typed in' }, estimate: false };
}

function guess(row: Parameter, className: string): Parameter {
  return {
    ...row,
    p10: Math.min(row.p10, row.value * GUESS_SPREAD.low),
    p90: Math.max(row.p90, row.value * GUESS_SPREAD.high),
    estimate: true,
    note: `not on the label: guessed from the class "${className}"`,
  };
}
