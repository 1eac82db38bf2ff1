/**
 * The text of a PDF file as Chromium writes it, page by page, in the order in which it was drawn: a small reader, so that
 * what is on paper can be tested where no other is installed. It knows deflated streams, fonts with a table from glyphs to
 * characters, and the operators that set and show text; nothing more.
 */
import { inflateSync } from 'node:zlib';

interface Objects {
  /** What stands before the stream of an object. */
  dictionary: ReadonlyMap<number, string>;
  stream: ReadonlyMap<number, string>;
}

/** The text of each page, a line of type a line, cells of a table parted by tabs. */
export function pdfText(pdf: Buffer): string[] {
  const objects = read(pdf);
  const fonts = new Map<number, ReadonlyMap<string, string>>();
  return [...objects.dictionary.values()]
    .filter((dictionary) => /\/Type\s*\/Page\b(?!s)/.test(dictionary))
    .map((page) => {
      const content = objects.stream.get(Number(/\/Contents\s+(\d+) 0 R/.exec(page)?.[1])) ?? '';
      const named = new Map(
        [...(/\/Font\s*<<(.*?)>>/s.exec(page)?.[1] ?? '').matchAll(/\/(\S+)\s+(\d+) 0 R/g)].map((found) => {
          const id = Number(found[2]);
          const known = fonts.get(id) ?? charactersOf(id, objects);
          fonts.set(id, known);
          return [found[1] as string, known] as const;
        }),
      );
      return linesOf(content, named);
    });
}

function read(pdf: Buffer): Objects {
  const text = pdf.toString('latin1');
  const dictionary = new Map<number, string>();
  const stream = new Map<number, string>();
  for (const found of text.matchAll(/(?:^|\n)(\d+) 0 obj\s*(.*?)(?:\nendobj|stream\r?\n)/gs)) {
    const id = Number(found[1]);
    const head = found[2] as string;
    dictionary.set(id, head);
    if (!found[0].includes('stream', found[0].length - 9)) continue;
    const begin = (found.index ?? 0) + found[0].length;
    const length = Number(/\/Length\s+(\d+)/.exec(head)?.[1] ?? 0);
    const bytes = pdf.subarray(begin, begin + length);
    if (/\/FlateDecode/.test(head)) {
      try {
        stream.set(id, inflateSync(bytes).toString('latin1'));
      } catch {
        // Font files and pictures are of no interest, and a stream of text that fails leaves its page empty.
      }
    } else stream.set(id, bytes.toString('latin1'));
  }
  return { dictionary, stream };
}

/** From glyphs, four hexadecimal digits each, to characters. */
function charactersOf(font: number, { dictionary, stream }: Objects): ReadonlyMap<string, string> {
  const table = stream.get(Number(/\/ToUnicode\s+(\d+) 0 R/.exec(dictionary.get(font) ?? '')?.[1])) ?? '';
  const characters = new Map<string, string>();
  const hex = (digits: number): string => digits.toString(16).toUpperCase().padStart(4, '0');
  const text = (digits: string): string =>
    (digits.match(/.{4}/g) ?? []).map((code) => String.fromCharCode(Number.parseInt(code, 16))).join('');
  for (const [, block = ''] of table.matchAll(/beginbfchar(.*?)endbfchar/gs))
    for (const [, from = '', to = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>/g))
      characters.set(from.toUpperCase(), text(to));
  for (const [, block = ''] of table.matchAll(/beginbfrange(.*?)endbfrange/gs))
    for (const [, first = '', last = '', to = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g))
      for (let code = Number.parseInt(first, 16); code <= Number.parseInt(last, 16); code += 1)
        characters.set(hex(code), String.fromCharCode(Number.parseInt(to, 16) + code - Number.parseInt(first, 16)));
  return characters;
}

function linesOf(content: string, fonts: ReadonlyMap<string, ReadonlyMap<string, string>>): string {
  let font: ReadonlyMap<string, string> = new Map();
  let y = '';
  let text = '';
  let moved = false;
  for (const found of content.matchAll(/\/(\S+) [\d.]+ Tf|\S+ (\S+) Tm|(\[.*?\]) TJ|(<[0-9A-Fa-f]*>) Tj/gs)) {
    const [, name, newY, shownApart, shown] = found;
    if (name !== undefined) font = fonts.get(name) ?? new Map();
    else if (newY !== undefined) {
      if (newY !== y) text += '\n';
      y = newY;
      moved = true;
    } else {
      let words = '';
      for (const [, glyphs = ''] of (shownApart ?? shown ?? '').matchAll(/<([0-9A-Fa-f]*)>/g))
        for (const glyph of glyphs.match(/.{4}/g) ?? []) words += font.get(glyph.toUpperCase()) ?? '';
      // Cells of a table stand on one line without a space between them.
      text += moved && /\S$/.test(text) && /^[^\s.,;:)]/.test(words) ? `\t${words}` : words;
      moved = false;
    }
  }
  return text.trim();
}
