import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BUILT } from '../scripts/chromium.mjs';
import {
  compressedSize,
  firstScripts,
  MOST_SCRIPT,
  NOTE_GRID,
  scriptsBeforeGrid,
} from '../scripts/first-load.mjs';
import { type App, complaintsOf, HIGH, startApp, withoutWorker } from './support/app.ts';
import { Maker, words } from './support/maker.ts';

/** What the first sheet needs, and what a maker can do before the rest has come. */

/** Two rows from here on, the first sheet has nothing in its second column. */
const FREE = 33;

/** A sentence that stands in that library and nowhere else. */
const OF_HYPERFORMULA = 'Value of the formula cell is not computed.';
/** A formula that is not compiled, with what it comes to. */
const LEFT = { formula: '=IMABS("3+4i")', shows: '5' };
const LEFT_FILE = /\/hyperformula-[^/]*\.js$/;
/** Texts of the templates that ship. */
const TEMPLATE_FILES = /\/assets\/[^/]*\.json$/;

let app: App;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** A page whose later scripts are held back until they are let go. */
async function held(address = 'about:blank') {
  const first = new Set(firstScripts(BUILT));
  const context = await app.browser.newContext({ viewport: HIGH });
  // What it has kept would be handed out by the worker, past what is held here.
  await withoutWorker(context);
  const page = await context.newPage();
  const complaints = complaintsOf(page);
  let letGo = (): void => undefined;
  let gate = Promise.resolve();
  const asked: string[] = [];
  await page.route(/\.js$/, async (route) => {
    const file = new URL(route.request().url()).pathname.slice(1);
    if (!first.has(file)) {
      asked.push(file);
      await gate;
    }
    await route.continue();
  });
  const hold = (): void => {
    asked.length = 0;
    gate = new Promise<void>((resolve) => {
      letGo = resolve;
    });
  };
  hold();
  await page.goto(address);
  return { page, maker: new Maker(page), complaints, asked, hold, letGo: () => letGo() };
}

const press = (page: Page, ...keys: readonly string[]): Promise<void> =>
  keys.reduce((before, key) => before.then(() => page.keyboard.press(key)), Promise.resolve());

describe('the script of a first load', () => {
  it('comes to at most 550 kB compressed', () => {
    const size = compressedSize(BUILT, firstScripts(BUILT));
    expect(
      size,
      `The first sheet waits for ${Math.ceil(size / 1000)} kB of script, ${MOST_SCRIPT / 1000} are the most. What was added is not needed for the first sheet as a rule: import it with afterGridModule (apps/grid/src/page/after-grid.ts).`,
    ).toBeLessThanOrEqual(MOST_SCRIPT);
  });

  it('is without HyperFormula, which comes when the grid is there', () => {
    const first = firstScripts(BUILT);
    const scripts = readdirSync(join(BUILT, 'assets')).filter((file) => file.endsWith('.js'));
    const holding = scripts
      .filter((file) => readFileSync(join(BUILT, 'assets', file), 'utf8').includes(OF_HYPERFORMULA))
      .map((file) => `assets/${file}`);
    // A worker brings its own, and only where a card is to be drawn, a study worked out or a file of another program read.
    const workers = scripts.filter((file) => /^(?:card|study|office)-worker-/.test(file));
    expect(workers).toHaveLength(3);
    const theirs = workers.map((file) => readFileSync(join(BUILT, 'assets', file), 'utf8')).join();
    const ofPage = holding
      .map((file) => file.replace('assets/', ''))
      .filter((file) => !workers.includes(file) && !theirs.includes(file));
    expect(ofPage).toHaveLength(1);
    expect(first.filter((file) => holding.includes(file))).toEqual([]);
  });

  it('is all that is asked for before the grid is there', async () => {
    const context = await app.browser.newContext({ viewport: HIGH });
    const page = await context.newPage();
    await page.addInitScript(NOTE_GRID);
    await page.goto(app.address);
    const before = await scriptsBeforeGrid(page);
    expect(before.map(({ file }) => file)).toEqual(firstScripts(BUILT));
    await context.close();
  });
});

