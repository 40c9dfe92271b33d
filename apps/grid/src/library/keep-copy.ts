import type { Bookcase } from '@kerfbook/keeping';
import { fileCopy } from '@kerfbook/keeping/shelf';
import { download } from '../storage/download.ts';

/** Hands a workbook to the maker as a file; says so where it cannot. */
export function keepCopy(bookcase: Bookcase, id: string): void {
  fileCopy(bookcase, id).then(
    (copy) => {
      if (copy === undefined) bookcase.notice('That workbook is not on this device any more.');
      else {
        download(copy.fileName, copy.text);
        if (copy.says !== undefined) bookcase.notice(copy.says, 'in list');
      }
    },
    (error: unknown) =>
      bookcase.notice(
        `The workbook could not be read (${error instanceof Error ? error.name : String(error)}). Reload the page and try again.`,
      ),
  );
}
