import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { buildScene, chooseEye, type Eye, readParts } from '@kerfbook/drawing';
import { checksKept, guideSections } from '@kerfbook/guide';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from '../scripts/chromium.mjs';
import { complaintsOf } from './support/app.ts';
import { violations } from './support/axe.ts';
import { atSize, compressed, pageFor, planOf, templateOf } from './support/readers.ts';

/** A page for readers: from a disk, in a frame and on any host, at any size that its maker opened. */

const TEMPLATES = fileURLToPath(new URL('../../templates/', import.meta.url));
const PHONE = { width: 390, height: 844 };
const INPUTS = ['top_length', 'top_width', 'table_height', 'species', 'top_shape'];
/** Bytes, fonts included, as hosts send it that know Brotli, and those that know gzip alone: 250 kB is what is wanted. */
const MOST_PAGE = { brotli: 250_500, gzip: 301_000 };

let browser: Awaited<ReturnType<typeof launchChromium>>;
let folder: string;
const opened: BrowserContext[] = [];

beforeAll(async () => {
  browser = await launchChromium();
  folder = mkdtempSync(join(tmpdir(), 'kerfbook-readers-'));
});
afterEach(async () => {
  await Promise.all(opened.splice(0).map((context) => context.close()));
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

const plan = (guide: BookDocument['guide'] = {}): BookDocument =>
  planOf('dining-table', { inputs: INPUTS, tone: 'walnut', ...guide });

function write(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return pathToFileURL(file).href;
}

/** A window of its own, and what it asks for over a network. */
async function opens(options: BrowserContextOptions = {}) {
  const context = await browser.newContext({ viewport: PHONE, ...options });
  context.setDefaultTimeout(60_000);
  opened.push(context);
  const page = await context.newPage();
  const complaints = complaintsOf(page);
  const asked: string[] = [];
  page.on('request', (request) => {
    if (!/^(?:file|data|blob|about):/.test(request.url())) asked.push(request.url());
  });
  return { page, complaints, asked };
}

const isReady = async (page: Page): Promise<void> => {
  await page.locator('html[data-ready]').waitFor({ state: 'attached' });
};

/** How often the page has come to rest; a link in its address counts as one. */
const rests = (page: Page): Promise<number> =>
  page.evaluate(() => Number(document.documentElement.dataset.settled ?? '0'));

/** Does something and waits until all of it has been drawn. */
async function settled(page: Page, does: () => Promise<unknown>): Promise<void> {
  const before = await rests(page);
  await does();
  await page.waitForFunction(
    (was) => Number(document.documentElement.dataset.settled ?? '0') > was,
    before,
  );
}

async function choose(page: Page, label: string, text: string): Promise<void> {
  await settled(page, async () => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.press('Enter');
  });
}

/** The words of the sections of a page, in their order, without what it draws. */
const shown = (page: Page): Promise<readonly (readonly [string, string])[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('#guide-pages > [data-section]')].map(
      (one) => [one.dataset.section ?? '', one.textContent ?? ''] as const,
    ),
  );

/** The same of a workbook, made here. */
async function wanted(page: Page, book: Workbook, second = false, eye?: Eye) {
  // Checks that say an amount are kept from readers, at whatever size they fire.
  const without = new Set(checksKept(book.document()).map(({ id }) => id));
  const sections = guideSections(book, {
    ticks: true,
    without,
    second,
    ...(eye === undefined ? {} : { eye }),
  });
  return page.evaluate(
    (all) =>
      all.map(({ id, html }) => {
        const frame = document.createElement('template');
        frame.innerHTML = html;
        return [id, frame.content.textContent ?? ''] as const;
      }),
    sections.map(({ id, html }) => ({ id, html })),
  );
}

/** Words of a drawing that depend on where it is looked at from are no numbers. */
const numbersOf = (all: readonly (readonly [string, string])[]) =>
  all.map(([id, words]) => [id, words.replaceAll(/\s+/g, ' ').trim()]);

