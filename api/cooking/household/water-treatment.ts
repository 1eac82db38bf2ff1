/** Making water safe by boiling or with bleach, and which water may go into which dish. */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { WaterQuality } from './kitchen.ts';

/** How long a rolling boil is kept, and from which elevation longer. Agencies differ; the program uses `usual`. */
export const BOIL_RULES = {
  /** Meets the US agencies both: 5,000 ft as EPA prints it, which lies below CDC's 6,500 ft. */
  usual: { minutes: 1, longerAboveM: 1524, longerMinutes: 3, source: { key: 'epa-disinfection', place: 'boiling' } },
  cdc: { minutes: 1, longerAboveM: 1981, longerMinutes: 3, source: { key: 'cdc-water-emergency', place: 'boiling' } },
  /** EPA's sheet also prints 1,000 m for its 5,000 ft. */
  strict: { minutes: 1, longerAboveM: 1000, longerMinutes: 3, source: { key: 'epa-disinfection', place: 'boiling' } },
  /** Reaching a rolling boil is enough at any height. */
  who: { minutes: 0, longerAboveM: 9000, longerMinutes: 0, source: { key: 'who-boil-water', place: 'whole brief' } },
} as const;

const BLEACH_SOURCE = { key: 'epa-disinfection', place: 'bleach table, 8 and 6 drops a gallon' } as const;

export const BLEACH = {
  /** Drops per US gallon of clear water at 5 to 6 % and at 8.25 %. */
  dropsPerGallon6: rule(8, 8, 12, '1/gal', BLEACH_SOURCE),
  /** At 1 %, for a gallon: four times the sheet's 10 drops a quart. Between 1 and 5 % the dose goes by strength. */
  dropsPerGallon1: rule(40, 40, 40, '1/gal', { key: 'us-army-31-008-1004', place: 'drops per quart, 1 %' }),
  dropsPerGallon825: rule(6, 6, 8, '1/gal', BLEACH_SOURCE),
  /** 12.8 to 20 drops make a millilitre; a printed sheet names drops first. */
  mlPerDrop: rule(0.0625, 0.05, 0.078, 'mL', { key: 'cdc-water-emergency', place: '8 drops, about 0.5 mL' }),
  waitMinutes: rule(30, 30, 30, 'min', BLEACH_SOURCE),
  /** After a second dose, where no faint smell of chlorine was left. */
  secondWaitMinutes: rule(15, 15, 15, 'min', BLEACH_SOURCE),
} as const;

/** The gallon of the bleach tables as they print it, L. */
const PRINTED_GALLON_L = 3.785;

/** Free chlorine that the published doses come to, mg/L. */
export const CHLORINE_DOSE_MG_PER_L = rule(6.3, 5.55, 8.67, 'mg/L', { key: 'lantagne-2014', place: 'abstract' });

/** Heat capacity of water near room temperature, kJ/(kg K): the figure of the water boiling test. */
const WATER_KJ_PER_KG_K = 4.186;

/**
 * Minutes of a visible rolling boil that make water safe: 1 up to 1,524 m, 3 above.
 * @param elevationM m, -500 to 9,000
 * @param rule which agency's rule; `usual` satisfies the US ones
 * @returns minutes
 * @throws OutOfRangeError
 */
export function boilMinutesToMakeSafe(elevationM: number, rule: keyof typeof BOIL_RULES = 'usual'): number {
  requireInRange('elevationM', elevationM, -500, 9000, 'm');
  const chosen = BOIL_RULES[rule];
  return elevationM > chosen.longerAboveM ? chosen.longerMinutes : chosen.minutes;
}

/**
 * Whether all water for food is safe before it sees a fire, as it must be for a dish that does not boil: stored so, or made
 * so with bleach. Where some must be boiled, the pots that boil take it as it is.
 */
export function isSafeBeforeTheFire(water: {
  lots: readonly { quality: WaterQuality }[];
  dailySupply: { litres: number; quality: WaterQuality };
  treatBy: 'boil' | 'bleach';
}): boolean {
  const { lots, dailySupply, treatBy } = water;
  if (treatBy === 'bleach') return true;
  return (
    !lots.some(({ quality }) => quality === 'treat') && !(dailySupply.litres > 0 && dailySupply.quality === 'treat')
  );
}

/**
 * Drops of plain, unscented bleach for an amount of water; then stir and wait 30 min.
 *
 * 8 drops a US gallon at 5 to 8 %, 6 at 8.25 % and more, below 5 % in proportion (1 %: 40); twice that for cloudy,
 * coloured or very cold water. Rounded up, save for the eighth of a drop by which the agencies' own "2 drops a litre"
 * lies below 8 a gallon. Bleach does not control Cryptosporidium and is not for water with fuel or chemicals in it.
 *
 * Source: EPA and CDC sheets; 1 % from a US Army sheet.
 * @param litres > 0, at most 10,000
 * @param strengthPercent sodium hypochlorite as labelled, 1 to 10 %
 * @param cloudy cloudy, coloured or very cold water
 * @returns whole drops, at least 1
 * @throws OutOfRangeError
 */
