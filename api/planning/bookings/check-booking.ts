/**
 * What a booking cannot be: each fault names the field, what is allowed, and asks back with the answer that is likely.
 * Nothing is corrected here: a household answers by booking again.
 */

import { resolveHousehold } from '../../cooking/household/resolve-household.ts';
import { FUELS } from '../../physics/fuels-table.ts';
import type { Fault } from '../fault.ts';
import { clockMinutesBetween } from '../local-time.ts';
import type { Plan } from '../plan-types.ts';
import { softeningFoods, standingOf } from './booked-tests.ts';
import {
  type Booking,
  type BoxReadingBooking,
  isMealBooking,
  standingBookings,
  type TriedBooking,
} from './booking-types.ts';
import { carriedMeals, cookingOf, stateNow } from './state-now.ts';
import { waysOfTelling, weighedContent } from './weighed-fuel.ts';

/** One way to answer the question of a fault, so that the entry can be sent again without being typed anew. */
export interface BookingAnswer {
  /** The answer in words, as a button has it. */
  words: string;
  /** Members of the entry that change; null: the member is left out. */
  change: Record<string, unknown>;
  /** What has to be booked first; null: nothing. */
  first: Record<string, unknown> | null;
}

export interface BookingFault extends Fault {
  field: string;
  /** Answers to the question, the likely one first; none: something has to be typed. */
  answers?: BookingAnswer[];
}

/** A clock that is ahead by so much is no time in the future, min. */
const CLOCK_ROOM_MINUTES = 5;
/** A soak may have been set before the plan was made, and a meal is ticked before its time, by so many hours. */
const EARLIEST_BEFORE_START_H = 24;
const EARLY_MEAL_H = 4;
/** A pot is put on so much earlier than planned without a question, min. Common practice. */
const EARLY_POT_MINUTES = 60;
/** Weighings that differ by less agree: two readings of a kitchen scale, kg; of jugs, L. Common practice. */
const SAME_KG = 0.02;
const SAME_L = 1;
/** A kitchen thermometer is read to so much, K; a fire is lit so much before its time, min. Common practice. */
const THERMOMETER_ROOM_K = 1;
const EARLY_FIRE_MINUTES = 30;

/**
 * @param booking as it would be stored
 * @param before all earlier bookings of the plan
 * @param nowLocal the time now at the place of the plan
 * @returns every fault; empty: it can be booked
 */
