import { type At, type CellView, columnName, type OpenWorkbook } from '@kerfbook/workbook';
import type { ReactNode } from 'react';
import type { Area } from '../session/area.ts';
import type { Block, TableShape } from './blocks.tsx';
import { type ColumnGroup, type ColumnNeed, fitColumns } from './fit-columns.ts';

/** What of a sheet comes on paper. */
interface SheetPrint {
  readonly sheet: string;
  /** Formulas instead of what they come to (G35). */
  readonly formulas: boolean;
  /** Remarks, under the table. */
  readonly remarks: boolean;
  /** Letters and numbers at the edges, as on the screen. */
  readonly edges: boolean;
  /** Cells that rest on a plan which is not proven yet, by `sheet row column`. */
  readonly proving?: ReadonlyMap<string, unknown> | undefined;
}

/** A pixel of the screen on paper, mm: letters of 9 pt in the place of those of the screen. */
const MM_PER_PX = 0.8 * (25.4 / 96);
/** Width of the column with the numbers of rows, mm. */
const EDGE = 9;
const USUAL = 100;
/** What a letter of 9 pt takes and what stands free beside a text, mm; measured of Source Sans 3. */
const LETTER = 1.75;
const FREE = 3.2;
/** Words of a column may be broken over lines as narrow as this, mm. */
const NARROW = 26;
/** A formula needs room to be read, mm. */
const FORMULA = { natural: 60, least: 45 } as const;

/**
 * A sheet as pieces of paper: a row each, heads of tables and kept rows at the top of every page. Columns
 * that do not fit beside each other come after them, with the first column again.
 * @param width of the page's field, mm
 */
export function sheetBlocks(
  book: OpenWorkbook,
  print: SheetPrint,
  width: number,
): readonly Block[] {
  const view = book.sheet(print.sheet);
  const area = usedArea(book, print.sheet);
  if (view === undefined || area === undefined) {
    const node = <p>There is nothing on this sheet to print.</p>;
    return [{ key: `${print.sheet} empty`, node }];
  }
  const columns = seen(area.left, area.right, view.hidden);
  const rows = seen(area.top, area.bottom, view.hiddenRows);
  const heads = headRows(book, print.sheet, rows);
  const sheet: Laid = { book, print, rows, heads };
  const needs = columns.map((_, at) => needOf(sheet, view.widths, columns, at));
  const groups = fitColumns(needs, width - (print.edges ? EDGE : 0));
  const title = <h2>{view.name}</h2>;
  return [
    { key: `${print.sheet} title`, node: title, keep: true, section: true },
    ...unprovenBlocks(print),
    ...groups.flatMap((group, i) => [
      ...(i === 0 ? [] : [continuation(print.sheet, view.name, group, columns)]),
      ...rowBlocks(sheet, group, columns, view.name),
    ]),
    ...(print.remarks ? remarkBlocks(book, print.sheet, area) : []),
  ];
}

/** A sheet that is being laid out. */
interface Laid {
  readonly book: OpenWorkbook;
  readonly print: SheetPrint;
  readonly rows: readonly number[];
  /** Rows that are heads: kept ones, and those of tables with the last row of what they head. */
  readonly heads: ReadonlyMap<number, number>;
}

/** Rows that stand at the top of every page, each with the last row it heads. */
function headRows(
  book: OpenWorkbook,
  sheet: string,
  rows: readonly number[],
): ReadonlyMap<number, number> {
  const heads = new Map<number, number>();
  for (const table of book.tables()) {
    const hasRows = rows.some((row) => row > table.header && row <= table.last);
    if (table.sheet === sheet && hasRows) heads.set(table.header, table.last);
  }
  return heads;
}

