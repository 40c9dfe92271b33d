import { bookFormat, shadedForPrint } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';

/** Room for the picture on a cover: its letters are 9 pt or larger where it is as wide as a page's field. */
const PANEL = { width: 560, height: 350 };

/** The furniture in 3D for the top of a page; undefined where nothing has a place. */
export const coverPicture = (book: OpenWorkbook): string | undefined =>
  shadedForPrint(book, { format: bookFormat(book), panel: PANEL });
