import type { Locator } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { handsOf } from './support/hands.ts';
import { command } from './support/maker.ts';
import { printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** Words that are wrapped in their cell, on free cells under the dining table's brief. */

const atHand = withMaker({ shared: true });
const { at, press, type } = handsOf(atHand);
const FREE = 40;
const NOTE = 'Glue the stretchers first, then the legs, and leave them a day in the clamps.';

// So tall that the free rows are in sight.
beforeEach(() => atHand.page.setViewportSize({ width: 1440, height: 1900 }));

const dialog = () => atHand.page.getByRole('dialog');
const height = async (row: number): Promise<number> =>
  (await at(row, 0).boundingBox())?.height ?? 0;

/** Formats a cell by its menu and the keys of the dialog. */
async function format(row: number, column: number, change: () => Promise<void>): Promise<void> {
  await at(row, column).click({ button: 'right' });
  await atHand.page.getByRole('menuitem', { name: 'Format …' }).click();
  await change();
  await dialog().getByRole('button', { name: 'Apply format' }).click();
  await dialog().waitFor({ state: 'detached' });
}

const wrap = async (): Promise<void> => {
  await dialog().getByLabel('Wrap words').focus();
  await press('Space');
};

/** How much of the words is out of sight, and how much of the cell stands free, px. */
const fit = (cell: Locator) =>
  cell.evaluate((one) => {
    const words = one.querySelector<HTMLElement>('.cell-words');
    const box = words?.getBoundingClientRect();
    const outer = one.getBoundingClientRect();
    const cut = (words?.scrollHeight ?? 0) - (words?.clientHeight ?? 0);
    const past = Math.max((box?.right ?? 0) - outer.right, (box?.bottom ?? 0) - outer.bottom);
    return { cut, past, free: outer.height - (box?.height ?? 0) };
  });

async function holdsItsWords(cell: Locator): Promise<void> {
  const { cut, past, free } = await fit(cell);
  expect(cut).toBeLessThanOrEqual(1);
  expect(past).toBeLessThanOrEqual(0);
  // Not so high that another line would find room.
  expect(free).toBeLessThan(26);
}

describe('wrapped words', () => {
  it('G61 Y20 make their row as high as they need, at any width of the column, and undo takes it back', async () => {
    const { page } = atHand;
    await type(FREE, 1, NOTE);
    await type(FREE + 1, 1, 'Not wrapped');
    const one = await height(FREE);
    expect(await height(FREE + 1)).toBe(one);
    await format(FREE, 1, wrap);
    await expect.poll(() => height(FREE)).toBeGreaterThan(2 * one);
    const wide = await height(FREE);
    expect(await height(FREE + 1)).toBe(one);
    await holdsItsWords(at(FREE, 1));
    // A narrower column needs more lines: by its edge, drawn with the pointer.
    const edge = page.locator('.ag-header-cell[col-id="c1"] .ag-header-cell-resize');
    const { x = 0, y = 0, width = 0 } = (await edge.boundingBox()) ?? {};
    await page.mouse.move(x + width / 2, y + 8);
    await page.mouse.down();
    await page.mouse.move(x - 10, y + 8);
    await page.mouse.move(x - 30, y + 8);
    await page.mouse.up();
    await expect.poll(() => height(FREE)).toBeGreaterThan(wide);
    await holdsItsWords(at(FREE, 1));
    await at(FREE, 1).click();
    await press('ControlOrMeta+z');
    await expect.poll(() => height(FREE)).toBe(wide);
    // Fewer words need fewer lines.
    await type(FREE, 1, 'Glue first');
    await expect.poll(() => height(FREE)).toBeLessThan(wide);
    await at(FREE, 1).click();
    await press('ControlOrMeta+z');
    await expect.poll(() => height(FREE)).toBe(wide);
    await press('ControlOrMeta+z');
    await expect.poll(() => height(FREE)).toBe(one);
    await press('ControlOrMeta+y');
    await expect.poll(() => height(FREE)).toBe(wide);
    await atHand.maker.untilSaved();
    await page.reload();
    await atHand.maker.ready();
    await expect.poll(() => height(FREE)).toBe(wide);
  });

  it('G61 are whole however they are written, move with their row, and stay in one that is pinned', async () => {
    const { page } = atHand;
    const looks: readonly (readonly [label: string, value?: string])[] = [
      ['Bold'],
      ['Used as', 'heading'],
      ['Align', 'right'],
    ];
    for (const [i, [label, value]] of looks.entries()) {
      await type(FREE + i, 1, `${NOTE} Quarter-sawn white oak, 5-1/2 wide.`);
      await format(FREE + i, 1, async () => {
        await wrap();
        const field = dialog().getByLabel(label, { exact: true });
        if (value === undefined) await field.check();
        else await field.selectOption(value);
      });
      await holdsItsWords(at(FREE + i, 1));
    }
    const high = await height(FREE);
    await page.locator(`.ag-row[row-id="${FREE}"] .row-number`).click({ button: 'right' });
    await page.getByRole('menuitem', { name: `Insert above row ${FREE + 1}` }).click();
    await expect.poll(() => height(FREE + 1)).toBe(high);
    await expect.poll(() => height(FREE)).toBeLessThan(high / 2);
    await type(0, 1, NOTE);
    await format(0, 1, wrap);
    await page.locator('.ag-row[row-id="0"] .row-number').click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Pin row 1' }).click();
    const pinned = page.locator('.ag-floating-top .ag-row[row-id="t-0"], .ag-row-pinned').first();
    await pinned.waitFor();
    await expect.poll(() => at(0, 1).count()).toBe(1);
    await holdsItsWords(at(0, 1));
    const [top, next] = [await at(0, 0).boundingBox(), await at(1, 0).boundingBox()];
    expect(Math.abs((next?.y ?? 0) - (top?.y ?? 0) - (top?.height ?? 0))).toBeLessThanOrEqual(2);
  });

  it('G61 are not shown a second time beside their cell, as words are that are cut off', async () => {
    const whole = atHand.page.locator('.whole-words');
    await type(FREE, 4, NOTE);
    await at(FREE, 4).click();
    await expect.poll(() => whole.count()).toBe(1);
    await format(FREE, 4, wrap);
    await expect.poll(() => whole.count()).toBe(0);
    await holdsItsWords(at(FREE, 4));
  });

  it('G62 are wrapped on paper', async () => {
    const { page } = atHand;
    await type(FREE, 1, NOTE);
    await command(page, 'Print');
    const cell = page.locator('.paper-view .page td', { hasText: NOTE }).first();
    await cell.waitFor();
    expect(Number(await cell.getAttribute('colspan'))).toBeGreaterThan(1);
    await press('Escape');
    await format(FREE, 1, wrap);
    await command(page, 'Print');
    await cell.waitFor();
    expect(Number((await cell.getAttribute('colspan')) ?? 1)).toBe(1);
    const words = (await printed(page)).flatMap((one) => one.words);
    const glue = words.find(({ text }) => text.includes('Glue the'));
    const clamps = words.find(({ text }) => text.includes('clamps.'));
    expect(glue).toBeDefined();
    expect(clamps?.text).not.toContain('Glue');
    expect(clamps?.y).not.toBe(glue?.y);
  });
});
