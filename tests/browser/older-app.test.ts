import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { activity, command, Maker, words } from './support/maker.ts';
import { keptRecords } from './support/storage.ts';

/** What a browser kept of the first app opens in this one, and a tab of the first app cannot spoil it. */

interface Kept {
  readonly books: readonly { readonly id: string; readonly title: string }[];
  readonly log: readonly object[];
  readonly values: readonly (readonly [string, unknown])[];
}

const KEPT = JSON.parse(
  readFileSync(
    join(import.meta.dirname, '../../packages/keeping/src/testing/kept-by-first.json'),
    'utf8',
  ),
) as Kept;

let app: App;
let older: Page;
let page: Page;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  const context = await app.browser.newContext({ viewport: { width: 1440, height: 900 } });
  older = await context.newPage();
  // A page of the same address that is not the app of today.
  await older.goto(new URL('/kerfbook.json', app.address).href);
  page = await context.newPage();
});
afterEach(() => page.context().close());

/** Makes the tab one of the first app: it keeps all that in the database's first version, and stays. */
function holdAsFirst(letsGo: boolean): Promise<void> {
  return older.evaluate(
    ({ kept, letsGo }) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('kerfbook', 1);
        opening.onupgradeneeded = () => {
          const database = opening.result;
          database.createObjectStore('books', { keyPath: 'id' });
          database.createObjectStore('log', { keyPath: ['book', 'seq'] });
          database.createObjectStore('kv');
        };
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          if (letsGo) database.onversionchange = () => database.close();
          Reflect.set(window, 'held', database);
          const work = database.transaction(['books', 'log', 'kv'], 'readwrite');
          for (const record of kept.books) work.objectStore('books').put(record);
          for (const entry of kept.log) work.objectStore('log').put(entry);
          for (const [key, value] of kept.values) work.objectStore('kv').put(value, key);
          work.onerror = () => reject(work.error);
          work.oncomplete = () => resolve();
        };
      }),
    { kept: KEPT, letsGo },
  );
}

/** Writes as the first app does, with what it holds or opening the database anew; says what came of it. */
function writeAsFirst(how: 'held' | 'anew'): Promise<string> {
  return older.evaluate(
    ({ record, how }) =>
      new Promise<string>((resolve) => {
        const write = (database: IDBDatabase): void => {
          try {
            const work = database.transaction('books', 'readwrite');
            work.objectStore('books').put({ ...record, title: 'Written over' });
            work.oncomplete = () => resolve('written');
            work.onabort = () => resolve(String(work.error?.name));
          } catch (error) {
            resolve((error as Error).name);
          }
        };
        if (how === 'held') {
          write(Reflect.get(window, 'held') as IDBDatabase);
          return;
        }
        const opening = indexedDB.open('kerfbook', 1);
        opening.onerror = () => resolve(String(opening.error?.name));
        opening.onsuccess = () => write(opening.result);
      }),
    { record: KEPT.books.find(({ title }) => title === 'Shelf for the hall') ?? {}, how },
  );
}

const at = (row: number, column: number): Locator =>
  page.locator(`.ag-row[row-id="${row}"] [aria-colindex="${column + 2}"]`);

async function open(title: string): Promise<void> {
  const dialog = await new Maker(page).workbooks();
  await dialog.getByRole('button', { name: new RegExp(`^Open: ${title}`) }).click();
  await page.locator('.top-title', { hasText: title }).waitFor();
}

describe('a store of the first app', () => {
  it('opens with its log, versions, ticks and trash, and its own tab writes no more', async () => {
    await holdAsFirst(true);
    expect(await writeAsFirst('held')).toBe('written');
    await holdAsFirst(true);
    const complaints = complaintsOf(page);
    await page.goto(app.address);
    await new Maker(page).ready();
    await page.locator('.top-title', { hasText: 'Left aside' }).waitFor();

    expect(await writeAsFirst('held')).toBe('InvalidStateError');
    expect(await writeAsFirst('anew')).toBe('VersionError');
    // Nothing of what is not open was touched.
    const left = (await keptRecords(page)).filter(({ title }) => title !== 'Left aside');
    expect(left).toEqual(KEPT.books.filter(({ title }) => title !== 'Left aside'));

    await open('Shelf for the hall');
    await expect.poll(() => words(at(3, 1))).toBe('2400');
    expect(await words(at(6, 1))).toBe('1800');
    expect(await words(at(7, 1))).toBe('5');
    expect(await at(1, 1).getAttribute('data-background')).toBe('clay');
    await command(page, 'Versions');
    const versions = page.getByRole('dialog', { name: 'Versions' });
    await versions.getByRole('listitem').filter({ hasText: 'As ordered' }).waitFor();
    await page.keyboard.press('Escape');

    const dialog = await new Maker(page).workbooks();
    expect(await words(dialog)).toContain('Not wanted');
    expect(await words(dialog)).toContain('1 change could not be put back');
    await page.keyboard.press('Escape');

    await open('Dining table');
    await activity(page, 'Bench list');
    const bench = page.locator('.bench-view');
    await bench.getByLabel('By part').check();
    const apron = bench.locator('.bench-line').filter({ hasText: 'Long apron' });
    await expect.poll(() => words(apron)).toMatch(/2 of 2/);
    expect(complaints).toEqual([]);
  });

  it('stays with a tab that does not let go, and opens once that is closed', async () => {
    await holdAsFirst(false);
    await page.goto(app.address);
    await new Maker(page).ready();
    const notice = page.locator('.notices', { hasText: 'older Kerfbook' });
    expect(await words(notice)).toContain('Close that tab and reload this page');
    expect(await writeAsFirst('held')).toBe('written');
    await older.close();
    await page.reload();
    await new Maker(page).ready();
    await page.locator('.top-title', { hasText: 'Left aside' }).waitFor();
  });
});
