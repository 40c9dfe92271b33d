import { type At, type BookState, parseAddress, type SheetState } from '@kerfbook/document';
import type { CellView, SheetView, TableView } from '../api.ts';

/** `Base!B7`, `$B$7`, `'My parts'!A1` or a name, to a place; `undefined` when it is none. */
export function findPlace(state: BookState, text: string, sheet?: string): At | undefined {
  const named = state.named(text.trim());
  if (named !== undefined) return named;
  const parsed = parseAddress(text.trim());
  if (parsed === undefined) return undefined;
  const home = parsed.sheet === undefined ? sheet : state.sheetId(parsed.sheet);
  if (home === undefined || state.sheet(home) === undefined) return undefined;
  return { sheet: home, row: parsed.row, column: parsed.column };
}

export function tableViews(state: BookState): readonly TableView[] {
  return state.tables.flatMap((table) => {
    const header = state.rowIndex(table.sheet, table.header);
    const last = state.rowIndex(table.sheet, table.last);
    if (header === undefined || last === undefined) return [];
    return [{ id: table.id, kind: table.kind, sheet: table.sheet, header, last }];
  });
}

/** A cell in error, or with an entry that cannot be read or is not allowed. */
export interface FoundProblem {
  /** The cell. */
  readonly at: At;
  /** With the sheet's name: `Base!B7`. */
  readonly address: string;
  /** The error as the cell shows it, such as `#NUM!`; `#VALUE!` for an entry. */
  readonly word: string;
  /** What is wrong, in one sentence. */
  readonly says: string;
  /** The cell where it began, where that is another cell. */
  readonly from?: At;
}

/** Cells in error and entries that cannot be read or are not allowed, in sheet order. */
export function listProblems(
  { state }: { readonly state: BookState },
  view: (at: At) => CellView,
): readonly FoundProblem[] {
  const found: FoundProblem[] = [];
  for (const sheet of state.sheets) {
    for (let row = 0; row < sheet.rows.length; row += 1) {
      const columns = [...(sheet.rows[row]?.cells.keys() ?? [])].map(
        (id) => sheet.columnIndex(id) ?? 0,
      );
      for (const column of columns.sort((a, b) => a - b)) {
        const cell = view({ sheet: sheet.id, row, column });
        const problem = problemOf(cell);
        if (problem === undefined) continue;
        found.push({ at: cell.at, address: `${sheet.name}!${cell.address}`, ...problem });
      }
    }
  }
  return found;
}

function problemOf(cell: CellView): Pick<FoundProblem, 'word' | 'says' | 'from'> | undefined {
  if (cell.problem !== undefined) return { word: '#VALUE!', says: cell.problem.says };
  if (cell.value.kind !== 'error') return undefined;
  return cell.value.error;
}

export function sheetView(sheet: SheetState): SheetView {
  return {
    id: sheet.id,
    name: sheet.name,
    isHidden: sheet.isHidden,
    rows: sheet.rows.length,
    columns: sheet.columns.length,
    widths: sheet.columns.map((column) => column.width),
    hidden: sheet.columns.flatMap(({ hidden }, at) => (hidden === true ? [at] : [])),
    hiddenRows: sheet.outline.hidden,
    frozenColumns: sheet.frozenColumns ?? 0,
    frozenRows: sheet.frozenRows ?? 0,
    groups: sheet.outline.groups,
    mayWrap: sheet.mayWrap,
  };
}
