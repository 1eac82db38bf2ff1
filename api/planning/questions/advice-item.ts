/** One line of advice: what a change brings against the plan, how sure that is, and where it ranks. */
import type { ExplanationStep } from '../../cooking/calculators/calculator-types.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { round } from '../rounding.ts';
import type { AdviceChange } from './advice-changes.ts';
import { inPercent, inWords } from './what-is-missing.ts';

/** Less than these is no change: what nobody measures, and shares of the plan's own within the tolerance of its aims. */
const NO_SHARE = 0.005;
export const NO_MJ = 0.05;
export const NO_WATER_L = 0.1;
const NO_KG = 0.005;
export const NO_SERVINGS = 0.05;
export const NO_SHARE_OF_PLAN = 0.015;
/** A saving of this share of the plan's own P10 to P90 is surely seen; of that share, probably. */
const SURE_SHARE = 0.5;
const PROBABLE_SHARE = 0.2;

export const NOTHING_CHANGES = 'Nothing changes.';

export type ConfidenceLevel = 'high' | 'middle' | 'low';

export interface AdviceItem {
  id: string;
  kind: AdviceChange['kind'];
  text: string;
  /** Already there; what follows is what it is worth. */
  already: boolean;
  /** More days fed, and more days with every hot meal; null: no time to find out. */
  daysGained: { fed: number; fedHot: number } | null;
  /** Within the plan's days: more servings, and more of the wanted hot ones. */
  servingsGained: number;
  hotServingsGained: number;
  /** More days with their hot water. */
  hotWaterDaysGained: number;
  /** Largest share used of any fuel or of water, and of which. */
  scarcestShare: { before: number; after: number; ofBefore: string; ofAfter: string };
  fuelSavedMJ: number;
  /** kg (kWh) by fuel; negative where more of it is burnt in the place of another. */
  fuelSaved: { fuelId: string; kg: number }[];
  waterSavedL: number;
  confidence: { level: ConfidenceLevel; why: string };
  /** What it brings, in a sentence. */
  effect: string;
  /** Where it was asked for: the steps behind its figures. */
  explanation?: ExplanationStep[];
}

/** A week by counts in the figures that advice compares. */
export interface Figures {
  servingsShort: number;
  cold: number;
  daysWithoutHotWater: number;
  share: number;
  /** Of which fuel, or `water`, that share is. */
  shareOf: string;
  fuelMJ: Percentiles;
  fuel: Record<string, Percentiles>;
  cookL: number;
}

/** What a change brings, by the figures of the week without and with it. */
export function adviceItem(
  change: AdviceChange,
  before: Figures,
  after: Figures,
  daysGained: AdviceItem['daysGained'],
): AdviceItem {
  // What is there already is worth what would be lost without it.
  const sign = change.already ? -1 : 1;
  const gain = (from: number, to: number) => sign * (from - to);
  const fuelSaved = Object.keys({ ...before.fuel, ...after.fuel })
    .sort()
    .flatMap((fuelId) => {
      const kg = round(gain(before.fuel[fuelId]?.p50 ?? 0, after.fuel[fuelId]?.p50 ?? 0), 3);
      const least = Math.max(NO_KG, NO_SHARE_OF_PLAN * (before.fuel[fuelId]?.p50 ?? 0));
      return Math.abs(kg) < least ? [] : [{ fuelId, kg }];
    });
  const item = {
    id: change.id,
    kind: change.kind,
    text: change.text,
    already: change.already,
    daysGained,
    servingsGained: notable(gain(before.servingsShort, after.servingsShort), NO_SERVINGS, 1),
    hotServingsGained: notable(gain(before.cold, after.cold), NO_SERVINGS, 1),
    hotWaterDaysGained: notable(gain(before.daysWithoutHotWater, after.daysWithoutHotWater), NO_SERVINGS, 0),
    scarcestShare: {
      before: round(before.share, 3),
      after: round(after.share, 3),
      ofBefore: before.shareOf,
      ofAfter: after.shareOf,
    },
    fuelSavedMJ: notable(
      gain(before.fuelMJ.p50, after.fuelMJ.p50),
      Math.max(NO_MJ, NO_SHARE_OF_PLAN * before.fuelMJ.p50),
      2,
    ),
    fuelSaved,
    waterSavedL: notable(gain(before.cookL, after.cookL), Math.max(NO_WATER_L, NO_SHARE_OF_PLAN * before.cookL), 1),
  };
  return { ...item, confidence: confidenceOf(change, item, before), effect: effectOf(item) };
}

/**
 * How sure the gain is. An amount is added up. What changes the way of cooking is held against the plan's own spread: a
 * saving of at least half of P90 less P10 is seen whatever the week is like. Days and servings that are gained are counted
 * with fuel at its 90th percentile, so that they are never less than probable. What rests on common practice is never
 * sure.
 */
