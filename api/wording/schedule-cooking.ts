/** The steps of one dish: soak, drain, put on, boil, add, turn down, box or flask, check. */

import { isMilkPowder, potFoods } from '../cooking/dishes/dish.ts';
import { foodInPart, isEatenAsItIs, type Kit } from '../cooking/dishes/kit.ts';
import { foodOf } from '../cooking/foods/foods-table.ts';
import { wholePotBoilMinutes } from '../cooking/kinetics/box-cooking.ts';
import { litresToCups } from '../physics/units.ts';
import type { Cooking, PlannedSoak } from '../planning/plan-types.ts';
import { coldByChoiceWords } from './chosen-point.ts';
import { inSentence, partOf, softnessTest, thingName } from './names.ts';
import type { ScheduleContext, StepDraft } from './schedule.ts';
import { COOL_DOWN_MINUTES, SPIRIT_FUELS } from './schedule-fires.ts';
import { addMinutes, clockOnSheetOf, dateOf, durationText, localMs, minutesBetween, waitText } from './times.ts';
import { pressureBoth, temperatureBoth } from './units.ts';
import { onTheFireWhen, sinceEvent } from './without-clock.ts';

type Quantity = StepDraft['quantities'][number];

/** The least temperature of food that was kept hot, C (FSIS: 140 F). */
const HOT_C = 60;
/**
 * Below this nobody knows how long a box has been too cool, C: common practice, worked out here. A box that loses half of
 * its heat in 15 h falls by 2.5 K an hour or faster at 60 C in a cold room, so 55 C is reached within the 2 h that food
 * may stay below 60 C.
 */
const TOO_COLD_C = 55;
/** Water colder than this may be frozen in its can, C. */
const MAY_BE_ICE_C = 1;
/** Minutes by which a soak may begin late without asking for a new plan (common practice). */
const LATE_SOAK_MINUTES = 30;
/** Drained beans wait no longer than this for the pot; damp ones spoil (trade notes H2). */
const DRAIN_BEFORE_MINUTES = 10;
/** A little time to lift, wipe, open: common practice. */
const HANDLING_MINUTES = 3;

/** Minutes of hard boil that beans need, 0 without beans of the kidney family. */
function hardBoilMinutes({ method: { lectin } }: Cooking): number {
  return lectin.verdict === 'safe' ? Math.ceil(lectin.boilMinutesNeeded) : 0;
}

/** Minutes at the boil (or at pressure) that are printed: whole ones, never fewer than the beans need; 0 without a boil. */
export function typicalBoilMinutes(cooking: Cooking): number {
  if (cooking.method.heatToC !== undefined) return 0;
  return Math.max(1, Math.ceil(cooking.method.boilMinutes?.p50 ?? 0), hardBoilMinutes(cooking));
}

/**
 * When a dish that ends on the flame typically leaves it.
 * @returns local date-time
 */
export function offTheFireAt(cooking: Cooking): string {
  const { minutesToBoil } = cooking.method;
  return addMinutes(addMinutes(cooking.startsAt, minutesToBoil?.p50 ?? 0), typicalBoilMinutes(cooking));
}

/** The steps of one cooking, in the order in which hands do them. */
export function cookingSteps(context: ScheduleContext, cooking: Cooking): StepDraft[] {
  const maker = new CookingWords(context, cooking);
  return maker.steps();
}

class CookingWords {
  readonly cooking: Cooking;
  readonly kit: Kit | undefined;
  readonly made: StepDraft[] = [];
  readonly pot: string;
  readonly stove: string;
  readonly meal: string | null;
  readonly eatAt: string;
  readonly hasKidneyFamily: boolean;
  private readonly context: ScheduleContext;

  constructor(context: ScheduleContext, cooking: Cooking) {
    this.context = context;
    this.cooking = cooking;
    this.kit = context.kits.get(cooking.kitId);
    const { household } = context.plan.resolved;
    this.pot = thingName(household, cooking.method.vesselId);
    this.stove = thingName(household, cooking.method.stoveId);
    const meal = context.plan.meals.find((one) => one.dishes.some((dish) => dish.cookingId === cooking.id));
    this.meal = meal?.id ?? null;
    this.eatAt = meal?.eatAt ?? cooking.doneAt;
    this.hasKidneyFamily = (this.kit?.parts ?? []).some((part) =>
      part.ingredients.some((ingredient) => ingredient.massG > 0 && foodOf(ingredient)?.lectin === 'kidney-family'),
    );
  }

