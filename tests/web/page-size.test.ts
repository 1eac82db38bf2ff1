import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'vite';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The bar that the project sets itself: a page that is there at once, even over a poor link. */
const LIMIT_BYTES = 60_000;
/** Each part that comes later, when it is first asked for, as the words of some 200 quantities of derivations. */
const LATER_LIMIT_BYTES = 8_000;

it('script and style that the page starts with are together under 60 kB after gzip', async () => {
  // Bundled in memory, so that what stands in build/ is neither needed nor touched.
  const bundled = await build({
    configFile: `${root}vite.config.ts`,
    root: `${root}web`,
    logLevel: 'error',
    build: { write: false },
  });
  if (!('output' in bundled)) throw new Error('one bundle was expected');
  const chunks = new Map(
    bundled.output.flatMap((file) => (file.type === 'chunk' ? [[file.fileName, file] as const] : [])),
  );
  // What the page starts with: the entry and all that it imports at once. Pieces that only later parts share come with them.
  const atStart = new Set([...chunks.values()].filter((chunk) => chunk.isEntry).map(({ fileName }) => fileName));
  for (const name of atStart) for (const imported of chunks.get(name)?.imports ?? []) atStart.add(imported);
  const later = [...chunks.values()].filter(({ fileName }) => !atStart.has(fileName)).map(({ code }) => code);
  const files: { name: string; content: string | Uint8Array }[] = bundled.output.flatMap((file) =>
    file.type === 'chunk'
      ? atStart.has(file.fileName)
        ? [{ name: file.fileName, content: file.code }]
        : []
      : /\.(css|js)$/.test(file.fileName)
        ? [{ name: file.fileName, content: file.source }]
        : [],
  );
  expect(files.some(({ name }) => name.endsWith('.js'))).toBe(true);
  expect(files.some(({ name }) => name.endsWith('.css'))).toBe(true);
  // Style that is served as it is, for paper.
  for (const name of readdirSync(`${root}web/public`).filter((file) => file.endsWith('.css')))
    files.push({ name, content: readFileSync(`${root}web/public/${name}`) });
  const bytes = files.reduce((sum, { content }) => sum + gzipSync(content).length, 0);
  expect(bytes).toBeLessThan(LIMIT_BYTES);
  expect(later.length).toBeGreaterThan(0);
  for (const code of later) expect(gzipSync(code).length).toBeLessThan(LATER_LIMIT_BYTES);
});
