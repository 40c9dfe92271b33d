/** Where a cell is now, counted from 0. Ids are how cells are kept; positions how they are pointed at. */
export interface At {
  /** Id of the sheet. */
  readonly sheet: string;
  /** From 0. */
  readonly row: number;
  /** From 0. */
  readonly column: number;
}

/** A cell of a sheet that is known, counted from 0. */
export interface Place {
  /** From 0. */
  readonly row: number;
  /** From 0. */
  readonly column: number;
}
