import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { activity, command, words } from './support/maker.ts';
import { holdPages } from './support/pages.ts';
import { printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** On paper: printed by Chromium, read back by a PDF library. */

const atHand = withMaker({ shared: true, viewport: HIGH });
const desk = () => atHand.page.locator('.paper-view');
const openPrint = async () => {
  await command(atHand.page, 'Print');
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
    expect(letter.map(({ text }) => text).join(' ')).not.toContain('Save as my template');

    await desk().getByLabel('A4').check();
    await desk().getByLabel('Landscape').check();
    const landscape = await printed(atHand.page);
    expect(landscape[0]?.width).toBeCloseTo(297, 0);
    expect(landscape[0]?.height).toBeCloseTo(210, 0);
    for (const page of landscape) {
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
    await page.locator('.ag-row[row-id="0"] .row-number').click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Pin row 1' }).click();
    const head = await words(maker.cellAt({ sheet: '', row: 0, column: 0 }));
    await openPrint();
    const pages = await printed(page);
    expect(pages.length).toBeGreaterThan(2);
    for (const { text } of pages) expect(text.toLowerCase()).toContain(head.toLowerCase());
    const parts = pages.flatMap(({ text }) => text.match(/part \d+/g) ?? []);
    expect(parts).toEqual(Array.from({ length: 150 }, (_, i) => `part ${i}`));
    holdPages(pages, 'Dining table');

    await desk().getByLabel('Formulas instead of results').check();
    await desk().getByLabel('Every sheet').check();
    const whole = (await printed(page)).map(({ text }) => text).join(' ');
    expect(whole).toContain('=APRON_LENGTH(');
    expect(whole.length).toBeGreaterThan(pages.map(({ text }) => text).join(' ').length);
  });

  it('holds every sheet in letters of 9 points, columns that do not fit after the others, heads over numbers', async () => {
    const { page } = atHand;
    await openPrint();
    await desk().getByLabel('Every sheet').check();
    for (const lies of ['Portrait', 'Landscape']) {
      await desk().getByLabel(lies).check();
      for (const edges of [false, true]) {
        await desk().getByLabel('Row and column headings').setChecked(edges);
        holdPages(await printed(page), 'Dining table');
      }
    }
    await desk().getByLabel('Portrait').check();
    await desk().getByLabel('Row and column headings').uncheck();
    const pages = await printed(page);
    // The parts table: each head ends where its numbers end.
    const parts = pages.find(({ words: on }) => on.some(({ text }) => text === 'Parts'));
    const end = (text: string) => {
      const found = parts?.words.find((one) => one.text === text);
      return (found?.x ?? Number.NaN) + (found?.width ?? Number.NaN);
    };
    expect(end('thickness')).toBeCloseTo(end('1 1/2'), 0);
  });

  it("sets decimals by their points, heads over numbers, and leaves no heading alone at a page's foot", async () => {
    const { page } = atHand;
    await openPrint();
    await desk().getByLabel('Every sheet').check();
    const pages = await printed(page);
    const rows = ['Make the base', 'Mill the boards'];
    const days = pages.find(({ words: on }) =>
      rows.every((row) => on.some(({ text }) => text === row)),
    );
    const beside = (row: string) => {
      const at = days?.words.findIndex(({ text }) => text === row) ?? -1;
      const { x = Number.NaN, width = Number.NaN } = days?.words[at + 1] ?? {};
      return { x, end: x + width };
    };
    // 9 h stands under the 3 of 3.2 h, and the head ends where the longest of them do.
    expect(beside('Make the base').x).toBeCloseTo(beside('Mill the boards').x, 0);
    expect(beside('Make the base').end).toBeLessThan(beside('Mill the boards').end - 1);
    const head = days?.words.find(({ text }) => text === 'hands-on');
    expect((head?.x ?? 0) + (head?.width ?? 0)).toBeCloseTo(beside('Mill the boards').end, 0);
    for (const lies of ['Portrait', 'Landscape']) {
      await desk().getByLabel(lies).check();
      for (const edges of [false, true]) {
        await desk().getByLabel('Row and column headings').setChecked(edges);
        const alone = await desk()
          .locator('.pages > .page')
          .evaluateAll((all) =>
            all.flatMap((one) => {
              const last = [...one.querySelectorAll('.sheet-paper tbody tr')].at(-1);
              const first = [...(last?.querySelectorAll('td') ?? [])].find(
                (cell) => cell.textContent !== '',
              );
              return first?.classList.contains('is-heading') ? [first.textContent] : [];
            }),
          );
        expect(alone, lies).toEqual([]);
      }
    }
  });

  it('breaks formulas after commas and signs, where they can be read on', async () => {
    const { page } = atHand;
    await openPrint();
    await desk().getByLabel('Every sheet').check();
    await desk().getByLabel('Formulas instead of results').check();
    const broken = await desk()
      .locator('.pages > .page td:has(wbr)')
      .evaluateAll((cells) =>
        cells.flatMap((cell) => {
          const range = document.createRange();
          const text = [...cell.childNodes].filter((one) => one.nodeType === Node.TEXT_NODE);
          // A piece without a place to break stands on one line; words in quotation marks break at spaces.
          return text.flatMap((piece) => {
            if (piece.textContent?.includes(' ')) return [];
            range.selectNodeContents(piece);
            return range.getClientRects().length > 1 ? [piece.textContent] : [];
          });
        }),
      );
    expect(broken).toEqual([]);
    // Columns that do not fit beside the others come after them.
    expect(await words(desk().locator('.pages'))).toMatch(/Parts, columns \w+ to \w+/);
    expect(await desk().locator('.pages > .page td:has(wbr)').count()).toBeGreaterThan(20);
    await page.keyboard.press('Escape');
  });

  it('says at the head of each page whom it is for, and that is undone like a cell', async () => {
    const { page } = atHand;
    await page.getByRole('button', { name: /^Dining table/ }).click();
    await page.getByRole('button', { name: 'Name, customer, dates' }).click();
    const form = page.getByRole('dialog', { name: 'Name, customer, dates' });
    await form.getByLabel('Customer').fill('An invented household');
    await form.getByLabel('Job number').fill('26-014');
    await form.getByLabel('Due date').fill('2026-05-01');
    await form.getByLabel('Revision').fill('B');
    await form.getByRole('button', { name: 'Save' }).click();
    await form.waitFor({ state: 'detached' });
    await openPrint();
    for (const { text } of await printed(page)) {
      expect(text).toContain('For An invented household');
      expect(text).toContain('Job 26-014 · Revision B · Due 1 May 2026');
    }
    await page.keyboard.press('Escape');
    await page.keyboard.press('ControlOrMeta+z');
    await openPrint();
    const [first] = await printed(page);
    expect(first?.text).not.toContain('invented household');
  });
});

