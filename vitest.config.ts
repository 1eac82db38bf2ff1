import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

const chromium = [process.env.CHROMIUM_PATH, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']
  .filter((path) => path !== undefined)
  .find((path) => existsSync(path));

if (chromium === undefined) {
  const message = 'No Chromium was found (CHROMIUM_PATH or /usr/bin/chromium): the browser tests';
  if (process.env.CI === 'true') throw new Error(`${message} cannot run.`);
  console.warn(`${message} are left out.`);
}

/** `vitest --mode bench` measures; every other run tests. */
const bench = {
  test: {
    name: 'bench',
    include: ['tests/bench/**/*.bench.test.ts'],
    fileParallelism: false,
    server: { deps: { external: [/\/build\//] } },
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
};

/** `vitest --mode accuracy` writes the accuracy tables into the README. */
const accuracy = { test: { name: 'accuracy', include: ['tests/accuracy/*.write.test.ts'] } };

const ONLY_IN_MODE: Readonly<Record<string, object>> = { bench, accuracy };

export default defineConfig(({ mode }) => ({
  test: {
    projects:
      ONLY_IN_MODE[mode] !== undefined
        ? [ONLY_IN_MODE[mode]]
        : [
            {
              test: {
                name: 'node',
                include: ['tests/**/*.test.ts'],
                exclude: ['tests/browser/**', 'tests/bench/**', 'tests/**/*.write.test.ts'],
                testTimeout: 20_000,
              },
            },
            ...(chromium === undefined
              ? []
              : [
                  {
                    test: {
                      name: 'browser',
                      include: ['tests/browser/**/*.test.ts'],
                      pool: 'forks' as const,
                      fileParallelism: false,
                      testTimeout: 60_000,
                      hookTimeout: 60_000,
                      // A slow machine takes longer than the usual second; a fast one does not wait.
                      expect: { poll: { timeout: 15_000 } },
                      env: { CHROMIUM_PATH: chromium },
                    },
                  },
                ]),
          ],
  },
}));
