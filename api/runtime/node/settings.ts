/** The settings of the server, from environment variables. */
import { resolve } from 'node:path';

export interface Settings {
  host: string;
  port: number;
  dataDir: string;
  /** Hosts as browsers send them. */
  allowedHosts: string[];
}

/** A setting that the server refuses to start with; the message says what to do. */
export class SettingError extends Error {}

const LOOPBACK = new Set(['127.0.0.1', '::1', 'localhost']);

/**
 * Reads PORT (8787), HOST (127.0.0.1) and DATA_DIR (./data).
 *
 * Any other address than this computer's own would let everybody on the network read and change the household, so it is
 * refused until access control exists (there is no setting for that yet).
 * @throws SettingError for a port that is none, or an address that is not loopback
 */
export function readSettings(environment: Readonly<Record<string, string | undefined>>): Settings {
  const host = environment.HOST || '127.0.0.1';
  if (!LOOPBACK.has(host)) {
    throw new SettingError(
      `HOST=${host} is refused: other computers could then read and change everything. ` +
        'This server has no access code yet, so it listens on 127.0.0.1, ::1 or localhost only.',
    );
  }
  const port = Number(environment.PORT || 8787);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw new SettingError(`PORT=${environment.PORT} is refused: it must be a whole number from 0 to 65535.`);
  }
  return { host, port, dataDir: resolve(environment.DATA_DIR || './data'), allowedHosts: allowedHosts(port) };
}

/** What a browser on this computer sends as Host for a port. */
export function allowedHosts(port: number): string[] {
  const names = ['localhost', '127.0.0.1', '[::1]'];
  // Browsers leave port 80 out.
  return port === 80 ? [...names, ...names.map((name) => `${name}:80`)] : names.map((name) => `${name}:${port}`);
}
