import type { Letters } from './provenance.ts';

/** Nominal size and least dressed size when dry, inches. */
export type DressedRow = readonly [nominal: number, dressed: number, how: Letters];

export const DRESSED_SOURCE =
  'American Softwood Lumber Standard (NIST PS 20), least dressed sizes, dry';

/** Boards: thinner than 2 in nominal. */
export const BOARD_THICKNESSES: readonly DressedRow[] = [
  [0.75, 0.625, 'm'],
  [1, 0.75, 'r'],
  [1.25, 1, 'm'],
  [1.5, 1.25, 'm'],
];

export const BOARD_WIDTHS: readonly DressedRow[] = [
  [2, 1.5, 'm'],
  [3, 2.5, 'm'],
  [4, 3.5, 'r'],
  [5, 4.5, 'm'],
  [6, 5.5, 'r'],
  [7, 6.5, 'm'],
  [8, 7.25, 'r'],
  [9, 8.25, 'm'],
  [10, 9.25, 'r'],
  [11, 10.25, 'm'],
  [12, 11.25, 'r'],
  [14, 13.25, 'm'],
  [16, 15.25, 'm'],
];

/** Dimension lumber: 2 in to less than 5 in nominal thickness. */
export const DIMENSION_THICKNESSES: readonly DressedRow[] = [
  [2, 1.5, 'r'],
  [2.5, 2, 'r'],
  [3, 2.5, 'r'],
  [3.5, 3, 'r'],
  [4, 3.5, 'r'],
  [4.5, 4, 'r'],
];

export const DIMENSION_WIDTHS: readonly DressedRow[] = [
  [2, 1.5, 'r'],
  [2.5, 2, 'r'],
  [3, 2.5, 'r'],
  [3.5, 3, 'r'],
  [4, 3.5, 'r'],
  [4.5, 4, 'r'],
  [5, 4.5, 'r'],
  [6, 5.5, 'r'],
  [8, 7.25, 'r'],
  [10, 9.25, 'r'],
  [12, 11.25, 'r'],
  [14, 13.25, 'r'],
  [16, 15.25, 'r'],
];

/** Timbers: 5 in nominal and thicker, each way; the nominal size less this. From memory. */
export const TIMBER_LOSS = 0.5;
/** Nominal sizes of timbers we answer for, whole inches. */
export const TIMBER_SIZES = { least: 5, most: 24 } as const;

/** Rough thickness by quarters of an inch, and thickness surfaced two sides, inches. */
type QuartersRow = readonly [quarters: string, rough: number, planed: number, how: Letters];

export const QUARTERS_SOURCE = 'NHLA rules, standard thickness of rough and surfaced hardwood';

/**
 * The copy that was read sets the 7/4 value in the column for one surfaced side; the rule's value
 * for two sides is the same 1-1/2 in.
 */
export const QUARTERS_ROWS: readonly QuartersRow[] = [
  ['2/4', 0.5, 0.3125, 'r'],
  ['3/4', 0.75, 0.5625, 'r'],
  ['4/4', 1, 0.8125, 'r'],
  ['5/4', 1.25, 1.0625, 'r'],
  ['6/4', 1.5, 1.3125, 'r'],
  ['7/4', 1.75, 1.5, 'r'],
  ['8/4', 2, 1.75, 'r'],
  ['10/4', 2.5, 2.25, 'm'],
  ['12/4', 3, 2.75, 'r'],
  ['14/4', 3.5, 3.25, 'r'],
  ['16/4', 4, 3.75, 'r'],
];

/** Least clear-face share of a board, in twelfths (cutting units per foot of surface measure). */
type GradeRow = readonly [
  grade: string,
  twelfths: number,
  alsoCalled: readonly string[],
  how: Letters,
];

export const GRADE_SOURCE = 'NHLA rules, summary of standard grades';

/**
 * The copy that was read prints 60-2/3 % for No. 1 Common; its own rule of 8 cutting units in 12
 * gives 66-2/3 %, which is used.
 */
export const GRADE_ROWS: readonly GradeRow[] = [
  ['FAS', 10, ['firsts and seconds', 'fas 2 face', 'fas 2f'], 'r'],
  ['F1F', 10, ['fas 1 face', 'fas one face', 'fas 1f'], 'r'],
  ['Selects', 10, ['select', 'sel', 'sels'], 'r'],
  ['1C', 8, ['no 1 common', '1 common', '1com', 'no 1c', 'number 1 common'], 'r'],
  ['2C', 6, ['no 2 common', '2 common', '2com', 'no 2c', 'number 2 common'], 'r'],
  ['2AC', 6, ['no 2a common', '2a common', '2a'], 'r'],
  ['2BC', 6, ['no 2b common', '2b common', '2b'], 'r'],
  ['3AC', 4, ['no 3a common', '3a common', '3a'], 'r'],
  ['3BC', 3, ['no 3b common', '3b common', '3b'], 'r'],
];
