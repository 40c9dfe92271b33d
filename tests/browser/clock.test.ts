import { describe, expect, it } from 'vitest';
import { activity, command, type Maker, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** A clock for an operation, hours that are typed, and what other jobs took. The page's time is set by the test. */

const atHand = withMaker();

const bar = () => atHand.page.locator('.clock-bar');
const took = () =>
  atHand.page.locator('.days-page').getByRole('region', { name: 'What it really took' });
const rowOf = (name: string) => took().getByRole('row', { name: new RegExp(`^${name}`) });

/** The bench list at a moment of the page's own time. */
async function benchAt(moment: string): Promise<void> {
  const { page, maker } = atHand;
  await page.clock.install({ time: new Date(moment) });
  await page.reload();
  await maker.ready();
  await activity(page, 'Bench list');
  await bar().waitFor();
}

/** So long later, with the page opened anew: the device slept, or the browser closed it. */
async function later(hours: number): Promise<void> {
  const { page } = atHand;
  await page.clock.fastForward(hours * 3_600_000);
  await page.reload();
  await bar().waitFor();
}

const start = async (name: string): Promise<void> => {
  await bar().getByLabel('Work on').selectOption({ label: name });
  await bar().getByRole('button', { name: 'Start the clock' }).click();
  await bar().getByRole('button', { name: 'Stop', exact: true }).waitFor();
};

describe('the clock', () => {
  it('runs through a reload and a sleep, and is written down by one press that can be undone', async () => {
    const { page } = atHand;
    await benchAt('2027-03-01T09:00:00');
    const size = await bar().getByRole('button', { name: 'Start the clock' }).boundingBox();
    expect(Math.min(size?.height ?? 0, size?.width ?? 0)).toBeGreaterThanOrEqual(48);
    await start('Mill the boards');
    await later(1.25);
    expect(await words(bar())).toMatch(/Mill the boards since 09:0\d 1 h 1\d min/);
    await bar().getByRole('button', { name: 'Stop, it is done' }).click();
    await expect
      .poll(() => words(bar()))
      .toMatch(/7\d min written down for Mill the boards\. It is done\./);
    await page.getByRole('button', { name: 'Days and hours' }).click();
    expect(await words(rowOf('Mill the boards'))).toMatch(
      /^Mill the boards 3\.2 h 1\.2\d h −1\.9\d h done/,
    );
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => words(rowOf('Mill the boards'))).toBe('Mill the boards 3.2 h');
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => words(rowOf('Mill the boards'))).toContain('done');
    // The table is one of the workbook, on a sheet of its own.
    await activity(page, 'Workbook');
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Hours worked').click();
    await page.locator('.ag-row', { hasText: 'Mill the boards' }).waitFor();
  });

  it('that ran overnight is asked about, and nothing is taken silently', async () => {
    const { page } = atHand;
    await benchAt('2027-03-01T13:10:00');
    await start('Glue up the top');
    await later(19);
    const asked = bar().getByRole('alertdialog');
    await asked.waitFor();
    expect(await words(asked)).toMatch(
      /You started Glue up the top yesterday at 13:1\d\. How long did it take\?/,
    );
    expect(
      await asked.getByRole('button', { name: /^Until 14:00 that day: (49|50) min$/ }).count(),
    ).toBe(1);
    await page.getByRole('button', { name: 'Days and hours' }).click();
    // Nothing was written yet.
    expect(await words(rowOf('Glue up the top'))).toBe('Glue up the top 2.25 h');
    await asked.getByLabel('It took').fill('a while');
    await asked.getByRole('button', { name: 'Write it down' }).click();
    await asked
      .getByText('"a while" is no time that was worked. Type it as 2 h, 90 min or 1 h 30 min.')
      .waitFor();
    await asked.getByLabel('It took').fill('1 h 30 min');
    await asked.getByRole('button', { name: 'Write it down' }).click();
    await expect
      .poll(() => words(rowOf('Glue up the top')))
      .toBe('Glue up the top 2.25 h 1.5 h begun');
    await activity(page, 'Workbook');
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Hours worked').click();
    // On the day on which it was started.
    expect(await words(page.locator('.ag-row', { hasText: 'Glue up the top' }))).toMatch(
      /1 Mar 2027|3\/1\/2027|2027-03-01/,
    );
  });

  it('that ran longer than one works can be left out', async () => {
    await benchAt('2027-03-01T02:00:00');
    await start('Glue up the top');
    await later(11);
    const asked = bar().getByRole('alertdialog');
    expect(await words(asked)).toContain('today at 02:0');
    expect(await words(asked)).toContain('The clock ran on for 11 h');
    await asked.getByRole('button', { name: 'Do not count it' }).click();
    await bar().getByRole('button', { name: 'Start the clock' }).waitFor();
    expect(await words(bar())).toContain('Nothing was written down for Glue up the top.');
    expect(await atHand.page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
  });
});

