import { mailServerHere } from '@kerfbook/club/testing';
import jsqr from 'jsqr';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, SCREEN, startApp, withoutWorker } from './support/app.ts';
import { violations } from './support/axe.ts';
import { type ClubHere, clubHere } from './support/club.ts';
import { activity, command, Maker } from './support/maker.ts';

/** People of a club: they come in, sign in, are let back in and go, against the club's own server. */

const PASSWORD = 'dovetail rainfall lantern';

let app: App;
let club: ClubHere;
let complaints: readonly string[][] = [];

beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());
afterEach(async () => {
  const all = complaints.flat();
  complaints = [];
  await club.close();
  // The browser itself writes down every refusal that a server answers with.
  expect(all.filter((one) => !one.includes('the server responded with a status of 4'))).toEqual([]);
});

/** A page in a profile of its own, at an address of the club. */
async function visitor(address: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await app.browser.newContext({ viewport: SCREEN, ...options });
  await withoutWorker(context);
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  complaints = [...complaints, complaintsOf(page)];
  await page.goto(address);
  return page;
}

const shelf = (page: Page) => page.locator('.shelf-page');
const button = (page: Page, name: string | RegExp) =>
  shelf(page).getByRole('button', { name, exact: true });

/** Joins by a link that the page was opened with. */
async function join(page: Page, name: string): Promise<void> {
  await shelf(page).getByLabel('Your name, as members know you').fill(name);
  await shelf(page).getByLabel('Password', { exact: true }).fill(PASSWORD);
  await button(page, 'Join').click();
  await shelf(page).getByText(`Signed in as ${name}`).waitFor();
}

/** The first keeper, who came in by the link that the server printed. */
async function keeper(options: BrowserContextOptions = {}): Promise<Page> {
  club = await clubHere();
  const page = await visitor(club.link, options);
  await join(page, 'Ada');
  return page;
}

/** A link that a keeper makes for somebody. */
async function inviteLink(page: Page, note: string): Promise<string> {
  await button(page, 'Members').click();
  await shelf(page)
    .getByLabel(/^Who it is for/)
    .fill(note);
  await button(page, 'Make a link').click();
  return shelf(page).getByLabel('Link', { exact: true }).inputValue();
}

