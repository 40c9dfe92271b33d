import { readFileSync } from 'node:fs';
import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { command, origin, words } from './support/maker.ts';
import { fillDevice, keptRecords, overwrite } from './support/storage.ts';
import { withMaker } from './support/with-maker.ts';

/** One bad workbook never hides the others; one tab never locks itself out; a full device says so. */

const here = withMaker();

const saveAs = (name: string): Promise<void> => here.maker.saveAsAndOpen(name);

/** What a button hands out as a file. */
async function fileOf(button: Locator): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = await Promise.all([here.page.waitForEvent('download'), button.click()]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

const row = (dialog: Locator, title: string) =>
  dialog.locator('.book-row').filter({ has: here.page.getByRole('heading', { name: title }) });

/** Types a length and waits until it is saved: the tab writes. */
async function writes(length: string): Promise<void> {
  await here.maker.type('top_length', length);
  await here.maker.untilSaved();
  expect(await here.maker.shows('top_length')).toBe(length);
}

describe('a workbook that cannot be opened', () => {
  it('stays listed with its reason, gives out its text, and offers its last version', async () => {
    const { page, maker } = here;
    await saveAs('Oak for the hall');
    await writes('97');
    await saveAs('Ash for the hall');
    await writes('98');
    // The log is folded into the text once the page is hidden or left.
    await page.reload();
    await maker.ready();
    const ash = (await keptRecords(page)).find(({ title }) => title === 'Ash for the hall');
    const broken = `${ash?.text.slice(0, 5_000)}\u00e9 cut off`;
    await overwrite(page, 'books', { ...ash, text: broken });
    await page.reload();

    const dialog = page.getByRole('dialog', { name: 'Workbooks' });
    const bad = row(dialog, 'Ash for the hall');
    // What is said of it is a part that loads when it is first asked for.
    await expect.poll(() => words(bad)).toMatch(/could not be opened\. .*not readable JSON/);
    expect(await row(dialog, 'Oak for the hall').count()).toBe(1);
    // The keys are where something can be done about it.
    const version = bad.getByRole('button', { name: /^Open the version of \d\d:\d\d: Ash/ });
    await expect.poll(() => version.evaluate((one) => one === document.activeElement)).toBe(true);
    const stored = await fileOf(bad.getByRole('button', { name: /^Save its text as a file/ }));
    expect(stored).toEqual({ name: 'ash-for-the-hall-as-stored.kerfbook.json', text: broken });
    const all = await fileOf(bad.getByRole('button', { name: /^Save all that is kept of it/ }));
    expect(JSON.parse(all.text).record.text).toBe(broken);

    await version.click();
    await dialog.waitFor({ state: 'hidden' });
    expect(await words(page.locator('.top-title'))).toMatch(/^Ash for the hall, version of /);
    expect(await maker.shows('top_length')).toBe('98');
    await writes('99');
    // What is on the screen is what goes out.
    const list = await maker.workbooks();
    const open = list.locator('.book-row').filter({ hasText: 'open now' });
    const out = await fileOf(open.getByRole('button', { name: /^Save a copy as a file/ }));
    expect(JSON.parse(out.text).title).toMatch(/^Ash for the hall, version of /);
    // It is kept on the device, and the bad one as it was.
    await maker.closeDialog();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('top_length')).toBe('99');
    const after = (await keptRecords(page)).find(({ id }) => id === ash?.id);
    expect(after?.text).toBe(broken);
  });

  it('may be the copy of the template: started again, it waits in the trash', async () => {
    const { page, maker } = here;
    await writes('97');
    await page.reload();
    await maker.ready();
    const [copy] = await keptRecords(page);
    await overwrite(page, 'books', { ...copy, text: '{"kerfbook": 9}' });
    await page.reload();
    const dialog = page.getByRole('dialog', { name: 'Workbooks' });
    const bad = row(dialog, 'Dining table').filter({ hasText: 'could not be opened' });
    expect(await words(bad)).toContain('newer Kerfbook');
    await bad.getByRole('button', { name: /^Start again/ }).click();
    await bad.getByRole('button', { name: 'Start again', exact: true }).click();
    await dialog.getByRole('button', { name: 'Put back: ' }).waitFor();
    await maker.closeDialog();
    await writes('96');
  });
});

