/** What a schema cannot see: names in one part of a document that must exist in another. */

import type { Kit } from '../cooking/dishes/kit.ts';
import type { HouseholdDocument } from '../cooking/household/kitchen.ts';
import { HOUSEHOLD_DEFAULTS } from '../cooking/household/resolve-household.ts';
import type { PlanRequest } from '../planning/plan-types.ts';
import type { FieldError } from './problem.ts';
import { jsonPointer, refuseFaults } from './problem.ts';

type Path = (string | number)[];

/**
 * Refuses a household that names places or vessels it does not have, gives one id to two things, goes to bed before it gets up, or weighs a container
 * lighter than its tare or reads water hotter than it was.
 * @param at where the household stands in the body; empty when it is the body
 * @throws RefusedError 422 with every such field
 */
export function requireSoundHousehold(household: HouseholdDocument, at: Path = []): void {
  const errors: FieldError[] = [];
  const places = new Set(household.places.map((place) => place.id));
  const vessels = new Set((household.vessels ?? []).map((vessel) => vessel.id));
  const requirePlace = (placeId: string | undefined, path: Path) => {
    if (placeId === undefined || places.has(placeId)) return;
    errors.push(unknown([...at, ...path, 'placeId'], placeId, 'place'));
  };
  household.water?.lots?.forEach((lot, index) => {
    requirePlace(lot.placeId, ['water', 'lots', index]);
  });
  household.fuels?.forEach((fuel, index) => {
    fuel.containers?.forEach((container, nth) => {
      const path: Path = ['fuels', index, 'containers', nth];
      requirePlace(container.placeId, path);
      const { grossKg, tareKg } = container;
      if (grossKg !== undefined && tareKg !== undefined && grossKg < tareKg) {
        const detail = `Must be at least the empty weight, ${tareKg} kg.`;
        errors.push({
          pointer: jsonPointer([...at, ...path, 'grossKg']),
          detail,
          value: grossKg,
          minimum: tareKg,
          unit: 'kg',
        });
      }
    });
  });
  const listOf = new Map<string, string>();
  for (const list of ['stoves', 'vessels', 'boxes'] as const) {
    household[list]?.forEach((thing, index) => {
      requirePlace(thing.placeId, [list, index]);
      // A plan says by id what is in use from when to when, and a request what is out of use.
      const other = listOf.get(thing.id);
      if (other !== undefined && other !== list) {
        const detail = `One of the ${other} has this id; stoves, vessels and boxes need ids of their own.`;
        errors.push({ pointer: jsonPointer([...at, list, index, 'id']), detail, value: thing.id });
      }
      listOf.set(thing.id, list);
    });
  }
  household.stoves?.forEach(({ typeId, powerKW }, index) => {
    // A row that spans all stoves of a fuel says nothing of this one's size.
    if (!typeId.startsWith('other-') || powerKW !== undefined) return;
    const detail = 'Give the power on the label: no row of the table fits this stove.';
    const range = { minimum: 0.1, maximum: 30, unit: 'kW' };
    errors.push({ pointer: jsonPointer([...at, 'stoves', index, 'powerKW']), detail, ...range });
  });
  const { waking } = household;
  if (waking !== undefined && waking.to <= waking.from) {
    const detail = `Must be after ${waking.from} on the same day: a plan counts the hours from getting up to going to bed.`;
    errors.push({ pointer: jsonPointer([...at, 'waking', 'to']), detail, value: waking.to });
  }
  for (const list of ['vessels', 'boxes'] as const) {
    household[list]?.forEach(({ reading }, index) => {
      if (reading?.startC === undefined || reading.temperatureC <= reading.startC) return;
      errors.push({
        pointer: jsonPointer([...at, list, index, 'reading', 'temperatureC']),
        detail: `Must not be above the temperature at the start, ${reading.startC} C.`,
        value: reading.temperatureC,
        minimum: 0,
        maximum: reading.startC,
        unit: 'C',
      });
    });
  }
  household.boxes?.forEach((box, index) => {
    box.fits.forEach((vesselId, nth) => {
      if (!vessels.has(vesselId)) errors.push(unknown([...at, 'boxes', index, 'fits', nth], vesselId, 'vessel'));
    });
  });
  refuseFaults(errors);
}

