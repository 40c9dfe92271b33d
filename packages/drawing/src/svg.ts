import type { OpenWorkbook } from '@kerfbook/workbook';
import { captionOf, floorLine, shortCaptionOf, VIEW_NAMES } from './captions.ts';
import { grainArrows } from './grain.ts';
import type { Arrow, Label } from './layout.ts';
import type { MovementDrawing } from './movement.ts';
import { PAPER, textWidth } from './paper.ts';
import { scaleBar } from './scale-bar.ts';
import { scaleText } from './scales.ts';
import type { Piece } from './scene.ts';
import { rimOf } from './shapes/silhouette.ts';
import type { Sheet } from './sheet.ts';
import { sizesInWords } from './sizes-in-words.ts';
import { DRAWING_STYLE } from './style.ts';
import { escapeText, number, outlinesPath, pathOf, pieceKey, pieceTitle } from './svg-text.ts';
import type { Format } from './units.ts';
import type { Segment, ViewPiece } from './views.ts';
import type { Outline } from './visible-face.ts';

/** How a view becomes an SVG. */
export interface SvgOptions {
  /** Decides in which unit the scale bar counts. */
  readonly units: OpenWorkbook['units'];
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** True: the SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
}

/**
 * One view as SVG. A user unit is 1 mm; x is the furniture's own, y its own turned over, as SVG
 * counts down. Numbers are rounded to 0.01 mm. The same sheet always gives the same text.
 */
export function sheetToSvg(sheet: Sheet, options: SvgOptions): string {
  const { frame, projection, layout, movement, unit } = sheet;
  const { view } = projection;
  const box = [frame.left, -frame.top, frame.right - frame.left, frame.top - frame.bottom];
  const style = options.standalone === true ? `<style>${DRAWING_STYLE}</style>` : '';
  const shape = ' vector-effect="non-scaling-stroke"';
  const line = (name: string, segments: readonly Segment[]): string =>
    segments.length === 0 ? '' : `<path class="${name}"${shape} d="${pathOf(segments)}"/>`;
  const grain = view === 'plan' ? grainArrows(projection, unit) : [];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-${view}" role="img"${sizeOf(sheet)} viewBox="${box.map(number).join(' ')}">`,
    `<title>${escapeText(VIEW_NAMES[view])}</title>`,
    `<desc>${escapeText(describe(sheet, options.format))}</desc>`,
    style,
    '<g class="kb-pieces" fill="currentColor" fill-opacity="0">',
    ...projection.pieces.map((piece) => pieceRect(piece, options.format)),
    '</g>',
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    line('kb-floor', view === 'plan' ? [] : [floorLine(sheet)]),
    line('kb-hidden', projection.hidden),
    line('kb-grain', grain),
    line('kb-outline', projection.visible),
    line('kb-dimension', layout.lines),
    arrowsPath(layout.arrows, unit),
    textGroup('kb-text', layout.labels, unit),
    movement === undefined ? '' : movementGroup(movement, unit),
    foot(sheet, options),
    '</g></svg>',
  ]
    .filter((part) => part !== '')
    .join('\n');
}

/** Heads of lines as one path. */
export function arrowsPath(arrows: readonly Arrow[], unit: number): string {
  if (arrows.length === 0) return '';
  const path = arrows.map((arrow) => arrowPath(arrow, unit)).join('');
  return `<path class="kb-arrow" fill="currentColor" stroke="none" d="${path}"/>`;
}

/** What is written, in the size of dimensions. */
export const textGroup = (name: string, labels: readonly Label[], unit: number): string =>
  [
    `<g class="${name}" fill="currentColor" stroke="none" font-size="${number(PAPER.text * unit)}" text-anchor="middle">`,
    ...labels.map(labelText),
    '</g>',
  ].join('\n');

/** The edges of a panel at the seasons, what they are, and how much they are exaggerated. */
function movementGroup({ lines, leaders, arrows, labels }: MovementDrawing, unit: number): string {
  const path = (name: string, segments: readonly Segment[]): string =>
    segments.length === 0
      ? ''
      : `<path class="${name}" vector-effect="non-scaling-stroke" d="${pathOf(segments)}"/>`;
  return [
    path('kb-movement', lines),
    path('kb-leader', leaders),
    arrowsPath(arrows, unit),
    textGroup('kb-note', labels, unit),
  ]
    .filter((part) => part !== '')
    .join('\n');
}

/** On a page the picture has the size that its scale gives it; on a screen that of its panel. */
function sizeOf({ frame, scale }: Sheet): string {
  if (scale === undefined) return '';
  const [wide, tall] = [frame.right - frame.left, frame.top - frame.bottom];
  return ` width="${number(wide / scale)}mm" height="${number(tall / scale)}mm"`;
}

