import { bookFormat, buildScene, drawDxf, type Part } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { seasonsOf } from '../shop/words.ts';
import { download } from '../storage/download.ts';
import { arrange } from './arrange.ts';
import { homeEye, type Shown } from './shown.ts';
import { drawShown } from './views.tsx';

/** px that a saved picture is laid out for. */
const ROOM = { width: 1000, height: 640 };
const GAP = 20;

/** What is shown as one SVG text that needs nothing else; undefined where there is nothing to draw. */
export function savedSvg(
  book: OpenWorkbook,
  parts: readonly Part[],
  shown: Shown,
): string | undefined {
  const arranged = arrange(shown.choice, ROOM, true);
  const { svg } = drawShown(book, parts, { shown, arranged, standalone: true });
  const texts = arranged.pictures.flatMap((one) => svg.get(one) ?? []);
  const [first] = texts;
  if (texts.length < 2 || first === undefined) return first;
  const { width, height } = arranged.flat;
  const placed = texts.map((text, index) => {
    const x = (index % 2) * (width + GAP);
    const y = Math.floor(index / 2) * (height + GAP);
    return text.replace('<svg ', `<svg x="${x}" y="${y}" width="${width}" height="${height}" `);
  });
  const [across, down] = [2 * width + GAP, 2 * height + GAP];
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${across} ${down}">\n${placed.join('\n')}\n</svg>`;
}

/** Saves the drawing: as SVG what is shown, as DXF all views with the 3D view as it is turned. */
export function saveDrawing(
  book: OpenWorkbook,
  parts: readonly Part[],
  shown: Shown,
  ending: 'svg' | 'dxf',
): void {
  const text = ending === 'svg' ? savedSvg(book, parts, shown) : dxfOf(book, parts, shown);
  if (text !== undefined) download(`${fileStem(book.title)}.${ending}`, text);
}

function dxfOf(book: OpenWorkbook, parts: readonly Part[], shown: Shown): string | undefined {
  const eye = shown.eye ?? homeEye(book, buildScene(parts), shown.exploded);
  const movement = shown.seasons ? seasonsOf(book) : undefined;
  return drawDxf(book, {
    views: ['plan', 'front', 'end'],
    format: bookFormat(book),
    ...(shown.exploded ? { exploded: { eye } } : { whole: { eye } }),
    ...(movement === undefined ? {} : { movement }),
  }).dxf;
}

/** What a file is called after its title. */
export const fileStem = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'drawing';
