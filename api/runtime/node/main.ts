/** Opens store, solver and page, hands them to the app, and closes them in order. Decides nothing. */
import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { RefusedError } from '../../http/problem.ts';
import { seedDemo } from '../../storage/seed-demo.ts';
import { createHighsSolver } from './highs-solver.ts';
import { startServer } from './server.ts';
import type { Settings } from './settings.ts';
import { readSettings, SettingError } from './settings.ts';
import { openSqliteStore } from './sqlite-store.ts';
import { readSite } from './static-files.ts';

async function main(settings: Settings): Promise<void> {
  const root = fileURLToPath(new URL('../../../../', import.meta.url));
  const programVersion = (JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }).version;
  const store = openSqliteStore(join(settings.dataDir, 'kitchen.sqlite'));
  await seedDemo(store, new Date().toISOString().slice(0, 10), randomUUID);
  const solver = await createHighsSolver();
  const server = await startServer(
    {
      store,
      solver,
      clock: { now: () => Date.now() },
      newId: () => randomUUID(),
      pause: () => new Promise((resolve) => setImmediate(resolve)),
      programVersion,
      site: readSite(join(root, 'build', 'web')),
      // No household data in the log: the place of a fault, not its message.
      logFault: (error) => console.error('fault', error instanceof Error ? placeOf(error) : typeof error),
    },
    settings,
  );
  console.log(
    `Listening on http://${settings.host.includes(':') ? `[${settings.host}]` : settings.host}:${server.port}/`,
  );
  const stop = async () => {
    await server.close();
    await solver.close();
    await store.close();
    process.exit(0);
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
}

function placeOf(error: Error): string {
  if (error instanceof RefusedError) {
    // Which rules a withheld plan breaks; rules are names of the program.
    const faults = (error.extensions.faults ?? []) as { rule: string }[];
    return [error.problemType, ...new Set(faults.map((fault) => fault.rule))].join(' ');
  }
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return [error.name, ...frames.slice(0, 8)].join('\n');
}

try {
  await main(readSettings(process.env));
} catch (error) {
  const taken = (error as { code?: string }).code === 'EADDRINUSE';
  if (taken) console.error('The port is taken. Set PORT to another one.');
  else console.error(error instanceof SettingError ? error.message : error);
  process.exit(1);
}
