/** How much water there is, by quality, and how much of it is ice. */
import { InvalidInputError } from '../../physics/errors.ts';
import type { WaterQuality } from './kitchen.ts';

/** A lot of water, as stored or as resolved. */
export interface WaterLotToCount {
  id: string;
  placeId?: string | null;
  litres: number;
  quality?: WaterQuality | null;
  temperatureC?: number | null;
}

export interface WaterOnHand {
  /** Litres (of the melted water) by quality, ice included. */
  byQuality: Record<WaterQuality, number>;
  /** The frozen part of each. */
  frozenByQuality: Record<WaterQuality, number>;
  /** Fit to drink and to cook with, once treated where it must be: safe and treat together, ice included. */
  foodL: number;
  /** Lots that must be melted before use, coldest first. */
  frozenLots: { id: string; litres: number; quality: WaterQuality; temperatureC: number }[];
}

/**
 * Adds up the lots of water. A lot whose temperature is below 0 C is ice: its litres count, its melting is charged.
 * Water not fit for food washes hands and flushes; it never counts as drink or for a pot.
 * @param lots litres >= 0; quality `safe` where absent; `temperatureC` C, absent or null: liquid at room temperature
 * @param placeId only lots of this place; a lot that names no place is then not counted, so resolve the household first
 * @returns litres
 * @throws InvalidInputError when a lot holds a negative amount
 */
export function waterOnHand(lots: readonly WaterLotToCount[], placeId?: string): WaterOnHand {
  const byQuality: Record<WaterQuality, number> = { safe: 0, treat: 0, 'not-for-food': 0 };
  const frozenByQuality: Record<WaterQuality, number> = { safe: 0, treat: 0, 'not-for-food': 0 };
  const frozenLots: WaterOnHand['frozenLots'] = [];
  for (const lot of lots) {
    if (!(lot.litres >= 0)) {
      throw new InvalidInputError(`water.lots.${lot.id}.litres`, lot.litres, 'give 0 litres or more');
    }
    if (placeId !== undefined && lot.placeId !== placeId) continue;
    const quality = lot.quality ?? 'safe';
    byQuality[quality] += lot.litres;
    const temperatureC = lot.temperatureC ?? null;
    if (isIce(temperatureC)) {
      frozenByQuality[quality] += lot.litres;
      frozenLots.push({ id: lot.id, litres: lot.litres, quality, temperatureC });
    }
  }
  frozenLots.sort((a, b) => a.temperatureC - b.temperatureC || (a.id < b.id ? -1 : 1));
  return { byQuality, frozenByQuality, foodL: byQuality.safe + byQuality.treat, frozenLots };
}

/** Whether water stored at this temperature (C; null: at room temperature) is ice. Sea-level freezing point, 0 C. */
export function isIce(temperatureC: number | null): temperatureC is number {
  return temperatureC !== null && temperatureC < 0;
}
