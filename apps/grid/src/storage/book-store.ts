import type { BookHead, BookRecord, KeptBook, LogEntry } from './records.ts';

/** Where workbooks are kept. Every method that changes something is one transaction. */
export interface BookStore {
  /** False where everything is gone when the page closes. */
  readonly lasting: boolean;
  list(): Promise<readonly BookHead[]>;
  read(id: string): Promise<KeptBook | undefined>;
  /** Adds or replaces a workbook and empties its log. */
  put(record: BookRecord): Promise<void>;
  /** Changes what the list says of a workbook; its text and log stay. */
  relabel(id: string, head: HeadChange): Promise<void>;
  /**
   * Writes edits to the log. The request has left this page when the call returns, so a page
   * that dies right after it loses nothing; the promise tells when it is on the disk.
   */
  append(entries: readonly LogEntry[]): Promise<void>;
  /** Replaces a workbook's text and drops the edits it now holds. */
  snapshot(id: string, text: string, head: SnapshotHead): Promise<void>;
  /** Removes a workbook and its log for good. */
  destroy(id: string): Promise<void>;
  get(key: string): Promise<unknown>;
  set(key: string, value: unknown): Promise<void>;
}

export interface HeadChange {
  readonly title?: string;
  readonly updated?: number;
  /** `null` takes it out of the trash. */
  readonly deleted?: number | null;
}

export interface SnapshotHead {
  readonly title: string;
  readonly updated: number;
  readonly revision: number;
}

export function changedHead(record: BookRecord, change: HeadChange): BookRecord {
  const { deleted: was, ...rest } = record;
  const deleted = change.deleted === undefined ? was : (change.deleted ?? undefined);
  return {
    ...rest,
    title: change.title ?? record.title,
    updated: change.updated ?? record.updated,
    ...(deleted === undefined ? {} : { deleted }),
  };
}

export function headOf({ text: _text, ...head }: BookRecord): BookHead {
  return head;
}
