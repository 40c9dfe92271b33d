import { deflateSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { command, Maker, shippedTable } from './support/maker.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Opens the app on a device of its own, at an address that may bring a workbook along. */
async function device(behind = ''): Promise<Maker> {
  const page = await app.open();
  if (behind !== '') {
    await page.goto('about:blank');
    await page.goto(app.address + behind);
  }
  const maker = new Maker(page);
  await maker.ready();
  return maker;
}

const sent = (page: Page): Promise<string> => page.getByLabel('Link', { exact: true }).inputValue();
const dialog = (page: Page, name: string) => page.getByRole('dialog', { name });

describe('a workbook sent as a link', () => {
  it('is looked at on another device, kept there, and not asked about again', async () => {
    const here = await device();
    await here.type('top_length', '96');
    const price = await here.shows('price');
    await command(here.page, 'Send as a link');
    const link = await sent(here.page);
    expect(link.startsWith(`${app.address}#kerfbook=1.`)).toBe(true);
    expect(link.length).toBeLessThanOrEqual(60_000);

    const there = await device(link.slice(app.address.length));
    const complaints = complaintsOf(there.page);
    const looked = dialog(there.page, 'A workbook from a link');
    await looked.getByRole('heading', { name: 'Dining table' }).waitFor();
    expect(await looked.locator('dl').textContent()).toContain(price);
    expect(await looked.locator('svg .kb-piece, svg path').count()).toBeGreaterThan(10);
    expect(await there.page.title()).toBe('Dining table · Kerfbook');
    // The address keeps nothing of it: a reload asks no second time.
    expect(new URL(there.page.url()).hash).toBe('');
    await looked.getByRole('button', { name: 'Keep it and open it' }).click();
    await looked.waitFor({ state: 'detached' });
    expect(await there.length('top_length')).toBe(96);
    await there.saved.filter({ hasText: 'Saved' }).first().waitFor();
    await there.page.reload();
    await there.ready();
    expect(await there.length('top_length')).toBe(96);
    expect(await there.page.getByRole('dialog').count()).toBe(0);
    await command(there.page, 'Workbooks');
    await dialog(there.page, 'Workbooks').getByText('From a link').waitFor();
    expect(complaints).toEqual([]);
  });

  it('leaves out whom it is for unless the maker sends that along', async () => {
    const { page } = await device();
    await page
      .getByRole('button', { name: /^Dining table/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Name, customer, dates' }).click();
    const form = dialog(page, 'Name, customer, dates');
    await form.getByLabel('Customer').fill('A made-up family');
    await form.getByRole('button', { name: 'Save' }).click();
    await command(page, 'Send as a link');
    const without = await sent(page);
    await page.getByLabel('Send customer, job number').check();
    await expect.poll(() => sent(page)).not.toBe(without);
    const whole = await sent(page);
    for (const [link, says] of [
      [without, false],
      [whole, true],
    ] as const) {
      const { page: other } = await device(link.slice(app.address.length));
      const facts = dialog(other, 'A workbook from a link').locator('dl');
      expect((await facts.textContent())?.includes('A made-up family')).toBe(says);
    }
  });

  it('is pasted into any Kerfbook, from any address and with the line breaks of a mail', async () => {
    const here = await device();
    await command(here.page, 'Send as a link');
    const link = (await sent(here.page)).replace(app.address, 'http://192.0.2.7/');
    const { page } = await device();
    await command(page, 'Open a link');
    const form = dialog(page, 'Open a link');
    await form.getByLabel('Paste the link').fill((link.match(/.{1,76}/g) ?? []).join('\n'));
    await form.getByRole('button', { name: 'Look at it' }).click();
    await dialog(page, 'A workbook from a link').getByText('are OK').waitFor();
    await page.getByRole('button', { name: 'Do not keep it' }).click();
    await command(page, 'Workbooks');
    expect(await dialog(page, 'Workbooks').getByText('From a link').count()).toBe(0);
  });

  it('says what is wrong with one that is cut, too new, hostile or no link, and changes nothing', async () => {
    const maker = await device();
    const { page } = maker;
    const complaints = complaintsOf(page);
    const packed = (text: string): string =>
      `#kerfbook=1.${deflateSync(text).toString('base64url')}`;
    const more = { ...shippedTable(), script: 'document.title = 1' };
    for (const [behind, says] of [
      ['#kerfbook=1.eJyrVkrLz1eyUkpKLFKqBQ', 'cut short or changed'],
      ['#kerfbook=2.eJyrVkrLz1eyUkpKLFKqBQ', 'A newer Kerfbook made this link'],
      [packed(JSON.stringify(more)), 'script'],
      [packed(' '.repeat(20_000_000)), 'larger than any workbook'],
    ] as const) {
      // Put into the address of the page that is open.
      await page.evaluate((hash) => {
        location.hash = hash;
      }, behind);
      const alert = dialog(page, 'Open a link').getByRole('alert');
      await alert.waitFor();
      expect(await alert.textContent()).toContain(says);
      expect(await alert.textContent()).toContain('Nothing here was changed.');
      await dialog(page, 'Open a link').getByRole('button', { name: 'Cancel' }).click();
    }
    // Words are shown as words.
    const title = '<img src=x onerror="document.title=1">';
    await page.evaluate(
      (hash) => {
        location.hash = hash;
      },
      packed(JSON.stringify({ ...shippedTable(), title })),
    );
    await page.getByRole('heading', { name: title, exact: true }).waitFor();
    expect(await page.title()).toBe('Dining table · Kerfbook');
    expect(complaints).toEqual([]);
  });
});