function confidenceOf(
  change: AdviceChange,
  { fuelSavedMJ, servingsGained, hotServingsGained, daysGained }: Omit<AdviceItem, 'confidence' | 'effect'>,
  before: Figures,
): AdviceItem['confidence'] {
  if (change.basis === 'amount')
    return { level: 'high', why: 'An amount that is added up; fuel is counted so that it suffices nine times in ten.' };
  const band = before.fuelMJ.p90 - before.fuelMJ.p10;
  const share = band <= 0 ? 0 : Math.abs(fuelSavedMJ) / band;
  const serves =
    servingsGained > 0 || hotServingsGained > 0 || (daysGained?.fed ?? 0) > 0 || (daysGained?.fedHot ?? 0) > 0;
  const level: ConfidenceLevel = share >= SURE_SHARE ? 'high' : share >= PROBABLE_SHARE || serves ? 'middle' : 'low';
  const spread = `what it changes in fuel is ${Math.round(100 * share)} % of the range in which the plan's own fuel lies 8 times in 10`;
  const counted = serves ? '; days and servings are counted so that the fuel suffices nine times in ten' : '';
  return change.basis === 'common-practice'
    ? {
        level: level === 'high' ? 'middle' : level,
        why: `Common practice, not a measurement: what a screen saves depends on the wind. By the tables ${spread}${counted}.`,
      }
    : { level, why: `By published relations; ${spread}${counted}.` };
}

function effectOf(item: Omit<AdviceItem, 'confidence' | 'effect'>): string {
  const parts: string[] = [];
  const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`;
  const { daysGained } = item;
  if (daysGained !== null && daysGained.fed !== 0)
    parts.push(`${count(Math.abs(daysGained.fed), 'day', 'days')} ${daysGained.fed > 0 ? 'more' : 'fewer'} fed`);
  if (daysGained !== null && daysGained.fedHot !== 0 && daysGained.fedHot !== daysGained.fed)
    parts.push(
      `${count(Math.abs(daysGained.fedHot), 'day', 'days')} ${daysGained.fedHot > 0 ? 'more' : 'fewer'} with every hot meal`,
    );
  if (item.servingsGained !== 0)
    parts.push(`${Math.abs(item.servingsGained)} servings ${item.servingsGained > 0 ? 'more' : 'fewer'}`);
  if (item.hotServingsGained !== 0)
    parts.push(`${Math.abs(item.hotServingsGained)} hot servings ${item.hotServingsGained > 0 ? 'more' : 'fewer'}`);
  if (item.hotWaterDaysGained !== 0)
    parts.push(
      `hot water on ${count(Math.abs(item.hotWaterDaysGained), 'day', 'days')} ${item.hotWaterDaysGained > 0 ? 'more' : 'fewer'}`,
    );
  const { before, after, ofBefore, ofAfter } = item.scarcestShare;
  if (Math.abs(after - before) >= NO_SHARE) {
    const now = `${inPercent(before)} of the ${inWords(ofBefore)} that may be used`;
    const then = `${inPercent(after)} of the ${inWords(ofAfter)}`;
    parts.push(
      item.already ? `what is scarcest: ${now}, without it ${then}` : `what is scarcest: ${then} instead of ${now}`,
    );
  }
  if (item.fuelSavedMJ !== 0) {
    const fuels = item.fuelSaved.map(
      ({ fuelId, kg }) =>
        `${Math.abs(kg)} ${fuelId === 'electricity' ? 'kWh' : 'kg'} ${kg > 0 ? 'less' : 'more'} ${inWords(fuelId)}`,
    );
    parts.push(
      `${Math.abs(item.fuelSavedMJ)} MJ ${item.fuelSavedMJ > 0 ? 'less' : 'more'} fuel${fuels.length > 0 ? ` (${fuels.join(', ')})` : ''}`,
    );
  }
  if (item.waterSavedL !== 0)
    parts.push(`${Math.abs(item.waterSavedL)} L ${item.waterSavedL > 0 ? 'less' : 'more'} water`);
  if (parts.length === 0)
    return daysGained === null ? 'Nothing changes within the plan; days were not worked out.' : NOTHING_CHANGES;
  return `${parts.join('; ')}.`;
}

function notable(value: number, least: number, digits: number): number {
  return Math.abs(value) < least ? 0 : round(value, digits);
}

/** Best first: days, days with every hot meal, servings, the scarcest share, fuel, water; then as listed. */
export function byWorth(a: AdviceItem, b: AdviceItem): number {
  const worth = (item: AdviceItem): number[] => [
    item.already ? 0 : 1,
    item.daysGained?.fed ?? 0,
    item.daysGained?.fedHot ?? 0,
    item.servingsGained,
    item.hotServingsGained,
    item.hotWaterDaysGained,
    Math.round((item.scarcestShare.before - item.scarcestShare.after) / NO_SHARE) * (item.already ? -1 : 1),
    item.fuelSavedMJ,
    item.waterSavedL,
  ];
  const left = worth(a);
  const right = worth(b);
  const at = left.findIndex((value, index) => Math.abs(value - (right[index] as number)) > 1e-9);
  return at < 0 ? 0 : (right[at] as number) - (left[at] as number);
}
