import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import type { Io } from './io.ts';

interface Unread {
  readonly ok: false;
  /** Names the file and says what is wrong, in one sentence. */
  readonly says: string;
  /** It is a workbook, but its parts do not fit together. */
  readonly damaged: boolean;
}

export type Opened = { readonly ok: true; readonly book: Workbook } | Unread;

/** What the engine's catalogue calls a workbook that does not fit the schema. */
const DAMAGED = 'D4';

/** Opens a workbook from a file, which is only ever read. */
export async function openBook(path: string, io: Io): Promise<Opened> {
  const read = await readBook(path, io);
  return read.ok ? { ok: true, book: Workbook.open(read.document) } : read;
}

/** Opens several; nothing, and said why, where one of them cannot be. */
export async function openBooks(
  paths: readonly string[],
  io: Io,
): Promise<readonly Workbook[] | undefined> {
  const books: Workbook[] = [];
  for (const path of paths) {
    const opened = await openBook(path, io);
    if (!opened.ok) {
      io.err(opened.says);
      return undefined;
    }
    books.push(opened.book);
  }
  return books;
}

/** Reads a workbook from a file, as it is saved. */
export async function readBook(
  path: string,
  io: Io,
): Promise<{ readonly ok: true; readonly document: BookDocument } | Unread> {
  const file = await io.read(path);
  if (!file.ok) return { ok: false, says: file.says, damaged: false };
  const loaded = loadText(file.text);
  if (loaded.ok) {
    const says = loaded.migration?.says;
    if (says !== undefined) io.err(`${path}: ${says} Export it as JSON to keep it so.`);
    return { ok: true, document: loaded.document };
  }
  return { ok: false, says: `${path}: ${loaded.says}`, damaged: loaded.code === DAMAGED };
}
