import { DRAWING_AT, onItsSheet } from '../flat/drawing-room.ts';
import { DECLARATION, element } from '../xml/write.ts';

/** Where the picture lies in the file. */
export const PICTURE_PART = 'xl/media/drawing.png';

/** EMU in a mm (ECMA-376 part 1, 20.1.2.1: 914,400 in an inch). */
const EMU = 36_000;
const SPACES = {
  'xmlns:xdr': 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing',
  'xmlns:a': 'http://schemas.openxmlformats.org/drawingml/2006/main',
  'xmlns:r': 'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
} as const;

/**
 * The part that puts a picture on a sheet, in its own shape (ECMA-376 part 1, 20.5.2.24 oneCellAnchor, 20.5.2.25 pic).
 * Its first relation leads to the picture.
 * @param png the picture
 * @throws RangeError where it is no PNG
 */
export function drawingPart(name: string, png: Uint8Array): string {
  const dots = dotsOf(png);
  const size = onItsSheet(dots.width, dots.height);
  const [cx, cy] = [Math.round(size.width * EMU), Math.round(size.height * EMU)];
  const at = DRAWING_AT * EMU;
  return `${DECLARATION}${element(
    'xdr:wsDr',
    SPACES,
    element(
      'xdr:oneCellAnchor',
      {},
      `<xdr:from><xdr:col>0</xdr:col><xdr:colOff>${at}</xdr:colOff><xdr:row>0</xdr:row><xdr:rowOff>${at}</xdr:rowOff></xdr:from>` +
        element('xdr:ext', { cx, cy }) +
        element(
          'xdr:pic',
          {},
          `<xdr:nvPicPr>${element('xdr:cNvPr', { id: 2, name })}<xdr:cNvPicPr><a:picLocks noChangeAspect="1"/></xdr:cNvPicPr></xdr:nvPicPr>` +
            '<xdr:blipFill><a:blip r:embed="rId1"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>' +
            `<xdr:spPr><a:xfrm>${element('a:off', { x: at, y: at })}${element('a:ext', { cx, cy })}</a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr>`,
        ) +
        '<xdr:clientData/>',
    ),
  )}`;
}

/** What a PNG begins with: its signature, then the head IHDR with its dots (ISO/IEC 15948, 5.2 and 11.2.2). */
const BEGINS = [
  0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52,
] as const;

function dotsOf(png: Uint8Array): { readonly width: number; readonly height: number } {
  const bytes = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const isPng = png.length > BEGINS.length + 8 && BEGINS.every((byte, at) => png[at] === byte);
  const [width, height] = isPng ? [bytes.getUint32(16), bytes.getUint32(20)] : [0, 0];
  if (width === 0 || height === 0) throw new RangeError('the picture of the drawing is no PNG');
  return { width, height };
}
