import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { get as ask, type IncomingHttpHeaders, type Server } from 'node:http';
import { connect, createServer } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from 'node:zlib';
import { listen } from '@kerfbook/grid/scripts/listen.mjs';
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

/** What comes back for letters sent as they are, once the connection is closed or `enough` of it is there. */
function sent(
  port: number,
  letters: string,
  { host = '127.0.0.1', enough = Number.POSITIVE_INFINITY } = {},
): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, host, () => socket.write(letters));
    let answer = '';
    socket.on('data', (part) => {
      answer += part.toString('latin1');
      if (answer.length >= enough) socket.destroy();
    });
    socket.on('close', () => resolve(answer));
    socket.on('error', reject);
  });
}

/** One request with its head written as given. */
const headed = (port: number, first: string, ...lines: readonly string[]): Promise<string> =>
  sent(port, [first, ...lines, 'Connection: close', '', ''].join('\r\n'));

/** Of addresses that `localhost` can stand for, those this machine has. */
const here = (...addresses: readonly string[]): readonly string[] => {
  const all = Object.values(networkInterfaces()).flat();
  const second = all.some((one) => one?.address === '::1');
  return addresses.filter((one) => second || !one.includes('::'));
};

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

  it('answers on both addresses that localhost stands for', async () => {
    for (const host of here('127.0.0.1', '::1', 'localhost')) {
      const answer = await sent(
        server.port,
        `GET / HTTP/1.1\r\nHost: localhost:${server.port}\r\nConnection: close\r\n\r\n`,
        { host },
      );
      expect(answer, host).toMatch(/^HTTP\/1\.1 200 .*<h1>A page<\/h1>$/s);
    }
  });

  it.each(here('127.0.0.1', '::1', '0.0.0.0', '::'))(
    'does not start where another program has its port on %s',
    async (address) => {
      const other = createServer();
      await new Promise((done) => other.listen(0, address, () => done(undefined)));
      const bound = other.address();
      const port = typeof bound === 'object' && bound !== null ? bound.port : 0;
      await expect(serve({ folder, port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
      // It leaves nothing behind on the address that was free.
      await new Promise((done) => other.close(done));
      const again = await serve({ folder, port });
      await again.close();
    },
  );

  it('is content with the one address where a machine has no second', async () => {
    // An address for examples only, which no machine has.
    const one = await listen((_, response) => response.end('here'), 0, ['127.0.0.1', '192.0.2.1']);
    expect(await (await fetch(`http://127.0.0.1:${one.port}/`)).text()).toBe('here');
    await one.close();
  });

  it('goes on where connections cannot be taken, as when a program has too many files open', async () => {
    const one = await listen((request, response) => {
      const tooMany = Object.assign(new Error('accept EMFILE'), { code: 'EMFILE' });
      const { server: its } = request.socket as typeof request.socket & { server: Server };
      for (let i = 0; i < 3; i += 1) its.emit('error', tooMany);
      response.end('here');
    }, 0);
    expect(await (await fetch(`http://127.0.0.1:${one.port}/`)).text()).toBe('here');
    await one.close();
  });

  it.each(['localhost:PORT', 'LOCALHOST:PORT', '127.0.0.1:PORT', '[::1]:PORT'])(
    'answers to %s',
    async (host) => {
      const named = `Host: ${host.replace('PORT', String(server.port))}`;
      expect(await headed(server.port, 'GET / HTTP/1.1', named)).toMatch(/^HTTP\/1\.1 200 /);
    },
  );

  it.each([
    'table.example:PORT',
    'localhost.table.example:PORT',
    'localhost',
    'localhost:1',
    'localhost.:PORT',
    '127.0.0.2:PORT',
    '',
  ])('gives nothing to a page that calls this machine "%s"', async (host) => {
    const named = `Host: ${host.replace('PORT', String(server.port))}`;
    const answer = await headed(server.port, 'GET / HTTP/1.1', named);
    expect(answer).toMatch(/^HTTP\/1\.1 421 /);
    expect(answer).toContain(`answers at http://localhost:${server.port}/ only.`);
    expect(answer).not.toContain('A page');
  });

  it('reads the host from the first line where it stands there, and wants one', async () => {
    const { port } = server;
    const named = `Host: localhost:${port}`;
    const whole = (host: string) => headed(port, `GET http://${host}:${port}/ HTTP/1.1`, named);
    expect(await whole('localhost')).toMatch(/^HTTP\/1\.1 200 /);
    expect(await whole('table.example')).toMatch(/^HTTP\/1\.1 421 /);
    expect(await headed(port, 'GET / HTTP/1.0')).toMatch(/^HTTP\/1\.1 421 /);
  });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/..\\secret.txt',
    '//secret.txt',
    '/./../secret.txt',
    'secret.txt',
    '../secret.txt',
    '/assets',
    '/assets/',
    '/index.html/',
    '/index.html/x',
    '/%',
    '/%00',
    '/%c0%ae%c0%ae/secret.txt',
    '/%ff',
    `/${'a'.repeat(5000)}`,
    `/${'a/'.repeat(3000)}`,
  ])('hands out nothing for %.40s as it is sent', async (path) => {
    const answer = await headed(
      server.port,
      `GET ${path} HTTP/1.1`,
      `Host: localhost:${server.port}`,
    );
    expect(answer).toMatch(/^HTTP\/1\.1 40[04] /);
    expect(answer).not.toContain('not yours');
  });

  it('stands what is no request at all', async () => {
    const named = `Host: localhost:${server.port}\r\nConnection: close\r\n\r\n`;
    for (const letters of [
      '\0\0\0\r\n\r\n',
      'GET\r\n\r\n',
      `GET / HTTP/9.9\r\n${named}`,
      `GET / HTTP/1.1\r\nX: ${'x'.repeat(100_000)}\r\n${named}`,
      `OPTIONS * HTTP/1.1\r\n${named}`,
      `POST / HTTP/1.1\r\nContent-Length: 2\r\n${named}xx`,
    ]) {
      expect(await sent(server.port, letters)).toMatch(/^(?:HTTP\/1\.1 4\d\d |$)/);
    }
    expect((await get('')).status).toBe(200);
  });

  it('answers HEAD with the head alone, and a wish for a part with the whole', async () => {
    const named = `Host: localhost:${server.port}`;
    const head = await headed(server.port, 'HEAD /assets/a.js HTTP/1.1', named);
    expect(head).toMatch(/^HTTP\/1\.1 200 .*Content-Length: 10\r\n.*\r\n\r\n$/s);
    const part = await headed(server.port, 'GET /assets/a.js HTTP/1.1', named, 'Range: bytes=0-2');
    expect(part).toMatch(/^HTTP\/1\.1 200 .*export \{\};$/s);
  });

  it('goes on while someone takes an answer slowly or goes away in its middle', async () => {
    const big = join(folder, 'site', 'big.txt');
    writeFileSync(big, 'board\n'.repeat(1_000_000));
    const request = `GET /big.txt HTTP/1.1\r\nHost: localhost:${server.port}\r\n\r\n`;
    const slow = connect(server.port, '127.0.0.1', () => slow.write(request));
    slow.pause();
    await sent(server.port, request, { enough: 1000 });
    expect((await get('')).status).toBe(200);
    slow.destroy();
    expect((await (await get('big.txt')).text()).length).toBe(6_000_000);
    rmSync(big);
  });

  it('stands a file that comes and goes while it is asked for', async () => {
    const coming = join(folder, 'site', 'coming.js');
    // It is there whole before anybody asks.
    writeFileSync(coming, LARGE);
    const worker = new Worker(
      `const { workerData: file, parentPort } = require('node:worker_threads');
      const { renameSync } = require('node:fs');
      const end = Date.now() + 1500;
      while (Date.now() < end) {
        renameSync(file, file + '.away');
        renameSync(file + '.away', file);
      }
      parentPort.postMessage('done');`,
      { eval: true, workerData: coming },
    );
    let going = true;
    const done = new Promise((resolve) => worker.once('message', resolve)).then(() => {
      going = false;
    });
    const met = new Set<number>();
    while (going) {
      const answers = await Promise.all(Array.from({ length: 20 }, () => get('coming.js')));
      for (const answer of answers) {
        met.add(answer.status);
        const text = await answer.text();
        expect(text).toBe(answer.status === 200 ? LARGE : 'There is no such file.\n');
      }
    }
    await done;
    expect([...met].sort()).toEqual([200, 404]);
  });

  it('takes a name that is no file for none, and goes on', async () => {
    // A name that the file system takes for a file and cannot read as one.
    const around = join(folder, 'site', 'around.js');
    symlinkSync('around.js', around);
    expect((await get('around.js')).status).toBe(404);
    mkdirSync(join(folder, 'site', 'assets', 'a.js.br'));
    expect(await (await get('assets/a.js')).text()).toBe('export {};');
    expect((await get('')).status).toBe(200);
  });
});
