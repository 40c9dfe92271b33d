import { headWords } from '@kerfbook/document';

/** What a list of a workbook is called, of one and of many. */
export const MEMBERS = {
  sheets: ['Sheet', 'Sheets'],
  rows: ['Row', 'Rows'],
  columns: ['Column', 'Columns'],
  checks: ['Check', 'Checks'],
  tables: ['Table', 'Tables'],
} as const;

const ABOUT: Readonly<Record<string, string>> = {
  says: 'sentence',
  cells: 'marked cells',
  header: 'head row',
  last: 'last row',
  hidden: 'hidden',
  group: 'depth in groups',
  frozenColumns: 'columns pinned',
  frozenRows: 'rows pinned',
};

/** What is said of a sheet, a row, a check or a table, as a person calls it. */
export const aboutWords = (key: string): string => ABOUT[key] ?? key;

/** What is said of the workbook as a whole, as a heading has it: `Due date`. */
export const headTitle = (key: string): string => capital(headWords(key));

/** Parts of a cell beside what it holds, as the app calls them. */
export const TRAITS = {
  name: 'name',
  remark: 'remark',
  quantity: 'kind',
  show: 'format',
  role: 'use',
  allow: 'choice of entries',
  style: 'look',
} as const;

/** A value that is set, for a person; nothing where there is none. */
export function say(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'string') return value.startsWith('data:') ? 'a picture' : value;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.map(say).join(', ');
  if (typeof value !== 'object') return String(value);
  return (
    Object.entries(value)
      // A whole saved text is nothing to be read.
      .filter(([key]) => key !== 'text')
      .map(([key, one]) => (one === true ? key : `${SAID[key] ?? key} ${say(one)}`))
      .join(', ')
  );
}

/** Keys within a value that no maker would say so. */
const SAID: Readonly<Record<string, string>> = {
  as: 'as',
  denominator: 'to 1/',
  min: 'at least',
  max: 'at most',
  list: 'one of',
  background: 'fill',
  tax: 'tax number',
  inputs: 'readers may change',
  hides: 'readers do not see',
  before: 'told first',
  after: 'told last',
  second: 'second language',
  published: 'handed out last',
};

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
