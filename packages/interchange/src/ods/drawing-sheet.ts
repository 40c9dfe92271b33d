import { DRAWING_AT, onItsSheet } from '../flat/drawing-room.ts';
import { element } from '../xml/write.ts';

/** Where the picture lies in the file. */
export const PICTURE = { path: 'Pictures/drawing.svg', type: 'image/svg+xml' } as const;

const VIEW_BOX = /<svg\b[^>]*\bviewBox="\s*[-\d.]+[\s,]+[-\d.]+[\s,]+([\d.]+)[\s,]+([\d.]+)\s*"/;

/**
 * A sheet that holds a drawing alone (OpenDocument 1.3 part 3, 10.4).
 * @param svg a drawing that stands by itself, with a viewBox
 * @throws RangeError where it does not say how large it is
 */
export function drawingSheet(name: string, svg: string): string {
  const found = VIEW_BOX.exec(svg);
  const [width, height] = [Number(found?.[1]), Number(found?.[2])];
  if (!(width > 0 && height > 0)) throw new RangeError('the drawing does not say how large it is');
  const size = onItsSheet(width, height);
  const mm = (length: number): string => `${Math.round(length * 100) / 100}mm`;
  const frame = element(
    'draw:frame',
    {
      'draw:name': name,
      'svg:x': mm(DRAWING_AT),
      'svg:y': mm(DRAWING_AT),
      'svg:width': mm(size.width),
      'svg:height': mm(size.height),
    },
    element('draw:image', {
      'xlink:href': PICTURE.path,
      'xlink:type': 'simple',
      'xlink:show': 'embed',
      'xlink:actuate': 'onLoad',
      'draw:mime-type': PICTURE.type,
    }),
  );
  return element(
    'table:table',
    { 'table:name': name, 'table:style-name': 'ta_across' },
    element('table:shapes', {}, frame) +
      '<table:table-column/><table:table-row><table:table-cell/></table:table-row>',
  );
}
