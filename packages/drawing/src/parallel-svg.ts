import { PAPER } from './paper.ts';
import type { ParallelView, SeenFace, SeenPiece } from './parallel.ts';
import { PANEL, type Panel } from './sheet.ts';
import { DRAWING_STYLE } from './style.ts';
import { escapeText, number, pathOf, pieceKey, pieceTitle } from './svg-text.ts';
import type { Format } from './units.ts';
import type { Rectangle, Segment } from './views.ts';

/** How a parallel projection becomes an SVG. */
export interface ParallelSvgOptions {
  /** What is shown, as its title and in its caption, such as "The whole". */
  readonly name: string;
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** The panel it is to be read in, in pixels; 420 by 420 where left out. */
  readonly panel?: Panel;
  /**
   * Room to leave free around the middle, mm on the paper each way, so that the scale holds while
   * the view is turned; just what this view needs where left out.
   */
  readonly reach?: number;
  /** True: the SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
}

/** Keeps a drawing of something thinner than a hair from dividing by nothing, mm. */
const LEAST_UNIT = 1e-6;

/**
 * A parallel projection as SVG, a user unit 1 mm as in the other views. Each piece is a group that
 * carries `data-part` and `data-copy` and holds what is seen of its faces.
 */
export function parallelToSvg(view: ParallelView, options: ParallelSvgOptions): string {
  const { name, format, panel = PANEL, standalone = false } = options;
  const bounds = options.reach === undefined ? view.bounds : grown(view.bounds, options.reach);
  const unit = unitFor(bounds, panel);
  const frame = frameOf(bounds, panel, unit);
  const box = [frame.left, -frame.top, frame.right - frame.left, frame.top - frame.bottom];
  const line = (kind: string, segments: readonly Segment[]): string =>
    segments.length === 0
      ? ''
      : `<path class="${kind}" vector-effect="non-scaling-stroke" d="${pathOf(segments)}"/>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-parallel" role="img" viewBox="${box.map(number).join(' ')}">`,
    `<title>${escapeText(name)}</title>`,
    `<desc>${escapeText(describe(view))}</desc>`,
    standalone ? `<style>${DRAWING_STYLE}</style>` : '',
    '<g class="kb-pieces" fill="currentColor" fill-opacity="0">',
    ...view.pieces
      .filter(({ faces }) => faces.length > 0)
      .map((piece) => pieceGroup(piece, format)),
    '</g>',
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    line('kb-trace', view.traces),
    line('kb-outline', view.visible),
    `<g class="kb-caption" fill="currentColor" stroke="none" font-size="${number(PAPER.caption * unit)}">`,
    `<text x="${number(frame.left + PAPER.edge * unit)}" y="${number(-(frame.bottom + PAPER.edge * unit))}">${escapeText(`${name}, not to measure`)}</text>`,
    '</g>',
    '</g></svg>',
  ]
    .filter((part) => part !== '')
    .join('\n');
}

function pieceGroup({ piece, faces }: SeenPiece, format: Format): string {
  const drawn = faces.map(
    (face) => `<path class="kb-face kb-face-${face.axis}" d="${outlinesPath(face)}"/>`,
  );
  return `<g class="kb-piece" ${pieceKey(piece)}>${pieceTitle(piece, format)}${drawn.join('')}</g>`;
}

const outlinesPath = ({ outlines }: SeenFace): string =>
  outlines
    .map((outline) => `M${outline.map(([x, y]) => `${number(x)} ${number(-y)}`).join('L')}Z`)
    .join('');

function describe({ eye, pieces }: ParallelView): string {
  const seen = pieces.filter(({ faces }) => faces.length > 0).length;
  const side = eye.elevation < 0 ? 'below' : 'above';
  return `Turned ${number(eye.azimuth)}° from the front and seen ${number(Math.abs(eye.elevation))}° from ${side}; ${seen} of ${pieces.length} pieces in view.`;
}

function unitFor({ left, right, bottom, top }: Rectangle, { width, height }: Panel): number {
  const room = (side: number, taken: number): number => Math.max(side - taken, side / 2);
  return Math.max(
    (right - left) / room(width, 2 * PAPER.edge),
    (top - bottom) / room(height, 2 * PAPER.edge + PAPER.foot),
    LEAST_UNIT,
  );
}

function frameOf({ left, right, bottom, top }: Rectangle, panel: Panel, unit: number): Rectangle {
  const middle = (left + right) / 2;
  const half = Math.max((panel.width * unit) / 2, (right - left) / 2 + PAPER.edge * unit);
  return {
    left: middle - half,
    right: middle + half,
    bottom: bottom - (PAPER.foot + PAPER.edge) * unit,
    top: top + PAPER.edge * unit,
  };
}

function grown({ left, right, bottom, top }: Rectangle, reach: number): Rectangle {
  const [x, y] = [(left + right) / 2, (bottom + top) / 2];
  return { left: x - reach, right: x + reach, bottom: y - reach, top: y + reach };
}
