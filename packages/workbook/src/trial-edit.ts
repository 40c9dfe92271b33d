import type { Edit } from '@kerfbook/document';
import type { Applied, Refused, TrialEdit } from './api.ts';
import { joinedResult } from './joined-result.ts';

/** What a workbook does for an edit that is tried. */
interface Trying {
  /** Carries an edit out as if the one that was tried before it had not been. */
  instead(tried: Applied | undefined, edit: Edit): Applied | Refused;
  /** Ends it; what was tried last is a step of undo. */
  keep(tried: Applied | undefined): void;
  /** Ends it and takes back what was tried last. */
  drop(tried: Applied | undefined): Applied;
}

/** An edit that is tried again and again, and what of it has been told (rule U5). */
export function trialEdit(book: Trying): TrialEdit {
  let tried: Applied | undefined;
  return {
    ok: true,
    try: (edit) => {
      const result = book.instead(tried, edit);
      if (!result.ok) return result;
      const told = joinedResult(tried === undefined ? [result] : [tried, result]);
      tried = { ...told, edit: result.edit, inverse: result.inverse };
      return result;
    },
    keep: () => {
      book.keep(tried);
      return tried ?? joinedResult([]);
    },
    drop: () => book.drop(tried),
  };
}
