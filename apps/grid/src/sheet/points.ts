import type { At, CellView } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';

/** So many numbers of one kind below each other are a column; fewer stand there by chance. */
const COLUMN = 3;
/** Rows that are looked at together. */
const BLOCK = 64;
/** A longer sheet is data, scrolled through faster than its numbers are compared. */
const LONGEST = 1_000;
const COLUMNS = 1 << 14;

/** Decimals of the columns of numbers within a block, by row. */
type Block = ReadonlyMap<number, number>;

interface Known {
  readonly structures: number;
  readonly sheets: Map<string, Map<number, Block>>;
}

const known = new WeakMap<Session, Known>();

/** How many decimals a number is shown with; undefined where it is none, or is not set by its point. */
function decimalsOf({ value, problem, shown, style }: CellView): number | undefined {
  if (value.kind !== 'number' || problem !== undefined || style?.align !== undefined)
    return undefined;
  if (shown.fraction !== undefined) return undefined;
  return decimalsIn(shown.text);
}

/** How many decimals a number has as it is written; undefined where it is no number set by its point. */
export function decimalsIn(text: string): number | undefined {
  const found = /^-?[^\d.-]*[\d,]+(?:\.(\d+))?$/.exec(text);
  return found === null ? undefined : (found[1]?.length ?? 0);
}

/**
 * What a number is shorter by, behind its point, than the longest of its column: numbers of one kind below each
 * other have their points below each other. `point`: it has none itself.
 */
export function shorterBy(
  cell: CellView,
  session: Session,
): { readonly digits: number; readonly point: boolean } | undefined {
  const own = decimalsOf(cell);
  if (own === undefined) return undefined;
  const { structures } = session.state.value;
  let all = known.get(session);
  if (all?.structures !== structures) {
    all = { structures, sheets: new Map() };
    known.set(session, all);
  }
  const { sheet, row, column } = cell.at;
  const blocks = all.sheets.get(sheet) ?? new Map<number, Block>();
  if (blocks.size === 0) all.sheets.set(sheet, blocks);
  const key = keyOf(row, column);
  const block = blocks.get(key) ?? lookedAt(session, cell.at);
  blocks.set(key, block);
  const longest = block.get(row) ?? own;
  return longest > own ? { digits: longest - own, point: own === 0 } : undefined;
}

const keyOf = (row: number, column: number): number => Math.floor(row / BLOCK) * COLUMNS + column;

/** The columns of numbers in the block that a cell stands in. */
function lookedAt({ book }: Session, { sheet, row: within, column }: At): Block {
  const found = new Map<number, number>();
  const { rows = 0 } = book.sheet(sheet) ?? {};
  if (rows > LONGEST) return found;
  const first = Math.floor(within / BLOCK) * BLOCK;
  const last = Math.min(first + BLOCK, rows);
  let run: { readonly kind: string | undefined; readonly from: number; most: number } | undefined;
  const close = (end: number): void => {
    if (run === undefined || end - run.from < COLUMN) return;
    for (let row = run.from; row < end; row += 1) found.set(row, run.most);
  };
  for (let row = first; row < last; row += 1) {
    const at = { sheet, row, column };
    const cell = book.value(at).kind === 'number' ? book.cell(at) : undefined;
    const decimals = cell === undefined ? undefined : decimalsOf(cell);
    if (run !== undefined && decimals !== undefined && run.kind === cell?.quantity) {
      run.most = Math.max(run.most, decimals);
      continue;
    }
    close(row);
    run = decimals === undefined ? undefined : { kind: cell?.quantity, from: row, most: decimals };
  }
  close(last);
  return found;
}

/** Cells to be painted, and those that stand otherwise by them: whose column has other decimals now. */
export function withAligned(session: Session, cells: readonly At[]): readonly At[] {
  const { sheets } = known.get(session) ?? {};
  if (sheets === undefined || sheets.size === 0) return cells;
  const seen = new Map<string, Set<number>>();
  const moved: At[] = [];
  for (const at of cells) {
    const blocks = sheets.get(at.sheet);
    const key = keyOf(at.row, at.column);
    const before = blocks?.get(key);
    if (before === undefined) continue;
    const done = seen.get(at.sheet) ?? new Set();
    seen.set(at.sheet, done);
    if (done.has(key)) continue;
    done.add(key);
    const now = lookedAt(session, at);
    blocks?.set(key, now);
    for (const row of new Set([...before.keys(), ...now.keys()]))
      if (before.get(row) !== now.get(row)) moved.push({ ...at, row });
  }
  return moved.length === 0 ? cells : [...cells, ...moved];
}
