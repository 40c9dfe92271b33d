import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { command, documentOf, Maker, origin, words } from './support/maker.ts';

/** What a maker does is kept: through reloads, crashes, other tabs, files and second thoughts. */

let app: App;
let page: Page;
let maker: Maker;
let complaints: readonly string[];

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  page = await app.open();
  complaints = complaintsOf(page);
  maker = new Maker(page);
  await maker.ready();
});
afterEach(async () => {
  expect(complaints).toEqual([]);
  await page.context().close();
});

/** Another tab of the same browser profile. */
async function anotherTab(): Promise<Maker> {
  const other = new Maker(await page.context().newPage());
  await other.page.goto(app.address);
  await other.ready();
  return other;
}

const saveAs = (name: string): Promise<void> => maker.saveAsAndOpen(name);

/** The workbook that is open now, kept as a file. */
async function keepFile(): Promise<{ name: string; text: string }> {
  const dialog = await maker.workbooks();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    dialog
      .getByRole('listitem')
      .filter({ hasText: 'open now' })
      .getByRole('button', { name: /^Save a copy as a file/ })
      .click(),
  ]);
  const text = readFileSync(await download.path(), 'utf8');
  await maker.closeDialog();
  return { name: download.suggestedFilename(), text };
}

async function openFile(name: string, text: string): Promise<void> {
  await maker.workbooks();
  await page.getByLabel('Workbook file').setInputFiles({
    name,
    mimeType: 'application/json',
    buffer: Buffer.from(text),
  });
}

describe('saving by itself', () => {
  it('G53 says saved only when it is, and keeps changes through a reload', async () => {
    await maker.type('top_length', '97');
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('top_length')).toBe('97');
    await maker.untilSaved();
  });

  it('G53 loses no edit when the page dies right after it', async () => {
    for (const length of ['98', '99', '100 1/2']) {
      await maker.type('top_length', length);
      const crashed = page.waitForEvent('crash');
      const session = await page.context().newCDPSession(page);
      // The call itself never answers: the page it was sent to is gone.
      session.send('Page.crash').catch(() => undefined);
      await crashed;
      const dead = page;
      maker = await anotherTab();
      page = maker.page;
      await dead.close();
      expect(await maker.shows('top_length')).toBe(length);
    }
  });

  it('G57 says what to do when the browser will not write, and writes once it will', async () => {
    // Stands in for a full device: the browser's own error, thrown where the log is written.
    await page.evaluate(() => {
      const real = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function put(...given) {
        if (Reflect.get(window, 'deviceIsFull') === true) {
          throw new DOMException('no room', 'QuotaExceededError');
        }
        return real.apply(this, given);
      };
      Reflect.set(window, 'deviceIsFull', true);
    });
    await maker.type('top_length', '97');
    const trouble = page.getByRole('alert').filter({ hasText: 'Not saved' });
    await trouble.waitFor();
    expect(await words(trouble)).toContain('no room left');
    expect(await maker.shows('top_length')).toBe('97');
    await page.evaluate(() => Reflect.set(window, 'deviceIsFull', false));
    await trouble.getByRole('button', { name: 'Try again' }).click();
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('top_length')).toBe('97');
  });

  it('starts again from the template, and finds the changed copy in the trash', async () => {
    const before = await maker.shows('top_length');
    await maker.type('top_length', '97');
    const dialog = await maker.workbooks();
    await maker.more(dialog.locator('.book-row', { hasText: 'open now' }));
    await dialog.getByRole('button', { name: 'Start again: ' }).click();
    await dialog.getByRole('button', { name: 'Start again', exact: true }).click();
    await dialog.getByRole('button', { name: 'Put back: ' }).waitFor();
    await maker.closeDialog();
    expect(await maker.shows('top_length')).toBe(before);
  });
});

