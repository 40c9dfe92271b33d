import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { startApp } from './support/app.ts';
import { Maker, standing } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Nothing in the grid is cut off without a sign, and what one goes to stands whole in sight. */

const atHand = withMaker({ shared: true });
const press = (key: string) => atHand.page.keyboard.press(key);

/** Words of the grid that are cut off without an ellipsis, or lie over a cell that holds something. */
const cutOff = (page: Page) =>
  page.locator('.sheet-grid').evaluate((grid) => {
    const { right } = grid.getBoundingClientRect();
    const cells = [...grid.querySelectorAll('.ag-cell[col-id^="c"]')];
    const filled = cells.filter((cell) => cell.textContent?.trim() !== '');
    return filled.flatMap((cell) => {
      const words = cell.querySelector<HTMLElement>('.cell-words');
      const box = words?.getBoundingClientRect();
      if (words === null || box === undefined || cell.getBoundingClientRect().left >= right) {
        return [];
      }
      const over = filled.some((other) => {
        const { left, top } = other.getBoundingClientRect();
        return other !== cell && top === cell.getBoundingClientRect().top && left > box.left
          ? left < box.right - 1
          : false;
      });
      const cut = words.scrollWidth > words.clientWidth + 1;
      const sign = getComputedStyle(words).textOverflow === 'ellipsis';
      if (!over && box.right <= right && (!cut || sign)) return [];
      return [`${words.textContent} ends at ${Math.round(box.right)} of ${Math.round(right)}`];
    });
  });

describe('words in the grid', () => {
  it('end with an ellipsis where cells or the grid end, on every sheet, over no lines', async () => {
    for (const sheet of ['Brief', 'Top', 'Parts', 'Cost']) {
      await atHand.page
        .getByRole('navigation', { name: 'Sheets' })
        .getByRole('button', { name: new RegExp(`^${sheet}`) })
        .click();
      await atHand.page.locator(`[aria-label="Sheet ${sheet}"] .cell-words`).first().waitFor();
      expect([sheet, await cutOff(atHand.page)]).toEqual([sheet, []]);
    }
    await atHand.maker.go('top_length');
    const ground = await atHand.page
      .locator('.is-running-over .cell-words')
      .first()
      .evaluate((one) => getComputedStyle(one).backgroundColor);
    expect(ground).not.toBe('rgba(0, 0, 0, 0)');
  });

  it('Y33 are whole under their cell while it is the current one, over no number', async () => {
    const { page, maker } = atHand;
    // No note: these take as many lines as they need.
    await maker.cellAt({ sheet: '', row: 8, column: 3 }).click();
    await press('ArrowUp');
    await press('ArrowUp');
    await press('ArrowUp');
    await page.keyboard.type(
      'As the doorway is: measured twice, with and without the rug, on two days, and by another pair of hands too.',
    );
    await press('Enter');
    await press('ArrowUp');
    const whole = page.locator('.whole-words');
    await whole.waitFor();
    expect(await whole.textContent()).toBe(await page.getByLabel('Entry or formula').inputValue());
    // Once the cells have been scrolled and rest they stand at their cell again.
    const current = page.locator('.ag-cell.ag-cell-focus');
    const apart = async (): Promise<number> =>
      Math.round(((await whole.boundingBox())?.y ?? 0) - ((await current.boundingBox())?.y ?? 0));
    const before = await apart();
    for (const by of [12, -12]) {
      await page
        .locator('.ag-grid-viewport')
        .first()
        .evaluate((one, far) => one.scrollBy(0, far), by);
      await expect
        .poll(async () => ((await whole.count()) === 1 ? apart() : undefined))
        .toBe(before);
    }
    await press('ArrowLeft');
    await expect.poll(() => whole.count()).toBe(0);
  });
});

