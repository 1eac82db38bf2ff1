/** The steps around a fire: light it, use its heat for the day's water, put it out, refill a cold burner. */
import { WATER_L_PER_L_OF_SNOW } from '../cooking/household/snow.ts';
import { BLEACH, bleachDrops, bleachMl, boilMinutesToMakeSafe } from '../cooking/household/water-treatment.ts';
import type { Lighting, PlanTask } from '../planning/plan-types.ts';
import { fuelName, thingName } from './names.ts';
import type { ScheduleContext, StepDraft } from './schedule.ts';
import { addMinutes, dateOf, localMs } from './times.ts';
import { temperatureBoth, volumeBoth } from './units.ts';
import { onTheFireWhen, sinceEvent } from './without-clock.ts';

const GAS_FUELS = new Set(['propane', 'butane', 'canister-mix']);
/** Fuels of burners that are filled by hand. */
export const SPIRIT_FUELS: ReadonlySet<string> = new Set([
  'ethanol',
  'denatured-alcohol',
  'methanol',
  'isopropanol',
  'ethanol-gel',
]);
/** Household bleach as the doses of EPA and CDC read it, %. */
const BLEACH_STRENGTH_PERCENT = 6;
/** Very cold water takes twice the bleach (EPA); the sheet gives no figure, below 10 C is a cautious reading. */
const VERY_COLD_BELOW_C = 10;
/** A pot of embers or a burner is cold after this long by default (common practice). */
export const COOL_DOWN_MINUTES = 15;
/** More than this many drops are also given by volume. */
const COUNTABLE_DROPS = 40;

const BLANK: Pick<StepDraft, 'latestAt' | 'quantities' | 'ifNot' | 'meal' | 'handsOn' | 'cookingId' | 'follows'> = {
  latestAt: null,
  quantities: [],
  ifNot: null,
  meal: null,
  handsOn: true,
  cookingId: null,
  follows: true,
};

/** Light and put out; a burner that is filled by hand is filled cold, before it is lit. */
export function lightingSteps(context: ScheduleContext, lighting: Lighting): StepDraft[] {
  const { household } = context.plan.resolved;
  const stove = household.stoves?.find((one) => one.id === lighting.stoveId);
  const name = thingName(household, lighting.stoveId);
  const where = lighting.outdoors ? ' outdoors' : '';
  const steps: StepDraft[] = [];
  const wood = lighting.fuelId === 'wood' || lighting.fuelId === 'charcoal';
  const electric = lighting.fuelId === 'electricity';
  const spirit = SPIRIT_FUELS.has(lighting.fuelId);
  // A stove that burns for heating in any case is neither lit nor put out for a meal.
  if (lighting.burnsAnyway === true) return [];
  const since = sinceEvent(context.plan, lighting.at);
  steps.push({
    ...BLANK,
    at: lighting.at,
    action: 'light',
    text: electric
      ? `Switch the ${name} on, ${since}.`
      : spirit
        ? `Fill the ${name}, cold to the touch${fillText(stove?.fillMl)}. Light it${where}, ${since}.`
        : `Light the ${name}${where}, ${since}.`,
    quantities:
      !spirit && lighting.startUpFuel.kg >= 0.01
        ? [
            {
              what: `${fuelName(lighting.startUpFuel.fuelId)} to start it`,
              amount: lighting.startUpFuel.kg,
              unit: 'kg',
            },
          ]
        : [],
    latestAt: null,
    ifNot: wood
      ? 'No flame, or it dies: split dry wood thinner, else serve the no-fire meal.'
      : electric
        ? 'No current: serve the no-fire meal.'
        : GAS_FUELS.has(lighting.fuelId)
          ? 'No flame, or it dies: shut the valve, warm the cylinder in your coat, light again, else serve the no-fire meal.'
          : 'No flame: warm the unlit burner in your hands, else serve the no-fire meal.',
    minutes: wood ? 8 : 2,
    rank: 10,
    of: lighting.id,
    follows: false,
  });
  const end = lastOnFire(context, lighting);
  steps.push({
    ...BLANK,
    at: end,
    action: 'shut-off',
    text: electric
      ? `Switch the ${name} off.`
      : wood
        ? `Pull the sticks out of the ${name}, drown the embers.`
        : GAS_FUELS.has(lighting.fuelId)
          ? `Shut the ${name} off at the cylinder.`
          : `Put the ${name} out with its lid.`,
    minutes: 2,
    rank: 70,
    of: lighting.id,
  });
  return steps;
}

