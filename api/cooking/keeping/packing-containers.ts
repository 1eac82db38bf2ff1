/** Bags, absorbers and buckets as they are sold. All sizes are common practice of the trade, recalled; a household may give its own. */
import { requireInRange } from '../../physics/errors.ts';
import type { Parameter } from '../../physics/parameter.ts';

/** Bags of foil laminate, by what they hold filled to the brim, L: from a US cup to five US gallons, and the metric ones between. */
export const BAG_SIZES_L: readonly number[] = [0.24, 0.47, 0.95, 1.9, 3.8, 5.7, 7.6, 19];
/** Absorber packets, by the oxygen that they take up, cc (not the air). */
export const ABSORBER_SIZES_CC: readonly number[] = [100, 200, 300, 500, 1000, 2000];
/** Buckets, L. */
export const BUCKET_SIZES_L: readonly number[] = [10, 13, 19, 23];

export type BucketShape = 'round' | 'rectangular';

export const PACKING = {
  /** Share of a bag that is filled, so that it can be closed. */
  bagFillShare: practice(0.8, 0.75, 0.85, '1', 'foil bags about 80 % full', 'dry-pack-leaflet-2007', false),
  /** Room left under the lid of a bucket. */
  bucketHeadspaceMm: practice(
    25,
    20,
    30,
    'mm',
    'buckets are filled to an inch below the rim',
    'dry-pack-leaflet-2007',
    false,
  ),
  /** Share of a bucket's room that filled bags take: pillows in a round one leave more gaps. */
  roundShare: practice(0.75, 0.65, 0.82, '1', 'filled bags in a round bucket, recalled'),
  rectangularShare: practice(0.85, 0.75, 0.9, '1', 'filled bags in a rectangular bucket, recalled'),
  /** Height of a bucket over its width. */
  roundSlenderness: practice(1.25, 1.1, 1.4, '1', 'height over diameter of a round bucket, recalled'),
  rectangularSlenderness: practice(1.4, 1.2, 1.6, '1', 'height over side of a rectangular bucket, recalled'),
  /** An opened pack of absorbers is used up within this time. */
  openMinutes: practice(30, 15, 30, 'min', 'use opened packets within 30 minutes', 'dry-pack-leaflet-2007', false),
  /** Bags that two people close in that time. */
  bagsPerOpening: practice(20, 10, 30, '1', 'bags closed while one pack of absorbers is open, recalled'),
} as const;

/**
 * The smallest bag that holds a heap and can still be closed.
 * @param heapL loose volume of what goes in, L, > 0
 * @param sizesL bags to choose among, L
 * @returns its volume to the brim, L; null where none is large enough
 */
export function bagFor(heapL: number, sizesL: readonly number[] = BAG_SIZES_L): number | null {
  requireInRange('heapL', heapL, 0, 1000, 'L');
  const fits = [...sizesL].sort((a, b) => a - b).find((litres) => litres * PACKING.bagFillShare.value >= heapL - 1e-9);
  return fits ?? null;
}

/**
 * Packets of absorber for one bag: as few as the sizes allow, and of as few the least capacity. Too much does no harm.
 * @param neededCc cc of oxygen, >= 0
 * @param sizesCc packets to choose among, cc, each > 0
 * @returns sizes of the packets, largest first; empty where nothing is needed
 */
export function absorberPackets(neededCc: number, sizesCc: readonly number[] = ABSORBER_SIZES_CC): number[] {
  requireInRange('neededCc', neededCc, 0, 1e6, 'cc');
  const sizes = [...sizesCc].sort((a, b) => a - b);
  const largest = sizes[sizes.length - 1];
  if (neededCc <= 0 || largest === undefined) return [];
  const whole = Math.max(0, Math.ceil(neededCc / largest) - 1);
  const rest = neededCc - whole * largest;
  const last = sizes.find((size) => size >= rest - 1e-9) ?? largest;
  return [...Array.from({ length: whole }, () => largest), last];
}

/**
 * Bags that lie in a bucket: its room up to the headspace, times the share that filled bags take of it, over the room of
 * one bag; none where a bag is wider than the bucket.
 * @param bagHeapL loose volume in one bag, L, > 0
 * @param bucketL volume of the bucket to the brim, L, 1 to 250
 * @returns whole bags, 0 or more; an estimate
 */
export function bagsInBucket(bagHeapL: number, bucketL: number, shape: BucketShape): number {
  requireInRange('bagHeapL', bagHeapL, 0.001, 1000, 'L');
  requireInRange('bucketL', bucketL, 1, 250, 'L');
  const { widthMm, heightMm } = bucketSizeMm(bucketL, shape);
  const usableL = bucketL * (1 - PACKING.bucketHeadspaceMm.value / heightMm);
  const share = shape === 'round' ? PACKING.roundShare.value : PACKING.rectangularShare.value;
  // A filled bag lies as a flat brick, about twice as wide as it is thick.
  const bagWidthMm = (4 * bagHeapL * 1e6) ** (1 / 3);
  // A soft bag gives a little; in a square bucket it may lie across the corners.
  if (bagWidthMm > widthMm * (shape === 'round' ? 1.15 : 1.35)) return 0;
  return Math.floor((usableL * share) / bagHeapL + 1e-9);
}

/** Width (diameter or side) and height of a bucket of a shape, mm. */
export function bucketSizeMm(bucketL: number, shape: BucketShape): { widthMm: number; heightMm: number } {
  const slender = shape === 'round' ? PACKING.roundSlenderness.value : PACKING.rectangularSlenderness.value;
  const area = shape === 'round' ? Math.PI / 4 : 1;
  const widthMm = ((bucketL * 1e6) / (area * slender)) ** (1 / 3);
  return { widthMm, heightMm: widthMm * slender };
}

function practice(
  value: number,
  p10: number,
  p90: number,
  unit: string,
  place: string,
  key: 'household-practice' | 'dry-pack-leaflet-2007' = 'household-practice',
  estimate = true,
): Parameter {
  return { value, p10, p90, unit, source: { key, place }, estimate };
}
