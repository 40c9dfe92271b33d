import type { CellView } from '@kerfbook/workbook';
import { fewerDecimals } from './shorter.ts';

/** What a cell's edges take of its width, and a sign before its words, px. */
const EDGES = 19;
const SIGN = 17;
/** Wider than any letter of a number: what fits by it needs no measuring. */
const WIDEST = 10;
/** How wide letters of a drawn fraction are beside others. */
const FRACTION = 0.72;

let widths: Map<string, number> | undefined;
let pen: CanvasRenderingContext2D | null | undefined;

/** Widths are measured once for each letter, and again when another typeface has come. */
function widthOf(letter: string, bold: boolean): number {
  if (widths === undefined) {
    widths = new Map();
    document.fonts?.addEventListener('loadingdone', () => widths?.clear());
  }
  // All digits are as wide as the widest.
  const key = `${bold ? 'b' : ''}${/\d/.test(letter) ? '0' : letter}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  pen ??= document.createElement('canvas').getContext('2d');
  // Of a row: its own number is smaller than what stands in it, and a heading larger.
  const row = document.querySelector('.sheet-grid .ag-row');
  if (pen === null || row === null) return WIDEST;
  const { fontSize, fontFamily } = getComputedStyle(row);
  pen.font = `${bold ? '700' : '400'} ${fontSize} ${fontFamily}`;
  const width = pen.measureText(key.slice(-1)).width;
  widths.set(key, width);
  return width;
}

function widthOfText(text: string, bold: boolean): number {
  let width = 0;
  for (const letter of text) width += widthOf(letter, bold);
  return width;
}

/** How wide decimals are that a number has not, with the point before them where it has none either, px. */
export const widthOfDecimals = (digits: number, point: boolean, bold: boolean): number =>
  digits * widthOf('0', bold) + (point ? widthOf('.', bold) : 0);

/**
 * What stands in a cell for a number that does not fit it: the number with fewer decimals and a sign that it is
 * rounded, or `#` signs. Digits are never cut off. Of an error only its sign stands there. `undefined`: it fits, or
 * it is neither.
 * @param width of its column, px
 */
export function shortOf(cell: CellView, width: number): string | undefined {
  if (cell.problem !== undefined) return undefined;
  const { text, exact, fraction } = cell.shown;
  if (cell.value.kind === 'error') {
    return widthOfText(text, true) <= width - EDGES - SIGN ? undefined : '';
  }
  if (cell.value.kind !== 'number') return undefined;
  const rounded = exact === undefined ? '' : '≈ ';
  const signs = cell.mark === undefined ? 0 : SIGN;
  const room = width - EDGES - signs;
  if ((text.length + rounded.length) * WIDEST <= room) return undefined;
  const bold = cell.style?.bold === true;
  const fits = (words: string): boolean => widthOfText(words, bold) <= room;
  if (fraction === undefined) {
    if (fits(rounded + text)) return undefined;
  } else {
    const parts = `${fraction.over}/${fraction.under}`;
    const whole = widthOfText(`${rounded}${fraction.whole} `, bold);
    if (whole + FRACTION * widthOfText(parts, bold) <= room) return undefined;
  }
  return fewerDecimals(text, exact ?? text).find(fits) ?? signsIn(room, bold);
}

const signsIn = (room: number, bold: boolean): string =>
  '#'.repeat(Math.max(1, Math.floor(room / widthOf('#', bold))));
