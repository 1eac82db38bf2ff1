/** The shortest boil before a pot goes into a retained-heat box. */
import { InvalidInputError, requireInRange } from '../../physics/errors.ts';
import { deviateParameter, type Percentiles, valueAtDeviate } from '../../physics/parameter.ts';
import { propagateSpread } from '../../physics/spread.ts';
import { extrapolationFactor } from '../calculators/answer-cook-time.ts';
import type { CookingAdditive } from '../calculators/calculator-types.ts';
import { foodOf, type NamedFood } from '../foods/foods-table.ts';
import { boxTemperatureC, minutesToCoolTo } from './cook-value.ts';
import { LECTIN_COUNTS_FROM_C, LECTIN_SOAK_SHARE, lectinMinutesAt, WINTER_LOW_FACTOR } from './lectin-rule.ts';
import { additiveFactor, HYDRATION_Z_K, timeFactor } from './softening-kinetics.ts';

export interface BoxBoilQuestion extends NamedFood {
  /** Temperature of the pot at the boil, C. */
  temperatureC: number;
  /** 0 to 1. */
  hydrationShare: number;
  /** Whether it was soaked long enough for the lectin rule's five hours and that water poured away. */
  soakedAndDrained: boolean;
  storageFactor?: number;
  /** Minutes of this lot over those of the table, as the household's own tests left them; absent: not tested. */
  measuredLot?: Percentiles;
  /** Temperature of the dish as the lid of the box closes, C. */
  boxStartC: number;
  airC: number;
  timeConstantHours: number;
  boxMinutes: number;
  cookingAdditive?: CookingAdditive;
  /** True where `temperatureC` was measured, by thermometer or barometer: no allowance for a winter low is made. */
  temperatureMeasured?: boolean;
}

export interface BoxBoilAnswer {
  /** Minutes at `temperatureC` before boxing. */
  boilMinutes: Percentiles;
  /** The least that the lectin rule asks, min at `temperatureC`; 0 where it does not apply. */
  lectinBoilMinutes: number;
  /** Temperature at the end of the box, C. */
  reachedC: number;
  verdict: 'ok' | 'refused';
  reason: string;
}

/** Food in a box or flask must still be this hot when it is eaten, else it is boiled again (people-water-food-safety 5). */
export const HOT_HOLDING_C = 60;

/**
 * Boil of the whole pot before it leaves the fire for a box or a stand, min, so that the middle is as hot as the water: 15
 * for large pulses (rule of thumb of the retained-heat tables, cooking-kinetics 4), 2 for grains and small pieces.
 *
 * The same tables say 5 for grains in one place and "just to the boil" in others (rice for 40 min and longer, pasta, rice
 * in a manual of 1918); pasta makers put the flame out after 2 min. Heat flow decides: the middle of a ball of radius r in
 * boiling water lacks `2 exp(-pi^2 a t / r^2)` of its step (Carslaw and Jaeger, a = 1.4e-7 m2/s of wet food), which after
 * 2 min is under a hundredth at 5 mm, and what comes to the boil with its water lags less. How long it must boil to be
 * soft is another rule, and counts besides.
 */
export function wholePotBoilMinutes(hasLargePulses: boolean): number {
  return hasLargePulses ? 15 : 2;
}

/** The rule of thumb for grains where nobody works out the box, min (cooking-kinetics 4). */
export const RULE_OF_THUMB_BOIL_MINUTES = 5;

const STEPS = 48;
/** A visible boil through the whole pot, before anything is boxed. */
const LEAST_BOIL_MINUTES = 1;

const DEVIATE = deviateParameter('between the percentiles of the table rows');

interface Need {
  softening: number;
  hydration: number;
  zBelow: number;
  zAbove: number;
  zHydration: number;
  cutOffC: number;
}

/**
 * Minutes of boil so that boil and box together make the food soft: water still missing enters first, then softening is
 * counted, each by its own z. Softening credit below the cut-off is nothing.
 */
