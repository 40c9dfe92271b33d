import { readFile } from 'node:fs/promises';
import { dayOf, likelihood, planBook, sayDay, usualDaysSaid } from '@kerfbook/days';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { complaintsOf } from './support/app.ts';
import { violations } from './support/axe.ts';
import { activity, command, shippedTable, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** The days of a job in the app: planned, moved, promised, and put into a calendar. */

const atHand = withMaker();

const days = () => atHand.page.locator('.days-page');
const promise = () => words(days().locator('.days-promise h2'));
const operations = () => days().getByRole('region', { name: 'The operations' });

async function open(): Promise<void> {
  await activity(atHand.page, 'Bench list');
  await atHand.page.getByRole('button', { name: 'Days and hours' }).click();
  await days().locator('.days-chart svg').waitFor();
}

/** What the packages come to without the app. */
function promised(from: string, change: (book: Workbook) => void = () => undefined): string {
  const book = Workbook.open(shippedTable());
  change(book);
  const { schedule } = planBook(book, { otherwise: dayOf(from) ?? 0 });
  return `Done by ${sayDay(schedule?.jobs[0]?.promise ?? 0)}`;
}

async function begin(day: string): Promise<void> {
  await days().getByLabel('The work begins on').fill(day);
}

describe('the days', () => {
  it('begin on a day that is kept with the workbook, can be undone and is told apart from a day off', async () => {
    const { page, maker } = atHand;
    await open();
    await begin('2027-03-01');
    await expect.poll(promise).toBe(promised('2027-03-01'));
    await maker.untilSaved();
    await page.reload();
    await days().locator('.days-chart svg').waitFor();
    expect(await promise()).toBe(promised('2027-03-01'));
    // A Saturday: it is said, and nothing is shifted silently.
    await begin('2027-03-06');
    const off = days().getByText(
      'Sat 6 Mar 2027 is a day off: the work cannot begin before Mon 8 Mar 2027.',
    );
    await off.waitFor();
    expect(await days().getByLabel('The work begins on').inputValue()).toBe('2027-03-06');
    await off.getByRole('button', { name: 'Begin on Mon 8 Mar 2027' }).click();
    await expect.poll(promise).toBe(promised('2027-03-08'));
    expect(await off.count()).toBe(0);
    await page.getByRole('button', { name: 'Undo' }).click();
    await off.waitFor();
  });

  it('follow days off and hours a day, which are cells too', async () => {
    await open();
    await begin('2027-03-01');
    const hours = days().getByLabel('Hours in a working day');
    await hours.fill('8');
    await hours.press('Enter');
    const eight = (book: Workbook): void => {
      const at = book.find('hours_a_day');
      if (at === undefined) throw new Error('no such cell');
      const { sheet, row, column } = at;
      book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '8' }] });
    };
    await expect.poll(promise).toBe(promised('2027-03-01', eight));
    await days().getByLabel('First day off').fill('2027-03-02');
    await days().getByLabel('Last day off').fill('2027-03-01');
    await days().getByRole('button', { name: 'Add days off' }).click();
    await days()
      .getByText('Mon 1 Mar 2027 is before Tue 2 Mar 2027. Choose the earlier day first.')
      .waitFor();
    const before = await promise();
    await days().getByLabel('Last day off').fill('2027-03-05');
    await days().getByRole('button', { name: 'Add days off' }).click();
    await days().getByText('Tue 2 Mar 2027 to Fri 5 Mar 2027').waitFor();
    expect(await promise()).not.toBe(before);
    await days()
      .getByRole('button', { name: 'Work again: Tue 2 Mar 2027 to Fri 5 Mar 2027' })
      .click();
    await expect.poll(promise).toBe(before);
  });

  it('move along where one operation begins later, and back by undo', async () => {
    const { page } = atHand;
    await open();
    await begin('2027-03-01');
    await expect.poll(promise).toBe(promised('2027-03-01'));
    const before = await promise();
    const row = operations().getByRole('row', { name: /^Make the base/ });
    const was = await words(row);
    await operations().getByRole('button', { name: 'Begin Make the base later' }).click();
    await operations().getByLabel('Make the base: not before').fill('2027-03-15');
    await expect
      .poll(() => words(operations().locator('.days-moved')))
      .toMatch(/Make the base.* Done by .* 2027 instead of /);
    expect(await words(row)).toContain('Mon 15 Mar 08:00');
    expect(await promise()).not.toBe(before);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => words(row)).toBe(was);
    expect(await promise()).toBe(before);
    await operations().getByRole('button', { name: 'A day later' }).click();
    await operations().getByRole('button', { name: 'As soon as it can' }).click();
    await expect.poll(() => words(row)).toBe(was);
  });

  it('say how likely they are with nothing typed and with a range of one’s own, and what to do on a day', async () => {
    const { page, maker } = atHand;
    await open();
    await begin('2027-03-01');
    const from = dayOf('2027-03-01') ?? 0;
    const { schedule } = planBook(Workbook.open(shippedTable()), { from, otherwise: from });
    if (schedule === undefined) throw new Error('no plan');
    const [first] = likelihood(schedule);
    if (first === undefined) throw new Error('no odds');
    const odds = days().getByText(/In .* of 10,000 tries\. In .* it is done /);
    await expect.poll(() => words(odds)).toContain(usualDaysSaid(first));
    const before = await words(odds);
    // On paper for the shop it says the same.
    await activity(page, 'Shop sheets');
    await page
      .getByRole('region', { name: /^Page \d/ })
      .getByText(before)
      .waitFor();
    await command(page, 'Days and hours');
    await odds.waitFor();
    await operations().getByRole('button', { name: 'Make the base' }).first().click();
    await page.locator('.ag-cell-focus').waitFor();
    for (const text of ['5', '20']) {
      for (let i = 0; i < (text === '5' ? 5 : 1); i += 1) await page.keyboard.press('ArrowRight');
      await page.keyboard.type(text);
      await page.keyboard.press('Tab');
      await page.keyboard.press('ArrowLeft');
    }
    await maker.untilSaved();
    await command(page, 'Days and hours');
    await expect.poll(() => words(odds)).toMatch(/^In (less than )?\d+ % of 10,000 tries/);
    expect(await words(odds)).not.toBe(before);
    const part = days().getByRole('region', { name: 'What to do on a day' });
    expect(await words(part.locator('h2'))).toBe('Mon 1 Mar 2027');
    expect(await words(part)).toContain('08:00 Choose and rough-cut boards: 2.5 h');
    await part.getByRole('button', { name: 'Day after' }).click();
    expect(await words(part.locator('h2'))).toBe('Tue 2 Mar 2027');
    await part.getByLabel('Another day').fill('2027-03-06');
    await part.getByText('A day off: nobody works.').waitFor();
  });

  it('go into a calendar, and the next file moves what came with the first', async () => {
    const { page } = atHand;
    await open();
    await begin('2027-03-01');
    await expect.poll(promise).toBe(promised('2027-03-01'));
    const save = async (): Promise<string> => {
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        days().getByRole('button', { name: 'Save a calendar file' }).click(),
      ]);
      expect(file.suggestedFilename()).toBe('dining-table.ics');
      return readFile(await file.path(), 'utf8');
    };
    const uids = (text: string) => text.match(/^UID:.*$/gm);
    const first = await save();
    expect(first).toContain('DTSTART;VALUE=DATE:20270301');
    expect(first.match(/^SEQUENCE:0\r?$/gm)).toHaveLength(uids(first)?.length ?? 0);
    await begin('2027-03-08');
    await expect.poll(promise).toBe(promised('2027-03-08'));
    const second = await save();
    expect(uids(second)).toEqual(uids(first));
    expect(second.match(/^SEQUENCE:1\r?$/gm)).toHaveLength(uids(first)?.length ?? 0);
    expect(second).toContain('DTSTART;VALUE=DATE:20270308');
  });

  it('are begun where a workbook has no operations, and axe finds nothing on their page', async () => {
    const context = await atHand.page.context().browser()?.newContext({ bypassCSP: true });
    const page = await context?.newPage();
    if (context === undefined || page === undefined) throw new Error('no page');
    const complaints = complaintsOf(page);
    await page.goto(atHand.page.url());
    await page.locator('.ag-row .ag-cell').first().waitFor();
    await command(page, 'Days and hours');
    await page.locator('.days-chart svg').waitFor();
    expect(await violations(page)).toEqual([]);
    await command(page, 'Workbooks');
    await page.getByRole('button', { name: 'New blank workbook' }).click();
    await page.keyboard.press('Enter');
    await page.locator('.top-title', { hasText: /Untitled|workbook/i }).waitFor();
    await command(page, 'Days and hours');
    await page.getByText('This workbook has no operations yet.').waitFor();
    await page.getByRole('button', { name: 'Start an operations table' }).click();
    await page.locator('.ag-cell-focus').waitFor();
    await page.keyboard.type('Mill');
    await page.keyboard.press('Tab');
    await page.keyboard.type('7');
    await page.keyboard.press('Enter');
    await command(page, 'Days and hours');
    await page.locator('.days-promise h2').waitFor();
    expect(await page.locator('.days-table tbody').first().getByRole('row').count()).toBe(1);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
