import type {
  BookDocument,
  CellDocument,
  CheckDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
} from './schema.ts';

/** Keys are written in this order, whatever order they were set in (rule D2). */
const CELL_KEYS = [
  'value',
  'typed',
  'formula',
  'override',
  'quantity',
  'show',
  'role',
  'name',
  'remark',
  'allow',
] as const satisfies readonly (keyof CellDocument)[];

const BOOK_KEYS = [
  'kerfbook',
  'title',
  'about',
  'units',
  'currency',
  'licence',
  'author',
  'lineage',
] as const satisfies readonly (keyof BookDocument)[];

const INNER_KEYS: Record<string, readonly string[]> = {
  override: ['value', 'typed'],
  show: ['as', 'unit', 'denominator', 'decimals'],
  allow: ['min', 'max', 'whole', 'list'],
  lineage: ['template', 'revision'],
};

const CHECK_KEYS = ['id', 'name', 'sheet', 'formula', 'otherwise', 'says'] as const;
const COLUMN_KEYS = ['id', 'width'] as const;
const TABLE_KEYS = ['id', 'kind', 'sheet', 'header', 'last'] as const;

/**
 * The saved form of a workbook: stable key order, a row a line, ending in a line feed, so that it
 * opens, diffs and merges as text. Saving what was loaded gives the same bytes (rule D2).
 */
export function saveText(book: BookDocument): string {
  const head = BOOK_KEYS.filter((key) => book[key] !== undefined).map(
    (key) => `  ${JSON.stringify(key)}: ${inOrder(book[key], INNER_KEYS[key])},\n`,
  );
  return [
    '{\n',
    ...head,
    `  "sheets": ${block(book.sheets.map(sheetText), 2)},\n`,
    `  "checks": ${block(book.checks.map(checkText), 2)},\n`,
    `  "tables": ${block(
      book.tables.map((table) => inOrder(table, TABLE_KEYS)),
      2,
    )}\n`,
    '}\n',
  ].join('');
}

function sheetText(sheet: SheetDocument): string {
  const order = new Map(sheet.columns.map((column, index) => [column.id, index]));
  return [
    '{\n',
    `      "id": ${JSON.stringify(sheet.id)},\n`,
    `      "name": ${JSON.stringify(sheet.name)},\n`,
    `      "columns": ${block(sheet.columns.map(columnText), 6)},\n`,
    `      "rows": ${block(
      sheet.rows.map((row) => rowText(row, order)),
      6,
    )}\n`,
    '    }',
  ].join('');
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
  if (cells.length === 0) return `{ "id": ${JSON.stringify(row.id)} }`;
  const texts = cells.map(([id, cell]) => `${JSON.stringify(id)}: ${cellText(cell)}`);
  return `{ "id": ${JSON.stringify(row.id)}, "cells": { ${texts.join(', ')} } }`;
}

function cellText(cell: CellDocument): string {
  return inOrder(cell, CELL_KEYS);
}

/** One line of JSON with spaces, keys in the given order; other values as JSON writes them. */
function inOrder(value: unknown, keys: readonly string[] | undefined): string {
  if (Array.isArray(value)) return `[${value.map((item) => JSON.stringify(item)).join(', ')}]`;
  if (value === null || typeof value !== 'object' || keys === undefined) {
    return JSON.stringify(value);
  }
  const record = value as Record<string, unknown>;
  const parts = keys
    .filter((key) => record[key] !== undefined)
    .map((key) => `${JSON.stringify(key)}: ${inOrder(record[key], INNER_KEYS[key])}`);
  return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
}

function block(lines: readonly string[], indent: number): string {
  if (lines.length === 0) return '[]';
  const inner = ' '.repeat(indent + 2);
  return `[\n${lines.map((line) => inner + line).join(',\n')}\n${' '.repeat(indent)}]`;
}
