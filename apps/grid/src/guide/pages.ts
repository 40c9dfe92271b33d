import {
  type GuideOptions,
  guidePage,
  type Paper,
  READERS_PAGE_STYLES,
  readersPage,
  readersScript,
} from '@kerfbook/guide';
import program from '@kerfbook/guide/readers-program?url';
import whole from '@kerfbook/guide/readers-script?url';
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

/** The readers' page, whole in one file. */
export async function readersPageOf(book: OpenWorkbook): Promise<PageMade> {
  const answer = await fetch(program);
  if (!answer.ok) {
    return {
      ok: false,
      says: 'The program of the page did not load. Check your connection, then try again.',
    };
  }
  const text = await answer.text();
  return readersPage({
    document: book.document(),
    script: (readers) => readersScript(text, readers),
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
  const made = readersPage({
    document: book.document(),
    script: () => '',
    sign: signOf,
    day: dayInWords(new Date()),
    split: { script: whole, styles: STYLES },
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
