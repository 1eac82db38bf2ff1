/** What each choice of a cooking saved against the same dish without that choice. */
import type { Calculations } from '../../cooking/calculators/calculations.ts';
import { computeMethod, type DishMethod, type MethodChoice } from '../../cooking/dishes/cooking-methods.ts';
import { hasKidneyFamily, isRefusal } from '../../cooking/dishes/dish.ts';
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import type { Saving } from '../plan-types.ts';
import type { OptionDetail } from '../week/week-calendar-types.ts';

/** One choice of a cooking undone, all else of it as planned. */
export interface Undone {
  choice: Saving['choice'];
  insteadOf: string;
  as: MethodChoice;
}

/** Each choice that can be undone by itself. */
export function undoneChoices(kit: Kit, choice: MethodChoice): Undone[] {
  const { flame, standMinutes, heatToC, ...plain } = choice;
  const undone: Undone[] = [];
  const onFlame = { finish: 'flame' as const, box: null, flask: null, boxMinutes: { shortest: 0, longest: 0 } };
  if (choice.finish !== 'flame') {
    undone.push({ choice: choice.finish, insteadOf: 'on the flame to the end', as: { ...choice, ...onFlame } });
  }
  if (standMinutes !== undefined)
    undone.push({
      choice: 'stand',
      insteadOf: 'on the flame to the end',
      as: { ...plain, ...(flame === undefined ? {} : { flame }) },
    });
  if (heatToC !== undefined)
    undone.push({
      choice: 'no-boil',
      insteadOf: 'brought to the boil',
      as: { ...plain, ...(flame === undefined ? {} : { flame }) },
    });
  if (flame !== undefined)
    undone.push({
      choice: 'low-flame',
      insteadOf: heatToC === undefined ? 'at full flame to the boil' : 'at full flame',
      as: {
        ...plain,
        ...(standMinutes === undefined ? {} : { standMinutes }),
        ...(heatToC === undefined ? {} : { heatToC }),
      },
    });
  if (choice.soak !== null) {
    const kidney = hasKidneyFamily(kit);
    undone.push({
      choice: 'soak',
      insteadOf: kidney ? 'unsoaked, first water poured away' : 'unsoaked',
      as: { ...plain, ...onFlame, soak: null, firstWater: kidney ? 'poured-away' : 'kept' },
    });
  }
  if (choice.vessel.kind === 'pressure-cooker') {
    undone.push({
      choice: 'pressure-cooker',
      insteadOf: 'the same vessel as an open-valve pot',
      as: { ...choice, vessel: { ...choice.vessel, kind: 'pot', gaugeKPa: null } },
    });
  } else if (choice.vessel.lid !== 'none') {
    undone.push({
      choice: 'lid',
      insteadOf: 'without a lid',
      as: { ...plain, ...(heatToC === undefined ? {} : { heatToC }), vessel: { ...choice.vessel, lid: 'none' } },
    });
  }
  return undone;
}

/** Re-computes the dish with one choice undone at a time. */
export function savingsOf(detail: OptionDetail, calculations: Calculations): Saving[] {
  const method = detail.method;
  // A stove that burns in any case costs nothing either way.
  if (method === null || detail.lighting?.burnsAnyway === true) return [];
  return undoneChoices(detail.kit.kit, method.choice).flatMap((alternative) => {
    const other = computeMethod(
      detail.kit.kit,
      detail.servingsCooked,
      alternative.as,
      detail.surroundings,
      detail.kit.storage,
      calculations,
    );
    if (isRefusal(other)) return [];
    return [
      {
        choice: alternative.choice,
        insteadOf: alternative.insteadOf,
        fuelKg: difference(other.fuelKg, method.fuelKg),
        fuelMJ: difference(other.fuelMJ, method.fuelMJ),
        waterL: waterOf(other) - waterOf(method),
      },
    ];
  });
}

function waterOf(method: DishMethod): number {
  return Math.round(method.waterL * 100) / 100;
}

/** Difference of two figures whose errors are shared: the percentiles are taken pairwise. */
function difference(other: Percentiles, own: Percentiles): Percentiles {
  const [p10, p90] = [other.p10 - own.p10, other.p90 - own.p90].sort((a, b) => a - b) as [number, number];
  const p50 = other.p50 - own.p50;
  return { p10: Math.min(p10, p50), p50, p90: Math.max(p90, p50) };
}
