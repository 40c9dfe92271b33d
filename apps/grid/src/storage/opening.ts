import {
  bringParts,
  type Edit,
  needsParts,
  type OpenWorkbook,
  saveText,
  Workbook,
} from '@kerfbook/workbook';
import type { BookStore } from './book-store.ts';
import { bringUpToDate } from './reading.ts';
import type { BookRecord, KeptBook, Origin } from './records.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';

/** A workbook read from the store and computed, ready to be shown. */
export interface Opened {
  readonly id: string;
  readonly book: OpenWorkbook;
  readonly origin: Origin;
  readonly revision: number;
  /** When its last change was kept; nothing where it is as it came. */
  readonly savedAt?: number;
  /** What could not be put back, in a sentence. */
  readonly says?: string;
}

export type OpenedOrNot =
  | { readonly ok: true; readonly opened: Opened }
  | { readonly ok: false; readonly says: string };

/**
 * Opens a kept workbook. Where this tab may write, the log is folded into the saved text first, so
 * that undo starts from what is kept and not from what the log happens to hold.
 */
export async function openKept(
  store: BookStore,
  id: string,
  mayWrite: boolean,
  now: number,
): Promise<OpenedOrNot> {
  const kept = await store.read(id);
  if (kept === undefined || kept.record.deleted !== undefined) {
    return { ok: false, says: 'That workbook is not on this device any more.' };
  }
  const result = await openRecord(kept);
  if (!result.ok || !mayWrite) return result;
  const { book, revision } = result.opened;
  const updated = result.opened.savedAt ?? kept.record.updated;
  if (result.left.length > 0) await setAside(store, id, result.left, now);
  if (kept.log.length > 0) {
    await store.put({ ...kept.record, title: book.title, revision, updated, text: textOf(book) });
  }
  return result;
}

/** The maker's working copy of a shipped template; made when it is opened for the first time. */
export async function openWorkingCopy(
  store: BookStore,
  template: ShippedTemplate,
  mayWrite: boolean,
  now: number,
): Promise<OpenedOrNot> {
  const kept = await store.read(workingCopyId(template.key));
  if (kept !== undefined && isTouched(kept)) return openKept(store, kept.record.id, mayWrite, now);
  // An untouched copy follows the template, also when a newer app ships a better one.
  const text = await template.text().catch((error: unknown) => {
    if (kept === undefined) throw error;
    return kept.record.text;
  });
  const record = workingCopy(template, text, now);
  if (mayWrite && kept?.record.text !== text) await store.put(record);
  return openRecord({ record, log: [] });
}

/** True where a maker changed a working copy. */
export function isTouched({ record, log }: KeptBook): boolean {
  return record.revision > 0 || log.length > 0;
}

type OpenedRecord =
  | { readonly ok: true; readonly opened: Opened; readonly left: readonly Edit[] }
  | { readonly ok: false; readonly says: string };

async function openRecord(kept: KeptBook): Promise<OpenedRecord> {
  const { record, log } = kept;
  // No formula is shown without what it needs. Where that cannot be had, its cell says so.
  if (needsParts(record.text) || (log.length > 0 && needsParts(JSON.stringify(log)))) {
    await bringParts().catch(() => undefined);
  }
  const result = bringUpToDate(kept);
  if (!result.ok) return { ok: false, says: `"${record.title}": ${result.says}` };
  const { document, revision, updated, left } = result.brought;
  const opened: Opened = {
    id: record.id,
    book: Workbook.open(document),
    origin: record.origin,
    revision,
    ...(revision === 0 && record.origin.kind === 'template' ? {} : { savedAt: updated }),
    ...(left.length === 0 ? {} : { says: leftSentence(left.length) }),
  };
  return { ok: true, opened, left };
}

/** A workbook's saved form as it stands. */
export function textOf(book: OpenWorkbook): string {
  return saveText(book.document());
}

export function workingCopy(template: ShippedTemplate, text: string, now: number): BookRecord {
  return {
    id: workingCopyId(template.key),
    title: template.title,
    origin: { kind: 'template', template: template.key },
    created: now,
    updated: now,
    revision: 0,
    text,
  };
}

/** Edits that no longer fit are kept beside the workbook: nothing a maker did is thrown away. */
function setAside(
  store: BookStore,
  id: string,
  edits: readonly Edit[],
  now: number,
): Promise<void> {
  return store.set(`aside:${id}:${now}`, edits);
}

function leftSentence(count: number): string {
  const changes = count === 1 ? 'The last change' : `The last ${count} changes`;
  return `${changes} could not be put back after the page closed. Check what you entered last.`;
}
