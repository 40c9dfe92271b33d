import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';

/** A percentage in a cell is 15 for 15 %; what can be read two ways is asked, with real keys. */

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

describe('a percentage', () => {
  it('N6 of .3 is asked about, nothing is computed with it, and one press answers', async () => {
    const price = await maker.shows('price');
    await maker.type('overhead_percent', '.3');
    const question = page.getByText('Is this 0.3 % or 30 %?', { exact: true });
    await question.waitFor();
    expect(await maker.shows('overhead_percent')).toBe('.3');
    await expect.poll(() => maker.shows('price')).toMatch(/^#/);
    await maker.go('price');
    expect(await words(page.locator('.fold-cell .trouble'))).toMatch(
      /^It is worked out from Overhead rate; look there\./,
    );
    await page.getByRole('button', { name: '30%', exact: true }).click();
    await expect.poll(() => maker.shows('price')).toMatch(/^\$/);
    expect(await maker.shows('overhead_percent')).toBe('30');
    await maker.type('overhead_percent', '15%');
    await expect.poll(() => maker.shows('price')).toBe(price);
  });

  it('Y01 N6 typed with its sign is taken as it is said', async () => {
    await maker.type('overhead_percent', '0.3%');
    await expect.poll(() => maker.shows('overhead_percent')).toBe('0.3');
    await expect.poll(() => maker.shows('price')).toMatch(/^\$/);
    await maker.type('overhead_percent', '30%');
    await expect.poll(() => maker.shows('overhead_percent')).toBe('30');
  });
});
