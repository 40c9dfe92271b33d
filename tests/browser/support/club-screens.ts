import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import type { Locator, Page } from 'playwright-core';
import type { App } from './app.ts';
import { withoutWorker } from './app.ts';
import { FakeClub } from './fake-club.ts';
import { MEMBERS } from './fake-members.ts';
import { activity, command, type Maker } from './maker.ts';
import type { Screen } from './screens.ts';

/** Who looks at a page of a club: one of its members, or somebody who is not signed in. */
export type Viewer = keyof typeof MEMBERS | 'nobody';

const SHIPPED = readFileSync(
  join(import.meta.dirname, '../../../templates/dining-table.json'),
  'utf8',
);
const TABLE = 'Table for the club';
const MADE = Date.UTC(2026, 9, 12, 14);
const LONG = 'A made-up remark with one word that no line holds: ';

/** A template of the dining table as it ships, in which some texts are put in the place of others. */
function edition(title: string, ...instead: readonly (readonly [string, string])[]) {
  const titled = ['"title": "Dining table"', `"title": "${title}"`] as const;
  const text = [titled, ...instead].reduce((all, [before, after]) => {
    if (!all.includes(before)) throw new Error(`the dining table does not say ${before}`);
    return all.replace(before, after);
  }, SHIPPED);
  return {
    text: deflateRawSync(Buffer.from(text)).toString('base64'),
    sign: createHash('sha256').update(text).digest('hex'),
  };
}

const LENGTH = '"value": 84, "quantity": "length", "role": "input", "name": "top_length"';
const longer = (inches: number) => [LENGTH, LENGTH.replace('84', `${inches}`)] as const;
const WIDTH = '"value": 42, "quantity": "length", "role": "input", "name": "top_width"';
const narrower = [WIDTH, WIDTH.replace('42', '38')] as const;
const change = (what: string, before: string, after: string) => ({
  sheet: 'Brief',
  what,
  before,
  after,
});

/** A club with a little of everything in it: templates, remarks, what was built, and suggestions. */
export function stockedClub(): FakeClub {
  const club = new FakeClub();
  club.mail = true;
  club.passkeys = true;
  const person = ({ id, name }: { readonly id: string; readonly name: string }) => ({ id, name });
  const { ada, ben, kim } = MEMBERS;
  const card = {
    about: 'A made-up table of solid wood, for six, with a top that may move.',
    kind: 'table',
    size: '84 × 42 × 30 in',
    longest: 2134,
    woods: ['white oak', 'black walnut'],
    joints: ['mortise and tenon', 'breadboard ends'],
    tags: ['dining', 'made up'],
    results: [
      ['Price', '$2,410.00'] as [string, string],
      ['Wood to buy', '74 bf'] as [string, string],
    ],
  };
  const titles = [
    TABLE,
    'A table with a name of so many words that it takes more than one line of a card',
    'Bench_without_a_space_in_its_name_as_a_computer_would_call_a_file_of_it',
    'Shelf',
  ];
  for (const [i, title] of titles.entries()) {
    const by = i % 2 === 0 ? ada : ben;
    const head = (number: number, more: readonly (readonly [string, string])[]) => ({
      number,
      by: person(by),
      note: number === 1 ? 'First of its kind.' : 'Longer, for eight.',
      made: MADE + (number - i) * 60_000,
      changes: number === 1 ? [] : [change('Length of the top (B6)', '84 in', '90 in')],
      ...edition(title, ...more),
    });
    const id = `made-up-template-${i}`;
    club.templates.set(id, {
      id,
      by,
      title,
      licence: i === 1 ? 'cc-by-nc-sa-4.0' : 'cc-by-sa-4.0',
      card,
      picture: undefined,
      revisions: [head(1, []), { ...head(2, [longer(90)]), suggestedBy: person(kim) }],
      from: i === 3 ? { id: 'made-up-template-0', title: TABLE, revision: 1 } : undefined,
      thanks: new Set([ben.id, kim.id]),
      remarks: [
        { id: `made-up-remark-${i}1`, by: person(ben), text: LONG + 'x'.repeat(120), made: MADE },
        { id: `made-up-remark-${i}2`, by: person(kim), text: 'Another\none.', made: MADE },
      ],
      built: [
        {
          id: `made-up-built-${i}1`,
          by: person(kim),
          revision: 1,
          size: '80 × 40 × 30 in',
          changed: 'Made-up legs, and nothing else.',
          made: MADE,
        },
      ],
    });
  }
  for (const [i, state] of (['open', 'declined'] as const).entries()) {
    const id = `made-up-suggestion-${i}`;
    club.suggestions.set(id, {
      suggestion: {
        id,
        template: 'made-up-template-0',
        title: TABLE,
        base: 1,
        by: person(ben),
        note: 'Longer still, and narrower: it has to go through a door.',
        made: MADE,
        state,
        ...(state === 'open' ? {} : { word: 'A made-up answer.' }),
        changes: [
          change('Length of the top (B6)', '84 in', '96 in'),
          change('Width of the top (B7)', '42 in', '38 in'),
        ],
      },
      // In one place the template went on meanwhile: whoever reviews it has to choose.
      text: edition(TABLE, longer(96), narrower).text,
    });
  }
  return club;
}

/** A page of the app as a club serves it. */
export async function clubPage(
  app: App,
  as: Viewer,
  options: Parameters<App['browser']['newContext']>[0],
): Promise<Page> {
  const context = await app.browser.newContext(options);
  await withoutWorker(context);
  context.setDefaultTimeout(60_000);
  await stockedClub().serve(context, as === 'nobody' ? undefined : as);
  const page = await context.newPage();
  await page.goto(app.address);
  return page;
}

