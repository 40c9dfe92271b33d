import { type CellView, columnName, type OpenWorkbook } from '@kerfbook/workbook';
import type { ReactNode } from 'react';
import type { Area } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { lookOf, measurer } from '../session/words-measure.ts';
import { shorterBy } from '../sheet/points.ts';
import { AfterPoint, decimalsText } from './after-point.tsx';
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
/** What stands free beside a text, and a little for what printers and browsers round, mm. */
const FREE = 3.6;
/** Words of a column may be broken over lines as narrow as this, mm. */
const NARROW = 26;
/** Shorter words take about so many lines at the most. */
const LINES = 4;
/** Whole paragraphs take more room, so that a row is no page by itself: so many lines, or this width, mm. */
const PARAGRAPH = { lines: 12, width: 70 } as const;
/** A formula needs room to be read, mm. */
const FORMULA = { natural: 60, least: 45 } as const;

/**
 * A sheet as pieces of paper: a row each, heads of tables and kept rows at the top of every page. A table and
 * what stands before and after it have widths of their own. Columns that do not fit beside each other come
 * after them, with the first column again.
 * @param width of the page's field, mm
 * @returns nothing where the sheet shows nothing
 */
export function sheetBlocks(session: Session, print: SheetPrint, width: number): readonly Block[] {
  const { book } = session;
  const view = book.sheet(print.sheet);
  const area = usedArea(book, print.sheet);
  if (view === undefined || area === undefined) return [];
  const columns = seen(area.left, area.right, view.hidden);
  const rows = seen(area.top, area.bottom, view.hiddenRows);
  const sheet: Laid = { session, print, name: view.name, widthOf: measurer() };
  const title = <h2>{view.name}</h2>;
  return [
    { key: `${print.sheet} title`, node: title, keep: true, section: true },
    ...unprovenBlocks(print),
    ...partsOf(sheet, rows, view.frozenRows).flatMap((part) =>
      partBlocks(sheet, part, columns, width),
    ),
    ...(print.remarks ? remarkBlocks(book, print.sheet, area) : []),
  ];
}

/** A sheet that is being laid out. */
interface Laid {
  readonly session: Session;
  readonly print: SheetPrint;
  readonly name: string;
  /** Measures words as the grid writes them, px. */
  readonly widthOf: ReturnType<typeof measurer>;
}

/** Rows of a sheet that are one table on paper. */
interface Part {
  /** Rows at its top on every page: kept ones, and the head of a table. */
  readonly heads: readonly number[];
  readonly rows: readonly number[];
}

/** What stands before a table, the table, and what comes after it. */
function partsOf({ session, print }: Laid, rows: readonly number[], frozen: number): Part[] {
  const lastOf = new Map<number, number>();
  for (const table of session.book.tables()) {
    const hasRows = rows.some((row) => row > table.header && row <= table.last);
    if (table.sheet === print.sheet && hasRows) lastOf.set(table.header, table.last);
  }
  const kept = rows.filter((row) => row < frozen);
  const keptHead = kept.findLast((row) => lastOf.has(row));
  // A table's head among the kept rows heads its table alone, and they with it.
  const always = keptHead === undefined ? kept : [];
  const parts: { readonly heads: readonly number[]; readonly rows: number[] }[] = [];
  let part: (typeof parts)[number] = { heads: kept, rows: [] };
  // With its letters and numbers a sheet is one grid.
  let last = keptHead === undefined || print.edges ? undefined : lastOf.get(keptHead);
  const begin = (heads: readonly number[]): void => {
    parts.push(part);
    part = { heads, rows: [] };
  };
  if (kept.length === rows.length) return [{ heads: [], rows }];
  for (const row of rows) {
    if (row < frozen) continue;
    if (lastOf.has(row)) {
      begin([...always, row]);
      last = lastOf.get(row);
      continue;
    }
    if (last !== undefined && row > last) {
      begin(always);
      last = undefined;
    }
    part.rows.push(row);
  }
  parts.push(part);
  const says = (row: number): boolean => !isBlank(session.book, print.sheet, row);
  return parts.filter(({ rows: own }) => own.some(says));
}

/** Whether no cell of a row shows anything. */
function isBlank(book: OpenWorkbook, sheet: string, row: number): boolean {
  const { columns = 0 } = book.sheet(sheet) ?? {};
  for (let column = 0; column < columns; column += 1)
    if (book.value({ sheet, row, column }).kind !== 'empty') return false;
  return true;
}