function describe({ projection, layout, movement }: Sheet, format: Format): string {
  const { bounds } = projection;
  const size = `${format(bounds.right - bounds.left)} by ${format(bounds.top - bounds.bottom)}`;
  const shown = layout.labels.map(({ key, text }) => `${key} ${text}`).join(', ');
  const isLaidOut = projection.pieces.some(({ piece }) => piece.part.aside === true);
  const over = isLaidOut ? [] : [shown === '' ? `${size}.` : `${size}. Sizes shown: ${shown}.`];
  const whole = sizesInWords(
    projection.pieces.map(({ piece }) => piece),
    format,
  );
  return [...over, ...(movement?.labels ?? []).map(({ text }) => `${text}.`), whole].join(' ');
}

function pieceRect(shown: ViewPiece, format: Format): string {
  const { piece, left, right, bottom, top, outlines } = shown;
  if (outlines !== undefined) return pieceGroup(piece, outlines, format);
  const place = `x="${number(left)}" y="${number(-top)}" width="${number(right - left)}" height="${number(top - bottom)}"`;
  return `<rect class="kb-piece" ${pieceKey(piece)} ${place}>${pieceTitle(piece, format)}</rect>`;
}

/** What a shaped piece covers, and around it a rim that is drawn while the piece is marked. */
function pieceGroup(piece: Piece, outlines: readonly Outline[], format: Format): string {
  const rim = `<path class="kb-rim" fill="none" d="${pathOf(rimOf(outlines))}"/>`;
  const area = `<path class="kb-area" d="${outlinesPath(outlines)}"/>`;
  return `<g class="kb-piece" ${pieceKey(piece)}>${pieceTitle(piece, format)}${area}${rim}</g>`;
}

function labelText({ key, text, x, y, upright }: Label): string {
  const turn = upright ? ` transform="rotate(-90 ${number(x)} ${number(-y)})"` : '';
  return `<text data-size="${escapeText(key)}" x="${number(x)}" y="${number(-y)}"${turn}>${escapeText(text)}</text>`;
}

function foot({ frame, projection, unit, scale }: Sheet, { units }: SvgOptions): string {
  const scaled = scale === undefined ? '' : `, ${scaleText(scale, units)}`;
  const from = frame.left + PAPER.edge * unit;
  const bars = [5, 10].map((share) => scaleBar((frame.right - frame.left) / share, units));
  const says = [captionOf(projection.view, units), shortCaptionOf(projection.view, units)];
  // In a small view the bar gives way first, then the longer words for the units, which all views have.
  const found = says
    .flatMap((one) => bars.map((bar) => ({ bar, caption: one + scaled })))
    .find(({ bar: { mm, text }, caption }) => {
      const room = frame.right - PAPER.edge * unit - mm - BEFORE_BAR * unit - from;
      return captionWidth(caption) + captionWidth(text) + PAPER.edge <= room / unit;
    });
  const [widest = scaleBar(0, units)] = bars;
  const bar = found?.bar ?? widest;
  const caption = found?.caption ?? VIEW_NAMES[projection.view] + scaled;
  const right = frame.right - PAPER.edge * unit;
  const left = right - bar.mm;
  const base = -(frame.bottom + PAPER.edge * unit);
  const tick = 4 * unit;
  const size = PAPER.caption * unit;
  const ends = `M${number(left)} ${number(base - tick)}V${number(base)}H${number(right)}V${number(base - tick)}`;
  const beside = left - BEFORE_BAR * unit;
  return [
    `<path class="kb-scale" vector-effect="non-scaling-stroke" d="${ends}"/>`,
    `<g class="kb-caption" fill="currentColor" stroke="none" font-size="${number(size)}">`,
    `<text x="${number(from)}" y="${number(base)}">${escapeText(caption)}</text>`,
    `<text x="${number(beside)}" y="${number(base)}" text-anchor="end">${escapeText(bar.text)}</text>`,
    '</g>',
  ].join('\n');
}

/** Between the words of the bar and the bar, in paper units. */
const BEFORE_BAR = 5;

/** Estimated width of a caption in paper units: small letters and blanks mostly, narrower than sizes are. */
const captionWidth = (text: string): number => 0.73 * textWidth(text, PAPER.caption);

function arrowPath({ x, y, points }: Arrow, unit: number): string {
  const long = PAPER.arrow * unit;
  const half = PAPER.arrowHalf * unit;
  const away = points === 'left' || points === 'down' ? 1 : -1;
  const corners =
    points === 'left' || points === 'right'
      ? [
          [x + away * long, y + half],
          [x + away * long, y - half],
        ]
      : [
          [x + half, y + away * long],
          [x - half, y + away * long],
        ];
  const rest = corners.map(([cx, cy]) => `L${number(cx ?? 0)} ${number(-(cy ?? 0))}`).join('');
  return `M${number(x)} ${number(-y)}${rest}Z`;
}
