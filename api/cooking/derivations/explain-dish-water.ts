/** Steps on the water of a dish: what it needs, what boils off, what goes into the pot. */
import type { SourceRef } from '../../physics/parameter.ts';
import { isLargePulse, isMilkPowder, LIQUID_L_PER_SERVING } from '../dishes/dish.ts';
import { DRY_FOOD_DENSITY_KG_PER_L, fillLimitShare } from '../dishes/vessel-fill.ts';
import { WATER_PARAMETERS } from '../kinetics/yield.ts';
import { type DishRow, type ExplainedDish, HIGH_END, PRACTICE } from './explained-dish.ts';

/** Water that the dish needs beside what boils off, `waterNeededL`, and what fills the pot, `volumeL`. */
export function addWater({ list, kit, method, rows }: ExplainedDish): void {
  const { needs } = method;
  const litres = (names: string[]) => (names.length === 0 ? '0' : `(${names.join(' + ')}) / 1000`);
  const held = (wanted: (row: DishRow) => boolean) =>
    rows.filter((row) => !row.food.seasoning && wanted(row)).map(({ name }) => `${name}HeldGPerG * ${name}DishG`);
  for (const { name, food } of rows)
    if (!food.seasoning) list.row(`${name}HeldGPerG`, food.absorbedGPerG, 'table of foods: water held when done');
  const milk = held(({ food }) => isMilkPowder(food));
  const other = litres(held(({ food }) => !isMilkPowder(food)));
  // Grain swells in the milk: the water of the powder and that of the grain are the same water.
  const absorbed = milk.length === 0 ? other : `max(${other}, ${litres(milk)})`;
  if (absorbed === '0') list.fact('absorbedL', needs.absorbedL, 'L', 'nothing swells');
  else list.computed('absorbedL', needs.absorbedL, 'L', absorbed);
  const taken = rows.flatMap(({ name, inSoak }) =>
    inSoak === undefined ? [] : [`${inSoak('uptakeGPerG')} * ${name}DishG`],
  );
  if (taken.length === 0) list.fact('absorbedInSoakL', needs.absorbedInSoakL, 'L', 'nothing was soaked');
  else list.computed('absorbedInSoakL', needs.absorbedInSoakL, 'L', litres(taken));
  list.fact('liquidLPerServing', LIQUID_L_PER_SERVING[kit.style], 'L', `liquid of a ${kit.style}`, PRACTICE);
  list.fact(
    'leastWaterL',
    method.choice.vessel.kind === 'pressure-cooker' ? 0.3 : 0.1,
    'L',
    'so that it boils',
    PRACTICE,
  );
  const largest = ['absorbedL - absorbedInSoakL + liquidLPerServing * servings'];
  const large = rows.filter(({ food }) => isLargePulse(food));
  if (large.length > 0) {
    list.row('coveringLPerKg', WATER_PARAMETERS.covering, 'water that keeps large pulses covered');
    const covered = large.map(({ name, food }) =>
      food.seasoning ? `coveringLPerKg * ${name}DishG` : `(${name}HeldGPerG + coveringLPerKg) * ${name}DishG`,
    );
    largest.push(`${litres(covered)} - absorbedInSoakL`);
  }
  if (kit.style === 'pasta') {
    list.row('pastaLPerKg', WATER_PARAMETERS.pastaSaving, 'water to boil pasta in');
    const pasta = rows.filter(({ food }) => food.group === 'pasta').map(({ name }) => `${name}DishG`);
    if (pasta.length > 0) largest.push(`pastaLPerKg * ${litres(pasta)}`);
  }
  list.computed(
    'waterNeededL',
    needs.waterInPotL,
    'L',
    `max(${[...largest, 'leastWaterL'].join(', ')})`,
    PRACTICE,
    true,
  );
  const dry = litres(rows.map(({ name }) => `${name}DishG`));
  const density: SourceRef = { key: 'kitchenPractice', place: 'kernel density of dry food' };
  list.fact('dryKgPerL', DRY_FOOD_DENSITY_KG_PER_L, 'kg/L', 'kernels of dry food', density);
  list.computed('volumeL', needs.volumeL, 'L', `waterNeededL + absorbedInSoakL + ${dry} / dryKgPerL`);
}

/**
 * Water measured into the pot, `waterInPotL`, with what may boil off at its high end.
 * @param capacityL name under which the capacity of the vessel is listed
 */
export function addWaterInPot({ list, method, rows }: ExplainedDish, capacityL: string): void {
  const { needs, choice, boiledOffL } = method;
  list.fact('boiledOffHighL', boiledOffL.p90, 'L', '90th percentile of what boils off', HIGH_END);
  const share = fillLimitShare(choice.vessel.kind, needs.foams);
  list.fact(
    'fillLimitShare',
    share,
    '1',
    needs.foams ? 'it froths or swells' : 'so that it does not run over',
    PRACTICE,
  );
  const room = `fillLimitShare * ${capacityL} - volumeL`;
  if (choice.vessel.kind === 'pot')
    list.computed('topUpL', method.topUpL, 'L', `max(0, boiledOffHighL - (${room}))`, PRACTICE);
  else list.fact('topUpL', method.topUpL, 'L', 'a closed cooker is not topped up', PRACTICE);
  const parts = ['waterNeededL', 'boiledOffHighL'];
  const part = (quantity: string, value: number, terms: string[], source: SourceRef) => {
    if (terms.length === 0) return;
    list.computed(quantity, value, 'L', `(${terms.join(' + ')}) / 1000`, source);
    parts.push(quantity);
  };
  const soaked = rows.filter((row) => row.inSoak?.('suppliedLPerKg') !== undefined && row.soaked);
  part(
    'soakWaterL',
    needs.soakSuppliedL,
    soaked.map(({ name, inSoak }) => `${inSoak?.('suppliedLPerKg')} * ${name}DishG`),
    PRACTICE,
  );
  const rinsed = soaked.filter(({ food }) => food.lectin === 'kidney-family');
  if (rinsed.length > 0) list.row('rinseLPerKg', WATER_PARAMETERS.rinse, 'one rinse');
  part(
    'rinseL',
    needs.rinseL,
    rinsed.map(({ name }) => `rinseLPerKg * ${name}DishG`),
    WATER_PARAMETERS.rinse.source,
  );
  if (needs.firstWaterL > 0) parts.push('firstWaterL');
  list.computed('waterTotalL', inThousandths(method.waterL), 'L', `round(${parts.join(' + ')}, 3)`);
  const inPot = 'round(waterNeededL + boiledOffHighL - topUpL, 3)';
  list.computed('waterInPotL', inThousandths(method.waterInPotL), 'L', inPot);
}

/** As the plan prints litres. */
function inThousandths(litres: number): number {
  return Math.round(litres * 1000) / 1000;
}
