import type { Edit } from '@kerfbook/workbook';
import type { TemplateState } from './templates.ts';
import { NEWER } from './trouble.ts';

/**
 * Version of what is kept here: of a record, of each entry of a log, and of edits set aside. Where none
 * is told it is the first. It grows with every change of what they mean, words within an edit included.
 */
export const KEPT = 8;

/** Where a workbook on this device came from. */
export type Origin =
  | {
      readonly kind: 'template';
      readonly template: string;
      /** Which state of it the copy was made of; left out by apps before this was kept. */
      readonly state?: TemplateState;
    }
  /** Without `job` and with a name in `from` it is a template of the maker's own, made from that. */
  | { readonly kind: 'own'; readonly from: string; readonly job?: true }
  | { readonly kind: 'file'; readonly file: string }
  /** It came whole in a link. */
  | { readonly kind: 'link' };

/** Whether a workbook is a template of the maker's own: what is changed in it is changed for every job to come. */
export const isOwnTemplate = (origin: Origin): boolean =>
  origin.kind === 'own' && origin.from !== '' && origin.job !== true;

/** What the list of workbooks needs to know of one. */
export interface BookHead {
  /** Unique on this device. */
  readonly id: string;
  /** What the maker calls it. */
  readonly title: string;
  /** Where it came from. */
  readonly origin: Origin;
  /** Milliseconds since 1970, as all times here. */
  readonly created: number;
  /** When it was last changed. */
  readonly updated: number;
  /** Number of the last edit that `text` holds; later ones wait in the log. */
  readonly revision: number;
  /** When it was thrown away; it stays in the trash until the maker deletes it for good. */
  readonly deleted?: number;
}

/** A workbook as kept: its saved text and what the list shows of it. */
export interface BookRecord extends BookHead {
  /** Version of what is kept ({@link KEPT}); left out in the first. */
  readonly kept?: number;
  /** Its saved text. */
  readonly text: string;
}

/** One edit after the snapshot, in the order it was made. */
export interface LogEntry {
  /** Version of what is kept ({@link KEPT}); left out in the first. */
  readonly kept?: number;
  /** Id of its workbook. */
  readonly book: string;
  /** Its number among the edits of its workbook, one after the other. */
  readonly seq: number;
  /** As it is carried out again. */
  readonly edit: Edit;
  /** When it was made. */
  readonly at: number;
}

/** All that is needed to open a workbook as it was left. */
export interface KeptBook {
  /** Its saved text and what the list shows of it. */
  readonly record: BookRecord;
  /** Edits after `record.revision`, in order. */
  readonly log: readonly LogEntry[];
}

/** Values of the store by their keys; `undefined` takes one out. */
export type Values = ReadonlyMap<string, unknown>;

/** What has to be written before the next edit of a workbook can be. */
export interface Owed {
  /** The record that has to be there. */
  readonly record: BookRecord;
  /** Values kept beside it. */
  readonly beside?: Values;
}

/** An edit that no longer fits its workbook, kept beside it. */
export interface AsideEdit {
  readonly kept?: number;
  readonly edit: Edit;
  readonly at: number;
}

/**
 * What the list shows of a record. A damaged one is shown too, with what can still be told of it: it is
 * the maker's work, and never a reason to hide other work.
 */
export function headOf(kept: unknown): BookHead {
  const raw = (kept !== null && typeof kept === 'object' ? kept : {}) as {
    readonly [K in keyof BookRecord]?: unknown;
  };
  return {
    id: String(raw.id),
    title: typeof raw.title === 'string' && raw.title !== '' ? raw.title : 'Untitled',
    origin: originOf(raw.origin),
    created: timeOf(raw.created),
    updated: timeOf(raw.updated),
    revision: isRevision(raw.revision) ? raw.revision : 0,
    ...(raw.deleted === undefined ? {} : { deleted: timeOf(raw.deleted) }),
  };
}

/** Why a record cannot be read, in a sentence; nothing where it can. */
export function recordTrouble(record: BookRecord): string | undefined {
  if (isNewer(record)) return NEWER;
  if (typeof record.text !== 'string') return 'Its saved text is missing on this device.';
  if (!isRevision(record.revision)) {
    return 'What this device keeps of it is damaged: the number of its last change is missing.';
  }
  return undefined;
}

/** True of what an app that came after this one keeps: it is left as it is. */
export function isNewer({ kept = 1 }: { readonly kept?: number }): boolean {
  return kept > KEPT;
}

function isRevision(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
}

/** A time that dates can be made of; 0 stands for one that is not known. */
export function timeOf(value: unknown): number {
  return typeof value === 'number' && Math.abs(value) <= 8.64e15 ? value : 0;
}

function originOf(value: unknown): Origin {
  const raw = (value ?? {}) as {
    kind?: unknown;
    template?: unknown;
    from?: unknown;
    file?: unknown;
  };
  if (raw.kind === 'template' && typeof raw.template === 'string') return value as Origin;
  if (raw.kind === 'file' && typeof raw.file === 'string') return value as Origin;
  if (raw.kind === 'link') return { kind: 'link' };
  return raw.kind === 'own' && typeof raw.from === 'string'
    ? (value as Origin)
    : { kind: 'own', from: '' };
}
