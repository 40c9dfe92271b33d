import { textOf } from './arguments.ts';
import {
  BOARD_THICKNESSES,
  BOARD_WIDTHS,
  DIMENSION_THICKNESSES,
  DIMENSION_WIDTHS,
  DRESSED_SOURCE,
  type DressedRow,
  TIMBER_LOSS,
  TIMBER_SIZES,
} from './data/lumber-sizes.ts';
import { type How, howAt } from './data/provenance.ts';
import type { FunctionDescription } from './describe.ts';
import { words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';

const SIZE = textOf('size', 'nominal size, thickness first: "2x6", "1x4", "5/4x6"');
const TAKES = 'a nominal softwood size, thickness first, such as "2x6"';

/** What is sold most: offered when a size is not known. */
const USUAL_SIZES = [1, 2, 4, 6]
  .flatMap((thick) => [2, 3, 4, 6, 8, 10, 12].map((wide) => [thick, wide] as const))
  .filter(([thick, wide]) => wide >= thick)
  .map(([thick, wide]) => `${thick}x${wide}`)
  .concat(['5/4x4', '5/4x6']);

/** A nominal inch size: `2`, `5/4`, `1-1/4`, `2 1/2`, `2.5`; undefined when it is none. */
function readNominal(text: string): number | undefined {
  const found = /^(?:(\d{1,3}(?:\.\d{1,4})?)|(?:(\d{1,3})[\s-])?(\d{1,3})\/(\d{1,3}))$/.exec(text);
  if (!found) return undefined;
  const [, plain, wholes, over, under] = found;
  if (plain !== undefined) return Number(plain);
  return Number(wholes ?? 0) + Number(over) / Number(under);
}

interface Side {
  readonly size: number;
  readonly how: How;
}

interface Dressed {
  readonly thickness: Side;
  readonly width: Side;
}

function dressedIn(rows: readonly DressedRow[], nominal: number): Side | undefined {
  const row = rows.find(([size]) => size === nominal);
  return row && { size: row[1], how: howAt(row[2], 0) };
}

const dressedTimber = (nominal: number): Side | undefined =>
  Number.isInteger(nominal) && nominal >= TIMBER_SIZES.least && nominal <= TIMBER_SIZES.most
    ? { size: nominal - TIMBER_LOSS, how: 'memory' }
    : undefined;

function dress(thick: number, wide: number): Dressed | undefined {
  const timber = thick >= TIMBER_SIZES.least;
  const board = thick < 2;
  const thickness = timber
    ? dressedTimber(thick)
    : dressedIn(board ? BOARD_THICKNESSES : DIMENSION_THICKNESSES, thick);
  const width = timber
    ? dressedTimber(wide)
    : dressedIn(board ? BOARD_WIDTHS : DIMENSION_WIDTHS, wide);
  return thickness === undefined || width === undefined ? undefined : { thickness, width };
}

function dressedSize(size: string): Dressed {
  const asked = words(SIZE, size, TAKES).toLowerCase();
  const [thick, wide, more] = asked
    .slice(0, 40)
    .split(/[x×]/)
    .map((part) => readNominal(part.replace(/["”″]/g, '').trim()));
  const found = more === undefined && thick && wide ? dress(thick, wide) : undefined;
  if (found && asked.split(/[x×]/).length === 2) return found;
  throw notKnown(SIZE, size, TAKES, USUAL_SIZES);
}

function sideTaken(given: string, side: keyof Dressed): number {
  const { size, how } = dressedSize(given)[side];
  rests({
    of: `${given.trim()}: dressed ${side}`,
    value: size,
    quantity: 'length',
    how,
    source: DRESSED_SOURCE,
  });
  return size;
}

/**
 * Dressed thickness of dry softwood lumber of a nominal size.
 * @param size thickness x width: "2x6", "5/4x6", "6x6"
 * @returns in
 * @throws Fault `kind`, `unknown`
 * Source: American Softwood Lumber Standard PS 20, least dressed sizes, dry (dimension lumber read,
 * some board rows and timbers from memory).
 */
export function dressedThickness(size: string): number {
  return sideTaken(size, 'thickness');
}

/**
 * Dressed width of dry softwood lumber of a nominal size.
 * @param size thickness x width: "2x6", "5/4x6", "6x6"
 * @returns in
 * @throws Fault `kind`, `unknown`
 * Source: as {@link dressedThickness}.
 */
export function dressedWidth(size: string): number {
  return sideTaken(size, 'width');
}

export const DRESSED_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'DRESSED_THICKNESS',
    task: 'Lumber',
    answers: 'How thick softwood lumber of a nominal size really is.',
    args: [SIZE],
    result: { quantity: 'length', means: 'dressed thickness, dry' },
    source: DRESSED_SOURCE,
    example: '=DRESSED_THICKNESS("2x6")',
    notes: 'Timbers of 5 in and thicker: the nominal size less 1/2 in, from memory.',
    run: dressedThickness,
  },
  {
    name: 'DRESSED_WIDTH',
    task: 'Lumber',
    answers: 'How wide softwood lumber of a nominal size really is.',
    args: [SIZE],
    result: { quantity: 'length', means: 'dressed width, dry' },
    source: DRESSED_SOURCE,
    example: '=DRESSED_WIDTH("2x6")',
    notes: 'Timbers of 5 in and thicker: the nominal size less 1/2 in, from memory.',
    run: dressedWidth,
  },
];
