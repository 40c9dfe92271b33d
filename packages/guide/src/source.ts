import type { ShopSource } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';

/** What a plan for others needs of an open workbook. */
export type GuideSource = ShopSource &
  Pick<
    OpenWorkbook,
    'title' | 'head' | 'cell' | 'checks' | 'checkInWords' | 'labelOf' | 'document'
  >;
