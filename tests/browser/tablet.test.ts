import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { missed as missedIn } from './support/hits.ts';
import { activity, command, Maker } from './support/maker.ts';

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

interface Opened {
  readonly page: Page;
  readonly complaints: readonly string[];
  /** Leaves the page to the next test on such a screen: it stands on the workbook, and complained of nothing. */
  giveBack(): void;
}

/** Pages that were given back, by their screens. */
const free = new Map<string, Opened>();

/** The app on a screen: a page that was given back, or a new one. */
async function opened(viewport: (typeof SIZES)[number], hasTouch: boolean): Promise<Opened> {
  const screen = `${viewport.width} ${hasTouch}`;
  const before = free.get(screen);
  // Where something is amiss the next test begins on a page of its own.
  free.delete(screen);
  if (before !== undefined) return before;
  const page = await app.open({ viewport, hasTouch });
  const complaints = complaintsOf(page);
  await new Maker(page).ready();
  const one: Opened = {
    page,
    complaints,
    giveBack() {
      expect(complaints).toEqual([]);
      free.set(screen, one);
    },
  };
  return one;
}

const missed = (page: Page) => missedIn(page.locator('.paper-view'));

const PAPERS = [
  ['Shop sheets', activity],
  ['Print', command],
] as const;

describe.each(SIZES)('paper on a screen of $width by $height', (viewport) => {
  it.each(PAPERS)(
    '%s: every choice can be pressed, whichever way the page lies',
    async (name, turn) => {
      for (const hasTouch of [false, true]) {
        const { page, giveBack } = await opened(viewport, hasTouch);
        const desk = page.locator('.paper-view');
        await turn(page, name);
        await desk.locator('.page').first().waitFor();
        expect(await missed(page)).toEqual([]);
        // The choices are folded away until they are asked for, what is chosen stands for them.
        expect(await desk.getByLabel('Landscape').isVisible()).toBe(false);
        await desk.getByRole('button', { name: 'Choices' }).click();
        expect(await missed(page)).toEqual([]);
        await desk.getByLabel('Landscape').check();
        await expect
          .poll(() =>
            desk
              .locator('.page')
              .first()
              .evaluate((one) => one.clientWidth > one.clientHeight),
          )
          .toBe(true);
        expect(await missed(page)).toEqual([]);
        await desk.getByText(/landscape/).waitFor();
        // All of a page is seen across, however wide it lies.
        const past = await desk
          .locator('.page')
          .first()
          .evaluate((one) => {
            const [box, desk] = [one, one.closest('.paper-desk') ?? one].map((each) =>
              each.getBoundingClientRect(),
            );
            return Math.max(
              (desk?.left ?? 0) - (box?.left ?? 0),
              (box?.right ?? 0) - (desk?.right ?? 0),
            );
          });
        expect(past).toBeLessThanOrEqual(0);
        // The pages scroll, to the last one.
        const last = desk.locator('.page').last();
        await last.scrollIntoViewIfNeeded();
        expect(await missed(page)).toEqual([]);

        await desk.getByLabel('Portrait').check();
        await activity(page, 'Workbook');
        await desk.waitFor({ state: 'detached' });
        giveBack();
      }
    },
  );

  it('the bench list: every piece can be ticked off by a finger, and one comes back', async () => {
    const { page, giveBack } = await opened(viewport, true);
    const bench = page.locator('.bench-view');
    await activity(page, 'Bench list');
    // Those of the boards, and behind them what is done to pieces that are cut: the second rip of each leg.
    const lines = bench.locator('.bench-line label');
    await lines.first().waitFor();
    const count = await lines.count();
    expect(count).toBe(18 + (await bench.locator('.bench-then label').count()));
    for (let i = 0; i < count; i += 1) {
      const line = lines.nth(i);
      await line.scrollIntoViewIfNeeded();
      expect((await line.boundingBox())?.height).toBeGreaterThanOrEqual(44);
      await line.tap();
    }
    await bench.getByText('All 18 pieces are cut.').waitFor();
    await activity(page, 'Workbook');
    await bench.waitFor({ state: 'detached' });
    giveBack();
  });
});

describe.each(SIZES)('the page itself at $width by $height', (viewport) => {
  it('opens the sheet of a table from its first column on', async () => {
    const { page, giveBack } = await opened(viewport, true);
    await page.locator('.sheet-list button', { hasText: 'Stock' }).first().tap();
    const first = page.locator('.ag-row[row-id="3"] [aria-colindex="2"]');
    await first.waitFor();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A4');
    const number = await page.locator('.ag-row[row-id="3"] .row-number').boundingBox();
    const words = await first.boundingBox();
    expect(Math.round(words?.x ?? 0)).toBe(Math.round((number?.x ?? 0) + (number?.width ?? -99)));
    giveBack();
  });

  it('shows every sheet and every button without anything being pushed along', async () => {
    for (const hasTouch of [false, true]) {
      const { page, giveBack } = await opened(viewport, hasTouch);
      const rows = ['.top-line', '.sheet-list', '.sheet-tools'];
      for (const row of rows) expect(await missedIn(page.locator(row), 'button')).toEqual([]);
      await activity(page, 'Shop sheets');
      await page.locator('.paper-view').waitFor();
      await activity(page, 'Workbook');
      giveBack();
    }
  });
});

describe.each(SIZES)('what stands beside the grid, pulled up at $width by $height', (viewport) => {
  it('leaves the lines above the grid in sight, a notice and signs of checks among them', async () => {
    const { page } = await opened(viewport, true);
    const maker = new Maker(page);
    await maker.type('top_length', '=1/0');
    await maker.comeBack();
    await page.locator('.at-risk').waitFor();
    await maker.go('top_length');
    const side = page.locator('.beside');
    await side.locator('.beside-handle').tap();
    await side.getByText('Worked out from').or(side.getByText('Formula')).first().waitFor();
    await expect.poll(() => missedIn(page.locator('.formula-line'), 'input')).toEqual([]);
    expect(await missedIn(side, '.beside-handle')).toEqual([]);
    await page.context().close();
  });
});

describe('without a keyboard', () => {
  it('what was done is undone and done again, and each says whether it can', async () => {
    // Nothing was done yet on a page of its own.
    free.clear();
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
