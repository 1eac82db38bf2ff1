/**
 * What each cause of spread is common to. In the sum of a week a cause that dishes share does not average out (one stove
 * that burns more than its table burns more every day); one that is drawn anew for every dish does.
 */
import type { CauseEffect } from '../../physics/spread.ts';

export const REACHES = ['everything', 'stove', 'fuel', 'air', 'vessel', 'box', 'lot', 'dish'] as const;
/**
 * `everything`: one truth for all dishes (how the model errs); `stove`, `fuel`, `vessel`, `box`, `lot`: one for each thing
 * of the household; `air`: one for all fires out of doors; `dish`: drawn anew each time.
 */
export type Reach = (typeof REACHES)[number];

/** Reach of every cause by the name that the calculators give it. Judgement of the trade; the reasons stand beside. */
export const REACH_OF_CAUSE: Readonly<Record<string, Reach>> = {
  'stove efficiency': 'stove',
  'stove power': 'stove',
  'lowest flame': 'stove',
  // One stove and one pair of hands light much the same way each time.
  'start-up': 'stove',
  'start-up minutes': 'stove',
  // The place of the stove and the weather of one week.
  wind: 'air',
  'air pressure': 'air',
  fuel: 'fuel',
  lid: 'vessel',
  'pot surface': 'vessel',
  'pot mass': 'vessel',
  'valve steam': 'vessel',
  // Factors on relations: if they are wrong, they are wrong for every pot.
  'open pot': 'everything',
  'pot loss': 'everything',
  'temperature dependence': 'everything',
  'extrapolated kinetics': 'everything',
  // How the cook handles flame, cup and clock differs from time to time.
  cook: 'dish',
  measuring: 'dish',
  'soak temperature': 'dish',
  // Seeds of one packing are alike; those of another are not.
  'food lot': 'lot',
  'water entry': 'lot',
  'soak uptake': 'lot',
  'hard seeds': 'lot',
  'limit of uptake': 'lot',
  'storage age': 'lot',
  'additive in the water': 'lot',
  'water held': 'lot',
  insulation: 'box',
  'insulation material': 'box',
  flask: 'box',
  'own reading': 'box',
  draught: 'box',
  pot: 'vessel',
};

/** The things of one cooking that causes may be common to. */
export interface ThingsInUse {
  stoveId: string;
  fuelId: string;
  vesselId: string;
  boxId: string | null;
  /** Packing of the food: kit and packing date. */
  lotId: string;
  /** The cooking itself. */
  dishId: string;
}

const KEY_SEPARATOR = ' | ';

/**
 * Names each cause together with the thing that it belongs to, so that `sumOfSpreads` moves what is shared together and
 * lets what is not average out.
 * @param effects effects on one cooking, causes by their plain names
 */
export function effectsOfThings(effects: readonly CauseEffect[], things: ThingsInUse): CauseEffect[] {
  return effects.map((effect) => ({
    ...effect,
    cause: `${effect.cause}${KEY_SEPARATOR}${thingOf(effect.cause, things)}`,
  }));
}

/** The plain name of a cause that `effectsOfThings` has made particular. */
export function plainCause(cause: string): string {
  return cause.split(KEY_SEPARATOR)[0] as string;
}

function thingOf(cause: string, things: ThingsInUse): string {
  // A cause without a row is taken as shared: the careful reading.
  const reach = REACH_OF_CAUSE[cause] ?? 'everything';
  switch (reach) {
    case 'stove':
      return things.stoveId;
    case 'fuel':
      return things.fuelId;
    case 'vessel':
      return things.vesselId;
    case 'box':
      return things.boxId ?? things.vesselId;
    case 'lot':
      return things.lotId;
    case 'dish':
      return things.dishId;
    default:
      return reach;
  }
}
