import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { ByName } from './support/by-name.ts';
import { activity, command, Maker, words } from './support/maker.ts';

/** What belongs to the shop is kept in one workbook, and offered to the others with what it does. */

/** A picture far too large for a letterhead. */
const PICTURE = join(import.meta.dirname, 'pictures/dining-table.png');

let app: App;
let page: Page;
let maker: Maker;
let cells: ByName;
let complaints: readonly string[];

/** One page stays open from step to step, as it does with a maker. */
beforeAll(async () => {
  app = await startApp();
  page = await app.open();
  complaints = complaintsOf(page);
  maker = new Maker(page);
  cells = new ByName(page);
  await maker.ready();
});
afterAll(() => app.close());

const go = (name: string) => cells.go(name);
const type = (name: string, text: string) => cells.type(name, text);
const shows = (name: string) => cells.shows(name);

async function openBook(button: RegExp): Promise<void> {
  await page.locator('.saved-state:not([data-kind="saving"])').waitFor();
  const dialog = await maker.workbooks();
  await dialog.getByRole('button', { name: button }).click();
  await dialog.waitFor({ state: 'hidden' });
  await maker.ready();
}

const notice = (): Locator => page.locator('.offer', { hasText: 'of your shop' });

async function myShop(): Promise<Locator> {
  await command(page, 'My shop');
  const dialog = page.getByRole('dialog', { name: 'My shop' });
  await dialog.waitFor();
  return dialog;
}

const card = (dialog: Locator, title: string): Locator =>
  dialog.locator('.book-row', { has: page.getByRole('heading', { name: title }) });

/** A figure in the dialog, by what it is called. */
const figure = (dialog: Locator, what: string): Locator =>
  dialog.locator('fieldset.met', { hasText: what });

