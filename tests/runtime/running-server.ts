/** A real server process for tests: the compiled program on a free port, with a data folder of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../build/api/runtime/node/main.js', import.meta.url));

export interface ServerProcess {
  origin: string;
  child: ChildProcess;
  /** Resolves with the exit code, null when killed by a signal. */
  ended: Promise<number | null>;
}

/** Starts the program and waits until it listens. */
export async function startProcess(dataDir: string, environment: Record<string, string> = {}): Promise<ServerProcess> {
  const { child, ended, output } = launch(dataDir, environment);
  const origin = await new Promise<string>((resolve, reject) => {
    child.stdout?.on('data', () => {
      const match = /http:\/\/[^\s]+\d/.exec(output());
      if (match !== null) resolve(match[0]);
    });
    ended.then(() => reject(new Error(`the server ended: ${output()}`)));
  });
  return { origin, child, ended };
}

/** Starts the program and waits until it ends. */
export async function runToEnd(
  dataDir: string,
  environment: Record<string, string>,
): Promise<{ code: number | null; output: string }> {
  const { ended, output } = launch(dataDir, environment);
  return { code: await ended, output: output() };
}

function launch(dataDir: string, environment: Record<string, string>) {
  if (!existsSync(MAIN)) throw new Error('The program is not built: run `npm run build` first.');
  const child = spawn(process.execPath, [MAIN], {
    env: { ...process.env, HOST: '127.0.0.1', PORT: '0', DATA_DIR: dataDir, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (chunk) => {
      text += String(chunk);
    });
  }
  const ended = new Promise<number | null>((resolve) => child.once('exit', (code) => resolve(code)));
  return { child, ended, output: () => text };
}
