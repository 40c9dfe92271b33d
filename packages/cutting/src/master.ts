/** A way to fill one board: how many of each size, on a board of which kind. */
export interface Pattern {
  readonly kind: number;
  readonly counts: readonly number[];
}

/** A column of the linear program, in its own rows. */
interface Column {
  readonly cost: number;
  readonly entries: readonly (readonly [row: number, value: number])[];
  readonly pattern: Pattern | undefined;
}

const EPS = 1e-9;

/**
 * The linear program "least price of fractional boards that give every part", as a revised simplex
 * with a dense inverse of the basis. Rows are the sizes still wanted (`≥`) and then the kinds of
 * board there are only some of (`≤`).
 */
export class Master {
  readonly #rows: number;
  readonly #wanted: readonly number[];
  readonly #rowOfKind: ReadonlyMap<number, number>;
  readonly #inverse: Float64Array;
  readonly #x: Float64Array;
  readonly #basis: Column[];
  readonly #slack: Column[];

  /**
   * @param wanted sizes with a demand above 0, by index
   * @param limited kinds with a supply, by index
   * @param start one column for each wanted size that gives only that size
   */
  constructor(
    wanted: readonly number[],
    limited: readonly number[],
    demand: readonly number[],
    supply: readonly number[],
    start: readonly { readonly cost: number; readonly pattern?: Pattern }[],
  ) {
    this.#wanted = wanted;
    this.#rows = wanted.length + limited.length;
    this.#rowOfKind = new Map(limited.map((kind, k) => [kind, wanted.length + k]));
    this.#inverse = new Float64Array(this.#rows * this.#rows);
    this.#x = new Float64Array(this.#rows);
    // Giving more than is wanted costs nothing; so does leaving a board.
    this.#slack = [
      ...wanted.map((_, row): Column => ({ cost: 0, entries: [[row, -1]], pattern: undefined })),
      ...limited.map(
        (_, k): Column => ({ cost: 0, entries: [[wanted.length + k, 1]], pattern: undefined }),
      ),
    ];
    const first = wanted.map((size, row): Column => {
      const { cost, pattern } = start[row] as { cost: number; pattern?: Pattern };
      return { cost, entries: [[row, pattern?.counts[size] ?? 1]], pattern };
    });
    this.#basis = [...first, ...this.#slack.slice(wanted.length)];
    this.#basis.forEach((column, row) => {
      const value = column.entries[0]?.[1] ?? 1;
      this.#inverse[row * this.#rows + row] = 1 / value;
      const right =
        row < wanted.length
          ? demand[wanted[row] as number]
          : supply[limited[row - wanted.length] as number];
      this.#x[row] = (right as number) / value;
    });
  }

  /** Prices of one piece of each wanted size, then of one board of each limited kind (≤ 0). */
  duals(): Float64Array {
    const duals = new Float64Array(this.#rows);
    for (let row = 0; row < this.#rows; row += 1) {
      const cost = (this.#basis[row] as Column).cost;
      if (cost === 0) continue;
      const at = row * this.#rows;
      for (let k = 0; k < this.#rows; k += 1) {
        duals[k] = (duals[k] as number) + cost * (this.#inverse[at + k] as number);
      }
    }
    return duals;
  }

  /** Lets the slack whose price has the wrong sign in; false where none has. */
  enterSlack(duals: Float64Array): boolean {
    let worst = -1;
    let most = EPS * 100;
    for (let row = 0; row < this.#rows; row += 1) {
      const wrong = row < this.#wanted.length ? -(duals[row] as number) : (duals[row] as number);
      if (wrong > most) {
        most = wrong;
        worst = row;
      }
    }
    return worst >= 0 && this.#enter(this.#slack[worst] as Column);
  }

  /** Lets a pattern in. False where it cannot leave a vertex, which only noise brings about. */
  enterPattern(pattern: Pattern, cost: number): boolean {
    const entries: [number, number][] = [];
    this.#wanted.forEach((size, row) => {
      const count = pattern.counts[size] as number;
      if (count > 0) entries.push([row, count]);
    });
    const row = this.#rowOfKind.get(pattern.kind);
    if (row !== undefined) entries.push([row, 1]);
    return this.#enter({ cost, entries, pattern });
  }

  /** What a pattern saves for one board at these duals. */
  saving(pattern: Pattern, cost: number, duals: Float64Array): number {
    let sum = -cost;
    for (let row = 0; row < this.#wanted.length; row += 1) {
      sum += (pattern.counts[this.#wanted[row] as number] as number) * (duals[row] as number);
    }
    const row = this.#rowOfKind.get(pattern.kind);
    return row === undefined ? sum : sum + (duals[row] as number);
  }

  /** Boards of each pattern in use. */
  solution(): { readonly pattern: Pattern; readonly boards: number }[] {
    return this.#basis.flatMap(({ pattern }, row) => {
      const boards = this.#x[row] as number;
      return pattern !== undefined && boards > EPS ? [{ pattern, boards }] : [];
    });
  }

  #enter(column: Column): boolean {
    const rows = this.#rows;
    const direction = new Float64Array(rows);
    for (const [k, value] of column.entries) {
      for (let row = 0; row < rows; row += 1) {
        direction[row] =
          (direction[row] as number) + (this.#inverse[row * rows + k] as number) * value;
      }
    }
    const leaving = this.#leaving(direction);
    if (leaving < 0) return false;
    const pivot = direction[leaving] as number;
    const step = (this.#x[leaving] as number) / pivot;
    const from = leaving * rows;
    for (let k = 0; k < rows; k += 1) {
      this.#inverse[from + k] = (this.#inverse[from + k] as number) / pivot;
    }
    for (let row = 0; row < rows; row += 1) {
      const times = direction[row] as number;
      if (row === leaving || times === 0) continue;
      this.#x[row] = Math.max(0, (this.#x[row] as number) - step * times);
      const at = row * rows;
      for (let k = 0; k < rows; k += 1) {
        this.#inverse[at + k] =
          (this.#inverse[at + k] as number) - times * (this.#inverse[from + k] as number);
      }
    }
    this.#x[leaving] = step;
    this.#basis[leaving] = column;
    return true;
  }

  /** The row that reaches zero first; of several, the one with the largest pivot. */
  #leaving(direction: Float64Array): number {
    let leaving = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row < this.#rows; row += 1) {
      const down = direction[row] as number;
      if (down <= EPS) continue;
      const ratio = (this.#x[row] as number) / down;
      const tied = ratio <= least + EPS && leaving >= 0 && down > (direction[leaving] as number);
      if (ratio < least - EPS || (tied && ratio <= least + EPS)) {
        least = Math.min(least, ratio);
        leaving = row;
      }
    }
    return leaving;
  }
}
