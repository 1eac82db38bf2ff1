/** Hot water, water made safe by boiling or bleach, flasks for the night and snow: what fires can do beside dishes. */
import { NOTHING, scalePercentiles } from '../../cooking/calculators/calculations.ts';
import { heatWater } from '../../cooking/dishes/cooking-methods.ts';
import { meltSnow } from '../../cooking/household/snow.ts';
import { boilMinutesToMakeSafe } from '../../cooking/household/water-treatment.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { flaskFillL, heatForFlask, type Night, nightsOf } from './night-feeds.ts';
import type { HotWaterDetail, LightingDetail, TreatmentDetail } from './week-calendar-types.ts';
import type { WeekFires } from './week-fires.ts';
import type { WeekTaskOption, WeekTreatment } from './week-instance.ts';
import { SHARED_FIRE_MINUTES, type WeekLayout } from './week-layout.ts';
import type { SlotSituation } from './week-situation.ts';

export interface WeekWater {
  hotWater: Map<string, HotWaterDetail>;
  treatments: Map<string, TreatmentDetail>;
  weekHotWater: WeekTaskOption[];
  weekTreatments: WeekTreatment[];
  hotWaterDays: number[];
  nights: Night[];
  /** Days whose night a flask could serve. */
  nightsToFill: number[];
}

