import type { Axis, Box, Piece, Scene } from './scene.ts';
import { hasSolids } from './shapes/scene-solids.ts';
import { projectSolids } from './shapes/square-on.ts';
import { mergeSpans, type Span, subtractSpans } from './spans.ts';
import type { Outline } from './visible-face.ts';

/**
 * `plan`: from above. `front`: along y, from the near long side. `end`: along x, from the right end.
 * In each the furniture's right and up are the paper's, so that plan and front share x and front
 * and end share z.
 */
export type View = 'plan' | 'front' | 'end';

interface Directions {
  readonly across: Axis;
  readonly up: Axis;
  readonly depth: Axis;
  /** 1: depth grows away from the eye; -1: towards it. */
  readonly sign: 1 | -1;
}

export const DIRECTIONS: Readonly<Record<View, Directions>> = {
  plan: { across: 'x', up: 'y', depth: 'z', sign: -1 },
  front: { across: 'x', up: 'z', depth: 'y', sign: 1 },
  end: { across: 'y', up: 'z', depth: 'x', sign: -1 },
};

/** mm on the paper at full size; `top` is above `bottom`. */
export interface Rectangle {
  /** Least of x. */
  readonly left: number;
  /** Most of x. */
  readonly right: number;
  /** Least of y. */
  readonly bottom: number;
  /** Most of y. */
  readonly top: number;
}

/** A piece as a view shows it. */
export interface ViewPiece extends Rectangle {
  /** The piece of the scene. */
  readonly piece: Piece;
  /** Depth of its nearer and its farther face, mm, growing away from the eye. */
  readonly near: number;
  /** Of the farther face, mm. */
  readonly far: number;
  /** Convex outlines that cover it together, where it is not the rectangle. */
  readonly outlines?: readonly Outline[];
}

/** A straight line on the paper, mm at full size, y upwards. */
export interface Segment {
  /** Where it begins, to the right. */
  readonly x1: number;
  /** Where it begins, upwards. */
  readonly y1: number;
  /** Where it ends, to the right. */
  readonly x2: number;
  /** Where it ends, upwards. */
  readonly y2: number;
}

/** A scene seen square on; mm on the paper at full size. */
export interface Projection {
  /** From where it is seen. */
  readonly view: View;
  /** Farthest first, in the order of painting. */
  readonly pieces: readonly ViewPiece[];
  /** Edges that can be seen, each stretch of a line once. */
  readonly visible: readonly Segment[];
  /** Edges behind other pieces, less what coincides with a visible one (ISO 128: visible wins). */
  readonly hidden: readonly Segment[];
  /** Around all pieces. */
  readonly bounds: Rectangle;
}

/**
 * Lines are compared in whole nanometres, so that two edges that meet are equal however their
 * positions were worked out, and the interval arithmetic is exact.
 */
const PER_MM = 1e6;
const snap = (mm: number): number => Math.round(mm * PER_MM);
const mmOf = (steps: number): number => steps / PER_MM;

interface Shape extends Rectangle {
  readonly near: number;
  readonly far: number;
}

/** The orthographic view of a scene; undefined when it has no pieces. */
export function project(scene: Scene, view: View): Projection | undefined {
  if (scene.extents === undefined) return undefined;
  if (hasSolids(scene)) return projectSolids(scene, view);
  const shaped = scene.pieces
    .map((piece) => ({ piece, shape: shapeOf(piece, view) }))
    .sort((a, b) => b.shape.near - a.shape.near);
  const { visible, hidden } = edgesOf(shaped.map(({ shape }) => shape));
  return {
    view,
    pieces: shaped.map(({ piece, shape }) => ({ piece, ...inMm(shape) })),
    visible,
    hidden,
    bounds: inMm(shapeOf(scene.extents, view)),
  };
}

function shapeOf(box: Box, view: View): Shape {
  const { across, up, depth, sign } = DIRECTIONS[view];
  const one = snap(sign * box.from[depth]);
  const other = snap(sign * box.to[depth]);
  return {
    left: snap(box.from[across]),
    right: snap(box.to[across]),
    bottom: snap(box.from[up]),
    top: snap(box.to[up]),
    near: Math.min(one, other),
    far: Math.max(one, other),
  };
}

function inMm(shape: Shape): Shape {
  return {
    left: mmOf(shape.left),
    right: mmOf(shape.right),
    bottom: mmOf(shape.bottom),
    top: mmOf(shape.top),
    near: mmOf(shape.near),
    far: mmOf(shape.far),
  };
}

type Line = { readonly visible: Span[]; readonly all: Span[] };

/**
 * The edges of boxes seen square on. A box's outline is its near face: its far edges lie behind
 * their own near ones, so they add nothing. A stretch of an edge is hidden where it runs inside the
 * rectangle of a box whose near face is nearer; on that rectangle's border the two lines coincide.
 */
function edgesOf(shapes: readonly Shape[]): { visible: Segment[]; hidden: Segment[] } {
  const level = new Map<number, Line>();
  const upright = new Map<number, Line>();
  for (const [index, shape] of shapes.entries()) {
    const { left, right, bottom, top } = shape;
    const gone = coverOf(shape, shapes, index + 1);
    note(level, bottom, [left, right], gone.bottom);
    note(level, top, [left, right], gone.top);
    note(upright, left, [bottom, top], gone.left);
    note(upright, right, [bottom, top], gone.right);
  }
  const levels = settle(level, (at, [from, to]) => ({ x1: from, y1: at, x2: to, y2: at }));
  const uprights = settle(upright, (at, [from, to]) => ({ x1: at, y1: from, x2: at, y2: to }));
  return {
    visible: [...levels.visible, ...uprights.visible],
    hidden: [...levels.hidden, ...uprights.hidden],
  };
}

type Sides = Readonly<Record<keyof Rectangle, Span[]>>;

/** What nearer boxes hide of each of a box's four edges; boxes come farthest first. */
function coverOf(shape: Shape, shapes: readonly Shape[], from: number): Sides {
  const { left, right, bottom, top, near } = shape;
  const gone: Sides = { left: [], right: [], bottom: [], top: [] };
  for (let index = from; index < shapes.length; index++) {
    const n = shapes[index];
    if (n === undefined || n.near >= near) continue;
    if (n.left >= right || n.right <= left || n.bottom >= top || n.top <= bottom) continue;
    if (n.bottom < bottom) gone.bottom.push([n.left, n.right]);
    if (n.top > top) gone.top.push([n.left, n.right]);
    if (n.left < left) gone.left.push([n.bottom, n.top]);
    if (n.right > right) gone.right.push([n.bottom, n.top]);
  }
  return gone;
}

function note(lines: Map<number, Line>, at: number, edge: Span, gone: readonly Span[]): void {
  let line = lines.get(at);
  if (line === undefined) {
    line = { visible: [], all: [] };
    lines.set(at, line);
  }
  line.all.push(edge);
  line.visible.push(...subtractSpans([edge], mergeSpans(gone)));
}

function settle(lines: ReadonlyMap<number, Line>, segment: (at: number, span: Span) => Segment) {
  const visible: Segment[] = [];
  const hidden: Segment[] = [];
  for (const [at, line] of [...lines].sort((a, b) => a[0] - b[0])) {
    const seen = mergeSpans(line.visible);
    const all = mergeSpans(line.all);
    const make = ([from, to]: Span): Segment => segment(mmOf(at), [mmOf(from), mmOf(to)]);
    visible.push(...seen.map(make));
    hidden.push(...subtractSpans(all, seen).map(make));
  }
  return { visible, hidden };
}
