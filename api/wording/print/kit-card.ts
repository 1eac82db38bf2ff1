/**
 * The card that lies in a kit's container, front and back, and the small labels for its parts. Whoever opens it in ten
 * years knows neither this program nor who packed it: the card says all that is needed, in black and white.
 */
import type { CardMinutes, CardWay, KitCard } from '../../cooking/dishes/kit-card.ts';
import { useByDate } from '../../cooking/keeping/use-by.ts';
import { asHeading, foodListText, fuelName, inSentence, stoveTypeName } from '../names.ts';
import { fixed, NBSP, roundToStep, withFraction } from '../numbers.ts';
import { textInSystem } from '../text-in-system.ts';
import { dateText } from '../times.ts';
import {
  elevationBoth,
  inSystem,
  massBoth,
  massText,
  pressureBoth,
  recipeMassText,
  temperatureBoth,
  temperatureText,
  type UnitSystem,
  volumeBoth,
  volumeText,
} from '../units.ts';
import { escapeHtml } from './html.ts';
import { sheetHtml } from './sheet-page.ts';

export interface KitCardSheet {
  card: KitCard;
  /** Local date, YYYY-MM-DD; null: left open to be written in. */
  packedOn: string | null;
  /** Labels are printed for so many sets, 0 or more. */
  labelSets: number;
  /** Whether the card itself is printed. */
  withCard: boolean;
}

/** Labels on a page: two beside each other, four below each other, on A4 and on Letter. */
const LABELS_A_PAGE = 8;

/**
 * Card and labels as printable HTML; it needs `/print.css` and nothing else.
 * @param system which units come first
 */
export function kitCardHtml(sheet: KitCardSheet, system: UnitSystem): string {
  const { card } = sheet;
  const sections = sheet.withCard
    ? [
        `<section class="card kit-card">${front(sheet, system)}</section>`,
        `<section class="card kit-card">${back(sheet, system)}</section>`,
      ]
    : [];
  const labels = labelTexts(sheet, system);
  for (let at = 0; at < labels.length; at += LABELS_A_PAGE)
    sections.push(`<section class="card labels">${labels.slice(at, at + LABELS_A_PAGE).join('')}</section>`);
  return sheetHtml(
    `Card: ${card.kitName}`,
    sections,
    'Print on A4 or Letter paper, card on both sides, by laser or with pigment ink: other ink runs when it gets damp. Cut along the dashed lines.',
  );
}

function head(card: KitCard, right: string): string {
  return `<header class="card-head"><h1>${escapeHtml(card.kitName)}</h1><p class="page-of">${escapeHtml(right)}</p></header>`;
}

function front(sheet: KitCardSheet, system: UnitSystem): string {
  const { card, packedOn } = sheet;
  const servings = `${withFraction(card.servings)}${NBSP}servings`;
  const { nutrition } = card;
  const kcal = fixed(roundToStep(nutrition.kcalPerServing, 5));
  const allergens = nutrition.allergens.map((one) => one.replaceAll('-', ' ')).join(', ');
  const dates =
    packedOn === null
      ? '<p class="blanks"><span>Packed on:</span><span class="blank"></span><span>Use by:</span><span class="blank"></span></p>'
      : `<p><b>Packed on ${escapeHtml(dateText(packedOn))}. Use by ${escapeHtml(dateText(useByDate(packedOn, card.keepsMonths)))}</b>, for quality, at ${temperatureBoth(card.storageC, system)}.</p>`;
  return [
    head(card, servings),
    dates,
    `<p>A serving: ${kcal}${NBSP}kcal, ${fixed(roundToStep(nutrition.proteinGPerServing, 1))}${NBSP}g protein, salt ${fixed(roundToStep(nutrition.saltGPerServing, 0.5), 1)}${NBSP}g or more. The set: ${fixed(roundToStep(nutrition.kcalPerServing * card.servings, 10))}${NBSP}kcal. <b>Allergens: ${allergens === '' ? 'none of those that labels must name' : escapeHtml(allergens)}.</b></p>`,
    partTable(sheet, system),
    lectinBox(card),
    soakWords(card, system),
    wayTable(card, system),
    closedWays(card, system),
    doneWords(card, system),
  ].join('');
}