  steps(): StepDraft[] {
    const { method } = this.cooking;
    if (method.soak !== null) this.soak(method.soak);
    if (method.finish === 'no-heat' || method.lightingId === null) this.withoutFire();
    else if (method.pours !== undefined) this.waterInFlask(method.pours.standMinutes);
    else this.onTheFire();
    return this.made;
  }

  private thing(id: string | null): string {
    return thingName(this.context.plan.resolved.household, id);
  }

  private add(
    step: Pick<StepDraft, 'at' | 'action' | 'text'> & Partial<Omit<StepDraft, 'at' | 'action' | 'text'>>,
  ): void {
    this.made.push({
      latestAt: null,
      quantities: [],
      ifNot: null,
      meal: this.meal,
      minutes: HANDLING_MINUTES,
      handsOn: true,
      cookingId: this.cooking.id,
      rank: 50 + this.made.length,
      of: this.cooking.id,
      follows: this.made.length > 0,
      ...step,
    });
  }

  private soak(soak: PlannedSoak): void {
    const bowl = this.thing(soak.vesselId);
    const until = addMinutes(soak.at, soak.hours * 60);
    const drainAt = this.drainAt(until);
    const salted = soak.additive === 'salt' ? ' with salt' : soak.additive === 'bicarbonate' ? ' with soda' : '';
    // What was in water when the plan began is drained, not set again.
    if (soak.begun !== true)
      this.add({
        at: soak.at,
        action: 'soak',
        text: `Soak ${this.partNames(soak.partIds)}${salted} in the ${bowl} ${sinceEvent(this.context.plan, soak.at)}, for ${waitText(soak.hours * 60)}, indoors, off the floor. Label it.`,
        quantities: [
          ...soak.partIds.flatMap((partId) => this.partQuantities(partId)),
          { what: `safe water${soak.start === 'hot' ? ', boiling hot' : ''}`, amount: soak.waterL, unit: 'L' },
        ],
        latestAt: addMinutes(soak.at, LATE_SOAK_MINUTES),
        ifNot: `Begun after ${clockOnSheetOf(soak.at, addMinutes(soak.at, LATE_SOAK_MINUTES))}: make a new plan.`,
        minutes: 5,
        rank: 80,
      });
    if (!soak.discardWater) return;
    const poured = this.cooking.waterL.soakPouredAway;
    const rinse = this.cooking.waterL.rinse;
    this.add({
      at: drainAt,
      action: 'drain',
      text: `Drain the ${bowl} after ${waitText(minutesBetween(soak.at, drainAt))} in water, into the flush bucket. Never drink that water.`,
      quantities: [
        ...(poured > 0 ? [{ what: 'to pour away', amount: poured, unit: 'L' }] : []),
        ...(rinse > 0 ? [{ what: 'safe water to rinse', amount: rinse, unit: 'L' }] : []),
      ],
      latestAt: this.cooking.startsAt,
      ifNot: `Foam or a sour smell: throw it away, serve the no-fire meal. Ice in it: plan anew.`,
      minutes: 4,
    });
  }

  /** Just before the pot goes on, never at an hour before the soak is over. */
  private drainAt(soakedAt: string): string {
    const before = addMinutes(this.cooking.startsAt, -DRAIN_BEFORE_MINUTES);
    const soaked = localMs(soakedAt) > localMs(this.cooking.startsAt) ? this.cooking.startsAt : soakedAt;
    return localMs(before) > localMs(soaked) ? before : soaked;
  }

