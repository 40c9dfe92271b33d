import { type At, type Change, columnName, type Edit } from '@kerfbook/workbook';

type Names = (sheet: string) => string;

/**
 * An edit in words for its maker: what was done, and where that was at the time. Any value is answered,
 * also what a damaged record holds.
 * @param nameOf the name of a sheet by its id
 */
export function editInWords(edit: unknown, nameOf: Names): readonly string[] {
  try {
    return words(edit as Edit, nameOf);
  } catch {
    return [`Something that cannot be read: ${String(JSON.stringify(edit)).slice(0, 200)}`];
  }
}

function words(edit: Edit, nameOf: Names): readonly string[] {
  switch (edit.do) {
    case 'several':
      return edit.edits.flatMap((one) => editInWords(one, nameOf));
    case 'change':
      return edit.changes.flatMap((change) => changeWords(change, nameOf));
    case 'enter':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, nameOf)}: ${said(cell.text)}`);
    case 'setCells':
    case 'place':
      return edit.cells.map(({ cell, ...place }) => {
        const entry = cell?.override ?? cell?.formula ?? cell?.value ?? '';
        return `${at(edit.sheet, place, nameOf)}: ${said(String(entry))}`;
      });
    case 'clear':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, nameOf)} cleared`);
    case 'lift':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, nameOf)}: its formula restored`);
    case 'describeCells':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, nameOf)}: another format`);
    case 'nameCell':
      return [`${at(edit.at.sheet, edit.at, nameOf)}: ${nameWords(edit.name)}`];
    case 'renameName':
      return [`The name ${edit.from} changed to ${edit.to}`];
    case 'setBook':
      return Object.entries(edit.set).map(([what, to]) => `The workbook's ${what}: ${said(to)}`);
    case 'setChecks':
      return [`Checks changed: ${edit.checks.map(({ name }) => name).join(', ')}`];
    case 'setTables':
      return ['Tables of parts or stock changed'];
    case 'become':
      return [`Went back to an earlier version, "${edit.book.title}"`];
    default:
      return [`${sheetWords(edit, nameOf)}`];
  }
}

const MEMBERS = {
  sheets: ['sheet', 'sheets'],
  rows: ['row', 'rows'],
  columns: ['column', 'columns'],
  checks: ['check', 'checks'],
  tables: ['table', 'tables'],
} as const;

/** A change in words: it knows ids, and where these stood cannot be told any more. */
function changeWords(change: Change, nameOf: Names): readonly string[] {
  if (change.change === 'cells') {
    return change.cells.map(({ cell }) => {
      const entry = cell?.override?.value ?? cell?.formula ?? cell?.value ?? '';
      const where = cell?.name === undefined ? 'A cell' : cell.name;
      return `${where} on ${nameOf(change.sheet)}: ${cell === null ? 'taken out' : said(String(entry))}`;
    });
  }
  if (change.change === 'head') {
    return Object.entries(change.set).map(([what, to]) => `The workbook's ${what}: ${said(to)}`);
  }
  const on = 'sheet' in change ? ` on ${nameOf(change.sheet)}` : '';
  const of = (count: number): string =>
    `${count} ${MEMBERS[change.list][count === 1 ? 0 : 1]}${on}`;
  switch (change.change) {
    case 'insert':
      return [`${of(change.items.length)} put in`];
    case 'remove':
      return [`${of(change.ids.length)} removed`];
    case 'order':
      return [`${of(change.ids.length)} moved`];
    case 'set':
      return [
        `${of('ids' in change ? change.ids.length : 1)} changed: ${Object.keys(change.set).join(', ')}`,
      ];
  }
}

type OfSheets = Exclude<
  Edit,
  {
    readonly do:
      | 'several'
      | 'change'
      | 'enter'
      | 'setCells'
      | 'place'
      | 'clear'
      | 'lift'
      | 'describeCells'
      | 'nameCell'
      | 'renameName'
      | 'setBook'
      | 'setChecks'
      | 'setTables'
      | 'become';
  }
>;

function sheetWords(edit: OfSheets, nameOf: Names): string {
  const on = typeof edit.sheet === 'string' ? ` on ${nameOf(edit.sheet)}` : '';
  switch (edit.do) {
    case 'moveCells': {
      const { from, to } = edit;
      const last = { row: from.row + from.rows - 1, column: from.column + from.columns - 1 };
      return `${cell(from)}:${cell(last)}${on} moved to ${at(to.sheet, to, nameOf)}`;
    }
    case 'insertRows':
      return `${count(edit.rows.length, 'row')} inserted above row ${edit.at + 1}${on}`;
    case 'deleteRows':
      return `${count(edit.count, 'row')} removed from row ${edit.at + 1} on${on}`;
    case 'insertColumns':
      return `${count(edit.columns.length, 'column')} inserted before ${columnName(edit.at)}${on}`;
    case 'deleteColumns':
      return `${count(edit.count, 'column')} removed from ${columnName(edit.at)} on${on}`;
    case 'setColumn':
      return `Width of column ${columnName(edit.column)}${on}`;
    case 'freeze':
      return `Rows or columns pinned${on}`;
    case 'hideColumns':
      return `${count(edit.columns.length, 'column')} ${edit.hidden ? 'hidden' : 'shown'}${on}`;
    case 'hideRows':
      return `${count(edit.rows.length, 'row')} ${edit.hidden ? 'hidden' : 'shown'}${on}`;
    case 'groupRows':
      return `${count(edit.rows.length, 'row')} grouped${on}`;
    case 'addSheet':
      return `The sheet ${edit.sheet.name} added`;
    case 'removeSheet':
      return `The sheet ${nameOf(edit.sheet)} removed`;
    case 'renameSheet':
      return `The sheet ${nameOf(edit.sheet)} renamed to ${edit.name}`;
    case 'moveSheet':
      return `The sheet ${nameOf(edit.sheet)} moved`;
    default: {
      const unknown: never = edit;
      throw new Error(`not a change: ${JSON.stringify(unknown)}`);
    }
  }
}

const cell = ({ row, column }: Pick<At, 'row' | 'column'>) => `${columnName(column)}${row + 1}`;

function at(sheet: string, place: Pick<At, 'row' | 'column'>, nameOf: Names): string {
  return `${nameOf(sheet)} ${cell(place)}`;
}

const said = (text: unknown) => (text === '' || text === null ? 'nothing' : String(text));
const count = (many: number, what: string) => `${many} ${what}${many === 1 ? '' : 's'}`;
const nameWords = (name: string | null) => (name === null ? 'its name removed' : `named ${name}`);
