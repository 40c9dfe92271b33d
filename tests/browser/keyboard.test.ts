import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';

/** An invented bench, built from an empty workbook without touching the mouse. */

let app: App;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const MOST_TABS = 80;

/** Presses Tab until the focus is on a control with these words. */
async function tabTo(page: Page, wanted: RegExp): Promise<void> {
  for (let i = 0; i < MOST_TABS; i += 1) {
    const here = await page.evaluate(() => {
      const one = document.activeElement;
      const labels = one instanceof HTMLInputElement ? [...(one.labels ?? [])] : [];
      return `${one?.getAttribute('aria-label') ?? ''} ${one?.textContent ?? ''} ${labels.map((l) => l.textContent).join(' ')}`;
    });
    if (wanted.test(here)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never came to ${wanted}`);
}

/** Chooses from the menu of the current cell. */
async function choose(page: Page, wanted: RegExp): Promise<void> {
  await page.keyboard.press('Shift+F10');
  await page.getByRole('menu').waitFor();
  for (let i = 0; i < 30; i += 1) {
    const here = await page.evaluate(() => document.activeElement?.textContent ?? '');
    if (wanted.test(here)) break;
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press('Enter');
}

/** Waits until the keys are the grid's. */
async function inGrid(page: Page): Promise<void> {
  await page.locator('.ag-cell:focus').waitFor();
}

describe('a small workbook', () => {
  it('is built from an empty one with the keyboard alone: cells, names, a check', async () => {
    const page = await app.open();
    const complaints = complaintsOf(page);
    await new Maker(page).ready();
    const { keyboard } = page;
    const typeDown = async (...entries: string[]): Promise<void> => {
      for (const entry of entries) {
        await keyboard.type(entry);
        await keyboard.press('Enter');
      }
    };

    await keyboard.press('Shift+F6');
    await keyboard.press('Shift+F6');
    await tabTo(page, /^ ?Menu/);
    await keyboard.press('Enter');
    // What is loaded when it is first asked for is not there at once: no key leads into it before.
    await page.locator('.rare-menu').waitFor();
    await tabTo(page, /^ ?Workbooks ?$/);
    await keyboard.press('Enter');
    await page.getByRole('dialog').locator('[aria-busy="false"]').waitFor();
    await tabTo(page, /New blank workbook/);
    await keyboard.press('Enter');
    await keyboard.press('ControlOrMeta+a');
    await keyboard.type('Garden bench');
    await keyboard.press('Enter');
    await expect.poll(() => page.title()).toContain('Garden bench');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);

    // Twelve cells: labels, three inputs, results of formulas.
    // A new workbook has the keys in its grid.
    await inGrid(page);
    await keyboard.press('ControlOrMeta+Home');
    await typeDown('Length', 'Overhang', 'Leg', 'Apron', 'Seats', 'Board feet');
    await keyboard.press('ControlOrMeta+Home');
    await keyboard.press('ArrowRight');
    await typeDown('60 in', '4 in', '3 1/2 in');

    for (const [row, name] of [
      [0, 'bench_length'],
      [1, 'overhang'],
      [2, 'leg'],
    ] as const) {
      await keyboard.press('ControlOrMeta+Home');
      await keyboard.press('ArrowRight');
      for (let i = 0; i < row; i += 1) await keyboard.press('ArrowDown');
      await choose(page, /^Name/);
      await page.getByRole('dialog').waitFor();
      await tabTo(page, /Name in formulas/);
      await keyboard.type(name);
      await keyboard.press('Enter');
      await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
      await inGrid(page);
    }

    await keyboard.press('ArrowDown');
    await typeDown(
      '=APRON_LENGTH(bench_length,overhang,leg)',
      '=SEATS_ALONG(bench_length,20)',
      '=BOARDFEET(1,12,bench_length,2)',
    );

    await keyboard.press('F6');
    await keyboard.press('F6');
    await tabTo(page, /New check/);
    await keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await tabTo(page, /^\s*Name$/);
    await keyboard.type('Fits the porch');
    await keyboard.press('Tab');
    await keyboard.press('ControlOrMeta+a');
    await keyboard.type('=bench_length<=48');
    // Past the cells that bear its sign, and how bad it is.
    for (let i = 0; i < 3; i += 1) await keyboard.press('Tab');
    await keyboard.type('It is {bench_length} long; the porch takes 48 in.');
    await keyboard.press('Tab');
    await keyboard.press('Enter');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);

    const cell = (row: number) =>
      words(page.locator(`.ag-row[row-id="${row}"] [aria-colindex="3"]`));
    await expect.poll(() => cell(3)).toContain('45');
    expect(await cell(4)).toContain('3');
    expect(await cell(5)).toContain('10');
    await expect
      .poll(() => words(page.locator('.checks')))
      .toContain('It is 60 in long; the porch takes 48 in.');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
