import { gazeOf } from './eye.ts';
import { paperOf } from './paper-lines.ts';
import type { ParallelView, SeenFace, SeenPiece } from './parallel.ts';
import { AXES, type Axis } from './scene.ts';
import { grainOnShaped } from './shapes/shaped-grain.ts';
import type { Segment } from './views.ts';
import type { Outline } from './visible-face.ts';

/** Lines on the faces that can be seen, mm on the paper. */
export interface WoodGrain {
  /** Along the grain, on faces that it runs along. */
  readonly along: readonly Segment[];
  /** Growth rings on the ends it runs out of. */
  readonly rings: readonly Segment[];
  /** Where boards of a panel meet. */
  readonly joints: readonly Segment[];
}

/** Sizes in paper units: below them a line more would be a smudge. */
export const APART = 6.5;
const LEAST_WIDTH = 4.5;
export const MOST_LINES = 12;
const LEAST_BOARD = 7;
const RINGS_APART = 4;
const LEAST_END = 5;
const MOST_RINGS = 40;
/** A stroke, and the wood left bare after it; each up to twice as long. */
const STROKE = 46;
const BARE = 14;
/** Steps of the golden section: each new line falls in the widest space, and none that is there moves. */
export const GOLDEN = 0.618_033_988_75;

export type Spot = readonly [x: number, y: number];

/** A face as a plane on the paper: one corner, and its two sides as they are drawn. */
export interface Plane {
  readonly corner: Spot;
  readonly along: Spot;
  readonly across: Spot;
}

/**
 * The grain of all pieces whose rows say how it runs, cut off where something stands before it.
 * @param unit mm of the furniture for one paper unit
 */
export function woodGrain(view: ParallelView, unit: number): WoodGrain {
  const gaze = gazeOf(view.eye);
  const along: Segment[] = [];
  const rings: Segment[] = [];
  const joints: Segment[] = [];
  for (const seen of view.pieces) {
    const { grain } = seen.piece;
    if (grain === undefined) continue;
    for (const face of seen.faces) {
      if (face.facets !== undefined) {
        const shaped = grainOnShaped(seen, face.facets, gaze, unit);
        clipInto(along, shaped.along, face);
        clipInto(rings, shaped.rings, face);
        clipInto(joints, shaped.joints, face);
        continue;
      }
      const turned = seedOf(seen, face);
      if (face.axis === grain) {
        const [long, short] = sidesOf(seen, face);
        const plane = planeOf(seen, face, long, short, gaze);
        clipInto(rings, ringsOn(plane, lengthOf(seen, short), lengthOf(seen, long), unit), face);
      } else {
        const across = AXES.find((axis) => axis !== grain && axis !== face.axis) ?? 'y';
        const plane = planeOf(seen, face, grain, across, gaze);
        clipInto(along, linesOn(plane, turned, unit), face);
        if (across === widthAxis(seen)) clipInto(joints, jointsOn(plane, seen, unit), face);
      }
    }
  }
  return { along, rings, joints };
}

/** The axis of a panel's width: neither its grain nor its thickness. */
function widthAxis({ piece }: SeenPiece): Axis | undefined {
  const width = piece.part.width;
  return AXES.find(
    (axis) =>
      axis !== piece.grain && Math.abs(piece.to[axis] - piece.from[axis] - width) < 1e-6 * width,
  );
}

/** Tells faces apart, and stays while sizes change: a number from 0 to 1. */
function seedOf({ piece }: SeenPiece, { axis }: SeenFace): number {
  const mixed = (piece.part.at.row * 7 + piece.copy) * 3 + AXES.indexOf(axis) + 1;
  return (mixed * GOLDEN) % 1;
}

const lengthOf = ({ piece: { from, to } }: SeenPiece, axis: Axis): number => to[axis] - from[axis];

/** The sides of a face, the longer one first. */
function sidesOf(seen: SeenPiece, face: SeenFace): readonly [Axis, Axis] {
  const [a, b] = AXES.filter((axis) => axis !== face.axis);
  if (a === undefined || b === undefined) return ['x', 'y'];
  return lengthOf(seen, a) >= lengthOf(seen, b) ? [a, b] : [b, a];
}

function planeOf(
  seen: SeenPiece,
  face: SeenFace,
  along: Axis,
  across: Axis,
  gaze: ReturnType<typeof gazeOf>,
): Plane {
  const { from, to } = seen.piece;
  const front = (gaze.toEye[AXES.indexOf(face.axis)] ?? 0) >= 0 ? to : from;
  const corner = AXES.map((axis) => (axis === face.axis ? front[axis] : from[axis]));
  const side = (wanted: Axis): Spot =>
    paperOf(
      AXES.map((axis) => (axis === wanted ? to[axis] - from[axis] : 0)),
      gaze,
    );
  return { corner: paperOf(corner, gaze), along: side(along), across: side(across) };
}

const spot = ({ corner, along, across }: Plane, a: number, b: number): Spot => [
  corner[0] + a * along[0] + b * across[0],
  corner[1] + a * along[1] + b * across[1],
];

const line = (from: Spot, to: Spot): Segment => ({
  x1: from[0],
  y1: from[1],
  x2: to[0],
  y2: to[1],
});

