import { describe, expect, it } from 'vitest';
import { command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Where the keys go, and what one is told before one types: no key is lost, no question asked in vain. */

const atHand = withMaker({ shared: true });
const MOD = 'ControlOrMeta';

const dialog = () => atHand.page.locator('dialog[open]');
const press = (key: string) => atHand.page.keyboard.press(key);
const button = (name: string | RegExp) => atHand.page.getByRole('button', { name }).first();

/** What has the focus, in words: its label, or its text. */
const focused = (): Promise<string> =>
  atHand.page.evaluate(() => {
    const element = document.activeElement;
    if (!(element instanceof HTMLElement)) return '';
    const label =
      element instanceof HTMLInputElement ||
      element instanceof HTMLTextAreaElement ||
      element instanceof HTMLSelectElement
        ? (element.labels?.[0]?.textContent ?? element.getAttribute('aria-label') ?? '')
        : (element.textContent ?? '');
    return `${element.localName} ${label.split('\n')[0]?.trim() ?? ''}`;
  });
const inGrid = (): Promise<boolean> =>
  atHand.page.evaluate(() => document.activeElement?.classList.contains('ag-cell') === true);

/** Opens the menu of the current cell and chooses from it. */
async function choose(item: string): Promise<void> {
  await press('Shift+F10');
  await atHand.page.getByRole('menuitem', { name: item }).click();
}

/** Chooses from the menu of the current sheet, by key. */
async function chooseOfSheet(item: string): Promise<void> {
  await atHand.page.locator('.sheet-list [aria-current]').focus();
  await press('Shift+F10');
  await atHand.page.getByRole('menuitem', { name: item }).press('Enter');
}

type Way = readonly [title: string, open: () => Promise<void>, focus: string];

const WAYS: readonly Way[] = [
  ['Workbooks', () => command(atHand.page, 'Workbooks'), 'h2 Workbooks'],
  ['Save as my template', () => command(atHand.page, 'Save as my template'), 'input Template name'],
  ['Versions', () => command(atHand.page, 'Versions'), 'h2 Versions'],
  ['Functions', () => command(atHand.page, 'Functions'), 'input Search for'],
  ['Names', () => command(atHand.page, 'Names'), 'input Find'],
  ['Find', () => press(`${MOD}+f`), 'input What to find'],
  ['Find and replace', () => press(`${MOD}+h`), 'input Find'],
  ['Keys', () => command(atHand.page, 'Keys'), 'h2 Keys'],
  ['New table', () => chooseOfSheet('New table …'), 'h2 New table'],
  ['Rename the sheet Brief', () => chooseOfSheet('Rename …'), 'input Sheet name'],
  ['Delete the sheet Brief?', () => chooseOfSheet('Delete …'), 'h2 Delete the sheet Brief?'],
  ['New check', () => button('New check').click(), 'input Name'],
  ['Edit check', () => button(/^Edit the check/).click(), 'input Name'],
  ['Name B6', () => choose('Name …'), 'input Name in formulas'],
  ['Remark on Length of the top', () => choose('Remark …'), 'textarea Shown with the cell'],
  ['Format', () => choose('Format …'), 'select Kind'],
  ['New check', () => choose('Add a check …'), 'input Name'],
  ['Delete row 6?', () => choose('Delete row 6'), 'h2 Delete row 6?'],
];

describe('a dialog', () => {
  it('Y29 gives the keys to what one types into, and never to the button that closes it', async () => {
    const { page, maker } = atHand;
    for (const [title, open, focus] of WAYS) {
      await maker.go('top_length');
      await open();
      await page.getByRole('dialog', { name: title }).waitFor();
      await expect.poll(async () => [title, await focused()]).toEqual([title, focus]);
      if (focus.startsWith('input')) {
        // What stood there is chosen, so that typing is not added to it.
        await page.keyboard.type('a');
        expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe(
          'a',
        );
      }
      await press('Escape');
      // A field to search in is emptied first.
      if (title === 'Functions' || title === 'Names') await press('Escape');
      await dialog().waitFor({ state: 'detached' });
    }
  });

  it('asks for the name of a new workbook, which then takes what is typed at once', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await page.getByRole('button', { name: 'New blank workbook' }).click();
    await expect.poll(focused).toBe('input Workbook name');
    await page.keyboard.type('Stool');
    await press('Enter');
    await page.locator('.top-title', { hasText: 'Stool' }).waitFor();
    await expect.poll(inGrid).toBe(true);
    await page.keyboard.type('42');
    await press('Enter');
    expect(await words(maker.cellAt({ sheet: '', row: 0, column: 0 }))).toBe('42');
  });

  it('gives the keys to the grid where another workbook is opened', async () => {
    const { page, maker } = atHand;
    await command(atHand.page, 'Save as my template');
    await expect.poll(focused).toBe('input Template name');
    await page.keyboard.type('Mine');
    await press('Enter');
    // One stays in the workbook, and the way into the template is told over its cells.
    const saved = page.locator('.offer', { hasText: 'Saved as your template "Mine".' });
    await saved.waitFor();
    expect(await words(saved)).toContain('You are still in "Dining table".');
    await expect.poll(inGrid).toBe(true);
    await saved.getByRole('button', { name: 'Open "Mine"' }).click();
    await page.locator('.top-title', { hasText: 'Mine' }).waitFor();
    await maker.workbooks();
    await page.getByRole('button', { name: 'Open: Dining table', exact: true }).click();
    await page.locator('.top-title', { hasText: /^Dining table$/ }).waitFor();
    await expect.poll(inGrid).toBe(true);
  });
});

