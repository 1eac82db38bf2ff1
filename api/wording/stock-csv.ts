/**
 * Stock lists as comma-separated values, version 1: one row for each lot, or for what is added to it. What was understood
 * of a list is told row by row; nothing is refused without a reason.
 */

import type { Kit, KitPart } from '../cooking/dishes/kit.ts';
import { packableParts } from '../cooking/dishes/part-choices.ts';
import { KG_PER_OUNCE, KG_PER_POUND } from '../physics/units.ts';
import type { StockEntry, StockLot } from '../planning/plan-types.ts';
import { csvText, readCsv } from './csv.ts';
import { nearestInWords } from './lists.ts';
import { readAmount, readListDate } from './read-amount.ts';
import { bagsText } from './stock-words.ts';

/** Version of the columns; a list of a later one is refused. */
export const STOCK_LIST_VERSION = 1;
/** Rows that a list may have. */
export const MOST_STOCK_ROWS = 100_000;
/** A container count that one row may give. */
const MOST_CONTAINERS = 10_000;
/** A mass must come to whole bags within this. */
const WHOLE_BAGS_SHARE = 0.02;

const COLUMNS = [
  'version',
  'kit',
  'kit name',
  'part',
  'part name',
  'place',
  'place name',
  'packed on',
  'use by',
  'quantity',
  'unit',
  'storage C',
  'moisture %',
  'use first',
] as const;
type Column = (typeof COLUMNS)[number];

/** Other headings under which a column is known. */
const OTHER_HEADINGS: Readonly<Record<string, Column>> = {
  amount: 'quantity',
  count: 'quantity',
  packed: 'packed on',
  'packing date': 'packed on',
  'best before': 'use by',
  expires: 'use by',
  'storage temperature': 'storage C',
  moisture: 'moisture %',
};

/** Names in a household that a list may use. */
export interface StockListNames {
  kits: readonly Kit[];
  places: readonly { id: string; name: string }[];
}

/** One row for each lot with anything in it. */
export function stockCsv(lots: readonly StockLot[], { kits, places }: StockListNames): string {
  const rows = lots
    .filter((lot) => lot.quantity > 1e-9)
    .map((lot) => {
      const kit = kits.find((one) => one.id === lot.kitId);
      const part = kit === undefined ? undefined : packableParts(kit).find((one) => one.id === lot.partId);
      return [
        STOCK_LIST_VERSION,
        lot.kitId,
        kit?.name ?? '',
        lot.partId,
        part?.name ?? '',
        lot.placeId,
        places.find((place) => place.id === lot.placeId)?.name ?? '',
        lot.packedOn,
        lot.useBy,
        Math.round(lot.quantity * 1e6) / 1e6,
        'bags',
        lot.storageC,
        lot.moisturePercent,
        lot.useFirst === true ? 'yes' : null,
      ];
    });
  return csvText([COLUMNS, ...rows]);
}

/** A line of the ledger, but for what happens to it. */
export type ListedLot = Pick<StockEntry, 'kitId' | 'partId' | 'placeId' | 'packedOn' | 'quantity'> &
  Partial<Pick<StockEntry, 'useBy' | 'storageC' | 'moisturePercent' | 'useFirst'>>;

export interface RowFault {
  column: string;
  value: string;
  detail: string;
}

/** What was understood of one row. */
export interface ListedRow {
  /** As a spreadsheet counts: the heading is row 1. */
  row: number;
  outcome: 'understood' | 'refused' | 'empty';
  words: string;
  lots: ListedLot[];
  faults: RowFault[];
}

export interface ReadStockList {
  /** Faults of the list as a whole; where there is one, no row is read. */
  faults: RowFault[];
  rows: ListedRow[];
  /** Headings of columns that are not read. */
  notUsed: string[];
}

/**
 * Reads a list.
 * @param latest the latest date on which something can have been packed
 * @param placeId where the list names no place
 */
