/** What a kit comes to while it is typed: asked of the server a moment after the last key. */
import { useEffect, useState } from 'preact/hooks';
import { fuelName, inSentence, stoveTypeName } from '../../api/wording/names.ts';
import { ServerRefusal } from '../api-client.ts';
import type { FiguredWay, Kit, KitFigures } from '../api-types.ts';
import { minutesInWords } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { type Page, usePage } from '../page-state.ts';

/** Long enough that a number is typed to its end, short enough that nobody waits. */
const QUIET_MS = 200;

/** The figures of a kit as it stands, and the last ones while new ones come. */
export function useKitFigures(kit: Kit | undefined): { figures: KitFigures | null; fault: string } {
  const page = usePage();
  const [figures, setFigures] = useState<KitFigures | null>(null);
  const [fault, setFault] = useState('');
  const householdId = page.household?.state().body.id;
  const asked = JSON.stringify([householdId, kit]);
  useEffect(() => {
    if (kit === undefined) return;
    let gone = false;
    const timer = setTimeout(() => {
      page.api
        .post<KitFigures>('/api/kit-figures', { kit, ...(householdId === undefined ? {} : { householdId }) })
        .then(({ body }) => {
          if (gone) return;
          setFigures(body);
          setFault('');
        })
        .catch((error) => {
          if (!gone) setFault(error instanceof ServerRefusal ? error.message : String(error));
        });
    }, QUIET_MS);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [asked]);
  return { figures, fault };
}

export function KitFiguresPanel({ kit, figures, fault }: { kit: Kit; figures: KitFigures | null; fault: string }) {
  const page = usePage();
  if (figures === null)
    return html`<section class="answer" aria-label="What it comes to"><p>${fault === '' ? 'Adding up…' : `The figures wait: ${fault}`}</p></section>`;
  const { nutrition } = figures;
  const allergens = nutrition.allergens.map((one) => one.replaceAll('-', ' ')).join(', ');
  const remarks = figures.parts.flatMap((part) =>
    part.remarks.map((remark) => ({ ...remark, part: kit.parts.find(({ id }) => id === part.partId)?.name ?? '' })),
  );
  return html`<section class="answer" aria-label="What it comes to">
    <h2>What it comes to</h2>
    ${fault === '' ? null : html`<p class="wrong">These are the figures from before: ${fault}</p>`}
    <dl class="facts">
      <div><dt>A serving</dt><dd>${writeNumber(nutrition.kcalPerServing, 0)} kcal, ${writeNumber(nutrition.proteinGPerServing, 0)} g protein, salt ${writeNumber(nutrition.saltGPerServing, 1)} g or more</dd></div>
      <div><dt>Allergens</dt><dd>${allergens === '' ? 'none of those that labels must name' : allergens}</dd></div>
      <div><dt>Shortest</dt><dd>${wayInWords(page, figures.shortest, figures.noWay)}</dd></div>
      <div><dt>Least fuel</dt><dd>${wayInWords(page, figures.leastFuel, figures.noWay)}</dd></div>
      <div><dt>Keeps</dt><dd>${monthsInWords(figures.keepsMonths)}, as long as its shortest-lived part</dd></div>
    </dl>
    ${figures.guessed.map(({ name, guessed }) => html`<p key=${name}><span class="default-mark">guessed</span> ${guessed.join(', ')} of ${name}: its label does not say.</p>`)}
    ${
      remarks.length === 0
        ? null
        : html`<ul class="remarks">
            ${remarks.map((remark, index) => html`<li key=${index}><b>${remark.verdict === 'refused' ? 'Not so: ' : 'Mind: '}${remark.name}</b>${remark.part === '' || remark.part === remark.name ? '' : ` (${remark.part})`}. ${remark.text} ${remark.wayOut}</li>`)}
          </ul>`
    }
  </section>`;
}

/** "25 min in the pressure cooker on the propane camp stove, soaked; 85 g propane; 1.5 L in the pot" */
function wayInWords(page: Page, way: FiguredWay | null, noWay: string | null): string {
  if (way === null) return `no way: ${noWay ?? 'something is missing'}.`;
  const { units } = page;
  const time = way.minutes < 0.5 ? 'at once' : minutesInWords(Math.ceil(way.minutes));
  const water =
    way.waterL <= 0
      ? ''
      : `; ${say(way.potWaterL, 'litres', units, 'up')} in the pot${way.soakWaterL > 0 ? `, ${say(way.waterL, 'litres', units, 'up')} in all` : ''}`;
  if (way.finish === 'no-fire')
    return `${time}, without fire${way.potWaterL > 0 ? `; ${say(way.potWaterL, 'litres', units, 'up')} of safe water` : ''}`;
  const how = {
    flame: 'at the flame',
    pressure: 'in the pressure cooker',
    box: `in all, the last ${writeShort(way.boxHours ?? 0)} h in the box`,
    'no-fire': '',
  }[way.finish];
  const stove = way.stove ?? (way.typeId === null ? '' : stoveTypeName(way.typeId));
  const soak = way.soaked
    ? ', soaked before'
    : way.firstWater === 'poured-away'
      ? ', unsoaked, first water poured away'
      : '';
  const fuel =
    way.kg === null || way.fuelId === null
      ? ''
      : way.fuelId === 'electricity'
        ? `; ${writeNumber(way.kg.p50, 2)} kWh`
        : `; ${say(way.kg.p50, 'kg', units, 'up')} ${fuelName(way.fuelId)}`;
  return `${time} ${how}, on the ${inSentence(stove)}${soak}${fuel}${water}`;
}

function monthsInWords(months: number): string {
  return months >= 24
    ? `${writeNumber(Math.floor(months / 12), 0)} years`
    : `${writeNumber(Math.floor(months), 0)} months`;
}
