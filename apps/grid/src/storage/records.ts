import type { Edit } from '@kerfbook/workbook';

/** Where a workbook on this device came from. */
export type Origin =
  | { readonly kind: 'template'; readonly template: string }
  | { readonly kind: 'own'; readonly from: string }
  | { readonly kind: 'file'; readonly file: string };

/** What the list of workbooks needs to know of one. */
export interface BookHead {
  readonly id: string;
  readonly title: string;
  readonly origin: Origin;
  /** Milliseconds since 1970, as all times here. */
  readonly created: number;
  readonly updated: number;
  /** Number of the last edit that `text` holds; later ones wait in the log. */
  readonly revision: number;
  /** When it was thrown away; kept for `TRASH_DAYS` after that. */
  readonly deleted?: number;
}

/** A workbook as kept: its saved text and what the list shows of it. */
export interface BookRecord extends BookHead {
  readonly text: string;
}

/** One edit after the snapshot, in the order it was made. */
export interface LogEntry {
  readonly book: string;
  readonly seq: number;
  readonly edit: Edit;
  /** When it was made. */
  readonly at: number;
}

export interface KeptBook {
  readonly record: BookRecord;
  /** Edits after `record.revision`, in order. */
  readonly log: readonly LogEntry[];
}

export const TRASH_DAYS = 30;
export const DAY = 24 * 60 * 60 * 1000;
