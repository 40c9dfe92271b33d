import { type KnownTable, knownTable } from '@kerfbook/drawing';
import type { Plan } from '@kerfbook/guide';
import {
  type CellDocument,
  type CellView,
  cellForRow,
  type Edit,
  type OpenWorkbook,
  type RowDocument,
} from '@kerfbook/workbook';
import { cellsInOrder } from '../commands/sort.ts';
import { blankRowEdits, fieldEdit, isBlankRow } from '../commands/table-fields.ts';

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

/** The edit that writes what was typed under a head of a step. A column that the table lacks comes along. */
export const entryEdit = (
  book: OpenWorkbook,
  table: KnownTable,
  row: number,
  head: StepHead,
  text: string,
): Edit => fieldEdit(book, { kind: 'steps', table, row, head }, text);

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
  const edits: Edit[] = isFree ? [] : blankRowEdits(book, 'steps', table, row);
  const column = table.columns.get('step') ?? 0;
  edits.push({ do: 'enter', sheet: table.sheet, cells: [{ row, column, text: title }] });
  return { edit: { do: 'batch', edits }, row };
}

/**
 * A step once more, right after itself, saying the same of the same cells. What it builds stays with the first, and so do
 * names of its cells.
 */
export function duplicateEdit(book: OpenWorkbook, table: StepsTable, row: number): Placed {
  const { sheet, columns, first } = table;
  const [from, builds] = [
    book.idsAt({ sheet, row, column: 0 })?.row,
    book.idsAt({ sheet, row: first - 1, column: columns.get('builds') ?? -1 })?.column,
  ];
  const document = book.document().sheets.find(({ id }) => id === sheet);
  const own = document?.rows.find(({ id }) => id === from);
  const edits = blankRowEdits(book, 'steps', table, row + 1).map((edit): Edit => {
    if (edit.do !== 'insertRows' || own === undefined) return edit;
    const rows = edit.rows.map(({ id }): RowDocument => {
      const cells = Object.entries(own.cells ?? {}).map(([column, cell]) => {
        const { name: _, ...copied } = cellForRow(cell, sheet, own.id, id);
        return [column, column === builds ? emptied(copied) : copied];
      });
      return { ...own, id, cells: Object.fromEntries(cells) };
    });
    return { ...edit, rows };
  });
  return { row: row + 1, edit: { do: 'batch', edits } };
}

const emptied = ({ value: _v, typed: _t, formula: _f, override: _o, ...traits }: CellDocument) =>
  traits;

const wide = (book: OpenWorkbook, sheet: string): number => book.sheet(sheet)?.columns ?? 1;

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
