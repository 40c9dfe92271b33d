import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { CLUB_SCREENS, type Viewer } from './club-screens.ts';
import { jobsPage, twoJobs } from './jobs.ts';
import { activity, command, type Maker } from './maker.ts';
import { CHARTS, writeVariant } from './what-if.ts';

/** A dialog, a menu or a page of the app, and how a maker comes to it from the dining table. */
export interface Screen {
  readonly name: string;
  /** Opening it changes the workbook: whoever opens one after the other begins the table anew behind it. */
  readonly changes?: true;
  /** It lies over what it is about: what is under it is covered, and only the region itself has to fit. */
  readonly alone?: true;
  /** What stands there depends on the size at which it was opened: another size is another opening. */
  readonly sized?: true;
  /** It is a page of a club, as this one sees it; the others are of the app as it is without one. */
  readonly as?: Viewer;
  /** Opens it; answers with the region it is. */
  open(maker: Maker): Promise<Locator>;
}

/** A file that an office program wrote. */
const BENCH = join(import.meta.dirname, '../../interchange/fixtures/hall-bench.xlsx');

const dialogOf = (page: Page, name?: string): Locator =>
  name === undefined ? page.getByRole('dialog').last() : page.getByRole('dialog', { name });

async function shown(region: Locator): Promise<Locator> {
  await region.waitFor();
  return region;
}

const press = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name }).first().click();

/** What opens behind the menu. */
function inMenu(name: string, item = name, dialog = name): Screen {
  return {
    name,
    async open({ page }) {
      await command(page, item);
      return shown(dialogOf(page, dialog));
    },
  };
}

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

/** What stands beside the grid, raised where the screen has no room for it. */
async function beside(page: Page): Promise<Locator> {
  const handle = page.locator('.beside-handle[aria-expanded="false"]');
  if (await handle.isVisible()) await handle.click();
  return page.locator('.beside');
}

/** Goes to a cell by its name, wherever it is: on a small screen it may be out of sight. */
async function goByName(page: Page, name: string): Promise<void> {
  const box = page.locator('.go-to input');
  await box.fill(name);
  await box.press('Enter');
}

