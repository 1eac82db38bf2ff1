/**
 * The emergency sheet: one page that needs no plan. Where water boils, how to make it safe, how long the common dry foods
 * soak and boil here, what can hurt, and how to know without thermometer or clock.
 */
import { answerBoilingPoint } from '../../cooking/calculators/answer-boiling-point.ts';
import {
  BOX_HOURS,
  type BoilMinutes,
  type EmergencyFigures,
  type EmergencyFood,
  emergencyFigures,
  PRESSURE_KPA,
} from '../../cooking/calculators/emergency-figures.ts';
import { bleachDrops, boilMinutesToMakeSafe } from '../../cooking/household/water-treatment.ts';
import { KG_PER_POUND } from '../../physics/units.ts';
import { cautionsForSheet, DEFER_LINE } from '../cautions.ts';
import { inSentence } from '../names.ts';
import { fixed, NBSP, roundToStep, withFraction } from '../numbers.ts';
import { elevationBoth, inSystem, pressureBoth, temperatureBoth, type UnitSystem, volumeText } from '../units.ts';
import { escapeHtml } from './html.ts';

/** Columns of a sheet that is printed before anybody knows where it will be needed, m. */
const HEIGHTS_M = [0, 1500, 3000] as const;
/** Cautions that the sheet has no sentence of its own for. */
const CAUTIONS = ['carbon-monoxide', 'fire', 'refuelling', 'people'];
/** The strength of household bleach as agencies print its drops, %. */
const BLEACH_PERCENT = 6;
const LITRES_OF_A_PRINTED_GALLON = 3.785;
/** At most so many minutes are the boil of a food that any box finishes. */
const SHORT_BOIL_MINUTES = 5;

/** Nobody keeps a fire for longer: the sheet says so instead of a figure (common practice). */
const LONGEST_BOIL_MINUTES = 480;

/**
 * The sheet as printable HTML; it needs `/print.css` and nothing else.
 * @param elevationM m, -430 to 6000; null: columns for sea level, 1,500 m and 3,000 m
 * @param system which units come first
 * @throws OutOfRangeError outside that range
 */
export function emergencySheetHtml(elevationM: number | null, system: UnitSystem): string {
  const figures = emergencyFigures(elevationM === null ? HEIGHTS_M : [elevationM]);
  const where = elevationM === null ? 'Sea level to 3000\u00a0m' : elevationText(elevationM, system);
  const ask = elevationM === null ? null : answerBoilingPoint({ elevationM }).ask;
  const asked = ask === null ? '' : `<p class="screen-only"><b>Please check:</b> ${escapeHtml(ask)}</p>\n`;
  const body = [
    paragraph(boilingWords(figures, system)),
    paragraph(waterWords(figures, system)),
    paragraph(
      `<b>Big bubbles:</b> they rise all over, stirring does not stop them. Count from there, lid on, food under water. First figure: most lots. Second: slow, old ones. Done: five beans, all soft when pressed.${elevationM === null ? ' Where soak hours stand, the times are for soaked food.' : ''}`,
    ),
    foodTable(figures, system),
    soakWords(figures, system),
    `<div class="danger">${paragraph(beanWords(figures, system))}</div>`,
    paragraph(boxWords(figures, system)),
    ...(elevationM === null ? [] : [paragraph(pressureWords(figures, system))]),
    paragraph(
      '<b>No clock:</b> count slowly to sixty, one pencil stroke a minute. Supper to breakfast: 12\u00a0h. <b>No thermometer:</b> steam is no proof. Boil food from a box again; eat at once. Two hours after it was served, about when all is washed up: throw the rest away.',
    ),
    cautionList(system),
    blanks(['Fuel left', 'Water left', 'Soaking since']),
  ].join('\n');
  return (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n' +
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n' +
    '<title>Emergency cooking sheet</title>\n<link rel="stylesheet" href="/print.css">\n</head>\n' +
    '<body class="sheet normal">\n<p class="screen-only">Print this page on A4 or Letter paper, two copies, before you need it.</p>\n' +
    `${asked}<main>\n<section class="card emergency"><header class="card-head"><h1>Emergency cooking</h1><p class="page-of">${escapeHtml(where)}</p></header>\n` +
    `${body}\n</section>\n</main>\n</body>\n</html>\n`
  );
}

function elevationText(elevationM: number, system: UnitSystem): string {
  return Math.abs(elevationM) < 5 ? 'Sea level' : elevationBoth(elevationM, system);
}

function paragraph(html: string): string {
  return `<p>${html}</p>`;
}

function boilingWords({ elevations }: EmergencyFigures, system: UnitSystem): string {
  const [first] = elevations;
  if (elevations.length === 1 && first !== undefined) {
    const slow = first.elevationM < 300 ? '' : ' Food takes longer than at the sea.';
    const place = Math.abs(first.elevationM) < 5 ? 'At sea level' : `At ${elevationBoth(first.elevationM, system)}`;
    return `<b>${escapeHtml(`${place} water boils at ${temperatureBoth(first.boilingPointC, system)}.`)}</b>${slow}`;
  }
  const list = elevations.map(
    ({ elevationM, boilingPointC }) =>
      `${temperatureBoth(boilingPointC, system)} at ${elevationM === 0 ? 'sea level' : elevationBoth(elevationM, system)}`,
  );
  return `<b>Water boils</b> at ${escapeHtml(list.join(', '))}. Between two heights, use the higher.`;
}

