import { type CellView, columnName, type OpenWorkbook } from '@kerfbook/workbook';
import type { ReactNode } from 'react';
import type { Area } from '../session/area.ts';
import type { Block, TableShape } from './blocks.tsx';

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

interface SheetOnPaper {
  readonly blocks: readonly Block[];
  /** Width of the table at full size, mm. */
  readonly width: number;
}

const MM_PER_PX = 25.4 / 96;
const EDGE = 36;
const USUAL = 100;
/** A formula needs more room than what it comes to. */
const FORMULA = 220;

/** A sheet as pieces of paper: a row each, kept rows as the head of every page. */
export function sheetBlocks(book: OpenWorkbook, print: SheetPrint): SheetOnPaper {
  const view = book.sheet(print.sheet);
  const area = usedArea(book, print.sheet);
  if (view === undefined || area === undefined) {
    const node = <p>There is nothing on this sheet to print.</p>;
    return { blocks: [{ key: `${print.sheet} empty`, node }], width: 0 };
  }
  const columns = seen(area.left, area.right, view.hidden);
  const rows = seen(area.top, area.bottom, view.hiddenRows);
  const widthOf = (column: number): number =>
    Math.max(view.widths[column] ?? USUAL, print.formulas ? FORMULA : 0);
  const widths = [...(print.edges ? [EDGE] : []), ...columns.map(widthOf)];
  const kept = rows.filter((row) => row < view.frozenRows);
  const line = (row: number): ReactNode => (
    <tr key={row}>
      {print.edges ? <th scope="row">{row + 1}</th> : null}
      {cellsOf(book, print, row, columns)}
    </tr>
  );
  const shape: TableShape = {
    id: print.sheet,
    says: view.name,
    className: print.edges ? 'sheet-paper has-edges' : 'sheet-paper',
    columns: (
      <colgroup>
        {widths.map((width, i) => (
          <col key={columnKey(i)} style={{ width: `${width}px` }} />
        ))}
      </colgroup>
    ),
    head: (
      <>
        {print.edges ? (
          <tr>
            <td />
            {columns.map((column) => (
              <th key={column} scope="col">
                {columnName(column)}
              </th>
            ))}
          </tr>
        ) : null}
        {kept.map(line)}
      </>
    ),
  };
  const body = rows.filter((row) => row >= view.frozenRows);
  const title = <h2>{view.name}</h2>;
  return {
    blocks: [
      { key: `${print.sheet} title`, node: title, keep: true, fresh: true },
      ...unprovenBlocks(print),
      ...body.map((row) => ({ key: `${print.sheet} ${row}`, node: line(row), table: shape })),
      ...(print.remarks ? remarkBlocks(book, print.sheet, area) : []),
    ],
    width: widths.reduce((sum, width) => sum + width, 0) * MM_PER_PX,
  };
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
  book: OpenWorkbook,
  print: SheetPrint,
  row: number,
  columns: readonly number[],
): ReactNode[] {
  const cells: ReactNode[] = [];
  for (let i = 0; i < columns.length; i += 1) {
    const column = columns[i] ?? 0;
    const cell = book.cell({ sheet: print.sheet, row, column });
    const unproven = print.proving?.has(`${print.sheet} ${row} ${column}`) === true;
    const shown = unproven ? `… ${cell.shown.text}` : cell.shown.text;
    const text = print.formulas ? (cell.formula ?? shown) : shown;
    const span = cell.value.kind === 'text' ? overEmpty(book, print.sheet, row, columns, i) : 1;
    cells.push(
      <td
        key={column}
        colSpan={span}
        className={classOf(cell)}
        data-align={cell.style?.align ?? cell.shown.align}
        data-background={cell.style?.background}
      >
        {!print.formulas && cell.shown.exact !== undefined ? `≈ ${text}` : text}
      </td>,
    );
    i += span - 1;
  }
  return cells;
}

/** Words run over the empty cells at their right, as on the screen. */
function overEmpty(
  book: OpenWorkbook,
  sheet: string,
  row: number,
  columns: readonly number[],
  from: number,
): number {
  let span = 1;
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