  private withoutFire(): void {
    const { waterL, startsAt, doneAt, method } = this.cooking;
    const bowlId = method.vesselId ?? this.freeBowl(startsAt, this.eatAt);
    const bowl = bowlId === null ? 'clean bowl' : this.thing(bowlId);
    const wait = Math.max(0, minutesBetween(startsAt, doneAt));
    if (isEatenDry(this.cooking, this.kit)) {
      this.add({
        at: this.eatAt,
        action: 'serve',
        text: `Serve the ${inSentence(this.cooking.kitName)} from the bags, without fire${coldByChoiceWords(this.context.plan.meals.find(({ id }) => id === this.meal))}, ${sinceEvent(this.context.plan, this.eatAt, this.meal)}.`,
        quantities: this.allParts(),
        minutes: 30,
        rank: 62,
      });
      return;
    }
    this.add({
      at: startsAt,
      action: 'rehydrate',
      text: `Stir the ${inSentence(this.cooking.kitName)} into safe water in the ${bowl}, ${sinceEvent(this.context.plan, startsAt)}. Cover it for ${waitText(minutesBetween(startsAt, this.eatAt))}.`,
      quantities: [{ what: 'safe water', amount: waterL.inPot, unit: 'L' }, ...this.wettedParts()],
      ifNot: 'Still hard: leave it longer, no more than 2 h from the water to the last bite.',
      latestAt: addMinutes(this.eatAt, -wait),
      minutes: Math.ceil(wait),
      handsOn: false,
    });
  }

  /** A bowl that holds the dish and that no soak needs until it is eaten; the plan leaves the choice to the cook. */
  private freeBowl(from: string, to: string): string | null {
    const { cookings, resolved } = this.context.plan;
    const soaks = cookings.flatMap((one) =>
      one.method.soak === null ? [] : [{ id: one.method.soak.vesselId, from: one.method.soak.at, to: one.startsAt }],
    );
    const free = (resolved.household.vessels ?? []).filter(
      (vessel) =>
        vessel.kind === 'soak-bowl' &&
        vessel.capacityL > this.cooking.waterL.inPot &&
        !soaks.some(
          (soak) => soak.id === vessel.id && localMs(soak.from) < localMs(to) && localMs(from) < localMs(soak.to),
        ),
    );
    return free[0]?.id ?? null;
  }

  private onTheFire(): void {
    const { cooking, pot, stove } = this;
    const { method, waterL } = cooking;
    const additions = this.lateParts();
    const late = new Set(additions.flatMap(([, parts]) => parts));
    const first = (this.kit?.parts ?? []).filter((part) => !late.has(part.id) && !isEatenAsItIs(part));
    const soakedIds = new Set(method.soak?.partIds ?? []);
    const toBoil = method.minutesToBoil?.p50 ?? 0;
    const hold = method.boilMinutes ?? { p10: 0, p50: 0, p90: 0 };
    let onAt = cooking.startsAt;
    if (method.firstWater === 'poured-away') {
      const beans = first.filter((part) => this.isKidneyPart(part.id));
      this.add({
        at: onAt,
        action: 'put-on',
        text: `Put the ${pot} on the ${stove}${this.when()} with the beans of ${this.dish()} alone: lid on, ${this.bigFire()}.`,
        quantities: [
          { what: 'safe water', amount: waterL.rinse || waterL.inPot, unit: 'L' },
          ...beans.flatMap((part) => this.partQuantities(part.id)),
        ],
      });
      onAt = addMinutes(onAt, toBoil / 2);
      this.add({
        at: onAt,
        action: 'drain',
        text: `Pour this first water away after 1 min of boiling. Never drink it.`,
        ifNot: 'No boil yet: wait for it before you pour.',
      });
    }
    const again = method.firstWater === 'poured-away';
    const beforeBoil = again ? toBoil / 2 : toBoil;
    this.add({
      at: onAt,
      action: 'put-on',
      text:
        method.gaugeKPa === null
          ? `Put the ${pot} on the ${stove}${again ? ' again' : this.when()} for ${this.dish()}: lid on, ${this.bigFire()}.${this.stirringWords()}`
          : `Put the ${pot} on the ${stove}${again ? ' again' : this.when()} for ${this.dish()}: lid shut, ${this.bigFire()}. Let the air out until steam flows, then close the vent.`,
      quantities: [
        {
          what: method.firstWater === 'poured-away' ? 'fresh safe water' : 'safe water',
          amount: waterL.inPot,
          unit: 'L',
        },
        ...first
          .filter((part) => !(method.firstWater === 'poured-away' && this.isKidneyPart(part.id)))
          .flatMap((part) =>
            soakedIds.has(part.id)
              ? [{ what: `soaked ${inSentence(part.name)}, all of it`, amount: 1, unit: 'bowl' }]
              : this.partQuantities(part.id),
          ),
      ],
      ifNot: this.waterMayBeIce() ? 'The water is ice: melt it in the pot, then make a new plan for the fuel.' : null,
      minutes: Math.ceil(beforeBoil),
      latestAt: null,
    });
    if (method.heatToC !== undefined) {
      this.takeOffUnboiled(addMinutes(onAt, toBoil), method.temperatureC ?? method.heatToC);
      return;
    }
    const boilAt = addMinutes(onAt, beforeBoil);
    for (const [atMinute, parts] of additions) if (atMinute === 0) this.addParts(boilAt, parts, 'as it boils');
    if (method.gaugeKPa === null) this.openBoil(boilAt, hold);
    else this.pressure(boilAt, hold, method.gaugeKPa);
    const offAt = addMinutes(boilAt, this.typicalMinutes());
    for (const [atMinute, parts] of additions) {
      if (atMinute > 0)
        this.addParts(addMinutes(boilAt, atMinute), parts, `after ${durationText(atMinute)} of boiling`);
    }
    if (method.finish === 'box') this.intoBox(offAt);
    else if (method.finish === 'flask') this.intoFlask(offAt);
    else if (cooking.keptFor !== undefined) this.keepRest(cooking.keptFor);
    else if (method.gaugeKPa === null) this.takeOff(offAt);
  }