export function readStockCsv(
  text: string,
  names: StockListNames,
  latest: string,
  placeId: string | undefined,
): ReadStockList {
  const whole = (detail: string, value = ''): ReadStockList => ({
    faults: [{ column: '', value, detail }],
    rows: [],
    notUsed: [],
  });
  const read = readCsv(text);
  if (read === null) return whole('A quotation mark is opened and never closed. Save the list again as CSV.');
  const [heading, ...body] = read.rows;
  if (heading === undefined || heading.every((cell) => cell === ''))
    return whole('The list is empty. Its first row must name the columns.');
  if (body.length > MOST_STOCK_ROWS)
    return whole(`The list has ${body.length} rows; at most ${MOST_STOCK_ROWS} are taken at once. Split it.`);
  const columns = new Map<Column, number>();
  const notUsed: string[] = [];
  for (const [index, cell] of heading.entries()) {
    const column = columnOf(cell);
    if (column === undefined || columns.has(column)) notUsed.push(cell);
    else columns.set(column, index);
  }
  const missing = [
    ...(columns.has('kit') || columns.has('kit name') ? [] : ['kit']),
    ...(['packed on', 'quantity'] as const).filter((column) => !columns.has(column)),
  ];
  if (missing.length > 0)
    return whole(
      `The first row names no column ${missing.map((name) => `"${name}"`).join(', ')}. Columns are: ${COLUMNS.join(', ')}.`,
      heading.join(', ').slice(0, 100),
    );
  const reader = new RowReader(columns, names, latest, placeId, read.delimiter === ';');
  return { faults: [], rows: body.map((cells, index) => reader.read(cells, index + 2)), notUsed };
}

/** Reads rows of one list; what was looked up once is remembered, since names come again. */
class RowReader {
  private readonly columns: ReadonlyMap<Column, number>;
  private readonly names: StockListNames;
  private readonly latest: string;
  private readonly placeId: string | undefined;
  private readonly decimalComma: boolean;
  private readonly found = new Map<string, { kit: Kit; parts: KitPart[] } | string>();
  private readonly foundParts = new Map<string, KitPart | string>();

  constructor(
    columns: ReadonlyMap<Column, number>,
    names: StockListNames,
    latest: string,
    placeId: string | undefined,
    decimalComma: boolean,
  ) {
    this.columns = columns;
    this.names = names;
    this.latest = latest;
    this.placeId = placeId;
    this.decimalComma = decimalComma;
  }

  read(cells: readonly string[], row: number): ListedRow {
    if (cells.every((cell) => cell === '')) return { row, outcome: 'empty', words: 'Empty row', lots: [], faults: [] };
    const faults: RowFault[] = [];
    const cell = (column: Column) => cells[this.columns.get(column) ?? -1] ?? '';
    const wrong = (column: Column, detail: string, value = cell(column)) => {
      faults.push({ column, value: value.slice(0, 100), detail });
      return null;
    };
    const version = cell('version');
    if (version !== '' && version !== String(STOCK_LIST_VERSION))
      wrong('version', `This program reads version ${STOCK_LIST_VERSION} of the list.`);
    const kit = this.kitOf(cell('kit') || cell('kit name'));
    if (typeof kit === 'string') wrong(cell('kit') === '' ? 'kit name' : 'kit', kit);
    const place = this.placeOf(cell('place') || cell('place name'));
    if (place.error !== undefined) wrong(cell('place') === '' ? 'place name' : 'place', place.error);
    const packedOn = readListDate(cell('packed on'));
    if (packedOn === null)
      wrong(
        'packed on',
        'Write the date as YYYY-MM-DD: it is missing, does not exist, or day and month cannot be told apart.',
      );
    else if (packedOn > this.latest)
      wrong('packed on', `Nothing is packed before its day: ${this.latest} is the latest that can be meant.`);
    const useBy = cell('use by') === '' ? null : readListDate(cell('use by'));
    if (cell('use by') !== '' && useBy === null) wrong('use by', 'Write the date as YYYY-MM-DD, or leave it empty.');
    if (useBy !== null && packedOn !== null && useBy < packedOn) wrong('use by', 'This is before it was packed.');
    const storageC = this.numberOf(cell('storage C'), -30, 50, 'C', (detail) => wrong('storage C', detail));
    const moisture = this.numberOf(cell('moisture %'), 2, 20, '%', (detail) => wrong('moisture %', detail));
    const first = cell('use first').toLowerCase();
    if (!['', 'yes', 'no', 'y', 'n', '1', '0', 'true', 'false', 'x'].includes(first))
      wrong('use first', 'Write yes or no, or leave it empty.');
    const counts =
      typeof kit === 'string'
        ? null
        : this.countsOf(kit, cell('part') || cell('part name'), cell('quantity'), cell('unit'), wrong);
    if (faults.length > 0 || counts === null || typeof kit === 'string' || packedOn === null || place.id === undefined)
      return { row, outcome: 'refused', words: faults.map((one) => one.detail).join(' '), lots: [], faults };
    const placeId = place.id;
    const lots = counts.map(
      ({ part, quantity }): ListedLot => ({
        kitId: kit.kit.id,
        partId: part.id,
        placeId,
        packedOn,
        quantity,
        ...(useBy === null ? {} : { useBy }),
        ...(storageC === null ? {} : { storageC }),
        ...(moisture === null ? {} : { moisturePercent: moisture }),
        ...(['yes', 'y', '1', 'true', 'x'].includes(first) ? { useFirst: true } : {}),
      }),
    );
    const what = counts.map(({ part, quantity }) => `${bagsText(quantity)} of ${part.name}`).join(', ');
    return {
      row,
      outcome: 'understood',
      words: `${kit.kit.name}: ${what}, packed ${packedOn}, at ${place.name}`,
      lots,
      faults,
    };
  }

