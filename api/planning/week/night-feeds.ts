/** Feeds at night: formula is mixed with water of 70 C or more, from a flask filled on an earlier fire of the day. */
import { type Calculations, scalePercentiles } from '../../cooking/calculators/calculations.ts';
import { BOX_ENTRY_LOSS_K, heatWater, type Surroundings } from '../../cooking/dishes/cooking-methods.ts';
import type { ResolvedStove, ResolvedVessel } from '../../cooking/household/resolve-household.ts';
import { boilMinutesToMakeSafe } from '../../cooking/household/water-treatment.ts';
import { hoursUntil } from '../../cooking/keeping/hot-holding.ts';
import { FOOD_SAFETY } from '../../cooking/keeping/safe-until.ts';
import { boilingPointAtElevationC } from '../../physics/boiling-point.ts';
import type { Parameter } from '../../physics/parameter.ts';
import { addDays, toMinute } from '../local-time.ts';
import { timeConstantHoursOf } from './keep-hot.ts';
import type { LightingDetail } from './week-calendar-types.ts';
import type { WeekSituation } from './week-situation.ts';

/** Water of one feed of one infant, L: 150 to 210 mL. Common practice. */
export const FEED_L: Parameter = {
  value: 0.2,
  p10: 0.12,
  p90: 0.24,
  unit: 'L',
  source: { key: 'household-practice', place: 'one feed of an infant' },
  estimate: true,
};

/** A flask is filled to this share. */
const FLASK_FILL_SHARE = 0.95;

/** The feeds of the night that follows a day. */
export interface Night {
  day: number;
  feedMinutes: number[];
  /** Water of all its feeds, L. */
  litres: number;
  /** A stove that burns through all of them in any case: water is heated when it is wanted. */
  burning: ResolvedStove | null;
}

/**
 * The nights of a week in which somebody is fed. A feed before noon belongs to the night of the day before.
 * @returns nights in order; none where the household names no feeds
 */
export function nightsOf(situation: WeekSituation): Night[] {
  const { household, place, days, startMinute } = situation;
  const first = days[0];
  if (household.nightFeeds.length === 0 || first === undefined) return [];
  const zone = place.timeZone;
  const infants = Math.max(1, household.people.filter((person) => person.ageGroup === 'infant').length);
  return days.flatMap((day, index): Night[] => {
    const feedMinutes = household.nightFeeds
      .map((time) => toMinute(`${addDays(day.date, time < '12:00' ? 1 : 0)}T${time}`, zone))
      .filter((minute) => minute > startMinute)
      .sort((a, b) => a - b);
    if (feedMinutes.length === 0) return [];
    const burning = household.stoves.find(
      (stove) => stove.burnsAnyway !== null && household.nightFeeds.every((time) => isBurningAt(stove, time)),
    );
    return [{ day: index, feedMinutes, litres: feedMinutes.length * infants * FEED_L.value, burning: burning ?? null }];
  });
}

function isBurningAt({ burnsAnyway: span }: ResolvedStove, time: string): boolean {
  if (span === null) return false;
  return span.from <= span.to ? time >= span.from && time <= span.to : time >= span.from || time <= span.to;
}

/**
 * Litres to put boiling into a flask so that they are still hot enough at the last feed nine times in ten: what is
 * needed, or the flask full, which cools more slowly.
 * @param hours from filling to the last feed
 * @returns null where even the full flask does not hold it
 */
export function flaskFillL(
  flask: ResolvedVessel,
  neededL: number,
  hours: number,
  situation: WeekSituation,
  calculations: Calculations,
): number | null {
  const fullL = flask.capacityL * FLASK_FILL_SHARE;
  if (neededL > fullL + 1e-9) return null;
  const startC = boilingPointAtElevationC(situation.place.elevationM) - BOX_ENTRY_LOSS_K;
  const airC = Math.min(...situation.days.map((day) => day.coldC));
  return (
    [neededL, fullL].find((litres) => {
      const tau = timeConstantHoursOf(flask, null, litres, situation, calculations);
      return hoursUntil(startC, airC, tau.p10, FOOD_SAFETY.formulaWaterC.value) >= hours;
    }) ?? null
  );
}

/**
 * Boiling the water of a flask on a fire of the day.
 * @returns null where the stove cannot, or the fire is too short
 */
export function heatForFlask(
  lighting: LightingDetail,
  vessel: ResolvedVessel,
  litres: number,
  surroundings: Surroundings,
  situation: WeekSituation,
  calculations: Calculations,
): ReturnType<typeof heatWater> {
  const heated = heatWater(
    {
      stove: lighting.stove,
      fuelId: lighting.fuelId,
      fuelMoisturePercent: situation.fuels[lighting.fuelId]?.moisturePercent ?? null,
      vessel,
    },
    litres,
    null,
    boilMinutesToMakeSafe(situation.place.elevationM),
    surroundings,
    calculations,
  );
  const room = lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes;
  if (heated === null || heated.minutes.p90 > room) return null;
  return lighting.burnsAnyway
    ? {
        ...heated,
        fuelMJ: scalePercentiles(heated.fuelMJ, 0),
        fuelKg: scalePercentiles(heated.fuelKg, 0),
        fuelEffects: [],
      }
    : heated;
}
