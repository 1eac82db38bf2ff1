/**
 * The rehearsal sheet: leads through weighing, boil tests, box and flask readings and old beans on a calm day, with what
 * this household should find and room to write what it found.
 */

import type { Rehearsal } from '../../cooking/measurements/rehearsal.ts';
import type { Percentiles } from '../../physics/parameter.ts';
import { cautionsForSheet, DEFER_LINE } from '../cautions.ts';
import { fuelName, inSentence } from '../names.ts';
import { fixed, NBSP } from '../numbers.ts';
import { dateText } from '../times.ts';
import { elevationBoth, massText, temperatureBoth, temperatureText, type UnitSystem, volumeBoth } from '../units.ts';
import { escapeHtml } from './html.ts';

/**
 * The whole sheet as printable HTML; it needs `/print.css` and nothing else.
 * @param rehearsal what to test and what to expect
 * @param system which units come first
 */
export function rehearsalHtml(rehearsal: Rehearsal, system: UnitSystem): string {
  const sheets = [
    firstSheet(rehearsal, system),
    boilSheet(rehearsal, system),
    coolingSheet(rehearsal, system),
    beanSheet(rehearsal, system),
  ].filter((sheet): sheet is Sheet => sheet !== null);
  const body = sheets
    .map(
      ({ title, html }, index) =>
        `<section class="card rehearsal"><header class="card-head"><${index === 0 ? 'h1' : 'h2'}>${escapeHtml(title)}</${index === 0 ? 'h1' : 'h2'}>` +
        `<p class="page-of">Page ${index + 1} of ${sheets.length}</p></header>${html}</section>`,
    )
    .join('\n');
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    `<title>Rehearsal: ${escapeHtml(rehearsal.household)}</title>\n` +
    '<link rel="stylesheet" href="/print.css">\n</head>\n' +
    `<body class="sheet normal">\n<p class="screen-only">Print this on A4 or Letter paper. It takes a calm day: an hour by the stoves, and a few looks at box, flask and beans.</p>\n<main>\n${body}\n</main>\n</body>\n</html>\n`
  );
}

interface Sheet {
  title: string;
  html: string;
}

function firstSheet(rehearsal: Rehearsal, system: UnitSystem): Sheet {
  const liquid = rehearsal.boils.some((boil) => boil.liquid);
  const cautions = cautionsForSheet({
    flame: rehearsal.boils.length > 0,
    pressureCooker: false,
    kidneyFamily: false,
    liquidFuel: liquid,
  })
    .filter(({ id }) => ['carbon-monoxide', 'fire', 'refuelling'].includes(id))
    .map(({ title, short }) => `<li><b>${escapeHtml(title)}.</b> ${escapeHtml(short)}</li>`);
  const hot =
    '<li><b>Hot pots.</b> Set a full pot down before you read anything. Steam and boiling water scald. Children stay 1 m (3 ft) away.</li>';
  const rows = rehearsal.containers.map(({ fuelId, id, tareKg }) => [
    `${escapeHtml(capital(fuelName(fuelId)))}: ${escapeHtml(id.replaceAll('-', ' '))}`,
    tareKg === null ? '' : escapeHtml(massText(tareKg, system)),
    '',
    '',
  ]);
  const pots = rehearsal.pots.map(({ name, massKg, diameterMm, capacityL }) => [
    escapeHtml(name),
    massKg === null ? '' : escapeHtml(massText(massKg, system)),
    diameterMm === null ? '' : `${fixed(diameterMm)}${NBSP}mm`,
    escapeHtml(volumeBoth(capacityL, system)),
  ]);
  return {
    title: `Rehearsal: ${rehearsal.household}`,
    html:
      paragraphs([
        'Your stoves, boxes and beans differ from any table. A few tests on a calm day make the plan yours: it then says what you need with less to spare.',
        'You need a kitchen scale (grams), a thermometer, a clock, a jug, this sheet and a pencil. Write what you see, even where it looks wrong. Enter it afterwards under your measurements.',
      ]) +
      `<div class="danger"><ul>${cautions.join('')}${hot}</ul><p>${escapeHtml(DEFER_LINE)}</p></div>` +
      '<h2 class="part">1. Weigh what you burn</h2>' +
      list([
        'Weigh each container cold and dry: with fuel, and empty where you have an empty one.',
        'For wood, weigh what you lay ready, and what is left over after the test.',
        'Weigh each pot with its lid: a heavy pot takes fuel of its own.',
      ]) +
      table(['Container', 'Empty, by you or the label', 'With fuel, before', 'After all tests'], rows) +
      (pots.length === 0 ? '' : table(['Pot', 'Weight with lid', 'Width across the base', 'Holds to the brim'], pots)) +
      '<h2 class="part">What comes next</h2>' +
      list([
        'Soak beans for the last test tonight. They take the longest.',
        'Boil first. Use the boiling water for box and flask.',
      ]),
  };
}

