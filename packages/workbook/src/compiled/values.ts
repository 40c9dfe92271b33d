import type { At } from '@kerfbook/document';
import { Failure } from '@kerfbook/functions/computing';
import type { FoundError } from '../results/errors.ts';
import { PERSON_MARK } from '../results/sentences.ts';

export {
  added,
  compared,
  comparedNumbers,
  Failure,
  finished,
  SAYS,
  settled,
  subtracted,
  toLogical,
  toNumber,
  toText,
  type Value,
} from '@kerfbook/functions/computing';

/** A root that is no cell: a name in a loop. */
export const NOWHERE = -1;

/** An error that another engine found, with the slot of the cell it began in. */
export function failureOf(
  { type, message, root, inName }: FoundError,
  slotOf: (at: At) => number | undefined,
): Failure {
  if (inName) return new Failure(type, message, NOWHERE);
  return new Failure(type, message, root === undefined ? undefined : slotOf(root));
}

/** The error that an entry is which may not be computed with (rule N4). */
export const refusedAt = (slot: number, says: string): Failure =>
  new Failure('VALUE', PERSON_MARK + says, slot);
