import type { OpenWorkbook } from '@kerfbook/workbook';

/** What the three sizes of a piece of furniture are called, each as a noun and beside its number. */
export interface SizeWords {
  /** From left to right as one faces it. */
  readonly along: SizeWord;
  /** From front to back. */
  readonly across: SizeWord;
}

interface SizeWord {
  readonly noun: string;
  readonly adjective: string;
}

const LENGTH = { noun: 'length', adjective: 'long' };
const WIDTH = { noun: 'width', adjective: 'wide' };
const DEPTH = { noun: 'depth', adjective: 'deep' };
const THICKNESS = { noun: 'thickness', adjective: 'thick' };
const DIAMETER = { noun: 'across', adjective: 'across' };

/** mm; what is no thicker is a door or a panel, and has no depth. */
const THIN = 50.8;

/** Furniture over all, mm: from left to right, from front to back, and high. */
export interface OverAll {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** It is a door or a panel: nothing stands on it, and nobody lifts it to move it. */
export const isThin = ({ y }: OverAll): boolean => y <= THIN;

/** It is a case: a bookcase, a cabinet. Told by the cell that names how deep it is. */
export const isCase = (book: Pick<OpenWorkbook, 'named'>): boolean =>
  book.named('case_depth') !== undefined;

/**
 * What one calls the sizes of it: a table is long and wide, a round one so much across, a bench long and deep, a case and
 * a door are as wide as one sees them. A table is told by the cell that names its top's width.
 */
export function sizeWords(book: Pick<OpenWorkbook, 'named'>, overAll: OverAll): SizeWords {
  if (isThin(overAll)) return { along: WIDTH, across: THICKNESS };
  if (isCase(book)) return { along: WIDTH, across: DEPTH };
  if (book.named('top_diameter') !== undefined && Math.abs(overAll.x - overAll.y) < 0.5) {
    return { along: DIAMETER, across: DIAMETER };
  }
  if (book.named('top_width') !== undefined) return { along: LENGTH, across: WIDTH };
  return { along: overAll.x > overAll.z ? LENGTH : WIDTH, across: DEPTH };
}
