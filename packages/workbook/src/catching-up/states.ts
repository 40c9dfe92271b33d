import { type BookDocument, type Merged, settled, type ToSettle } from '@kerfbook/document';
import type { Refused } from '../api.ts';
import { statesInStep } from './in-step.ts';

/**
 * Two states of one workbook and the one they have in common, in the same units, ready to be put together. Whether they
 * are of one workbook is not looked at: names and sheets may all have become others.
 */
export function statesToSettle(
  base: BookDocument,
  theirs: BookDocument,
  mine: BookDocument,
  names: ToSettle['names'],
): (ToSettle & { readonly ok: true }) | Refused {
  const step = statesInStep(base, theirs, mine);
  return step.ok ? { ...step, names } : step;
}

/**
 * Puts two states of one workbook together as two devices have it (rules H7, H9, H10); places that both changed are
 * among the conflicts, with their `spot`. No engine is asked unless the two count in different units.
 */
export function statesTogether(
  base: BookDocument,
  theirs: BookDocument,
  mine: BookDocument,
  names: ToSettle['names'],
): Merged | Refused {
  const toSettle = statesToSettle(base, theirs, mine, names);
  return toSettle.ok ? settled(toSettle) : toSettle;
}
