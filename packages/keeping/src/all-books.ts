import { loadValue, readJson, saveText } from '@kerfbook/workbook';
import { besideBase } from './bases.ts';
import type { Bookcase } from './bookcase.ts';
import { type Done, notDone } from './bookcase-state.ts';
import { fileNameFor } from './file-name.ts';
import { type FileCopy, fileCopy, listBooks } from './filing.ts';
import { takenFromFile } from './lineage.ts';
import { newBookId } from './new-id.ts';
import { type BookRecord, KEPT } from './records.ts';
import { sentOf, takeSent } from './sent.ts';
import { writeTrouble } from './trouble.ts';

/** A file that holds several workbooks begins with this key. */
const MARK = 'kerfbook-workbooks';
/** Ids of workbooks that were made on a device; the working copy of a template has the same id everywhere. */
const OWN_ID = /^[0-9a-f]{24}$/;

/**
 * All workbooks of the maker's own as one file, without their earlier versions and with what was sent of them: for another
 * device, or for another address of the app, which keeps workbooks of its own. One that cannot be read is left out, and told.
 */
export async function allBooksCopy(bookcase: Bookcase): Promise<FileCopy> {
  const { own } = await listBooks(bookcase);
  const books: { readonly id: string; readonly book: unknown; readonly sent?: unknown }[] = [];
  const left: string[] = [];
  for (const { id, title } of own) {
    const copy = await fileCopy(bookcase, id).catch(() => undefined);
    if (copy === undefined || copy.says !== undefined) left.push(`"${title}"`);
    else {
      const sent = await sentOf(bookcase.store, id);
      const book = JSON.parse(copy.text) as unknown;
      books.push({ id, book, ...(sent.length === 0 ? {} : { sent }) });
    }
  }
  const text = `${JSON.stringify({ [MARK]: 1, books })}\n`;
  const fileName = fileNameFor('All my workbooks');
  if (left.length === 0) return { fileName, text };
  const says = `${left.join(', ')} cannot be read here and ${left.length === 1 ? 'is' : 'are'} not in the file.`;
  return { fileName, text, says };
}

/** What such a file holds; undefined where it is none. */
export function allBooksIn(text: string): readonly unknown[] | undefined {
  if (!text.slice(0, 200).includes(`"${MARK}"`)) return undefined;
  const read = readJson(text);
  if (!read.ok || typeof read.value !== 'object' || read.value === null) return undefined;
  const { [MARK]: version, books } = read.value as { readonly [key: string]: unknown };
  return version === 1 && Array.isArray(books) ? books : undefined;
}

/**
 * Keeps all workbooks of such a file beside those that are here; nothing that is here is changed. One that came before
 * and is still here, in the trash too, is left as it is. Another workbook than the one at hand is not shown.
 */
export async function addAllBooks(
  bookcase: Bookcase,
  file: string,
  books: readonly unknown[],
): Promise<Done> {
  let came = 0;
  let there = 0;
  const left: string[] = [];
  for (const [i, one] of books.entries()) {
    const { id, book, sent } = (typeof one === 'object' && one !== null ? one : {}) as {
      readonly id?: unknown;
      readonly book?: unknown;
      readonly sent?: unknown;
    };
    const pages = Array.isArray(sent) ? sent : [];
    const loaded = loadValue(book);
    if (!loaded.ok) {
      left.push(`Workbook ${i + 1} of ${file}: ${loaded.says}`);
      continue;
    }
    const mine = typeof id === 'string' && OWN_ID.test(id) ? id : newBookId();
    try {
      if ((await bookcase.store.read(mine)) !== undefined) {
        // What was sent of it and is missing here comes all the same: nothing else of it is touched.
        await takeSent(bookcase.store, mine, pages);
        there += 1;
        continue;
      }
      const { document, base } = await takenFromFile(loaded.document);
      const at = bookcase.now();
      const record: BookRecord = {
        id: mine,
        title: document.title,
        origin: { kind: 'file', file },
        created: at,
        updated: at,
        revision: 0,
        kept: KEPT,
        text: saveText(document),
      };
      await bookcase.store.put(record, base === undefined ? new Map() : besideBase(mine, base));
      await takeSent(bookcase.store, mine, pages);
      came += 1;
    } catch (error) {
      return notDone(`${tellCame(came, there)} The others were not kept: ${writeTrouble(error)}`);
    }
  }
  bookcase.notice([tellCame(came, there), ...left.slice(0, MOST_TOLD)].join(' '), 'in list');
  return { ok: true };
}

/** So many of those that could not be read are told one by one. */
const MOST_TOLD = 5;

function tellCame(came: number, there: number): string {
  const some = came === 1 ? '1 workbook was' : `${came} workbooks were`;
  const known = there === 0 ? '' : ` ${there === 1 ? '1 was' : `${there} were`} here already.`;
  return `${some} brought in.${known}`;
}
