import { type At, columnName, type Edit } from '@kerfbook/workbook';
import { changeInWords, headSays, type Standing, sheetNamed } from './change-words.ts';

/**
 * An edit in words for its maker: what was done, and where that was at the time, or for changes by id
 * where it is now. Any value is answered, also what a damaged record holds.
 * @param book the workbook as it stands, without sheets where it cannot be read
 */
export function editInWords(edit: unknown, book: Standing): readonly string[] {
  try {
    return words(edit as Edit, book);
  } catch {
    return [`Something that cannot be read: ${String(JSON.stringify(edit)).slice(0, 200)}`];
  }
}

function words(edit: Edit, book: Standing): readonly string[] {
  switch (edit.do) {
    case 'batch':
      return edit.edits.flatMap((one) => editInWords(one, book));
    case 'change':
      return edit.changes.flatMap((change) => changeInWords(change, book));
    case 'enter':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, book)}: ${said(cell.text)}`);
    case 'setCells':
    case 'place':
      return edit.cells.map(({ cell, ...place }) => {
        const entry = cell?.override ?? cell?.formula ?? cell?.value ?? '';
        return `${at(edit.sheet, place, book)}: ${said(String(entry))}`;
      });
    case 'clear':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, book)} cleared`);
    case 'restore':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, book)}: its formula restored`);
    case 'describeCells':
      return edit.cells.map((cell) => `${at(edit.sheet, cell, book)}: another format`);
    case 'nameCell':
      return [`${at(edit.at.sheet, edit.at, book)}: ${nameWords(edit.name)}`];
    case 'renameName':
      return [`The name ${edit.from} changed to ${edit.to}`];
    case 'setBook':
      return Object.entries(edit.set).map(([what, to]) => headSays(what, to));
    case 'setChecks':
      return [`Checks changed: ${edit.checks.map(({ name }) => name).join(', ')}`];
    case 'setTables':
      return ['Tables of parts or stock changed'];
    case 'changeUnits':
      return [`Units changed to ${edit.to === 'metric' ? 'millimeters' : 'inches'}`];
    case 'become':
      return [`Went back to an earlier version, "${edit.book.title}"`];
    default:
      return [`${sheetWords(edit, book)}`];
  }
}

type OfSheets = Exclude<
  Edit,
  {
    readonly do:
      | 'batch'
      | 'change'
      | 'enter'
      | 'setCells'
      | 'place'
      | 'clear'
      | 'restore'
      | 'describeCells'
      | 'nameCell'
      | 'renameName'
      | 'setBook'
      | 'setChecks'
      | 'setTables'
      | 'changeUnits'
      | 'become';
  }
>;

function sheetWords(edit: OfSheets, book: Standing): string {
  const on = typeof edit.sheet === 'string' ? ` on ${sheetNamed(book, edit.sheet)}` : '';
  switch (edit.do) {
    case 'moveCells': {
      const { from, to } = edit;
      const last = { row: from.row + from.rows - 1, column: from.column + from.columns - 1 };
      return `${cell(from)}:${cell(last)}${on} moved to ${at(to.sheet, to, book)}`;
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
      return `The sheet ${sheetNamed(book, edit.sheet)} removed`;
    case 'renameSheet':
      return `The sheet ${sheetNamed(book, edit.sheet)} renamed to ${edit.name}`;
    case 'moveSheet':
      return `The sheet ${sheetNamed(book, edit.sheet)} moved`;
    case 'hideSheet':
      return `The sheet ${sheetNamed(book, edit.sheet)} ${edit.hidden ? 'hidden' : 'shown'}`;
    default: {
      const unknown: never = edit;
      throw new Error(`not a change: ${JSON.stringify(unknown)}`);
    }
  }
}

const cell = ({ row, column }: Pick<At, 'row' | 'column'>) => `${columnName(column)}${row + 1}`;

function at(sheet: string, place: Pick<At, 'row' | 'column'>, book: Standing): string {
  return `${sheetNamed(book, sheet)} ${cell(place)}`;
}

const said = (text: unknown) => (text === '' || text === null ? 'nothing' : String(text));
const count = (many: number, what: string) => `${many} ${what}${many === 1 ? '' : 's'}`;
const nameWords = (name: string | null) => (name === null ? 'its name removed' : `named ${name}`);
