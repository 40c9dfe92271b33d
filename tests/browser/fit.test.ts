import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { beginAnew } from './support/begin-anew.ts';
import { clubPage, type Viewer } from './support/club-screens.ts';
import { unfit } from './support/fit.ts';
import { leave } from './support/leave.ts';
import { Maker } from './support/maker.ts';
import { soundAlike } from './support/names.ts';
import { SCREENS } from './support/screens.ts';

/**
 * Every screen at every size: nothing cut off or under something else, and room for a finger. Who hears a control
 * without seeing its row knows what it is about: no two in one region sound alike.
 */

const SIZES = [
  { width: 1440, height: 900, touch: false },
  { width: 1024, height: 768, touch: true },
  { width: 768, height: 1024, touch: true },
  { width: 390, height: 844, touch: true },
] as const;

/**
 * Those of one page together, and those that change the workbook last: what they leave among the workbooks is no part of
 * the others.
 */
const IN_ORDER = SCREENS.toSorted(
  (one, other) =>
    (one.as ?? '').localeCompare(other.as ?? '') || Number(!!one.changes) - Number(!!other.changes),
);

const FITS = { clipped: [], overlapping: [], unreachable: [], small: [] };

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe.each(SIZES)('at $width by $height', ({ width, height, touch }) => {
  let shared: { readonly page: Page; readonly as: Viewer | undefined } | undefined;
  afterAll(() => shared?.page.context().close());

  async function ready(as: Viewer | undefined): Promise<Maker> {
    const options = { viewport: { width, height }, hasTouch: touch };
    const page = await (as === undefined ? app.open(options) : clubPage(app, as, options));
    const maker = new Maker(page);
    await maker.ready();
    return maker;
  }

  it.each(IN_ORDER)('$name fits', async ({ open, changes, alone, as }) => {
    if (shared !== undefined && shared.as !== as) {
      await shared.page.context().close();
      shared = undefined;
    }
    const maker = shared === undefined ? await ready(as) : new Maker(shared.page);
    const { page } = maker;
    // Where something is amiss the next screen begins on a page of its own, and not behind what stayed open.
    shared = undefined;
    const region = await open(maker);
    expect(await unfit(page, touch, alone === true ? region : undefined)).toEqual(FITS);
    // What controls are called is the same at every size.
    if (!touch) {
      const { controls, ...alike } = await soundAlike(region);
      expect(controls).toBeGreaterThan(0);
      expect(alike).toEqual({ nameless: [], again: [] });
    }
    if (changes === true) await beginAnew(maker);
    else await leave(page);
    shared = { page, as };
  });
});

describe('the measure itself', () => {
  it('finds words cut off, words over words, and controls that are small, covered or not told apart', async () => {
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
          <p><button style="inline-size: 44px; block-size: 44px"></button><button>s</button></p>
        </dialog>`,
      );
      document.querySelector<HTMLDialogElement>('#planted')?.showModal();
    });
    const found = await unfit(page, true);
    expect(found.clipped.join()).toContain('cut off');
    expect(found.overlapping.join()).toContain('one over');
    expect(found.small.join()).toContain('"s"');
    expect(found.unreachable.join()).toContain('"under"');
    const { nameless, again } = await soundAlike(page.locator('#planted'));
    expect([nameless, again]).toEqual([['button'], ['button "s"']]);
    await page.context().close();
  });
});
