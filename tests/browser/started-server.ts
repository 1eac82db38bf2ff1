/** The built server on a free port with a store of its own, and a browser that talks to nothing else. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export interface StartedServer {
  origin: string;
  stop(): Promise<void>;
}

/** Starts `build/`; `npm run build` must have been run. */
export async function startBuiltServer(): Promise<StartedServer> {
  const entry = join(ROOT, 'build/api/runtime/node/main.js');
  if (!existsSync(entry) || !existsSync(join(ROOT, 'build/web/index.html'))) {
    throw new Error('Nothing is built: run "npm run build" before the browser tests.');
  }
  const dataDir = mkdtempSync(join(tmpdir(), 'outage-kitchen-page-'));
  const server = spawn(process.execPath, [entry], {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', DATA_DIR: dataDir },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const origin = await listening(server);
  return {
    origin,
    async stop() {
      const gone = new Promise((resolve) => server.once('exit', resolve));
      server.kill('SIGTERM');
      await gone;
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

function listening(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    server.stdout?.on('data', (chunk) => {
      said += chunk;
      const origin = /Listening on (http:\/\/[^/\s]+)/.exec(said)?.[1];
      if (origin !== undefined) resolve(origin);
    });
    server.once('exit', (code) => reject(new Error(`The server ended with ${code}: ${said}`)));
  });
}

export function startBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

export interface WatchedPage {
  page: Page;
  /** Errors on the console, uncaught ones, and whatever the Content-Security-Policy stopped. */
  troubles: string[];
}

export async function openWatchedPage(
  browser: Browser,
  options: { width?: number; height?: number; colorScheme?: 'light' | 'dark' } = {},
): Promise<WatchedPage> {
  const { width = 1280, height = 900, colorScheme = 'light' } = options;
  const context = await browser.newContext({ viewport: { width, height }, colorScheme });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('console', (message) => {
    // A refused write is part of some tests and logged by the browser itself.
    if (message.type() === 'error' && !/status of 4(12|22)/.test(message.text())) troubles.push(message.text());
  });
  page.on('pageerror', (error) => troubles.push(String(error)));
  await page.addInitScript(() => {
    addEventListener('securitypolicyviolation', (event) => console.error(`policy: ${event.violatedDirective}`));
  });
  return { page, troubles };
}
