import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, startApp } from './support/app.ts';
import { command, Maker, words } from './support/maker.ts';

/** The reference of the woodworking functions: found by a word, tried with other numbers. */

let app: App;
let page: Page;
let maker: Maker;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  page = await app.open();
  maker = new Maker(page);
  await maker.ready();
  return () => page.context().close();
});

describe('the functions', () => {
  it('are found by a word of what they do, and their example can be tried', async () => {
    await command(page, 'Functions');
    const dialog = page.getByRole('dialog', { name: 'Functions' });
    await dialog.getByLabel('Search for').fill('apron legs overhang');
    // The only one that is found unfolds by itself.
    const entry = dialog.locator('.function[open]');
    await entry.waitFor();
    expect(await words(entry)).toContain('Source:');
    const output = entry.locator('output');
    await entry.getByLabel(/^Try it/).fill('=APRON_LENGTH(96, 9, 3.5)');
    await expect.poll(() => words(output)).toBe('71 in');
    await entry.getByLabel(/^Try it/).fill('=APRON_LENGTH(96, 90, 3.5)');
    await expect.poll(() => words(output)).toBe('#NUM!');
    expect(await words(entry)).toContain('overhang of APRON_LENGTH is 90 in');
    await dialog.getByLabel('Search for').fill('zebra');
    expect(await words(dialog)).toContain('No function found.');
  });

  it('are followed by the standard ones, found by a word too', async () => {
    await command(page, 'Functions');
    const dialog = page.getByRole('dialog', { name: 'Functions' });
    await dialog.getByLabel('Search for').fill('working days weekend holidays networkdays.intl');
    const entry = dialog.locator('.function[open]');
    await entry.waitFor();
    expect(await words(entry)).toContain('NETWORKDAYS.INTL(start, end, [weekend], [holidays])');
    expect(await words(entry)).toContain('days off (a range)');
    await dialog.getByLabel('Search for').fill('stdevs');
    expect(await words(entry)).toContain('Another name of STDEV.S.');
  });

  it('are one press away from a cell that uses one, and Escape leads back', async () => {
    await maker.go('apron_long');
    await page.locator('.fold-cell').getByRole('button', { name: 'APRON_LENGTH' }).click();
    const open = page.getByRole('dialog', { name: 'Functions' }).locator('.function[open]');
    await open.waitFor();
    expect(await words(open)).toContain('APRON_LENGTH(');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(await maker.shows('apron_long')).toBe('59');
  });

  it('take figures of the maker’s own from a sheet that they add', async () => {
    await command(page, 'Functions');
    await page.getByRole('button', { name: 'My woods' }).click();
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    await expect
      .poll(() => words(page.locator('nav [aria-current="page"], nav [aria-current="true"]')))
      .toContain('My woods');
    const cell = (row: number, column: number) => maker.cellAt({ sheet: '', row, column });
    await cell(4, 0).click();
    await page.keyboard.type('Orchard plum');
    await page.keyboard.press('Tab');
    await page.keyboard.type('0.003');
    await page.keyboard.press('Tab');
    await page.keyboard.type('0.002');
    await page.keyboard.press('Tab');
    await page.keyboard.type('0.7');
    await page.keyboard.press('Tab');
    await page.keyboard.type('1500000');
    await page.keyboard.press('Enter');
    const before = await maker.shows('movement_swing');
    await maker.type('species', 'Orchard plum');
    await maker.go('species');
    // It is known now: what is said of it is that nobody has told its price.
    expect(await page.locator('.fold-cell .trouble').allInnerTexts()).toEqual([
      expect.stringContaining('is not in the price list'),
    ]);
    expect(await maker.shows('movement_swing')).not.toBe(before);
    expect(await words(maker.thisCell)).toContain('They look first in My woods.');
    expect(await maker.shows('top_weight')).not.toContain('#');
  });
});
