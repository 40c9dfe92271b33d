import { nameKey, readWritten, tokensOf } from '@kerfbook/document';

/** A formula that was taken, with addresses, and the sheet it stands on, counted from 0. */
export interface TakenFormula {
  readonly a1: string;
  readonly sheet: number;
}

type Stretch = readonly [first: number, last: number];

/** Ranges over more columns count as one with all others that are as wide: it is enough to be careful there. */
const WIDE = 12;

/** Which cells formulas look at, by their addresses and the names they go by; rather one too many than one too few. */
export class ReadBy {
  /** Rows by `sheet column`, in order and apart from each other. */
  readonly #rows: ReadonlyMap<string, readonly Stretch[]>;
  /** Around all wide ranges of a sheet. */
  readonly #wide = new Map<number, { readonly rows: Stretch; readonly columns: Stretch }>();
  readonly #names = new Set<string>();

  /** @param indexOf a sheet by the name that formulas call it, counted from 0 */
  constructor(formulas: readonly TakenFormula[], indexOf: (name: string) => number | undefined) {
    const found = new Map<string, Stretch[]>();
    for (const { a1, sheet } of formulas) {
      for (const { type, value } of tokensOf(a1)) {
        if (type === 'range_named') this.#names.add(nameKey(value));
        const written = type === 'address' ? readWritten(value) : undefined;
        const on = written?.sheet === undefined ? sheet : indexOf(written.sheet);
        if (written === undefined || on === undefined) continue;
        const { from, to = from } = written;
        const [rows, columns] = [stretch(from.row, to.row), stretch(from.column, to.column)];
        if (columns[1] - columns[0] >= WIDE) {
          const before = this.#wide.get(on) ?? { rows, columns };
          this.#wide.set(on, {
            rows: around(before.rows, rows),
            columns: around(before.columns, columns),
          });
          continue;
        }
        for (let column = columns[0]; column <= columns[1]; column += 1) {
          const key = `${on} ${column}`;
          const all = found.get(key);
          if (all === undefined) found.set(key, [rows]);
          else all.push(rows);
        }
      }
    }
    this.#rows = new Map([...found].map(([key, all]) => [key, merged(all)]));
  }

  /** Whether a formula looks at a cell. */
  reads(sheet: number, row: number, column: number, name: string | undefined): boolean {
    if (name !== undefined && this.#names.has(nameKey(name))) return true;
    const wide = this.#wide.get(sheet);
    if (wide !== undefined && within(wide.rows, row) && within(wide.columns, column)) return true;
    const all = this.#rows.get(`${sheet} ${column}`) ?? [];
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
}

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
