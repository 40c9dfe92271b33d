import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { violations } from './support/axe.ts';
import { Maker } from './support/maker.ts';

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
    await page.getByRole('button', { name: 'Functions' }).click();
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
    for (const name of [
      'Names',
      'Find',
      'Keys',
      'Versions',
      'This sheet',
      'New table',
      'New check',
      'Larger',
      'Print',
      'Shop sheets',
      'At the bench',
    ]) {
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
      await page.getByRole('dialog').waitFor();
      expect([name, await violations(page)]).toEqual([name, []]);
      await maker.closeDialog();
    }
    const cell = await maker.go('top_length');
    await cell.click({ button: 'right' });
    await page.getByRole('menu').waitFor();
    expect(['menu', await violations(page)]).toEqual(['menu', []]);
    await page.getByRole('menuitem', { name: /^What it is/ }).click();
    await page.getByRole('dialog').waitFor();
    expect(['what it is', await violations(page)]).toEqual(['what it is', []]);
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
    await page.getByLabel('Light or dark').selectOption('Light');
    await expect.poll(ground).toBe('rgb(250, 248, 243)');
    await page.reload();
    await maker.ready();
    await expect.poll(ground).toBe('rgb(250, 248, 243)');
    await page.context().close();
  });
});
