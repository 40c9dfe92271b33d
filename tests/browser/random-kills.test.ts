import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { patience, times } from '../hostile/times.ts';
import { type Killable, startKillable } from './support/killable.ts';
import { command, documentOf } from './support/maker.ts';
import { keptRecords } from './support/storage.ts';

/**
 * The browser is killed while a maker types. What was said to be saved is there afterwards, nothing is
 * half there, and the workbook opens. `KERFBOOK_SEED` takes the seed of another run: the same hand, not
 * the same moments.
 */

const BUILT = join(import.meta.dirname, '../../apps/grid/dist');
const TITLE = 'Killed at random';
/** Kills on one profile before a new one is begun. */
const ON_ONE = 25;
/** Rows that are written in; all of them are in sight. */
const ROWS = 12;

/** The first column from above, one entry a row, empty ones at the end left out. */
type Column = readonly string[];

/** What the maker did, and what had been said to be saved. */
interface Sitting {
  /** The column after each edit, the first before any. */
  readonly states: Column[];
  /** How many of the edits were said to be saved. */
  saved: number;
}

function dice(seed: number): (sides: number) => number {
  let state = seed >>> 0;
  return (sides) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % sides;
  };
}

const trimmed = (column: Column): Column =>
  column.slice(0, column.findLastIndex((entry) => entry !== '') + 1);

const withRow = (column: Column, row: number, entry: string): Column => {
  const longer = [...column, ...Array<string>(Math.max(0, row + 1 - column.length)).fill('')];
  return trimmed(longer.with(row, entry));
};

/** The column as the browser keeps it after the workbook was opened. */
async function keptColumn(page: Page): Promise<Column> {
  const record = (await keptRecords(page)).find(({ title }) => title === TITLE);
  const { sheets } = documentOf(record?.text ?? '');
  const first = sheets[0]?.columns[0]?.id ?? '';
  return trimmed((sheets[0]?.rows ?? []).map(({ cells }) => String(cells?.[first]?.value ?? '')));
}

/** What the app says of saving, and which first column it shows with that, at one moment. */
const saying = (page: Page): Promise<{ said: string; shown: readonly string[] }> =>
  page.evaluate(
    (rows) =>
      new Promise<{ said: string; shown: string[] }>((resolve) => {
        const shownIn = (_: unknown, row: number): string =>
          document
            .querySelector(`.ag-row[row-id="${row}"] [aria-colindex="2"]`)
            ?.textContent?.replaceAll(/\D/g, '') ?? '';
        const say = () =>
          resolve({
            said: document.querySelector('.saved-state')?.textContent ?? '',
            shown: Array.from({ length: rows }, shownIn),
          });
        requestAnimationFrame(() => requestAnimationFrame(say));
      }),
    ROWS,
  );

/** Opens the app on the workbook of these tests. */
async function openBook(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.locator('.ag-row .ag-cell').first().waitFor();
  await page.locator('.top-title', { hasText: TITLE }).waitFor({ timeout: 10_000 });
}

async function beginBook(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.locator('.ag-row .ag-cell').first().waitFor();
  await command(page, 'Workbooks');
  await page.getByRole('button', { name: 'New blank workbook' }).click();
  await page.getByLabel('Workbook name').fill(TITLE);
  await page.keyboard.press('Enter');
  await page.locator('.top-title', { hasText: TITLE }).waitFor();
  await openBook(page, address);
}

/** Edits at random until the browser is gone. Numbers never come twice, so that each state is known. */
async function edit(page: Page, sitting: Sitting, roll: (sides: number) => number): Promise<void> {
  const undone: Column[] = [];
  for (let number = 1; ; number += 1) {
    const now = sitting.states.at(-1) ?? [];
    const row = roll(ROWS);
    await page.locator(`.ag-row[row-id="${row}"] [aria-colindex="2"]`).click();
    const what = roll(10);
    let next: Column;
    let keys: readonly string[];
    if (what === 0) {
      // Undone, it is a row removed.
      next = row < now.length ? [...now.slice(0, row), '', ...now.slice(row)] : now;
      keys = ['Alt+Insert'];
    } else if (what === 1 && (now[row] ?? '') !== '') {
      next = withRow(now, row, '');
      keys = ['Delete'];
    } else if (what === 2 && undone.length > 0) {
      next = undone.pop() ?? [];
      keys = ['ControlOrMeta+z'];
    } else {
      const entry = String(sitting.states.length * 1_000 + number);
      next = withRow(now, row, entry);
      keys = [...entry, 'Enter'];
    }
    if (what !== 2 || keys[0] !== 'ControlOrMeta+z') undone.push(now);
    // Noted before the last key: whether that arrived is what nobody knows when the browser is gone.
    sitting.states.push(next);
    for (const key of keys) await page.keyboard.press(key);
    const { said, shown } = await saying(page);
    // On a slow machine the last key may still be on its way: then what is said is of the edit before.
    const isThere = shown.every((entry, at) => entry === (next[at] ?? ''));
    if (isThere && said.startsWith('Saved ')) {
      sitting.saved = sitting.states.length - 1;
    }
    if (said.startsWith('Not saved')) throw new Error(said);
  }
}

describe('the browser killed at any moment', () => {
  const kills = times(1);
  it(
    `loses nothing that was said to be saved, in ${kills} ${kills === 1 ? 'kill' : 'kills'}`,
    async () => {
      const seed = Number(process.env.KERFBOOK_SEED ?? Math.floor(Math.random() * 2 ** 32));
      const roll = dice(seed);
      console.log(`random-kills: seed ${seed}`);
      const server = await serve({ folder: BUILT, port: 0 });
      let profile = '';
      let browser: Killable | undefined;
      let [edits, acknowledged] = [0, 0];
      try {
        for (let kill = 0; kill < kills; kill += 1) {
          if (kill % ON_ONE === 0) {
            await browser?.kill();
            if (profile !== '') rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
            profile = mkdtempSync(join(tmpdir(), 'kerfbook-kills-'));
            browser = await startKillable(profile);
            await beginBook(browser.page, server.address);
          }
          if (browser === undefined) throw new Error('no browser was started');
          const sitting: Sitting = { states: [await keptColumn(browser.page)], saved: 0 };
          let killed = false;
          const work = edit(browser.page, sitting, roll).catch((error: unknown) => {
            // Every call fails once the browser is gone; before that none may.
            if (!killed) throw error;
          });
          await Promise.race([work, wait(150 + roll(1_500))]);
          killed = true;
          await browser.kill();
          await work;

          browser = await startKillable(profile);
          await openBook(browser.page, server.address);
          const found = JSON.stringify(await keptColumn(browser.page));
          const may = sitting.states.slice(sitting.saved).map((state) => JSON.stringify(state));
          const about = `seed ${seed}, kill ${kill + 1}, saved ${sitting.saved} of ${may.join(' ')}`;
          expect(may, `${about}, found ${found}`).toContain(found);
          edits += sitting.states.length - 1;
          acknowledged += sitting.saved;
        }
      } finally {
        await browser?.kill();
        await server.close();
        if (profile !== '') rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
      }
      console.log(`random-kills: ${kills} kills, ${edits} edits, ${acknowledged} said to be saved`);
      // A hand that never got to an edit would prove nothing.
      if (kills > 5) expect(acknowledged).toBeGreaterThan(kills);
    },
    30_000 + patience(15_000),
  );
});