function shortestBoil(need: Need, q: BoxBoilQuestion): number {
  const softPerMinute = 1 / timeFactor(q.temperatureC, need.zBelow, need.zAbove);
  const waterPerMinute = 1 / timeFactor(q.temperatureC, need.zHydration);
  const fullBoil = need.hydration / waterPerMinute + need.softening / softPerMinute;
  const end = Math.min(q.boxMinutes, minutesToCoolTo(need.cutOffC, q.boxStartC, q.airC, q.timeConstantHours));
  if (end <= 0) return fullBoil;
  // Both credits of the box, added up by the trapezium rule at even steps.
  const step = end / STEPS;
  const soft = new Float64Array(STEPS + 1);
  const water = new Float64Array(STEPS + 1);
  let softRate = 0;
  let waterRate = 0;
  for (let i = 0; i <= STEPS; i += 1) {
    const t = boxTemperatureC(q.boxStartC, q.airC, q.timeConstantHours, i * step);
    const nextSoft = 1 / timeFactor(t, need.zBelow, need.zAbove);
    const nextWater = 1 / timeFactor(t, need.zHydration);
    if (i > 0) {
      soft[i] = (soft[i - 1] as number) + ((softRate + nextSoft) / 2) * step;
      water[i] = (water[i - 1] as number) + ((waterRate + nextWater) / 2) * step;
    }
    softRate = nextSoft;
    waterRate = nextWater;
  }
  const boxSoft = soft[STEPS] as number;
  // All water has entered at the boil: the box only softens.
  const boilWhenHydrated = need.hydration / waterPerMinute;
  if (need.hydration <= 0 || need.softening > boxSoft)
    return boilWhenHydrated + Math.max(0, need.softening - boxSoft) / softPerMinute;
  // Else water may go on entering in the box, as long as the rest of the box is enough to soften it.
  let i = STEPS;
  while (i > 0 && boxSoft - (soft[i] as number) < need.softening) i -= 1;
  const low = soft[i] as number;
  const high = soft[Math.min(STEPS, i + 1)] as number;
  const share = high > low ? Math.min(1, Math.max(0, (boxSoft - need.softening - low) / (high - low))) : 0;
  const waterInBox = (water[i] as number) + share * ((water[Math.min(STEPS, i + 1)] as number) - (water[i] as number));
  return Math.max(0, need.hydration - waterInBox) / waterPerMinute;
}

/**
 * Shortest boil before boxing so that the food is soft at the end of the box and the lectin rule is met.
 *
 * `required boil = max(lectin rule, t_soft - credit of the box)`; the lectin rule takes nothing from the box.
 * @param q temperatures in C, `timeConstantHours` > 0, `boxMinutes` >= 0
 * @throws InvalidInputError for an unknown food, OutOfRangeError outside the ranges
 */
