import { headWords } from '../format/head-words.ts';
import type {
  BookDocument,
  CellDocument,
  CheckDocument,
  ColumnDocument,
  SheetDocument,
  TableDocument,
} from '../format/schema.ts';
import { type RowState, rowDocument, type SheetAbout, type SheetState } from '../state/sheet.ts';
import type { Head } from '../state/state.ts';
import { mergedCells } from './cells.ts';
import { mergedAbout, mergedList } from './lists.ts';
import { ofThreeEach, same } from './same.ts';
import { mergeComplaint } from './sentences.ts';
import { type Merging, memberPlace, sayValue, tell, tellEither } from './sides.ts';

/** A workbook as both together want it, which may not hold together yet. */
export interface Wanted {
  readonly document: BookDocument;
  /** Rows and columns of sheets as they would stand with those that went, by the sheets' ids. */
  readonly full: ReadonlyMap<string, Lines>;
}

export interface Lines {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
}

export function wantedTogether(merging: Merging): Wanted {
  const full = new Map<string, Lines>();
  const head = mergedHead(merging);
  const sheets = sheetsTogether(merging, full);
  const checks = members<CheckDocument>(merging, 'checks');
  const tables = members<TableDocument>(merging, 'tables');
  return { document: { ...head, sheets, checks, tables }, full };
}

function mergedHead(merging: Merging): Head {
  const { base, first, second } = merging;
  const heads = [base.head, first.state.head, second.state.head] as const;
  const { value, both } = ofThreeEach<Head>(...heads);
  for (const key of both) {
    const [one, other] = [first.state.head[key], second.state.head[key]];
    const left = { change: 'head', set: { [key]: one ?? null } } as const;
    tellEither(
      merging,
      `the ${headWords(key)} of the workbook`,
      [sayValue(one), sayValue(other)],
      left,
      { of: 'head', key },
    );
  }
  return value as Head;
}

/** Checks or tables. */
function members<T extends CheckDocument | TableDocument>(
  merging: Merging,
  list: 'checks' | 'tables',
): T[] {
  const lists = listsOf(merging, list) as unknown as Record<'was' | 'first' | 'second', T[]>;
  const [was, first, second] = [lists.was, lists.first, lists.second].map(byId);
  return mergedList(merging, { list }, lists).ids.flatMap((id) => {
    const [one, other] = [first?.get(id), second?.get(id)];
    if (one === undefined || other === undefined) return one ?? other ?? [];
    const old = cameTwice(merging, { list }, id, was?.get(id), [one, other]);
    return mergedAbout<T>(merging, { list }, id, [old ?? {}, one, other]) as T;
  });
}

const listsOf = <L extends 'sheets' | 'checks' | 'tables'>(merging: Merging, list: L) => ({
  was: merging.base[list],
  first: merging.first.state[list],
  second: merging.second.state[list],
});

function sheetsTogether(merging: Merging, full: Map<string, Lines>): SheetDocument[] {
  const { base, first, second } = merging;
  let { ids } = mergedList(merging, { list: 'sheets' }, listsOf(merging, 'sheets'));
  if (ids.length === 0) {
    ids = second.state.sheets.map(({ id }) => id);
    tell(merging, mergeComplaint('X14', first.name, second.name));
  }
  return ids.flatMap((id) => {
    const [one, other] = [first.state.sheet(id), second.state.sheet(id)];
    if (one === undefined || other === undefined) return (one ?? other)?.document() ?? [];
    if (one === other) return one.document();
    return sheetTogether(merging, base.sheet(id), [one, other], full);
  });
}

function sheetTogether(
  merging: Merging,
  was: SheetState | undefined,
  [first, second]: readonly [SheetState, SheetState],
  full: Map<string, Lines>,
): SheetDocument {
  const { id } = first;
  cameTwice(merging, { list: 'sheets' }, id, was, [first.document(), second.document()]);
  const about = mergedAbout<SheetAbout>(merging, { list: 'sheets' }, id, [
    was?.about ?? {},
    first.about,
    second.about,
  ]);
  const ofColumns = { list: 'columns', sheet: id } as const;
  const ofRows = { list: 'rows', sheet: id } as const;
  const [columns, rows] = [
    mergedList(merging, ofColumns, linesOf('columns', was, first, second)),
    mergedList(merging, ofRows, linesOf('rows', was, first, second)),
  ];
  full.set(id, { rows: rows.full, columns: columns.full });
  const there = new Set(columns.ids);
  const maps = [was, first, second].map(
    (sheet) => [byId(sheet?.columns), byId(sheet?.rows)] as const,
  );
  const [old, one, other] = maps as [(typeof maps)[0], (typeof maps)[0], (typeof maps)[0]];
  return {
    ...(about as SheetAbout),
    columns: columns.ids.flatMap((column) => {
      const [a, b] = [one[0].get(column), other[0].get(column)];
      if (a === undefined || b === undefined || a === b) return a ?? b ?? [];
      const before = cameTwice(merging, ofColumns, column, old[0].get(column), [a, b]);
      const parts = [before ?? {}, a, b] as const;
      return mergedAbout<ColumnDocument>(merging, ofColumns, column, parts) as ColumnDocument;
    }),
    rows: rows.ids.flatMap((row) => {
      const [a, b] = [one[1].get(row), other[1].get(row)];
      if (a === b && a !== undefined) return rowDocument(a);
      if (a === undefined || b === undefined) {
        const only = a ?? b;
        return only === undefined ? [] : rowDocument({ ...only, cells: within(only.cells, there) });
      }
      const before = cameTwice(merging, ofRows, row, old[1].get(row), [a, b]);
      const parts = [aboutRow(before), aboutRow(a), aboutRow(b)] as const;
      const said = mergedAbout<Omit<RowState, 'cells'>>(merging, ofRows, row, parts);
      const cells =
        a.cells === b.cells
          ? within(a.cells, there)
          : mergedCells(merging, { was, first, second }, row, there);
      return rowDocument({ ...said, id: row, cells });
    }),
  };
}

/** What both brought under one id is one, and told where it is not alike. */
function cameTwice<T>(
  merging: Merging,
  of: Parameters<typeof memberPlace>[1],
  id: string,
  was: T | undefined,
  [one, other]: readonly [unknown, unknown],
): T | undefined {
  if (was !== undefined || same(one, other)) return was;
  const { first, second } = merging;
  const where = memberPlace([second.state], of, id);
  tell(merging, mergeComplaint('X2', where, first.name, second.name));
  return was;
}

const linesOf = <L extends 'rows' | 'columns'>(
  list: L,
  was: SheetState | undefined,
  first: SheetState,
  second: SheetState,
) => ({ was: was?.[list] ?? [], first: first[list], second: second[list] });

function aboutRow(row: RowState | undefined): Partial<Omit<RowState, 'cells'>> {
  if (row === undefined) return {};
  const { cells: _cells, ...about } = row;
  return about;
}

/** Cells of columns that are there. */
const within = (
  cells: ReadonlyMap<string, CellDocument>,
  columns: ReadonlySet<string>,
): ReadonlyMap<string, CellDocument> => new Map([...cells].filter(([id]) => columns.has(id)));

const byId = <T extends { readonly id: string }>(all: readonly T[] = []): ReadonlyMap<string, T> =>
  new Map(all.map((one) => [one.id, one]));
