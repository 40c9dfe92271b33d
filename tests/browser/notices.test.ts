import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { coveredCells, missed } from './support/hits.ts';
import { Maker } from './support/maker.ts';
import { BLOCK_SITE_DATA, fillDevice } from './support/storage.ts';

/** What is said of storage stands beside the work: no cell and no control lies under it. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const SIZES = [
  { width: 1440, height: 900, rows: 20 },
  { width: 1024, height: 768, rows: 4 },
  { width: 768, height: 1024, rows: 4 },
  { width: 390, height: 844, rows: 4 },
] as const;

/** What a press would miss; the side of the sheets scrolls where it is long, and says so with its bar. */
async function covered(page: Page, rows: number): Promise<readonly string[]> {
  const side = page.locator('.sheets-side');
  const top = page.locator('.top-line');
  const missedThere: string[] = [];
  for (const part of [side.locator('.sheet-list'), side.locator('.sheet-tools'), top]) {
    for (const control of await part.locator('button, select').all()) {
      if (!(await control.isVisible())) continue;
      await control.scrollIntoViewIfNeeded();
      const hit = await control.evaluate((element) => {
        const { left, top, width, height } = element.getBoundingClientRect();
        const there = document.elementFromPoint(left + width / 2, top + height / 2);
        return element.contains(there) ? '' : `${element.textContent} is under ${there?.className}`;
      });
      if (hit !== '') missedThere.push(hit);
    }
  }
  return [
    ...missedThere,
    ...(await missed(page.locator('.formula-line'))),
    ...(await coveredCells(page.locator('.sheet-grid'), rows)),
  ];
}

/** A notice laid over the page is found: the test can fail. */
async function wouldBeFound(page: Page, notice: Locator, rows: number): Promise<void> {
  await notice.evaluate((element) => {
    const { style } = element as HTMLElement;
    Object.assign(style, { position: 'fixed', inset: '60% 0 auto 0', zIndex: '9' });
  });
  expect(await covered(page, rows)).not.toEqual([]);
}

type Way = readonly [name: string, show: (page: Page, maker: Maker) => Promise<Locator>];

const WAYS: readonly Way[] = [
  [
    'that the browser may clear what is kept',
    async (page, maker) => {
      await maker.type('top_length', '97');
      await maker.comeBack();
      return page.locator('.at-risk');
    },
  ],
  [
    'that the device is full',
    async (page, maker) => {
      await fillDevice(page, true);
      await maker.type('top_length', '97');
      return page.locator('.notices-trouble');
    },
  ],
  ['that site data is blocked', async (page) => page.locator('.notices p').first()],
];

describe.each(SIZES)('on a screen of $width by $height', ({ rows, ...viewport }) => {
  it.each(WAYS)('the notice %s covers nothing', async (name, show) => {
    const context = await app.browser.newContext({ viewport, hasTouch: viewport.width < 1200 });
    if (name.includes('blocked')) await context.addInitScript(BLOCK_SITE_DATA);
    const page = await context.newPage();
    await page.goto(app.address);
    const maker = new Maker(page);
    await maker.ready();
    const notice = await show(page, maker);
    await notice.waitFor();
    expect(await covered(page, rows)).toEqual([]);
    await wouldBeFound(page, notice, rows);
    await context.close();
  });
});

describe('that the browser may clear what is kept', () => {
  it('is told at the next opening and among the workbooks, and never under a finger after a save', async () => {
    const page = await app.open();
    const maker = new Maker(page);
    await maker.ready();
    const grid = () => page.locator('.sheet-grid').boundingBox();
    const before = await grid();
    await maker.type('top_length', '97');
    await maker.untilSaved();
    const says = 'This browser may clear saved workbooks';
    const dialog = await maker.workbooks();
    await dialog.getByText(says).waitFor();
    await maker.closeDialog();
    expect(await page.locator('.at-risk').count()).toBe(0);
    expect(await grid()).toEqual(before);

    await page.reload();
    await maker.ready();
    const notice = page.locator('.at-risk');
    await notice.getByText(says).waitFor();
    await notice.getByRole('button', { name: 'Not now' }).click();
    await page.reload();
    await maker.ready();
    // Put off for a week on the page, it goes on standing among the workbooks.
    await (await maker.workbooks()).getByText(says).waitFor();
    expect(await notice.count()).toBe(0);
    await page.context().close();
  });
});
