import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { deflateSync } from 'node:zlib';
import type { BookDocument } from '@kerfbook/workbook';
import { saveText } from '@kerfbook/workbook';
import type { Locator } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { complaintsOf } from './support/app.ts';
import { activity, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** The plan that others build from, as its maker writes it and hands it out. */

const atHand = withMaker();

/** An invented stool of two kinds of parts, without steps yet. */
const STOOL: BookDocument = {
  kerfbook: 8,
  title: 'A made-up stool',
  units: 'us',
  sheets: [
    {
      id: 'sizes',
      name: 'Sizes',
      columns: [{ id: 'c1', width: 200 }, { id: 'c2' }],
      rows: [
        {
          id: 'r1',
          cells: {
            c1: { value: 'Length of the seat' },
            c2: {
              value: 33.1875,
              quantity: 'length',
              role: 'input',
              name: 'seat_length',
              allow: { min: 10, max: 60 },
            },
          },
        },
      ],
    },
    {
      id: 'parts',
      name: 'Parts',
      columns: [1, 2, 3, 4, 5].map((i) => ({ id: `c${i}` })),
      rows: [
        ['part', 'count', 'thickness', 'width', 'length'],
        ['Seat', 1, 1.25, 12, '=seat_length'],
        ['Leg', 4, 1.5, 1.5, 16],
      ].map((cells, row) => ({
        id: `r${row + 1}`,
        cells: Object.fromEntries(
          cells.map((value, i) => [
            `c${i + 1}`,
            {
              ...(typeof value === 'string' && value.startsWith('=')
                ? { formula: value }
                : { value }),
              ...(row > 0 && i > 1 ? { quantity: 'length' as const } : {}),
            },
          ]),
        ),
      })),
    },
  ],
  checks: [],
  tables: [{ id: 'parts', kind: 'parts', sheet: 'parts', header: 'r1', last: 'r3' }],
};

const press = (key: string): Promise<void> => atHand.page.keyboard.press(key);
const type = (text: string): Promise<void> => atHand.page.keyboard.type(text);
const button = (name: string): Locator => atHand.page.getByRole('button', { name, exact: true });
const field = (label: string): Locator => atHand.page.getByLabel(label, { exact: true });
const list = (): Locator => atHand.page.getByRole('navigation', { name: 'Steps' });
const seen = (): Locator => atHand.page.getByRole('region', { name: 'As readers get it' });
const titles = (): Promise<readonly string[]> => list().locator('.plan-title').allInnerTexts();

/** Opens the stool and turns to its plan. */
async function openStool(document: BookDocument = STOOL): Promise<void> {
  const { page, maker } = atHand;
  await maker.workbooks();
  await page.getByLabel('Workbook file').setInputFiles({
    name: 'stool.json',
    mimeType: 'application/json',
    buffer: Buffer.from(saveText(document)),
  });
  await page.locator('.top-title', { hasText: document.title }).waitFor();
  await activity(page, 'Plan for others');
  await page.locator('.plan-page').waitFor();
}

/** Writes one more step: it is begun with the button, and its title is chosen to be typed over. */
async function addStep(title: string): Promise<void> {
  await button('New step').click();
  await expect.poll(() => field('Step').inputValue()).toBe('New step');
  await expect
    .poll(() => field('Step').evaluate((one) => one === document.activeElement))
    .toBe(true);
  await type(title);
  await press('Enter');
  await list().getByText(title, { exact: true }).waitFor();
}

describe('the steps of a plan', () => {
  beforeEach(() => openStool());

  it('are begun, written with a number of the workbook, and follow its size', async () => {
    const { page, maker } = atHand;
    await page.getByText('This workbook has no steps yet.').waitFor();
    await button('Start a steps table').click();
    await addStep('Cut the seat');
    await field('How it is done').click();
    await type('Cut it {sea');
    await page.locator('.plan-offered').getByText('seat_length').waitFor();
    await press('Enter');
    await type(' long.');
    expect(await field('How it is done').inputValue()).toBe('Cut it {seat_length} long.');
    await press('Tab');
    await seen().getByText('33 3/16 in').waitFor();
    await activity(page, 'Workbook');
    await page.locator('.sheet-list [data-sheet="sizes"] > button').first().click();
    await maker.cellAt({ sheet: '', row: 0, column: 1 }).click();
    await type('45 1/2');
    await press('Enter');
    await activity(page, 'Plan for others');
    await seen().getByText('45 1/2 in').waitFor();
    await maker.untilSaved();
    await page.reload();
    await seen().getByText('45 1/2 in').waitFor();
  });

  it('build the parts that no step builds yet, and say what is wrong until all are right', async () => {
    const { page } = atHand;
    await button('Start a steps table').click();
    await addStep('Cut the seat');
    await field('Tools').fill('table saw');
    await press('Tab');
    // The stool has no places: no figure can be drawn of it, which would be told too.
    await field('Figure').selectOption('No figure');
    const problems = page.locator('.plan-problems');
    await problems.getByText('3 things to look at').click();
    await problems.getByRole('button', { name: /speaks of "table saw"/ }).click();
    await expect
      .poll(() => field('Step').evaluate((one) => one === document.activeElement))
      .toBe(true);
    await field('Caution').fill('Keep the guard on.');
    await press('Tab');
    expect(await field('Add a part').locator('option').allInnerTexts()).toEqual([
      'Add a part …',
      'Seat',
      'Leg',
    ]);
    await field('Add a part').selectOption('Seat');
    await problems.getByText('1 thing to look at').click();
    await problems.getByRole('button', { name: /^Leg is built in no step/ }).click();
    // It is a row of the parts table: the workbook shows it.
    await page.locator('.sheet-list [data-sheet="parts"] [aria-current="page"]').waitFor();
    await activity(page, 'Plan for others');
    await field('Add a part').selectOption('Leg');
    expect(await field('Parts made or put on').inputValue()).toBe('Seat, Leg');
    await page.getByText('Nothing to look at').waitFor();
    await page.getByText('Every part is built in a step.').waitFor();
  });

  it('are moved, copied and deleted with buttons and keys, each undone in one step', async () => {
    await button('Start a steps table').click();
    for (const title of ['Cut', 'Glue', 'Rest']) await addStep(title);
    await button('Move up').click();
    await expect.poll(titles).toEqual(['Cut', 'Rest', 'Glue']);
    await list().getByRole('button', { name: /Cut/ }).click();
    await press('Alt+ArrowDown');
    await expect.poll(titles).toEqual(['Rest', 'Cut', 'Glue']);
    await expect.poll(() => list().locator('[aria-current="true"]').textContent()).toContain('Cut');
    await press('ArrowDown');
    await expect.poll(() => field('Step').inputValue()).toBe('Glue');
    await expect
      .poll(() =>
        list()
          .locator('[aria-current="true"]')
          .evaluate((one) => one === document.activeElement),
      )
      .toBe(true);
    await press('Delete');
    await expect.poll(titles).toEqual(['Rest', 'Cut']);
    await button('Duplicate').click();
    await expect.poll(titles).toEqual(['Rest', 'Cut', 'Cut']);
    for (const before of [
      ['Rest', 'Cut'],
      ['Rest', 'Cut', 'Glue'],
      ['Cut', 'Rest', 'Glue'],
      ['Cut', 'Glue', 'Rest'],
    ]) {
      await atHand.page.locator('.back-and-forth button').first().click();
      await expect.poll(titles).toEqual(before);
    }
  });

  it('stay in the list while they are not done at this size', async () => {
    await button('Start a steps table').click();
    await addStep('Cut tenons');
    await field('Only when').fill('=seat_length>40');
    await press('Enter');
    await list().getByText('not at this size').waitFor();
    await seen().getByText('nobody gets this step').waitFor();
    await atHand.page.getByText('comes to no', { exact: true }).waitFor();
  });
});

/** A JPEG with an Exif block that says where it was taken, made by the browser and put together here. */
async function photoWithPlace(): Promise<Buffer> {
  const address = await atHand.page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = 2000;
    canvas.height = 1500;
    const pen = canvas.getContext('2d');
    for (let i = 0; i < 400; i += 1) {
      if (pen !== null) pen.fillStyle = `hsl(${(i * 47) % 360} 60% ${30 + (i % 50)}%)`;
      pen?.fillRect((i * 97) % 2000, (i * 61) % 1500, 160, 120);
    }
    return canvas.toDataURL('image/jpeg', 0.95);
  });
  const jpeg = Buffer.from(address.split(',')[1] ?? '', 'base64');
  // APP1 of Exif 2.32: a TIFF header, no more than a pointer to GPS and a place in words.
  const tiff = Buffer.concat([
    Buffer.from('4d4d002a00000008', 'hex'),
    Buffer.from('0001882500040000000100000000', 'hex'),
    Buffer.from('GPSLatitude 41.40338 SECRET-PLACE', 'latin1'),
  ]);
  const exif = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const head = Buffer.alloc(4);
  head.writeUInt16BE(0xffe1, 0);
  head.writeUInt16BE(exif.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, exif, jpeg.subarray(2)]);
}

