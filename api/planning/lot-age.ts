/** What age has done to a lot: until when it keeps its quality, for which food, and how much longer its pulses boil. */
import { type Kit, type KitPart, kitFoodsOf } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import { type PackedPart, packKit } from '../cooking/keeping/packing.ts';
import { storageFactor } from '../cooking/keeping/storage-age.ts';
import { useByDate } from '../cooking/keeping/use-by.ts';
import type { Percentiles } from '../physics/parameter.ts';
import { yearsBetween } from './local-time.ts';
import type { StockLot } from './plan-types.ts';

export interface LotAge {
  /** Whole and part years since packing. */
  years: number;
  /** By the tables, packed as the packing sheet says, for quality; YYYY-MM-DD. */
  keepsUntil: string;
  /** The food that keeps least. */
  limitedBy: string;
  /** Minutes at the boil over those of a fresh lot; null: nothing in it hardens. */
  longerBoil: Percentiles | null;
}

/** Dry pulses as sold and packed, % of the wet mass. */
const USUAL_MOISTURE_PERCENT = 10;

/**
 * The ages of lots, in their order; what is alike is worked out once.
 * @param kits recipes, own foods with their rows
 * @param storageC where a lot does not say: of its place, C
 * @param today YYYY-MM-DD
 * @returns null for a lot whose kit or part is not there
 */
export function lotAges(
  lots: readonly StockLot[],
  kits: readonly Kit[],
  storageC: (placeId: string) => number,
  today: string,
): (LotAge | null)[] {
  const parts = new Map<string, { kit: Kit; part: KitPart }>();
  for (const kit of kits) for (const part of packableParts(kit)) parts.set(`${kit.id}/${part.id}`, { kit, part });
  const keeping = new Map<string, PackedPart | undefined>();
  const yearsOf = new Map<string, number>();
  return lots.map((lot) => {
    const found = parts.get(`${lot.kitId}/${lot.partId}`);
    if (found === undefined) return null;
    const { kit, part } = found;
    const temperatureC = lot.storageC ?? storageC(lot.placeId);
    const key = `${lot.kitId}/${lot.partId}/${temperatureC}`;
    if (!keeping.has(key))
      keeping.set(key, packKit({ kit: { ...kit, parts: [part] }, bulk: [], sets: 1, storageC: temperatureC }).parts[0]);
    const packed = keeping.get(key);
    if (packed === undefined) return null;
    const years = yearsOf.get(lot.packedOn) ?? Math.min(60, yearsBetween(lot.packedOn, today));
    yearsOf.set(lot.packedOn, years);
    const hardens = kitFoodsOf(part).some((food) => food.group === 'pulse' && food.kinetics.kind === 'boil');
    const moisturePercent = lot.moisturePercent ?? USUAL_MOISTURE_PERCENT;
    const factor = hardens ? storageFactor({ years, temperatureC, moisturePercent }) : null;
    return {
      years: Number(years.toFixed(2)),
      keepsUntil: useByDate(lot.packedOn, packed.keepsMonths),
      limitedBy: packed.limitedBy,
      longerBoil: factor === null ? null : { p10: factor.p10, p50: factor.value, p90: factor.p90 },
    };
  });
}