  private addParts(at: string, parts: readonly string[], when: string): void {
    this.add({
      at,
      action: 'add',
      text: `Add the ${parts.map((id) => this.partName(id)).join(', the ')} ${when}. Stir. Lid on.`,
      quantities: parts.flatMap((id) => this.partQuantities(id)),
      minutes: 2,
    });
  }

  /** When the pot goes on, for whoever has no clock. */
  private when(): string {
    const lighting = this.context.lightings.get(this.cooking.method.lightingId ?? '');
    return onTheFireWhen(this.context.plan, lighting, this.cooking.startsAt);
  }

  /** "the oat porridge with apple" */
  private dish(): string {
    return `the ${inSentence(this.cooking.kitName)}`;
  }

  /** The flame that brings a pot to the boil, in words for its fuel. */
  private bigFire(): string {
    const fuelId = this.context.lightings.get(this.cooking.method.lightingId ?? '')?.fuelId;
    const small = this.cooking.method.flame === 'low';
    if (fuelId === 'wood' || fuelId === 'charcoal') return small ? 'small fire' : 'strong fire';
    if (fuelId === 'electricity') return small ? 'low heat' : 'full heat';
    return small ? 'small flame' : 'full flame';
  }

  /** Whether the pot goes on softening off the fire, so that nothing is tested at the fire's end. */
  private softensOn(): boolean {
    return this.cooking.method.finish !== 'flame' || this.cooking.method.standMinutes !== undefined;
  }

  private waterMayBeIce(): boolean {
    const lots = this.context.plan.resolved.household.water?.lots ?? [];
    return lots.some((lot) => lot.temperatureC === undefined || lot.temperatureC < MAY_BE_ICE_C);
  }

  private hardMinutes(): number {
    return hardBoilMinutes(this.cooking);
  }

  private typicalMinutes(): number {
    return typicalBoilMinutes(this.cooking);
  }