describe('photographs of a plan', () => {
  const chooser = () => field('Photographs').and(atHand.page.locator('input'));

  it('come in smaller, without where they were taken, and are named, described, shown and removed', async () => {
    const { page } = atHand;
    await openStool();
    await button('Start a steps table').click();
    await addStep('Cut the seat');
    await button('Photographs').click();
    const file = await photoWithPlace();
    expect(file.includes('SECRET-PLACE')).toBe(true);
    await chooser().setInputFiles({ name: 'Glue Up.JPG', mimeType: 'image/jpeg', buffer: file });
    const picture = page.locator('.plan-photos img');
    const data = (await picture.getAttribute('src')) ?? '';
    expect(data.length).toBeLessThanOrEqual(320 * 1024);
    const kept = Buffer.from(data.split(',')[1] ?? '', 'base64');
    expect(kept.subarray(0, 2).toString('hex')).toBe('ffd8');
    for (const sign of ['Exif', 'GPS', 'SECRET-PLACE']) expect(kept.includes(sign)).toBe(false);
    expect(
      await picture.evaluate((one: HTMLImageElement) => [one.naturalWidth, one.naturalHeight]),
    ).toEqual([1280, 960]);
    expect(await field('Name').inputValue()).toBe('glue-up');
    await field('What is seen on it').fill('Clamps on both faces');
    await press('Tab');
    await button('Steps').click();
    await field('Photograph').selectOption('glue-up');
    await seen().getByRole('img', { name: 'Clamps on both faces' }).waitFor();
    await button('Photographs').first().click();
    await field('Name').fill('Not A Name');
    await press('Enter');
    await page.getByText('A photograph is named in small letters').waitFor();
    await field('Name').fill('clamps');
    await press('Enter');
    await page.getByText('In step 1.').waitFor();
    await button('Remove').click();
    await expect.poll(() => picture.count()).toBe(0);
    await button('Steps').click();
    await page.getByText('None in this workbook yet.').waitFor();
    await page.locator('.plan-problems > summary').click();
    expect(await page.getByText(/no photograph named/).count()).toBe(0);
  });

  it('are refused in a sentence where the file is broken', async () => {
    await openStool();
    await button('Photographs').click();
    const buffer = deflateSync(Buffer.from('no picture at all'));
    await chooser().setInputFiles({ name: 'broken.jpg', mimeType: 'image/jpeg', buffer });
    await atHand.page
      .getByRole('alert')
      .getByText('broken.jpg: This file is no picture that can be read.')
      .waitFor();
  });
});