const shelf = (page: Page): Locator => page.locator('.shelf-page');
const press = (page: Page, name: string | RegExp): Promise<void> =>
  shelf(page).getByRole('button', { name, exact: true }).first().click();

/** A place of the shelf; `shows` stands there once all of it was read. */
function onShelf(
  name: string,
  as: Viewer,
  shows: string | RegExp,
  goes: (page: Page) => Promise<unknown>,
): Screen {
  return {
    name: `Club: ${name}`,
    as,
    async open({ page }) {
      await activity(page, 'Shelf');
      await goes(page);
      await shelf(page).getByText(shows).first().waitFor();
      return shelf(page);
    },
  };
}

/** A template with all that is folded up in it open. */
async function toTemplate(page: Page): Promise<void> {
  await press(page, TABLE);
  await shelf(page).locator('.shelf-inside').getByText('Price by').waitFor();
  await shelf(page).getByText(LONG).waitFor();
}

async function unfold(page: Page): Promise<void> {
  const folded = shelf(page).locator('details:not([open]) > summary');
  while ((await folded.count()) > 0) await folded.first().click();
}

/** A dialog that lies over the page. */
function inDialog(
  name: string,
  as: Viewer,
  title: string,
  goes: (maker: Maker) => Promise<Locator>,
): Screen {
  return {
    name: `Club: ${name}`,
    as,
    async open(maker) {
      const shows = await goes(maker);
      await shows.first().waitFor();
      return maker.page.getByRole('dialog', { name: title });
    },
  };
}

const dialog = (page: Page, name: string): Locator => page.getByRole('dialog', { name });

/** The pages of a club's shelf, as members, a keeper and somebody who comes in see them. */
export const CLUB_SCREENS: readonly Screen[] = [
  onShelf('the shelf', 'ada', 'Bench_without', async () => undefined),
  onShelf('nothing found', 'ada', 'No template on the shelf has all of this.', async (page) => {
    await shelf(page).getByLabel('Find').fill('nothing like it');
    await page.keyboard.press('Enter');
  }),
  onShelf("a template of one's own", 'ada', 'Longer still', toTemplate),
  onShelf('a template, all unfolded', 'ada', 'Longer still', async (page) => {
    await toTemplate(page);
    await unfold(page);
  }),
  onShelf('suggestions to answer', 'ada', 'Longer still', (page) => press(page, /^Suggestions/)),
  inDialog('a suggestion that is reviewed', 'ada', 'Suggested by Ben', async ({ page }) => {
    await activity(page, 'Shelf');
    await toTemplate(page);
    await press(page, 'Look at what it brings');
    return dialog(page, 'Suggested by Ben')
      .locator('.renewal-does')
      .getByText(/^Price \$/);
  }),
  inDialog('publishing', 'ada', 'Publish on the shelf', async ({ page }) => {
    await command(page, 'Publish on the shelf');
    return dialog(page, 'Publish on the shelf').getByLabel('Template name');
  }),
  onShelf('an account', 'ada', 'The tablet at the bench', (page) => press(page, 'Your account')),
  onShelf('members, as a member sees them', 'ada', /member since/, (page) =>
    press(page, 'Members'),
  ),
  {
    ...inDialog('suggesting', 'ben', 'Publish on the shelf', async (maker) => {
      const { page } = maker;
      await activity(page, 'Shelf');
      await press(page, TABLE);
      await press(page, 'Open a copy');
      await page.locator('.top-title', { hasText: TABLE }).waitFor();
      await maker.ready();
      await maker.type('top_width', '40');
      await command(page, 'Publish on the shelf');
      return dialog(page, 'Publish on the shelf').getByText('1 change since revision 2');
    }),
    changes: true,
  },
  onShelf(
    'a template of another, with a photograph to send',
    'ben',
    'Size you built',
    async (page) => {
      await toTemplate(page);
      await press(page, 'I built it');
    },
  ),
  inDialog('a report', 'ben', `Report "${TABLE}"`, async ({ page }) => {
    await activity(page, 'Shelf');
    await toTemplate(page);
    await press(page, `Report "${TABLE}"`);
    return dialog(page, `Report "${TABLE}"`).getByLabel('What is wrong with it');
  }),
  onShelf('members and what was reported, as a keeper sees them', 'kim', 'Reported by', (page) =>
    press(page, 'Members'),
  ),
  onShelf('a link that a keeper made', 'kim', 'does not take mail for', async (page) => {
    await press(page, 'Members');
    await shelf(page)
      .getByLabel('Send the link by e-mail to', { exact: true })
      .fill('somebody.with.a.long.name@mail.workshop.example.org');
    await press(page, 'Make a link');
  }),
  onShelf('a member who is let back in', 'kim', 'is back in', async (page) => {
    await press(page, 'Members');
    await shelf(page).getByLabel('More: Ben').click();
    await press(page, 'Let back in: Ben');
  }),
  onShelf('signing in', 'nobody', /^Sign in/, async () => undefined),
  {
    name: 'Club: joining',
    as: 'nobody',
    async open({ page }) {
      await page.evaluate(() => {
        location.hash = `#join=${'a'.repeat(43)}`;
      });
      await shelf(page).getByRole('heading', { name: 'Join The made-up club' }).waitFor();
      return shelf(page);
    },
  },
];
