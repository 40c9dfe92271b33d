import type { OpenWorkbook } from '@kerfbook/workbook';

/**
 * What the size from front to back is called: of a table its width, of a bench, a shelf or a cabinet its depth. A
 * table is told by the cell that names its top's width.
 */
export const acrossIs = (
  book: Pick<OpenWorkbook, 'named'>,
): { readonly noun: string; readonly adjective: string } =>
  book.named('top_width') === undefined
    ? { noun: 'depth', adjective: 'deep' }
    : { noun: 'width', adjective: 'wide' };
