import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { activity, Maker, words } from './support/maker.ts';

/** A phone, held upright, with a finger: what is read there is large enough, and what is pressed seldom gives way. */

let app: App;
let page: Page;
let maker: Maker;
beforeAll(async () => {
  app = await startApp();
});
beforeEach(async () => {
  page = await app.open({ viewport: { width: 390, height: 844 }, hasTouch: true });
  maker = new Maker(page);
  await maker.ready();
  return () => page.context().close();
});
afterAll(() => app.close());

describe('the drawing', () => {
  it('beside the grid is one view at a time, as wide as the screen', async () => {
    const pane = page.locator('.drawing-pane');
    const titles = () => pane.locator('.stage svg > title').allTextContents();
    await expect.poll(titles).toEqual(['3D']);
    expect(await pane.getByRole('button', { name: 'All views' }).count()).toBe(0);
    const views = pane.getByRole('group', { name: 'View' });
    expect(await views.getByRole('button', { pressed: true }).textContent()).toBe('3D');
    for (const name of ['Top', 'Front', 'End']) {
      await views.getByRole('button', { name: `${name} view` }).tap();
      await expect.poll(titles).toEqual([name]);
      const { width = 0 } = (await pane.locator('.stage').boundingBox()) ?? {};
      expect(width).toBeGreaterThan(340);
    }
  });

  it('has no sliver in sight of what comes behind the choice of a piece', async () => {
    const line = await page.locator('.drawing-fold > .view-tools').evaluate((tools) => {
      const { right } = tools.getBoundingClientRect();
      return [...tools.children].map((one) => {
        const box = one.getBoundingClientRect();
        return { whole: box.right <= right + 0.5, out: box.left >= right };
      });
    });
    expect(line.length).toBeGreaterThan(3);
    expect(line.slice(0, 2).every(({ whole }) => whole)).toBe(true);
    for (const one of line) expect(one.whole || one.out).toBe(true);
  });

  it('large is all views under each other, each as wide as the screen, to scroll through', async () => {
    await activity(page, 'Drawing');
    const stages = page.locator('.drawing-page .stage');
    await expect.poll(() => stages.count()).toBe(4);
    const boxes = await Promise.all((await stages.all()).map((stage) => stage.boundingBox()));
    for (const [i, box] of boxes.entries()) {
      expect(box?.width).toBeGreaterThan(340);
      if (i > 0) expect(box?.y).toBeGreaterThan((boxes[i - 1]?.y ?? 0) + 200);
    }
  });

  it('large has all its tools on the screen, and names the piece that is pressed beside it', async () => {
    await activity(page, 'Drawing');
    const large = page.locator('.drawing-page');
    await large.locator('.kb-piece').first().waitFor();
    const out = await large.locator('.view-bar :is(button, label)').evaluateAll((all) =>
      all.flatMap((one) => {
        const { left, right, width, height } = one.getBoundingClientRect();
        const whole = left >= 0 && right <= innerWidth && width >= 44 && height >= 44;
        return whole ? [] : [one.textContent];
      }),
    );
    expect(out).toEqual([]);
    expect(await large.locator('.view-bar :is(button, label)').count()).toBe(13);
    const chosen = large.locator('.chosen-piece');
    const leg = large.locator('.stage').first().locator('.kb-piece', { hasText: 'Leg' }).last();
    await leg.tap();
    await chosen.getByText('Leg', { exact: true }).waitFor();
    const box = await chosen.boundingBox();
    expect(box?.y).toBeGreaterThan(0);
    expect((box?.y ?? 0) + (box?.height ?? Number.NaN)).toBeLessThanOrEqual(844);
    // Further down the list of pieces is read to its end over it.
    const last = large.locator('.piece-table tr').last();
    await large.evaluate((one) => one.scrollTo(0, one.scrollHeight));
    const [row, bar] = [await last.boundingBox(), await chosen.boundingBox()];
    const under = (row?.y ?? 0) + (row?.height ?? 0) <= (bar?.y ?? 0) + 1;
    const over = (row?.y ?? 0) >= (bar?.y ?? 0) + (bar?.height ?? 0) - 1;
    expect(under || over).toBe(true);
  });
});

describe('cut and buy', () => {
  it('names the pieces on a board in letters that can be read', async () => {
    await activity(page, 'Cut and buy');
    await page.locator('.kb-board text').first().waitFor();
    const least = await page
      .locator('.kb-board text')
      .evaluateAll((all) => Math.min(...all.map((one) => one.getBoundingClientRect().height)));
    expect(least).toBeGreaterThan(11);
    // A piece without room for its name is told when it is pressed, wherever on the page its board stands.
    const small = page.locator('.kb-cut', { hasNot: page.locator('text') }).first();
    const cut = (await small.count()) > 0 ? small : page.locator('.kb-cut').last();
    const says = await cut.locator('title').textContent();
    await cut.tap();
    const told = page.locator('.cut-told');
    expect(await told.textContent()).toBe(says);
    expect(says).toMatch(/^\d+: \D+ \d/);
    const box = await told.boundingBox();
    expect((box?.y ?? 0) + (box?.height ?? Number.NaN)).toBeLessThanOrEqual(844);
  });
});

