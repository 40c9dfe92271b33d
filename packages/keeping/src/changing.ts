import { type Edit, type OpenWorkbook, Workbook } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { DONE, notDone } from './bookcase-state.ts';
import { entryOf } from './entries.ts';
import { bringUpToDate } from './reading.ts';

/** What was changed in a workbook while it was not open, and what takes it back. */
export type ChangedKept =
  | {
      readonly ok: true;
      readonly title: string;
      /** Edits that take it back, in the order in which they are carried out. */
      readonly back: readonly Edit[];
    }
  | { readonly ok: false; readonly says: string };

/** Makes an edit of a workbook as the ones before left it; none where nothing is to be changed. */
export type EditMaker = (book: OpenWorkbook) => Edit | undefined;

/**
 * Carries edits out in a workbook that no tab has open, each made of the workbook as the ones before left it. They are
 * written to its log, as if it had been open: all of them or none.
 */
export async function changeKept(
  bookcase: Bookcase,
  id: string,
  makers: readonly EditMaker[],
): Promise<ChangedKept> {
  let changed: ChangedKept = { ok: false, says: '' };
  const done = await bookcase.whileHeld(id, async () => {
    const kept = await bookcase.store.read(id);
    if (kept === undefined) return notDone('That workbook is not on this device any more.');
    const read = bringUpToDate(kept);
    if (!read.ok) return notDone(read.says);
    const { document } = read.brought;
    const book = Workbook.open(document);
    const carried: Edit[] = [];
    const back: Edit[] = [];
    for (const make of makers) {
      const edit = make(book);
      if (edit === undefined) continue;
      const result = book.apply(edit);
      if (!result.ok) return notDone(result.says);
      carried.push(result.edit);
      back.unshift(result.inverse);
    }
    if (carried.length > 0) {
      const at = bookcase.now();
      const last = kept.log.at(-1)?.seq ?? kept.record.revision;
      await bookcase.store.append(carried.map((edit, i) => entryOf(id, last + 1 + i, edit, at)));
      await bookcase.store.relabel(id, { updated: at });
    }
    changed = { ok: true, title: document.title, back };
    return DONE;
  });
  return done.ok ? changed : done;
}
