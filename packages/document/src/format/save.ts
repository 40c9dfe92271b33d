import type {
  Allow,
  BookDocument,
  CellDocument,
  CellStyle,
  CheckDocument,
  ColumnDocument,
  Guide,
  OtherUnits,
  Photo,
  RowDocument,
  SheetDocument,
  Show,
  TableDocument,
} from './schema.ts';

/** Keys in the order in which they are written (rule D2); a key left out would be lost in saving. */
const orderOf = <T extends object>(keys: Readonly<Record<keyof T, true>>) =>
  Object.keys(keys) as (keyof T & string)[];

const CELL_KEYS = orderOf<CellDocument>({
  value: true,
  typed: true,
  formula: true,
  override: true,
  quantity: true,
  show: true,
  role: true,
  name: true,
  remark: true,
  allow: true,
  style: true,
  other: true,
});

const BOOK_KEYS = orderOf<Omit<BookDocument, 'sheets' | 'checks' | 'tables'>>({
  kerfbook: true,
  title: true,
  about: true,
  customer: true,
  job: true,
  due: true,
  agreed: true,
  revision: true,
  terms: true,
  letterhead: true,
  guide: true,
  photos: true,
  units: true,
  currency: true,
  licence: true,
  author: true,
  locked: true,
  promises: true,
  results: true,
  tags: true,
  lineage: true,
});

const INNER_KEYS: Record<string, readonly string[]> = {
  override: orderOf<NonNullable<CellDocument['override']>>({ value: true, typed: true }),
  show: orderOf<Show>({ as: true, unit: true, denominator: true, decimals: true }),
  allow: orderOf<Allow>({ min: true, max: true, whole: true, list: true, from: true }),
  style: orderOf<CellStyle>({
    bold: true,
    italic: true,
    align: true,
    background: true,
    wrap: true,
  }),
  lineage: orderOf<NonNullable<BookDocument['lineage']>>({
    template: true,
    revision: true,
    key: true,
    base: true,
    text: true,
  }),
  letterhead: orderOf<NonNullable<BookDocument['letterhead']>>({
    name: true,
    address: true,
    tax: true,
    logo: true,
  }),
  guide: orderOf<Guide>({
    title: true,
    before: true,
    after: true,
    credits: true,
    inputs: true,
    hides: true,
    tone: true,
    language: true,
    second: true,
    published: true,
  }),
  published: orderOf<NonNullable<Guide['published']>>({ number: true, day: true, text: true }),
  other: orderOf<OtherUnits>({
    value: true,
    typed: true,
    formula: true,
    override: true,
    show: true,
    allow: true,
  }),
};

const PHOTO_KEYS = orderOf<Photo>({ says: true, data: true });

const CHECK_KEYS = orderOf<CheckDocument>({
  id: true,
  name: true,
  sheet: true,
  formula: true,
  severity: true,
  says: true,
  cells: true,
  other: true,
});
const COLUMN_KEYS = orderOf<ColumnDocument>({ id: true, width: true, hidden: true });
const TABLE_KEYS = orderOf<TableDocument>({
  id: true,
  kind: true,
  sheet: true,
  header: true,
  last: true,
});

/** A workbook to be saved whose rows may be made one by one, as they are asked for. */
export type Streamed = Omit<BookDocument, 'sheets'> & {
  readonly sheets: readonly StreamedSheet[];
};

type StreamedSheet = Omit<SheetDocument, 'rows'> & { readonly rows: Iterable<RowDocument> };

/** Rows that make one piece. */
const ROWS_IN_PIECE = 100;

/**
 * The saved form of a workbook: stable key order, a row a line, ending in a line feed, so that it
 * opens, diffs and merges as text. Saving what was loaded gives the same bytes (rule D2).
 */
export function saveText(book: BookDocument): string {
  return [...savePieces(book)].join('');
}