describe('shop sheets of other templates', () => {
  const shop = () => atHand.page.locator('.paper-view');
  /** Begins a built-in template, and turns to its shop sheets on A4, landscape. */
  async function sheetsOf(template: string): Promise<void> {
    const { page, maker } = atHand;
    const dialog = await maker.workbooks();
    await dialog
      .locator('.book-section', { hasText: 'Built-in templates' })
      .getByRole('button', { name: new RegExp(`^(Start a new one|Open): ${template}$`) })
      .click();
    await dialog.waitFor({ state: 'hidden' });
    await page.locator('.top-title', { hasText: template }).waitFor();
    await activity(page, 'Shop sheets');
    await shop().locator('.page').first().waitFor();
    await shop().getByLabel('A4', { exact: true }).check();
    await shop().getByLabel('Landscape').check();
  }

  it('write as large on a sheet of plywood that is made smaller to fit its page', async () => {
    await sheetsOf('Plywood cabinet');
    const pages = await printed(atHand.page);
    expect(pages.some(({ text }) => text.includes('1: Side'))).toBe(true);
    holdPages(pages, 'Plywood cabinet');
  });

  it('leave no buying list alone on a page for what is cut from it', async () => {
    await sheetsOf('Table top');
    holdPages(await printed(atHand.page), 'Table top');
  });

  it('are full before the patterns at full size, each of which takes a page', async () => {
    await sheetsOf('Round table');
    await shop()
      .getByLabel(/^Full-size patterns, \d+ pages$/)
      .check();
    await shop().locator('.page .shop-template').first().waitFor();
    const pages = await printed(atHand.page);
    expect(pages.at(-1)?.text).toMatch(/Sheet \d+ of \d+/);
    holdPages(pages, 'Round table');
  });
});

describe('what is printed of other screens', () => {
  it('is the bench list with every board on the page of its pieces, without what can only be pressed', async () => {
    const { page } = atHand;
    await activity(page, 'Bench list');
    await page.locator('.bench-line').first().waitFor();
    // The browser's own way to print, not that of the workbook's sheets.
    await page.keyboard.press('ControlOrMeta+p');
    expect(await page.locator('.paper-view').count()).toBe(0);
    const pages = await printed(page);
    const all = pages.map(({ text }) => text).join(' ');
    expect(all).toContain('Dining table');
    expect(all).toContain('Board 11 of 11');
    expect(all).not.toContain('By part');
    for (const { words: on } of pages) {
      const lowest = on.reduce((low, one) => (one.y < low.y ? one : low));
      expect(lowest.text).not.toMatch(/Board \d+ of|left$/);
    }
  });

  it('is the drawing with its pieces by name', async () => {
    const { page } = atHand;
    await activity(page, 'Drawing');
    await page.locator('.drawing-page .stage svg').first().waitFor();
    const all = (await printed(page)).map(({ text }) => text).join(' ');
    expect(all).toMatch(/Long apron 2 1 1\/2 3 1\/2 59/);
    expect(all).not.toMatch(/Press a piece|Exploded/);
  });
});
