import type { Cells } from '../steps.ts';
import type { Value } from './values.ts';

/** Values in rows and columns, never without one. */
export class Matrix implements Cells {
  /** How many values stand beside each other. */
  readonly columns: number;
  /** How many stand below each other. */
  readonly rows: number;
  /** Row by row. */
  readonly cells: readonly Value[];
  /** It is a range of cells as it stands; what a formula made of one is not. */
  readonly isRange: boolean;

  constructor(columns: number, rows: number, cells: readonly Value[], isRange = false) {
    this.columns = columns;
    this.rows = rows;
    this.cells = cells;
    this.isRange = isRange;
  }

  /** One value where several may be. */
  static of(value: Value): Matrix {
    return new Matrix(1, 1, [value]);
  }

  /** Rows of one length. */
  static rows(rows: readonly (readonly Value[])[]): Matrix {
    return new Matrix(rows[0]?.length ?? 0, rows.length, rows.flat());
  }

  /** How many columns there are. */
  width(): number {
    return this.columns;
  }

  /** How many rows there are. */
  height(): number {
    return this.rows;
  }

  /** Row by row. */
  get data(): readonly (readonly Value[])[] {
    return Array.from({ length: this.rows }, (_, row) => this.row(row));
  }

  /** A value by its place from 0; it has to be there. */
  at(row: number, column: number): Value {
    return this.cells[row * this.columns + column] as Value;
  }

  /** A row by its place from 0. */
  row(row: number): readonly Value[] {
    return this.cells.slice(row * this.columns, (row + 1) * this.columns);
  }

  /** A column by its place from 0. */
  column(column: number): readonly Value[] {
    return Array.from({ length: this.rows }, (_, row) => this.at(row, column));
  }
}
