/** How long the stores last, what ends it, and what is missing for a number of days. */

import { useState } from 'preact/hooks';
import { asHeading, fuelName } from '../../api/wording/names.ts';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { SolverProgress } from '../api-client.ts';
import type { Endurance, EndurancePoint, Missing, Percentiles } from '../api-types.ts';
import { LinesChart } from '../charts/lines.ts';
import { DataTable } from '../components/data-table.ts';
import { HowButton } from '../components/derivation.ts';
import { NumberField } from '../components/fields.ts';
import { LongWorkBlock, useLongQuestion } from '../components/long-work.ts';
import { fuelAmongSteps } from '../components/plan-how.ts';
import { clockOf, dayInWords, dayShort } from '../dates.ts';
import { html } from '../html.ts';
import { shownValue, unitOf } from '../measures.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';

const TIME_LIMIT_S = 20;

export function EnduranceSection({ startsAt }: { startsAt: string }) {
  const page = usePage();
  const [days, setDays] = useState<number | undefined>(undefined);
  const householdId = page.household?.state().body.id;
  const about = () => `${householdId} ${page.household?.state().etag} ${page.stock.items.length} ${startsAt}`;
  // Stores that have changed since make an answer an old one.
  const question = useLongQuestion<Endurance>('endurance', '/api/endurance?explain=1', about(), TIME_LIMIT_S);
  // Asked before the stores are known here, the answer would look like one to other stores.
  if (householdId === undefined || !page.storesRead) return null;
  const ask = async () => {
    // What is still being typed belongs to the question, and gives the household another revision.
    await page.household?.flush();
    await question.ask(
      { householdId, startsAt, ...(days === undefined ? {} : { days }), timeLimitS: TIME_LIMIT_S },
      lastsInWords,
      about(),
    );
  };
  return html`<section aria-labelledby="endurance-title">
    <h2 id="endurance-title">How long it lasts</h2>
    <p class="hint">From ${dayInWords(startsAt)}, ${clockOf(startsAt)}, with all that is in store: the most days for which everybody is fed, and what ends them.</p>
    <div class="fields">
      <${NumberField} label="What is missing for" quantity="days" value=${days} minimum=${1} maximum=${90} whenEmpty="not asked" onValue=${(value: number | undefined) => setDays(value === undefined ? undefined : Math.round(value))} />
    </div>
    <${LongWorkBlock} question=${question} doing="Looking how long it lasts" label="How long do we last?" said=${progressInWords} onAsk=${() => void ask()} />
    ${question.answer === null ? null : html`<${Lasts} answer=${question.answer} />`}
  </section>`;
}

function progressInWords({ aim, best, bound }: SolverProgress): string {
  if (aim === 'missing') return 'Summing what is missing.';
  if (aim === 'curve') return `Working out the point of ${daysText(best ?? 0)}.`;
  if (aim?.endsWith('-end')) return 'Looking what ends it.';
  const hot = aim?.startsWith('fed-hot') ? ' with every hot meal' : '';
  if (aim?.endsWith('-plan')) return `Putting ${daysText(best ?? 0)}${hot} on a calendar.`;
  return aim?.startsWith('fed') && typeof best === 'number' && typeof bound === 'number'
    ? `Between ${best} and ${bound} days${hot} so far.`
    : 'Laying out the days.';
}

/** `Everybody is fed for 6 days, until Thursday 10 December.` */
export function lastsInWords({ fed, fedHot }: Endurance): string {
  if (fed.days === 0) return 'Not even the first day can be fed in full.';
  const atLeast = fed.atMost > fed.days ? 'at least ' : '';
  const until = fed.lastDate === null ? '' : `, until ${dayInWords(fed.lastDate)}`;
  const hot =
    fedHot.days >= fed.days
      ? ' Every meal that should be hot can be hot all that time.'
      : fedHot.days === 0
        ? ' Not all meals that should be hot can be, not even on the first day.'
        : ` Every meal that should be hot is hot for ${daysText(fedHot.days)}; after that some are cold.`;
  return `Everybody is fed for ${atLeast}${daysText(fed.days)}${until}.${hot}`;
}

function daysText(count: number): string {
  return count === 1 ? '1\u00a0day' : `${count}\u00a0days`;
}

function Lasts({ answer }: { answer: Endurance }) {
  const { fed, endsFed, endsFedHot, reverse, notWorkedOut } = answer;
  return html`<div class="answer">
    <p class="lasts"><strong>${lastsInWords(answer)}</strong></p>
    <p class="hint">Everybody fed: <${HowButton} of="Days on which everybody is fed" quantity=${['daysFed']} steps=${answer.explanation ?? []} />. Every hot meal: <${HowButton} of="Days with every hot meal" quantity=${['daysFedHot']} steps=${answer.explanation ?? []} />.</p>
    ${fed.noMorePossible ? html`<p>Proven: no plan from these stores feeds everybody for a day more.</p>` : null}
    ${fed.days > 0 && !fed.planFound ? html`<p>There was no time to put these days on a calendar: plan them to be sure.</p>` : null}
    ${endsFed === null ? null : html`<${MissingBlock} title=${`What ends it, on ${dayInWords(endsFed.date)}`} missing=${endsFed} />`}
    ${endsFedHot === null ? null : html`<${MissingBlock} title=${`What ends the hot meals, on ${dayInWords(endsFedHot.date)}`} missing=${endsFedHot} />`}
    ${
      reverse === null
        ? null
        : html`<${MissingBlock} title=${`What is missing for ${daysText(reverse.days)}, until ${dayInWords(reverse.lastDate)}`} missing=${reverse.fed} />
            ${reverse.fedHot.text === reverse.fed.text ? null : html`<${MissingBlock} title="The same with every hot meal" missing=${reverse.fedHot} />`}`
    }
    ${notWorkedOut.length === 0 ? null : html`<p class="hint">There was no time for: ${notWorkedOut.join('; ')}.</p>`}
    ${answer.curve.length < 2 ? null : html`<${Curve} answer=${answer} />`}
  </div>`;
}

