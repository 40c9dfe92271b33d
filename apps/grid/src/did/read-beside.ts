import { type Change, type OpenWorkbook, readersOf, type TableView } from '@kerfbook/workbook';
import type { Effect } from '../session/effects.ts';

/** What is made of a table besides cells. */
const MADE_OF: Readonly<Partial<Record<TableView['kind'], readonly string[]>>> = {
  parts: ['the drawing', 'the cut list', 'the buying list'],
  stock: ['the buying list', 'the cutting plan'],
  joints: ['the drawing', 'the joints on the shop sheets'],
};

/**
 * What reads the cells of a change without being a cell itself: who changes the length of a board changes no number on
 * a sheet, and the buying list all the same.
 */
export function readBeside({ changes }: Pick<Effect, 'changes'>, book: OpenWorkbook): string[] {
  const tables = book.tables();
  const found = new Set<string>();
  const add = (words: readonly string[] = []): void => {
    for (const word of words) found.add(word);
  };
  for (const change of changes) {
    if (change.change === 'cells') {
      for (const { row, column } of change.cells) {
        const at = book.placeOf({ sheet: change.sheet, row, column });
        if (at === undefined) continue;
        const table = tables.find(
          ({ sheet, header, last }) => sheet === at.sheet && header <= at.row && at.row <= last,
        );
        if (table !== undefined) add(MADE_OF[table.kind]);
        add(readersOf(book.cell(at).name ?? '').map(({ says }) => says));
      }
    } else if (isOfRows(change)) {
      add(
        tables
          .filter(({ sheet }) => sheet === change.sheet)
          .flatMap(({ kind }) => MADE_OF[kind] ?? []),
      );
    }
  }
  return [...found];
}

const isOfRows = (change: Change): change is Change & { readonly sheet: string } =>
  'list' in change && (change.list === 'rows' || change.list === 'columns') && 'sheet' in change;

/** That nothing came to something else. */
export const NOTHING = 'No results changed.';

/** That no cell came to something else, and what may be another one all the same. */
export function nothingMoved(readers: readonly string[]): string {
  if (readers.length === 0) return NOTHING;
  return `No number on the sheets changed. What reads this besides: ${readers.join(', ')}.`;
}
