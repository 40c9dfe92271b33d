import { readdirSync, readFileSync } from 'node:fs';
import { guidePage, PAPERS, type Paper } from '@kerfbook/guide';
import { loadText, Workbook } from '@kerfbook/workbook';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from '../scripts/chromium.mjs';
import { type PrintedPage, printed } from './support/pdf.ts';

/** The plan that others build from, printed by Chromium and read back by a PDF library. */

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

function opened(name: string): Workbook {
  const loaded = loadText(
    readFileSync(new URL(`../../templates/${name}.json`, import.meta.url), 'utf8'),
  );
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const font = (weight: number): string =>
  readFileSync(
    new URL(
      import.meta.resolve(
        `@fontsource/source-sans-3/files/source-sans-3-latin-${weight}-normal.woff2`,
      ),
    ),
  ).toString('base64');
const fonts = { regular: font(400), bold: font(600) };

async function shown(book: Workbook, paper: Paper): Promise<Page> {
  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('request', (request) => {
    if (!/^(?:data|about):/.test(request.url())) complaints.push(request.url());
  });
  await page.setContent(guidePage(book, { paper, fonts }), { waitUntil: 'load' });
  await page.evaluate(() => document.fonts.ready);
  expect(complaints).toEqual([]);
  return page;
}

/** Margins of a page, mm, as `@page` has them; in the lower one stands the page's number. */
const MARGIN = 14;
const FOOT = 16;

const SIZES = { a4: [210, 297], letter: [215.9, 279.4] } as const;

/**
 * What is so of every page of a guide.
 * @returns how far down each page but the last is filled, 0 to 1
 */
function holdGuide(pages: readonly PrintedPage[], paper: Paper): readonly number[] {
  const [wide, high] = SIZES[paper];
  const fills: number[] = [];
  for (const [i, page] of pages.entries()) {
    const where = `page ${i + 1} of ${pages.length}`;
    expect(page.width, where).toBeCloseTo(wide, 0);
    expect(page.height, where).toBeCloseTo(high, 0);
    const small = page.words.filter(({ size }) => size < 8.95);
    expect(
      small.map(({ text, size }) => `${size}: ${text}`),
      where,
    ).toEqual([]);
    const outside = page.words.filter(
      ({ x, width }) => x < MARGIN - 0.5 || x + width > page.width - MARGIN + 0.5,
    );
    expect(
      outside.map(({ text }) => text),
      where,
    ).toEqual([]);
    expect(page.text, where).toContain(`${i + 1} / ${pages.length}`);
    // The head of a table has a row under it.
    expect(page.text.replace(/\s*\d+ \/ \d+\s*$/, ''), where).not.toMatch(
      /(?:Of the piece\s+Gives|Wood\s+Note)$/,
    );
    if (i === pages.length - 1) continue;
    const lowest = Math.min(...page.words.map(({ y }) => y).filter((y) => y > FOOT));
    const filled = (page.height - MARGIN - lowest) / (page.height - MARGIN - FOOT);
    expect(filled, `${where} is nearly empty: ${page.text.slice(0, 80)}`).toBeGreaterThan(1 / 3);
    fills.push(filled);
  }
  return fills;
}

/**
 * Puts a sign at the title of each step, at the beginning and the end of its figure and at its first paragraph: so small
 * that nothing moves, and found again in what is printed.
 */
async function withSigns(page: Page): Promise<number> {
  return page.evaluate(() => {
    let figures = 0;
    const sign = (at: Element | null, where: InsertPosition, text: string): void => {
      const mark = document.createElement('span');
      mark.textContent = text;
      mark.style.fontSize = '1px';
      mark.style.position = 'absolute';
      at?.insertAdjacentElement(where, mark);
    };
    for (const [i, step] of [...document.querySelectorAll('.guide-step')].entries()) {
      sign(step.querySelector('h2'), 'afterbegin', `@T${i}@`);
      const svg = step.querySelector<SVGSVGElement>('.guide-figure > svg');
      if (svg !== null) {
        figures += 1;
        const { x, y, width, height } = svg.viewBox.baseVal;
        for (const [name, down] of [
          ['A', y + 2],
          ['B', y + height - 1],
        ] as const) {
          const mark = document.createElementNS('http://www.w3.org/2000/svg', 'text');
          mark.setAttribute('x', String(x + width / 2));
          mark.setAttribute('y', String(down));
          mark.setAttribute('font-size', '1');
          mark.textContent = `@${name}${i}@`;
          svg.append(mark);
        }
      }
      sign(step.querySelector('.guide-step-top > p'), 'afterbegin', `@P${i}@`);
    }
    return figures;
  });
}

/** Steps whose title, figure and first paragraph do not stand on one page. */
function parted(pages: readonly PrintedPage[]): string[] {
  const found = new Map<string, Set<number>>();
  for (const [number, { text }] of pages.entries()) {
    for (const [, step = ''] of text.matchAll(/@[TABP](\d+)@/g)) {
      const on = found.get(step) ?? new Set();
      found.set(step, on.add(number + 1));
    }
  }
  return [...found].flatMap(([step, on]) =>
    on.size === 1 ? [] : [`step ${Number(step) + 1} stands on the pages ${[...on].join(', ')}`],
  );
}

const TEMPLATES = readdirSync(new URL('../../templates/', import.meta.url))
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length))
  .sort();

const DRAWN = [
  ['as it is', {}],
  ['long', { top_length: '120' }],
  ['oval with tenons', { top_shape: 'oval', tenon_length: '1.25' }],
] as const;

