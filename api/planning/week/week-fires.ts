/** The fires that could be lit in a week, and stoves that burn for heating in any case. */
import { NOTHING } from '../../cooking/calculators/calculations.ts';
import { startUpOf } from '../../cooking/dishes/cooking-methods.ts';
import type { ResolvedStove } from '../../cooking/household/resolve-household.ts';
import type { FuelId } from '../../physics/table-ids.ts';
import { addDays, toMinute } from '../local-time.ts';
import { burnersAtOnce, minutesOfOneFill } from './fire-minutes.ts';
import type { LightingDetail } from './week-calendar-types.ts';
import type { WeekLighting } from './week-instance.ts';
import { LEAD_IN_MINUTES, MEAL_MINUTES, type WeekLayout } from './week-layout.ts';
import type { DaySituation } from './week-situation.ts';

/** Lighting, watching and shutting off one fire, hands-on minutes (common practice). */
const LIGHTING_TENDING_MINUTES = 8;
/** No fire is lit for less than this. */
const SHORTEST_FIRE_MINUTES = 10;

export interface WeekFires {
  lightings: Map<string, LightingDetail>;
  weekLightings: WeekLighting[];
  /** Meals that would have to be cooked outdoors in the dark. */
  darkMeals: Set<string>;
}

/** Every fire of every meal: at the meal, and early where something keeps hot. */
export function layOutFires(layout: WeekLayout): WeekFires {
  const { situation, calculations, zone, stoves, noFlame, underWayMinutes, isOut, surroundingsOn } = layout;
  const { keepsHot, earlyMinutes } = layout;
  const lightings = new Map<string, LightingDetail>();
  const weekLightings: WeekLighting[] = [];
  const darkMeals = new Set<string>();
  // Fires that could be lit, and stoves that burn for heating in any case.
  for (const slot of situation.slots) {
    const before = situation.slots.filter((other) => other.day === slot.day && other.period < slot.period).at(-1);
    const day = situation.days[slot.day] as DaySituation;
    const afterLastMeal = Math.max(
      day.wakeMinute,
      situation.startMinute + LEAD_IN_MINUTES,
      before === undefined ? 0 : before.eatMinute + MEAL_MINUTES,
      // A meal that is under way is eaten first.
      ...underWayMinutes.filter((minute) => minute < slot.eatMinute).map((minute) => minute + MEAL_MINUTES),
    );
    for (const stove of stoves) {
      const dark = stove.site === 'outdoors' ? day.daylight : null;
      const firstMinute = Math.max(afterLastMeal, dark?.fromMinute ?? 0);
      const lastMinute = Math.min(day.sleepMinute, dark?.toMinute ?? day.sleepMinute);
      const burning = burningSpans(stove, slot.date, zone);
      const addLighting = (fuelId: FuelId, early: boolean, from: number, endMinute: number, burnsAnyway: boolean) => {
        let earliestMinute = from;
        if (noFlame.some((span) => span.from < endMinute && span.to >= endMinute)) return;
        for (const span of noFlame) if (span.to < endMinute && span.to > earliestMinute) earliestMinute = span.to;
        if (!early && dark !== null && endMinute > dark.toMinute) darkMeals.add(slot.id);
        if (endMinute > lastMinute || endMinute - earliestMinute < SHORTEST_FIRE_MINUTES) return;
        if (isOut(stove.id, earliestMinute, endMinute)) return;
        const moisture = situation.fuels[fuelId]?.moisturePercent ?? null;
        const startUp = burnsAnyway
          ? { kg: NOTHING, mj: NOTHING, effects: [], minutes: 0 }
          : startUpOf(stove, fuelId, moisture, surroundingsOn(slot.day), calculations);
        if (startUp === null) return;
        const id = `${slot.id}-${stove.id}-${fuelId}${early ? '-early' : ''}${burnsAnyway ? '-burning' : ''}`;
        lightings.set(id, {
          id,
          slot,
          stove,
          fuelId,
          endMinute,
          earliestMinute,
          startUpKg: startUp.kg,
          startUpMJ: startUp.mj,
          startUpEffects: startUp.effects,
          startUpMinutes: Math.ceil(startUp.minutes),
          early,
          burnsAnyway,
        });
        weekLightings.push({
          id,
          day: slot.day,
          period: slot.period,
          stoveId: stove.id,
          startUp: burnsAnyway ? {} : { [fuelId]: startUp.kg.p90 },
          startUpMinutes: Math.ceil(startUp.minutes),
          minutesAvailable: endMinute - earliestMinute,
          fillMinutes: burnsAnyway ? undefined : minutesOfOneFill(stove),
          ...(burnersAtOnce(stove) > 1 ? { burners: burnersAtOnce(stove) } : {}),
          outdoors: stove.site === 'outdoors',
          tendingMinutes: burnsAnyway ? 0 : LIGHTING_TENDING_MINUTES,
          burnsAnyway,
        });
      };
      const ends = [
        { early: false, endMinute: slot.eatMinute },
        // What is kept hot is boiled before dark where it is eaten after it.
        ...(keepsHot ? [{ early: true, endMinute: Math.min(slot.eatMinute - earlyMinutes, lastMinute) }] : []),
      ];
      for (const [index, fuelId] of stove.fuelIds.entries()) {
        const enough = (situation.fuels[fuelId]?.budgetByDay.at(-1) ?? 0) > 0;
        for (const { early, endMinute } of ends) {
          const span = burning.find((candidate) => candidate.from < endMinute && endMinute <= candidate.to);
          if (span !== undefined) {
            if (index === 0) addLighting(fuelId, early, Math.max(firstMinute, span.from), endMinute, true);
          } else if (enough) {
            const burntOut = burning.filter((candidate) => candidate.to < endMinute).at(-1)?.to ?? 0;
            addLighting(fuelId, early, Math.max(firstMinute, burntOut), endMinute, false);
          }
          // It went out before: what was cooked on it until then is kept hot.
          const gone = burning.filter((candidate) => candidate.to < endMinute && candidate.to > firstMinute).at(-1);
          if (early && index === 0 && span === undefined && gone !== undefined)
            addLighting(fuelId, true, Math.max(firstMinute, gone.from), gone.to, true);
        }
      }
    }
  }
  return { lightings, weekLightings, darkMeals };
}

/** When a stove burns for heating in any case, on and around a date, as minutes; a span may pass midnight. */
function burningSpans(stove: ResolvedStove, date: string, zone: string): { from: number; to: number }[] {
  const span = stove.burnsAnyway;
  if (span === null) return [];
  const overnight = span.to <= span.from;
  return [-1, 0].map((day) => ({
    from: toMinute(`${addDays(date, day)}T${span.from}`, zone),
    to: toMinute(`${addDays(date, day + (overnight ? 1 : 0))}T${span.to}`, zone),
  }));
}
