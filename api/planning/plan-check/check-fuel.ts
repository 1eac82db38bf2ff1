/** Fuel, fuel by fuel and day by day, planned at the 90th percentile. */
import type { PlanTask } from '../plan-types.ts';
import { amountOf, type PlanView, type Report } from './plan-view.ts';

/** Room for printed rounding: 1 g (1 Wh) for each thing added, and a thousandth. */
const ROOM_EACH = 0.001;
const ROOM_SHARE = 0.001;
const SHARE_PRINTED = 0.005;

interface Taken {
  what: string;
  at: string;
  fuelId: string;
  p50: number;
  p90: number;
}

/** A plan that counts on a promised supply says what becomes of it without; what it says is added again. */
function checkSupply(view: PlanView, taken: readonly Taken[], report: Report): void {
  const { plan, household } = view;
  const fuels = household.fuels.filter((fuel) => fuel.dailySupplyKg > 0 || fuel.dailySupplyKWh > 0);
  const promised = fuels.length > 0 || household.water.dailySupply.litres > 0;
  if (!promised) return;
  if (plan.withoutSupply === null) {
    report('without-supply', 'withoutSupply', 'a supply is promised, and nothing is said of the plan without it');
    return;
  }
  const said = plan.withoutSupply.runsOut?.date ?? '9999';
  for (const { fuelId } of fuels) {
    const { amount, reserve } = view.onHand(fuelId);
    let p50 = 0;
    for (const [day, date] of view.dates.entries()) {
      for (const row of taken) if (row.fuelId === fuelId && Math.max(0, view.dayOf(row.at)) === day) p50 += row.p50;
      // Typically burnt is less than what the plan sets aside: past this nobody can call it lasting.
      if (p50 > (amount - reserve) * (1 + ROOM_SHARE) + ROOM_EACH && date < said)
        report(
          'without-supply',
          date,
          `${p50.toFixed(3)} of ${fuelId} burnt by then, ${amount - reserve} without supply`,
        );
    }
  }
}

