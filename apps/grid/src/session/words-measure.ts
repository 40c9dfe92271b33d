import type { CellView } from '@kerfbook/workbook';

/** How words are written in a cell, as far as it makes them wider or narrower. */
type Look = 'plain' | 'bold' | 'italic' | 'bold italic' | 'heading';

/** How a cell's words are written. */
export function lookOf({ role, style }: CellView): Look {
  if (role === 'heading') return 'heading';
  const italic = role === 'note' || style?.italic === true;
  if (style?.bold === true) return italic ? 'bold italic' : 'bold';
  return italic ? 'italic' : 'plain';
}

/** How large letters of the page are, px. */
const pageSize = (): number =>
  Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;

/** How large a cell's letters are, of those of the page; as the style sheet has it. */
const sizeOf = (look: Look): number => (look === 'heading' ? 1.06 : 0.9375);

/** How large a cell's letters are, px. */
export const letterSize = (look: Look): number => pageSize() * sizeOf(look);

/** How high a line of words is in a cell, px. */
export const lineHeight = (look: Look): number => letterSize(look) * 1.3;

const STROKES: Readonly<Record<Look, string>> = {
  plain: '400',
  bold: '700',
  italic: 'italic 400',
  'bold italic': 'italic 700',
  heading: '600',
};

/** Measures words as the grid writes them, px. */
export function measurer(): (text: string, look: Look) => number {
  const context = document.createElement('canvas').getContext('2d');
  const { fontFamily } = getComputedStyle(document.body);
  const page = pageSize();
  let set: Look | undefined;
  const use = (pen: CanvasRenderingContext2D, look: Look): void => {
    set = look;
    const size = page * sizeOf(look);
    pen.font = `${STROKES[look]} ${size}px ${fontFamily}`;
    if (!hasSmallCaps(pen)) return;
    pen.fontVariantCaps = look === 'heading' ? 'all-small-caps' : 'normal';
    pen.letterSpacing = look === 'heading' ? `${0.03 * size}px` : '0px';
  };
  return (text, look) => {
    if (context === null) return text.length * page * 0.5;
    if (look !== set) use(context, look);
    // Small capitals are narrower than capitals: rather too much room than too little.
    const large = look === 'heading' && !hasSmallCaps(context);
    return context.measureText(large ? text.toUpperCase() : text).width;
  };
}

/** Some browsers do not write small capitals on a canvas. */
const hasSmallCaps = (pen: CanvasRenderingContext2D): boolean =>
  'fontVariantCaps' in pen && 'letterSpacing' in pen;

/**
 * How many lines words take: broken after a space or a hyphen between letters, and within a word that is longer than a line. A
 * browser breaks at these places and at some others, so that it never needs more.
 * @param room how long a line may be, px
 * @param widthOf measures a text, px
 */
export function linesOf(text: string, room: number, widthOf: (text: string) => number): number {
  return text
    .split('\n')
    .map((line) => linesOfOne(line, Math.max(1, room), widthOf))
    .reduce((sum, lines) => sum + lines, 0);
}

/** After spaces, and after a hyphen between letters: between digits it may mean a range or a mixed number. */
const BREAKS = /(?<=[ \t])(?=[^ \t])|(?<=\p{L}-)(?=\p{L})/u;

function linesOfOne(line: string, room: number, widthOf: (text: string) => number): number {
  let [lines, written] = [1, 0];
  for (const piece of line.split(BREAKS)) {
    // Spaces at a line's end hang over it and need no room.
    const word = piece.trimEnd();
    const width = widthOf(word);
    if (written > 0 && written + width > room) {
      lines += 1;
      written = 0;
    }
    if (width > room) {
      const letter = brokenInto(word, room, widthOf);
      lines += letter.lines - 1;
      written = letter.last + widthOf(piece) - width;
    } else written += widthOf(piece);
  }
  return lines;
}

/** A word longer than a line, broken where the line is full. */
function brokenInto(
  word: string,
  room: number,
  widthOf: (text: string) => number,
): { readonly lines: number; readonly last: number } {
  let [lines, last] = [1, 0];
  for (const letter of word) {
    const width = widthOf(letter);
    if (last > 0 && last + width > room) {
      lines += 1;
      last = 0;
    }
    last += width;
  }
  return { lines, last };
}
