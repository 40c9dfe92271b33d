import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Selecting by keyboard and pointer, as people who live in spreadsheets do it. */

const atHand = withMaker({ shared: true });

const cell = (row: number, column: number) => atHand.maker.cellAt({ sheet: '', row, column });

/** `2:1 to 4:3`: the rectangle of selected cells, rows and columns from 0; fails on any other shape. */
async function selected(): Promise<string> {
  // In one go: between finding the cells and reading them the grid may draw its rows anew.
  const drawn = await atHand.page.evaluate(() =>
    [...document.querySelectorAll('.ag-row[row-id] .ag-cell[col-id^="c"]')].map((one) => ({
      row: Number(one.closest('.ag-row')?.getAttribute('row-id')),
      column: Number(one.getAttribute('col-id')?.slice(1)),
      selected: one.getAttribute('aria-selected') === 'true',
    })),
  );
  const places = drawn.filter((cell) => cell.selected);
  if (places.length === 0) return 'none';
  const rows = places.map(({ row }) => row);
  const columns = places.map(({ column }) => column);
  const [top, bottom] = [Math.min(...rows), Math.max(...rows)];
  const [left, right] = [Math.min(...columns), Math.max(...columns)];
  // Of what is drawn only: the row with the focus stays when those below it have scrolled out.
  const holes = drawn.filter(
    ({ row, column, selected: one }) =>
      !one && row >= top && row <= bottom && column >= left && column <= right,
  );
  expect(holes).toEqual([]);
  return `${top}:${left} to ${bottom}:${right}`;
}

/** Which cell has the focus, as `row:column`. */
const focused = () =>
  atHand.page.evaluate(() => {
    const one = document.activeElement;
    return `${one?.closest('.ag-row')?.getAttribute('row-id')}:${one?.getAttribute('col-id')?.slice(1)}`;
  });

const press = (keys: string) => atHand.page.keyboard.press(keys);
const summary = () => words(atHand.page.locator('.selection-line'));

