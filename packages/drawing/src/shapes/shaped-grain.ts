import type { Facet, Triple } from '@kerfbook/solids';
import type { Gaze } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { SeenPiece } from '../parallel.ts';
import { AXES, type Piece } from '../scene.ts';
import {
  APART,
  drawnSize,
  GOLDEN,
  jointsOn,
  linesOn,
  MOST_LINES,
  type Plane,
  ringsOn,
  strokesOn,
  type WoodGrain,
} from '../wood-grain.ts';

/** Grain runs out of a face that looks along it by more than this: the cosine of 45°. */
const OUT = Math.SQRT1_2;
/** A face is turned away from the grain by less than this, and the grain runs along it: a sine. */
const ALONG = 1e-3;

/** The grain of a face of a shaped piece, over all of its surface: it is cut to what is seen of it. */
export function grainOnShaped(
  seen: SeenPiece,
  facets: readonly Facet[],
  gaze: Gaze,
  unit: number,
): WoodGrain {
  const [first] = facets;
  const ways = waysOf(seen.piece);
  const nothing = { along: [], rings: [], joints: [] };
  if (first === undefined || ways === undefined) return nothing;
  const { grain, width } = ways;
  const { surface, curved, normal } = first;
  const whole = (seen.piece.solid?.facets ?? []).filter((facet) => facet.surface === surface);
  const seed = seedOf(seen.piece, surface);
  if (curved) return { ...nothing, along: alongCurve(whole, facets, grain, gaze, unit, seed) };
  if (Math.abs(dot(normal, grain)) > OUT) {
    const across = unitOf(less(width, normal, dot(width, normal)));
    const plane = planeOf(whole, normal, across, gaze);
    const [long, short] = spans(whole, across, cross(normal, across));
    return { ...nothing, rings: ringsOn(plane, short, long, unit) };
  }
  const along = unitOf(less(grain, normal, dot(grain, normal)));
  const plane = planeOf(whole, normal, along, gaze);
  const isPanelFace = Math.abs(dot(cross(normal, along), width)) > 1 - ALONG;
  return {
    ...nothing,
    along: linesOn(plane, seed, unit),
    joints: isPanelFace ? jointsOn(plane, seen, unit) : [],
  };
}

/** Where its grain and its width run in the room. */
function waysOf({ part, grain, stands }: Piece): { grain: Triple; width: Triple } | undefined {
  if (stands !== undefined && part.grain !== undefined) {
    const [x, y] = stands.axes;
    return { grain: part.grain === 'length' ? x : y, width: part.grain === 'length' ? y : x };
  }
  if (grain === undefined) return undefined;
  const at = AXES.indexOf(grain);
  const axis = (k: number): Triple => [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
  return { grain: axis(at), width: axis((at + 1) % 3) };
}

/** Round stuff: lines along it, spread over its surface as it would be unrolled. */
function alongCurve(
  whole: readonly Facet[],
  shown: readonly Facet[],
  grain: Triple,
  gaze: Gaze,
  unit: number,
  seed: number,
): WoodGrain['along'] {
  if (whole.some(({ normal }) => Math.abs(dot(normal, grain)) > ALONG)) return [];
  const wide = whole.map((facet) => spans([facet], cross(facet.normal, grain), grain)[0]);
  const around = wide.reduce((sum, one) => sum + one, 0);
  const count = Math.min(2 * MOST_LINES, Math.floor(around / (unit * APART)));
  return Array.from({ length: count }, (_, k) => k).flatMap((k) => {
    let place = ((seed + (k + 1) * GOLDEN) % 1) * around;
    const index = wide.findIndex((one) => {
      place -= one;
      return place < 0;
    });
    const facet = whole[index];
    if (facet === undefined || !shown.includes(facet)) return [];
    const plane = planeOf([facet], facet.normal, grain, gaze);
    const { long } = drawnSize(plane, unit);
    const over = 1 + place / (wide[index] ?? 1);
    return strokesOn(plane, over, (seed * 31 + k * 17 * GOLDEN) % 1, long);
  });
}

/** The rectangle around facets of one plane, as the paper shows it. */
function planeOf(facets: readonly Facet[], normal: Triple, along: Triple, gaze: Gaze): Plane {
  const across = cross(normal, along);
  const [u0, u1] = rangeOf(facets, along);
  const [v0, v1] = rangeOf(facets, across);
  const offset = facets[0]?.offset ?? 0;
  const corner = [0, 1, 2].map(
    (k) => (normal[k] ?? 0) * offset + (along[k] ?? 0) * u0 + (across[k] ?? 0) * v0,
  );
  const side = (way: Triple, by: number): readonly [number, number] =>
    paperOf(
      way.map((part) => part * by),
      gaze,
    );
  return {
    corner: paperOf(corner, gaze),
    along: side(along, u1 - u0),
    across: side(across, v1 - v0),
  };
}

const spans = (facets: readonly Facet[], one: Triple, other: Triple): [number, number] => {
  const [a, b] = rangeOf(facets, one);
  const [c, d] = rangeOf(facets, other);
  return [b - a, d - c];
};

function rangeOf(facets: readonly Facet[], way: Triple): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const { points } of facets) {
    for (const point of points) {
      const at = dot(point, way);
      low = Math.min(low, at);
      high = Math.max(high, at);
    }
  }
  return [low, high];
}

/** Tells faces apart, and stays while sizes change: a number from 0 to 1. */
function seedOf({ part, copy }: Piece, surface: number): number {
  return (((part.at.row * 7 + copy) * 3 + surface + 1) * GOLDEN) % 1;
}

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const less = (a: Triple, b: Triple, share: number): Triple => [
  a[0] - share * b[0],
  a[1] - share * b[1],
  a[2] - share * b[2],
];
function unitOf(way: Triple): Triple {
  const length = Math.hypot(...way);
  return [way[0] / length, way[1] / length, way[2] / length];
}