describe('what readers get', () => {
  beforeEach(() => openStool());

  it('is opened, ordered, hidden and said, and kept', async () => {
    const { page, maker } = atHand;
    await button('For readers').click();
    await field('Open one more').selectOption('seat_length');
    await page.locator('.plan-opened').getByText('Allowed: 10 to 60.').waitFor();
    await field('Costs and prices').check();
    await field('Name of the plan').fill('A stool for everybody');
    await press('Tab');
    await field('Tone of the page').selectOption('Moss');
    await button('Hand out').click();
    const preview = page.frameLocator('.plan-preview iframe');
    await preview.getByRole('heading', { name: 'A stool for everybody' }).waitFor();
    await maker.untilSaved();
    await page.reload();
    await button('For readers').click();
    expect(await field('Name of the plan').inputValue()).toBe('A stool for everybody');
    expect(await field('Costs and prices').isChecked()).toBe(true);
    await button('Remove seat_length: readers no longer change it').click();
    await page.getByText('Nothing yet: readers get the plan at this size.').waitFor();
  });

  it('is said in a second language on a sheet that has every text', async () => {
    const { page } = atHand;
    await button('Start a steps table').click();
    await addStep('Cut the seat');
    await button('For readers').click();
    await field('Second language').selectOption('de');
    await button('Add a sheet for a second language').click();
    await button('Go to its words').click();
    await page
      .locator('.sheet-list [aria-current="page"]', { hasText: 'Second language' })
      .waitFor();
    await page.locator('.ag-cell', { hasText: 'Cut the seat' }).first().waitFor();
    await activity(page, 'Plan for others');
    await addStep('Rest');
    await button('For readers').click();
    await button('Add 1 new text').click();
    await expect.poll(() => button('Add 1 new text').count()).toBe(0);
  });
});

