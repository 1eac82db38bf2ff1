/** Stock lists, kits and backups as files: out, and in with a look at what was understood before anything is stored. */
import { useState } from 'preact/hooks';
import { ServerRefusal } from '../api-client.ts';
import { useBooked } from '../components/booked.ts';
import { DataTable } from '../components/data-table.ts';
import { ChoiceField } from '../components/fields.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { usePage } from '../page-state.ts';
import { ownPlaces } from '../stock-words.ts';

const MOST_ROWS_SHOWN = 60;

export function FilesPart() {
  const page = usePage();
  const householdId = page.household?.state().body.id;
  return html`
    <h3>Stock as a list</h3>
    <p class="hint">A list for a spreadsheet, one row for each lot.</p>
    <div class="row-end"><a class="button" href=${`/api/stock.csv${householdId === undefined ? '' : `?householdId=${householdId}`}`} download="stock.csv">Save the list (CSV)</a></div>
    <${ListImport} />
    <h3>Kits</h3>
    <div class="row-end"><a class="button" href="/api/kits.json" download="kits.json">Save all kits (JSON)</a></div>
    <${KitImport} />
    <${OneRecipe} />
    <h3>Backup of everything</h3>
    <p class="hint">Households, kits, stock, plans, bookings, own tests and own foods in one file.</p>
    <div class="row-end"><a class="button" href="/api/backup" download=${`backup-${wallClock(new Date()).slice(0, 10)}.json`}>Save a backup</a></div>
    <${Restore} />
  `;
}

/** One kit in the shape that recipe keepers read. */
function OneRecipe() {
  const page = usePage();
  const kits = [...page.kits].sort((a, b) => a.name.localeCompare(b.name));
  const [chosen, setChosen] = useState<string | undefined>(undefined);
  const kit = kits.find((one) => one.id === chosen) ?? kits[0];
  if (kit === undefined) return null;
  return html`<div class="fields">
    <${ChoiceField} label="One kit as a recipe (schema.org)" value=${kit.id} options=${kits.map((one) => [one.id, one.name])} onValue=${setChosen} />
    <div class="row-end"><a class="button" href=${`/api/kits/${kit.id}/recipe`} download=${`${kit.id}.jsonld`}>Save the recipe<span class="unseen"> of ${kit.name}</span></a></div>
  </div>`;
}

interface FileFieldProps {
  label: string;
  accept: string;
  onText: (text: string, name: string) => void;
}

function FileField({ label, accept, onText }: FileFieldProps) {
  const id = `file-${label.toLowerCase().replace(/[^a-z]+/g, '-')}`;
  return html`<div class="field">
    <label for=${id}>${label}</label>
    <input
      id=${id}
      type="file"
      accept=${accept}
      onChange=${(event: Event) => {
        const input = event.target as HTMLInputElement;
        const file = input.files?.[0];
        if (file === undefined) return;
        void file.text().then((text) => {
          // A file that was mended has the same name: it must count as chosen anew.
          input.value = '';
          onText(text, file.name);
        });
      }}
    />
  </div>`;
}

interface ListAnswer {
  rows: { row: number; outcome: string; words: string; faults: { column: string; value: string; detail: string }[] }[];
  counts: { rows: number; understood: number; refused: number; empty: number; entries: number };
  notUsed: string[];
}

