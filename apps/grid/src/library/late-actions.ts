import type { Bookcase } from '@kerfbook/keeping';
import { afterGridModule } from '../page/after-grid.ts';

/** What can be done with workbooks: asked for by a press, and there before that as a rule. */
export const lateActions = afterGridModule(() => import('@kerfbook/keeping/shelf'));
const lateModule = afterGridModule(() => import('./keep-copy.ts'));

export const NOT_ARRIVED =
  'This part of Kerfbook did not load. Check your connection, then try again.';

/** Hands a workbook to the maker as a file; says so where it cannot. */
export function keepCopyLate(bookcase: Bookcase, id: string): void {
  lateModule().then(
    ({ keepCopy }) => keepCopy(bookcase, id),
    () => bookcase.notice(NOT_ARRIVED),
  );
}
