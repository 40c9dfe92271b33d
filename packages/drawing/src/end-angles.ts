import type { Triple } from '@kerfbook/solids';
import type { Callout } from './callouts.ts';
import { cutAngles } from './cut-angles.ts';
import { gazeOf } from './eye.ts';
import { paperOf } from './paper-lines.ts';
import type { Piece } from './scene.ts';
import { SQUARE_ON } from './shapes/square-on.ts';
import type { View } from './views.ts';

/** An end turned away from square by less than this is sawn square, and by more it is no end: degrees. */
const SLANT = [0.5, 59] as const;
/** Square to a line of sight, or along it, but for rounding. */
const FLAT = 1e-6;
/** An end takes more of its piece's width than this; what takes less is a chamfer or the side of a cut. */
const MOST_OF_WIDTH = 0.6;

/** An end of a piece that is not sawn square. */
interface SlantedEnd {
  readonly normal: Triple;
  readonly points: readonly Triple[];
}

/**
 * The angles of sawn ends. One that a view shows in its true size stands between end and side, as 83.5°; how the saw
 * is set for one that slants both ways, which no view shows, is told beside the end.
 */
export function anglesOfEnds(piece: Piece, view: View): readonly Callout[] {
  const { stands } = piece;
  if (stands === undefined) return [];
  const gaze = gazeOf(SQUARE_ON[view]);
  const length = stands.axes[0];
  const isLevel = Math.abs(dot(length, gaze.toEye)) < FLAT;
  const { name } = piece.part;
  return slantedEnds(piece, length).flatMap((end): Callout[] => {
    const sign = dot(end.normal, length) > 0 ? 1 : -1;
    const tip = farthest(end.points, length, sign);
    const at = paperOf(tip, gaze);
    if (!isLevel || Math.abs(dot(end.normal, gaze.toEye)) > FLAT) {
      const isCompound = stands.axes
        .slice(1)
        .every((axis) => Math.abs(dot(end.normal, axis)) > FLAT);
      const [first] = isCompound && view !== 'plan' ? cutAngles(piece.part) : [];
      if (first === undefined) return [];
      const way = paperOf(length, gaze)[0] * sign > 0 ? ([1, 0] as const) : ([-1, 0] as const);
      return [{ key: `${name} cut ends`, says: () => first.says, at, way, isAngle: false }];
    }
    const root = farthest(end.points, length, -sign);
    const [x, y] = paperOf(root, gaze);
    const along = Math.hypot(x - at[0], y - at[1]);
    if (along < FLAT) return [];
    const side = paperOf(length, gaze);
    const degrees = Math.round((90 - slantOf(end.normal, length)) * 10) / 10;
    return [
      {
        key: `${name} end ${degrees}`,
        says: () => `${degrees}°`,
        at,
        way: [(x - at[0]) / along, (y - at[1]) / along],
        base: [-sign * side[0], -sign * side[1]],
        isAngle: true,
      },
    ];
  });
}

function slantedEnds({ solid, stands }: Piece, length: Triple): readonly SlantedEnd[] {
  if (solid === undefined || stands === undefined) return [];
  const bySurface = new Map<number, { normal: Triple; points: Triple[] }>();
  for (const { surface, curved, normal, points } of solid.facets) {
    const slant = slantOf(normal, length);
    if (curved || slant < SLANT[0] || slant > SLANT[1]) continue;
    const end = bySurface.get(surface);
    if (end === undefined) bySurface.set(surface, { normal, points: [...points] });
    else end.points.push(...points);
  }
  if (bySurface.size === 0) return [];
  const all = solid.facets.flatMap(({ points }) => points);
  const across = stands.axes.slice(1);
  return [...bySurface.values()].filter(({ points }) =>
    across.every((axis) => extent(points, axis) > MOST_OF_WIDTH * extent(all, axis)),
  );
}

/** Degrees between a direction of length 1 and a line. */
const slantOf = (normal: Triple, line: Triple): number =>
  (Math.acos(Math.min(1, Math.abs(dot(normal, line)))) * 180) / Math.PI;

const farthest = (points: readonly Triple[], along: Triple, sign: number): Triple =>
  points.reduce((best, point) =>
    sign * (dot(point, along) - dot(best, along)) > FLAT ? point : best,
  );

function extent(points: readonly Triple[], axis: Triple): number {
  const along = points.map((point) => dot(point, axis));
  return Math.max(...along) - Math.min(...along);
}

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
