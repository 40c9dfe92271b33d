import { describe, expect, it } from 'vitest';
import { violations } from './support/axe.ts';
import { activity, command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** A list as a maker has it becomes rows of a table: read beside the text, put right, added by one press. */

const atHand = withMaker();

const LIST = `Side table
4 legs 1 1/2 x 1 1/2 x 23 walnut
Apron, long – 2 pcs – 3/4 × 4 × 20 – walnut
Apron, short 2 @ 3/4 x 4 x 12
Glue 1 bottle`;

/** Asks for it in the menu. */
async function ask(says: string) {
  const { page } = atHand;
  await command(page, says);
  const dialog = page.getByRole('dialog', { name: says });
  await dialog.waitFor();
  return dialog;
}

async function blank(): Promise<void> {
  const { maker, page } = atHand;
  const dialog = await maker.workbooks();
  await dialog.getByRole('button', { name: 'New blank workbook' }).click();
  await page.getByLabel('Workbook name').fill('Side table');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.locator('.top-title', { hasText: 'Side table' }).waitFor();
}

const cellsWith = (text: string) => atHand.page.locator('.ag-row .ag-cell', { hasText: text });

/** Pastes as another program would have left it on the clipboard. */
async function pasteFrom(text: string): Promise<void> {
  await atHand.page.evaluate((pasted) => {
    const clipboard = new DataTransfer();
    clipboard.setData('text/plain', pasted);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: clipboard, bubbles: true, cancelable: true }),
    );
  }, text);
}

describe('parts from a text', () => {
  it('are read beside it, changed, added by one press, cut, and gone with one undo', async () => {
    const { page } = atHand;
    await blank();
    const dialog = await ask('Parts from a text');
    // The text takes the keys at once.
    await page.keyboard.insertText(LIST);
    const status = dialog.getByRole('status');
    await expect.poll(() => words(status)).toBe('3 parts read, 1 line not read');
    expect(await words(dialog.getByRole('region', { name: 'Lines not read' }))).toContain(
      'Glue 1 bottle',
    );
    const length = dialog.getByLabel('length of legs, line 2');
    expect(await length.inputValue()).toBe('23');
    await length.fill('24 1/4');
    await length.press('Enter');
    expect(await dialog.isVisible()).toBe(true);
    expect(await violations(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Add 3 parts' }).click();
    await dialog.waitFor({ state: 'detached' });
    await expect
      .poll(() => words(page.locator('.did, .beside').first()))
      .toContain('Added 3 parts');
    await activity(page, 'Shop sheets');
    const cut = page.locator('.app-page').getByRole('table').filter({ hasText: 'legs' }).first();
    expect(await words(cut)).toMatch(/legs .*24 1\/4/);
    expect(await words(cut)).toContain('Apron, short');
    await activity(page, 'Workbook');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => cellsWith('legs').count()).toBe(0);
    await activity(page, 'Shop sheets');
    await expect.poll(() => page.locator('.app-page').getByText('Apron, short').count()).toBe(0);
  });

  it('are drawn where the list says where they go', async () => {
    const { page, maker } = atHand;
    await blank();
    const dialog = await ask('Parts from a text');
    await page.keyboard.insertText(
      'part;qty;T;W;L;place;x;y;z\nTop;1;3/4;18;24;;0;0;22 1/4\nleg;4;1 1/2;1 1/2;22 1/4;four corners of Top;1;1;',
    );
    await dialog.getByRole('button', { name: 'Add 2 parts' }).click();
    await dialog.waitFor({ state: 'detached' });
    await maker.drawn('plan', 24);
  });

  it('refuse an entry that is no size at its field, and leave a row out that is not wanted', async () => {
    const { page } = atHand;
    await blank();
    const dialog = await ask('Parts from a text');
    await page.keyboard.insertText(LIST);
    const width = dialog.getByLabel('width of Apron, long, line 3');
    await width.fill('four');
    await expect.poll(() => width.getAttribute('aria-invalid')).toBe('true');
    expect(await dialog.getByRole('button', { name: 'Add 3 parts' }).isDisabled()).toBe(true);
    await dialog.getByLabel('Add Apron, long, line 3').uncheck();
    await dialog.getByRole('button', { name: 'Add 2 parts' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await page.locator('.ag-row .ag-cell', { hasText: 'Apron, short' }).count()).toBe(1);
    expect(await page.locator('.ag-row .ag-cell', { hasText: 'Apron, long' }).count()).toBe(0);
  });

  it('ask what bare numbers are in, and read them so', async () => {
    const { page } = atHand;
    await blank();
    const dialog = await ask('Parts from a text');
    await page.keyboard.insertText('4 legs 38 x 38 x 180');
    expect(await words(dialog.getByRole('group', { name: /without a unit/ }))).toContain(
      'Check that this is so.',
    );
    await dialog.getByLabel('millimeters').check();
    await expect
      .poll(() => dialog.getByLabel('length of legs, line 1').inputValue())
      .toBe('180 mm');
  });

  it('are offered where a list is pasted into the table, and taken only then', async () => {
    const { page } = atHand;
    await blank();
    const dialog = await ask('Parts from a text');
    await page.keyboard.insertText('Top 1 x 20 x 30');
    await dialog.getByRole('button', { name: 'Add 1 part' }).click();
    await dialog.waitFor({ state: 'detached' });
    const top = page.locator('.ag-row .ag-cell', { hasText: /^Top$/ });
    await top.click();
    await page.keyboard.press('ArrowDown');
    await pasteFrom('4 legs 1 1/2 x 1 1/2 x 23\n2 aprons 3/4 x 4 x 20');
    const pasted = page.locator('.ag-row .ag-cell', { hasText: '4 legs 1 1/2 x 1 1/2 x 23' });
    await expect.poll(() => pasted.count()).toBe(1);
    await page.getByRole('button', { name: 'Read it as parts' }).click();
    const again = page.getByRole('dialog', { name: 'Parts from a text' });
    await again.getByRole('button', { name: 'Add 2 parts' }).click();
    await again.waitFor({ state: 'detached' });
    await expect.poll(() => pasted.count()).toBe(0);
    expect(await page.locator('.ag-row .ag-cell', { hasText: /^aprons$/ }).count()).toBe(1);
  });
});

describe('boards from a text', () => {
  it('begin a stock table', async () => {
    const { page } = atHand;
    await blank();
    const dialog = await ask('Boards from a text');
    await page.keyboard.insertText('8/4 walnut 8" x 10\' - 5 boards $9.50/bf');
    expect(await dialog.getByLabel(/^price of /).inputValue()).toBe('126.67');
    await dialog.getByRole('button', { name: 'Add 1 board' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await page.locator('.ag-row .ag-cell', { hasText: '$126.67' }).count()).toBe(1);
  });
});
