import type { BookState, CellDocument, Scalar } from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import type { Problem } from '../api.ts';
import { isSlightPercent } from '../quantities/percent.ts';
import { readEntry } from '../quantities/read.ts';
import { type Unread, unreadPercent } from '../quantities/sentences.ts';
import { allowProblem } from '../quantities/show.ts';
import { contextOf } from './context.ts';

/** Quantities whose cells hold something other than a number. */
const WORDS: ReadonlySet<Quantity> = new Set<Quantity>(['text', 'logical']);

/** What a cell holds by hand, if anything: its override, or its value where it has no formula. */
function heldScalar(cell: CellDocument): Scalar | undefined {
  if (cell.override !== undefined) return cell.override.value;
  return cell.formula === undefined ? cell.value : undefined;
}

/** Words that were not asked for as words: in a cell for numbers, or written like a number. */
function mayBeUnread(cell: CellDocument, held: string): boolean {
  const typed = (cell.override ?? cell).typed;
  if (typed?.startsWith("'")) return false;
  if (cell.quantity === undefined) return /^\s*[\d$€£¥.+-]/.test(held);
  return !WORDS.has(cell.quantity);
}

/** More than the cell's own list allows, such as names in an own table; asked for where it counts. */
type MoreNames = () => readonly string[];

/** Why an entry cannot stay as it is: it cannot be read, or the cell does not allow it (rule N4). */
export function entryProblem(
  cell: CellDocument,
  head: BookState['head'],
  more: MoreNames = () => [],
): Problem | undefined {
  const held = heldScalar(cell);
  if (held === undefined) return undefined;
  return unreadProblem(cell, held, head) ?? notAllowed(cell, held, head, more);
}

function unreadProblem(
  cell: CellDocument,
  held: Scalar,
  head: BookState['head'],
): Problem | undefined {
  if (typeof held === 'string' && mayBeUnread(cell, held)) {
    const reading = readEntry(held, contextOf(cell, head));
    return reading.kind === 'unread' ? problemOf(reading) : undefined;
  }
  const { typed } = cell.override ?? cell;
  if (typeof held !== 'number' || !isSlightPercent(held, cell.quantity, typed)) return undefined;
  return problemOf(unreadPercent(held));
}

const problemOf = ({ code, says, choices }: Omit<Unread, 'kind'>): Problem => ({
  code,
  says,
  ...(choices === undefined ? {} : { choices }),
});

function notAllowed(
  { allow, ...cell }: CellDocument,
  held: Scalar,
  head: BookState['head'],
  more: MoreNames,
): Problem | undefined {
  if (allow === undefined) return undefined;
  const also = allow.list === undefined || allow.from === undefined ? [] : more();
  const list = also.length === 0 ? allow : { ...allow, list: [...(allow.list ?? []), ...also] };
  const says = allowProblem(held, list, contextOf(cell, head));
  return says === undefined ? undefined : { code: 'Q0', says };
}

/**
 * Why what a cell holds by hand may not be computed with (rule N4): whatever needs it is in error. Words that
 * may also come from an own table are left to the functions that look there.
 */
export function refusedEntry(cell: CellDocument, head: BookState['head']): string | undefined {
  if (!mayBeRefused(cell)) return undefined;
  const { allow, ...plain } = cell;
  const judged = allow?.from === undefined ? cell : plain;
  return entryProblem(judged, head)?.says;
}

/** Most cells can be passed over without looking at what they hold. */
const mayBeRefused = ({ allow, quantity, value, override }: CellDocument): boolean =>
  allow !== undefined || quantity !== undefined || typeof (override?.value ?? value) === 'string';

/** A cell that is given a number as it is, which nobody typed: a slight percentage means what it says. */
export function givenCell(cell: CellDocument, value: Scalar): CellDocument {
  const { value: _value, typed: _typed, override: _override, ...traits } = cell;
  if (typeof value !== 'number' || !isSlightPercent(value, cell.quantity, undefined)) {
    return { ...traits, value };
  }
  return { ...traits, value, typed: `${value}%` };
}
