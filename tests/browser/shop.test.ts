import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { type PrintedPage, printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** From parts to sawdust: drawing, cut list, plans and the paper that goes to the bench. */

const atHand = withMaker();
const MOD = 'ControlOrMeta';

const shop = () => atHand.page.getByRole('dialog', { name: 'Shop sheets' });
const openShop = async () => {
  await atHand.page.getByRole('button', { name: 'Shop sheets' }).click();
  await shop().locator('.page').first().waitFor();
};
const textOf = (pages: readonly PrintedPage[]): string => pages.map(({ text }) => text).join(' ');

/** Chooses one sheet alone. */
async function only(sheet: string): Promise<void> {
  for (const tick of await shop().locator('fieldset').last().getByRole('checkbox').all()) {
    await tick.uncheck();
  }
  await shop().getByLabel(sheet, { exact: true }).check();
}

describe('the dining table', () => {
  it('redraws every view, the cut list, the plan and the sheets when its length changes', async () => {
    const { maker, page } = atHand;
    await maker.type('top_length', '96');
    await maker.drawn('plan', 96);
    await maker.drawn('front', 96);
    const apron = await maker.length('apron_long');
    await maker.toSheet(maker.place('top_length').sheet);
    // What the drawing writes is what the cells say.
    const written = (view: string) =>
      page
        .locator(`.kb-${view} .kb-text`)
        .evaluateAll((all) => all.flatMap((one) => (one.textContent ?? '').split(/\s*\n\s*/)));
    await expect.poll(() => written('plan')).toContain('96');
    expect(await written('front')).toContain(String(apron));

    await openShop();
    await only('Cut list');
    expect(textOf(await printed(page))).toMatch(new RegExp(`Long apron 2 1 1/2 3 1/2 ${apron} `));
    await only('Cutting plan');
    const cutting = textOf(await printed(page));
    expect(cutting).toContain(`Long apron ${apron}`);
    expect(cutting.match(/Top, board 97/g)).toHaveLength(8);
    expect(cutting).toMatch(/proven: no plan of this stock costs less|at most [\d.]+ % above/);
    await only('Buying list');
    expect(textOf(await printed(page))).toMatch(/4 Leg blank, 36 in/);
  });

  it('prints every sheet on Letter and A4, within the margins, cautions where they belong', async () => {
    const { page } = atHand;
    await openShop();
    for (const [paper, width] of [
      ['US Letter', 215.9],
      ['A4', 210],
    ] as const) {
      await shop().getByLabel(paper).check();
      const pages = await printed(page);
      expect(pages.length).toBe(await shop().locator('.page').count());
      for (const one of pages) {
        expect(one.width).toBeCloseTo(width, 0);
        for (const { x, width: wide, text } of one.words) {
          expect([text, x > 12.5 && x + wide < width - 12.5]).toEqual([text, true]);
        }
      }
      const all = textOf(pages);
      for (const title of [
        'Drawing',
        'Cut list',
        'Buying list',
        'Cutting plan',
        'Glue-up',
        'Fasteners of the top',
        'Finish',
        'Part labels',
      ]) {
        expect(all).toContain(title);
      }
      for (const caution of [
        'Blade guard and riving knife on.',
        'Set a stop on the drill',
        'Rags with drying oil set themselves on fire',
        'Let no offcut bind',
      ]) {
        expect(all).toContain(caution);
      }
    }
  });

  it('prints labels at true size, to half a millimetre', async () => {
    await openShop();
    await only('Part labels');
    const [first] = await printed(atHand.page);
    const place = (text: string) => first?.words.filter((one) => one.text.startsWith(text)) ?? [];
    const [left, right] = place('Top, board');
    // Labels are 60 mm wide and 26 mm high, edge to edge.
    expect((right?.x ?? 0) - (left?.x ?? 0)).toBeCloseTo(60, 0);
    const rows = place('Top, board').map(({ y }) => y);
    const step = Math.max(...rows) - (rows.filter((y) => y < Math.max(...rows) - 5)[0] ?? 0);
    expect(Math.abs(step - 26)).toBeLessThan(0.5);
    expect(Math.abs((right?.x ?? 0) - (left?.x ?? 0) - 60)).toBeLessThan(0.5);
  });

  it('is turned and moved apart, brought nearer, and saved for drafting programs', async () => {
    const { page } = atHand;
    const whole = page.locator('.whole-turn');
    const seen = () => whole.locator('svg').innerHTML();
    await whole.scrollIntoViewIfNeeded();
    // A press on a piece goes to its row, where every piece of it is marked.
    await whole.locator('[data-part]').first().dispatchEvent('click');
    await expect
      .poll(() => page.locator('.sheet-list [aria-current]').textContent())
      .toContain('Parts');
    await expect.poll(() => whole.locator('.is-current').count()).toBeGreaterThan(0);
    const before = await seen();
    const box = await whole.boundingBox();
    await page.mouse.move((box?.x ?? 0) + 100, (box?.y ?? 0) + 100);
    await page.mouse.down();
    await page.mouse.move((box?.x ?? 0) + 180, (box?.y ?? 0) + 110, { steps: 4 });
    await page.mouse.up();
    await expect.poll(seen).not.toBe(before);
    const turned = await seen();
    await whole.press('ArrowLeft');
    await expect.poll(seen).not.toBe(turned);
    expect(await whole.locator('.kb-trace').count()).toBe(0);
    await page.getByLabel('Moved apart').check();
    await expect.poll(() => whole.locator('.kb-trace').count()).toBeGreaterThan(0);

    await page.getByRole('button', { name: 'Larger' }).click();
    const large = page.locator('.near-and-far');
    const frame = () => large.locator('svg').getAttribute('viewBox');
    const all = await frame();
    await page.getByRole('button', { name: 'Nearer' }).click();
    await expect.poll(frame).not.toBe(all);
    await page.getByRole('button', { name: 'All of it' }).click();
    await expect.poll(frame).toBe(all);
    await page.getByLabel('Movement over the seasons').check();
    await expect.poll(() => words(large)).toContain('movement shown 10 times as large');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as DXF' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('dining-table.dxf');
    expect(readFileSync(await download.path(), 'utf8')).toMatch(/SECTION\r?\n/);
  });

  it('is ticked off at the bench, and that survives a reload', async () => {
    const { page, maker } = atHand;
    const open = () => page.getByRole('button', { name: 'At the bench' }).click();
    const bench = page.getByRole('dialog', { name: 'At the bench' });
    await open();
    const more = bench.getByRole('button', { name: 'One more of Leg, left cut' });
    await more.click();
    await more.click();
    expect(await more.isDisabled()).toBe(true);
    await bench.getByRole('button', { name: 'One more of Long apron cut' }).click();
    await bench.getByRole('button', { name: 'One less of Long apron' }).click();
    await expect.poll(() => words(bench)).toContain('2 of 18 pieces cut');
    await page.reload();
    await maker.ready();
    await open();
    await expect.poll(() => words(bench)).toContain('2 of 18 pieces cut');
    await bench.getByRole('button', { name: 'Back to the workbook' }).click();
    // Another size is another piece.
    await maker.type('table_height', '29');
    await open();
    await expect.poll(() => words(bench)).toContain('0 of 18 pieces cut');
    expect(await words(bench)).toContain(
      'Ticked before at sizes the workbook no longer has: 1 line.',
    );
  });
});

describe('what no board is long enough for', () => {
  it('stands in a frame at the top of every page it concerns, and nothing is proven in all', async () => {
    const { maker, page } = atHand;
    await maker.type('top_length', '160');
    await openShop();
    expect(await words(shop().locator('.paper-choices'))).toContain('Top, board, 8 pieces');
    for (const sheet of ['Buying list', 'Cutting plan', 'Cut list']) {
      await only(sheet);
      const [first] = await printed(page);
      expect(first?.text).toContain('Top, board is 161 long; the longest board');
    }
    await only('Buying list');
    const buying = textOf(await printed(page));
    expect(buying).toContain('this is not what all of it costs');
    expect(buying).not.toContain('proven');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'At the bench' }).click();
    expect(await words(page.getByRole('dialog', { name: 'At the bench' }))).toContain(
      'The cutting plan has no board for it',
    );
  });
});

