import type { BookDocument, CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { type NamedCell, namedCells } from './named.ts';

/** What becomes of a name that both workbooks have. */
export type Fate =
  /** The cell that comes in shows what the one there holds. */
  | 'follows'
  /** The cell there shows what the one that comes in works out. */
  | 'leads'
  /** Both are worked out by the same formula: the one there is enough. */
  | 'same'
  /** The cell that comes in gets another name. */
  | 'apart';

/** A name that both workbooks have. */
export interface Meeting {
  readonly there: NamedCell;
  readonly comes: NamedCell;
  fate: Fate;
  /** Why they are kept apart. */
  why: 'J3' | 'J4' | 'J5';
}

/** The names that two workbooks have in common, in the order of the one that comes in. */
export function meetingsOf(book: BookDocument, other: BookDocument): Meeting[] {
  const named = namedCells(book);
  return [...namedCells(other).values()].flatMap((comes): Meeting[] => {
    const there = named.get(nameKey(comes.name));
    return there === undefined ? [] : [{ there, comes, ...fateOf(there.cell, comes.cell) }];
  });
}

function fateOf(there: CellDocument, comes: CellDocument): Pick<Meeting, 'fate' | 'why'> {
  if (there.quantity !== comes.quantity) return { fate: 'apart', why: 'J4' };
  if (comes.formula === undefined) return { fate: 'follows', why: 'J3' };
  return { fate: there.formula === undefined ? 'leads' : 'same', why: 'J3' };
}
