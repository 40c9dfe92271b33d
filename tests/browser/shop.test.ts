import { describe, expect, it } from 'vitest';
import { jobOf, jobsPage } from './support/jobs.ts';
import { activity, words } from './support/maker.ts';
import { holdPages } from './support/pages.ts';
import { type PrintedPage, printed } from './support/pdf.ts';
import { withMaker } from './support/with-maker.ts';

/** From parts to sawdust: drawing, cut list, plans and the paper that goes to the bench. */

const atHand = withMaker({ shared: true });
const MOD = 'ControlOrMeta';

const shop = () => atHand.page.locator('.paper-view');
const openShop = async () => {
  await activity(atHand.page, 'Shop sheets');
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
    await page.getByRole('button', { name: 'Front view' }).click();
    await expect.poll(() => written('front')).toContain(String(apron));

    await openShop();
    await only('Cut list');
    expect(textOf(await printed(page))).toMatch(new RegExp(`Long apron 2 1 1/2 3 1/2 ${apron} `));
    await only('Cutting plan');
    const cutting = textOf(await printed(page));
    expect(cutting).toContain(`Long apron ${apron} × 3 1/2`);
    // Crosscut, then the rip beside it, and what it gives.
    expect(cutting).toMatch(new RegExp(`${apron} 3 1/2 Long apron`));
    expect(cutting).toMatch(/97 5 5\/16 Top, board/);
    expect(cutting).toMatch(
      /Proven cheapest cut this way\.|At most [\d.]+ % above the cheapest cut this way\./,
    );
    expect(cutting).not.toContain('$');
    await shop().getByLabel('With prices').check();
    expect(textOf(await printed(page))).toMatch(/\$[\d,.]+, (proven|at most)/);
    await shop().getByLabel('With prices').uncheck();
    await only('Buying list');
    expect(textOf(await printed(page))).toMatch(/4 Leg blank 3 5\/8 × 3 5\/8 × 36/);
  });

  it('prints every sheet on Letter and A4, within the margins, cautions where they belong', async () => {
    const { page } = atHand;
    await openShop();
    for (const [paper, width] of [
      ['US Letter', 215.9],
      ['A4', 210],
    ] as const) {
      await shop().getByLabel(paper).check();
      for (const lies of ['Landscape', 'Portrait']) {
        await shop().getByLabel(lies).check();
        holdPages(await printed(page), 'Dining table');
      }
      const pages = await printed(page);
      expect(pages.length).toBe(await shop().locator('.page').count());
      for (const one of pages) expect(one.width).toBeCloseTo(width, 0);
      // At the scale that is written: 1/2 in for a foot is a 24th, and 84 in are 3 1/2 in.
      expect(textOf(pages)).toContain('Top, sizes in inches, 1/2 in = 1 ft');
      const wide = await shop()
        .locator('.pages > .page .kb-plan')
        .evaluate((svg: SVGSVGElement) => {
          const { width: px } = svg.getBoundingClientRect();
          return (px * 25.4) / 96 / svg.viewBox.baseVal.width;
        });
      expect(wide).toBeCloseTo(1 / 24, 4);
      const all = textOf(pages);
      for (const title of [
        'Drawing',
        'Cut list',
        'Buying list',
        'Cutting plan',
        'Glue-up',
        'Top fasteners',
        'Finish',
        'Part labels',
      ]) {
        expect(all).toContain(title);
      }
      for (const caution of [
        'Blade guard and riving knife on.',
        'Set a stop on the drill',
        'Rags with drying oil can catch fire by themselves',
        'Let no offcut bind',
      ]) {
        expect(all).toContain(caution);
      }
    }
  });

  /** The page for the customer as it is looked at now. */
  const preview = () => shop().frameLocator('.customer-frame').locator('main.paper');
  /** The same on paper, read back. */
  async function onPaper(): Promise<readonly PrintedPage[]> {
    const { page } = atHand;
    const html = await shop().locator('.customer-frame').getAttribute('srcdoc');
    const alone = await page.context().newPage();
    await alone.setContent(html ?? '');
    const pages = await printed(alone);
    await alone.close();
    return pages;
  }

  it('gives the customer a quote with the price, and nothing of what it costs to make', async () => {
    const { maker } = atHand;
    const amount = async (name: string) => (await maker.shows(name)).replace(/^≈ /, '');
    const price = await amount('price');
    const perSeat = await amount('price_per_seat');
    const secrets = [perSeat, await amount('cost_total')];
    await openShop();
    await shop().getByLabel('For the customer').check();
    await preview().getByText(price).waitFor();
    const pages = await onPaper();
    const text = textOf(pages);
    for (const line of [
      'Length 84 in (7 ft)',
      'Width 42 in (3 ft 6 in)',
      'Height 30 in (2 ft 6 in)',
      'Wood',
      'Finish',
      'Not included',
      'Valid until',
      price,
    ]) {
      expect(text).toContain(line);
    }
    for (const secret of secrets) expect(text).not.toContain(secret);
    expect(text).not.toMatch(/cost|profit|margin|overhead|labou?r|rate|mark-up|common practice/i);
    const sizes = pages.flatMap(({ words: all }) => all.map(({ size }) => size));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(8.95);
    // What was chosen is remembered for this workbook.
    await shop().getByLabel('Deposit', { exact: true }).uncheck();
    await expect.poll(() => words(preview())).not.toContain('Deposit');
    await activity(atHand.page, 'Workbook');
    await openShop();
    await shop().getByLabel('For the customer').check();
    await preview().waitFor();
    await expect.poll(() => words(preview())).not.toContain('Deposit');
    await shop().getByLabel('Deposit', { exact: true }).check();
    await preview().getByText('Deposit, due with the order').waitFor();
  });

  it('keeps what was sent as it was, under its number, and reckons a receipt from it', async () => {
    const { page, maker } = atHand;
    const list = shop().locator('.customer-sent');
    const forCustomer = async () => {
      await openShop();
      await shop().getByLabel('For the customer').check();
      await preview().waitFor();
    };
    await forCustomer();
    await preview().getByText('84 in (7 ft)').waitFor();
    await shop().getByRole('button', { name: 'Keep as sent' }).click();
    const newest = list.getByRole('button').first();
    await newest.waitFor();
    const quote = (await words(newest)).replace(/,.*/, '');
    expect(quote).toMatch(/^Quote \d+$/);
    await preview().getByText(quote, { exact: true }).waitFor();
    const sent = await words(preview());
    // Another size makes another quote, and leaves the one that was sent.
    await activity(page, 'Workbook');
    await maker.type('top_length', '90');
    await forCustomer();
    await preview().getByText('90 in (7 ft 6 in)').waitFor();
    await list.getByRole('button', { name: `${quote}, ` }).click();
    await preview().getByText('84 in (7 ft)').waitFor();
    expect(await words(preview())).toBe(sent);
    expect(await shop().getByRole('button', { name: 'Keep as sent' }).isDisabled()).toBe(true);
    const file = page.waitForEvent('download');
    await shop().getByRole('button', { name: 'Save as file' }).click();
    expect((await file).suggestedFilename()).toMatch(/^quote-\d+-dining-table\.html$/);
    await shop().getByLabel('Receipt').check();
    await shop().getByLabel('Paid').fill('100');
    await preview().getByText('Received $100.00').waitFor();
    await shop().getByRole('button', { name: 'Keep as sent' }).click();
    await preview()
      .getByText(/^Receipt \d+$/)
      .waitFor();
    const receipt = (await words(newest)).replace(/,.*/, '');
    expect(Number(receipt.replace(/\D/g, ''))).toBe(Number(quote.replace(/\D/g, '')) + 1);
    await shop().getByRole('button', { name: 'Back' }).click();
    await preview().getByText(receipt.toLowerCase()).waitFor();
    await shop().getByLabel('Care note').check();
    await preview().getByText('Keep the air between 25 % and 60 % humidity').waitFor();
    // The list of jobs takes it off what is still to come in.
    const jobs = await jobsPage(maker);
    await jobs.getByRole('button', { name: 'Make it a job' }).click();
    const money = jobOf(jobs, 'Dining table').locator('td.jobs-money');
    await expect
      .poll(() => words(money), { timeout: 60_000 })
      .toMatch(/\$100\.00 paid, \$[\d,.]+ to come/);
    const [price, , rest] = (await words(money)).match(/\$[\d,]+\.\d\d/g) ?? [];
    const cents = (text = ''): number => Number(text.replaceAll(/\D/g, ''));
    expect(cents(rest)).toBe(cents(price) - 10_000);
    expect(await words(jobs.locator('.jobs-sums'))).toContain(`${rest} to come, $100.00 paid`);
    await activity(page, 'Workbook');
    await maker.type('top_length', '84');
  });

  it('hands out no price unawares that lacks the wood of a part', async () => {
    const { maker, page } = atHand;
    const warning = () => shop().getByText('the price may lack the wood of these');
    await openShop();
    await shop().getByLabel('For the customer').check();
    expect(await warning().count()).toBe(0);
    await activity(page, 'Workbook');
    await maker.type('top_length', '160');
    await openShop();
    await shop().getByLabel('For the customer').check();
    await warning().waitFor();
    expect(await words(shop().locator('.shop-left-out'))).toContain('Top, board, 8 pieces');
    // It is for the maker alone: the page says nothing of it.
    expect(await words(preview())).not.toMatch(/may lack|stock table/);
  });

  it('writes as large on a page that lies on its side, with four labels beside each other', async () => {
    const { page } = atHand;
    await openShop();
    const sizes = new Map<string, Set<number>>();
    for (const lies of ['Portrait', 'Landscape']) {
      await shop().getByLabel(lies).check();
      for (const { words: on } of await printed(page)) {
        for (const { text, size } of on) {
          if (!/^1: Long apron|^29 1\/2$/.test(text)) continue;
          sizes.set(text, (sizes.get(text) ?? new Set()).add(Math.round(size * 10) / 10));
        }
      }
    }
    expect(sizes.size).toBe(2);
    for (const [text, found] of sizes) {
      expect(Math.max(...found) - Math.min(...found), text).toBeLessThan(0.5);
    }
    await only('Part labels');
    const [labels] = await printed(page);
    const [first, ...rest] = (labels?.words ?? []).filter(({ text }) => text === 'Top, board');
    const across = [first, ...rest].filter((one) => Math.abs((one?.y ?? 0) - (first?.y ?? 0)) < 1);
    expect(across).toHaveLength(4);
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

  it('is ticked off at the bench, and that survives a reload', async () => {
    const { page, maker } = atHand;
    const open = () => activity(page, 'Bench list');
    const bench = page.locator('.bench-view');
    await open();
    for (const which of [1, 2, 3, 4]) {
      await bench.getByLabel(new RegExp(`^Leg ${which} of 4`)).check();
    }
    await bench.getByLabel(/^Long apron 1 of 2/).check();
    await bench.getByLabel(/^Long apron 1 of 2/).uncheck();
    await expect.poll(() => words(bench)).toContain('4 of 18 pieces cut');
    await page.reload();
    // It is where one comes back to.
    await expect.poll(() => words(bench)).toContain('4 of 18 pieces cut');
    await activity(page, 'Workbook');
    // Another size is another piece.
    await maker.type('table_height', '29');
    await open();
    await expect.poll(() => words(bench)).toContain('0 of 18 pieces cut');
    expect(await words(bench)).toContain(
      '4 pieces already cut are now the wrong size Leg, 4 cut at 28 1/2 long, now 27 1/2',
    );
  });
});

