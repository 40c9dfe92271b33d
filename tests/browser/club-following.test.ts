import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, SCREEN, startApp, withoutWorker } from './support/app.ts';
import { type ClubHere, clubHere } from './support/club.ts';
import { unfit } from './support/fit.ts';
import { Maker, words } from './support/maker.ts';

/** Workbooks that follow a member, with a club's own server: what one device changes comes to the others. */

const PASSWORD = 'dovetail rainfall lantern';
const TABLET: BrowserContextOptions = {
  viewport: { width: 1024, height: 768 },
  hasTouch: true,
  isMobile: true,
};

/** What the browser itself writes down: no network, another was first, and the club does not have it, or no more. */
const ANSWERS = /ERR_INTERNET_DISCONNECTED|409 \(Conflict\)|404 \(Not Found\)/;

let app: App;
let club: ClubHere;
const contexts: BrowserContext[] = [];
let complaints: (() => readonly string[])[] = [];

beforeAll(async () => {
  app = await startApp();
  club = await clubHere();
  const keeper = await device('Ada', { joins: club.link.split('join=')[1] ?? '' });
  const origin = club.address.replace(/\/$/, '');
  const invited = await keeper.request.post(`${origin}/club/invitations`, {
    headers: { origin },
    data: { role: 'member', days: 1 },
  });
  const { code } = (await invited.json()) as { readonly code: string };
  await device('Ben', { joins: code });
});
afterAll(async () => {
  await Promise.all(contexts.map((context) => context.close()));
  await club.close();
  await app.close();
});
afterEach(() => {
  const told = complaints.flatMap((all) => all());
  complaints = [];
  expect(told.filter((one) => !ANSWERS.test(one))).toEqual([]);
});

/** A browser in which a member is signed in, or joins by a code. */
async function device(
  name: string,
  { joins, ...options }: BrowserContextOptions & { readonly joins?: string } = {},
): Promise<BrowserContext> {
  const context = await app.browser.newContext({ viewport: SCREEN, ...options });
  contexts.push(context);
  context.setDefaultTimeout(30_000);
  if (options.serviceWorkers === undefined) await withoutWorker(context);
  const origin = club.address.replace(/\/$/, '');
  const path = joins === undefined ? 'sign-in' : 'join';
  const answer = await context.request.post(`${origin}/club/${path}`, {
    headers: { origin },
    data: { name, password: PASSWORD, ...(joins === undefined ? {} : { code: joins }) },
  });
  if (!answer.ok()) throw new Error(await answer.text());
  return context;
}

async function opened(context: BrowserContext): Promise<Maker> {
  const page = await context.newPage();
  const told = complaintsOf(page);
  complaints.push(() => told);
  await page.goto(club.address);
  const maker = new Maker(page);
  await maker.ready();
  return maker;
}

const state = (page: Page) => page.locator('.top-club');
const panel = (page: Page) => page.getByRole('dialog', { name: 'This workbook and the club' });
const stands = (page: Page, says: RegExp | string) =>
  page.getByRole('button', { name: typeof says === 'string' ? `Club: ${says}` : says }).waitFor();

/** What a named cell shows, without going there. */
async function seen(maker: Maker, name: string): Promise<string> {
  const at = maker.place(name);
  await maker.toSheet(at.sheet);
  return words(maker.cellAt(at));
}

/** Keeps a changed copy of the dining table at the club, under a title of its own. */
async function kept(maker: Maker, title: string): Promise<void> {
  const { page } = maker;
  await maker.type('top_length', '90');
  await maker.saveAsAndOpen(title);
  await state(page).click();
  await panel(page).getByRole('button', { name: 'Keep this workbook at the club' }).click();
  await panel(page).getByText('The club has it as it is here').waitFor();
  await maker.closeDialog();
  await stands(page, 'also at the club');
}

/** Opens a workbook of the list that came from the club. */
async function openFromClub(maker: Maker, title: string): Promise<void> {
  const list = await maker.workbooks();
  const card = list.locator('.book-row', { hasText: title });
  await card.getByText(/at the club/i).waitFor();
  await card.locator('.card-open').first().click();
  await maker.page.locator('.top-title', { hasText: title }).waitFor();
  await stands(maker.page, 'also at the club');
}

