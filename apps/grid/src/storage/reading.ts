import { type BookDocument, type Edit, loadText, Workbook } from '@kerfbook/workbook';
import type { KeptBook } from './records.ts';

/** A kept workbook brought up to date. */
export interface Brought {
  readonly document: BookDocument;
  /** Number of the last edit in it. */
  readonly revision: number;
  /** When that was made. */
  readonly updated: number;
  /** Edits that could not be carried out again, in order; empty as a rule. */
  readonly left: readonly Edit[];
}

export type BroughtOrNot =
  | { readonly ok: true; readonly brought: Brought }
  | { readonly ok: false; readonly says: string };

/** Reads the saved text and carries the log's edits out again, in order and without a gap. */
export function bringUpToDate({ record, log }: KeptBook): BroughtOrNot {
  const loaded = loadText(record.text);
  if (!loaded.ok) return loaded;
  const later = log.filter((entry) => entry.seq > record.revision);
  if (later.length === 0) {
    return {
      ok: true,
      brought: {
        document: loaded.document,
        revision: record.revision,
        updated: record.updated,
        left: [],
      },
    };
  }
  const book = Workbook.open(loaded.document);
  let { revision, updated } = record;
  for (const entry of later) {
    if (entry.seq !== revision + 1 || !book.apply(entry.edit, 'again').ok) break;
    revision = entry.seq;
    updated = entry.at;
  }
  const left = later.filter((entry) => entry.seq > revision).map((entry) => entry.edit);
  return { ok: true, brought: { document: book.document(), revision, updated, left } };
}