describe('from a disk, on a phone', () => {
  it('another size is chosen, its numbers are those of the engine, and nothing is asked of a network', async () => {
    const document = plan();
    const { page, complaints, asked } = await opens();
    await page.goto(write('plain.html', pageFor(document).page));
    await isReady(page);
    expect(await page.locator('#guide-no-script').count()).toBe(0);
    expect(await page.evaluate(() => globalThis.document.documentElement.scrollWidth)).toBe(
      PHONE.width,
    );
    await choose(page, 'Length of the top', "8'");
    await settled(page, () =>
      page.getByLabel('Species', { exact: true }).selectOption('white oak'),
    );
    const book = atSize(document, { top_length: "8'", species: 'white oak' });
    expect(numbersOf(await shown(page))).toEqual(numbersOf(await wanted(page, book)));
    await settled(page, () => page.getByLabel('Units').selectOption('metric'));
    book.apply({ do: 'changeUnits', to: 'metric' });
    expect(numbersOf(await shown(page))).toEqual(numbersOf(await wanted(page, book)));
    expect(complaints).toEqual([]);
    expect(asked).toEqual([]);
  });

  it('a slider pulled shows each size in the drawing, and the cutting plan once it is let go', async () => {
    const document = plan();
    const { page, complaints } = await opens();
    await page.goto(write('pulled.html', pageFor(document).page));
    await isReady(page);
    const slider = page.getByRole('slider', { name: /Length of the top/ });
    const cover = page.locator('[data-section="cover"] dd').first();
    await slider.evaluate((one: HTMLInputElement) => {
      one.value = '100';
      one.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await expect.poll(() => cover.textContent()).toContain('100 in');
    expect(await page.locator('[data-section="cutting-plan"]').getAttribute('aria-busy')).toBe(
      'true',
    );
    await settled(page, () =>
      slider.evaluate((one: HTMLInputElement) =>
        one.dispatchEvent(new Event('change', { bubbles: true })),
      ),
    );
    expect(await page.locator('[aria-busy]').count()).toBe(0);
    const book = atSize(document, { top_length: '100' });
    expect(numbersOf(await shown(page))).toEqual(numbersOf(await wanted(page, book)));
    expect(complaints).toEqual([]);
  });

  it('an entry outside its range is refused in the sentence of the workbook, and the size stays', async () => {
    const document = plan();
    const { page } = await opens();
    await page.goto(write('refused.html', pageFor(document).page));
    await isReady(page);
    const field = page.getByLabel('Length of the top', { exact: true });
    await field.fill('400');
    await field.press('Enter');
    const book = atSize(document, { top_length: '400' });
    const says = book.named('top_length')?.problem?.says ?? 'none';
    expect(await page.getByRole('alert').filter({ hasText: says }).count()).toBe(1);
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator('[data-section="cover"] dd').first().textContent()).toContain(
      '84 in',
    );
  });

  it('pieces that come out of no board are a warning, though the plan keeps its check of them to itself', async () => {
    const { page } = await opens();
    await page.goto(write('boards.html', pageFor(plan()).page));
    await isReady(page);
    const warns = page.locator('.guide-warns');
    expect(await warns.textContent()).toBe('✓ Nothing warns at this size.');
    // No board of the stock is as long.
    await choose(page, 'Length of the top', "13'");
    expect(await page.locator('#guide-cutting-plan').textContent()).toMatch(
      /Left out of the cutting plan.*is 157 long; the longest board .* is 144\./,
    );
    const fire = await page.locator('#guide-checks .guide-warning').count();
    expect(await warns.textContent()).toBe(`▲ ${fire + 1} warnings at this size`);
  });

  it('what is ticked off is there when it is opened again, and goes when its size is another', async () => {
    const { page } = await opens();
    await page.goto(write('ticked.html', pageFor(plan()).page));
    await isReady(page);
    const leg = page.getByRole('checkbox', { name: /^Leg, .*1 \/ 4/ }).first();
    const apron = page.getByRole('checkbox', { name: /^Long apron, .*1 \/ 2/ }).first();
    await leg.check();
    await apron.check();
    await page.reload();
    await isReady(page);
    expect(await leg.isChecked()).toBe(true);
    expect(await apron.isChecked()).toBe(true);
    await choose(page, 'Length of the top', '96');
    expect(await leg.isChecked()).toBe(true);
    expect(await apron.isChecked()).toBe(false);
  });

  it('it is printed without what is for the screen, at the size that was chosen', async () => {
    const { page } = await opens();
    await page.goto(write('printed.html', pageFor(plan()).page));
    await isReady(page);
    await choose(page, 'Length of the top', '96');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.guide-panel').isVisible()).toBe(false);
    expect(await page.locator('.guide-tick').first().isVisible()).toBe(false);
    expect(await page.locator('[data-section="cover"]').textContent()).toContain('96 in');
  });

  it('a saved workbook opens in Kerfbook at the size that was chosen', async () => {
    const { page } = await opens();
    await page.goto(write('saved.html', pageFor(plan()).page));
    await isReady(page);
    await choose(page, 'Length of the top', '96');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the workbook' }).click(),
    ]);
    const loaded = loadText(readFileSync(await download.path(), 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    const value = Workbook.open(loaded.document).named('top_length')?.value;
    expect(value).toEqual({ kind: 'number', number: 96 });
  });

  it('a second language is shown as far as there are words for it', async () => {
    const { page } = await opens();
    await page.goto(write('second.html', pageFor(plan()).page));
    await isReady(page);
    await settled(page, () => page.getByLabel('Language').selectOption('de'));
    expect(await page.getByRole('heading', { name: 'Zuschnittliste' }).count()).toBe(1);
    expect(await page.getByRole('heading', { name: 'Ihr Maß' }).count()).toBe(1);
    expect(await page.locator('html').getAttribute('lang')).toBe('de');
    await choose(page, 'Länge der Platte', '96');
    expect(await page.locator('[data-section="cover"]').textContent()).toContain('96 in');
    // What is read aloud of a size is said in it too.
    expect(await page.locator('[data-section="cover"] .kb-aloud').allTextContents()).toContain(
      '96 Zoll',
    );
    expect(await page.locator('.kb-figure text', { hasText: 'Lange Zarge' }).count()).not.toBe(0);
    expect(await page.locator('#guide-program').textContent()).toContain(
      'Der Plan steht unter einer eigenen Lizenz: CC-BY-SA-4.0.',
    );
    // What is left in the first one says so, so that it is read aloud in its own language.
    const langOf = (words: string) =>
      page.evaluate((text) => {
        const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
          const isShown = !/^(?:SCRIPT|STYLE)$/.test(node.parentElement?.tagName ?? '');
          if (!isShown || !node.textContent?.includes(text)) continue;
          return node.parentElement?.closest('[lang]')?.getAttribute('lang');
        }
        return undefined;
      }, words);
    expect(await langOf('Drucken')).toBe('de');
    expect(await langOf('Copy the link to this size')).toBe('en');
    expect(await langOf('Width of the top')).toBe('en');
    expect(await langOf('The program in this page')).toBe('en');
    const named = page.locator('.guide-cuts th', { hasText: 'Lange Zarge' });
    expect([await named.count(), await named.locator('[lang]').count()]).toEqual([1, 0]);
    await settled(page, () => page.getByLabel('Language').selectOption('en'));
    expect(await page.locator('#guide-program').textContent()).toContain(
      'The plan is under a license of its own',
    );
    expect(await page.locator('[lang="de"]:not(option)').count()).toBe(0);
  });
});

