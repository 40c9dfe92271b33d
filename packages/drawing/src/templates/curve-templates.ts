import { type Facet, placed, type Solid, undone } from '@kerfbook/solids';
import { gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { Part } from '../parts.ts';
import type { Piece, Scene } from '../scene.ts';
import { ON, Places } from '../shapes/places.ts';
import { rimOf, silhouetteOf } from '../shapes/silhouette.ts';
import { SQUARE_ON } from '../shapes/square-on.ts';
import type { Rectangle, Segment } from '../views.ts';
import { areaOf } from '../wood-grain.ts';

type Spot = readonly [number, number];

/** How much of an outline is printed: what mirrors it is found by turning the template over. */
export type Printed = 'whole' | 'left half' | 'front half' | 'quarter';

/** The outline of a part with a curve, at true size. */
export interface CurveTemplate {
  /** The part, all of whose pieces have it. */
  readonly part: Part;
  /** How much of it there is. */
  readonly printed: Printed;
  /** Its lines, x along the length and y across the width, mm. */
  readonly outline: readonly Segment[];
  /** Lines about which it is turned over. */
  readonly centers: readonly Segment[];
  /** Around what is printed, mm. */
  readonly bounds: Rectangle;
  /** Corners that lie on the true curves: between them the lines are chords. */
  readonly onCurves: readonly Spot[];
}

/** With fewer corners on curves an outline is that of a rod seen from its side. */
const LEAST_CORNERS = 6;

/**
 * One template for each part whose face has a curve in its outline: a round top, an arch, a rounded corner. Seen
 * square to length and width, so that what is drawn is what is sawn.
 * @param room how large one sheet is, mm: what fits is printed whole
 */
export function curveTemplates(
  { pieces }: Scene,
  room: { readonly width: number; readonly height: number },
): CurveTemplate[] {
  const done = new Set<Part>();
  return pieces.flatMap((piece): CurveTemplate[] => {
    if (done.has(piece.part)) return [];
    done.add(piece.part);
    const own = inOwnFrame(piece);
    return own === undefined ? [] : (templateOf(piece.part, own, room) ?? []);
  });
}

function inOwnFrame({ solid, stands }: Piece): Solid | undefined {
  return solid === undefined || stands === undefined ? undefined : placed(solid, undone(stands));
}

function templateOf(
  part: Part,
  solid: Solid,
  room: { readonly width: number; readonly height: number },
): [CurveTemplate] | undefined {
  const gaze = gazeOf(SQUARE_ON.plan);
  const outline = rimOf(silhouetteOf(solid, gaze));
  const onCurves = solid.facets
    .filter(isWall)
    .flatMap(({ points }) => points.map((point) => paperOf(point, gaze)));
  const curves = new Places(onCurves);
  // A hole is bored with a bit; it is the outside that wants a template.
  const corners = new Set(
    loopsOf(outline)
      .filter((loop) => areaOf(loop) > 0)
      .flatMap((loop) => loop.flatMap((spot) => curves.find(spot) ?? [])),
  );
  if (corners.size < LEAST_CORNERS) return undefined;
  const whole = around(outline);
  const printed = printedOf(outline, whole, room);
  const bounds = partOf(printed, whole);
  return [
    {
      part,
      printed,
      outline: outline.flatMap((line) => within(line, bounds) ?? []),
      centers: centersOf(printed, bounds),
      bounds,
      onCurves,
    },
  ];
}

/** A curved facet that stands square on the face: its curve is in the outline. */
const isWall = ({ curved, normal }: Facet): boolean => curved && Math.abs(normal[2]) < 1e-6;

/** Closed loops of lines that follow each other from end to end. */
function loopsOf(lines: readonly Segment[]): Spot[][] {
  const ends = new Places([]);
  const next = new Map<Spot, Spot[]>();
  for (const { x1, y1, x2, y2 } of lines) {
    const from = ends.add([x1, y1]);
    const to = ends.add([x2, y2]);
    next.set(from, [...(next.get(from) ?? []), to]);
  }
  const loops: Spot[][] = [];
  for (const start of next.keys()) {
    const loop: Spot[] = [];
    for (let at = next.get(start)?.pop(); at !== undefined; at = next.get(at)?.pop()) loop.push(at);
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}

function around(lines: readonly Segment[]): Rectangle {
  const x = lines.flatMap(({ x1, x2 }) => [x1, x2]);
  const y = lines.flatMap(({ y1, y2 }) => [y1, y2]);
  return {
    left: Math.min(...x),
    right: Math.max(...x),
    bottom: Math.min(...y),
    top: Math.max(...y),
  };
}

/** What does not fit on one sheet is printed as far as nothing mirrors it. */
function printedOf(
  outline: readonly Segment[],
  { left, right, bottom, top }: Rectangle,
  room: { readonly width: number; readonly height: number },
): Printed {
  if (right - left <= room.width && top - bottom <= room.height) return 'whole';
  const isMirrored = (mirror: (spot: Spot) => Spot): boolean =>
    outline.every(({ x1, y1 }) => outline.some((line) => lies(mirror([x1, y1]), line)));
  const endToEnd = isMirrored(([x, y]) => [left + right - x, y]);
  const frontToBack = isMirrored(([x, y]) => [x, bottom + top - y]);
  if (endToEnd && frontToBack) return 'quarter';
  if (endToEnd) return 'left half';
  return frontToBack ? 'front half' : 'whole';
}

/** Whether a spot lies on a line; straight ones may be parted anywhere. */
function lies([x, y]: Spot, { x1, y1, x2, y2 }: Segment): boolean {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const along = ((x - x1) * dx + (y - y1) * dy) / (dx * dx + dy * dy);
  const share = Math.max(0, Math.min(1, along));
  return Math.hypot(x1 + share * dx - x, y1 + share * dy - y) < ON;
}

function partOf(printed: Printed, { left, right, bottom, top }: Rectangle): Rectangle {
  const [x, y] = [(left + right) / 2, (bottom + top) / 2];
  return {
    left,
    right: printed === 'left half' || printed === 'quarter' ? x : right,
    bottom,
    top: printed === 'front half' || printed === 'quarter' ? y : top,
  };
}

function centersOf(printed: Printed, { left, right, bottom, top }: Rectangle): Segment[] {
  const upright = { x1: right, y1: bottom, x2: right, y2: top };
  const level = { x1: left, y1: top, x2: right, y2: top };
  if (printed === 'quarter') return [upright, level];
  if (printed === 'left half') return [upright];
  return printed === 'front half' ? [level] : [];
}

/** What of a line lies in a rectangle, its rim included. */
export function within(line: Segment, room: Rectangle): Segment | undefined {
  const [dx, dy] = [line.x2 - line.x1, line.y2 - line.y1];
  let [from, to] = [0, 1];
  for (const [start, rate] of [
    [room.left - line.x1, dx],
    [room.bottom - line.y1, dy],
    [line.x1 - room.right, -dx],
    [line.y1 - room.top, -dy],
  ] as const) {
    if (rate > 0) from = Math.max(from, start / rate);
    else if (rate < 0) to = Math.min(to, start / rate);
    else if (start > ON) return undefined;
    if (to <= from) return undefined;
  }
  const x = (share: number): number => line.x1 + share * dx;
  const y = (share: number): number => line.y1 + share * dy;
  return { x1: x(from), y1: y(from), x2: x(to), y2: y(to) };
}
