/** The ledger of one kit, newest first, each entry with its undo. */
import type { Kit, StockEntry } from '../api-types.ts';
import type { Booked } from '../components/booked.ts';
import { DataTable } from '../components/data-table.ts';
import { wallClock } from '../dates.ts';
import { html } from '../html.ts';
import { REASON_NAMES } from '../names.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { ownPlaces, packedName, placeName } from '../stock-words.ts';

const MOST_ROWS = 40;

export function KitLedger({ kit, booked }: { kit: Kit; booked: Booked }) {
  const page = usePage();
  const places = new Set(ownPlaces(page).map((place) => place.id));
  const own = page.stock.items.filter(
    (entry) => entry.kitId === kit.id && (places.size === 0 || places.has(entry.placeId)),
  );
  const undone = undoneIds(own);
  const newest = [...own].reverse().slice(0, MOST_ROWS);
  const rows = newest.map((entry) => [
    entry.at.replace('T', ' '),
    `${REASON_NAMES[entry.reason] ?? entry.reason}${undone.has(entry.id) ? ' (taken back)' : ''}`,
    `${packedName(page, kit, entry.partId)}, packed ${entry.packedOn}`,
    placeName(page, entry.placeId),
    `${entry.quantity > 0 ? '+' : ''}${writeNumber(entry.quantity, 2)}`,
    noteOf(page.stock.items, entry),
    undone.has(entry.id)
      ? ''
      : html`<button
          type="button"
          class="small"
          onClick=${() =>
            booked.book(
              '/api/stock/undo',
              { entryIds: [entry.id], at: wallClock(new Date()) },
              `Taken back: ${REASON_NAMES[entry.reason] ?? entry.reason}, ${packedName(page, kit, entry.partId)}.`,
            )}
        >
          Undo<span class="unseen"> ${REASON_NAMES[entry.reason] ?? entry.reason} ${packedName(page, kit, entry.partId)} of ${entry.at}</span>
        </button>`,
  ]);
  return html`<p class="hint">All stock is the sum of these entries. A mistake is taken back by another entry.</p>
    <${DataTable}
      caption=${own.length > MOST_ROWS ? `The newest ${MOST_ROWS} of ${own.length} entries` : `${own.length} entries, newest first`}
      head=${['When', 'What', 'Part', 'Place', 'Bags', 'Note', 'Undo']}
      words=${[1, 2, 3, 5, 6]}
      rows=${rows}
    />`;
}

function noteOf(entries: readonly StockEntry[], entry: StockEntry): string {
  if (entry.undoes === undefined) return entry.note ?? '';
  const taken = entries.find((one) => one.id === entry.undoes);
  return taken === undefined ? '' : `of ${taken.at.replace('T', ' ')}`;
}

/** Entries that another entry takes back, where that one stands. */
function undoneIds(entries: readonly StockEntry[]): Set<string> {
  const by = new Map<string, string[]>();
  for (const entry of entries)
    if (entry.undoes !== undefined) by.set(entry.undoes, [...(by.get(entry.undoes) ?? []), entry.id]);
  const isUndone = (id: string, depth = 0): boolean =>
    depth < 50 && (by.get(id) ?? []).some((other) => !isUndone(other, depth + 1));
  return new Set([...by.keys()].filter((id) => isUndone(id)));
}