describe('a link to a size', () => {
  it('opens at it, refuses what is outside a range in one sentence and takes the rest', async () => {
    const document = plan();
    const { page, complaints } = await opens();
    const address = write('linked.html', pageFor(document).page);
    await page.goto(`${address}#top_length=96&species=white+oak&top_width=900&wheels=4`);
    await isReady(page);
    await expect.poll(() => rests(page)).toBeGreaterThan(0);
    const says = atSize(document, { top_width: '900' }).named('top_width')?.problem?.says ?? 'none';
    const refused = page.getByRole('alert').filter({ hasText: 'this was not taken' });
    expect(await refused.getByRole('listitem').allTextContents()).toEqual([
      `Width of the top: ${says}`,
      'This plan has nothing called “wheels” that can be changed.',
    ]);
    const book = atSize(document, { top_length: '96', species: 'white oak' });
    expect(numbersOf(await shown(page))).toEqual(numbersOf(await wanted(page, book)));
    expect(complaints).toEqual([]);
  });

  it('is copied from the page, and leads back to the same size in the same units', async () => {
    const document = plan();
    const { page } = await opens();
    const address = write('copied.html', pageFor(document).page);
    await page.goto(address);
    await isReady(page);
    await settled(page, () => page.getByLabel('Units').selectOption('metric'));
    await choose(page, 'Length of the top', '2400');
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', { value: undefined });
    });
    await page.getByRole('button', { name: 'Copy the link to this size' }).click();
    const link = await page.getByLabel('Copy this link:').inputValue();
    expect(link.startsWith(`${address}#top_length=2400&`)).toBe(true);
    const before = numbersOf(await shown(page));
    const { page: other } = await opens();
    await other.goto(link);
    await isReady(other);
    await expect.poll(() => rests(other)).toBeGreaterThan(0);
    expect(numbersOf(await shown(other))).toEqual(before);
  });
});

