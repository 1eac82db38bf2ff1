/**
 * An exhaustive search over a tiny week, written apart from the planner: its own loops, its own limits, taken from the
 * description of `WeekInstance` alone. Every way of filling every slot and every day's hot water is tried.
 */
import type { WeekInstance, WeekOption, WeekTaskOption } from '../../api/planning/week/week-instance.ts';

/** The aims in their order. Later ones are compared only where all earlier ones are equal. */
export interface BruteForceValue {
  servingsShort: number;
  /** Hundredths of the energy needed, rounded up. */
  energyShort: number;
  /**
   * Wanted hot servings not hot, and days without their hot water. Where a point of the trade-off was chosen, the meals that
   * miss most are left out, as many as need not be hot.
   */
  hotMissing: number;
  /** Of a chosen point, else 0: repeats beyond those chosen, and hundredths of the energy that were given up. */
  repeatsBeyond: number;
  energyGivenUp: number;
  /** Sets that pass their date uneaten. */
  spoilt: number;
  /** Fuel heat, MJ, of a chosen point; else 0. */
  heatMJ: number;
  /** What is missed, each the heavier the earlier: times the days from then to the end. 0 where a point was chosen. */
  lateness: number;
  largestShare: number;
  sumOfShares: number;
}

export interface BruteForceResult {
  value: BruteForceValue;
  options: string[];
  hotWater: string[];
  lightings: string[];
  /** Ways that were tried, and how many kept every limit. */
  tried: number;
  allowed: number;
}

const ROOM = 1e-9;

/** Values nearer than this are equal. */
const EQUAL = 1e-9;

/**
 * The best of all ways.
 * @param week few slots and options: more than two million ways are refused. Treatments only without fire and fuel.
 * @throws RangeError when the week is too large or holds a treatment on a fire
 */
export function bruteForce(week: WeekInstance): BruteForceResult {
  if (week.treatments.some((row) => row.lightingId !== null || Object.values(row.fuelPerL).some((kg) => kg > 0)))
    throw new RangeError('brute force knows only treatments without a fire');
  const perSlot = week.slots.map((slot) => [null, ...week.options.filter((option) => option.slotId === slot.id)]);
  const perDay = week.hotWaterDays.map((day) => [null, ...week.hotWater.filter((task) => task.day === day)]);
  const ways = [...perSlot, ...perDay].reduce((product, list) => product * list.length, 1);
  if (ways > 2_000_000) throw new RangeError(`${ways} ways are too many`);
  let best: BruteForceResult | null = null;
  let tried = 0;
  let allowed = 0;
  const chosen: (WeekOption | null)[] = [];
  const tasks: (WeekTaskOption | null)[] = [];
  const fillDay = (at: number): void => {
    if (at === perDay.length) {
      tried++;
      const picked = chosen.filter((option) => option !== null);
      const done = tasks.filter((task) => task !== null);
      if (!isAllowed(week, picked, done)) return;
      allowed++;
      const value = valueOfWay(week, chosen, done);
      if (best === null || isBetter(value, best.value))
        best = {
          value,
          options: picked.map((option) => option.id),
          hotWater: done.map((task) => task.id),
          lightings: litBy(picked, done),
          tried: 0,
          allowed: 0,
        };
      return;
    }
    for (const task of perDay[at] ?? []) {
      tasks.push(task);
      fillDay(at + 1);
      tasks.pop();
    }
  };
  const fillSlot = (at: number): void => {
    if (at === perSlot.length) {
      fillDay(0);
      return;
    }
    for (const option of perSlot[at] ?? []) {
      chosen.push(option);
      fillSlot(at + 1);
      chosen.pop();
    }
  };
  fillSlot(0);
  // Nothing at all keeps every limit, so that there is always a best way.
  const found = best as BruteForceResult | null;
  if (found === null) throw new RangeError('not even an empty week keeps the limits');
  return { ...found, tried, allowed };
}

/** Whether `a` comes before `b` in the order of the aims. */
export function isBetter(a: BruteForceValue, b: BruteForceValue): boolean {
  const order = [
    'servingsShort',
    'energyShort',
    'hotMissing',
    'repeatsBeyond',
    'energyGivenUp',
    'spoilt',
    'heatMJ',
    'lateness',
    'largestShare',
    'sumOfShares',
  ] as const;
  for (const name of order) if (Math.abs(a[name] - b[name]) > EQUAL) return a[name] < b[name];
  return false;
}

function litBy(options: WeekOption[], tasks: WeekTaskOption[]): string[] {
  const ids = [...options.map((option) => option.lightingId), ...tasks.map((task) => task.lightingId)];
  return [...new Set(ids.filter((id) => id !== null))];
}

