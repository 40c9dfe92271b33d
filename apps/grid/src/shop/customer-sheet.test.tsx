import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { FIRST_CHOICE } from './customer-choice.ts';
import { customerSheet, missingNames } from './customer-sheet.tsx';

/** A bench of one board as a maker begins it: a parts table, and no cell with a name. */
const BENCH: BookDocument = {
  kerfbook: 8,
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

  const says = (of: Workbook): string =>
    renderToStaticMarkup(
      customerSheet(of, { ...FIRST_CHOICE, drawing: false }, FIELD).map(({ key, node }) => (
        <div key={key}>{node}</div>
      )),
    ).replaceAll(/<[^>]+>/g, ' ');

  it('begins with the letterhead of the shop, line by line, where it has one and it is ticked', () => {
    const logo = 'data:image/png;base64,iVBORw0KGgo=';
    const letterhead = {
      name: 'A made-up shop',
      address: '1 Invented Lane\nNowhere',
      tax: '00-0',
      logo,
    };
    const of = Workbook.open({ ...BENCH, letterhead });
    expect(says(of)).toMatch(
      /^\s*A made-up shop\s+1 Invented Lane\s+Nowhere\s+Tax number 00-0\s+Length/,
    );
    const blocks = customerSheet(of, { ...FIRST_CHOICE, drawing: false }, FIELD);
    expect(renderToStaticMarkup(blocks[1]?.node)).toContain(`src="${logo}"`);
    const without = customerSheet(of, { ...FIRST_CHOICE, letterhead: false }, FIELD);
    expect(without.map(({ key }) => key)).not.toContain('customer letterhead');
    expect(says(book)).not.toContain('Tax number');
  });

  /** The same with other parts, and names of cells in the row of the first one. */
  function made(
    parts: readonly (readonly (string | number)[])[],
    names: Readonly<Record<string, string>> = {},
  ): Workbook {
    const [sheet] = BENCH.sheets;
    const [heads] = sheet?.rows ?? [];
    if (sheet === undefined || heads === undefined) throw new Error('none');
    const rows = parts.map((values, i) => {
      const row = line(`r${i + 2}`, values);
      if (i > 0) return row;
      const named = Object.entries(names).map(([column, name]) => [
        column,
        { ...row.cells[column], name },
      ]);
      return { ...row, cells: { ...row.cells, ...Object.fromEntries(named) } };
    });
    const table = { id: 't1', kind: 'parts', sheet: 's1', header: 'r1' } as const;
    return Workbook.open({
      ...BENCH,
      sheets: [{ ...sheet, rows: [heads, ...rows] }],
      tables: [{ ...table, last: `r${parts.length + 1}` }],
    });
  }

  const BOARD = ['Top', 1, 1, 20, 40, 'white oak', 0, 0, 29];
  const FOOT = ['Foot', 1, 1, 12, 29, 'white oak', 4, 4, 0];

  it('calls sizes as one says them: of a bench, a table, a round one, a case and a door', () => {
    expect(says(book)).toMatch(/Length\s+48 in \(4 ft\)\s+Depth\s+14 in.*\s+Height\s+18 1\/2 in/);
    expect(says(made([BOARD, FOOT], { c4: 'top_width' }))).toMatch(/Length\s+40 in.*Width\s+20 in/);
    const round = made([['Top', 1, 1, 40, 40, 'white oak', 0, 0, 29], FOOT], {
      c4: 'top_diameter',
    });
    expect(says(round)).toMatch(/Across\s+40 in \(3 ft 4 in\)\s+Height\s+30 in/);
    expect(says(round)).not.toMatch(/Length|Width|Depth/);
    const names = { c4: 'case_depth', c5: 'top_width' };
    expect(says(made([BOARD, FOOT], names))).toMatch(/Width\s+40 in.*Depth\s+20 in/);
    const door = made([['Door', 1, 0.75, 0.75, 29, 'white oak', 0, 0, 0]]);
    expect(says(door)).toMatch(/Width\s+29 in.*Thickness\s+3\/4 in/);
  });

  it('says of care what is so of this piece: no hot dishes on a door, no seasons of plywood', () => {
    expect(says(book)).toMatch(/hot dishes.*solid wood.*Lift it to move it/);
    const plywood = made([['Side', 1, 0.75, 12, 30, 'birch plywood', 0, 0, 0]], {
      c4: 'case_depth',
    });
    expect(says(plywood)).not.toMatch(/solid wood/);
    expect(says(plywood)).toMatch(/fastened to the wall/);
    const panel = made([['Door', 1, 0.75, 0.75, 29, 'white oak', 0, 0, 0]]);
    expect(says(panel)).not.toMatch(/hot dishes|Lift it|fastened to the wall/);
    expect(says(panel)).toMatch(/Take up spills at once\.\s/);
  });
});
