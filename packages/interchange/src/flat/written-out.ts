import type { FlatBook, ToldOut } from './flat-book.ts';

/** A file of an office program, and what in it is otherwise than in the workbook. */
export interface WrittenOut {
  /** The file, whole. */
  readonly bytes: Uint8Array;
  /** In the order of the workbook's sheets. */
  readonly told: readonly ToldOut[];
  /** How many formulas there are: as they are, written out in standard functions, and as their last value. */
  readonly formulas: {
    readonly kept: number;
    readonly writtenOut: number;
    readonly frozen: number;
  };
}

/** What becomes of the formulas of a workbook's own sheets. */
export function countedFormulas({ sheets, told }: FlatBook): WrittenOut['formulas'] {
  const all = sheets
    .filter(({ id }) => id !== undefined)
    .flatMap(({ cells }) => cells.flatMap(({ formula }) => formula ?? []));
  const writtenOut = all.filter(({ isWrittenOut }) => isWrittenOut).length;
  const frozen = told.filter(
    ({ kind, of }) => kind === 'frozen' && !of.startsWith('Check "'),
  ).length;
  return { kept: all.length - writtenOut, writtenOut, frozen };
}

/** The first day a zip file can name: when it was written is nobody's business. */
export const FIRST_DAY = new Date(1980, 0, 1);