function waterWords({ elevations }: EmergencyFigures, system: UnitSystem): string {
  const minutes = [...new Set(elevations.map(({ elevationM }) => boilMinutesToMakeSafe(elevationM)))];
  const boil =
    minutes.length === 1
      ? `${minutes[0]}${NBSP}min with big bubbles`
      : `${minutes[0]}${NBSP}min with big bubbles, ${minutes.at(-1)}${NBSP}min above ${oneElevation(1500, system)}`;
  const drops = (litres: number, cloudy: boolean): number => bleachDrops(litres, BLEACH_PERCENT, cloudy);
  const gallon = LITRES_OF_A_PRINTED_GALLON;
  const dose =
    system === 'metric'
      ? `${drops(1, false)} drops in 1${NBSP}L, ${drops(1, true)} if cloudy or icy`
      : `${drops(gallon, false)} drops in 1${NBSP}gal, ${drops(gallon, true)} if cloudy or icy`;
  return `<b>Safe water:</b> strain it through cloth. Boil it ${escapeHtml(boil)}. Or bleach, plain, 6\u00a0%: ${dose}; 30\u00a0min later it smells faintly of chlorine. Unsafe water brings diarrhoea. Nothing here helps against fuel or chemicals.`;
}

function foodTable(figures: EmergencyFigures, system: UnitSystem): string {
  const single = figures.elevations.length === 1;
  const amount = system === 'metric' ? '100\u00a0g' : '1\u00a0lb';
  const heads = single
    ? [
        'Dry food',
        'Soak, cool',
        'Boil, soaked',
        'Boil, unsoaked',
        'Box: boil first',
        `Water for ${amount}`,
        'Water for 1\u00a0cup',
      ]
    : [
        'Dry food',
        'Soak, cool',
        ...figures.elevations.map(({ elevationM }) =>
          elevationM === 0 ? 'Boil at sea level' : `Boil at ${oneElevation(elevationM, system)}`,
        ),
        'No soak: add',
        `Water for ${amount}`,
        'Water for 1\u00a0cup',
      ];
  const rows = figures.foods.map((food) => {
    const soak = food.soakHours === null ? 'none' : soakText(food.soakHours);
    const here = food.at[0] as EmergencyFood['at'][number];
    const middle = single
      ? [
          food.soakHours === null ? '-' : boilText(here.soaked),
          boilText(here.unsoaked),
          here.beforeBox === null ? 'no box' : longText(here.beforeBox),
        ]
      : [
          ...food.at.map((one) => boilText(food.soakHours === null ? one.unsoaked : one.soaked)),
          food.soakHours === null ? '-' : addedText(food),
        ];
    return [food.name, soak, ...middle, waterText(food, system), cupsText(food)];
  });
  const head = heads.map((one) => `<th scope="col">${escapeHtml(one)}</th>`).join('');
  const body = rows
    .map(
      ([name = '', ...cells]) =>
        `<tr><th scope="row">${escapeHtml(name)}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}</tr>`,
    )
    .join('');
  return `<table class="foods ${single ? 'here' : 'heights'}"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`;
}

function soakText({ least, most }: { least: number; most: number }): string {
  return least === most ? `${most}${NBSP}h` : `${least}\u2013${most}${NBSP}h`;
}

function oneElevation(elevationM: number, system: UnitSystem): string {
  return elevationBoth(elevationM, system).replace(/ \(.*\)$/, '');
}

/** Minutes for a kitchen, never fewer: whole ones to 20, fives to 2 h, quarter hours beyond. */
function longText(minutes: number): string {
  return minutes > 120 ? `${withFraction(minutes / 60, 'up')}${NBSP}h` : `${kitchenMinutes(minutes)}${NBSP}min`;
}

function kitchenMinutes(minutes: number): string {
  return fixed(roundToStep(minutes, minutes <= 20 ? 1 : 5, 'up'));
}

function boilText(minutes: BoilMinutes): string {
  if (minutes === null) return 'not in an open pot';
  const { typical, high } = minutes;
  if (typical > LONGEST_BOIL_MINUTES) return `over ${LONGEST_BOIL_MINUTES / 60}${NBSP}h`;
  if (high > 120) return `${withFraction(typical / 60, 'up')}\u2013${withFraction(high / 60, 'up')}${NBSP}h`;
  return `${kitchenMinutes(typical)}\u2013${kitchenMinutes(high)}${NBSP}min`;
}