function ListImport() {
  const page = usePage();
  const booked = useBooked();
  const places = ownPlaces(page);
  const [text, setText] = useState<{ text: string; name: string } | null>(null);
  const [mode, setMode] = useState('add');
  const [placeId, setPlaceId] = useState<string | undefined>(undefined);
  const [seen, setSeen] = useState<ListAnswer | null>(null);
  const [fault, setFault] = useState('');
  const question = (more: object) => ({
    householdId: page.household?.state().body.id ?? '',
    text: text?.text ?? '',
    mode,
    ...(placeId === undefined ? {} : { placeId }),
    at: wallClock(new Date()),
    ...more,
  });
  async function look(chosen: { text: string; name: string }, asMode = mode) {
    setText(chosen);
    setSeen(null);
    try {
      const { body } = await page.api.post<ListAnswer>('/api/stock.csv', {
        ...question({ preview: true }),
        text: chosen.text,
        mode: asMode,
      });
      setSeen(body);
      setFault('');
      page.announce(
        `${body.counts.understood} rows understood, ${body.counts.refused} refused. Nothing is stored yet.`,
      );
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      setFault(error.errors[0]?.detail ?? error.message);
      page.alarm(error.message);
    }
  }
  async function store() {
    const done = await booked.book(
      '/api/stock.csv',
      question({}),
      `${text?.name}: ${seen?.counts.entries} entries stored.`,
    );
    if (done) {
      setSeen(null);
      setText(null);
    }
  }
  return html`
    ${booked.line}
    <div class="fields">
      <${FileField} label="Take a stock list in (CSV)" accept=".csv,.txt,text/csv" onText=${(read: string, name: string) => void look({ text: read, name })} />
      <${ChoiceField}
        label="What the list says"
        value=${mode}
        options=${[['add', 'Packed besides what is there'], ['count', 'Counted: that is what is there of these lots']]}
        onValue=${(value: string | undefined) => {
          setMode(value ?? 'add');
          if (text !== null) void look(text, value ?? 'add');
        }}
      />
      ${
        places.length < 2
          ? null
          : html`<${ChoiceField} label="Where a row names no place" value=${placeId} whenEmpty=${places[0]?.name ?? places[0]?.id ?? ''} options=${places.map((place) => [place.id, place.name ?? place.id])} onValue=${(value: string | undefined) => setPlaceId(value)} />`
      }
    </div>
    ${fault === '' ? null : html`<p class="notice" role="alert">${text?.name}: ${fault} Nothing was stored.</p>`}
    ${
      seen === null
        ? null
        : html`<p>
              ${text?.name}: ${seen.counts.rows} rows, ${seen.counts.understood} understood, ${seen.counts.refused} refused${seen.counts.empty > 0 ? `, ${seen.counts.empty} empty` : ''}.${' '}
              ${seen.notUsed.length === 0 ? '' : `Columns that are not read: ${seen.notUsed.join(', ')}.`}
            </p>
            <${DataTable}
              caption=${seen.rows.length > MOST_ROWS_SHOWN || seen.counts.rows > seen.rows.length ? `The first ${Math.min(MOST_ROWS_SHOWN, seen.rows.length)} rows, refused ones first` : 'What was understood, refused rows first'}
              head=${['Row', 'Outcome', 'Understood as, or what to mend']}
              words=${[1, 2]}
              marked=${seen.rows.slice(0, MOST_ROWS_SHOWN).flatMap((row, index) => (row.outcome === 'refused' ? [index] : []))}
              rows=${seen.rows.slice(0, MOST_ROWS_SHOWN).map((row) => [String(row.row), row.outcome, row.outcome === 'refused' ? row.faults.map((one) => `${one.column}${one.value === '' ? '' : ` “${one.value}”`}: ${one.detail}`).join(' ') : row.words])}
            />
            ${
              seen.counts.refused > 0
                ? html`<p class="notice">A list is stored whole or not at all. Mend the refused rows and choose the file again.</p>`
                : seen.counts.entries === 0
                  ? html`<p>The list says what the ledger says: there is nothing to store.</p>`
                  : html`<button type="button" class="main-button" onClick=${store}>Store ${seen.counts.entries} entries</button>`
            }`
    }
  `;
}

interface KitAnswer {
  items: { what: string; id: string; name: string; outcome: string; faults: { detail: string }[] }[];
}

/**
 * A file of JSON that is previewed when it is chosen, and then taken in: what the server said of it, or what went wrong.
 * @param send asks the server, and returns what to show of its answer; null: nothing
 */
