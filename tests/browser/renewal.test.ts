import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { type BookDocument, loadText, roundFigures, saveText, Workbook } from '@kerfbook/workbook';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { ByName } from './support/by-name.ts';
import { command, Maker, words } from './support/maker.ts';
import { printed } from './support/pdf.ts';
import { onlySheets } from './support/shop-sheets.ts';

/** A workbook takes over what its template has got since, and any two workbooks are compared. */

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
  const dialog = await maker.workbooks();
  await dialog.getByRole('button', { name: button }).click();
  await dialog.waitFor({ state: 'hidden' });
  await maker.ready();
}

const notice = (): Locator => page.locator('.offer', { hasText: 'was improved' });

async function whatIsNew(): Promise<Locator> {
  await command(page, 'New in the template');
  const dialog = page.getByRole('dialog', { name: 'New in the template' });
  await dialog.waitFor();
  return dialog;
}

const TAKES = /^Bring in \d+ changes?$/;

describe('a bench in millimeters, made from a template of one’s own', () => {
  it('is told once that the template was improved', async () => {
    await openBook(/^Open: Bench$/);
    await maker.saveAsTemplate('Shop bench');
    const dialog = await maker.workbooks();
    await dialog.getByRole('button', { name: 'Start a new job from it: Shop bench' }).click();
    await dialog.getByLabel('Name of the job').fill('Hall bench');
    await page.keyboard.press('Enter');
    await page.locator('.top-title', { hasText: 'Hall bench' }).waitFor();
    await command(page, 'Change to millimeters');
    await expect.poll(() => shows('seat_length')).toMatch(/^\d{4}/);
    await type('seat_length', '1500');
    await type('seat_height', '440');
    await maker.untilSaved();
    expect(await words(await whatIsNew())).toContain('Nothing has changed in "Shop bench" since.');
    await maker.closeDialog();

    await openBook(/^Change the template: Shop bench$/);
    await type('seat_length', '50');
    await type('seat_height', '17');
    await type('seat_width', '13');
    await maker.untilSaved();
    await openBook(/^Open: Hall bench$/);
    await notice().waitFor();
    expect(await words(notice())).toContain('3 changed cells in "Shop bench"');
    await notice().getByRole('button', { name: 'Not now' }).click();
    await notice().waitFor({ state: 'hidden' });
    await maker.comeBack();
    await page.getByText('Hall bench').first().waitFor();
    // Whatever is told of it would be there by now: the totals of the selection come later.
    await go('seat_length:seat_height');
    expect(await notice().count()).toBe(0);
  });

  it('shows both sides of what both changed, with what each does, and takes what was chosen', async () => {
    const dialog = await whatIsNew();
    const met = dialog.locator('fieldset.met');
    await met.nth(1).waitFor();
    expect(await met.count()).toBe(2);
    const length = met.filter({ hasText: 'Length of the seat' });
    expect(await words(length)).toMatch(/It was \d{4}(\.\d)? mm\..*1500 mm.*1270 mm/);
    // The length is mine now; the template's does something to price and parts.
    const theirs = length.locator('.met-side').last();
    await theirs.getByText(/^Price \$/).waitFor();
    expect(await words(theirs)).toMatch(/\d parts? changed/);
    expect(await words(length.locator('.met-side').first())).toMatch(/Price \$.*parts? changed/);
    const taken = dialog.getByRole('region', { name: 'Only changed in the template: brought in' });
    expect(await words(taken)).toMatch(/Width of the seat.*330\.2 mm/);
    expect(await words(dialog.getByRole('button', { name: TAKES }))).toBe('Bring in 1 change');
    await length.getByRole('radio', { name: /^From "Shop bench"/ }).check();
    expect(await words(dialog.getByRole('button', { name: TAKES }))).toBe('Bring in 2 changes');
    const does = dialog.getByRole('region', { name: 'What it does to this workbook' });
    await does.getByText(/^Price .*→/).waitFor();
    const told = (await words(does)).match(/Price \S+ → (\S+)/)?.[1];
    await dialog.getByRole('button', { name: TAKES }).click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await shows('seat_length')).toBe('1270');
    expect(await shows('seat_height')).toBe('440');
    expect(await shows('seat_width')).toBe('330.2');
    // What was told of it before is what it came to.
    const did = page.locator('.did').last();
    expect(await words(did.locator('.did-says'))).toBe(
      'Brought in 2 changes from the template "Shop bench"',
    );
    expect(told).toMatch(/^\$/);
    expect(await words(did)).toContain(told ?? '');
    expect(await words(await whatIsNew())).toContain('Nothing has changed in "Shop bench" since.');
    await maker.closeDialog();
  });

  it('takes all of it back in one step, and does it again', async () => {
    await go('seat_length');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => shows('seat_length')).toBe('1500');
    expect(await shows('seat_height')).toBe('440');
    expect(await shows('seat_width')).not.toBe('330.2');
    // It rests on the state of before again: what the template brings can be looked at again.
    const dialog = await whatIsNew();
    await dialog.getByRole('button', { name: TAKES }).waitFor();
    await maker.closeDialog();
    await page.keyboard.press('ControlOrMeta+y');
    await expect.poll(() => shows('seat_length')).toBe('1270');
    expect(await shows('seat_width')).toBe('330.2');
    await maker.comeBack();
    expect(await shows('seat_width')).toBe('330.2');
  });

  it('prints its shop sheets with what it took over', async () => {
    await onlySheets(page, 'Cut list');
    const pages = await printed(page);
    const text = pages.map((one) => one.text).join(' ');
    expect(text).toContain('Hall bench');
    expect(text).toMatch(/\b1270\b/);
    await page.locator('.activities').getByRole('button', { name: 'Workbook' }).click();
  });
});

