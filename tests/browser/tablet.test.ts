import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { missed as missedIn } from './support/hits.ts';
import { Maker } from './support/maker.ts';

/** On a tablet, held either way, with a finger: nothing lies over what one has to press. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  // Between a tablet and a desk: a page beside the choices is wider than the room for it.
  { width: 1190, height: 800 },
] as const;

async function opened(viewport: (typeof SIZES)[number], hasTouch: boolean) {
  const page = await app.open({ viewport, hasTouch });
  const complaints = complaintsOf(page);
  const maker = new Maker(page);
  await maker.ready();
  return { page, complaints };
}

const missed = (page: Page, dialog: string) => missedIn(page.getByRole('dialog', { name: dialog }));

const PAPERS = [
  ['Shop sheets', 'Shop sheets'],
  ['Print', 'Print'],
] as const;

describe.each(SIZES)('paper on a screen of $width by $height', (viewport) => {
  it.each(PAPERS)(
    '%s: every choice can be pressed, whichever way the page lies',
    async (press, name) => {
      for (const hasTouch of [false, true]) {
        const { page, complaints } = await opened(viewport, hasTouch);
        const dialog = page.getByRole('dialog', { name });
        await page.getByRole('button', { name: press }).click();
        await dialog.locator('.page').first().waitFor();
        expect(await missed(page, name)).toEqual([]);
        // Lying pages are wider than the screen: they are pushed along, not over the choices.
        await dialog.getByLabel('On its side').check();
        await expect
          .poll(() =>
            dialog
              .locator('.page')
              .first()
              .evaluate((one) => one.clientWidth > one.clientHeight),
          )
          .toBe(true);
        expect(await missed(page, name)).toEqual([]);
        // The left edge of the page can be come to.
        const edge = await dialog
          .locator('.page')
          .first()
          .evaluate((one) => {
            const desk = one.closest('.paper-desk');
            if (desk === null) return -1;
            desk.scrollLeft = 0;
            return one.getBoundingClientRect().left - desk.getBoundingClientRect().left;
          });
        expect(edge).toBeGreaterThanOrEqual(0);
        // The pages scroll, to the last one.
        const last = dialog.locator('.page').last();
        await last.scrollIntoViewIfNeeded();
        expect(await missed(page, name)).toEqual([]);

        await page.keyboard.press('Escape');
        await dialog.waitFor({ state: 'detached' });
        await page.getByRole('button', { name: press }).click();
        const close = dialog.getByRole('button', { name: 'Close' });
        await (hasTouch ? close.tap() : close.click());
        await dialog.waitFor({ state: 'detached' });
        expect(complaints).toEqual([]);
        await page.context().close();
      }
    },
  );

  it('the bench list: every button can be pressed, and one comes back', async () => {
    const { page, complaints } = await opened(viewport, true);
    const bench = page.getByRole('dialog', { name: 'At the bench' });
    await page.getByRole('button', { name: 'At the bench' }).click();
    const lines = bench.locator('.bench-line');
    await lines.first().waitFor();
    const count = await lines.count();
    for (let i = 0; i < count; i += 1) {
      await lines.nth(i).scrollIntoViewIfNeeded();
      await lines.nth(i).getByRole('button', { name: /cut$/ }).tap();
    }
    await page.keyboard.press('Escape');
    await bench.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'At the bench' }).click();
    await bench.getByRole('button', { name: 'Back to the workbook' }).tap();
    await bench.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe.each(SIZES)('the page itself at $width by $height', (viewport) => {
  it('shows every sheet and every button without anything being pushed along', async () => {
    for (const hasTouch of [false, true]) {
      const { page } = await opened(viewport, hasTouch);
      const rows = ['.sheet-list', '.sheet-tools', '.book-foot > .actions'];
      for (const row of rows) expect(await missedIn(page.locator(row), 'button')).toEqual([]);
      await page.getByRole('button', { name: 'Shop sheets' }).click();
      await page.getByRole('dialog', { name: 'Shop sheets' }).waitFor();
      await page.context().close();
    }
  });
});

describe.each(SIZES)('the side table, pulled up at $width by $height', (viewport) => {
  it('leaves the lines above the grid in sight, a notice and signs of checks among them', async () => {
    const { page } = await opened(viewport, true);
    const maker = new Maker(page);
    await maker.type('top_length', '=1/0');
    await page.locator('.at-risk').waitFor();
    const side = page.locator('.side-table');
    await side.locator('.side-table-handle').tap();
    await side.getByText('Larger').waitFor();
    await expect.poll(() => missedIn(page.locator('.formula-line'), 'input')).toEqual([]);
    expect(await missedIn(side, '.side-table-handle')).toEqual([]);
    await page.context().close();
  });
});

describe('without a keyboard', () => {
  it('what was done is undone and done again, and each says whether it can', async () => {
    const { page, complaints } = await opened(SIZES[1], true);
    const maker = new Maker(page);
    const changes = page.getByRole('toolbar', { name: 'Changes' });
    const undo = changes.getByRole('button', { name: 'Undo' });
    const redo = changes.getByRole('button', { name: 'Redo' });
    await undo.waitFor();
    expect([await undo.isDisabled(), await redo.isDisabled()]).toEqual([true, true]);
    await maker.type('top_length', '97');
    expect([await undo.isDisabled(), await redo.isDisabled()]).toEqual([false, true]);
    await undo.tap();
    expect(await maker.shows('top_length')).toBe('84');
    expect([await undo.isDisabled(), await redo.isDisabled()]).toEqual([true, false]);
    await redo.tap();
    expect(await maker.shows('top_length')).toBe('97');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