/** Fuel burnt up to the end of a day: dishes, hot water, and each fire's start once. */
function burntBy(
  week: WeekInstance,
  options: WeekOption[],
  tasks: WeekTaskOption[],
  fuelId: string,
  day: number,
): number {
  let sum = 0;
  for (const option of options) if (option.day <= day) sum += option.fuel[fuelId] ?? 0;
  for (const task of tasks) if (task.day <= day) sum += task.fuel[fuelId] ?? 0;
  for (const id of litBy(options, tasks)) {
    const lighting = week.lightings.find((row) => row.id === id);
    if (lighting && lighting.day <= day) sum += lighting.startUp[fuelId] ?? 0;
  }
  return sum;
}

function drawnBy(options: WeekOption[], day: number): number {
  return options.reduce((sum, option) => sum + (option.waterDay <= day ? option.waterL : 0), 0);
}

/**
 * Takes sets by the clock, always those that spoil first.
 * @returns sets that spoil uneaten; null where something spoilt would have to be eaten
 */
function servedFromDates(week: WeekInstance, options: WeekOption[], kitId: string, goodOn: number[]): number | null {
  // Groups of sets by the last day on which they are good.
  const left = goodOn.map((sets, day) => (day + 1 < goodOn.length ? sets - (goodOn[day + 1] as number) : sets));
  let spoilt = 0;
  for (let day = 0; day < week.days; day++) {
    for (const option of options) {
      const slot = week.slots.find((row) => row.id === option.slotId);
      if (option.kitId !== kitId || slot?.day !== day) continue;
      let wanted = option.sets;
      for (let last = day; last < left.length; last++) {
        const taken = Math.min(wanted, left[last] as number);
        left[last] = (left[last] as number) - taken;
        wanted -= taken;
      }
      if (wanted > ROOM) return null;
    }
    spoilt += left[day] as number;
  }
  return spoilt;
}

function isAllowed(week: WeekInstance, options: WeekOption[], tasks: WeekTaskOption[]): boolean {
  // A meal is cooked for once, or fed from the batch of an earlier one.
  const fed = options.flatMap((option) => [option.slotId, ...(option.alsoFeeds ? [option.alsoFeeds.slotId] : [])]);
  if (new Set(fed).size < fed.length) return false;
  const setsOf = new Map<string, number>();
  for (const option of options) setsOf.set(option.kitId, (setsOf.get(option.kitId) ?? 0) + option.sets);
  for (const [kitId, sets] of setsOf) if (sets > (week.sets[kitId] ?? 0) + ROOM) return false;
  for (const [kitId, goodOn] of Object.entries(week.setsGoodOn ?? {}))
    if (servedFromDates(week, options, kitId, goodOn) === null) return false;

  const taken = new Set<string>();
  for (const user of [...options, ...tasks]) {
    // One user may name a thing more than once in a period.
    for (const key of new Set(user.uses.map((use) => `${use.resource} in ${use.period}`))) {
      if (taken.has(key)) return false;
      taken.add(key);
    }
  }

  const lit = litBy(options, tasks);
  const stoves = new Set<string>();
  for (const id of lit) {
    const lighting = week.lightings.find((row) => row.id === id);
    if (lighting === undefined) return false;
    const stove = `${lighting.stoveId} in ${lighting.period}`;
    if (stoves.has(stove)) return false;
    stoves.add(stove);
    const available = Math.max(0, lighting.minutesAvailable - lighting.startUpMinutes);
    // The first burner is the meal's, the second that of later meals, the third that of water; fewer are shared.
    const onBurner = new Map<number, number>();
    for (const user of [...options, ...tasks]) {
      if (user.lightingId !== id) continue;
      const slot = 'slotId' in user ? week.slots.find((row) => row.id === user.slotId) : undefined;
      const wish = slot === undefined ? 3 : slot.period === lighting.period ? 1 : 2;
      const burner = Math.min(wish, lighting.burners ?? 1);
      onBurner.set(burner, (onBurner.get(burner) ?? 0) + user.minutes);
    }
    for (const minutes of onBurner.values()) if (minutes > available + ROOM) return false;
  }

  let safeSoFar = Number.POSITIVE_INFINITY;
  for (let day = week.days - 1; day >= 0; day--) {
    const today = lit.flatMap((id) => week.lightings.filter((row) => row.id === id && row.day === day));
    if (today.filter((row) => !row.burnsAnyway).length > week.lightingsPerDay) return false;
    const outdoors = today.filter((row) => row.outdoors);
    const minutes = outdoors.reduce(
      (sum, row) =>
        sum +
        row.startUpMinutes +
        [...options, ...tasks].reduce((own, user) => own + (user.lightingId === row.id ? flameOf(user) : 0), 0),
      0,
    );
    if (minutes > week.outdoorMinutesPerDay + ROOM) return false;
    for (const [fuelId, byDay] of Object.entries(week.fuelByDay))
      if (burntBy(week, options, tasks, fuelId, day) > (byDay[day] ?? 0) + ROOM) return false;
    const canTreat = week.treatments.filter((row) => row.day <= day).reduce((sum, row) => sum + row.largestL, 0);
    safeSoFar = Math.min(safeSoFar, Math.min(canTreat, week.treatableWaterByDay[day] ?? 0));
    if (drawnBy(options, day) > (week.safeWaterByDay[day] ?? 0) + safeSoFar + ROOM) return false;
  }
  return true;
}

