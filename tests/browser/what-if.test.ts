import { shopPlan } from '@kerfbook/drawing';
import { shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { complaintsOf } from './support/app.ts';
import { violations } from './support/axe.ts';
import { activity, command, shippedTable, words } from './support/maker.ts';
import { CHARTS, writeVariant } from './support/what-if.ts';
import { withMaker } from './support/with-maker.ts';

/** Questions about many sizes at once: asked, answered beside the page, and taken into the workbook. */

const atHand = withMaker();

/** What the engine comes to for a length, shown as its cell shows it. */
function priceAt(length: number, species?: string): string {
  const book = Workbook.open(shippedTable());
  const enter = (name: string, text: string): void => {
    const at = book.find(name);
    if (at === undefined) throw new Error(name);
    const { sheet, row, column } = at;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  };
  enter('top_length', String(length));
  if (species !== undefined) enter('species', species);
  return book.named('price')?.shown.text ?? '';
}

async function begin(kind: RegExp): Promise<void> {
  const { page } = atHand;
  await activity(page, 'What if');
  await page.getByRole('button', { name: kind }).click();
  await page.locator('.whatif-study').waitFor();
}

describe('a study', () => {
  it('over lengths says what each comes to, stays in the workbook, and gives it one', async () => {
    const { page, maker } = atHand;
    await begin(/^Results over inputs/);
    const becomes = page.getByLabel('What it becomes');
    await becomes.fill('72, 84, 96');
    await becomes.press('Enter');
    const row = page.locator('.whatif-table tbody tr', { hasText: '96 in' });
    await row.waitFor();
    expect(await words(row)).toContain(priceAt(96));
    expect(await page.locator('.whatif-chart svg').count()).toBe(1);
    await row.getByRole('button', { name: 'Take it: 96 in' }).click();
    await activity(page, 'Workbook');
    expect(await maker.shows('top_length')).toBe('96');
    expect(await maker.shows('price')).toBe(priceAt(96));
    await maker.comeBack();
    await activity(page, 'What if');
    await page.getByRole('button', { name: 'Results over inputs', exact: true }).waitFor();
    expect(await page.getByLabel('What it becomes').inputValue()).toBe('72, 84, 96');
  });

  it('over lengths and woods is shaded, and a cell of it is taken', async () => {
    const { page, maker } = atHand;
    await begin(/^Results over inputs/);
    await page.getByLabel('What it becomes').fill('72, 96');
    await page.getByLabel('What it becomes').press('Enter');
    await page.getByLabel('Add an input').selectOption('species');
    const second = page.getByLabel('What it becomes').nth(1);
    await second.fill('white oak, black walnut');
    await second.press('Enter');
    const cell = page.locator('.whatif-heat tbody tr').nth(1).locator('.whatif-cell').nth(0);
    await expect.poll(() => words(cell)).toContain(priceAt(96, 'white oak'));
    await cell.click();
    await page.getByRole('button', { name: 'Take it: 96 in, white oak' }).click();
    await activity(page, 'Workbook');
    expect(await maker.shows('species')).toBe('white oak');
    expect(await maker.shows('top_length')).toBe('96');
  });

  it('that seeks says how far it goes, and refuses what is calculated with a sentence', async () => {
    const { page } = atHand;
    await begin(/^Find an input/);
    const becomes = page.getByLabel('What it becomes');
    await becomes.fill('72..96 /4');
    await becomes.press('Enter');
    const goal = page.getByLabel(/^A result and what it should be/);
    await goal.fill('price at most 3900');
    await goal.press('Enter');
    const answer = page.locator('.whatif-answer');
    await expect.poll(() => words(answer)).toMatch(/Length of the top from 72 in to 8\d in: Price/);
    await goal.fill('prise at most 3900');
    await goal.press('Enter');
    await expect
      .poll(() => words(page.locator('.whatif-form [role="alert"]')))
      .toContain('Did you mean price');
    expect(await answer.locator('.whatif-table').count()).toBe(0);
  });

  it('can be stopped, says how far it came, and axe finds nothing on its page', async () => {
    const context = await atHand.page.context().browser()?.newContext({ bypassCSP: true });
    const page = await context?.newPage();
    if (context === undefined || page === undefined) throw new Error('no page');
    const complaints = complaintsOf(page);
    await page.goto(atHand.page.url());
    await page.locator('.ag-row .ag-cell').first().waitFor();
    await activity(page, 'What if');
    await page.getByRole('button', { name: /^What is uncertain/ }).click();
    const stop = page.getByRole('button', { name: 'Stop' });
    const many = page.getByLabel('How many');
    await many.fill('400000');
    await many.press('Enter');
    // The tries of before are let go of first.
    await page.locator('.whatif-progress', { hasText: /[1-9].* of 400,000/ }).waitFor();
    await stop.click();
    await page.locator('.whatif-answer', { hasText: /tries, seed 1/ }).waitFor();
    expect(await page.locator('.whatif-chart svg').count()).toBe(2);
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('of variants stands beside the workbook as it is', async () => {
    const { page } = atHand;
    expect(shopTableEdit(Workbook.open(shippedTable()), 'variants')).toBeDefined();
    await writeVariant(atHand.maker);
    const table = page.locator('.whatif-table');
    await expect.poll(() => words(table)).toContain(priceAt(96));
    expect(await words(table)).toContain(priceAt(84));
    // In the shop: drawn, with the parts that differ from those of the workbook as it stands.
    const [stands, oak] = ['As it stands', 'Oak, 8 ft'].map((name) =>
      page.locator('.whatif-shop > li').filter({ has: page.getByRole('heading', { name }) }),
    );
    if (stands === undefined || oak === undefined) throw new Error('no variants');
    await expect.poll(() => words(oak)).toMatch(/Long apron: 2 of \S.* → 2 of \S/);
    const long = Workbook.open(shippedTable());
    const at = long.find('top_length');
    if (at === undefined) throw new Error('no length');
    const { sheet, row, column } = at;
    long.apply({ do: 'enter', sheet, cells: [{ row, column, text: '96' }] });
    const boards = (book: Workbook): number =>
      (shopPlan(book, 'cell').plan?.groups ?? [])
        .flatMap(({ buy }) => buy)
        .reduce((all, { stock, count }) => all + (stock.price > 0 ? count : 0), 0);
    expect(await words(oak)).toContain(`${boards(long)} boards to buy`);
    expect(await words(stands)).toContain(`${boards(Workbook.open(shippedTable()))} boards to buy`);
    expect(await words(oak)).not.toContain('Leg:');
    expect(await page.locator('.whatif-shop svg').count()).toBe(2);
    expect(await violations(page)).toEqual([]);
  });
});

describe('the charts', () => {
  it('say the year and the price as the cells do, on paper too, and axe finds nothing on them', async () => {
    const { page, maker } = atHand;
    await command(page, CHARTS);
    await page.locator('.whatif-chart svg').nth(2).waitFor();
    const book = Workbook.open(shippedTable());
    const shown = (name: string): string => book.named(name)?.shown.text ?? `no ${name}`;
    const row = async (says: string): Promise<string> =>
      words(
        page.locator('.whatif-table tr', {
          has: page.getByRole('rowheader', { name: says, exact: true }),
        }),
      );
    expect(await row('Dry season')).toContain(shown('movement_from_build_dry'));
    expect(await row('Humid season')).toContain(shown('movement_from_build_humid'));
    expect(await row('Long aprons')).toContain(shown('fastener_need_long'));
    expect(await row('Wood')).toContain(shown('cost_wood'));
    expect(await row('Material')).toContain(shown('cost_material'));
    expect(await row('Profit')).toContain(shown('profit_money'));
    expect(await row('Price before tax')).toContain(shown('price'));
    // Drawn with the same numbers: each bar has its amount beside it.
    const price = page.getByRole('img', { name: /^What the price of/ });
    expect(await price.textContent()).toContain(shown('cost_wood'));
    expect(await price.getAttribute('aria-label')).toContain(`Profit ${shown('profit_money')}`);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await violations(page), colorScheme).toEqual([]);
    }
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.whatif-list').isVisible()).toBe(false);
    expect(await price.isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await activity(page, 'Workbook');
    await maker.type('top_length', '96');
    await command(page, CHARTS);
    await expect.poll(() => row('Price before tax')).toContain(priceAt(96));
    await maker.untilSaved();
    await page.reload();
    await expect.poll(() => row('Price before tax')).toContain(priceAt(96));
  });
});
