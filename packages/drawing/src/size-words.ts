import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Box } from './scene.ts';
import { mmFromOwn } from './units.ts';

/** What the three sizes of a piece of furniture are called, each as a noun and beside its number. */
export interface SizeWords {
  /** From left to right as one faces it. */
  readonly along: SizeWord;
  /** From front to back. */
  readonly across: SizeWord;
  /** From the floor up; of what lies flat, through it. */
  readonly up: SizeWord;
}

/** A size in words. */
export interface SizeWord {
  /** As it stands beside its number: `length`. */
  readonly noun: 'length' | 'width' | 'depth' | 'height' | 'thickness' | 'across';
  /** As it stands behind its number: `long`. */
  readonly adjective: string;
}

const LENGTH: SizeWord = { noun: 'length', adjective: 'long' };
const WIDTH: SizeWord = { noun: 'width', adjective: 'wide' };
const DEPTH: SizeWord = { noun: 'depth', adjective: 'deep' };
const HEIGHT: SizeWord = { noun: 'height', adjective: 'high' };
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

/** So many times as wide as high and more, it is a thick panel, and no piece of furniture. */
const FLAT = 8;

/** It is a door or a panel that stands: nothing stands on it, and nobody lifts it to move it. */
export const isThin = (overAll: OverAll): boolean => overAll.y <= THIN && !isFlat(overAll);

/** It is a top or a panel that lies. */
function isFlat({ x, y, z }: OverAll): boolean {
  const least = Math.min(x, y);
  return FLAT * z <= least || (z <= THIN && z < least);
}

/**
 * What a piece of furniture measures over all, mm: its parts as they are drawn, and on a case the banding of its front
 * edges, which no part's size has and which is part of how deep it is (cell `band_thickness`).
 */
export function overAllOf(book: Pick<OpenWorkbook, 'named' | 'units'>, { from, to }: Box): OverAll {
  const banding = isCase(book) ? book.named('band_thickness')?.value : undefined;
  const band = banding?.kind === 'number' ? mmFromOwn(banding.number, book.units) : 0;
  return { x: to.x - from.x, y: to.y - from.y + band, z: to.z - from.z };
}

/** It is a case: a bookcase, a cabinet. Told by the cell that names how deep it is. */
export const isCase = (book: Pick<OpenWorkbook, 'named'>): boolean =>
  book.named('case_depth') !== undefined;

/**
 * What one calls the sizes of it: a table is long and wide, a round one so much across, a bench long and deep, a case and
 * a door are as wide as one sees them, and what lies flat is thick. A table is told by the cell that names its top's width.
 */
export function sizeWords(book: Pick<OpenWorkbook, 'named'>, overAll: OverAll): SizeWords {
  const up = isFlat(overAll) ? THICKNESS : HEIGHT;
  if (isThin(overAll)) return { along: WIDTH, across: THICKNESS, up };
  if (isCase(book)) return { along: WIDTH, across: DEPTH, up };
  if (book.named('top_diameter') !== undefined && Math.abs(overAll.x - overAll.y) < 0.5) {
    return { along: DIAMETER, across: DIAMETER, up };
  }
  if (up === THICKNESS || book.named('top_width') !== undefined) {
    return { along: LENGTH, across: WIDTH, up };
  }
  return { along: overAll.x > overAll.z ? LENGTH : WIDTH, across: DEPTH, up };
}

/** The same in feet, as one says it of furniture: ` (8 ft)`, ` (7 ft 6 in)`; nothing of what is not whole inches. */
export function inFeet(inches: number): string {
  const whole = Math.round(inches);
  if (whole < 12 || Math.abs(inches - whole) > 1e-6) return '';
  const rest = whole % 12;
  return ` (${Math.floor(whole / 12)} ft${rest === 0 ? '' : ` ${rest} in`})`;
}