describe('wherever it is put', () => {
  it('in a frame that lets scripts run and nothing else, it works and says that nothing is kept', async () => {
    const { page, complaints } = await opens();
    write('framed.html', pageFor(plan()).page);
    const frame =
      '<!doctype html><title>A shop</title><iframe title="plan" sandbox="allow-scripts" src="framed.html" width="390" height="800"></iframe>';
    await page.goto(write('frame.html', frame));
    const inside = page.frameLocator('iframe');
    await inside.locator('html[data-ready]').waitFor({ state: 'attached' });
    expect(await inside.locator('.guide-keeps').textContent()).toContain('keeps nothing');
    const field = inside.getByLabel('Length of the top', { exact: true });
    await field.fill('96');
    await field.press('Enter');
    const cover = inside.locator('[data-section="cover"] dd').first();
    await expect.poll(() => cover.textContent()).toContain('96 in');
    await inside
      .getByRole('checkbox', { name: /^Leg, .*1 \/ 4/ })
      .first()
      .check();
    expect(complaints).toEqual([]);
  });

  it('in files of its own, on a host that forbids script and styles within a page', async () => {
    const made = pageFor(plan(), { split: { script: 'plan.js', styles: 'plan.css' } });
    const server = await serveUnder("default-src 'self'", {
      'plan.html': made.page,
      ...made.files,
    });
    try {
      const { page, complaints, asked } = await opens();
      await page.goto(`${server.address}/plan.html`);
      await isReady(page);
      await choose(page, 'Length of the top', '96');
      expect(await page.locator('[data-section="cover"]').textContent()).toContain('96 in');
      const colour = await page.locator('h1').evaluate((one) => getComputedStyle(one).color);
      expect(colour).toBe('rgb(107, 68, 38)');
      expect(complaints).toEqual([]);
      const names = asked
        .map((one) => new URL(one).pathname)
        .filter((one) => !one.endsWith('.ico'));
      expect(names).toEqual(['/plan.html', '/plan.css', '/plan.js']);
    } finally {
      server.close();
    }
  });

  it('without script the whole plan is there at the size of its maker, and one sentence says so', async () => {
    const document = plan();
    const { page } = await opens({ javaScriptEnabled: false });
    await page.goto(write('old.html', pageFor(document).page));
    expect(await page.locator('#guide-no-script').isVisible()).toBe(true);
    expect(await page.locator('#guide-no-script').textContent()).toMatch(/size of its maker/);
    const ids = guideSections(Workbook.open(document)).map(({ id }) => id);
    expect(await page.locator('#guide-pages > [data-section]').count()).toBe(ids.length);
  });
});

describe('hostile words', () => {
  it('in a title, a step, a choice and a link stand there as words, and no script runs', async () => {
    const evil = '</script><img src=x onerror="window.hurt=1"><script>window.hurt=1</script>';
    const hostile = plan({ before: evil, after: evil, credits: evil });
    const steps = hostile.sheets.find(({ id }) => id === 'xsteps');
    const rows = (steps?.rows ?? []).map((row, i) =>
      i === 0 ? row : { ...row, cells: { ...row.cells, c0: { value: evil }, c1: { value: evil } } },
    );
    const sheets = hostile.sheets.map((one) => (one.id === 'xsteps' ? { ...one, rows } : one));
    const document = { ...hostile, title: evil, author: evil, sheets };
    const { page, asked } = await opens();
    const address = write('hostile.html', pageFor(document).page);
    await page.goto(`${address}#${encodeURIComponent(evil)}=1&species=${encodeURIComponent(evil)}`);
    await isReady(page);
    await choose(page, 'Length of the top', '96');
    expect(await page.evaluate(() => Reflect.get(window, 'hurt'))).toBeUndefined();
    expect(await page.locator('h1').textContent()).toBe(evil);
    expect(await page.locator('img').count()).toBe(0);
    expect(asked).toEqual([]);
  });
});

