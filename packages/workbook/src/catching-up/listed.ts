import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  type Change,
  type CheckDocument,
  changesBetween,
  headWords,
  keptByIds,
  same,
} from '@kerfbook/document';
import type { OpenWorkbook } from '../api.ts';

/** One thing that is otherwise in a second workbook, in words. */
export interface Listed {
  /** The sheet it is on; `''` for the workbook as a whole. */
  readonly sheet: string;
  /** What it is: `Length of the seat (B6)`. */
  readonly what: string;
  /** As it was; `''` where there was nothing. */
  readonly before: string;
  /** As it is; `''` where there is nothing. */
  readonly after: string;
  /** Where it stands in the second workbook, else in the first one. */
  readonly at?: At;
}

/** Two workbooks, each worked out. */
export interface Two {
  readonly before: OpenWorkbook;
  readonly after: OpenWorkbook;
}

/**
 * All that was typed or set otherwise between two workbooks, one by one and by sheets; results that follow are not
 * among it. Nothing that either maker typed is left out: what has no words of its own is told by its name.
 */
export function listed({ before, after }: Two): readonly Listed[] {
  const [was, is] = [stateOf(before.document()), stateOf(after.document())];
  return changesBetween(was, is).flatMap((change) => inWords(change, { before, after, was, is }));
}

const stateOf = (document: BookDocument): BookState => keptByIds(BookState.of(document));

interface Both extends Two {
  readonly was: BookState;
  readonly is: BookState;
}

function inWords(change: Change, both: Both): readonly Listed[] {
  const { was, is } = both;
  switch (change.change) {
    case 'cells':
      return change.cells.flatMap(({ row, column }) =>
        cellInWords(both, change.sheet, row, column),
      );
    case 'head':
      return Object.keys(change.set)
        .filter((key) => key !== 'lineage')
        .map((key) => ({
          sheet: '',
          what: capital(headWords(key)),
          before: say(was.head[key as keyof typeof was.head]),
          after: say(is.head[key as keyof typeof is.head]),
        }));
    case 'insert':
      return change.items.flatMap((item) => comesOrGoes(both, change, item.id, 'comes'));
    case 'remove':
      return change.ids.flatMap((id) => comesOrGoes(both, change, id, 'goes'));
    case 'order':
      return [
        {
          sheet: sheetOf(change, both),
          what: `Order of ${change.list}`,
          before: '',
          after: 'another one',
        },
      ];
    case 'set':
      return setInWords(change, both);
  }
}

type Of = { readonly list: string; readonly sheet?: string };

const sheetOf = (of: Of, { was, is }: Both): string =>
  of.sheet === undefined ? '' : (is.sheetName(of.sheet) ?? was.sheetName(of.sheet) ?? of.sheet);

function comesOrGoes(both: Both, of: Of, id: string, way: 'comes' | 'goes'): readonly Listed[] {
  const book = way === 'comes' ? both.after : both.before;
  const state = way === 'comes' ? both.is : both.was;
  const put = (what: string, text: string, at?: At, sheet = sheetOf(of, both)): Listed => ({
    sheet,
    what,
    before: way === 'goes' ? text : '',
    after: way === 'comes' ? text : '',
    ...(at === undefined ? {} : { at }),
  });
  switch (of.list) {
    case 'sheets': {
      const name = state.sheetName(id) ?? id;
      const at = { sheet: id, row: 0, column: 0 };
      return [put('Sheet', `${name}, ${state.sheet(id)?.rows.length ?? 0} rows`, at, name)];
    }
    case 'rows': {
      const row = state.rowIndex(of.sheet ?? '', id) ?? 0;
      const text = rowText(book, of.sheet ?? '', row);
      // Room for more is nothing that was typed.
      if (text === '') return [];
      return [put(`Row ${row + 1}`, text, { sheet: of.sheet ?? '', row, column: 0 })];
    }
    case 'columns': {
      const column = state.columnIndex(of.sheet ?? '', id) ?? 0;
      const at = { sheet: of.sheet ?? '', row: 0, column };
      return [put(`Column ${book.addressOf(at).replace(/^.*!|\d+$/g, '')}`, 'a whole column', at)];
    }
    case 'checks': {
      const check = state.checks.find((one) => one.id === id);
      return [put('Check', check === undefined ? id : checkText(check), undefined, CHECKS)];
    }
    default: {
      const table = state.tables.find((one) => one.id === id);
      const sheet = state.sheetName(table?.sheet ?? '') ?? '';
      return [put('Table', `${table?.kind ?? id}`, undefined, sheet)];
    }
  }
}

const CHECKS = 'Checks';

const checkText = ({ name, says }: CheckDocument): string => `${name}: ${says}`;

