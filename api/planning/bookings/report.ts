/** What an outage came to: eaten, burnt, boiled and thrown away against what was planned, over a chain of plans. */
import type { Learned } from '../../cooking/measurements/learned.ts';
import type { Plan } from '../plan-types.ts';
import { type Booking, isMealBooking, standingBookings } from './booking-types.ts';
import { fuelUsedBy, notCooked } from './planned-use.ts';
import { type StateNow, stateNow } from './state-now.ts';

export interface ReportMeal {
  meal: string;
  eatAt: string;
  state: StateNow['meals'][number]['state'];
  planned: string[];
  /** Where the meal was changed: what was eaten instead; empty: nothing of the kits. */
  instead: string[];
  note: string | null;
}

export interface ReportFuel {
  fuelId: string;
  unit: 'kg' | 'kWh';
  /** Predicted for the fires that were lit, and used by the weighings; null: never weighed. */
  predicted: { p10: number; p50: number; p90: number };
  used: number | null;
  left: number;
}

export interface OutageReport {
  planIds: string[];
  from: string;
  to: string;
  meals: ReportMeal[];
  servings: { eaten: number; skipped: number };
  fuel: ReportFuel[];
  waterL: { planned: number; left: number };
  /** Fires that were lit, dishes that were boiled on them, and water that was boiled or made from snow, L. */
  boiled: { fires: number; dishes: number; waterL: number };
  thrownAway: { what: string; at: string; quantity: number }[];
  broke: { id: string; at: string }[];
  /** What the tables got wrong, in words. */
  learned: string[];
  /** Kits that were eaten, to be packed again. */
  packAgain: { kitId: string; kitName: string; sets: number }[];
  /** Fuel to store again: what was used, by weighing where there is one, else as predicted. */
  refill: { fuelId: string; unit: 'kg' | 'kWh'; amount: number; weighed: boolean }[];
  advice: string[];
}

/** Less fuel than this is not bought again, kg, kWh. */
const LEAST_REFILL = 0.005;

/**
 * @param chain plans of the outage, the first first; each replaces the one before it
 * @param bookingsOf bookings of each, by plan id
 * @param to local wall-clock time of the report
 */
