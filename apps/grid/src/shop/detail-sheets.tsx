import { bookFormat, type DetailPicture, detailPictures, readParts } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../pictures/picture.tsx';
import { headingBlock } from './pieces.tsx';

/** Between two pictures in a line, mm; as `.shop-details` has it. */
const GAP = 6;
/** A line of pictures takes no more of a page's height than this, so that none is left nearly empty. */
const HIGHEST = 0.4;

/**
 * A section through each joint at a larger scale, two to a line where they fit; nothing without a joint.
 * @param field of the page, mm
 */
export function detailSheets(
  book: OpenWorkbook,
  field: { readonly width: number; readonly height: number },
): Block[] {
  const half = (field.width - GAP) / 2;
  const height = Math.floor(field.height * HIGHEST);
  const pictures = detailPictures(readParts(book), {
    room: { width: half, height },
    wide: { width: field.width, height },
    units: book.units,
    format: bookFormat(book),
  });
  if (pictures.length === 0) return [];
  return [
    headingBlock('joints details', 'Sections through the joints'),
    ...linesOf(pictures, half).map((line) => ({
      key: `joints detail ${line.map(({ row }) => row).join(' ')}`,
      node: (
        <div className="shop-details">
          {line.map(({ row, title, note, svg, width }) => (
            <figure key={row} style={{ inlineSize: `${Math.max(width, half)}mm` }}>
              <figcaption>
                <strong>{title}.</strong> {note}
              </figcaption>
              <Picture svg={svg} atScale />
            </figure>
          ))}
        </div>
      ),
    })),
  ];
}

/** Pictures that take half a line go together by twos, in the order of the rows. */
function linesOf(
  pictures: readonly DetailPicture[],
  half: number,
): readonly (readonly DetailPicture[])[] {
  const lines: DetailPicture[][] = [];
  for (const picture of pictures) {
    const last = lines.at(-1);
    const takes = [...(last?.length === 1 ? last : []), picture];
    if (takes.length === 2 && takes.every(({ width }) => width <= half)) last?.push(picture);
    else lines.push([picture]);
  }
  return lines;
}