/** The same text in pieces, each made when it is asked for: a large workbook takes long to write. */
export function* savePieces(book: Streamed): Generator<string> {
  const head = BOOK_KEYS.filter((key) => book[key] !== undefined).map(
    (key) =>
      `  ${JSON.stringify(key)}: ${key === 'photos' ? photosText(book.photos) : inOrder(book[key], INNER_KEYS[key])},\n`,
  );
  yield ['{\n', ...head, '  "sheets": '].join('');
  let between = '[\n    ';
  for (const sheet of book.sheets) {
    yield between;
    yield* sheetPieces(sheet);
    between = ',\n    ';
  }
  yield between.startsWith('[') ? '[]' : '\n  ]';
  yield [
    `,\n  "checks": ${block(book.checks.map(checkText), 2)},\n`,
    `  "tables": ${block(
      book.tables.map((table) => inOrder(table, TABLE_KEYS)),
      2,
    )}\n`,
    '}\n',
  ].join('');
}

function* sheetPieces(sheet: StreamedSheet): Generator<string> {
  const order = new Map(sheet.columns.map((column, index) => [column.id, index]));
  yield [
    '{\n',
    `      "id": ${JSON.stringify(sheet.id)},\n`,
    `      "name": ${JSON.stringify(sheet.name)},\n`,
    ...(sheet.hidden ? ['      "hidden": true,\n'] : []),
    ...(sheet.frozenColumns === undefined
      ? []
      : [`      "frozenColumns": ${sheet.frozenColumns},\n`]),
    ...(sheet.frozenRows === undefined ? [] : [`      "frozenRows": ${sheet.frozenRows},\n`]),
    `      "columns": ${block(sheet.columns.map(columnText), 6)},\n`,
    '      "rows": ',
  ].join('');
  let piece: string[] = [];
  let between = '[\n        ';
  for (const row of sheet.rows) {
    piece.push(between, rowText(row, order));
    between = ',\n        ';
    if (piece.length < 2 * ROWS_IN_PIECE) continue;
    yield piece.join('');
    piece = [];
  }
  yield `${piece.join('')}${between.startsWith('[') ? '[]' : '\n      ]'}\n    }`;
}

/** Photographs by their names, one a line: they are long. */
function photosText(photos: BookDocument['photos'] = {}): string {
  const lines = Object.keys(photos)
    .sort()
    .map((name) => `${JSON.stringify(name)}: ${inOrder(photos[name], PHOTO_KEYS)}`);
  return lines.length === 0 ? '{}' : `{\n    ${lines.join(',\n    ')}\n  }`;
}

function columnText(column: ColumnDocument): string {
  return inOrder(column, COLUMN_KEYS);
}

function checkText(check: CheckDocument): string {
  return inOrder(check, CHECK_KEYS);
}

function rowText(row: RowDocument, order: ReadonlyMap<string, number>): string {
  const cells = Object.entries(row.cells ?? {}).sort(
    ([a], [b]) => (order.get(a) ?? 0) - (order.get(b) ?? 0),
  );
  const about = [
    `"id": ${JSON.stringify(row.id)}`,
    ...(row.hidden ? ['"hidden": true'] : []),
    ...(row.group === undefined ? [] : [`"group": ${row.group}`]),
  ];
  if (row.cells !== undefined && cells.length === 0) about.push('"cells": {}');
  if (cells.length === 0) return `{ ${about.join(', ')} }`;
  const texts = cells.map(([id, cell]) => `${JSON.stringify(id)}: ${cellText(cell)}`);
  return `{ ${about.join(', ')}, "cells": { ${texts.join(', ')} } }`;
}

export function cellText(cell: CellDocument): string {
  return inOrder(cell, CELL_KEYS);
}

/** One line of JSON with spaces, keys in the given order; other values as JSON writes them. */
function inOrder(value: unknown, keys: readonly string[] | undefined): string {
  if (Array.isArray(value)) return `[${value.map((item) => JSON.stringify(item)).join(', ')}]`;
  if (value === null || typeof value !== 'object' || keys === undefined) {
    return JSON.stringify(value);
  }
  const record = value as Record<string, unknown>;
  const fields = keys
    .filter((key) => record[key] !== undefined)
    .map((key) => `${JSON.stringify(key)}: ${inOrder(record[key], INNER_KEYS[key])}`);
  return fields.length === 0 ? '{}' : `{ ${fields.join(', ')} }`;
}

function block(lines: readonly string[], indent: number): string {
  if (lines.length === 0) return '[]';
  const inner = ' '.repeat(indent + 2);
  return `[\n${lines.map((line) => inner + line).join(',\n')}\n${' '.repeat(indent)}]`;
}
