/**
 * The packing sheet: what goes into each bag and how many, what must not be packed so, and the order of work, in which
 * absorbers are opened last because they start working then.
 */
import type { PackedPart, Packing, PackingRemark } from '../../cooking/keeping/packing.ts';
import { PACKING } from '../../cooking/keeping/packing-containers.ts';
import { useByDate } from '../../cooking/keeping/use-by.ts';
import { asHeading, foodListText, inSentence } from '../names.ts';
import { fixed, NBSP, roundToStep } from '../numbers.ts';
import { dateText } from '../times.ts';
import {
  massBoth,
  massText,
  recipeMassText,
  temperatureBoth,
  type UnitSystem,
  volumeBoth,
  volumeText,
} from '../units.ts';
import { escapeHtml } from './html.ts';
import { sheetHtml } from './sheet-page.ts';

export interface PackingSheetData {
  kitName: string;
  servings: number;
  packing: Packing;
  /** Local date, YYYY-MM-DD. */
  packedOn: string;
  storageC: number;
  /** Own foods with guessed figures in the kit. */
  guessed: readonly string[];
}

/** The step before which nothing may be opened. */
const STOP = 'Stop and look: every bag is filled, labelled and open, the sealing iron is hot, everybody is ready.';

/** Spare packets of absorber: one in ten, at least two (common practice). */
const SPARE_SHARE = 0.1;
const LEAST_SPARES = 2;

/**
 * The sheet as printable HTML; it needs `/print.css` and nothing else.
 * @param system which units come first
 */
export function packingSheetHtml(data: PackingSheetData, system: UnitSystem): string {
  const { kitName, packing, servings } = data;
  const title = `Packing sheet: ${kitName}`;
  const sets = `${packing.sets}${NBSP}${packing.sets === 1 ? 'set' : 'sets'}, ${fixed(roundToStep(packing.sets * servings, 0.5), 0)}${NBSP}servings`;
  const head = (heading: string) =>
    `<header class="card-head"><h1>${escapeHtml(heading)}</h1><p class="page-of">${escapeHtml(sets)}</p></header>`;
  const sections = [
    `<section class="card packing">${head(title)}${[
      amountWords(packing, system),
      remarkBox(packing),
      partTable(data, system),
      readyTable(packing, system),
    ].join('')}</section>`,
    `<section class="card packing">${head(`Order of work: ${kitName}`)}${orderOfWork(data, system)}${noteWords(data, system)}</section>`,
  ];
  return sheetHtml(title, sections, 'Print this page on A4 or Letter paper before you begin to pack.');
}

function amountWords(packing: Packing, system: UnitSystem): string {
  const lines: string[] = [];
  if (packing.limitedBy !== null)
    lines.push(
      `<b>From what you have: ${packing.sets} ${packing.sets === 1 ? 'set' : 'sets'}.</b> Used up first: ${escapeHtml(inSentence(packing.limitedBy))}.`,
    );
  if (packing.leftOver.length > 0) lines.push(`Left over: ${massList(packing.leftOver, system)}.`);
  if (packing.missing.length > 0) lines.push(`<b>Still to get:</b> ${massList(packing.missing, system)}.`);
  if (packing.unused.length > 0)
    lines.push(
      `Not in this recipe: ${packing.unused.map(({ foodId }) => escapeHtml(foodId.replaceAll('-', ' '))).join(', ')}.`,
    );
  return lines.length === 0 ? '' : `<p>${lines.join(' ')}</p>`;
}

function massList(rows: readonly { name: string; massG: number }[], system: UnitSystem): string {
  return rows.map(({ name, massG }) => `${escapeHtml(inSentence(name))} ${massBoth(massG / 1000, system)}`).join(', ');
}

/** Remarks that are alike are said once, with the foods and parts that they are about. */
function remarkBox(packing: Packing): string {
  const groups = new Map<string, { remark: PackingRemark; names: Set<string>; parts: Set<string> }>();
  for (const part of packing.parts)
    for (const remark of part.remarks) {
      const key = [remark.verdict, remark.text, remark.wayOut].join('|');
      const group = groups.get(key) ?? { remark, names: new Set(), parts: new Set() };
      group.names.add(inSentence(remark.name));
      group.parts.add(inSentence(part.name));
      groups.set(key, group);
    }
  if (groups.size === 0) return '';
  const sorted = [...groups.values()].sort(
    (a, b) => Number(b.remark.verdict === 'refused') - Number(a.remark.verdict === 'refused'),
  );
  const items = sorted.map(({ remark: { verdict, text, wayOut }, names, parts }) => {
    const label = verdict === 'refused' ? 'Do not pack it so' : 'Mind';
    const what = foodListText([...names]);
    const where = [...parts].join('; ');
    const part = where === what ? '' : ` (${where})`;
    return `<li><b>${label}: ${escapeHtml(what)}</b>${escapeHtml(part)}. ${escapeHtml(text)} ${escapeHtml(wayOut)}</li>`;
  });
  return `<div class="danger"><ul>${items.join('')}</ul></div>`;
}

