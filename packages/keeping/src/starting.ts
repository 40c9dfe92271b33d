import type { BookStore } from './book-store.ts';
import { type Hold, holdBook, type Locks } from './locks.ts';
import {
  type NotOpened,
  type Opened,
  type OpenedOrNot,
  openKept,
  openWorkingCopy,
} from './opening.ts';
import type { Owed } from './records.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';
import { errorInWords, NothingToShow } from './trouble.ts';

export const LAST_OPENED = 'lastOpened';

/** Opens the store of this device; where the browser lets pages keep nothing, one for the time being. */
export async function openStore(
  open: () => Promise<BookStore>,
): Promise<{ readonly store: BookStore; readonly trouble?: string }> {
  try {
    return { store: await open() };
  } catch (error) {
    const { inMemory } = await import('./in-memory.ts');
    return inMemory(error);
  }
}

/** Opens a workbook of this device or a template's working copy. Never throws. */
export async function openAny(
  store: BookStore,
  templates: readonly ShippedTemplate[],
  id: string,
  mayWrite: boolean,
  now: number,
): Promise<OpenedOrNot> {
  const template = templates.find(({ key }) => workingCopyId(key) === id);
  try {
    return template === undefined
      ? await openKept(store, id, mayWrite, now)
      : await openWorkingCopy(store, template, mayWrite, now);
  } catch (error) {
    const says = `The browser could not read it (${errorInWords(error)}).`;
    return { ok: false, why: 'bad', says };
  }
}

/** What a page starts with. */
export interface Start {
  readonly opened: Opened;
  readonly hold: Hold;
  /** What was to be opened and could not be, in the order it was tried. */
  readonly failed: ReadonlyMap<string, NotOpened>;
}

/**
 * What was open last; where it cannot be opened, the first template; then whatever else can be. One
 * workbook that cannot be opened is never the end of the others.
 * @throws NothingToShow where no template arrived either
 */
export async function openFirst(
  store: BookStore,
  templates: readonly ShippedTemplate[],
  locks: Locks | undefined,
  now: number,
): Promise<Start> {
  const failed = new Map<string, NotOpened>();
  const last = await store.get(LAST_OPENED).catch(() => undefined);
  const [first] = templates.map(({ key }) => workingCopyId(key));
  for (const id of new Set([typeof last === 'string' ? last : first, first])) {
    if (id === undefined) continue;
    const start = await startWith(id, failed, store, templates, locks, now);
    if (start !== undefined) return start;
  }
  const { openAnything } = await import('./open-anything.ts').catch(() => {
    throw new NothingToShow('a part of the app did not arrive');
  });
  return openAnything(failed, store, templates, locks, now);
}

/** Starts with this one, or notes why it cannot be opened. */
export async function startWith(
  id: string,
  failed: Map<string, NotOpened>,
  store: BookStore,
  templates: readonly ShippedTemplate[],
  locks: Locks | undefined,
  now: number,
): Promise<Start | undefined> {
  const hold = await holdBook(id, locks);
  const result = await openAny(store, templates, id, hold.access === 'write', now);
  if (result.ok) return { opened: result.opened, hold, failed };
  await hold.release();
  failed.set(id, result);
  return undefined;
}

/** Whether this device holds work of its maker; templates that were only looked at are none. */
export async function wasSaved(store: BookStore, { savedAt }: Opened): Promise<boolean> {
  if (!store.lasting) return false;
  if (savedAt !== undefined) return true;
  try {
    // Whoever never turned to another workbook has none: the list is not read at a first start.
    if ((await store.get(LAST_OPENED)) === undefined) return false;
    const heads = await store.list();
    return heads.some(({ origin, revision }) => revision > 0 || origin.kind !== 'template');
  } catch {
    // What cannot be read is told of where it is opened and listed.
    return false;
  }
}

/** An opened workbook that is not on the device, and goes there with its first edit. */
export function owing(opened: Opened, owed: Owed, trouble?: string): Opened {
  const { savedAt: _none, ...rest } = opened;
  return { ...rest, owed, ...(trouble === undefined ? {} : { trouble }) };
}
