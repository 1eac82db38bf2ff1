/** A load on a server from a thread of its own, so that asking does not slow answering. */
import { Worker } from 'node:worker_threads';

/** Plain JavaScript: a worker made from text is not compiled. */
const CLIENT = `
const { parentPort, workerData } = require('node:worker_threads');
const http = require('node:http');
const { port, path, body, seconds, connections } = workerData;
const agent = new http.Agent({ keepAlive: true, maxSockets: connections });
const endsAt = Date.now() + seconds * 1000;
let answered = 0;
let refused = 0;
const ask = () => new Promise((resolve, reject) => {
  const request = http.request({ host: '127.0.0.1', port, path, method: 'POST', agent,
    headers: { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) } }, (response) => {
    if (response.statusCode === 200) answered += 1; else refused += 1;
    response.resume();
    response.on('end', resolve);
  });
  request.on('error', reject);
  request.end(body);
});
const one = async () => { while (Date.now() < endsAt) await ask(); };
Promise.all(Array.from({ length: connections }, one)).then(() => {
  agent.destroy();
  parentPort.postMessage({ perSecond: answered / seconds, refused });
});
`;

/** Asks again and again for some seconds. @returns answers with status 200 per second, and how many had another */
export function loadWith(
  port: number,
  path: string,
  body: unknown,
  seconds: number,
): Promise<{ perSecond: number; refused: number }> {
  return new Promise((resolve, reject) => {
    const workerData = { port, path, body: JSON.stringify(body), seconds, connections: 8 };
    const worker = new Worker(CLIENT, { eval: true, workerData });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}
