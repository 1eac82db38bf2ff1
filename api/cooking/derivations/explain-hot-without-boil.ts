/** Steps on a dish that is heated and not boiled: how long it stands until it is soft, and how hot it then still is. */
import { STAND_ENTRY_LOSS_K } from '../dishes/fire-ways.ts';
import {
  COLD_ROW_C,
  LEAST_REST_MINUTES,
  minutesInWater,
  REST_PACE_C,
  ROWS_SOURCE,
  shareWhileWarming,
  standingRows,
} from '../dishes/hot-without-boil.ts';
import { addCoolingOff } from './explain-dish-heat.ts';
import { type ExplainedDish, HIGH_END, PRACTICE } from './explained-dish.ts';

/** `boilMinutes`, which are none. */
export function addNoBoil({ list }: Pick<ExplainedDish, 'list'>): void {
  list.fact('boilMinutes', 0, 'min', 'nothing in it needs a boil', PRACTICE);
}

/** `standingMinutes` after `dishMinutesToBoil`, and `standingReachedC`. */
export function addRestAfterHeating(dish: ExplainedDish): void {
  const { list, basis, method, rows } = dish;
  const fromC = basis.surroundings.waterC;
  const toC = method.needs.temperatureC;
  const minutes = method.minutesToBoil.p50;
  list.fact('leastRestMinutes', LEAST_REST_MINUTES, 'min', 'stirred, as hot in the middle', PRACTICE);
  const rests = ['leastRestMinutes'];
  for (const { name, food } of rows) {
    const own = standingRows(food);
    if (own === null) continue;
    const warmed = shareWhileWarming(own, fromC, toC, minutes);
    list.fact(`${name}ColdMinutes`, own.coldMinutes, 'min', `in water of ${COLD_ROW_C} C, table row`, own.coldSource);
    list.fact(`${name}HotMinutes`, own.hotMinutes, 'min', `at ${own.hotC} C, table row`, own.hotSource);
    const at = (temperature: string) =>
      `${name}ColdMinutes * exp(ln(${name}HotMinutes / ${name}ColdMinutes) * (${temperature} - ${COLD_ROW_C}) / ${own.hotC - COLD_ROW_C})`;
    list.computed(
      `${name}AtStartPerMinute`,
      1 / minutesInWater(own, Math.max(0, fromC)),
      '1/min',
      `1 / (${at('max(0, startC)')})`,
      ROWS_SOURCE,
    );
    list.computed(
      `${name}HeatedPerMinute`,
      1 / minutesInWater(own, toC),
      '1/min',
      `1 / (${at('temperatureC')})`,
      ROWS_SOURCE,
    );
    const even = own.hotMinutes === own.coldMinutes;
    const mean = even
      ? `${name}AtStartPerMinute`
      : `(${name}HeatedPerMinute - ${name}AtStartPerMinute) / ln(${name}HeatedPerMinute / ${name}AtStartPerMinute)`;
    list.computed(`${name}WarmedShare`, warmed, '1', `dishMinutesToBoil * ${mean}`, ROWS_SOURCE);
    list.computed(
      `${name}RestMinutes`,
      Math.max(0, 1 - warmed) * minutesInWater(own, REST_PACE_C),
      'min',
      `max(0, 1 - ${name}WarmedShare) * ${at(String(REST_PACE_C))}`,
      ROWS_SOURCE,
    );
    rests.push(`${name}RestMinutes`);
  }
  // To whole minutes, upwards.
  list.computed('standingMinutes', method.restMinutes, 'min', `-floor(-max(${rests.join(', ')}))`);
  const { p50, p90 } = method.minutesToBoil;
  list.fact(
    'soonerHotMinutes',
    p90 - p50,
    'min',
    'by which the pot is typically hot before its clock says so',
    HIGH_END,
  );
  const cools = addCoolingOff(dish, { entryLossK: STAND_ENTRY_LOSS_K, longest: 'standingMinutes' });
  if (cools === null) return;
  const { box, cooling, tau } = cools;
  const hours = (method.restMinutes + p90 - p50) / 60;
  list.computed(
    'servedC',
    cooling.airC + (cooling.startC - cooling.airC) * Math.exp(-hours / tau.p50),
    'C',
    `${box('airC')} + (${box('startC')} - ${box('airC')}) * ` +
      `exp(-(standingMinutes + soonerHotMinutes) / 60 / ${box('timeConstantHours')})`,
  );
}
