/** What a finished plan says of the one that it replaces: what was used before it, what is under way, what became of it. */

import type { PlanContinues } from '../plan-types.ts';
import { dishesKept } from '../programme/keep-wall.ts';
import type { WeekCalendar } from '../week/week-calendar-types.ts';
import type { WeekChoice } from '../week/week-instance.ts';
import type { Continuation } from './continuation.ts';

/** @param choice what the plan picked */
export function continuesOf(continues: Continuation, calendar: WeekCalendar, choice: WeekChoice): PlanContinues {
  const lastDate =
    calendar.week.slots
      .map(({ id }) => id.slice(0, 10))
      .sort()
      .at(-1) ?? '';
  const details = choice.options.flatMap((id) => calendar.options.get(id) ?? []);
  return {
    planId: continues.planId,
    firstStartsAt: continues.firstStartsAt,
    firstDays: continues.firstDays,
    used: { fuel: continues.before.fuel, waterL: continues.before.waterL },
    from: continues,
    needKcal: continues.before.needKcal,
    kcalAhead: continues.kcalAhead,
    underWay: continues.underWay,
    soaks: continues.soaks.map((soak) => {
      const used = details.some((detail) => detail.soak?.begun?.id === soak.id);
      const could = [...calendar.options.values()].some((detail) => detail.soak?.begun?.id === soak.id);
      const reason = used
        ? null
        : could
          ? 'other dishes leave more for the rest of the plan'
          : soak.limitHours <= soak.hours
            ? `it has been in water for ${Math.round(soak.hours)} h, longer than is safe`
            : soak.safeUntil.slice(0, 10) > lastDate
              ? 'none of the fires that are planned can boil it long enough'
              : `no fire can boil it before ${soak.safeUntil.replace('T', ' ')}, until when it is safe`;
      return { ...soak, use: used ? ('cooked' as const) : ('given-up' as const), reason };
    }),
    wall: {
      dishes: continues.wall.dishes.length,
      kept: dishesKept(calendar, choice.options, continues.wall.dishes),
    },
  };
}

/** What must be seen to before anything else: dishes that wait in a pot, box or flask, and water to be thrown away. */
export function underWayCautions({ underWay, soaks }: PlanContinues, nameOf: (kitId: string) => string): string[] {
  const plain = (local: string) => local.replace('T', ' ');
  return [
    ...underWay.map(
      (dish) => `${nameOf(dish.kitId)} was cooked before this plan began: eat it by ${plain(dish.safeUntil)}.`,
    ),
    ...soaks
      .filter((soak) => soak.use === 'given-up')
      .map((soak) => `${nameOf(soak.kitId)} in water since ${plain(soak.since)} is given up: ${soak.reason}.`),
  ];
}