  private openBoil(boilAt: string, hold: { p50: number; p90: number }): void {
    const { method } = this.cooking;
    const hardMinutes = this.hardMinutes();
    const typical = this.typicalMinutes();
    const longest = Math.max(Math.ceil(hold.p90), typical);
    const test = softnessTest(this.kit);
    const boxed = this.softensOn();
    const more =
      longest > typical
        ? `Not soft: boil on, up to ${durationText(longest)} in all, its fuel is set aside.`
        : 'Not soft: boil 10 min more.';
    const countAgain =
      hardMinutes > 0 ? ` The bubbles stop before ${durationText(hardMinutes)}: start the count again.` : '';
    // A burner that ran dry is hot: it is never refilled before it is cold.
    const fuelId = this.context.lightings.get(method.lightingId ?? '')?.fuelId ?? '';
    const fireOut = SPIRIT_FUELS.has(fuelId)
      ? ` The flame goes out: let the burner cool ${COOL_DOWN_MINUTES} min, refill it, light it again.`
      : '';
    const topUpL = this.cooking.waterL.topUp ?? 0;
    const boilsLow = topUpL > 0 ? ' The food shows above the water: add the water at hand a cup at a time.' : '';
    const testing = boxed ? (method.finish === 'flame' ? '' : 'Keep the lid on.') : `Test ${test}.`;
    // Without beans of the kidney family the flame goes down as soon as it boils: no step of its own.
    const slow = hardMinutes === 0 && typical > 10 ? ` ${this.turnDownText()}` : '';
    this.add({
      at: boilAt,
      action: 'boil',
      text:
        hardMinutes > 0
          ? `Boil ${durationText(typical)} from the first big bubbles, big all the time. ${testing}`
          : `Boil ${durationText(typical)} from the first big bubbles.${slow} ${testing}`.trim(),
      quantities: [
        { what: 'from the first big bubbles', amount: typical, unit: 'min' },
        ...(topUpL > 0 ? [{ what: 'safe water at hand', amount: topUpL, unit: 'L' }] : []),
      ],
      ifNot: `${boxed ? '' : more}${boilsLow}${countAgain}${fireOut}`.trim() || null,
      minutes: typical,
      handsOn: false,
    });
    if (hardMinutes > 0 && typical - hardMinutes > 15) {
      this.add({
        at: addMinutes(boilAt, hardMinutes),
        action: 'turn-down',
        text: this.turnDownText(` after ${durationText(hardMinutes)} of boiling`),
        minutes: 1,
        ifNot: 'No bubbles: turn it up a little.',
      });
    }
  }

  /** @param when with a space before it; empty where it is done at once */
  private turnDownText(when = ''): string {
    const lighting = this.context.lightings.get(this.cooking.method.lightingId ?? '');
    if (lighting?.fuelId === 'wood' || lighting?.fuelId === 'charcoal') {
      return `Feed the fire less${when}, for a slow bubble.`;
    }
    return `Turn the flame down${when} to a slow bubble.`;
  }

  private pressure(boilAt: string, hold: { p50: number; p90: number }, gaugeKPa: number): void {
    const { method } = this.cooking;
    const typical = this.typicalMinutes();
    const longest = Math.max(Math.ceil(hold.p90), typical);
    const giveUp = Math.ceil((method.minutesToBoil?.p90 ?? 20) + 10);
    this.add({
      at: boilAt,
      action: 'boil',
      text: `Hold ${durationText(typical)} at full pressure, ${pressureBoth(gaugeKPa, 'metric')}, on a low flame.`,
      quantities: [{ what: 'from full pressure', amount: typical, unit: 'min' }],
      ifNot: `No pressure after ${durationText(giveUp)}: shut the flame off, check vent, gasket, make a new plan. Pressure lost: start the count again.`,
      minutes: typical,
      handsOn: false,
    });
    this.add({
      at: addMinutes(boilAt, typical),
      action: 'take-off',
      text: `Take the ${this.pot} off after ${durationText(typical)} at pressure, lid shut.`,
      minutes: 1,
    });
    this.add({
      at: addMinutes(boilAt, typical),
      action: 'release-pressure',
      text: `Let the pressure fall by itself, about ${durationText(Math.max(1, method.releaseMinutes))}. Open the lid away from you.`,
      ifNot:
        longest > typical
          ? `Not soft: hold ${durationText(longest - typical)} more at full pressure, its fuel is set aside.`
          : 'Not soft: hold 5 min more at full pressure.',
      minutes: Math.ceil(Math.max(1, method.releaseMinutes)),
      handsOn: false,
    });
  }

