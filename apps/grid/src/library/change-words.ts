import {
  type BookDocument,
  type CellChange,
  type CellIds,
  type Change,
  columnName,
  headWords,
} from '@kerfbook/workbook';

/** What changes by id are told by: the workbook as it stands now, as far as it can be read. */
export type Standing = Pick<BookDocument, 'sheets' | 'checks'> & {
  /** What a cell goes by now, where more than its address is known; left out where the workbook is not open. */
  readonly called?: (ids: CellIds) => string | undefined;
};

/** The name of a sheet today; its id where it is gone. */
export const sheetNamed = ({ sheets }: Standing, id: string): string =>
  sheets.find((sheet) => sheet.id === id)?.name ?? `Sheet ${id}`;

/** What was said of the workbook as a whole: `The workbook's title: Ash`. */
export function headSays(what: string, to: unknown): string {
  if (what === 'locked') return to === true ? 'Formulas locked' : 'Formulas unlocked';
  if ((what === 'letterhead' || what === 'guide' || what === 'photos') && to !== null) {
    return `The workbook's ${headWords(what)} changed`;
  }
  return `The workbook's ${headWords(what)}: ${said(to)}`;
}

/**
 * A change in words, a line for each thing it changes. It knows ids alone, so cells, rows and columns are
 * told by where they stand now, or as gone.
 */
export function changeInWords(change: Change, book: Standing): readonly string[] {
  switch (change.change) {
    case 'cells':
      return change.cells.map((cell) => cellWords(cell, change.sheet, book));
    case 'head':
      return Object.entries(change.set).map(([what, to]) => headSays(what, to));
    case 'insert':
      return [insertWords(change, book)];
    case 'remove':
      return [`${which(change, change.ids, book)} removed`];
    case 'order':
      return [`${which(change, change.ids, book)} moved`];
    case 'set': {
      const ids = 'ids' in change ? change.ids : [change.id];
      const set = Object.entries(change.set).map(([what, to]) => propertyWords(what, to));
      return [`${which(change, ids, book)}: ${set.join(', ')}`];
    }
  }
}

/** `Base B5, top_length: 96` */
function cellWords({ row, column, cell }: CellChange, sheet: string, book: Standing): string {
  const there = book.sheets.find(({ id }) => id === sheet);
  const across = there?.columns.findIndex(({ id }) => id === column) ?? -1;
  const down = there?.rows.findIndex(({ id }) => id === row) ?? -1;
  const name = cell?.name ?? there?.rows[down]?.cells?.[column]?.name;
  const on = sheetNamed(book, sheet);
  const gone = `A cell on ${on} that is gone`;
  const where = across < 0 || down < 0 ? gone : `${on} ${columnName(across)}${down + 1}`;
  const called = book.called?.({ sheet, row, column });
  const entry = cell?.override?.value ?? cell?.formula ?? cell?.value ?? '';
  const full = called ?? `${where}${name === undefined ? '' : `, ${name}`}`;
  return `${full}: ${cell === null ? 'cleared' : said(entry)}`;
}

const MANY = {
  sheets: ['sheet', 'sheets'],
  rows: ['row', 'rows'],
  columns: ['column', 'columns'],
  checks: ['check', 'checks'],
  tables: ['table', 'tables'],
} as const;

type Listed = Extract<Change, { readonly list: string }>;
type Inserted = Extract<Change, { readonly change: 'insert' }>;

function insertWords(change: Inserted, book: Standing): string {
  const { after, items } = change;
  const named = items.flatMap((item) => ('name' in item ? [item.name] : []));
  const what = `${items.length} ${MANY[change.list][items.length === 1 ? 0 : 1]}`;
  const names = named.length === 0 ? '' : ` (${named.join(', ')})`;
  const place = after === null ? 'at the start' : `after ${which(change, [after], book, '')}`;
  const on = 'sheet' in change ? ` on ${sheetNamed(book, change.sheet)}` : '';
  return `${what}${names} inserted${change.list === 'tables' ? '' : ` ${place}`}${on}`;
}

/** `Rows 5, 6 on Base`, `The check Knees`, `2 rows on Base that are gone` */
function which(list: Listed, ids: readonly string[], book: Standing, where?: string): string {
  const on = where ?? ('sheet' in list ? ` on ${sheetNamed(book, list.sheet)}` : '');
  const [single, many] = MANY[list.list];
  const known = ids.flatMap((id) => memberName(list, id, book) ?? []);
  const lost = ids.length - known.length;
  const word = known.length === 1 ? single : many;
  const first = known.length === 0 ? [] : [`${word} ${known.join(', ')}`];
  const gone = lost === 0 ? [] : [`${lost} ${lost === 1 ? single : many} no longer there`];
  return `${[...first, ...gone].join(' and ')}${on}`;
}

/** What a member of a list is called today; nothing where it is gone. */
function memberName(list: Listed, id: string, book: Standing): string | undefined {
  const sheet = 'sheet' in list ? book.sheets.find((one) => one.id === list.sheet) : undefined;
  switch (list.list) {
    case 'rows': {
      const at = sheet?.rows.findIndex((row) => row.id === id) ?? -1;
      return at < 0 ? undefined : String(at + 1);
    }
    case 'columns': {
      const at = sheet?.columns.findIndex((column) => column.id === id) ?? -1;
      return at < 0 ? undefined : columnName(at);
    }
    case 'sheets':
      return book.sheets.find((one) => one.id === id)?.name;
    case 'checks':
      return book.checks.find((one) => one.id === id)?.name;
    case 'tables':
      return undefined;
  }
}

const PROPERTIES: Readonly<Record<string, string>> = {
  width: 'width',
  group: 'grouped',
  frozenRows: 'rows pinned',
  frozenColumns: 'columns pinned',
  name: 'named',
  says: 'says',
  formula: 'formula',
  severity: 'severity',
};

function propertyWords(what: string, to: unknown): string {
  if (what === 'hidden') return to === true ? 'hidden' : 'shown';
  return `${PROPERTIES[what] ?? what} ${said(to)}`;
}

const said = (value: unknown): string =>
  value === '' || value === null ? 'nothing' : String(value);
