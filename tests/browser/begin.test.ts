import { describe, expect, it } from 'vitest';
import { ByName } from './support/by-name.ts';
import { activity, command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** A new workbook: it asks for what no plan can do without, and takes what is typed at once. */

const atHand = withMaker({ shared: true });

describe('a first visit', () => {
  it('says that the table is a copy to change, until the first change, and never again', async () => {
    const { page, maker } = atHand;
    const said = page.locator('.welcome:visible');
    await said.waitFor();
    expect(await words(said)).toContain('this is your copy.');
    await maker.type('top_length', '90');
    await expect.poll(() => said.count()).toBe(0);
    await page.locator('.did-says').first().waitFor();
    await maker.comeBack();
    await page.getByText('Change a number: what moves by it').waitFor();
    expect(await said.count()).toBe(0);
  });
});

describe('a workbook for furniture', () => {
  it('Y43 asks for the saw kerf, and then has the keys in its parts table', async () => {
    const { page, maker } = atHand;
    const dialog = await maker.workbooks();
    await dialog.getByRole('button', { name: 'New furniture workbook' }).click();
    await page.getByLabel('Workbook name').fill('Stool');
    await page.keyboard.press('Enter');
    await dialog.getByRole('alert').getByText('The saw kerf is the width of the cut').waitFor();
    await page.getByLabel('Saw kerf').fill('1/8');
    await page.keyboard.press('Enter');
    await page.locator('.top-title', { hasText: 'Stool' }).waitFor();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest('.sheet-grid') !== null))
      .toBe(true);
    expect(await words(page.locator('.sheet-list [aria-current]'))).toContain('Parts');
    await page.keyboard.press('ControlOrMeta+f');
    await page.getByRole('combobox', { name: 'What to find' }).waitFor();
    await page.keyboard.type('kerf');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(page.locator('.sheet-list [aria-current]'))).toContain('Stock');
    await expect.poll(() => page.getByLabel('Entry or formula').inputValue()).toBe('1/8');
  });
});

describe('a blank workbook', () => {
  it('offers the tables it lacks wherever they are missed, and turns to each that is started', async () => {
    const { page, maker } = atHand;
    const cell = () => page.locator('.go-to input').inputValue();
    const dialog = await maker.workbooks();
    await dialog.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Stool');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.top-title', { hasText: 'Stool' }).waitFor();
    const parts = (within: string) =>
      page.locator(within).getByRole('button', { name: 'Start a parts table' });
    await parts('.drawing-pane').waitFor();
    for (const [name, within] of [
      ['Drawing', '.drawing-page'],
      ['Shop sheets', '.app-page'],
      ['Bench list', '.bench-view'],
      ['Cut and buy', '.cut-page'],
    ] as const) {
      await activity(page, name);
      await parts(within).waitFor();
    }
    await parts('.cut-page').click();
    await expect.poll(cell).toBe('A4');
    expect(await words(page.locator('.sheet-list [aria-current]'))).toContain('Parts');
    await page.keyboard.type('Seat');
    await page.keyboard.press('Enter');
    await expect.poll(cell).toBe('A5');
    await activity(page, 'Cut and buy');
    expect(await parts('.cut-page').count()).toBe(0);
    await page.locator('.cut-page').getByRole('button', { name: 'Start a stock table' }).click();
    await expect.poll(cell).toBe('A6');
    expect(await words(page.locator('.sheet-list [aria-current]'))).toContain('Stock');
  });
});

describe('sheets from another workbook', () => {
  it('come into a blank one after saying which, work at once, and go again with one undo', async () => {
    const { page, maker } = atHand;
    const list = await maker.workbooks();
    await list.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Two in one');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.top-title', { hasText: 'Two in one' }).waitFor();
    await command(page, 'Add sheets from a workbook');
    const dialog = page.getByRole('dialog', { name: 'Add sheets from a workbook' });
    // The one that ships: a table that an earlier test changed stands below it, under the same name.
    await dialog.getByRole('radio', { name: /^Dining table (?!Yours)/ }).check();
    await dialog.getByText('New: Brief, Top, Base').waitFor();
    await dialog.getByRole('button', { name: /^Add \d+ sheets$/ }).click();
    await dialog.waitFor({ state: 'detached' });
    const sheets = () => words(page.locator('.sheet-list'));
    expect(await sheets()).toContain('Brief');
    await expect
      .poll(() => words(page.locator('.did-says').first()))
      .toBe('Sheets added from Dining table');
    await page.keyboard.press('ControlOrMeta+f');
    await page.getByRole('combobox', { name: 'What to find' }).fill('price_per_seat');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => words(page.locator('.selected-cell, .ag-cell-focus')))
      .toMatch(/\$49\d/);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(sheets).not.toContain('Brief');
  });
});

