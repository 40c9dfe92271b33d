import { bookFormat, drawViews, shadedForPrint } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../pictures/picture.tsx';
import { leftOutBlocks } from './left-out.tsx';
import { titleBlock } from './pieces.tsx';
import { lengthUnit, seasonsOf } from './words.ts';

/** Room for one view, mm: two of them one above the other fit a page. */
const VIEW = { width: 180, height: 104 };

/** Room for the whole, in its own units; as wide as the style sheet makes it. */
const WHOLE = { width: 420, height: 300 };

/** The furniture in dimensioned views at a standard scale; undefined where nothing has a place. */
export function drawingSheet(book: OpenWorkbook): Block[] | undefined {
  const movement = seasonsOf(book);
  const drawing = drawViews(book, {
    views: ['plan', 'front', 'end'],
    format: bookFormat(book),
    page: VIEW,
    ...(movement === undefined ? {} : { movement }),
  });
  const pictures = [
    // What it is to become comes first: it is the cover of all that follows.
    ['whole', shadedForPrint(book, { format: bookFormat(book), panel: WHOLE })] as const,
    ...(['plan', 'front', 'end'] as const).map((view) => [view, drawing.svg[view]] as const),
  ].flatMap(([name, svg]) => (svg === undefined ? [] : [{ name, svg }]));
  if (pictures.length === 0) return undefined;
  const problems = drawing.problems.map(({ at, says }) => ({ at, says, what: 'Look at' }));
  return [
    titleBlock('drawing', 'Drawing', `Sizes in ${lengthUnit(book)}. Hidden edges dashed.`),
    ...leftOutBlocks('drawing', 'The drawing may be wrong', book, problems),
    ...pictures.map(({ name, svg }) => ({
      key: `drawing ${name}`,
      node: (
        <div className={name === 'whole' ? 'shop-view shop-view-whole' : 'shop-view'}>
          <Picture svg={svg} atScale={name !== 'whole'} />
        </div>
      ),
    })),
  ];
}
