import { editInWords } from '../library/edit-words.ts';
import type { Session } from '../session/session.ts';

/** Longest sentence on a button, in letters. */
const LONGEST = 90;

/**
 * What undoing, or redoing, would take back or do again, in a few words.
 * @returns a phrase that begins with the verb: `Undo Brief B6: 96`
 */
export function stepWords(session: Session, which: 'undo' | 'redo'): string {
  const verb = which === 'undo' ? 'Undo' : 'Redo';
  const { edit, said: called } = session.effects.stepOf(which);
  if (called !== undefined) return `${verb}: ${called}`;
  if (edit === undefined) return verb;
  const [first = '', ...more] = editInWords(edit, session.book.document());
  const rest = more.length === 0 ? '' : `, and ${more.length} more`;
  const said = first.length > LONGEST ? `${first.slice(0, LONGEST)}…` : first;
  return `${verb} ${said}${rest}`;
}
