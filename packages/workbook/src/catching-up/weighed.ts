import type { At } from '@kerfbook/document';
import type { CheckState, OpenWorkbook } from '../api.ts';

/** What a workbook would come to with some choices. */
export interface Weighed {
  /** The results that matter most, in their order. */
  readonly results: readonly {
    readonly name: string;
    readonly label: string;
    readonly shown: string;
  }[];
  /** Every check with its state. */
  readonly checks: readonly Pick<CheckState, 'id' | 'name' | 'state' | 'says'>[];
  /** How many rows of parts show something else than in the workbook at hand. */
  readonly parts: number;
  /** What the cell that is chosen about comes to then. */
  readonly comes: string;
}

/** Rows of parts by ids, with what each shows. */
export type PartRows = ReadonlyMap<string, string>;

/** What a workbook comes to, beside the parts of the one at hand. */
export function weighed(book: OpenWorkbook, parts: PartRows, comes = ''): Weighed {
  return {
    results: book.results.flatMap((name) => {
      const cell = book.named(name);
      if (cell === undefined) return [];
      return [{ name, label: labelOf(book, cell.at, name), shown: withUnit(book, cell.at) }];
    }),
    checks: book.checks(),
    parts: differing(parts, partRows(book)),
    comes,
  };
}

const labelOf = (book: OpenWorkbook, at: At, name: string): string => {
  const label = book.labelOf(at);
  return label === book.addressOf(at) ? name : label;
};

/** What a cell shows, with its unit. */
export function withUnit(book: OpenWorkbook, at: At): string {
  const { shown, unit } = book.cell(at);
  return unit === '' || shown.text === '' ? shown.text : `${shown.text} ${unit}`;
}

/** What each row of a parts table shows, by ids. */
export function partRows(book: OpenWorkbook): PartRows {
  const rows = new Map<string, string>();
  for (const { kind, sheet, header, last } of book.tables()) {
    if (kind !== 'parts') continue;
    const columns = book.sheet(sheet)?.columns ?? 0;
    for (let row = header + 1; row <= last; row += 1) {
      const texts: string[] = [];
      for (let column = 0; column < columns; column += 1) {
        texts.push(book.cell({ sheet, row, column }).shown.text);
      }
      const id = book.idsAt({ sheet, row, column: 0 })?.row;
      if (texts.some((text) => text !== '')) rows.set(`${sheet} ${id}`, texts.join('\n'));
    }
  }
  return rows;
}

function differing(one: PartRows, other: PartRows): number {
  let count = 0;
  for (const key of new Set([...one.keys(), ...other.keys()])) {
    if (one.get(key) !== other.get(key)) count += 1;
  }
  return count;
}