  private intoBox(offAt: string): void {
    const box = this.thing(this.cooking.method.boxId);
    const openAt = addMinutes(this.eatAt, -5);
    this.add({
      at: offAt,
      action: 'box',
      text: `Set the boiling ${this.pot}, after its ${durationText(this.typicalMinutes())}, into the ${box} beside the stove.`,
      ifNot: 'Off the boil: boil it for 1 min more.',
    });
    this.add({
      at: addMinutes(offAt, 2),
      action: 'box',
      text: `Carry the ${box} indoors, shut for ${waitText(minutesBetween(offAt, openAt))}, until ${clockOnSheetOf(offAt, openAt)}.`,
      ifNot: 'Opened too soon: full boil before eating.',
      minutes: Math.ceil(Math.max(0, this.cooking.method.boxMinutes)),
      handsOn: false,
    });
    this.unbox(box, offAt, openAt, this.meal);
  }

  private unbox(box: string, shutAt: string, openAt: string, meal: string | null): void {
    const when = `after ${waitText(minutesBetween(shutAt, openAt))}`;
    const thermometer = this.context.plan.resolved.household.thermometer === true;
    this.add({
      at: openAt,
      action: 'unbox',
      meal,
      text: thermometer
        ? `Open the ${box} ${when}. Measure the food: ${temperatureBoth(HOT_C, 'metric', 'up')} or more.`
        : `Open the ${box} ${when}. Look for thick steam.`,
      quantities: thermometer ? [{ what: 'at least', amount: HOT_C, unit: 'C' }] : [],
      ifNot: thermometer
        ? `Colder, or not soft: give it a full boil. Below ${temperatureBoth(TOO_COLD_C, 'metric', 'up')}: throw it away.`
        : 'No steam, or opened late: bring it to a full boil before eating. Not soft: boil on.',
      rank: 60,
    });
  }

  /** Water for goods that need no boil: boiled, kept in the flask, poured over them before the meal. */
  private waterInFlask(standMinutes: number): void {
    const { cooking, pot, stove } = this;
    const flask = this.thing(cooking.method.flaskId);
    const litres = cooking.waterL.inPot;
    const boilAt = addMinutes(cooking.startsAt, cooking.method.minutesToBoil?.p50 ?? 0);
    this.add({
      at: cooking.startsAt,
      action: 'heat-water',
      text: `Boil water for ${this.dish()} in the ${pot} on the ${stove}${this.when()}, lid on, ${durationText(this.typicalMinutes())} with big bubbles.`,
      quantities: [{ what: 'safe water', amount: litres, unit: 'L' }],
      minutes: Math.ceil((cooking.method.minutesToBoil?.p50 ?? 0) + this.typicalMinutes()),
      handsOn: false,
    });
    this.add({
      at: addMinutes(boilAt, this.typicalMinutes()),
      action: 'fill-flask',
      text: `Pour the water, boiled ${durationText(this.typicalMinutes())}, into the ${flask}, warmed with hot water. Close it${dateOf(cooking.startsAt) === dateOf(this.eatAt) ? '' : ' until tomorrow'}.`,
      ifNot: 'Off the boil: boil it again, then pour.',
    });
    const pourAt = addMinutes(this.eatAt, -standMinutes);
    const bowlId = this.freeBowl(pourAt, this.eatAt);
    this.add({
      at: pourAt,
      action: 'rehydrate',
      text: `Pour the hot water of the ${flask} over ${this.dish()} in ${bowlId === null ? 'a clean pot' : `the ${this.thing(bowlId)}`}, ${sinceEvent(this.context.plan, pourAt)}. Stir. Cover it for ${durationText(standMinutes)}.`,
      quantities: this.allParts(),
      ifNot: 'No steam from the flask: boil the water again. Still hard: leave it 10 min longer.',
      latestAt: pourAt,
      minutes: Math.ceil(standMinutes),
      handsOn: false,
    });
  }

  private intoFlask(offAt: string): void {
    const flask = this.thing(this.cooking.method.flaskId);
    this.add({
      at: addMinutes(offAt, -2),
      action: 'fill-flask',
      text: `Pour the boiling dish, after its ${durationText(Math.max(1, this.typicalMinutes() - 2))}, into the ${flask}, warmed with hot water. Close it${dateOf(offAt) === dateOf(this.eatAt) ? '' : ' until tomorrow'}.`,
      ifNot: 'Off the boil: boil it again, then pour.',
    });
    this.add({
      at: addMinutes(this.eatAt, -5),
      action: 'unbox',
      text: `Open the ${flask} ${sinceEvent(this.context.plan, addMinutes(this.eatAt, -5))}. Look for thick steam.`,
      ifNot: 'No steam: bring it to a full boil before eating.',
      rank: 60,
    });
  }

