/** What the household has measured itself: the figures that follow, each record with what it did, and the form for more. */

import { useEffect, useState } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type {
  ExplainedFigure,
  ExplainedLearned,
  HouseholdDocument,
  Learned,
  LearnedFigure,
  Measurement,
  MeasurementEffect,
} from '../api-types.ts';
import { type OwnFigure, OwnFigures } from '../components/own-figures.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { wordsOf } from '../names.ts';
import { type Page, usePage } from '../page-state.ts';
import { MEASUREMENT_NAMES, MeasurementForm } from './measurement-form.ts';
import { SetUpPart } from './set-up-part.ts';

interface Records {
  items: Measurement[];
  effects: MeasurementEffect[];
  learned: Learned;
}

export function MeasuredSection({ household }: { household: HouseholdDocument }) {
  const page = usePage();
  const [records, setRecords] = useState<Records | null>(null);
  /** The record removed last, until it is put back or another is removed. */
  const [removed, setRemoved] = useState<Measurement | null>(null);
  const load = async () => {
    const [list, learned] = await Promise.all([
      page.api.get<Omit<Records, 'learned'>>(`/api/measurements?householdId=${household.id}`),
      page.api.get<Learned>(`/api/households/${household.id}/learned`),
    ]);
    setRecords({ ...list.body, learned: learned.body });
  };
  useEffect(() => {
    load().catch(() => setRecords(null));
  }, [household.id]);
  const change = async (id: string, write: (etag: string, body: Measurement) => Promise<unknown>, done: string) => {
    try {
      const { body, etag } = await page.api.get<Measurement>(`/api/measurements/${id}`);
      await write(etag ?? '*', body);
      page.announce(done);
    } catch (error) {
      page.alarm(error instanceof Error ? error.message : String(error));
    }
    await load().catch(() => undefined);
  };
  const putBack = async () => {
    if (removed === null) return;
    try {
      await page.api.create(`/api/measurements/${removed.id}`, removed);
      setRemoved(null);
      page.announce('It is back.');
    } catch (error) {
      page.alarm(error instanceof Error ? error.message : String(error));
    }
    await load().catch(() => undefined);
  };
  const figures = records === null ? [] : figuresOf(records.learned, household.id);
  const items = [...(records?.items ?? [])].sort((a, b) => (a.at < b.at ? -1 : 1));
  const sheet = `/api/rehearsal-sheet?householdId=${household.id}&units=${page.units}`;
  return html`<${SetUpPart} title="Measured by you" holds=${items.length === 0 ? 'nothing yet' : `${items.length} ${items.length === 1 ? 'record' : 'records'}`}>
    <p>
      A few tests on a calm day make the plan yours. <a href=${sheet} target="_blank" rel="noopener">The rehearsal sheet</a> leads through them, on paper.
    </p>
    ${
      figures.length === 0
        ? null
        : html`<${OwnFigures} figures=${figures} />
            <p class="hint">The next plan, and ways to cook a dish, use these.</p>`
    }
    ${
      removed === null
        ? null
        : html`<div class="save-line">
            <p>The ${MEASUREMENT_NAMES[removed.kind].toLowerCase()} of ${removed.at.replace('T', ' ')} was removed.</p>
            <button type="button" class="small" onClick=${putBack}>Undo: put it back</button>
          </div>`
    }
    ${items.map((record) => {
      const effect = records?.effects.find(({ id }) => id === record.id);
      return html`<fieldset key=${record.id}>
        <legend>${MEASUREMENT_NAMES[record.kind]}, ${record.at.replace('T', ' ')}</legend>
        <p>${thingOf(record, household)}: ${expectedText(effect, page.units)} ${useText(effect)}</p>
        ${effect?.question == null ? null : html`<p class="notice">${textInSystem(effect.question, page.units)}</p>`}
        <p>
          ${
            effect?.use === 'questioned'
              ? html`<button type="button" class="small" onClick=${() =>
                  change(
                    record.id,
                    (etag, body) =>
                      page.api.replace(`/api/measurements/${record.id}`, { ...body, confirmed: true }, etag),
                    'It counts now.',
                  )}>It is right: count it</button> `
              : null
          }
          <button type="button" class="small" onClick=${() =>
            change(
              record.id,
              (etag, body) => page.api.remove(`/api/measurements/${record.id}`, etag).then(() => setRemoved(body)),
              'Removed. The figures are as they were without it.',
            )}>Remove<span class="unseen"> the ${MEASUREMENT_NAMES[record.kind].toLowerCase()} of ${record.at}</span></button>
        </p>
      </fieldset>`;
    })}
    <${MeasurementForm} household=${household} onRecorded=${() => load().catch(() => undefined)} />
  <//>`;
}

