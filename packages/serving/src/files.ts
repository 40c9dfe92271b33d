import { readFile } from 'node:fs/promises';
import { extname, join, resolve, sep } from 'node:path';
import { HEADERS, policyFor } from './policy.ts';

const TYPES: Readonly<Record<string, string>> = {
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

/** Endings of the compressed copies that lie beside a file, and the name of each coding, best first. */
export const CODINGS = [
  { ending: '.br', coding: 'br' },
  { ending: '.gz', coding: 'gzip' },
] as const;

/** Files under this folder carry their content's hash in their name: they never change. */
const HASHED = `${sep}assets${sep}`;

/** A file as it is answered. */
export interface Served {
  /** By their names. */
  readonly headers: Readonly<Record<string, string | number>>;
  /** Whole. */
  readonly bytes: Buffer;
}

/**
 * The file an address points at, if it is one inside the folder.
 * @param url a path, with whatever stands behind it
 */
export function fileFor(home: string, url: string): string | undefined {
  let path: string;
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
 * What is answered for an address: the shortest copy of its file that whoever asks can read, with its headers; nothing
 * where there is no such file.
 * @param home the folder, as an absolute path
 * @param accepted the header `Accept-Encoding`
 * @param change what is made of a page's text before it goes out; copies that lie beside it are left alone then
 */
export async function servedFile(
  home: string,
  url: string,
  accepted: string | undefined,
  change?: (page: string) => string,
): Promise<Served | undefined> {
  const file = fileFor(home, url);
  if (file === undefined) return undefined;
  const isPage = change !== undefined && file.endsWith('.html');
  const found = await shortestCopy(file, isPage ? undefined : accepted);
  if (found === undefined) return undefined;
  const bytes = isPage ? Buffer.from(change(found.bytes.toString('utf8'))) : found.bytes;
  return {
    headers: {
      ...HEADERS,
      'Content-Security-Policy': policyFor(file),
      'Accept-Ranges': 'none',
      'Cache-Control': file.includes(HASHED) ? 'public, max-age=31536000, immutable' : 'no-cache',
      ...(found.coding === undefined ? {} : { 'Content-Encoding': found.coding }),
      'Content-Length': bytes.length,
      'Content-Type': typeOf(file),
      Vary: 'Accept-Encoding',
    },
    bytes,
  };
}

/**
 * The build lays compressed copies beside its files. Read whole, as files are small: one that goes while it is sent would
 * be cut short.
 */
async function shortestCopy(
  file: string,
  accepted: string | undefined,
): Promise<{ readonly bytes: Buffer; readonly coding?: string } | undefined> {
  const plain = { ending: '', coding: undefined };
  const coded = CODINGS.filter(({ coding }) => accepts(accepted ?? '', coding));
  for (const { ending, coding } of [...coded, plain]) {
    const bytes = await bytesOf(file + ending);
    if (bytes !== undefined) return { bytes, ...(coding === undefined ? {} : { coding }) };
  }
  return undefined;
}

/** What reading fails with where there is no file of that name. */
const NO_FILE = new Set(['ENOENT', 'ENOTDIR', 'EISDIR', 'ENAMETOOLONG', 'ELOOP', 'EINVAL']);

async function bytesOf(file: string): Promise<Buffer | undefined> {
  try {
    return await readFile(file);
  } catch (error) {
    if (error instanceof Error && 'code' in error && NO_FILE.has(String(error.code))) {
      return undefined;
    }
    throw error;
  }
}

/** Whether a coding is among those accepted, as in `gzip, br;q=0, *;q=0.5`. */
function accepts(accepted: string, coding: string): boolean {
  const weights = new Map(
    accepted.split(',').map((one) => {
      const [name = '', ...parts] = one.split(';').map((part) => part.trim().toLowerCase());
      const weight = parts.find((part) => part.startsWith('q='));
      return [name, weight === undefined ? 1 : Number(weight.slice(2))] as const;
    }),
  );
  return (weights.get(coding) ?? weights.get('*') ?? 0) > 0;
}

const typeOf = (file: string): string =>
  TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';
