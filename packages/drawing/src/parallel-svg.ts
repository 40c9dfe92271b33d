import { shareSeen } from './choose-eye.ts';
import { PAPER, textWidth } from './paper.ts';
import type { ParallelView, SeenPiece } from './parallel.ts';
import { colourOf, type Look, painted, shadeClass, shadeOfFace } from './shade.ts';
import { PANEL, type Panel } from './sheet.ts';
import { sizesInWords } from './sizes-in-words.ts';
import { DRAWING_STYLE } from './style.ts';
import { escapeText, number, outlinesPath, pathOf, pieceKey, pieceTitle } from './svg-text.ts';
import type { Format } from './units.ts';
import type { Rectangle, Segment } from './views.ts';
import { woodGrain } from './wood-grain.ts';
import { woodTone } from './wood-tone.ts';

/** How a parallel projection becomes an SVG. */
export interface ParallelSvgOptions {
  /** What is shown, as its title and in its caption, such as "3D". */
  readonly name: string;
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** The panel it is to be read in, in pixels; 420 by 420 where left out. */
  readonly panel?: Panel;
  /**
   * Room to leave free around the middle, mm on the paper each way, so that the scale holds while
   * the view is turned; just what this view needs where left out.
   */
  readonly reach?: Reach;
  /** True: woods are tints, so that all lines are black on white; else they go by the page's scheme. */
  readonly print?: boolean;
  /** True: the SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
  /** True: its caption says which parts cannot be seen from there. */
  readonly unseen?: boolean;
}

/** Half of what a thing takes on the paper, however it is turned about the upright; mm. */
export interface Reach {
  /** To either side of the middle. */
  readonly across: number;
  /** Above and below the middle. */
  readonly up: number;
}

/** Under the picture, for its name: paper units. What stands on legs leaves most of it free. */
const FOOT = PAPER.caption + PAPER.edge / 2;

/** Keeps a drawing of something thinner than a hair from dividing by nothing, mm. */
const LEAST_UNIT = 1e-6;

/**
 * A parallel projection as SVG, a user unit 1 mm as in the other views. Each piece is a group that
 * carries `data-part` and `data-copy` and holds what is seen of its faces.
 */
export function parallelToSvg(view: ParallelView, options: ParallelSvgOptions): string {
  const { name, format, panel = PANEL, print = false, standalone = false } = options;
  const bounds = options.reach === undefined ? view.bounds : grown(view.bounds, options.reach);
  const unit = unitFor(bounds, panel);
  const frame = frameOf(bounds, panel, unit);
  const box = [frame.left, -frame.top, frame.right - frame.left, frame.top - frame.bottom];
  const grain = woodGrain(view, unit);
  const line = (kind: string, segments: readonly Segment[]): string =>
    segments.length === 0
      ? ''
      : `<path class="${kind}" vector-effect="non-scaling-stroke" d="${pathOf(segments)}"/>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-parallel${print ? ' kb-print' : ''}" role="img" viewBox="${box.map(number).join(' ')}">`,
    `<title>${escapeText(name)}</title>`,
    `<desc>${escapeText(describe(view, format))}</desc>`,
    standalone
      ? `<style>${DRAWING_STYLE}${coloursOf(view, print ? 'print' : 'light')}</style>`
      : '',
    '<g class="kb-pieces">',
    ...view.pieces
      .filter(({ faces }) => faces.length > 0)
      .map((piece) => pieceGroup(piece, view, format)),
    '</g>',
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    line('kb-rings', grain.rings),
    line('kb-fibre', grain.along),
    line('kb-joint', grain.joints),
    line('kb-trace', view.traces),
    line('kb-outline', view.visible),
    `<g class="kb-caption" fill="currentColor" stroke="none" font-size="${number(PAPER.caption * unit)}">`,
    `<text x="${number(frame.left + PAPER.edge * unit)}" y="${number(-(frame.bottom + PAPER.edge * unit))}">${escapeText(captionFor(view, options))}</text>`,
    '</g>',
    '</g></svg>',
  ]
    .filter((part) => part !== '')
    .join('\n');
}

