import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { violations } from './support/axe.ts';
import { activity, command, Maker } from './support/maker.ts';

/** Checked with axe-core against WCAG 2.2 A and AA and its own best practices. */

let app: App;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
] as const;

/**
 * What axe finds on a page as it is, in the light by all rules and in the dark by those that read colours: what is
 * there is the same in both.
 */
async function found(page: Page): Promise<readonly (readonly [string, string])[]> {
  const light = await violations(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await violations(page, 'colours');
  await page.emulateMedia({ colorScheme: 'light' });
  return [
    ...light.map((one) => ['light', one] as const),
    ...dark.map((one) => ['dark', one] as const),
  ];
}

// The page's policy keeps scripts out that are not its own; the checker is one.
const CHECKED = { colorScheme: 'light', bypassCSP: true } as const;

describe('the app, light and dark', () => {
  it.each(SIZES)('G63 has nothing for axe to find at $width × $height', async (viewport) => {
    const page = await app.open({ ...CHECKED, viewport });
    const maker = new Maker(page);
    await maker.ready();
    expect(await found(page)).toEqual([]);
    await maker.go('top_length');
    expect(await found(page)).toEqual([]);
    await maker.workbooks();
    expect(await found(page)).toEqual([]);
    await maker.closeDialog();
    await command(page, 'Functions');
    await page.locator('summary', { hasText: 'BOARDFEET' }).click();
    expect(await found(page)).toEqual([]);
    await page.context().close();
  });
});

describe('what opens over the app, light and dark', () => {
  it('G63 has nothing for axe to find either', async () => {
    const page = await app.open(CHECKED);
    const maker = new Maker(page);
    await maker.ready();
    for (const name of ['Names', 'Find and replace', 'Keys', 'Versions']) {
      await command(page, name);
      await page.getByRole('dialog', { name }).waitFor();
      expect([name, await found(page)]).toEqual([name, []]);
      await maker.closeDialog();
    }
    for (const name of ['New check', 'Menu$', 'Find$', 'Dining table']) {
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
      await page.getByRole('dialog').waitFor();
      expect([name, await found(page)]).toEqual([name, []]);
      await maker.closeDialog();
    }
    for (const name of ['Drawing', 'Cut and buy', 'Shop sheets', 'Bench list']) {
      await activity(page, name);
      await page.locator('.app-page section').first().waitFor();
      expect([name, await found(page)]).toEqual([name, []]);
    }
    await command(page, 'Print');
    await page.locator('.app-page .page').first().waitFor();
    expect(['Print', await found(page)]).toEqual(['Print', []]);
    await activity(page, 'Workbook');
    const cell = await maker.go('top_length');
    await cell.click({ button: 'right' });
    await page.getByRole('menu').waitFor();
    expect(['menu', await found(page)]).toEqual(['menu', []]);
    await page.getByRole('menuitem', { name: /^Format/ }).click();
    await page.getByRole('dialog').waitFor();
    expect(['format', await found(page)]).toEqual(['format', []]);
    await maker.closeDialog();
    await cell.click();
    await page.keyboard.type('=SUM(top_w');
    await page.getByRole('listbox').waitFor();
    expect(['writing', await found(page)]).toEqual(['writing', []]);
    await page.context().close();
  });
});

describe('light and dark', () => {
  it('follow the device, or what the maker chose, through a reload', async () => {
    const page = await app.open({ colorScheme: 'light' });
    const maker = new Maker(page);
    await maker.ready();
    const ground = () =>
      page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    expect(await ground()).toBe('rgb(250, 248, 243)');
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await ground()).toBe('rgb(29, 32, 30)');
    await page.getByRole('button', { name: 'Menu', exact: true }).click();
    await page.getByLabel('Light or dark').selectOption('Light');
    await expect.poll(ground).toBe('rgb(250, 248, 243)');
    await page.reload();
    await maker.ready();
    await expect.poll(ground).toBe('rgb(250, 248, 243)');
    await page.context().close();
  });
});
