import type { At, OpenWorkbook, ShopTable } from '@kerfbook/workbook';

/**
 * What a drawing needs of an open workbook: its units, where its tables are, and what cells come
 * to. Small, so that a drawing can be made (and tested) without an engine.
 */
export type PartsSource = Pick<OpenWorkbook, 'units' | 'tables' | 'sheet' | 'value'>;

/** Something about a parts table its maker should look at. */
export interface PartProblem {
  /** The cell to look at. */
  readonly at: At;
  /** One sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
}

/** Something a cut list or a plan has to do without; whoever shows those names it. */
export interface LeftOut extends PartProblem {
  /** What a maker calls it: a part's name, a board's, or `Row 7`. */
  readonly what: string;
}

/** The first row after a table that is not its own: where another begins, or the sheet ends. */
export function endBelow(
  source: PartsSource,
  { sheet, last }: { readonly sheet: string; readonly last: number },
): number {
  const next = source
    .tables()
    .filter((table) => table.sheet === sheet && table.header > last)
    .map(({ header }) => header);
  return Math.min(source.sheet(sheet)?.rows ?? 0, ...next);
}

/** Tables of one kind beyond the first are not read; each is said, not passed over. */
export function otherTables(source: PartsSource, kind: ShopTable): readonly LeftOut[] {
  const [first, ...others] = source.tables().filter((table) => table.kind === kind);
  const on = (sheet: string): string => source.sheet(sheet)?.name ?? sheet;
  return others.map(({ sheet, header }) => ({
    at: { sheet, row: header, column: 0 },
    what: `The second ${kind} table`,
    says: `This workbook has two ${kind} tables; only the first, on the sheet ${on(first?.sheet ?? '')}, is read. Move the rows of the one on the sheet ${on(sheet)} there.`,
  }));
}
