import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

/** A layer may import itself and what stands before it. */
const LAYERS = ['references', 'physics', 'cooking', 'planning', 'storage', 'wording', 'http', 'runtime'];

const SOURCES = ['api', 'web'].flatMap((folder) =>
  (readdirSync(join(root, folder), { recursive: true }) as string[])
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name)),
);

interface Import {
  typeOnly: boolean;
  from: string;
}

function importsOf(file: string): Import[] {
  const text = withoutComments(readFileSync(join(root, file), 'utf8'));
  const statements = text.matchAll(/(?:^|\n)\s*(?:import|export)\s+(type\s)?[^;'"]*?from\s+'([^']+)'/g);
  const bare = text.matchAll(/(?:^|\n)\s*import\s+'([^']+)'/g);
  const dynamic = text.matchAll(/\bimport\(\s*'([^']+)'/g);
  return [
    ...[...statements].map((match) => ({ typeOnly: match[1] !== undefined, from: match[2] as string })),
    ...[...bare, ...dynamic].map((match) => ({ typeOnly: false, from: match[1] as string })),
  ];
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');
}

/** The file that a relative import reaches, from the root; null for a package. */
function reached(file: string, from: string): string | null {
  return from.startsWith('.') ? relative(root, join(root, dirname(file), from)) : null;
}

function layerOf(file: string): string {
  const [top, layer] = file.split('/');
  return top === 'api' ? (layer ?? '') : (top ?? '');
}

describe('imports', () => {
  it('are found at all', () => {
    expect(SOURCES.length).toBeGreaterThan(50);
    expect(importsOf('api/http/app.ts').map(({ from }) => from)).toContain('./routes/plans.ts');
    expect(importsOf('api/planning/solver.ts')).toEqual([]);
  });

  it.each(LAYERS.map((layer, index) => [layer, LAYERS.slice(0, index + 1)] as const))(
    '%s imports nothing that stands after it',
    (layer, allowed) => {
      const wrong = SOURCES.filter((file) => file.startsWith(`api/${layer}/`)).flatMap((file) =>
        importsOf(file)
          .map(({ from }) => reached(file, from))
          .filter((target) => target !== null && !(target.startsWith('api/') && allowed.includes(layerOf(target))))
          .map((target) => `${file} -> ${target}`),
      );
      expect(wrong).toEqual([]);
    },
  );

  it('the page gets the wording and types only, nothing else of the API', () => {
    const wrong = SOURCES.filter((file) => file.startsWith('web/')).flatMap((file) =>
      importsOf(file)
        .filter(({ typeOnly, from }) => {
          const target = reached(file, from);
          if (target === null || !target.startsWith('api/') || typeOnly) return false;
          return !target.startsWith('api/wording/') && target !== 'api/http/client.ts';
        })
        .map(({ from }) => `${file} -> ${from}`),
    );
    expect(wrong).toEqual([]);
  });

  it('nothing below the runtime names Node or a package that needs it', () => {
    const allowed = new Set([
      'hono',
      'hono/client',
      'hono/streaming',
      'hono/http-exception',
      '@hono/zod-openapi',
      'zod',
      'temporal-polyfill',
      'ical-generator',
      'd3-dsv',
    ]);
    const wrong = SOURCES.filter((file) => file.startsWith('api/') && !file.startsWith('api/runtime/')).flatMap(
      (file) =>
        importsOf(file)
          .filter(({ from }) => !from.startsWith('.') && !allowed.has(from))
          .map(({ from }) => `${file} -> ${from}`),
    );
    expect(wrong).toEqual([]);
  });

  it('nothing below the runtime names a global of Node or of a browser', () => {
    // The compiler refuses these too; this says so when a tsconfig is loosened.
    const globals =
      /(?<![\w.-])(process|Buffer|window|document|localStorage|sessionStorage|navigator|indexedDB)\.[a-zA-Z]|\brequire\(|__dirname/;
    const wrong = SOURCES.filter((file) => file.startsWith('api/') && !file.startsWith('api/runtime/')).flatMap(
      (file) => {
        const text = withoutComments(readFileSync(join(root, file), 'utf8')).replace(/'(?:[^'\\\n]|\\.)*'/g, "''");
        // A value of our own may be called a document.
        const own = /\bdocument\s*[:),=}]|\bdocument\s*=>/.test(text);
        const match = globals.exec(own ? text.replaceAll('document.', '') : text);
        return match === null ? [] : [`${file}: ${match[0]}`];
      },
    );
    expect(wrong).toEqual([]);
  });

  it('every relative import says its ending', () => {
    const wrong = SOURCES.flatMap((file) =>
      importsOf(file)
        .filter(({ from }) => from.startsWith('.') && !/\.(ts|css|svg)$/.test(from))
        .map(({ from }) => `${file} -> ${from}`),
    );
    expect(wrong).toEqual([]);
  });
});

describe('compiler walls', () => {
  it.each(LAYERS.slice(0, -1))('%s is compiled without the types of Node or of a page', (layer) => {
    const config = JSON.parse(readFileSync(join(root, 'api', layer, 'tsconfig.json'), 'utf8')) as {
      compilerOptions: { types: string[]; lib: string[] };
      references?: { path: string }[];
    };
    expect(config.compilerOptions.types).toEqual([]);
    expect(config.compilerOptions.lib.filter((lib) => lib.startsWith('dom'))).toEqual([]);
    const allowed = LAYERS.slice(0, LAYERS.indexOf(layer));
    for (const { path } of config.references ?? []) expect(allowed).toContain(path.split('/').at(-1));
  });
});
