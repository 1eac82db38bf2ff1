/** The list to look the stores through by: signs of harm and what follows, then every lot, oldest first, to tick. */
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { StockLot } from '../../planning/plan-types.ts';
import { INSPECTION_SIGNS } from '../../planning/stock-changes.ts';
import { kitName, partName } from '../share-words.ts';
import { bagsText, SIGN_WORDS } from '../stock-words.ts';
import { dateText } from '../times.ts';
import { escapeHtml } from './html.ts';
import { printDocument, printTable, TICK_BOX } from './print-document.ts';

/**
 * The list as printable HTML.
 * @param lots those of one household
 * @param places names by id; one sheet for each with anything in it
 * @param date `YYYY-MM-DD`
 */
export function inspectionSheetHtml(
  lots: readonly StockLot[],
  kits: readonly Kit[],
  places: ReadonlyMap<string, string>,
  title: string,
  date: string,
): string {
  const signs = printTable(
    'signs',
    ['Sign', 'What it looks like', 'Then'],
    INSPECTION_SIGNS.map((sign) => {
      const { name, look, act } = SIGN_WORDS[sign];
      return [escapeHtml(name), escapeHtml(look), escapeHtml(act)];
    }),
  );
  const sheets = [...places].flatMap(([placeId, placeName]) => {
    const own = lots
      .filter((lot) => lot.placeId === placeId && lot.quantity > 1e-9)
      .sort((a, b) => (a.packedOn < b.packedOn ? -1 : a.packedOn > b.packedOn ? 1 : 0));
    if (own.length === 0) return [];
    const rows = own.map((lot) => [
      `<b>${escapeHtml(partName(kits, lot.kitId, lot.partId))}</b><br>${escapeHtml(kitName(kits, lot.kitId))}`,
      `${lot.packedOn}${lot.useBy === null ? '' : `<br>use by ${lot.useBy}`}`,
      bagsText(lot.quantity),
      TICK_BOX,
      '',
    ]);
    return [
      {
        title: `Inspection: ${placeName}`,
        html: `<p>Look at every bag. Write the number of bags with a sign, and book it: <i>Stores</i>, <i>Inspect</i>.</p>${printTable('lots', ['Part', 'Packed', 'Should be', 'Sound', 'Sign and bags'], rows)}`,
      },
    ];
  });
  const first = {
    title: 'Inspection of the stores',
    html: `<p>${escapeHtml(title)}, ${dateText(date)}. By light, with clean hands; the oldest first. Food is never tasted to find out.</p>${signs}`,
  };
  return printDocument(`Inspection: ${title}`, 'Print this on A4 or Letter paper and carry it along.', 'inspection', [
    first,
    ...sheets,
  ]);
}