/** How much longer it boils unsoaked, the most of any elevation; water enters at almost the same pace at any boil. */
function addedText(food: EmergencyFood): string {
  const added = food.at.flatMap(({ soaked, unsoaked }) =>
    soaked === null || unsoaked === null ? [] : [unsoaked.typical - soaked.typical, unsoaked.high - soaked.high],
  );
  return added.length === 0 ? '-' : `${fixed(roundToStep(Math.max(...added), 5, 'up'))}${NBSP}min`;
}

function waterText(food: EmergencyFood, system: UnitSystem): string {
  const kg = system === 'metric' ? 0.1 : KG_PER_POUND;
  return volumeText(food.potWaterLPerKg * kg, system, 'up');
}

function cupsText(food: EmergencyFood): string {
  const cups = withFraction(food.potWaterCupsPerCup, 'up');
  return `${cups}${NBSP}${cups === '1' ? 'cup' : 'cups'}`;
}

function soakWords({ soakCupsPerCup }: EmergencyFigures, system: UnitSystem): string {
  return paragraph(
    inSystem(
      `<b>Soak</b> where butter stays firm, in ${fixed(Math.ceil(soakCupsPerCup - 1e-9))}${NBSP}cups of water to a cup. Colder than 10\u00a0°C (50\u00a0°F): up to 24${NBSP}h. A hot room: 4${NBSP}h at most. Foam, sour smell: throw it away. <b>No boil:</b> couscous, instant rice, potato flakes stand 10${NBSP}min in boiling water.`,
      system,
    ),
  );
}

function beanWords({ elevations, foods }: EmergencyFigures, system: UnitSystem): string {
  const soak = foods.find((food) => food.kidneyFamily)?.soakHours?.least ?? 12;
  const heights = elevations.filter(({ lectinMinutes }) => lectinMinutes !== null);
  const bubbles = heights
    .map(({ elevationM, lectinMinutes }) => {
      const minutes = longText(lectinMinutes as number);
      if (elevations.length === 1) return minutes;
      return `${minutes} at ${elevationM === 0 ? 'sea level' : oneElevation(elevationM, system)}`;
    })
    .join(', ');
  const rule =
    heights.length === 0
      ? 'No open pot is hot enough here: full pressure in a pressure cooker, or other food.'
      : `Soak ${soak}${NBSP}h or more. Pour that water away. Boil in fresh water. Big bubbles without a stop for ${bubbles}, then until soft. Bubbles stop: count again. Not soaked: boil up in plenty of water, pour it away, fresh water, boil until soft, no box.`;
  return `<b>Common beans (kidney, black, pinto, white, any unknown): underdone ones poison, with violent vomiting.</b> ${rule} <b>Lima beans</b> hold cyanide: open pot, pour the water away. <b>Broad beans</b> harm people with favism.`;
}

function boxWords(figures: EmergencyFigures, system: UnitSystem): string {
  const warm = inSystem('60\u00a0°C (140\u00a0°F)', system);
  const after = `then the full pot, boiling, lid on, wrapped thick on all sides, beside the stove. Eat it after ${BOX_HOURS}${NBSP}h. Below ${warm} it poisons.`;
  if (figures.elevations.length === 1) {
    const none = figures.foods.every((food) => food.at[0]?.beforeBox === null);
    return none
      ? `<b>Box:</b> none. The pot is too cool here: it falls below ${warm} and poisons. Cook on the flame to the end.`
      : `<b>Box:</b> soak where hours stand, boil as long as the table says, ${after}`;
  }
  const short = figures.foods.filter((food) =>
    food.at.every(({ beforeBox }) => beforeBox !== null && beforeBox <= SHORT_BOIL_MINUTES),
  );
  const names = short.map((food) => food.name.charAt(0).toLowerCase() + food.name.slice(1)).join(', ');
  return `<b>Box:</b> only ${escapeHtml(names)}. Boil ${SHORT_BOIL_MINUTES}${NBSP}min, wrap the full pot, boiling, lid on, thick on all sides. Eat it after ${BOX_HOURS}${NBSP}h. Below ${warm} it poisons.`;
}

function pressureWords({ foods }: EmergencyFigures, system: UnitSystem): string {
  const list = foods.flatMap(({ name, at }) => {
    const pressure = at[0]?.pressure ?? null;
    return pressure === null ? [] : [`${inSentence(name)} ${boilText(pressure)}`];
  });
  return `<b>Pressure cooker</b>, half full, ${escapeHtml(pressureBoth(PRESSURE_KPA, system))}, air let out first, soaked: ${escapeHtml(list.join(', '))}. Opened too soon, it sprays boiling food.`;
}

function cautionList(system: UnitSystem): string {
  const items = cautionsForSheet({ flame: true, pressureCooker: false, kidneyFamily: false, liquidFuel: true })
    .filter(({ id }) => CAUTIONS.includes(id))
    .map(({ title, short }) => `<b>${escapeHtml(title)}:</b> ${escapeHtml(inSystem(short, system))}`);
  return paragraph(`${items.join(' ')} ${escapeHtml(DEFER_LINE)}`);
}

function blanks(names: readonly string[]): string {
  return `<p class="blanks">${names.map((name) => `<span>${name}:</span><span class="blank"></span>`).join('')}</p>`;
}