describe('people of a club', () => {
  it('has the first keeper come in by the link, which stands in no address afterwards', async () => {
    club = await clubHere();
    const page = await visitor(club.link);
    await shelf(page).getByRole('heading', { name: 'Join The made-up club' }).waitFor();
    expect(page.url()).toBe(club.address);
    expect(await shelf(page).textContent()).toContain('as a keeper of the shelf');
    expect(await page.locator('dialog[open]').count()).toBe(0);
    // Too short cannot be sent, and what anybody would try first is refused in words.
    await shelf(page).getByLabel('Your name, as members know you').fill('Ada');
    await shelf(page).getByLabel('Password', { exact: true }).fill('short');
    await button(page, 'Join').click();
    const isShort = (field: HTMLInputElement): boolean => field.validity.tooShort;
    expect(await shelf(page).getByLabel('Password', { exact: true }).evaluate(isShort)).toBe(true);
    await shelf(page).getByLabel('Password', { exact: true }).fill('password');
    await button(page, 'Join').click();
    await shelf(page).getByRole('alert').filter({ hasText: 'first that anybody' }).waitFor();
    await shelf(page).getByLabel('Show the password').check();
    expect(await shelf(page).getByLabel('Password', { exact: true }).getAttribute('type')).toBe(
      'text',
    );
    await join(page, 'Ada');

    const again = await visitor(club.link);
    await shelf(again).getByRole('alert').filter({ hasText: 'used already' }).waitFor();
    await button(again, 'Leave the link').click();
    await shelf(again)
      .getByRole('heading', { name: /^Sign in/ })
      .waitFor();
    const cut = await visitor(club.link.slice(0, -30));
    await shelf(cut).getByRole('alert').filter({ hasText: 'not whole' }).waitFor();
  });

  it('lets a second person in by a scanned link, with a passkey, and ends what is signed in elsewhere', async () => {
    const ada = await keeper();
    const link = await inviteLink(ada, 'Ben from the lathe');
    expect(link.startsWith(`${club.address}#join=`)).toBe(true);
    expect(await scanned(ada)).toBe(link);
    await shelf(ada).getByText('Other devices cannot open this link').waitFor();
    await shelf(ada)
      .getByRole('list', { name: 'Links that are still good' })
      .getByText('Ben from the lathe')
      .waitFor();

    // He works on something when he opens the link: it stays as it is.
    const ben = await visitor(club.address);
    const maker = new Maker(ben);
    await maker.ready();
    await maker.type('top_width', '40');
    await maker.untilSaved();
    await ben.goto(link);
    await join(ben, 'Ben');
    expect(ben.url()).toBe(club.address);

    const devices = await ben.context().newCDPSession(ben);
    await devices.send('WebAuthn.enable');
    await devices.send('WebAuthn.addVirtualAuthenticator', {
      options: {
        protocol: 'ctap2',
        transport: 'internal',
        hasResidentKey: true,
        hasUserVerification: true,
        isUserVerified: true,
        automaticPresenceSimulation: true,
      },
    });
    await button(ben, 'Your account').click();
    await shelf(ben).getByLabel('What to call the new one').fill('Bench tablet');
    await button(ben, 'Add a passkey').click();
    await button(ben, 'Remove the passkey "Bench tablet"').waitFor();
    await button(ben, 'Sign out').click();
    await button(ben, 'Sign in with a passkey').click();
    await shelf(ben).getByText('Signed in as Ben').waitFor();

    const elsewhere = await visitor(club.address);
    await activity(elsewhere, 'Shelf');
    await shelf(elsewhere).getByLabel('Name', { exact: true }).fill('Ben');
    await shelf(elsewhere).getByLabel('Password').fill(PASSWORD);
    await button(elsewhere, 'Sign in').click();
    await shelf(elsewhere).getByText('Signed in as Ben').waitFor();
    await button(ben, 'Your account').click();
    await button(ben, /^End being signed in on/).click();
    await expect.poll(() => button(ben, /^End being signed in on/).count()).toBe(0);
    await button(elsewhere, 'Members').click();
    await shelf(elsewhere)
      .getByRole('heading', { name: /^Sign in/ })
      .waitFor();

    // Kept in the browser through all of it.
    await activity(ben, 'Workbook');
    expect(await maker.shows('top_width')).toMatch(/^40\b/);

    await button(ada, 'Templates').click();
    await button(ada, 'Members').click();
    await shelf(ada).getByText('More', { exact: true }).last().click();
    await button(ada, 'Remove Ben from the club').click();
    await shelf(ada).getByRole('alert').filter({ hasText: 'Remove Ben from the club?' }).waitFor();
    await button(ada, 'Remove').click();
    await shelf(ada).getByRole('heading', { name: '1 member', exact: true }).waitFor();
    await activity(ben, 'Shelf');
    await shelf(ben)
      .getByRole('heading', { name: /^Sign in/ })
      .waitFor();
  });

  it('lets a member back in who lost the password, takes links back, and changes who keeps the shelf', async () => {
    const ada = await keeper();
    const link = await inviteLink(ada, 'Kim');
    const kim = await visitor(link);
    await join(kim, 'Kim');
    await button(ada, 'Templates').click();
    await button(ada, 'Members').click();
    const more = shelf(ada).getByText('More', { exact: true });
    await more.last().click();
    await button(ada, 'Let back in: Kim').click();
    const back = await shelf(ada).getByLabel('Link for Kim', { exact: true }).inputValue();
    const other = await visitor(back);
    await shelf(other).getByRole('heading', { name: 'Back into The made-up club' }).waitFor();
    expect(await shelf(other).getByLabel('Name', { exact: true }).inputValue()).toBe('Kim');
    await shelf(other).getByLabel('New password').fill('another made-up one');
    await button(other, 'Set the password and come in').click();
    await shelf(other).getByText('Signed in as Kim').waitFor();
    await button(kim, 'Your account').click();
    await shelf(kim)
      .getByRole('heading', { name: /^Sign in/ })
      .waitFor();

    await button(ada, 'Make a keeper of the shelf: Kim').click();
    await shelf(ada).getByText('keeper of the shelf since').nth(1).waitFor();
    await other.reload();
    await button(other, 'Members').click();
    await button(other, 'Make a link').waitFor();

    const unused = await inviteLink(ada, 'Nobody');
    await button(ada, /^Take back the link: Nobody/).click();
    await shelf(ada).getByText('None.', { exact: true }).waitFor();
    const late = await visitor(unused);
    await shelf(late).getByRole('alert').filter({ hasText: 'taken back' }).waitFor();

    await shelf(ada).getByLabel('What the club is called').fill('The other club');
    await button(ada, 'Rename the club').click();
    await shelf(ada).getByRole('heading', { name: 'The other club' }).waitFor();
  });

  it('gives a token that works once it is copied, changes a password, and lets one leave', async () => {
    const ada = await keeper();
    await button(ada, 'Your account').click();
    await shelf(ada).getByLabel('What it is for').fill('Nightly copy');
    await button(ada, 'Make a token').click();
    const token = await shelf(ada).getByLabel('Token', { exact: true }).inputValue();
    const asked = (): Promise<Response> =>
      fetch(`${club.address}club/templates`, { headers: { authorization: `Bearer ${token}` } });
    expect((await asked()).status).toBe(200);
    await button(ada, 'End the token "Nightly copy"').click();
    await expect.poll(async () => (await asked()).status).toBe(401);
    await button(ada, 'Put it away').click();

    await shelf(ada).getByLabel('Password as it is now').fill('not this one');
    await shelf(ada).getByLabel('New password').fill('another made-up one');
    await button(ada, 'Change the password').click();
    await shelf(ada).getByRole('alert').filter({ hasText: 'not your password' }).waitFor();
    await shelf(ada).getByLabel('Password as it is now').fill(PASSWORD);
    await button(ada, 'Change the password').click();
    await shelf(ada).getByText('The new password holds.').waitFor();

    // The last keeper cannot go; as soon as there is another one she can.
    await button(ada, 'Leave the club').click();
    await shelf(ada).getByRole('alert').getByRole('button', { name: 'Leave the club' }).click();
    await shelf(ada).getByRole('alert').filter({ hasText: 'last keeper' }).waitFor();
    await button(ada, 'Members').click();
    await shelf(ada).getByLabel('Comes in as').selectOption('keeper');
    const kim = await visitor(await inviteLink(ada, 'Kim'));
    await join(kim, 'Kim');
    await button(ada, 'Your account').click();
    await button(ada, 'Leave the club').click();
    await shelf(ada).getByRole('alert').getByRole('button', { name: 'Leave the club' }).click();
    await shelf(ada)
      .getByRole('heading', { name: /^Sign in/ })
      .waitFor();
    await button(kim, 'Members').click();
    await shelf(kim).getByRole('heading', { name: '1 member', exact: true }).waitFor();
  });

  it('hides what was reported, and shows it again', async () => {
    const ada = await keeper();
    const kim = await visitor(await inviteLink(ada, 'Kim'));
    await join(kim, 'Kim');
    await command(ada, 'Publish on the shelf');
    const form = ada.getByRole('dialog', { name: 'Publish on the shelf' });
    await form.getByLabel('Template name').fill('Table for the club');
    await form.getByRole('button', { name: 'Publish', exact: true }).click();
    await form.getByRole('button', { name: 'Go to the shelf' }).click();
    await shelf(ada).getByLabel('Your remark').fill('Mind the saw.');
    await button(ada, 'Add the remark').click();

    await kim.reload();
    await button(kim, 'Table for the club').click();
    await button(kim, 'Report the remark by Ada').click();
    const why = kim.getByRole('dialog', { name: 'Report the remark by Ada' });
    await why.getByLabel('What is wrong with it').fill('It is rude.');
    await why.getByRole('button', { name: 'Report', exact: true }).click();
    await shelf(kim).getByText('Reported to the keepers').waitFor();

    await button(ada, 'Members').click();
    const reported = shelf(ada).getByRole('list', { name: 'Reported' });
    await reported.getByText('It is rude.').waitFor();
    await reported.getByText('Mind the saw.').waitFor();
    const called = 'what Kim reported about Table for the club';
    await button(ada, `Hide it: ${called}`).click();
    await button(ada, `Show it again: ${called}`).waitFor();
    await kim.reload();
    await button(kim, 'Table for the club').click();
    await shelf(kim).getByText('Nobody has remarked on it yet.').waitFor();

    // Found again where it stands, too.
    await button(ada, 'Look at the template: Table for the club').click();
    await button(ada, 'Show it again: the remark by Ada').click();
    await shelf(ada).getByText('Mind the saw.').waitFor();
    await kim.reload();
    await button(kim, 'Table for the club').click();
    await shelf(kim).getByText('Mind the saw.').waitFor();
  });

  it('sends links by e-mail where a mail server is set, shows them all the same, and has no field for it elsewhere', async () => {
    const plain = await keeper();
    await button(plain, 'Members').click();
    await button(plain, 'Make a link').waitFor();
    const field = (page: Page) =>
      shelf(page).getByLabel('Send the link by e-mail to', { exact: true });
    expect(await field(plain).count()).toBe(0);
    await plain.context().close();
    await club.close();

    const mail = await mailServerHere({ unknown: ['nobody@example.org'] });
    club = await clubHere('The made-up club', {
      KERFBOOK_MAIL: mail.url.href,
      KERFBOOK_MAIL_FROM: 'shelf@example.org',
      KERFBOOK_CLUB_ADDRESS: 'https://shelf.example.org',
    });
    const ada = await visitor(club.link);
    await join(ada, 'Ada');
    await button(ada, 'Members').click();
    // What is no address is told by the browser, and not sent.
    await field(ada).fill('kim at the lathe');
    await button(ada, 'Make a link').click();
    const isNone = (one: HTMLInputElement): boolean => one.validity.typeMismatch;
    expect(await field(ada).evaluate(isNone)).toBe(true);
    // One that the mail server does not take stays to be put right, and the link is there.
    await field(ada).fill('nobody@example.org');
    await button(ada, 'Make a link').click();
    await shelf(ada)
      .getByRole('alert')
      .filter({ hasText: 'does not take mail for nobody@example.org' })
      .waitFor();
    expect(await field(ada).inputValue()).toBe('nobody@example.org');
    const shown = () => shelf(ada).getByLabel('Link', { exact: true }).inputValue();
    const unsent = await shown();
    const late = await visitor(unsent);
    await shelf(late).getByRole('heading', { name: 'Join The made-up club' }).waitFor();

    await field(ada).fill('kim@example.org');
    await button(ada, 'Make a link').click();
    await shelf(ada)
      .getByRole('status')
      .filter({ hasText: 'on its way to kim@example.org' })
      .waitFor();
    expect(await field(ada).inputValue()).toBe('');
    const sent = (text = '') =>
      /https:\/\/shelf\.example\.org\/(#join=\S+)/.exec(text)?.[1] ?? 'no link';
    expect(mail.received.map(({ to }) => to)).toEqual([['kim@example.org']]);
    const code = sent(mail.received[0]?.text);
    expect(await shown()).toBe(club.address + code);
    const kim = await visitor(club.address + code);
    await join(kim, 'Kim');

    await button(ada, 'Templates').click();
    await button(ada, 'Members').click();
    await shelf(ada).getByText('More', { exact: true }).last().click();
    await shelf(ada).getByLabel('Send the link by e-mail to: Kim').fill('kim@example.org');
    await button(ada, 'Let back in: Kim').click();
    await shelf(ada)
      .getByRole('status')
      .filter({ hasText: 'on its way to kim@example.org' })
      .waitFor();
    const back = await visitor(club.address + sent(mail.received[1]?.text));
    await shelf(back).getByRole('heading', { name: 'Back into The made-up club' }).waitFor();
    await mail.close();
  });

  it('says what an address cannot do, and offers no passkey there', async () => {
    club = await clubHere();
    const page = await visitor(club.byNumber);
    await activity(page, 'Shelf');
    await shelf(page).getByText('At this address there are no passkeys').waitFor();
    expect(await button(page, 'Sign in with a passkey').count()).toBe(0);
  });

  it.each([
    ['at a desk', {}],
    ['on a phone', { viewport: { width: 390, height: 844 }, hasTouch: true }],
    ['in the dark', { viewport: { width: 1024, height: 768 }, colorScheme: 'dark' }],
  ] as const)('can be read and reached by all %s', async (_where, options) => {
    const ada = await keeper({ ...options, bypassCSP: true });
    await inviteLink(ada, 'Ben');
    await shelf(ada).getByText('More', { exact: true }).first().click();
    expect(await faults(ada)).toEqual([]);
    await button(ada, 'Your account').click();
    await button(ada, 'Add a passkey').waitFor();
    expect(await faults(ada)).toEqual([]);
    await button(ada, 'Sign out').click();
    await button(ada, 'Sign in with a passkey').waitFor();
    expect(await faults(ada)).toEqual([]);
    await ada.goto(`${club.address}#join=${'a'.repeat(43)}`);
    await shelf(ada).getByRole('alert').waitFor();
    expect(await faults(ada)).toEqual([]);
  });
});

/** What axe finds, what is wider than the page, and where fingers are, what is too small for one. */
async function faults(page: Page): Promise<readonly string[]> {
  const found = await shelf(page).evaluate((one) => {
    const small = [...one.querySelectorAll<HTMLElement>('button, .field, summary, label')].filter(
      (control) => {
        const { height } = control.getBoundingClientRect();
        const isTarget =
          !control.matches('label') ||
          control.querySelector('[type=checkbox], [type=radio]') !== null;
        return (
          isTarget &&
          control.checkVisibility() &&
          height < 43.9 &&
          matchMedia('(pointer: coarse)').matches
        );
      },
    );
    return [
      ...(one.scrollWidth > one.clientWidth ? [`wider than the page: ${one.scrollWidth}`] : []),
      ...small.map((control) => `too small: ${control.outerHTML.slice(0, 120)}`),
    ];
  });
  return [...found, ...(await violations(page))];
}

/** What a camera reads of the picture on the page. */
async function scanned(page: Page): Promise<string | undefined> {
  const picture = shelf(page).getByRole('img', { name: 'The link, to be scanned' });
  const { width, data } = await picture.evaluate(async (image: HTMLImageElement) => {
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = 400;
    canvas.height = 400;
    const context = canvas.getContext('2d');
    context?.drawImage(image, 0, 0, 400, 400);
    return { width: 400, data: [...(context?.getImageData(0, 0, 400, 400).data ?? [])] };
  });
  return jsqr.default(new Uint8ClampedArray(data), width, width)?.data;
}