describe('what no board is long enough for', () => {
  it('stands in a frame at the top of every page it concerns, and nothing is proven in all', async () => {
    const { maker, page } = atHand;
    await maker.type('top_length', '160');
    await openShop();
    expect(await words(shop().locator('.paper-notes'))).toContain('Top, board, 8 pieces');
    for (const sheet of ['Buying list', 'Cutting plan', 'Cut list']) {
      await only(sheet);
      const [first] = await printed(page);
      expect(first?.text).toContain('Top, board is 161 long; the longest board');
    }
    await only('Buying list');
    const buying = textOf(await printed(page));
    expect(buying).toContain('this is not all there is to buy');
    expect(buying).not.toContain('proven');
    await activity(page, 'Bench list');
    expect(await words(page.locator('.bench-view'))).toContain(
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

  it('gets drawing, cut list, plan and sheets from a parts table of nine pieces', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await page.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Bench');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.top-title', { hasText: 'Bench' }).waitFor();
    await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'New table …' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Start a parts table' }).click();
    await page.getByRole('button', { name: /^Parts/ }).waitFor();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A4');
    // An invented bench: four legs, two long and two short rails, a seat of three boards.
    await typeRows([
      ['Seat', '1', '1 1/2', '14', '48', 'pine', 'length', '', '0', '0', '16', '3', '5'],
      ['Leg', '4', '2', '2', '16', 'pine', 'length', 'four corners of Seat', '2', '1'],
      [
        'Rail',
        '2',
        '3/4',
        '3',
        '40',
        'pine',
        'length',
        'between Leg, front and back',
        '',
        '',
        '12',
      ],
      ['End', '2', '3/4', '3', '8', 'pine', 'length', 'between Leg, left and right', '', '', '12'],
    ]);
    await maker.drawn('plan', 48);
    await expect.poll(() => page.locator('.kb-front .kb-piece').count()).toBe(9);
    await page.locator('.sheet-list [aria-current]').click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'New table …' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Start a stock table' }).click();
    await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('A6');
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
    await activity(page, 'Workbook');
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
    expect(plan).toContain('Proven cheapest cut this way.');
    for (const part of ['Seat, board', 'Leg', 'Rail', 'End']) {
      expect(plan).toContain(part);
    }
    await only('Glue-up');
    expect(textOf(await printed(page))).toContain('3 boards 5 wide and 48 long become one panel');
    await activity(page, 'Workbook');
    await page.keyboard.press(`${MOD}+Home`);
    await activity(page, 'Bench list');
    await expect.poll(() => words(page.locator('.bench-view'))).toContain('0 of 11 pieces cut');
  });

  it('leads from each thing left out to its cell, by the words it goes by', async () => {
    const { maker, page } = atHand;
    await maker.toSheet('s5');
    await maker.cellAt({ sheet: '', row: 4, column: 2 }).click();
    await page.keyboard.press('Delete');
    const here = () => page.locator('.go-to input').inputValue();
    const address = await here();
    const left = page.locator('.app-page .shop-left-out');
    for (const name of ['Cut and buy', 'Shop sheets', 'Bench list']) {
      await activity(page, name);
      const go = left.getByRole('button', { name: /^Go to .+, thickness$/i });
      await go.first().click();
      await page.locator('.app-page').waitFor({ state: 'detached' });
      expect(await here()).toBe(address);
    }
  });
});
