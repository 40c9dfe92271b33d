import type { Cells } from '../steps.ts';
import type { Value } from './values.ts';

/** Values in rows and columns, never without one. */
export class Matrix implements Cells {
  readonly columns: number;
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

  width(): number {
    return this.columns;
  }

  height(): number {
    return this.rows;
  }

  get data(): readonly (readonly Value[])[] {
    return Array.from({ length: this.rows }, (_, row) => this.row(row));
  }

  /** A value by its place from 0; it has to be there. */
  at(row: number, column: number): Value {
    return this.cells[row * this.columns + column] as Value;
  }

  row(row: number): readonly Value[] {
    return this.cells.slice(row * this.columns, (row + 1) * this.columns);
  }

  column(column: number): readonly Value[] {
    return Array.from({ length: this.rows }, (_, row) => this.at(row, column));
  }
}
