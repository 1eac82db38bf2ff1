/** Bags that lie at another place than the plan's: one step a day and place, before the first of them is needed. */
import type { Cooking } from '../planning/plan-types.ts';
import { inSentence, partOf } from './names.ts';
import type { ScheduleContext, StepDraft } from './schedule.ts';
import { addMinutes, dateOf, localMs } from './times.ts';

/** A walk to the shed and back with a light; common practice. */
const FETCH_MINUTES = 15;
/** Quantities are sums of shares of sets. */
const NOTHING = 1e-6;

/** What is fetched on one date from one place. */
interface Errand {
  date: string;
  placeId: string;
  neededAt: string;
  dishes: Set<string>;
  bags: Map<string, { what: string; bags: number }>;
}

/**
 * The steps that fetch bags from other places. A bag is carried whole; what is left in it is there the next time.
 * @returns none where everything lies at the place of the plan
 */
export function fetchSteps(context: ScheduleContext): StepDraft[] {
  const { plan } = context;
  const { household } = plan.resolved;
  const here = plan.request.placeId ?? household.places[0]?.id;
  const errands = new Map<string, Errand>();
  const brought = new Map<string, { taken: number; carried: number }>();
  const inOrder = [...plan.cookings].sort((a, b) => localMs(firstUse(a)) - localMs(firstUse(b)));
  for (const cooking of inOrder) {
    const kit = context.kits.get(cooking.kitId);
    for (const take of cooking.takes) {
      if (take.placeId === here) continue;
      const at = needsBag(cooking, take.partId);
      const lot = `${cooking.kitId}|${take.partId}|${take.placeId}|${take.packedOn}`;
      const known = brought.get(lot) ?? { taken: 0, carried: 0 };
      const taken = known.taken + take.quantity;
      const bags = Math.max(0, Math.ceil(taken - known.carried - NOTHING));
      brought.set(lot, { taken, carried: known.carried + bags });
      if (bags === 0) continue;
      const key = `${dateOf(at)}|${take.placeId}`;
      const errand = errands.get(key) ?? {
        date: dateOf(at),
        placeId: take.placeId,
        neededAt: at,
        dishes: new Set<string>(),
        bags: new Map<string, { what: string; bags: number }>(),
      };
      errands.set(key, errand);
      if (localMs(at) < localMs(errand.neededAt)) errand.neededAt = at;
      errand.dishes.add(inSentence(cooking.kitName));
      const what = `${inSentence(partOf(kit, take.partId)?.name ?? take.partId)}, packed ${take.packedOn}`;
      errand.bags.set(lot, { what, bags: bags + (errand.bags.get(lot)?.bags ?? 0) });
    }
  }
  const waking = household.waking?.from ?? '07:00';
  return [...errands.values()].map((errand): StepDraft => {
    const placeName = household.places.find((place) => place.id === errand.placeId)?.name ?? errand.placeId;
    const before = addMinutes(errand.neededAt, -FETCH_MINUTES);
    const [early] = [`${errand.date}T${waking}`, before].sort();
    const at = localMs(early as string) < localMs(plan.request.startsAt) ? plan.request.startsAt : (early as string);
    return {
      at,
      latestAt: errand.neededAt,
      action: 'fetch',
      text: `Fetch from the ${inSentence(placeName)}, for the ${[...errand.dishes].join(', the ')}.`,
      quantities: [...errand.bags.values()].map(({ what, bags }) => ({ what, amount: bags, unit: 'bag' })),
      ifNot: 'A bag is blown up, gnawed or wet: leave it there, serve the no-fire meal, make a new plan.',
      meal: null,
      minutes: FETCH_MINUTES,
      handsOn: true,
      cookingId: null,
      rank: 5,
      of: `fetch-${errand.date}-${errand.placeId}`,
      follows: false,
    };
  });
}

/** When a bag is opened: into the bowl, or into the pot. */
function needsBag(cooking: Cooking, partId: string): string {
  const { soak } = cooking.method;
  return soak !== null && soak.begun !== true && soak.partIds.includes(partId) ? soak.at : cooking.startsAt;
}

function firstUse(cooking: Cooking): string {
  return cooking.method.soak?.at ?? cooking.startsAt;
}
