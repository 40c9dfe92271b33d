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

describe.each(['light', 'dark'] as const)('the app, %s', (colorScheme) => {
  it.each(SIZES)('G63 has nothing for axe to find at $width × $height', async (viewport) => {
    // The page's policy keeps scripts out that are not its own; the checker is one.
    const page = await app.open({ colorScheme, viewport, bypassCSP: true });
    const maker = new Maker(page);
    await maker.ready();
    expect(await violations(page)).toEqual([]);
    await maker.go('top_length');
    expect(await violations(page)).toEqual([]);
    await maker.workbooks();
    expect(await violations(page)).toEqual([]);
    await maker.closeDialog();
    await command(page, 'Functions');
    await page.locator('summary', { hasText: 'BOARDFEET' }).click();
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });
});

describe.each(['light', 'dark'] as const)('what opens over the app, %s', (colorScheme) => {
  it('G63 has nothing for axe to find either', async () => {
    const page = await app.open({ colorScheme, bypassCSP: true });
    const maker = new Maker(page);
    await maker.ready();
    for (const name of ['Names', 'Find and replace', 'Keys', 'Versions']) {
      await command(page, name);
      await page.getByRole('dialog', { name }).waitFor();
      expect([name, await violations(page)]).toEqual([name, []]);
      await maker.closeDialog();
    }
    for (const name of ['New check', 'Menu$', 'Find$', 'Dining table']) {
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
      await page.getByRole('dialog').waitFor();
      expect([name, await violations(page)]).toEqual([name, []]);
      await maker.closeDialog();
    }
    for (const name of ['Drawing', 'Cut and buy', 'Shop sheets', 'Bench list']) {
      await activity(page, name);
      await page.locator('.app-page section').first().waitFor();
      expect([name, await violations(page)]).toEqual([name, []]);
    }
    await command(page, 'Print');
    await page.locator('.app-page .page').first().waitFor();
    expect(['Print', await violations(page)]).toEqual(['Print', []]);
    await activity(page, 'Workbook');
    const cell = await maker.go('top_length');
    await cell.click({ button: 'right' });
    await page.getByRole('menu').waitFor();
    expect(['menu', await violations(page)]).toEqual(['menu', []]);
    await page.getByRole('menuitem', { name: /^Format/ }).click();
    await page.getByRole('dialog').waitFor();
    expect(['format', await violations(page)]).toEqual(['format', []]);
    await maker.closeDialog();
    await cell.click();
    await page.keyboard.type('=SUM(top_w');
    await page.getByRole('listbox').waitFor();
    expect(['writing', await violations(page)]).toEqual(['writing', []]);
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
