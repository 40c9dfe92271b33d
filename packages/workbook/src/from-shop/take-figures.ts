import {
  type At,
  type CellDocument,
  type Edit,
  type RowDocument,
  randomId,
  type TableDocument,
} from '@kerfbook/document';
import { OWN_TABLES, type OwnKind } from '@kerfbook/wood';
import type { OpenWorkbook } from '../api.ts';
import { ownTableEdit } from '../book/own-sheet.ts';
import type { ShopFigure } from './shop-figures.ts';
import { blankRows, type RowKind, readShop, type ShopList } from './shop-reading.ts';

type Texts = readonly (readonly [head: string, text: string])[];
type Entry = At & { readonly text: string };

/** A row more of a list of the shop's: what is entered under each head. */
export interface RowToAdd {
  /** Which list. */
  readonly list: RowKind;
  /** What is entered under which head. */
  readonly texts: Texts;
}

/** Takes what is the shop's into a workbook, all of it as one step of undo. */
export function takeFigures(book: OpenWorkbook, figures: readonly ShopFigure[]): Edit {
  const takes = figures.map(({ take }) => take);
  const entries = takes.flatMap((take) =>
    take.do === 'enter' ? [{ ...take.at, text: take.text }] : [],
  );
  const set = Object.assign({}, ...takes.map((take) => (take.do === 'head' ? take.set : {})));
  const adds = takes.filter((take) => take.do === 'add');
  const head: readonly Edit[] = Object.keys(set).length === 0 ? [] : [{ do: 'setBook', set }];
  return { do: 'batch', edits: [...entered(entries), ...head, ...rowsAdded(book, adds)] };
}

/**
 * The edits that add rows to lists of a workbook: into blank rows first, then into new ones before the last, so that
 * ranges over the list have them too. An own table that is not there is begun; other lists have to be there.
 */
export function rowsAdded(book: OpenWorkbook, adds: readonly RowToAdd[]): readonly Edit[] {
  const { lists } = readShop(book);
  const kinds = [...new Set(adds.map(({ list }) => list))];
  const of = (kind: RowKind): readonly RowToAdd[] => adds.filter(({ list }) => list === kind);
  const here = kinds.flatMap((kind) => {
    const list = lists.get(kind);
    return list === undefined ? [] : [added(book, list, of(kind), blankRows(book, list))];
  });
  // What is inserted first must not move what is entered later: from below upwards.
  const inserts = here
    .flatMap(({ insert }) => (insert === undefined ? [] : [insert]))
    .toSorted((one, other) => other.at - one.at);
  const begun = kinds.filter((kind): kind is OwnKind => isOwn(kind) && !lists.has(kind));
  return [
    ...entered(here.flatMap(({ entries }) => entries)),
    ...inserts.flatMap(({ edits }) => edits),
    ...tablesBegun(book, begun, of),
  ];
}

/** The same for one list, whose blank rows are known. */
export function rowsInto(
  book: OpenWorkbook,
  list: ListPlace,
  adds: readonly { readonly texts: Texts }[],
  blank: readonly number[],
): readonly Edit[] {
  const { entries, insert } = added(book, list, adds, blank);
  return [...entered(entries), ...(insert?.edits ?? [])];
}

type ListPlace = Pick<ShopList, 'sheet' | 'last' | 'columns'>;

const isOwn = (kind: RowKind): kind is OwnKind => kind !== 'price' && kind !== 'rack';

function entered(entries: readonly Entry[]): readonly Edit[] {
  const sheets = new Map<string, { row: number; column: number; text: string }[]>();
  for (const { sheet, row, column, text } of entries) {
    sheets.set(sheet, [...(sheets.get(sheet) ?? []), { row, column, text }]);
  }
  return [...sheets].map(([sheet, cells]) => ({ do: 'enter', sheet, cells }));
}

interface Added {
  readonly entries: readonly Entry[];
  readonly insert?: { readonly at: number; readonly edits: readonly Edit[] };
}

function added(
  book: OpenWorkbook,
  list: ListPlace,
  adds: readonly { readonly texts: Texts }[],
  room: readonly number[],
): Added {
  const { sheet, last, columns } = list;
  const into = (row: number, texts: Texts): readonly Entry[] =>
    texts.flatMap(([head, text]) => {
      const column = columns.get(head);
      return column === undefined ? [] : [{ sheet, row, column, text }];
    });
  const blank = room.slice(0, adds.length);
  const entries = blank.flatMap((row, i) => into(row, adds[i]?.texts ?? []));
  const rest = adds.slice(blank.length);
  if (rest.length === 0) return { entries };
  const rows = rest.map(() => rowLike(book, list));
  const below = rest.flatMap(({ texts }, i) => into(last + i, texts));
  const edits: readonly Edit[] = [{ do: 'insertRows', sheet, at: last, rows }, ...entered(below)];
  return { entries, insert: { at: last, edits } };
}

/** A row as the last one of the list is, without what that holds. */
function rowLike(book: OpenWorkbook, { sheet, last, columns }: ListPlace): RowDocument {
  const cells = [...columns.values()].flatMap((column): [string, CellDocument][] => {
    const at = { sheet, row: last, column };
    const id = book.idsAt(at)?.column;
    const { quantity, role, show, style } = book.copyOf(at) ?? {};
    const traits = { quantity, role, show, style };
    const cell = Object.fromEntries(Object.entries(traits).filter(([, one]) => one !== undefined));
    return id === undefined || Object.keys(cell).length === 0 ? [] : [[id, cell as CellDocument]];
  });
  return { id: randomId('r'), ...(cells.length === 0 ? {} : { cells: Object.fromEntries(cells) }) };
}

/** Sheets for own tables that are not there yet, with their rows; the tables of all are set once. */
function tablesBegun(
  book: OpenWorkbook,
  kinds: readonly OwnKind[],
  of: (kind: RowKind) => readonly RowToAdd[],
): readonly Edit[] {
  const edits: Edit[] = [];
  const tables: TableDocument[] = [];
  const before = book.document().tables;
  for (const kind of kinds) {
    const begin = ownTableEdit(book, kind);
    if (begin?.do !== 'batch') continue;
    const heads = OWN_TABLES.find((one) => one.kind === kind)?.columns ?? [];
    for (const edit of begin.edits) {
      if (edit.do === 'setTables') tables.push(...edit.tables.slice(before.length));
      if (edit.do !== 'addSheet') continue;
      const { id: sheet, rows } = edit.sheet;
      edits.push({ ...edit, at: book.sheets().length + tables.length });
      const header = rows.findIndex(({ cells = {} }) => cells.c1?.value === heads[0]?.heads);
      const entries = of(kind).flatMap(({ texts }, i) =>
        texts.map(([head, text]) => ({
          sheet,
          row: header + 1 + i,
          column: heads.findIndex((one) => one.heads === head),
          text,
        })),
      );
      edits.push(...entered(entries));
    }
  }
  return tables.length === 0 ? [] : [...edits, { do: 'setTables', tables: [...before, ...tables] }];
}
