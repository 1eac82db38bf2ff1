/**
 * What can be ruled out before solving when nobody may miss a hot meal: on a day whose hot meals need as many different
 * fires as may be lit, no other fire can be lit.
 */
import {
  slotsFedBy,
  type WeekInstance,
  type WeekLighting,
  type WeekOption,
  type WeekSlot,
} from '../week/week-instance.ts';

/**
 * Leaves out fires that cannot be lit in any plan that gives every wanted hot serving, with all that would be cooked on
 * them. Exact for such plans: where hot meals of a day have no fire in common each needs one of its own, and where these
 * are as many as may be lit, none is left for others.
 * @returns the instance without those fires, and groups of fires of which exactly one is lit
 */
export function withUsableLightings(week: WeekInstance): { week: WeekInstance; oneOf: WeekLighting[][] } {
  const unusable = new Set<string>();
  const oneOf: WeekLighting[][] = [];
  const byId = new Map(week.lightings.map((lighting) => [lighting.id, lighting]));
  for (let day = 0; day < week.days; day++) {
    const hotSlots = week.slots.filter((slot) => slot.day === day && slot.hotWanted);
    const groups = hotSlots.map(
      (slot) =>
        new Set(
          week.options
            .filter((option) => feeds(option, slot) && option.hot && option.lightingId !== null)
            .map((option) => option.lightingId as string),
        ),
    );
    // A meal that can be hot without a fire, a fire that is not counted, or meals that share a fire: nothing follows.
    const needsFire = hotSlots.every(
      (slot) => !week.options.some((option) => feeds(option, slot) && option.hot && option.lightingId === null),
    );
    const counted = groups.every((group) => [...group].every((id) => byId.get(id)?.burnsAnyway === false));
    const all = groups.flatMap((group) => [...group]);
    const apart = new Set(all).size === all.length;
    // What is kept hot from the evening before needs no fire today.
    if (all.some((id) => byId.get(id)?.day !== day)) continue;
    if (groups.length !== week.lightingsPerDay || groups.length === 0 || !needsFire || !counted || !apart) continue;
    const needed = new Set(all);
    for (const lighting of week.lightings) {
      if (lighting.day === day && !lighting.burnsAnyway && !needed.has(lighting.id)) unusable.add(lighting.id);
    }
    for (const group of groups) {
      oneOf.push([...group].flatMap((id) => byId.get(id) ?? []));
    }
  }
  const usable = (id: string | null) => id === null || !unusable.has(id);
  return {
    week: {
      ...week,
      lightings: week.lightings.filter((lighting) => usable(lighting.id)),
      options: week.options.filter((option) => usable(option.lightingId)),
      hotWater: week.hotWater.filter((task) => usable(task.lightingId)),
      treatments: week.treatments.filter((treatment) => usable(treatment.lightingId)),
    },
    oneOf,
  };
}

function feeds(option: WeekOption, slot: WeekSlot): boolean {
  return slotsFedBy(option).some(({ slotId }) => slotId === slot.id);
}