describe('before the rest has come', () => {
  it('cells are written, worked out, undone, copied and filled', async () => {
    const { page, maker, complaints, letGo } = await held(app.address);
    await maker.ready();
    await maker.type('top_length', '96');
    expect(await maker.shows('top_length')).toContain('96');
    await press(page, 'Control+z');
    expect(await maker.shows('top_length')).toContain('84');
    const free = (row: number) => maker.cellAt({ sheet: '', row, column: 1 });
    await free(FREE).click();
    await page.keyboard.type('=SUM(1,top_length)');
    await press(page, 'Enter');
    await expect.poll(() => words(free(FREE))).toContain('85');
    await free(FREE).click();
    await press(page, 'Shift+ArrowDown', 'Control+d');
    await expect.poll(() => words(free(FREE + 1))).toContain('85');
    letGo();
    await maker.thisCell.getByText('=SUM(1').first().waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('what is opened by key, pointer or button opens as soon as it is there', async () => {
    const { page, maker, complaints, letGo, asked } = await held(app.address);
    await maker.ready();
    await maker.go('top_length');
    await press(page, 'Shift+F10');
    await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
    await expect.poll(() => asked.some((file) => /menu-/.test(file))).toBe(true);
    expect(await page.getByRole('menu').count()).toBe(0);
    letGo();
    await page.getByRole('menu', { name: 'Sheet Brief' }).waitFor();
    await press(page, 'Escape');
    await maker.go('top_length');
    await press(page, 'Shift+F10');
    await page.getByRole('menuitem', { name: 'Copy', exact: true }).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it.each([
    ['the menu', 'Shift+F10', 'menu'],
    ['finding', 'Control+f', 'dialog'],
  ] as const)('%s asked for with its key comes and has the focus', async (_, key, role) => {
    const { page, maker, complaints, letGo } = await held(app.address);
    await maker.ready();
    await maker.go('top_length');
    await press(page, key);
    letGo();
    await page.getByRole(role).waitFor();
    await expect
      .poll(() =>
        page.evaluate(
          (one) => document.activeElement?.closest(one) !== null,
          `[role=menu], dialog`,
        ),
      )
      .toBe(true);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('G07 F6 goes round, through what stands beside the grid too', async () => {
    const { page, maker, letGo } = await held(app.address);
    await maker.ready();
    await maker.go('top_length');
    const where = () =>
      page.evaluate(
        () =>
          [
            '.sheet-grid',
            '.formula-line',
            '.drawing-pane',
            '.beside',
            '.top-line',
            '.sheets-side',
          ].find((one) => document.activeElement?.closest(one)) ?? document.activeElement?.tagName,
      );
    for (const region of [
      '.formula-line',
      '.drawing-pane',
      '.beside',
      '.top-line',
      '.sheets-side',
      '.sheet-grid',
    ]) {
      await press(page, 'F6');
      expect(await where()).toBe(region);
    }
    letGo();
    await page.context().close();
  });

  it('completion joins in while a formula is being written', async () => {
    const { page, maker, letGo } = await held(app.address);
    await maker.ready();
    await maker.cellAt({ sheet: '', row: FREE, column: 1 }).click();
    await page.keyboard.type('=SUMPRO');
    letGo();
    await page.getByRole('option', { name: /^SUMPRODUCT/ }).waitFor();
    await press(page, 'Tab');
    expect(await maker.editorText()).toBe('=SUMPRODUCT()');
    await page.context().close();
  });

  it('says that the drawing is being loaded where it takes long, and then shows it', async () => {
    const { page, maker, complaints, letGo } = await held(app.address);
    await maker.ready();
    const says = page.getByText('Loading the drawing …');
    await says.waitFor({ state: 'visible' });
    expect(await page.locator('.kb-piece').count()).toBe(0);
    letGo();
    await page.locator('.drawing-pane .kb-piece').first().waitFor();
    expect(await says.count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('a formula that needs what is on its way says so, and comes to its value by itself', async () => {
    const { page, maker, complaints, asked, hold, letGo } = await held(app.address);
    await maker.ready();
    const cells = [FREE, FREE + 1].map((row) => maker.cellAt({ sheet: '', row, column: 1 }));
    await cells[0]?.click();
    for (const formula of ['=TEXT(1234.5,"#,##0.00")', LEFT.formula]) {
      await page.keyboard.type(formula);
      await press(page, 'Enter');
    }
    const shown = () => Promise.all(cells.map((cell) => words(cell)));
    await expect.poll(shown).toEqual([...cells].map(() => expect.stringContaining('#ERROR!')));
    const values = ['1,234.50', LEFT.shows];
    letGo();
    await expect.poll(shown).toEqual(values);
    await maker.untilSaved();

    // A workbook that uses them is not shown before they are there.
    hold();
    await page.reload();
    await expect.poll(() => asked.length).toBeGreaterThan(0);
    expect(await page.locator('.ag-cell').count()).toBe(0);
    letGo();
    await maker.ready();
    expect(await shown()).toEqual(values);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('a workbook with a formula that is not compiled is shown with its value, edited and kept', async () => {
    const { page, maker, complaints, asked, hold, letGo } = await held(app.address);
    letGo();
    await maker.ready();
    const cell = maker.cellAt({ sheet: '', row: FREE, column: 1 });
    await cell.click();
    await page.keyboard.type(`${LEFT.formula}+top_length`);
    await press(page, 'Enter');
    await expect.poll(() => words(cell)).toBe('89');
    await maker.untilSaved();
    hold();
    await page.reload();
    await expect.poll(() => asked.some((file) => LEFT_FILE.test(`/${file}`))).toBe(true);
    expect(await page.locator('.ag-cell').count()).toBe(0);
    letGo();
    await maker.ready();
    expect(await words(cell)).toBe('89');
    await maker.type('top_length', '96');
    await expect.poll(() => words(cell)).toBe('101');
    await press(page, 'Control+z');
    await expect.poll(() => words(cell)).toBe('89');
    await cell.click();
    await press(page, 'Delete');
    await expect.poll(() => words(cell)).toBe('');
    await press(page, 'Control+z');
    await expect.poll(() => words(cell)).toBe('89');
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await words(cell)).toBe('89');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('where the network goes while the app is loading', () => {
  const lost = async (what: RegExp) => {
    // The worker would hand out on a second start what it has kept past the route.
    const context = await app.browser.newContext({
      viewport: HIGH,
      serviceWorkers: 'block',
    });
    const page = await context.newPage();
    await page.route(what, (route) => route.abort());
    await page.goto(app.address);
    return page;
  };

  it('a start without any template says so instead of showing nothing', async () => {
    const page = await lost(TEMPLATE_FILES);
    expect(await words(page.getByRole('alert'))).toMatch(/could not be started.*connection/);
    await page.unroute(TEMPLATE_FILES);
    await page.reload();
    await new Maker(page).ready();
    await page.context().close();
  });

  it('a start without the first template opens the next one, and says that it did not come', async () => {
    const page = await lost(/dining-table[^/]*\.json$/);
    await page.locator('.top-title', { hasText: 'Bench' }).waitFor();
    await page.getByText('The template could not be read').waitFor();
    expect(await page.locator('.ag-cell', { hasText: 'Length of the seat' }).count()).toBe(1);
    await page.context().close();
  });

  it('a formula that needs what does not arrive says so, and comes to its value when it does', async () => {
    const page = await lost(LEFT_FILE);
    const maker = new Maker(page);
    await maker.ready();
    const cell = maker.cellAt({ sheet: '', row: FREE, column: 1 });
    await cell.click();
    await page.keyboard.type(LEFT.formula);
    await press(page, 'Enter');
    await expect.poll(() => words(cell)).toContain('#ERROR!');
    await cell.click();
    await maker.thisCell
      .getByText(/still loading/)
      .first()
      .waitFor();
    await maker.untilSaved();
    // Opened without it, the workbook is there, and the cell says so again.
    await page.reload();
    await maker.ready();
    expect(await words(cell)).toContain('#ERROR!');
    await maker.type('top_length', '96');
    expect(await maker.shows('top_length')).toContain('96');
    await page.unroute(LEFT_FILE);
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await expect.poll(() => words(cell)).toBe(LEFT.shows);
    await page.context().close();
  });

  it('a part that does not arrive leaves the cells and says so in its place', async () => {
    const page = await lost(/\/(?:menu|beside-body)-[^/]*\.js$/);
    const maker = new Maker(page);
    await maker.ready();
    const side = page.getByRole('complementary', { name: 'Beside the grid' });
    await side.getByText('This part of Kerfbook did not load.').waitFor();
    await maker.go('top_length');
    await press(page, 'Shift+F10');
    await page.getByRole('main').getByText('This part of Kerfbook did not load.').waitFor();
    await maker.type('top_length', '96');
    expect(await maker.shows('top_length')).toContain('96');
    await page.context().close();
  });
});
