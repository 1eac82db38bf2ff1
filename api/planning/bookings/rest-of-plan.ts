/** Whether what is left reaches for the rest of a plan, with what has been learned of its stoves since it was made. */
import type { Learned } from '../../cooking/measurements/learned.ts';
import type { Plan } from '../plan-types.ts';
import type { StateNow } from './state-now.ts';

/** The rest of the plan on one fuel. */
export interface RestOfFuel {
  fuelId: string;
  unit: 'kg' | 'kWh';
  /** What the fires to come take, typically and at their high end, as it is known now. */
  needs: { p50: number; p90: number };
  left: number;
  reserve: number;
  /** `fits`: with the reserve untouched at the high end; `tight`: typically; `ends`: not even that. */
  verdict: 'fits' | 'tight' | 'ends';
  /** The fire at which it typically ends; null: it does not. */
  endsAt: string | null;
  /** The dish to come that takes most of it, which is changed first; null: none takes any. */
  first: { cookingId: string; meal: string | null; kitName: string } | null;
}

/**
 * @param plan what hangs on the wall
 * @param state how things stand
 * @param learned of the household now; null: nothing
 * @returns the fuels that are still to be burnt
 */
export function restOfPlan(plan: Plan, state: StateNow, learned: Learned | null): RestOfFuel[] {
  return state.fuel.flatMap((fuel): RestOfFuel[] => {
    const electric = fuel.fuelId === 'electricity';
    const fires = plan.lightings
      .filter((one) => one.fuelId === fuel.fuelId && one.at > state.at && one.burnsAnyway !== true)
      .sort((a, b) => (a.at < b.at ? -1 : 1));
    if (fires.length === 0) return [];
    const open = new Set(
      state.meals.filter((meal) => meal.state === 'open' || meal.state === 'under-way').map((meal) => meal.id),
    );
    const workOf = (id: string) => [
      ...plan.cookings.filter(
        (cooking) =>
          cooking.method.lightingId === id &&
          plan.meals.some((meal) => open.has(meal.id) && meal.dishes.some((dish) => dish.cookingId === cooking.id)),
      ),
      ...plan.tasks.filter((task) => task.lightingId === id),
    ];
    let p50 = 0;
    let p90 = 0;
    let endsAt: string | null = null;
    for (const fire of fires) {
      const works = workOf(fire.id);
      if (works.length === 0) continue;
      const ratio = ratioOf(plan, learned, fire.stoveId);
      const amounts = works.flatMap((work) => work.fuel).filter((row) => row.fuelId === fuel.fuelId);
      const sum = (band: 'p50' | 'p90') =>
        amounts.reduce((total, row) => total + (electric ? (row.kWh?.[band] ?? 0) : row.kg[band]), fire.startUpFuel.kg);
      p50 += ratio * sum('p50');
      p90 += ratio * sum('p90');
      if (endsAt === null && p50 > fuel.left.p50 + 1e-9) endsAt = fire.at;
    }
    const reserve = plan.fuel.find((row) => row.fuelId === fuel.fuelId)?.reserveKg ?? 0;
    const verdict = endsAt !== null ? 'ends' : p90 <= fuel.counted - reserve + 1e-6 ? 'fits' : 'tight';
    const [most] = plan.cookings
      .filter((cooking) => cooking.startsAt > state.at && cooking.fuel.some((row) => row.fuelId === fuel.fuelId))
      .sort((a, b) => b.fuelMJ.p50 - a.fuelMJ.p50);
    const meal = plan.meals.find((one) => one.dishes.some((dish) => dish.cookingId === most?.id))?.id ?? null;
    return [
      {
        fuelId: fuel.fuelId,
        unit: fuel.unit,
        needs: { p50, p90 },
        left: fuel.left.p50,
        reserve,
        verdict,
        endsAt,
        first: most === undefined ? null : { cookingId: most.id, meal, kitName: most.kitName },
      },
    ];
  });
}

/** How much more fuel a stove takes than the plan counted with. */
function ratioOf(plan: Plan, learned: Learned | null, stoveId: string): number {
  const now = learned?.stoves.find((stove) => stove.stoveId === stoveId)?.efficiency;
  if (now === undefined || now.records.length === 0) return 1;
  const counted = plan.resolved.learned?.find((row) => row.of === stoveId && row.quantity === 'efficiency')?.figure.now;
  return (counted?.p50 ?? now.table.p50) / now.now.p50;
}
