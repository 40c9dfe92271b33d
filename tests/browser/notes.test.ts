import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { startApp } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { Maker } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Notes beside the numbers of a template: read without a press on each. */

const atHand = withMaker({ shared: true });
const { at, press, type } = handsOf(atHand);
/** The row of a note that needs two lines at 1440 px, and the first without any. */
const HEIGHT = 8;
const LENGTH = 5;
const FREE = 40;

interface Note {
  readonly text: string;
  /** How much of it is out of sight or beyond the grid, px. */
  readonly cut: number;
  /** How far its first line stands under that of the name of its row, px. */
  readonly under: number;
}

/** The notes of a column that are drawn, as they stand. */
const notes = (page: Page, column: number): Promise<Note[]> =>
  page.locator('.sheet-grid').evaluate((grid, of) => {
    const view = grid.querySelector('.ag-grid-viewport, .ag-body-viewport');
    const right = (view?.getBoundingClientRect().left ?? 0) + (view?.clientWidth ?? 0);
    const lineOf = (words: Element | null): number => {
      const range = document.createRange();
      if (words !== null) range.selectNodeContents(words);
      return range.getClientRects()[0]?.top ?? 0;
    };
    return [...grid.querySelectorAll(`.is-note[col-id="c${of}"]`)].map((cell) => {
      const words = cell.querySelector<HTMLElement>('.cell-words');
      const box = words?.getBoundingClientRect();
      const outer = cell.getBoundingClientRect();
      const name = cell.closest('.ag-row')?.querySelector('[col-id="c0"] .cell-words') ?? null;
      return {
        text: words?.textContent ?? '',
        cut: Math.max(
          (words?.scrollHeight ?? 0) - (words?.clientHeight ?? 0) - 1,
          (words?.scrollWidth ?? 0) - (words?.clientWidth ?? 0) - 1,
          (box?.right ?? 0) - right,
          (box?.bottom ?? 0) - outer.bottom,
          0,
        ),
        under: Math.round(lineOf(words) - lineOf(name)),
      };
    });
  }, column);

const cutOf = async (page: Page): Promise<readonly string[]> =>
  (await notes(page, 3)).filter(({ cut }) => cut > 0).map(({ text }) => text);

const height = async (row: number): Promise<number> =>
  (await at(row, 0).boundingBox())?.height ?? 0;

/** What one row below the other shows of itself: no row lies over the next one. */
async function standOneUnderAnother(): Promise<void> {
  const gaps = await atHand.page.locator('.sheet-grid').evaluate((grid) => {
    const boxes = [...grid.querySelectorAll('.ag-row [col-id="c0"]')]
      .map((cell) => cell.getBoundingClientRect())
      .sort((a, b) => a.top - b.top);
    return boxes.slice(1).map((box, i) => Math.abs(box.top - (boxes[i]?.bottom ?? 0)));
  });
  expect(Math.max(...gaps)).toBeLessThanOrEqual(2);
}