function partTable({ card }: KitCardSheet, system: UnitSystem): string {
  const rows = card.parts.map((part) => {
    const contents = foodListText(
      part.contents.map(({ name, massG }) => `${inSentence(name)} ${recipeMassText(massG / 1000, system)}`),
    );
    const bags = part.containers === 1 ? '' : `, in ${part.containers} containers`;
    return `<tr><th scope="row">${escapeHtml(part.name)}</th><td>${escapeHtml(`${contents}${bags}`)}</td><td>${escapeHtml(whenIn(card, part))}</td></tr>`;
  });
  return `<table class="in-set"><thead><tr><th scope="col">Part</th><th scope="col">What is in it</th><th scope="col">When</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function whenIn(card: KitCard, part: KitCard['parts'][number]): string {
  if (card.ways.every(({ finish }) => finish === 'no-fire')) return 'as it is, or with the water';
  if (part.asItIs) return 'beside it, as it is';
  if (part.soaks) return 'soak first';
  if (part.lateMinutes === null) return 'from the start';
  return `last ${fixed(roundToStep(part.lateMinutes, part.lateMinutes > 20 ? 5 : 1, 'up'))}${NBSP}min`;
}

function lectinBox(card: KitCard): string {
  const { kidneyFamily, noSafeSoak } = card;
  if (kidneyFamily === null) return '';
  const names = inSentence(kidneyFamily.names.join(', '));
  const minutes = (value: number | null) =>
    value === null ? 'only in a pressure cooker' : `${fixed(Math.ceil(value))}${NBSP}min`;
  const where =
    card.elevationM > 300
      ? `${minutes(kidneyFamily.minutesHere)} at this height, ${minutes(kidneyFamily.minutesAtSea)} at sea level`
      : minutes(kidneyFamily.minutesHere);
  const soak =
    noSafeSoak === null ? 'Pour the soak water away, rinse.' : `${noSafeSoak.reason}. ${noSafeSoak.wayOut ?? ''}.`;
  return `<div class="danger"><p><b>Underdone ${escapeHtml(names)} poison: violent vomiting.</b> ${escapeHtml(soak)} Big bubbles all over without a stop for at least ${where}, then until soft. Bubbles stop: count again. Never straight into a box or onto a low flame.</p></div>`;
}

function soakWords(card: KitCard, system: UnitSystem): string {
  const soaked = card.ways.find((way) => way.soaked);
  if (soaked === undefined)
    return card.ways.some(({ finish }) => finish !== 'no-fire') ? '<p><b>Soak:</b> not needed.</p>' : '';
  const names = card.parts.filter(({ soaks }) => soaks).map(({ name }) => inSentence(name));
  const hours = card.soakHours ?? 12;
  return `<p><b>Soak</b> ${escapeHtml(foodListText(names))} in ${volumeBoth(soaked.soakWaterL, system, 'up')} for ${hours}${NBSP}h at ${temperatureBoth(card.indoorC, system)}; colder: up to 24${NBSP}h; above ${temperatureBoth(25, system)}: 4${NBSP}h at most. Foam or sour smell: throw it away.${soaked.rinseL > 0 ? ` Pour away, rinse with ${volumeText(soaked.rinseL, system, 'up')}.` : ''}</p>`;
}

function wayTable(card: KitCard, system: UnitSystem): string {
  const high = card.elevationM > 300;
  const temperature = (pick: 'here' | 'seaLevel') => {
    const open = card.ways.find(
      ({ finish, [pick]: at }) => finish !== 'pressure' && finish !== 'no-fire' && at.boil !== null,
    )?.[pick];
    return open?.boil == null ? '' : `, ${temperatureText(open.temperatureC, system)}`;
  };
  const shown = card.ways.filter(({ here, seaLevel }) => here.boil !== null || seaLevel.boil !== null);
  const rows = shown.map((way) => {
    const cells = high ? [minutesText(way.here, way), minutesText(way.seaLevel, way)] : [minutesText(way.here, way)];
    return `<tr><th scope="row">${escapeHtml(wayName(way, system))}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}<td>${escapeHtml(waterText(way, system))}</td></tr>`;
  });
  const heads = high
    ? [
        `Here, ${inSystem(elevationBoth(card.elevationM, 'metric'), system)}${temperature('here')}`,
        `At sea level${temperature('seaLevel')}`,
      ]
    : [`Boil${temperature('here')}`];
  return `<table class="ways ${high ? 'high' : ''}"><thead><tr><th scope="col">Cook</th>${heads.map((one) => `<th scope="col">${escapeHtml(one)}</th>`).join('')}<th scope="col">Water in the pot</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

