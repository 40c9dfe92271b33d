import { createServer, type RequestListener, type Server } from 'node:http';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { BUILT, launchChromium } from '../scripts/chromium.mjs';
import { command, Maker, words } from './support/maker.ts';

/** What a browser shows at the address of the app when something else, or nothing, answers there. */

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** The app, used once and kept on the device; then its server stops. */
async function left(): Promise<{
  readonly page: Page;
  readonly port: number;
  readonly address: string;
}> {
  const server = await serve({ folder: BUILT, port: 0 });
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(server.address);
  const maker = new Maker(page);
  await maker.ready();
  await maker.type('top_length', '96');
  await maker.untilSaved();
  await expect.poll(() => registered(page), { timeout: 20_000 }).toBe('activated');
  await server.close();
  return { page, port: server.port, address: server.address };
}

const registered = (page: Page) =>
  page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state);

const ourCaches = (page: Page) =>
  page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('kerfbook ')));

/** Another program on a port of this machine. */
async function program(port: number, answer: RequestListener): Promise<Server> {
  const other = createServer(answer);
  await new Promise((done) => other.listen(port, '127.0.0.1', () => done(undefined)));
  return other;
}

async function close(server: Server): Promise<void> {
  const closed = new Promise((done) => server.close(done));
  server.closeAllConnections();
  await closed;
}

const PAGE = '<!doctype html><title>Other</title><h1>Another program</h1>';

describe('at the address of the app', () => {
  let at: Awaited<ReturnType<typeof left>>;
  beforeEach(async () => {
    at = await left();
  });

  it('G54 the app starts where nothing answers, with what was made', async () => {
    const { page, address } = at;
    await page.goto(address);
    const maker = new Maker(page);
    await maker.ready();
    expect(await maker.shows('top_length')).toContain('96');
    expect(await registered(page)).toBe('activated');
    await page.context().close();
  });

  it.each<readonly [string, RequestListener]>([
    [
      'has that one page and nothing else',
      ({ url }, response) => {
        response.writeHead(url === '/' ? 200 : 404, { 'Content-Type': 'text/html' });
        response.end(url === '/' ? PAGE : 'nothing');
      },
    ],
    [
      'answers every address with its page',
      (_, response) => {
        response.writeHead(200, { 'Content-Type': 'text/html' });
        response.end(PAGE);
      },
    ],
    [
      'leads every address to its door',
      ({ url }, response) => {
        const there = url === '/door';
        response.writeHead(there ? 200 : 302, { 'Content-Type': 'text/html', Location: '/door' });
        response.end(there ? PAGE : '');
      },
    ],
    [
      'answers with data of its own',
      ({ url }, response) => {
        const page = url === '/';
        response.writeHead(200, { 'Content-Type': page ? 'text/html' : 'application/json' });
        response.end(page ? PAGE : '{"app":"other"}');
      },
    ],
  ])('another program is shown that %s, and the app gives up', async (_, answer) => {
    const { page, port, address } = at;
    const other = await program(port, answer);
    await page.goto(address);
    expect(await words(page.locator('h1'))).toBe('Another program');
    await expect.poll(() => registered(page)).toBeUndefined();
    await expect.poll(() => ourCaches(page), { timeout: 8000 }).toEqual([]);
    await page.reload();
    expect(await words(page.locator('h1'))).toBe('Another program');
    expect(await ourCaches(page)).toEqual([]);
    await close(other);

    // Back at its address the app has all that was made.
    const server = await serve({ folder: BUILT, port });
    await page.goto(address);
    const maker = new Maker(page);
    await maker.ready();
    expect(await maker.shows('top_length')).toContain('96');
    await page.context().close();
    await server.close();
  });

  it('a server in trouble is shown as it is, and the app does not give up', async () => {
    const { page, port, address } = at;
    const other = await program(port, (_, response) => {
      response.writeHead(503, { 'Content-Type': 'text/html' });
      response.end('<h1>Back at noon</h1>');
    });
    await page.goto(address);
    expect(await words(page.locator('h1'))).toBe('Back at noon');
    expect(await registered(page)).toBe('activated');
    await close(other);
    await page.goto(address);
    await new Maker(page).ready();
    await page.context().close();
  });

  it('a page of the app that is open goes on when another program comes', async () => {
    const { page, port, address } = at;
    await page.goto(address);
    const maker = new Maker(page);
    await maker.ready();
    const other = await program(port, (_, response) => {
      response.writeHead(200, { 'Content-Type': 'text/html' });
      response.end(PAGE);
    });
    const second = await page.context().newPage();
    await second.goto(address);
    expect(await words(second.locator('h1'))).toBe('Another program');
    await command(page, 'Functions');
    await page.getByRole('dialog', { name: 'Functions' }).waitFor();
    await page.keyboard.press('Escape');
    await maker.type('top_length', '90');
    await maker.untilSaved();
    await page.context().close();
    await close(other);
  });
});
