import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Furniture from nothing: a parts table is begun, and parts are placed in words. */

const atHand = withMaker({ shared: true });

const cell = (row: number, column: number) => atHand.maker.cellAt({ sheet: '', row, column });

/** Types a row from its first column on, a Tab behind each entry. */
async function typeRow(row: number, entries: readonly string[]): Promise<void> {
  const { page } = atHand;
  await cell(row, 0).click();
  for (const entry of entries) {
    await page.keyboard.type(entry);
    await page.keyboard.press('Tab');
  }
}

/** A new workbook with an empty parts table. */
async function begun(): Promise<void> {
  const { page, maker } = atHand;
  await maker.workbooks();
  await page.getByRole('button', { name: 'New blank workbook' }).click();
  await page.getByLabel('Workbook name').fill('Table');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.locator('.top-title', { hasText: 'Table' }).waitFor();
  await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
  await page.getByRole('menuitem', { name: 'New table …' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Start a parts table' }).click();
  await page.getByRole('button', { name: /^Parts/ }).waitFor();
}

/** All of the page: what is said of parts stands beside the drawing, wherever that is. */
const side = () => atHand.page.locator('body');
const drawn = () => atHand.page.locator('.kb-plan .kb-piece').count();

/** The first row under the heads of a table that was begun. */
const FIRST = 3;
const PLACE = 7;

describe('a table from nothing', () => {
  it('Y47 is drawn as its parts are placed in words, and follows them', async () => {
    const { page } = atHand;
    await begun();

    // A row that is being filled in says what it still needs.
    await typeRow(FIRST, ['Top', '1']);
    await expect
      .poll(() => words(side()))
      .toContain('Top still needs a thickness, a width and a length.');
    await typeRow(FIRST, ['Top', '1', '1', '30', '60', 'white oak', 'length', 'on Leg']);
    await expect
      .poll(() => words(side()))
      .toContain('The place of Top names "Leg", and no part is called that.');

    await typeRow(FIRST + 1, ['Leg', '4', '2 1/2', '2 1/2', '28', 'white oak', 'length']);
    await page.keyboard.type('four corners of Top');
    await page.keyboard.press('Tab');
    await expect.poll(drawn).toBe(5);
    expect(await words(side())).not.toMatch(/place of|still needs/);

    // As far in as x and y say, on all four corners.
    await page.keyboard.type('4');
    await page.keyboard.press('Tab');
    await page.keyboard.type('3');
    await page.keyboard.press('Tab');
    const legs = () =>
      page.locator('.kb-plan .kb-piece').evaluateAll((pieces) =>
        pieces
          .map((piece) =>
            ['x', 'y', 'width'].map((side) => Number(piece.getAttribute(side)) / 25.4),
          )
          .filter(([, , width]) => width !== undefined && width < 3)
          .map(([x = 0, y = 0]) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100]),
      );
    const spread = (values: readonly number[]): number =>
      Math.round((Math.max(...values) - Math.min(...values)) * 100) / 100;
    // 60 less 2 × 4 and a leg of 2 1/2 lie from leg to leg; 30 less 2 × 3 and a leg.
    await expect
      .poll(async () => {
        const at = await legs();
        return [at.length, spread(at.map(([x = 0]) => x)), spread(at.map(([, y = 0]) => y))];
      })
      .toEqual([4, 49.5, 21.5]);

    // A slip is told at its cell with the nearest way, and put right there.
    await cell(FIRST + 1, PLACE).click();
    await page.keyboard.type('four cornrs of Top');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(side())).toContain('Nearest: "four corners of Top".');
    // It looks wrong by its shape, not only like a cell that has just changed.
    const mark = () =>
      cell(FIRST + 1, PLACE).evaluate((one) => {
        const { clipPath, inlineSize } = getComputedStyle(one, '::before');
        return [clipPath.startsWith('polygon'), Number.parseFloat(inlineSize) > 8];
      });
    await expect.poll(mark).toEqual([true, true]);
    await cell(FIRST + 1, PLACE).click();
    expect(await words(page.locator('.cell-fold .trouble'))).toContain('four cornrs of Top');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(drawn).toBe(5);
    await expect.poll(mark).toEqual([false, false]);

    // Each of the four goes to the one row: all of a row are marked together.
    const marked = page.locator('.kb-plan .kb-piece.is-current');
    await cell(FIRST + 1, 0).click();
    await expect.poll(() => marked.count()).toBe(4);
  });

  it('Y46 offers ways to place a part while it is written, and draws it as it is typed', async () => {
    const { page } = atHand;
    const list = page.getByRole('listbox', { name: 'Ways to place a part' });
    const offered = () => list.getByRole('option').locator('strong').allTextContents();
    await begun();
    await typeRow(FIRST, ['Top', '1', '1', '30', '60', 'white oak', 'length']);
    await page.keyboard.press('Tab');
    await page.keyboard.type('0');
    await page.keyboard.press('Enter');
    await expect.poll(drawn).toBe(1);
    await typeRow(FIRST + 1, ['Leg', '4', '2 1/2', '2 1/2', '28', 'white oak', 'length']);
    await page.keyboard.type('f');
    await expect
      .poll(offered)
      .toEqual(['four corners of Top', 'front and back of Top', 'front of Top']);
    // A way is taken from the list, and what is drawn is drawn before the entry is left.
    await page.keyboard.press('Enter');
    expect(await atHand.maker.editorText()).toBe('four corners of Top');
    await expect.poll(drawn).toBe(5);
    await list.waitFor({ state: 'hidden' });
    // Between two words of the next phrase the drawing stays; Escape leaves both as they were.
    await page.keyboard.type(', un');
    await expect.poll(offered).toEqual(['under Top']);
    expect(await drawn()).toBe(5);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await expect.poll(drawn).toBe(1);
    // What can be read as it is is taken over as it stands.
    await page.keyboard.type('both ends');
    await expect.poll(async () => (await offered()).at(0)).toBe('both ends of Top');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(cell(FIRST + 1, PLACE))).toBe('both ends');
  });

  it('Y45 names its heads where they stand, and keeps the names in view', async () => {
    const { page } = atHand;
    await begun();
    await cell(FIRST - 1, PLACE).click();
    await expect
      .poll(() => words(side()))
      .toContain('Where it goes, in words: "four corners of Top"');
    expect(
      await cell(FIRST - 1, PLACE)
        .locator('[title]')
        .getAttribute('title'),
    ).toContain('Where it goes, in words');
    await cell(FIRST, 2).hover();
    await page.mouse.wheel(900, 0);
    await cell(FIRST, 13).waitFor();
    const frame = await page.locator('.ag-root').boundingBox();
    const name = await cell(FIRST, 0).boundingBox();
    expect(name?.x).toBeGreaterThanOrEqual(frame?.x ?? Number.NaN);
    expect(name?.x).toBeLessThan((frame?.x ?? 0) + 100);
  });
});