/** Ways that are open neither here nor at the sea, each with the reason, so that nobody tries them. */
function closedWays(card: KitCard, system: UnitSystem): string {
  const closed = new Map<string, string>();
  for (const way of card.ways)
    if (way.here.boil === null && way.seaLevel.boil === null && !closed.has(way.here.reason))
      closed.set(
        way.here.reason,
        { flame: 'on the flame', pressure: 'in the pressure cooker', box: 'in the box', 'no-fire': 'without fire' }[
          way.finish
        ],
      );
  const texts = [...closed].map(([reason, where]) => `${where}: ${textInSystem(reason, system).replace(/\.$/, '')}`);
  return texts.length === 0 ? '' : `<p><b>Not</b> ${escapeHtml(texts.join('; '))}.</p>`;
}

function wayName(way: CardWay, system: UnitSystem): string {
  const soaked = way.finish === 'no-fire' ? '' : way.soaked ? ', soaked' : ', not soaked';
  const missing = way.atHand ? '' : ' (if you have one)';
  if (way.finish === 'flame') return `On the flame, lid on${soaked}`;
  if (way.finish === 'pressure')
    return `Pressure cooker, ${pressureBoth(way.gaugeKPa ?? 80, system)}${soaked}${missing}`;
  if (way.finish === 'box')
    return `Boil, then ${withFraction(way.boxHours ?? 3)}${NBSP}h in the insulated box${soaked}${missing}`;
  return 'Without fire, safe cold water';
}

/** "75 to 110 min": typical to slow, rounded up. */
function minutesText(minutes: CardMinutes, way: CardWay): string {
  if (minutes.boil === null) return 'not this way';
  if (way.finish === 'no-fire')
    return minutes.restMinutes === 0 ? 'eat as it is' : `stand ${duration(minutes.restMinutes)}`;
  const typical = duration(minutes.boil.p50);
  const slow = duration(minutes.boil.p90);
  const rest = way.finish === 'box' || minutes.restMinutes < 1 ? '' : `, then ${duration(minutes.restMinutes)} covered`;
  return `${typical === slow ? typical : `${typical} to ${slow}`}${rest}`;
}

function duration(minutes: number): string {
  if (minutes > 120) return `${withFraction(minutes / 60, 'up')}${NBSP}h`;
  return `${fixed(roundToStep(minutes, minutes <= 20 ? 1 : 5, 'up'))}${NBSP}min`;
}

function waterText(way: CardWay, system: UnitSystem): string {
  if (way.potWaterL <= 0) return way.finish === 'no-fire' ? 'none' : '-';
  const first =
    way.firstWaterL > 0 ? `first ${volumeText(way.firstWaterL, system, 'up')}, boil up, pour away; then ` : '';
  return `${first}${volumeBoth(way.potWaterL, system, 'up')}`;
}

function doneWords(card: KitCard, system: UnitSystem): string {
  if (card.ways.every(({ finish }) => finish === 'no-fire'))
    return `<p>Safe water only. Eat it within 2${NBSP}h of adding water; throw the rest away.</p>`;
  const pulses = card.ageing.length > 0;
  const done = pulses
    ? 'Five beans or a spoonful of small pulses, pressed between two fingers: all soft. Sour parts go in when they are soft.'
    : 'A spoonful, bitten: soft to the middle.';
  const boxed = card.ways.some(({ finish }) => finish === 'box')
    ? ` From a box it is eaten above ${temperatureBoth(60, system)}, or boiled again.`
    : '';
  return `<p>First figure: most lots; second: slow, old ones. What boils off is counted in the water. <b>Done:</b> ${done}${boxed} Two hours after serving, throw the rest away.</p>`;
}

