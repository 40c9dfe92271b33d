import { type BookDocument, loadText } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { DONE, type Done, notDone } from './bookcase-state.ts';
import { type ChangedKept, changeKept, type EditMaker } from './changing.ts';
import { fileCopy } from './filing.ts';
import { isTouched } from './opening.ts';
import { headOf } from './records.ts';
import { markKey, markKeys, shopsId } from './shop-mark.ts';
import { writeTrouble } from './trouble.ts';

const keptKey = (id: string): string => `shopkept:${id}`;

/** Says which workbook is the shop's from now on, instead of another one; `undefined` for none. */
export async function makeShops(bookcase: Bookcase, id: string | undefined): Promise<Done> {
  const { store } = bookcase;
  try {
    if (id !== undefined) {
      const kept = await store.read(id);
      if (kept === undefined) return notDone('That workbook is not on this device any more.');
      // A template that nobody changed becomes another one when the app does.
      const isOwn = headOf(kept.record).origin.kind !== 'template' || isTouched(kept);
      if (!isOwn) return notDone(NOT_YOURS);
    }
    const before = (await markKeys(store)).map((key) => [key, undefined] as const);
    const now = id === undefined ? [] : [[markKey(id), true] as const];
    await store.setAll(new Map<string, unknown>([...before, ...now]));
    return DONE;
  } catch (error) {
    return notDone(`Not saved: ${writeTrouble(error)}`);
  }
}

const NOT_YOURS =
  'This is a built-in template as it ships. Type your figures into it or save it under a name of yours first, then make that the shop’s.';

/** The workbook of the shop as it stands, with the changes that were made last. */
export interface ShopsBook {
  /** Its id on this device. */
  readonly id: string;
  /** What it is called. */
  readonly title: string;
  /** What it holds. */
  readonly document: BookDocument;
}

/** Reads the workbook of the shop; nothing where none is marked, a sentence where it cannot be read. */
export async function shopsBook(
  bookcase: Bookcase,
): Promise<ShopsBook | { readonly says: string } | undefined> {
  const id = await shopsId(bookcase.store);
  if (id === undefined) return undefined;
  const copy = await fileCopy(bookcase, id);
  if (copy === undefined) return undefined;
  if (copy.says !== undefined) return { says: copy.says };
  const loaded = loadText(copy.text);
  if (!loaded.ok) return { says: loaded.says };
  return { id, title: loaded.document.title, document: loaded.document };
}

/** What of the shop's the maker left as it is in the workbook at hand, by what it is and what the shop had. */
export async function leftAsIs(bookcase: Bookcase): Promise<ReadonlySet<string>> {
  const kept = await bookcase.store.get(keptKey(bookcase.current.id)).catch(() => undefined);
  return new Set(Array.isArray(kept) ? kept.map(String) : []);
}

/** Leaves these as they are in the workbook at hand: they are not told again until the shop has something else. */
export async function leaveAsIs(bookcase: Bookcase, signs: readonly string[]): Promise<void> {
  await bookcase.store.set(keptKey(bookcase.current.id), [...signs]);
}

/** Carries edits out in the workbook of the shop while it is not open. */
export async function changeShops(
  bookcase: Bookcase,
  makers: readonly EditMaker[],
): Promise<ChangedKept> {
  const id = await shopsId(bookcase.store);
  if (id === undefined) return { ok: false, says: 'No workbook is your shop’s yet.' };
  // An open workbook is changed by who has it open, so that undo and the screen follow.
  if (id === bookcase.current.id) return { ok: false, says: 'Your shop’s workbook is open here.' };
  return changeKept(bookcase, id, makers);
}

const rackedKey = (id: string): string => `racked:${id}`;

/** What of the workbook at hand was put on the rack last, as whoever put it there signed it. */
export const racked = (bookcase: Bookcase): Promise<unknown> =>
  bookcase.store.get(rackedKey(bookcase.current.id)).catch(() => undefined);

/** Keeps what of the workbook at hand was put on the rack; `undefined` where it was taken back. */
export const keepRacked = (bookcase: Bookcase, sign: string | undefined): Promise<void> =>
  bookcase.store.set(rackedKey(bookcase.current.id), sign);