  /** A batch for two meals: the first is ladled out of the boiling pot, the rest goes into the box at once. */
  private keepRest(kept: NonNullable<Cooking['keptFor']>): void {
    const box = this.thing(kept.boxId);
    const later = this.context.plan.meals.find((meal) => meal.id === kept.meal);
    if (later === undefined) return;
    const now = this.cooking.servings - kept.servings;
    this.add({
      at: kept.from,
      action: 'take-off',
      text: `Ladle out what is eaten now, after ${durationText(this.typicalMinutes())} of boiling, cover it. Let the ${this.pot} come back to the boil.`,
      quantities: [{ what: 'to eat now', amount: now, unit: 'servings' }],
      ifNot: 'Off the boil: boil it 1 min before it is boxed.',
    });
    this.add({
      at: addMinutes(kept.from, 3),
      action: 'box',
      text: `Set the boiling ${this.pot} into the ${box}, shut for ${waitText(minutesBetween(kept.from, later.eatAt))}, until ${clockOnSheetOf(kept.from, later.eatAt)}.`,
      quantities: [{ what: `for the ${later.slot} meal`, amount: kept.servings, unit: 'servings' }],
      meal: later.id,
      ifNot: 'Opened too soon: full boil before eating.',
    });
    this.unbox(box, kept.from, addMinutes(later.eatAt, -5), later.id);
  }

  private takeOff(offAt: string): void {
    const { standMinutes, boilMinutes } = this.cooking.method;
    if (standMinutes === undefined) {
      this.add({
        at: offAt,
        action: 'take-off',
        text: `Take the ${this.pot} off after ${durationText(this.typicalMinutes())} of boiling, lid on.`,
        minutes: 2,
      });
      return;
    }
    const longer = Math.ceil(boilMinutes?.p90 ?? 0) - this.typicalMinutes();
    this.add({
      at: offAt,
      action: 'take-off',
      text: `Take the ${this.pot} off after ${durationText(this.typicalMinutes())} of boiling. Let it stand ${durationText(standMinutes)}, lid shut, out of the wind. Test ${softnessTest(this.kit)}.`,
      quantities: [{ what: 'to stand', amount: standMinutes, unit: 'min' }],
      ifNot: `Not soft: back on the fire, boil on${longer > 0 ? `, up to ${durationText(longer)}, its fuel is set aside` : ' 5 min'}.`,
      minutes: standMinutes,
      handsOn: false,
    });
  }

  /** For a dish that is only heated: it holds all its goods, and milk burns on the bottom. */
  private stirringWords(): string {
    if (this.cooking.method.heatToC === undefined) return '';
    const milk = this.kit !== undefined && potFoods(this.kit).some(({ food }) => isMilkPowder(food));
    return milk ? ' Stir often: milk burns on the bottom.' : ' Stir now and then.';
  }

  /** A dish that needs no boil leaves the fire as soon as it is hot. */
  private takeOffUnboiled(offAt: string, heatToC: number): void {
    const { standMinutes = 0 } = this.cooking.method;
    const thermometer = this.context.plan.resolved.household.thermometer === true;
    const hot = thermometer
      ? `at ${temperatureBoth(heatToC, 'metric', 'up')}`
      : 'as soon as the first bubbles rise at the rim';
    this.add({
      at: offAt,
      action: 'take-off',
      text: `Take the ${this.pot} off ${hot}: it needs no boil. Stir. Let it stand ${durationText(standMinutes)}, lid shut, out of the wind.`,
      quantities: [
        ...(thermometer ? [{ what: 'at least', amount: heatToC, unit: 'C' }] : []),
        { what: 'to stand', amount: standMinutes, unit: 'min' },
      ],
      ifNot: 'It boils: take it off at once. Still hard: leave it 5 min longer.',
      minutes: standMinutes,
      handsOn: false,
    });
  }

