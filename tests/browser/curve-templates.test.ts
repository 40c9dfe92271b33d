import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { activity } from './support/maker.ts';
import { type PrintedPage, printed } from './support/pdf.ts';
import { onlySheets } from './support/shop-sheets.ts';
import { withMaker } from './support/with-maker.ts';

/** Curves at true size, as the browser prints them. */

const atHand = withMaker();

interface Spot {
  readonly says: string;
  readonly x: number;
  readonly y: number;
}

/** The letters on each sheet of a template, where its drawing says they are; mm. */
const drawn = (): Promise<Spot[][]> =>
  atHand.page.locator('.page .shop-template svg').evaluateAll((all) =>
    all.map((svg) =>
      [...svg.querySelectorAll('text')].flatMap((text) =>
        /^[A-Z]{1,2}$/.test(text.textContent ?? '')
          ? [
              {
                says: text.textContent ?? '',
                x: Number(text.getAttribute('x')),
                y: -Number(text.getAttribute('y')),
              },
            ]
          : [],
      ),
    ),
  );

/** The same letters where they are on a printed page; mm. */
const onPaper = ({ words }: PrintedPage): Spot[] =>
  words.flatMap(({ text, x, y }) => (/^[A-Z]{1,2}$/.test(text) ? [{ says: text, x, y }] : []));

describe('the pattern of a round top', () => {
  it('is printed only where it is asked for, true to a tenth of a millimeter on both papers', async () => {
    const { maker, page } = atHand;
    await maker.type('top_shape', 'round');
    await maker.type('top_length', '42');
    await activity(page, 'Shop sheets');
    const shop = page.locator('.paper-view');
    await shop.locator('.page').first().waitFor();
    expect(await page.locator('.page .shop-template').count()).toBe(0);
    await onlySheets(page, /^Full-size patterns, \d+ pages$/);
    for (const paper of ['US Letter', 'A4']) {
      await shop.getByLabel(paper, { exact: true }).check();
      await page.locator('.page .shop-template').first().waitFor();
      const sheets = await drawn();
      const pages = (await printed(page)).filter((one) => one.text.includes('Sheet '));
      expect(pages).toHaveLength(sheets.length);
      // The quarter of a circle of 42 in is wider than any of these papers.
      expect(sheets.length).toBeGreaterThan(3);
      let held = 0;
      for (const [i, spots] of sheets.entries()) {
        const there = pages[i];
        if (there === undefined) throw new Error(`sheet ${i + 1} was not printed`);
        const found = onPaper(there);
        expect(found.map(({ says }) => says).sort()).toEqual(spots.map(({ says }) => says).sort());
        const [first, ...others] = spots;
        const at = found.find(({ says }) => says === first?.says);
        for (const other of others) {
          const its = found.find(({ says }) => says === other.says);
          if (first === undefined || at === undefined || its === undefined) throw new Error('gone');
          expect(Math.abs(its.x - at.x - (other.x - first.x))).toBeLessThan(0.1);
          expect(Math.abs(its.y - at.y - (other.y - first.y))).toBeLessThan(0.1);
          held += 1;
        }
      }
      expect(held).toBeGreaterThan(sheets.length);
    }
  });
});

describe('the pattern of a chosen part', () => {
  it('is saved for drafting programs and as a picture, and of a part without a curve there is none', async () => {
    const { maker, page } = atHand;
    await maker.type('top_shape', 'round');
    await maker.type('top_length', '42');
    await activity(page, 'Drawing');
    const aside = page.locator('.drawing-aside');
    await aside.getByRole('button', { name: 'Leg', exact: true }).click();
    await aside.getByText(/^4 pieces/).waitFor();
    const save = (ending: string) =>
      aside.getByRole('button', { name: `Save pattern as ${ending}` });
    expect(await save('DXF').count()).toBe(0);
    await aside.getByRole('button', { name: 'Top', exact: true }).click();
    for (const [ending, sign] of [
      ['DXF', /\bCIRCLE\b|\bARC\b/],
      ['SVG', /^<svg /],
    ] as const) {
      const [file] = await Promise.all([page.waitForEvent('download'), save(ending).click()]);
      expect(file.suggestedFilename()).toBe(`dining-table-top-pattern.${ending.toLowerCase()}`);
      expect(readFileSync(await file.path(), 'utf8')).toMatch(sign);
    }
  });
});
