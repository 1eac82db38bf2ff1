/** A daily supply of wood or water is a promise: what becomes of a plan, and which plan there is, if nobody brings it. */
import type { HouseholdDocument } from '../../cooking/household/kitchen.ts';
import type { PlanDraft, WithoutSupply } from '../plan-types.ts';

type Balances = Pick<PlanDraft, 'fuel' | 'water'>;

/**
 * Whether somebody has promised to bring fuel or water day by day.
 * @param household as it is stored
 */
export function hasDailySupply(household: Pick<HouseholdDocument, 'fuels' | 'water'>): boolean {
  return (
    (household.water?.dailySupply?.litres ?? 0) > 0 ||
    (household.fuels ?? []).some((fuel) => (fuel.dailySupplyKg ?? 0) > 0 || (fuel.dailySupplyKWh ?? 0) > 0)
  );
}

/** The same household to which nothing is brought. */
export function withoutDailySupply(household: HouseholdDocument): HouseholdDocument {
  return {
    ...household,
    ...(household.fuels === undefined
      ? {}
      : { fuels: household.fuels.map((fuel) => ({ ...fuel, dailySupplyKg: 0, dailySupplyKWh: 0 })) }),
    ...(household.water === undefined ? {} : { water: { ...household.water, dailySupply: { litres: 0 } } }),
  };
}

/**
 * The first thing that a plan runs out of where nothing is brought. Fuel is counted as the plan counts it: at the 90th
 * percentile, the reserve kept back.
 * @param plan balances of a plan that counts on the supply
 * @param promised what it counts on, a day: fuel by id in kg (kWh for electricity), water in L
 * @returns null where what is in store lasts to the end
 */
export function runsOut(
  plan: Balances,
  promised: { fuels: Readonly<Record<string, number>>; waterL: number },
): WithoutSupply['runsOut'] {
  const ends: { what: string; date: string }[] = [];
  for (const fuel of plan.fuel) {
    const end = fuel.byDay.findIndex(
      (day, index) => day.leftKg.p10 - (promised.fuels[fuel.fuelId] ?? 0) * index < fuel.reserveKg - 1e-6,
    );
    if ((promised.fuels[fuel.fuelId] ?? 0) > 0 && end >= 0)
      ends.push({ what: fuel.fuelId, date: fuel.byDay[end]?.date ?? '' });
  }
  const dry = plan.water.byDay.findIndex((day, index) => day.leftL - promised.waterL * index < -0.05);
  if (promised.waterL > 0 && dry >= 0) ends.push({ what: 'water', date: plan.water.byDay[dry]?.date ?? '' });
  return ends.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))[0] ?? null;
}

/** What is told of the plan that counts on nothing. */
export function summaryWithoutSupply(plan: PlanDraft, end: WithoutSupply['runsOut']): WithoutSupply {
  const kitOf = new Map(plan.cookings.map((cooking) => [cooking.id, cooking.kitId]));
  return {
    runsOut: end,
    outcome: plan.outcome,
    proof: plan.proof.status,
    short: plan.short,
    waysOut: plan.waysOut,
    meals: plan.meals.map((meal) => ({
      id: meal.id,
      kitIds: meal.dishes.flatMap((dish) => kitOf.get(dish.cookingId) ?? []),
      hot: meal.dishes.some((dish) => dish.hot),
      servingsShort: meal.servingsShort,
    })),
    fuel: plan.fuel.map(({ fuelId, onHandKg, usedKg }) => ({ fuelId, onHandKg, usedKg })),
    waterLeftL: plan.water.byDay.at(-1)?.leftL ?? plan.water.onHandL,
  };
}

/** One sentence for page and print. */
export function supplyCaution(summary: WithoutSupply): string {
  const { runsOut: end, outcome, short } = summary;
  const holds =
    end === null
      ? 'The plan holds even if none of the promised supply comes.'
      : `The plan counts on a promised supply: if none of it comes, ${end.what.replaceAll('-', ' ')} runs out on ${end.date}.`;
  if (end === null) return holds;
  return outcome === 'complete'
    ? `${holds} A plan without it is possible: plan anew on the first day on which nothing comes.`
    : `${holds} A plan without it would be short: ${short.map((row) => row.text).join('; ')}.`;
}
