import { createServer, type Server } from 'node:http';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, HIGH, startApp } from './support/app.ts';
import { command, Maker, words } from './support/maker.ts';

/** The clipboard between tabs of one browser, and what a page from elsewhere leaves on it. */

const MOD = 'ControlOrMeta';
/** Rows below what the first sheet uses: nothing there depends on anything. */
const FREE = 33;
const CELLS = 'application/x-kerfbook-cells';

let app: App;
let elsewhere: Server;
let strange = '';

beforeAll(async () => {
  app = await startApp();
  // A page that puts on the clipboard whatever its address asks for, and shows what is pasted.
  elsewhere = createServer((_, response) => {
    response.writeHead(200, { 'Content-Type': 'text/html' });
    response.end(`<!doctype html><title>Elsewhere</title><p tabindex="0">Copy this</p><script>
      addEventListener('copy', (event) => {
        event.preventDefault();
        const parts = JSON.parse(decodeURIComponent(location.hash.slice(1)));
        for (const [type, text] of Object.entries(parts)) event.clipboardData.setData(type, text);
      });
      addEventListener('paste', (event) => {
        window.pasted = Object.fromEntries([...event.clipboardData.types].map((type) =>
          [type, event.clipboardData.getData(type)]));
      });
    </script>`);
  });
  await new Promise((done) => elsewhere.listen(0, '127.0.0.1', () => done(undefined)));
  const bound = elsewhere.address();
  strange = `http://127.0.0.1:${typeof bound === 'object' && bound !== null ? bound.port : 0}/`;
});
afterAll(async () => {
  await app.close();
  elsewhere.close();
});

interface Tab {
  readonly page: Page;
  readonly maker: Maker;
  at(row: number, column: number): ReturnType<Maker['cellAt']>;
  type(row: number, column: number, text: string): Promise<void>;
  entry(row: number, column: number): Promise<string>;
  key(key: string): Promise<void>;
}

async function tabOf(page: Page): Promise<Tab> {
  const maker = new Maker(page);
  await maker.ready();
  const at = (row: number, column: number) => maker.cellAt({ sheet: '', row, column });
  const front = () => page.bringToFront();
  return {
    page,
    maker,
    at,
    async type(row, column, text) {
      await front();
      await at(row, column).click();
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    },
    async entry(row, column) {
      await front();
      await at(row, column).click();
      return page.locator('.line-entry').inputValue();
    },
    async key(key) {
      await front();
      await page.keyboard.press(key);
    },
  };
}

/** Two tabs of one browser; the second has a workbook of its own. */
async function twoTabs(context: BrowserContext): Promise<readonly [Tab, Tab]> {
  const [first, second] = [await context.newPage(), await context.newPage()];
  await first.bringToFront();
  await first.goto(app.address);
  const one = await tabOf(first);
  await second.bringToFront();
  await second.goto(app.address);
  await second.locator('.ag-row .ag-cell').first().waitFor();
  await command(second, 'Workbooks');
  await second.getByRole('button', { name: 'New blank workbook' }).click();
  await second.getByLabel('Workbook name').press('Enter');
  await second.getByText('My workbook').first().waitFor();
  return [one, await tabOf(second)];
}

const newContext = () => app.browser.newContext({ viewport: HIGH });

async function copyElsewhere(page: Page, parts: Readonly<Record<string, string>>): Promise<void> {
  await page.bringToFront();
  await page.goto('about:blank');
  await page.goto(`${strange}#${encodeURIComponent(JSON.stringify(parts))}`);
  await page.locator('p').click();
  await page.keyboard.press(`${MOD}+c`);
}

/** What a page from elsewhere is told when a maker pastes into it. */
async function pastedElsewhere(page: Page): Promise<Record<string, string>> {
  await page.bringToFront();
  await page.goto(strange);
  await page.locator('p').click();
  await page.keyboard.press(`${MOD}+v`);
  await page.waitForFunction(() => 'pasted' in window);
  return page.evaluate(() => Reflect.get(window, 'pasted') as Record<string, string>);
}

