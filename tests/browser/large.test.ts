import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { longBook } from '../bench/long-book.mjs';
import { documentOf, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** A workbook in which one number is in every formula, on a machine that takes long over it. */

const atHand = withMaker();

const ROWS = 9_000;

/** @param copies how often the last column stands in it, each in numbers of its own */
const book = (copies: number): string =>
  longBook({
    title: 'Long to work out',
    sheets: ['Long'],
    rows: ROWS,
    line: (row) => [
      row === 1 ? 1 : undefined,
      row === 1 ? '=[c1.$r1]*2' : `=[c2.r${row - 1}]+[c1.$r1]`,
      // One that is not compiled has the whole workbook worked out the long way.
      row === 1 ? '=[c2.r1]*IMABS("6+8i")' : `=[c2.r${row}]*10`,
      ...Array.from({ length: copies }, (_, i) => `=[c${i + 3}.r${row}]+1`),
    ],
  });

const cell = (row: number, column: number) => atHand.maker.cellAt({ sheet: 's1', row, column });
const press = (keys: string) => atHand.page.keyboard.press(keys);

/** Notes within the page what is said: it may come and go between two looks from here. */
const noted = (selector: string) =>
  atHand.page.evaluateHandle((where) => {
    const said = new Set<string>();
    new MutationObserver(() => {
      said.add(document.querySelector(where)?.textContent ?? '');
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
    return said;
  }, selector);

/**
 * Opens it in a page that is slow: its processor, and since that holds nothing back where others want it too, its
 * clocks, by which stretches of work are over and waits are noticed, go as much faster.
 * @param slower how many times slower than this machine
 * @param copies see {@link book}
 * @returns sets the pace of the processor anew
 */
async function openLong(slower: number, copies = 0): Promise<(slower: number) => Promise<void>> {
  const { page, maker } = atHand;
  await maker.workbooks();
  const buffer = Buffer.from(book(copies));
  const file = { name: 'long.kerfbook.json', mimeType: 'application/json', buffer };
  await page.getByLabel('Workbook file').setInputFiles(file);
  await page.locator('.top-title', { hasText: 'Long to work out' }).waitFor();
  const devtools = await page.context().newCDPSession(page);
  const pace = async (rate: number): Promise<void> => {
    await devtools.send('Emulation.setCPUThrottlingRate', { rate });
  };
  await page.evaluate((times) => {
    const now = performance.now.bind(performance);
    const began = Date.now();
    const at = now();
    performance.now = () => now() * times;
    Date.now = () => began + (now() - at) * times;
  }, slower);
  await pace(slower);
  return pace;
}

describe('a workbook that takes long to work out', () => {
  it('takes the next entries while it does, in their order, and comes to what they say', async () => {
    await openLong(6);
    const told = await noted('main > .visually-hidden[role="status"]');
    await cell(0, 0).click();
    await atHand.page.keyboard.type('5');
    await press('Enter');
    await press('ArrowUp');
    await atHand.page.keyboard.type('7');
    await press('Enter');
    // What is typed meanwhile is neither lost nor late.
    await atHand.page.keyboard.type('words');
    await press('Enter');
    await expect.poll(() => words(cell(1, 0))).toBe('words');
    // Told with what was typed after it, or before that where the machine is quick.
    await expect
      .poll(() => told.evaluate((said) => [...said]), { timeout: 30_000 })
      .toContainEqual(expect.stringMatching(/more results\.$/));
    await expect.poll(() => words(cell(2, 1)), { timeout: 30_000 }).toBe('28');
    expect(await words(cell(0, 0))).toBe('7');
    await press('ControlOrMeta+End');
    expect(await words(cell(ROWS - 1, 2))).toBe('630070');
    await press('ControlOrMeta+z');
    await press('ControlOrMeta+z');
    await expect.poll(() => words(cell(ROWS - 1, 2)), { timeout: 30_000 }).toBe('450050');
  });

  it('says that it is at work, copies whole results, and keeps all of it', async () => {
    // Long enough for the sign on any machine.
    const pace = await openLong(20, 2);
    const signs = await noted('main > .working');
    await cell(0, 0).click();
    await atHand.page.keyboard.type('3');
    await press('Enter');
    await expect
      .poll(() => signs.evaluate((said) => [...said]), { timeout: 30_000 })
      .toContain('Working out what follows from the last change.');
    await atHand.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await cell(5, 2).click();
    await press('ControlOrMeta+c');
    expect(await atHand.page.evaluate(() => navigator.clipboard.readText())).toBe('210');
    await atHand.page
      .getByText('Working out what follows from the last change.')
      .waitFor({ state: 'detached' });
    await pace(1);
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    expect(await words(cell(5, 2))).toBe('210');
    await atHand.maker.workbooks();
    const [download] = await Promise.all([
      atHand.page.waitForEvent('download'),
      atHand.page
        .getByRole('dialog')
        .getByRole('listitem')
        .filter({ hasText: 'open now' })
        .getByRole('button', { name: /^Save a copy as a file/ })
        .click(),
    ]);
    const kept = documentOf(readFileSync(await download.path(), 'utf8'));
    expect(kept.sheets[0]?.rows).toHaveLength(ROWS);
    expect(kept.sheets[0]?.rows[0]?.cells?.c1?.value).toBe(3);
  });
});
