/** Water by day and by quality. */
import { drinkingLPerDay } from '../../cooking/household/people.ts';
import type { Cooking } from '../plan-types.ts';
import type { PlanView, Report } from './plan-view.ts';

/** Room for printed rounding: a twentieth of a litre for each thing added. */
const ROOM_L = 0.06;

/** Re-adds the days, and holds them against the lots: safe water, what was made safe, and the rest for washing only. */
export function checkWater(view: PlanView, report: Report): void {
  const { plan, household } = view;
  const { water } = household;
  const stored = { safe: 0, treat: 0, 'not-for-food': 0 };
  for (const lot of water.lots) if (view.placeIds.has(lot.placeId)) stored[lot.quality] += lot.litres;
  const shortFrom = plan.short
    .filter((row) => row.what === 'water')
    .map((row) => row.from.slice(0, 10))
    .sort()[0];
  const byDate = new Map(plan.water.byDay.map((row) => [row.date, row]));
  for (const cooking of plan.cookings) checkSum(cooking, report);
  const room = ROOM_L * (plan.cookings.length + plan.tasks.length + 4);
  const soFar = { drink: 0, hygiene: 0, cook: 0, wash: 0, madeSafe: 0, melted: 0, cold: 0, drawn: 0 };
  for (const [day, date] of view.dates.entries()) {
    const row = byDate.get(date);
    if (row === undefined) {
      report('water-balance', date, 'the day is missing');
      continue;
    }
    const parts = [row.drinkL, row.hygieneL, row.animalsL, row.cookL, row.soakL, row.washL];
    if (parts.some((part) => !(part >= 0))) report('water-balance', date, `parts ${parts.join(', ')}`);
    const sum = parts.reduce((total, part) => total + part, 0);
    if (Math.abs(sum - row.usedL) > ROOM_L * 6)
      report('water-balance', date, `parts add up to ${sum}, ${row.usedL} is printed`);
    // What is delivered on a day can be used from the next day on.
    const supplied = water.dailySupply.litres * day;
    const tasks = plan.tasks.filter((task) => Math.max(0, view.dayOf(task.at)) === day);
    const litres = (kind: string) =>
      tasks.filter((task) => task.kind === kind).reduce((total, task) => total + task.litres, 0);
    soFar.drink += row.drinkL + row.animalsL;
    soFar.hygiene += row.hygieneL;
    soFar.cook += row.cookL + row.soakL;
    soFar.wash += row.washL;
    soFar.madeSafe += litres('treat-water');
    soFar.melted += litres('melt-snow');
    // A soak draws its water when it is set, the rest when the pot goes on; a balance may draw it all with the soak.
    for (const cooking of plan.cookings) {
      const soakL = cooking.method.soak?.waterL ?? 0;
      if (cooking.method.soak && Math.max(0, view.dayOf(cooking.method.soak.at)) === day) soFar.drawn += soakL;
      if (Math.max(0, view.dayOf(cooking.startsAt)) === day) soFar.drawn += cooking.waterL.total - soakL;
    }
    if (soFar.drawn > soFar.cook + room)
      report('water-balance', date, `${soFar.drawn.toFixed(1)} L drawn by then, ${soFar.cook.toFixed(1)} L printed`);
    soFar.cold += plan.cookings
      .filter(({ method }) => method.boilMinutes === null || method.heatToC !== undefined)
      .filter((cooking) => Math.max(0, view.dayOf(cooking.startsAt)) === day)
      .reduce((total, cooking) => total + cooking.waterL.total, 0);
    const all = stored.safe + stored.treat + stored['not-for-food'] + supplied + (water.snow ? soFar.melted : 0);
    const unfit = stored['not-for-food'] + (water.dailySupply.quality === 'not-for-food' ? supplied : 0);
    const used = soFar.drink + soFar.hygiene + soFar.cook + soFar.wash;
    const isShort = shortFrom !== undefined && shortFrom <= date;
    if (!isShort && used > all + room) report('water', date, `${used.toFixed(1)} L by then, ${all.toFixed(1)} L there`);
    if (!isShort && soFar.drink + soFar.cook > all - unfit + room)
      report(
        'water-quality',
        date,
        `${(soFar.drink + soFar.cook).toFixed(1)} L for food, ${(all - unfit).toFixed(1)} L fit for it`,
      );
    if (soFar.cook > all - unfit + room)
      report('water', date, `${soFar.cook.toFixed(1)} L cooked with by then, ${(all - unfit).toFixed(1)} L there`);
    // What is drunk, or eaten without a rolling boil, is safe water or water made safe (trade notes H5).
    const safe =
      stored.safe +
      (water.dailySupply.quality === 'safe' ? supplied : 0) +
      (water.treatBy === 'bleach' ? stored.treat + (water.dailySupply.quality === 'treat' ? supplied : 0) : 0) +
      soFar.madeSafe +
      (water.snow ? soFar.melted : 0);
    const mustBeSafe = (isShort ? 0 : soFar.drink) + soFar.cold;
    if (mustBeSafe > safe + room)
      report('unsafe-water', date, `${mustBeSafe.toFixed(1)} L must be safe by then, ${safe.toFixed(1)} L are`);
    if (!isShort) checkNeeds(view, row, day, report);
  }
  const cooked = plan.cookings.reduce((sum, cooking) => sum + cooking.waterL.total, 0);
  if (Math.abs(cooked - soFar.cook) > room)
    report('water-balance', 'cooking', `${soFar.cook.toFixed(1)} L by the days, ${cooked.toFixed(1)} L by the dishes`);
  if (plan.water.onHandL > stored.safe + stored.treat + stored['not-for-food'] + ROOM_L)
    report('water-balance', 'onHandL', `${plan.water.onHandL} L, fewer are stored`);
}

function checkSum(cooking: Cooking, report: Report): void {
  const { waterL, method } = cooking;
  const least = waterL.inPot + (method.soak?.waterL ?? 0) + waterL.rinse;
  if (waterL.total < least - ROOM_L * 3)
    report('water-balance', cooking.id, `${waterL.total} L in all, the parts are ${least} L`);
}

/** On whole days with the usual people: drinks, animals and hygiene as their tables say. */
function checkNeeds(
  view: PlanView,
  row: { date: string; drinkL: number; hygieneL: number; animalsL: number },
  day: number,
  report: Report,
): void {
  if (day === 0 || (view.plan.request.attendance ?? []).some((entry) => entry.date === row.date)) return;
  const { people, animals, water } = view.household;
  const drinkL = people.reduce((sum, person) => sum + drinkingLPerDay(person), 0);
  const animalsL = animals.reduce((sum, animal) => sum + animal.waterLPerDay, 0);
  const hygieneL = water.hygieneLPerPersonDay * people.length;
  if (row.drinkL < drinkL - ROOM_L || row.animalsL < animalsL - ROOM_L || row.hygieneL < hygieneL - ROOM_L)
    report(
      'water-needs',
      row.date,
      `drink ${row.drinkL}, animals ${row.animalsL}, hygiene ${row.hygieneL} L; needed ${drinkL}, ${animalsL}, ${hygieneL} L`,
    );
}
