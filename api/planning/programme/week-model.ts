/**
 * The week as an integer programme, by day: sets, variables, limits and aims. One option column per way of feeding a
 * slot, one column per lighting. Stated after `planning-model` sections 1 to 3 (by-day form, kept as the fallback that
 * needs no placement step).
 */

import type { Aim, IntegerProgramme } from '../solver.ts';
import {
  burnerOf,
  slotsFedBy,
  type WeekChoice,
  type WeekInstance,
  type WeekLighting,
  type WeekOption,
  type WeekSlot,
  type WeekUse,
} from '../week/week-instance.ts';
import type { Orbits } from './count-programme.ts';
import { weekKinds } from './day-classes.ts';
import { aim, createProgrammeBuilder } from './programme-builder.ts';
import { withUsableLightings } from './usable-lightings.ts';

/** Energy shortage is counted in steps of this share of the plan's need. */
const ENERGY_STEP = 0.01;

/** Less fuel than this share, or than so many MJ, is no saving: the tolerance to which the fuel heat is solved. */
export const FUEL_TOLERANCE = 0.005;
const LEAST_HEAT_MJ = 0.01;

/** A kit that returns within this many days counts as a repeat. */
const VARIETY_DAYS = 2;

export interface WeekModel {
  programme: IntegerProgramme;
  aims: Aim[];
  /** Which columns and rows are alike but for their day. */
  orbits: Orbits;
  /** Whether a column says how a day is spent (a way, a fire, the hot water), so that its count settles the plan. */
  isCounted(column: number): boolean;
  read(values: number[]): WeekChoice;
  /** Which column stands for what: for questions that are asked of the same limits with other aims. */
  columns: WeekColumns;
}

/** Columns of a week's programme by the id of what they stand for, and those that count what is missed. */
export interface WeekColumns {
  option: ReadonlyMap<string, number>;
  lighting: ReadonlyMap<string, number>;
  hotWater: ReadonlyMap<string, number>;
  /** In litres. */
  treatment: ReadonlyMap<string, number>;
  /** Servings not fed, and wanted hot servings that are not hot. */
  short: number[];
  cold: number[];
  /** Days without their hot water. */
  noHotWater: number[];
  /** Litres for people that no fire can make safe. */
  unsafe: number[];
  /** Kits that come again too soon, in windows of days. */
  repeats: number[];
  /** Meals that need not be hot by choice; empty where no point of the trade-off was chosen. */
  spared: number[];
}

export interface WeekModelOptions {
  /**
   * Take the three service aims as one, and look only at fires that a plan without any miss can light: proves all three
   * where all are zero, and says nothing otherwise.
   */
  optimistic?: boolean;
  /** Where something must be missed, miss it as late as possible, so that "since when" has a meaning. */
  shortageLate?: boolean;
}

type Terms = [column: number, coefficient: number][];

/**
 * States the programme.
 *
 * Aims in order: 1 servings not fed; 2 energy short, in hundredths of the need; 3 wanted hot servings and hot-water days
 * missing; 4 sets that pass their use-by date uneaten; 5 the largest share used of any fuel or of water; 6 the sum of
 * those shares; 7 kits that come again within two days; 8 hands-on minutes. Where they apply, litres that cannot be made
 * safe and nights without feeds come before them.
 *
 * Where a point of the trade-off was chosen, so many meals need not be hot and count as nothing missed in aim 3; after it
 * come repeats beyond those chosen and, before the shares, the fuel heat of the plan and the meals that are cold for it. Food energy that was given up for hot
 * meals counts as short in aim 2 only beyond what was given up, and is made as little as can be after the repeats.
 */