describe('workbooks of my own', () => {
  it('have a changed template among them, and a new one is started beside it', async () => {
    const before = await maker.shows('top_length');
    await maker.type('top_length', '97');
    let dialog = await maker.workbooks();
    const yours = () =>
      dialog.locator('.book-section', { has: page.getByRole('heading', { name: 'Yours' }) });
    const mine = () => yours().locator('.book-row');
    expect(await words(mine())).toContain('Dining table open now From the template');
    await dialog.getByRole('button', { name: 'Start a new one: Dining table' }).click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await maker.shows('top_length')).toBe(before);
    dialog = await maker.workbooks();
    expect(await mine().count()).toBe(1);
    expect(await words(mine())).not.toContain('open now');
    expect(await dialog.getByRole('button', { name: /^Put back/ }).count()).toBe(0);
    await mine().getByRole('button', { name: /^Open/ }).click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await maker.shows('top_length')).toBe('97');
  });

  it('are saved under a name and opened again after a reload', async () => {
    await maker.type('top_length', '97');
    await saveAs('Oak for the hall');
    await maker.type('top_length', '98');
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await words(page.locator('.top-title'))).toBe('Oak for the hall');
    expect(await maker.shows('top_length')).toBe('98');
    const dialog = await maker.workbooks();
    await dialog.getByRole('button', { name: 'Open: Dining table' }).click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await maker.shows('top_length')).toBe('97');
  });

  it('know what they were made from', async () => {
    await saveAs('Oak for the hall');
    expect(await origin(page)).toContain('made from "Dining table"');
    const { text } = await keepFile();
    const shipped = readFileSync(`${import.meta.dirname}/../../templates/dining-table.json`);
    const revisions = `${import.meta.dirname}/../../apps/grid/src/storage/template-revisions.json`;
    const listed = JSON.parse(readFileSync(revisions, 'utf8'));
    expect(documentOf(text).lineage).toEqual({
      template: 'Dining table',
      revision: listed['dining-table'].revision,
      key: 'dining-table',
      // The state that both have in common; a built-in one that is here needs no text of it.
      base: createHash('sha256').update(shipped).digest('hex'),
    });
  });

  it('that are templates begin a job as a copy, and say which of the two is open', async () => {
    await maker.type('top_length', '97');
    await saveAs('Oak for the hall');
    const notice = page.locator('.notices', {
      hasText: 'what you change here changes the template',
    });
    await notice.waitFor();
    const start = { name: 'Start a new job from it: Oak for the hall' };
    let dialog = await maker.workbooks();
    await dialog.getByRole('button', start).click();
    expect(await dialog.getByLabel('Name of the job').inputValue()).toBe('Oak for the hall 2');
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'hidden' });
    // It spoke of the template as the one at hand.
    await notice.waitFor({ state: 'hidden' });
    expect(await words(page.locator('.top-title'))).toBe('Oak for the hall 2');
    await maker.type('top_length', '70');
    dialog = await maker.workbooks();
    await dialog.getByRole('button', start).click();
    await dialog.getByLabel('Name of the job').fill('Oak for the hall 2');
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'hidden' });
    expect(await maker.shows('top_length')).toBe('97');
    dialog = await maker.workbooks();
    // Two of one name tell when they were changed, on their buttons too.
    const alike = dialog.getByRole('button', {
      name: /^Open: Oak for the hall 2, changed \d+ \w+ \d+, /,
    });
    const names = await Promise.all([0, 1].map((i) => alike.nth(i).getAttribute('aria-label')));
    expect(new Set(names).size).toBe(2);
    expect(await alike.count()).toBe(2);
  });

  it('are renamed, and the new name can be undone', async () => {
    await saveAs('Oak for the hall');
    const dialog = await maker.workbooks();
    await maker.more(dialog.locator('.book-row', { hasText: 'Oak for the hall' }));
    await dialog.getByRole('button', { name: 'Rename: Oak for the hall' }).click();
    await dialog.getByLabel('New name').fill('Ash for the hall');
    await page.keyboard.press('Enter');
    await dialog.getByRole('heading', { name: 'Ash for the hall' }).waitFor();
    await maker.closeDialog();
    expect(await words(page.locator('.top-title'))).toBe('Ash for the hall');
    await maker.go('top_length');
    await page.keyboard.press('ControlOrMeta+z');
    await page.locator('.top-title', { hasText: 'Oak for the hall' }).waitFor();
  });

  it('are deleted only after a question, and come back from the trash', async () => {
    await saveAs('Oak for the hall');
    const dialog = await maker.workbooks();
    await maker.more(dialog.locator('.book-row', { hasText: 'Oak for the hall' }));
    await dialog.getByRole('button', { name: 'Delete: Oak for the hall' }).click();
    expect(await words(dialog.getByRole('alert'))).toContain(
      'stays there until you delete it for good',
    );
    await dialog.getByRole('button', { name: 'Cancel' }).click();
    await dialog.getByRole('button', { name: 'Delete: Oak for the hall' }).click();
    await dialog.getByRole('button', { name: 'Delete', exact: true }).click();
    await dialog.getByRole('button', { name: 'Put back: Oak for the hall' }).click();
    await dialog.getByRole('button', { name: 'Change the template: Oak for the hall' }).click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await words(page.locator('.top-title'))).toBe('Oak for the hall');
  });
});

