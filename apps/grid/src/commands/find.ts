import type { At, Edit, OpenWorkbook } from '@kerfbook/workbook';
import { didWith } from '../session/area.ts';
import type { Session } from '../session/session.ts';

/** A cell in which what was looked for stands. */
interface Match {
  readonly at: At;
  readonly where: 'entry' | 'value' | 'remark';
  /** The text it stands in. */
  readonly text: string;
}

const MOST = 5000;

/** Every cell of the workbook in whose entry, shown value or remark a text stands (G60). */
export function findAll(book: OpenWorkbook, wanted: string): readonly Match[] {
  const word = wanted.toLowerCase();
  if (word === '') return [];
  const found: Match[] = [];
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns && found.length < MOST; column += 1) {
        const at = { sheet: id, row, column };
        const cell = book.cell(at);
        const { entry, shown, remark } = cell;
        if (entry.toLowerCase().includes(word)) found.push({ at, where: 'entry', text: entry });
        else if (shown.text.toLowerCase().includes(word)) {
          found.push({ at, where: 'value', text: shown.text });
        }
        if (remark?.toLowerCase().includes(word) === true) {
          found.push({ at, where: 'remark', text: remark });
        }
      }
    }
  }
  return found;
}

/** Matches that can be written over: what only a result shows cannot, nor what a lock keeps. */
export const changeable = (book: OpenWorkbook, matches: readonly Match[]): readonly Match[] =>
  matches.filter(
    ({ at, where }) =>
      where !== 'value' && (!book.locked || (where === 'entry' && book.lockOf(at) === undefined)),
  );

/** Writes another text in the place of what was found; all of it is one step of undo. */
export function replaceAll(
  session: Session,
  matches: readonly Match[],
  wanted: string,
  by: string,
): boolean {
  const pattern = new RegExp(wanted.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'), 'gi');
  const edits = changeable(session.book, matches).map(({ at, where, text }): Edit => {
    const { sheet, row, column } = at;
    // A function, so that `$` in the new text is only a `$`.
    const next = text.replace(pattern, () => by);
    return where === 'remark'
      ? {
          do: 'describeCells',
          sheet,
          cells: [{ row, column, traits: { remark: next === '' ? null : next } }],
        }
      : { do: 'enter', sheet, cells: [{ row, column, text: next }] };
  });
  return (
    edits.length > 0 &&
    session.apply({ do: 'batch', edits }, didWith('Replaced in', edits.length)).ok
  );
}
