import { type KnownTable, knownTable } from '@kerfbook/drawing';
import type { Plan } from '@kerfbook/guide';
import {
  type CellDocument,
  type CellView,
  type Edit,
  type OpenWorkbook,
  type RowDocument,
  randomId,
  SHOP_COLUMNS,
} from '@kerfbook/workbook';
import { cellsInOrder } from '../commands/sort.ts';

/** A column of the steps table that the app knows. */
export type StepHead =
  | 'step'
  | 'text'
  | 'builds'
  | 'figure'
  | 'measure'
  | 'photo'
  | 'tools'
  | 'hardware'
  | 'caution'
  | 'hands-on'
  | 'waiting'
  | 'when'
  | 'repeats';

/** A row of the steps table that is a step, done at this size or not. */
export interface StepRow {
  /** Counted from 0, on its sheet. */
  readonly row: number;
  /** Its id, which stays where other rows come and go. */
  readonly id: string;
  /** What it is called, with its numbers. */
  readonly title: string;
  /** Which steps of the plan it is at this size: `3`, `3 to 5`; undefined where it is not done. */
  readonly numbers: string | undefined;
}

/** The steps table of a workbook as the page of the plan works on it. */
export interface StepsTable extends KnownTable {
  readonly rows: readonly StepRow[];
}

/** The steps table of a workbook; undefined where it has none. */
export function stepsTable(book: OpenWorkbook, plan: Plan): StepsTable | undefined {
  const table = knownTable(book, 'steps');
  if (table === undefined) return undefined;
  const rows: StepRow[] = [];
  for (let row = table.first; row < table.end; row += 1) {
    if (isBlankRow(book, table, row)) continue;
    const steps = plan.steps.filter(({ at }) => at.row === row && at.sheet === table.sheet);
    const [first, last] = [steps[0], steps.at(-1)];
    rows.push({
      row,
      id: book.idsAt({ sheet: table.sheet, row, column: 0 })?.row ?? '',
      title: cellOf(book, table, row, 'step')?.shown.text.trim() || 'Without a title',
      numbers:
        first === undefined || last === undefined
          ? undefined
          : first === last
            ? String(first.number)
            : `${first.number} to ${last.number}`,
    });
  }
  return { ...table, rows };
}

function isBlankRow(book: OpenWorkbook, { sheet, columns }: KnownTable, row: number): boolean {
  return [...columns.values()].every((column) => {
    const value = book.value({ sheet, row, column });
    return value.kind === 'empty' || (value.kind === 'text' && value.text.trim() === '');
  });
}

/** What stands of a step under a head; undefined where the table has no such column. */
export function cellOf(
  book: OpenWorkbook,
  { sheet, columns }: KnownTable,
  row: number,
  head: StepHead,
): CellView | undefined {
  const column = columns.get(head);
  return column === undefined ? undefined : book.cell({ sheet, row, column });
}

const known = (head: StepHead) => SHOP_COLUMNS.steps.find(({ heads }) => heads === head);

/** The edit that writes what was typed under a head of a step. A column that the table lacks comes along. */
export function entryEdit(
  book: OpenWorkbook,
  table: KnownTable,
  row: number,
  head: StepHead,
  text: string,
): Edit {
  const { sheet } = table;
  const there = table.columns.get(head);
  const column = there ?? Math.max(...table.columns.values(), -1) + 1;
  const place = { row, column };
  const edits: Edit[] = there === undefined ? [columnEdit(book, table, column, head)] : [];
  const quantity = known(head)?.quantity;
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
function columnEdit(book: OpenWorkbook, table: KnownTable, at: number, head: StepHead): Edit {
  const { heads, width, means, quantity } = known(head) ?? {
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

/** Where a step stands that was put in, and how. */
export interface Placed {
  readonly edit: Edit;
  readonly row: number;
}

/** The edit that begins a step after another one, or at the end; it takes a row that is still blank where one is. */
export function newStepEdit(
  book: OpenWorkbook,
  table: StepsTable,
  after: number | undefined,
  title: string,
): Placed {
  const row = (after ?? table.rows.at(-1)?.row ?? table.first - 1) + 1;
  const isFree = row < table.end && isBlankRow(book, table, row);
  const edits: Edit[] = isFree ? [] : rowEdits(book, table, row);
  const column = table.columns.get('step') ?? 0;
  edits.push({ do: 'enter', sheet: table.sheet, cells: [{ row, column, text: title }] });
  return { edit: { do: 'batch', edits }, row };
}

/** A step once more, right after itself; what it builds stays with the first, and so do names of its cells. */
export function duplicateEdit(book: OpenWorkbook, table: StepsTable, row: number): Placed {
  const to = row + 1;
  const { sheet, columns } = table;
  const area = { top: to, bottom: to, left: 0, right: wide(book, sheet) - 1 };
  const builds = columns.get('builds');
  const cells = cellsInOrder(book, sheet, area, [row]).flatMap(({ column, cell, ...place }) => {
    if (cell === null) return [];
    const { name: _, ...copied } = cell;
    return [{ ...place, column, cell: column === builds ? emptied(copied) : copied }];
  });
  return {
    row: to,
    edit: { do: 'batch', edits: [...rowEdits(book, table, to), { do: 'place', sheet, cells }] },
  };
}

const emptied = ({ value: _v, typed: _t, formula: _f, override: _o, ...traits }: CellDocument) =>
  traits;

const wide = (book: OpenWorkbook, sheet: string): number => book.sheet(sheet)?.columns ?? 1;

/** A row of blanks in the table, made like its rows; where it is the first after its end, the table takes it in. */
function rowEdits(book: OpenWorkbook, table: KnownTable, at: number): Edit[] {
  const { sheet, first, end, columns } = table;
  const like = Math.min(Math.max(first, at - 1), end - 1);
  const cells = [...columns].flatMap(([head, column]): [string, CellDocument][] => {
    const id = book.idsAt({ sheet, row: first - 1, column })?.column;
    if (id === undefined) return [];
    const { quantity = known(head as StepHead)?.quantity, style } = book.cell({
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
    const own = book.tables().find(({ kind }) => kind === 'steps');
    const tables = book
      .document()
      .tables.map((one) => (one.id === own?.id ? { ...one, last: row.id } : one));
    edits.push({ do: 'setTables', tables });
  }
  return edits;
}

/** A step takes the place of the one before it or after it; undefined where there is none. */
export function moveEdit(
  book: OpenWorkbook,
  table: StepsTable,
  row: number,
  by: 1 | -1,
): Placed | undefined {
  const at = table.rows.findIndex((one) => one.row === row);
  const other = table.rows[at + by];
  if (at < 0 || other === undefined) return undefined;
  const [top, bottom] = [Math.min(row, other.row), Math.max(row, other.row)];
  const between = Array.from({ length: bottom - top + 1 }, (_, i) => top + i);
  // Rows between both are blank, and stay where they are.
  const turned = between.map((one) => (one === top ? bottom : one === bottom ? top : one));
  const area = { top, bottom, left: 0, right: wide(book, table.sheet) - 1 };
  return {
    row: other.row,
    edit: {
      do: 'place',
      sheet: table.sheet,
      cells: cellsInOrder(book, table.sheet, area, turned),
    },
  };
}

/** The edit that takes a step out with its row. */
export const deleteEdit = (table: StepsTable, row: number): Edit => ({
  do: 'deleteRows',
  sheet: table.sheet,
  at: row,
  count: 1,
});
