/** Sharing the stock out by heads: who gets what, what does not divide, the list to print, and the moves. */
import { useState } from 'preact/hooks';
import { setsText } from '../../api/wording/stock-words.ts';
import { type FieldError, ServerRefusal } from '../api-client.ts';
import type { ShareOut } from '../api-types.ts';
import { useBooked } from '../components/booked.ts';
import { DataTable } from '../components/data-table.ts';
import { ChoiceField, ErrorSummary, NumberField, TextField } from '../components/fields.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { ownPlaces } from '../stock-words.ts';

interface Row {
  label: string;
  heads: number;
  placeId: string | undefined;
}

type Proposal = ShareOut & { rule: string; words: string[]; basis: string };

export function ShareOutPart() {
  const page = usePage();
  const booked = useBooked();
  const household = page.household?.state().body;
  const places = ownPlaces(page);
  const [rows, setRows] = useState<Row[]>(() =>
    places.length > 1
      ? places.map((place) => ({ label: place.name ?? place.id, heads: 1, placeId: place.id }))
      : [
          { label: 'Share 1', heads: 1, placeId: undefined },
          { label: 'Share 2', heads: 1, placeId: undefined },
        ],
  );
  const [proposal, setProposal] = useState<Proposal | null>(null);
  const [fault, setFault] = useState('');
  const [errors, setErrors] = useState<FieldError[]>([]);
  if (household === undefined) return html`<p>There is no household yet.</p>`;
  const question = {
    householdId: household.id,
    among: rows.map(({ placeId, ...row }) => (placeId === undefined ? row : { ...row, placeId })),
  };
  const change = (index: number, part: Partial<Row>) => {
    setRows(rows.map((row, at) => (at === index ? { ...row, ...part } : row)));
    setProposal(null);
  };
  async function propose() {
    try {
      const { body } = await page.api.post<Proposal>('/api/stock/shares', question);
      setProposal(body);
      setFault('');
      setErrors([]);
      page.announce('Shared out. Nothing is moved yet.');
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      setProposal(null);
      setFault(error.message);
      setErrors(error.errors);
      page.alarm(error.message);
    }
  }
  async function accept() {
    if (proposal === null) return;
    const done = await booked.book(
      '/api/stock/shares',
      { ...question, accept: { basis: proposal.basis, at: wallClock(new Date()) } },
      'The bags are booked at their new places.',
    );
    if (done) setProposal(null);
  }
  const sheet = `/api/stock/shares/sheet?question=${encodeURIComponent(JSON.stringify(question))}`;
  return html`
    <p class="hint">Splits everything in store by the number of heads. Whole sets first; nothing is moved before you say so.</p>
    ${booked.line}
    <${ErrorSummary} title="Not shared out" errors=${errors} />
    ${fault !== '' && errors.length === 0 ? html`<p class="notice">${fault}</p>` : null}
    ${rows.map(
      (row, index) => html`<div class="fields" key=${index}>
        <${TextField} label=${`Share ${index + 1}`} value=${row.label} required pointer=${`#/among/${index}/label`} onValue=${(label: string) => change(index, { label })} />
        <${NumberField} label="Heads" quantity="count" value=${row.heads} minimum=${0} maximum=${100000} pointer=${`#/among/${index}/heads`} onValue=${(heads: number | undefined) => change(index, { heads: heads ?? 0 })} />
        <${ChoiceField} label="To lie at" value=${row.placeId} whenEmpty="carried away" options=${places.map((place) => [place.id, place.name ?? place.id])} pointer=${`#/among/${index}/placeId`} onValue=${(placeId: string | undefined) => change(index, { placeId })} />
        ${
          rows.length < 2
            ? null
            : html`<button type="button" class="small" onClick=${() => {
                setRows(rows.filter((_row, at) => at !== index));
                setProposal(null);
              }}>Leave out<span class="unseen"> ${row.label}</span></button>`
        }
      </div>`,
    )}
    <div class="row-end">
      <button type="button" class="small" onClick=${() => {
        setRows([...rows, { label: `Share ${rows.length + 1}`, heads: 1, placeId: undefined }]);
        setProposal(null);
      }}>Add a share</button>
      <button type="button" class="small" onClick=${() => {
        setRows(household.people.map(({ label, mealShare }) => ({ label, heads: mealShare ?? 1, placeId: undefined })));
        setProposal(null);
      }}>One share a person</button>
      <button type="button" class="main-button" onClick=${propose}>Share out</button>
      <a class="button" href=${sheet} target="_blank" rel="noopener">List to print<span class="unseen"> (opens a new tab)</span></a>
    </div>
    ${proposal === null ? null : html`<${ProposalTable} proposal=${proposal} />`}
    ${
      proposal === null
        ? null
        : rows.every((row) => row.placeId !== undefined || row.heads === 0)
          ? html`<button type="button" onClick=${accept}>Book the moves</button>`
          : html`<p class="hint">To book it, name a place for each share.</p>`
    }
  `;
}

function ProposalTable({ proposal }: { proposal: Proposal }) {
  const page = usePage();
  const { shares } = proposal;
  const kitIds = shares[0]?.sets.map((row) => row.kitId) ?? [];
  const nameOf = (kitId: string) => page.kits.find((kit) => kit.id === kitId)?.name ?? kitId;
  const rows = kitIds.map((kitId) => [
    nameOf(kitId),
    ...shares.map((share) => {
      const row = share.sets.find((one) => one.kitId === kitId);
      return `${writeNumber(row?.sets ?? 0, 2)} (${writeNumber(row?.due ?? 0, 2)})`;
    }),
  ]);
  const total = [
    'Servings a head',
    ...shares.map((share) => (share.heads > 0 ? writeNumber(share.servings / share.heads, 1) : '–')),
  ];
  return html`
    ${
      kitIds.length === 0
        ? html`<p>No complete set is there to be shared.</p>`
        : html`<${DataTable} caption="Sets of each share, in brackets the exact part by heads" head=${['Kit', ...shares.map((share) => share.label)]} rows=${[...rows, total]} marked=${[rows.length]} />`
    }
    <p class="hint">${proposal.rule}</p>
    ${
      proposal.words.length === 0
        ? html`<p>Everything divides evenly.</p>`
        : html`<h3>What does not divide</h3><ul>${proposal.words.map((line) => html`<li>${line}</li>`)}</ul>`
    }
    <p>${shares.map((share) => `${share.label}: ${setsText(share.sets.reduce((sum, row) => sum + row.sets, 0))}, ${bags(share.leftOver)} that make no set`).join('. ')}.</p>
  `;
}

function bags(list: readonly { quantity: number }[]): string {
  const sum = list.reduce((all, one) => all + one.quantity, 0);
  return sum === 1 ? '1 bag' : `${writeNumber(sum, 2)} bags`;
}
