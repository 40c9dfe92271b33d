import { describe, expect, it } from 'vitest';
import { startApp } from './support/app.ts';
import { missed } from './support/hits.ts';
import { Maker, standing, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Menus on cells, heads and sheets: by pointer, by key and by a finger held. */

const atHand = withMaker({ shared: true });
const press = (key: string) => atHand.page.keyboard.press(key);
const menu = () => atHand.page.getByRole('menu');
const items = async () => {
  await menu().waitFor();
  return menu().getByRole('menuitem').allInnerTexts();
};
const head = (column: number) => atHand.page.locator(`.ag-header-cell[col-id="c${column}"]`);
const rowNumber = (row: number) => atHand.page.locator(`.ag-row[row-id="${row}"] .row-number`);

describe('the menu of a head', () => {
  it('G58 Y21 opens by the right button, the small key that pointing shows, and Shift and F10', async () => {
    const { page } = atHand;
    await head(1).click({ button: 'right' });
    expect(await menu().getAttribute('aria-label')).toBe('column B');
    const ofColumn = await items();
    expect(ofColumn).toContain('Fit width');
    expect(ofColumn).toContain('Pin columns A to B');
    expect(ofColumn.at(-1)).toBe('Delete column B');
    await press('Escape');
    await head(2).hover();
    await page.locator('.head-key').click();
    expect(await menu().getAttribute('aria-label')).toBe('column C');
    await press('Escape');
    await rowNumber(5).hover();
    await page.locator('.head-key').click();
    expect(await menu().getAttribute('aria-label')).toBe('row 6');
    expect(await items()).toContain('Insert above row 6');
    await press('Escape');
    await atHand.maker.go('top_length');
    await press('ControlOrMeta+Space');
    await press('Shift+F10');
    expect(await items()).toEqual(ofColumn);
    await press('Escape');
    // The menu of a cell leads on to that of its row.
    await atHand.maker.go('top_length');
    await press('Shift+F10');
    await page.getByRole('menuitem', { name: 'More for row 6 …' }).click();
    await expect.poll(() => menu().getAttribute('aria-label')).toBe('row 6');
    await press('h');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Hide row 6');
  });

  it('G58 Y08 sets the width of several columns, fits them, and each is one step', async () => {
    const { page } = atHand;
    const width = (column: number) => head(column).evaluate((one) => Math.round(one.clientWidth));
    const before = [await width(1), await width(2)];
    await head(1).click();
    await head(2).click({ modifiers: ['Shift'] });
    await head(2).click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Width …' }).click();
    const dialog = page.getByRole('dialog', { name: 'Width of columns B to C' });
    await dialog.getByRole('textbox').fill('wide');
    await press('Enter');
    await expect.poll(() => words(dialog.getByRole('alert'))).toContain('24 to 1200 px');
    await dialog.getByRole('textbox').fill('220');
    await press('Enter');
    await expect.poll(async () => [await width(1), await width(2)]).toEqual([220, 220]);
    // The edge of a head, pressed twice, fits all that are selected.
    await head(2).locator('.ag-header-cell-resize').dblclick();
    await expect.poll(() => width(2)).toBeLessThan(80);
    expect(await width(1)).toBeLessThan(220);
    const cut = await page
      .locator('.ag-cell[col-id="c1"] .cell-words')
      .evaluateAll((all) => all.filter((one) => one.scrollWidth > one.clientWidth).length);
    expect(cut).toBe(0);
    await press('ControlOrMeta+z');
    await expect.poll(async () => [await width(1), await width(2)]).toEqual([220, 220]);
    await press('ControlOrMeta+z');
    await expect.poll(async () => [await width(1), await width(2)]).toEqual(before);
  });
});

describe('the menu of a sheet', () => {
  it('leads from a new table to the ones that are there', async () => {
    const { page } = atHand;
    const current = page.locator('.sheet-list [aria-current]');
    await current.click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'New table …' }).click();
    const dialog = page.getByRole('dialog', { name: 'New table' });
    expect(await words(dialog)).toContain('Already on the sheet Stock.');
    await dialog.getByRole('button', { name: 'Go to Stock' }).click();
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(() => words(current)).toContain('Stock');
  });

  it('G45 Y22 opens by the right button, its small key and Shift and F10, and gives the keys back', async () => {
    const { page } = atHand;
    const sheet = page.getByRole('navigation', { name: 'Sheets' });
    const base = sheet.getByRole('button', { name: /^Base/ });
    await base.click({ button: 'right' });
    expect(await items()).toEqual([
      'Rename …',
      'Move earlier',
      'Move later',
      'Duplicate',
      'Hide',
      'New sheet',
      'New table …',
      'Delete …',
    ]);
    await press('Escape');
    await expect.poll(() => base.evaluate((one) => one === document.activeElement)).toBe(true);
    await press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Rename …' }).press('Enter');
    await page.getByLabel('Sheet name').fill('Frame');
    await press('Enter');
    await sheet.getByRole('button', { name: /^Frame/ }).waitFor();
    await sheet.getByRole('button', { name: 'Menu of the sheet Frame' }).click();
    await page.getByRole('menuitem', { name: 'Delete …' }).click();
    const dialog = page.getByRole('dialog', { name: 'Delete the sheet Frame?' });
    await expect.poll(() => words(dialog)).toContain('may then show #REF!');
    await dialog.getByRole('button', { name: 'Cancel' }).click();
    await sheet.getByRole('button', { name: /^Frame/ }).waitFor();
  });
});