describe('the plan of the dining table', () => {
  beforeEach(async () => {
    await activity(atHand.page, 'Plan for others');
    await list().getByText('Groove the aprons', { exact: true }).click();
    await expect.poll(() => field('How it is done').inputValue()).toContain('groove_edge');
  });

  it('follows what is being typed, and the workbook only what is entered', async () => {
    const { page } = atHand;
    const undo = page.locator('.back-and-forth button').first();
    const before = await field('How it is done').inputValue();
    await field('How it is done').fill('The groove is {groove_depth} deep.');
    const said = seen().locator('p', { hasText: /^The groove is 3\/4 in.* deep\.$/ });
    await said.waitFor();
    expect(await undo.isDisabled()).toBe(true);
    await field('How it is done').press('End');
    await type(' Not');
    await seen()
      .locator('p', { hasText: /^The groove is .* deep\. Not$/ })
      .waitFor();
    await press('Escape');
    await expect.poll(() => seen().getByText('The groove is').count()).toBe(0);
    expect(await field('How it is done').inputValue()).toBe(before);
    expect(await undo.isDisabled()).toBe(true);
  });

  it('says of yes and no which it is, and in words of the workbook how a groove is cut', async () => {
    const { page } = atHand;
    await page.locator('.plan-form').getByText('comes to yes', { exact: true }).waitFor();
    await field('Only when').fill('=top_length<0');
    await press('Enter');
    await page.locator('.plan-form').getByText('comes to no', { exact: true }).waitFor();
    await field('Only when').fill('');
    await press('Enter');
    await seen().getByText('Fence to blade 1/2 in').waitFor();
    // The plan works out which apron is shown; where its maker says it, how it is cut is asked.
    await field('Figure').fill('groove');
    await press('Enter');
    await field('How the groove is cut').selectOption('With a router');
    await seen().getByText('Edge to groove 1/2 in').waitFor();
    expect(await field('Figure').inputValue()).toBe('groove');
  });

  it('names the checks that stay with its maker as long as costs do', async () => {
    const { page } = atHand;
    await button('For readers').click();
    const kept = page.locator('.plan-kept');
    await kept.getByText('4 checks stay with you too').waitFor();
    expect(await kept.getByRole('listitem').allInnerTexts()).toContain(
      'The quote leaves the profit says an amount',
    );
    await page.getByLabel('Costs and prices').uncheck();
    await expect.poll(() => kept.count()).toBe(0);
  });

  it('counts what is given in a second language, and lists the rest', async () => {
    const { page } = atHand;
    await button('For readers').click();
    await field('Second language').selectOption('de');
    await button('Add a sheet for a second language').click();
    const unsaid = page.locator('.plan-unsaid');
    await unsaid.getByText(/^0 of \d+ texts are given\./).waitFor();
    await unsaid.locator('summary').click();
    await unsaid.getByText('Read it through', { exact: true }).waitFor();
    await unsaid.getByText(/^and \d+ more$/).waitFor();
  });
});

