import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { withMaker } from './support/with-maker.ts';

/** How cells look while they are written in, chosen or wrong: nothing lies on a number, and nothing is cut. */

const atHand = withMaker({ shared: true });
const { at, type, press } = handsOf(atHand);
const FREE = 33;

interface Box {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Where an element is, or the letters in it. */
const boxOf = (of: Locator, what: 'element' | 'letters' = 'element'): Promise<Box> =>
  of.evaluate((element, wanted) => {
    const range = document.createRange();
    range.selectNodeContents(element);
    const { top, bottom, left, right } = (
      wanted === 'letters' ? range : element
    ).getBoundingClientRect();
    return { top, bottom, left, right };
  }, what);

describe('a cell that is chosen', () => {
  it('keeps its handle off its number', async () => {
    const cell = await atHand.maker.go('top_thickness');
    const handle = cell.locator('.fill-handle');
    await handle.waitFor();
    const number = await boxOf(cell.locator('.cell-words'), 'letters');
    expect(number.right).toBeLessThanOrEqual((await boxOf(handle)).left);
  });
});

describe('a cell that is written in', () => {
  it('has one line around it, and nothing of the error that it held', async () => {
    await atHand.page.setViewportSize(HIGH);
    await type(FREE, 0, '=1/0');
    await at(FREE, 0).dblclick();
    const looks = await at(FREE, 0).evaluate((cell) => {
      const entry = cell.querySelector('.cell-entry');
      const { borderTop, borderTopLeftRadius, boxShadow } = getComputedStyle(cell);
      const line = /^1px solid (.*)$/.exec(borderTop)?.[1] ?? borderTop;
      return {
        isOneLine: boxShadow === `${line} 0px 0px 0px 1px`,
        corner: borderTopLeftRadius,
        within: entry === null ? 'no entry' : getComputedStyle(entry).outlineStyle,
        sign: getComputedStyle(cell, '::before').content,
      };
    });
    expect(looks).toEqual({
      isOneLine: true,
      corner: '0px',
      within: 'none',
      sign: 'none',
    });
  });

  it('stays in sight with its list when its entry is refused', async () => {
    await atHand.maker.type('species', 'unobtainium');
    const list = atHand.page.locator('.choice-list');
    await list.getByText(/^No wood called/).waitFor();
    const cell = await boxOf(atHand.page.locator('.ag-cell-inline-editing'));
    await expect
      .poll(async () => {
        const { top, bottom } = await boxOf(list);
        return top >= cell.bottom - 1 || bottom <= cell.top + 1;
      })
      .toBe(true);
    await press('Escape');
    await press('Escape');
  });
});

describe('an error', () => {
  it('is only its sign where its column has no room for its word, which is still read aloud', async () => {
    await atHand.page.setViewportSize(HIGH);
    await type(FREE, 2, '=1/0');
    const narrow = at(FREE, 2).locator('.cell-words');
    await expect.poll(() => narrow.getAttribute('data-short')).toBe('');
    expect(await narrow.textContent()).toBe('#DIV/0!');
    // What it says is there wherever the pointer is in its cell, and under the cell while it is the current one.
    const { left, right, top, bottom } = await boxOf(at(FREE, 2));
    for (const x of [left + 6, (left + right) / 2, right - 6]) {
      const title = await atHand.page.evaluate(
        ([px, py]) => document.elementFromPoint(px ?? 0, py ?? 0)?.getAttribute('title'),
        [x, (top + bottom) / 2],
      );
      expect(title).toContain('zero');
    }
    await at(FREE, 2).click();
    await expect
      .poll(() => atHand.page.locator('.whole-words').allTextContents())
      .toEqual([expect.stringMatching(/^#DIV\/0! .*zero/)]);
    await type(FREE, 1, '=1/0');
    const wide = at(FREE, 1).locator('.cell-words');
    await expect.poll(() => wide.textContent()).toBe('#DIV/0!');
    expect(await wide.getAttribute('data-short')).toBeNull();
  });
});

describe('an override', () => {
  it('has its way back in sight on a tablet, however long its formula is', async () => {
    await atHand.page.setViewportSize({ width: 1024, height: 768 });
    await atHand.maker.type('seats', '6');
    await atHand.maker.go('seats');
    const line = atHand.page.locator('.override-line');
    const back = await boxOf(line.getByRole('button', { name: /^Restore/ }));
    expect(back.right).toBeLessThanOrEqual((await boxOf(atHand.page.locator('.table-main'))).right);
  });
});
