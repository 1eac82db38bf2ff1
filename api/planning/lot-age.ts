/** What age has done to a lot: until when it keeps its quality, for which food, and how much longer its pulses boil. */
import { type Kit, kitFoodsOf } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import { packKit } from '../cooking/keeping/packing.ts';
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
 * @param kits recipes, own foods with their rows
 * @param storageC where the lot does not say: of its place, C
 * @param today YYYY-MM-DD
 * @returns null for a lot whose kit or part is not there
 */
export function lotAge(lot: StockLot, kits: readonly Kit[], storageC: number, today: string): LotAge | null {
  const kit = kits.find((one) => one.id === lot.kitId);
  const part = kit === undefined ? undefined : packableParts(kit).find((one) => one.id === lot.partId);
  if (kit === undefined || part === undefined) return null;
  const temperatureC = lot.storageC ?? storageC;
  const [packed] = packKit({ kit: { ...kit, parts: [part] }, bulk: [], sets: 1, storageC: temperatureC }).parts;
  if (packed === undefined) return null;
  const years = Math.min(60, yearsBetween(lot.packedOn, today));
  const hardens = kitFoodsOf(part).some((food) => food.group === 'pulse' && food.kinetics.kind === 'boil');
  const factor = storageFactor({ years, temperatureC, moisturePercent: lot.moisturePercent ?? USUAL_MOISTURE_PERCENT });
  return {
    years: Number(years.toFixed(2)),
    keepsUntil: useByDate(lot.packedOn, packed.keepsMonths),
    limitedBy: packed.limitedBy,
    longerBoil: hardens ? { p10: factor.p10, p50: factor.value, p90: factor.p90 } : null,
  };
}