export function weekModel(instance: WeekInstance, options: WeekModelOptions = {}): WeekModel {
  // Where every hot meal must be hot, fires that then cannot be lit need not be looked at.
  const { week, oneOf } =
    options.optimistic === true && (instance.tradeOff?.coldMeals ?? 0) === 0
      ? withUsableLightings(instance)
      : { week: instance, oneOf: [] as WeekLighting[][] };
  const { tradeOff } = week;
  const b = createProgrammeBuilder();
  const kinds = weekKinds(week);
  const x = new Map<string, number>();
  const z = new Map<string, number>();
  const w = new Map<string, number>();
  const t = new Map<string, number>();
  const shortOf = new Map<string, number>();
  const coldOf = new Map<string, number>();
  const sparedOf = new Map<string, number>();

  // Variables.
  for (const option of week.options)
    x.set(option.id, b.column(`cook_${option.id}`, 0, 1, true, `cook ${kinds.option(option)}`));
  for (const lighting of week.lightings)
    z.set(lighting.id, b.column(`light_${lighting.id}`, 0, 1, true, `light ${kinds.lighting(lighting)}`));
  for (const task of week.hotWater)
    w.set(task.id, b.column(`hot_${task.id}`, 0, 1, true, `hot ${kinds.hotWater(task)}`));
  for (const treatment of week.treatments)
    t.set(
      treatment.id,
      b.column(`treat_${treatment.id}`, 0, treatment.largestL, false, `treat ${kinds.treatment(treatment)}`),
    );
  // Where it matters when something is missed, the counts know each miss by its day: a day more or less, not a kind.
  const orbitOfMiss = (what: string, id: string | number, kind: string) =>
    `${what} ${options.shortageLate === true ? id : kind}`;
  for (const slot of week.slots) {
    const miss = (what: string) =>
      b.column(`${what}_${slot.id}`, 0, slot.wantServings, false, orbitOfMiss(what, slot.id, kinds.slot(slot)));
    shortOf.set(slot.id, miss('short'));
    if (slot.hotWanted) coldOf.set(slot.id, miss('cold'));
    if (slot.hotWanted && tradeOff !== undefined)
      sparedOf.set(slot.id, b.column(`spared_${slot.id}`, 0, 1, true, `spared ${kinds.slot(slot)}`));
  }
  const noHotWater = new Map(
    week.hotWaterDays.map((day) => [
      day,
      b.column(`nohot_${day}`, 0, 1, true, orbitOfMiss('nohot', day, kinds.day(day))),
    ]),
  );
  const noFeeds = new Map(
    (week.nights ?? []).map((day) => [
      day,
      b.column(`nofeed_${day}`, 0, 1, true, orbitOfMiss('nofeed', day, kinds.day(day))),
    ]),
  );
  const energyShort = b.column('energy_short', 0, Math.round(1 / ENERGY_STEP), true);
  const fuelIds = Object.keys(week.fuelByDay).sort();
  // What people need may exceed what the fires can boil; it is then counted, never silently drunk.
  const unsafe = week.safeWaterByDay.map((safe, day) =>
    (week.boiledWater !== undefined || week.snow === true) && safe < -1e-9
      ? b.column(`unsafe_${day}`, 0, 1e6, false)
      : null,
  );
  const unsafeTo = (lastDay: number, coefficient: number): Terms =>
    unsafe.flatMap((column, day): Terms => (column === null || day > lastDay ? [] : [[column, coefficient]]));
  const largestShare = b.column('largest_share', 0, 1e4, false);

  const slotById = new Map(week.slots.map((slot) => [slot.id, slot]));
  const periodOfSlot = new Map(week.slots.map((slot) => [slot.id, slot.period]));
  const feeding = new Map<string, { option: WeekOption; servings: number }[]>();
  for (const option of week.options)
    for (const { slotId, servings } of slotsFedBy(option))
      feeding.set(slotId, [...(feeding.get(slotId) ?? []), { option, servings }]);

  // 1. A slot is cooked for at most once, or fed from the batch of an earlier one.
  // 2. Everybody is served, or counted as short. 3. Wanted hot servings are hot, or counted.
  for (const slot of week.slots) {
    const own = feeding.get(slot.id) ?? [];
    b.row(
      `once_${slot.id}`,
      0,
      mostDishesOf(slot),
      own.map(({ option }) => [x.get(option.id) as number, 1]),
      `once ${kinds.slot(slot)}`,
    );
    const served = (ways: typeof own): Terms =>
      ways.map(({ option, servings }) => [x.get(option.id) as number, Math.min(servings, slot.wantServings)]);
    b.row(
      `fed_${slot.id}`,
      slot.wantServings,
      slot.wantServings * 2,
      [...served(own), [shortOf.get(slot.id) as number, 1]],
      `fed ${kinds.slot(slot)}`,
    );
    const coldColumn = coldOf.get(slot.id);
    const spared = sparedOf.get(slot.id);
    if (coldColumn !== undefined && spared !== undefined) {
      // Meals are counted here, not servings: one with a hot dish is hot though a serving of it may be short.
      const orSpared: Terms = [
        [coldColumn, 1],
        [spared, slot.wantServings],
      ];
      b.row(
        `hot_${slot.id}`,
        slot.wantServings,
        slot.wantServings * 4,
        [...served(own.filter(({ option }) => option.hot)), [shortOf.get(slot.id) as number, 1], ...orSpared],
        `hot ${kinds.slot(slot)}`,
      );
      // What nobody cooks for is not hot either.
      b.row(
        `some_${slot.id}`,
        slot.wantServings,
        slot.wantServings * (mostDishesOf(slot) + 2),
        [...own.map(({ option }): [number, number] => [x.get(option.id) as number, slot.wantServings]), ...orSpared],
        `some ${kinds.slot(slot)}`,
      );
    } else if (coldColumn !== undefined) {
      b.row(
        `hot_${slot.id}`,
        slot.wantServings,
        slot.wantServings * 2,
        [...served(own.filter(({ option }) => option.hot)), [coldColumn, 1]],
        `hot ${kinds.slot(slot)}`,
      );
    }
  }

  if (tradeOff !== undefined)
    b.row(
      'spared_meals',
      0,
      tradeOff.coldMeals,
      [...sparedOf.values()].map((column) => [column, 1]),
    );

  // 4. What is cooked on a fire needs that fire lit; the minutes on it fit between the earliest hour and the meal.
  for (const lighting of week.lightings) {
    const lit = z.get(lighting.id) as number;
    const cooked = week.options.filter((option) => option.lightingId === lighting.id);
    const tasks = week.hotWater.filter((task) => task.lightingId === lighting.id);
    const treated = week.treatments.filter((treatment) => treatment.lightingId === lighting.id);
    // One row per meal and fire, not per way: a meal is cooked for once, so that the ways of one meal on one fire add up
    // to 1 at most. The same plans fit, but the relaxation can no longer light a fire by half, and proofs come much sooner.
    for (const [slotId, ways] of groupBy(cooked, (option) => option.slotId))
      b.row(
        `lit_${lighting.id}_${slotId}`,
        -1e3,
        0,
        [
          ...ways.map((option): [number, number] => [x.get(option.id) as number, 1]),
          [lit, -mostDishesOf(slotById.get(slotId) as WeekSlot)],
        ],
        `lit ${kinds.lighting(lighting)} ${kinds.slot(slotById.get(slotId) as WeekSlot)}`,
      );
    // A day's hot water is heated once too, and so is the flask of its night.
    const dayTasks = tasks.filter((task) => task.night !== true);
    const nightTasks = tasks.filter((task) => task.night === true);
    for (const [name, own] of [
      ['hot water', dayTasks],
      ['night', nightTasks],
    ] as const)
      if (own.length > 0)
        b.row(
          `lit_${lighting.id}_${name}`,
          -1,
          0,
          [...own.map((task): [number, number] => [w.get(task.id) as number, 1]), [lit, -1]],
          `lit ${kinds.lighting(lighting)} ${name}`,
        );
    // On one fire a pot is used once, and not at all where the fire is not lit.
    const onThisFire = new Map<string, { use: WeekUse; columns: number[] }>();
    for (const { column, uses } of [
      ...cooked.map((option) => ({ column: x.get(option.id) as number, uses: option.uses })),
      ...tasks.map((task) => ({ column: w.get(task.id) as number, uses: task.uses })),
    ])
      for (const use of uses) {
        const key = `${use.resource}@${use.period}`;
        const known = onThisFire.get(key);
        if (known === undefined) onThisFire.set(key, { use, columns: [column] });
        else if (!known.columns.includes(column)) known.columns.push(column);
      }
    for (const [key, { use, columns }] of onThisFire)
      if (columns.length > 1)
        b.row(
          `pot_${lighting.id}_${key}`,
          -columns.length,
          0,
          [...columns.map((column): [number, number] => [column, 1]), [lit, -1]],
          `pot ${kinds.lighting(lighting)} ${kinds.use(use)}`,
        );
    const minutes: Terms = [
      ...cooked.map((option): [number, number] => [x.get(option.id) as number, option.minutes]),
      ...tasks.map((task): [number, number] => [w.get(task.id) as number, task.minutes]),
      ...treated.map((treatment): [number, number] => [t.get(treatment.id) as number, treatment.minutesPerL]),
    ];
    // The last potful that is boiled safe is rounded up to a whole minute, and so is the last of melted snow.
    const rounding = treated.length;
    const burning = Math.max(0, lighting.minutesAvailable - lighting.startUpMinutes - rounding);
    const burners = lighting.burners ?? 1;
    const groups = [
      ...[...groupBy(cooked, (option) => option.slotId)].map(([slotId, ways]) => ({
        burner: burnerOf(periodOfSlot.get(slotId) === lighting.period ? 'meal' : 'later-meal', burners),
        works: ways.map((option) => ({ column: x.get(option.id) as number, minutes: option.minutes })),
        once: mostDishesOf(slotById.get(slotId) as WeekSlot) === 1,
      })),
      ...[dayTasks, nightTasks].map((own) => ({
        burner: burnerOf('water', burners),
        works: own.map((task) => ({ column: w.get(task.id) as number, minutes: task.minutes })),
        once: true,
      })),
    ];
    for (let burner = 0; burner < burners; burner++) {
      const onIt = groups.filter((group) => group.burner === burner);
      const own = onIt.map((group) => group.works);
      const name = burners === 1 ? '' : ` ${burner}`;
      // Of a meal that several dishes feed, two may be done on one fire.
      const single = onIt.filter((group) => group.once).map((group) => group.works);
      for (const [pair, columns] of pairsThatDoNotFit(single, burning))
        b.row(
          `together_${lighting.id}_${pair}${name}`,
          -columns.length,
          0,
          [...columns.map((column): [number, number] => [column, 1]), [lit, -1]],
          `together ${kinds.lighting(lighting)} ${pair}${name}`,
        );
      const onBurner: Terms = [
        ...own.flat().map((work): [number, number] => [work.column, work.minutes]),
        ...(burner === burnerOf('water', burners) ? treated : []).map((treatment): [number, number] => [
          t.get(treatment.id) as number,
          treatment.minutesPerL,
        ]),
      ];
      if (onBurner.length > 0)
        b.row(
          `minutes_${lighting.id}${name}`,
          -1e6,
          0,
          [...onBurner, [lit, -burning]],
          `minutes ${kinds.lighting(lighting)}${name}`,
        );
    }
    // A burner without a valve is filled once for all that is cooked on it, since it must be cold to be refilled.
    if (lighting.fillMinutes !== undefined && minutes.length > 0)
      b.row(
        `fill_${lighting.id}`,
        -1e6,
        0,
        [
          [lit, -lighting.fillMinutes],
          ...cooked.map((option): [number, number] => [
            x.get(option.id) as number,
            option.flameMinutes ?? option.minutes,
          ]),
          ...minutes.slice(cooked.length),
        ],
        `fill ${kinds.lighting(lighting)}`,
      );
  }

  // 5. Lightings a day, minutes outdoors a day.
  for (let day = 0; day < week.days; day++) {
    const today = week.lightings.filter((lighting) => lighting.day === day);
    const counted = today.filter((lighting) => !lighting.burnsAnyway);
    b.row(
      `lightings_${day}`,
      0,
      Math.max(0, week.lightingsPerDay - (day === 0 ? (week.before?.lightings ?? 0) : 0)),
      counted.map((lighting) => [z.get(lighting.id) as number, 1]),
      `lightings ${kinds.day(day)}`,
    );
    const outdoors = new Map(today.filter((lighting) => lighting.outdoors).map((lighting) => [lighting.id, lighting]));
    const minutes: Terms = [
      ...[...outdoors.values()].map((lighting): [number, number] => [
        z.get(lighting.id) as number,
        lighting.startUpMinutes,
      ]),
      ...week.options
        .filter((option) => option.lightingId !== null && outdoors.has(option.lightingId))
        .map((option): [number, number] => [x.get(option.id) as number, option.flameMinutes ?? option.minutes]),
      ...week.hotWater
        .filter((task) => outdoors.has(task.lightingId))
        .map((task): [number, number] => [w.get(task.id) as number, task.minutes]),
      ...week.treatments
        .filter((treatment) => treatment.lightingId !== null && outdoors.has(treatment.lightingId))
        .map((treatment): [number, number] => [t.get(treatment.id) as number, treatment.minutesPerL]),
    ];
    const outside = Math.max(0, week.outdoorMinutesPerDay - (day === 0 ? (week.before?.outdoorMinutes ?? 0) : 0));
    b.row(`outdoor_minutes_${day}`, 0, outside, minutes, `outdoor minutes ${kinds.day(day)}`);
  }

  for (const group of oneOf) {
    const lit = group.map((lighting): [number, number] => [z.get(lighting.id) as number, 1]);
    const period = group[0]?.period ?? 0;
    b.row(`one_of_${period}`, 0, 1, lit, `one of ${kinds.use({ resource: 'fires', period })}`);
  }

  // A stove is lit at most once in a period, with one fuel.
  for (const [key, list] of groupBy(week.lightings, (lighting) => `${lighting.stoveId}_${lighting.period}`)) {
    if (list.length > 1)
      b.row(
        `stove_${key}`,
        0,
        1,
        list.map((lighting) => [z.get(lighting.id) as number, 1]),
        `stove ${kinds.use({ resource: list[0]?.stoveId ?? '', period: list[0]?.period ?? 0 })}`,
      );
  }

  // 6. Nothing is taken twice in one period.
  const users = new Map<string, { use: WeekUse; columns: number[] }>();
  const note = (column: number, uses: WeekUse[]) => {
    for (const use of uses) {
      const key = `${use.resource}@${use.period}`;
      const known = users.get(key);
      if (known === undefined) users.set(key, { use, columns: [column] });
      else if (!known.columns.includes(column)) known.columns.push(column);
    }
  };
  for (const option of week.options) note(x.get(option.id) as number, option.uses);
  for (const task of week.hotWater) note(w.get(task.id) as number, task.uses);
  for (const [key, { use, columns }] of users) {
    if (columns.length > 1)
      b.row(
        `taken_${key}`,
        0,
        1,
        columns.map((column) => [column, 1]),
        `taken ${kinds.use(use)}`,
      );
  }

  // 7. Sets on hand.
  for (const [kitId, sets] of Object.entries(week.sets)) {
    const own: Terms = week.options
      .filter((option) => option.kitId === kitId && option.begun === undefined)
      .map((option) => [x.get(option.id) as number, option.sets]);
    if (own.length === 0) continue;
    const inWater = (week.before?.soaks ?? []).filter((soak) => soak.kitId === kitId);
    b.row(`sets_${kitId}`, -1e6, sets - inWater.reduce((sum, soak) => sum + soak.sets, 0), own);
  }
  // What lies in water is cooked once, or given up and lost.
  const givenUp: number[] = [];
  for (const soak of week.before?.soaks ?? []) {
    const lost = b.column(`gives_up_${soak.id}`, 0, 1, false);
    givenUp.push(lost);
    const used: Terms = week.options
      .filter((option) => option.begun === soak.id)
      .map((option) => [x.get(option.id) as number, 1]);
    b.row(`soak_${soak.id}`, 1, 1, [...used, [lost, 1]]);
  }

  // What has passed its use-by date is not cooked: from every day on no more than is still good on it. What spoils
  // uneaten is counted: up to every day, what is no longer good after it less what was cooked by then.
  const dayOfSlot = new Map(week.slots.map((slot) => [slot.id, slot.day]));
  const spoilt: number[] = [...givenUp];
  for (const [kitId, goodOn] of Object.entries(week.setsGoodOn ?? {})) {
    const sets = week.sets[kitId] ?? 0;
    if (!week.options.some((option) => option.kitId === kitId)) continue;
    const spoils = b.column(`spoils_${kitId}`, 0, sets, false);
    spoilt.push(spoils);
    for (let day = 0; day < week.days; day++) {
      const cookedOn = (isIn: (eaten: number) => boolean): Terms =>
        week.options
          .filter((option) => option.kitId === kitId && isIn(dayOfSlot.get(option.slotId) as number))
          .map((option) => [x.get(option.id) as number, option.sets]);
      const good = goodOn[day] as number;
      const after = goodOn[day + 1] as number;
      const later = cookedOn((eaten) => eaten >= day);
      if (day > 0 && good < (goodOn[day - 1] as number) && later.length > 0)
        b.row(`good_${kitId}_${day}`, -1e6, good, later);
      if (after < good)
        b.row(`spoils_${kitId}_${day}`, sets - after, 1e6, [...cookedOn((eaten) => eaten <= day), [spoils, 1]]);
    }
  }

  // What was used before is a part of the sum of shares too.
  const begun = week.before === undefined ? null : b.column('used_before', 1, 1, false);
  const usedBefore = (share: number): Terms => (begun === null || share <= 0 ? [] : [[begun, share]]);

  // 8. Fuel so far, on every day on which the allowance changes and on the last; each share is at most the largest.
  const shareTerms: Terms = [];
  for (const fuelId of fuelIds) {
    const byDay = week.fuelByDay[fuelId] as number[];
    const termsTo = (lastDay: number): Terms => [
      ...week.options
        .filter((option) => option.day <= lastDay)
        .map((option): [number, number] => [x.get(option.id) as number, option.fuel[fuelId] ?? 0]),
      ...week.lightings
        .filter((lighting) => lighting.day <= lastDay)
        .map((lighting): [number, number] => [z.get(lighting.id) as number, lighting.startUp[fuelId] ?? 0]),
      ...week.hotWater
        .filter((task) => task.day <= lastDay)
        .map((task): [number, number] => [w.get(task.id) as number, task.fuel[fuelId] ?? 0]),
      ...week.treatments
        .filter((treatment) => treatment.day <= lastDay)
        .map((treatment): [number, number] => [t.get(treatment.id) as number, treatment.fuelPerL[fuelId] ?? 0]),
    ];
    for (let day = 0; day < week.days; day++) {
      const last = day === week.days - 1;
      if (!last && byDay[day] === byDay[day + 1]) continue;
      const terms = termsTo(day);
      if (terms.length === 0) continue;
      b.row(`fuel_${fuelId}_${day}`, -1e6, byDay[day] as number, terms);
    }
    // Shares count from the start of the first plan.
    const before = week.before?.fuel[fuelId] ?? 0;
    const available = (byDay[week.days - 1] as number) + before;
    const all = termsTo(week.days - 1);
    if (available > 1e-9 && (all.length > 0 || before > 0)) {
      const shares = all.map(([column, kg]): [number, number] => [column, kg / available]);
      b.row(`share_${fuelId}`, -1e6, -before / available, [...shares, [largestShare, -1]]);
      shareTerms.push(...shares, ...usedBefore(before / available));
    }
  }

  // A pot in which water is boiled safe is at no other fire meanwhile; on its own fire one thing follows the other.
  const boiling = new Map(
    week.treatments
      .filter((treatment) => (treatment.uses ?? []).length > 0)
      .map((treatment) => [
        treatment.id,
        b.column(`boils_${treatment.id}`, 0, 1, true, `boils ${kinds.treatment(treatment)}`),
      ]),
  );
  for (const treatment of week.treatments) {
    const boils = boiling.get(treatment.id);
    if (boils === undefined) continue;
    b.row(
      `boils_${treatment.id}`,
      -1e6,
      0,
      [
        [t.get(treatment.id) as number, 1],
        [boils, -treatment.largestL],
      ],
      `boils ${kinds.treatment(treatment)}`,
    );
    // On a stove of several burners a dish of the same fire does not follow on the water, but stands beside it.
    const isWide = (week.lightings.find((one) => one.id === treatment.lightingId)?.burners ?? 1) > 1;
    for (const use of treatment.uses ?? []) {
      const elsewhere = (other: { lightingId: string | null; uses?: WeekUse[] }) =>
        (other.lightingId !== treatment.lightingId || (isWide && 'slotId' in other)) &&
        (other.uses ?? []).some((own) => own.resource === use.resource && own.period === use.period);
      const dishes = week.options.filter(elsewhere).map((option) => x.get(option.id) as number);
      const hot = week.hotWater.filter(elsewhere).map((task) => w.get(task.id) as number);
      const rivals = week.treatments.filter(elsewhere).flatMap((other) => boiling.get(other.id) ?? []);
      for (const [name, columns] of [
        ['taken', [...dishes, ...hot]],
        ['rivals', rivals],
      ] as const) {
        if (columns.length === 0) continue;
        const terms = columns.map((column): [number, number] => [column, 1]);
        // Dishes and hot water take a pot once at most in a period, and of several fires one may boil water in it.
        const orbit = `${name} ${kinds.treatment(treatment)} ${kinds.use(use)}`;
        b.row(`${name}_${treatment.id}_${use.resource}`, 0, 1, [...terms, [boils, 1]], orbit);
      }
    }
  }

  // 9. Water so far: safe, and what has been made safe by then. Where water is made safe by boiling, a pot that boils
  // takes it as it is, and only what sees no fire needs safe water.
  const waterTo = (lastDay: number): Terms =>
    week.options
      .filter((option) => option.waterDay <= lastDay)
      .map((option) => [x.get(option.id) as number, option.waterL]);
  const meltedTo = (lastDay: number): Terms =>
    week.treatments
      .filter((treatment) => treatment.fromSnow === true && treatment.day <= lastDay)
      .map((treatment) => [t.get(treatment.id) as number, -1]);
  const mustBeSafeTo = (lastPeriod: number): Terms =>
    week.options
      .filter((option) => option.lightingId === null && (periodOfSlot.get(option.slotId) as number) <= lastPeriod)
      .map((option) => [x.get(option.id) as number, option.waterL]);
  if (week.boiledWater !== undefined) {
    const periodOfLighting = new Map(week.lightings.map((lighting) => [lighting.id, lighting.period]));
    for (const slot of week.slots) {
      const cold = mustBeSafeTo(slot.period);
      if (cold.length === 0) continue;
      // Boiled before this meal: on an earlier day, or on a fire for an earlier meal.
      const before = week.treatments
        .filter(
          (treatment) =>
            treatment.day < slot.day ||
            (treatment.lightingId !== null &&
              (periodOfLighting.get(treatment.lightingId) ?? slot.period) < slot.period),
        )
        .map((treatment): [number, number] => [t.get(treatment.id) as number, -1]);
      const safe = slot.day === 0 ? week.boiledWater.safeAtStartL : (week.safeWaterByDay[slot.day - 1] as number);
      b.row(`safe_at_${slot.id}`, -1e6, safe, [...cold, ...before, ...unsafeTo(slot.day - 1, -1)]);
    }
  }
  // Water that is only drawn: a day with no less than a later one is kept whenever that one is.
  const onlyDrawn = week.boiledWater === undefined && week.snow !== true && week.treatments.length === 0;
  const leastLater = week.safeWaterByDay.map((_, day) => Math.min(...week.safeWaterByDay.slice(day + 1)));
  for (let day = 0; day < week.days; day++) {
    if (onlyDrawn && (week.safeWaterByDay[day] as number) >= (leastLater[day] as number)) continue;
    const lastPeriod = Math.max(-1, ...week.slots.filter((slot) => slot.day <= day).map((slot) => slot.period));
    const terms = week.boiledWater === undefined ? waterTo(day) : mustBeSafeTo(lastPeriod);
    if (week.boiledWater !== undefined) {
      const there = (week.safeWaterByDay[day] as number) + (week.treatableWaterByDay[day] as number);
      const taken = waterTo(day);
      if (week.snow === true) taken.push(...meltedTo(day), ...unsafeTo(day, -1));
      if (taken.length > 0) b.row(`all_water_${day}`, -1e6, there, taken);
      terms.push(...unsafeTo(day, -1));
    } else if (week.snow === true) terms.push(...unsafeTo(day, -1));
    const treated: Terms = week.treatments
      .filter((treatment) => treatment.day <= day)
      .map((treatment) => [t.get(treatment.id) as number, -1]);
    const all: Terms = [...terms, ...treated];
    if (all.length > 0) b.row(`water_${day}`, -1e6, week.safeWaterByDay[day] as number, all);
    const treatable: Terms = week.treatments
      .filter((treatment) => treatment.day <= day && treatment.fromSnow !== true)
      .map((treatment) => [t.get(treatment.id) as number, 1]);
    if (treatable.length > 0) b.row(`treatable_${day}`, 0, week.treatableWaterByDay[day] as number, treatable);
  }
  const waterBefore = week.before?.waterL ?? 0;
  const waterAvailable =
    (week.safeWaterByDay[week.days - 1] as number) + (week.treatableWaterByDay[week.days - 1] as number) + waterBefore;
  // Where there is snow, fuel is what water costs.
  if (waterAvailable > 0 && week.snow !== true) {
    const shares = waterTo(week.days - 1).map(([column, litres]): [number, number] => [
      column,
      litres / waterAvailable,
    ]);
    if (shares.length > 0) b.row('share_water', -1e6, -waterBefore / waterAvailable, [...shares, [largestShare, -1]]);
    shareTerms.push(...shares, ...usedBefore(waterBefore / waterAvailable));
  }

  // 10. Food energy of the whole plan.
  const step = Math.max(1, (week.before?.needKcal ?? week.needKcal) * ENERGY_STEP) / 100;
  b.row('energy', week.needKcal / 100, 1e6, [
    ...week.options.map((option): [number, number] => [x.get(option.id) as number, option.energyKcal / 100]),
    [energyShort, step],
  ]);
  // What was given up for hot meals is not missed.
  const energyGiven = tradeOff?.energySteps ?? 0;
  const energyMissed =
    energyGiven === 0 ? energyShort : b.column('energy_missed', 0, Math.round(1 / ENERGY_STEP), true);
  if (energyMissed !== energyShort)
    b.row('energy_missed', -1e6, energyGiven, [
      [energyShort, 1],
      [energyMissed, -1],
    ]);

  // 11. The day's hot water rides on one lighting of that day, or is counted as missing.
  for (const day of week.hotWaterDays) {
    b.row(
      `hot_water_${day}`,
      1,
      1,
      [
        ...week.hotWater
          .filter((task) => task.day === day && task.night !== true)
          .map((task): [number, number] => [w.get(task.id) as number, 1]),
        [noHotWater.get(day) as number, 1],
      ],
      `hot water ${kinds.day(day)}`,
    );
  }
  // A flask is filled for the feeds of a night, or the night is counted as missing.
  for (const [night, missing] of noFeeds) {
    const flasks = week.hotWater.filter((task) => task.day === night && task.night === true);
    b.row(
      `night_${night}`,
      1,
      1,
      [...flasks.map((task): [number, number] => [w.get(task.id) as number, 1]), [missing, 1]],
      `night ${kinds.day(night)}`,
    );
  }

  // 12. A kit that comes again within two days.
  const repeats: number[] = [];
  const kits = [...new Set(week.options.map((option) => option.kitId))].sort();
  for (const kitId of kits) {
    const windowsOf = new Map<number, number>();
    const eatenBefore = (week.before?.eaten ?? []).filter((one) => one.kitId === kitId);
    const eatenOn = week.options
      .filter((option) => option.kitId === kitId)
      .map((option) => ({
        column: x.get(option.id) as number,
        days: slotsFedBy(option).map(({ slotId }) => dayOfSlot.get(slotId) as number),
      }));
    for (let day = eatenBefore.length > 0 ? -1 : 0; day <= Math.max(0, week.days - VARIETY_DAYS); day++) {
      const already = eatenBefore.filter((one) => one.day >= day && one.day < day + VARIETY_DAYS).length;
      // A batch that feeds two meals is eaten twice.
      const within: Terms = eatenOn
        .map(({ column, days }): [number, number] => [
          column,
          days.filter((on) => on >= day && on < day + VARIETY_DAYS).length,
        ])
        .filter(([, times]) => times > 0);
      if (within.length === 0 || within.reduce((sum, [, times]) => sum + times, already) < 2) continue;
      // Windows that do not overlap are added up: the even and the odd ones.
      const window = day < 0 || already > 0 ? `${kitId} from ${day}` : `${kitId} ${day % VARIETY_DAYS}`;
      const again = b.column(`again_${kitId}_${day}`, 0, 10, false, `again ${window}`);
      repeats.push(again);
      windowsOf.set(day, again);
      b.row(`variety_${kitId}_${day}`, -1e6, 1 - already, [...within, [again, -1]], `variety ${window}`);
    }
    // What follows from the rows above for the plan as a whole, said outright: windows side by side hold one serving of
    // the kit each, and a last day that they leave over holds one with the window before it.
    for (let first = 0; first < VARIETY_DAYS && week.days >= VARIETY_DAYS; first++) {
      const starts = Array.from(
        { length: Math.floor((week.days - first) / VARIETY_DAYS) },
        (_, at) => first + at * VARIETY_DAYS,
      );
      const leftOver = first + starts.length * VARIETY_DAYS < week.days;
      const windows = leftOver ? [...starts, week.days - VARIETY_DAYS] : starts;
      const eatenFrom: Terms = eatenOn.map(({ column, days }) => [column, days.filter((on) => on >= first).length]);
      const again = windows.flatMap((day): Terms => {
        const column = windowsOf.get(day);
        return column === undefined ? [] : [[column, -1]];
      });
      b.row(`cover_${kitId}_${first}`, -1e6, windows.length, [...eatenFrom, ...again]);
    }
  }

  const repeatsBeyond =
    tradeOff == null || tradeOff.repeats === null ? null : b.column('repeats_beyond', 0, 1e4, false);
  if (repeatsBeyond !== null && tradeOff?.repeats != null)
    b.row('repeats_beyond', -1e6, tradeOff.repeats, [
      ...repeats.map((column): [number, number] => [column, 1]),
      [repeatsBeyond, -1],
    ]);

  // Aims.
  const exact = { absoluteGap: 0.009, relativeGap: 0, slack: 1e-6 };
  const unfed: Terms = [...shortOf.values()].map((column) => [column, 1]);
  const unfedNights: Terms = [...noFeeds.values()].map((column) => [column, 1]);
  const cold: Terms = [...coldOf.values(), ...noHotWater.values()].map((column) => [column, 1]);
  const aims: Aim[] = [];
  if (options.optimistic === true) {
    // Where nothing need be missed the three service aims are all zero, and one solve proves all three.
    aims.push(aim('service', [...unsafeTo(week.days, 1), ...unfedNights, ...unfed, [energyMissed, 1], ...cold], exact));
  } else {
    if (unsafe.some((column) => column !== null)) aims.push(aim('safe-water', unsafeTo(week.days, 1), exact));
    // Whoever is fed at night has nothing else.
    if (unfedNights.length > 0) aims.push(aim('night-feeds', unfedNights, exact));
    aims.push(aim('feed-everyone', unfed, exact));
    aims.push(aim('energy', [[energyMissed, 1]], { absoluteGap: 0.99, relativeGap: 0, slack: 0 }));
    aims.push(aim('hot-meals', cold, exact));
  }
  if (repeatsBeyond !== null)
    aims.push(aim('chosen-repeats', [[repeatsBeyond, 1]], { absoluteGap: 0.5, relativeGap: 0, slack: 1e-6 }));
  if (energyMissed !== energyShort)
    aims.push(aim('chosen-energy', [[energyShort, 1]], { absoluteGap: 0.99, relativeGap: 0, slack: 0 }));
  if (spoilt.length > 0) {
    const terms = spoilt.map((column): [number, number] => [column, 1]);
    aims.push(aim('use-by', terms, { absoluteGap: 0.02, relativeGap: 0, slack: 1e-6 }));
  }
  if (tradeOff !== undefined) {
    const { heat } = tradeOff;
    const heatOf = (columns: ReadonlyMap<string, number>, of: Record<string, number>): Terms =>
      [...columns].flatMap(([id, column]): Terms => ((of[id] ?? 0) > 0 ? [[column, of[id] as number]] : []));
    aims.push(
      aim(
        'fuel-heat',
        [
          ...heatOf(x, heat.options),
          ...heatOf(z, heat.lightings),
          ...heatOf(w, heat.hotWater),
          ...heatOf(t, heat.treatments),
        ],
        { absoluteGap: LEAST_HEAT_MJ, relativeGap: FUEL_TOLERANCE, slack: 1e-3 },
      ),
    );
    // No meal is cold that could be hot for the same fuel.
    if (tradeOff.coldMeals > 0 && sparedOf.size > 0)
      aims.push(
        aim(
          'cold-meals',
          [...sparedOf.values()].map((column) => [column, 1]),
          { absoluteGap: 0.99, relativeGap: 0, slack: 0 },
        ),
      );
  }
  if (options.shortageLate === true) {
    const late = week.slots.flatMap((slot): Terms => {
      const coldColumn = coldOf.get(slot.id);
      const weight = week.days - slot.day;
      return [
        [shortOf.get(slot.id) as number, weight],
        ...(coldColumn === undefined ? [] : [[coldColumn, weight] as [number, number]]),
      ];
    });
    const noWater = [...noHotWater, ...noFeeds].map(([day, column]): [number, number] => [column, week.days - day]);
    const unsafeLate = unsafe.flatMap((column, day): Terms => (column === null ? [] : [[column, week.days - day]]));
    aims.push(
      aim('shortage-late', [...late, ...noWater, ...unsafeLate], { absoluteGap: 0.5, relativeGap: 0, slack: 1e-6 }),
    );
  }
  const repeatWeight = repeatWeightOf(week);
  aims.push(aim('scarcest-largest-share', [[largestShare, 1]], { absoluteGap: 5e-4, relativeGap: 0.005, slack: 1e-6 }));
  aims.push(aim('scarcest-sum-of-shares', shareTerms, { absoluteGap: 1e-3, relativeGap: 0.005, slack: 1e-6 }));
  // Repeats are whole numbers and outweigh any minutes, so that one solve takes both aims in their order.
  aims.push(
    aim(
      'variety-then-tending',
      [
        ...repeats.map((column): [number, number] => [column, repeatWeight]),
        ...week.options.map((option): [number, number] => [x.get(option.id) as number, option.tendingMinutes]),
        ...week.lightings.map((lighting): [number, number] => [z.get(lighting.id) as number, lighting.tendingMinutes]),
      ],
      { absoluteGap: 5, relativeGap: 0.02, slack: 1e-6 },
    ),
  );

  const counted = new Set([...x.values(), ...z.values(), ...w.values()]);
  return {
    programme: b.programme(),
    aims,
    orbits: b.orbits(),
    isCounted: (column) => counted.has(column),
    columns: {
      option: x,
      lighting: z,
      hotWater: w,
      treatment: t,
      short: [...shortOf.values()],
      cold: [...coldOf.values()],
      noHotWater: [...noHotWater.values()],
      unsafe: unsafe.filter((column) => column !== null),
      repeats,
      spared: [...sparedOf.values()],
    },
    read: (values) => ({
      options: week.options.filter((option) => isChosen(values, x.get(option.id))).map((option) => option.id),
      hotWater: week.hotWater.filter((task) => isChosen(values, w.get(task.id))).map((task) => task.id),
      lightings: week.lightings
        .filter((lighting) => isChosen(values, z.get(lighting.id)))
        .map((lighting) => lighting.id),
      treatedL: Object.fromEntries(
        week.treatments
          .map((treatment): [string, number] => [treatment.id, values[t.get(treatment.id) as number] ?? 0])
          .filter(([, litres]) => litres > 1e-6),
      ),
      ...(week.boiledWater === undefined && week.snow !== true
        ? {}
        : { unsafeLByDay: unsafe.map((column) => (column === null ? 0 : (values[column] ?? 0))) }),
    }),
  };
}

