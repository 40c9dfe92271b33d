import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

describe('the server of npm start', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-'));
  let server: Awaited<ReturnType<typeof serve>>;

  beforeAll(async () => {
    const site = join(folder, 'site');
    mkdirSync(join(site, 'assets'), { recursive: true });
    writeFileSync(join(folder, 'secret.txt'), 'not yours');
    writeFileSync(join(site, 'index.html'), '<h1>A page</h1>');
    writeFileSync(join(site, 'assets', 'a.js'), 'export {};');
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
