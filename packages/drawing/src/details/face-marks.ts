import { movedTo, type Triple, turnedBy } from '@kerfbook/solids';
import { measuringFaces } from '../joints/marking.ts';
import type { Layout } from '../layout.ts';
import type { Piece } from '../scene.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { CutFace } from './cut-faces.ts';
import { boundsOf, linesWithin } from './cut-faces.ts';
import type { Member } from './joint-places.ts';
import { onPaper } from './section-plane.ts';
import type { Cross } from './sizes.ts';
import { dot } from './ways.ts';

/** The face that the sizes of a piece are measured from, where the section shows it edge on. */
export interface FaceMark {
  /** What its part is called. */
  readonly part: string;
  /** As the marks of the piece name it: `front face`. */
  readonly word: string;
  /** The stretches of the outline that lie in the face. */
  readonly along: readonly Segment[];
  /** Which way it looks on the paper, of length 1. */
  readonly out: readonly [number, number];
}

/** A face seen so far from edge on is not marked: how long what stands square to it is on the paper, at the least. */
const EDGE_ON = 0.95;
/** What lies so near to a face lies in it, mm. */
const IN_FACE = 0.05;

/** Faces of both pieces that their cuts are measured from, as far as they are seen edge on within the window. */
export function faceMarks(
  cross: Cross,
  pieces: readonly Piece[],
  window: Rectangle,
): readonly FaceMark[] {
  const { place, a, b } = cross;
  return [
    ...marksOf(cross, place.a, a, pieces, window),
    ...(place.b === undefined || b === undefined ? [] : marksOf(cross, place.b, b, pieces, window)),
  ];
}

function marksOf(
  { plane }: Cross,
  { stand, cuts }: Member,
  { lines }: CutFace,
  pieces: readonly Piece[],
  window: Rectangle,
): FaceMark[] {
  return measuringFaces(pieces, stand, cuts).flatMap(({ axis, isHigh, word }): FaceMark[] => {
    const own: Triple = [0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
    const way = turnedBy(stand.placement, isHigh ? own : [0, 0 - own[1], 0 - own[2]]);
    const [x, y] = [dot(plane.right, way), dot(plane.up, way)];
    const length = Math.hypot(x, y);
    if (length < EDGE_ON) return [];
    const out = [x / length, y / length] as const;
    const corner: Triple = isHigh ? stand.size : [0, 0, 0];
    const [px, py] = onPaper(plane, movedTo(stand.placement, corner));
    const at = px * out[0] + py * out[1];
    const isIn = (cx: number, cy: number): boolean =>
      Math.abs(cx * out[0] + cy * out[1] - at) <= IN_FACE;
    const along = linesWithin(
      lines.filter(({ x1, y1, x2, y2 }) => isIn(x1, y1) && isIn(x2, y2)),
      window,
    );
    return along.length === 0 ? [] : [{ part: stand.name, word, along, out }];
  });
}

/**
 * A loop with two tails that cross, one of them down to the face: the mark that carpenters write on the side they
 * measure from. A common trade sign, no source. Across the way the face looks and along it, in heights of the mark.
 */
const LOOP: readonly (readonly [across: number, out: number])[] = [
  [0.34, 0],
  [0.1, 0.3],
  ...[205, 175, 145, 115, 90, 65, 35, 5, -25].map((degrees): readonly [number, number] => {
    const turn = (degrees * Math.PI) / 180;
    return [0.27 * Math.cos(turn), 0.73 + 0.27 * Math.sin(turn)];
  }),
  [-0.1, 0.3],
  [-0.2, 0.17],
];

/** How high the mark is, in paper units. */
const HIGH = 11;
/** Places along a face that are tried for it, as shares of each stretch: the middle first. */
const PLACES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];

/** A mark in its place. */
export interface DrawnMark {
  readonly mark: FaceMark;
  readonly lines: readonly Segment[];
}

/** Marks outside the wood, clear of what is written there, else within it; none where neither has room. */
export function drawnMarks(
  marks: readonly FaceMark[],
  { labels, lines, arrows }: Layout,
  unit: number,
): readonly DrawnMark[] {
  const taken: Rectangle[] = [
    ...labels.map(({ box }) => box),
    ...arrows.map(({ x, y }) => boxAround([[x, y]], HIGH * unit * 0.3)),
  ];
  return marks.flatMap((mark): DrawnMark[] => {
    const { along, out } = mark;
    const options = [1, -1].flatMap((side) =>
      [...along]
        .sort((one, other) => lengthOf(other) - lengthOf(one))
        .flatMap(({ x1, y1, x2, y2 }) =>
          PLACES.map((share) =>
            loopAt(
              [x1 + (x2 - x1) * share, y1 + (y2 - y1) * share],
              [out[0] * side, out[1] * side],
              HIGH * unit,
            ),
          ),
        ),
    );
    const isFree = (loop: readonly Segment[]): boolean => {
      const box = boxAround(pointsOf(loop), 0);
      return (
        taken.every((other) => isApart(box, other)) &&
        lines.every((line) => linesWithin([line], shrunk(box, unit)).length === 0)
      );
    };
    const chosen = options.find(isFree);
    if (chosen === undefined) return [];
    taken.push(boxAround(pointsOf(chosen), 0));
    return [{ mark, lines: chosen }];
  });
}

const lengthOf = ({ x1, y1, x2, y2 }: Segment): number => Math.hypot(x2 - x1, y2 - y1);

function loopAt(
  [x, y]: readonly [number, number],
  [outX, outY]: readonly [number, number],
  high: number,
): readonly Segment[] {
  const points = LOOP.map(([across, out]): readonly [number, number] => [
    x + high * (across * outY + out * outX),
    y + high * (out * outY - across * outX),
  ]);
  return points.slice(1).map(([x2, y2], index) => {
    const [x1, y1] = points[index] ?? [x2, y2];
    return { x1, y1, x2, y2 };
  });
}

const pointsOf = (lines: readonly Segment[]): readonly (readonly [number, number])[] =>
  lines.flatMap(({ x1, y1, x2, y2 }) => [[x1, y1] as const, [x2, y2] as const]);

function boxAround(points: readonly (readonly [number, number])[], by: number): Rectangle {
  const { left, right, bottom, top } = boundsOf(points);
  return { left: left - by, right: right + by, bottom: bottom - by, top: top + by };
}

/** An extension line may begin at the foot of a mark, and the outline lies there. */
const shrunk = ({ left, right, bottom, top }: Rectangle, by: number): Rectangle => ({
  left: left + by,
  right: right - by,
  bottom: bottom + by,
  top: top - by,
});

const isApart = (one: Rectangle, other: Rectangle): boolean =>
  one.right <= other.left ||
  other.right <= one.left ||
  one.top <= other.bottom ||
  other.top <= one.bottom;
