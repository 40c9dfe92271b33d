import { columnName, writtenSheet } from '@kerfbook/document';
import type { FlatBook, FlatCell, FlatSheet } from '../flat/flat-book.ts';
import { sheetNames } from '../flat/sheet-names.ts';

/** Letters that the entries of a list may have together in a formula (ECMA-376 part 1, 18.3.1.33). */
const LONGEST_LIST = 255;

/** The entries that cells take, as formulas; long lists stand on a hidden sheet of their own. */
export class Lists {
  readonly #name: string;
  readonly #columns = new Map<string, readonly string[]>();

  constructor(book: FlatBook) {
    [this.#name = 'Lists'] = sheetNames(
      ['Lists'],
      book.sheets.map(({ name }) => name),
    );
  }

  /** What stands in a rule for the entries. */
  formula(list: readonly string[]): string {
    const joined = list.join(',');
    const isPlain = list.every(
      (entry) => !/[",]/.test(entry) && entry.trim() === entry && entry !== '',
    );
    if (isPlain && joined.length <= LONGEST_LIST && joined !== '') return `"${joined}"`;
    const key = JSON.stringify(list);
    this.#columns.set(key, list);
    const letters = columnName([...this.#columns.keys()].indexOf(key));
    return `${writtenSheet(this.#name)}!$${letters}$1:$${letters}$${Math.max(1, list.length)}`;
  }

  /** The sheet, where a list needs it. */
  sheet(): FlatSheet | undefined {
    if (this.#columns.size === 0) return undefined;
    const cells = [...this.#columns.values()].flatMap((list, column) =>
      list.map(
        (text, row): FlatCell => ({
          row,
          column,
          value: { kind: 'text', text },
          format: '@',
          look: {},
        }),
      ),
    );
    return {
      name: this.#name,
      isHidden: true,
      isLocked: false,
      columns: [],
      rows: [],
      frozen: { rows: 0, columns: 0 },
      cells: cells.sort((a, b) => a.row - b.row || a.column - b.column),
      marks: [],
    };
  }
}