  private kitOf(text: string): { kit: Kit; parts: KitPart[] } | string {
    const known = this.found.get(text);
    if (known !== undefined) return known;
    const found = this.lookUpKit(text);
    this.found.set(text, found);
    return found;
  }

  private lookUpKit(text: string): { kit: Kit; parts: KitPart[] } | string {
    if (text === '') return 'Name the kit.';
    const { kits } = this.names;
    const byId = kits.find((kit) => kit.id === text);
    const byName = kits.filter((kit) => isSameName(kit.name, text));
    const kit = byId ?? byName[0];
    if (byId === undefined && byName.length > 1)
      return `Several kits have this name: write the id, one of ${byName.map((one) => one.id).join(', ')}.`;
    return kit === undefined ? `No kit is called so.${nearestInWords(text, kits)}` : { kit, parts: packableParts(kit) };
  }

  private partOf(kit: { kit: Kit; parts: KitPart[] }, text: string): KitPart | string {
    const key = `${kit.kit.id}|${text}`;
    const known = this.foundParts.get(key);
    if (known !== undefined) return known;
    const found =
      kit.parts.find((part) => part.id === text) ??
      kit.parts.find((part) => isSameName(part.name, text)) ??
      `No part of ${kit.kit.name} is called so.${nearestInWords(text, kit.parts)}`;
    this.foundParts.set(key, found);
    return found;
  }

  private placeOf(text: string): { id?: string; name: string; error?: string } {
    const { places } = this.names;
    if (text === '') {
      const given = places.find((place) => place.id === this.placeId) ?? places[0];
      return given === undefined ? { name: '', error: 'Name the place.' } : given;
    }
    const found = places.find((place) => place.id === text) ?? places.find((place) => isSameName(place.name, text));
    return found ?? { name: '', error: `No place is called so.${nearestInWords(text, places)}` };
  }

  private numberOf(
    text: string,
    minimum: number,
    maximum: number,
    unit: string,
    wrong: (detail: string) => null,
  ): number | null {
    if (text === '') return null;
    const read = readAmount(text.replace(/\s*(%|°?\s*[cC])$/, ''), this.decimalComma);
    if (read.outcome !== 'amount' || read.unit !== '' || read.value < minimum || read.value > maximum)
      return wrong(`Must be a number from ${minimum} to ${maximum} ${unit}, or empty.`);
    return read.value;
  }