describe('a top of a table', () => {
  it('gets another base in the place of the one it had, and keeps what was typed into it', async () => {
    const { page, maker } = atHand;
    const open = async (title: string) => {
      const list = await maker.workbooks();
      await list
        .getByRole('button', { name: new RegExp(`^Open: ${title}$`) })
        .first()
        .click();
      await list.waitFor({ state: 'hidden' });
      await page.locator('.top-title', { hasText: title }).waitFor();
    };
    const dialog = page.getByRole('dialog', { name: 'Add sheets from a workbook' });
    const takeBase = async (press: RegExp, place?: RegExp) => {
      await command(page, 'Add sheets from a workbook');
      await dialog
        .getByRole('radio', { name: /^Table base/ })
        .last()
        .check();
      if (place !== undefined) await dialog.getByRole('radio', { name: place }).check();
      await dialog.getByText('New: ').waitFor();
      const said = await words(dialog.locator('.question'));
      await dialog.getByRole('button', { name: press }).click();
      await dialog.waitFor({ state: 'detached' });
      return said;
    };
    const cells = new ByName(page);
    await open('Table top');
    await takeBase(/^Add/);
    await cells.type('top_length', '84');
    await cells.type('apron_width', '4 1/2');
    await maker.untilSaved();
    await open('Table base');
    await cells.type('leg_size', '3 1/2');
    await maker.untilSaved();
    await open('Table top');
    const said = await takeBase(/^Exchange the sheets$/, /what came from "Table base"/);
    expect(said).toMatch(/Gone: .*Base/);
    expect(said).toMatch(/What you typed stands in the new sheets too: .*4 1\/2 in/);
    expect(await cells.shows('leg_size')).toBe('3 1/2');
    expect(await cells.shows('top_length')).toBe('84');
    expect(await cells.shows('apron_width')).toBe('4 1/2');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => cells.shows('leg_size')).not.toBe('3 1/2');
  });
});

describe('the box that finds anything', () => {
  it('Y44 goes to cells by name and by the words beside them, to sheets, and carries out commands', async () => {
    const { page } = atHand;
    const here = () => page.locator('.go-to input').inputValue();
    const find = async (what: string) => {
      await page.keyboard.press('ControlOrMeta+f');
      await page.getByRole('combobox', { name: 'What to find' }).fill(what);
      await page.keyboard.press('Enter');
    };
    await find('markup');
    await expect.poll(here).toMatch(/markup/);
    await find('Height of the table');
    await expect.poll(here).toBe('table_height');
    await find('Movement');
    await expect
      .poll(() => words(page.locator('.sheet-list [aria-current]')))
      .toContain('Movement');
    await find('Bench list');
    await page.locator('.activities [aria-current]', { hasText: 'Bench list' }).waitFor();
    await find('species');
    await page.locator('.activities [aria-current]', { hasText: 'Workbook' }).waitFor();
    await expect.poll(here).toBe('species');
    await page.keyboard.press('ControlOrMeta+f');
    await page.getByRole('combobox', { name: 'What to find' }).fill('zzzz');
    await page.getByText('Nothing found.').waitFor();
    await page.keyboard.press('Escape');
  });
});

describe('a box that is loaded late', () => {
  /** Opens the app anew and holds back one of its parts until told. */
  async function held(part: RegExp): Promise<() => void> {
    const { page, maker } = atHand;
    let letGo: () => void = () => undefined;
    const told = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await page.route(part, async (route) => {
      await told;
      await route.continue();
    });
    await page.reload();
    await maker.ready();
    await maker.go('top_length');
    return letGo;
  }

  const editor = () => atHand.page.locator('.ag-cell :is(input, textarea)').count();

  it('has what was typed before it came, Enter as well, and no cell has', async () => {
    const { page, maker } = atHand;
    const letGo = await held(/\/assets\/find-anything-.*\.js/);
    await page.keyboard.press('ControlOrMeta+f');
    await page.keyboard.type('tabel');
    for (let i = 0; i < 2; i += 1) await page.keyboard.press('Backspace');
    expect(await editor()).toBe(0);
    letGo();
    const box = page.getByRole('combobox', { name: 'What to find' });
    await box.waitFor();
    await page.keyboard.type('le_height');
    expect(await box.inputValue()).toBe('table_height');
    await page.keyboard.press('Escape');
    expect(await maker.shows('top_length')).toBe('84');
  });

  it('goes where Enter was to lead, and not at all after Escape', async () => {
    const { page, maker } = atHand;
    const here = () => page.locator('.go-to input').inputValue();
    const letGo = await held(/\/assets\/find-anything-.*\.js/);
    await page.keyboard.press('ControlOrMeta+f');
    await page.keyboard.type('pri');
    await page.keyboard.press('Escape');
    await page.keyboard.type('96');
    await page.keyboard.press('Enter');
    await page.keyboard.press('ControlOrMeta+f');
    await page.keyboard.type('table_height');
    await page.keyboard.press('Enter');
    letGo();
    await expect.poll(here).toBe('table_height');
    expect(await maker.shows('top_length')).toBe('96');
  });

  it('has it in its first field', async () => {
    const { page } = atHand;
    const letGo = await held(/\/assets\/find-(?!anything)[^/]*\.js/);
    await page.keyboard.press('ControlOrMeta+h');
    await page.keyboard.type('le');
    letGo();
    const field = page.getByRole('dialog', { name: 'Find and replace' }).getByLabel('Find');
    await field.waitFor();
    await page.keyboard.type('gs');
    expect(await field.inputValue()).toBe('legs');
    expect(await editor()).toBe(0);
  });
});

describe('undo and redo', () => {
  it('Y42 say what they would do', async () => {
    const { page, maker } = atHand;
    await maker.type('top_length', '96');
    const undo = page
      .getByRole('toolbar', { name: 'Changes' })
      .getByRole('button', { name: 'Undo' });
    await undo.hover();
    await expect.poll(() => undo.getAttribute('title')).toMatch(/^Undo Length of the top: 96/);
    await undo.click();
    expect(await maker.shows('top_length')).toBe('84');
    const redo = page
      .getByRole('toolbar', { name: 'Changes' })
      .getByRole('button', { name: 'Redo' });
    await redo.hover();
    await expect.poll(() => redo.getAttribute('title')).toMatch(/^Redo Length of the top: 96/);
  });
});
