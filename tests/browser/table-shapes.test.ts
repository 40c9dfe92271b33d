import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { printed } from './support/pdf.ts';
import { onlySheets } from './support/shop-sheets.ts';
import { withMaker } from './support/with-maker.ts';

/** The dining table that ships, shaped by its inputs alone. */

const atHand = withMaker({ shared: true });

/** Chooses in a cell with a list by typing the word. */
async function choose(name: string, word: string): Promise<void> {
  const { maker, page } = atHand;
  await maker.type(name, word);
  await page.locator('.ag-cell :is(input, textarea, select)').waitFor({ state: 'hidden' });
}

async function sheetSays(name: string): Promise<string> {
  await onlySheets(atHand.page, name);
  return (await printed(atHand.page)).map(({ text }) => text).join(' ');
}

describe('the dining table, shaped by its inputs', () => {
  it('becomes a round one on tapered legs, told on the way what is missing', async () => {
    const { maker, page } = atHand;
    await choose('top_shape', 'round');
    await expect
      .poll(() => words(maker.check('roundtop')))
      .toContain('this one is 84 in by 42 in. Type the same size for both');
    await maker.type('top_length', '54');
    await maker.type('top_width', '54');
    await expect.poll(async () => (await maker.checkStates()).roundtop).toBe('pass');
    await maker.type('overhang_end', '9');
    await maker.type('overhang_side', '9');
    await choose('leg_shape', 'tapered on two inside faces');
    await maker.type('leg_foot', '1 3/4');
    await expect
      .poll(async () => {
        const states = await maker.checkStates();
        return Object.keys(states).filter((id) => states[id] === 'stop');
      })
      .toEqual([]);
    // As seen from above, the top is no rectangle any more: its edge has far more corners than four.
    await expect
      .poll(() =>
        page
          .locator('.kb-plan .kb-piece', { hasText: /^Top,/ })
          .locator('.kb-area')
          .evaluateAll((all) =>
            all.map((one) => (one.getAttribute('d') ?? '').split('L').length > 50),
          ),
      )
      .toEqual([true]);
    const says = await sheetSays('Cut list');
    expect(says).toContain('cut round, 54 across');
    expect(says).toContain('taper the two inside faces to 1 3/4, beginning 4 1/2 from the top end');
  });

  it('gets aprons that are tenoned into its legs, marked out on the sheet of joints', async () => {
    const { maker, page } = atHand;
    await maker.type('tenon_length', '2');
    await expect
      .poll(() => words(maker.check('tenon')))
      .toContain('past 1 3/4 in their mortises meet inside the leg');
    await maker.type('tenon_length', '1 1/4');
    await expect.poll(async () => (await maker.checkStates()).tenon).toBe('pass');
    // Two rows of the joints table, filled in by themselves.
    await maker.toSheet('s11');
    for (const [row, part] of [
      [3, 'Long apron'],
      [4, 'Short apron'],
    ] as const) {
      const cell = (column: number) => words(maker.cellAt({ sheet: 's11', row, column }));
      expect(await cell(0)).toBe('mortise and tenon');
      expect(await cell(1)).toBe(part);
      expect(await cell(2)).toBe('Leg');
    }
    const says = await sheetSays('Joints');
    // Each leg has its mortises on two other faces.
    for (const said of ['Leg, front left', 'Leg, back right', 'Mortise for Long apron', 'Tenon']) {
      expect(says).toContain(said);
    }
    // 1 1/4 in and 1/8 in for glue and chips.
    expect(says).toContain('1 3/8');
    expect(await words(page.locator('body'))).not.toMatch(/run into|share /);
  });
});
