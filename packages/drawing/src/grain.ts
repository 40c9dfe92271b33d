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
const LONGEST = 70;
const NEEDED_WIDTH = 14;
/** Barb of an arrow's end, in paper units. */
const BARB = 4;

/**
 * Light double arrows along the grain: one for each part with a grain direction, on a piece whose
 * face is in view with room for it.
 */
export function grainMarks(projection: Projection, unit: number): Segment[] {
  const marks: Segment[] = [];
  const marked = new Set<unknown>();
  for (const [index, piece] of projection.pieces.entries()) {
    const { part } = piece.piece;
    if (marked.has(part)) continue;
    const line = lineOn(piece, projection, unit);
    if (line === undefined) continue;
    // Pieces come farthest first, so only later ones can lie over this one.
    const over = projection.pieces.slice(index + 1);
    const box = around(line, BARB * unit);
    if (over.some((other) => covers(other, box))) continue;
    marked.add(part);
    marks.push(line, ...barbs(line, unit));
  }
  return marks;
}

function lineOn(piece: ViewPiece, { view }: Projection, unit: number): Segment | undefined {
  const { across, up } = DIRECTIONS[view];
  const { grain } = piece.piece;
  if (grain !== across && grain !== up) return undefined;
  const level = grain === across;
  const long = level ? piece.right - piece.left : piece.top - piece.bottom;
  const wide = level ? piece.top - piece.bottom : piece.right - piece.left;
  const length = Math.min(long * 0.4, LONGEST * unit);
  if (length < SHORTEST * unit || wide < NEEDED_WIDTH * unit) return undefined;
  // A third of the way over: the middle is where hidden supports and centre lines run.
  const start = (level ? piece.left : piece.bottom) + (long - length) / 2;
  const off = wide / 3;
  return level
    ? { x1: start, y1: piece.bottom + off, x2: start + length, y2: piece.bottom + off }
    : { x1: piece.left + off, y1: start, x2: piece.left + off, y2: start + length };
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
