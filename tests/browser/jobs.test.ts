import { readFile } from 'node:fs/promises';
import { dayOf, likelihood, planJobs, sayDay, takesTime } from '@kerfbook/days';
import { type JointJob, jointPlan } from '@kerfbook/drawing';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { violations } from './support/axe.ts';
import { jobOf, jobsPage, twoJobs } from './support/jobs.ts';
import { shippedTable, words } from './support/maker.ts';
import { holdPages } from './support/pages.ts';
import { printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** The jobs of all workbooks: whom they are for, how they stand, what they come to, and how they are built together. */

const atHand = withMaker();

/** The table as both jobs have it. */
function longTable(): Workbook {
  const source = Workbook.open(shippedTable());
  const at = source.find('top_length');
  if (at === undefined) throw new Error('no length');
  source.apply({
    do: 'enter',
    sheet: at.sheet,
    cells: [{ row: at.row, column: at.column, text: '90' }],
  });
  return source;
}

describe('the jobs', () => {
  it('are workbooks that were made some, by day, with their prices, and changed while they are not open', async () => {
    const { page, maker } = atHand;
    let region = await jobsPage(maker);
    // Who has none is told what one is, and no table.
    expect(await words(region)).toContain('A job is a workbook that says whom it is for');
    expect(await region.locator('.jobs-table').count()).toBe(0);
    await region.getByRole('button', { name: 'Close' }).click();
    region = await twoJobs(maker);
    const titles = () => region.locator('.jobs-table th[scope="row"] > button').allInnerTexts();
    expect(await titles()).toEqual(['Dining table', 'Kitchen table']);
    expect(await words(jobOf(region, 'Dining table'))).toMatch(/2 March 2020, \d+ days overdue/);
    expect(await words(jobOf(region, 'Kitchen table'))).toMatch(/2 March 2099, in \d+ days/);
    expect(await words(region)).toContain('2 jobs, 1 overdue.');
    expect(await violations(page)).toEqual([]);

    // The second is not open: its price is worked out beside the page, and is that of the first, whose copy it is.
    const price = (title: string) => words(jobOf(region, title).locator('td.jobs-money'));
    await expect
      .poll(() => price('Kitchen table'), { timeout: 120_000 })
      .toMatch(/^(Price: )?\$[\d,]+\.\d\d$/);
    expect(await price('Kitchen table')).toBe(await price('Dining table'));
    const cents = Number((await price('Dining table')).replaceAll(/\D/g, ''));
    const sums = await words(region.locator('.jobs-sums'));
    expect(Number(/\$([\d,.]+)/.exec(sums)?.[1]?.replaceAll(/\D/g, ''))).toBe(2 * cents);

    await region.getByLabel('State of Kitchen table').selectOption('paid');
    await expect.poll(titles).toEqual(['Dining table']);
    await region.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(titles).toEqual(['Dining table', 'Kitchen table']);
    await region.getByLabel('State of Kitchen table').selectOption('delivered');
    await region.getByText('"Kitchen table" is delivered now.').waitFor();
    await region.getByLabel('Find').fill('inn');
    await expect.poll(titles).toEqual(['Kitchen table']);
    await region.getByLabel('Find').fill('');
    await region.getByLabel('Show').selectOption('accepted');
    await expect.poll(titles).toEqual(['Dining table']);
    await region.getByLabel('Show').selectOption('all');
    await region.getByLabel('Sort by').selectOption('state');
    await expect.poll(titles).toEqual(['Dining table', 'Kitchen table']);

    // What was changed from here stands in the workbook once it is opened.
    await region.getByRole('button', { name: 'Kitchen table', exact: true }).click();
    await page.locator('.top-title', { hasText: 'Kitchen table' }).waitFor();
    await page.locator('.sheet-list').getByRole('button', { name: 'Job' }).first().click();
    const state = maker.cellAt({ sheet: '', row: 1, column: 1 });
    await expect.poll(() => words(state)).toBe('delivered');
    // And what is typed there stands in the list.
    await state.click();
    await page.keyboard.type('paid');
    await page.keyboard.press('Enter');
    region = await jobsPage(maker);
    await expect.poll(titles).toEqual(['Dining table']);
  });

  it('are bought and cut together, printed with the job at each piece', async () => {
    const { page, maker } = atHand;
    const region = await twoJobs(maker);
    await region.getByRole('button', { name: 'Buy and cut together' }).click();
    const desk = page.locator('.paper-view');
    await desk
      .locator('.page')
      .getByText(/proven cheapest cut this way/)
      .waitFor({ timeout: 120_000 });

    // The same jobs planned here.
    const jobs = ['A', 'B'].map((mark): JointJob => ({ mark, title: mark, source: longTable() }));
    const plan = jointPlan(jobs);
    if (!plan.ok) throw new Error(plan.says);
    const pages = await printed(page);
    holdPages(pages, 'Buy and cut together');
    const text = pages.map((one) => one.text).join(' ');
    const amounts = (says: RegExp) =>
      Number(says.exec(text)?.[1]?.replaceAll(',', '') ?? Number.NaN);
    expect(amounts(/Buying list \$([\d,.]+\d)/)).toBeCloseTo(plan.plan.cost, 2);
    expect(amounts(/One by one \$([\d,.]+\d)/)).toBeCloseTo(plan.apart.cost, 2);
    expect(amounts(/Together \$([\d,.]+\d)/)).toBeCloseTo(plan.plan.cost, 2);
    for (const mark of ['A', 'B']) {
      expect(text).toContain(`${mark} Top, board`);
      expect(text).toContain(`${mark} Long apron`);
    }

    await desk.getByLabel('A4').check();
    await desk.getByLabel('With prices').uncheck();
    const plain = await printed(page);
    expect(plain[0]?.width).toBeCloseTo(210, 0);
    holdPages(plain, 'Buy and cut together');
    expect(plain.map((one) => one.text).join(' ')).not.toContain('$');

    // Without any there is nothing to print, and with one its own plan.
    await desk.getByLabel(/^Kitchen table/).uncheck();
    await desk.getByLabel(/^Dining table/).uncheck();
    await desk.getByText('Choose the jobs to buy and cut for.').waitFor();
    expect(await desk.getByRole('button', { name: 'Print' }).count()).toBe(0);
    await desk.getByRole('button', { name: 'Close' }).click();
    await region.getByRole('button', { name: 'Dining table', exact: true }).waitFor();
  });

  it('are planned in one shop, what is begun first, and what is late moves the rest', async () => {
    const { page, maker } = atHand;
    const region = await twoJobs(maker);
    await region.getByRole('button', { name: 'Days', exact: true }).click();
    await page.getByLabel('Begin on').fill('2027-02-01');
    const rows = page.locator('.jobs-table tbody tr');
    const from = dayOf('2027-02-01') ?? 0;
    const plan = planJobs(
      [
        { name: 'Dining table', source: longTable(), due: dayOf('2020-03-02') ?? 0 },
        { name: 'Kitchen table', source: longTable(), isBegun: true },
      ],
      from,
    );
    if (!plan.ok) throw new Error(plan.says);
    for (const [i, { name, promise }] of plan.jobs.entries()) {
      await expect.poll(() => words(rows.nth(i))).toContain(name);
      await expect.poll(() => words(rows.nth(i))).toContain(sayDay(promise));
    }
    expect(plan.jobs.map(({ name }) => name)).toEqual(['Kitchen table', 'Dining table']);
    expect(await words(rows.nth(1))).toContain('days too late');
    const odds = likelihood(plan.schedule);
    for (const [i, { p90 = 0 } = {}] of odds.entries()) {
      await expect.poll(() => words(rows.nth(i))).toContain(`nine of ten by ${sayDay(p90)}`);
    }
    expect(await words(rows.nth(1))).toContain('by the due date 0 %');
    expect(await violations(page)).toEqual([]);
    // One calendar file of both; the next one moves what came with it.
    const saved = async (): Promise<string> => {
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save a calendar file' }).click(),
      ]);
      expect(file.suggestedFilename()).toBe('days-of-the-jobs.ics');
      return readFile(await file.path(), 'utf8');
    };
    const uids = (text: string) => text.match(/^UID:.*$/gm) ?? [];
    const first = await saved();
    expect(uids(first)).toHaveLength(
      plan.schedule.placed.filter(({ operation }) => takesTime(operation)).length,
    );
    const second = await saved();
    expect(uids(second)).toEqual(uids(first));
    expect(second.match(/^SEQUENCE:1\r?$/gm)).toHaveLength(uids(first).length);
    // Every job of it moves when the first piece of work begins late.
    await page.getByLabel('What if this begins late').selectOption({ index: 1 });
    await page.getByLabel('By hours').fill('12');
    for (const [i, { promise }] of plan.jobs.entries()) {
      await expect.poll(() => words(rows.nth(i))).toContain(`was ${sayDay(promise)}`);
    }
    await page.getByLabel('By hours').fill('none');
    await page.getByText('Type by how many hours, more than 0 and at most 2000.').waitFor();
    await page.getByLabel('What to do on').fill('2027-02-06');
    await page.getByText('Sat 6 Feb 2027: nobody works.').waitFor();
  });
});
