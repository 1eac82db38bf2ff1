/** Which dry goods are packed with an oxygen absorber, how large it must be, and what a container holds. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { WorkKey } from '../../references/works-cited.ts';

/** Share of oxygen in air, by volume. */
const OXYGEN_SHARE = 0.2095;
/** What is ordered above the oxygen that is there: air leaks in, absorbers lose strength while they lie open. */
const ORDER_MARGIN = 1.25;
/** Absorbers are sold by the hundred cc of oxygen (not of air). */
const ORDER_STEP_CC = 100;
const CC_PER_LITRE = 1000;
const GRAMS_PER_KG = 1000;

/** Density of the kernel itself, g/cm3 (not of the heap). */
export const KERNEL_DENSITIES = {
  'white-rice': density(1.46, 1.44, 1.46, 'nelson-2002-density', 'abstract: up to 1.460 for milled rice', false),
  wheat: density(1.39, 1.36, 1.42, 'nelson-2002-density', 'abstract', false),
  maize: density(1.27, 1.24, 1.31, 'chang-1988-density', 'apparent density', false),
  bean: density(1.3, 1.2, 1.38, 'household-practice', 'recalled', true),
  'oat-flake': density(1.35, 1.25, 1.4, 'household-practice', 'recalled', true),
  'flour-pasta-milk': density(1.42, 1.4, 1.45, 'household-practice', 'recalled', true),
  'dried-piece': density(1.4, 1.3, 1.5, 'household-practice', 'recalled: dry matter of plants and lean meat', true),
  fatty: density(1.1, 1.05, 1.2, 'household-practice', 'recalled: nuts, dried egg, cheese', true),
  sugar: density(1.59, 1.58, 1.59, 'household-practice', 'recalled: sucrose crystal', true),
  salt: density(2.16, 2.1, 2.17, 'household-practice', 'recalled: salt crystal', true),
} as const;

/**
 * Oxygen in a filled container: `0.2095 * (V - m / rho)`, the headspace included.
 * @param containerL volume, L, > 0
 * @param foodKg mass of the food, kg, >= 0
 * @param kernelGPerCm3 density of the kernel, 0.5 to 2.5 g/cm3
 * @returns cc of oxygen
 * @throws OutOfRangeError; InvalidInputError where the food would not fit
 */
export function oxygenCc(containerL: number, foodKg: number, kernelGPerCm3: number): number {
  requireInRange('containerL', containerL, 0.01, 10_000, 'L');
  requireInRange('foodKg', foodKg, 0, 10_000, 'kg');
  requireInRange('kernelGPerCm3', kernelGPerCm3, 0.5, 2.5, 'g/cm3');
  const airCc = containerL * CC_PER_LITRE - (foodKg * GRAMS_PER_KG) / kernelGPerCm3;
  if (airCc < 0) throw new InvalidInputError('foodKg', foodKg, 'this much does not fit into the container');
  return OXYGEN_SHARE * airCc;
}

/**
 * Absorber capacity to put in: the oxygen times 1.25, rounded up to 100 cc. Too much does no harm.
 * @param oxygen cc of oxygen in the container, >= 0
 * @returns cc of oxygen, as absorbers are rated
 * @throws OutOfRangeError
 */
export function absorberToOrderCc(oxygen: number): number {
  requireInRange('oxygen', oxygen, 0, 1e9, 'cc');
  return Math.ceil((oxygen * ORDER_MARGIN) / ORDER_STEP_CC) * ORDER_STEP_CC;
}

/**
 * What a container holds of a food heaped loosely.
 * @param containerL L, > 0
 * @param bulkGPerL bulk density, g/L, 5 to 2,000
 * @returns kg
 * @throws OutOfRangeError
 */
export function looseFillKg(containerL: number, bulkGPerL: number): number {
  requireInRange('containerL', containerL, 0.01, 10_000, 'L');
  requireInRange('bulkGPerL', bulkGPerL, 5, 2000, 'g/L');
  return (containerL * bulkGPerL) / GRAMS_PER_KG;
}

/** Goods that decades of practice and studies pack with an absorber, though their moisture may lie above 10 %. */
export const PACKED_WITH_ABSORBER: ReadonlySet<string> = new Set([
  'wheat-berry',
  'hominy',
  'white-rice',
  'parboiled-rice',
  'instant-rice',
  'kidney-bean',
  'black-bean',
  'pinto-bean',
  'navy-bean',
  'great-northern-bean',
  'small-red-bean',
  'unknown-bean',
  'lima-bean',
  'fava-bean',
  'chickpea',
  'black-eyed-pea',
  'adzuki-bean',
  'mung-bean',
  'soybean',
  'lentil-brown',
  'lentil-red',
  'split-pea',
  'whole-pea',
  'rolled-oats',
  'quick-oats',
  'steel-cut-oats',
  'pasta',
  'wheat-flour',
  'potato-flakes',
  'milk-powder',
  'onion-flakes',
  'carrot-dehydrated',
]);