describe('handing a plan out', () => {
  beforeEach(async () => {
    await atHand.page.addInitScript(() => {
      window.print = () => {
        window.top?.document.documentElement.setAttribute('data-printed', document.title);
        window.dispatchEvent(new Event('afterprint'));
      };
    });
    await atHand.page.reload();
    await atHand.maker.ready();
    await openStool();
    await button('Start a steps table').click();
    await addStep('Cut the seat');
    await button('Hand out').click();
  });

  it('gives readers a page that works from a disk, with no network, at a size of theirs', async () => {
    const { page } = atHand;
    await button('For readers').click();
    await field('Open one more').selectOption('seat_length');
    await button('Steps').click();
    await field('How it is done').fill('Cut it {seat_length} long.');
    await press('Tab');
    await button('Hand out').click();
    // What is looked at in the app is the page itself, with its program.
    const preview = page.frameLocator('.plan-preview iframe');
    await preview.locator('html[data-ready="true"]').waitFor({ state: 'attached' });
    await preview.getByText('33 3/16 in').first().waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      button('Save the readers’ page').click(),
    ]);
    expect(download.suggestedFilename()).toBe('a-made-up-stool.html');
    const file = join(mkdtempSync(join(tmpdir(), 'kerfbook-plan-')), 'plan.html');
    await download.saveAs(file);
    expect(readFileSync(file, 'utf8')).not.toContain('Number 1');
    const reader = await page.context().newPage();
    const complaints = complaintsOf(reader);
    await reader.context().setOffline(true);
    await reader.goto(`${pathToFileURL(file)}#seat_length=48`);
    await reader.locator('html[data-ready="true"]').waitFor({ state: 'attached' });
    await reader.locator('.guide-step').getByText('48 in').first().waitFor();
    expect(complaints).toEqual([]);
    await reader.context().setOffline(false);
    await reader.close();
    await button('Count it as number 1').click();
    await page.getByText('They do not differ.').waitFor();
  });

  it('is counted where its maker wants it, and what differs later is told in words', async () => {
    const { page } = atHand;
    await button('Print the guide').click();
    await page.locator('html[data-printed="A made-up stool"]').waitFor();
    await expect.poll(() => page.locator('.paper-printing').count()).toBe(0);
    await button('Count it as number 1').click();
    await page.getByText('They do not differ.').waitFor();
    await button('Steps').click();
    await field('Caution').fill('Keep the guard on.');
    await press('Tab');
    await button('Hand out').click();
    const differs = page.locator('.compared-result');
    await differs.getByText('Keep the guard on.').waitFor();
    expect(await words(differs)).toContain('1 entry');
    await page.locator('.back-and-forth button').first().click();
    await page.getByText('They do not differ.').waitFor();
    await page.locator('.back-and-forth button').first().click();
    await page.getByText('Not yet, or not counted so.').waitFor();
  });
});

describe('the steps of the dining table', () => {
  it('stay within their column, however long a formula is without a space', async () => {
    const { page } = atHand;
    await activity(page, 'Plan for others');
    await list().getByText('Groove the aprons', { exact: true }).click();
    await expect.poll(() => field('How it is done').inputValue()).toContain('groove_edge');
    const form = page.locator('.plan-form');
    for (const width of [1440, 1024]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await form.evaluate((one) => [one.scrollWidth, one.clientWidth])).toEqual(
        await form.evaluate((one) => [one.clientWidth, one.clientWidth]),
      );
    }
  });
});