export function bookingFaults(
  plan: Plan,
  booking: Booking,
  before: readonly Booking[],
  nowLocal: string,
): BookingFault[] {
  const faults: BookingFault[] = [];
  const { household } = resolveHousehold(plan.resolved.household);
  const standing = standingBookings(before);
  const latest = shifted(nowLocal, CLOCK_ROOM_MINUTES);
  const earliest = shifted(plan.request.startsAt, -EARLIEST_BEFORE_START_H * 60);
  if (booking.at > latest || booking.at < earliest) {
    const future = booking.at > latest;
    const yesterday = `${shifted(booking.at, -24 * 60)}`;
    const fits = future && yesterday <= nowLocal && yesterday >= earliest;
    faults.push({
      field: 'at',
      detail: future
        ? `It is ${nowLocal} now; a booking is of what has happened.`
        : `The plan begins ${plan.request.startsAt}; a booking is of its time.`,
      value: booking.at,
      earliest,
      latest: nowLocal,
      question: future ? 'Was it yesterday, or is it only planned?' : 'Is it another day, or another plan?',
      likely: fits ? yesterday : nowLocal,
      answers: [
        ...(fits ? [answer(`It was at ${yesterday}`, { at: yesterday })] : []),
        ...(nowLocal >= earliest ? [answer('It is now', { at: nowLocal })] : []),
      ],
    });
    return faults;
  }
  const unknown = (field: string, value: string, what: string, known: readonly string[]) => {
    faults.push({ field, detail: `The plan has no ${what} of this name: ${known.join(', ') || 'none'}.`, value });
  };
  const kitIds = plan.resolved.kits.map((kit) => kit.id);
  const meals = [...carriedMeals(plan), ...plan.meals];
  if (isMealBooking(booking)) {
    const meal = meals.find((one) => one.id === booking.meal);
    if (meal === undefined)
      unknown(
        'meal',
        booking.meal,
        'meal',
        meals.map((one) => one.id),
      );
    else {
      const earlier = standing.find((one) => isMealBooking(one) && one.meal === booking.meal);
      if (earlier !== undefined) {
        const open = meals.filter((one) => !standing.some((row) => isMealBooking(row) && row.meal === one.id));
        // The nearest in time that is not booked yet.
        const [near] = open
          .filter((one) => shifted(one.eatAt, -EARLY_MEAL_H * 60) <= booking.at)
          .sort((a, b) => apart(a.eatAt, booking.at) - apart(b.eatAt, booking.at));
        faults.push({
          field: 'meal',
          detail: `${booking.meal} was booked at ${earlier.at} as ${earlier.kind}; a meal is eaten once.`,
          value: booking.meal,
          minimum: 0,
          maximum: 1,
          unit: 'bookings',
          question: `Was the entry of ${earlier.at} wrong (take it back first), or do you mean another meal?`,
          likely: (near ?? open[0])?.id ?? '',
          answers: [
            ...(near === undefined ? [] : [answer(`It was ${near.id}`, { meal: near.id })]),
            answer(
              `The entry of ${earlier.at} was wrong: take it back, and book this`,
              {},
              { kind: 'undo', at: booking.at, bookingId: earlier.id },
            ),
          ],
        });
      } else if (booking.kind === 'meal-eaten' && shifted(meal.eatAt, -EARLY_MEAL_H * 60) > booking.at) {
        const last = meals.filter((one) => one.eatAt <= booking.at).at(-1);
        faults.push({
          field: 'meal',
          detail: `${booking.meal} is planned for ${meal.eatAt}; it cannot have been eaten at ${booking.at}.`,
          value: booking.meal,
          earliest: shifted(meal.eatAt, -EARLY_MEAL_H * 60),
          question: 'Do you mean an earlier meal?',
          likely: last?.id ?? '',
          answers: last === undefined ? [] : [answer(`It was ${last.id}`, { meal: last.id })],
        });
      }
    }
    if (booking.kitId !== undefined && !kitIds.includes(booking.kitId)) unknown('kitId', booking.kitId, 'kit', kitIds);
    if (booking.kind !== 'meal-changed' && (booking.kitId !== undefined || booking.plannedDish !== undefined))
      faults.push({
        field: booking.kitId === undefined ? 'plannedDish' : 'kitId',
        detail: 'Only a meal that was changed has another kit; book it as meal-changed.',
        value: booking.kitId ?? booking.plannedDish,
      });
  }
  if (booking.kind === 'fuel-weighed') fuelFaults(plan, booking, before, household, faults);
  if (booking.kind === 'water-left') {
    const lots = household.water.lots.map((lot) => lot.id);
    if (!lots.includes(booking.lotId)) unknown('lotId', booking.lotId, 'lot of water', lots);
    else if (booking.at >= plan.request.startsAt && booking.confirmed !== true) {
      const level = stateNow(plan, before, booking.at).water.lots.find((lot) => lot.lotId === booking.lotId);
      if (level?.measuredAt !== null && level !== undefined && booking.litres > level.litres + SAME_L)
        faults.push({
          field: 'litres',
          detail: `At most ${tidy(level.litres)} L can be left since ${level.measuredAt}, unless some came.`,
          value: booking.litres,
          minimum: 0,
          maximum: tidy(level.litres),
          unit: 'L',
          question:
            'Did water come (book that first), or was the earlier reading wrong (then it is booked as confirmed)?',
          likely: `came: ${tidy(booking.litres - level.litres)} L`,
          answers: [
            answer(
              `${tidy(booking.litres - level.litres)} L came: book that too`,
              {},
              {
                kind: 'came',
                at: booking.at,
                water: { lotId: booking.lotId, litres: tidy(booking.litres - level.litres) },
              },
            ),
            CONFIRM,
          ],
        });
    }
  }
  if (booking.kind === 'soak-set') {
    if (!kitIds.includes(booking.kitId)) unknown('kitId', booking.kitId, 'kit', kitIds);
    const bowls = household.vessels.map((vessel) => vessel.id);
    if (!bowls.includes(booking.vesselId)) unknown('vesselId', booking.vesselId, 'vessel', bowls);
  }
  if (booking.kind === 'soak-drained' || booking.kind === 'box-opened') {
    const set = standing.find((one) => one.kind === 'soak-set' && one.id === booking.of);
    const cooking = plan.cookings.find((one) => one.id === booking.of);
    const carried = plan.continues?.underWay.find((one) => one.cookingId === booking.of);
    const since =
      set?.at ?? (booking.kind === 'soak-drained' ? cooking?.method.soak?.at : (cooking?.startsAt ?? carried?.since));
    if (since === undefined)
      unknown(
        'of',
        booking.of,
        booking.kind === 'soak-drained' ? 'soak' : 'dish',
        [
          ...standing.filter((one) => one.kind === 'soak-set').map((one) => one.id),
          ...plan.cookings
            .filter((one) => booking.kind === 'box-opened' || one.method.soak !== null)
            .map((one) => one.id),
        ].slice(0, 10),
      );
    else if (booking.at < since)
      faults.push({
        field: 'at',
        detail: `It was set at ${since}; it cannot have ended at ${booking.at}.`,
        value: booking.at,
        earliest: since,
        latest: nowLocal,
        question: 'Was it set earlier than booked (take that entry back first), or drained later?',
        likely: nowLocal,
        answers: [answer(`It ended now`, { at: nowLocal }), answer(`It ended at ${since}`, { at: since })],
      });
    // Damp food spoils as it does in water: one clock from the first wetting to the boil.
    if (
      booking.kind === 'soak-drained' &&
      booking.result === 'cooked' &&
      booking.confirmed !== true &&
      cooking !== undefined &&
      shifted(booking.at, EARLY_POT_MINUTES) < cooking.startsAt
    )
      faults.push({
        field: 'result',
        detail: `By the plan it goes into the pot at ${cooking.startsAt}. Food that is only drained counts as in water until its pot boils.`,
        value: booking.result,
        question: 'Is it in the pot and on the fire, or was only its water poured off (then there is nothing to book)?',
        likely: 'nothing to book',
        answers: [{ ...CONFIRM, words: 'It is in the pot and cooks' }],
      });
    const earlier = standing.find((one) => one.kind === booking.kind && one.of === booking.of);
    if (earlier !== undefined)
      faults.push({
        field: 'of',
        detail: `That it ended was booked at ${earlier.at}.`,
        value: booking.of,
        question: 'Is it another bowl or box?',
        likely: '',
      });
  }
  if (booking.kind === 'box-read') boxFaults(plan, booking, nowLocal, unknown, faults);
  if (booking.kind === 'food-tried') triedFaults(plan, booking, nowLocal, unknown, faults);
  if (booking.kind === 'broke' || booking.kind === 'mended') {
    const things = [...household.stoves, ...household.vessels, ...household.boxes].map((thing) => thing.id);
    if (!things.includes(booking.thingId)) unknown('thingId', booking.thingId, 'stove, vessel or box', things);
  }
  if (booking.kind === 'came' || booking.kind === 'left') {
    const labels = household.people.map((person) => person.label);
    booking.people?.forEach((person, index) => {
      if (!labels.includes(person)) unknown(`people/${index}`, person, 'person', labels);
    });
    if (booking.kind === 'came') {
      const { fuel, water, until } = booking;
      const store = household.fuels.find((one) => one.fuelId === fuel?.fuelId);
      if (fuel !== undefined && !(store?.containers ?? []).some((one) => one.id === fuel.containerId))
        unknown(
          'fuel/containerId',
          fuel.containerId,
          'container of that fuel',
          (store?.containers ?? []).map((one) => one.id),
        );
      const lots = household.water.lots.map((lot) => lot.id);
      if (water !== undefined && !lots.includes(water.lotId)) unknown('water/lotId', water.lotId, 'lot of water', lots);
      if (until !== undefined && until < booking.at.slice(0, 10))
        faults.push({
          field: 'until',
          detail: `Must not be before ${booking.at.slice(0, 10)}.`,
          value: until,
          earliest: booking.at.slice(0, 10),
        });
    }
  }
  if (booking.kind === 'undo') {
    const target = before.find((one) => one.id === booking.bookingId);
    if (target === undefined) unknown('bookingId', booking.bookingId, 'booking', []);
    else if (target.kind === 'undo' || !standing.some((one) => one.id === target.id))
      faults.push({
        field: 'bookingId',
        detail:
          target.kind === 'undo' ? 'Taking back is final: book again what was right.' : 'It was taken back before.',
        value: booking.bookingId,
      });
  }
  return faults;
}

