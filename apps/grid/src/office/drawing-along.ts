import { drawingForFiles, FILE_PANEL } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { inDots } from '../pictures/in-dots.ts';
import type { DrawingAlong } from './asked.ts';

/** Dots of a picture to each that the drawing is laid out for: sharp on fine screens and on paper. */
const FINE = 2;

/**
 * The drawing of a workbook as its file takes it.
 * @returns what goes along, nothing where there is nothing to draw; `isMissed` where this browser could not make it
 */
export async function drawingAlong(
  book: OpenWorkbook,
  kind: 'xlsx' | 'ods',
): Promise<{ readonly along: DrawingAlong; readonly isMissed?: true }> {
  const drawing = drawingForFiles(book);
  if (drawing === undefined) return { along: {} };
  if (kind === 'ods') return { along: { drawing } };
  const picture = await pngOf(drawing);
  return picture === undefined ? { along: {}, isMissed: true } : { along: { picture } };
}

async function pngOf(svg: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  // Lines are as many dots wide as their styles say, however large it is drawn.
  const lined = svg.replaceAll(
    /stroke-width: ([\d.]+)px/g,
    (_, px: string) => `stroke-width: ${Number(px) * FINE}px`,
  );
  const drawn = new DOMParser().parseFromString(lined, 'image/svg+xml').documentElement;
  const [wide, high] = [FILE_PANEL.width * FINE, FILE_PANEL.height * FINE];
  const canvas = await inDots(drawn, wide, high, '#ffffff');
  const blob = await new Promise<Blob | null>((resolve) =>
    canvas === undefined ? resolve(null) : canvas.toBlob(resolve, 'image/png'),
  );
  return blob === null ? undefined : new Uint8Array(await blob.arrayBuffer());
}
