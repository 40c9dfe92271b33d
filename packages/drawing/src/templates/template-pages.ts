import type { OpenWorkbook } from '@kerfbook/workbook';
import { DRAWING_STYLE } from '../style.ts';
import { escapeText, number, pathOf } from '../svg-text.ts';
import type { Rectangle, Segment } from '../views.ts';
import { type CurveTemplate, within } from './curve-templates.ts';

/** One sheet of a template. */
export interface TemplatePage {
  /** Its lines at true size: a user unit is 1 mm, and it says how many mm it is wide and high. */
  readonly svg: string;
  /** Which of the sheets, from 1, row by row. */
  readonly sheet: number;
  /** From the top, from 1. */
  readonly row: number;
  /** From the left, from 1. */
  readonly column: number;
  /** True: the square by which the size is checked is on it. */
  readonly hasSquare: boolean;
}

/** The template of one part on sheets that are joined by their marks. */
export interface TemplatePages {
  /** What is printed. */
  readonly template: CurveTemplate;
  /** Its sheets, in order. */
  readonly pages: readonly TemplatePage[];
  /** The side of the square, mm: 100 mm, or 4 in. */
  readonly square: number;
}

/** How the sheets are laid out. */
export interface TemplateOptions {
  /** Room on each sheet, mm. */
  readonly room: { readonly width: number; readonly height: number };
  /** Decides what the square measures. */
  readonly units: OpenWorkbook['units'];
  /** True: each SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
}

/** Sheets share a strip with their neighbours, and in it two marks, mm. */
const SHARED = 16;
/** Around the outline, mm. */
const EDGE = 5;
/** Half of a mark, its letters, and how far those stand from it, mm; 9 pt are 3.2 mm. */
const MARK = 4;
const LETTER = 3.2;
/** Around the square, mm. */
const CLEAR = 4;
/** Places tried for the square, mm apart. */
const STEP = 10;

interface Tile extends Rectangle {
  readonly row: number;
  readonly column: number;
  readonly lines: readonly Segment[];
}

interface Mark {
  readonly x: number;
  readonly y: number;
  readonly says: string;
}

/** Lays a template out on sheets. Those that no line comes on are left out; one has the square. */
export function templatePages(
  template: CurveTemplate,
  { room, units, standalone = false }: TemplateOptions,
): TemplatePages {
  const square = units === 'us' ? 4 * 25.4 : 100;
  const { tiles, columns, rows } = tilesOf(template, room);
  const marks = marksBetween(tiles, columns, rows, room);
  const says = units === 'us' ? '4 in' : '100 mm';
  const spots = tiles.map((tile) => squareOn(tile, marks, square, template));
  const at = spots.findIndex((spot) => spot !== undefined);
  const pages = tiles.map((tile, index): TemplatePage => {
    const corner = index === at ? spots[index] : undefined;
    return {
      svg: svgOf(tile, template, marks, standalone, corner && { corner, square, says }),
      sheet: index + 1,
      row: tile.row + 1,
      column: tile.column + 1,
      hasSquare: corner !== undefined,
    };
  });
  if (at >= 0) return { template, pages, square };
  // No sheet has room for it: it comes on one of its own.
  const side = square + 2 * CLEAR;
  const bare: Tile = {
    left: 0,
    right: side,
    bottom: 0,
    top: side,
    row: rows,
    column: 0,
    lines: [],
  };
  const corner: readonly [number, number] = [CLEAR, CLEAR];
  const svg = svgOf(bare, template, [], standalone, { corner, square, says });
  const last = {
    svg,
    sheet: pages.length + 1,
    row: rows + 1,
    column: 1,
    hasSquare: true,
  };
  return { template, pages: [...pages, last], square };
}

function tilesOf(
  { outline, bounds }: CurveTemplate,
  { width, height }: TemplateOptions['room'],
): { tiles: Tile[]; columns: number; rows: number } {
  const [left, top] = [bounds.left - EDGE, bounds.top + EDGE];
  const [wide, high] = [bounds.right + EDGE - left, top - bounds.bottom + EDGE];
  const columns = Math.max(1, Math.ceil((wide - SHARED) / (width - SHARED)));
  const rows = Math.max(1, Math.ceil((high - SHARED) / (height - SHARED)));
  const tiles = Array.from({ length: rows * columns }, (_, index): Tile => {
    const [row, column] = [Math.floor(index / columns), index % columns];
    const x = left + column * (width - SHARED);
    const y = top - row * (height - SHARED);
    const room = {
      left: x,
      right: columns === 1 ? left + wide : x + width,
      top: y,
      bottom: rows === 1 ? top - high : y - height,
    };
    return {
      ...room,
      row,
      column,
      lines: outline.flatMap((line) => within(line, room) ?? []),
    };
  });
  return {
    tiles: tiles.filter(({ lines }) => lines.length > 0),
    columns,
    rows,
  };
}

/** Two marks in the strip that two sheets share, the same on both. */
function marksBetween(
  tiles: readonly Tile[],
  columns: number,
  rows: number,
  { width, height }: TemplateOptions['room'],
): Mark[] {
  const at = (row: number, column: number): Tile | undefined =>
    tiles.find((tile) => tile.row === row && tile.column === column);
  const spots: (readonly [number, number])[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const tile = at(row, column);
      if (tile === undefined) continue;
      if (at(row, column + 1) !== undefined) {
        const x = tile.left + width - SHARED / 2;
        spots.push([x, tile.top - (tile.top - tile.bottom) / 4]);
        spots.push([x, tile.bottom + (tile.top - tile.bottom) / 4]);
      }
      if (at(row + 1, column) !== undefined) {
        const y = tile.top - height + SHARED / 2;
        spots.push([tile.left + (tile.right - tile.left) / 4, y]);
        spots.push([tile.right - (tile.right - tile.left) / 4, y]);
      }
    }
  }
  return spots.map(([x, y], index) => ({ x, y, says: lettersOf(index) }));
}