export function bleachDrops(litres: number, strengthPercent: number, cloudy: boolean): number {
  requireInRange('litres', litres, 0.1, 10_000, 'L');
  requireInRange('strengthPercent', strengthPercent, 1, 10, '%');
  const perGallon =
    strengthPercent >= 8.25
      ? BLEACH.dropsPerGallon825.value
      : strengthPercent >= 5
        ? BLEACH.dropsPerGallon6.value
        : BLEACH.dropsPerGallon1.value / strengthPercent;
  const exact = (perGallon * (cloudy ? 2 : 1) * litres) / PRINTED_GALLON_L;
  return Math.max(1, Math.ceil(exact - 0.125));
}

/**
 * The same dose in millilitres, for larger amounts: 16 drops a millilitre.
 * @returns mL
 * @throws OutOfRangeError as `bleachDrops`
 */
export function bleachMl(litres: number, strengthPercent: number, cloudy: boolean): number {
  return bleachDrops(litres, strengthPercent, cloudy) * BLEACH.mlPerDrop.value;
}

/**
 * Free chlorine that a dose of bleach brings: 1 mL of 1 % (by mass per volume) holds 10 mg.
 * @param bleachMillilitres mL, >= 0
 * @param strengthPercent %, 0 to 15
 * @param litres of water, > 0
 * @returns mg/L
 * @throws OutOfRangeError
 */
export function chlorineMgPerL(bleachMillilitres: number, strengthPercent: number, litres: number): number {
  requireInRange('bleachMillilitres', bleachMillilitres, 0, 1e6, 'mL');
  requireInRange('strengthPercent', strengthPercent, 0, 15, '%');
  requireInRange('litres', litres, 0.001, 1e6, 'L');
  return (bleachMillilitres * strengthPercent * 10) / litres;
}

/**
 * Heat that brings liquid water to the boil: `Q = 4.186 * m * (Tb - T0)`, one litre taken as one kilogram.
 * @param litres >= 0
 * @param startC 0 to 100 C (ice must be melted first, which costs more)
 * @param boilingPointC C, 60 to 105
 * @returns kJ into the water; divide by the efficiency of stove and pot for fuel
 * @throws OutOfRangeError
 */
export function heatToBoilKJ(litres: number, startC: number, boilingPointC: number): number {
  requireInRange('litres', litres, 0, 1e6, 'L');
  requireInRange('startC', startC, 0, 100, 'C');
  requireInRange('boilingPointC', boilingPointC, 60, 105, 'C');
  return WATER_KJ_PER_KG_K * litres * Math.max(0, boilingPointC - startC);
}

/** What a way of making a dish does to its water. */
export interface WayOfHeating {
  /** Minutes of a visible rolling boil at ambient pressure or more, the water in from the start; 0 without fire. */
  rollingBoilMinutes: number;
  elevationM: number;
}

/**
 * The qualities of water that a dish may be made with. A dish that boils for as long as water must makes its own water
 * safe; everything else (no-cook, freshly poured flask, box without that boil) takes safe water only.
 * @returns qualities, the one to spend first first
 * @throws OutOfRangeError as `boilMinutesToMakeSafe`
 */
export function waterQualitiesFor(way: WayOfHeating): WaterQuality[] {
  return boilsLongEnough(way) ? ['treat', 'safe'] : ['safe'];
}

/**
 * Refuses what a way without a rolling boil must not be used for: untreated water and raw freeze-dried egg or meat.
 *
 * Source: trade notes H5; freeze-drying does not kill microbes.
 * @param way minutes of rolling boil and elevation
 * @param dish quality of the water that would go in, and whether any ingredient is raw egg or meat
 * @returns null where it may be made so, else the harm and the way out
 * @throws OutOfRangeError as `boilMinutesToMakeSafe`
 */
export function refusalWithoutBoil(
  way: WayOfHeating,
  dish: { waterQuality: WaterQuality; rawAnimal: boolean },
): { reason: string; wayOut: string } | null {
  if (dish.waterQuality === 'not-for-food') {
    return { reason: 'this water is not fit for food, boiled or not', wayOut: 'use it to wash floors and to flush' };
  }
  if (dish.waterQuality === 'treat' && !boilsLongEnough(way)) {
    return {
      reason: 'the water is not safe and this way does not boil it',
      wayOut: 'use safe water, or treat the water first (boil or bleach)',
    };
  }
  // Food must come to a full boil itself, however briefly: more than reheating asks for.
  if (dish.rawAnimal && way.rollingBoilMinutes <= 0) {
    return {
      reason: 'raw dried egg or meat can carry live bacteria, and drying does not kill them',
      wayOut: 'cook it at a full boil, or use a cooked kind',
    };
  }
  return null;
}

function boilsLongEnough(way: WayOfHeating): boolean {
  return way.rollingBoilMinutes > 0 && way.rollingBoilMinutes >= boilMinutesToMakeSafe(way.elevationM);
}

function rule(value: number, p10: number, p90: number, unit: string, source: Parameter['source']): Parameter {
  return { value, p10, p90, unit, source, estimate: false };
}