describe('the shop sheets', () => {
  it('have their choices folded away, and a page as wide as the screen that is shown larger to be read', async () => {
    await activity(page, 'Shop sheets');
    const sheet = page.locator('.paper-view .page').first();
    await sheet.waitFor();
    const choices = page.locator('.paper-choices');
    expect((await choices.boundingBox())?.height).toBeLessThan(844 / 6);
    const width = async (): Promise<number> => (await sheet.boundingBox())?.width ?? 0;
    await expect.poll(width).toBeLessThan(390);
    await choices.getByRole('button', { name: 'Zoom in' }).tap();
    await expect.poll(width).toBeGreaterThan(600);
    await choices.getByRole('button', { name: 'Fit' }).tap();
    await expect.poll(width).toBeLessThan(390);
    await choices.getByRole('button', { name: 'Choices' }).tap();
    await choices.getByLabel('For the customer').check();
    await choices.getByText('US Letter, portrait, for the customer').waitFor();
  });
});

describe('a cell', () => {
  it('says a long label on the two lines that its row has room for', async () => {
    const label = maker.cellAt({ ...maker.place('moisture_build'), column: 0 });
    await label.scrollIntoViewIfNeeded();
    const words = label.locator('.cell-words');
    expect(await words.textContent()).toBe('Moisture content, measured');
    const cut = await words.evaluate((one) =>
      Math.max(one.scrollWidth - one.clientWidth, one.scrollHeight - one.clientHeight),
    );
    expect(cut).toBeLessThanOrEqual(1);
  });

  it('stays in sight while a formula is written, when the pad gives the drawing its room back', async () => {
    const cell = maker.cellAt(maker.place('top_length'));
    await cell.tap();
    await page.getByRole('toolbar', { name: 'Number pad' }).waitFor();
    await page.keyboard.type('=SUM(top_w');
    await page.getByRole('listbox').waitFor();
    await page.locator('.drawing-pane').waitFor();
    await expect
      .poll(() =>
        cell.evaluate((one) => {
          const line = document.querySelector('.formula-line');
          return (line?.getBoundingClientRect().top ?? 0) - one.getBoundingClientRect().bottom;
        }),
      )
      .toBeGreaterThanOrEqual(0);
  });
});

describe('a formula being written', () => {
  it('goes on in the line when the screen is turned: no half of it is taken', async () => {
    const was = await maker.shows('top_width');
    await maker.go('top_width');
    await page.keyboard.type('=top_length');
    for (const turned of [
      { width: 844, height: 390 },
      { width: 390, height: 844 },
    ]) {
      await page.setViewportSize(turned);
      const line = page.locator('.line-entry[data-writing="true"]:focus');
      await line.waitFor();
      // The cells of the new size are there too, and have not taken the keys.
      await page.locator('.ag-row .ag-cell').first().waitFor();
      expect(await line.inputValue()).toContain('=top_length');
      await page.keyboard.type('/2');
    }
    await page.keyboard.press('Escape');
    await expect.poll(() => maker.shows('top_width')).toBe(was);
  });
});

describe('the price', () => {
  it('stands at the foot of the workbook, and in the line that tells what a change did', async () => {
    const whole = async (what: Locator): Promise<boolean> =>
      what.evaluate((one) => {
        const { left, right, bottom } = one.getBoundingClientRect();
        const line = one.parentElement?.getBoundingClientRect();
        return (
          one.scrollWidth <= one.clientWidth + 1 &&
          left >= 0 &&
          right <= innerWidth &&
          bottom <= (line?.bottom ?? 0) + 1
        );
      });
    const foot = page.locator('.beside-handle > .beside-result');
    const before = await words(foot);
    expect(before).toMatch(/^Price \$[\d,]+\.\d\d$/);
    expect(await whole(foot)).toBe(true);
    await maker.type('top_length', '96');
    const told = page.locator('.did-line > span').first();
    await expect.poll(() => words(told)).toMatch(/^Price → \$[\d,]+\.\d\d$/);
    expect(`Price ${(await words(told)).split(' ').at(-1)}`).not.toBe(before);
    expect(await whole(told)).toBe(true);
  });
});

describe('the buying list', () => {
  it('breaks no size of a board', async () => {
    await activity(page, 'Cut and buy');
    const sizes = page.locator('.cut-board-size');
    await expect.poll(() => sizes.count()).toBeGreaterThan(1);
    for (const size of await sizes.all()) {
      expect(await words(size)).toMatch(/ × .+ × \d/);
      const { height = 0 } = (await size.boundingBox()) ?? {};
      expect(height).toBeLessThan(30);
    }
    const cut = page.locator('.cut-page');
    expect(await cut.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThan(2);
  });
});
