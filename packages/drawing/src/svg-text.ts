import { placeKey } from './place-key.ts';
import type { Piece } from './scene.ts';
import type { Format } from './units.ts';
import type { Segment } from './views.ts';
import type { Outline } from './visible-face.ts';

/** Rounded to 0.01 mm; never `-0`. */
export const number = (value: number): string => String(Math.round(value * 100) / 100 || 0);

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Fit for XML text and attributes; characters XML cannot hold become the replacement mark. */
export const escapeText = (text: string): string =>
  text
    .replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign] ?? '')
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff\ud800-\udfff]/gu, '\ufffd');

/** Lines as the data of one SVG path, y turned over. */
export function pathOf(segments: readonly Segment[]): string {
  return segments
    .map(({ x1, y1, x2, y2 }) => {
      const start = `M${number(x1)} ${number(-y1)}`;
      if (y1 === y2) return `${start}H${number(x2)}`;
      return x1 === x2 ? `${start}V${number(-y2)}` : `${start}L${number(x2)} ${number(-y2)}`;
    })
    .join('');
}

/** Closed outlines as the data of one SVG path, y turned over. */
export const outlinesPath = (outlines: readonly Outline[]): string =>
  outlines
    .map((outline) => `M${outline.map(([x, y]) => `${number(x)} ${number(-y)}`).join('L')}Z`)
    .join('');

/** Attributes that lead from what is drawn of a piece back to its row. */
export const pieceKey = ({ part, copy }: Piece): string =>
  `data-part="${escapeText(placeKey(part.at))}" data-copy="${copy}"`;

/** What a piece says of itself when it is pointed at. */
export function pieceTitle({ part }: Piece, format: Format): string {
  const sizes = [part.thickness, part.width, part.length].map(format).join(' × ');
  return `<title>${escapeText(`${part.name}, ${sizes}`)}</title>`;
}
