/** Nothing is taken twice: vessels, bowls, boxes, flasks and burners swept by the clock. */
import type { Cooking, ResourceUse } from '../plan-types.ts';
import { CLOCK_ROOM_MINUTES, flameMinutes, isInProgress, type PlanView, type Report } from './plan-view.ts';

interface Span {
  owner: string;
  from: number;
  to: number;
}

/** Sweeps every thing's uses, half-open, and compares what each cooking must take with what it lists. */
export function checkUses(view: PlanView, report: Report): void {
  const { plan, household } = view;
  const capacity = new Map<string, number>();
  for (const stove of household.stoves) capacity.set(stove.id, stove.burners);
  for (const thing of [...household.vessels, ...household.boxes]) capacity.set(thing.id, 1);
  const spans = new Map<string, Span[]>();
  const takers = [
    ...plan.cookings.map((cooking) => ({ id: cooking.id, uses: cooking.uses, early: isInProgress(view, cooking) })),
    ...plan.tasks.map((task) => ({ id: task.id, uses: task.uses, early: false })),
  ];
  for (const taker of takers) {
    for (const use of taker.uses) {
      const span = { owner: taker.id, from: view.minute(use.from), to: view.minute(use.to) };
      if (!capacity.has(use.resource)) report('unknown-thing', taker.id, `${use.resource} is not in the household`);
      if (!(span.from < span.to)) report('use-times', taker.id, `${use.resource} from ${use.from} to ${use.to}`);
      if (!taker.early && span.from < view.startsAtMinute)
        report(
          'before-start',
          taker.id,
          `${use.resource} is taken from ${use.from}, the plan starts ${plan.request.startsAt}`,
        );
      for (const out of plan.request.outOfUse ?? []) {
        const until = out.to ? view.minute(out.to) : Number.POSITIVE_INFINITY;
        if (out.id === use.resource && span.from < until && view.minute(out.from) < span.to)
          report('out-of-use', taker.id, `${use.resource} is out of use from ${out.from}`);
      }
      spans.set(use.resource, [...(spans.get(use.resource) ?? []), span]);
    }
  }
  for (const [resource, taken] of spans) {
    const most = capacity.get(resource) ?? 1;
    const merged = mergeByOwner(taken);
    for (const span of merged) {
      const meanwhile = merged.filter((other) => other.from <= span.from && span.from < other.to);
      if (meanwhile.length > most)
        report(
          'taken-twice',
          resource,
          `${meanwhile.map((other) => other.owner).join(' and ')} at once, room for ${most}`,
        );
    }
  }
  for (const cooking of plan.cookings) checkListed(view, cooking, report);
  for (const task of plan.tasks) {
    if (
      task.vesselId !== null &&
      !covers(view, task.uses, task.vesselId, view.minute(task.at), view.minute(task.at) + task.minutes)
    )
      report('use-missing', task.id, `${task.vesselId} is used and not listed`);
  }
}

/** Uses of one thing by one owner that touch or overlap count once. */
function mergeByOwner(spans: Span[]): Span[] {
  const merged: Span[] = [];
  for (const span of [...spans].sort((a, b) => (a.owner < b.owner ? -1 : a.owner > b.owner ? 1 : a.from - b.from))) {
    const last = merged.at(-1);
    if (last && last.owner === span.owner && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else merged.push({ ...span });
  }
  return merged;
}

function checkListed(view: PlanView, cooking: Cooking, report: Report): void {
  const { method } = cooking;
  const startsAt = view.minute(cooking.startsAt);
  const doneAt = view.minute(cooking.doneAt);
  const eatenAt = Math.max(
    doneAt,
    ...view.plan.meals
      .filter((meal) => meal.dishes.some((dish) => dish.cookingId === cooking.id))
      .map((meal) => view.minute(meal.eatAt)),
  );
  const need = (resource: string | null | undefined, from: number, to: number, what: string) => {
    if (resource && !covers(view, cooking.uses, resource, Math.max(from, view.startsAtMinute), to))
      report('use-missing', cooking.id, `${resource} is not listed for the whole time as ${what}`);
  };
  const flameEnd = startsAt + flameMinutes(cooking);
  const isKept = cooking.keptFor !== undefined;
  need(
    method.vesselId,
    startsAt,
    method.finish === 'flask' ? flameEnd : method.finish === 'box' || isKept ? eatenAt : doneAt,
    'vessel',
  );
  if (cooking.keptFor) need(cooking.keptFor.boxId, view.minute(cooking.keptFor.from), eatenAt, 'box');
  if (method.boilMinutes !== null) need(method.stoveId, startsAt, flameEnd, 'stove');
  if (method.finish === 'box') need(method.boxId, eatenAt - method.boxMinutes, eatenAt, 'box');
  if (method.finish === 'flask') need(method.flaskId, eatenAt - method.boxMinutes, eatenAt, 'flask');
  if (method.soak) {
    const at = view.minute(method.soak.at);
    need(method.soak.vesselId, at, Math.min(at + method.soak.hours * 60, startsAt), 'soak bowl');
  }
  if (method.finish === 'box' && method.boxId === null) report('use-missing', cooking.id, 'a box dish without a box');
  if (method.finish === 'flask' && method.flaskId === null)
    report('use-missing', cooking.id, 'a flask dish without a flask');
  const box = view.household.boxes.find((candidate) => candidate.id === (cooking.keptFor?.boxId ?? method.boxId));
  if ((method.finish === 'box' || isKept) && box && method.vesselId !== null && !box.fits.includes(method.vesselId))
    report('box-fit', cooking.id, `${method.vesselId} does not fit into ${box.id}`);
}

function covers(view: PlanView, uses: ResourceUse[], resource: string, from: number, to: number): boolean {
  let reached = from + CLOCK_ROOM_MINUTES;
  for (const span of uses
    .filter((use) => use.resource === resource)
    .map((use) => ({ from: view.minute(use.from), to: view.minute(use.to) }))
    .sort((a, b) => a.from - b.from)) {
    if (span.from <= reached) reached = Math.max(reached, span.to);
  }
  return reached >= to - CLOCK_ROOM_MINUTES;
}