describe('changes that no longer fit', () => {
  it('are kept aside, can be read, taken out and removed', async () => {
    const { page, maker } = here;
    await saveAs('Oak for the hall');
    await writes('97');
    await page.reload();
    await maker.ready();
    const oak = (await keptRecords(page)).find(({ title }) => title === 'Oak for the hall');
    const seq = (oak?.revision ?? 0) + 1;
    const at = new Date(2026, 10, 26, 14, 55).getTime();
    const [first, second] = [
      { do: 'renameSheet', sheet: 'gone', name: 'Base' },
      {
        do: 'enter',
        sheet: maker.place('top_length').sheet,
        cells: [{ row: 3, column: 1, text: '66 3/8' }],
      },
    ];
    await overwrite(page, 'log', { book: oak?.id, seq, edit: first, at });
    await overwrite(page, 'log', { book: oak?.id, seq: seq + 1, edit: second, at });
    await page.reload();
    await maker.ready();
    const notice = page.locator('.notices').getByText('The last 2 changes could not be put back');
    await notice.waitFor();
    await page.getByRole('button', { name: 'Show the list' }).click();
    const kept = row(page.getByRole('dialog', { name: 'Workbooks' }), 'Oak for the hall');
    await kept.getByRole('button', { name: /^Show these changes/ }).click();
    const list = kept.getByRole('list', { name: /could not be put back/ });
    expect(await words(list.getByRole('listitem').nth(0))).toContain('renamed to Base 14:55');
    expect(await words(list.getByRole('listitem').nth(1))).toContain('Brief B4: 66 3/8 14:55');
    const out = await fileOf(kept.getByRole('button', { name: /^Save these changes as a file/ }));
    expect(JSON.parse(out.text).changes.map((one: { edit: unknown }) => one.edit)).toEqual([
      first,
      second,
    ]);
    await kept.getByRole('button', { name: /^Remove these changes/ }).click();
    await kept.getByRole('button', { name: 'Remove 2 changes', exact: true }).click();
    await expect.poll(() => words(kept)).not.toContain('could not be put back');
    await maker.closeDialog();
    expect(await maker.shows('top_length')).toBe('97');
  });
});

describe('one tab alone', () => {
  const startAgain = async () => {
    const dialog = await here.maker.workbooks();
    const again = here.page.getByRole('button', { name: 'Start again: ', includeHidden: true });
    // The copy of the template, which is not the one that is open every time.
    await here.maker.more(dialog.locator('.book-row').filter({ has: again }));
    await dialog.getByRole('button', { name: 'Start again: ' }).click();
    await dialog.getByRole('button', { name: 'Start again', exact: true }).click();
    // The button is there for as long as there is something to start again from.
    await dialog.getByRole('button', { name: 'Start again: ' }).waitFor({ state: 'hidden' });
    expect(await dialog.getByRole('alert').count()).toBe(0);
    await here.maker.closeDialog();
  };

  it('starts again twice and once more from another workbook, and goes on writing', async () => {
    const { page, maker } = here;
    await writes('97');
    await startAgain();
    await writes('98');
    await startAgain();
    await writes('99');
    await saveAs('Oak for the hall');
    await startAgain();
    expect(await words(page.locator('.top-title'))).toBe('Dining table');
    await writes('100');
    const dialog = await maker.workbooks();
    expect(await dialog.getByRole('button', { name: 'Put back: ' }).count()).toBe(3);
  });

  it('opens workbooks, versions, files and what was deleted, again and again', async () => {
    const { page, maker } = here;
    await saveAs('Oak for the hall');
    await writes('97');
    let dialog = await maker.workbooks();
    for (const title of ['Dining table', 'Oak for the hall', 'Dining table', 'Oak for the hall']) {
      await dialog
        .getByRole('button', { name: new RegExp(`^(Open|Change the template): ${title}`) })
        .dblclick();
      await dialog.waitFor({ state: 'hidden' });
      expect(await words(page.locator('.top-title'))).toBe(title);
      await writes('98');
      dialog = await maker.workbooks();
    }
    const file = await fileOf(
      row(dialog, 'Oak for the hall').getByRole('button', { name: /^Save a copy as a file/ }),
    );
    for (const many of [1, 2]) {
      await page.getByLabel('Workbook file').setInputFiles({
        name: file.name,
        mimeType: 'application/json',
        buffer: Buffer.from(file.text),
      });
      await expect.poll(() => origin(page)).toContain('From the file');
      await page.getByRole('dialog').waitFor({ state: 'hidden' });
      await writes(String(100 + many));
      dialog = await maker.workbooks();
    }
    expect(await row(dialog, 'Oak for the hall').count()).toBe(3);
    const current = () => dialog.locator('.book-row').filter({ hasText: 'open now' });
    for (const length of ['103', '104']) {
      await maker.more(current());
      await current()
        .getByRole('button', { name: /^Delete/ })
        .click();
      await current().getByRole('button', { name: 'Delete', exact: true }).click();
      await dialog.getByRole('button', { name: 'Put back: ' }).click();
      await dialog.getByRole('button', { name: 'Put back: ' }).waitFor({ state: 'hidden' });
      await dialog.getByRole('button', { name: 'Open: Oak for the hall' }).first().click();
      await dialog.waitFor({ state: 'hidden' });
      await writes(length);
      dialog = await maker.workbooks();
    }
    await maker.closeDialog();
    for (const _twice of [1, 2]) {
      await command(page, 'Versions');
      const versions = page.getByRole('dialog', { name: 'Versions' });
      await versions.getByRole('button', { name: 'Go back to this' }).last().click();
      await versions.waitFor({ state: 'hidden' });
      await maker.untilSaved();
    }
    await writes('105');
  });
});

