import { bookFormat, shadedForPrint } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';

/** A unit of the picture on paper, mm: its letters are a little larger than 9 pt. */
const UNIT = 0.295;
/** How wide the picture is at the most, mm, and how high for its width. */
const WIDEST = 190;
const HIGH = 350 / 560;
/** Its share of the page's height, at the most: what is said of the furniture stands on its page. */
const SHARE = 0.42;

/**
 * The furniture in 3D for the top of a page; undefined where nothing has a place.
 * @param field what the page has room for, mm
 */
export function coverPicture(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
): string | undefined {
  const width = Math.min(field.width, WIDEST);
  const height = Math.min(width * HIGH, field.height * SHARE);
  return shadedForPrint(book, {
    format: bookFormat(book),
    panel: { width: width / UNIT, height: height / UNIT },
  });
}
