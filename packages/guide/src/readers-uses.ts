import {
  type At,
  type BookState,
  type Formula,
  formulaOf,
  type KeptReference,
  nameKey,
  nodesOf,
  type TableDocument,
} from '@kerfbook/document';
import { ownKindsIn } from '@kerfbook/workbook';

/** What the formulas of a workbook read, which is kept by ids. */
export class Uses {
  readonly #state: BookState;

  constructor(state: BookState) {
    this.#state = state;
  }

  /** The cell of a name; none where there is no such name. */
  named(name: string): readonly At[] {
    const at = this.#state.named(name);
    return at === undefined ? [] : [at];
  }

  /** Adds these cells and all that they rest on, by their keys. */
  follow(begin: readonly At[], rests: Set<string>): void {
    const waiting = [...begin];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      const key = keyOf(at);
      if (rests.has(key)) continue;
      rests.add(key);
      const cell = this.#state.cell(at);
      const formula = cell === undefined ? undefined : formulaOf(cell);
      if (formula !== undefined) waiting.push(...this.usedIn(formula, at.sheet));
    }
  }

  /** Cells that a formula reads, those of the maker's own tables too; `home` is the sheet it stands on. */
  usedIn(formula: Formula, home: string): readonly At[] {
    const { root } = formula;
    if (root === undefined) return [];
    const own: ReadonlySet<string> = ownKindsIn(formula);
    // Of two tables of a kind functions look in the first.
    const used = this.#state.tables
      .filter(
        ({ kind }, i, all) => own.has(kind) && all.findIndex((one) => one.kind === kind) === i,
      )
      .flatMap((table) => [...cellsOf(this.#state, table)]);
    for (const node of nodesOf(root)) {
      if (node.kind === 'name') used.push(...this.named(nameKey(node.name)));
      if (node.kind === 'reference') used.push(...this.#cellsOf(node.to, home));
    }
    return used;
  }

  #cellsOf({ sheet: id, from, to = from }: KeptReference, home: string): readonly At[] {
    const sheet = this.#state.sheet(id ?? home);
    if (sheet === undefined) return [];
    const [top, bottom] = between(from.row, to.row, sheet.rows.length, (row) =>
      sheet.rowIndex(row),
    );
    const [left, right] = between(from.column, to.column, sheet.columns.length, (column) =>
      sheet.columnIndex(column),
    );
    const cells: At[] = [];
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        cells.push({ sheet: sheet.id, row, column });
      }
    }
    return cells;
  }
}

/** The rows of a table, its head first. */
export function rowsOf(
  state: BookState,
  { sheet, header, last }: TableDocument,
): readonly number[] {
  const [from, to] = [header, last].map((row) => state.rowIndex(sheet, row));
  if (from === undefined || to === undefined) return [];
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/** The cells of these rows, over the whole width of the sheet. */
export function cellsOf(state: BookState, table: TableDocument): readonly At[] {
  const columns = state.sheet(table.sheet)?.columns ?? [];
  return rowsOf(state, table).flatMap((row) =>
    columns.map((_, column) => ({ sheet: table.sheet, row, column })),
  );
}

/** From where to where a reference goes; the whole sheet where it names no line. */
function between(
  one: string | undefined,
  other: string | undefined,
  count: number,
  at: (id: string) => number | undefined,
): readonly [number, number] {
  if (one === undefined || other === undefined) return [0, count - 1];
  const [a = 0, b = 0] = [at(one), at(other)];
  return [Math.min(a, b), Math.max(a, b)];
}

/** By what a cell is known in a set. */
export const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
