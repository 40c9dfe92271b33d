import type { Facet } from '@kerfbook/solids';
import { type Eye, type Gaze, gazeOf, type Triple } from './eye.ts';
import { PaperLines, paperOf } from './paper-lines.ts';
import { AXES, type Axis, type Box, type Piece, type Scene } from './scene.ts';
import { facesOfSolids, viewOfSolids } from './shapes/from-anywhere.ts';
import { hasSolids } from './shapes/scene-solids.ts';
import {
  at,
  type Bands,
  bandsMeet,
  bandsOf,
  frontOf,
  others,
  reachesBefore,
  replaced,
  type Solid,
  solidOf,
} from './solid.ts';
import { hiddenOf, type Stick, seenOf } from './stick.ts';
import type { Rectangle, Segment } from './views.ts';
import { type Outline, visibleFace } from './visible-face.ts';

/** A face of a piece that looks towards the eye. */
export interface SeenFace {
  /** The axis it is square to. */
  readonly axis: Axis;
  /** What can be seen of it, as convex outlines on the paper that do not overlap, mm. */
  readonly outlines: readonly Outline[];
  /** Of a shaped piece, the facets it is made of: they lie in one plane, or have one shade; `axis` is then the nearest. */
  readonly facets?: readonly Facet[];
}

/** A piece as a parallel projection shows it. */
export interface SeenPiece {
  /** The piece of the scene. */
  readonly piece: Piece;
  /** Only those of which something can be seen. */
  readonly faces: readonly SeenFace[];
  /** Where the scene has shaped pieces, how much of it can be seen; see `shareSeen`. */
  readonly share?: number;
}

/** A parallel projection; mm on the paper at the scale of 1 across the line of sight. */
export interface ParallelView {
  /** Where it is looked at from. */
  readonly eye: Eye;
  /** In the order of the scene. A piece that is hidden altogether has no faces. */
  readonly pieces: readonly SeenPiece[];
  /** Edges that can be seen, each stretch of a line once. */
  readonly visible: readonly Segment[];
  /**
   * Edges of faces that look towards the eye, where something is in front of them. Of a scene with shaped pieces it is
   * not told: nothing that shows one draws them, and each step of a turn would pay for it.
   */
  readonly hidden?: readonly Segment[];
  /** Around all that is drawn, traces included, mm. */
  readonly bounds: Rectangle;
  /** The lines asked for, as far as they can be seen. */
  readonly traces: readonly Segment[];
}

/** A straight way along an axis to be drawn with the pieces, and hidden where they are in front; mm. */
export interface Trace {
  /** The axis it runs along. */
  readonly axis: Axis;
  /** The point it begins at. */
  readonly from: { readonly x: number; readonly y: number; readonly z: number };
  /** The coordinate it ends at, along its axis. */
  readonly to: number;
}

interface Shaped {
  readonly piece: Piece;
  readonly solid: Solid;
  readonly bands: Bands;
}

/**
 * A scene seen from anywhere, what is hidden worked out exactly: each edge and each face is cut at
 * the outlines of the pieces in front of it, so pieces may touch, overlap or interlock. Undefined
 * when the scene has no pieces.
 * @throws RangeError when the eye's angles are none; see `gazeOf`
 */
export function parallelView(
  scene: Scene,
  eye: Eye,
  traces: readonly Trace[] = [],
): ParallelView | undefined {
  const gaze = gazeOf(eye);
  if (scene.pieces.length === 0) return undefined;
  if (hasSolids(scene)) return viewOfSolids(scene, eye, traces);
  const shaped = scene.pieces.map((piece): Shaped => {
    const solid = solidOf(piece);
    return { piece, solid, bands: bandsOf(solid, gaze) };
  });
  // Large ones first: what they hide is soon gone, and the small ones find nothing left to cut.
  const largest = [...shaped].sort((a, b) => sizeOf(b) - sizeOf(a));
  const lines = new PaperLines(gaze);
  const pieces = shaped.map((one): SeenPiece => {
    const before = largest.filter((other) => other !== one && mayHide(other, one, gaze));
    const solids = before.map(({ solid }) => solid);
    for (const edge of edgesOf(one.solid, gaze)) draw(edge, solids, gaze, lines);
    for (const crease of creasesOf(one.solid, solids, gaze)) draw(crease, solids, gaze, lines);
    return { piece: one.piece, faces: facesOf(one.solid, solids, gaze) };
  });
  return {
    eye,
    pieces,
    ...lines.settle(),
    bounds: boundsOf(shaped, traces, gaze),
    traces: tracesOf(traces, shaped, gaze),
  };
}

/** Only what is seen of each piece, without the lines: what a choice between eyes goes by. */
export function facesSeen(scene: Scene, eye: Eye): SeenPiece[] {
  if (hasSolids(scene)) return facesOfSolids(scene, eye);
  const gaze = gazeOf(eye);
  const shaped = scene.pieces.map((piece): Shaped => {
    const solid = solidOf(piece);
    return { piece, solid, bands: bandsOf(solid, gaze) };
  });
  const largest = [...shaped].sort((a, b) => sizeOf(b) - sizeOf(a));
  return shaped.map((one) => {
    const before = largest.filter((other) => other !== one && mayHide(other, one, gaze));
    const solids = before.map(({ solid }) => solid);
    return { piece: one.piece, faces: facesOf(one.solid, solids, gaze) };
  });
}

