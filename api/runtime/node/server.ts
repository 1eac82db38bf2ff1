/** Opens the app on a port with time limits, and closes it in order. */

import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import type { Services } from '../../http/app.ts';
import { createApp } from '../../http/app.ts';
import { allowedHosts } from './settings.ts';

/** Milliseconds for the head of a request, for the whole of it, and for an idle connection. */
const HEADERS_TIMEOUT_MS = 10_000;
const REQUEST_TIMEOUT_MS = 30_000;
const KEEP_ALIVE_MS = 5_000;
/** How often the server looks for connections that are over time. */
const CHECK_INTERVAL_MS = 2_000;

export interface RunningServer {
  port: number;
  address: string;
  /** Stops listening and ends every connection. The store and the solver are closed by whoever opened them. */
  close(): Promise<void>;
}

/**
 * Starts the server.
 * @param options.port TCP port; 0 takes a free one
 * @throws when the port is taken
 */
export async function startServer(
  services: Omit<Services, 'allowedHosts'>,
  options: { host: string; port: number },
): Promise<RunningServer> {
  // The port is known only once the server listens (0 takes a free one), and the allowlist names it.
  const hosts: string[] = [];
  const app = createApp({ ...services, allowedHosts: hosts });
  const server = createAdaptorServer({
    fetch: app.fetch,
    hostname: options.host,
    serverOptions: {
      headersTimeout: HEADERS_TIMEOUT_MS,
      requestTimeout: REQUEST_TIMEOUT_MS,
      keepAliveTimeout: KEEP_ALIVE_MS,
      connectionsCheckingInterval: CHECK_INTERVAL_MS,
    },
  }) as Server;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, options.host, resolve);
  });
  const { port, address } = server.address() as AddressInfo;
  hosts.push(...allowedHosts(port));
  return {
    port,
    address,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        // An unanswered request would hold the server open.
        server.closeAllConnections();
      }),
  };
}