function boilSheet({ boils, left, calmDayC, elevationM }: Rehearsal, system: UnitSystem): Sheet | null {
  if (boils.length === 0 && left.length === 0) return null;
  const rows = boils.map(({ stoveName, fuelId, vesselName, litres, fuel, unit, minutes }) => [
    `<b>${escapeHtml(stoveName)}</b>, ${escapeHtml(fuelName(fuelId))}<br>${escapeHtml(vesselName)}, ${escapeHtml(volumeBoth(litres, system))} of water`,
    `${fuelBand(fuel, unit)}<br>${band(minutes, (value) => fixed(value))}${NBSP}min`,
    ...Array<string>(5).fill(''),
  ]);
  return {
    title: '2. Boil test, once for each stove',
    html:
      list([
        'Choose a spot out of the wind. Let the burner get cold before you weigh or refill it.',
        'Measure the water. Write its temperature. Weigh the fuel with its container.',
        'Light, put the pot on, lid on. Cook with the flame that you use every day.',
        'Stop the clock at a rolling boil. Shut the flame at once.',
        'Let it cool. Weigh the fuel again. For wood, weigh the ends that are left, put out and dry.',
        'Write the wind (none, screened, light, moderate) and the lid (snug, loose, none).',
        'Twice is better than once: one test may always go wrong.',
      ]) +
      `<p class="small">Expected at ${escapeHtml(elevationBoth(elevationM, system))}, water and air at ${escapeHtml(temperatureBoth(calmDayC, system))}, no wind, lid on, lighting included. In brackets: where 8 of 10 tests lie. Other weather or water is no harm, if you write it down.</p>` +
      table(
        ['Stove, pot, water', 'Expected', 'Water at start', 'Fuel before', 'Fuel after', 'Min. to boil', 'Wind, lid'],
        rows,
        'boils',
      ) +
      (left.length === 0
        ? ''
        : `<p>Not worked out: ${escapeHtml(left.map(({ name, reason }) => `${inSentence(name)} (${reason})`).join('; '))}.</p>`) +
      '<p>Far outside the brackets? Try once more before you enter it: was the lid off, the container warm, the flame turned down?</p>',
  };
}

