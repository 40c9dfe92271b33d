import { loadLazy, needsLazy, type OpenWorkbook, openWhole, saveText } from '@kerfbook/workbook';
import { basesBefore } from './bases.ts';
import type { BookStore } from './book-store.ts';
import { bringUpToDate } from './reading.ts';
import {
  type AsideEdit,
  type BookRecord,
  headOf,
  KEPT,
  type KeptBook,
  type Origin,
  type Owed,
  type Values,
} from './records.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';
import { NO_TEMPLATE, notWorkedOut } from './trouble.ts';

/** A workbook read from the store and computed, ready to be shown. */
export interface Opened {
  readonly id: string;
  readonly book: OpenWorkbook;
  readonly origin: Origin;
  readonly revision: number;
  /** Number of the last edit in the saved text, where that is not `revision`. */
  readonly folded?: number;
  /** When its last change was kept; nothing where it is as it came. */
  readonly savedAt?: number;
  /** What could not be put back, in a sentence. */
  readonly says?: string;
  /** What has to be written before the next edit can be: opening it needed no room. */
  readonly owed?: Owed;
  /** What has to be written before its text is written for the first time: the state that it came from. */
  readonly before?: Values;
  /** Why the workbook itself is not on the device yet. */
  readonly trouble?: string;
}

/** A workbook that was not opened. */
export interface NotOpened {
  readonly ok: false;
  /** `bad`: it is there and cannot be read. `away`: its template did not arrive. */
  readonly why: 'gone' | 'bad' | 'away';
  readonly says: string;
  readonly title?: string;
}

/** Why, with its title where that is known. */
export function notOpened({ why, says, title }: NotOpened): string {
  if (why !== 'bad') return says;
  return `${title === undefined ? 'A workbook' : `"${title}"`} could not be opened. ${says}`;
}

export type OpenedOrNot = { readonly ok: true; readonly opened: Opened } | NotOpened;

/**
 * Opens a kept workbook. Where this tab may write, the log is folded into the saved text first, so
 * that undo starts from what is kept and not from what the log happens to hold; what an older app kept
 * is written as today, so that what is new in it is told once. Where the device has no
 * room for that, it is opened all the same.
 */
export async function openKept(
  store: BookStore,
  id: string,
  mayWrite: boolean,
  now: number,
): Promise<OpenedOrNot> {
  const kept = await store.read(id);
  if (kept === undefined || kept.record.deleted !== undefined) {
    return { ok: false, why: 'gone', says: 'That workbook is not on this device any more.' };
  }
  const result = await openRecord(kept);
  const asToday = kept.log.length === 0 && kept.record.kept === KEPT;
  if (!result.ok || !mayWrite || asToday) return result;
  const { opened, left } = result;
  const { book, revision } = opened;
  const updated = opened.savedAt ?? kept.record.updated;
  const head = { title: book.title, origin: opened.origin, revision, updated };
  const record = { ...kept.record, ...head, kept: KEPT, text: textOf(book) };
  const before = basesBefore(kept.record);
  const aside: Values = left.length === 0 ? new Map() : new Map([[`aside:${id}:${now}`, left]]);
  const beside: Values = new Map([...before, ...aside]);
  const owed: Owed = beside.size === 0 ? { record } : { record, beside };
  try {
    await store.put(record, owed.beside);
    return result;
  } catch {
    // The log stays where it is. Only edits that no longer fit must be out of the way of new ones.
    return left.length === 0
      ? { ok: true, opened: { ...opened, folded: kept.record.revision, before } }
      : { ok: true, opened: { ...opened, owed } };
  }
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
  const text = await template.text().catch(() => kept?.record.text);
  if (text === undefined) return { ok: false, why: 'away', says: NO_TEMPLATE };
  const record = workingCopy(template, text, now);
  const result = await openRecord({ record, log: [] });
  if (!result.ok || !mayWrite) return result;
  const opened = { ...result.opened, before: basesBefore(record) };
  if (kept?.record.text === text && isOf(kept.record.origin, template)) return { ok: true, opened };
  try {
    await store.put(record);
    return { ok: true, opened };
  } catch {
    return { ok: true, opened: { ...opened, owed: { record } } };
  }
}

const isOf = (origin: Origin, { state }: ShippedTemplate): boolean =>
  origin.kind === 'template' && origin.state?.sign === state?.sign;

/** True where a maker changed a working copy. */
export function isTouched({ record, log }: KeptBook): boolean {
  return record.revision !== 0 || log.length > 0;
}

type OpenedRecord =
  | { readonly ok: true; readonly opened: Opened; readonly left: readonly AsideEdit[] }
  | NotOpened;

/** Opens what was read, without touching the store. */
export async function openRecord(kept: KeptBook): Promise<OpenedRecord> {
  const { record, log } = kept;
  const { title, origin } = headOf(record);
  // No formula is shown without what it needs; where that cannot be had, its cell says so. What the text
  // tells of is there before it is worked out for the first time.
  if (needsLazy(String(record.text)) || (log.length > 0 && needsLazy(JSON.stringify(log)))) {
    await loadLazy().catch(() => undefined);
  }
  try {
    const result = bringUpToDate(kept);
    if (!result.ok) return { ok: false, why: 'bad', says: result.says, title };
    const { document, revision, updated, left, says } = result.brought;
    const told = [
      ...(says === undefined ? [] : [says]),
      ...(left.length === 0 ? [] : [leftSentence(left.length)]),
    ];
    const opened: Opened = {
      id: record.id,
      book: await openWhole(document),
      origin,
      revision,
      ...(revision === 0 && origin.kind === 'template' ? {} : { savedAt: updated }),
      ...(told.length === 0 ? {} : { says: told.join(' ') }),
    };
    return { ok: true, opened, left };
  } catch (error) {
    return { ok: false, why: 'bad', says: notWorkedOut(error), title };
  }
}

/** A workbook's saved form as it stands. */
export function textOf(book: OpenWorkbook): string {
  return saveText(book.document());
}

export function workingCopy(template: ShippedTemplate, text: string, now: number): BookRecord {
  return {
    id: workingCopyId(template.key),
    title: template.title,
    origin: {
      kind: 'template',
      template: template.key,
      ...(template.state === undefined ? {} : { state: template.state }),
    },
    created: now,
    updated: now,
    revision: 0,
    kept: KEPT,
    text,
  };
}

function leftSentence(count: number): string {
  const changes = count === 1 ? 'The last change' : `The last ${count} changes`;
  const kept = count === 1 ? 'It is kept' : 'They are kept';
  return `${changes} could not be put back after the page closed. ${kept}: look under Workbooks, and check what you typed last.`;
}
