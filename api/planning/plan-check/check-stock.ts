/** What cookings take from the stock: whole sets of parts, from lots that are there and still good. */
import { isKit, stockKitId, stockKitIdIn } from '../../cooking/dishes/part-choices.ts';
import type { PlanView, Report } from './plan-view.ts';

/** Parts of a divisible set are printed to four digits and do not add up exactly. */
const SET_ROOM = 1e-3;
const ROUNDING = 1e-4;
const SERVING_ROOM = 0.02;

/** Adds up every lot, and the parts of every cooking. */
export function checkStock(view: PlanView, report: Report): void {
  const { plan } = view;
  const lotKey = (kitId: string, partId: string, placeId: string, packedOn: string) =>
    JSON.stringify([kitId, partId, placeId, packedOn]);
  const lots = new Map<string, { quantity: number; useBy: string | null; taken: number; takes: number }>();
  for (const lot of plan.resolved.stock) {
    const key = lotKey(lot.kitId, lot.partId, lot.placeId, lot.packedOn);
    const known = lots.get(key);
    if (known) known.quantity += lot.quantity;
    else lots.set(key, { quantity: lot.quantity, useBy: lot.useBy, taken: 0, takes: 0 });
  }
  for (const cooking of plan.cookings) {
    const kit = view.kits.get(cooking.kitId);
    if (kit === undefined) {
      report('unknown-kit', cooking.id, cooking.kitId);
      continue;
    }
    if (plan.request.kitIds && !plan.request.kitIds.some((asked) => isKit(kit, asked)))
      report('kit-not-asked', cooking.id, `${kit.id} is not among the kits asked for`);
    if (kit.divisible !== true && Math.abs(cooking.batches - Math.round(cooking.batches)) > SET_ROOM)
      report('divided-set', cooking.id, `${cooking.batches} sets of a kit that cannot be divided`);
    if (!(cooking.batches > 0)) report('incomplete-set', cooking.id, `${cooking.batches} sets`);
    if (cooking.servings > cooking.batches * kit.servings + SERVING_ROOM)
      report(
        'servings-cooked',
        cooking.id,
        `${cooking.servings} servings from ${cooking.batches} sets of ${kit.servings}`,
      );
    for (const part of kit.parts) {
      const taken = cooking.takes
        .filter((take) => take.partId === part.id)
        .reduce((sum, take) => sum + take.quantity, 0);
      const wanted = cooking.batches * (part.containersPerSet ?? 1);
      if (Math.abs(taken - wanted) > SET_ROOM)
        report('incomplete-set', cooking.id, `${taken} of part ${part.id}, ${wanted} are needed`);
    }
    for (const take of cooking.takes) {
      const lot = lots.get(lotKey(stockKitId(kit), take.partId, take.placeId, take.packedOn));
      if (lot === undefined) {
        report('unknown-lot', cooking.id, `${take.partId} packed ${take.packedOn} at ${take.placeId}`);
        continue;
      }
      lot.taken += take.quantity;
      lot.takes++;
      if (!view.placeIds.has(take.placeId)) report('other-place', cooking.id, `${take.partId} lies at ${take.placeId}`);
      if (lot.useBy !== null && cooking.startsAt.slice(0, 10) > lot.useBy)
        report('use-by', cooking.id, `${take.partId} was good until ${lot.useBy}, cooked ${cooking.startsAt}`);
      if (take.packedOn > cooking.startsAt.slice(0, 10))
        report('packed-in-future', cooking.id, `${take.partId} is packed on ${take.packedOn}`);
    }
  }
  checkOrderOfDates(view, lots, lotKey, report);
  for (const [key, lot] of lots)
    if (lot.taken > lot.quantity + ROUNDING * lot.takes)
      report('stock', key, `${lot.taken} taken, ${lot.quantity} there`);
}

/** What passes its use-by date first is eaten first: nothing is left of it where a later lot was opened. */
function checkOrderOfDates(
  view: PlanView,
  lots: ReadonlyMap<string, { quantity: number; useBy: string | null; taken: number }>,
  lotKey: (kitId: string, partId: string, placeId: string, packedOn: string) => string,
  report: Report,
): void {
  for (const cooking of view.plan.cookings) {
    const kitId = stockKitIdIn(view.plan.resolved.kits, cooking.kitId);
    for (const take of cooking.takes) {
      const useBy = lots.get(lotKey(kitId, take.partId, take.placeId, take.packedOn))?.useBy ?? '9999';
      const date = cooking.startsAt.slice(0, 10);
      for (const other of view.plan.resolved.stock) {
        if (other.kitId !== kitId || other.partId !== take.partId || !view.placeIds.has(other.placeId)) continue;
        if (other.useBy === null || other.useBy >= useBy || other.useBy < date) continue;
        if (other.packedOn > view.plan.request.startsAt.slice(0, 10)) continue;
        const lot = lots.get(lotKey(other.kitId, other.partId, other.placeId, other.packedOn));
        if (lot !== undefined && lot.quantity - lot.taken > SET_ROOM)
          report(
            'use-by-order',
            cooking.id,
            `${take.partId} good until ${useBy}, while one good until ${other.useBy} is left`,
          );
      }
    }
  }
}
