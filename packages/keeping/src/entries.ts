import type { Edit, Loaded } from '@kerfbook/workbook';
import { type AsideEdit, KEPT, type LogEntry } from './records.ts';

/** An entry of the log for an edit that was just carried out. */
export function entryOf(book: string, seq: number, edit: Edit, at: number): LogEntry {
  return { kept: KEPT, book, seq, edit, at };
}

/** What reading the workbook's text told of edits that an older app made on it. */
type Migration = Extract<Loaded, { readonly ok: true }>['migration'];

/**
 * An entry as it is written today: all that knows of earlier versions of entries is here. One log may hold
 * several: a newer app goes on behind what an older one left, where the device has no room for more.
 */
export function entryOfToday(entry: LogEntry, migration: Migration): LogEntry {
  const { kept = 1 } = entry;
  // What was kept as of the second version and later means today what it meant.
  const isFirst = kept === 1 && migration !== undefined;
  const edit = isFirst ? (migration.edit(entry.edit) as Edit) : entry.edit;
  return { ...entry, kept: KEPT, edit };
}

/** What stays of an entry that no longer fits its workbook. */
export function setAsideOf({ kept, edit, at }: LogEntry): AsideEdit {
  return { ...(kept === undefined ? {} : { kept }), edit, at };
}
