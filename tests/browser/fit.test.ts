import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { unfit } from './support/fit.ts';
import { activity, Maker } from './support/maker.ts';
import { SCREENS } from './support/screens.ts';

/** Every screen at every size: nothing cut off or under something else, and room for a finger. */

const SIZES = [
  { width: 1440, height: 900, touch: false },
  { width: 1024, height: 768, touch: true },
  { width: 768, height: 1024, touch: true },
  { width: 390, height: 844, touch: true },
] as const;

const FITS = { clipped: [], overlapping: [], unreachable: [], small: [] };

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Leaves whatever is open: the page is as it was. */
async function leave(page: Page): Promise<void> {
  const open = page.locator('dialog[open], [role="menu"], .choice-list');
  while ((await open.count()) > 0) {
    await page.keyboard.press('Escape');
    await page.waitForTimeout(50);
  }
  const raised = page.locator('.beside-handle[aria-expanded="true"]');
  if (await raised.isVisible()) await raised.click();
  await activity(page, 'Workbook');
}

describe.each(SIZES)('at $width by $height', ({ width, height, touch }) => {
  let shared: Page | undefined;
  afterAll(() => shared?.context().close());

  async function ready(): Promise<Maker> {
    const page = await app.open({ viewport: { width, height }, hasTouch: touch });
    const maker = new Maker(page);
    await maker.ready();
    return maker;
  }

  it.each(SCREENS)('$name fits', async ({ open, changes, alone }) => {
    const maker = changes === true || shared === undefined ? await ready() : new Maker(shared);
    const { page } = maker;
    // Where something is amiss the next screen begins on a page of its own, and not behind what stayed open.
    shared = undefined;
    const region = await open(maker);
    expect(await unfit(page, touch, alone === true ? region : undefined)).toEqual(FITS);
    if (changes === true) await page.context().close();
    else {
      await leave(page);
      shared = page;
    }
  });
});

describe('the measure itself', () => {
  it('finds words cut off, words over words, and controls that are small or covered', async () => {
    const page = await app.open({ viewport: { width: 1024, height: 768 }, hasTouch: true });
    await new Maker(page).ready();
    await page.evaluate(() => {
      document.body.insertAdjacentHTML(
        'beforeend',
        `<dialog id="planted" style="inline-size: 30rem">
          <p style="overflow: hidden; inline-size: 4rem; white-space: nowrap">cut off in the middle</p>
          <p style="margin-block-end: -2rem; pointer-events: none">one over</p><p style="pointer-events: none">the other</p>
          <p><button style="inline-size: 20px; block-size: 20px; padding: 0">s</button></p>
          <p style="position: relative"><button style="block-size: 60px; inline-size: 60px">under</button>
          <span style="position: absolute; inset: 0; background: white"></span></p>
        </dialog>`,
      );
      document.querySelector<HTMLDialogElement>('#planted')?.showModal();
    });
    const found = await unfit(page, true);
    expect(found.clipped.join()).toContain('cut off');
    expect(found.overlapping.join()).toContain('one over');
    expect(found.small.join()).toContain('"s"');
    expect(found.unreachable.join()).toContain('"under"');
    await page.context().close();
  });
});
