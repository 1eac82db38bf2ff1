/** Whether the clocks are put forward or back within a plan: times stay those that the clock shows, soaks keep their hours. */
import { toMinute } from '../planning/local-time.ts';
import type { PlanDraft } from '../planning/plan-types.ts';
import { NBSP } from './numbers.ts';
import { addDays, dateOf, dateText, dayName } from './times.ts';

const MINUTES_OF_A_DAY = 1440;

export interface ClockChange {
  /** `YYYY-MM-DD` */
  date: string;
  /** Positive: forward, so that the day is shorter. */
  minutesForward: number;
  text: string;
}

/** The first change of the clocks in the days of a plan, or null. */
export function clockChange(plan: Pick<PlanDraft, 'request' | 'resolved'>): ClockChange | null {
  const { places } = plan.resolved.household;
  const zone = (places.find((one) => one.id === plan.request.placeId) ?? places[0])?.timeZone;
  if (zone === undefined) return null;
  const start = dateOf(plan.request.startsAt);
  for (let day = 0; day <= plan.request.days; day += 1) {
    const date = addDays(start, day);
    const minutes = toMinute(`${addDays(date, 1)}T00:00`, zone) - toMinute(`${date}T00:00`, zone);
    if (minutes === MINUTES_OF_A_DAY) continue;
    const minutesForward = MINUTES_OF_A_DAY - minutes;
    const way = minutesForward > 0 ? 'forward' : 'back';
    const when = `${dayName(date)} ${dateText(date).replace(/\u00a0\d+$/, '')}`;
    const text = `Clocks go ${way} ${Math.abs(minutesForward)}${NBSP}min on ${when}: set them; times here are those they then show.`;
    return { date, minutesForward, text };
  }
  return null;
}
