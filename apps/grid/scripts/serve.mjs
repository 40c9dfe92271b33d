import { readFile } from 'node:fs/promises';
import { extname, join, resolve, sep } from 'node:path';
import { CODINGS } from './compress.mjs';
import { listen } from './listen.mjs';

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
  '.wasm': 'application/wasm',
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

/** The script of the worker that proves plans: the solver in it is WebAssembly, which nothing else may run. */
const PROVES = /[\\/]assets[\\/]proof-worker-[\w-]+\.js$/;
const PROVING_POLICY = POLICY.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'");

/** @param {string} file */
const policyFor = (file) => (PROVES.test(file) ? PROVING_POLICY : POLICY);

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
  const file = fileFor(home, path);
  const found = file && (await shortestCopy(file, request.headers['accept-encoding']));
  if (!file || !found) {
    refuse(response, 404, 'There is no such file.');
    return;
  }
  response.writeHead(200, {
    ...HEADERS,
    'Content-Security-Policy': policyFor(file),
    'Accept-Ranges': 'none',
    'Cache-Control': file.includes(HASHED) ? 'public, max-age=31536000, immutable' : 'no-cache',
    ...(found.coding === undefined ? {} : { 'Content-Encoding': found.coding }),
    'Content-Length': found.bytes.length,
    'Content-Type': typeOf(file),
    Vary: 'Accept-Encoding',
  });
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
  if (!path.startsWith('/') || path.includes('\0')) return undefined;
  const file = resolve(home, `.${path.endsWith('/') ? join(path, 'index.html') : path}`);
  return file.startsWith(home + sep) ? file : undefined;
}

/**
 * What is sent of a file: the shortest copy that whoever asks can read, since the build lays compressed
 * ones beside it. Read whole, as files are small: one that goes while it is sent would be cut short.
 * @param {string} file @param {string | string[] | undefined} accepted
 */
async function shortestCopy(file, accepted) {
  const plain = { ending: '', coding: undefined };
  const coded = CODINGS.filter(({ coding }) => accepts(String(accepted ?? ''), coding));
  for (const { ending, coding } of [...coded, plain]) {
    const bytes = await bytesOf(file + ending);
    if (bytes !== undefined) return { bytes, coding };
  }
  return undefined;
}

/** What reading fails with where there is no file of that name. */
const NO_FILE = new Set(['ENOENT', 'ENOTDIR', 'EISDIR', 'ENAMETOOLONG', 'ELOOP', 'EINVAL']);

/** @param {string} file @returns {Promise<Buffer | undefined>} undefined where there is none, or no longer */
async function bytesOf(file) {
  try {
    return await readFile(file);
  } catch (error) {
    if (error instanceof Error && 'code' in error && NO_FILE.has(String(error.code))) {
      return undefined;
    }
    throw error;
  }
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
    'Content-Type': TYPES['.txt'],
  };
  response.writeHead(status, headers);
  response.end(`${says}\n`);
}
