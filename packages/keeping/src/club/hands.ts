import {
  type Applied,
  type BookDocument,
  byIds,
  cameIn,
  type Edit,
  type OpenWorkbook,
  type Refused,
  saveText,
} from '@kerfbook/workbook';
import { basesBefore } from '../bases.ts';
import type { Bookcase } from '../bookcase.ts';
import { DONE, notDone } from '../bookcase-state.ts';
import { bringUpToDate } from '../reading.ts';
import { type BookRecord, KEPT, type Values } from '../records.ts';

/**
 * Carries out on the workbook at hand what came from the club, with `cameIn`, draws it, says it, and records it in the
 * bookcase.
 */
export type TakeIn = (edit: Edit, said: string) => Applied | Refused;

/** What came of making a workbook another state: `changed`: it is otherwise by now, or open elsewhere. */
export type Became =
  | { readonly ok: true }
  | { readonly ok: false; readonly why: 'changed' }
  | { readonly ok: false; readonly why: 'refused'; readonly says: string };

/** A workbook of this device as it stands, open in this page or not: nobody else writes it. */
export interface Hand {
  readonly title: string;
  /** Number of its last edit. */
  readonly revision: number;
  readonly document: BookDocument;
  /** Its saved text. */
  readonly text: string;
  /** False where the device did not take all of it yet. */
  written(): Promise<boolean>;
  /**
   * Makes it another state, unless it was changed meanwhile.
   * @param beside what is kept beside it then, by the number of its last edit
   */
  become(
    document: BookDocument,
    said: string,
    beside: (revision: number) => Values,
  ): Promise<Became>;
}

const CHANGED = { ok: false, why: 'changed' } as const;
const IS_PUT_IN = 'W16';

/** Takes what came in without drawing anything: for whoever has no page. */
export const takeInUnseen =
  (bookcase: Bookcase): TakeIn =>
  (edit) => {
    const result = bookcase.current.book.apply(edit, cameIn);
    if (result.ok) bookcase.record(result.edit);
    return result;
  };

/** A workbook as it is; nothing where it is not for this page to write, or in the midst of a change. */
export async function handOf(
  bookcase: Bookcase,
  id: string,
  takeIn: TakeIn,
): Promise<Hand | { readonly says: string } | undefined> {
  if (id === bookcase.current.id) return openHand(bookcase, takeIn);
  if (bookcase.inHand(id) !== undefined) return undefined;
  return closedHand(bookcase, id);
}

function openHand(bookcase: Bookcase, takeIn: TakeIn): Hand | undefined {
  const { book, access, id } = bookcase.current;
  const text = access === 'write' ? textNow(book) : undefined;
  if (text === undefined) return undefined;
  const { revision } = bookcase;
  const isAsItWas = (): boolean =>
    bookcase.current.book === book && bookcase.revision === revision && textNow(book) === text;
  return {
    title: book.title,
    revision,
    document: book.document(),
    text,
    written: async () => bookcase.current.id === id && (await bookcase.written()),
    async become(document, said, beside) {
      if (!isAsItWas()) return CHANGED;
      if (saveText(byIds(document)) !== text) {
        const done = takeIn({ do: 'become', book: document }, said);
        if (!done.ok) {
          return done.code === IS_PUT_IN ? CHANGED : { ok: false, why: 'refused', says: done.says };
        }
      }
      const now = bookcase.revision;
      // What is said beside must never be ahead of the workbook: it would look as if its maker had taken it back.
      if (!(await bookcase.written())) return CHANGED;
      await bookcase.store.setAll(beside(now));
      return DONE;
    },
  };
}

/** Nothing while it is in the midst of a change that may be dropped. */
function textNow(book: OpenWorkbook): string | undefined {
  const pieces = book.savedPieces();
  const text: string[] = [];
  for (let piece = pieces.next(); ; piece = pieces.next()) {
    if (piece.done === true) return piece.value ? text.join('') : undefined;
    text.push(piece.value);
  }
}

const OPEN_FIRST =
  'Its last changes could not be put back on this device. Open it once: then it follows again.';

async function closedHand(
  bookcase: Bookcase,
  id: string,
): Promise<Hand | { readonly says: string } | undefined> {
  const { store } = bookcase;
  const kept = await store.read(id);
  if (kept === undefined || kept.record.deleted !== undefined) return undefined;
  const read = bringUpToDate(kept);
  if (!read.ok) return { says: read.says };
  if (read.brought.left.length > 0) return { says: OPEN_FIRST };
  const { revision } = read.brought;
  const last = (one: typeof kept): number => one.log.at(-1)?.seq ?? one.record.revision;
  const seen = last(kept);
  const document = byIds(read.brought.document);
  return {
    title: document.title,
    revision,
    document,
    text: saveText(document),
    written: async () => true,
    async become(next, _said, beside) {
      let isWritten = false;
      const done = await bookcase.whileHeld(id, async () => {
        const now = await store.read(id);
        const isSame = now?.record.text === kept.record.text && last(now) === seen;
        if (now === undefined || !isSame) return notDone('');
        isWritten = true;
        const after = saveText(byIds(next)) === saveText(document) ? revision : seen + 1;
        if (after === revision) await store.setAll(beside(after));
        else {
          const record: BookRecord = {
            ...now.record,
            title: next.title,
            updated: bookcase.now(),
            revision: after,
            kept: KEPT,
            text: saveText(byIds(next)),
          };
          await store.put(record, new Map([...basesBefore(now.record), ...beside(after)]));
        }
        return DONE;
      });
      if (done.ok) return DONE;
      // It was changed, or another tab has it open: whoever writes it brings it in.
      return isWritten ? { ok: false, why: 'refused', says: done.says } : CHANGED;
    },
  };
}
