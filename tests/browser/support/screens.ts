import type { Locator, Page } from 'playwright-core';
import type { Maker } from './maker.ts';

/** A dialog, a menu or a page of the app, and how a maker comes to it from the dining table. */
export interface Screen {
  readonly name: string;
  /** Opens it; answers with the region it is. */
  open(maker: Maker): Promise<Locator>;
}

const dialogOf = (page: Page, name?: string): Locator =>
  name === undefined ? page.getByRole('dialog').last() : page.getByRole('dialog', { name });

async function shown(region: Locator): Promise<Locator> {
  await region.waitFor();
  return region;
}

const press = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name }).first().click();

/** What opens behind a button of the page itself. */
function behind(name: string, button: string | RegExp, dialog = name): Screen {
  return {
    name,
    async open({ page }) {
      await press(page, button);
      return shown(dialogOf(page, dialog));
    },
  };
}

/** What a menu item of a cell leads to. */
function fromMenu(name: string, cell: string, item: string): Screen {
  return {
    name,
    async open(maker) {
      const { page } = maker;
      await (await maker.go(cell)).click({ button: 'right' });
      await page.getByRole('menuitem', { name: item }).click();
      return shown(dialogOf(page));
    },
  };
}

/** A dialog in which something is pressed before it is looked at. */
function further(name: string, from: Screen, does: (dialog: Locator) => Promise<void>): Screen {
  return {
    name,
    async open(maker) {
      const dialog = await from.open(maker);
      await does(dialog);
      return dialog;
    },
  };
}

const workbooks: Screen = { name: 'Workbooks', open: (maker) => maker.workbooks() };
const versions: Screen = {
  name: 'Versions',
  async open(maker) {
    // Three states of it: two with a name, one kept by the app.
    await maker.type('top_length', '97');
    await maker.untilSaved();
    const dialog = await shownBehind(maker, 'Versions');
    for (const called of ['As ordered', 'As built']) {
      await dialog.getByRole('button', { name: 'Keep this state' }).click();
      await dialog.getByLabel('What to call it').fill(called);
      await maker.page.keyboard.press('Enter');
      await dialog.getByRole('listitem').filter({ hasText: called }).waitFor();
    }
    return dialog;
  },
};
const thisSheet = behind('This sheet', /^This sheet/, 'Sheet Brief');
const names = behind('Names', 'Names');
const find = behind('Find and replace', 'Find');

async function shownBehind({ page }: Maker, name: string): Promise<Locator> {
  await press(page, name);
  return shown(dialogOf(page, name));
}

const click = (name: string | RegExp) => (dialog: Locator) =>
  dialog.getByRole('button', { name }).first().click();

export const SCREENS: readonly Screen[] = [
  { name: 'The page itself', open: async ({ page }) => page.locator('.table') },
  {
    name: 'Checks that fail, and a cell with all it rests on',
    async open(maker) {
      const { page } = maker;
      await maker.type('top_length', '140');
      await maker.type('top_width', '72');
      await maker.type('rough_quarters', '6/4');
      await maker.go('price');
      const side = page.locator('.side-table');
      await side.getByText('Used by').first().waitFor();
      return side;
    },
  },
  {
    name: 'Parts that cannot be read',
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      for (const row of [3, 4, 5]) {
        await maker.cellAt({ sheet: '', row, column: 2 }).click();
        await page.keyboard.press('Delete');
      }
      const side = page.locator('.side-table');
      await side.getByText(/^The thickness of Top is empty/).waitFor();
      return side;
    },
  },
  workbooks,
  further('Workbooks, a new one', workbooks, click('New empty workbook')),
  behind('Save as a template of mine', 'Save as mine'),
  versions,
  further('Versions, one compared', versions, click(/^Compare/)),
  behind('Functions', 'Functions'),
  further('Functions, one open', behind('Functions', 'Functions'), (dialog) =>
    dialog.locator('summary', { hasText: 'BOARDFEET' }).click(),
  ),
  names,
  further('Names, one renamed', names, click(/^Rename/)),
  further('Find, something found', find, (dialog) => dialog.getByLabel('Find').fill('top')),
  behind('Keys', 'Keys'),
  behind('A new table', /^New table/),
  thisSheet,
  further('This sheet, deleting it', thisSheet, click('Delete it')),
  behind('A new check', 'New check'),
  behind('Change a check', /^Change the check/),
  behind('Drawing', 'Larger'),
  {
    name: 'The menu',
    async open(maker) {
      await (await maker.go('top_length')).click({ button: 'right' });
      return shown(maker.page.getByRole('menu'));
    },
  },
  fromMenu('Name of a cell', 'top_length', 'Name …'),
  fromMenu('Remark on a cell', 'top_length', 'Remark …'),
  fromMenu('Format of a number', 'top_length', 'What it is and how it looks …'),
  fromMenu('Format of words', 'species', 'What it is and how it looks …'),
  fromMenu('Mark by a check', 'top_length', 'Mark by a check …'),
  fromMenu('Delete a row', 'top_length', 'Delete row 6'),
  {
    name: 'Writing a formula',
    async open(maker) {
      await maker.go('top_length');
      await maker.page.keyboard.type('=SUM(top_w');
      await maker.page.getByRole('listbox').waitFor();
      return maker.page.locator('.table');
    },
  },
  {
    name: 'Shop sheets',
    async open({ page }) {
      await press(page, 'Shop sheets');
      const dialog = await shown(dialogOf(page, 'Shop sheets'));
      await dialog.locator('.page').first().waitFor();
      return dialog;
    },
  },
  {
    name: 'Shop sheets, something left out',
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      await maker.cellAt({ sheet: '', row: 4, column: 2 }).click();
      await page.keyboard.press('Delete');
      await press(page, 'Shop sheets');
      const dialog = await shown(dialogOf(page, 'Shop sheets'));
      await dialog.getByText('Left out').first().waitFor();
      return dialog;
    },
  },
  behind('At the bench', 'At the bench'),
  {
    name: 'At the bench, two parts of one name',
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      await maker.cellAt({ sheet: '', row: 5, column: 0 }).click();
      await page.keyboard.type('Leg, left');
      await page.keyboard.press('Enter');
      await maker.cellAt({ sheet: '', row: 5, column: 4 }).click();
      await page.keyboard.type('27');
      await page.keyboard.press('Enter');
      await press(page, 'At the bench');
      const dialog = await shown(dialogOf(page, 'At the bench'));
      await dialog.locator('.bench-line').nth(2).waitFor();
      await dialog.getByRole('button', { name: /Long apron cut$/ }).click();
      return dialog;
    },
  },
  {
    name: 'Print',
    async open({ page }) {
      await press(page, 'Print');
      const dialog = await shown(dialogOf(page, 'Print'));
      await dialog.locator('.page').first().waitFor();
      return dialog;
    },
  },
];
