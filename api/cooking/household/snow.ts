/** Snow as water: melted in a pot over a little water, then boiled. */
import type { Parameter, Percentiles } from '../../physics/parameter.ts';
import { type CauseEffect, percentilesOf, sumOfSpreads } from '../../physics/spread.ts';
import type { Calculations } from '../calculators/calculations.ts';
import { heatWater, type MethodChoice, type Surroundings } from '../dishes/cooking-methods.ts';
import { boilMinutesToMakeSafe } from './water-treatment.ts';

const PRACTICE = { key: 'household-practice', place: 'melting snow' } as const;

/** Water put into the pot before the snow, so that the bottom does not scorch: share of a potful. Common practice. */
export const STARTER_WATER_SHARE: Parameter = {
  value: 0.1,
  p10: 0.05,
  p90: 0.2,
  unit: '1',
  source: PRACTICE,
  estimate: true,
};

/** Water that a litre of loose snow gives, L. Common practice; fresh snow gives half of it, old wet snow three times. */
export const WATER_L_PER_L_OF_SNOW: Parameter = {
  value: 0.1,
  p10: 0.05,
  p90: 0.3,
  unit: 'L/L',
  source: PRACTICE,
  estimate: true,
};

/** A pot is filled to this share with water to boil. */
const FILL_SHARE = 0.8;
/** Snow on a day without frost: hardly below the melting point, and ice all the same, C. */
const MELTING_SNOW_C = -0.1;

export interface MeltedSnow {
  /** Litres gained by one potful, starter water not counted. */
  litres: number;
  /** From putting the pot on to the end of the boil. */
  minutes: Percentiles;
  fuelMJ: Percentiles;
  fuelKg: Percentiles;
  fuelEffects: CauseEffect[];
}

/**
 * One potful of snow, melted and boiled until it is safe: `fuel = (1 - s) fuel(snow) + s fuel(water)`, `s` the share of
 * starter water, which is heated too and is there again afterwards. From -10 C to the boil snow takes 0.75 MJ/kg.
 * @param choice stove, fuel and pot; the stove already burns
 * @param surroundings snow is as cold as the air outdoors, at most 0 C
 * @returns null where this stove cannot
 */
export function meltSnow(
  choice: Pick<MethodChoice, 'stove' | 'fuelId' | 'fuelMoisturePercent' | 'vessel'>,
  surroundings: Surroundings,
  calculations: Calculations,
): MeltedSnow | null {
  const potfulL = choice.vessel.capacityL * FILL_SHARE;
  const minutes = boilMinutesToMakeSafe(surroundings.elevationM);
  const snowC = Math.min(surroundings.outdoorC, MELTING_SNOW_C);
  const boiled = (waterC: number) =>
    heatWater(choice, potfulL, null, minutes, { ...surroundings, waterC }, calculations);
  const snow = boiled(snowC);
  const water = boiled(surroundings.waterC);
  if (snow === null || water === null) return null;
  const share = STARTER_WATER_SHARE.value;
  const heat = sumOfSpreads([
    { value: snow.fuelMJ.p50 * (1 - share), effects: snow.fuelEffects },
    { value: water.fuelMJ.p50 * share, effects: water.fuelEffects },
  ]);
  const kgPerMJ = snow.fuelKg.p50 / snow.fuelMJ.p50;
  return {
    litres: potfulL * (1 - share),
    minutes: snow.minutes,
    fuelMJ: percentilesOf(
      heat.value,
      heat.effects.filter((effect) => effect.cause !== 'fuel'),
    ),
    fuelKg: percentilesOf(heat.value * kgPerMJ, heat.effects),
    fuelEffects: heat.effects,
  };
}
