import {
  type CellDocument,
  type Edit,
  freeName,
  idOf,
  nameKey,
  type RowDocument,
  type SheetDocument,
} from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import type { OpenWorkbook } from '../api.ts';

/** Tables that drawings, cut lists and plans are made from, in any workbook. */
export type ShopTable = 'parts' | 'stock';

/** A column of such a table, known by the word at its head. */
export interface ShopColumn {
  /** The word at its head. */
  readonly heads: string;
  /** What its cells are for. */
  readonly quantity: Quantity;
  /** Said as the remark of its head. */
  readonly means: string;
  /** In px. */
  readonly width: number;
}

const column = (heads: string, quantity: Quantity, width: number, means: string): ShopColumn => ({
  heads,
  quantity,
  means,
  width,
});

const X = 'runs along the piece of furniture, from its left end';
const Y = 'runs across it, from the near side';
const Z = 'runs up from the floor';

/** The columns of each table; only the first five of parts and the first six of stock are needed. */
export const SHOP_COLUMNS: Readonly<Record<ShopTable, readonly ShopColumn[]>> = {
  parts: [
    column('part', 'text', 170, 'What it is called on the bench.'),
    column('count', 'count', 60, 'How many of them; 0 for none.'),
    column('thickness', 'length', 90, 'Finished.'),
    column('width', 'length', 90, 'Finished.'),
    column('length', 'length', 90, 'Finished.'),
    column('material', 'text', 120, 'As the stock table names it.'),
    column('grain', 'text', 70, 'The side the grain runs along: length, width or none.'),
    column('x', 'length', 80, `Near left lower corner: ${X}.`),
    column('y', 'length', 80, `Near left lower corner: ${Y}.`),
    column('z', 'length', 80, `Near left lower corner: ${Z}.`),
    column('step x', 'length', 80, 'From one piece to the next of the same row.'),
    column('step y', 'length', 80, 'From one piece to the next of the same row.'),
    column('step z', 'length', 80, 'From one piece to the next of the same row.'),
    column('turn', 'text', 60, 'What runs along x, y and z: LWT lies flat, WTL stands.'),
    column('boards', 'count', 70, 'Boards it is glued up of; nothing for one piece.'),
    column('board width', 'length', 90, 'Before jointing.'),
    column('board length', 'length', 90, 'Before trimming.'),
  ],
  stock: [
    column('stock', 'text', 200, 'What it is called where it is bought.'),
    column('material', 'text', 120, 'As the parts table names it.'),
    column('thickness', 'length', 90, 'As it is when parts are cut from it.'),
    column('width', 'length', 90, 'As it is when parts are cut from it.'),
    column('length', 'length', 90, 'Of one board.'),
    column('price', 'money', 90, 'Of one board; 0 for what is there already.'),
    column('at hand', 'count', 80, 'How many there are; nothing for as many as are needed.'),
  ],
};

const ROWS = 30;

/** A saw cut wider than this is a slip of the pen: common practice, no source. */
const WIDEST_KERF = { us: 0.5, metric: 12 } as const;
const USUAL_KERF = { us: '1/8 in', metric: '3 mm' } as const;

const SAYS: Readonly<Record<ShopTable, readonly [title: string, says: string]>> = {
  parts: [
    'Parts',
    'Every part with its finished size, a row each. The drawing, the cut list and the plans come from this table; any cell may be a formula.',
  ],
  stock: [
    'Stock',
    'Boards to buy and boards at hand, a row each size. The buying plan chooses from them; boards at hand with price 0 are used first.',
  ],
};

/**
 * The edit that adds a sheet with an empty table; undefined where the workbook has one. With a stock
 * table comes a blank input named `kerf` where no cell has that name: plans ask for its width.
 */
export function shopTableEdit(book: OpenWorkbook, kind: ShopTable): Edit | undefined {
  if (book.tables().some((table) => table.kind === kind)) return undefined;
  const { tables } = book.document();
  const id = idOf('t', kind, new Set(tables.map((table) => table.id)));
  const sheet = shopSheet(book, kind);
  const header = sheet.frozenRows ?? 0;
  const table = { id, kind, sheet: sheet.id, header: `r${header}`, last: `r${header + ROWS}` };
  return {
    do: 'batch',
    edits: [
      { do: 'addSheet', at: book.sheets().length, sheet },
      { do: 'setTables', tables: [...tables, table] },
    ],
  };
}

function shopSheet(book: OpenWorkbook, kind: ShopTable): SheetDocument {
  const sheets = book.sheets();
  const [title, says] = SAYS[kind];
  const columns = SHOP_COLUMNS[kind];
  const line = (number: number, cells: readonly CellDocument[]): RowDocument => ({
    id: `r${number}`,
    cells: Object.fromEntries(cells.map((cell, i) => [`c${i + 1}`, cell])),
  });
  const asks = kind === 'stock' && book.named('kerf') === undefined;
  const header = asks ? 4 : 3;
  return {
    id: idOf('s', kind, new Set(sheets.map((sheet) => sheet.id))),
    name: freeName(title, new Set(sheets.map(({ name }) => nameKey(name)))),
    frozenRows: header,
    columns: columns.map(({ width }, i) => ({ id: `c${i + 1}`, width })),
    rows: [
      line(1, [{ value: title, role: 'heading' }]),
      line(2, [{ value: says, role: 'note' }]),
      ...(asks ? [line(3, kerfCells(book.units))] : []),
      line(
        header,
        columns.map(({ heads, means }) => ({ value: heads, role: 'heading', remark: means })),
      ),
      ...Array.from({ length: ROWS }, (_, i) =>
        line(
          header + 1 + i,
          columns.map(({ quantity }) => ({ quantity, role: 'input' })),
        ),
      ),
    ],
  };
}

/** Asks how wide the saw cuts. Nothing is filled in: what is common is not what this saw does. */
const kerfCells = (units: OpenWorkbook['units']): readonly CellDocument[] => [
  { value: 'Saw kerf' },
  {
    name: 'kerf',
    quantity: 'length',
    role: 'input',
    allow: { min: 0, max: WIDEST_KERF[units] },
    remark: 'Width of one saw cut. Plans reckon with it between neighbouring pieces.',
  },
  { value: units === 'us' ? 'in' : 'mm' },
  {
    value: `How wide does your saw cut? About ${USUAL_KERF[units]} is common practice; measure yours.`,
    role: 'note',
  },
];
