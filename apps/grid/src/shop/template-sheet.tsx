import {
  buildScene,
  curveTemplates,
  type Printed,
  readParts,
  templatePages,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../pictures/picture.tsx';
import { titleBlock } from './pieces.tsx';

/** What stands above a sheet of a template takes of a page, mm: the title of the first, and a line on each. */
const ABOVE = 30;

const TURNED: Readonly<Record<Printed, string>> = {
  whole: 'whole',
  'left half': 'left half; turn it over at the center line for the right half',
  'front half': 'front half; turn it over at the center line for the back half',
  quarter: 'a quarter; turn it over at each center line for the others',
};

/** The outlines of parts with curves at true size, sheet by sheet; undefined where no part has one. */
export function templateSheet(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
): Block[] | undefined {
  const room = { width: Math.floor(field.width), height: Math.floor(field.height - ABOVE) };
  const templates = curveTemplates(buildScene(readParts(book).parts), room).map((template) =>
    templatePages(template, { room, units: book.units }),
  );
  if (templates.length === 0) return undefined;
  const square = book.units === 'us' ? '4 in' : '100 mm';
  return [
    titleBlock(
      'templates',
      'Full-size patterns',
      `Print at 100 %, and measure the ${square} square. Tape sheets together where marks with one letter meet.`,
    ),
    ...templates.flatMap(({ template: { part, printed }, pages }) =>
      pages.map(({ svg, sheet, row, column, hasSquare }) => ({
        key: `template ${part.at.row} ${sheet}`,
        node: (
          <figure className="shop-template">
            <figcaption>
              <strong>{part.name}</strong>, {TURNED[printed]}. Sheet {sheet} of {pages.length}
              {pages.length === 1 ? '' : `, row ${row}, column ${column}`}
              {hasSquare ? `, with the ${square} square` : ''}.
            </figcaption>
            <Picture svg={svg} atScale />
          </figure>
        ),
      })),
    ),
  ];
}