function partBlocks(sheet: Laid, part: Part, all: readonly number[], width: number): Block[] {
  const { print, name } = sheet;
  const columns = all.slice(0, columnsUsed(sheet, part, all));
  const needs = columns.map((_, at) => needOf(sheet, part, columns, at));
  return fitColumns(needs, width - (print.edges ? EDGE : 0)).flatMap((group, i) => [
    ...(i === 0 ? [] : [continuation(print.sheet, name, group, columns)]),
    ...rowBlocks(sheet, part, group, columns),
  ]);
}

/** Width of a column as on the screen, on paper, mm. */
const naturalOf = ({ session, print }: Laid, column: number): number =>
  (session.book.sheet(print.sheet)?.widths[column] ?? USUAL) * MM_PER_PX;

/** What a text takes with what stands free beside it, mm. */
function widthOfText({ widthOf }: Laid, text: string, cell: CellView, head: boolean): number {
  const look = lookOf(cell);
  const strong = head || look === 'heading';
  return widthOf(text, strong ? 'bold' : look) * MM_PER_PX + FREE;
}

/** So many columns a part needs from the first on: those with anything in them, and those its words run over. */
function columnsUsed(sheet: Laid, part: Part, columns: readonly number[]): number {
  const { session, print } = sheet;
  if (print.edges) return columns.length;
  let used = 1;
  for (const row of [...part.heads, ...part.rows]) {
    for (const [at, column] of columns.entries()) {
      const cell = session.book.cell({ sheet: print.sheet, row, column });
      if (cell.value.kind === 'empty') continue;
      used = Math.max(used, at + 1);
      const over = spanOf(sheet, part, cell, columns, at);
      const wanted = over > 1 ? widthOfText(sheet, cell.shown.text, cell, false) : 0;
      let room = naturalOf(sheet, column);
      for (let next = at + 1; next < at + over && room < wanted; next += 1) {
        room += naturalOf(sheet, columns[next] ?? 0);
        used = Math.max(used, next + 1);
      }
    }
  }
  return used;
}

/** How wide a column of a part wants to be, by what stands in it. */
function needOf(sheet: Laid, part: Part, columns: readonly number[], at: number): ColumnNeed {
  const { session, print } = sheet;
  const column = columns[at] ?? 0;
  const natural = naturalOf(sheet, column);
  let [least, most] = [0, 0];
  for (const row of [...part.heads, ...part.rows]) {
    const cell = session.book.cell({ sheet: print.sheet, row, column });
    if (cell.value.kind === 'empty') continue;
    if (print.formulas && cell.formula !== undefined) return FORMULA;
    if (spanOf(sheet, part, cell, columns, at) > 1) continue;
    const isHead = part.heads.includes(row);
    const measure = (text: string): number => widthOfText(sheet, text, cell, isHead);
    const text = textOf(sheet, cell);
    if (cell.value.kind === 'text') {
      const whole = Math.max(...text.split('\n').map(measure));
      const word = Math.max(...text.split(/\s+/).map(measure));
      const paragraph = Math.min(PARAGRAPH.width, whole / PARAGRAPH.lines);
      least = Math.max(least, paragraph, Math.min(NARROW, Math.max(word, whole / LINES)));
      most = Math.max(most, whole);
    } else {
      const by = shorter(sheet, cell);
      const room = by === undefined ? '' : decimalsText(by.digits, by.point);
      least = Math.max(least, measure(text + room));
    }
  }
  return { natural, most, least: Math.max(least, Math.min(natural, 8)) };
}

/** What a cell shows on paper. */
function textOf({ print }: Laid, { at, shown, formula }: CellView): string {
  if (print.formulas && formula !== undefined) return formula;
  const unproven = print.proving?.has(`${at.sheet} ${at.row} ${at.column}`) === true;
  const text = unproven ? `… ${shown.text}` : shown.text;
  return !print.formulas && shown.exact !== undefined ? `≈ ${text}` : text;
}

/** What a number has fewer decimals than its column, as on the screen. */
const shorter = ({ session, print }: Laid, cell: CellView): ReturnType<typeof shorterBy> =>
  print.formulas ? undefined : shorterBy(cell, session);

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

