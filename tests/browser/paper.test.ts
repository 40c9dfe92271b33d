import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** On paper: printed by Chromium, read back by a PDF library. */

const atHand = withMaker();
const desk = () => atHand.page.getByRole('dialog', { name: 'Print' });
const openPrint = async () => {
  await atHand.page.getByRole('button', { name: 'Print' }).click();
  await desk().locator('.page').first().waitFor();
};

describe('a sheet on paper', () => {
  it('G62 comes out as it is seen, on the paper that was chosen', async () => {
    const price = await atHand.maker.shows('price');
    await atHand.maker.go('price');
    await openPrint();
    const letter = await printed(atHand.page);
    expect(letter.length).toBe(await desk().locator('.page').count());
    expect(letter[0]?.width).toBeCloseTo(215.9, 0);
    expect(letter[0]?.height).toBeCloseTo(279.4, 0);
    expect(letter.map(({ text }) => text).join(' ')).toContain(price);
    // What is beside the pages does not come out.
    expect(letter.map(({ text }) => text).join(' ')).not.toContain('Save as mine');

    await desk().getByLabel('A4').check();
    await desk().getByLabel('On its side').check();
    const lying = await printed(atHand.page);
    expect(lying[0]?.width).toBeCloseTo(297, 0);
    expect(lying[0]?.height).toBeCloseTo(210, 0);
    for (const page of lying) {
      for (const { x, width } of page.words) {
        expect(x).toBeGreaterThan(12);
        expect(x + width).toBeLessThan(297 - 12);
      }
    }
    await atHand.page.keyboard.press('Escape');
    expect(await desk().count()).toBe(0);
    await expect
      .poll(() => atHand.page.evaluate(() => document.activeElement?.className ?? ''))
      .toContain('ag-cell');
  });

  it('G62 breaks between rows, repeats the rows that stay in view, and shows formulas on request', async () => {
    const { page, maker } = atHand;
    await maker.cellAt({ sheet: '', row: 33, column: 0 }).click();
    await page.evaluate(() => {
      const clipboard = new DataTransfer();
      const lines = Array.from({ length: 150 }, (_, i) => `part ${i}\t${i}`);
      clipboard.setData('text/plain', lines.join('\n'));
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: clipboard, bubbles: true, cancelable: true }),
      );
    });
    await expect.poll(() => words(page.locator('.selection-line'))).toContain('150 rows');
    await page.keyboard.press('ControlOrMeta+Home');
    await maker.cellAt({ sheet: '', row: 0, column: 0 }).click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Keep rows up to row 1 in view' }).click();
    const head = await words(maker.cellAt({ sheet: '', row: 0, column: 0 }));
    await openPrint();
    const pages = await printed(page);
    expect(pages.length).toBeGreaterThan(2);
    for (const { text } of pages) expect(text.toLowerCase()).toContain(head.toLowerCase());
    const parts = pages.flatMap(({ text }) => text.match(/part \d+/g) ?? []);
    expect(parts).toEqual(Array.from({ length: 150 }, (_, i) => `part ${i}`));
    expect(pages.at(-1)?.text).toContain(`page ${pages.length} of ${pages.length}`);

    await desk().getByLabel('Formulas instead of results').check();
    await desk().getByLabel('Every sheet').check();
    const whole = (await printed(page)).map(({ text }) => text).join(' ');
    expect(whole).toContain('=APRON_LENGTH(');
    expect(whole.length).toBeGreaterThan(pages.map(({ text }) => text).join(' ').length);
  });
});