describe('a hidden sheet', () => {
  it('G45 Y23 leaves the list by the menu, and comes back by the menu of any other and by undo', async () => {
    const { page } = atHand;
    const list = page.getByRole('navigation', { name: 'Sheets' });
    const names = () => list.locator('.sheet-name').allTextContents();
    const all = await names();
    const [first = '', second = '', third = ''] = all;
    const hide = async (name: string): Promise<void> => {
      await list.getByRole('button', { name: new RegExp(`^${name}`) }).press('Shift+F10');
      await page.getByRole('menuitem', { name: 'Hide' }).press('Enter');
      await expect.poll(names).not.toContain(name);
    };
    await hide(second);
    // The next one is open, and the keys that turn sheets pass the hidden one over.
    await expect.poll(() => list.locator('[aria-current] .sheet-name').textContent()).toBe(third);
    await page.locator('.ag-cell').first().click();
    await press('Alt+PageUp');
    await expect.poll(() => list.locator('[aria-current] .sheet-name').textContent()).toBe(first);
    expect(await words(page.locator('.fold-did .did-says'))).toBe(`Sheet ${second} hidden`);
    await hide(third);
    expect(await names()).toEqual(all.filter((name) => name !== second && name !== third));
    await list.getByRole('button', { name: new RegExp(`^${first}`) }).click({ button: 'right' });
    await page.getByRole('menuitem', { name: `Show ${second}` }).click();
    await expect.poll(names).toEqual(all.filter((name) => name !== third));
    await expect.poll(() => list.locator('[aria-current] .sheet-name').textContent()).toBe(second);
    await press('Control+z');
    // The open sheet stays in the list, and says that it is hidden.
    await list.getByText('hidden', { exact: true }).waitFor();
    await list.getByRole('button', { name: new RegExp(`^${first}`) }).click();
    await expect.poll(names).toEqual(all.filter((name) => name !== second && name !== third));
    await press('Control+z');
    await expect.poll(names).toEqual(all.filter((name) => name !== second));
    await press('Control+z');
    await expect.poll(names).toEqual(all);
  });
});

describe('with a finger', () => {
  it('G64 a held finger opens the menus of heads and sheets, and every item can be pressed', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await new Maker(page).ready();
    const touch = await page.context().newCDPSession(page);
    for (const selector of ['.ag-header-cell[col-id="c0"]', '.sheet-list [aria-current]']) {
      const box = await page.locator(selector).first().boundingBox();
      const { x = 0, y = 0, width = 0, height = 0 } = box ?? {};
      const touchPoints = [{ x: x + width / 3, y: y + height / 2 }];
      await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints });
      await page.getByRole('menu').waitFor();
      await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      const least = await page
        .getByRole('menuitem')
        .evaluateAll((all) => Math.min(...all.map((one) => one.getBoundingClientRect().height)));
      expect(least).toBeGreaterThanOrEqual(44);
      expect(await missed(page.getByRole('menu'), 'button')).toEqual([]);
      await page.keyboard.press('Escape');
    }
    await app.close();
  });

  it('leaves the keys to a menu that is open when the screen is turned', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await new Maker(page).ready();
    await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
    await page.getByRole('menu').waitFor();
    // Other columns stay in sight on a wider screen: the grid is made anew for it.
    await page.locator('.ag-root-wrapper').evaluate((grid) => grid.setAttribute('data-before', ''));
    await page.setViewportSize({ width: 844, height: 1024 });
    await page.locator('.ag-root-wrapper:not([data-before]) .ag-cell').first().waitFor();
    await standing(page.locator('.ag-cell').first());
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('menu').count()).toBe(0);
    await app.close();
  });

  it('says each item on one line, however near the edge it is asked for', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await new Maker(page).ready();
    const head = await page.locator('.ag-header-cell[col-id="c1"]').boundingBox();
    if (head === null) throw new Error('there is no head to press');
    await page.mouse.click(head.x + head.width - 24, head.y + 20, { button: 'right' });
    await page.getByRole('menu').waitFor();
    const broken = await page.getByRole('menuitem').evaluateAll((all) =>
      all
        .filter((one) => {
          const words = document.createRange();
          words.selectNodeContents(one);
          return new Set([...words.getClientRects()].map(({ top }) => Math.round(top))).size > 1;
        })
        .map((one) => one.textContent),
    );
    expect(broken).toEqual([]);
    const edge = await page.getByRole('menu').boundingBox();
    expect((edge?.x ?? 0) + (edge?.width ?? 390)).toBeLessThanOrEqual(390);
    await app.close();
  });
});
