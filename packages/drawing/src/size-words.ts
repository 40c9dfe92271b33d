import type { OpenWorkbook } from '@kerfbook/workbook';

/** What the three sizes of a piece of furniture are called, each as a noun and beside its number. */
export interface SizeWords {
  /** From left to right as one faces it. */
  readonly along: SizeWord;
  /** From front to back. */
  readonly across: SizeWord;
}

/** A size in words. */
export interface SizeWord {
  /** As it stands beside its number: `length`. */
  readonly noun: 'length' | 'width' | 'depth' | 'thickness' | 'across';
  /** As it stands behind its number: `long`. */
  readonly adjective: string;
}

const LENGTH: SizeWord = { noun: 'length', adjective: 'long' };
const WIDTH: SizeWord = { noun: 'width', adjective: 'wide' };
const DEPTH: SizeWord = { noun: 'depth', adjective: 'deep' };
const THICKNESS: SizeWord = { noun: 'thickness', adjective: 'thick' };
const DIAMETER: SizeWord = { noun: 'across', adjective: 'across' };

/** mm; what is no thicker is a door or a panel, and has no depth. */
const THIN = 50.8;

/** Furniture over all, mm: from left to right, from front to back, and high. */
export interface OverAll {
  /** From left to right. */
  readonly x: number;
  /** From front to back. */
  readonly y: number;
  /** From the floor up. */
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

/** The same in feet, as one says it of furniture: ` (8 ft)`, ` (7 ft 6 in)`; nothing of what is not whole inches. */
export function inFeet(inches: number): string {
  const whole = Math.round(inches);
  if (whole < 12 || Math.abs(inches - whole) > 1e-6) return '';
  const rest = whole % 12;
  return ` (${Math.floor(whole / 12)} ft${rest === 0 ? '' : ` ${rest} in`})`;
}
