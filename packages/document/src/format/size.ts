import { cellText, saveText } from './save.ts';
import type { BookDocument, CellDocument, RowDocument, SheetDocument } from './schema.ts';

/** A row as it is counted: its cells by column id. */
interface CountedRow extends Omit<RowDocument, 'cells'> {
  /** It says that it has cells, and none are there. */
  readonly bare?: true;
  readonly cells: Iterable<readonly [string, CellDocument]>;
}

export interface CountedSheet extends Omit<SheetDocument, 'rows'> {
  readonly rows: Iterable<CountedRow>;
}

/** A workbook whose saved text is counted without being written. */
interface CountedBook extends Omit<BookDocument, 'sheets'> {
  readonly sheets: readonly CountedSheet[];
}

/** A cell is replaced, never changed: its length is found out once. */
const lengths = new WeakMap<CellDocument, number>();

/** Letters that a cell takes in the saved text with its column's id and what parts it from the next. */
export function cellLetters(column: string, cell: CellDocument): number {
  let length = lengths.get(cell);
  if (length === undefined) {
    length = cellText(cell).length;
    lengths.set(cell, length);
  }
  return column.length + '"": , '.length + length;
}

/** At least as many, found out without writing the cell. */
export function cellLettersAtMost(column: string, cell: CellDocument): number {
  return column.length + '"": , '.length + atMost(cell);
}

/** A letter takes up to six in JSON: `\u001f`. */
const PER_LETTER = 6;
const PER_NUMBER = 25;

/** Letters that a value takes in the saved text, at the most. */
export function atMost(value: unknown): number {
  if (typeof value === 'string') return PER_LETTER * value.length + 2;
  if (typeof value !== 'object' || value === null) return PER_NUMBER;
  let letters = 4;
  for (const key in value) {
    letters += PER_LETTER * key.length + 6 + atMost((value as Record<string, unknown>)[key]);
  }
  return letters;
}

/** How many letters `saveText` would write, exactly. */
export function savedLetters(book: CountedBook): number {
  const bare = book.sheets.map((sheet) => ({ ...sheet, rows: [] }));
  let letters = saveText({ ...book, sheets: bare }).length;
  for (const { rows } of book.sheets) {
    let empty = true;
    for (const row of rows) {
      letters += ',\n        '.length + rowLetters(row);
      empty = false;
    }
    if (!empty) letters += '\n      ]'.length - '[]'.length;
  }
  return letters;
}

function rowLetters({ id, hidden, group, bare, cells }: CountedRow): number {
  let letters = '{ "id": "" }'.length + id.length;
  if (hidden) letters += ', "hidden": true'.length;
  if (group !== undefined) letters += ', "group": '.length + String(group).length;
  let inCells = 0;
  for (const [column, cell] of cells) inCells += cellLetters(column, cell);
  if (inCells === 0) return bare ? letters + ', "cells": {}'.length : letters;
  // The last cell is parted from no other.
  return letters + inCells + ', "cells": {  }'.length - ', '.length;
}

/** A document as it is counted. */
export function counted(book: BookDocument): CountedBook {
  const sheets = book.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map(({ cells, ...row }) => ({
      ...row,
      ...(cells === undefined ? {} : { bare: true as const }),
      cells: Object.entries(cells ?? {}),
    })),
  }));
  return { ...book, sheets };
}
