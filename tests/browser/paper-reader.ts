/**
 * A reader who has the words on paper and nothing else: finds the card of a day, the row of an hour, the line that begins
 * with "If ...". It knows no plan and no program; what it cannot find in the text it does not know.
 */

/** What a card tells to do at a time. */
export interface Entry {
  /** "Tuesday" */
  day: string;
  /** "15:26" */
  time: string;
  words: string;
}

export interface Paper {
  /** The first sheet in one line. */
  first: string;
  /** The same, line by line, cells of tables parted by tabs. */
  firstLines: string[];
  /** Each day's card in one line, in order. */
  cards: ReadonlyMap<string, string>;
  entries: Entry[];
}

const DAYS = 'Sunday|Monday|Tuesday|Wednesday|Thursday|Friday|Saturday';
const inOneLine = (text: string): string => text.replace(/[\s\u00a0\u202f]+/g, ' ').trim();

/** @param pages the text of each page */
export function readPaper(pages: readonly string[]): Paper {
  const cards = new Map<string, string>();
  const entries: Entry[] = [];
  const first: string[] = [];
  for (const page of pages) {
    const day = new RegExp(`^(${DAYS})(?:, \\d of \\d)?\\s`).exec(page)?.[1];
    if (day === undefined) {
      first.push(page);
      continue;
    }
    const card = inOneLine(page);
    // A week later the same day comes again: its card is told by its date.
    const name = cards.has(day) && !/, [2-9] of \d/.test(page.slice(0, 30)) ? `${day} again` : day;
    cards.set(name, `${cards.get(name) ?? ''} ${card}`.trim());
    entries.push(...entriesOf(day, card));
  }
  return { first: inOneLine(first.join('\n')), firstLines: first.join('\n').split('\n'), cards, entries };
}

/** Rows begin with a time; steps that share a row have theirs before a capital letter. */
function entriesOf(day: string, card: string): Entry[] {
  const head = /Now first: (\d\d:\d\d) (.*?) (?=Fumes|Scalds|\d\d:\d\d [A-Z])/.exec(card);
  const entries: Entry[] = head === null ? [] : [{ day, time: head[1] as string, words: head[2] as string }];
  // Without "Now first" the rows begin below the line with day, page and plan.
  const from = head === null ? card.search(/\d\d:\d\d [A-Z]/) : (head.index ?? 0) + head[0].length;
  const rows = card.slice(Math.max(0, from)).split(/Water today /)[0] as string;
  const marks = [
    ...rows.matchAll(
      new RegExp(`(?:^|(?<=[.:!] )|(?<=\\b)(?=(?:${DAYS}) ))(?:(${DAYS}) )?(\\d\\d:\\d\\d) (?=[A-Z])`, 'g'),
    ),
  ];
  for (const [index, mark] of marks.entries()) {
    const begin = (mark.index ?? 0) + mark[0].length;
    const words = rows.slice(begin, marks[index + 1]?.index ?? rows.length).trim();
    entries.push({ day: mark[1] ?? day, time: mark[2] as string, words });
  }
  return entries;
}

/** "It is Tuesday 15:00, what next?": the first entry of that day at or after the time, else of the days after. */
export function nextAction(paper: Paper, day: string, time: string): Entry | null {
  const days = [...paper.cards.keys()];
  const from = days.indexOf(day);
  return (
    paper.entries.find((entry) => {
      const at = days.indexOf(entry.day);
      return at > from || (at === from && entry.time >= time);
    }) ?? null
  );
}

/** What is under way: the last entry of that day before the time. */
export function underWay(paper: Paper, day: string, time: string): Entry | null {
  return paper.entries.filter((entry) => entry.day === day && entry.time <= time).at(-1) ?? null;
}

/** "2.1 L" of water in what is said to do. */
export function waterOf(words: string): string | null {
  return (
    /([\d.½¼¾]+ (?:mL|L|cups?|gal|tbsp))(?: \([^)]*\))? (?:fresh )?(?:safe water|water to treat)/.exec(words)?.[1] ??
    null
  );
}

/** What a card says after "If <condition>:", up to the end of its sentences. */
export function ifNot(card: string, condition: string): string | null {
  return new RegExp(`If ${condition}[^:]*: ([^.]*(?:\\.\\d[^.]*)*\\.)`).exec(card)?.[1] ?? null;
}

/** The figures of a row of a table on the first sheet: its cells after the name. */
export function tableRow(paper: Paper, name: string): string[] {
  const line = paper.firstLines.find((one) => one.startsWith(name));
  return line === undefined ? [] : line.split('\t').slice(1);
}