describe('the name box', () => {
  const box = () => atHand.page.locator('.go-to input');

  it('Y34 lets go after Enter: keys go to the cell that was gone to, on any sheet', async () => {
    const { page, maker } = atHand;
    await box().click();
    await page.keyboard.type('top_length');
    await press('Enter');
    await expect.poll(inGrid).toBe(true);
    await page.keyboard.type('96');
    await press('Enter');
    expect(await maker.shows('top_length')).toBe('96');

    // The cell one is on already.
    await maker.go('top_length');
    await box().click();
    await page.keyboard.type('B6');
    await press('Enter');
    await expect.poll(inGrid).toBe(true);
    await press('ArrowDown');
    await expect.poll(() => box().inputValue()).toBe('top_width');

    await box().click();
    await page.keyboard.type('Cost!A1');
    await press('Enter');
    await page.locator('.sheet-list [aria-current]', { hasText: 'Cost' }).waitFor();
    await expect.poll(inGrid).toBe(true);
    await press('ArrowDown');
    await expect.poll(() => box().inputValue()).toBe('A2');
  });

  it('keeps what is written in it while a sheet that was turned to is still being drawn', async () => {
    const { page } = atHand;
    // Both before the grid of that sheet is there, as on a slow machine.
    await page.evaluate(() => {
      document.querySelector<HTMLElement>('.sheet-list [data-sheet="s8"] > button')?.click();
      document.querySelector<HTMLElement>('.go-to input')?.focus();
    });
    await press('ControlOrMeta+a');
    await page.keyboard.type('top_len');
    await page.locator('.sheet-list [aria-current]', { hasText: 'Cost' }).waitFor();
    await page
      .getByRole('treegrid', { name: 'Sheet Cost' })
      .or(page.getByRole('grid', { name: 'Sheet Cost' }))
      .locator('.ag-cell')
      .first()
      .waitFor();
    await page.keyboard.type('gth');
    expect(await box().inputValue()).toBe('top_length');
    await press('Enter');
    await expect.poll(inGrid).toBe(true);
    expect(await box().inputValue()).toBe('top_length');
  });

  it('lets go after Escape, and forgets what was typed when it is left', async () => {
    const { page, maker } = atHand;
    await maker.go('top_length');
    await box().click();
    await page.keyboard.type('nowhere');
    await press('Escape');
    await expect.poll(inGrid).toBe(true);
    expect(await box().inputValue()).toBe('top_length');
    // What names no cell stays to be mended as long as one is in the box, and no longer.
    await box().click();
    await page.keyboard.type('nowhere');
    await press('Enter');
    expect(await words(page.locator('.go-unknown'))).toContain('There is no cell called nowhere.');
    await maker.cellAt(maker.place('top_width')).click();
    await expect.poll(() => box().inputValue()).toBe('top_width');
    expect(await page.locator('.go-unknown').count()).toBe(0);
  });
});

describe('a locked workbook', () => {
  it('refuses before it asks: no dialog opens to end in a refusal', async () => {
    const { page, maker } = atHand;
    await command(atHand.page, 'Lock formulas');
    const says = /locked, and only its inputs can be changed\. Choose "Unlock formulas"/;
    for (const open of [
      () => choose('Format …'),
      () => choose('Name …'),
      () => choose('Remark …'),
      () => choose('Add a check …'),
      () => choose('Delete row 6'),
      () => choose('Delete column B'),
      () => chooseOfSheet('New table …'),
      () => chooseOfSheet('Rename …'),
      () => button('New check').click(),
      () => button(/^Edit the check/).click(),
    ]) {
      await maker.go('top_length');
      await open();
      await expect.poll(() => words(page.locator('.refused'))).toMatch(says);
      // Long enough for a dialog that comes late.
      await page.waitForTimeout(150);
      expect(await dialog().count()).toBe(0);
      await page.locator('.refused').getByRole('button').click();
      await page.locator('.refused').waitFor({ state: 'detached' });
    }
    await command(atHand.page, 'Names');
    await dialog().getByRole('button', { name: 'top_length', exact: true }).waitFor();
    expect(
      await dialog()
        .getByRole('button', { name: /^Rename/ })
        .count(),
    ).toBe(0);
    await press('Escape');
    await command(atHand.page, 'Functions');
    await dialog().getByRole('searchbox').waitFor();
    expect(await dialog().getByRole('button', { name: 'My woods' }).count()).toBe(0);
  });
});

describe('what is said of a cell', () => {
  it('counts checks and paper among those who use it', async () => {
    const { page } = atHand;
    await command(atHand.page, 'Names');
    const row = (name: string) =>
      dialog().locator('li', { has: page.getByRole('button', { name, exact: true }) });
    // Read by a check alone, by a shop sheet alone, and shown only.
    expect(await words(row('knee_room_needed'))).toContain('the check "Knees fit under the apron"');
    expect(await words(row('grit_steps'))).toContain('used by the finish sheet');
    expect(await words(row('cup_free'))).toContain('not used');
    await dialog().getByLabel('Only unused names').check();
    await expect.poll(() => row('knee_room_needed').count()).toBe(0);
    expect(await row('cup_free').count()).toBe(1);
    await press('Escape');
    await atHand.maker.go('knee_room_needed');
    await expect
      .poll(() => words(atHand.maker.thisCell))
      .toContain('Used by the check "Knees fit under the apron".');
  });

  it('has each button say which name it is about', async () => {
    await command(atHand.page, 'Names');
    await dialog().getByRole('button', { name: 'Rename top_length', exact: true }).click();
    await expect.poll(focused).toBe('input New name for top_length');
  });
});