export function MissingBlock({ title, missing }: { title: string; missing: Missing }) {
  const { alone, together } = missing;
  const { units } = usePage();
  return html`<h3>${title}</h3>
    ${
      alone.length > 0
        ? html`<p>${alone.length === 1 ? 'This would do:' : 'Any one of these would do, the smallest share of what there is first:'}</p>
            <ul>${alone.map((one) => html`<li>${textInSystem(one.text, units)}</li>`)}</ul>`
        : together.length > 0
          ? html`<p>${together.length === 1 ? 'This would do:' : 'No single thing would do. These together would:'}</p>
              <ul>${together.map((one) => html`<li>${textInSystem(one.text, units)}</li>`)}</ul>`
          : html`<p>${textInSystem(missing.text, units)}</p>`
    }
    ${missing.complete || (alone.length === 0 && together.length === 0) ? null : html`<p class="hint">Not everything could be looked at in the time.</p>`}`;
}

/** Share of what may be used that each number of days takes, in percent. */
function shareOf(point: EndurancePoint, what: string): number {
  if (what === 'water') return (100 * point.waterL.used) / Math.max(1e-9, point.waterL.used + point.waterL.left);
  const fuel = point.fuel.find((one) => one.fuelId === what);
  return fuel === undefined || fuel.budgetKg <= 0 ? 0 : (100 * fuel.plannedKg) / fuel.budgetKg;
}

/** A figure of a point of the curve as the button to its steps. */
function how(point: EndurancePoint, what: string, quantity: string, shown: string) {
  const of = `${what} for ${daysText(point.days)}`;
  return html`<${HowButton} of=${of} quantity=${[quantity]} shown=${shown} steps=${point.explanation ?? []} />`;
}

function Curve({ answer }: { answer: Endurance }) {
  const { units } = usePage();
  const { curve, fed } = answer;
  const fuels =
    curve[0]?.fuel.map((one) => one.fuelId).filter((id) => curve.some((point) => shareOf(point, id) > 0.5)) ?? [];
  const named = [
    ...fuels.map((id): [string, string] => [id, asHeading(fuelName(id))]),
    ['water', 'Water'] as [string, string],
  ];
  const top = Math.max(100, ...curve.flatMap((point) => named.map(([id]) => shareOf(point, id))));
  const litre = (value: number) => writeShort(shownValue(value, 'litres', units));
  const mass = (fuelId: string, { p10, p50, p90 }: Percentiles) => {
    const shown = (value: number) => writeShort(fuelId === 'electricity' ? value : shownValue(value, 'kg', units));
    return p90 - p10 < 1e-9 ? shown(p50) : `${shown(p50)} (${shown(p10)} to ${shown(p90)})`;
  };
  const every = Math.ceil(curve.length / 8);
  const ticks = curve
    .filter((point, index) => index % every === 0 || point.days === fed.days)
    .map((point): [number, string] => [point.days, String(point.days)]);
  return html`<h3>What each number of days takes</h3>
    <p class="hint">In percent of what may be used: fuel counted as the plan counts it (9 times in 10 no more) against its budget, water against all on hand.</p>
    <${LinesChart}
      label="Chart of what each number of days takes"
      summary=${`Share of fuel and water that 1 to ${curve[curve.length - 1]?.days} days take; the table below holds the numbers`}
      lines=${named.map(([id, name]) => ({ name, points: curve.map((point) => [point.days, shareOf(point, id)]) }))}
      xName="days"
      xTicks=${ticks}
      yTicks=${[0, 50, 100, ...(top > 115 ? [top] : [])].map((at) => [at, `${writeNumber(at, 0)}\u00a0%`])}
      level=${{ at: 100, words: 'all' }}
      upright=${fed.days > 0 ? { at: fed.days, words: `fed for ${daysText(fed.days)}` } : undefined}
    />
    <${DataTable}
      caption="What each number of days takes, typical (8 times in 10 within)"
      head=${['Days', 'Until', 'Everybody fed', ...fuels.map((id) => `${asHeading(fuelName(id))} (${id === 'electricity' ? 'kWh' : unitOf('kg', units)})`), `Water (${unitOf('litres', units)})`, 'Water left']}
      words=${[1, 2]}
      rows=${curve.map((point) => [
        point.days,
        dayShort(point.lastDate),
        point.everybodyFedHot
          ? 'yes, hot'
          : point.everybodyFed
            ? 'yes'
            : `${writeShort(point.servingsShort)} servings short`,
        ...fuels.map((id) => {
          const fuel = point.fuel.find((one) => one.fuelId === id);
          return fuel === undefined
            ? '–'
            : how(point, asHeading(fuelName(id)), `${fuelAmongSteps(id)}UsedKg`, mass(id, fuel.usedKg));
        }),
        how(point, 'Water', 'usedL', litre(point.waterL.used)),
        how(point, 'Water left', 'leftL', litre(point.waterL.left)),
      ])}
    />`;
}
