/** Tiny weeks from a seed, for comparing the planner with the exhaustive search. */
import type { WeekInstance, WeekOption } from '../../api/planning/week/week-instance.ts';
import { seeded } from '../seeded.ts';

/**
 * Two days with one or two meals, three kits, two ways each on two stoves, one or two fires a day, hot water once a day;
 * fuel, water, sets and fires sometimes ample and sometimes not.
 */
export function tinyWeek(seed: number): WeekInstance {
  const random = seeded(seed);
  const pick = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const amount = (low: number, high: number) => Math.round((low + random() * (high - low)) * 1000) / 1000;
  const days = 2;
  const mealsADay = pick(1, 2);
  const slots = Array.from({ length: days * mealsADay }, (_, period) => ({
    id: `slot-${period}`,
    day: Math.floor(period / mealsADay),
    period,
    wantServings: 4,
    hotWanted: random() < 0.7,
  }));
  const stoves = [
    { id: 'burner', fuelId: 'propane', startUp: 0 },
    { id: 'fire', fuelId: 'wood', startUp: 0.15 },
  ];
  const lightings = slots.flatMap((slot) =>
    stoves.map((stove) => ({
      id: `${slot.id}-${stove.id}`,
      day: slot.day,
      period: slot.period,
      stoveId: stove.id,
      startUp: { [stove.fuelId]: stove.startUp },
      startUpMinutes: stove.id === 'fire' ? 5 : 0,
      minutesAvailable: pick(60, 150),
      outdoors: true,
      tendingMinutes: 8,
      burnsAnyway: false,
    })),
  );
  const kits = ['beans', 'rice', 'crackers'];
  const options: WeekOption[] = slots.flatMap((slot) =>
    kits.flatMap((kitId): WeekOption[] => {
      if (kitId === 'crackers') {
        return [
          {
            id: `${slot.id}-crackers`,
            slotId: slot.id,
            kitId,
            sets: 1,
            servings: 4,
            hot: false,
            day: slot.day,
            waterDay: slot.day,
            lightingId: null,
            minutes: 0,
            fuel: {},
            waterL: 0,
            uses: [],
            tendingMinutes: 3,
            energyKcal: 1500,
          },
        ];
      }
      return stoves.map((stove) => ({
        id: `${slot.id}-${kitId}-${stove.id}`,
        slotId: slot.id,
        kitId,
        sets: 1,
        servings: pick(3, 4),
        hot: true,
        day: slot.day,
        waterDay: slot.day,
        lightingId: `${slot.id}-${stove.id}`,
        minutes: pick(20, 70),
        fuel: { [stove.fuelId]: stove.id === 'fire' ? amount(0.3, 0.9) : amount(0.04, 0.15) },
        waterL: amount(1, 4),
        uses: [{ resource: kitId === 'beans' ? 'pot-large' : 'pot-small', period: slot.period }],
        tendingMinutes: pick(5, 25),
        energyKcal: pick(1800, 2600),
      }));
    }),
  );
  const hotWater = lightings.map((lighting) => ({
    id: `hot-${lighting.id}`,
    day: lighting.day,
    lightingId: lighting.id,
    minutes: 12,
    fuel: { [lighting.stoveId === 'fire' ? 'wood' : 'propane']: lighting.stoveId === 'fire' ? 0.2 : 0.03 },
    uses: [{ resource: 'pot-small', period: lighting.period }],
  }));
  return {
    days,
    slots,
    lightings,
    options,
    hotWater,
    hotWaterDays: random() < 0.5 ? [0, 1] : [],
    treatments: [{ id: 'bleach', day: 0, lightingId: null, minutesPerL: 0, fuelPerL: {}, largestL: 4 }],
    sets: { beans: pick(1, 3), rice: pick(1, 3), crackers: pick(0, 2) },
    fuelByDay: { propane: [amount(0.05, 0.4), 0], wood: [amount(0.3, 2), 0] },
    safeWaterByDay: [amount(2, 5), amount(4, 10)],
    treatableWaterByDay: [4, 4],
    lightingsPerDay: pick(1, 2),
    outdoorMinutesPerDay: pick(70, 200),
    needKcal: 2300 * days * mealsADay,
  };
}

/** Fills the second day's fuel, which may not be less than the first day's. */
export function settled(week: WeekInstance): WeekInstance {
  return {
    ...week,
    fuelByDay: Object.fromEntries(
      Object.entries(week.fuelByDay).map(([fuelId, byDay]) => [
        fuelId,
        [byDay[0] as number, (byDay[0] as number) * 1.2],
      ]),
    ),
  };
}

/**
 * Days that are alike, as most days of an outage are: the first day of a tiny week again and again, so that counting over
 * days has something to count. Stocks grow with the days.
 * @param days 2 or 3 with one meal a day, 2 with two, so that an exhaustive search stays small
 */
export function alikeWeek(seed: number): WeekInstance {
  const first = tinyWeek(seed);
  const mealsADay = first.slots.filter((slot) => slot.day === 0).length;
  const days = mealsADay === 1 ? 3 : 2;
  const share = days / 2;
  const onDay = (id: string, day: number) => `${id}-day-${day}`;
  const period = (old: number, day: number) => old + day * mealsADay;
  const all = <Thing>(of: (day: number) => Thing[]) => Array.from({ length: days }, (_, day) => of(day)).flat();
  return {
    ...first,
    days,
    slots: all((day) =>
      first.slots
        .filter((slot) => slot.day === 0)
        .map((slot) => ({ ...slot, id: onDay(slot.id, day), day, period: period(slot.period, day) })),
    ),
    lightings: all((day) =>
      first.lightings
        .filter((lighting) => lighting.day === 0)
        .map((row) => ({ ...row, id: onDay(row.id, day), day, period: period(row.period, day) })),
    ),
    options: all((day) =>
      first.options
        .filter((option) => option.day === 0)
        .map((option) => ({
          ...option,
          id: onDay(option.id, day),
          slotId: onDay(option.slotId, day),
          day,
          waterDay: day,
          lightingId: option.lightingId === null ? null : onDay(option.lightingId, day),
          uses: option.uses.map((use) => ({ ...use, period: period(use.period, day) })),
        })),
    ),
    hotWater: all((day) =>
      first.hotWater
        .filter((task) => task.day === 0)
        .map((task) => ({
          ...task,
          id: onDay(task.id, day),
          day,
          lightingId: onDay(task.lightingId, day),
          uses: task.uses.map((use) => ({ ...use, period: period(use.period, day) })),
        })),
    ),
    hotWaterDays: first.hotWaterDays.length === 0 ? [] : Array.from({ length: days }, (_, day) => day),
    treatments: all((day) => first.treatments.map((row) => ({ ...row, id: onDay(row.id, day), day }))),
    fuelByDay: Object.fromEntries(
      Object.entries(first.fuelByDay).map(([fuelId, [kg]]) => [
        fuelId,
        Array.from({ length: days }, () => (kg as number) * share),
      ]),
    ),
    safeWaterByDay: Array.from({ length: days }, (_, day) => ((first.safeWaterByDay[1] as number) * (day + 1)) / 2),
    treatableWaterByDay: Array.from({ length: days }, () => 4),
    needKcal: (first.needKcal / first.days) * days,
  };
}