describe('a workbook of a member', () => {
  it('is the same at the desk and on the tablet, whatever each changed while it could not reach the club', async () => {
    const desk = await opened(await device('Ada'));
    await kept(desk, 'Hall table');
    const tabletAt = await device('Ada', TABLET);
    const tablet = await opened(tabletAt);
    await openFromClub(tablet, 'Hall table');
    expect(await seen(tablet, 'top_length')).toBe('90');

    // Whoever is writing an entry loses no letter of it to what comes in.
    const width = await tablet.go('top_width');
    await width.dblclick();
    await tablet.page.keyboard.press('ControlOrMeta+a');
    await tablet.page.keyboard.type('4');
    await desk.type('top_length', '96');
    await expect.poll(() => seen(tablet, 'top_length')).toBe('96');
    await tablet.page.keyboard.type('1');
    await tablet.page.keyboard.press('Enter');
    await expect.poll(() => seen(desk, 'top_width')).toBe('41');
    expect(await seen(tablet, 'top_width')).toBe('41');

    // Undo at the desk takes back what was done there, and nothing of the tablet.
    await desk.page.getByRole('button', { name: 'Undo', exact: true }).click();
    expect([await seen(desk, 'top_length'), await seen(desk, 'top_width')]).toEqual(['90', '41']);
    await expect.poll(() => seen(tablet, 'top_length')).toBe('90');

    await tabletAt.setOffline(true);
    await tablet.type('top_length', '80');
    await tablet.type('overhang_end', '10');
    await desk.type('top_length', '100');
    await desk.type('top_width', '44');
    await stands(tablet.page, /^Club: club not reached since \d\d:\d\d, 2 changes not sent$/);
    await stands(desk.page, 'also at the club');

    await tabletAt.setOffline(false);
    const line = tablet.page.locator('.offer', { hasText: 'You changed the same place here' });
    await line.waitFor();
    expect([await seen(tablet, 'top_length'), await seen(tablet, 'top_width')]).toEqual([
      '80',
      '41',
    ]);
    await line.getByRole('button', { name: 'Look at it' }).click();
    const both = tablet.page.getByRole('dialog', { name: 'Both changed' });
    const place = both.locator('.met');
    await place.getByText('80 in').waitFor();
    expect(await place.count()).toBe(1);
    // Measured here, where there is such a meeting, as the other screens are in fit.test.ts.
    for (const viewport of [{ width: 390, height: 844 }, TABLET.viewport ?? SCREEN]) {
      await tablet.page.setViewportSize(viewport);
      const fits = { clipped: [], overlapping: [], unreachable: [], small: [] };
      expect(await unfit(tablet.page, true)).toEqual(fits);
    }
    await place.getByRole('radio', { name: /^On "Desk"/ }).check();
    await both.getByRole('button', { name: 'Take what I chose' }).click();
    await both.waitFor({ state: 'detached' });
    await stands(tablet.page, 'also at the club');
    for (const one of [desk, tablet]) {
      await expect.poll(() => seen(one, 'overhang_end')).toBe('10');
      expect([await seen(one, 'top_length'), await seen(one, 'top_width')]).toEqual(['100', '44']);
    }
  });

  it('is opened and changed without a network, and sent when there is one', async () => {
    const at = await device('Ada', { serviceWorkers: 'allow' });
    const maker = await opened(at);
    await kept(maker, 'Porch table');
    await maker.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await maker.untilSaved();
    await at.setOffline(true);
    await maker.page.reload();
    await maker.ready();
    await stands(maker.page, /^Club: club not reached since \d\d:\d\d$/);
    await maker.type('top_width', '39');
    await stands(maker.page, /^Club: club not reached since \d\d:\d\d, 1 change not sent$/);
    await at.setOffline(false);
    await stands(maker.page, 'also at the club');
    const other = await opened(await device('Ada'));
    await openFromClub(other, 'Porch table');
    expect(await seen(other, 'top_width')).toBe('39');
  });

  it('that was made at another address comes in one file, and goes to the club by one press', async () => {
    const before = new Maker(await app.open());
    await before.ready();
    await before.type('top_length', '93');
    await before.untilSaved();
    const all = (await before.workbooks()).getByRole('button', { name: 'Save all of mine as one' });
    const [file] = await Promise.all([before.page.waitForEvent('download'), all.click()]);
    const ada = await opened(await device('Ada'));
    const list = await ada.workbooks();
    await list.locator('input[type="file"]').setInputFiles(await file.path());
    await ada.page.getByText('1 workbook was brought in.').waitFor();
    const again = await ada.workbooks();
    await again.getByText('1 workbook of yours is only on this device.').waitFor();
    await again.getByRole('button', { name: 'Bring it to the club' }).click();
    await again.getByText('1 workbook brought to the club.').waitFor();
    const card = again.locator('.book-row', { hasText: 'From the file' });
    await card.getByText(/At the club\.$/).waitFor();
  });

  it('is shared with another, who changes it too, until it is taken back', async () => {
    const ada = await opened(await device('Ada'));
    await kept(ada, 'Club bench top');
    await state(ada.page).click();
    await panel(ada.page).getByLabel('Member').selectOption({ label: 'Ben' });
    await panel(ada.page).getByRole('button', { name: 'Share', exact: true }).click();
    await panel(ada.page).getByRole('button', { name: 'Stop sharing with Ben' }).waitFor();
    await ada.closeDialog();

    const ben = await opened(await device('Ben'));
    const list = await ben.workbooks();
    await list.getByText(/^From Ada\..*Shared with you at the club\.$/).waitFor();
    await ben.closeDialog();
    await openFromClub(ben, 'Club bench top');
    await ben.type('top_width', '37');
    await expect.poll(() => seen(ada, 'top_width')).toBe('37');
    await state(ada.page).click();
    await panel(ada.page)
      .getByText(/Last change from elsewhere: Ben, on "Desk"/)
      .waitFor();
    await panel(ada.page).getByRole('button', { name: 'Stop sharing with Ben' }).click();
    await panel(ada.page).getByText('Nobody: only you see it.').waitFor();
    await ada.closeDialog();
    await stands(ben.page, 'only on this device');
    await ada.type('top_width', '36');
    await stands(ada.page, 'also at the club');
    expect(await seen(ben, 'top_width')).toBe('37');
  });
});
