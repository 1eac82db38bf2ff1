/**
 * From a plan to what hands do: every step of every day in time order, one action a step, the verb first, every quantity
 * summed. The plan's times are the middle of what is expected; what may take longer says so in `ifNot`, and the fuel
 * for it is set aside in the plan.
 */
import type { Kit } from '../cooking/dishes/kit.ts';
import type { Cooking, Lighting, PlanDraft, ScheduleStep, StepAction } from '../planning/plan-types.ts';
import { NBSP } from './numbers.ts';
import { cookingSteps } from './schedule-cooking.ts';
import { fetchSteps } from './schedule-fetch.ts';
import { lightingSteps, taskSteps } from './schedule-fires.ts';
import { dayStartSteps, mealSteps } from './schedule-meals.ts';
import { localMs } from './times.ts';

/** A step before it is put in order. `rank` orders steps of the same minute. */
export interface StepDraft extends Omit<ScheduleStep, 'id' | 'afterStepId' | 'who'> {
  rank: number;
  /** What the step belongs to: a cooking, a lighting, a meal, a task or a day. */
  of: string;
  /** Whether it follows the step before it of the same thing. */
  follows: boolean;
}

/** What the makers of steps look things up in. */
export interface ScheduleContext {
  plan: PlanDraft;
  kits: ReadonlyMap<string, Kit>;
  lightings: ReadonlyMap<string, Lighting>;
  cookings: ReadonlyMap<string, Cooking>;
}

/**
 * All steps of a plan in time order.
 * @param draft a plan whose steps have not been worded
 * @returns steps with ids that stay the same when the same plan is worded again
 */
export function makeSchedule(draft: PlanDraft): ScheduleStep[] {
  const context: ScheduleContext = {
    plan: draft,
    kits: new Map(draft.resolved.kits.map((kit) => [kit.id, kit])),
    lightings: new Map(draft.lightings.map((lighting) => [lighting.id, lighting])),
    cookings: new Map(draft.cookings.map((cooking) => [cooking.id, cooking])),
  };
  const drafts: StepDraft[] = [
    ...dayStartSteps(context),
    ...fetchSteps(context),
    ...draft.lightings.flatMap((lighting) => lightingSteps(context, lighting)),
    ...draft.cookings.flatMap((cooking) => cookingSteps(context, cooking)),
    ...draft.tasks.flatMap((task) => taskSteps(context, task)),
    ...draft.meals.flatMap((meal) => mealSteps(context, meal)),
  ];
  const ids = new Map<StepDraft, string>();
  const after = new Map<StepDraft, string | null>();
  const counts = new Map<string, number>();
  const last = new Map<string, string>();
  for (const step of drafts) {
    const base = stepId(step.of, step.action, 1);
    const count = (counts.get(base) ?? 0) + 1;
    counts.set(base, count);
    const id = stepId(step.of, step.action, count);
    ids.set(step, id);
    after.set(step, step.follows ? (last.get(step.of) ?? null) : null);
    last.set(step.of, id);
  }
  return drafts
    .map((step, index) => ({ step, index, ms: localMs(step.at) }))
    .sort((a, b) => a.ms - b.ms || a.step.rank - b.step.rank || a.index - b.index)
    .map(({ step }) => {
      const { rank: _rank, of: _of, follows: _follows, ...words } = step;
      words.text = keepTogether(words.text);
      words.ifNot = words.ifNot === null || words.ifNot === '' ? null : keepTogether(withIf(words.ifNot));
      return { id: ids.get(step) as string, afterStepId: after.get(step) ?? null, who: null, ...words };
    });
}

/**
 * The id of a step.
 * @param of what it belongs to: the id of a cooking, a lighting, a meal, a task, or a day
 * @param nth 1 for the first step of this action, and so on
 */
export function stepId(of: string, action: StepAction, nth = 1): string {
  const base = `${of}-${action}`.toLowerCase().replace(/[^a-z0-9-]/g, '-');
  return shortId(nth === 1 ? base : `${base}-${nth}`);
}

/** Puts a non-breaking space between each number and its unit. */
function keepTogether(text: string): string {
  return text.replace(/(\d[½¼¾]?) (min|h|m|ft|L|mL|g|kg|%)\b/g, `$1${NBSP}$2`);
}

/** Begins every condition with "If": "No flame: warm the cylinder" is read as an order, "If no flame" is not. */
function withIf(text: string): string {
  return text
    .split('. ')
    .map((sentence) =>
      /: /.test(sentence) && !sentence.startsWith('If ')
        ? `If ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`
        : sentence,
    )
    .join('. ');
}

/** An id of at most 64 characters; a longer one keeps both ends and a checksum of the whole. */
function shortId(text: string): string {
  if (text.length <= 64) return text;
  let sum = 0;
  for (const character of text) sum = (sum * 31 + character.charCodeAt(0)) % 2176782336;
  return `${text.slice(0, 28)}-${sum.toString(36)}-${text.slice(-24)}`;
}
