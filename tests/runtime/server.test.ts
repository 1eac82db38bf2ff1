import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readSettings, SettingError } from '../../api/runtime/node/settings.ts';
import { runToEnd, type ServerProcess, startProcess } from './running-server.ts';

const folder = mkdtempSync(join(tmpdir(), 'server-'));
let server: ServerProcess;
beforeAll(async () => {
  server = await startProcess(folder);
});
afterAll(async () => {
  server.child.kill('SIGTERM');
  await server.ended;
  rmSync(folder, { recursive: true, force: true });
});

/** Sends bytes as they are and reads the answer until the server closes. */
function talk(text: string, waitMs = 15_000): Promise<string> {
  const { hostname, port } = new URL(server.origin);
  return new Promise((resolve) => {
    const socket = connect(Number(port), hostname, () => socket.write(text));
    let answer = '';
    socket.setTimeout(waitMs, () => socket.destroy());
    socket.on('data', (chunk) => {
      answer += String(chunk);
    });
    socket.on('error', () => undefined);
    socket.on('close', () => resolve(answer));
  });
}

describe('deletions', () => {
  it('need no content type where there is no content', async () => {
    const host = new URL(server.origin).host;
    const head = `DELETE /api/kits/ghost HTTP/1.1\r\nHost: ${host}\r\nIf-Match: *\r\nConnection: close\r\n`;
    expect(await talk(`${head}\r\n`)).toMatch(/^HTTP\/1\.1 404 /);
    expect(await talk(`${head}Content-Length: 2\r\n\r\n{}`)).toMatch(/^HTTP\/1\.1 415 /);
  });
});

describe('settings', () => {
  it('stay on this computer by default', () => {
    expect(readSettings({})).toMatchObject({ host: '127.0.0.1', port: 8787 });
    expect(readSettings({}).dataDir).toBe(join(process.cwd(), 'data'));
    expect(readSettings({ HOST: '::1', PORT: '9000' }).allowedHosts).toContain('[::1]:9000');
  });

  it('refuse other addresses and impossible ports', () => {
    for (const HOST of ['0.0.0.0', '::', '192.168.1.5', 'kitchen.lan']) {
      expect(() => readSettings({ HOST })).toThrow(SettingError);
    }
    for (const PORT of ['-1', '65536', '80.5', 'http']) expect(() => readSettings({ PORT })).toThrow(SettingError);
  });

  it('end the program with a message', async () => {
    const { code, output } = await runToEnd(folder, { HOST: '0.0.0.0' });
    expect(code).toBe(1);
    expect(output).toContain('HOST=0.0.0.0 is refused');
  });

  it('say so when the port is taken', async () => {
    const { code, output } = await runToEnd(join(folder, 'other'), { PORT: new URL(server.origin).port });
    expect(code).toBe(1);
    expect(output).toContain('The port is taken');
  });
});

describe('a running server', () => {
  it('answers health and holds the demo', async () => {
    expect(await (await fetch(`${server.origin}/api/health`)).json()).toMatchObject({ status: 'ok' });
    const { items } = (await (await fetch(`${server.origin}/api/households`)).json()) as { items: unknown[] };
    expect(items).toHaveLength(1);
  });

  it('refuses a foreign Host and a missing one', async () => {
    expect(await talk('GET / HTTP/1.1\r\nHost: evil.test\r\nConnection: close\r\n\r\n')).toContain('403 Forbidden');
    expect(await talk('GET / HTTP/1.1\r\nConnection: close\r\n\r\n')).toMatch(/^HTTP\/1.1 4\d\d/);
    expect(await talk('GET /api/kits HTTP/1.0\r\n\r\n')).toMatch(/^HTTP\/1.1 4\d\d/);
  });

  it('closes a request that never ends its head', async () => {
    const answer = await talk(`GET /api/health HTTP/1.1\r\nHost: ${new URL(server.origin).host}\r\nX-Slow: `);
    expect(answer).toContain('408 Request Timeout');
  }, 20_000);

  it('refuses 10 MB with 413, with and without a length, and lives on', async () => {
    const big = `{"note":"${'x'.repeat(10_000_000)}"}`;
    const headers = { 'content-type': 'application/json' };
    for (const body of [big, new Blob([big]).stream()]) {
      const init = { method: 'POST', headers, body, duplex: 'half' } as RequestInit;
      const status = await fetch(`${server.origin}/api/kits`, init).then(
        (response) => response.status,
        // The server may close before all is sent.
        () => 413,
      );
      expect(status).toBe(413);
    }
    expect((await fetch(`${server.origin}/api/health`)).status).toBe(200);
  });

  it('cancels a plan whose asker goes away: the place in the queue is free again', async () => {
    const { items } = (await (await fetch(`${server.origin}/api/households`)).json()) as { items: { id: string }[] };
    const request = { householdId: items[0]?.id, startsAt: '2026-12-05T17:00', days: 7, timeLimitS: 120 };
    const ask = (signal: AbortSignal, accept: string) =>
      fetch(`${server.origin}/api/plans`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', accept },
        body: JSON.stringify(request),
        signal,
      });
    for (const accept of ['application/json', 'text/event-stream']) {
      const leaving = new AbortController();
      const asked = [ask(leaving.signal, accept), ask(leaving.signal, accept)].map((answer) =>
        answer.then((response) => response.text()).catch(() => 'gone'),
      );
      await new Promise((resolve) => setTimeout(resolve, 300));
      leaving.abort();
      await Promise.all(asked);
      const free = async () => {
        const staying = new AbortController();
        const response = await ask(staying.signal, 'text/event-stream');
        staying.abort();
        return response.status === 200;
      };
      const start = Date.now();
      let isFree = await free();
      while (!isFree && Date.now() - start < 15_000) {
        await new Promise((resolve) => setTimeout(resolve, 200));
        isFree = await free();
      }
      expect(isFree).toBe(true);
    }
    const { items: kept } = (await (await fetch(`${server.origin}/api/plans`)).json()) as { items: unknown[] };
    expect(kept).toEqual([]);
  }, 60_000);

  it('takes an id of 10,000 characters for what it is', async () => {
    const response = await fetch(`${server.origin}/api/kits/${'a'.repeat(10_000)}`);
    expect(response.status).toBe(422);
  });
});
