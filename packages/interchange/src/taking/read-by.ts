import { nameKey, readWritten, type Token } from '@kerfbook/document';

type Stretch = readonly [first: number, last: number];

/** Ranges over more columns count as one with all others that are as wide: it is enough to be careful there. */
const WIDE = 12;

/** Which cells formulas look at, by their addresses and the names they go by; rather one too many than one too few. */
export class ReadBy {
  /** Rows by sheet and column, as they come. */
  readonly #found = new Map<number, Stretch[]>();
  /** The same in order and apart from each other, once they are asked for. */
  readonly #rows = new Map<number, readonly Stretch[]>();
  /** Around all wide ranges of a sheet. */
  readonly #wide = new Map<number, { readonly rows: Stretch; readonly columns: Stretch }>();
  readonly #names = new Set<string>();
  readonly #indexOf: (name: string) => number | undefined;

  /** @param indexOf a sheet by the name that formulas call it, counted from 0 */
  constructor(indexOf: (name: string) => number | undefined) {
    this.#indexOf = indexOf;
  }

  /**
   * Another formula, with addresses.
   * @param home the sheet it stands on, counted from 0
   */
  add(tokens: readonly Token[], home: number): void {
    for (const { type, value } of tokens) {
      if (type === 'range_named') this.#names.add(nameKey(value));
      const written = type === 'address' ? readWritten(value) : undefined;
      if (written === undefined) continue;
      const sheet = written.sheet === undefined ? home : this.#indexOf(written.sheet);
      if (sheet === undefined) continue;
      const { from, to = from } = written;
      this.#look(sheet, stretch(from.row, to.row), stretch(from.column, to.column));
    }
  }

  #look(sheet: number, rows: Stretch, columns: Stretch): void {
    if (columns[1] - columns[0] >= WIDE) {
      const before = this.#wide.get(sheet) ?? { rows, columns };
      this.#wide.set(sheet, {
        rows: around(before.rows, rows),
        columns: around(before.columns, columns),
      });
      return;
    }
    for (let column = columns[0]; column <= columns[1]; column += 1) {
      const key = sheetColumn(sheet, column);
      const all = this.#found.get(key);
      const last = all?.at(-1);
      this.#rows.delete(key);
      if (all === undefined || last === undefined) this.#found.set(key, [rows]);
      // Formulas one under the other look at cells one under the other, or all at the same.
      else if (last[0] <= rows[0] && rows[0] <= last[1] + 1)
        all[all.length - 1] = around(last, rows);
      else all.push(rows);
    }
  }

  /** Whether a formula looks at a cell. */
  reads(sheet: number, row: number, column: number, name: string | undefined): boolean {
    if (name !== undefined && this.#names.has(nameKey(name))) return true;
    const wide = this.#wide.get(sheet);
    if (wide !== undefined && within(wide.rows, row) && within(wide.columns, column)) return true;
    const all = this.#rowsOf(sheetColumn(sheet, column));
    let [low, high] = [0, all.length - 1];
    while (low <= high) {
      const middle = (low + high) >> 1;
      const [first, last] = all[middle] ?? [0, -1];
      if (row < first) high = middle - 1;
      else if (row > last) low = middle + 1;
      else return true;
    }
    return false;
  }

  #rowsOf(key: number): readonly Stretch[] {
    const known = this.#rows.get(key);
    if (known !== undefined) return known;
    const rows = merged(this.#found.get(key) ?? []);
    this.#rows.set(key, rows);
    return rows;
  }
}

/** Columns that three letters can name. */
const COLUMNS = 18_278;
const sheetColumn = (sheet: number, column: number): number => sheet * COLUMNS + column;

/** A whole row or column says no other bound. */
const stretch = (one = 0, other = Number.POSITIVE_INFINITY): Stretch => [
  Math.min(one, other),
  Math.max(one, other),
];

const around = (one: Stretch, other: Stretch): Stretch => [
  Math.min(one[0], other[0]),
  Math.max(one[1], other[1]),
];

const within = ([first, last]: Stretch, at: number): boolean => first <= at && at <= last;

function merged(all: readonly Stretch[]): readonly Stretch[] {
  const apart: Stretch[] = [];
  for (const one of [...all].sort((a, b) => a[0] - b[0])) {
    const last = apart.at(-1);
    if (last !== undefined && one[0] <= last[1] + 1) apart[apart.length - 1] = around(last, one);
    else apart.push(one);
  }
  return apart;
}
