import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { command, Maker } from './support/maker.ts';

/** A workbook in inches becomes one in millimetres by one press, and is undone like anything else. */

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

describe('a workbook in other units', () => {
  it('stands a template on round sizes, and gives the exact ones for one undo, inches for two', async () => {
    const length = await maker.shows('top_length');
    const price = await maker.shows('price');
    await command(page, 'Change to millimeters');
    await expect.poll(() => maker.shows('top_length')).toBe('2135');
    await page
      .getByText('Sizes rounded to marks of a metric rule; undo for the exact conversion')
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Menu', exact: true }).click();
    await page.getByRole('button', { name: 'Change to inches', exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => maker.shows('top_length')).toBe('2133.6');
    expect(await maker.shows('price')).toBe(price);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => maker.shows('top_length')).toBe(length);
    expect(await maker.shows('price')).toBe(price);
  });

  it('N7 keeps the sizes of a workbook that was changed, shows millimetres and takes them', async () => {
    await maker.type('top_length', '86');
    const width = await maker.shows('top_width');
    await command(page, 'Change to millimeters');
    await expect.poll(() => maker.shows('top_length')).toBe('2184.4');
    await expect.poll(() => maker.shows('top_width')).toBe('1066.8');
    await maker.type('top_length', '2000');
    await expect.poll(() => maker.shows('top_length')).toBe('2000');
    await page.keyboard.press('ControlOrMeta+z');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => maker.shows('top_width')).toBe(width);
    await expect.poll(() => maker.shows('top_length')).toBe('86');
  });
});
