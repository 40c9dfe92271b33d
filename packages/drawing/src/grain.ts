import { isWithin } from './shapes/silhouette.ts';
import { overlap } from './spans.ts';
import {
  DIRECTIONS,
  type Projection,
  type Rectangle,
  type Segment,
  type ViewPiece,
} from './views.ts';

/** Shortest and longest arrow, and the width of wood it needs, in paper units. */
const SHORTEST = 26;
const LONGEST = 44;
const NEEDED_WIDTH = 14;
/** Barb of an arrow's end, in paper units. */
const BARB = 4;

/**
 * Light double arrows along the grain: one for each part with a grain direction, on a piece whose
 * face is in view with room for it.
 */
export function grainArrows(projection: Projection, unit: number): Segment[] {
  const arrows: Segment[] = [];
  const done = new Set<unknown>();
  for (const [index, piece] of projection.pieces.entries()) {
    const { part } = piece.piece;
    if (done.has(part)) continue;
    // Pieces come farthest first, so only later ones can lie over this one.
    const over = projection.pieces.slice(index + 1);
    if (over.some((other) => hides(other, piece))) continue;
    const line = bestLine(piece, over, projection, unit);
    if (line === undefined) continue;
    done.add(part);
    arrows.push(line, ...barbs(line, unit));
  }
  return arrows;
}

/** The first line on open wood that no edge runs through, or else the first on open wood. */
function bestLine(
  piece: ViewPiece,
  over: readonly ViewPiece[],
  projection: Projection,
  unit: number,
): Segment | undefined {
  let open: Segment | undefined;
  for (const line of linesOn(piece, projection, unit)) {
    const box = around(line, BARB * unit);
    if (over.some((other) => covers(other, box)) || !standsOn(piece, box)) continue;
    if (!crosses(box, projection)) return line;
    open ??= line;
  }
  return open;
}

/** Whether a place lies on the wood of a piece: of a shaped one, within one outline that covers it. */
function standsOn({ outlines }: ViewPiece, { left, right, bottom, top }: Rectangle): boolean {
  if (outlines === undefined) return true;
  const corners = [left, right].flatMap((x) => [bottom, top].map((y) => [x, y] as const));
  return outlines.some((outline) => corners.every(([x, y]) => isWithin(outline, x, y)));
}

const hides = (other: Rectangle, piece: Rectangle): boolean =>
  other.left <= piece.left &&
  other.right >= piece.right &&
  other.bottom <= piece.bottom &&
  other.top >= piece.top;

/** Where an arrow may stand on a piece, as shares of its length and its width, best first. */
const SPOTS = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8, -8].flatMap((steps) =>
  [1 / 3, 1 / 2, 2 / 3].map((over) => [1 / 2 + steps / 32, over] as const),
);

function linesOn(piece: ViewPiece, { view }: Projection, unit: number): Segment[] {
  const { across, up } = DIRECTIONS[view];
  const { grain } = piece.piece;
  if (grain !== across && grain !== up) return [];
  const level = grain === across;
  const long = level ? piece.right - piece.left : piece.top - piece.bottom;
  const wide = level ? piece.top - piece.bottom : piece.right - piece.left;
  const length = Math.min(long * 0.4, LONGEST * unit);
  if (length < SHORTEST * unit || wide < NEEDED_WIDTH * unit) return [];
  return SPOTS.map(([along, over]) => {
    const start = (level ? piece.left : piece.bottom) + long * along - length / 2;
    const off = (level ? piece.bottom : piece.left) + wide * over;
    return level
      ? { x1: start, y1: off, x2: start + length, y2: off }
      : { x1: off, y1: start, x2: off, y2: start + length };
  });
}

/** Whether an edge, seen or hidden, runs through a place. */
function crosses(box: Rectangle, { visible, hidden }: Projection): boolean {
  const through = ({ x1, y1, x2, y2 }: Segment): boolean =>
    x1 < box.right && x2 > box.left && y1 < box.top && y2 > box.bottom;
  return hidden.some(through) || visible.some(through);
}

function barbs({ x1, y1, x2, y2 }: Segment, unit: number): Segment[] {
  const reach = BARB * unit;
  const half = reach / 2;
  if (y1 === y2) {
    return [
      { x1, y1, x2: x1 + reach, y2: y1 + half },
      { x1: x2, y1: y2, x2: x2 - reach, y2: y2 - half },
    ];
  }
  return [
    { x1, y1, x2: x1 + half, y2: y1 + reach },
    { x1: x2, y1: y2, x2: x2 - half, y2: y2 - reach },
  ];
}

const around = ({ x1, y1, x2, y2 }: Segment, by: number): Rectangle => ({
  left: x1 - by,
  right: x2 + by,
  bottom: y1 - by,
  top: y2 + by,
});

const covers = (other: Rectangle, box: Rectangle): boolean =>
  overlap([other.left, other.right], [box.left, box.right]) &&
  overlap([other.bottom, other.top], [box.bottom, box.top]);