const offerOf = (tab: Tab) => tab.page.locator('.offer');

/** Cells as a page that knows how the app keeps them would make them up. */
const forged = JSON.stringify({
  kerfbook: 'cells',
  session: 1,
  units: 'us',
  sheet: 's1',
  area: { top: 0, left: 0, bottom: 1e9, right: 1e9 },
  cut: true,
  cells: [[{ formula: '=6*7' }]],
  values: [[42]],
});

describe('between two tabs', () => {
  it('G41 formulas come along, also once the tab they were copied in is gone', async () => {
    const [one, two] = await twoTabs(await newContext());
    await one.type(FREE, 0, `=B${FREE + 1}*2`);
    await one.at(FREE, 0).click();
    await one.key(`${MOD}+c`);
    await two.at(5, 1).click();
    await two.key(`${MOD}+v`);
    await expect.poll(() => two.entry(5, 1)).toBe('=C6*2');
    await one.page.close();
    await two.at(7, 1).click();
    await two.key(`${MOD}+v`);
    await expect.poll(() => two.entry(7, 1)).toBe('=C8*2');
    expect(await offerOf(two).count()).toBe(0);
    await two.page.context().close();
  });

  it('G41 what was cut in one tab is copied into the other and stays where it was', async () => {
    const [one, two] = await twoTabs(await newContext());
    await one.type(FREE, 0, '=6*7');
    await one.at(FREE, 0).click();
    await one.key(`${MOD}+x`);
    await two.at(5, 1).click();
    await two.key(`${MOD}+v`);
    await expect.poll(() => two.entry(5, 1)).toBe('=6*7');
    expect(await one.entry(FREE, 0)).toBe('=6*7');
    await one.page.context().close();
  });

  it('values come as text where the browser keeps nothing for pages', async () => {
    const context = await newContext();
    await context.addInitScript(() => {
      const refuse = () => {
        throw new DOMException('kept from this page', 'SecurityError');
      };
      Object.defineProperty(indexedDB, 'open', { value: refuse });
    });
    const [one, two] = await twoTabs(context);
    await one.type(FREE, 0, '=6*7');
    await one.at(FREE, 0).click();
    await one.key(`${MOD}+c`);
    await one.at(FREE + 1, 0).click();
    await one.key(`${MOD}+v`);
    await expect.poll(() => one.entry(FREE + 1, 0)).toBe('=6*7');
    await two.page.bringToFront();
    await two.at(5, 1).click();
    await two.key(`${MOD}+v`);
    await expect.poll(() => two.entry(5, 1)).toBe('42');
    await context.close();
  });
});

describe('another workbook', () => {
  it('gets nothing of what was pasted into the one before, and arrived late', async () => {
    const context = await app.browser.newContext({
      viewport: HIGH,
      serviceWorkers: 'block',
    });
    let arrive = (): void => undefined;
    const late = new Promise<void>((resolve) => {
      arrive = resolve;
    });
    let asked = 0;
    await context.route(/\/assets\/pasting-/, async (route) => {
      asked += 1;
      await late;
      await route.continue();
    });
    const page = await context.newPage();
    await page.goto(app.address);
    const tab = await tabOf(page);
    await tab.type(FREE, 0, 'mine');
    await tab.at(FREE, 0).click();
    await tab.key(`${MOD}+c`);
    await tab.at(FREE + 1, 1).click();
    await tab.key(`${MOD}+v`);
    await command(page, 'Workbooks');
    await page.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').press('Enter');
    await page.getByText('My workbook').first().waitFor();
    arrive();
    await page.waitForFunction(() =>
      performance.getEntriesByType('resource').some(({ name }) => /pasting-/.test(name)),
    );
    await tab.type(2, 1, 'here');
    await tab.maker.untilSaved();
    expect(asked).toBe(1);
    await page.reload();
    await tab.maker.ready();
    expect(await tab.entry(2, 1)).toBe('here');
    expect(await page.getByText('could not be put back').count()).toBe(0);
    await context.close();
  });
});