function useJsonFile<Answer>(send: (file: unknown, preview: boolean, replace: boolean) => Promise<Answer | null>) {
  const page = usePage();
  const [file, setFile] = useState<unknown>(null);
  const [seen, setSeen] = useState<Answer | null>(null);
  const [fault, setFault] = useState('');
  async function ask(chosen: unknown, preview: boolean, replace: boolean) {
    try {
      setSeen(await send(chosen, preview, replace));
      setFault('');
    } catch (error) {
      if (!(error instanceof ServerRefusal)) throw error;
      setSeen(null);
      setFault(error.message);
      page.alarm(error.message);
    }
  }
  function choose(text: string, replace: boolean) {
    try {
      const parsed = JSON.parse(text) as unknown;
      setFile(parsed);
      void ask(parsed, true, replace);
    } catch {
      setSeen(null);
      setFault('The file is no JSON: it may have been cut short. Choose another copy.');
    }
  }
  return { seen, fault, choose, ask: (preview: boolean, replace: boolean) => void ask(file, preview, replace) };
}

function KitImport() {
  const page = usePage();
  const [replace, setReplace] = useState(false);
  const [said, setSaid] = useState('');
  const { seen, fault, choose, ask } = useJsonFile<KitAnswer>(async (file, preview, asReplace) => {
    const { body } = await page.api.post<KitAnswer>('/api/kits.json', { file, replace: asReplace, preview });
    setSaid(preview ? '' : `${body.items.filter((item) => item.outcome !== 'same').length} stored.`);
    page.announce(preview ? `${body.items.length} kits and foods in the file. Nothing is stored yet.` : 'Stored.');
    if (preview) return body;
    await page.reloadStores();
    return null;
  });
  function read(text: string) {
    setSaid('');
    choose(text, replace);
  }
  const refused = seen?.items.filter((item) => item.outcome === 'refused') ?? [];
  return html`
    <div class="fields"><${FileField} label="Take kits in (JSON)" accept=".json,application/json" onText=${read} /></div>
    ${fault === '' ? null : html`<p class="notice" role="alert">${fault}</p>`}
    ${said === '' ? null : html`<p>${said}</p>`}
    ${
      seen === null
        ? null
        : html`<${DataTable}
              caption="What would become of each"
              head=${['Name', 'Id', 'Outcome', 'Why']}
              words=${[1, 2, 3]}
              rows=${seen.items.map((item) => [item.name, item.id, item.outcome, item.faults.map((one) => one.detail).join(' ')])}
            />
            ${
              refused.length === 0
                ? html`<button type="button" class="main-button" onClick=${() => ask(false, replace)}>Store them</button>`
                : html`<p class="notice">Kits are stored all together or not at all.</p>
                    ${
                      replace
                        ? null
                        : html`<button type="button" onClick=${() => {
                            setReplace(true);
                            ask(true, true);
                          }}>Put those of the file in the place of stored ones</button>`
                    }`
            }`
    }
  `;
}

interface RestoreAnswer {
  found: Record<string, number>;
  inTheWay: Record<string, number>;
}

function Restore() {
  const page = usePage();
  const { seen, fault, choose, ask } = useJsonFile<RestoreAnswer>(async (backup, preview) => {
    const { body } = await page.api.post<RestoreAnswer>('/api/backup', { backup, replace: true, preview });
    if (preview) page.announce('The backup is sound. Nothing is restored yet.');
    else location.reload();
    return body;
  });
  const inWords = (counts: Record<string, number>) =>
    Object.entries(counts)
      .filter(([, count]) => count > 0)
      .map(([name, count]) => `${name} ${count}`)
      .join(', ') || 'nothing';
  return html`
    <div class="fields"><${FileField} label="Restore a backup" accept=".json,application/json" onText=${(text: string) => choose(text, true)} /></div>
    ${fault === '' ? null : html`<p class="notice" role="alert">${fault}</p>`}
    ${
      seen === null
        ? null
        : html`<div class="notice">
            <p>The file holds: ${inWords(seen.found)}.</p>
            <p>It takes the place of all that is stored now: ${inWords(seen.inTheWay)}. Save a backup of that first.</p>
            <button type="button" onClick=${() => ask(false, true)}>Restore it, and give up what is stored now</button>
          </div>`
    }
  `;
}
