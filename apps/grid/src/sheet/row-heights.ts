import type { At, CellView, Place } from '@kerfbook/workbook';
import type { GridApi, IRowNode } from 'ag-grid-community';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import { wraps } from '../session/running-over.ts';
import type { Session } from '../session/session.ts';
import { lineHeight, linesOf, lookOf, measurer } from '../session/words-measure.ts';
import { columnId } from './context.ts';
import { type Drawn, type Line, ROW_HEIGHT } from './grid-looks.ts';

/** What a cell's edges, the sign of a check and the arrow of a list take of its width, px. */
const EDGES = 19;
const SIGN = 17;
const ARROW = 16;
/** What stands free above and under the lines of a cell, px. */
const FREE = 8;

interface Heights {
  readonly grid: GridApi<Line>;
  readonly session: Session;
  readonly sheet: string;
  /** Where each row is drawn. */
  readonly drawn: () => ReadonlyMap<number, Drawn>;
  /** Called where rows became higher or lower. */
  readonly onChange: () => void;
}

/**
 * Rows with wrapped words are as high as these need at their columns' widths; all others stay as they are, and
 * a sheet without such words is asked once for them, and no more.
 */
export class RowHeights {
  readonly #of: Heights;
  #listed: readonly Place[] = [];
  #wrapped: ReadonlyMap<number, readonly number[]> = new Map();
  /** Rows that were made higher. */
  #high = new Set<number>();
  readonly #again = (): void => this.follow();

  constructor(of: Heights) {
    this.#of = of;
    this.follow();
    document.fonts?.addEventListener('loadingdone', this.#again);
  }

  stop(): void {
    document.fonts?.removeEventListener('loadingdone', this.#again);
  }

  /** How high a row is, px. */
  readonly of = (row: number): number =>
    (this.#high.has(row) ? this.#node(row)?.rowHeight : undefined) ?? ROW_HEIGHT;

  /** Looks at rows anew: at those of some cells, or at all where none are given. */
  follow(cells?: readonly At[]): void {
    const { session, sheet, grid, onChange } = this.#of;
    const listed = session.book.sheet(sheet)?.wrapped ?? [];
    const before = this.#listed;
    if (listed.length === 0 && this.#high.size === 0) return;
    if (listed !== before) this.#wrapped = byRow(listed);
    this.#listed = listed;
    const all = cells === undefined || listed !== before;
    const rows = all
      ? new Set([...this.#high, ...this.#wrapped.keys()])
      : new Set(cells.filter((at) => at.sheet === sheet).map(({ row }) => row));
    if (this.#set(rows)) {
      grid.onRowHeightChanged();
      onChange();
    }
  }

  /** A column is as wide as its edge was drawn. */
  widened(colId: string | undefined): void {
    if (this.#listed.some(({ column }) => columnId(column) === colId)) this.follow();
  }

  #set(rows: ReadonlySet<number>): boolean {
    let changed = false;
    const measure = measurer();
    for (const row of rows) {
      const columns = this.#wrapped.get(row);
      if (columns === undefined && !this.#high.has(row)) continue;
      const node = this.#node(row);
      const height = this.#needed(row, columns ?? [], measure);
      if (height > ROW_HEIGHT) this.#high.add(row);
      else this.#high.delete(row);
      if (node === undefined || node.rowHeight === height) continue;
      node.setRowHeight(height);
      changed = true;
    }
    return changed;
  }

  #needed(row: number, columns: readonly number[], measure: ReturnType<typeof measurer>): number {
    const { session, sheet, grid } = this.#of;
    const { hidden = [] } = session.book.sheet(sheet) ?? {};
    let height = ROW_HEIGHT;
    for (const column of columns) {
      const cell = session.book.cell({ sheet, row, column });
      if (hidden.includes(column) || !wraps(cell)) continue;
      const width = grid.getColumn(columnId(column))?.getActualWidth() ?? USUAL_WIDTH;
      const text = (session.state.value.formulas ? cell.formula : undefined) ?? cell.shown.text;
      const look = lookOf(cell);
      const lines = linesOf(text, width - roomTaken(cell), (one) => measure(one, look));
      height = Math.max(height, Math.ceil(lines * lineHeight(look) + FREE));
    }
    return height;
  }

  #node(row: number): IRowNode<Line> | undefined {
    const { grid, drawn } = this.#of;
    const at = drawn().get(row);
    if (at === undefined) return undefined;
    return at.pinned === 'top' ? grid.getPinnedTopRow(at.index) : grid.getRowNode(String(row));
  }
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
