import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { entryOfToday, setAsideOf } from './entries.ts';
import {
  type AsideEdit,
  isNewer,
  type KeptBook,
  type LogEntry,
  recordTrouble,
  timeOf,
} from './records.ts';
import { NEWER, notWorkedOut } from './trouble.ts';

/** A kept workbook brought up to date. */
export interface Brought {
  readonly document: BookDocument;
  /** Number of the last edit in it. */
  readonly revision: number;
  /** When that was made. */
  readonly updated: number;
  /** Edits that could not be carried out again, in order; empty as a rule. */
  readonly left: readonly AsideEdit[];
  /** What an older app's text says otherwise now, in a sentence. */
  readonly says?: string;
}

export type BroughtOrNot =
  | { readonly ok: true; readonly brought: Brought }
  | { readonly ok: false; readonly says: string };

/** Reads the saved text and carries the log's edits out again, in order and without a gap. */
export function bringUpToDate({ record, log }: KeptBook): BroughtOrNot {
  const says = recordTrouble(record);
  if (says !== undefined) return { ok: false, says };
  const loaded = loadText(record.text);
  if (!loaded.ok) return loaded;
  const { migration } = loaded;
  const after = log.filter((entry) => !(entry.seq <= record.revision));
  // None of it is set aside: an app that can read it brings all of it.
  if (after.some(isNewer)) return { ok: false, says: NEWER };
  const later = after.map((entry) => entryOfToday(entry, migration));
  let fits: ReturnType<typeof replayed>;
  try {
    fits = replayed(loaded.document, record.revision, later);
  } catch (error) {
    return { ok: false, says: notWorkedOut(error) };
  }
  const last = later[fits.count - 1];
  return {
    ok: true,
    brought: {
      document: fits.document,
      revision: record.revision + fits.count,
      updated: timeOf(last === undefined ? record.updated : last.at),
      left: later.slice(fits.count).map(setAsideOf),
      ...(migration?.says === undefined ? {} : { says: migration.says }),
    },
  };
}

/** As many edits as can be carried out again one after the other, and what that makes. */
function replayed(
  document: BookDocument,
  revision: number,
  later: readonly LogEntry[],
): { readonly document: BookDocument; readonly count: number } {
  if (later.length === 0) return { document, count: 0 };
  const book = Workbook.open(document);
  for (const [i, { seq, edit }] of later.entries()) {
    try {
      if (seq !== revision + i + 1 || !book.apply(edit, 'again').ok) {
        return { document: book.document(), count: i };
      }
    } catch {
      // Half of it may have been carried out: what was before it is made again.
      return replayed(document, revision, later.slice(0, i));
    }
  }
  return { document: book.document(), count: later.length };
}