/** Writes hours of an operation down by hand. */
async function write(name: string, hours: string, { spent = '' } = {}): Promise<void> {
  const form = took().getByRole('form', { name: 'Write down hours' });
  await form.getByLabel('Operation').selectOption({ label: name });
  await form.getByLabel('Hours', { exact: true }).fill(hours);
  await form.getByLabel('Spent, as receipts say').fill(spent);
  await form.getByLabel('It is done').check();
  await form.getByRole('button', { name: 'Write it down' }).click();
  await form.getByText(`Written down for ${name}.`).waitFor();
}

const nextJob = async (maker: Maker, name: string): Promise<void> => {
  await maker.untilSaved();
  await maker.saveAsAndOpen(name);
  await command(maker.page, 'Days and hours');
  await took().waitFor();
};

describe('hours that are typed', () => {
  it('stand beside the estimate with what was paid, and what cannot be read is said', async () => {
    await command(atHand.page, 'Days and hours');
    const form = took().getByRole('form', { name: 'Write down hours' });
    await form.getByRole('button', { name: 'Write it down' }).click();
    await form.getByText('Type how long it took, or what was paid for it.').waitFor();
    await write('Make the base', '11 h', { spent: '42.50' });
    expect(await words(rowOf('Make the base'))).toBe('Make the base 9 h 11 h +2 h $42.50 done');
    expect(await words(took().locator('tfoot'))).toContain('+2 h in what is done $42.50');
  });

  it('make the averages that are offered at the next estimate and taken by a press', async () => {
    const { page, maker } = atHand;
    await command(page, 'Days and hours');
    await write('Make the base', '4 h');
    await nextJob(maker, 'Second table');
    await write('Make the base', '7 h');
    await nextJob(maker, 'Third table');
    // What the third was copied with is its own: the second has four hours of the first and seven of its own.
    await write('Make the base', '1 h');
    await nextJob(maker, 'Fourth table');
    // The built-in one has the same name; the list of this device comes later than that.
    const list = await maker.workbooks();
    await list.getByRole('button', { name: 'Open: Dining table', exact: true }).first().click();
    await page.locator('.top-title', { hasText: 'Dining table' }).waitFor();
    await command(page, 'Days and hours');
    await took()
      .getByText(/You took/)
      .first()
      .waitFor();
    expect(await words(rowOf('Make the base'))).toMatch(
      /You took 4 h on average over 2 jobs, 1 h to 7 h\./,
    );
    expect(await words(rowOf('Make the base'))).toContain('Make the base 9 h 4 h −5 h done');
    await rowOf('Make the base')
      .getByRole('button', { name: 'Take 4 h, 1 h to 7 h for Make the base' })
      .click();
    await expect.poll(() => words(rowOf('Make the base'))).toContain('Make the base 4 h');
    // With a least and a most it can be told how likely the day is.
    await page.getByText(/In .* of 10,000 tries/).waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => words(rowOf('Make the base'))).toContain('Make the base 9 h');
  });
});
