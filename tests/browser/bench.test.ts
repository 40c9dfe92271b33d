import { describe, expect, it } from 'vitest';
import { activity, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** The bench list as it looks: what is struck out is what nobody cuts any more. */

const atHand = withMaker();

const bench = () => atHand.page.locator('.bench-view');

/** Of each line: what it is and whether its size is struck out, as the browser draws it. */
const struck = () =>
  bench()
    .locator('.bench-line')
    .evaluateAll((lines) =>
      lines.map((line) => {
        const size = line.querySelector('.bench-size');
        const drawn = size === null ? '' : getComputedStyle(size).textDecorationLine;
        return [
          line.querySelector('.bench-name')?.firstChild?.textContent?.trim(),
          drawn === 'line-through',
        ] as const;
      }),
    );

const open = async () => {
  await activity(atHand.page, 'Bench list');
  await bench().locator('.bench-line').first().waitFor();
};

describe('the bench list', () => {
  it('strikes out the sizes that are cut, all pieces of them, and no others', async () => {
    await open();
    await bench().getByLabel('By part').check();
    const before = await struck();
    expect(before.length).toBeGreaterThan(3);
    expect(before.filter(([, is]) => is)).toEqual([]);

    const piece = (which: number) => bench().getByLabel(`Long apron, ${which} of 2, cut`);
    await piece(2).check();
    // One of two: the saw is set to this size once more.
    expect((await struck()).filter(([, is]) => is)).toEqual([]);
    await piece(1).check();
    await expect
      .poll(async () => (await struck()).filter(([, is]) => is))
      .toEqual([['Long apron', true]]);
    expect((await struck()).filter(([, is]) => !is)).toHaveLength(before.length - 1);

    await piece(2).uncheck();
    await expect.poll(async () => (await struck()).filter(([, is]) => is)).toEqual([]);
  });

  it('tells that ticks are saved where nothing else is, and is where one comes back to', async () => {
    const { page, maker } = atHand;
    const now = () =>
      words(page.getByRole('navigation', { name: 'What you are doing' }).locator('[aria-current]'));
    expect(await words(maker.saved)).toBe('Nothing to save yet');
    await open();
    const first = () => bench().locator('.bench-line').first();
    await first().locator('label').click();
    await expect.poll(() => words(maker.saved)).toMatch(/^Ticks saved \d\d:\d\d$/);
    await page.reload();
    await bench()
      .getByText(/1 of 18/)
      .waitFor();
    expect(await now()).toBe('Bench list');
    expect(await first().getByRole('checkbox').isChecked()).toBe(true);
    expect(await words(maker.saved)).toBe('Ticks saved');
    // Who turned to the workbook comes back to the workbook.
    await activity(page, 'Workbook');
    await page.reload();
    await maker.ready();
    expect(await now()).toBe('Workbook');
    expect(await bench().count()).toBe(0);
  });

  it('has the pieces of each board in the order of the plan, ticked together with those of the parts', async () => {
    await open();
    const boards = bench().locator('.bench-board');
    expect(await words(boards.first().locator('h2'))).toMatch(/^Board 1 of \d+ .* to cut$/);
    const all = await boards.locator('.bench-line').count();
    expect(all).toBe(18);
    const first = boards.first().locator('.bench-line');
    await first.first().locator('label').click();
    expect((await struck()).filter(([, is]) => is)).toHaveLength(1);
    await bench()
      .getByText(/1 of 18/)
      .waitFor();

    // Still to cut: of a board in hand the rest is left.
    const inHand = boards.first().locator('.bench-line');
    const onBoard = await inHand.count();
    await bench().getByLabel('Still to cut').check();
    await expect.poll(() => inHand.count()).toBe(onBoard - 1);
    await bench().getByLabel('Still to cut').uncheck();
    await expect.poll(() => inHand.count()).toBe(onBoard);

    // A board that is cut goes, one that is ticked now stays until it is asked for again.
    for (const line of (await first.all()).slice(1)) await line.locator('label').click();
    expect(await words(boards.first().locator('h2'))).toContain('all cut');
    const count = await boards.count();
    await bench().getByLabel('Still to cut').check();
    await expect.poll(() => boards.count()).toBe(count - 1);
    await boards.last().locator('label').last().click();
    expect(await boards.count()).toBe(count - 1);
    await bench().getByLabel('Still to cut').uncheck();
    await expect.poll(() => boards.count()).toBe(count);
    expect(await bench().getAttribute('aria-label')).toMatch(/bench/i);
  });

  it('tells what is cut and now the wrong size, at its top and at the piece, until that is answered', async () => {
    const { page, maker } = atHand;
    const byPart = async () => {
      await open();
      await bench().getByLabel('By part').check();
    };
    const aprons = () => bench().locator('.bench-line', { hasText: 'Long apron' });
    const box = () => bench().locator('.bench-before');
    await byPart();
    for (const which of [1, 2]) await bench().getByLabel(`Long apron, ${which} of 2, cut`).check();
    await bench().getByLabel('Short apron, 1 of 2, cut').check();
    const was = await words(aprons().locator('.bench-size b'));
    await activity(page, 'Workbook');
    await maker.type('top_length', '80');
    await byPart();
    const now = await words(aprons().locator('.bench-size b'));
    expect(now).not.toBe(was);
    const says = `2 cut at ${was} long, now ${now}`;
    expect(await words(box())).toBe(
      `▲ 2 pieces already cut are now the wrong size Long apron, ${says} Still good Cut again`,
    );
    expect(await words(aprons().locator('.bench-other'))).toBe(`▲ ${says}`);
    expect(await words(bench().locator('.bench-sum'))).toMatch(/^1 of 18 pieces cut/);
    // A board of the plan tells it at the very pieces, and paper as the screen does, without what is pressed.
    await bench().getByLabel('By board').check();
    const other = bench().locator('.bench-line .bench-other');
    await expect.poll(() => other.allInnerTexts()).toHaveLength(2);
    await page.emulateMedia({ media: 'print' });
    expect(await words(box())).toMatch(/wrong size Long apron, 2 cut at [^?]* long, now [\d /]+$/);
    await page.emulateMedia({ media: 'screen' });

    await box()
      .getByRole('button', { name: /^Still good: Long apron/ })
      .click();
    await box().waitFor({ state: 'detached' });
    expect(await words(bench().locator('.bench-sum'))).toMatch(/^3 of 18 pieces cut/);

    // Another size once more, and cut again this time.
    await activity(page, 'Workbook');
    await maker.type('top_length', '90');
    await byPart();
    // What is too short is good for nothing longer.
    expect(
      await box()
        .getByRole('button', { name: /^Still good/ })
        .count(),
    ).toBe(0);
    await box()
      .getByRole('button', { name: /^Cut again: Long apron/ })
      .click();
    await box().waitFor({ state: 'detached' });
    expect(await words(bench().locator('.bench-sum'))).toMatch(/^1 of 18 pieces cut/);
  });

  it('keeps what is ticked of a part that only has another name', async () => {
    const { page, maker } = atHand;
    await open();
    await bench().getByLabel('By part').check();
    await bench().getByLabel('Short apron, 2 of 2, cut').check();
    await activity(page, 'Workbook');
    await maker.toSheet('s5');
    const name = page.locator('.ag-cell', { hasText: /^Short apron$/ }).first();
    await name.click();
    await page.keyboard.type('End rail');
    await page.keyboard.press('Enter');
    await open();
    await bench().getByLabel('By part').check();
    expect(await bench().getByLabel('End rail, 2 of 2, cut').isChecked()).toBe(true);
    expect(await bench().locator('.bench-before').count()).toBe(0);
  });

  it('keeps each size on one line on a phone, and within its own width', async () => {
    await atHand.page.setViewportSize({ width: 390, height: 844 });
    await open();
    for (const by of ['By board', 'By part']) {
      await bench().getByLabel(by).check();
      const sizes = await bench()
        .locator('.bench-size')
        .evaluateAll((all) =>
          all.map((size) => {
            // The longest size a table has: three mixed numbers.
            size.innerHTML = '1 11/16 × 11 15/16 × <b>108 13/16</b>';
            const text = document.createRange();
            text.selectNodeContents(size);
            const lines = new Set(
              [...text.getClientRects()].map(({ bottom }) => Math.round(bottom)),
            );
            return { lines: lines.size, over: size.scrollWidth - size.clientWidth };
          }),
        );
      expect(sizes.length).toBeGreaterThan(3);
      for (const size of sizes) expect(size).toEqual({ lines: 1, over: 0 });
    }
  });
});
