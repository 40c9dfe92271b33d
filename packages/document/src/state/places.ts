/** Where a cell is now, counted from 0. Ids are how cells are kept; positions how they are pointed at. */
export interface At {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export interface Place {
  readonly row: number;
  readonly column: number;
}