/** ", with at most 80 mL (¼ cup)": rounded down, a burner that is too full spills fire. */
function fillText(fillMl: number | undefined): string {
  return fillMl === undefined ? '' : `, with at most ${volumeBoth(fillMl / 1000, 'metric', 'down')}`;
}

/** When the last pot typically leaves this fire; the plan's own end is for the longest boil, and holds where no pot is known. */
function lastOnFire(context: ScheduleContext, lighting: Lighting): string {
  const ends: string[] = [];
  for (const cooking of context.plan.cookings) {
    if (cooking.method.lightingId !== lighting.id) continue;
    const { minutesToBoil, boilMinutes, lectin, heatToC } = cooking.method;
    const boil = Math.max(
      Math.ceil(boilMinutes?.p50 ?? 0),
      lectin.verdict === 'safe' ? lectin.boilMinutesNeeded : 0,
      1,
    );
    // Without a boil the fire goes out as the pot comes off.
    const after = heatToC === undefined ? boil + 1 : 0;
    ends.push(addMinutes(cooking.startsAt, Math.ceil(minutesToBoil?.p50 ?? 0) + after));
  }
  for (const task of context.plan.tasks) {
    if (task.lightingId === lighting.id) ends.push(addMinutes(task.at, task.minutes + 1));
  }
  return ends.reduce((last, end) => (localMs(end) > localMs(last) ? end : last), ends[0] ?? lighting.until);
}

/** The steps of hot water, water made safe, snow, and feeds at night. */
export function taskSteps(context: ScheduleContext, task: PlanTask): StepDraft[] {
  switch (task.kind) {
    case 'hot-water':
      return hotWater(context, task);
    case 'treat-water':
      return task.lightingId === null ? bleach(context, task) : boilWater(context, task);
    case 'melt-snow':
      return meltSnow(context, task);
    case 'night-feed':
      return nightFeed(context, task);
  }
}

function hotWater(context: ScheduleContext, task: PlanTask): StepDraft[] {
  const { household } = context.plan.resolved;
  const pot = thingName(household, task.vesselId);
  const lighting = context.lightings.get(task.lightingId ?? '');
  const stove = thingName(household, lighting?.stoveId ?? null);
  const flask = household.vessels?.find(
    (vessel) => vessel.kind === 'flask' && task.uses.some((use) => use.resource === vessel.id),
  );
  const target = task.temperatureC;
  const heat =
    target === null
      ? 'hot'
      : household.thermometer === true
        ? `to ${temperatureBoth(target, 'metric', 'up')}`
        : 'until it steams hard';
  const steps: StepDraft[] = [
    {
      ...BLANK,
      at: task.at,
      action: 'heat-water',
      text: `${flask === undefined ? `Heat water for drinks and dishes ${heat}` : `Boil water for the ${thingName(household, flask.id)}`} in the ${pot} on the ${stove}${onTheFireWhen(context.plan, lighting, task.at)}, lid on.`,
      quantities: [{ what: 'safe water', amount: task.litres, unit: 'L' }],
      minutes: Math.ceil(task.minutes),
      handsOn: false,
      rank: 40,
      of: task.id,
      follows: false,
    },
  ];
  if (flask !== undefined) {
    steps.push({
      ...BLANK,
      at: addMinutes(task.at, task.minutes),
      action: 'fill-flask',
      text: `Fill the ${thingName(household, flask.id)}, warmed with hot water, as it boils. Close it: it is for the feeds of the night.`,
      quantities: [{ what: 'hot water', amount: Math.min(flask.capacityL, task.litres), unit: 'L' }],
      minutes: 2,
      rank: 45,
      of: task.id,
    });
  }
  return steps;
}