type Unknown = (field: string, value: string, what: string, known: readonly string[]) => void;

/** A reading of a box or flask: of a dish that stands in one by then, and not hotter than it went in. */
function boxFaults(
  plan: Plan,
  booking: BoxReadingBooking,
  nowLocal: string,
  unknown: Unknown,
  faults: BookingFault[],
): void {
  const carried = (plan.continues?.underWay ?? []).flatMap((dish) => dish.cooking ?? []);
  const boxed = [...carried, ...plan.cookings].filter((one) => standingOf(one) !== null);
  const cooking = boxed.find((one) => one.id === booking.of);
  const standing = cooking === undefined ? null : standingOf(cooking);
  if (cooking === undefined || standing === null) {
    unknown(
      'of',
      booking.of,
      'dish in a box or flask',
      boxed.map((one) => one.id),
    );
    return;
  }
  if (booking.at <= standing.from)
    faults.push({
      field: 'at',
      detail: `By the plan ${cooking.kitName} went in at ${standing.from}.`,
      value: booking.at,
      earliest: standing.from,
      latest: nowLocal,
      question: 'Is it another dish, or was it read later?',
      likely: nowLocal,
      answers: nowLocal > standing.from ? [answer('It was read now', { at: nowLocal })] : [],
    });
  const most = cooking.method.temperatureC ?? 100;
  if (booking.temperatureC > most + THERMOMETER_ROOM_K)
    faults.push({
      field: 'temperatureC',
      detail: `A pot boils at ${tidy(most)} C there; it cannot be hotter in the box.`,
      value: booking.temperatureC,
      minimum: -5,
      maximum: tidy(most),
      unit: 'C',
      question: 'Is it in Fahrenheit, or was the thermometer over the fire?',
      likely: `temperatureC: ${tidy((booking.temperatureC - 32) / 1.8)}`,
    });
}

