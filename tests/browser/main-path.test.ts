import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';

/**
 * The main path as a maker walks it. The numbers are those the dining-table template promises;
 * the lengths expected are worked out beside each test from its formulas.
 */

let app: App;
let page: Page;
let maker: Maker;
let complaints: readonly string[];

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  page = await app.open({ serviceWorkers: 'allow' });
  complaints = complaintsOf(page);
  maker = new Maker(page);
  await maker.ready();
});
afterEach(async () => {
  expect(complaints).toEqual([]);
  await page.context().close();
});

describe('one number changes', () => {
  it('opens on the dining table, as it came', async () => {
    expect(await page.title()).toContain('Dining table');
    expect(await words(maker.saved)).toBe('Nothing to save yet');
    expect(await maker.shows('top_length')).toMatch(/^\d/);
  });

  it('takes its dependents along on other sheets', async () => {
    const apron = await maker.length('apron_long');
    const top = await maker.length('top_length');
    await maker.type('top_length', String(top + 12));
    // apron_long = top_length − 2·overhang_end − 2·leg_size + 2·tenon_length: inch for inch.
    expect(await maker.length('apron_long')).toBeCloseTo(apron + 12, 4);
    expect(await maker.length('top_length')).toBeCloseTo(top + 12, 4);
  });

  it('is drawn to size in both views', async () => {
    await maker.type('top_length', '84');
    await maker.drawn('plan', 84);
    await maker.type('top_length', '96');
    await maker.drawn('plan', 96);
    await maker.drawn('front', 96);
  });

  it('turns the checks it should turn', async () => {
    const before = await maker.checkStates();
    await maker.type('table_height', '20');
    await expect.poll(() => maker.checkStates()).not.toEqual(before);
    const worst = page.locator('[data-check][data-state="stop"], [data-check][data-state="care"]');
    expect(await words(worst.first())).toMatch(/^(Problem|Warning) .+\./);
  });

  it('G52 is undone and done again', async () => {
    const before = await maker.shows('apron_long');
    const top = await maker.length('top_length');
    await maker.type('top_length', String(top + 12));
    const after = await maker.shows('apron_long');
    expect(after).not.toBe(before);
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => maker.shows('apron_long')).toBe(before);
    await page.keyboard.press('ControlOrMeta+y');
    await expect.poll(() => maker.shows('apron_long')).toBe(after);
  });
});

describe('a calculated cell', () => {
  it('is overridden by typing over it, and its formula restored', async () => {
    const before = await maker.shows('apron_long');
    await maker.type('apron_long', '50');
    expect(await maker.shows('apron_long')).toBe('50');
    expect(await words(maker.thisCell)).toContain('Overridden by hand: 50.');
    await maker.thisCell.getByRole('button', { name: 'Restore the formula' }).click();
    await expect.poll(() => maker.shows('apron_long')).toBe(before);
    expect(await words(maker.thisCell)).not.toContain('Overridden');
  });

  it('G34 tells its formula, its numbers and its source', async () => {
    await maker.go('apron_long');
    const said = await words(maker.thisCell);
    expect(said).toContain('top_length');
    expect(said).toContain('With numbers');
    expect(said).toContain('Source:');
  });

  it('G34 walks on from cell to cell, to those that use them', async () => {
    await maker.go('leg_size');
    await maker.thisCell.getByRole('button', { name: 'What uses apron_long' }).click();
    // In a maker's words, and by its name for those who write formulas.
    const further = maker.thisCell.locator('.branch').filter({ hasText: 'clear_long' }).first();
    await further.getByRole('button', { name: 'Between the legs, long side', exact: true }).click();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('clear_long');
    await maker.thisCell.getByRole('button', { name: 'What apron_long reads' }).click();
    expect(await words(maker.thisCell)).toContain('tenon_length');
  });
});
