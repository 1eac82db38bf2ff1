/**
 * Which days of a week are alike, and which things on them: slots, fires and ways that differ in nothing but their day
 * are of one kind, see `count-programme.ts`.
 */
import type {
  WeekInstance,
  WeekLighting,
  WeekOption,
  WeekSlot,
  WeekTaskOption,
  WeekTreatment,
  WeekUse,
} from '../week/week-instance.ts';

/** Names of kinds: two things of one name can change places. */
export interface WeekKinds {
  day(day: number): string;
  slot(slot: WeekSlot): string;
  lighting(lighting: WeekLighting): string;
  option(option: WeekOption): string;
  hotWater(task: WeekTaskOption): string;
  treatment(treatment: WeekTreatment): string;
  /** A thing in a period. */
  use(use: WeekUse): string;
}

/**
 * Works out the kinds of a week.
 *
 * Two days are alike when every slot, fire, way and task of the one has its twin on the other: same figures, same things
 * taken, at the same distance in days and periods. Ways that reach back to the day before are of the kind of both days.
 */
export function weekKinds(week: WeekInstance): WeekKinds {
  const slotById = new Map(week.slots.map((slot) => [slot.id, slot]));
  const lightingById = new Map(week.lightings.map((lighting) => [lighting.id, lighting]));
  const periods = daysOfPeriods(week);
  const dayOfPeriod = (period: number) => periods.dayOf(period);
  const rank = (period: number) => period - periods.firstOf(periods.dayOf(period));

  // What a thing is, its day left out; days of other things as distances from its own.
  const usesOf = (uses: readonly WeekUse[], day: number) =>
    uses.map((use) => `${use.resource}@${dayOfPeriod(use.period) - day}.${rank(use.period)}`).sort();
  const slotShape = (slot: WeekSlot) =>
    JSON.stringify([rank(slot.period), slot.wantServings, slot.hotWanted, slot.mostDishes ?? 1]);
  const lightingShape = memo((lighting: WeekLighting) =>
    JSON.stringify([
      rank(lighting.period),
      lighting.stoveId,
      lighting.startUp,
      lighting.startUpMinutes,
      lighting.minutesAvailable,
      lighting.fillMinutes ?? null,
      lighting.burners ?? 1,
      lighting.outdoors,
      lighting.tendingMinutes,
      lighting.burnsAnyway,
    ]),
  );
  const onLighting = (id: string | null, day: number): unknown => {
    const lighting = id === null ? undefined : lightingById.get(id);
    return lighting === undefined ? null : [lighting.day - day, lightingShape(lighting)];
  };
  const alsoFed = (slotId: string, from: WeekSlot): unknown => {
    const slot = slotById.get(slotId) as WeekSlot;
    return [slot.day - from.day, rank(slot.period)];
  };
  const optionShape = memo((option: WeekOption) => {
    const slot = slotById.get(option.slotId) as WeekSlot;
    return JSON.stringify([
      rank(slot.period),
      option.kitId,
      option.sets,
      option.servings,
      option.hot,
      option.day - slot.day,
      onLighting(option.lightingId, slot.day),
      option.minutes,
      option.flameMinutes ?? null,
      option.fuel,
      option.waterL,
      option.waterDay - slot.day,
      usesOf(option.uses, slot.day),
      option.tendingMinutes,
      option.energyKcal,
      option.alsoFeeds === undefined ? null : [alsoFed(option.alsoFeeds.slotId, slot), option.alsoFeeds.servings],
      option.begun ?? null,
    ]);
  });
  const taskShape = memo((task: WeekTaskOption) =>
    JSON.stringify([
      task.night ?? false,
      onLighting(task.lightingId, task.day),
      task.minutes,
      task.fuel,
      usesOf(task.uses, task.day),
    ]),
  );
  const treatmentShape = memo((treatment: WeekTreatment) =>
    JSON.stringify([
      onLighting(treatment.lightingId, treatment.day),
      treatment.minutesPerL,
      treatment.fuelPerL,
      treatment.largestL,
      treatment.fromSnow ?? false,
      usesOf(treatment.uses ?? [], treatment.day),
    ]),
  );

  const shapesOfDay: string[][] = Array.from({ length: week.days }, () => []);
  const note = (day: number, shape: string) => shapesOfDay[day]?.push(shape);
  for (const slot of week.slots) note(slot.day, slotShape(slot));
  for (const lighting of week.lightings) note(lighting.day, lightingShape(lighting));
  for (const option of week.options) {
    const { day } = slotById.get(option.slotId) as WeekSlot;
    note(day, optionShape(option));
    // A fire of the evening before is one that can feed a morning: the last evening is another kind.
    if (option.day !== day) note(option.day, `for the next ${optionShape(option)}`);
  }
  for (const task of week.hotWater) note(task.day, taskShape(task));
  for (const treatment of week.treatments) note(treatment.day, treatmentShape(treatment));
  const names = new Map<string, string>();
  const classes = shapesOfDay.map((shapes, day) => {
    // Days before and after a use-by date differ in what may be cooked.
    const goodOn = Object.values(week.setsGoodOn ?? {}).map((sets) => sets[day]);
    // Of a day that has begun some fires are lit already.
    const begun = day === 0 && week.before !== undefined;
    const whole = JSON.stringify([
      week.hotWaterDays.includes(day),
      week.nights?.includes(day),
      goodOn,
      begun,
      shapes.sort(),
    ]);
    const name = names.get(whole) ?? `class${names.size}`;
    names.set(whole, name);
    return name;
  });
  const classOf = (day: number) => classes[day] ?? 'none';
  const withDay = (id: string | null) => {
    const lighting = id === null ? undefined : lightingById.get(id);
    return lighting === undefined ? 'none' : classOf(lighting.day);
  };
  return {
    day: classOf,
    slot: (slot) => `${classOf(slot.day)} ${slotShape(slot)}`,
    lighting: (lighting) => `${classOf(lighting.day)} ${lightingShape(lighting)}`,
    option: (option) => {
      const slot = slotById.get(option.slotId) as WeekSlot;
      const dayBefore = classOf(Math.min(option.waterDay, option.day));
      return `${classOf(slot.day)} ${withDay(option.lightingId)} ${dayBefore} ${optionShape(option)}`;
    },
    hotWater: (task) => `${classOf(task.day)} ${taskShape(task)}`,
    treatment: (treatment) => `${classOf(treatment.day)} ${treatmentShape(treatment)}`,
    use: (use) => `${classOf(dayOfPeriod(use.period))} ${rank(use.period)} ${use.resource}`,
  };
}

/** Day of each period and first period of each day. A period ends with its meal; those after the last are of the last day. */
function daysOfPeriods(week: WeekInstance): { dayOf(period: number): number; firstOf(day: number): number } {
  const dayByPeriod: number[] = [];
  const first: number[] = [];
  for (const slot of week.slots) {
    dayByPeriod[slot.period] = slot.day;
    first[slot.day] = Math.min(first[slot.day] ?? slot.period, slot.period);
  }
  const lastDay = week.slots.at(-1)?.day ?? 0;
  return { dayOf: (period) => dayByPeriod[period] ?? lastDay, firstOf: (day) => first[day] ?? 0 };
}

function memo<Thing extends object>(shape: (thing: Thing) => string): (thing: Thing) => string {
  const known = new Map<Thing, string>();
  return (thing) => {
    const found = known.get(thing);
    if (found !== undefined) return found;
    const fresh = shape(thing);
    known.set(thing, fresh);
    return fresh;
  };
}
