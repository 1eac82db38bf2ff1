/** Builds the page when anything that goes into it is newer than what was built. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../../../', import.meta.url));

/** What the bundle is made of. The tables and types that wording rests on are in `api` too. */
const SOURCES = ['web', 'api', 'vite.config.ts', 'package-lock.json'];

function newestChange(path: string): number {
  const stats = statSync(path);
  if (!stats.isDirectory()) return stats.mtimeMs;
  return Math.max(stats.mtimeMs, ...readdirSync(path).map((name) => newestChange(join(path, name))));
}

const built = join(root, 'build', 'web', 'index.html');
const newest = Math.max(...SOURCES.map((source) => newestChange(join(root, source))));
if (!existsSync(built) || statSync(built).mtimeMs < newest) {
  const { build } = await import('vite');
  await build({ configFile: join(root, 'vite.config.ts'), root: join(root, 'web') });
}
