/** Rectangular parts of one size. `length` lies along the sheet's length unless it may turn. */
export interface SheetPart {
  readonly key: string;
  readonly length: number;
  readonly width: number;
  readonly count: number;
  /** Whether the part may lie across, its grain with it; it may not where left out. */
  readonly mayTurn?: boolean;
}

export interface SheetSize {
  readonly length: number;
  readonly width: number;
  readonly price: number;
  /** As many as wanted where left out. */
  readonly supply?: number;
}

export interface SheetsJob {
  readonly parts: readonly SheetPart[];
  readonly sheets: readonly SheetSize[];
  /** Width of a saw cut, 0 where left out. */
  readonly kerf?: number;
  /** Taken once off each of the four edges of every sheet, its saw cut included. */
  readonly edgeTrim?: number;
  /**
   * What the saw does to a whole piece before a part comes off it: `rip` cuts along the sheet's
   * length first, `cross` across it; whatever wastes less where left out.
   */
  readonly first?: 'rip' | 'cross';
}

/** A rectangle on a sheet: `x` along its length, `y` across, from its corner, trim included. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

export interface PlacedRectangle extends Place {
  readonly key: string;
  readonly turned: boolean;
}

/** A saw cut from edge to edge of the piece it divides. */
export interface SheetCut {
  /** `rip`: along the sheet's length, at `at` across; `cross`: across it, at `at` along. */
  readonly kind: 'rip' | 'cross';
  /** The near edge of the kerf. */
  readonly at: number;
  /** The piece that is cut. */
  readonly piece: Place;
}

/** A piece and what becomes of it: two pieces, a part (by its place in `parts`), or an offcut. */
export interface CutTree {
  readonly piece: Place;
  readonly cut?: { readonly kind: 'rip' | 'cross'; readonly at: number };
  readonly near?: CutTree;
  readonly far?: CutTree;
  readonly part?: number;
}

export interface PlannedSheet {
  /** Which of the job's sheet sizes. */
  readonly index: number;
  readonly length: number;
  readonly width: number;
  readonly price: number;
  readonly parts: readonly PlacedRectangle[];
  readonly offcuts: readonly Place[];
  readonly tree: CutTree;
  /** In the order of sawing: a piece is cut off before it is cut up. */
  readonly cuts: readonly SheetCut[];
}

export interface SheetsPlan {
  readonly sheets: readonly PlannedSheet[];
  readonly cost: number;
  /** No plan costs less, with whatever cuts. */
  readonly bound: number;
  readonly gap: number;
  readonly proven: boolean;
  /** Sheets bought of each size, in the job's order. */
  readonly counts: readonly number[];
  /** Share of the face bought that is no part. */
  readonly waste: number;
}