describe('hands and eyes', () => {
  it.each([
    ['light', PHONE],
    ['dark', { width: 1024, height: 768 }],
  ] as const)('axe finds nothing, %s', async (colorScheme, viewport) => {
    const { page } = await opens({ colorScheme, viewport, bypassCSP: true });
    await page.goto(write(`axe-${colorScheme}.html`, pageFor(plan()).page));
    await isReady(page);
    expect(await violations(page)).toEqual([]);
    const field = page.getByLabel('Length of the top', { exact: true });
    await field.fill('400');
    await field.press('Enter');
    expect(await violations(page)).toEqual([]);
  });

  it('all that is pressed is 44 px high', async () => {
    const { page } = await opens();
    await page.goto(write('fingers.html', pageFor(plan()).page));
    await isReady(page);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, input, select, .guide-panel a')]
        .filter((one) => one.getClientRects().length > 0)
        .map((one) => ({
          name: one.id || one.className || one.textContent,
          high: one.getBoundingClientRect().height,
        }))
        .filter(({ high }) => high < 44),
    );
    expect(small).toEqual([]);
  });

  it('keys alone change a size, tick a piece and come to every button', async () => {
    const { page } = await opens();
    await page.goto(write('keys.html', pageFor(plan()).page));
    await isReady(page);
    const reached: string[] = [];
    for (let i = 0; i < 40; i += 1) {
      await page.keyboard.press('Tab');
      const name = await page.evaluate(() => {
        const one = document.activeElement as HTMLElement | null;
        return one?.getAttribute('aria-label') ?? one?.id ?? '';
      });
      reached.push(name);
      if (name === 'guide-input-top_length') {
        await settled(page, async () => {
          await page.keyboard.press('ControlOrMeta+A');
          await page.keyboard.type('96');
          await page.keyboard.press('Enter');
        });
      }
      if (name.startsWith('Leg, ')) break;
    }
    await page.keyboard.press('Space');
    expect(reached.some((name) => name.includes('slide to change'))).toBe(true);
    expect(await page.locator('[data-section="cover"]').textContent()).toContain('96 in');
    expect(await page.locator('.guide-tick:checked').count()).toBe(1);
  });
});

describe('each template', () => {
  it.each(readdirSync(TEMPLATES).filter((name) => name.endsWith('.json')))(
    'the page of %s has all of the program that it needs, at the ends of its first range too',
    async (file) => {
      const document = templateOf(file.replace('.json', ''));
      const { page, complaints } = await opens();
      await page.goto(write(`all-${file}.html`, pageFor(document).page));
      await isReady(page);
      const slider = page.locator('.guide-slider:not([hidden])').first();
      // A page is looked at from one place, whatever its size: names around a drawing stand in the order of that.
      const eye = chooseEye(buildScene(readParts(Workbook.open(document)).parts));
      const ends = await slider.count().then((count) => (count > 0 ? ['min', 'max'] : []));
      for (const end of ends) {
        await settled(page, () =>
          slider.evaluate((one: HTMLInputElement, which) => {
            one.value = one.getAttribute(which) ?? '';
            one.dispatchEvent(new Event('change', { bubbles: true }));
          }, end),
        );
        // The same workbook, worked out by the engine of the app.
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          page.getByRole('button', { name: 'Save the workbook' }).click(),
        ]);
        const loaded = loadText(readFileSync(await download.path(), 'utf8'));
        if (!loaded.ok) throw new Error(loaded.says);
        // Nothing is left in it that would have to be kept from readers.
        expect(checksKept(loaded.document)).toEqual([]);
        const all = numbersOf(await wanted(page, Workbook.open(loaded.document), false, eye));
        expect(numbersOf(await shown(page))).toEqual(all);
      }
      await page.locator('html[data-drawn]').waitFor({ state: 'attached' });
      expect(complaints).toEqual([]);
    },
  );
});

it('the page of the dining table, with its own steps, weighs no more than it may', () => {
  const { page } = pageFor(templateOf('dining-table'));
  // What a joint means is told to whoever writes a workbook.
  expect(page.includes('The end of the part is a tenon, as long as')).toBe(false);
  // So is where the figures of woods were read.
  expect(page.includes('"source":"Wood Handbook')).toBe(false);
  const size = compressed(page);
  expect(size.brotli).toBeLessThanOrEqual(MOST_PAGE.brotli);
  expect(size.gzip).toBeLessThanOrEqual(MOST_PAGE.gzip);
});

/** A host that sends files under a policy of its own. */
async function serveUnder(policy: string, files: Readonly<Record<string, string>>) {
  const TYPES: Readonly<Record<string, string>> = {
    html: 'text/html; charset=utf-8',
    css: 'text/css; charset=utf-8',
    js: 'text/javascript; charset=utf-8',
  };
  const server: Server = createServer((request, response) => {
    const name = (request.url ?? '').replace(/^\//, '');
    const text = files[name];
    response.statusCode = text === undefined ? 404 : 200;
    response.setHeader('content-security-policy', policy);
    response.setHeader('content-type', TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain');
    response.end(text ?? '');
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return { address: `http://127.0.0.1:${port}`, close: () => server.close() };
}