/** A, B, … Z, AA, AB, … */
const lettersOf = (index: number): string =>
  (index >= 26 ? lettersOf(Math.floor(index / 26) - 1) : '') +
  String.fromCharCode(65 + (index % 26));

/** The lower left corner of the square on a sheet, where it lies clear of all lines; undefined where it does nowhere. */
function squareOn(
  tile: Tile,
  marks: readonly Mark[],
  square: number,
  { centers }: CurveTemplate,
): readonly [number, number] | undefined {
  const lines = [...tile.lines, ...centers];
  for (let y = tile.top - square - CLEAR; y >= tile.bottom + CLEAR; y -= STEP) {
    for (let x = tile.left + CLEAR; x <= tile.right - square - CLEAR; x += STEP) {
      const room = { left: x, right: x + square, bottom: y, top: y + square };
      const around = grown(room, CLEAR);
      if (lines.some((line) => within(line, around) !== undefined)) continue;
      const besideMarks = grown(room, 2 * MARK + LETTER);
      if (marks.some((mark) => holds(besideMarks, mark))) continue;
      return [x, y];
    }
  }
  return undefined;
}

const grown = ({ left, right, bottom, top }: Rectangle, by: number): Rectangle => ({
  left: left - by,
  right: right + by,
  bottom: bottom - by,
  top: top + by,
});

const holds = ({ left, right, bottom, top }: Rectangle, { x, y }: Mark): boolean =>
  x > left && x < right && y > bottom && y < top;

interface Square {
  readonly corner: readonly [number, number];
  readonly square: number;
  readonly says: string;
}

function svgOf(
  tile: Tile,
  { part, centers }: CurveTemplate,
  marks: readonly Mark[],
  standalone: boolean,
  square: Square | undefined,
): string {
  const [wide, high] = [tile.right - tile.left, tile.top - tile.bottom];
  const here = marks.filter((mark) => holds(tile, mark));
  const path = (name: string, lines: readonly Segment[]): string =>
    lines.length === 0
      ? ''
      : `<path class="${name}" vector-effect="non-scaling-stroke" d="${pathOf(lines)}"/>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-template" role="img" width="${number(wide)}mm" height="${number(high)}mm" viewBox="${[tile.left, -tile.top, wide, high].map(number).join(' ')}">`,
    `<title>${escapeText(`Pattern of ${part.name}`)}</title>`,
    standalone ? `<style>${DRAWING_STYLE}</style>` : '',
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    path('kb-outline', tile.lines),
    path(
      'kb-trace',
      centers.flatMap((line) => within(line, tile) ?? []),
    ),
    path('kb-dimension', here.flatMap(crossOf)),
    square === undefined ? '' : squareSvg(square),
    `<g class="kb-text" fill="currentColor" stroke="none" font-size="${LETTER}">`,
    ...here.map(
      ({ x, y, says }) =>
        `<text x="${number(x + 1)}" y="${number(-y - 1)}">${escapeText(says)}</text>`,
    ),
    '</g>',
    '</g></svg>',
  ]
    .filter((one) => one !== '')
    .join('\n');
}

const crossOf = ({ x, y }: Mark): Segment[] => [
  { x1: x - MARK, y1: y, x2: x + MARK, y2: y },
  { x1: x, y1: y - MARK, x2: x, y2: y + MARK },
];

function squareSvg({ corner: [x, y], square, says }: Square): string {
  const middle = number(x + square / 2);
  return [
    `<rect class="kb-dimension kb-square" vector-effect="non-scaling-stroke" x="${number(x)}" y="${number(-y - square)}" width="${number(square)}" height="${number(square)}"/>`,
    `<text class="kb-text" fill="currentColor" stroke="none" font-size="${LETTER + 0.8}" text-anchor="middle" x="${middle}" y="${number(-y - square / 2)}">${says} square</text>`,
  ].join('\n');
}