/** Everything that fires could do with water. */
export function layOutWater(layout: WeekLayout, { lightings }: WeekFires): WeekWater {
  const { situation, calculations, pots, flasks, isOut, surroundingsOn, periodOf } = layout;
  const hotWater = new Map<string, HotWaterDetail>();
  const treatments = new Map<string, TreatmentDetail>();
  // The day's hot water, and water made safe by boiling.
  const weekHotWater: WeekTaskOption[] = [];
  const weekTreatments: WeekTreatment[] = [];
  const wanted = situation.household.water.hotWaterPerDay;
  const hotWaterDays =
    wanted.litres <= 0
      ? []
      : situation.days.flatMap((day, index) =>
          (index === 0 && situation.continues?.hotWaterToday != null
            ? situation.continues.hotWaterToday
            : day.share >= 0.3) && situation.slots.some((slot) => slot.day === index)
            ? [index]
            : [],
        );
  for (const lighting of lightings.values()) {
    const surroundings = surroundingsOn(lighting.slot.day);
    const moisture = situation.fuels[lighting.fuelId]?.moisturePercent ?? null;
    if (hotWaterDays.includes(lighting.slot.day)) {
      for (const vessel of pots) {
        if (vessel.capacityL * 0.8 < wanted.litres || vessel.kind !== 'pot') continue;
        if (isOut(vessel.id, lighting.earliestMinute, lighting.endMinute)) continue;
        const heated = heatOn(
          lighting,
          { stove: lighting.stove, fuelId: lighting.fuelId, fuelMoisturePercent: moisture, vessel },
          wanted.litres,
          wanted.temperatureC,
          0,
          surroundings,
          calculations,
        );
        if (
          heated === null ||
          heated.minutes.p90 > lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes
        )
          continue;
        // Water that is hot already still takes a minute to pour.
        const { p10, p50, p90 } = heated.minutes;
        const minutes = { p10: Math.max(1, p10), p50: Math.max(1, p50), p90: Math.max(1, p90) };
        const id = `${lighting.id}|hot-water|${vessel.id}`;
        hotWater.set(id, {
          id,
          lighting,
          vessel,
          minutes,
          fuelMJ: heated.fuelMJ,
          fuelKg: heated.fuelKg,
          fuelEffects: heated.fuelEffects,
          litres: wanted.litres,
          night: null,
        });
        weekHotWater.push({
          id,
          day: lighting.slot.day,
          lightingId: lighting.id,
          minutes: Math.ceil(minutes.p90),
          fuel: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 },
          uses: [{ resource: vessel.id, period: lighting.slot.period }],
        });
      }
    }
    const treatable = situation.water.treatableByDay[lighting.slot.day] ?? 0;
    if (situation.household.water.treatBy === 'boil' && treatable > 0) {
      const vessel = [...pots].filter((pot) => pot.kind === 'pot').sort((a, b) => b.capacityL - a.capacityL)[0];
      if (vessel === undefined) continue;
      const litres = vessel.capacityL * 0.8;
      const heated = heatOn(
        lighting,
        { stove: lighting.stove, fuelId: lighting.fuelId, fuelMoisturePercent: moisture, vessel },
        litres,
        null,
        boilMinutesToMakeSafe(situation.place.elevationM),
        surroundings,
        calculations,
      );
      if (heated === null) continue;
      const id = `${lighting.id}|treat`;
      const perL = (amount: Percentiles): Percentiles => ({
        p10: amount.p10 / litres,
        p50: amount.p50 / litres,
        p90: amount.p90 / litres,
      });
      treatments.set(id, {
        id,
        day: lighting.slot.day,
        lighting,
        vessel,
        potfulL: litres,
        minutesPerL: Math.ceil(heated.minutes.p90) / litres,
        fuelKgPerL: perL(heated.fuelKg),
        fuelMJPerL: perL(heated.fuelMJ),
        fuelEffects: heated.fuelEffects,
        fromSnow: false,
      });
      weekTreatments.push({
        id,
        day: lighting.slot.day,
        lightingId: lighting.id,
        minutesPerL: Math.ceil(heated.minutes.p90) / litres,
        fuelPerL: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 / litres },
        largestL: treatable,
        uses: [{ resource: vessel.id, period: lighting.slot.period }],
      });
    }
  }
  // Flasks for the feeds of a night.
  const nights = nightsOf(situation);
  for (const feeds of nights.filter((night) => night.burning === null)) {
    const last = feeds.feedMinutes.at(-1) as number;
    for (const lighting of lightings.values()) {
      const firstFeed = feeds.feedMinutes[0] as number;
      if (lighting.slot.day !== feeds.day || lighting.endMinute > firstFeed) continue;
      for (const flask of flasks) {
        // Dishes of the same fire come after it.
        const filledMinute = lighting.endMinute - SHARED_FIRE_MINUTES;
        const litres = flaskFillL(flask, feeds.litres, (last - filledMinute) / 60, situation, calculations);
        if (litres === null || isOut(flask.id, lighting.earliestMinute, last)) continue;
        // Nobody fills a flask at night: what is empty before anybody is up is free in the whole next period.
        const lastMeal = situation.slots.filter((slot) => slot.day === feeds.day).at(-1) as SlotSituation;
        const nextUp = situation.days[feeds.day + 1]?.wakeMinute ?? Number.POSITIVE_INFINITY;
        const until = last <= nextUp ? lastMeal.period : periodOf(last);
        for (const pot of pots) {
          if (pot.kind !== 'pot' || pot.capacityL * 0.8 < litres) continue;
          if (isOut(pot.id, lighting.earliestMinute, lighting.endMinute)) continue;
          const heated = heatForFlask(lighting, pot, litres, surroundingsOn(feeds.day), situation, calculations);
          if (heated === null) continue;
          const id = `${lighting.id}|night|${flask.id}|${pot.id}`;
          hotWater.set(id, { id, lighting, vessel: pot, litres, night: { feeds, flask }, ...heated });
          weekHotWater.push({
            id,
            day: feeds.day,
            lightingId: lighting.id,
            minutes: Math.ceil(heated.minutes.p90),
            fuel: lighting.burnsAnyway ? {} : { [lighting.fuelId]: heated.fuelKg.p90 },
            uses: [
              { resource: pot.id, period: lighting.slot.period },
              ...Array.from({ length: until - lighting.slot.period + 1 }, (_, index) => ({
                resource: flask.id,
                period: lighting.slot.period + index,
              })),
            ],
            night: true,
          });
        }
      }
    }
  }
  const nightsToFill = nights
    .map((night) => night.day)
    .filter((day) => weekHotWater.some((task) => task.night === true && task.day === day));

  // Snow is melted and boiled on any fire.
  for (const lighting of situation.household.water.snow ? lightings.values() : []) {
    const pot = [...pots].filter((one) => one.kind === 'pot').sort((a, b) => b.capacityL - a.capacityL)[0];
    if (pot === undefined || isOut(pot.id, lighting.earliestMinute, lighting.endMinute)) continue;
    const melted = meltSnow(
      {
        stove: lighting.stove,
        fuelId: lighting.fuelId,
        fuelMoisturePercent: situation.fuels[lighting.fuelId]?.moisturePercent ?? null,
        vessel: pot,
      },
      surroundingsOn(lighting.slot.day),
      calculations,
    );
    if (melted === null) continue;
    const room = lighting.endMinute - lighting.earliestMinute - lighting.startUpMinutes;
    const potfuls = Math.floor(room / Math.ceil(melted.minutes.p90));
    if (potfuls < 1) continue;
    const perL = (amount: Percentiles): Percentiles =>
      lighting.burnsAnyway ? NOTHING : scalePercentiles(amount, 1 / melted.litres);
    const id = `${lighting.id}|snow`;
    const minutesPerL = Math.ceil(melted.minutes.p90) / melted.litres;
    const fuelKgPerL = perL(melted.fuelKg);
    treatments.set(id, {
      id,
      day: lighting.slot.day,
      lighting,
      vessel: pot,
      potfulL: melted.litres,
      minutesPerL,
      fuelKgPerL,
      fuelMJPerL: perL(melted.fuelMJ),
      fuelEffects: lighting.burnsAnyway ? [] : melted.fuelEffects,
      fromSnow: true,
    });
    weekTreatments.push({
      id,
      day: lighting.slot.day,
      lightingId: lighting.id,
      minutesPerL,
      fuelPerL: lighting.burnsAnyway ? {} : { [lighting.fuelId]: fuelKgPerL.p90 },
      largestL: potfuls * melted.litres,
      fromSnow: true,
      uses: [{ resource: pot.id, period: lighting.slot.period }],
    });
  }
  if (situation.household.water.treatBy === 'bleach') {
    for (const day of situation.days.keys()) {
      const treatable = situation.water.treatableByDay[day] ?? 0;
      if (treatable <= 0) continue;
      const id = `day-${day}|bleach`;
      treatments.set(id, {
        id,
        day,
        lighting: null,
        vessel: null,
        potfulL: Number.POSITIVE_INFINITY,
        minutesPerL: 0,
        fuelKgPerL: NOTHING,
        fuelMJPerL: NOTHING,
        fuelEffects: [],
        fromSnow: false,
      });
      weekTreatments.push({ id, day, lightingId: null, minutesPerL: 0, fuelPerL: {}, largestL: treatable });
    }
  }
  return { hotWater, treatments, weekHotWater, weekTreatments, hotWaterDays, nights, nightsToFill };
}

/** Heating water on a fire; free where the stove burns in any case. */
function heatOn(lighting: LightingDetail, ...task: Parameters<typeof heatWater>): ReturnType<typeof heatWater> {
  const heated = heatWater(...task);
  if (heated === null || !lighting.burnsAnyway) return heated;
  return { ...heated, fuelMJ: NOTHING, fuelKg: NOTHING, fuelEffects: [] };
}
