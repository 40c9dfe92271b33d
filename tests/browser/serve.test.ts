import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { get as ask, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from 'node:zlib';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const LARGE = 'export const boards = [];\n'.repeat(100);

/** An answer as it comes over the wire, nothing unpacked. */
function raw(
  address: string,
  accepted: string,
): Promise<{ readonly headers: IncomingHttpHeaders; readonly body: Buffer }> {
  return new Promise((resolve, reject) => {
    ask(address, { headers: { 'Accept-Encoding': accepted } }, (answer) => {
      const parts: Buffer[] = [];
      answer.on('data', (part: Buffer) => parts.push(part));
      answer.on('end', () => resolve({ headers: answer.headers, body: Buffer.concat(parts) }));
      answer.on('error', reject);
    }).on('error', reject);
  });
}

describe('the server of npm start', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-'));
  let server: Awaited<ReturnType<typeof serve>>;

  beforeAll(async () => {
    const site = join(folder, 'site');
    mkdirSync(join(site, 'assets'), { recursive: true });
    writeFileSync(join(folder, 'secret.txt'), 'not yours');
    writeFileSync(join(site, 'index.html'), '<h1>A page</h1>');
    writeFileSync(join(site, 'assets', 'a.js'), 'export {};');
    writeFileSync(join(site, 'assets', 'large.js'), LARGE);
    writeFileSync(join(site, 'assets', 'large.js.br'), brotliCompressSync(LARGE));
    writeFileSync(join(site, 'assets', 'large.js.gz'), gzipSync(LARGE));
    server = await serve({ folder: site, port: 0 });
  });

  afterAll(async () => {
    await server.close();
    rmSync(folder, { recursive: true });
  });

  const get = (path: string) => fetch(server.address + path);

  it('hands out the page and its scripts with their types', async () => {
    expect((await get('')).headers.get('content-type')).toBe('text/html; charset=utf-8');
    const script = await get('assets/a.js?v=1');
    expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(await script.text()).toBe('export {};');
  });

  it('keeps what has a hash in its name, and asks again for the page', async () => {
    expect((await get('')).headers.get('cache-control')).toBe('no-cache');
    expect((await get('assets/a.js')).headers.get('cache-control')).toContain('immutable');
  });

  it.each([
    ['gzip, deflate, br, zstd', 'br', brotliDecompressSync],
    ['gzip', 'gzip', gunzipSync],
    ['br;q=0, *;q=0.5', 'gzip', gunzipSync],
    ['', undefined, undefined],
    ['identity', undefined, undefined],
    ['gzip;q=0', undefined, undefined],
  ])('sends a script to who accepts "%s" as %s', async (accepted, coding, unpack) => {
    const { headers, body } = await raw(`${server.address}assets/large.js`, accepted);
    expect(headers['content-encoding']).toBe(coding);
    expect(headers['content-type']).toBe('text/javascript; charset=utf-8');
    expect(headers['content-length']).toBe(String(body.length));
    expect(headers.vary).toBe('Accept-Encoding');
    expect((unpack?.(body) ?? body).toString()).toBe(LARGE);
  });

  it('sends a file as it is where no compressed copy lies beside it', async () => {
    const { headers, body } = await raw(`${server.address}assets/a.js`, 'br, gzip');
    expect(headers['content-encoding']).toBeUndefined();
    expect(body.toString()).toBe('export {};');
  });

  it('lets no script from elsewhere or written into the page run', async () => {
    const policy = (await get('')).headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
  });

  it.each(['../secret.txt', '%2e%2e/secret.txt', '..%2fsecret.txt', 'assets', 'none', '%', '%00'])(
    'hands out nothing for %s',
    async (path) => {
      const answer = await get(path);
      expect(answer.status).toBe(404);
      expect(await answer.text()).toBe('There is no such file.\n');
    },
  );

  it('takes nothing in', async () => {
    expect((await fetch(server.address, { method: 'POST', body: 'x' })).status).toBe(405);
  });

  it('says so when its port is taken', async () => {
    await expect(serve({ folder, port: server.port })).rejects.toMatchObject({
      code: 'EADDRINUSE',
    });
  });
});
