import { loadText, saveText } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import type { Done } from './bookcase-state.ts';
import { notDone } from './bookcase-state.ts';
import { fileNameFor } from './file-name.ts';
import { notOpened, openRecord } from './opening.ts';
import { type AsideEdit, timeOf } from './records.ts';
import { timeOfDay } from './save-state.ts';
import { type VersionHead, Versions } from './version-list.ts';

/** What can be had of a workbook that cannot be opened. Nothing here changes what is kept of it. */

export interface TakenOut {
  /** What it is called, its ending with it. */
  readonly fileName: string;
  /** What stands in it. */
  readonly text: string;
}

/** The saved text letter by letter as it is stored; nothing where no text is stored. */
export async function textAsStored(
  { store }: Bookcase,
  id: string,
  title: string,
): Promise<TakenOut | undefined> {
  const text: unknown = (await store.read(id))?.record.text;
  if (typeof text !== 'string') return undefined;
  return { fileName: fileNameFor(`${title} as stored`), text };
}

/** Everything the device keeps of a workbook as it is stored: record, log, edits set aside. */
export async function allAsStored(
  bookcase: Bookcase,
  id: string,
  title: string,
): Promise<TakenOut> {
  const { store } = bookcase;
  const kept = await store.read(id);
  const keys = await store.keys(`aside:${id}:`);
  const aside = await Promise.all(
    keys.map(async (key) => ({ key, edits: await store.get(key).catch(() => undefined) })),
  );
  const all = { 'kerfbook-kept': 1, record: kept?.record, log: kept?.log, aside };
  const text = `${JSON.stringify(all, null, 2)}\n`;
  return { fileName: fileNameFor(`${title} all that is kept`), text };
}

/** The newest version of a workbook that opens. */
export async function lastThatOpens(
  bookcase: Bookcase,
  id: string,
): Promise<VersionHead | undefined> {
  const versions = new Versions(bookcase.store, id, bookcase.now);
  for (const head of await versions.list()) {
    const text = await versions.text(head.key).catch(() => undefined);
    if (text !== undefined && (await opens(text)).ok) return head;
  }
  return undefined;
}

/** Shows a version as a workbook of its own, beside the one that cannot be opened. */
export async function openVersion(
  bookcase: Bookcase,
  id: string,
  title: string,
  head: VersionHead,
): Promise<Done> {
  const text = await new Versions(bookcase.store, id, bookcase.now).text(head.key);
  const loaded = text === undefined ? undefined : loadText(text);
  if (loaded === undefined) return notDone('That version is not on this device any more.');
  if (!loaded.ok) return notDone(loaded.says);
  const name = `${title.slice(0, 150)}, version of ${momentOf(head.at, bookcase.now())}`;
  const document = { ...loaded.document, title: name };
  return bookcase.add(saveText(document), name, { kind: 'own', from: title, job: true }, 'anyway');
}

/** `14:55` today, `25 Nov 2026, 14:55` on another day. */
export function momentOf(at: number, now: number): string {
  const day = (time: number) =>
    new Date(time).toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
  return day(at) === day(now) ? timeOfDay(at) : `${day(at)}, ${timeOfDay(at)}`;
}

/** Edits that no longer fitted a workbook when it was opened. */
export interface SetAside {
  /** Where they are kept in the store. */
  readonly key: string;
  /** When they were set aside. */
  readonly at: number;
  /** In the order in which they were made. */
  readonly edits: readonly AsideEdit[];
}

/** Everything set aside of a workbook, oldest first. */
export async function setAside({ store }: Bookcase, id: string): Promise<readonly SetAside[]> {
  const keys = await store.keys(`aside:${id}:`);
  return Promise.all(
    keys.map(async (key) => {
      const kept = await store.get(key).catch(() => undefined);
      const edits = Array.isArray(kept) ? kept.map(asideEdit) : [];
      return { key, at: timeOf(Number(key.slice(key.lastIndexOf(':') + 1))), edits };
    }),
  );
}

/** Earlier ones were kept without the time they were made. */
function asideEdit(kept: unknown): AsideEdit {
  const raw = (kept ?? {}) as { edit?: AsideEdit['edit']; at?: unknown };
  if (raw.edit === undefined) return { edit: kept as AsideEdit['edit'], at: 0 };
  return { edit: raw.edit, at: timeOf(raw.at) };
}

async function opens(text: string): Promise<Done> {
  const record = {
    id: 'version',
    title: '',
    origin: { kind: 'own', from: '' } as const,
    created: 0,
    updated: 0,
    revision: 0,
    text,
  };
  const result = await openRecord({ record, log: [] });
  return result.ok ? { ok: true } : notDone(notOpened(result));
}