export function outageReport(
  chain: readonly Plan[],
  bookingsOf: ReadonlyMap<string, readonly Booking[]>,
  to: string,
  learned: Learned | null,
): OutageReport {
  const [first] = chain;
  const last = chain.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('a report without a plan');
  const meals: ReportMeal[] = [];
  const fuel = new Map<string, ReportFuel>();
  const thrownAway: OutageReport['thrownAway'] = [];
  const broke: OutageReport['broke'] = [];
  const sets = new Map<string, { kitId: string; kitName: string; sets: number }>();
  const servings = { eaten: 0, skipped: 0 };
  const boiled = { fires: 0, dishes: 0, waterL: 0 };
  let plannedL = 0;
  let leftL = 0;
  for (const [index, plan] of chain.entries()) {
    const until = chain[index + 1]?.request.startsAt ?? (to < plan.request.startsAt ? plan.request.startsAt : to);
    const bookings = bookingsOf.get(plan.id) ?? [];
    const standing = standingBookings(bookings);
    const state = stateNow(plan, bookings, until);
    const nameOf = (kitId: string) => plan.resolved.kits.find((kit) => kit.id === kitId)?.name ?? kitId;
    for (const meal of plan.meals) {
      const now = state.meals.find((one) => one.id === meal.id);
      if (now === undefined || now.state === 'open') continue;
      const booking = standing.find((one) => isMealBooking(one) && one.meal === meal.id);
      const cookings = plan.cookings.filter((cooking) => meal.dishes.some((dish) => dish.cookingId === cooking.id));
      const changed = booking?.kind === 'meal-changed';
      meals.push({
        meal: meal.id,
        eatAt: meal.eatAt,
        state: now.state,
        planned: cookings.map((cooking) => cooking.kitName),
        instead: changed && booking.kitId !== undefined ? [nameOf(booking.kitId)] : [],
        note: booking?.note ?? null,
      });
      const eaten = now.state === 'eaten' || now.state === 'assumed' || now.state === 'under-way';
      const served = meal.dishes.reduce((sum, dish) => sum + dish.servings, 0);
      if (eaten) servings.eaten += served;
      else if (now.state === 'skipped') servings.skipped += served;
      else if (changed && booking.kitId !== undefined) servings.eaten += meal.servingsWanted;
    }
    for (const { cookingId } of state.cooked) {
      const cooking = plan.cookings.find((one) => one.id === cookingId);
      if (cooking === undefined) continue;
      const known = sets.get(cooking.kitId) ?? { kitId: cooking.kitId, kitName: cooking.kitName, sets: 0 };
      sets.set(cooking.kitId, { ...known, sets: known.sets + cooking.batches });
    }
    for (const booking of standing) {
      if (booking.kind === 'broke') broke.push({ id: booking.thingId, at: booking.at });
      if (booking.kind === 'meal-changed' && booking.plannedDish === 'thrown-away')
        for (const cooking of plan.cookings.filter((one) =>
          plan.meals.some((meal) => meal.id === booking.meal && meal.dishes.some((dish) => dish.cookingId === one.id)),
        ))
          thrownAway.push({ what: cooking.kitName, at: booking.at, quantity: cooking.batches });
      if ((booking.kind === 'soak-drained' || booking.kind === 'box-opened') && booking.result === 'thrown-away') {
        const set = standing.find((one) => one.kind === 'soak-set' && one.id === booking.of);
        const kitId =
          set?.kind === 'soak-set'
            ? set.kitId
            : (plan.cookings.find((cooking) => cooking.id === booking.of)?.kitId ??
              plan.continues?.underWay.find((dish) => dish.cookingId === booking.of)?.kitId);
        if (kitId !== undefined) thrownAway.push({ what: nameOf(kitId), at: booking.at, quantity: 1 });
      }
    }
    const skipped = notCooked(
      plan,
      new Set(standing.flatMap((one) => (one.kind === 'meal-skipped' ? [one.meal] : []))),
    );
    const lit = plan.lightings.filter(
      (fire) =>
        fire.at <= until &&
        fire.burnsAnyway !== true &&
        [...plan.cookings, ...plan.tasks].some(
          (work) => !skipped.has(work.id) && ('method' in work ? work.method.lightingId : work.lightingId) === fire.id,
        ),
    );
    boiled.fires += lit.length;
    boiled.dishes += state.cooked.filter(({ cookingId }) => {
      const method = plan.cookings.find((one) => one.id === cookingId)?.method;
      return method?.boilMinutes != null && method.heatToC === undefined;
    }).length;
    for (const task of plan.tasks) if (task.lightingId !== null && task.at <= until) boiled.waterL += task.litres;
    for (const row of state.fuel) {
      const used = fuelUsedBy(plan, row.fuelId, until, skipped);
      const known = fuel.get(row.fuelId);
      const weighed = row.containers.some((one) => one.weighedAt !== null);
      const onHand = plan.fuel.find((one) => one.fuelId === row.fuelId)?.onHandKg ?? 0;
      const burnt = weighed ? Math.max(0, onHand - row.left.p50) : null;
      fuel.set(row.fuelId, {
        fuelId: row.fuelId,
        unit: row.unit,
        predicted: {
          p10: (known?.predicted.p10 ?? 0) + used.p10,
          p50: (known?.predicted.p50 ?? 0) + used.p50,
          p90: (known?.predicted.p90 ?? 0) + used.p90,
        },
        used: burnt === null ? (known?.used ?? null) : (known?.used ?? 0) + burnt,
        left: row.left.p50,
      });
    }
    plannedL += Math.max(0, plan.water.onHandL - state.water.leftL);
    leftL = state.water.leftL;
  }
  const texts = (learned?.stoves ?? []).flatMap(({ efficiency }) =>
    efficiency.records.length > 0 ? [efficiency.text] : [],
  );
  const cooling = (learned?.cooling ?? []).flatMap(({ timeConstantHours: figure }) =>
    figure.records.length > 0 ? [figure.text] : [],
  );
  const lots = (learned?.lots ?? []).flatMap(({ minutesFactor: figure }) =>
    figure.records.length > 0 ? [figure.text] : [],
  );
  return {
    planIds: chain.map((plan) => plan.id),
    from: first.request.startsAt,
    to,
    meals: meals.sort((a, b) => (a.eatAt < b.eatAt ? -1 : 1)),
    servings,
    fuel: [...fuel.values()],
    waterL: { planned: plannedL, left: leftL },
    boiled,
    thrownAway,
    broke,
    learned: [...texts, ...cooling, ...lots],
    packAgain: [...sets.values()].sort((a, b) => b.sets - a.sets || (a.kitId < b.kitId ? -1 : 1)),
    refill: [...fuel.values()].flatMap(({ fuelId, unit, predicted, used }) => {
      const amount = used ?? predicted.p50;
      return amount < LEAST_REFILL ? [] : [{ fuelId, unit, amount, weighed: used !== null }];
    }),
    advice: [...new Set(last.waysOut)],
  };
}
