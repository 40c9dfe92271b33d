import type { BookDocument } from '@kerfbook/document';
import { loadLazy as loadLibraries } from '@kerfbook/functions';
import { otherEngine } from '#other-engine';
import { type OpenOptions, Workbook } from './workbook.ts';

/**
 * Loads what formulas may need and the app does not start with: libraries behind some functions, and the
 * engine for what is not compiled. Rejects where one cannot be had; asked again, it tries again. Open
 * workbooks that lack it (`lacks`) are to be worked out anew then.
 */
export async function loadLazy(): Promise<void> {
  await Promise.all([loadLibraries(), otherEngine.bring()]);
}

/**
 * Opens a workbook with all that its formulas need: where a part of it has not come, it is waited for.
 * Where that cannot be had, the cells that need it say so.
 */
export async function openWhole(
  document: BookDocument,
  options: OpenOptions = {},
): Promise<Workbook> {
  const book = Workbook.open(document, options);
  if (!book.lacks) return book;
  const came = await loadLazy().then(
    () => true,
    () => false,
  );
  if (came) book.recalculate();
  return book;
}