/** How wide a column wants to be, by what stands in it. */
function needOf(
  { book, print, rows }: Laid,
  widths: readonly (number | undefined)[],
  columns: readonly number[],
  at: number,
): ColumnNeed {
  if (print.formulas) return FORMULA;
  const column = columns[at] ?? 0;
  const natural = (widths[column] ?? USUAL) * MM_PER_PX;
  let least = 0;
  for (const row of rows) {
    const { value, shown } = book.cell({ sheet: print.sheet, row, column });
    if (value.kind === 'empty') continue;
    const spills = value.kind === 'text' && overEmpty(book, print.sheet, row, columns, at) > 1;
    if (spills) continue;
    const longest =
      value.kind === 'text'
        ? Math.max(...shown.text.split(/\s+/).map((word) => word.length))
        : shown.text.length + 2;
    const breaks = value.kind === 'text' ? Math.min(longest * LETTER, NARROW) : longest * LETTER;
    least = Math.max(least, breaks + FREE);
  }
  return { natural, least: Math.max(least, Math.min(natural, 8)) };
}

function continuation(
  sheet: string,
  name: string,
  { columns: group }: ColumnGroup,
  columns: readonly number[],
): Block {
  const letters = [group[1], group.at(-1)].map((at) => columnName(columns[at ?? 0] ?? 0));
  const through = letters[0] === letters[1] ? letters[0] : `${letters[0]} to ${letters[1]}`;
  const node = (
    <h3>
      {name}, {letters[0] === letters[1] ? 'column' : 'columns'} {through}
    </h3>
  );
  return { key: `${sheet} from ${letters[0]}`, node, keep: true };
}

/** The rows of some columns; rows under one head are one table. */
function rowBlocks(
  sheet: Laid,
  { columns: group, widths }: ColumnGroup,
  columns: readonly number[],
  name: string,
): Block[] {
  const { book, print, rows, heads } = sheet;
  const shown = group.map((at) => columns[at] ?? 0);
  const frozen = book.sheet(print.sheet)?.frozenRows ?? 0;
  const line = (row: number, head = false): ReactNode => (
    <tr key={row}>
      {print.edges ? <th scope="row">{row + 1}</th> : null}
      {cellsOf(sheet, row, shown, head)}
    </tr>
  );
  const all = [...(print.edges ? [EDGE] : []), ...widths];
  const shapeOf = (head: number | undefined): TableShape => ({
    id: `${print.sheet} ${group[1] ?? 0} ${head ?? ''}`,
    says: name,
    className: print.edges ? 'sheet-paper has-edges' : 'sheet-paper',
    width: all.reduce((sum, one) => sum + one, 0),
    columns: (
      <colgroup>
        {all.map((one, i) => (
          <col key={columnKey(i)} style={{ width: `${one}mm` }} />
        ))}
      </colgroup>
    ),
    head: (
      <>
        {print.edges ? (
          <tr>
            <td />
            {shown.map((column) => (
              <th key={column} scope="col">
                {columnName(column)}
              </th>
            ))}
          </tr>
        ) : null}
        {rows.filter((row) => row < frozen).map((row) => line(row, true))}
        {head === undefined || head < frozen ? null : line(head, true)}
      </>
    ),
  });
  const blocks: Block[] = [];
  let head: number | undefined;
  let shape = shapeOf(undefined);
  // Further columns are those of a table: what only the first column says was said before.
  const rest = group[0] === 0 && group[1] === 1 ? undefined : shown.slice(1);
  const says = (row: number): boolean =>
    rest === undefined ||
    rest.some((column) => book.value({ sheet: print.sheet, row, column }).kind !== 'empty');
  for (const row of rows) {
    if (row < frozen || !says(row)) continue;
    if (heads.has(row)) {
      head = row;
      shape = shapeOf(row);
      continue;
    }
    if (head !== undefined && row > (heads.get(head) ?? row)) {
      head = undefined;
      shape = { ...shapeOf(undefined), id: `${print.sheet} ${group[1] ?? 0} after ${row}` };
    }
    const key = `${print.sheet} ${group[1] ?? 0} ${row}`;
    // A head is never left alone at a page's foot: its first row comes with it.
    blocks.push({ key, node: line(row), table: shape });
  }
  return blocks;
}

/** Says what the sign on unproven figures means, where there are any. */
function unprovenBlocks({ sheet, proving, formulas }: SheetPrint): Block[] {
  const any = [...(proving?.keys() ?? [])].some((key) => key.startsWith(`${sheet} `));
  if (!any || formulas) return [];
  const node = (
    <p>Figures with … rest on a buying plan that is still being proven: they may yet cost less.</p>
  );
  return [{ key: `${sheet} unproven`, node, keep: true }];
}

