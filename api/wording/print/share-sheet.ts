/** The list of a share-out: an overview, then one list for each share, to pack and tick by. */
import type { Kit } from '../../cooking/dishes/kit.ts';
import type { Share, SharedContainers, ShareOut } from '../../planning/share-out.ts';
import { kitName, partName, SHARE_RULE, shareWords } from '../share-words.ts';
import { bagsText, figure, setsText } from '../stock-words.ts';
import { dateText } from '../times.ts';
import { escapeHtml } from './html.ts';
import { type PrintCard, printDocument, printTable, TICK_BOX } from './print-document.ts';

/** What names are looked up in. */
export interface ShareSheetNames {
  kits: readonly Kit[];
  /** Names of places by id. */
  places: ReadonlyMap<string, string>;
}

/**
 * The whole list as printable HTML.
 * @param title name of the household
 * @param date `YYYY-MM-DD`
 */
export function shareSheetHtml(out: ShareOut, names: ShareSheetNames, title: string, date: string): string {
  const cards = [overview(out, names, date), ...out.shares.map((share) => shareCard(share, names))];
  return printDocument(
    `Share-out: ${title}`,
    'Print this on A4 or Letter paper: an overview, then one list for each share.',
    'shares',
    cards,
  );
}

function overview(out: ShareOut, { kits }: ShareSheetNames, date: string): PrintCard {
  const shared = out.shares[0]?.sets.map((row) => row.kitId) ?? [];
  const head = ['Kit', ...out.shares.map((share) => escapeHtml(share.label))];
  const rows = shared.map((kitId) => [
    escapeHtml(kitName(kits, kitId)),
    ...out.shares.map((share) => {
      const row = share.sets.find((one) => one.kitId === kitId);
      return `<b>${figure(row?.sets ?? 0)}</b> (${figure(row?.due ?? 0)})`;
    }),
  ]);
  const total = ['Servings in all', ...out.shares.map((share) => figure(share.servings))];
  const each = [
    'Servings a head',
    ...out.shares.map((share) => (share.heads > 0 ? figure(share.servings / share.heads) : '–')),
  ];
  const said = shareWords(out, kits);
  return {
    title: 'Share-out',
    html:
      `<p>Of ${dateText(date)}, for ${out.shares.map((share) => `${escapeHtml(share.label)} (${headsText(share.heads)})`).join(', ')}.</p>` +
      `<p>${escapeHtml(SHARE_RULE)} In brackets: the exact part.</p>` +
      (rows.length === 0
        ? '<p>No complete set is there to be shared.</p>'
        : printTable('share-table', head, [...rows, total, each])) +
      (said.length === 0
        ? '<p>Everything divides evenly.</p>'
        : `<h2 class="sheet-part">What does not divide</h2><ul>${said.map((line) => `<li>${escapeHtml(line)}</li>`).join('')}</ul>`),
  };
}

function shareCard(share: Share, names: ShareSheetNames): PrintCard {
  const kitIds = share.sets.filter((row) => row.sets > 0).map((row) => row.kitId);
  const rows = kitIds.map((kitId) => [
    `${escapeHtml(kitName(names.kits, kitId))}<br>${setsText(share.sets.find((row) => row.kitId === kitId)?.sets ?? 0)}`,
    bagLines(
      share.takes.filter((take) => take.kitId === kitId),
      share,
      names,
    ),
    TICK_BOX,
  ]);
  const loose = [...new Set(share.leftOver.map((one) => one.kitId))].map((kitId) => [
    escapeHtml(kitName(names.kits, kitId)),
    bagLines(
      share.leftOver.filter((one) => one.kitId === kitId),
      share,
      names,
    ),
    TICK_BOX,
  ]);
  // A page that follows says whose list it is.
  const head = [`${escapeHtml(share.label)}: kit`, 'Bags', 'Done'];
  const place = share.placeId === null ? null : (names.places.get(share.placeId) ?? share.placeId);
  return {
    title: share.label,
    html:
      `<p>For ${headsText(share.heads)}${place === null ? '' : `, to lie at: ${escapeHtml(place)}`}. ${figure(share.servings)} servings in whole sets.</p>` +
      (rows.length === 0 ? '<p>No complete set.</p>' : printTable('share-bags', head, rows)) +
      (loose.length === 0
        ? ''
        : `<h2 class="sheet-part">Bags that make no set</h2>${printTable('share-bags', head, loose)}`) +
      '<div class="blanks"><span>Handed out by</span><span class="blank"></span><span>Received by</span><span class="blank"></span></div>',
  };
}

function bagLines(bags: readonly SharedContainers[], share: Share, { kits, places }: ShareSheetNames): string {
  return bags
    .map(({ kitId, partId, placeId, packedOn, quantity }) => {
      const from = placeId === share.placeId ? ', is there already' : `, from: ${places.get(placeId) ?? placeId}`;
      return `<span class="bag-line"><b>${bagsText(quantity)}</b> ${escapeHtml(`${partName(kits, kitId, partId)}, packed ${packedOn}${from}`)}</span>`;
    })
    .join('');
}

function headsText(heads: number): string {
  return heads === 1 ? '1 head' : `${figure(heads)} heads`;
}
