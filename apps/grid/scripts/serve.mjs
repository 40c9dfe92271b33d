import { resolve } from 'node:path';
import { HEADERS, servedFile } from '@kerfbook/serving';
import { listen } from './listen.mjs';

/**
 * A small server for the built app: files of one folder, on this machine only. It is also what the
 * browser tests run against, so that they see the app under the same policy as a maker does.
 */

/**
 * Serves a folder on localhost: on both of its addresses, where the machine has both.
 * @param {{ folder: string, port: number }} options port 0 takes any free one
 * @returns {Promise<{ port: number, address: string, close: () => Promise<void> }>}
 * @throws an `EADDRINUSE` error when the port is taken on either address
 */
export async function serve({ folder, port }) {
  const home = resolve(folder);
  const { port: at, close } = await listen((request, response) => {
    answer(home, request, response).catch(() => {
      if (response.headersSent) response.destroy();
      else refuse(response, 500, 'The file could not be read.');
    });
  }, port);
  return { port: at, address: `http://localhost:${at}/`, close };
}

/**
 * @param {string} home
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
async function answer(home, request, response) {
  const port = request.socket.localPort ?? 0;
  const { host, path } = wantedOf(request);
  if (!isOurs(host, port)) {
    refuse(response, 421, `This server answers at http://localhost:${port}/ only.`);
    return;
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    refuse(response, 405, 'This server only hands out files.', { Allow: 'GET, HEAD' });
    return;
  }
  const accepted = request.headers['accept-encoding'];
  const found = await servedFile(home, path, accepted === undefined ? undefined : String(accepted));
  if (found === undefined) {
    refuse(response, 404, 'There is no such file.');
    return;
  }
  response.writeHead(200, found.headers);
  response.end(request.method === 'HEAD' ? undefined : found.bytes);
}

/**
 * Which host and path a request is for; a request may name both in its first line.
 * @param {import('node:http').IncomingMessage} request
 */
function wantedOf({ url = '/', headers }) {
  const [, host, path] = /^https?:\/\/([^/?#]*)(.*)$/is.exec(url) ?? [];
  return host === undefined ? { host: headers.host, path: url } : { host, path: path || '/' };
}

/**
 * A page from elsewhere can have its own name point at this machine and would then read what is here:
 * only the names of this machine are answered to.
 * @param {string | undefined} host @param {number} port
 */
function isOurs(host, port) {
  const names = ['localhost', '127.0.0.1', '[::1]'];
  const asked = host?.toLowerCase();
  return names.some((name) => asked === `${name}:${port}` || (port === 80 && asked === name));
}

/**
 * @param {import('node:http').ServerResponse} response @param {number} status @param {string} says
 * @param {Record<string, string>} [more] headers
 */
function refuse(response, status, says, more = {}) {
  // An error passes: nobody keeps it.
  const headers = {
    ...HEADERS,
    ...more,
    'Cache-Control': 'no-store',
    'Content-Type': 'text/plain; charset=utf-8',
  };
  response.writeHead(status, headers);
  response.end(`${says}\n`);
}