/** A part of which less than this share of a face is drawn is as good as hidden. */
const SPECK = 0.02;

/** Parts of which nothing is seen from where the eye is, by name. */
function unseenParts({ pieces }: ParallelView): string[] {
  const seen = new Set(
    pieces.filter((piece) => shareSeen(piece) >= SPECK).map(({ piece }) => piece.part),
  );
  return [...new Set(pieces.map(({ piece }) => piece.part))]
    .filter((part) => !seen.has(part))
    .map((part) => part.name);
}

/** Its name, and as far as there is room which parts it does not show: one turns it, or has it exploded. */
function captionFor(view: ParallelView, options: ParallelSvgOptions): string {
  const { name, panel = PANEL, unseen = false } = options;
  const says = `${name}, not to scale`;
  const hidden = unseen ? unseenParts(view) : [];
  if (hidden.length === 0) return says;
  const room = panel.width - 2 * PAPER.edge;
  return (
    [hidden.join(', '), hidden.length === 1 ? '1 part' : `${hidden.length} parts`]
      .map((which) => `${says}. Not seen from here: ${which}`)
      .find((whole) => textWidth(whole, PAPER.caption) <= room) ?? says
  );
}

function pieceGroup({ piece, faces }: SeenPiece, { eye }: ParallelView, format: Format): string {
  const drawn = faces.map(
    (face) =>
      `<path class="kb-face ${shadeClass(shadeOfFace(face, eye))}" d="${outlinesPath(face.outlines)}"/>`,
  );
  const wood = woodTone(piece.part.material);
  return `<g class="kb-piece kb-wood-${wood}" ${pieceKey(piece)}>${pieceTitle(piece, format)}${drawn.join('')}</g>`;
}

/** The colours of what is seen, each as a colour: a file of its own follows no page. */
function coloursOf({ pieces, eye }: ParallelView, look: Look): string {
  const rules = pieces.flatMap(({ piece, faces }) => {
    const wood = woodTone(piece.part.material);
    return faces.map((face) => {
      const shade = shadeOfFace(face, eye);
      return `.kb-wood-${wood} .${shadeClass(shade)} { ${painted(colourOf(wood, shade, look))} }`;
    });
  });
  return [...new Set(rules)].sort().join('\n');
}

function describe({ pieces }: ParallelView, format: Format): string {
  return sizesInWords(
    pieces.map(({ piece }) => piece),
    format,
  );
}

/** How many mm on the paper a pixel of a panel stands for. */
export function unitFor({ left, right, bottom, top }: Rectangle, { width, height }: Panel): number {
  const room = (side: number, taken: number): number => Math.max(side - taken, side / 2);
  return Math.max(
    (right - left) / room(width, 2 * PAPER.edge),
    (top - bottom) / room(height, 2 * PAPER.edge + FOOT),
    LEAST_UNIT,
  );
}

/** The whole panel, the thing in its middle: it keeps its height whatever is drawn in it. */
export function frameOf(
  { left, right, bottom, top }: Rectangle,
  panel: Panel,
  unit: number,
): Rectangle {
  const [x, y] = [(left + right) / 2, (bottom + top) / 2];
  const across = Math.max((panel.width * unit) / 2, (right - left) / 2 + PAPER.edge * unit);
  const foot = FOOT * unit;
  const up = Math.max((panel.height * unit - foot) / 2, (top - bottom) / 2 + PAPER.edge * unit);
  return { left: x - across, right: x + across, bottom: y - up - foot, top: y + up };
}

function grown({ left, right, bottom, top }: Rectangle, { across, up }: Reach): Rectangle {
  const [x, y] = [(left + right) / 2, (bottom + top) / 2];
  return { left: x - across, right: x + across, bottom: y - up, top: y + up };
}
