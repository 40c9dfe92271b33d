import type { BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { beginAnew } from './support/begin-anew.ts';
import { clubPage, type Viewer } from './support/club-screens.ts';
import { unfit } from './support/fit.ts';
import { leave } from './support/leave.ts';
import { Maker } from './support/maker.ts';
import { soundAlike } from './support/names.ts';
import { SCREENS, type Screen } from './support/screens.ts';

/**
 * Every screen at every size: nothing cut off or under something else, and room for a finger. Who hears a control
 * without seeing its row knows what it is about: no two in one region sound alike.
 */

/** The smallest first: what is opened where there is no room beside the grid is in sight where there is some. */
const SIZES = [
  { width: 390, height: 844, touch: true },
  { width: 768, height: 1024, touch: true },
  { width: 1024, height: 768, touch: true },
  { width: 1440, height: 900, touch: false },
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

/** A screen that stands open in a window. */
interface Standing {
  readonly screen: Screen;
  readonly page: Page;
  readonly region: Locator;
}

/** What stands open in the window for fingers and in the one at a desk. */
const standing = new Map<boolean, Standing>();

/**
 * A screen at a size, after what stood open in the window before. The same screen is given the size, as a tablet is
 * turned, and is opened anew only where it looks at the size when it opens.
 */
async function shownAt(
  screen: Screen,
  { width, height, touch }: (typeof SIZES)[number],
  before: Standing | undefined,
): Promise<Standing> {
  const viewport = { width, height };
  const isSamePage = before !== undefined && before.screen.as === screen.as;
  if (isSamePage && before.screen === screen && screen.alone !== true && screen.sized !== true) {
    await before.page.setViewportSize(viewport);
    await laidOut(before.page);
    return before;
  }
  let maker: Maker;
  if (isSamePage) {
    maker = new Maker(before.page);
    await (before.screen.changes === true ? beginAnew(maker) : leave(before.page));
    await before.page.setViewportSize(viewport);
    // What was raised where there was no room is raised there again.
    await leave(before.page);
  } else {
    await before?.page.context().close();
    maker = await opened(screen.as, { viewport, hasTouch: touch });
  }
  return { screen, page: maker.page, region: await screen.open(maker) };
}

async function opened(as: Viewer | undefined, options: BrowserContextOptions): Promise<Maker> {
  const maker = new Maker(
    await (as === undefined ? app.open(options) : clubPage(app, as, options)),
  );
  await maker.ready();
  return maker;
}

/** Waits until everything has found its place at a new size. */
function laidOut(page: Page): Promise<void> {
  return page.evaluate(async () => {
    const pause = () => new Promise((resolve) => setTimeout(resolve, 50));
    const places = () =>
      [...document.querySelectorAll('body *')]
        .map((one) => {
          const { x, y, width, height } = one.getBoundingClientRect();
          return `${x} ${y} ${width} ${height}`;
        })
        .join();
    let before = '';
    for (let same = 0; same < 2; ) {
      await pause();
      const now = places();
      same = now === before ? same + 1 : 0;
      before = now;
    }
  });
}

describe.each(IN_ORDER)('$name', (screen) => {
  it.each(SIZES)('fits at $width by $height', async (size) => {
    const { touch } = size;
    const before = standing.get(touch);
    // Where something is amiss the next one begins in a window of its own, and not behind what stayed open.
    standing.delete(touch);
    const shown = await shownAt(screen, size, before);
    const { page, region } = shown;
    expect(await unfit(page, touch, screen.alone === true ? region : undefined)).toEqual(FITS);
    // What controls are called is the same at every size.
    if (!touch) {
      const { controls, ...alike } = await soundAlike(region);
      expect(controls).toBeGreaterThan(0);
      expect(alike).toEqual({ nameless: [], again: [] });
    }
    standing.set(touch, shown);
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