/** A dish that was tried: of this plan, begun, with a food that softens, after minutes that have passed. */
function triedFaults(
  plan: Plan,
  booking: TriedBooking,
  nowLocal: string,
  unknown: Unknown,
  faults: BookingFault[],
): void {
  const cooking = cookingOf(plan, booking.of);
  if (cooking === undefined) {
    unknown(
      'of',
      booking.of,
      'dish',
      plan.cookings.map((one) => one.id),
    );
    return;
  }
  const kit = plan.resolved.kits.find((one) => one.id === cooking.kitId);
  const foods =
    kit === undefined || cooking.method.heatToC !== undefined ? [] : softeningFoods(kit).map(({ food }) => food.id);
  if (foods.length === 0)
    faults.push({ field: 'of', detail: `Nothing in ${cooking.kitName} softens by boiling.`, value: booking.of });
  else if (booking.foodId !== undefined && !foods.includes(booking.foodId))
    unknown('foodId', booking.foodId, 'food of that dish that softens by boiling', foods);
  if (booking.at < cooking.startsAt) {
    faults.push({
      field: 'at',
      detail: `By the plan ${cooking.kitName} goes on at ${cooking.startsAt}.`,
      value: booking.at,
      earliest: cooking.startsAt,
      latest: nowLocal,
      question: 'Is it another dish, or another time?',
      likely: nowLocal,
      answers: nowLocal > cooking.startsAt ? [answer('It was tried now', { at: nowLocal })] : [],
    });
    return;
  }
  const passed = apart(booking.at, cooking.startsAt);
  // A fire may be lit earlier than planned, by so much and no more.
  if (booking.minutes > passed + EARLY_FIRE_MINUTES && booking.confirmed !== true)
    faults.push({
      field: 'minutes',
      detail: `By the plan it went on at ${cooking.startsAt}, ${Math.round(passed)} min before; it cannot have boiled longer.`,
      value: booking.minutes,
      minimum: 1,
      maximum: Math.round(passed),
      unit: 'min',
      question: 'Was it lit earlier than planned, or was it tried later?',
      likely: `minutes: ${Math.max(1, Math.round(passed))}`,
      answers: [
        { ...CONFIRM, words: 'It was lit earlier: it is as I typed it' },
        answer(`It boiled ${Math.max(1, Math.round(passed))} min`, { minutes: Math.max(1, Math.round(passed)) }),
      ],
    });
}