/** What opens behind a button of the checks. */
function fromChecks(name: string, button: string | RegExp): Screen {
  return {
    name,
    async open({ page }) {
      await (await beside(page)).getByRole('button', { name: button }).first().click();
      return shown(dialogOf(page, name));
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
    ...from,
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
  changes: true,
  async open(maker) {
    // Three states of it: two with a name, one kept by the app.
    await maker.type('top_length', '97');
    await maker.untilSaved();
    const dialog = await shownBehind(maker, 'Versions');
    for (const called of ['As ordered', 'As built']) {
      await dialog.getByRole('button', { name: 'Save a version' }).click();
      await dialog.getByLabel('Version name').fill(called);
      await maker.page.keyboard.press('Enter');
      await dialog.getByRole('listitem').filter({ hasText: called }).waitFor();
    }
    return dialog;
  },
};
/** A job whose template was improved since, in a place that the job changed too and in another one. */
const renewal: Screen = {
  name: 'New in the template, something of it changed by both',
  changes: true,
  async open(maker) {
    const { page } = maker;
    await maker.saveAsTemplate('Shop table');
    await inBooks(maker, 'Start a new job from it: Shop table');
    await page.getByLabel('Name of the job').fill('Hall table');
    await page.keyboard.press('Enter');
    await page.locator('.top-title', { hasText: 'Hall table' }).waitFor();
    await maker.type('top_length', '90');
    await maker.untilSaved();
    await inBooks(maker, 'Change the template: Shop table');
    await maker.type('top_length', '96');
    await maker.type('top_width', '44');
    await maker.untilSaved();
    await inBooks(maker, 'Open: Hall table');
    const notice = page.locator('.offer', { hasText: 'was improved' });
    await notice.getByRole('button', { name: 'Look at what it brings' }).click();
    const dialog = await shown(dialogOf(page, 'New in the template'));
    await dialog
      .getByText(/Price .*→/)
      .first()
      .waitFor();
    return dialog;
  },
};

async function inBooks(maker: Maker, button: string): Promise<void> {
  const dialog = await maker.workbooks();
  await dialog.getByRole('button', { name: button, exact: true }).click();
}

/** What an item of the current sheet's menu leads to. */
function fromSheet(name: string, item: string): Screen {
  return {
    name,
    async open({ page }) {
      await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
      await page.getByRole('menuitem', { name: item }).click();
      return shown(dialogOf(page));
    },
  };
}
const names = inMenu('Names');
const find = inMenu('Find and replace');

async function shownBehind({ page }: Maker, name: string): Promise<Locator> {
  await command(page, name);
  return shown(dialogOf(page, name));
}

/** The page of the plan, with a step that has something to look at. */
async function planOf({ page }: Maker): Promise<void> {
  await activity(page, 'Plan for others');
  await page.locator('.plan-list li').first().waitFor();
  await page.getByLabel('How it is done').fill('As long as {gone_now}.');
  await page.getByLabel('Tools', { exact: true }).focus();
  await page.locator('.plan-wrong').first().waitFor();
}

async function inPlan(
  maker: Maker,
  room: string,
  does: (maker: Maker) => Promise<unknown>,
): Promise<Locator> {
  await press(maker.page, room);
  await does(maker);
  return maker.page.locator('.plan-page');
}

const click = (name: string | RegExp) => (dialog: Locator) =>
  dialog.getByRole('button', { name }).first().click();

export const SCREENS: readonly Screen[] = [
  { name: 'The page itself', sized: true, open: async ({ page }) => page.locator('.table') },
  {
    name: 'Checks that fail, and a cell with all it rests on',
    changes: true,
    async open(maker) {
      const { page } = maker;
      await maker.type('top_length', '140');
      await maker.type('top_width', '72');
      await maker.type('rough_quarters', '6/4');
      await goByName(page, 'price');
      const side = await beside(page);
      await side.getByText('Used by').first().waitFor();
      return side;
    },
  },
  {
    name: 'Parts that cannot be read',
    changes: true,
    sized: true,
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      for (const row of [3, 4, 5]) {
        await maker.cellAt({ sheet: '', row, column: 2 }).click();
        await page.keyboard.press('Delete');
      }
      // On a phone the pad for numbers has the room of the drawing until it is put away.
      const pad = page.getByRole('toolbar', { name: 'Number pad' });
      if (await pad.isVisible()) await pad.getByRole('button', { name: 'Done' }).click();
      await page
        .getByText(/^The thickness of Leg is empty/)
        .first()
        .waitFor();
      return page.locator('.drawing-pane');
    },
  },
  workbooks,
  further('Workbooks, a new one', workbooks, click('New blank workbook')),
  inMenu('Save as my template'),
  inMenu('Send as a link'),
  inMenu('Open a link'),
  inMenu('Save for office programs'),
  {
    name: 'A spreadsheet, looked at',
    open: async (maker) => {
      await maker.workbooks();
      await maker.page.getByLabel('Workbook file').setInputFiles(BENCH);
      const dialog = maker.page.getByRole('dialog', { name: 'Open hall-bench.xlsx' });
      await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
      await dialog.getByLabel('Saw kerf').fill('thin');
      await dialog.locator('.take-shop .complaint').waitFor({ timeout: 10_000 });
      return dialog;
    },
  },
  further('Sheets from a workbook', inMenu('Add sheets from a workbook'), (dialog) =>
    dialog.getByRole('radio', { name: /^Dining table/ }).check(),
  ),
  inMenu('Parts from a text'),
  further('Parts from a text, read', inMenu('Parts from a text'), async (dialog) => {
    await dialog
      .getByLabel('The list')
      .fill('Side table\n4 legs 38 x 38 x 180 walnut\nTop 18 x 24 x 3 cherry\nGlue 1 bottle');
    await dialog.getByLabel('length of Top, line 3').fill('long');
    await dialog.getByText(/^First mend what cannot be read/).waitFor();
  }),
  versions,
  further('Versions, one compared', versions, click(/^Compare/)),
  inMenu('Compare'),
  further('Compare, two compared', inMenu('Compare'), async (dialog) => {
    await dialog.getByLabel('Compare', { exact: true }).selectOption({ label: 'Round table' });
    await dialog.getByText(/results? differs? by that/).waitFor();
  }),
  inMenu('New in the template'),
  renewal,
  inMenu('Functions'),
  further('Functions, one open', inMenu('Functions'), (dialog) =>
    dialog.locator('summary', { hasText: 'BOARDFEET' }).click(),
  ),
  names,
  further('Names, one renamed', names, click(/^Rename/)),
  further('Find, something found', find, (dialog) => dialog.getByLabel('Find').fill('top')),
  inMenu('Keys'),
  fromSheet('New table', 'New table …'),
  fromSheet('Renaming a sheet', 'Rename …'),
  fromSheet('Deleting a sheet', 'Delete …'),
  {
    name: 'The menu of a sheet',
    alone: true,
    async open({ page }) {
      await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
      return shown(page.getByRole('menu'));
    },
  },
  {
    name: 'The menu of a column',
    alone: true,
    async open({ page }) {
      await page.locator('.ag-header-cell[col-id="c1"]').click({ button: 'right' });
      return shown(page.getByRole('menu'));
    },
  },
  {
    name: 'The choices of a cell',
    alone: true,
    async open(maker) {
      await maker.go('species');
      await maker.page.keyboard.press('F2');
      return shown(maker.page.locator('.choice-list'));
    },
  },
  fromChecks('New check', 'New check'),
  fromChecks('Edit check', /^Edit the check/),
  {
    name: 'Drawing',
    async open({ page }) {
      await activity(page, 'Drawing');
      return shown(page.locator('.drawing-page'));
    },
  },
  {
    name: 'The menu',
    alone: true,
    async open(maker) {
      await (await maker.go('top_length')).click({ button: 'right' });
      return shown(maker.page.getByRole('menu'));
    },
  },
  fromMenu('Name of a cell', 'top_length', 'Name …'),
  fromMenu('Remark on a cell', 'top_length', 'Remark …'),
  fromMenu('Format of a number', 'top_length', 'Format …'),
  fromMenu('Format of words', 'species', 'Format …'),
  fromMenu('Mark by a check', 'top_length', 'Add a check …'),
  fromMenu('Delete a row', 'top_width', 'Delete row 7'),
  {
    name: 'Writing a formula',
    changes: true,
    sized: true,
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
      await activity(page, 'Shop sheets');
      const dialog = await shown(page.locator('.paper-view'));
      await dialog.locator('.page').first().waitFor();
      return dialog;
    },
  },
  {
    name: 'Shop sheets, something left out',
    changes: true,
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      await maker.cellAt({ sheet: '', row: 4, column: 2 }).click();
      await page.keyboard.press('Delete');
      await activity(page, 'Shop sheets');
      const dialog = await shown(page.locator('.paper-view'));
      await dialog.getByText('Left out').first().waitFor();
      return dialog;
    },
  },
  {
    name: 'Bench list',
    async open({ page }) {
      await activity(page, 'Bench list');
      return shown(page.locator('.bench-view'));
    },
  },
  {
    name: 'Days and hours',
    async open({ page }) {
      await command(page, 'Days and hours');
      const region = await shown(page.locator('.days-page'));
      await region.locator('.days-chart svg').waitFor();
      return region;
    },
  },
  {
    name: 'Days and hours, one operation later and hours written down',
    changes: true,
    async open({ page }) {
      await command(page, 'Days and hours');
      const region = await shown(page.locator('.days-page'));
      await region.getByLabel('First day off').fill('2027-12-24');
      await region.getByLabel('Last day off').fill('2027-12-31');
      await region.getByRole('button', { name: 'Add days off' }).click();
      await region.getByLabel('Hours', { exact: true }).fill('1 h 30 min');
      await region.getByLabel('It is done').check();
      await region.getByRole('button', { name: 'Write it down' }).click();
      await region.getByText(/^Written down for/).waitFor();
      await press(page, 'Begin Make the base later');
      await press(page, 'Start the clock');
      await press(page, 'A day later');
      await region.locator('.days-moved', { hasText: 'Make the base' }).waitFor();
      return region;
    },
  },
  {
    name: 'What if, a study over lengths',
    changes: true,
    async open({ page }) {
      await activity(page, 'What if');
      await press(page, /^Results over inputs/);
      await page.locator('.whatif-table').waitFor();
      return shown(page.locator('.whatif-page'));
    },
  },
  {
    name: 'What if, variants side by side',
    changes: true,
    async open(maker) {
      await writeVariant(maker);
      const region = await shown(maker.page.locator('.whatif-page'));
      await region.locator('.whatif-table').waitFor();
      await region.locator('.whatif-shop svg').nth(1).waitFor();
      return region;
    },
  },
  {
    name: 'What if, charts',
    async open({ page }) {
      await command(page, CHARTS);
      const region = await shown(page.locator('.whatif-page'));
      await region.locator('.whatif-chart svg').nth(2).waitFor();
      return region;
    },
  },
  { name: 'Jobs, none yet', open: jobsPage },
  { name: 'Jobs', changes: true, open: twoJobs },
  {
    name: 'Jobs, their days',
    changes: true,
    async open(maker) {
      const region = await twoJobs(maker);
      await region.getByRole('button', { name: 'Days', exact: true }).click();
      await maker.page.locator('.jobs-bars').first().waitFor();
      return shown(maker.page.locator('.jobs-page'));
    },
  },
  {
    name: 'Jobs, bought and cut together',
    changes: true,
    async open(maker) {
      const region = await twoJobs(maker);
      await region.getByRole('button', { name: 'Buy and cut together' }).click();
      const desk = await shown(maker.page.locator('.paper-view'));
      await desk.locator('.page').first().waitFor();
      return desk;
    },
  },
  {
    name: 'Plan for others, its steps',
    async open(maker) {
      await planOf(maker);
      return maker.page.locator('.plan-page');
    },
    changes: true,
  },
  {
    name: 'Plan for others, what readers get',
    changes: true,
    async open(maker) {
      await planOf(maker);
      return inPlan(maker, 'For readers', async ({ page }) => {
        await page.locator('.plan-opened li').nth(1).waitFor();
      });
    },
  },
  {
    name: 'Plan for others, photographs',
    changes: true,
    async open(maker) {
      await planOf(maker);
      return inPlan(maker, 'Photographs', async ({ page }) => {
        await page
          .getByLabel('Photographs', { exact: true })
          .and(page.locator('input'))
          .setInputFiles(join(import.meta.dirname, '../pictures/dining-table.png'));
        await page.locator('.plan-photos img').waitFor();
      });
    },
  },
  {
    name: 'Plan for others, preview',
    changes: true,
    async open(maker) {
      await planOf(maker);
      return inPlan(maker, 'Hand out', ({ page }) =>
        page.frameLocator('.plan-preview iframe').locator('h1').waitFor(),
      );
    },
  },
  behind('This workbook', /^Dining table/),
  behind('Menu', 'Menu'),
  behind('Find', 'Find'),
  {
    name: 'Bench list, two parts of one name',
    changes: true,
    async open(maker) {
      const { page } = maker;
      await page.getByRole('navigation', { name: 'Sheets' }).getByText('Parts').click();
      await maker.cellAt({ sheet: '', row: 5, column: 0 }).click();
      await page.keyboard.type('Leg');
      await page.keyboard.press('Enter');
      await maker.cellAt({ sheet: '', row: 5, column: 4 }).click();
      await page.keyboard.type('27');
      await page.keyboard.press('Enter');
      await activity(page, 'Bench list');
      const dialog = await shown(page.locator('.bench-view'));
      await dialog.locator('.bench-line').nth(2).waitFor();
      await dialog.getByLabel(/^Short apron 1 of 2/).check();
      return dialog;
    },
  },
  {
    name: 'Print',
    async open({ page }) {
      await command(page, 'Print');
      const dialog = await shown(page.locator('.paper-view'));
      await dialog.locator('.page').first().waitFor();
      return dialog;
    },
  },
  ...CLUB_SCREENS,
];