/** A bench of an earlier revision than the one that is built in now: its seat was shorter. */
function earlierBench(): { readonly before: string; readonly file: string } {
  const path = join(import.meta.dirname, '../../templates/bench.json');
  const loaded = loadText(readFileSync(path, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const enter = (document: BookDocument, name: string, text: string): BookDocument => {
    const book = Workbook.open(document);
    const at = book.named(name)?.at;
    if (at === undefined) throw new Error(`no ${name}`);
    const { sheet, row, column } = at;
    const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    if (!done.ok) throw new Error(done.says);
    return book.document();
  };
  const before = saveText(enter(loaded.document, 'seat_length', '40'));
  const was = loadText(before);
  if (!was.ok) throw new Error(was.says);
  const book = Workbook.open(was.document);
  book.apply({ do: 'changeUnits', to: 'metric' });
  const rounded = roundFigures(book.document());
  if (rounded !== undefined) book.apply(rounded);
  const lineage = {
    template: 'Bench',
    revision: 1,
    key: 'bench',
    base: createHash('sha256').update(before).digest('hex'),
    text: deflateRawSync(Buffer.from(before)).toString('base64'),
  };
  const mine = { ...enter(book.document(), 'seat_height', '450'), title: 'Old bench', lineage };
  return { before, file: saveText(mine) };
}

async function openFile(name: string, text: string): Promise<void> {
  await maker.workbooks();
  await page.getByLabel('Workbook file').setInputFiles({
    name,
    mimeType: 'application/json',
    buffer: Buffer.from(text),
  });
}

describe('a bench of an earlier revision of the built-in template', () => {
  it('takes the round figure of what is new, and meets nothing that only was rounded', async () => {
    await openFile('old-bench.json', earlierBench().file);
    await page.locator('.top-title', { hasText: 'Old bench' }).waitFor();
    await notice().waitFor();
    await notice().getByRole('button', { name: 'Look at what it brings' }).click();
    const dialog = page.getByRole('dialog', { name: 'New in the template' });
    await dialog.getByRole('button', { name: TAKES }).waitFor();
    expect(await dialog.locator('fieldset.met').count()).toBe(0);
    const taken = dialog.getByRole('region', { name: 'Only changed in the template: brought in' });
    expect(await taken.getByRole('row').count()).toBe(2);
    expect(await words(taken)).toMatch(/1015 mm.*\d+0 mm/);
    const stays = dialog.getByRole('region', { name: 'Only changed by you: stays' });
    expect(await words(stays)).toContain('450 mm');
    await maker.closeDialog();
  });

  it('says what is amiss where its template is of no help, and offers to compare', async () => {
    const { file } = earlierBench();
    const kept = JSON.parse(file);
    const odd = (lineage: object, title: string) =>
      openFile('odd.json', JSON.stringify({ ...kept, title, lineage }));
    const { text: _text, ...without } = kept.lineage;
    await odd({ ...without, key: 'gone-away' }, 'Gone');
    await page.locator('.top-title', { hasText: 'Gone' }).waitFor();
    let dialog = await whatIsNew();
    await dialog.getByText('is not on this device').waitFor();
    expect(await dialog.getByRole('button', { name: /^Compare/ }).count()).toBe(0);
    await maker.closeDialog();
    await odd({ ...without, revision: 999 }, 'Later');
    await page.locator('.top-title', { hasText: 'Later' }).waitFor();
    dialog = await whatIsNew();
    await dialog.getByText(/the one here is older: revision \d+/).waitFor();
    await dialog.getByRole('button', { name: 'Compare with "Bench"' }).click();
    const compare = page.getByRole('dialog', { name: 'Compare' });
    await compare.getByRole('button', { name: 'Mark in the grid' }).waitFor();
    expect(await words(compare)).toMatch(/Height of the seat/);
    await maker.closeDialog();
  });
});

describe('two workbooks', () => {
  it('are compared in a list and in the grid, until the marks are taken away', async () => {
    await command(page, 'Compare');
    const dialog = page.getByRole('dialog', { name: 'Compare' });
    await dialog.getByLabel('Compare', { exact: true }).selectOption({ label: 'Old bench' });
    await dialog.getByText('1 line about the workbook; no result differs by that.').waitFor();
    expect(await words(dialog.getByRole('row').last())).toBe('Title Old bench Later');
    await dialog.getByLabel('Compare', { exact: true }).selectOption({ label: 'Hall bench' });
    await dialog
      .getByText(/results? differ/)
      .first()
      .waitFor();
    await dialog.locator('summary', { hasText: 'Entries and formulas' }).click();
    expect(await words(dialog)).toMatch(/Length of the seat.*1270 mm.*\d+ mm/);
    await dialog.getByRole('button', { name: 'Mark in the grid' }).click();
    await dialog.waitFor({ state: 'hidden' });
    const marked = page.locator('.ag-cell.is-compared');
    await marked.first().waitFor();
    const line = page.locator('.comparing');
    expect(await words(line)).toMatch(/Compared with "Hall bench": \d+ cells differ/);
    await go('seat_length');
    const cell = page.locator('.ag-cell-focus');
    expect(await cell.getAttribute('aria-description')).toMatch(/^In "Hall bench": 1270 mm(;|$)/);
    // The marks stay with their cells.
    await go('species');
    expect(await page.locator('.ag-cell-focus.is-compared').count()).toBe(0);
    await line.getByRole('button', { name: 'Previous' }).click();
    await page.locator('.ag-cell-focus.is-compared').waitFor();
    await line.getByRole('button', { name: 'Stop comparing' }).click();
    await line.waitFor({ state: 'hidden' });
    expect(await marked.count()).toBe(0);
    // From the card of another one it is that one which is compared.
    const list = await maker.workbooks();
    const card = list.locator('.book-row', { hasText: 'Hall bench' }).first();
    await maker.more(card);
    await card.getByRole('button', { name: /^Compare with the open one: / }).click();
    await dialog
      .getByText(/results? differ/)
      .first()
      .waitFor();
    await dialog.locator('summary', { hasText: 'Entries and formulas' }).click();
    expect(await words(dialog)).toMatch(/Length of the seat.*1270 mm.*\d+ mm/);
    await maker.closeDialog();
    expect(complaints).toEqual([]);
  });
});
