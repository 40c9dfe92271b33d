import type { Edit, SheetDocument } from '@kerfbook/document';
import type { OpenWorkbook } from '../api.ts';
import { SHOP_COLUMNS, shopTableEdit } from '../book/shop-tables.ts';
import { blankRows } from '../from-shop/shop-reading.ts';
import { rowsInto } from '../from-shop/take-figures.ts';
import type { ListKind } from './types.ts';

/** What is entered under which head, for a row. */
export type RowTexts = Readonly<Record<string, string>>;

/** What adding rows to a table comes to. */
export interface ListTaking {
  /** All rows in one step of undo, with the table where the workbook had none. */
  readonly edit: Edit;
  /** The sheet that the table is on, or will be. */
  readonly sheet: string;
  /** Heads that rows say something for and the table has no column of. */
  readonly missing: readonly string[];
}

/**
 * The edit that adds rows to the parts or stock table of a workbook: into the blank rows at its end, then into new ones
 * before its last, so that ranges over it have them too. A workbook without the table gets one. Nothing is refused here:
 * `apply` answers, as for any edit.
 */
export function takeList(
  book: OpenWorkbook,
  kind: ListKind,
  rows: readonly RowTexts[],
): ListTaking {
  const begin = shopTableEdit(book, kind);
  return begin?.do === 'batch' ? intoNew(kind, rows, begin) : intoOld(book, kind, rows);
}

const WORDS: ReadonlySet<string> = new Set(
  (['parts', 'stock'] as const).flatMap((kind) =>
    SHOP_COLUMNS[kind].filter(({ quantity }) => quantity === 'text').map(({ heads }) => heads),
  ),
);

/** Words stay words, whatever they begin with: a list has no formulas. */
const entriesOf = (texts: RowTexts): readonly (readonly [string, string])[] =>
  Object.entries(texts)
    .filter(([, text]) => text.trim() !== '')
    .map(([head, text]) => [head, WORDS.has(head) && /^[\s=']/.test(text) ? `'${text}` : text]);

function intoOld(book: OpenWorkbook, kind: ListKind, rows: readonly RowTexts[]): ListTaking {
  const table = book.tables().find((one) => one.kind === kind);
  if (table === undefined) return { edit: { do: 'batch', edits: [] }, sheet: '', missing: [] };
  const { sheet, header, last } = table;
  const known = new Set(SHOP_COLUMNS[kind].map(({ heads }) => heads));
  const columns = new Map<string, number>();
  for (let column = 0; column < (book.sheet(sheet)?.columns ?? 0); column += 1) {
    const value = book.value({ sheet, row: header, column });
    const word =
      value.kind === 'text' ? value.text.trim().toLowerCase().replaceAll(/\s+/g, ' ') : '';
    if (known.has(word) && !columns.has(word)) columns.set(word, column);
  }
  const said = new Set(rows.flatMap((texts) => entriesOf(texts).map(([head]) => head)));
  const blank = atTheEnd(blankRows(book, { sheet, first: header + 1, last }), last);
  const adds = rows.map((texts) => ({ texts: entriesOf(texts) }));
  return {
    edit: { do: 'batch', edits: rowsInto(book, { sheet, last, columns }, adds, blank) },
    sheet,
    missing: [...said].filter((head) => !columns.has(head)),
  };
}

/** The blank rows after which nothing more stands: those between other rows part them. */
function atTheEnd(blank: readonly number[], last: number): readonly number[] {
  return blank.filter((row, i) => blank.length - i === last - row + 1);
}

/** Rows of a table that is begun with them; where it has too few rows, it gets more like the last. */
function intoNew(
  kind: ListKind,
  rows: readonly RowTexts[],
  begin: Extract<Edit, { do: 'batch' }>,
): ListTaking {
  let sheet = '';
  const edits = begin.edits.flatMap((edit): readonly Edit[] => {
    if (edit.do !== 'addSheet') return [edit];
    sheet = edit.sheet.id;
    return [{ ...edit, sheet: withRoom(edit.sheet, rows.length) }];
  });
  const added = edits.find((edit) => edit.do === 'addSheet')?.sheet;
  const header = added?.frozenRows ?? 0;
  const heads = SHOP_COLUMNS[kind].filter(({ rare }) => rare !== true).map((one) => one.heads);
  const cells = rows.flatMap((texts, i) =>
    entriesOf(texts).flatMap(([head, text]) => {
      const column = heads.indexOf(head);
      return column < 0 ? [] : [{ row: header + i, column, text }];
    }),
  );
  return {
    edit: { do: 'batch', edits: [...edits, { do: 'enter', sheet, cells }] },
    sheet,
    missing: [],
  };
}

/** The table ends at its last row by id, so that what is put in before it belongs to it. */
function withRoom(sheet: SheetDocument, many: number): SheetDocument {
  const room = sheet.rows.length - (sheet.frozenRows ?? 0);
  const last = sheet.rows.at(-1);
  if (many <= room || last === undefined) return sheet;
  const more = Array.from({ length: many - room }, (_, i) => ({ ...last, id: `more${i + 1}` }));
  return { ...sheet, rows: [...sheet.rows.slice(0, -1), ...more, last] };
}