describe('a full device', () => {
  it('G57 says so when a version is to be kept or gone back to', async () => {
    const { page, maker } = here;
    await writes('97');
    await command(page, 'Versions');
    const dialog = page.getByRole('dialog', { name: 'Versions' });
    await dialog.getByRole('button', { name: 'Go back to this' }).waitFor();
    await fillDevice(page, true);
    await dialog.getByRole('button', { name: 'Save a version' }).click();
    await dialog.getByLabel('Version name').fill('As ordered');
    await page.keyboard.press('Enter');
    expect(await words(dialog.getByRole('alert'))).toMatch(/^Not saved: .*no room left/);
    await dialog.getByRole('button', { name: 'Cancel' }).click();
    await dialog.getByRole('button', { name: 'Go back to this' }).click();
    expect(await words(dialog.getByRole('alert'))).toMatch(/^Nothing was changed: .*no room left/);
    await fillDevice(page, false);
    await dialog.getByRole('button', { name: 'Save a version' }).click();
    await dialog.getByLabel('Version name').fill('As ordered');
    await page.keyboard.press('Enter');
    await dialog.getByRole('listitem').filter({ hasText: 'As ordered' }).waitFor();
    await maker.closeDialog();
    expect(await maker.shows('top_length')).toBe('97');
  });

  it('opens what can be read, a file too, and keeps it once there is room', async () => {
    const { page, maker } = here;
    await saveAs('Oak for the hall');
    await writes('97');
    const list = await maker.workbooks();
    const oak = row(list, 'Oak for the hall');
    const file = await fileOf(oak.getByRole('button', { name: /^Save a copy as a file/ }));
    await fillDevice(page, true);
    await list.getByRole('button', { name: 'Open: Dining table' }).click();
    await list.waitFor({ state: 'hidden' });
    await maker.workbooks();
    await page.getByLabel('Workbook file').setInputFiles({
      name: file.name,
      mimeType: 'application/json',
      buffer: Buffer.from(file.text),
    });
    await expect.poll(() => origin(page)).toContain('From the file');
    await list.waitFor({ state: 'hidden' });
    expect(await words(page.locator('.saved-state'))).toMatch(/^Not saved: .*no room left/);
    expect(await maker.shows('top_length')).toBe('97');
    await maker.type('top_length', '98');
    await fillDevice(page, false);
    await page.getByRole('button', { name: 'Try again' }).click();
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('top_length')).toBe('98');
  });
});