function coolingSheet({ coolings, startC }: Rehearsal, system: UnitSystem): Sheet | null {
  if (coolings.length === 0) return null;
  const rows = coolings.map(({ name, vesselName, fillL, hours, temperatureC }) => [
    `<b>${escapeHtml(name)}</b>${vesselName === null ? '' : `, ${escapeHtml(inSentence(vesselName))}`}<br>${escapeHtml(volumeBoth(fillL, system))} of water`,
    `after ${hours}${NBSP}h<br>${band(temperatureC, (value) => temperatureText(value, system).split(NBSP)[0] as string)}${NBSP}${system === 'metric' ? '°C' : '°F'}`,
    ...Array<string>(4).fill(''),
  ]);
  return {
    title: '3. Box and flask',
    html:
      list([
        'Warm a flask with hot water first and pour that out. Fill it with boiling water; stopper on.',
        'Boil a pot for the box, lid on, and put it in at once. Close the box as you would with a dish.',
        'Write the temperature as the lid closes, and that of the room.',
        'Leave it shut. Open it once, after the hours below or more. Stir, read, write.',
      ]) +
      `<p class="small">Expected from ${escapeHtml(temperatureBoth(startC, system))} at the start. In brackets: where 8 of 10 readings lie.</p>` +
      table(['What, how full', 'Expected', 'Start', 'Room', 'Hours', 'End'], rows, 'coolings') +
      '<p>A dish for the box must stay above 60 °C (140 °F). Below that it poisons: boil it again at once, or throw it away.</p>',
  };
}

function beanSheet({ beans, elevationM }: Rehearsal, system: UnitSystem): Sheet | null {
  if (beans.length === 0) return null;
  const rows = beans.map(({ foodName, kitName, packedOn, soakHours, minutes, soft }) => [
    `<b>${escapeHtml(foodName)}</b>, ${escapeHtml(inSentence(kitName))}<br>packed ${escapeHtml(dateText(packedOn))}`,
    soakHours === 0 ? 'none' : `${soakHours}${NBSP}h`,
    `${minutes}${NBSP}min`,
    `${soft.middle} (${soft.low} to ${soft.high})`,
    '',
    '',
  ]);
  return {
    title: '4. Twenty beans of the oldest lots',
    html:
      list([
        'Take twenty beans from the bag, as they come. Close the bag again.',
        'Soak them cool, in plenty of water. Pour that water away.',
        'Put them into boiling water, lid on. Count the minutes from when it boils again; it must not stop.',
        'After the minutes below, take all out. Press each between two fingers or with a fork: soft all through, or not.',
        'Write how many are soft, and after how many minutes. Then boil the rest of them on and write when all are soft.',
        'Do not eat kidney beans from a short test: underdone ones make ill.',
      ]) +
      `<p class="small">Expected at ${escapeHtml(elevationBoth(elevationM, system))}. In brackets: where 8 of 10 tests lie. The minutes are short on purpose: when all or none are soft, the test says little.</p>` +
      table(['Beans', 'Soak', 'Boil', 'Soft, of 20', 'Found soft', 'Minutes, all soft'], rows, 'beans') +
      '<p>Still hard after three hours? They may never soften. Grind them for a thin gruel at a full boil, or use soda or a pressure cooker.</p>',
  };
}

/** Always in grams: quarters of an ounce are too coarse for what a boil burns. */
function fuelBand(fuel: Percentiles, unit: 'kg' | 'kWh'): string {
  if (unit === 'kWh') return `${band(fuel, (value) => fixed(value, 2))}${NBSP}kWh`;
  return band(fuel, (kg) => massText(kg, 'metric'));
}

function band({ p10, p50, p90 }: Percentiles, text: (value: number) => string): string {
  return `${escapeHtml(text(p50))} (${escapeHtml(text(p10))} to ${escapeHtml(text(p90))})`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function paragraphs(texts: string[]): string {
  return texts.map((text) => `<p>${escapeHtml(text)}</p>`).join('');
}

function list(texts: string[]): string {
  return `<ol>${texts.map((text) => `<li>${escapeHtml(text)}</li>`).join('')}</ol>`;
}

/** A table to write in. Cells are markup; their texts were escaped where they were made. */
function table(heads: string[], rows: string[][], kind = ''): string {
  const blank = heads.map(() => '');
  const all = rows.length === 0 ? [blank, blank, blank] : rows;
  return (
    `<table class="to-write ${kind}"><thead><tr>${heads.map((head) => `<th scope="col">${escapeHtml(head)}</th>`).join('')}</tr></thead><tbody>` +
    all.map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join('')}</tr>`).join('') +
    '</tbody></table>'
  );
}