function rowText(book: OpenWorkbook, sheet: string, row: number): string {
  const view = book.sheet(sheet);
  const words: string[] = [];
  for (let column = 0; column < (view?.columns ?? 0); column += 1) {
    const { shown, entry } = book.cell({ sheet, row, column });
    if (entry !== '') words.push(shown.text);
  }
  return words.join(' | ');
}

/** Traits of a cell that are typed or chosen, as they are called. */
const TRAITS: readonly (readonly [key: keyof CellDocument, words: string])[] = [
  ['name', 'name'],
  ['remark', 'remark'],
  ['quantity', 'what it is for'],
  ['show', 'format'],
  ['role', 'role'],
  ['allow', 'choice of entries'],
  ['style', 'look'],
];

function cellInWords(both: Both, sheet: string, row: string, column: string): readonly Listed[] {
  const { was, is, before, after } = both;
  const [old, now] = [was, is].map((state) => {
    const found = state.sheet(sheet);
    return found?.rows[found.rowIndex(row) ?? -1]?.cells.get(column);
  });
  const ids = { sheet, row, column };
  const [from, to] = [before.placeOf(ids), after.placeOf(ids)];
  const at = to ?? from;
  if (at === undefined) return [];
  const book = to === undefined ? before : after;
  const what = calledIn(book, at);
  const on = sheetOf({ list: 'rows', sheet }, both);
  const listedAs = (more: string, one: string, other: string): Listed => ({
    sheet: on,
    what: more === '' ? what : `${what}, ${more}`,
    before: one,
    after: other,
    at,
  });
  const held = (cell: CellDocument = {}) => [cell.value, cell.formula, cell.override, cell.typed];
  const all: Listed[] = [];
  if (!same(held(old), held(now))) {
    all.push(listedAs('', entryText(before, from), entryText(after, to)));
  }
  for (const [key, words] of TRAITS) {
    if (!same(old?.[key], now?.[key])) all.push(listedAs(words, say(old?.[key]), say(now?.[key])));
  }
  return all;
}

/** What a cell holds; of a formula also what it comes to. */
function entryText(book: OpenWorkbook, at: At | undefined): string {
  if (at === undefined) return '';
  const { entry, shown, unit } = book.cell(at);
  const comes = unit === '' || shown.text === '' ? shown.text : `${shown.text} ${unit}`;
  return entry.startsWith('=') ? `${comes} (${entry})` : comes;
}

/** A cell by the words that a maker knows it by, and its address. */
export function calledIn(book: OpenWorkbook, at: At): string {
  const address = book.addressOf(at);
  const words = book.labelOf(at);
  const called = words === address ? (book.cell(at).name ?? '') : words;
  const short = address.replace(/^.*!/, '');
  return called === '' ? short : `${called} (${short})`;
}

function setInWords(change: Change & { readonly change: 'set' }, both: Both): readonly Listed[] {
  const { was, is } = both;
  const sheet = sheetOf(change as Of, both);
  const ids = 'ids' in change ? change.ids : [change.id];
  if (change.list === 'rows' || change.list === 'columns') {
    const many = ids.length === 1 ? change.list.slice(0, -1) : change.list;
    const keys = Object.keys(change.set).filter((key) => key !== 'bare');
    return keys.map((key) => ({
      sheet,
      what: `${capital(key)} of ${ids.length} ${many}`,
      before: '',
      after: say((change.set as Record<string, unknown>)[key]),
    }));
  }
  const id = ids[0] ?? '';
  const found = (state: BookState): Record<string, unknown> | undefined => {
    const list =
      change.list === 'sheets' ? state.sheets : state[change.list as 'checks' | 'tables'];
    const one = (list as readonly { readonly id: string }[]).find((member) => member.id === id);
    const about = change.list === 'sheets' ? state.sheet(id)?.about : one;
    return about as unknown as Record<string, unknown> | undefined;
  };
  const [old, now] = [found(was), found(is)];
  const name = String(now?.name ?? old?.name ?? id);
  const where = change.list === 'sheets' ? name : change.list === 'checks' ? CHECKS : '';
  return Object.keys(change.set).map((key) => ({
    sheet: where,
    what: change.list === 'sheets' ? `Sheet, ${key}` : `${name}, ${WORDS[key] ?? key}`,
    before: say(old?.[key]),
    after: say(now?.[key]),
  }));
}

const WORDS: Readonly<Record<string, string>> = {
  says: 'sentence',
  cells: 'marked cells',
  header: 'head row',
  last: 'last row',
};

/** A value that is set, for a person; nothing where there is none. */
export function say(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'string') return value;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.map(say).join(', ');
  if (typeof value !== 'object') return String(value);
  return Object.entries(value)
    .map(([key, one]) => (one === true ? key : `${key} ${say(one)}`))
    .join(', ');
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
