/** The "if not" lines of a sheet: what has been said once on it is not said again. */
import type { ScheduleStep } from '../../planning/plan-types.ts';

/** Each step with its conditions that no step before it has said, those that have any. */
export type Conditions = ReadonlyMap<ScheduleStep, string>;

/**
 * The conditions of a sheet, each sentence at the first step that has it.
 * @param steps the steps of the sheet in order
 * @param isCritical which steps say theirs; all where absent
 */
export function conditionsOnce(
  steps: readonly ScheduleStep[],
  isCritical: (step: ScheduleStep) => boolean = () => true,
): Conditions {
  const said = new Set<string>();
  const conditions = new Map<ScheduleStep, string>();
  for (const step of steps) {
    if (step.ifNot === null || step.ifNot === '' || !isCritical(step)) continue;
    // What follows a condition without one of its own belongs to it: "If no smell: give the dose again. Wait 15 min."
    const fresh = step.ifNot.split(/(?<=\.) (?=If )/).filter((sentence) => !said.has(sentence));
    for (const sentence of fresh) said.add(sentence);
    if (fresh.length > 0) conditions.set(step, fresh.join(' '));
  }
  return conditions;
}