describe('a page from elsewhere', () => {
  it('does not hold up the tab with a long table', async () => {
    const tab = await tabOf(await app.open({ viewport: HIGH }));
    await tab.at(FREE, 0).click();
    await tab.page.evaluate(() => {
      const data = new DataTransfer();
      data.setData('text/html', `<table>${'<tr><td>a<br>b'.repeat(150_000)}</table>`);
      const event = { clipboardData: data, bubbles: true, cancelable: true };
      document.activeElement?.dispatchEvent(new ClipboardEvent('paste', event));
    });
    await tab.page.locator('.refused').waitFor();
    expect(await words(tab.page.locator('.refused'))).toMatch(/^That is 150000 rows/);
    await tab.page.context().close();
  }, 120_000);

  it('is told what the cells show, and neither their formulas nor their remarks', async () => {
    const tab = await tabOf(await app.open({ viewport: HIGH }));
    await tab.type(FREE, 0, '=6*7');
    await tab.at(FREE, 0).click();
    await tab.key(`${MOD}+c`);
    const other = await tab.page.context().newPage();
    const told = await pastedElsewhere(other);
    expect(told['text/plain']).toBe('42');
    expect(told[CELLS]).toMatch(/^[0-9a-f]{32}$/);
    expect(JSON.stringify(told)).not.toContain('6*7');
    await tab.page.context().close();
  });

  it.each([CELLS, 'application/x-kerfbook-cells+json'])(
    'cannot make up cells of ours as %s',
    async (type) => {
      const tab = await tabOf(await app.open({ viewport: HIGH }));
      const complaints = complaintsOf(tab.page);
      await tab.type(FREE, 0, 'stays');
      const other = await tab.page.context().newPage();
      await copyElsewhere(other, { [type]: forged, 'text/plain': 'said\t=7*6' });
      await tab.page.bringToFront();
      await tab.at(FREE + 1, 1).click();
      await tab.key(`${MOD}+v`);
      await expect.poll(() => words(tab.at(FREE + 1, 1))).toBe('said');
      expect(await words(tab.at(FREE + 1, 2))).toBe('42');
      expect(await words(tab.at(FREE, 0))).toBe('stays');
      expect(complaints).toEqual([]);
      await tab.page.context().close();
    },
  );

  it('that was told an id moves nothing with it', async () => {
    const tab = await tabOf(await app.open({ viewport: HIGH }));
    await tab.type(FREE, 0, '=6*7');
    await tab.at(FREE, 0).click();
    await tab.key(`${MOD}+x`);
    const other = await tab.page.context().newPage();
    const { [CELLS]: id = '' } = await pastedElsewhere(other);
    await tab.key('Escape');
    await copyElsewhere(other, { [CELLS]: id, 'text/plain': 'said' });
    await tab.page.bringToFront();
    await tab.at(FREE + 1, 0).click();
    await tab.key(`${MOD}+v`);
    // They are the maker's own cells, copied.
    await expect.poll(() => tab.entry(FREE + 1, 0)).toBe('=6*7');
    expect(await tab.entry(FREE, 0)).toBe('=6*7');
    await tab.page.context().close();
  });

  it('G48 Y28 formulas from elsewhere are formulas, and what cannot be read stays as text', async () => {
    const tab = await tabOf(await app.open({ viewport: HIGH }));
    const other = await tab.page.context().newPage();
    const table = `<table><tr><td>5<td>=A${FREE + 1}*2<td>=SUM(A1;B1)</table>`;
    await copyElsewhere(other, { 'text/html': table, 'text/plain': 'not this' });
    await tab.page.bringToFront();
    await tab.at(FREE, 0).click();
    await tab.key(`${MOD}+v`);
    await expect.poll(() => words(tab.at(FREE, 1))).toContain('10');
    expect(await words(tab.at(FREE, 2))).toBe('=SUM(A1;B1)');
    expect(await words(offerOf(tab))).toContain(
      'One formula cannot be read here and stays as text',
    );
    await tab.key(`${MOD}+z`);
    await expect.poll(() => words(tab.at(FREE, 1))).toBe('');
    await tab.page.context().close();
  });
});
