import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  type Change,
  changesBetween,
  columnName,
  keptByIds,
  same,
} from '@kerfbook/document';
import type { CellIds, OpenWorkbook } from '../api.ts';
import { QUANTITY_WORDS } from '../quantities/words.ts';
import { aboutWords, capital, headTitle, MEMBERS, say, TRAITS } from './said.ts';

/** What kind of thing is otherwise, in the order in which they are told. */
export const LISTED_KINDS = [
  'cells',
  'names',
  'remarks',
  'formats',
  'rows',
  'columns',
  'sheets',
  'checks',
  'tables',
  'own',
  'workbook',
] as const;

/** What kind of thing is otherwise. */
export type ListedKind = (typeof LISTED_KINDS)[number];

/** One thing that is otherwise in a second workbook, in words. */
export interface Listed {
  /** What kind of thing it is. */
  readonly kind: ListedKind;
  /** The sheet it is on; `''` for the workbook as a whole. */
  readonly sheet: string;
  /** What it is: `Length of the seat (B6)`. */
  readonly what: string;
  /** What of a cell it is, beside what the cell holds: `remark`. */
  readonly trait?: string;
  /** As it was; `''` where there was nothing. */
  readonly before: string;
  /** As it is; `''` where there is nothing. */
  readonly after: string;
  /** Where it stands in the second workbook, else in the first one. */
  readonly at?: At;
  /** The cells of the second workbook that it is about. */
  readonly cells?: readonly CellIds[];
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
  const all = changesBetween(was, is).flatMap((change) =>
    inWords(change, { before, after, was, is }),
  );
  // What makes way for another name first is there twice.
  const seen = new Set<string>();
  return all.filter(({ sheet, what, before: old, after: now }) => {
    const key = JSON.stringify([sheet, what, old, now]);
    return !seen.has(key) && seen.add(key);
  });
}

/** A workbook in which everything is known by its id. */
export const stateOf = (document: BookDocument): BookState => keptByIds(BookState.of(document));

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
          kind: 'workbook',
          sheet: '',
          what: headTitle(key),
          before: say(was.head[key as keyof typeof was.head]),
          after: say(is.head[key as keyof typeof is.head]),
        }));
    case 'insert':
      return change.items.flatMap((item) => comesOrGoes(both, change, item.id, 'comes'));
    case 'remove':
      return change.ids.flatMap((id) => comesOrGoes(both, change, id, 'goes'));
    case 'order': {
      const said = (state: BookState) => change.ids.map((id) => memberName(state, change, id));
      const [one, many] = MEMBERS[change.list];
      return [
        {
          kind: change.list,
          sheet: sheetOf(change as Of, both),
          what: `${change.ids.length === 1 ? one : many} moved`,
          before: said(was).join(', '),
          after: said(is).join(', '),
        },
      ];
    }
    case 'set':
      return setInWords(change, both);
  }
}

/** A list of a workbook or of one of its sheets. */
export type Of = { readonly list: keyof typeof MEMBERS; readonly sheet?: string };

const sheetOf = (of: { readonly sheet?: string }, { was, is }: Both): string =>
  of.sheet === undefined ? '' : (is.sheetName(of.sheet) ?? was.sheetName(of.sheet) ?? of.sheet);

/** What a member of a list goes by: the number of a row, the letters of a column, else its name. */
export function memberName(state: BookState, of: Of, id: string): string {
  switch (of.list) {
    case 'rows': {
      const row = state.rowIndex(of.sheet ?? '', id);
      return row === undefined ? id : String(row + 1);
    }
    case 'columns': {
      const column = state.columnIndex(of.sheet ?? '', id);
      return column === undefined ? id : columnName(column);
    }
    case 'sheets':
      return state.sheetName(id) ?? id;
    case 'checks':
      return state.checks.find((one) => one.id === id)?.name ?? id;
    case 'tables':
      return state.tables.find((one) => one.id === id)?.kind ?? id;
  }
}

/** Where members are told that stand on no sheet. */
const CHECKS = 'Checks';

