import type { CellIds } from '@kerfbook/workbook';
import { editInWords } from '../library/edit-words.ts';
import { wordsFor } from '../session/called.ts';
import type { Session } from '../session/session.ts';

/** Longest sentence on a button, in letters. */
const LONGEST = 90;

/**
 * What undoing, or redoing, would take back or do again, in a few words.
 * @returns a phrase that begins with the verb: `Undo Length of the top: 96`
 */
export function stepWords(session: Session, which: 'undo' | 'redo'): string {
  const verb = which === 'undo' ? 'Undo' : 'Redo';
  const { edit, said: step } = session.effects.stepOf(which);
  if (step !== undefined) return `${verb}: ${step}`;
  if (edit === undefined) return verb;
  const { book } = session;
  const called = (ids: CellIds): string | undefined => {
    const at = book.placeOf(ids);
    return at === undefined ? undefined : wordsFor(at, book);
  };
  const [first = '', ...more] = editInWords(edit, { ...book.document(), called });
  const rest = more.length === 0 ? '' : `, and ${more.length} more`;
  const said = first.length > LONGEST ? `${first.slice(0, LONGEST)}…` : first;
  return `${verb} ${said}${rest}`;
}
