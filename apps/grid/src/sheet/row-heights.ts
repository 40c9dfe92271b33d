import type { At, CellView, Place } from '@kerfbook/workbook';
import type { GridApi, IRowNode } from 'ag-grid-community';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import { wraps } from '../session/running-over.ts';
import type { Session } from '../session/session.ts';
import { lineHeight, linesOf, lookOf, measurer } from '../session/words-measure.ts';
import { columnId } from './context.ts';
import { type Drawn, type Line, ROW_HEIGHT } from './grid-looks.ts';
import { cellElement } from './highlights.ts';
import { paintCells } from './paint.ts';
import { type Remark, remarkOf } from './remarks.ts';

/** What a cell's edges, the sign of a check and the arrow of a list take of its width, px. */
const EDGES = 19;
const SIGN = 17;
const ARROW = 16;
/** What stands free above and under the lines of a cell at least, and where these fill a row of the usual height, px. */
const FREE = 8;
const TIGHT = 4;
/** The grid has its size when it has not changed for so long, ms. */
const AT_REST = 100;

interface Heights {
  readonly host: HTMLElement;
  readonly grid: GridApi<Line>;
  readonly session: Session;
  readonly sheet: string;
  /** Where each row is drawn. */
  readonly drawn: () => ReadonlyMap<number, Drawn>;
  /** Called where rows became higher or lower. */
  readonly onChange: () => void;
  /** Brings the current cell into sight. */
  readonly show: () => void;
}

/**
 * Rows with wrapped words are as high as these need at their columns' widths, and those with notes as these need in
 * what can be seen of the sheet; all others stay as they are, and a sheet without such words is asked once for them,
 * and no more.
 */
export class RowHeights {
  readonly #of: Heights;
  readonly #resized: ResizeObserver;
  #listed: readonly Place[] = [];
  #mayWrap: ReadonlyMap<number, readonly number[]> = new Map();
  /** Rows that were made higher. */
  #high = new Set<number>();
  /** Notes that are too long for one line, by row and column. */
  #remarks = new Map<number, ReadonlyMap<number, Remark>>();
  /** How much of the sheet can be seen, px. */
  #seen = 0;
  #rest = 0;
  readonly #again = (): void => this.follow();