describe('files', () => {
  it('come back equal to what went out', async () => {
    await maker.type('top_length', '97');
    const copy = await keepFile();
    expect(copy.name).toBe('dining-table.kerfbook.json');
    await openFile(copy.name, copy.text);
    await expect.poll(() => origin(page)).toContain(`From the file ${copy.name}`);
    await maker.closeDialog();
    expect(await maker.shows('top_length')).toBe('97');
    const again = await keepFile();
    expect(again.text).toBe(copy.text);
  });

  it.each([
    ['broken', '{"kerfbook": 8, "title": "Half a fi', 'not readable JSON'],
    ['foreign', '{"layers": [], "zoom": 2}', 'not a Kerfbook workbook'],
    ['from a newer app', '{"kerfbook": 99, "title": "Tomorrow"}', 'written by a newer Kerfbook'],
    ['damaged', '{"kerfbook": 8, "title": 5}', 'damaged at'],
  ])('that are %s get one sentence, and nothing is lost', async (_kind, text, phrase) => {
    await maker.type('top_length', '97');
    await openFile('mine.json', text);
    const dialog = page.getByRole('dialog', { name: 'That file was not opened' });
    const says = await words(dialog.locator('.complaint'));
    expect(says).toContain(phrase);
    expect(says.startsWith('mine.json: ')).toBe(true);
    await dialog.getByRole('button', { name: 'Close' }).click();
    await maker.closeDialog();
    expect(await maker.shows('top_length')).toBe('97');
  });

  it('are opened by dropping them on the page', async () => {
    const copy = await keepFile();
    const files = await page.evaluateHandle(({ name, text }) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([text], name, { type: 'application/json' }));
      return transfer;
    }, copy);
    await page.dispatchEvent('body', 'dragover', { dataTransfer: files });
    await page.getByText('Drop the file to open it').waitFor();
    await page.dispatchEvent('body', 'drop', { dataTransfer: files });
    await expect.poll(() => origin(page)).toContain('From the file');
  });
});

describe('two tabs', () => {
  it('G55 never write the same workbook: the second reads, and may go on when the first closes', async () => {
    await maker.type('top_length', '97');
    await maker.untilSaved();
    const second = await anotherTab();
    expect(await words(second.saved)).toContain('view only');
    await second.type('top_length', '55');
    expect(await second.shows('top_length')).toBe('97');
    // A page behind another takes keys late or not at all: back to the first tab, as a maker would.
    await page.bringToFront();
    await maker.type('top_length', '98');
    await expect.poll(() => maker.shows('top_length')).toBe('98');
    await maker.untilSaved();
    await page.close();
    maker = second;
    page = second.page;
    await page.getByRole('button', { name: 'Edit here' }).click();
    await maker.untilSaved();
    expect(await maker.shows('top_length')).toBe('98');
    await maker.type('top_length', '99');
    await expect.poll(() => maker.shows('top_length')).toBe('99');
    await maker.untilSaved();
  });
});

describe('earlier states of a workbook', () => {
  const versions = async () => {
    await command(page, 'Versions');
    const dialog = page.getByRole('dialog', { name: 'Versions' });
    await dialog.getByRole('listitem').first().waitFor();
    return dialog;
  };

  it('G56 are kept by themselves and by name, compared, gone back to, and travel in a file', async () => {
    await maker.type('top_length', '100');
    let dialog = await versions();
    // What it was when it was opened.
    expect(await dialog.getByRole('listitem').count()).toBe(1);
    expect(await words(dialog.locator('time'))).toMatch(/^\d{1,2} [A-Z][a-z]+ \d{4}, \d\d:\d\d$/);
    await dialog.getByRole('button', { name: 'Save a version' }).click();
    await page.getByLabel('Version name').fill('As ordered');
    await page.keyboard.press('Enter');
    await dialog.getByRole('listitem').filter({ hasText: 'As ordered' }).waitFor();
    await maker.closeDialog();

    const apron = await maker.shows('apron_long');
    await maker.type('top_length', '120');
    const longer = await maker.shows('apron_long');
    dialog = await versions();
    const ordered = dialog.getByRole('listitem').filter({ hasText: 'As ordered' });
    await ordered.getByRole('button', { name: 'Compare with now' }).click();
    const row = (name: string) => ordered.getByRole('row').filter({ hasText: name }).first();
    expect(await words(row('Length of the top'))).toMatch(/100.* 120/);
    // What follows from it is folded away below what was typed.
    await ordered.getByText('Results that differ').click();
    expect(await words(row('Long aprons'))).toContain(longer);

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save a file with all versions' }).click(),
    ]);
    const text = readFileSync(await download.path(), 'utf8');

    await ordered.getByRole('button', { name: 'Go back to this' }).click();
    await expect.poll(() => maker.shows('apron_long')).toBe(apron);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => maker.shows('apron_long')).toBe(longer);
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('apron_long')).toBe(longer);

    await openFile('table-with-versions.json', text);
    await expect.poll(() => origin(page)).toContain('table-with-versions.json');
    dialog = await versions();
    await dialog.getByRole('listitem').filter({ hasText: 'As ordered' }).waitFor();
    await dialog
      .getByRole('listitem')
      .filter({ hasText: 'As ordered' })
      .getByRole('button', { name: 'Go back to this' })
      .click();
    await expect.poll(() => maker.shows('top_length')).toContain('100');
  });
});
