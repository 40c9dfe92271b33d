import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { FIRST_CHOICE } from './customer-choice.ts';
import { customerSheet, missingNames } from './customer-sheet.tsx';

/** A bench of one board as a maker begins it: a parts table, and no cell with a name. */
const BENCH: BookDocument = {
  kerfbook: 5,
  title: 'Bench',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Parts',
      columns: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7', 'c8', 'c9'].map((id) => ({ id })),
      rows: [
        line('r1', ['part', 'count', 'thickness', 'width', 'length', 'material', 'x', 'y', 'z']),
        line('r2', ['Seat', 1, 1.5, 14, 48, 'white oak', 0, 0, 17]),
        line('r3', ['Foot', 1, 1.5, 12, 17, 'white oak', 4, 1, 0]),
        line('r4', ['Shelf', 1, 0.75, 12, 40, 'plywood', 4, 1, 6]),
      ],
    },
  ],
  checks: [],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r4' }],
};

function line(id: string, values: readonly (string | number)[]) {
  return { id, cells: Object.fromEntries(values.map((value, i) => [`c${i + 1}`, { value }])) };
}

const FIELD = { width: 180, height: 240 };

describe("the customer's page", () => {
  const book = Workbook.open(BENCH);

  it('names the wood of the parts where no cell does, and asks for no name then', () => {
    const [facts] = customerSheet(book, { ...FIRST_CHOICE, drawing: false }, FIELD).slice(1);
    const says = renderToStaticMarkup(facts?.node).replaceAll(/<[^>]+>/g, ' ');
    expect(says).toMatch(/Wood\s+White oak, plywood\s/);
    expect(missingNames(book, FIRST_CHOICE).map(({ name }) => name)).not.toContain('species');
  });

  it('calls the size from front to back of a bench its depth, and of a table its width', () => {
    const sizes = (of: Workbook): string =>
      renderToStaticMarkup(
        customerSheet(of, { ...FIRST_CHOICE, drawing: false }, FIELD).map(({ key, node }) => (
          <div key={key}>{node}</div>
        )),
      ).replaceAll(/<[^>]+>/g, ' ');
    expect(sizes(book)).toMatch(/Depth\s+14 in/);
    const [parts] = BENCH.sheets;
    const [heads, seat, ...others] = parts?.rows ?? [];
    if (parts === undefined || heads === undefined || seat === undefined) throw new Error('none');
    const c4 = { value: 14, name: 'top_width' };
    const rows = [heads, { ...seat, cells: { ...seat.cells, c4 } }, ...others];
    expect(sizes(Workbook.open({ ...BENCH, sheets: [{ ...parts, rows }] }))).toMatch(
      /Width\s+14 in/,
    );
  });
});