/** Roughly how much paper an outline takes: enough to sort by. */
const sizeOf = ({ bands }: Shaped): number =>
  bands.reduce((sum, [from, to]) => sum + (to - from) ** 2, 0);

const mayHide = (one: Shaped, other: Shaped, gaze: Gaze): boolean =>
  bandsMeet(one.bands, other.bands, gaze) && reachesBefore(one.solid, other.solid, gaze);

function draw(stick: Stick, solids: readonly Solid[], gaze: Gaze, lines: PaperLines): void {
  lines.add(stick, seenOf(stick, hiddenOf(stick, solids, gaze)));
}

/** The edges on which a face ends that looks towards the eye; the others lie behind the box itself. */
function edgesOf(solid: Solid, gaze: Gaze): Stick[] {
  return [0, 1, 2].flatMap((axis) => {
    const [i, j] = others(axis);
    const from = at(solid.low, axis);
    const to = at(solid.high, axis);
    return [solid.low, solid.high].flatMap((a) =>
      [solid.low, solid.high].flatMap((b): Stick[] => {
        const front =
          (at(gaze.toEye, i) !== 0 && at(a, i) === frontOf(solid, i, gaze)) ||
          (at(gaze.toEye, j) !== 0 && at(b, j) === frontOf(solid, j, gaze));
        const through = replaced(replaced([0, 0, 0], i, at(a, i)), j, at(b, j));
        return front ? [{ axis, through, from, to }] : [];
      }),
    );
  });
}

function facesOf(solid: Solid, before: readonly Solid[], gaze: Gaze): SeenFace[] {
  return AXES.flatMap((name, axis): SeenFace[] => {
    if (at(gaze.toEye, axis) === 0) return [];
    const plane = frontOf(solid, axis, gaze);
    const seen = visibleFace(solid, axis, plane, before, gaze);
    const [i, j] = others(axis);
    const outlines = seen.map((outline) =>
      outline.map(([p, q]) =>
        paperOf(replaced(replaced(replaced([0, 0, 0], axis, plane), i, p), j, q), gaze),
      ),
    );
    return outlines.length === 0 ? [] : [{ axis: name, outlines }];
  });
}

/**
 * Where faces of two pieces that run into each other meet, there is an edge that neither has. It
 * lies on both, so it is drawn with the piece it is asked for; the other comes with its own turn.
 */
const creasesOf = (one: Solid, before: readonly Solid[], gaze: Gaze): Stick[] =>
  before
    .filter((other) => runIntoEachOther(one, other))
    .flatMap((other) => [...creasesBetween(one, other, gaze), ...creasesBetween(other, one, gaze)]);

const runIntoEachOther = (a: Solid, b: Solid): boolean =>
  [0, 1, 2].every(
    (axis) => at(a.low, axis) < at(b.high, axis) && at(b.low, axis) < at(a.high, axis),
  );

function creasesBetween(one: Solid, other: Solid, gaze: Gaze): Stick[] {
  return [0, 1, 2].flatMap((axis) => {
    // Both pairs of the remaining axes come up: the caller asks a second time the other way round.
    const [i, j] = others(axis);
    if (at(gaze.toEye, i) === 0 || at(gaze.toEye, j) === 0) return [];
    const a = frontOf(one, i, gaze);
    const b = frontOf(other, j, gaze);
    if (!within(other, i, a) || !within(one, j, b)) return [];
    const through: Triple = replaced(replaced([0, 0, 0], i, a), j, b);
    const from = Math.max(at(one.low, axis), at(other.low, axis));
    const to = Math.min(at(one.high, axis), at(other.high, axis));
    return [{ axis, through, from, to }];
  });
}

const within = (solid: Solid, axis: number, value: number): boolean =>
  at(solid.low, axis) < value && value < at(solid.high, axis);

function tracesOf(traces: readonly Trace[], shaped: readonly Shaped[], gaze: Gaze): Segment[] {
  const solids = shaped.map(({ solid }) => solid);
  const lines = new PaperLines(gaze);
  for (const { axis, from, to } of traces) {
    const index = AXES.indexOf(axis);
    const ends = [from[axis], to] as const;
    draw(
      {
        axis: index,
        through: [from.x, from.y, from.z],
        from: Math.min(...ends),
        to: Math.max(...ends),
      },
      solids,
      gaze,
      lines,
    );
  }
  return lines.settle().visible;
}

/** Around all corners and all traces, whether they can be seen or not, so that it moves smoothly. */
function boundsOf(shaped: readonly Shaped[], traces: readonly Trace[], gaze: Gaze): Rectangle {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  const take = (point: Triple): void => {
    const [x, y] = paperOf(point, gaze);
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  };
  for (const { piece } of shaped) cornersOf(piece).forEach(take);
  for (const { axis, from, to } of traces) {
    const start: Triple = [from.x, from.y, from.z];
    take(start);
    take(replaced(start, AXES.indexOf(axis), to));
  }
  return { left, right, bottom, top };
}

const cornersOf = ({ from, to }: Box): Triple[] =>
  [from.x, to.x].flatMap((x) =>
    [from.y, to.y].flatMap((y) => [from.z, to.z].map((z): Triple => [x, y, z])),
  );
