import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { fileFor, servedFile } from './files.ts';
import { policyFor } from './policy.ts';

let home = '';
const SCRIPT = 'console.log("a table")';

beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'kerfbook-serving-'));
  mkdirSync(join(home, 'assets'));
  writeFileSync(join(home, 'index.html'), '<head></head>');
  writeFileSync(join(home, 'index.html.gz'), gzipSync('<head></head>'));
  writeFileSync(join(home, 'assets', 'app-1a2b.js'), SCRIPT);
  writeFileSync(join(home, 'assets', 'app-1a2b.js.gz'), gzipSync(SCRIPT));
});

describe('a file of the built app', () => {
  it.each(['/../secret', '/..%2f..%2fsecret', '/%00', '/a\0b', 'index.html', '/%zz', '//../x'])(
    'is nothing outside of its folder: %j',
    (url) => {
      const file = fileFor(home, url);
      expect(file === undefined || file.startsWith(`${home}/`)).toBe(true);
    },
  );

  it('is sent in the shortest copy that whoever asks can read', async () => {
    const url = '/assets/app-1a2b.js?x#y';
    const plain = await servedFile(home, url, undefined);
    expect(plain?.bytes.toString()).toBe(SCRIPT);
    expect(plain?.headers['Content-Encoding']).toBeUndefined();
    const short = await servedFile(home, url, 'br;q=0, gzip');
    expect(short?.headers).toMatchObject({
      'Content-Encoding': 'gzip',
      'Cache-Control': 'public, max-age=31536000, immutable',
      'Content-Type': 'text/javascript; charset=utf-8',
    });
    expect(gunzipSync(short?.bytes ?? '').toString()).toBe(SCRIPT);
    expect(await servedFile(home, '/assets/', undefined)).toBeUndefined();
    expect(await servedFile(home, '/nothing.js', 'gzip')).toBeUndefined();
  });

  it('that is a page may be changed on its way, and then no older copy of it is sent', async () => {
    const add = (page: string): string => page.replace('<head>', '<head><meta name="club">');
    const page = await servedFile(home, '/', 'gzip', add);
    expect(page?.bytes.toString()).toBe('<head><meta name="club"></head>');
    expect(page?.headers).toMatchObject({
      'Content-Length': page?.bytes.length,
      'Cache-Control': 'no-cache',
    });
    expect(page?.headers['Content-Encoding']).toBeUndefined();
    const script = await servedFile(home, '/assets/app-1a2b.js', undefined, add);
    expect(script?.bytes.toString()).toBe(SCRIPT);
  });

  it('may run WebAssembly in the worker that proves plans, and nowhere else', () => {
    expect(policyFor('/dist/assets/proof-worker-1a2b.js')).toContain("'wasm-unsafe-eval'");
    for (const file of [
      '/dist/index.html',
      '/dist/assets/app-1a2b.js',
      '/dist/proof-worker-1.js',
    ]) {
      expect(policyFor(file)).not.toContain('wasm');
      expect(policyFor(file)).toContain("default-src 'none'");
    }
  });
});