function valueOfWay(week: WeekInstance, chosen: (WeekOption | null)[], tasks: WeekTaskOption[]): BruteForceValue {
  let servingsShort = 0;
  let hotMissing = 0;
  let lateness = 0;
  let kcal = 0;
  const { tradeOff } = week;
  const missedByMeal: number[] = [];
  week.slots.forEach((slot, at) => {
    const own = chosen[at] ?? null;
    const earlier = chosen.find((row) => row?.alsoFeeds?.slotId === slot.id) ?? null;
    const option = own ?? earlier;
    const servings = own !== null ? own.servings : (earlier?.alsoFeeds?.servings ?? 0);
    const served = Math.min(servings, slot.wantServings);
    servingsShort += slot.wantServings - served;
    if (tradeOff === undefined) lateness += (week.days - slot.day) * (slot.wantServings - served);
    if (slot.hotWanted && tradeOff === undefined) {
      const cold = slot.wantServings - (option?.hot ? served : 0);
      hotMissing += cold;
      lateness += (week.days - slot.day) * cold;
    }
    // Of a chosen point meals are counted: a hot dish of which a serving is short is hot all the same.
    if (slot.hotWanted) missedByMeal.push(option === null ? slot.wantServings : option.hot ? 0 : served);
    kcal += own?.energyKcal ?? 0;
  });
  if (tradeOff !== undefined)
    for (const missed of missedByMeal.sort((a, b) => b - a).slice(tradeOff.coldMeals)) hotMissing += missed;
  for (const day of week.hotWaterDays) {
    if (tasks.some((task) => task.day === day)) continue;
    hotMissing++;
    if (tradeOff === undefined) lateness += week.days - day;
  }
  const options = chosen.filter((option) => option !== null);
  const last = week.days - 1;
  const shares: number[] = [];
  for (const [fuelId, byDay] of Object.entries(week.fuelByDay)) {
    const available = byDay[last] ?? 0;
    if (available > 1e-9) shares.push(burntBy(week, options, tasks, fuelId, last) / available);
  }
  const waterAvailable = (week.safeWaterByDay[last] ?? 0) + (week.treatableWaterByDay[last] ?? 0);
  if (waterAvailable > 0) shares.push(drawnBy(options, last) / waterAvailable);
  const missing = Math.max(0, week.needKcal - kcal);
  const energyShort = missing <= ROOM ? 0 : Math.ceil(missing / Math.max(1, week.needKcal * 0.01) - 1e-9);
  const given = tradeOff?.energySteps ?? 0;
  return {
    servingsShort,
    energyShort: Math.max(0, energyShort - given),
    hotMissing,
    repeatsBeyond:
      tradeOff == null || tradeOff.repeats === null ? 0 : Math.max(0, repeatsIn(week, options) - tradeOff.repeats),
    energyGivenUp: given > 0 ? energyShort : 0,
    heatMJ: heatOf(week, options, tasks),
    lateness,
    spoilt: Object.entries(week.setsGoodOn ?? {}).reduce(
      (sum, [kitId, goodOn]) => sum + (servedFromDates(week, options, kitId, goodOn) ?? 0),
      0,
    ),
    largestShare: Math.max(0, ...shares),
    sumOfShares: shares.reduce((sum, share) => sum + share, 0),
  };
}

/** Times that a kit comes again in two days that follow one another, window by window. */
function repeatsIn(week: WeekInstance, options: WeekOption[]): number {
  const dayOf = (slotId: string) => week.slots.find((slot) => slot.id === slotId)?.day ?? 0;
  let repeats = 0;
  for (const kitId of new Set(options.map((option) => option.kitId)))
    for (let day = 0; day === 0 || day + 1 < week.days; day++) {
      let eaten = 0;
      for (const option of options) {
        if (option.kitId !== kitId) continue;
        for (const slotId of [option.slotId, option.alsoFeeds?.slotId])
          if (slotId !== undefined && [day, day + 1].includes(dayOf(slotId))) eaten++;
      }
      repeats += Math.max(0, eaten - 1);
    }
  return repeats;
}

function heatOf(week: WeekInstance, options: WeekOption[], tasks: WeekTaskOption[]): number {
  if (week.tradeOff === undefined) return 0;
  const { heat } = week.tradeOff;
  let mj = 0;
  for (const option of options) mj += heat.options[option.id] ?? 0;
  for (const task of tasks) mj += heat.hotWater[task.id] ?? 0;
  for (const id of litBy(options, tasks)) mj += heat.lightings[id] ?? 0;
  return mj;
}

/** Minutes with the fire burning: a pot that rests off it keeps nobody outdoors. */
function flameOf(user: WeekOption | WeekTaskOption): number {
  return 'flameMinutes' in user && user.flameMinutes !== undefined ? user.flameMinutes : user.minutes;
}