function comesOrGoes(both: Both, of: Of, id: string, way: 'comes' | 'goes'): readonly Listed[] {
  const book = way === 'comes' ? both.after : both.before;
  const state = way === 'comes' ? both.is : both.was;
  const put = (text: string, sheet: string, at?: At, cells?: readonly CellIds[]): Listed => ({
    kind: of.list,
    sheet,
    what: MEMBERS[of.list][0],
    before: way === 'goes' ? text : '',
    after: way === 'comes' ? text : '',
    ...(at === undefined ? {} : { at }),
    ...(cells === undefined || way === 'goes' ? {} : { cells }),
  });
  const rowOf = (sheet: string, row: number): readonly Listed[] => {
    const said = lineOf(book, sheet, { row });
    // Room for more is nothing that was typed.
    if (said.text === '') return [];
    const one = put(said.text, state.sheetName(sheet) ?? sheet, said.at, said.cells);
    return [{ ...one, kind: 'rows', what: `Row ${row + 1}` }];
  };
  switch (of.list) {
    case 'sheets': {
      const name = state.sheetName(id) ?? id;
      const at = { sheet: id, row: 0, column: 0 };
      const rows = state.sheet(id)?.rows ?? [];
      return [put(name, name, at), ...rows.flatMap((_row, row) => rowOf(id, row))];
    }
    case 'rows':
      return rowOf(of.sheet ?? '', state.rowIndex(of.sheet ?? '', id) ?? 0);
    case 'columns': {
      const column = state.columnIndex(of.sheet ?? '', id) ?? 0;
      // What comes in a new column is told cell by cell.
      const said = way === 'goes' ? lineOf(book, of.sheet ?? '', { column }).text : '';
      const at = { sheet: of.sheet ?? '', row: 0, column };
      const one = put(said === '' ? 'without entries' : said, sheetOf(of, both), at);
      return [{ ...one, what: `Column ${columnName(column)}` }];
    }
    case 'checks':
      return [{ ...put(checkText(book, id), CHECKS), what: 'Check' }];
    case 'tables': {
      const table = state.tables.find((one) => one.id === id);
      const on = state.sheetName(table?.sheet ?? '') ?? '';
      const row = (line: string) =>
        memberName(state, { list: 'rows', sheet: table?.sheet ?? '' }, line);
      const text =
        table === undefined ? id : `${table.kind}, rows ${row(table.header)} to ${row(table.last)}`;
      return [put(text, on)];
    }
  }
}

/** A check with its formula as it is written. */
export function checkText(book: OpenWorkbook, id: string): string {
  const check = book.checkForms().find((one) => one.id === id);
  if (check === undefined) return id;
  const { name, formula, says, cells } = check;
  return `${name}: ${formula}, else "${says}"${cells === undefined ? '' : `, marked at ${cells}`}`;
}

/** What stands in a row or a column, all of it. */
export function lineOf(
  book: OpenWorkbook,
  sheet: string,
  line: { readonly row: number } | { readonly column: number },
): { readonly text: string; readonly at: At; readonly cells: readonly CellIds[] } {
  const view = book.sheet(sheet);
  const many = ('row' in line ? view?.columns : view?.rows) ?? 0;
  const words: string[] = [];
  const cells: CellIds[] = [];
  for (let i = 0; i < many; i += 1) {
    const at = { sheet, ...('row' in line ? { ...line, column: i } : { ...line, row: i }) };
    const { name, remark } = book.cell(at);
    const more = [
      entryText(book, at),
      ...(name === undefined ? [] : [`named ${name}`]),
      ...(remark === undefined ? [] : [`remark "${remark}"`]),
    ].filter((one) => one !== '');
    if (more.length === 0) continue;
    words.push(more.join(', '));
    const ids = book.idsAt(at);
    if (ids !== undefined) cells.push(ids);
  }
  return { text: words.join(' | '), at: { sheet, row: 0, column: 0, ...line }, cells };
}

const KIND_OF: Readonly<Record<keyof typeof TRAITS, ListedKind>> = {
  name: 'names',
  remark: 'remarks',
  quantity: 'formats',
  show: 'formats',
  role: 'formats',
  allow: 'formats',
  style: 'formats',
};

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
  const on = sheetOf({ sheet }, both);
  const own = isOwnFigure(book, at);
  const listedAs = (kind: ListedKind, more: string, one: string, other: string): Listed => ({
    kind: own ? 'own' : kind,
    sheet: on,
    what: more === '' ? what : `${what}, ${more}`,
    ...(more === '' ? {} : { trait: more }),
    before: one,
    after: other,
    at,
    ...(to === undefined ? {} : { cells: [ids] }),
  });
  const held = (cell: CellDocument = {}) => [cell.value, cell.formula, cell.override, cell.typed];
  const all: Listed[] = [];
  if (!same(held(old), held(now))) {
    all.push(listedAs('cells', '', entryText(before, from), entryText(after, to)));
  }
  for (const [key, words] of Object.entries(TRAITS) as [keyof typeof TRAITS, string][]) {
    if (same(old?.[key], now?.[key])) continue;
    all.push(listedAs(KIND_OF[key], words, traitText(key, old), traitText(key, now)));
  }
  return all;
}

