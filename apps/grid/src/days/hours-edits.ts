import { written } from '@kerfbook/days';
import { knownTable } from '@kerfbook/drawing';
import { type Edit, type OpenWorkbook, SHOP_COLUMNS, shopTableEdit } from '@kerfbook/workbook';
import { blankRowEdits, fieldEdit, isBlankRow } from '../commands/table-fields.ts';

/** What is written down of some work. */
export interface WorkDone {
  readonly operation: string;
  readonly day: number;
  readonly hours?: number;
  /** As it was typed: money is written as the workbook writes it. */
  readonly spent?: string;
  readonly note?: string;
  readonly isDone: boolean;
}

type Head = 'day' | 'operation' | 'hours' | 'spent' | 'done' | 'note';

/** Hours as a cell takes them, to the minute. */
const entryOf = (hours: number): string => `${Math.round(hours * 60)} min`;

const wordsOf = (work: WorkDone): readonly (readonly [head: Head, text: string])[] =>
  (
    [
      ['day', written(work.day)],
      ['operation', work.operation],
      ['hours', work.hours === undefined ? '' : entryOf(work.hours)],
      ['spent', work.spent ?? ''],
      ['done', work.isDone ? 'yes' : ''],
      ['note', work.note ?? ''],
    ] as const
  ).filter(([, text]) => text !== '');

/** The one edit that writes a row into the hours table, which it begins where there is none. */
export function workEdit(book: OpenWorkbook, work: WorkDone): Edit {
  const words = wordsOf(work);
  const table = knownTable(book, 'hours');
  if (table === undefined) return withTable(book, words);
  let row = table.first;
  while (row < table.end && !isBlankRow(book, table, row)) row += 1;
  const begun = row < table.end ? [] : blankRowEdits(book, 'hours', table, row);
  const known = words.filter(([head]) => table.columns.has(head));
  const missing = words.filter(([head]) => !table.columns.has(head));
  const edits: Edit[] = [
    ...begun,
    {
      do: 'enter',
      sheet: table.sheet,
      cells: known.map(([head, text]) => ({ row, column: table.columns.get(head) ?? 0, text })),
    },
    // A table of an older workbook has no such column yet: one comes along.
    ...missing
      .slice(0, 1)
      .map(([head, text]) => fieldEdit(book, { kind: 'hours', table, row, head }, text)),
  ];
  return { do: 'batch', edits };
}

function withTable(
  book: OpenWorkbook,
  words: readonly (readonly [head: Head, text: string])[],
): Edit {
  const begin = shopTableEdit(book, 'hours');
  const edits = begin?.do === 'batch' ? begin.edits : [];
  const added = edits.find((edit) => edit.do === 'addSheet');
  if (added?.do !== 'addSheet') throw new Error('a table comes on a sheet of its own');
  const { sheet } = added;
  const column = (head: Head): number =>
    SHOP_COLUMNS.hours.filter(({ rare }) => rare !== true).findIndex(({ heads }) => heads === head);
  const cells = words.map(([head, text]) => ({
    row: sheet.frozenRows ?? 0,
    column: column(head),
    text,
  }));
  return { do: 'batch', edits: [...edits, { do: 'enter', sheet: sheet.id, cells }] };
}
