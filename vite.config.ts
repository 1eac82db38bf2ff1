import { defineConfig } from 'vite';

/** The bundler replaces `node:` imports by empty stubs without a word; this stops the build instead. */
const refuseNodeImports = {
  name: 'refuse-node-imports',
  enforce: 'pre' as const,
  resolveId(id: string, importer: string | undefined) {
    if (id.startsWith('node:')) throw new Error(`${importer} imports ${id}: the page may not use Node`);
    return null;
  },
};

export default defineConfig({
  root: 'web',
  logLevel: 'warn',
  plugins: [refuseNodeImports],
  build: {
    outDir: '../build/web',
    emptyOutDir: true,
    target: 'es2022',
    // Every asset is a file: a data: address would violate the Content-Security-Policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // Modules of the program do nothing when loaded, so that a table nobody reads stays out of the page.
    rolldownOptions: { treeshake: { moduleSideEffects: (id: string) => !id.includes('/api/') } },
  },
});
