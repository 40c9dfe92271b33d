import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureBrowser } from '../../apps/cli/scripts/ensure.mjs';
import { CHROMIUM_ARGUMENTS } from '../scripts/chromium.mjs';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';
import { BLOCK_SITE_DATA } from './support/storage.ts';

/** A browser that blocks site data, or the service worker alone, still shows the app. */

let app: App;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** It works, says what is blocked, what that means and what to do, and a copy can be taken out. */
async function worksInMemory(page: Page): Promise<void> {
  const maker = new Maker(page);
  await maker.ready();
  const notice = await words(page.locator('.notices'));
  expect(notice).toMatch(/blocks site data/);
  expect(notice).toMatch(/nothing you do here is kept once you close it/);
  expect(notice).toMatch(/Allow site data for this address .* save a copy as a file/);
  expect(notice).not.toContain('network');
  await maker.type('top_length', '97');
  const state = page.getByRole('alert').filter({ hasText: 'Not saved' });
  expect(await words(state)).toContain('does not let the page store anything');
  // There is nothing to try again: no room will come.
  expect(await state.getByRole('button', { name: 'Try again' }).count()).toBe(0);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    state.getByRole('button', { name: 'Save a copy as a file' }).click(),
  ]);
  expect(readFileSync(await download.path(), 'utf8')).toContain('"value": 97');
  await maker.saveAsAndOpen('Oak for the hall');
  expect(await maker.shows('top_length')).toBe('97');
}

describe('where site data is blocked', () => {
  it('the app starts, works and says that nothing is kept, where every door throws', async () => {
    const context = await app.browser.newContext({ viewport: { width: 1440, height: 900 } });
    await context.addInitScript(BLOCK_SITE_DATA);
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await page.goto(app.address);
    await worksInMemory(page);
    // The app asks for what keeps it without a network a few seconds after its start.
    await page.waitForTimeout(4_500);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("the same under the browser's own setting", async () => {
    const profile = mkdtempSync(join(tmpdir(), 'kerfbook-blocked-'));
    try {
      mkdirSync(join(profile, 'Default'));
      const settings = { profile: { default_content_setting_values: { cookies: 2 } } };
      writeFileSync(join(profile, 'Default', 'Preferences'), JSON.stringify(settings));
      const context = await chromium.launchPersistentContext(profile, {
        executablePath: await ensureBrowser(),
        args: CHROMIUM_ARGUMENTS,
        viewport: { width: 1440, height: 900 },
      });
      const page = await context.newPage();
      await page.goto(app.address);
      const blocked = await page.evaluate(() => {
        try {
          return window.localStorage === null;
        } catch {
          return true;
        }
      });
      expect(blocked).toBe(true);
      await worksInMemory(page);
      await context.close();
    } finally {
      rmSync(profile, { recursive: true, force: true });
    }
  });
});

describe('where only the service worker is blocked', () => {
  it('the app starts and saves as ever', async () => {
    const page = await app.open({ serviceWorkers: 'block' });
    const maker = new Maker(page);
    await maker.ready();
    await maker.type('top_length', '97');
    await maker.untilSaved();
    await page.reload();
    await maker.ready();
    expect(await maker.shows('top_length')).toBe('97');
    await page.context().close();
  });
});