/** The rows of some columns of a part: one table. */
function rowBlocks(
  sheet: Laid,
  part: Part,
  { columns: group, widths }: ColumnGroup,
  columns: readonly number[],
): Block[] {
  const { session, print, name } = sheet;
  const { book } = session;
  const shown = group.map((at) => columns[at] ?? 0);
  // Further columns are those of a table: what only the first column says was said before.
  const rest = group[1] === undefined || group[1] === 1 ? undefined : shown.slice(1);
  const says = (row: number): boolean =>
    rest === undefined ||
    rest.some((column) => book.value({ sheet: print.sheet, row, column }).kind !== 'empty');
  const heads = part.heads.filter(says);
  const rows = part.rows.filter(says);
  const line = (row: number): ReactNode => (
    <tr key={row} className={isBlank(book, print.sheet, row) ? 'is-blank' : undefined}>
      {print.edges ? <th scope="row">{row + 1}</th> : null}
      {cellsOf(sheet, part, row, shown)}
    </tr>
  );
  const all = [...(print.edges ? [EDGE] : []), ...widths];
  const table: TableShape = {
    id: `${print.sheet} ${group[1] ?? 0} ${part.heads.join()} ${part.rows[0] ?? ''}`,
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
        {heads.map(line)}
      </>
    ),
  };
  return rows.map((row, i) => {
    const next = rows[i + 1];
    // A heading is never left alone at a page's foot: what it heads comes with it.
    const isHeading =
      next !== undefined && !isBlank(book, print.sheet, next) && headsRow(sheet, row);
    return {
      key: `${print.sheet} ${group[1] ?? 0} ${row}`,
      node: line(row),
      table,
      ...(isHeading ? { keep: true } : {}),
    };
  });
}

/** Whether the first words of a row are a heading. */
function headsRow({ session, print }: Laid, row: number): boolean {
  const { columns = 0 } = session.book.sheet(print.sheet) ?? {};
  for (let column = 0; column < columns; column += 1) {
    const { value, role } = session.book.cell({ sheet: print.sheet, row, column });
    if (value.kind !== 'empty') return role === 'heading';
  }
  return false;
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

function cellsOf(sheet: Laid, part: Part, row: number, columns: readonly number[]): ReactNode[] {
  const { session, print } = sheet;
  const cells: ReactNode[] = [];
  for (let i = 0; i < columns.length; i += 1) {
    const column = columns[i] ?? 0;
    const cell = session.book.cell({ sheet: print.sheet, row, column });
    const span = spanOf(sheet, part, cell, columns, i);
    const isFormula = print.formulas && cell.formula !== undefined;
    const text = textOf(sheet, cell);
    const by = shorter(sheet, cell);
    cells.push(
      <td
        key={column}
        colSpan={span}
        className={classOf(cell)}
        data-align={isFormula ? undefined : alignOf(sheet, part, cell)}
        data-background={cell.style?.background}
      >
        {isFormula ? brokenAfterSigns(text) : text}
        {by === undefined ? null : <AfterPoint {...by} />}
      </td>,
    );
    i += span - 1;
  }
  return cells;
}

/** A formula that may go on in a new line after a comma or a sign, before it has to within a name. */
const brokenAfterSigns = (formula: string): ReactNode[] =>
  formula.split(/(?<=[,;(*/+&]|[^E]-|.[<>=](?![<>=]))/).flatMap((piece, i) =>
    // biome-ignore lint/suspicious/noArrayIndexKey: pieces stay in their order.
    i === 0 ? [piece] : [<wbr key={i} />, piece],
  );

/** How a cell's words stand. A head stands over its numbers: as the first thing below it does. */
function alignOf(
  { session, print }: Laid,
  { heads, rows }: Part,
  { at, style, shown, role, value }: CellView,
): 'start' | 'centre' | 'end' | undefined {
  const own = style?.align ?? shown.align;
  if (style?.align !== undefined || role === 'note' || value.kind !== 'text') return own;
  if (at.row !== heads.at(-1) && !isHeadRow(session.book, print.sheet, at.row)) return own;
  for (const row of rows) {
    if (row <= at.row) continue;
    const below = session.book.cell({ sheet: print.sheet, row, column: at.column });
    if (below.value.kind !== 'empty') return below.style?.align ?? below.shown.align;
  }
  return own;
}

/** Whether a row is nothing but headings, several of them: the head of what is below it. */
function isHeadRow(book: OpenWorkbook, sheet: string, row: number): boolean {
  const { columns = 0 } = book.sheet(sheet) ?? {};
  let heads = 0;
  for (let column = 0; column < columns; column += 1) {
    const { value, role } = book.cell({ sheet, row, column });
    if (value.kind === 'empty') continue;
    if (role !== 'heading') return false;
    heads += 1;
  }
  return heads > 1;
}

/** How many columns a cell's words take: a head stays over its numbers. */
function spanOf(
  sheet: Laid,
  part: Part,
  cell: CellView,
  columns: readonly number[],
  from: number,
): number {
  if (cell.value.kind !== 'text' || (alignOf(sheet, part, cell) ?? 'start') !== 'start') return 1;
  return overEmpty(sheet, cell.at.row, columns, from);
}

/** Words run over the empty cells at their right, as on the screen; wrapped ones stay in their own. */
function overEmpty(
  { session, print: { sheet } }: Laid,
  row: number,
  columns: readonly number[],
  from: number,
): number {
  const { book } = session;
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
