import { createHash } from 'node:crypto';
import { deflateRawSync } from 'node:zlib';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, SCREEN, startApp } from './support/app.ts';
import { violations } from './support/axe.ts';
import { FakeClub, PASSWORD } from './support/fake-club.ts';
import type { MEMBERS } from './support/fake-members.ts';
import { activity, command, Maker, shippedTable } from './support/maker.ts';

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

/** Another member, with a copy of a template open. */
async function copyOf(title: string): Promise<Maker> {
  const ben = await served('ben');
  await toTemplate(ben.page, title);
  await shelf(ben.page).getByRole('button', { name: 'Open a copy', exact: true }).click();
  await ben.page.locator('.top-title', { hasText: title }).waitFor();
  await ben.ready();
  return ben;
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
    expect(prices.join()).not.toContain("Can't tell");
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

  it('hands a suggestion to the maker, who weighs it against a later revision and answers', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    await dialog(ada.page, 'Publish on the shelf').getByRole('button', { name: 'Back to' }).click();
    const ben = await copyOf('Table for the club');
    await ben.type('top_length', '90');
    await ben.type('top_width', '40');
    await command(ben.page, 'Publish on the shelf');
    const form = dialog(ben.page, 'Publish on the shelf');
    await form.getByText('2 changes since revision 1').waitFor();
    expect(await form.getByLabel(/^Suggest my changes to Ada/).isChecked()).toBe(true);
    await form.getByLabel('What you changed').fill('A made-up reason');
    await form.getByRole('button', { name: 'Suggest', exact: true }).click();
    await form.getByRole('status').filter({ hasText: 'is with Ada' }).waitFor();
    await form.getByRole('button', { name: 'Go to the shelf' }).click();
    await shelf(ben.page).getByText('from revision 1, waits for an answer').waitFor();

    // Meanwhile the template goes on, in one of the two places.
    await ada.type('top_length', '96');
    await publish(ada.page);
    await ada.page.keyboard.press('Escape');
    await ada.page.reload();
    await ada.ready();
    await ada.page.locator('.activities').getByText('1 suggestion to answer').waitFor();
    await toTemplate(ada.page, 'Table for the club');
    await shelf(ada.page).getByText('A made-up reason').waitFor();
    await shelf(ada.page).getByRole('button', { name: 'Look at what it brings' }).click();
    const review = dialog(ada.page, 'Suggested by Ben');
    await review.getByText('made from revision 1; revision 2 stands').waitFor();
    // What it does is worked out: the price is one of the main results.
    await review
      .locator('.renewal-does')
      .getByText(/^Price \$/)
      .waitFor();
    await review.getByRole('radio', { name: /^As suggested: Length of the top/ }).check();
    await review.getByLabel('A word to Ben').fill('A made-up answer');
    await review
      .getByRole('button', { name: /^Accept: publish revision 3 with 2 changes/ })
      .click();
    await review.waitFor({ state: 'detached' });
    const last = [...club.templates.values()][0]?.revisions.at(-1);
    expect(last?.suggestedBy?.name).toBe('Ben');
    expect(last?.changes.map(({ what, after }) => `${what}: ${after}`).sort()).toEqual([
      'Length of the top (B6): 90 in',
      'Width of the top (B7): 40 in',
    ]);
    expect(await ada.page.locator('.shelf-count').count()).toBe(0);
    await activity(ben.page, 'Workbook');
    await activity(ben.page, 'Shelf');
    await shelf(ben.page).getByRole('button', { name: 'Suggestions' }).click();
    await shelf(ben.page).getByText('Answer: A made-up answer').waitFor();

    // The maker's own workbook is told of what came by it.
    await activity(ada.page, 'Workbook');
    await command(ada.page, 'Publish on the shelf');
    await dialog(ada.page, 'Publish on the shelf')
      .getByRole('button', { name: 'Look at what is new' })
      .click();
    await ada.page.getByRole('button', { name: /^Bring in 2 changes/ }).click();
    expect(await ada.length('top_width')).toBe(40);
  });

  it('publishes further what came from another member, and takes back or declines a suggestion', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    await ada.page.keyboard.press('Escape');
    const ben = await copyOf('Table for the club');
    const { page } = ben;
    await ben.type('top_length', '90');
    for (const word of ['taken back', 'declined']) {
      await command(page, 'Publish on the shelf');
      const form = dialog(page, 'Publish on the shelf');
      await form.getByRole('button', { name: 'Suggest', exact: true }).click();
      await form.getByRole('button', { name: 'Go to the shelf' }).click();
      if (word === 'taken back')
        await shelf(page).getByRole('button', { name: 'Take back' }).click();
      else {
        await toTemplate(ada.page, 'Table for the club');
        await shelf(ada.page).getByRole('button', { name: 'Look at what it brings' }).click();
        const review = dialog(ada.page, 'Suggested by Ben');
        await review.getByLabel('A word to Ben').fill('A made-up reason');
        await review.getByRole('button', { name: 'Decline' }).click();
        await shelf(ada.page).getByText('Answer: A made-up reason').waitFor();
        await activity(page, 'Workbook');
        await activity(page, 'Shelf');
        await shelf(page).getByRole('button', { name: 'Suggestions' }).click();
      }
      await shelf(page).getByText(`made from revision 1, ${word}`).first().waitFor();
      await activity(page, 'Workbook');
    }
    await command(page, 'Publish on the shelf');
    const form = dialog(page, 'Publish on the shelf');
    await form.getByLabel(/^Publish it as a template of my own/).check();
    await form.getByLabel('Template name').fill('Longer table');
    await form.getByRole('button', { name: 'Publish', exact: true }).click();
    await form.getByRole('button', { name: 'Go to the shelf' }).click();
    await shelf(page).getByRole('heading', { name: 'Longer table', level: 2 }).waitFor();
    await shelf(page)
      .locator('.shelf-inside')
      .getByText(/^Ben, from work by Ada/)
      .waitFor();
    await shelf(page).getByRole('button', { name: 'Table for the club', exact: true }).click();
    await shelf(page).getByRole('heading', { name: 'Table for the club', level: 2 }).waitFor();
  });

  it('publishes nothing over a revision that its maker has not seen', async () => {
    const ada = await served('ada');
    const { page } = ada;
    await publish(page, 'Table for the club');
    await page.keyboard.press('Escape');
    await ada.type('top_length', '96');
    await command(page, 'Publish on the shelf');
    const form = dialog(page, 'Publish on the shelf');
    await form.getByText('1 change since revision 1').waitFor();
    // Another device of the same maker publishes meanwhile.
    const [one] = club.templates.values();
    const first = one?.revisions[0];
    if (one === undefined || first === undefined) throw new Error('nothing was published');
    one.revisions.push({ ...first, number: 2 });
    await form.getByRole('button', { name: 'Publish revision 2' }).click();
    await form.getByText('Revision 2 stands on the shelf').waitFor();
    expect(one.revisions).toHaveLength(2);
    complaints.length = 0;
  });

  it('is found by words, narrowed by what it is, put in an order, and goes on at its end', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    const [one] = club.templates.values();
    if (one === undefined) throw new Error('nothing was published');
    for (const [i, wood] of ['white ash', 'white ash', 'red alder', 'sugar maple'].entries()) {
      const id = `made-up-template-${i}`;
      const card = { ...one.card, woods: [wood], longest: 400 + i * 500 };
      const thanks = new Set(Array.from({ length: i }, (_none, n) => `member-${n}`));
      const revisions = one.revisions.map((rest) => ({ ...rest, made: rest.made - i - 1 }));
      club.templates.set(id, { ...one, id, title: `Made-up ${i}`, card, thanks, revisions });
    }
    const { page } = await served('ben');
    await activity(page, 'Shelf');
    const titles = async () =>
      (await shelf(page).locator('.shelf-cards .card-title').allInnerTexts()).map((one) =>
        one.trim(),
      );
    await expect.poll(titles).toEqual(['Table for the club', 'Made-up 0', 'Made-up 1']);
    await shelf(page).getByRole('button', { name: 'Show more templates' }).click();
    await expect.poll(async () => (await titles()).length).toBe(5);
    expect(await shelf(page).getByRole('button', { name: 'Show more templates' }).count()).toBe(0);
    await shelf(page).getByLabel('Order').selectOption('Most thanked first');
    await expect.poll(titles).toEqual(['Made-up 3', 'Made-up 2', 'Made-up 1']);
    await shelf(page).getByLabel('Wood').selectOption('white ash (2)');
    await expect.poll(titles).toEqual(['Made-up 1', 'Made-up 0']);
    // As the workbook that is open counts: in inches.
    await shelf(page).getByLabel('Longest measure').selectOption('up to 24 in');
    await expect.poll(titles).toEqual(['Made-up 0']);
    await shelf(page).getByLabel('Find').fill('nothing like it');
    await page.keyboard.press('Enter');
    await shelf(page).getByText('No template on the shelf has all of this.').waitFor();
    await shelf(page).getByRole('button', { name: 'Show all templates' }).click();
    await expect.poll(async () => (await titles()).length).toBe(3);
    // Who comes back from a template finds the list as it was left.
    await shelf(page).getByLabel('Wood').selectOption('white ash (2)');
    await shelf(page).getByRole('button', { name: 'Made-up 1' }).click();
    await shelf(page).getByRole('button', { name: 'Back to all templates' }).click();
    await expect.poll(titles).toEqual(['Made-up 1', 'Made-up 0']);
  });

  it('takes thanks, remarks, a report, and word of a built one with a small photo', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    const { page } = await served('ben');
    await toTemplate(page, 'Table for the club');
    const here = shelf(page);
    await here.getByRole('button', { name: 'Say thanks' }).click();
    await here.getByText('1 member said thanks').waitFor();
    await here.getByLabel('Your remark').fill('<b>A made-up remark</b>');
    await here.getByRole('button', { name: 'Add the remark' }).click();
    await here.getByText('<b>A made-up remark</b>', { exact: true }).waitFor();
    await here.getByRole('button', { name: 'I built it' }).click();
    await here.getByLabel('Size you built').fill('80 × 40 × 30 in');
    await here.getByLabel('What you changed').fill('Made-up legs');
    const large = await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      Object.assign(canvas, { width: 4000, height: 1000 });
      canvas.getContext('2d')?.fillRect(0, 0, 2000, 1000);
      return canvas.toDataURL('image/png').split(',')[1] ?? '';
    });
    const photo = {
      name: 'photo.png',
      mimeType: 'image/png',
      buffer: Buffer.from(large, 'base64'),
    };
    await here.getByLabel('Photo').setInputFiles(photo);
    await here.getByRole('button', { name: 'Tell the club' }).click();
    const shown = here.locator('.shelf-photo img');
    await shown.waitFor();
    await expect
      .poll(() => shown.evaluate((one: HTMLImageElement) => [one.naturalWidth, one.naturalHeight]))
      .toEqual([2000, 500]);
    expect([...club.images.values()].at(-1)?.subarray(0, 2).toString('hex')).toBe('ffd8');
    await here.getByRole('button', { name: 'Report "Table for the club"' }).click();
    const report = dialog(page, 'Report "Table for the club"');
    await report.getByLabel('What is wrong with it').fill('A made-up reason');
    await report.getByRole('button', { name: 'Report', exact: true }).click();
    await here.getByText('Reported to the keepers').waitFor();
    expect(club.reports).toHaveLength(1);
    // Words of members are words.
    expect(await here.locator('.shelf-words b').count()).toBe(0);
  });

  it('opens nothing that is damaged or no workbook, and says so', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    const one = [...club.templates.values()][0]?.revisions[0];
    if (one === undefined) throw new Error('nothing was published');
    const hostile = JSON.stringify({ ...shippedTable(), script: 'document.title = 1' });
    const signed = createHash('sha256').update(hostile).digest('hex');
    for (const [text, sign, says] of [
      [one.text, 'f'.repeat(64), 'was damaged on its way'],
      [deflateRawSync(hostile).toString('base64'), signed, 'script'],
      [
        deflateRawSync(' '.repeat(200_000_000)).toString('base64'),
        signed,
        'was damaged on its way',
      ],
    ] as const) {
      Object.assign(one, { text, sign });
      const { page } = await served('ben');
      await toTemplate(page, 'Table for the club');
      await shelf(page)
        .locator('.shelf-inside')
        .getByRole('alert')
        .filter({ hasText: says })
        .waitFor();
      await shelf(page).getByRole('button', { name: 'Open a copy', exact: true }).click();
      await shelf(page)
        .locator('.shelf-about')
        .getByRole('alert')
        .filter({ hasText: says })
        .waitFor();
      expect(await page.title()).toBe('Dining table · Kerfbook');
      await page.context().close();
    }
  });

  it('says that the club cannot be reached, and nothing of it over the workbook', async () => {
    club.away = true;
    const { page } = await served('ada');
    await activity(page, 'Shelf');
    await shelf(page)
      .getByRole('alert')
      .filter({ hasText: 'The club cannot be reached' })
      .waitFor();
    await activity(page, 'Workbook');
    expect(await page.locator('.offer').count()).toBe(0);
    await command(page, 'Publish on the shelf');
    await dialog(page, 'Publish on the shelf').getByRole('alert').waitFor();
    await page.keyboard.press('Escape');
    // The browser itself writes down each question that was not answered.
    expect(complaints.filter((one) => !/ERR_CONNECTION_REFUSED/.test(one))).toEqual([]);
    complaints.length = 0;
    club.away = false;
    await activity(page, 'Shelf');
    await shelf(page).getByRole('button', { name: 'Try again' }).click();
    await shelf(page).getByText('Nothing is on the shelf yet').waitFor();
  });

  it('is asked itself by a page that is kept for offline, and what it answers is not kept', async () => {
    const context = await app.browser.newContext({ viewport: SCREEN, serviceWorkers: 'allow' });
    await club.serve(context, 'ada');
    const page = await context.newPage();
    await page.goto(app.address);
    await new Maker(page).ready();
    const state = () =>
      page.evaluate(
        async () => (await navigator.serviceWorker.getRegistration())?.active?.state ?? '',
      );
    await expect.poll(state, { timeout: 20_000 }).toBe('activated');
    await page.reload();
    await new Maker(page).ready();
    expect(await page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
    // Laid in by hand where the worker keeps the app: it must not come from there.
    await page.evaluate(async () => {
      const [name = ''] = await caches.keys();
      await (await caches.open(name)).put('/club/here', new Response('{"kept":true}'));
    });
    const answer = await page.evaluate(async () => (await fetch('/club/health')).status);
    const told = await page.evaluate(async () => (await fetch('/club/here')).text());
    expect(told).not.toContain('kept');
    expect(answer).toBe(404);
    await context.close();
  });
});

