import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, complaintsOf, SCREEN, startApp } from './support/app.ts';
import { violations } from './support/axe.ts';
import { FakeClub, type MEMBERS, PASSWORD } from './support/fake-club.ts';
import { activity, command, Maker, words } from './support/maker.ts';

/** The shelf of a club: its pages against a club of the test's own, which keeps to the protocol. */

let app: App;
let club: FakeClub;
const complaints: string[] = [];

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());
beforeEach(() => {
  club = new FakeClub();
  complaints.length = 0;
});
afterEach(async () => {
  expect(complaints).toEqual([]);
});

/** The app as the club serves it, to a member or to somebody who is not signed in. */
async function served(
  who?: keyof typeof MEMBERS,
  options: BrowserContextOptions = {},
): Promise<Maker> {
  const context = await app.browser.newContext({ viewport: SCREEN, ...options });
  await context.addInitScript(() => {
    if ('serviceWorker' in navigator) {
      navigator.serviceWorker.register = () => Promise.reject(new Error('none here'));
    }
  });
  context.setDefaultTimeout(30_000);
  await club.serve(context, who);
  const page = await context.newPage();
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(app.address);
  const maker = new Maker(page);
  await maker.ready();
  return maker;
}

const dialog = (page: Page, name: string) => page.getByRole('dialog', { name });
const shelf = (page: Page) => page.locator('.shelf-page');

/** Publishes the workbook at hand. */
async function publish(page: Page, title?: string): Promise<void> {
  await command(page, 'Publish on the shelf');
  const form = dialog(page, 'Publish on the shelf');
  await form.getByLabel('Template name').waitFor();
  if (title !== undefined) await form.getByLabel('Template name').fill(title);
  await form.getByRole('button', { name: /^Publish( revision \d+)?$/ }).click();
  await form.getByRole('status').filter({ hasText: 'is on the shelf' }).waitFor();
}

/** Turns to a template of the shelf. */
async function toTemplate(page: Page, title: string): Promise<void> {
  await activity(page, 'Shelf');
  await shelf(page).getByRole('button', { name: title, exact: true }).click();
  await shelf(page).getByRole('heading', { name: title, level: 2 }).waitFor();
}

describe('the shelf', () => {
  it('is not there, and nobody is asked, where files alone are handed out', async () => {
    const page = await app.open();
    const asked: string[] = [];
    page.on('request', (request) => {
      if (request.url().includes('/club/')) asked.push(request.url());
    });
    await page.reload();
    await new Maker(page).ready();
    expect(await page.locator('.activities').getByText('Shelf', { exact: true }).count()).toBe(0);
    await page.locator('.top-menu').click();
    await page.locator('.rare-menu').getByRole('button', { name: 'Send as a link' }).waitFor();
    expect(await page.locator('.rare-menu').getByText('Publish on the shelf').count()).toBe(0);
    expect(asked).toEqual([]);
  });

  it('lets in who signs in, and says what was wrong with a password', async () => {
    const { page } = await served();
    await activity(page, 'Shelf');
    await page.getByRole('heading', { name: /The made-up club/ }).waitFor();
    await page.getByLabel('Name', { exact: true }).fill('Ada');
    await page.getByLabel('Password').fill('something else');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('alert').filter({ hasText: 'do not go together' }).waitFor();
    // The browser itself writes down that an answer was a refusal.
    complaints.length = 0;
    await page.getByLabel('Password').fill(PASSWORD);
    await page.keyboard.press('Enter');
    await shelf(page).getByText('Signed in as Ada').waitFor();
    await shelf(page).getByText('Nothing is on the shelf yet.').waitFor();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByRole('heading', { name: /^Sign in/ }).waitFor();
  });

  it('publishes a workbook that another member looks at, opens, and gets the next revision of', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    await dialog(ada.page, 'Publish on the shelf')
      .getByRole('button', { name: 'Go to the shelf' })
      .click();
    await shelf(ada.page).getByRole('heading', { name: 'Table for the club', level: 2 }).waitFor();

    const ben = await served('ben');
    await toTemplate(ben.page, 'Table for the club');
    const inside = shelf(ben.page).locator('.shelf-inside');
    await inside.getByText('Price by').waitFor();
    const prices = await inside
      .locator('tbody tr')
      .filter({ hasText: /smallest|as it is|largest/ })
      .allInnerTexts();
    expect(prices).toHaveLength(3);
    expect(new Set(prices).size).toBe(3);
    expect(await inside.locator('.looked-at-picture svg').count()).toBe(1);
    const image = shelf(ben.page).locator('.shelf-picture img');
    expect(
      await image.evaluate((one: HTMLImageElement) => [one.complete, one.naturalWidth <= 640]),
    ).toEqual([true, true]);

    await shelf(ben.page).getByRole('button', { name: 'Open a copy', exact: true }).click();
    await ben.page.locator('.top-title', { hasText: 'Table for the club' }).waitFor();
    await ben.ready();
    await ben.type('top_width', '40');
    await ben.untilSaved();

    await activity(ada.page, 'Workbook');
    await ada.type('top_length', '96');
    await publish(ada.page);
    expect([...club.templates.values()][0]?.revisions.map(({ changes }) => changes.length)).toEqual(
      [0, 1],
    );

    await ben.comeBack();
    await ben.page
      .locator('.offer', { hasText: 'The template this came from was improved' })
      .waitFor();
    await ben.page.getByRole('button', { name: 'Look at what it brings' }).click();
    await ben.page.getByRole('button', { name: /^Bring in 1 change/ }).click();
    expect(await ben.length('top_length')).toBe(96);
    expect(await ben.length('top_width')).toBe(40);
  });
});
