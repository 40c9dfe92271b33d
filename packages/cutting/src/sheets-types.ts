/** Rectangular parts of one size. `length` lies along the sheet's length unless it may turn. */
export interface SheetPart {
  /** What it is called in the plan. */
  readonly key: string;
  /** Finished, above 0. */
  readonly length: number;
  /** Finished, above 0. */
  readonly width: number;
  /** Whole number, 0 or more. */
  readonly count: number;
  /** Whether the part may lie across, its grain with it; it may not where left out. */
  readonly mayTurn?: boolean;
}

/** A sheet that can be bought. */
export interface SheetSize {
  /** Along its grain, above 0. */
  readonly length: number;
  /** Across it, above 0. */
  readonly width: number;
  /** Of one sheet, 0 or more. */
  readonly price: number;
  /** As many as wanted where left out. */
  readonly supply?: number;
}

/**
 * What is to be cut from sheets. Lengths are all in one unit, money in one currency: the caller's.
 */
export interface SheetsJob {
  /** What is needed. */
  readonly parts: readonly SheetPart[];
  /** What can be bought. */
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
  /** `cell`: a twentieth of the usual work, for a cell that is worked out while a maker types. */
  readonly effort?: 'cell';
}

/** A rectangle on a sheet: `x` along its length, `y` across, from its corner, trim included. */
export interface Place {
  /** From the sheet's end, trim included. */
  readonly x: number;
  /** From its edge, trim included. */
  readonly y: number;
  /** Along the sheet's length. */
  readonly length: number;
  /** Across it. */
  readonly width: number;
}

/** A part where it lies on its sheet. */
export interface PlacedRectangle extends Place {
  /** As the job calls it. */
  readonly key: string;
  /** It lies across, its own length along the sheet's width. */
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
  /** Where it lies on the sheet. */
  readonly piece: Place;
  /** The saw cut that divides it; left out for a part or an offcut. */
  readonly cut?: { readonly kind: 'rip' | 'cross'; readonly at: number };
  /** What lies before the cut. */
  readonly near?: CutTree;
  /** What lies behind it. */
  readonly far?: CutTree;
  /** Which of the job's parts it is, counted from 0. */
  readonly part?: number;
}

/** A sheet and how it is cut up. */
export interface PlannedSheet {
  /** Which of the job's sheet sizes. */
  readonly index: number;
  /** As it is bought. */
  readonly length: number;
  /** As it is bought. */
  readonly width: number;
  /** Of this sheet. */
  readonly price: number;
  /** What comes off it. */
  readonly parts: readonly PlacedRectangle[];
  /** What remains of it, kerfs and trim left out. */
  readonly offcuts: readonly Place[];
  /** How it is divided, from the whole down to parts and offcuts. */
  readonly tree: CutTree;
  /** In the order of sawing: a piece is cut off before it is cut up. */
  readonly cuts: readonly SheetCut[];
}

/** What to buy and how to cut it up. */
export interface SheetsPlan {
  /** Each sheet that is bought. */
  readonly sheets: readonly PlannedSheet[];
  /** Price of all of them. */
  readonly cost: number;
  /** No plan costs less, with whatever cuts. */
  readonly bound: number;
  /** `cost − bound`. */
  readonly gap: number;
  /** No plan costs less than this one. */
  readonly proven: boolean;
  /** Sheets bought of each size, in the job's order. */
  readonly counts: readonly number[];
  /** Share of the face bought that is no part. */
  readonly waste: number;
}
