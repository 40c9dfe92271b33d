import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { oldPrices } from './old-prices.ts';

type Cell = NonNullable<BookDocument['sheets'][number]['rows'][number]['cells']>[string];
type Sketch = string | number | null | Cell;

const inches = (value: number): Cell => ({ value, quantity: 'length' });
const on = (value: number): Cell => ({ value, quantity: 'date' });

const sheet = (id: string, name: string, rows: readonly (readonly Sketch[])[]) => ({
  id,
  name,
  columns: Array.from({ length: 6 }, (_, i) => ({ id: `c${i + 1}`, width: 100 })),
  rows: rows.map((row, r) => ({
    id: `r${r + 1}`,
    cells: Object.fromEntries(
      row.flatMap((cell, i) =>
        cell === null
          ? []
          : [[`c${i + 1}`, typeof cell === 'object' ? cell : { value: cell }] as const],
      ),
    ),
  })),
});

/** Days as a cell counts them: 2025-01-01 is day 45658, so that 2025-12-09 is 46000. */
const book = (days: Sketch, rows: readonly (readonly Sketch[])[]) =>
  Workbook.open({
    kerfbook: 8,
    title: 'An invented shop',
    units: 'us',
    sheets: [
      sheet('s1', 'Stock', [
        ['stock', 'material', 'thickness', 'width', 'length', 'price'],
        ['8 ft', 'white oak', inches(2), inches(6), inches(96), 60],
        ['Sheet', 'birch plywood', inches(0.75), inches(48), inches(96), 62],
      ]),
      sheet('s2', 'Yard', [['wood', 'thickness', 'grade', 'price', 'per', 'day'], ...rows]),
      sheet('s3', 'Shop', [[days]]),
    ],
    checks: [],
    tables: [
      { id: 't1', kind: 'stock', sheet: 's1', header: 'r1', last: 'r3' },
      { id: 't2', kind: 'prices', sheet: 's2', header: 'r1', last: `r${rows.length + 1}` },
    ],
  });

const OAK: readonly Sketch[][] = [
  ['white oak', inches(1), null, 8, null, on(46000)],
  ['Quercus alba', inches(2), null, 9, null, on(46000)],
  ['white oak', null, null, 12, null, on(46000)],
  ['black walnut', inches(2), null, 12, null, on(45000)],
  ['birch plywood', inches(0.75), null, 62, 'piece', on(46100)],
  ['birch plywood', inches(0.5), null, 48, 'piece', null],
];

describe('prices that are older than a maker wishes', () => {
  it('are told by wood and day, for the woods of the stock alone', () => {
    // 2026-06-08 is day 46181: 181 after 46000, 81 after 46100.
    expect(oldPrices(book(null, OAK), '2026-06-08')).toEqual([
      'White oak, 1 in and any other thickness: the price is of 2025-12-09, 181 days ago. Here prices are old after 180 days: ask your yard again.',
      'Quercus alba, 2 in: the price is of 2025-12-09, 181 days ago. Here prices are old after 180 days: ask your yard again.',
    ]);
    expect(oldPrices(book(null, OAK), '2026-06-07')).toEqual([]);
  });

  it('are old after as many days as the maker says', () => {
    const days: Sketch = { name: 'price_days', value: 30, quantity: 'count' };
    const says = oldPrices(book(days, OAK), '2026-06-08').join(' ');
    expect(says).toContain(
      'Birch plywood, 3/4 in: the price is of 2026-03-19, 81 days ago. Here prices are old after 30 days',
    );
    expect(says).not.toContain('walnut');
    expect(says).not.toContain('1/2 in');
  });

  it('are none where a later row was asked for', () => {
    const later: readonly Sketch[][] = [
      ['white oak', inches(2), null, 9, null, on(46000)],
      ['white oak', inches(2), null, 10, null, on(46150)],
    ];
    expect(oldPrices(book(null, later), '2026-06-08')).toEqual([]);
    expect(oldPrices(book(null, later), '2027-06-08')).toHaveLength(1);
  });

  it('are none without a price list', () => {
    const none = { ...book(null, OAK).document(), tables: [] };
    expect(oldPrices(Workbook.open(none), '2030-01-01')).toEqual([]);
  });
});