function fuelFaults(
  plan: Plan,
  booking: Extract<Booking, { kind: 'fuel-weighed' }>,
  before: readonly Booking[],
  household: ReturnType<typeof resolveHousehold>['household'],
  faults: BookingFault[],
): void {
  const store = household.fuels.find((one) => one.fuelId === booking.fuelId);
  const electric = booking.fuelId === 'electricity';
  const container = store?.containers.find((one) => one.id === booking.containerId);
  if (store === undefined || (container === undefined && !electric)) {
    const known = (store?.containers ?? household.fuels.flatMap((one) => one.containers)).map((one) => one.id);
    faults.push({
      field: 'containerId',
      detail: `The plan has no such container of ${FUELS[booking.fuelId].name}: ${known.join(', ') || 'none'}.`,
      value: booking.containerId,
    });
    return;
  }
  const ways = waysOfTelling(booking);
  const onlyFull = ways.length === 0 && booking.fullOnes !== undefined;
  if (ways.length !== 1 && !onlyFull) {
    faults.push({
      field: ways[1] ?? 'grossKg',
      detail: `Say what is left in exactly one way: grossKg, leftKg, litres, dipstickShare, armfuls or leftKWh; ${ways.length} were given.`,
      value: ways.length,
      minimum: 1,
      maximum: 1,
      unit: 'ways',
    });
    return;
  }
  const known = { fullKg: container?.fullKg ?? null, tareKg: container?.tareKg ?? null };
  const tareKg = booking.tareKg ?? known.tareKg;
  const { grossKg } = booking;
  if (grossKg !== undefined && tareKg !== null && grossKg < tareKg) {
    faults.push({
      field: 'grossKg',
      detail: `An empty one weighs ${tareKg} kg; with what is in it it cannot weigh less.`,
      value: grossKg,
      minimum: tareKg,
      ...(known.fullKg === null ? {} : { maximum: tidy(tareKg + known.fullKg * 1.5) }),
      unit: 'kg',
      question: 'Is it what is left without the container, or is another empty weight stamped on it?',
      likely: grossKg <= (known.fullKg ?? 0) * 1.02 ? `leftKg: ${grossKg}` : `tareKg: at most ${grossKg}`,
      answers: [
        ...(grossKg <= (known.fullKg ?? Number.POSITIVE_INFINITY) * 1.02
          ? [
              answer(`${grossKg} kg is what is left, without the container`, {
                leftKg: grossKg,
                grossKg: null,
                tareKg: null,
              }),
            ]
          : []),
        answer('It is empty', { leftKg: 0, grossKg: null, tareKg: null }),
      ],
    });
    return;
  }
  const content = onlyFull ? { p10: 0, p50: 0, p90: 0 } : weighedContent(booking, known);
  if (content === null) {
    faults.push({
      field: grossKg === undefined ? (ways[0] ?? 'leftKg') : 'tareKg',
      detail:
        grossKg === undefined
          ? 'This way of telling needs what a full one holds, or a liquid; say kilograms instead.'
          : 'Give the weight of the empty container too: it is not known.',
      question: grossKg === undefined ? 'Can it be weighed?' : 'Is the empty weight stamped on it?',
      likely: 'leftKg',
      ...(grossKg === undefined
        ? {}
        : {
            answers: [
              answer(`${grossKg} kg is what is left, without the container`, { leftKg: grossKg, grossKg: null }),
            ],
          }),
    });
    return;
  }
  const single = known.fullKg;
  if (single !== null && content.p10 > single * 1.5) {
    faults.push({
      field: ways[0] ?? 'leftKg',
      detail: `That is ${tidy(content.p50)} kg in one container that holds ${single} kg.`,
      value: booking[(ways[0] ?? 'leftKg') as 'leftKg'],
      minimum: grossKg === undefined ? 0 : (tareKg ?? 0),
      maximum: tidy((grossKg === undefined ? 0 : (tareKg ?? 0)) + single * 1.5),
      unit: 'kg',
      question: 'Was the empty weight forgotten, or are several weighed together?',
      likely: 'grossKg with tareKg',
      answers:
        ways[0] === 'leftKg' && tareKg !== null && content.p50 > tareKg
          ? [answer(`${tidy(content.p50)} kg is with the container`, { grossKg: content.p50, leftKg: null })]
          : [],
    });
    return;
  }
  if (booking.fullOnes !== undefined && booking.fullOnes > (container?.count ?? 1) - (onlyFull ? 0 : 1)) {
    const most = (container?.count ?? 1) - (onlyFull ? 0 : 1);
    faults.push({
      field: 'fullOnes',
      detail: `There are ${container?.count ?? 1} of them${onlyFull ? '' : ', and one was weighed'}.`,
      value: booking.fullOnes,
      minimum: 0,
      maximum: most,
      unit: 'containers',
    });
    return;
  }
  if (booking.confirmed === true || booking.at < plan.request.startsAt) return;
  const now = stateNow(plan, before, booking.at).fuel.find((row) => row.fuelId === booking.fuelId);
  const same = (now?.containers ?? []).filter((one) => electric || one.containerId === booking.containerId);
  const weighed = same.filter((one) => one.weighedAt !== null).map((one) => one.weighedAt ?? '');
  // Only a weighing says for sure how much there was; a level that was said or assumed may have been too low.
  const isStated = container?.leftKg !== null && container?.leftKg !== undefined;
  const isWeighed = isStated || (container?.grossKg ?? null) !== null || (container?.level ?? '') === 'full';
  if (weighed.length === 0 && !isWeighed) return;
  const most =
    booking.fullOnes === undefined
      ? Math.max(0, ...same.map((one) => one.left.p90))
      : same.reduce((sum, one) => sum + one.left.p90, 0);
  const found = booking.fullOnes === undefined ? content.p10 : content.p10 + booking.fullOnes * (known.fullKg ?? 0);
  const room = Math.max(SAME_KG, most * 0.02);
  if (found <= most + room) return;
  const offset = grossKg === undefined ? 0 : (tareKg ?? 0);
  faults.push({
    field: ways[0] ?? 'fullOnes',
    detail: `At most ${tidy(most)} ${electric ? 'kWh' : 'kg'} can be left${weighed.length > 0 ? ` since ${weighed.sort().at(-1)}` : ''}, unless some came; that would be ${tidy(found)}.`,
    value: booking[(ways[0] ?? 'fullOnes') as 'leftKg'],
    minimum: offset,
    maximum: tidy(offset + most),
    unit: electric ? 'kWh' : 'kg',
    question: 'Did fuel come (book that first), or was the earlier weighing wrong (then it is booked as confirmed)?',
    likely: `came: ${tidy(found - most)} ${electric ? 'kWh' : 'kg'}`,
    answers: [
      ...(electric || container === undefined
        ? []
        : [
            answer(
              `${tidy(found - most)} kg came: book that too`,
              {},
              {
                kind: 'came',
                at: booking.at,
                fuel: { fuelId: booking.fuelId, containerId: container.id, kg: tidy(found - most) },
              },
            ),
          ]),
      CONFIRM,
    ],
  });
}

function answer(words: string, change: BookingAnswer['change'], first: BookingAnswer['first'] = null): BookingAnswer {
  return { words, change, first };
}

const CONFIRM: BookingAnswer = {
  words: 'It is as I typed it: what was known before was wrong',
  change: { confirmed: true },
  first: null,
};

/** Minutes between two wall-clock times, by the calendar alone. */
function apart(one: string, other: string): number {
  return Math.abs(clockMinutesBetween(one, other));
}

function tidy(value: number): number {
  return Math.round(value * 100) / 100;
}

/** A wall-clock time some minutes on, by the calendar alone. */
function shifted(local: string, minutes: number): string {
  return new Date(Date.parse(`${local}Z`) + minutes * 60_000).toISOString().slice(0, 16);
}
