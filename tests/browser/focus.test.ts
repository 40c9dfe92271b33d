import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Where the keys go, and what one is told before one types: no key is lost, no question asked in vain. */

const atHand = withMaker();
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

type Way = readonly [title: string, open: () => Promise<void>, focus: string];

const WAYS: readonly Way[] = [
  ['Workbooks', () => button('Workbooks').click(), 'h2 Workbooks'],
  ['Save as a template of mine', () => button('Save as mine').click(), 'input Its name'],
  ['Versions', () => button('Versions').click(), 'h2 Versions'],
  ['Functions', () => button('Functions').click(), 'input Looking for'],
  ['Names', () => button('Names').click(), 'input Looking for'],
  ['Find and replace', () => press(`${MOD}+f`), 'input Find'],
  ['Keys', () => button('Keys').click(), 'h2 Keys'],
  ['A new table', () => button(/^New table/).click(), 'h2 A new table'],
  ['Sheet Brief', () => button(/^This sheet/).click(), 'input Its name'],
  ['A new check', () => button('New check').click(), 'input What it is called'],
  ['Change a check', () => button(/^Change the check/).click(), 'input What it is called'],
  ['Drawing', () => button('Larger').click(), 'h2 Drawing'],
  ['Name of B6', () => choose('Name …'), 'input What formulas call it'],
  ['Remark on top_length', () => choose('Remark …'), 'textarea Shown with the cell'],
  [
    'What it is and how it looks',
    () => choose('What it is and how it looks …'),
    'select What it is',
  ],
  ['A new check', () => choose('Mark by a check …'), 'input What it is called'],
  ['Delete row 6?', () => choose('Delete row 6'), 'h2 Delete row 6?'],
];

describe('a dialog', () => {
  it('gives the keys to what one types into, and never to the button that closes it', async () => {
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
      if (focus === 'input Looking for') await press('Escape');
      await dialog().waitFor({ state: 'detached' });
    }
  });

  it('asks for the name of a new workbook, which then takes what is typed at once', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await page.getByRole('button', { name: 'New empty workbook' }).click();
    await expect.poll(focused).toBe('input Its name');
    await page.keyboard.type('Stool');
    await press('Enter');
    await page.locator('.book-title', { hasText: 'Stool' }).waitFor();
    await expect.poll(inGrid).toBe(true);
    await page.keyboard.type('42');
    await press('Enter');
    expect(await words(maker.cellAt({ sheet: '', row: 0, column: 0 }))).toBe('42');
  });

  it('gives the keys to the grid where another workbook is opened', async () => {
    const { page, maker } = atHand;
    await button('Save as mine').click();
    await expect.poll(focused).toBe('input Its name');
    await page.keyboard.type('Mine');
    await press('Enter');
    await page.locator('.book-title', { hasText: 'Mine' }).waitFor();
    await expect.poll(inGrid).toBe(true);
    await maker.workbooks();
    await page.getByRole('button', { name: 'Open: Dining table', exact: true }).click();
    await page.locator('.book-title', { hasText: /^Dining table$/ }).waitFor();
    await expect.poll(inGrid).toBe(true);
  });
});

describe('the name box', () => {
  const box = () => atHand.page.locator('.go-to input');

  it('lets go after Enter: keys go to the cell that was gone to, on any sheet', async () => {
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
    expect(await words(page.locator('.go-unknown'))).toBe('There is no cell called nowhere.');
    await maker.cellAt(maker.place('top_width')).click();
    await expect.poll(() => box().inputValue()).toBe('top_width');
    expect(await page.locator('.go-unknown').count()).toBe(0);
  });
});

describe('a locked workbook', () => {
  it('refuses before it asks: no dialog opens to end in a refusal', async () => {
    const { page, maker } = atHand;
    await button('Lock all but the inputs').click();
    const says = /locked, and only its inputs can be changed\. Choose "Unlock"/;
    for (const open of [
      () => choose('What it is and how it looks …'),
      () => choose('Name …'),
      () => choose('Remark …'),
      () => choose('Mark by a check …'),
      () => choose('Delete row 6'),
      () => choose('Delete column B'),
      () => button(/^New table/).click(),
      () => button(/^This sheet/).click(),
      () => button('New check').click(),
      () => button(/^Change the check/).click(),
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
    await button('Names').click();
    await dialog().getByRole('button', { name: 'top_length', exact: true }).waitFor();
    expect(
      await dialog()
        .getByRole('button', { name: /^Rename/ })
        .count(),
    ).toBe(0);
    await press('Escape');
    await button('Functions').click();
    await dialog().getByRole('searchbox').waitFor();
    expect(await dialog().getByRole('button', { name: 'My woods' }).count()).toBe(0);
  });
});

describe('what is said of a cell', () => {
  it('counts checks and paper among those who use it', async () => {
    const { page } = atHand;
    await button('Names').click();
    const row = (name: string) =>
      dialog().locator('li', { has: page.getByRole('button', { name, exact: true }) });
    // Read by a check alone, by a shop sheet alone, and shown only.
    expect(await words(row('knee_room_needed'))).toContain('the check "Knees fit under the apron"');
    expect(await words(row('grit_steps'))).toContain('used by the finish sheet');
    expect(await words(row('deposit'))).toContain('used nowhere');
    await dialog().getByLabel('Only those used nowhere').check();
    await expect.poll(() => row('knee_room_needed').count()).toBe(0);
    expect(await row('deposit').count()).toBe(1);
    await press('Escape');
    await atHand.maker.go('knee_room_needed');
    await expect
      .poll(() => words(atHand.maker.thisCell))
      .toContain('Used by the check "Knees fit under the apron".');
  });

  it('has each button say which name it is about', async () => {
    await button('Names').click();
    await dialog().getByRole('button', { name: 'Rename top_length', exact: true }).click();
    await expect.poll(focused).toBe('input New name for top_length');
  });
});