  /** Containers of each part that a row speaks of. */
  private countsOf(
    kit: { kit: Kit; parts: KitPart[] },
    partText: string,
    quantityText: string,
    unitText: string,
    wrong: (column: Column, detail: string) => null,
  ): { part: KitPart; quantity: number }[] | null {
    const part = partText === '' ? null : this.partOf(kit, partText);
    if (typeof part === 'string') return wrong('part', part);
    const read = readAmount(quantityText, this.decimalComma);
    if (read.outcome === 'empty') return wrong('quantity', 'Is missing.');
    if (read.outcome === 'ambiguous')
      return wrong(
        'quantity',
        `Can be read as ${read.readings[0]} or as ${read.readings[1]}: write it with a decimal point and without a mark for thousands.`,
      );
    if (read.outcome === 'not-a-number') return wrong('quantity', 'Is no number.');
    const { value } = read;
    if (value < 0) return wrong('quantity', 'Must be 0 or more: a list says what is there, not what was taken.');
    if (read.unit !== '' && unitText !== '' && unitOf(read.unit) !== unitOf(unitText))
      return wrong('unit', `The quantity says ${read.unit}, this column says ${unitText}.`);
    const written = read.unit || unitText || (part === null ? 'sets' : 'bags');
    const unit = unitOf(written);
    if (unit === undefined)
      return wrong(
        'unit',
        `"${written.slice(0, 40)}" is no unit of a stock list. Write bags (or containers), sets, or a mass in g, kg, oz or lb.`,
      );
    const within = (counts: { part: KitPart; quantity: number }[]) =>
      counts.every(({ quantity }) => quantity <= MOST_CONTAINERS)
        ? counts
        : wrong('quantity', `At most ${MOST_CONTAINERS} bags a row.`);
    if (unit === 'set') {
      const parts = part === null ? kit.kit.parts : [part];
      return within(parts.map((one) => ({ part: one, quantity: value * (one.containersPerSet ?? 1) })));
    }
    if (part === null) return wrong('part', 'Name the part, or give the quantity in sets.');
    if (unit === 'bag') return within([{ part, quantity: value }]);
    const bagKg = part.ingredients.reduce((sum, one) => sum + one.massG, 0) / 1000 / (part.containersPerSet ?? 1);
    const bags = (value * unit.kg) / bagKg;
    const whole = Math.round(bags);
    if (Math.abs(bags - whole) > WHOLE_BAGS_SHARE * Math.max(1, bags))
      return wrong(
        'quantity',
        `${value} ${written} is ${Math.round(bags * 100) / 100} bags of ${Math.round(bagKg * 1000)} g: give the number of bags.`,
      );
    return within([{ part, quantity: whole }]);
  }
}

function columnOf(heading: string): Column | undefined {
  const plain = plainHeading(heading);
  return (
    COLUMNS.find((column) => plainHeading(column) === plain) ??
    Object.entries(OTHER_HEADINGS).find(([other]) => plainHeading(other) === plain)?.[1]
  );
}

function plainHeading(text: string): string {
  return text.toLowerCase().replaceAll(/[^a-z]+/g, '');
}

const BAG_WORDS = new Set(
  'bag bags container containers pouch pouches packet packets packs pack jar jars tin tins can cans piece pieces pc pcs x'.split(
    ' ',
  ),
);
const MASSES: Readonly<Record<string, number>> = {
  g: 0.001,
  gram: 0.001,
  grams: 0.001,
  kg: 1,
  oz: KG_PER_OUNCE,
  ounce: KG_PER_OUNCE,
  ounces: KG_PER_OUNCE,
  lb: KG_PER_POUND,
  lbs: KG_PER_POUND,
  pound: KG_PER_POUND,
  pounds: KG_PER_POUND,
};
const MASS_UNITS = new Map(Object.entries(MASSES).map(([name, kg]) => [name, { kg }]));

function unitOf(text: string): 'bag' | 'set' | { kg: number } | undefined {
  const plain = text.trim().toLowerCase().replace(/\.$/, '');
  if (BAG_WORDS.has(plain)) return 'bag';
  if (plain === 'set' || plain === 'sets') return 'set';
  return MASS_UNITS.get(plain);
}

function isSameName(name: string, text: string): boolean {
  return name.trim().toLowerCase() === text.trim().toLowerCase();
}