describe('a cell that is gone to', () => {
  it('G10 Y32 stands whole in sight, as the last column and row do', async () => {
    const { page } = atHand;
    const box = page.locator('.go-to input');
    for (const name of ['price', 'kerf', 'H60', 'grit_steps', 'A1', 'H1', 'B40']) {
      await box.fill(name);
      await box.press('Enter');
      const cell = page.locator('.ag-cell.ag-cell-focus');
      const seen = () =>
        cell.evaluate((one) => {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          const corners = [
            [left + 2, top + 2],
            [right - 3, top + 2],
            [left + 2, bottom - 3],
            [right - 3, bottom - 3],
          ] as const;
          return corners.filter(([x, y]) => one.contains(document.elementFromPoint(x, y))).length;
        });
      await expect.poll(async () => [name, await seen()]).toEqual([name, 4]);
    }
  });

  it('G06 Y32 is the start of a line with what is typed next, once Enter has ended the line before', async () => {
    const { page, maker } = atHand;
    const box = page.locator('.go-to input');
    await maker.toSheet('s5');
    // Columns far out of sight are not drawn at all.
    const whole = (row: number, column: number) =>
      maker.cellAt({ sheet: '', row, column }).evaluateAll(([cell]) => {
        const { left = 0, right = 0, top = 0 } = cell?.getBoundingClientRect() ?? {};
        const at = [left + 2, right - 3].map((x) => document.elementFromPoint(x, top + 8));
        return cell !== undefined && at.every((one) => cell.contains(one));
      });
    await box.fill('A10');
    await press('Enter');
    for (const [i, text] of ['Rail', '1', '3/4', '3', '20', '', '', '', '', '', '1'].entries()) {
      if (i > 0) await press('Tab');
      await page.keyboard.type(text);
    }
    // The first column is pinned, and the second is out of sight behind it.
    await expect.poll(() => whole(9, 10)).toBe(true);
    expect(await whole(9, 1)).toBe(false);
    await press('Enter');
    await expect.poll(() => box.inputValue()).toBe('A11');
    await expect.poll(async () => [await whole(10, 0), await whole(10, 1)]).toEqual([true, true]);
    // Down that column what was scrolled to stays in sight.
    await box.fill('K11');
    await press('Enter');
    await expect.poll(() => whole(10, 10)).toBe(true);
    await maker.cellAt({ sheet: '', row: 10, column: 0 }).click();
    await press('ArrowDown');
    await expect.poll(() => box.inputValue()).toBe('A12');
    expect(await whole(11, 10)).toBe(true);
  });

  it('G58 Y31 is as heavy pinned as not, with a line under what is pinned', async () => {
    const { page, maker } = atHand;
    const weight = () =>
      maker
        .cellAt({ sheet: '', row: 5, column: 0 })
        .evaluate((one) => getComputedStyle(one).fontWeight);
    const before = await weight();
    await page.locator('.ag-row[row-id="5"] .row-number').click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Pin rows 1 to 6' }).click();
    await page.locator('.ag-row-pinned').first().waitFor();
    expect(await weight()).toBe(before);
    const line = (side: 'row' | 'column') =>
      page.locator('.sheet-grid').evaluate((grid, one) => {
        const style = getComputedStyle(grid);
        const pinned = style.getPropertyValue(`--pinned-${one}-line`);
        return pinned === style.getPropertyValue('--ink');
      }, side);
    // Rows are pinned and no column is: a line beside the row numbers would say otherwise.
    expect([await line('row'), await line('column')]).toEqual([true, false]);
  });
});

/** What lies where it may not: handles of the current cell over words of any, or over one another's room. */
const inTheWay = (page: Page) =>
  page.locator('.sheet-grid').evaluate((grid) => {
    const words = [...grid.querySelectorAll('.ag-cell[col-id^="c"] .cell-words')].flatMap((one) => {
      const range = document.createRange();
      range.selectNodeContents(one);
      return [...range.getClientRects()].map((box) => ({ box, says: one.textContent ?? '' }));
    });
    const cell = grid.querySelector('.ag-cell-focus');
    const found: string[] = [];
    for (const selector of ['.pull-sign', '.fill-handle', '.select-handle']) {
      const handle = cell?.querySelector(`:scope > ${selector}`);
      const box = handle?.getBoundingClientRect();
      if (handle === null || handle === undefined || box === undefined) {
        found.push(`${selector} is not there`);
        continue;
      }
      // Of the sign what is drawn: a pair of points within what is pressed.
      const { left, top, width, height } = box;
      const drawn =
        selector === '.pull-sign'
          ? new DOMRect(left + 8, top + height / 2 - 5, 16, 10)
          : new DOMRect(left, top, width, height);
      for (const one of words) {
        const across = Math.min(one.box.right, drawn.right) - Math.max(one.box.left, drawn.left);
        const down = Math.min(one.box.bottom, drawn.bottom) - Math.max(one.box.top, drawn.top);
        if (across > 0 && down > 4) found.push(`${selector} lies over "${one.says}"`);
      }
      const [x, y] = [left + width / 2, top + height / 2];
      const reach = (across: number, down: number): number => {
        let far = 0;
        const on = (): boolean =>
          document.elementFromPoint(x + across * far, y + down * far) === handle;
        while (far < 60 && on()) far += 1;
        return far;
      };
      const wide = reach(-1, 0) + reach(1, 0);
      const high = reach(0, -1) + reach(0, 1);
      if (wide < 43 || high < 43) found.push(`${selector} has ${wide} by ${high} px`);
    }
    return found;
  });

