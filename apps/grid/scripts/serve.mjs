import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { CODINGS } from './compress.mjs';

/**
 * A small server for the built app: files of one folder, on this machine only. It is also what the
 * browser tests run against, so that they see the app under the same policy as a maker does.
 */

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};

// The grid writes its theme into style elements and styles rows in place, hence 'unsafe-inline'
// for styles; its icons are data addresses. Scripts come from this server's files and nowhere else.
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self' data:",
  "img-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS = {
  'Content-Security-Policy': POLICY,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=()',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

/** Files under this folder carry their content's hash in their name: they never change. */
const HASHED = `${sep}assets${sep}`;

/**
 * Serves a folder on localhost.
 * @param {{ folder: string, port: number }} options port 0 takes any free one
 * @returns {Promise<{ port: number, address: string, close: () => Promise<void> }>}
 * @throws an `EADDRINUSE` error when the port is taken
 */
export async function serve({ folder, port }) {
  const home = resolve(folder);
  const server = createServer((request, response) => answer(home, request, response));
  await new Promise((done, failed) => {
    server.once('error', failed);
    server.listen(port, '127.0.0.1', () => done(undefined));
  });
  const bound = server.address();
  const at = typeof bound === 'object' && bound !== null ? bound.port : port;
  return {
    port: at,
    address: `http://localhost:${at}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/**
 * @param {string} home
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function answer(home, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    refuse(response, 405, 'This server only hands out files.');
    return;
  }
  const file = fileFor(home, request.url ?? '/');
  if (file === undefined) {
    refuse(response, 404, 'There is no such file.');
    return;
  }
  const { sent, coding } = copyOf(file, request.headers['accept-encoding']);
  response.writeHead(200, {
    ...HEADERS,
    'Cache-Control': file.includes(HASHED) ? 'public, max-age=31536000, immutable' : 'no-cache',
    ...(coding === undefined ? {} : { 'Content-Encoding': coding }),
    'Content-Length': statSync(sent).size,
    'Content-Type': typeOf(file),
    Vary: 'Accept-Encoding',
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  createReadStream(sent)
    .on('error', () => response.destroy())
    .pipe(response);
}

/**
 * The file an address points at, if it is one inside the folder.
 * @param {string} home @param {string} url
 * @returns {string | undefined}
 */
export function fileFor(home, url) {
  let path;
  try {
    path = decodeURIComponent(url.replace(/[?#].*$/s, ''));
  } catch {
    return undefined;
  }
  if (path.includes('\0')) return undefined;
  const file = resolve(home, `.${path.endsWith('/') ? join(path, 'index.html') : path}`);
  if (!file.startsWith(home + sep)) return undefined;
  return existsSync(file) && statSync(file).isFile() ? file : undefined;
}

/**
 * The shortest copy of a file that whoever asks can read: the build lays compressed ones beside it.
 * @param {string} file @param {string | string[] | undefined} accepted
 */
function copyOf(file, accepted) {
  const found = CODINGS.find(
    ({ ending, coding }) => accepts(String(accepted ?? ''), coding) && existsSync(file + ending),
  );
  return found === undefined
    ? { sent: file, coding: undefined }
    : { sent: file + found.ending, coding: found.coding };
}

/**
 * Whether a coding is among those accepted, as in `gzip, br;q=0, *;q=0.5`.
 * @param {string} accepted @param {string} coding
 */
function accepts(accepted, coding) {
  const weights = new Map(
    accepted.split(',').map((one) => {
      const [name = '', ...parts] = one.split(';').map((part) => part.trim().toLowerCase());
      const weight = parts.find((part) => part.startsWith('q='));
      return [name, weight === undefined ? 1 : Number(weight.slice(2))];
    }),
  );
  return (weights.get(coding) ?? weights.get('*') ?? 0) > 0;
}

/** @param {string} file */
function typeOf(file) {
  const ending = /** @type {keyof typeof TYPES} */ (extname(file).toLowerCase());
  return TYPES[ending] ?? 'application/octet-stream';
}

/** @param {import('node:http').ServerResponse} response @param {number} status @param {string} says */
function refuse(response, status, says) {
  response.writeHead(status, { ...HEADERS, 'Content-Type': TYPES['.txt'] });
  response.end(`${says}\n`);
}
