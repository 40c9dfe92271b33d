import { type At, LIMITS } from '@kerfbook/workbook';

/** Something about cells, found without a name made up for each: every cell that scrolls by asks. */
export class ByCell<T> {
  readonly #sheets = new Map<string, Map<number, T>>();

  get({ sheet, row, column }: At): T | undefined {
    return this.#sheets.get(sheet)?.get(row * LIMITS.columns + column);
  }

  set({ sheet, row, column }: At, value: T): void {
    const cells = this.#sheets.get(sheet) ?? new Map<number, T>();
    if (cells.size === 0) this.#sheets.set(sheet, cells);
    cells.set(row * LIMITS.columns + column, value);
  }
}
