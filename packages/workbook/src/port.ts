import type { At, BookState, Step } from '@kerfbook/document';
import type { CellValue } from './api.ts';

/** Asked again and again while something long is done: once it says no, the rest waits. */
export type Pace = () => boolean;

/**
 * Hears how much of a workbook is open, from 0 to 1, and whether another engine has to carry it: that one may take far
 * longer, and says nothing meanwhile.
 */
export type Onward = (share: number, isHandedOn: boolean) => void;

/** What is read of a workbook's values. */
export interface Values {
  /** What a cell has now: while an engine is `pending`, it may be the value of before. */
  value(at: At): CellValue;
  /** Cells that a cell's formula uses directly. Ranges are listed cell by cell, up to a bound. */
  precedents(at: At): readonly At[];
  /** Cells whose formulas use a cell directly, by address, range or name. */
  dependents(at: At): readonly At[];
}

/** Which values differ from before, each once. */
export interface Differing {
  /** Cells of makers' sheets, by where they stand after the changes. */
  readonly cells: readonly At[];
  /** Checks, by their places in the list of checks. */
  readonly checks: readonly number[];
}

/** What came of changes. */
export interface Recalculated extends Differing {
  /** All were worked out anew: any may differ. */
  readonly anew: boolean;
}

/** What a formula of its own comes to: one value, or rows of them. */
export type Evaluated = CellValue | { readonly kind: 'array'; readonly rows: CellValue[][] };

/**
 * The one way in which a workbook has its values worked out. An engine knows the workbook as it was when
 * it was made; every change after that reaches it by `follow`, and it answers which values differ (rule
 * H5). It never changes the workbook. Where it throws, it is restarted from the workbook as it is.
 */
export interface Engine extends Values {
  /**
   * Follows changes, each with the workbook before and after it, as far as the pace allows; what is left
   * is for {@link goOn}. Until then cells have the values they had, new formulas none.
   */
  follow(steps: readonly Step[], pace?: Pace): Recalculated;
  /** Some values are still to be worked out. */
  readonly pending: boolean;
  /** Goes on with what the pace left, without a pace to the end; the values that differ. */
  goOn(pace?: Pace): Differing;
  /** Begins anew with a workbook. */
  restart(state: BookState): void;
  /** A formula as if it stood on a sheet of the workbook; nothing changes. Nothing may be pending. */
  evaluate(formula: string, sheet: string): Evaluated;
  destroy(): void;
}

/** Makes an engine that knows a workbook; one that takes its time may tell how far it is. */
export type MakeEngine = (state: BookState, onward?: Onward) => Engine;
