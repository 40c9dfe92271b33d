import { documentChanges } from '../changes/between.ts';
import type { ListOf } from '../changes/types.ts';
import type { RefusedResult } from '../faults/catalogue.ts';
import type { BookDocument, CellDocument } from '../format/schema.ts';
import { keptByIds } from '../loading/kept-by-ids.ts';
import { BookState } from '../state/state.ts';
import { HELD } from './cells.ts';
import { type Merged, mergeLogs } from './merge.ts';
import type { MergeConflict, Spot } from './sides.ts';

/** Whose stands where both changed the same. */
export type Which = 'mine' | 'theirs';

/** Two workbooks that were one once, and what each is called in sentences. */
export interface ToSettle {
  /** What both began with. */
  readonly base: BookDocument;
  /** The one that takes over what the other one has. */
  readonly mine: BookDocument;
  /** The other one. */
  readonly theirs: BookDocument;
  /** What sentences call each. */
  readonly names: Readonly<Record<Which, string>>;
}

/** A place where one of two can be chosen, and the sentence about it. */
export type Meeting = MergeConflict & {
  /** Where it is. */
  readonly spot: Spot;
};

/** A place in one word: the same for the same place of the same workbooks. */
export function spotKey(spot: Spot): string {
  switch (spot.of) {
    case 'cell':
      return `cell ${spot.sheet} ${spot.row} ${spot.column} ${spot.part}`;
    case 'head':
      return `head ${spot.key}`;
    case 'about':
      return `about ${listKey(spot.in)} ${spot.id} ${spot.key}`;
    case 'gone':
      return `gone ${listKey(spot.in)} ${spot.id}`;
  }
}

const listKey = (of: ListOf): string => ('sheet' in of ? `${of.list} ${of.sheet}` : of.list);

/**
 * Puts two workbooks together by the law of merging, with a choice at each place that both changed (rule H9): what
 * was not chosen is taken for not changed. Where nothing is chosen, the law decides, the last word theirs.
 */
export function settled(
  { base, mine, theirs, names }: ToSettle,
  choices: readonly { readonly spot: Spot; readonly which: Which }[] = [],
): Merged | RefusedResult {
  // What is put elsewhere means the same there only by ids.
  const byIds = (document: BookDocument) => keptByIds(BookState.of(document)).document();
  const common = byIds(base);
  const put = (from: BookDocument, which: Which): BookDocument => {
    const spots = choices.filter((one) => one.which === which).map(({ spot }) => spot);
    return spots.length === 0 ? from : asIn(common, byIds(from), spots);
  };
  const [kept, taken] = [put(mine, 'theirs'), put(theirs, 'mine')];
  return mergeLogs(base, [
    { name: names.mine, tag: '1', changes: documentChanges(base, kept) },
    { name: names.theirs, tag: '2', changes: documentChanges(base, taken) },
  ]);
}

/** Saved parts of a workbook are plain data. */
const copyOf = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** A workbook that is at some places as another one. */
function asIn(base: BookDocument, document: BookDocument, spots: readonly Spot[]): BookDocument {
  const [from, to] = [new Places(base), new Places(copyOf(document))];
  for (const spot of spots) {
    if (spot.of === 'head') putKey(to.document, from.document, spot.key);
    else if (spot.of === 'cell') putCell(from, to, spot);
    else if (spot.of === 'about') {
      const [was, is] = [from.member(spot.in, spot.id), to.member(spot.in, spot.id)];
      if (was !== undefined && is !== undefined) putKey(is, was, spot.key);
    } else putMember(from, to, spot);
  }
  return to.document;
}

/** Members of lists by their ids. */
class Places {
  readonly document: BookDocument;
  readonly #lists = new Map<string, Map<string, Member>>();

  constructor(document: BookDocument) {
    this.document = document;
  }

  list(of: ListOf): Member[] | undefined {
    if (!('sheet' in of)) return this.document[of.list];
    return this.document.sheets.find(({ id }) => id === of.sheet)?.[of.list];
  }

  member(of: ListOf, id: string): Member | undefined {
    const key = listKey(of);
    const known = this.#lists.get(key) ?? new Map((this.list(of) ?? []).map((m) => [m.id, m]));
    this.#lists.set(key, known);
    return known.get(id);
  }

  /** What is known of lists no longer holds. */
  forget(): void {
    this.#lists.clear();
  }
}

interface Member {
  readonly id: string;
}

type Group = Record<string, unknown>;

/** One key as it is in another group, or gone as it is there. */
function putKey(to: object, from: object, key: string): void {
  const value = (from as Group)[key];
  if (value === undefined) delete (to as Group)[key];
  else (to as Group)[key] = copyOf(value);
}

type Row = Member & { cells?: Record<string, CellDocument> };

function putCell(from: Places, to: Places, spot: Spot & { readonly of: 'cell' }): void {
  const rows = { list: 'rows', sheet: spot.sheet } as const;
  const [was, is] = [from.member(rows, spot.row), to.member(rows, spot.row)] as (Row | undefined)[];
  if (is === undefined) return;
  const old = was?.cells?.[spot.column] ?? {};
  const cell = copyOf(is.cells?.[spot.column] ?? {});
  for (const key of spot.part === 'held' ? HELD : [spot.part]) putKey(cell, old, key);
  is.cells ??= {};
  if (Object.keys(cell).length === 0 && was?.cells?.[spot.column] === undefined) {
    delete is.cells[spot.column];
  } else is.cells[spot.column] = cell;
}

/** A whole member as it was: back at its place where it went, without changes where it stayed. */
function putMember(from: Places, to: Places, { in: of, id }: Spot & { readonly of: 'gone' }): void {
  const was = from.member(of, id);
  const list = to.list(of);
  if (was === undefined || list === undefined) return;
  const at = list.findIndex((one) => one.id === id);
  const copy = copyOf(was);
  if (of.list === 'rows') keepColumns(copy, to.document, of.sheet);
  if (at >= 0) list.splice(at, 1, copy);
  else list.splice(placeFor(from.list(of) ?? [], list, id), 0, copy);
  if (of.list === 'columns') putColumn(from.document, to.document, of.sheet, id);
  to.forget();
}

/** Behind the nearest before it that is still there. */
function placeFor(was: readonly Member[], list: readonly Member[], id: string): number {
  const before = was
    .slice(
      0,
      was.findIndex((one) => one.id === id),
    )
    .reverse();
  for (const { id: near } of before) {
    const at = list.findIndex((one) => one.id === near);
    if (at >= 0) return at + 1;
  }
  return 0;
}

function keepColumns(row: Row, document: BookDocument, sheet: string): void {
  const columns = document.sheets.find(({ id }) => id === sheet)?.columns ?? [];
  const there = new Set(columns.map(({ id }) => id));
  for (const column of Object.keys(row.cells ?? {})) {
    if (!there.has(column)) delete row.cells?.[column];
  }
}

function putColumn(from: BookDocument, to: BookDocument, sheet: string, column: string): void {
  const rowsOf = (of: BookDocument): readonly Row[] =>
    (of.sheets.find(({ id }) => id === sheet)?.rows ?? []) as readonly Row[];
  const was = new Map(rowsOf(from).map((row) => [row.id, row.cells?.[column]]));
  for (const row of rowsOf(to)) {
    const cell = was.get(row.id);
    if (cell === undefined) delete row.cells?.[column];
    else row.cells = { ...row.cells, [column]: copyOf(cell) };
  }
}