function bleach(context: ScheduleContext, task: PlanTask): StepDraft[] {
  const lots = (context.plan.resolved.household.water?.lots ?? []).filter((lot) => lot.quality === 'treat');
  const known = lots.map((lot) => lot.temperatureC).filter((value): value is number => value !== undefined);
  const cold = known.length === 0 || Math.min(...known) < VERY_COLD_BELOW_C;
  const drops = bleachDrops(Math.max(0.1, task.litres), BLEACH_STRENGTH_PERCENT, cold);
  const ml = bleachMl(Math.max(0.1, task.litres), BLEACH_STRENGTH_PERCENT, cold);
  const source = lots[0] === undefined ? 'untreated water' : `water from the ${lots[0].id.replaceAll('-', ' ')}`;
  const wait = BLEACH.waitMinutes.value;
  return [
    {
      ...BLANK,
      at: task.at,
      action: 'treat-water',
      text: `Stir plain, unscented 6\u00a0% bleach into clear water in a clean can, ${sinceEvent(context.plan, task.at)}.`,
      quantities: [
        { what: source, amount: task.litres, unit: 'L' },
        { what: 'bleach', amount: drops, unit: 'drops' },
        ...(drops > COUNTABLE_DROPS ? [{ what: 'bleach', amount: ml, unit: 'mL' }] : []),
      ],
      ifNot: cold
        ? 'Cloudy: strain it through cloth first. The dose is the double one, for cold water.'
        : 'Cloudy or coloured: strain it through cloth, then take twice the drops.',
      minutes: 5,
      rank: 30,
      of: task.id,
      follows: false,
    },
    {
      ...BLANK,
      at: addMinutes(task.at, 5 + wait),
      action: 'check',
      text: `Smell the treated water after ${wait}\u00a0min: a faint smell of chlorine. Mark the can safe.`,
      ifNot: `No smell: give the same dose again. Wait ${BLEACH.secondWaitMinutes.value}\u00a0min. Still none: do not drink it.`,
      minutes: 1,
      rank: 31,
      of: task.id,
    },
  ];
}

function boilWater(context: ScheduleContext, task: PlanTask): StepDraft[] {
  const { household } = context.plan.resolved;
  const place = household.places.find((one) => one.id === context.plan.request.placeId) ?? household.places[0];
  const minutes = boilMinutesToMakeSafe(place?.elevationM ?? 0);
  const pot = thingName(household, task.vesselId);
  const when = onTheFireWhen(context.plan, context.lightings.get(task.lightingId ?? ''), task.at);
  return [
    {
      ...BLANK,
      at: task.at,
      action: 'treat-water',
      text: `Boil water to drink in the ${pot}${when}, ${minutes}\u00a0min with big bubbles. Then cool it, lid on.`,
      quantities: [
        { what: 'water to treat', amount: task.litres, unit: 'L' },
        { what: 'from the first big bubbles', amount: minutes, unit: 'min' },
      ],
      ifNot: 'Bubbles stop: start the count again. Cloudy: strain it through cloth first.',
      minutes: Math.ceil(task.minutes),
      handsOn: false,
      rank: 41,
      of: task.id,
      follows: false,
    },
  ];
}

function meltSnow(context: ScheduleContext, task: PlanTask): StepDraft[] {
  const { household } = context.plan.resolved;
  const place = household.places.find((one) => one.id === context.plan.request.placeId) ?? household.places[0];
  const boil = boilMinutesToMakeSafe(place?.elevationM ?? 0);
  const pot = thingName(context.plan.resolved.household, task.vesselId);
  const when = onTheFireWhen(context.plan, context.lightings.get(task.lightingId ?? ''), task.at);
  return [
    {
      ...BLANK,
      at: task.at,
      action: 'treat-water',
      text: `Melt clean snow in the ${pot}${when}, bit by bit, over a cup of water. Then boil it ${boil}\u00a0min, lid on.`,
      quantities: [
        { what: 'water from snow', amount: task.litres, unit: 'L' },
        { what: 'loose snow, about', amount: Math.ceil(task.litres / WATER_L_PER_L_OF_SNOW.value), unit: 'L' },
      ],
      ifNot: 'It smells scorched: add water at once. Yellow, grey or old snow: leave it.',
      minutes: Math.ceil(task.minutes),
      rank: 39,
      of: task.id,
      follows: false,
    },
  ];
}

function nightFeed(context: ScheduleContext, task: PlanTask): StepDraft[] {
  const { household } = context.plan.resolved;
  const from = thingName(household, task.from ?? null);
  const isStove = household.stoves?.some((stove) => stove.id === task.from) === true;
  const least = task.temperatureC ?? 70;
  return [
    {
      ...BLANK,
      at: task.at,
      action: 'night-feed',
      text: `Mix the feed, ${sinceEvent(context.plan, task.at)}, with water ${isStove ? `boiled on the ${from}, cooled to no less than` : `from the ${from}, at least`} ${temperatureBoth(least, 'metric', 'up')}. Cool it under a cup of cold water.`,
      quantities: [{ what: 'hot water', amount: task.litres, unit: 'L' }],
      latestAt: addMinutes(task.at, 60),
      ifNot: 'Colder than that: boil water. Throw away what is left after 2\u00a0h.',
      minutes: 10,
      rank: 42,
      of: task.id,
      follows: false,
    },
  ];
}

/** The dates on which a fire burns, for sheets. */
export function lightingDate(lighting: Lighting): string {
  return dateOf(lighting.at);
}