function back(sheet: KitCardSheet, system: UnitSystem): string {
  const { card } = sheet;
  return [
    head(card, 'back'),
    fuelTable(card, system),
    withoutList(card, system),
    ageWords(sheet),
    noteWords(card),
    '<p class="blanks"><span>Opened on:</span><span class="blank"></span><span>How it went:</span><span class="blank"></span></p>',
    `<p>Print by laser or with pigment ink. Fire and flame outdoors: carbon monoxide kills.</p>`,
  ].join('');
}

function fuelTable(card: KitCard, system: UnitSystem): string {
  const finishes = (['flame', 'pressure', 'box'] as const).flatMap((finish) => {
    // The soaked way where there is one: it is the one that the card asks for.
    const way = card.ways.find((one) => one.finish === finish && one.here.boil !== null);
    return way === undefined ? [] : [way];
  });
  const [first] = finishes;
  if (first === undefined) return '<p><b>Fuel:</b> none.</p>';
  const names = { flame: 'On the flame', pressure: 'Pressure cooker', box: 'With the box', 'no-fire': '' };
  const rows = first.fuel.map(({ stove, typeId, fuelId }, index) => {
    const cells = finishes.map((way) => {
      const kg = way.fuel[index]?.kg ?? null;
      if (kg === null) return '-';
      if (fuelId === 'electricity')
        return `${fixed(roundToStep(kg.p50, 0.05, 'up'), 2)} to ${fixed(roundToStep(kg.p90, 0.05, 'up'), 2)}${NBSP}kWh`;
      return `${massText(kg.p50, system, 'up')} to ${massText(kg.p90, system, 'up')}`;
    });
    return `<tr><th scope="row">${escapeHtml(asHeading(stove ?? stoveTypeName(typeId)))}, ${escapeHtml(fuelName(fuelId))}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}</tr>`;
  });
  return `<h2>Fuel for the whole set here${finishes.some(({ soaked }) => soaked) ? ', soaked' : ''}</h2><table class="fuel"><thead><tr><th scope="col">Stove</th>${finishes.map((way) => `<th scope="col">${names[way.finish]}${way.atHand ? '' : ' (if you have one)'}</th>`).join('')}</tr></thead><tbody>${rows.join('')}</tbody></table><p>Lighting included, lid on. First figure typical; the second suffices nine times in ten. A dash: this stove cannot.</p>`;
}

function withoutList(card: KitCard, system: UnitSystem): string {
  if (card.parts.length < 2) return '';
  const items = card.parts.map((part) => {
    const { kcal, proteinG, boilMinutes, potWaterL } = part.without;
    const total = card.nutrition.kcalPerServing * card.servings;
    const share = total > 0 ? Math.round((100 * kcal) / total) : 0;
    const loss =
      kcal < 20
        ? 'little energy is lost'
        : `${fixed(roundToStep(kcal, 10))}${NBSP}kcal (${share}${NBSP}%)${proteinG < 1 ? '' : ` and ${fixed(roundToStep(proteinG, 1))}${NBSP}g protein`} less`;
    const cook =
      boilMinutes === null
        ? ''
        : ` Boil what is left about ${duration(boilMinutes)}${potWaterL === null ? '' : `, in ${volumeBoth(potWaterL, system, 'up')} and what boils off`}.`;
    const seasonings =
      share <= 15
        ? ' Eat it plain, or with what salt and spice you have.'
        : share >= 35
          ? ' Serve bread, oil, nuts or a second dish beside it.'
          : '';
    return `<li><b>${escapeHtml(part.name)} missing:</b> ${loss}.${cook}${seasonings}</li>`;
  });
  return `<h2>If a part is missing or spoiled</h2><ul>${items.join('')}</ul>`;
}

