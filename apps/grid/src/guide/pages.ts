import {
  type GuideOptions,
  guidePage,
  type Paper,
  READERS_PAGE_STYLES,
  readersPage,
  readersScriptFor,
} from '@kerfbook/guide';
import usual from '@kerfbook/guide/readers-script?url';
import all from '@kerfbook/guide/readers-script-all?url';
import { signOf } from '@kerfbook/keeping/shelf';
import type { OpenWorkbook } from '@kerfbook/workbook';

interface Wishes extends Pick<GuideOptions, 'plan'> {
  readonly paper: Paper;
}

/** A page that was made, or why it cannot be. */
export type PageMade =
  | { readonly ok: true; readonly page: string }
  | { readonly ok: false; readonly says: string };

/** The day it is here, as the pages say it. */
export const dayInWords = (day: Date): string =>
  day.toLocaleDateString('en', { dateStyle: 'long' });

/** The guide as it is printed, one page of its own. */
export const pageToPrint = (book: OpenWorkbook, wishes: Wishes): string =>
  guidePage(book, { ...wishes, day: dayInWords(new Date()) });

/** Where the program of a page for this workbook lies in the app. */
const scriptFor = (book: OpenWorkbook): string =>
  ({ usual, all })[readersScriptFor(book.document())];

/** The readers' page, whole in one file. */
export async function readersPageOf(book: OpenWorkbook): Promise<PageMade> {
  const address = scriptFor(book);
  const answer = await fetch(address);
  if (!answer.ok) {
    return {
      ok: false,
      says: 'The program of the page did not load. Check your connection, then try again.',
    };
  }
  const script = (await answer.text()).trim();
  return readersPage({
    document: book.document(),
    script,
    sign: signOf,
    day: dayInWords(new Date()),
  });
}

/** Names by which what lies beside a page is found in it. */
const STYLES = 'preview-styles.css';

/**
 * The readers' page to be looked at within the app, whose policy goes for what it frames: no script may stand in the page,
 * but the app's own file of it may be asked for, and styles may stand in it.
 */
export function pageForPreview(book: OpenWorkbook): PageMade {
  const script = scriptFor(book);
  const made = readersPage({
    document: book.document(),
    script: '',
    sign: signOf,
    day: dayInWords(new Date()),
    split: { script, styles: STYLES },
  });
  if (!made.ok) return made;
  const page = made.page
    .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>\n/, '')
    .replace(
      `<link rel="stylesheet" href="${STYLES}">`,
      () => `<style>${READERS_PAGE_STYLES}</style>`,
    );
  return { ok: true, page };
}