describe('marks', () => {
  it('of an overridden cell are a corner and an edge, each drawn once', async () => {
    const { maker } = atHand;
    await maker.type('seats', '7');
    const cell = maker.cellAt(maker.place('seats'));
    await expect
      .poll(() => cell.evaluate((one) => one.classList.contains('is-overridden')))
      .toBe(true);
    const repeats = await cell.evaluate((one) => getComputedStyle(one).backgroundRepeat);
    // The corner's picture would come again under the lower edge of the cell.
    expect(repeats).toBe('no-repeat, no-repeat');
  });

  it('of sheets stand below each other, each with its words on one line', async () => {
    const { page, maker } = atHand;
    await maker.type('top_length', '=1/0');
    await page.locator('.sheet-state-word', { hasText: "Can't tell" }).first().waitFor();
    const states = await page.locator('.sheet-list li:has(.sheet-state)').evaluateAll((all) =>
      all.map((one) => {
        const words = one.querySelector('.sheet-state-word');
        const sign = one.querySelector('.state-icon')?.getBoundingClientRect();
        const line = words === null ? 0 : Number.parseFloat(getComputedStyle(words).lineHeight);
        return {
          left: Math.round(sign?.left ?? Number.NaN),
          whole: (words?.getBoundingClientRect().height ?? Number.NaN) < 1.5 * line,
        };
      }),
    );
    expect(states.length).toBeGreaterThan(3);
    expect(new Set(states.map(({ left }) => left)).size).toBe(1);
    expect(states.filter(({ whole }) => !whole)).toEqual([]);
  });
});

describe('with a finger', () => {
  it.each([
    [1024, 768],
    [768, 1024],
    [390, 844],
  ])(
    'G64 what is taken hold of in a cell has room, over no number, at %i by %i',
    async (width, height) => {
      const app = await startApp();
      const page = await app.open({ viewport: { width, height }, hasTouch: true });
      const maker = new Maker(page);
      await maker.ready();
      // The longest number that fits stands beside the sign.
      await maker.type('top_length', '119 31/32');
      await maker.cellAt(maker.place('top_length')).tap();
      await expect.poll(() => inTheWay(page)).toEqual([]);
      // A press on a handle that hangs over the next row is that row's, where nothing is dragged.
      const box = await page.locator('.fill-handle').boundingBox();
      if (box === null) throw new Error('there is no handle');
      await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height + 12);
      await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('top_width');
      await app.close();
    },
  );

  it('keeps the name of a number in sight on a phone, whole where it stands beside it', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const maker = new Maker(page);
    await maker.ready();
    const at = maker.place('top_length');
    /** Whether both edges of a cell can be pressed, and how much of its words is out of sight, px. */
    const shown = (column: number) =>
      maker.cellAt({ ...at, column }).evaluate((cell) => {
        const { left, right, top, height } = cell.getBoundingClientRect();
        const words = cell.querySelector('.cell-words');
        const y = top + height / 3;
        return {
          left: cell.contains(document.elementFromPoint(left + 2, y)),
          right: cell.contains(document.elementFromPoint(right - 2, y)),
          cut: words === null ? 0 : words.scrollWidth - words.clientWidth,
        };
      });
    const whole = { left: true, right: true, cut: 0 };
    await maker.cellAt(at).tap();
    expect([await shown(0), await shown(1)]).toEqual([whole, whole]);
    // Further along it stays where it is.
    await page.locator('.go-to input').fill('H6');
    await page.keyboard.press('Enter');
    await page.locator('.ag-cell-focus[aria-colindex="9"]').waitFor();
    expect(await shown(0)).toEqual(whole);
    // Turned, the screen has room for all of it.
    await page.setViewportSize({ width: 844, height: 390 });
    await expect
      .poll(() => page.locator('.ag-grid-pinned-left-cells [aria-colindex="2"]').count())
      .toBe(0);
    await app.close();
  });

  it('words in the sliver of a column at the edge end with an ellipsis too', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 1024, height: 768 }, hasTouch: true });
    await new Maker(page).ready();
    expect(await cutOff(page)).toEqual([]);
    await app.close();
  });

  it('G64 rows, heads and handles are as large as a fingertip, and the round handle selects', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 768, height: 1024 }, hasTouch: true });
    const maker = new Maker(page);
    await maker.ready();
    const cell = maker.cellAt(maker.place('top_width'));
    await cell.tap();
    const high = async (selector: string) =>
      (await page.locator(selector).first().boundingBox())?.height ?? 0;
    expect(await high('.ag-header-cell')).toBeGreaterThanOrEqual(43);
    expect((await cell.boundingBox())?.height).toBeGreaterThanOrEqual(43);
    // What comes in under the grid moves its cells: the pad at the first tap, and a notice.
    await page.locator('.number-pad').waitFor();
    // Over the cell: under it there may be no room left.
    const to = await standing(maker.cellAt(maker.place('top_length')));
    // The last that is asked for: what moves the cells meanwhile takes the handle along.
    const from = await standing(page.locator('.select-handle'));
    if (from === null || to === null) throw new Error('there is nothing to drag');
    const touch = await page.context().newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', x = 0, y = 0) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y }],
      });
    const [x, y] = [from.x + 8, from.y + 8];
    await send('touchStart', x, y);
    await send('touchMove', x, y - 12);
    await send('touchMove', to.x + to.width / 2, to.y + to.height / 2);
    await send('touchEnd');
    await expect.poll(() => page.locator('.ag-cell[aria-selected="true"]').count()).toBe(2);
    await app.close();
  });
});