describe('notes', () => {
  it('are whole at 1440 px, each beginning on the line of its name', async () => {
    const { page } = atHand;
    const drawn = await notes(page, 3);
    expect(drawn.length).toBeGreaterThan(5);
    expect(drawn.filter(({ cut }) => cut > 0)).toEqual([]);
    expect(drawn.filter(({ under }) => Math.abs(under) > 1)).toEqual([]);
    expect(await height(HEIGHT)).toBeGreaterThan(await height(LENGTH));
    await standOneUnderAnother();
  });

  it('are as high as the window asks for, and no row jumps while one scrolls', async () => {
    const { page } = atHand;
    const one = await height(LENGTH);
    const [wide, far] = [await height(HEIGHT), await height(15)];
    expect(far).toBeGreaterThan(wide);
    await page.setViewportSize({ width: 1880, height: 900 });
    await expect.poll(() => height(HEIGHT)).toBe(one);
    expect(await cutOf(page)).toEqual([]);
    await page.setViewportSize({ width: 1300, height: 900 });
    await expect.poll(() => height(HEIGHT)).toBeGreaterThan(wide);
    expect(await cutOf(page)).toEqual([]);
    await standOneUnderAnother();
    await page.setViewportSize({ width: 1440, height: 900 });
    await expect.poll(() => height(HEIGHT)).toBe(wide);
    // Scrolled to the side there is more room, and rows that were never in view have their height already.
    const view = page.locator('.ag-grid-viewport').first();
    const whole = () => view.evaluate((viewport) => viewport.scrollHeight);
    const before = await whole();
    await view.evaluate((viewport) => viewport.scrollTo(120, 4_000));
    await expect.poll(() => view.evaluate((viewport) => viewport.scrollTop)).toBeGreaterThan(200);
    await view.evaluate((viewport) => viewport.scrollTo(120, 0));
    await expect.poll(() => at(HEIGHT, 3).count()).toBe(1);
    expect(await whole()).toBe(before);
    expect(await height(HEIGHT)).toBe(wide);
  });

  it('give way to what is typed beside them, and follow what is written in them', async () => {
    const { page } = atHand;
    const [one, two] = [await height(LENGTH), await height(HEIGHT)];
    await type(HEIGHT, 3, 'Short');
    await expect.poll(() => height(HEIGHT)).toBe(one);
    await at(HEIGHT, 3).click();
    await press('ControlOrMeta+z');
    await expect.poll(() => height(HEIGHT)).toBe(two);
    // The intro runs over the empty cells at its right, and has only its own once one is filled.
    expect(await height(1)).toBe(one);
    await type(1, 1, 'x');
    await expect.poll(() => height(1)).toBeGreaterThan(2 * one);
    const words = at(1, 0).locator('.cell-words');
    const { right = 0 } = await words.evaluate((it) => it.getBoundingClientRect());
    const { x = 0 } = (await at(1, 1).boundingBox()) ?? {};
    expect(right).toBeLessThanOrEqual(x);
    await at(1, 1).click();
    await press('Delete');
    await expect.poll(() => height(1)).toBe(one);
    expect(await cutOf(page)).toEqual([]);
  });

  it('leave other words as they are, and those that the maker wrapped', async () => {
    const { page } = atHand;
    await page.setViewportSize({ width: 1440, height: 1900 });
    const long =
      'Words of no note, which are too long for what can be seen of the sheet beside them, and longer than their own column is wide.';
    await type(FREE, 3, long);
    const one = await height(LENGTH);
    expect(await height(FREE)).toBe(one);
    await at(FREE, 3).click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Format …' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Wrap words').check();
    await dialog.getByRole('button', { name: 'Apply format' }).click();
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(() => height(FREE)).toBeGreaterThan(one);
    const wrapped = await height(FREE);
    // In its column, which is wider than what can be seen of it.
    await page.setViewportSize({ width: 1300, height: 1900 });
    await expect.poll(() => cutOf(page)).toEqual([]);
    expect(await height(FREE)).toBe(wrapped);
  });

  it.each([
    [1024, 768],
    [768, 1024],
  ])('are whole on a tablet of %i by %i', async (width, high) => {
    const app = await startApp();
    const page = await app.open({ viewport: { width, height: high }, hasTouch: true });
    await new Maker(page).ready();
    const view = page.locator('.ag-grid-viewport').first();
    const seen = new Set<string>();
    for (let far = 0; far <= 1_600; far += 200) {
      await view.evaluate((viewport, top) => viewport.scrollTo(0, top), far);
      await page.waitForFunction((top) => {
        const viewport = document.querySelector('.ag-grid-viewport');
        return viewport !== null && viewport.scrollTop <= top;
      }, far);
      const drawn = await notes(page, 3);
      for (const { text } of drawn) seen.add(text);
      expect(drawn.filter(({ cut }) => cut > 0)).toEqual([]);
    }
    expect(seen.size).toBeGreaterThan(10);
    await app.close();
  });

  it('that begin beyond what can be seen go on there, and are never ended after a word', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await new Maker(page).ready();
    const view = page.locator('.ag-grid-viewport').first();
    await view.evaluate((viewport) => viewport.scrollTo(200, 0));
    await expect.poll(async () => (await notes(page, 3)).length).toBeGreaterThan(0);
    const room = await page
      .locator('.is-going-on[col-id="c3"] .cell-words')
      .first()
      .evaluate((words) => words.clientWidth);
    // As wide as its column, whatever the phone shows of it.
    expect(room).toBeGreaterThan(390);
    await app.close();
  });
});