function ageWords({ card, packedOn }: KitCardSheet): string {
  const parts = card.parts
    .map(
      (part) =>
        `${inSentence(part.name)} ${packedOn === null ? monthsText(part.useByMonths) : dateText(useByDate(packedOn, part.useByMonths))}`,
    )
    .join('; ');
  const ageing = card.ageing.filter(({ factor }) => factor.p90 >= 1.05);
  const longer =
    ageing.length === 0
      ? ''
      : ` Old pulses boil longer: ${ageing.map(({ years, factor }) => `after ${years}${NBSP}years ${percentMore(factor.p50)}, up to ${percentMore(factor.p90)}`).join('; ')}. Still hard: pressure cooker, or a pinch of bicarbonate in soak and pot.`;
  return `<h2>Age</h2><p>Use by, part by part: ${escapeHtml(parts)}. Later it is stale rather than unsafe, if bags are tight and nothing smells rancid or sour, is moist, or moves. Bulging, leaking, or frozen and thawed tins: throw away unopened.${longer}</p>`;
}

function monthsText(months: number): string {
  return months < 24 ? `${fixed(Math.floor(months))}${NBSP}months` : `${fixed(Math.floor(months / 12))}${NBSP}years`;
}

function percentMore(factor: number): string {
  return `${fixed(roundToStep((factor - 1) * 100, 5, 'up'))}${NBSP}% more`;
}

function noteWords(card: KitCard): string {
  const guessed = card.guessed.map(({ name, guessed: what }) => `${what.join(', ')} of ${name}`).join('; ');
  const swaps = card.standIns.map(
    ({ name, others }) => `${inSentence(name)} may be ${others.map(inSentence).join(' or ')}, as much by weight`,
  );
  const lines = [
    ...swaps.map((one) => escapeHtml(`${asHeading(one)}.`)),
    ...card.cautions.map((one) => escapeHtml(one)),
    ...(guessed === ''
      ? []
      : [`<b>Guessed</b>, because no label said it: ${escapeHtml(guessed)}. Leave time to spare.`]),
  ];
  return lines.length === 0 ? '' : `<h2>Mind</h2><ul>${lines.map((line) => `<li>${line}</li>`).join('')}</ul>`;
}

function labelTexts({ card, packedOn, labelSets }: KitCardSheet, system: UnitSystem): string[] {
  const labels: string[] = [];
  for (let set = 1; set <= labelSets; set += 1)
    for (const part of card.parts)
      for (let bag = 1; bag <= part.containers; bag += 1) {
        const of = part.containers > 1 ? `, ${bag} of ${part.containers}` : '';
        const sets = labelSets > 1 ? ` · set ${set} of ${labelSets}` : '';
        const share = (massG: number): number => massG / part.containers / 1000;
        const list = part.contents.map(
          ({ name, massG }) => `${inSentence(name)} ${recipeMassText(share(massG), system)}`,
        );
        const [only] = part.contents;
        const contents =
          part.contents.length === 1 && only !== undefined
            ? `${inSentence(only.name)} ${massBoth(share(only.massG), system)}`
            : `${foodListText(list)}; together ${massBoth(share(part.massG), system)}`;
        const dates =
          packedOn === null
            ? '<p class="blanks"><span>Packed</span><span class="blank"></span><span>use by</span><span class="blank"></span></p>'
            : `<p>Packed ${escapeHtml(dateText(packedOn))}, use by ${escapeHtml(dateText(useByDate(packedOn, part.useByMonths)))}</p>`;
        const allergens =
          part.allergens.length === 0
            ? ''
            : ` Allergens: ${part.allergens.map((one) => one.replaceAll('-', ' ')).join(', ')}.`;
        labels.push(
          `<div class="label"><p><b>${escapeHtml(part.name)}${escapeHtml(of)}</b></p><p>${escapeHtml(card.kitName)}${escapeHtml(sets)}</p><p>${escapeHtml(contents)}. ${escapeHtml(asHeading(whenIn(card, part)))}.${escapeHtml(allergens)}</p>${dates}</div>`,
        );
      }
  return labels;
}