/** How wide a face is drawn, square to its grain; and how long. Paper units. */
export function drawnSize({ along, across }: Plane, unit: number): { wide: number; long: number } {
  const length = Math.hypot(...along);
  const area = Math.abs(along[0] * across[1] - along[1] * across[0]);
  return { wide: length === 0 ? 0 : area / length / unit, long: length / unit };
}

export function linesOn(plane: Plane, seed: number, unit: number): Segment[] {
  const { wide, long } = drawnSize(plane, unit);
  if (wide < LEAST_WIDTH || long < LEAST_WIDTH) return [];
  const count = Math.max(1, Math.min(MOST_LINES, Math.floor(wide / APART) - 1));
  const lines: Segment[] = [];
  for (let k = 0; k < count; k++) {
    const over = 0.1 + 0.8 * ((seed + (k + 1) * GOLDEN) % 1);
    lines.push(...strokesOn(plane, over, (seed * 31 + k * 17 * GOLDEN) % 1, long));
  }
  return lines;
}

/** One line along a plane in strokes, `over` being how far across it runs. @param long in paper units */
export function strokesOn(plane: Plane, over: number, seed: number, long: number): Segment[] {
  const lines: Segment[] = [];
  let turn = seed;
  let at = turn * BARE;
  while (at < long) {
    const end = Math.min(long, at + STROKE * (1 + turn));
    if (end - at > 3) lines.push(line(spot(plane, at / long, over), spot(plane, end / long, over)));
    turn = (turn + GOLDEN) % 1;
    at = end + BARE * (1 + turn);
  }
  return lines;
}

export function jointsOn(plane: Plane, { piece: { part } }: SeenPiece, unit: number): Segment[] {
  const count = part.panelBoards?.count ?? 1;
  if (count < 2 || drawnSize(plane, unit).wide / count < LEAST_BOARD) return [];
  return Array.from({ length: count - 1 }, (_, k) => {
    const over = (k + 1) / count;
    return line(spot(plane, 0, over), spot(plane, 1, over));
  });
}

/**
 * Growth rings around a pith that lies a little under the end: circles of the end's own plane, so
 * that they are foreshortened as it is. `tall` and `wide` in mm; each ring in short straight pieces.
 */
export function ringsOn(plane: Plane, tall: number, wide: number, unit: number): Segment[] {
  const { wide: drawnTall, long: drawnWide } = drawnSize(plane, unit);
  if (drawnTall < LEAST_END || drawnWide < LEAST_END) return [];
  const under = 0.4 * tall;
  const farthest = Math.hypot(wide / 2, tall + under);
  const scale = drawnWide / wide;
  const step = Math.max(RINGS_APART / scale, farthest / MOST_RINGS);
  const rings: Segment[] = [];
  for (let radius = under + step * 0.6; radius < farthest; radius += step) {
    const low = Math.asin(Math.min(1, under / radius));
    const high = Math.asin(Math.min(1, (under + tall) / radius));
    const pieces = Math.max(2, Math.min(6, Math.ceil(((high - low) * radius * scale) / 6)));
    for (const side of [-1, 1]) {
      const on = (k: number): Spot => {
        const angle = low + ((high - low) * k) / pieces;
        const a = 0.5 + (side * radius * Math.cos(angle)) / wide;
        return spot(plane, a, (radius * Math.sin(angle) - under) / tall);
      };
      for (let k = 0; k < pieces; k++) rings.push(line(on(k), on(k + 1)));
    }
  }
  return rings;
}

function clipInto(into: Segment[], lines: readonly Segment[], { outlines }: SeenFace): void {
  for (const outline of outlines) {
    const turning = areaOf(outline) < 0 ? -1 : 1;
    for (const one of lines) {
      const kept = within(one, outline, turning);
      if (kept !== undefined) into.push(kept);
    }
  }
}

/** Twice would do as well: the sign is the sense the corners turn in, the size is mm². */
export function areaOf(outline: Outline): number {
  let sum = 0;
  let before = outline[outline.length - 1];
  for (let i = 0; i < outline.length; i++) {
    const spot = outline[i] as Outline[number];
    if (before !== undefined) sum += before[0] * spot[1] - before[1] * spot[0];
    before = spot;
  }
  return sum / 2;
}

/** Stretches shorter than this are not drawn, mm. */
const SPECK = 1e-3;

/** What of a line lies in a convex outline. */
function within(one: Segment, outline: Outline, turning: number): Segment | undefined {
  const [dx, dy] = [one.x2 - one.x1, one.y2 - one.y1];
  let [from, to] = [0, 1];
  let [px, py] = outline.at(-1) ?? [0, 0];
  for (const [x, y] of outline) {
    const [ex, ey] = [x - px, y - py];
    // Inside is to the left of each side where the corners turn to the left.
    const start = turning * (ex * (one.y1 - py) - ey * (one.x1 - px));
    const rate = turning * (ex * dy - ey * dx);
    if (rate > 0) from = Math.max(from, -start / rate);
    else if (rate < 0) to = Math.min(to, -start / rate);
    else if (start < 0) return undefined;
    if (from >= to) return undefined;
    [px, py] = [x, y];
  }
  if ((to - from) * Math.hypot(dx, dy) < SPECK) return undefined;
  return {
    x1: one.x1 + from * dx,
    y1: one.y1 + from * dy,
    x2: one.x1 + to * dx,
    y2: one.y1 + to * dy,
  };
}