/**
 * Of two kinds of work on one fire, those that take too long together: all of one from some minutes on, and all of the
 * other that do not fit beside them. At most one of such a set is done on the fire, none where it is not lit.
 */
function pairsThatDoNotFit(
  groups: { column: number; minutes: number }[][],
  available: number,
): [name: string, columns: number[]][] {
  const sets: [string, number[]][] = [];
  groups.forEach((first, i) => {
    groups.slice(i + 1).forEach((second, j) => {
      let before = 0;
      for (const least of [...new Set(first.map((work) => work.minutes))].sort((a, b) => a - b)) {
        const others = second.filter((work) => work.minutes + least > available);
        // The same others beside fewer of the first say nothing new.
        if (others.length === before) continue;
        before = others.length;
        const columns = [...first.filter((work) => work.minutes >= least), ...others].map((work) => work.column);
        sets.push([`${i}_${j}_${sets.length}`, columns]);
      }
    });
  });
  return sets;
}

/** Dishes that may feed a meal together. */
function mostDishesOf(slot: WeekSlot): number {
  return slot.mostDishes ?? 1;
}

/** Minutes that one repeat outweighs: more than anybody's hands could be busy in the whole plan. */
export function repeatWeightOf(week: WeekInstance): number {
  return Math.max(1000, week.days * 200);
}

/** Whole-number columns come back as 0.9999999 or 1.0000001; half is far from both. */
function isChosen(values: number[], column: number | undefined): boolean {
  return column !== undefined && (values[column] ?? 0) > 0.5;
}

function groupBy<Item>(items: Item[], key: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const name = key(item);
    const list = groups.get(name);
    if (list === undefined) groups.set(name, [item]);
    else list.push(item);
  }
  return groups;
}
