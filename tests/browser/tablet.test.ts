import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
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

/** Controls of a dialog that a press in their middle would miss, and what it would hit instead. */
const missed = (page: Page, dialog: string): Promise<readonly string[]> =>
  page.getByRole('dialog', { name: dialog }).evaluate((element) =>
    [...element.querySelectorAll('button, input, select, label')].flatMap((control) => {
      const { left, top, width, height } = control.getBoundingClientRect();
      const [x, y] = [left + width / 2, top + height / 2];
      const hit = document.elementFromPoint(x, y);
      const good =
        hit !== null && (control.contains(hit) || hit.closest('label')?.contains(control) === true);
      if (good) return [];
      const says = control.textContent || control.parentElement?.textContent || control.outerHTML;
      return [
        `${says} at ${Math.round(x)}, ${Math.round(y)} is under ${hit?.className ?? 'nothing'}`,
      ];
    }),
  );

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
