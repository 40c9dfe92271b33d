import { beforeEach, describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** What else people who live in spreadsheets take for granted. */

const atHand = withMaker({ shared: true });
const { at, shows, press, type } = handsOf(atHand);

const FREE = 33;
const MOD = 'ControlOrMeta';

/** The focused cell as `row:column`, or where else the focus is. */
const focused = () =>
  atHand.page.evaluate(() => {
    const one = document.activeElement;
    const row = one?.closest('.ag-row')?.getAttribute('row-id');
    return row == null ? String(one?.tagName) : `${row}:${one?.getAttribute('col-id')?.slice(1)}`;
  });

describe('a sheet', () => {
  it('G05 turns by a screenful and keeps the column', async () => {
    await at(2, 1).click();
    await press('PageDown');
    const [row, column] = (await focused()).split(':').map(Number);
    expect(row).toBeGreaterThan(15);
    expect(column).toBe(1);
    await press('PageUp');
    expect(await focused()).toBe('2:1');
  });

  it('G08 never loses the focus: after undo, inserting, turning sheets and scrolling away', async () => {
    await type(5, 1, '90');
    await at(5, 1).click();
    await press(`${MOD}+z`);
    expect(await focused()).toBe('5:1');
    await press('Alt+Insert');
    await expect.poll(() => shows(6, 1)).toContain('84');
    expect(await focused()).toBe('5:1');
    await press(`${MOD}+z`);
    await press('Alt+PageDown');
    await press('Alt+PageUp');
    await expect.poll(focused).toBe('5:1');
    await at(5, 1).hover();
    await atHand.page.mouse.wheel(0, 4000);
    await atHand.page.mouse.wheel(0, -4000);
    await press('ArrowDown');
    await expect.poll(focused).toBe('6:1');
  });

  it('G58 keeps the width a column was drawn to, through a reload', async () => {
    const width = () =>
      atHand.page
        .locator('.ag-header-cell[col-id="c1"]')
        .evaluate((one) => Math.round(one.getBoundingClientRect().width));
    const before = await width();
    const edge = atHand.page.locator('.ag-header-cell[col-id="c1"] .ag-header-cell-resize');
    const box = await edge.boundingBox();
    const [x, y] = [(box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + 10];
    await atHand.page.mouse.move(x, y);
    await atHand.page.mouse.down();
    await atHand.page.mouse.move(x + 60, y, { steps: 4 });
    await atHand.page.mouse.up();
    await expect.poll(width).toBe(before + 60);
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    expect(await width()).toBe(before + 60);
  });
});

describe('what is typed', () => {
  beforeEach(() => atHand.page.setViewportSize(HIGH));

  it('G20 is the length a maker means, however it is written', async () => {
    for (const [text, inches] of [
      ['1 1/2', 1.5],
      ['1-1/2', 1.5],
      ['1½', 1.5],
      ['3/4', 0.75],
      ['2\'6"', 30],
      ['2\' 6 1/2"', 30.5],
      ['76.2mm', 3],
      ['0.0762 m', 3],
      ['7/8in', 0.875],
    ] as const) {
      const name = inches < 4 ? 'top_thickness' : 'per_seat';
      await type(10, 1, `=${name}*1`);
      await atHand.maker.type(name, text);
      const shown = (await shows(10, 1)).replace(/.*\n/s, '').trim();
      expect([text, inInches(shown)]).toEqual([text, inches]);
    }
  });

  it('G22 stays words when it begins with an apostrophe, through a reload', async () => {
    await type(FREE, 0, "'00123");
    await type(FREE, 1, "'=x");
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    await at(FREE, 0).click();
    expect(await shows(FREE, 0)).toBe('00123');
    expect(await shows(FREE, 1)).toBe('=x');
  });

  it('G36 in a circle is told with the chain of its cells', async () => {
    await type(FREE, 0, `=B${FREE + 1}+1`);
    await type(FREE, 1, `=A${FREE + 1}*2`);
    await at(FREE, 1).click();
    const trouble = atHand.page.locator('.fold-cell .trouble');
    await expect.poll(() => words(trouble)).toMatch(/B34 → .*A34 → .*B34/);
  });
});

/** The last number of what a cell shows: `was 3, 1 1/2` → 1.5, a decimal as it is. */
function inInches(shown: string): number {
  const [, whole = '0', over = '0', under = '1'] =
    /(?:^|[^\d./])(?:(\d+(?:\.\d+)?)(?: (?=\d+\/)|$))?(?:(\d+)\/(\d+))?$/.exec(shown) ?? [];
  return Number(whole) + Number(over) / Number(under);
}