  constructor(of: Heights) {
    this.#of = of;
    this.#seen = seenOf(of.host);
    document.fonts?.addEventListener('loadingdone', this.#again);
    this.#resized = new ResizeObserver(() => this.#follow());
    this.#resized.observe(of.host);
  }

  stop(): void {
    clearTimeout(this.#rest);
    this.#resized.disconnect();
    document.fonts?.removeEventListener('loadingdone', this.#again);
  }

  /** How high a row is, px. */
  readonly of = (row: number): number =>
    (this.#high.has(row) ? this.#node(row)?.rowHeight : undefined) ?? ROW_HEIGHT;

  /** How a note stands that is too long for one line. */
  remark({ row, column }: Place): Remark | undefined {
    return this.#remarks.get(row)?.get(column);
  }

  /** Looks at rows anew: at those of some cells, or at all where none are given. */
  follow(cells?: readonly At[]): void {
    const { session, sheet, grid, onChange } = this.#of;
    const listed = session.book.sheet(sheet)?.mayWrap ?? [];
    const before = this.#listed;
    if (listed.length === 0 && this.#high.size === 0 && this.#remarks.size === 0) return;
    if (listed !== before) this.#mayWrap = byRow(listed);
    this.#listed = listed;
    const all = cells === undefined || listed !== before;
    const rows = all
      ? new Set([...this.#high, ...this.#remarks.keys(), ...this.#mayWrap.keys()])
      : new Set(cells.filter((at) => at.sheet === sheet).map(({ row }) => row));
    const { higher, otherwise } = this.#set(rows);
    if (otherwise.length > 0) paintCells(grid, sheet, otherwise);
    if (!higher) return;
    grid.onRowHeightChanged();
    onChange();
  }

  /** A column is as wide as its edge was drawn. */
  widened(colId: string | undefined): void {
    if (this.#listed.some(({ column }) => columnId(column) === colId)) this.follow();
  }

  /** The grid became wider or narrower: once it rests, notes stand in what can be seen now. */
  #follow(): void {
    clearTimeout(this.#rest);
    if (seenOf(this.#of.host) === this.#seen) return;
    const rests = (): void => {
      const { host, show } = this.#of;
      this.#seen = seenOf(host);
      const inView = this.#isInView();
      this.follow();
      if (inView && !this.#isInView()) show();
    };
    // Nothing was seen before: nobody waits for a first look.
    if (this.#seen === 0) rests();
    else this.#rest = window.setTimeout(rests, AT_REST);
  }

  #isInView(): boolean {
    const { host, session, sheet } = this.#of;
    const cell = session.at.sheet === sheet ? cellElement(host, session.at) : null;
    const view = viewOf(host)?.getBoundingClientRect();
    if (cell === null || view === undefined) return false;
    const { top, bottom } = cell.getBoundingClientRect();
    return top >= view.top - 1 && bottom <= view.bottom + 1;
  }

  #set(rows: ReadonlySet<number>): { higher: boolean; otherwise: readonly At[] } {
    const { sheet } = this.#of;
    let higher = false;
    const otherwise: At[] = [];
    const measure = measurer();
    for (const row of rows) {
      const columns = this.#mayWrap.get(row) ?? [];
      const before = this.#remarks.get(row);
      if (columns.length === 0 && !this.#high.has(row) && before === undefined) continue;
      const { height, remarks } = this.#needed(row, columns, measure);
      if (remarks.size > 0) this.#remarks.set(row, remarks);
      else this.#remarks.delete(row);
      for (const column of new Set([...(before?.keys() ?? []), ...remarks.keys()])) {
        const [was, is] = [before?.get(column), remarks.get(column)];
        if (was?.lines !== is?.lines || was?.room !== is?.room)
          otherwise.push({ sheet, row, column });
      }
      const node = this.#node(row);
      if (height > ROW_HEIGHT) this.#high.add(row);
      else this.#high.delete(row);
      if (node === undefined || node.rowHeight === height) continue;
      node.setRowHeight(height);
      higher = true;
    }
    return { higher, otherwise };
  }

  #needed(
    row: number,
    columns: readonly number[],
    measure: ReturnType<typeof measurer>,
  ): { height: number; remarks: ReadonlyMap<number, Remark> } {
    const { session, sheet, grid } = this.#of;
    const { hidden = [] } = session.book.sheet(sheet) ?? {};
    const remarks = new Map<number, Remark>();
    let height = ROW_HEIGHT;
    for (const column of columns) {
      if (hidden.includes(column)) continue;
      const cell = session.book.cell({ sheet, row, column });
      const formula = session.state.value.formulas ? cell.formula : undefined;
      const text = formula ?? cell.shown.text;
      const look = lookOf(cell);
      if (wraps(cell)) {
        const width = grid.getColumn(columnId(column))?.getActualWidth() ?? USUAL_WIDTH;
        const lines = linesOf(text, width - roomTaken(cell), (one) => measure(one, look));
        height = Math.max(height, heightOf(lines * lineHeight(look)));
        continue;
      }
      // What stands there in place of the note is no note.
      const remark =
        formula === undefined ? remarkOf(cell, text, this.#seen, session, measure) : undefined;
      if (remark === undefined) continue;
      remarks.set(column, remark);
      height = Math.max(height, heightOf(remark.lines * lineHeight(look)));
    }
    return { height, remarks };
  }

  #node(row: number): IRowNode<Line> | undefined {
    const { grid, drawn } = this.#of;
    const at = drawn().get(row);
    if (at === undefined) return undefined;
    return at.pinned === 'top' ? grid.getPinnedTopRow(at.index) : grid.getRowNode(String(row));
  }
}

const viewOf = (host: HTMLElement): Element | null =>
  host.querySelector('.ag-grid-viewport, .ag-body-viewport');

const seenOf = (host: HTMLElement): number => viewOf(host)?.clientWidth ?? 0;

/**
 * How high a row is for lines of so many px. The first of them stands where the one line of a usual row does: a row
 * is read across. For a finger two lines have room in a usual row.
 */
function heightOf(lines: number): number {
  if (lines + TIGHT <= ROW_HEIGHT) return ROW_HEIGHT;
  return Math.ceil(lines + Math.max(FREE, ROW_HEIGHT - lineHeight('plain')));
}

function roomTaken({ mark, problem, allow }: CellView): number {
  const sign = mark === undefined && problem === undefined ? 0 : SIGN;
  return EDGES + sign + (allow?.list === undefined ? 0 : ARROW);
}

function byRow(places: readonly Place[]): ReadonlyMap<number, readonly number[]> {
  const rows = new Map<number, number[]>();
  for (const { row, column } of places) {
    const columns = rows.get(row);
    if (columns === undefined) rows.set(row, [column]);
    else columns.push(column);
  }
  return rows;
}
