import type { Bookcase } from '@kerfbook/keeping';
import type { TakeIn } from '@kerfbook/keeping/club';
import { type BookDocument, cameIn, type Edit } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';

const LATER = {
  ok: false,
  code: 'W16',
  says: 'An entry is being written: what came from the club waits until it is done.',
} as const;

/** The workbook on the page. */
export interface AtHand {
  session?: Session | undefined;
  /** What comes in is what the maker chose just now: the dialog he chose it in does not keep it out. */
  isChosen?: boolean;
}

/**
 * Takes what came from the club into the workbook at hand, draws and tells it. It waits while that would take an entry
 * that is being written away, or move cells under an open dialog.
 */
export const takeInAtHand =
  (bookcase: Bookcase, page: AtHand): TakeIn =>
  (edit, said) => {
    const { session: at, isChosen = false } = page;
    if (at === undefined || at.book !== bookcase.current.book) return LATER;
    if (!isChosen && !mayComeNow(at, edit)) return LATER;
    const cell = at.book.idsAt(at.at);
    const done = at.takeIn(edit, said, cameIn);
    // The cell that was at hand may stand elsewhere now: what is done next is meant for that one.
    const now = done.ok && done.structure && cell !== undefined ? at.book.placeOf(cell) : undefined;
    if (now !== undefined && (now.row !== at.at.row || now.column !== at.at.column)) at.go(now);
    return done;
  };

/** Whether what comes in leaves the entry that is written, its cell, and all that an open dialog speaks of in place. */
function mayComeNow({ book, editing, state }: Session, edit: Edit): boolean {
  const { menu, asked, busy } = state.value;
  if (busy !== undefined) return false;
  const isBusyHere =
    editing !== undefined ||
    menu !== undefined ||
    asked !== undefined ||
    document.querySelector('dialog[open]') !== null;
  if (!isBusyHere) return true;
  if (edit.do !== 'become') return false;
  const now = book.document();
  if (shapeOf(now) !== shapeOf(edit.book)) return false;
  if (editing === undefined) return true;
  return cellIn(now, editing.at) === cellIn(edit.book, editing.at);
}

/** Sheets, rows and columns in their order. */
function shapeOf({ units, sheets }: BookDocument): string {
  const ids = (all: readonly { readonly id: string }[]): string => all.map(({ id }) => id).join();
  const each = sheets.map(({ id, rows, columns }) => `${id}:${ids(rows)}:${ids(columns)}`);
  return `${units} ${each.join(' ')}`;
}

function cellIn({ sheets }: BookDocument, at: Session['at']): string {
  const sheet = sheets.find(({ id }) => id === at.sheet);
  const column = sheet?.columns[at.column]?.id;
  const cell = column === undefined ? undefined : sheet?.rows[at.row]?.cells?.[column];
  if (cell === undefined) return '';
  const parts = Object.entries(cell).sort(([one], [other]) => (one < other ? -1 : 1));
  return JSON.stringify(parts);
}
