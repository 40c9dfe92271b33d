import type { BookDocument } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { breath } from './breath.ts';
import { bringUpToDate } from './reading.ts';
import type { KeptBook } from './records.ts';

/** A kept workbook that is not at hand. */
export interface OtherBook {
  /** Its id on this device. */
  readonly id: string;
  /** What it is called. */
  readonly title: string;
  /** What it holds, with the changes that were made last. */
  readonly document: BookDocument;
}

/**
 * The kept workbooks beside the one at hand that have a table of a kind; those in the trash are none. Others are not
 * brought up to date: most have none, and to work them all out would take long.
 * @param kind of the table, as its document names it
 * @returns with those that cannot be read counted: nothing is said of the rest of them
 */
export async function otherBooksWith(
  { store, current }: Pick<Bookcase, 'store' | 'current'>,
  kind: string,
): Promise<{ readonly books: readonly OtherBook[]; readonly unread: number }> {
  const books: OtherBook[] = [];
  let unread = 0;
  for (const { id, deleted } of await store.list()) {
    if (id === current.id || deleted !== undefined) continue;
    const kept = await store.read(id);
    if (kept === undefined || !mayHave(kept, kind)) continue;
    const read = bringUpToDate(kept);
    if (!read.ok) unread += 1;
    else {
      const { document } = read.brought;
      if (document.tables.some((table) => table.kind === kind)) {
        books.push({ id, title: document.title, document });
      }
    }
    await breath();
  }
  return { books, unread };
}

/** Whether its text or its log names the kind: said quickly, and now and then of one that has no such table. */
function mayHave({ record, log }: KeptBook, kind: string): boolean {
  const word = `"${kind}"`;
  return record.text.includes(word) || log.some(({ edit }) => JSON.stringify(edit).includes(word));
}