function partTable(data: PackingSheetData, system: UnitSystem): string {
  const rows = data.packing.parts.map((part) => {
    const contents = part.contents
      .map(
        ({ name, massG, guessed }) =>
          `${escapeHtml(inSentence(name))} ${recipeMassText(massG / 1000, system)}${guessed ? ' (heap guessed)' : ''}`,
      )
      .join('<br>');
    const allergens =
      part.allergens.length === 0
        ? ''
        : `<br>Allergens: ${part.allergens.map((one) => one.replaceAll('-', ' ')).join(', ')}`;
    const whole =
      part.contents.length > 1
        ? `<br>together ${massBoth(part.massG / 1000, system)}`
        : `<br>(${massText(part.massG / 1000, system === 'metric' ? 'us' : 'metric')})`;
    return `<tr><th scope="row">${escapeHtml(part.name)}</th><td>${contents}${whole}${allergens}</td><td>${fixed(part.containers)}</td><td>${containerText(part, system)}</td><td>${absorberText(part)}</td><td>${keepsText(part, data)}</td></tr>`;
  });
  return `<table class="packed"><thead><tr><th scope="col">Part</th><th scope="col">In each one</th><th scope="col">How many</th><th scope="col">Container</th><th scope="col">Absorber in each</th><th scope="col">Use by</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function containerText(part: PackedPart, system: UnitSystem): string {
  if (part.container === 'bottle') return 'clean bottle, closed tight';
  if (part.container === 'as-bought') return 'the tins it came in';
  if (part.bagL === null) return 'divide it: no bag is large enough';
  return `foil bag of ${volumeBoth(part.bagL, system)}; the heap is ${volumeText(part.heapL, system)}`;
}

function absorberText(part: PackedPart): string {
  if (part.packets.length === 0) return 'none';
  const counts = new Map<number, number>();
  for (const cc of part.packets) counts.set(cc, (counts.get(cc) ?? 0) + 1);
  return [...counts].map(([cc, count]) => `${count}${NBSP}×${NBSP}${cc}${NBSP}cc`).join(', ');
}

function keepsText(part: PackedPart, { packedOn }: PackingSheetData): string {
  const by = useByDate(packedOn, part.keepsMonths);
  const limited = part.contents.length > 1 ? `<br>for its ${escapeHtml(inSentence(part.limitedBy))}` : '';
  return `${escapeHtml(dateText(by)).replaceAll(NBSP, ' ')}${limited}`;
}

function readyTable(packing: Packing, system: UnitSystem): string {
  const rows: [string, string][] = [];
  for (const { litres, count } of packing.bags)
    rows.push([`Foil bags of ${volumeBoth(litres, system)}`, `${count} and a spare or two`]);
  for (const { cc, count } of packing.packets) {
    const spares = Math.max(LEAST_SPARES, Math.ceil(count * SPARE_SHARE));
    rows.push([`Absorbers of ${cc}${NBSP}cc of oxygen (not of air)`, `${count}, and ${spares} spare`]);
  }
  const labels = packing.parts.reduce((sum, part) => sum + part.containers, 0);
  rows.push(['Labels, written before you begin', `${labels}`]);
  if (packing.buckets > 0)
    rows.push([
      `Buckets of ${volumeBoth(packing.bucket.litres, system)}, ${packing.bucket.shape}, against mice and knocks`,
      `about ${packing.buckets}: ${packing.parts
        .filter(({ perBucket }) => perBucket !== null)
        .map((part) =>
          part.perBucket === 0
            ? `${inSentence(part.name)} does not fit`
            : `${part.perBucket} bags of ${inSentence(part.name)} in one`,
        )
        .join('; or ')}`,
    ]);
  rows.push(['Desiccant (drying bags)', 'none: never beside an absorber, which needs a little moisture to work']);
  return `<table class="ready"><thead><tr><th scope="col">Have ready</th><th scope="col">How many</th></tr></thead><tbody>${rows
    .map(([what, many]) => `<tr><th scope="row">${escapeHtml(what)}</th><td>${escapeHtml(many)}</td></tr>`)
    .join('')}</tbody></table>`;
}

function noteWords(data: PackingSheetData, system: UnitSystem): string {
  const guessed =
    data.guessed.length === 0 ? '' : ` Guessed, because no label said it: ${escapeHtml(data.guessed.join('; '))}.`;
  return (
    `<p>A bag is filled to four fifths, so that it closes. Absorber: oxygen of the air in the whole bag, times 1.25, rounded up to 100${NBSP}cc; more does no harm. ` +
    `Dates are for quality at ${temperatureBoth(data.storageC, system)}; a warmer room shortens them, by half for each ${system === 'metric' ? '5.6\u00a0°C' : '10\u00a0°F'} above ${temperatureBoth(21, system)}. ` +
    `The kit as a whole goes by its ${escapeHtml(inSentence(data.packing.keepsPart))}; replace that part alone and the rest keeps on. Bags per bucket are an estimate.${guessed}</p>`
  );
}

function orderOfWork(data: PackingSheetData, system: UnitSystem): string {
  const { packing } = data;
  const bags = packing.parts.filter((part) => part.container === 'bag' && part.bagL !== null);
  const withAbsorber = bags.filter((part) => part.packets.length > 0);
  const bagCount = withAbsorber.reduce((sum, part) => sum + part.containers, 0);
  const rounds = Math.ceil(bagCount / PACKING.bagsPerOpening.value);
  const packets = packing.packets.reduce((sum, { count }) => sum + count, 0);
  const steps: string[] = [
    'Choose a dry, cool hour. Clean hands, dry table, dry scoops. No steam in the room.',
    'Lay out scale, funnel, tape or sealing iron, a ruler, pencil, and a glass jar with a tight lid for spare absorbers. Close an empty bag as a trial: it must not pull open.',
    'Check the goods: no insects, no mould, no rancid smell; home-dried pieces snap when bent; no bulging, leaking or thawed tin.',
    `Write all ${packing.parts.reduce((sum, part) => sum + part.containers, 0)} labels with black pencil or pigment ink and stick them on the empty bags.`,
    ...packing.parts.map((part) => {
      const what = part.contents
        .map(({ name, massG }) => `${massBoth(massG / 1000, system)} ${inSentence(name)}`)
        .join(', ');
      const where =
        part.container === 'bag'
          ? part.bagL === null
            ? 'containers'
            : `bags of ${volumeBoth(part.bagL, system)}`
          : part.container === 'bottle'
            ? 'bottles'
            : 'tins';
      return `${asHeading(inSentence(part.name))}: fill ${fixed(part.containers)} ${where} with ${what} each. ${part.container === 'bag' ? 'Tap them down; leave them open, standing.' : 'Close them.'}`;
    }),
  ];
  if (withAbsorber.length > 0) {
    const round =
      rounds > 1
        ? ` Work in ${rounds} rounds of at most ${PACKING.bagsPerOpening.value} bags, and open a pack for each round only.`
        : '';
    steps.push(
      `${STOP} Only now open the absorbers; they start working when their pack is opened.${round}`,
      `Count the packets out of the pack: ${packing.packets.map(({ cc, count }) => `${count} of ${cc}${NBSP}cc`).join(', ')}. Put the rest into the jar at once and close it. A packet that is warm or hard is used up.`,
      `One person drops the packets in, another closes behind: ${withAbsorber.map((part) => `${absorberText(part)} into each bag of ${inSentence(part.name)}`).join('; ')}. Press the air out, close. Done within ${fixed(PACKING.openMinutes.value)}${NBSP}min of opening.`,
      `Count again: no packet is left on the table. ${packets} went in, and each bag has its own.`,
    );
  }
  const without = packing.parts.filter((part) => part.packets.length === 0);
  if (without.length > 0)
    steps.push(`Close without absorber: ${without.map((part) => inSentence(part.name)).join(', ')}.`);
  steps.push(
    withAbsorber.length > 0
      ? 'After a day look at each bag: it clings to the food. One that is still loose leaks: a new packet, a new bag.'
      : 'After a day look at each bag: none has opened.',
    'Put each set together, its card on top. Into buckets, lids on. Off concrete floors, dark, cool, away from fuel and soap.',
    'Write it into the stock, with place and date. Look again once a year.',
  );
  const items = steps.map((step) => {
    const words = step.startsWith(STOP)
      ? `<b>${escapeHtml(STOP)}</b>${escapeHtml(step.slice(STOP.length))}`
      : escapeHtml(step);
    return `<tr><td class="tick"><span class="tick-box"></span></td><td>${words}</td></tr>`;
  });
  return `<table class="work"><tbody>${items.join('')}</tbody></table><p>Packed on <b>${escapeHtml(dateText(data.packedOn))}</b>. Practice of dry packing: leaflets of 2007 and Utah State University Extension, 2013; sizes and bags per bucket: common practice.</p>`;
}
