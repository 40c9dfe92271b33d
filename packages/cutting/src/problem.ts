/** A cutting problem in whole ticks: every piece already has its kerf on it, every board too. */
export interface Problem {
  /** Distinct pieces, longest first. */
  readonly weights: readonly number[];
  readonly demands: readonly number[];
  readonly boards: readonly BoardKind[];
}

export interface BoardKind {
  /** Length less the trim, plus one kerf: n pieces need n - 1 cuts between them. */
  readonly capacity: number;
  readonly price: number;
  /** How many there are; Infinity for as many as are needed. */
  readonly supply: number;
}

/** One board cut so: which kind, how many of each piece. */
export interface Cut {
  readonly board: number;
  readonly counts: readonly number[];
}

/** Cuts that fill every demand. */
export interface Solution {
  readonly cuts: readonly { readonly cut: Cut; readonly times: number }[];
  readonly cost: number;
}