/** Re-adds what cookings, tasks and lightings burn, against what is on hand and against the balances of the plan. */
export function checkFuel(view: PlanView, report: Report): void {
  const { plan } = view;
  const taken: Taken[] = [];
  const lit = new Map(plan.lightings.map((lighting) => [lighting.id, lighting.at]));
  const take = (what: string, at: string, fuel: { fuelId: string; p50: number; p90: number }) => {
    if (!(fuel.p50 >= 0 && fuel.p50 <= fuel.p90 + 1e-9))
      report('fuel-figures', what, `${fuel.fuelId}: ${fuel.p50}, ${fuel.p90}`);
    taken.push({ what, at, ...fuel });
  };
  for (const cooking of plan.cookings)
    for (const fuel of cooking.fuel)
      take(cooking.id, cooking.startsAt, { fuelId: fuel.fuelId, ...only(amountOf(fuel)) });
  for (const task of plan.tasks)
    for (const fuel of task.fuel) take(task.id, timeOf(task, lit), { fuelId: fuel.fuelId, ...only(amountOf(fuel)) });
  for (const lighting of plan.lightings) {
    // The plan gives one figure for a start, at its high end; the typical one lies below.
    const { fuelId, kg } = lighting.startUpFuel;
    take(lighting.id, lighting.at, { fuelId, p50: 0, p90: kg });
  }
  checkSupply(view, taken, report);
  const room = ROOM_EACH * (taken.length + 1);
  for (const fuelId of new Set([...taken.map((row) => row.fuelId), ...plan.fuel.map((row) => row.fuelId)])) {
    const { amount, reserve, supplyPerDay } = view.onHand(fuelId);
    const own = taken.filter((row) => row.fuelId === fuelId);
    const balance = plan.fuel.find((row) => row.fuelId === fuelId);
    const startsP90 = (lastDay: number) =>
      plan.lightings
        .filter((lighting) => lighting.startUpFuel.fuelId === fuelId && view.dayOf(lighting.at) <= lastDay)
        .reduce((sum, lighting) => sum + lighting.startUpFuel.kg, 0);
    let p50 = 0;
    let p90 = 0;
    const p50ByDay: number[] = [];
    for (const [day, date] of view.dates.entries()) {
      const today = own.filter((row) => Math.max(0, view.dayOf(row.at)) === day);
      p50ByDay.push(today.reduce((sum, row) => sum + row.p50, 0));
      p50 += p50ByDay[day] ?? 0;
      p90 += today.reduce((sum, row) => sum + row.p90, 0);
      // What is delivered on a day can be burnt from the next day on.
      const allowed = amount - reserve + supplyPerDay * day;
      if (p90 > allowed * (1 + ROOM_SHARE) + room)
        report('fuel', date, `${fuelId}: ${p90.toFixed(3)} by then (9 times in 10), ${allowed.toFixed(3)} allowed`);
    }
    if (balance === undefined) {
      if (p90 > room) report('fuel-balance', fuelId, 'burnt, and without a balance');
      continue;
    }
    if (balance.onHandKg > amount * (1 + ROOM_SHARE) + ROOM_EACH)
      report('fuel-balance', fuelId, `${balance.onHandKg} on hand, ${amount} counted`);
    const held = (balance.containers ?? []).reduce((total, container) => total + container.kg, 0);
    if (balance.containers !== undefined && Math.abs(held - amount) > amount * ROOM_SHARE + ROOM_EACH)
      report('fuel-balance', fuelId, `${held} in its containers, ${amount} counted`);
    for (const [at, container] of (balance.containers ?? []).entries()) {
      const earlier = balance.containers?.[at - 1];
      if (earlier && container.openedOn !== null && (earlier.emptyOn === null || earlier.emptyOn > container.openedOn))
        report('fuel-balance', fuelId, `${container.id} is opened before ${earlier.id} is empty`);
    }
    if (Math.abs(balance.onHandKg - balance.reserveKg - balance.budgetKg) > room + supplyPerDay * view.dates.length)
      report('fuel-balance', fuelId, `${balance.onHandKg} less ${balance.reserveKg} is not ${balance.budgetKg}`);
    if (!isBetween(balance.usedKg.p50, p50, p50 + startsP90(view.dates.length - 1), room))
      report('fuel-balance', fuelId, `${balance.usedKg.p50} used, ${p50.toFixed(3)} when added again`);
    for (const [at, row] of balance.byDay.entries()) {
      const day = view.dates.indexOf(row.date);
      if (day < 0 || (at > 0 && row.date <= (balance.byDay[at - 1]?.date ?? ''))) {
        report('fuel-balance', fuelId, `day ${row.date}`);
        continue;
      }
      const burnt = p50ByDay.slice(0, day + 1).reduce((sum, value) => sum + value, 0);
      const there = balance.onHandKg + supplyPerDay * day - burnt;
      if (!isBetween(row.leftKg.p50, there - startsP90(day), there, room))
        report('fuel-balance', `${fuelId} ${row.date}`, `${row.leftKg.p50} left, ${there.toFixed(3)} when added again`);
      // A row holds either the use of its day or the use so far.
      const ofDay = p50ByDay[day] ?? 0;
      const startsSoFar = startsP90(day);
      if (
        !isBetween(row.usedKg.p50, ofDay, ofDay + startsSoFar - startsP90(day - 1), room) &&
        !isBetween(row.usedKg.p50, burnt, burnt + startsSoFar, room)
      )
        report('fuel-balance', `${fuelId} ${row.date}`, `${row.usedKg.p50} used, ${ofDay.toFixed(3)} when added again`);
    }
  }
}

function isBetween(value: number, low: number, high: number, room: number): boolean {
  return value >= low - Math.abs(low) * SHARE_PRINTED - room && value <= high + Math.abs(high) * SHARE_PRINTED + room;
}

function only(fuel: { p50: number; p90: number }): { p50: number; p90: number } {
  return { p50: fuel.p50, p90: fuel.p90 };
}

/** A task that rides on a fire burns its fuel on the day of that fire. */
function timeOf(task: PlanTask, lit: Map<string, string>): string {
  return (task.lightingId === null ? undefined : lit.get(task.lightingId)) ?? task.at;
}