describe('a workbook begun empty', () => {
  /** Types lines of cells, a Tab between cells. */
  async function typeRows(rows: readonly (readonly string[])[]): Promise<void> {
    for (const row of rows) {
      for (const [i, text] of row.entries()) {
        if (text !== '') await atHand.page.keyboard.type(text);
        if (i + 1 < row.length) await atHand.page.keyboard.press('Tab');
      }
      await atHand.page.keyboard.press('Enter');
    }
  }

  it('gets drawing, cut list, plan and sheets from a parts table of nine parts', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await page.getByRole('button', { name: 'New empty workbook' }).click();
    await page.getByLabel('Its name').fill('Bench');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.book-title', { hasText: 'Bench' }).waitFor();
    await page.getByRole('button', { name: 'New table' }).click();
    await page.getByRole('button', { name: 'Begin a parts table' }).click();
    await page.getByRole('button', { name: /^Parts/ }).waitFor();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A4');
    // An invented bench: four legs, two long and two short rails, a seat; seats and legs of pine.
    await typeRows([
      [
        'Seat',
        '1',
        '1 1/2',
        '14',
        '48',
        'pine',
        'length',
        '0',
        '0',
        '16',
        '',
        '',
        '',
        'LWT',
        '3',
        '5',
      ],
      ['Leg 1', '1', '2', '2', '16', 'pine', 'length', '2', '1', '0', '', '', '', 'WTL'],
      ['Leg 2', '1', '2', '2', '16', 'pine', 'length', '44', '1', '0', '', '', '', 'WTL'],
      ['Leg 3', '1', '2', '2', '16', 'pine', 'length', '2', '11', '0', '', '', '', 'WTL'],
      ['Leg 4', '1', '2', '2', '16', 'pine', 'length', '44', '11', '0', '', '', '', 'WTL'],
      ['Rail 1', '1', '3/4', '3', '40', 'pine', 'length', '4', '1', '12', '', '', '', 'LTW'],
      ['Rail 2', '1', '3/4', '3', '40', 'pine', 'length', '4', '12 1/4', '12', '', '', '', 'LTW'],
      ['End 1', '1', '3/4', '3', '8', 'pine', 'length', '2', '3', '12', '', '', '', 'TLW'],
      ['End 2', '1', '3/4', '3', '8', 'pine', 'length', '44', '3', '12', '', '', '', 'TLW'],
    ]);
    await maker.drawn('plan', 48);
    expect(await page.locator('.kb-front .kb-piece').count()).toBe(9);
    await page.getByRole('button', { name: 'New table' }).click();
    await page.getByRole('button', { name: 'Begin a stock table' }).click();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A5');
    await typeRows([
      ['Board 2x6, 8 ft', 'pine', '1 1/2', '5 1/2', '8 ft', '12'],
      ['Square 2, 6 ft', 'pine', '2', '2', '72', '9'],
      ['Board 1x4, 8 ft', 'pine', '3/4', '3 1/2', '96', '7'],
    ]);
    // The saw's cut is asked for, on the screen and on paper, and nothing is proven without it.
    await openShop();
    expect(await words(shop())).toContain("How wide is your saw's kerf? Type it in Stock!B3.");
    await only('Cutting plan');
    const blank = textOf(await printed(page));
    expect(blank).toContain("How wide is your saw's kerf?");
    expect(blank).not.toContain('proven');
    await page.keyboard.press('Escape');
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Stock').click();
    await page.locator('.ag-row[row-id="2"] [aria-colindex="3"]').click();
    await page.keyboard.type('1/8');
    await page.keyboard.press('Enter');
    await openShop();
    const says = await words(shop());
    expect(says).not.toContain('kerf?');
    expect(says).not.toContain('Left out');
    await only('Cut list');
    const cut = textOf(await printed(page));
    expect(cut).toContain('11 pieces.');
    expect(cut).toMatch(/Seat, board 3 1 1\/2 5 48 pine/);
    await only('Cutting plan');
    const plan = textOf(await printed(page));
    // Three boards of 48 in: with a kerf between them, no two go in a board of 8 ft.
    expect(plan).toContain('proven: no plan of this stock costs less');
    for (const part of ['Seat, board', 'Leg 1', 'Leg 4', 'Rail 2', 'End 1']) {
      expect(plan).toContain(part);
    }
    await only('Glue-up');
    expect(textOf(await printed(page))).toContain('3 boards 5 wide and 48 long become one panel');
    await page.keyboard.press('Escape');
    await page.keyboard.press(`${MOD}+Home`);
    await page.getByRole('button', { name: 'At the bench' }).click();
    await expect
      .poll(() => words(page.getByRole('dialog', { name: 'At the bench' })))
      .toContain('0 of 11 pieces cut');
  });
});