describe('a selection', () => {
  it('G11 grows with Shift and arrows from where it began', async () => {
    await cell(1, 1).click();
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowDown']) await press(`Shift+${key}`);
    expect(await selected()).toBe('1:1 to 2:3');
    expect(await focused()).toBe('1:1');
    await press('Shift+ArrowLeft');
    expect(await selected()).toBe('1:1 to 2:2');
    for (const key of ['ArrowUp', 'ArrowLeft']) await press(`Shift+${key}`);
    expect(await selected()).toBe('none');
    await press('ArrowDown');
    expect(await focused()).toBe('2:1');
  });

  it('G11 grows with Shift and a click, and with a drag', async () => {
    await cell(5, 1).click();
    await cell(8, 3).click({ modifiers: ['Shift'] });
    expect(await selected()).toBe('5:1 to 8:3');
    expect(await focused()).toBe('5:1');
    await cell(7, 2).click();
    expect(await selected()).toBe('none');
    await cell(3, 0).hover();
    await atHand.page.mouse.down();
    await cell(6, 2).hover();
    await atHand.page.mouse.up();
    expect(await selected()).toBe('3:0 to 6:2');
    await cell(9, 1).hover();
    expect(await selected()).toBe('3:0 to 6:2');
    await press('Escape');
    expect(await selected()).toBe('none');
    expect(await focused()).toBe('3:0');
  });

  it('G12 takes the region, then all; columns and rows with the space bar', async () => {
    await cell(5, 1).click();
    await press('ControlOrMeta+a');
    expect(await selected()).toBe('4:0 to 9:3');
    expect(await focused()).toBe('5:1');
    await press('ControlOrMeta+a');
    expect(await selected()).toMatch(/^0:0 to /);
    await cell(5, 1).click();
    await press('Shift+ArrowRight');
    await press('ControlOrMeta+ ');
    expect(await selected()).toMatch(/^0:1 to \d+:2$/);
    await expect
      .poll(() => words(atHand.page.getByRole('status').last()))
      .toMatch(/2 columns by \d+ rows selected/);
    await cell(5, 1).click();
    await press('Shift+ ');
    expect(await selected()).toMatch(/^5:0 to 5:/);
  });

  it('G13 takes whole columns and rows by their heads, and all by the corner', async () => {
    const head = (column: string) => atHand.page.locator(`.ag-header-cell[col-id="${column}"]`);
    await head('c1').click();
    expect(await selected()).toMatch(/^0:1 to \d+:1$/);
    await head('c1').hover();
    await atHand.page.mouse.down();
    await head('c2').hover();
    await atHand.page.mouse.up();
    expect(await selected()).toMatch(/^0:1 to \d+:2$/);
    const number = (row: number) => atHand.page.locator(`.ag-row[row-id="${row}"] .row-number`);
    await number(4).click();
    await number(6).click({ modifiers: ['Shift'] });
    expect(await selected()).toMatch(/^4:0 to 6:/);
    await head('row').click();
    expect(await selected()).toMatch(/^0:0 to /);
  });

  it('G14 goes on growing while the pointer is held below the edge', async () => {
    const grid = await atHand.page.locator('.sheet-grid').boundingBox();
    await cell(5, 1).hover();
    await atHand.page.mouse.down();
    await atHand.page.mouse.move((grid?.x ?? 0) + 300, (grid?.y ?? 0) + (grid?.height ?? 0) + 15);
    await expect
      .poll(async () => Number(/(\d+) rows/.exec(await summary())?.[1]), { timeout: 5000 })
      .toBeGreaterThan(34);
    await atHand.page.mouse.up();
    // What came last is painted a moment later.
    await expect.poll(selected).not.toBe('none');
    const after = await selected();
    await atHand.page.waitForTimeout(300);
    expect(await selected()).toBe(after);
  });

  it('G03 G04 jumps to the edge of what is filled, and across the gap', async () => {
    await cell(5, 0).click();
    await press('ControlOrMeta+ArrowDown');
    expect(await focused()).toBe('9:0');
    await press('ControlOrMeta+ArrowDown');
    expect(await focused()).toBe('11:0');
    await press('ControlOrMeta+Shift+ArrowDown');
    expect(await selected()).toBe('11:0 to 15:0');
    await press('ControlOrMeta+Home');
    expect(await focused()).toBe('0:0');
    await press('ControlOrMeta+Shift+End');
    expect(await selected()).toMatch(/^0:0 to \d+:3$/);
  });

  it('G15 says what its numbers come to, in their own unit', async () => {
    await cell(5, 1).click();
    await cell(7, 1).click({ modifiers: ['Shift'] });
    await expect
      .poll(summary)
      .toMatch(/Numbers 3 Sum 127 1\/2 in Average 42 1\/2 in Smallest 1 1\/2 in Largest 84 in/);
    await cell(12, 1).click({ modifiers: ['Shift'] });
    await expect.poll(summary).toContain('Filled 6');
  });

  it('G16 may be of several areas', async () => {
    await cell(5, 1).click();
    await cell(7, 1).click({ modifiers: ['ControlOrMeta'] });
    await press('Shift+ArrowDown');
    expect(await atHand.page.locator('.ag-cell[aria-selected="true"]').count()).toBe(3);
    await expect.poll(summary).toContain('2 areas selected');
  });

  it('G23 is emptied whole, and one undo brings all of it back', async () => {
    const before = await words(cell(5, 1));
    await cell(5, 1).click();
    await cell(8, 1).click({ modifiers: ['Shift'] });
    await press('Delete');
    await expect.poll(() => words(cell(5, 1))).not.toContain(before);
    expect(await words(cell(8, 1))).not.toContain('30 ');
    await press('ControlOrMeta+z');
    await expect.poll(() => words(cell(8, 1))).toContain('30');
    expect(await words(cell(5, 1))).toContain(before);
  });

  it('stays under the menu, and is what the menu is about', async () => {
    await cell(5, 1).click();
    await cell(7, 2).click({ modifiers: ['Shift'] });
    await cell(6, 1).click({ button: 'right' });
    expect(await selected()).toBe('5:1 to 7:2');
    await atHand.page.getByRole('menuitem', { name: 'Delete rows 6 to 8' }).waitFor();
    await press('Escape');
    await cell(9, 1).click({ button: 'right' });
    await atHand.page.getByRole('menuitem', { name: 'Delete row 10' }).waitFor();
  });

  it('G09 is left for the next sheet with Alt and Page Down, and found again', async () => {
    await cell(5, 1).click();
    await press('Alt+PageDown');
    await expect
      .poll(() => words(atHand.page.locator('nav [aria-current="page"]')))
      .toContain('Top');
    await press('Alt+PageUp');
    await expect
      .poll(() => words(atHand.page.locator('nav [aria-current="page"]')))
      .toContain('Brief');
    await expect.poll(focused).toBe('5:1');
  });
});

/** Scrolls by so many px a frame. */
const scroll = (by: number, frames: number) =>
  atHand.page.evaluate(
    async ({ by, frames }) => {
      const viewport = document.querySelector('.ag-grid-viewport');
      for (let i = 0; i < frames; i += 1) {
        viewport?.scrollBy({ top: by });
        await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      }
    },
    { by, frames },
  );

describe('scrolling on', () => {
  it('draws in each row that comes in what stands there, and its number', async () => {
    await scroll(200, 3);
    await scroll(-200, 3);
    const name = await words(cell(0, 0));
    await scroll(400, 6);
    const drawn = await atHand.page.evaluate(() =>
      [...document.querySelectorAll('.ag-row[row-id]')].map((row) => [
        row.getAttribute('row-id'),
        row.querySelector('.row-number')?.textContent,
      ]),
    );
    expect(drawn.length).toBeGreaterThan(5);
    for (const [row, number] of drawn) expect(number).toBe(String(Number(row) + 1));
    await scroll(-400, 6);
    expect(await words(cell(0, 0))).toBe(name);
    expect(name).not.toBe('');
  });

  it('puts words into a cell that was drawn empty, and takes them away again', async () => {
    const last = cell(3, 3);
    expect(await words(last)).toBe('');
    await last.click();
    await atHand.page.keyboard.type('oak');
    await press('Enter');
    await expect.poll(() => words(last)).toMatch(/^oak/);
    await press('ControlOrMeta+z');
    await expect.poll(() => words(last), { timeout: 6000 }).toBe('');
    await last.click();
    await atHand.page.keyboard.type('ash');
    await press('Enter');
    await expect.poll(() => words(last)).toMatch(/^ash/);
    expect(await last.locator('.cell-words').count()).toBe(1);
  });
});