/**
 * Refuses a request that names people, meals, places, things or kits that the household does not have.
 * @throws RefusedError 422 with every such field
 */
export function requireSoundRequest(request: PlanRequest, household: HouseholdDocument, kits: readonly Kit[]): void {
  const errors: FieldError[] = [];
  const places = new Set(household.places.map((place) => place.id));
  const people = new Set(household.people.map((person) => person.label));
  const meals = new Set((household.meals ?? HOUSEHOLD_DEFAULTS.meals).map((meal) => meal.id));
  const kitIds = new Set(kits.map((kit) => kit.id));
  const vessels = new Set((household.vessels ?? []).map((vessel) => vessel.id));
  const stoves = new Set((household.stoves ?? []).map((stove) => stove.id));
  const boxes = new Set((household.boxes ?? []).map((box) => box.id));
  const requireIn = (known: ReadonlySet<string>, name: string | null | undefined, path: Path, what: string) => {
    if (name !== null && name !== undefined && !known.has(name)) errors.push(unknown(path, name, what));
  };
  // A plan names kits with swapped parts by ids of their own, and what it names may be pinned or gone on with.
  const storedKitId = (named: string) => kits.find((kit) => named.startsWith(`${kit.id}--`))?.id ?? named;
  const requireSpan = (span: { from: string; to?: string | null }, path: Path) => {
    if (typeof span.to === 'string' && span.to <= span.from) {
      errors.push({ pointer: jsonPointer([...path, 'to']), detail: 'Must be after `from`.', value: span.to });
    }
  };
  requireIn(places, request.placeId, ['placeId'], 'place');
  request.carryFrom?.forEach((placeId, index) => {
    requireIn(places, placeId, ['carryFrom', index], 'place');
  });
  request.kitIds?.forEach((kitId, index) => {
    requireIn(kitIds, kitId, ['kitIds', index], 'kit');
  });
  request.attendance?.forEach((entry, index) => {
    requireIn(meals, entry.mealId, ['attendance', index, 'mealId'], 'meal');
    entry.people?.forEach((person, at) => {
      requireIn(people, person, ['attendance', index, 'people', at], 'person');
    });
  });
  request.pinned?.forEach((pin, index) => {
    requireIn(kitIds, storedKitId(pin.kitId), ['pinned', index, 'kitId'], 'kit');
    requireIn(stoves, pin.method?.stoveId, ['pinned', index, 'method', 'stoveId'], 'stove');
    requireIn(vessels, pin.method?.vesselId, ['pinned', index, 'method', 'vesselId'], 'vessel');
  });
  request.inProgress?.forEach((entry, index) => {
    requireIn(kitIds, storedKitId(entry.kitId), ['inProgress', index, 'kitId'], 'kit');
    requireIn(vessels, entry.vesselId, ['inProgress', index, 'vesselId'], 'vessel');
    requireIn(boxes, entry.boxId, ['inProgress', index, 'boxId'], 'box');
  });
  request.noFlame?.forEach((span, index) => {
    requireSpan(span, ['noFlame', index]);
  });
  const things = new Set([...vessels, ...stoves, ...boxes]);
  request.outOfUse?.forEach((entry, index) => {
    requireIn(things, entry.id, ['outOfUse', index, 'id'], 'stove, vessel or box');
    requireSpan(entry, ['outOfUse', index]);
  });
  refuseFaults(errors);
}

function unknown(path: Path, value: string, what: string): FieldError {
  return { pointer: jsonPointer(path), detail: `There is no ${what} of this name.`, value };
}
