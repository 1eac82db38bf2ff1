/**
 * How much fuel there is, container by container. Weighing comes first; what was not weighed is counted low, because a
 * plan that trusts a half-empty cylinder ends in the dark.
 */
import { InvalidInputError } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';
import type { FuelContainer } from './kitchen.ts';

/** Share of a full container that is counted where only its level is said. Common practice: near the low end. */
export const COUNTED_SHARE_BY_LEVEL: Readonly<Record<'full' | 'part' | 'unknown' | 'empty', Parameter>> = {
  full: share(1, 0.97, 1),
  part: share(0.25, 0.25, 0.75),
  unknown: share(0.1, 0.1, 0.9),
  empty: share(0, 0, 0),
};

/**
 * What a container holds when nothing but "full" is known of it: the fill of an exchanged 20 lb propane cylinder, 6.8 kg
 * (15 lb, not the 9.07 kg of its name). It stands for propane only; other fuels come in too many sizes to guess.
 */
export const EXCHANGED_CYLINDER_KG: Parameter = {
  value: 6.8,
  p10: 6.8,
  p90: 9.07,
  unit: 'kg',
  source: { key: 'household-practice', place: 'fill of an exchanged 20 lb cylinder' },
  estimate: true,
};

/** How a container came to its figure: weighed (or said in kg), full by its label, or a level counted low. */
export type FuelCounted = 'weighed' | 'full' | 'assumed-low';

export interface FuelOnHand {
  kg: number;
  byContainer: { id: string; placeId: string | null; kg: number; counted: FuelCounted; note: string | null }[];
  /** Electricity: what is stored. */
  kWh: number;
}

/** A fuel store, as stored or as resolved. */
export interface FuelStoreToCount {
  fuelId: string;
  containers?: readonly OpenContainer[];
  leftKWh?: number | null;
}
type OpenContainer = { id: string } & { [K in keyof Omit<FuelContainer, 'id'>]: FuelContainer[K] | null };

/**
 * Adds up the containers of one fuel. For each, the first that is given counts: `leftKg`; `grossKg - tareKg`; `level`.
 * `count` like containers are multiplied, whatever was weighed being one of them. A part container without a weight
 * counts as a quarter of `fullKg`, an unknown one as a tenth, and as nothing where `fullKg` is not known either (propane:
 * the fill of an exchanged cylinder). A reserve and the daily supply are not taken into account here.
 *
 * Source: trade notes 4 (common practice).
 * @param store the fuel and its containers, weights in kg >= 0
 * @returns kg on hand in all and by container, and the stored electricity in kWh
 * @throws InvalidInputError when a gross weight lies below its tare, a weight is negative, or more was weighed than
 *   one and a half times a full container holds (the tare was forgotten)
 */
export function fuelOnHandKg(store: FuelStoreToCount): FuelOnHand {
  const byContainer = (store.containers ?? []).map((container) => {
    const one = contentOfOne(store.fuelId, container);
    return { id: container.id, placeId: container.placeId ?? null, ...one, kg: one.kg * (container.count ?? 1) };
  });
  return { kg: byContainer.reduce((sum, row) => sum + row.kg, 0), byContainer, kWh: store.leftKWh ?? 0 };
}

/**
 * What no plan touches, and what is left to plan with.
 * @param onHandKg kg (or kWh) on hand, >= 0
 * @param reserveShare 0 to 1
 * @returns both in the unit of `onHandKg`; they add up to it
 */
export function fuelBudget(onHandKg: number, reserveShare: number): { reserve: number; budget: number } {
  const reserve = onHandKg * reserveShare;
  return { reserve, budget: onHandKg - reserve };
}

function contentOfOne(
  fuelId: string,
  container: OpenContainer,
): { kg: number; counted: FuelCounted; note: string | null } {
  const name = `fuels.${fuelId}.containers.${container.id}`;
  const fullKg = container.fullKg ?? null;
  for (const field of ['leftKg', 'grossKg', 'tareKg', 'fullKg', 'count'] as const) {
    const given = container[field] ?? 0;
    if (!(given >= 0)) throw new InvalidInputError(`${name}.${field}`, given, 'give a weight of 0 kg or more');
  }
  const leftKg = container.leftKg ?? null;
  if (leftKg !== null) return { kg: leftKg, counted: 'weighed', note: null };
  const grossKg = container.grossKg ?? null;
  const tareKg = container.tareKg ?? null;
  if (grossKg !== null && tareKg !== null) {
    const kg = grossKg - tareKg;
    if (kg < 0) {
      throw new InvalidInputError(
        `${name}.grossKg`,
        grossKg,
        `the weighed ${grossKg} kg is less than the empty container (${tareKg} kg): weigh again or correct the tare`,
      );
    }
    if (fullKg !== null && kg > fullKg * 1.5) {
      throw new InvalidInputError(
        `${name}.grossKg`,
        grossKg,
        `gross less tare is ${kg} kg, but a full one holds ${fullKg} kg: check the tare`,
      );
    }
    return { kg, counted: 'weighed', note: null };
  }
  const level = container.level ?? 'unknown';
  const share = COUNTED_SHARE_BY_LEVEL[level].value;
  const counted = level === 'full' || level === 'empty' ? 'full' : 'assumed-low';
  if (fullKg !== null) return { kg: fullKg * share, counted, note: null };
  if (level === 'empty') return { kg: 0, counted, note: null };
  if (fuelId === 'propane') {
    const note = `a full one is taken to hold ${EXCHANGED_CYLINDER_KG.value} kg, the fill of an exchanged 20 lb cylinder`;
    return { kg: EXCHANGED_CYLINDER_KG.value * share, counted: 'assumed-low', note };
  }
  return { kg: 0, counted: 'assumed-low', note: 'counted as nothing: say what a full one holds, or weigh it' };
}

function share(value: number, p10: number, p90: number): Parameter {
  return { value, p10, p90, unit: '1', source: { key: 'household-practice', place: 'fuel by level' }, estimate: true };
}
