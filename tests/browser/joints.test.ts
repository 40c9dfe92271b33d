import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { printed } from './support/pdf.ts';
import { onlySheets } from './support/shop-sheets.ts';
import { withMaker } from './support/with-maker.ts';

/** A bench that is joined, from nothing: parts, then a joints table, both typed by keys. */

const atHand = withMaker();

/** Begins a table on a sheet of its own; its first row is where the cursor is then. */
async function start(kind: 'parts' | 'joints'): Promise<void> {
  const { page } = atHand;
  await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
  await page.getByRole('menuitem', { name: 'New table …' }).click();
  await page
    .getByRole('dialog')
    .getByRole('button', { name: `Start a ${kind} table` })
    .click();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
  await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A4');
}

async function typeRows(rows: readonly (readonly string[])[]): Promise<void> {
  const { page } = atHand;
  for (const row of rows) {
    for (const [column, entry] of row.entries()) {
      if (entry !== '') await page.keyboard.type(entry);
      if (column + 1 < row.length) await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
  }
}

const said = () => words(atHand.page.locator('body'));

describe('a joints table typed by keys', () => {
  it('joins a bench: overlaps go, a wrong row says so, and the joints sheet follows', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await page.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Joined bench');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.top-title', { hasText: 'Joined bench' }).waitFor();
    await start('parts');
    // Between the legs are 40 and 8: the rails have tenons of 1 and of 1/2 at each end.
    await typeRows([
      ['Seat', '1', '1 1/2', '14', '48', 'pine', 'length', 'on Leg'],
      ['Leg', '4', '2', '2', '16', 'pine', 'length', 'four corners of Seat', '2', '1'],
      [
        'Rail',
        '2',
        '3/4',
        '3',
        '42',
        'pine',
        'length',
        'between Leg along, front and back, under Seat',
      ],
      [
        'End',
        '2',
        '3/4',
        '3',
        '9',
        'pine',
        'length',
        'between Leg across, left and right, under Seat',
      ],
    ]);
    await expect.poll(() => page.locator('.kb-plan .kb-piece').count()).toBe(9);
    await expect.poll(said).toMatch(/Rail and Leg share|Leg and Rail share/);

    await start('joints');
    await typeRows([
      ['mortise and tenon', 'Rail', 'Leg'],
      ['mortise and tenon', 'End', 'Lag'],
    ]);
    // The good row is joined; the wrong one is told, with what was meant.
    await expect.poll(said).toContain('No part is called "Lag". Nearest: "Leg".');
    await expect.poll(said).not.toMatch(/Rail and Leg share|Leg and Rail share/);
    expect(await said()).toMatch(/End and Leg share|Leg and End share/);

    await maker.cellAt({ sheet: '', row: 4, column: 2 }).click();
    await page.keyboard.type('Leg');
    await page.keyboard.press('Enter');
    await expect.poll(said).not.toMatch(/No part is called|share/);
    await expect.poll(() => page.locator('.kb-plan .kb-piece').count()).toBe(9);

    await onlySheets(page, 'Joints');
    const sheet = (await printed(page)).map(({ text }) => text).join(' ');
    // A tenon of 3/4 stock is a third as thick; two thirds of the rail as wide.
    expect(sheet).toMatch(/Tenon for Leg/);
    expect(sheet).toMatch(/Mortise for Rail/);
    expect(sheet).toMatch(/Mortise for End/);
    expect(sheet).not.toContain('Look at these first');
    // Each joint cut open above the lists, once for all the legs.
    expect(sheet.match(/Leg and (?:rail|end): mortise and tenon, full size/g)).toHaveLength(2);
  });
});
