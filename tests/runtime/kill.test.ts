import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, expect, it } from 'vitest';
import { demoDocuments } from '../../api/storage/demo.ts';
import { startProcess } from './running-server.ts';

const folder = mkdtempSync(join(tmpdir(), 'kill-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ROUNDS = 4;
const WRITERS = 4;
const kit = demoDocuments('2026-12-05').kits[0];

it('a server killed in the middle of writes loses no acknowledged one', async () => {
  const acknowledged = new Map<string, { etag: string; name: string }>();
  for (let round = 0; round < ROUNDS; round++) {
    const server = await startProcess(folder);
    let killed = false;
    const write = async (writer: number) => {
      for (let n = 0; !killed; n++) {
        const id = `round-${round}-writer-${writer}-${n}`;
        const name = `Kit ${n}`;
        try {
          const response = await fetch(`${server.origin}/api/kits/${id}`, {
            method: 'PUT',
            headers: { 'content-type': 'application/json', 'if-none-match': '*' },
            body: JSON.stringify({ ...kit, id, name }),
          });
          if (response.status === 201) acknowledged.set(id, { etag: response.headers.get('etag') ?? '', name });
        } catch {
          // The server was killed while this request was on its way: not acknowledged.
        }
      }
    };
    const writers = Array.from({ length: WRITERS }, (_, writer) => write(writer));
    const before = acknowledged.size;
    while (acknowledged.size < before + 25) await new Promise((resolve) => setTimeout(resolve, 5));
    // A different moment in each round.
    await new Promise((resolve) => setTimeout(resolve, 3 * round));
    server.child.kill('SIGKILL');
    await server.ended;
    killed = true;
    await Promise.all(writers);
  }
  const server = await startProcess(folder);
  const { items } = (await (await fetch(`${server.origin}/api/kits`)).json()) as {
    items: { id: string; name: string }[];
  };
  const kept = new Map(items.map((item) => [item.id, item.name]));
  const lost = [...acknowledged].filter(([id, { name }]) => kept.get(id) !== name).map(([id]) => id);
  expect(acknowledged.size).toBeGreaterThanOrEqual(25 * ROUNDS);
  expect(lost).toEqual([]);
  const [id, { etag }] = [...acknowledged].at(-1) as [string, { etag: string }];
  expect((await fetch(`${server.origin}/api/kits/${id}`)).headers.get('etag')).toBe(etag);
  server.child.kill('SIGTERM');
  expect(await server.ended).toBe(0);
  const database = new Database(join(folder, 'kitchen.sqlite'));
  expect(database.prepare('PRAGMA integrity_check').get()).toMatchObject({ integrity_check: 'ok' });
  database.close();
}, 60_000);