describe.each(PAPERS)('the plan of a dining table on %s', (paper) => {
  it.each(DRAWN)('%s: fills its pages and parts no figure from its step', async (_, entries) => {
    const book = opened('dining-table');
    for (const [name, text] of Object.entries(entries)) {
      const at = book.named(name)?.at;
      if (at === undefined) continue;
      const { sheet, row, column } = at;
      expect(book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] }).ok).toBe(true);
    }
    const page = await shown(book, paper);
    const pages = await printed(page);
    holdGuide(pages, paper);
    const figures = await withSigns(page);
    expect(figures).toBeGreaterThan(5);
    const signed = await printed(page);
    expect(signed).toHaveLength(pages.length);
    const seen = signed.flatMap(({ text }) => text.match(/@[AB]\d+@/g) ?? []);
    expect(new Set(seen).size).toBe(2 * figures);
    expect(parted(signed)).toEqual([]);
    await page.close();
  });

  it('in millimeters', async () => {
    const book = opened('dining-table');
    expect(book.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    const page = await shown(book, paper);
    holdGuide(await printed(page), paper);
    await withSigns(page);
    expect(parted(await printed(page))).toEqual([]);
    await page.close();
  });
});

describe('a plan on paper', () => {
  /** How far pages are filled, of all plans that were looked at. */
  const fills: number[] = [];

  it.each(TEMPLATES)('of a %s fills its pages', async (name) => {
    const page = await shown(opened(name), 'a4');
    fills.push(...holdGuide(await printed(page), 'a4'));
    await page.close();
  });

  it.each(['bookcase', 'cabinet-door'])(
    'of a %s has no page for what is said of the plan itself',
    async (name) => {
      const page = await shown(opened(name), 'letter');
      const last = (await printed(page)).at(-1)?.text;
      expect(last).toContain('About this plan');
      expect(last).toContain('Care of it');
      await page.close();
    },
  );

  it('keeps the cuts of a sheet with their head', async () => {
    const book = opened('plywood-cabinet');
    for (const [name, text] of Object.entries({ case_width: '9', case_height: '12' })) {
      const at = book.named(name)?.at;
      if (at === undefined) throw new Error(`no cell ${name}`);
      const { sheet, row, column } = at;
      book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    }
    const page = await shown(book, 'letter');
    holdGuide(await printed(page), 'letter');
    await page.close();
  });

  it('leaves hardly any page half empty', () => {
    // Where a figure and what stands beside it take over half a page, the page before may end early.
    expect(fills.length).toBeGreaterThan(150);
    expect(fills.filter((filled) => filled < 1 / 2).length / fills.length).toBeLessThan(0.03);
  });

  it('would part figures from their steps if it were let', async () => {
    const page = await shown(opened('dining-table'), 'a4');
    await page.addStyleTag({
      content:
        '@media print { .guide * { break-inside: auto !important; break-after: auto !important; } }',
    });
    await withSigns(page);
    expect(parted(await printed(page))).not.toEqual([]);
    await page.close();
  });

  it.each([
    ['a row or two of a cut list', 'cut-list', '.guide-cuts tbody th', 3],
    ['a line of what is said before one starts', 'cautions', '.guide-cautions-list li', 2],
  ])('leaves not %s alone on a page', async (_, section, item, least) => {
    const page = await shown(opened('desk'), 'a4');
    const count = await page.evaluate(
      ([kept, one]) => {
        for (const other of document.querySelectorAll(`.guide-section:not(.guide-${kept})`)) {
          other.remove();
        }
        const all = [...document.querySelectorAll(one)];
        for (const [i, each] of all.entries()) each.prepend(`<${i}> `);
        const above = document.createElement('div');
        above.id = 'above';
        document.querySelector(`.guide-${kept}`)?.before(above);
        return all.length;
      },
      [section, item] as const,
    );
    expect(count).toBeGreaterThanOrEqual(2 * least);
    const byPage: number[][] = [];
    for (let height = 0; height < 264; height += 8) {
      await page.evaluate((mm) => {
        const above = document.getElementById('above');
        if (above !== null) above.style.blockSize = `${mm}mm`;
      }, height);
      const found = (await printed(page)).map(({ text }) => (text.match(/<\d+>/g) ?? []).length);
      byPage.push(found.filter((some) => some > 0));
    }
    expect(byPage.some(({ length }) => length > 1)).toBe(true);
    expect(byPage.filter((some) => Math.min(...some) < least)).toEqual([]);
    await page.close();
  });

  it('repeats the head of a long cut list, and parts no line of it', async () => {
    const book = opened('bookcase');
    const page = await shown(book, 'a4');
    await page.evaluate(() => {
      const body = document.querySelector('.guide-cuts tbody');
      document.querySelector('.guide-cuts')?.classList.remove('guide-together');
      const row = body?.querySelector('tr');
      for (let i = 0; i < 90; i += 1) {
        const copy = row?.cloneNode(true) as HTMLElement;
        const [name, note] = [copy.querySelector('th'), copy.querySelector('td:last-child')];
        if (name !== null) name.textContent = `<${i}`;
        if (note !== null) note.innerHTML = `first<br>second<br>last${i}>`;
        body?.append(copy);
      }
    });
    const pages = await printed(page);
    const lists = pages.filter(({ text }) => /<\d+/.test(text));
    expect(lists.length).toBeGreaterThan(2);
    for (const { text } of lists) {
      expect(text).toMatch(/Part +Count/);
      const [begun, ended] = [text.match(/<\d+/g) ?? [], text.match(/last\d+>/g) ?? []];
      expect(begun.map((one) => one.slice(1))).toEqual(ended.map((one) => one.slice(4, -1)));
    }
    await page.close();
  });
});
