/** What a plan takes for granted, one short line each, for the box on the first sheet. */
import { boilingPointAtElevationC } from '../physics/boiling-point.ts';
import type { PlanDraft } from '../planning/plan-types.ts';
import { clockChange } from './clock-change.ts';
import { elevationBoth, temperatureBoth, type UnitSystem } from './units.ts';

const WIND_WORDS = {
  still: 'no wind at the flame',
  screened: 'a wind screen around the flame',
  light: 'a light wind at the flame',
  moderate: 'a moderate wind at the flame',
} as const;

/**
 * The lines of the assumption box: place and boiling point, air, a change of the clocks, water at the start, wind, lids, box, thermometer,
 * reserve and percentile.
 * @param plan a plan, with or without its steps
 * @param system which unit comes first
 */
export function assumptionLines(plan: PlanDraft, system: UnitSystem): string[] {
  const { household, learned = [] } = plan.resolved;
  const place = household.places.find((one) => one.id === plan.request.placeId) ?? household.places[0];
  const lines: string[] = [];
  if (place !== undefined) {
    const boiling = boilingPointAtElevationC(place.elevationM);
    lines.push(`At ${elevationBoth(place.elevationM, system)} water boils at ${temperatureBoth(boiling, system)}.`);
    const air: string[] = [];
    if (place.outdoorC !== undefined) air.push(`outdoors ${temperatureBoth(place.outdoorC, system)}`);
    if (place.indoorC !== undefined) {
      const falls = place.indoorFallsToC !== undefined && place.indoorFallsToC !== place.indoorC;
      const end = falls ? `, falling to ${temperatureBoth(place.indoorFallsToC as number, system)} by day 5` : '';
      air.push(`indoors ${temperatureBoth(place.indoorC, system)}${end}`);
    }
    if (air.length > 0) lines.push(`Air: ${air.join('; ')}.`);
    if (place.wind !== undefined) lines.push(`Flames have ${WIND_WORDS[place.wind]}.`);
  }
  const change = clockChange(plan);
  if (change !== null) lines.push(change.text);
  const temperatures = (household.water?.lots ?? [])
    .map((lot) => lot.temperatureC)
    .filter((value): value is number => value !== undefined);
  if (temperatures.length > 0) {
    lines.push(`Water starts at ${temperatureBoth(Math.min(...temperatures), system)} or warmer.`);
  }
  const loose = (household.vessels ?? []).filter((vessel) => vessel.kind === 'pot' && vessel.lid !== 'snug');
  lines.push(loose.length === 0 ? 'Every pot has its lid on.' : 'Pots have their lids on as you entered them.');
  const boxes = household.boxes ?? [];
  if (plan.cookings.some((cooking) => cooking.method.finish === 'box')) {
    const box = boxes[0];
    const read = new Set(learned.filter((one) => one.quantity === 'timeConstantHours').map((one) => one.of));
    const measured = boxes.some((one) => one.reading !== undefined || read.has(one.id));
    const wall = box?.thicknessMm === undefined ? '' : `, walls ${box.thicknessMm}\u00a0mm`;
    lines.push(measured ? 'The box holds heat as you measured it.' : `The box${wall} is not measured yet.`);
  }
  lines.push(
    household.thermometer === true
      ? 'You have a thermometer.'
      : 'You have no food thermometer, so times are the short ones.',
  );
  // A burner's power says little to whoever cooks; what it burns, how a box keeps and how beans soften does.
  for (const { quantity, figure } of learned) {
    if (quantity !== 'powerKW') lines.push(`Measured by you. ${figure.text}`);
  }
  lines.push('The fuel set aside suffices 9 times in 10. A reserve comes on top.');
  return lines;
}