/** Goods that keep better without, or in the container they came in: sugar sets hard, oil and tins are closed already. */
export const NO_ABSORBER_NEEDED: ReadonlySet<string> = new Set([
  'sugar',
  'honey',
  'salt',
  'baking-soda',
  'baking-powder',
  'yeast',
  'oil',
  'ghee',
  'peanut-butter',
  'tinned-fish',
  'tinned-beans',
]);

/** Moist or oily goods: without oxygen botulism can grow in the moist, and the oily turn rancid all the same. Dried egg and
 * pearled barley are disputed; the careful side is taken. */
export const NEVER_WITH_ABSORBER: ReadonlySet<string> = new Set([
  'jerky',
  'raisins',
  'apple-dried',
  'apricot-dried',
  'almonds',
  'walnuts',
  'brown-rice',
  'pearl-barley',
  'dried-egg',
  'whole-milk-powder',
  'crackers',
  'granola',
  'whole-wheat-flour',
  'brown-sugar',
]);

/** Of those above, what one source packs and another does not. */
const DISPUTED: ReadonlySet<string> = new Set(['pearl-barley', 'dried-egg']);

export type AbsorberAdvice = 'yes' | 'not-needed' | 'never' | 'warn';

/** Moisture, g/100 g, above which a food that no list names is warned about, and from which it is refused. */
export const ABSORBER_MOISTURE = {
  warnAbove: rule(10, 'warn above 10 %'),
  refuseAbove: rule(15, 'refuse above 15 %'),
} as const;

/**
 * Whether a food is packed with an oxygen absorber. The lists decide, not the moisture of a food table: white rice holds
 * 11.6 g water per 100 g and keeps for decades, for what counts is the water's activity. Foods on no list go by
 * moisture; home-dried food always needs the snap test, and home-dried meat is never packed so (botulism).
 *
 * Source: dry-pack leaflets 2007; study list of foods lasting thirty years; trade notes H15.
 * @param food id, moisture in g/100 g (0 to 100) where known, and whether it was dried at home
 * @returns the advice and its reason
 * @throws OutOfRangeError
 */
export function absorberAdvice(food: {
  id: string;
  moisturePercent?: number | null;
  homeDried?: boolean;
  meat?: boolean;
}): { advice: AbsorberAdvice; reason: string } {
  const moisture = food.moisturePercent ?? null;
  if (moisture !== null) requireInRange('moisturePercent', moisture, 0, 100, 'g/100 g');
  if (food.homeDried === true && food.meat === true) {
    return { advice: 'never', reason: 'home-dried meat is moist enough for botulism where there is no oxygen' };
  }
  if (DISPUTED.has(food.id))
    return { advice: 'never', reason: 'sources disagree on it, and the careful side is taken' };
  if (NEVER_WITH_ABSORBER.has(food.id)) {
    return { advice: 'never', reason: 'too moist or too oily: botulism without oxygen, or rancid all the same' };
  }
  if (NO_ABSORBER_NEEDED.has(food.id)) {
    return { advice: 'not-needed', reason: 'keeps without one; sugar sets hard with one' };
  }
  if (food.homeDried === true) {
    return { advice: 'warn', reason: 'only if every piece snaps when bent: home-dried food can be moist inside' };
  }
  if (PACKED_WITH_ABSORBER.has(food.id))
    return { advice: 'yes', reason: 'dry enough, whatever its moisture figure says' };
  if (moisture === null) return { advice: 'warn', reason: 'on no list, and its moisture is not known' };
  if (moisture > ABSORBER_MOISTURE.refuseAbove.value) {
    return { advice: 'never', reason: 'more than 15 % moisture: botulism can grow without oxygen' };
  }
  if (moisture > ABSORBER_MOISTURE.warnAbove.value) {
    return { advice: 'warn', reason: 'more than 10 % moisture and on no list of goods that keep' };
  }
  return { advice: 'yes', reason: 'dry enough' };
}

function density(value: number, p10: number, p90: number, key: WorkKey, place: string, estimate: boolean): Parameter {
  return { value, p10, p90, unit: 'g/cm3', source: { key, place }, estimate };
}

function rule(value: number, place: string): Parameter {
  return {
    value,
    p10: value,
    p90: value,
    unit: 'g/100 g',
    source: { key: 'dry-pack-leaflet-2007', place },
    estimate: true,
  };
}