/** The figures that rest on records. */
function figuresOf(learned: Learned, householdId: string): OwnFigure[] {
  const explained = async (page: Page, of: (all: ExplainedLearned) => ExplainedFigure | undefined) => {
    const { body } = await page.api.get<ExplainedLearned>(`/api/households/${householdId}/learned?explain=1`);
    return of(body)?.explanation ?? [];
  };
  const own = (
    of: string,
    quantity: OwnFigure['quantity'],
    figure: LearnedFigure,
    find: (all: ExplainedLearned) => ExplainedFigure | undefined,
  ): OwnFigure => ({ of, quantity, figure, steps: (page) => explained(page, find), step: 'ownFigure' });
  return [
    ...learned.stoves.flatMap(({ name, efficiency, powerKW }, at): OwnFigure[] => [
      own(name, 'efficiency', efficiency, (all) => all.stoves[at]?.efficiency),
      own(name, 'powerKW', powerKW, (all) => all.stoves[at]?.powerKW),
    ]),
    ...learned.cooling.map(({ name, timeConstantHours }, at) =>
      own(name, 'timeConstantHours', timeConstantHours, (all) => all.cooling[at]?.timeConstantHours),
    ),
    ...learned.lots.map(({ name, packedOn, minutesFactor }, at) =>
      own(`${name}, packed ${packedOn}`, 'minutesFactor', minutesFactor, (all) => all.lots[at]?.minutesFactor),
    ),
  ].filter(({ figure }) => figure.records.length > 0);
}

function thingOf(record: Measurement, { stoves, boxes, vessels }: HouseholdDocument): string {
  const nameOf = (things: readonly { id: string; name?: string }[] | undefined, id: string): string =>
    things?.find((one) => one.id === id)?.name ?? wordsOf(id);
  if (record.kind === 'boil-test') return nameOf(stoves, record.stoveId);
  if (record.kind === 'cooling-reading')
    return record.boxId === undefined ? nameOf(vessels, record.vesselId) : nameOf(boxes, record.boxId);
  return `${wordsOf(record.foodId)}, packed ${record.packedOn}`;
}

function expectedText(effect: MeasurementEffect | undefined, units: 'metric' | 'us'): string {
  const text = (value: number, unit: string): string =>
    unit === 'kg'
      ? say(value * 1000, 'g', units)
      : unit === 'C'
        ? say(value, 'temperatureC', units)
        : unit === 'min'
          ? say(value, 'minutes', units)
          : unit === 'kWh'
            ? say(value, 'kWh', units)
            : say(value, 'count', units);
  const parts = (effect?.expected ?? []).map(({ quantity, unit, low, high, found }) => {
    const name = quantity === 'minutes' ? '' : `${quantity} `;
    // A question says the band itself.
    const band = effect?.question == null ? ` (expected ${text(low, unit)} to ${text(high, unit)})` : '';
    return `${name}${text(found, unit)}${band}`;
  });
  return parts.length === 0 ? '' : `${parts.join(', ')}.`;
}

function useText(effect: MeasurementEffect | undefined): string {
  if (effect === undefined) return '';
  if (effect.use === 'counts') return 'It counts.';
  return effect.use === 'questioned' ? 'It does not count yet.' : `It is not used. ${effect.reason ?? ''}`;
}