const columnKey = (i: number): string => `column ${i}`;

const seen = (from: number, to: number, hidden: readonly number[]): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i).filter((one) => !hidden.includes(one));

/** The rectangle of what shows anything, from the first cell on. */
function usedArea(book: OpenWorkbook, sheet: string): Area | undefined {
  const { rows = 0, columns = 0 } = book.sheet(sheet) ?? {};
  let [bottom, right] = [-1, -1];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      if (book.value({ sheet, row, column }).kind === 'empty') continue;
      bottom = row;
      right = Math.max(right, column);
    }
  }
  return bottom < 0 ? undefined : { top: 0, left: 0, bottom, right };
}

function cellsOf(
  { book, print, rows, heads }: Laid,
  row: number,
  columns: readonly number[],
  head: boolean,
): ReactNode[] {
  const cells: ReactNode[] = [];
  for (let i = 0; i < columns.length; i += 1) {
    const column = columns[i] ?? 0;
    const cell = book.cell({ sheet: print.sheet, row, column });
    const unproven = print.proving?.has(`${print.sheet} ${row} ${column}`) === true;
    const shown = unproven ? `… ${cell.shown.text}` : cell.shown.text;
    const text = print.formulas ? (cell.formula ?? shown) : shown;
    const span = cell.value.kind === 'text' ? overEmpty(book, print.sheet, row, columns, i) : 1;
    const last = heads.get(row) ?? rows.at(-1) ?? row;
    const over = head ? alignBelow(book, { sheet: print.sheet, row, column }, last) : undefined;
    cells.push(
      <td
        key={column}
        colSpan={span}
        className={classOf(cell)}
        data-align={cell.style?.align ?? over ?? cell.shown.align}
        data-background={cell.style?.background}
      >
        {!print.formulas && cell.shown.exact !== undefined ? `≈ ${text}` : text}
      </td>,
    );
    i += span - 1;
  }
  return cells;
}

/** A head stands over its numbers: as the first thing below it does. */
function alignBelow(
  book: OpenWorkbook,
  { sheet, row, column }: At,
  last: number,
): 'start' | 'centre' | 'end' | undefined {
  for (let below = row + 1; below <= last; below += 1) {
    const { value, style, shown } = book.cell({ sheet, row: below, column });
    if (value.kind !== 'empty') return style?.align ?? shown.align;
  }
  return undefined;
}

/** Words run over the empty cells at their right, as on the screen; wrapped ones stay in their own. */
function overEmpty(
  book: OpenWorkbook,
  sheet: string,
  row: number,
  columns: readonly number[],
  from: number,
): number {
  let span = 1;
  const own = book.cell({ sheet, row, column: columns[from] ?? 0 });
  if (own.style?.wrap === true) return span;
  for (let i = from + 1; i < columns.length; i += 1) {
    const cell = book.cell({ sheet, row, column: columns[i] ?? 0 });
    if (cell.value.kind !== 'empty' || cell.role === 'input') break;
    span += 1;
  }
  return span;
}

function classOf({ role, style, mark, value }: CellView): string {
  return [
    role === undefined ? '' : `is-${role}`,
    style?.bold === true ? 'is-bold' : '',
    style?.italic === true ? 'is-italic' : '',
    style?.wrap === true ? 'is-wrapped' : '',
    mark === undefined ? '' : `is-marked-${mark.state}`,
    value.kind === 'error' ? 'is-error' : '',
  ]
    .filter((one) => one !== '')
    .join(' ');
}

function remarkBlocks(book: OpenWorkbook, sheet: string, area: Area): Block[] {
  const remarks: Block[] = [];
  for (let row = area.top; row <= area.bottom; row += 1) {
    for (let column = area.left; column <= area.right; column += 1) {
      const { remark, address, name } = book.cell({ sheet, row, column });
      if (remark === undefined) continue;
      const node = (
        <p>
          <strong>{name ?? address}</strong> {remark}
        </p>
      );
      remarks.push({ key: `${sheet} remark ${address}`, node });
    }
  }
  if (remarks.length === 0) return [];
  return [{ key: `${sheet} remarks`, node: <h3>Remarks</h3>, keep: true }, ...remarks];
}