describe('the pages of the shelf', () => {
  it('read aloud without a fault, fit any screen, and are led through by keys', async () => {
    const ada = await served('ada');
    await publish(ada.page, 'Table for the club');
    for (const [options, finger] of [
      [{ viewport: SCREEN }, false],
      [{ viewport: { width: 1024, height: 768 }, colorScheme: 'dark' }, false],
      [{ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, true],
    ] as const) {
      const { page } = await served('ben', { ...options, bypassCSP: true });
      await activity(page, 'Shelf');
      await shelf(page).getByRole('button', { name: 'Table for the club' }).waitFor();
      expect(await violations(page)).toEqual([]);
      await fits(page, finger);
      await shelf(page).getByRole('button', { name: 'Table for the club' }).focus();
      await page.keyboard.press('Enter');
      await shelf(page).locator('.shelf-inside').getByText('Price by').waitFor();
      await shelf(page).getByRole('button', { name: 'I built it' }).click();
      for (const fold of await shelf(page).locator('summary').all()) await fold.click();
      expect(await violations(page)).toEqual([]);
      await fits(page, finger);
      await page.context().close();
    }
  });
});

/** Nothing of the shelf is wider than the screen, and what a finger presses is as large as one. */
async function fits(page: Page, finger: boolean): Promise<void> {
  const found = await shelf(page).evaluate(
    (region, least) => {
      const wide = region.scrollWidth > region.clientWidth ? ['the page is too wide'] : [];
      const small = [
        ...region.querySelectorAll('button, select, input, summary, textarea'),
      ].flatMap((one) => {
        const { width, height } = one.getBoundingClientRect();
        const isSmall = width > 0 && (height < least - 0.5 || width < least - 0.5);
        return isSmall ? [`${one.outerHTML.slice(0, 90)} ${width} × ${height}`] : [];
      });
      return [...wide, ...small];
    },
    finger ? 44 : 24,
  );
  expect(found).toEqual([]);
}
