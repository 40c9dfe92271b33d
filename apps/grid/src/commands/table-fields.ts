import type { KnownTable } from '@kerfbook/drawing';
import {
  type CellDocument,
  type Edit,
  type OpenWorkbook,
  type RowDocument,
  randomId,
  SHOP_COLUMNS,
  type ShopColumn,
  type ShopTable,
} from '@kerfbook/workbook';

/** Nothing stands under the known heads of a row. */
export function isBlankRow(
  book: OpenWorkbook,
  { sheet, columns }: KnownTable,
  row: number,
): boolean {
  return [...columns.values()].every((column) => {
    const value = book.value({ sheet, row, column });
    return value.kind === 'empty' || (value.kind === 'text' && value.text.trim() === '');
  });
}

/** A cell of a table with known columns. */
export interface Field {
  readonly kind: ShopTable;
  readonly table: KnownTable;
  readonly row: number;
  readonly head: string;
}

const known = (kind: ShopTable, head: string): ShopColumn | undefined =>
  SHOP_COLUMNS[kind].find(({ heads }) => heads === head);

/** The edit that writes what was typed into such a cell. A column that the table lacks comes along. */
export function fieldEdit(
  book: OpenWorkbook,
  { kind, table, row, head }: Field,
  text: string,
): Edit {
  const { sheet } = table;
  const there = table.columns.get(head);
  const column = there ?? Math.max(...table.columns.values(), -1) + 1;
  const place = { row, column };
  const edits: Edit[] =
    there === undefined ? [columnEdit(book, { kind, table, head }, column)] : [];
  const quantity = known(kind, head)?.quantity;
  // A cell of which nothing was said would take `1/2` for a number and a title for a date.
  if (there !== undefined && quantity !== undefined) {
    const cell = book.cell({ sheet, ...place });
    if (cell.quantity === undefined) {
      edits.push({ do: 'describeCells', sheet, cells: [{ ...place, traits: { quantity } }] });
    }
  }
  edits.push({ do: 'enter', sheet, cells: [{ ...place, text }] });
  const [only] = edits;
  return edits.length === 1 && only !== undefined ? only : { do: 'batch', edits };
}

/** A column with its head, as the table of a new workbook has it. */
function columnEdit(
  book: OpenWorkbook,
  { kind, table, head }: Omit<Field, 'row'>,
  at: number,
): Edit {
  const { heads, width, means, quantity } = known(kind, head) ?? {
    heads: head,
    width: 100,
    means: '',
    quantity: 'text' as const,
  };
  const id = randomId('c');
  const rowId = (row: number): string =>
    book.idsAt({ sheet: table.sheet, row, column: 0 })?.row ?? '';
  const rows = Array.from({ length: table.end - table.first }, (_, i) => table.first + i);
  return {
    do: 'insertColumns',
    sheet: table.sheet,
    at,
    columns: [{ id, width }],
    cells: {
      [rowId(table.first - 1)]: { [id]: { value: heads, role: 'heading', remark: means } },
      ...Object.fromEntries(rows.map((row) => [rowId(row), { [id]: { quantity, role: 'input' } }])),
    },
  };
}

/** A row of blanks in the table, made like its rows; where it is the first after its end, the table takes it in. */
export function blankRowEdits(
  book: OpenWorkbook,
  kind: ShopTable,
  table: KnownTable,
  at: number,
): Edit[] {
  const { sheet, first, end, columns } = table;
  const like = Math.min(Math.max(first, at - 1), end - 1);
  const cells = [...columns].flatMap(([head, column]): [string, CellDocument][] => {
    const id = book.idsAt({ sheet, row: first - 1, column })?.column;
    if (id === undefined) return [];
    const { quantity = known(kind, head)?.quantity, style } = book.cell({
      sheet,
      row: like,
      column,
    });
    return [
      [
        id,
        {
          role: 'input',
          ...(quantity === undefined ? {} : { quantity }),
          ...(style === undefined ? {} : { style }),
        },
      ],
    ];
  });
  const row: RowDocument = { id: randomId('r'), cells: Object.fromEntries(cells) };
  const edits: Edit[] = [{ do: 'insertRows', sheet, at, rows: [row] }];
  if (at >= end) {
    const own = book.tables().find((one) => one.kind === kind);
    const tables = book
      .document()
      .tables.map((one) => (one.id === own?.id ? { ...one, last: row.id } : one));
    edits.push({ do: 'setTables', tables });
  }
  return edits;
}