/** One of the maker's own woods, screws, finishes or prices. */
function isOwnFigure(book: OpenWorkbook, { sheet, row }: At): boolean {
  return book
    .tables()
    .some(
      ({ kind, sheet: on, header, last }) =>
        ['woods', 'screws', 'finishes', 'prices'].includes(kind) &&
        on === sheet &&
        row > header &&
        row <= last,
    );
}

/** A trait of a cell as the app says it. */
export function traitText(key: keyof typeof TRAITS, cell: CellDocument | undefined): string {
  if (key === 'quantity') {
    return cell?.quantity === undefined ? '' : QUANTITY_WORDS[cell.quantity];
  }
  return say(cell?.[key]);
}

/** What a cell holds, with what was typed where it shows less; of a formula also what it comes to. */
export function entryText(book: OpenWorkbook, at: At | undefined): string {
  if (at === undefined) return '';
  const { entry, shown, unit, formula, override } = book.cell(at);
  const comes = unit === '' || shown.text === '' ? shown.text : `${shown.text} ${unit}`;
  if (override !== undefined && formula !== undefined) {
    return `${shown.exact === undefined ? comes : entry} (over ${formula})`;
  }
  if (entry.startsWith('=')) return `${comes} (${entry})`;
  return shown.exact === undefined ? comes : `${comes} (${entry})`;
}

/** A cell by the words that a maker knows it by, and its address. */
export function calledIn(book: OpenWorkbook, at: At): string {
  const address = book.addressOf(at);
  const words = book.labelOf(at);
  const called = words === address ? (book.cell(at).name ?? '') : words;
  const short = address.replace(/^.*!/, '');
  return called === '' ? short : `${called} (${short})`;
}

type SetChange = Change & { readonly change: 'set' };

function setInWords(change: SetChange, both: Both): readonly Listed[] {
  const { was, is } = both;
  const ids = 'ids' in change ? change.ids : [change.id];
  const of = change as Of;
  const which = ids.map((id) => memberName(is, of, id)).join(', ');
  const member = `${MEMBERS[change.list][ids.length === 1 ? 0 : 1]} ${which}`;
  const where = {
    rows: sheetOf(of, both),
    columns: sheetOf(of, both),
    sheets: which,
    checks: CHECKS,
    tables: '',
  }[change.list];
  return Object.keys(change.set)
    .filter((key) => key !== 'bare' && key !== 'other')
    .map((key) => {
      const said = (book: OpenWorkbook, state: BookState): string =>
        [...new Set(ids.map((id) => propertyText(book, state, of, id, key)))]
          .filter((one) => one !== '')
          .join(', ');
      return {
        kind: change.list,
        sheet: where,
        what: `${capital(member)}, ${aboutWords(key)}`,
        before: said(both.before, was),
        after: said(both.after, is),
      };
    });
}

/** What is said of a member, as a person reads it: formulas as they are written, rows by their numbers. */
export function propertyText(
  book: OpenWorkbook,
  state: BookState,
  of: Of,
  id: string,
  key: string,
): string {
  const value = aboutOf(book, state, of, id)?.[key];
  if (typeof value !== 'string') return say(value);
  if (key === 'sheet') return state.sheetName(value) ?? value;
  if (of.list === 'tables' && (key === 'header' || key === 'last')) {
    const sheet = state.tables.find((one) => one.id === id)?.sheet ?? '';
    return `row ${memberName(state, { list: 'rows', sheet }, value)}`;
  }
  return value;
}

function aboutOf(
  book: OpenWorkbook,
  state: BookState,
  of: Of,
  id: string,
): Readonly<Record<string, unknown>> | undefined {
  const sheet = state.sheet(of.list === 'sheets' ? id : (of.sheet ?? ''));
  const found = {
    sheets: () => sheet?.about,
    rows: () => sheet?.rows.find((one) => one.id === id),
    columns: () => sheet?.columns.find((one) => one.id === id),
    checks: () => book.checkForms().find((one) => one.id === id),
    tables: () => state.tables.find((one) => one.id === id),
  }[of.list]();
  return found as unknown as Readonly<Record<string, unknown>> | undefined;
}