describe('the workbook of the shop', () => {
  it('is one of the maker’s own, marked behind the menu or on its card, one at a time', async () => {
    const dialog = await myShop();
    await dialog.getByRole('button', { name: 'Make this my shop’s workbook' }).click();
    // A template as it ships is nobody’s own.
    await dialog.getByText('save it under a name of yours first').waitFor();
    await maker.closeDialog();
    await maker.saveAsAndOpen('Shop figures');
    await type('hourly_rate', '60');
    await type('kerf', '3/32');
    await type('jointer_width', '8');
    await maker.untilSaved();
    const mine = await myShop();
    await mine.getByRole('button', { name: 'Make this my shop’s workbook' }).click();
    await mine.getByText('This is your shop’s workbook.').waitFor();
    await maker.closeDialog();
    const list = await maker.workbooks();
    const shops = card(list, 'Shop figures');
    expect(await words(shops)).toContain('Your shop’s workbook.');
    await maker.more(shops);
    await shops.getByRole('button', { name: /^No longer my shop’s workbook/ }).click();
    await expect.poll(() => words(shops)).not.toContain('Your shop’s workbook.');
    await maker.more(shops);
    await shops.getByRole('button', { name: /^Make it my shop’s workbook/ }).click();
    await expect.poll(() => words(shops)).toContain('Your shop’s workbook.');
    await maker.closeDialog();
  });

  it('is told once over the grid of a workbook that has its figures otherwise', async () => {
    await openBook(/^Open: Bench$/);
    await notice().waitFor();
    expect(await words(notice().locator('span').first())).toBe(
      '3 of your shop’s figures differ here.',
    );
    // Nothing was taken by that.
    expect(await shows('hourly_rate')).toBe('$45.00');
    await notice().getByRole('button', { name: 'Look at them' }).click();
  });

  it('shows each figure on both sides with what it does, and takes what was chosen as one step', async () => {
    const dialog = page.getByRole('dialog', { name: 'My shop' });
    const rate = figure(dialog, 'Hourly rate');
    expect(await words(rate)).toMatch(/This workbook \$45\.00 \/h.*Your shop \$60\.00 \/h/);
    await rate
      .locator('.met-side')
      .last()
      .getByText(/^Price \$/)
      .waitFor();
    const take = dialog.getByRole('button', { name: /^Take \d+ figures?$/ });
    expect(await take.isDisabled()).toBe(true);
    await rate.getByRole('radio', { name: /^Your shop/ }).check();
    await figure(dialog, 'Width of the jointer')
      .getByRole('radio', { name: /^Your shop/ })
      .check();
    const does = dialog.getByRole('region', { name: 'What it does to this workbook' });
    await does.getByText(/^Price .*→/).waitFor();
    const told = (await words(does)).match(/Price \S+ → (\S+)/)?.[1];
    expect(await words(take)).toBe('Take 2 figures');
    await take.click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await shows('hourly_rate')).toBe('$60.00');
    expect(await shows('jointer_width')).toBe('8');
    expect(await shows('kerf')).toBe('1/8');
    expect(await shows('price')).toBe(told);
    const did = page.locator('.did').last();
    expect(await words(did.locator('.did-says'))).toBe(
      'Took 2 figures from your shop’s workbook "Shop figures"',
    );
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => shows('hourly_rate')).toBe('$45.00');
    expect(await shows('jointer_width')).toBe('6');
    await page.keyboard.press('ControlOrMeta+Shift+z');
    await expect.poll(() => shows('hourly_rate')).toBe('$60.00');
  });

  it('does not offer again what was left, until the shop has something else', async () => {
    await maker.comeBack();
    await page.locator('.top-title', { hasText: 'Bench' }).waitFor();
    await go('seat_length:seat_height');
    // The kerf was left as it is: whatever is told would be there by now.
    await page.waitForLoadState('networkidle');
    expect(await notice().count()).toBe(0);
    await openBook(/^Change the template: Shop figures$/);
    await type('kerf', '1/16');
    await type('hourly_rate', '65');
    await openBook(/^Open: Bench$/);
    await notice().waitFor();
    expect(await words(notice().locator('span').first())).toBe(
      '2 of your shop’s figures differ here.',
    );
    await notice().getByRole('button', { name: 'Keep these' }).click();
    await notice().waitFor({ state: 'hidden' });
    await openBook(/^Change the template: Shop figures$/);
    await openBook(/^Open: Bench$/);
    await go('seat_length:seat_height');
    await page.waitForLoadState('networkidle');
    expect(await notice().count()).toBe(0);
    // Whoever asks still sees them.
    const dialog = await myShop();
    await figure(dialog, 'Saw kerf').waitFor();
    expect(await words(dialog)).toContain('has 2 figures');
    await maker.closeDialog();
  });

  it('offers nothing that would change a price that was agreed on', async () => {
    await page.locator('.top-title').click();
    await page.getByRole('button', { name: 'Name, customer, dates' }).click();
    await page.getByLabel('Price agreed on').fill('2026-03-14');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    const before = await shows('price');
    const dialog = await myShop();
    await dialog.getByText(/The price was agreed on 14 Mar 2026/).waitFor();
    expect(await figure(dialog, 'Hourly rate').count()).toBe(0);
    await maker.closeDialog();
    await openBook(/^Change the template: Shop figures$/);
    await type('hourly_rate', '90');
    await type('lift_alone', '45');
    await openBook(/^Open: Bench$/);
    await notice().waitFor();
    expect(await words(notice().locator('span').first())).toBe(
      '1 of your shop’s figures differs here.',
    );
    await notice().getByRole('button', { name: 'Look at it' }).click();
    const offered = page.getByRole('dialog', { name: 'My shop' });
    await figure(offered, 'can lift')
      .first()
      .getByRole('radio', { name: /^Your shop/ })
      .check();
    await offered.getByRole('button', { name: 'Take 1 figure' }).click();
    await offered.waitFor({ state: 'hidden' });
    expect(await shows('lift_alone')).toBe('45');
    expect(await shows('price')).toBe(before);
  });

  it('gets the offcuts of what was cut on its rack by a press, and gives them back', async () => {
    await openBook(/^Open: Cabinet door$/);
    await activity(page, 'Bench list');
    const bench = page.locator('.bench-view');
    await bench.getByLabel('By part').check();
    const pieces = bench.locator('.bench-list input[type="checkbox"]');
    await pieces.first().waitFor();
    for (let piece = (await pieces.count()) - 1; piece >= 0; piece -= 1) {
      await pieces.nth(piece).check();
    }
    const offcuts = bench.getByRole('region', { name: 'Offcuts' });
    const many = Number((await words(offcuts)).match(/^(\d+) offcuts?/)?.[1]);
    expect(many).toBeGreaterThan(0);
    const put = offcuts.getByRole('button', { name: /^Put the offcuts? on the rack$/ });
    await put.click();
    await offcuts.getByText('On the rack of "Shop figures".').waitFor();
    // Taken back and put there once more they lie there once.
    await offcuts.getByRole('button', { name: 'Undo' }).click();
    await put.click();
    await offcuts.getByText('On the rack of "Shop figures".').waitFor();
    // How many boards of this job lie on the shop's rack.
    const rack = async (): Promise<number> => {
      await openBook(/^Change the template: Shop figures$/);
      await page.locator('.sheet-list button', { hasText: 'Stock' }).first().click();
      const rows = page.locator('.ag-row', { hasText: 'Offcut of Cabinet door' });
      await page.locator('.ag-row', { hasText: 'Leg blank' }).waitFor();
      const counts = await rows.locator('[aria-colindex="8"]').allInnerTexts();
      return counts.reduce((sum, text) => sum + Number(text.trim()), 0);
    };
    expect(await rack()).toBe(many);
    await openBook(/^Open: Cabinet door$/);
    await activity(page, 'Bench list');
    await offcuts.getByText('On the rack of "Shop figures".').waitFor();
  });

  it('gives its letterhead to another workbook, where it stands at the head of the customer’s page', async () => {
    await openBook(/^Change the template: Shop figures$/);
    await page.locator('.top-title').click();
    await page.getByRole('button', { name: 'Name, customer, dates' }).click();
    const form = page.getByRole('dialog', { name: 'Name, customer, dates' });
    await form.getByLabel('Shop', { exact: true }).fill('A made-up shop');
    await form.getByLabel('Address').fill('1 Invented Lane\nNowhere');
    const logo = { name: 'logo.png', mimeType: 'image/png', buffer: readFileSync(PICTURE) };
    await form.getByLabel('Logo', { exact: true }).setInputFiles(logo);
    await form.getByAltText('Your logo').waitFor();
    await form.getByRole('button', { name: 'Save' }).click();
    await form.waitFor({ state: 'hidden' });
    await maker.untilSaved();
    await openBook(/^Open: Cabinet door$/);
    const dialog = await myShop();
    await figure(dialog, 'Letterhead')
      .getByRole('radio', { name: /^Your shop/ })
      .check();
    await dialog.getByRole('button', { name: 'Take 1 figure' }).click();
    await dialog.waitFor({ state: 'hidden' });
    await activity(page, 'Shop sheets');
    await page.getByLabel('For the customer').check();
    const head = page.frameLocator('.customer-frame').locator('.paper-letterhead');
    expect(await words(head)).toBe('A made-up shop 1 Invented Lane Nowhere');
    // Drawn, and small enough to go along with every copy of the workbook.
    const drawn = head.locator('img');
    await expect
      .poll(() => drawn.evaluate((one) => (one as HTMLImageElement).naturalWidth))
      .toBeGreaterThan(20);
    expect((await drawn.getAttribute('src'))?.length).toBeLessThanOrEqual(32_768);
  });

  it('complains of nothing', () => {
    expect(complaints).toEqual([]);
  });
});
