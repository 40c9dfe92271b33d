import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, SCREEN, startApp } from './support/app.ts';
import { type ClubHere, clubHere } from './support/club.ts';
import { activity, command, Maker } from './support/maker.ts';

/** Three people and one table: what a club is for, on its own server and with nothing in between. */

const PASSWORD = 'dovetail rainfall lantern';
const TABLET = { viewport: { width: 1024, height: 768 }, hasTouch: true };

let app: App;
let club: ClubHere;

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());
beforeEach(async () => {
  club = await clubHere();
});
afterEach(() => club.close());

/** Somebody in a browser of his own who has come in by a link's code. */
async function joined(
  code: string,
  name: string,
  options: BrowserContextOptions = {},
): Promise<Maker> {
  const context = await app.browser.newContext({ viewport: SCREEN, ...options });
  context.setDefaultTimeout(40_000);
  const page = await context.newPage();
  await page.goto(club.address);
  const status = await page.evaluate(
    async (body) =>
      (
        await fetch('/club/join', {
          method: 'POST',
          headers: { 'Content-Type': 'application/json' },
          body: JSON.stringify(body),
        })
      ).status,
    { code, name, password: PASSWORD },
  );
  if (status !== 200) throw new Error(`${name} did not come in: ${status}`);
  await page.reload();
  const maker = new Maker(page);
  await maker.ready();
  return maker;
}

/** The code of a link by which somebody joins, asked for by a keeper. */
async function invitation({ page }: Maker): Promise<string> {
  return page.evaluate(async () => {
    const answer = await fetch('/club/invitations', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ role: 'member', days: 7 }),
    });
    return (await answer.json()).code;
  });
}

const dialog = (page: Page, name: string) => page.getByRole('dialog', { name });
const shelf = (page: Page) => page.locator('.shelf-page');

async function openCopy({ page }: Maker, title: string): Promise<void> {
  await activity(page, 'Shelf');
  await shelf(page).getByRole('button', { name: title, exact: true }).click();
  await shelf(page).getByRole('button', { name: 'Open a copy', exact: true }).click();
  await page.locator('.top-title', { hasText: title }).waitFor();
}

describe('three people of a club', () => {
  it('publish, change and suggest one table, and its revision meets a copy that was changed without a network', async () => {
    const ada = await joined(club.link.split('#join=')[1] ?? '', 'Ada');
    const ben = await joined(await invitation(ada), 'Ben');
    const cora = await joined(await invitation(ada), 'Cora', TABLET);

    // Ada publishes a table.
    await command(ada.page, 'Publish on the shelf');
    const form = dialog(ada.page, 'Publish on the shelf');
    await form.getByLabel('Template name').fill('Table for the club');
    await form.getByRole('button', { name: 'Publish', exact: true }).click();
    await form.getByRole('status').filter({ hasText: 'is on the shelf' }).waitFor();
    await ada.page.keyboard.press('Escape');

    // Cora has a copy on her tablet, and goes where there is no network.
    await openCopy(cora, 'Table for the club');
    await cora.ready();
    await cora.page.context().setOffline(true);
    await cora.type('top_length', '84');
    await cora.untilSaved();

    // Ben finds it, opens a copy, changes the width and suggests that.
    await openCopy(ben, 'Table for the club');
    await ben.ready();
    await ben.type('top_width', '40');
    await command(ben.page, 'Publish on the shelf');
    const suggesting = dialog(ben.page, 'Publish on the shelf');
    await suggesting.getByText('1 change since revision 1').waitFor();
    await suggesting.getByLabel('What you changed').fill('Wider, for six.');
    await suggesting.getByRole('button', { name: 'Suggest', exact: true }).click();
    await suggesting.getByRole('status').filter({ hasText: 'is with Ada' }).waitFor();

    // Ada looks at what it brings, and takes it.
    await activity(ada.page, 'Shelf');
    await shelf(ada.page).getByRole('button', { name: 'Table for the club', exact: true }).click();
    await shelf(ada.page).getByText('Wider, for six.').waitFor();
    await shelf(ada.page).getByRole('button', { name: 'Look at what it brings' }).click();
    const review = dialog(ada.page, 'Suggested by Ben');
    await review
      .locator('.renewal-does')
      .getByText(/^Price \$/)
      .waitFor();
    await review.getByLabel('A word to Ben').fill('Good, taken.');
    await review.getByRole('button', { name: /^Accept: publish revision 2 with 1 change/ }).click();
    await review.waitFor({ state: 'detached' });

    // Ben reads the answer.
    await suggesting.getByRole('button', { name: 'Go to the shelf' }).click();
    await shelf(ben.page).getByRole('button', { name: 'Suggestions' }).click();
    await shelf(ben.page).getByText('Answer: Good, taken.').waitFor();

    // Cora is back: the width meets the length that she changed meanwhile.
    await cora.page.context().setOffline(false);
    await cora.comeBack();
    await cora.page
      .locator('.offer', { hasText: 'The template this came from was improved' })
      .waitFor();
    await cora.page.getByRole('button', { name: 'Look at what it brings' }).click();
    await cora.page.getByRole('button', { name: /^Bring in 1 change/ }).click();
    expect(await cora.length('top_width')).toBe(40);
    expect(await cora.length('top_length')).toBe(84);
  });
});