  /** Parts that go in later, by minute after the boil. */
  private lateParts(): [number, string[]][] {
    const byMinute = new Map<number, Set<string>>();
    const firstMinute = new Map<string, number>();
    const { additions } = this.cooking.method;
    // A bag goes in with what cooks longest in it; salt and broth cook nothing, so they do not hurry a bag of milk powder.
    const cooks = (one: (typeof additions)[number]): boolean =>
      foodInPart(partOf(this.kit, one.partId), one.foodId)?.seasoning !== true;
    for (const one of additions) {
      if (!cooks(one) && additions.some((other) => other.partId === one.partId && cooks(other))) continue;
      firstMinute.set(one.partId, Math.min(firstMinute.get(one.partId) ?? Number.POSITIVE_INFINITY, one.atMinute));
    }
    for (const [partId, minute] of firstMinute) {
      if (minute <= 0) continue;
      // Never after the pot leaves the fire; what falls within a minute goes in together.
      // What goes into a box has boiled as a whole first.
      const latest = this.softensOn()
        ? Math.max(0, this.typicalMinutes() - wholePotBoilMinutes(false))
        : (this.cooking.method.boilMinutes?.p50 ?? 0);
      const whole = Math.floor(Math.min(minute, latest));
      byMinute.set(whole, (byMinute.get(whole) ?? new Set()).add(partId));
    }
    return [...byMinute].sort((a, b) => a[0] - b[0]).map(([minute, parts]) => [minute, [...parts]]);
  }

  private isKidneyPart(partId: string): boolean {
    return (partOf(this.kit, partId)?.ingredients ?? []).some(
      (ingredient) => foodOf(ingredient)?.lectin === 'kidney-family',
    );
  }

  private partName(partId: string): string {
    return inSentence(partOf(this.kit, partId)?.name ?? partId);
  }

  private partNames(partIds: readonly string[]): string {
    const names = partIds.map((id) => this.partName(id));
    return names.length === 0 ? 'the beans' : names.join(', ');
  }

  private wettedParts(): Quantity[] {
    const wetted = (this.kit?.parts ?? []).filter((part) => !isEatenAsItIs(part));
    return wetted.flatMap((part) => this.partQuantities(part.id));
  }

  private allParts(): Quantity[] {
    return (this.kit?.parts ?? []).flatMap((part) => this.partQuantities(part.id));
  }

  /** How much of a part: bags where it is whole ones, grams otherwise, and cups where it is one food. */
  private partQuantities(partId: string): Quantity[] {
    const part = partOf(this.kit, partId);
    if (part === undefined) return [];
    const massG = part.ingredients.reduce((sum, one) => sum + one.massG, 0) * this.cooking.batches;
    const what = inSentence(part.name);
    const bags = this.cooking.batches * (part.containersPerSet ?? 1);
    if (Math.abs(bags - Math.round(bags)) < 1e-6) {
      return [
        { what, amount: Math.round(bags), unit: 'bag' },
        { what, amount: massG, unit: 'g' },
      ];
    }
    const [only, second] = part.ingredients;
    const density = only === undefined || second !== undefined ? 0 : (foodOf(only)?.bulkDensityGPerL.value ?? 0);
    return [{ what, amount: massG, unit: 'g' }, ...(density > 0 ? [bulk(what, massG / density)] : [])];
  }
}

/** A heap of one food by volume: cups, or spoons where it is less than a quarter of one. */
function bulk(what: string, litres: number): Quantity {
  const cups = litresToCups(litres);
  return cups < 0.25 ? { what, amount: litres * 1000, unit: 'mL' } : { what, amount: cups, unit: 'cups' };
}

/** Whether a dish is eaten from the bags as it is: no fire, and nothing in it that must take up water. */
export function isEatenDry(cooking: Cooking, kit: Kit | undefined): boolean {
  if (cooking.method.finish !== 'no-heat') return false;
  if (cooking.waterL.inPot <= 0) return true;
  const foods = (kit?.parts ?? []).flatMap((part) => part.ingredients.map((one) => foodOf(one)));
  return foods.length > 0 && foods.every((food) => food?.kinetics.kind === 'ready' && food.kinetics.eatDry);
}

/** The date on which a cooking's fire work happens, for sheets. */
export function cookingDate(cooking: Cooking): string {
  return dateOf(cooking.startsAt);
}