export function boilBeforeBox(q: BoxBoilQuestion): BoxBoilAnswer {
  const food = foodOf(q);
  if (food === undefined) throw new InvalidInputError('foodId', q.foodId, 'use an id of GET /api/foods');
  requireInRange('hydrationShare', q.hydrationShare, 0, 1, '');
  requireInRange('timeConstantHours', q.timeConstantHours, 0.01, 1000, 'h');
  requireInRange('boxMinutes', q.boxMinutes, 0, 2880, 'min');
  const reachedC = boxTemperatureC(q.boxStartC, q.airC, q.timeConstantHours, q.boxMinutes);
  const { kinetics } = food;
  if (kinetics.kind === 'ready') {
    const none = { p10: 0, p50: 0, p90: 0 };
    return { boilMinutes: none, lectinBoilMinutes: 0, reachedC, verdict: 'ok', reason: 'Needs no boil' };
  }
  const pulse = kinetics.hydrationMinutes !== null;
  const additive = pulse
    ? additiveFactor('none', q.cookingAdditive ?? 'none', q.hydrationShare, false)
    : { value: 1, p10: 1, p90: 1 };
  const measured = q.measuredLot;
  // A slow lot takes its water in slowly too; a quick one shortens no rule of safety.
  const missingAt100 =
    kinetics.hydrationMinutes === null
      ? 0
      : (1 - q.hydrationShare) * kinetics.hydrationMinutes.value * Math.max(1, measured?.p50 ?? 1);
  const kidney = food.lectin === 'kidney-family';
  const lectinBoilMinutes = kidney ? lectinBoil(q, missingAt100) : 0;
  const widen = extrapolationFactor(kinetics, q.temperatureC);
  const result = propagateSpread(
    {
      'food lot':
        measured === undefined ? DEVIATE : { ...DEVIATE, value: measured.p50, p10: measured.p10, p90: measured.p90 },
      'temperature dependence': DEVIATE,
    },
    (v) => {
      const lot = measured === undefined ? v['food lot'] : 0;
      const lotFactor = measured === undefined ? 1 : v['food lot'];
      const z = v['temperature dependence'];
      const soft =
        valueAtDeviate(kinetics.softeningMinutes, lot) *
        lotFactor *
        widen ** z *
        additive.value *
        (pulse ? (q.storageFactor ?? 1) : 1);
      const missing =
        kinetics.hydrationMinutes === null
          ? 0
          : (1 - q.hydrationShare) * valueAtDeviate(kinetics.hydrationMinutes, lot) * lotFactor;
      return {
        boil: Math.max(
          LEAST_BOIL_MINUTES,
          shortestBoil(
            {
              softening: soft,
              hydration: missing,
              zBelow: valueAtDeviate(kinetics.zBelowC, -z),
              zAbove: valueAtDeviate(kinetics.zAboveC, z),
              zHydration: HYDRATION_Z_K.value,
              cutOffC: kinetics.cutOffC,
            },
            q,
          ),
        ),
      };
    },
  );
  const least = Math.max(LEAST_BOIL_MINUTES, Number.isFinite(lectinBoilMinutes) ? lectinBoilMinutes : 0);
  const boil = result.percentiles.boil;
  const boilMinutes = {
    p10: Math.max(least, boil.p10),
    p50: Math.max(least, boil.p50),
    p90: Math.max(least, boil.p90),
  };
  const shown = Number.isFinite(lectinBoilMinutes) ? lectinBoilMinutes : 0;
  const refusal = kidney ? whyNotBoxed(q) : null;
  if (refusal !== null) return { boilMinutes, lectinBoilMinutes: shown, reachedC, verdict: 'refused', reason: refusal };
  return {
    boilMinutes,
    lectinBoilMinutes: shown,
    reachedC,
    verdict: 'ok',
    reason:
      reachedC < HOT_HOLDING_C
        ? `The box ends at ${Math.round(reachedC)} C: bring it to a full boil again before eating`
        : kidney && boilMinutes.p50 <= lectinBoilMinutes + 1e-9
          ? 'The lectin rule sets the boil: a rolling boil that you can see, all of it before the box'
          : 'Boil and box together make it soft',
  };
}

function lectinBoil(q: BoxBoilQuestion, missingHydrationAt100: number): number {
  // Above the open boil the pressure is seen, and the weather does not matter.
  const openPot = q.temperatureC <= 101.5;
  const factor = openPot && q.temperatureMeasured !== true ? WINTER_LOW_FACTOR : 1;
  return (
    missingHydrationAt100 * timeFactor(q.temperatureC, HYDRATION_Z_K.value) + lectinMinutesAt(q.temperatureC) * factor
  );
}

function whyNotBoxed(q: BoxBoilQuestion): string | null {
  if (q.temperatureC < LECTIN_COUNTS_FROM_C)
    return `The pot reaches ${q.temperatureC.toFixed(1)} C; kidney-family beans need at least ${LECTIN_COUNTS_FROM_C} C: use a pressure cooker`;
  if (!q.soakedAndDrained)
    return 'Kidney-family beans go into a box only after a soak of at least 5 h whose water was poured away: soak them, or boil to the end';
  if (q.hydrationShare < LECTIN_SOAK_SHARE)
    return 'The soak was too short or too cold to count for kidney-family beans: soak longer, or boil to the end';
  return null;
}
