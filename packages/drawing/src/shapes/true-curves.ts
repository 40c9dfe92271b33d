import { type Eye, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { Piece } from '../scene.ts';
import type { Segment } from '../views.ts';
import { type Conic, ellipseThrough, paramOf } from './ellipse.ts';
import { ON, Places } from './places.ts';

type Spot = readonly [number, number];

/** A part of a circle or an ellipse, or all of it; mm on the paper. */
export interface Curve extends Conic {
  /** Where it begins and ends, radians from the major axis, anticlockwise; 0 to 2π where it is closed. */
  readonly from: number;
  readonly to: number;
}

/** Lines of a view with what stands for curves told as curves. */
export interface TrueLines {
  readonly lines: readonly Segment[];
  readonly curves: readonly Curve[];
}

/** Corners of facets lie on the true curve but for rounding; farther from it is another curve, mm. */
const OFF = 2e-5;
/** A curve turns by less than this from one chord to the next: a full turn has at least twelve. */
const BEND = (40 * Math.PI) / 180;
/** So many corners on one circle, or on one ellipse, are no accident. */
const ON_CIRCLE = 4;
const ON_ELLIPSE = 6;

/** The corners of all curved facets as a view shows them: they lie on the true curves. */
export function cornersOnCurves(pieces: readonly Piece[], eye: Eye): Spot[] {
  const gaze = gazeOf(eye);
  return pieces.flatMap(({ solid }) =>
    (solid?.facets ?? []).flatMap(({ curved, points }) =>
      curved ? points.map((point) => paperOf(point, gaze)) : [],
    ),
  );
}

/** Finds chords that follow each other on circles and ellipses, and tells them as those. */
export function trueLines(segments: readonly Segment[], onCurves: readonly Spot[]): TrueLines {
  if (onCurves.length === 0) return { lines: segments, curves: [] };
  const known = new Places(onCurves);
  const lines: Segment[] = [];
  const curves: Curve[] = [];
  for (const chain of chainsOf(segments, known)) fit(chain, known, lines, curves);
  return { lines, curves };
}

/** Lines that go on from end to end without a corner, where the end is one of a curved facet. */
function chainsOf(segments: readonly Segment[], onCurves: Places): Spot[][] {
  const ends = new Places([]);
  const at = new Map<Spot, { to: Spot; index: number }[]>();
  const note = (from: Spot, to: Spot, index: number): void => {
    const list = at.get(from);
    if (list === undefined) at.set(from, [{ to, index }]);
    else list.push({ to, index });
  };
  const placeOf = (x: number, y: number): Spot => ends.add([x, y]);
  const sides = segments.map(({ x1, y1, x2, y2 }) => [placeOf(x1, y1), placeOf(x2, y2)] as const);
  for (const [index, [from, to]] of sides.entries()) {
    note(from, to, index);
    note(to, from, index);
  }
  const used = new Set<number>();
  const goOn = (chain: Spot[]): void => {
    for (;;) {
      const [before, last] = [chain.at(-2), chain.at(-1)];
      if (before === undefined || last === undefined || !onCurves.has(last)) return;
      const next = (at.get(last) ?? [])
        .filter(({ to, index }) => !used.has(index) && turnAt(before, last, to) < BEND)
        .sort((a, b) => unlike(before, last, a.to) - unlike(before, last, b.to));
      const [best] = next;
      if (best === undefined) return;
      used.add(best.index);
      chain.push(best.to);
    }
  };
  return sides.flatMap(([from, to], index) => {
    if (used.has(index)) return [];
    used.add(index);
    const chain = [from, to];
    goOn(chain);
    chain.reverse();
    goOn(chain);
    return [chain];
  });
}

/** Of two lines that both go on, as where the side of round stuff leaves its rim, the curve's own chords are about as long. */
const unlike = (a: Spot, b: Spot, c: Spot): number =>
  turnAt(a, b, c) +
  Math.abs(Math.log(Math.hypot(c[0] - b[0], c[1] - b[1]) / Math.hypot(b[0] - a[0], b[1] - a[1])));

/** How far a way turns aside at a corner, radians. */
function turnAt([ax, ay]: Spot, [bx, by]: Spot, [cx, cy]: Spot): number {
  const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - bx, cy - by];
  return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
}

/** Takes the longest circle or ellipse from each corner on; what lies on none stays lines. */
function fit(chain: Spot[], onCurves: Places, lines: Segment[], curves: Curve[]): void {
  const points = fromABreak(chain);
  let start = 0;
  while (start < points.length - 1) {
    const found = longest(points, start, onCurves);
    if (found === undefined) {
      const [[x1, y1], [x2, y2]] = [points[start] as Spot, points[start + 1] as Spot];
      lines.push({ x1, y1, x2, y2 });
      start += 1;
    } else {
      curves.push(rounded(curveAlong(found.conic, points.slice(start, found.end + 1))));
      start = found.end;
    }
  }
}

/** A closed chain begins where its longest side ends: most likely a straight one. */
function fromABreak(chain: Spot[]): Spot[] {
  const [first, last] = [chain[0], chain.at(-1)];
  if (first !== last || chain.length < 4) return chain;
  const open = chain.slice(1);
  let [place, longestSide] = [0, -1];
  for (const [index, [x, y]] of open.entries()) {
    const [px, py] = open[(index + open.length - 1) % open.length] as Spot;
    const side = Math.hypot(x - px, y - py);
    if (side > longestSide + ON) [place, longestSide] = [index, side];
  }
  const turned = [...open.slice(place), ...open.slice(0, place)];
  return [...turned, turned[0] as Spot];
}

interface Found {
  readonly conic: Conic;
  readonly end: number;
}

/** Through four corners that lie alike to both sides there is always a circle: fewer than five are to sweep this. */
const LEAST_SWEEP = 1;

function longest(points: readonly Spot[], start: number, onCurves: Places): Found | undefined {
  const circle = grown(points, start, onCurves, ON_CIRCLE, circleThrough);
  const ellipse = grown(points, start, onCurves, ON_ELLIPSE, ellipseThrough);
  if (circle === undefined) return ellipse;
  if (ellipse !== undefined && ellipse.end > circle.end + 1) return ellipse;
  const run = points.slice(start, circle.end + 1);
  const { from, to } = curveAlong(circle.conic, run);
  return run.length > ON_CIRCLE || to - from > LEAST_SWEEP ? circle : undefined;
}

/**
 * The longest run of corners from a place on that lies on one conic. A chord cut off by what stands before it ends
 * beside the curve: at the first and the last corner that much is let pass.
 */
function grown(
  points: readonly Spot[],
  start: number,
  onCurves: Places,
  least: number,
  through: (spots: readonly Spot[]) => Conic | undefined,
): Found | undefined {
  const first = onCurves.has(points[start] as Spot) ? start : start + 1;
  const probe = points.slice(first, first + least);
  if (probe.length < least || !probe.every((spot) => onCurves.has(spot))) return undefined;
  let conic = through(probe);
  if (conic === undefined || !probe.every((spot) => awayFrom(conic as Conic, spot) < OFF)) {
    return undefined;
  }
  let step = stepOf(conic, probe);
  if (step > BEND) return undefined;
  let end = first + least - 1;
  while (end + 1 < points.length) {
    const next = points[end + 1] as Spot;
    const chord = [points[end] as Spot, next];
    if (awayFrom(conic, next) > OFF || stepOf(conic, chord) > 1.5 * step + 1e-6) break;
    end += 1;
    // Taken through corners far apart, it is the more exact.
    const better = through(spread(points.slice(first, end + 1), Math.max(least, 8)));
    if (better !== undefined && end - first < 200) conic = better;
    step = Math.max(step, stepOf(conic, chord));
  }
  // What is left of a chord at either end runs on towards the next corner of the curve.
  const isCutChord = (spot: Spot | undefined, corner: Spot): boolean =>
    spot !== undefined &&
    !onCurves.has(spot) &&
    awayFrom(conic as Conic, spot) < CUT &&
    stepOf(conic as Conic, [corner, spot]) <= step + 1e-6;
  if (first !== start && !isCutChord(points[start], points[first] as Spot)) return undefined;
  if (isCutChord(points[end + 1], points[end] as Spot)) end += 1;
  return { conic, end };
}

/** How far from a curve a chord of it may lie, mm: see `Faceting`; of large ones, whose facets are the most there are. */
const CUT = 0.3;

const spread = (spots: readonly Spot[], count: number): Spot[] =>
  spots.length <= count
    ? [...spots]
    : Array.from(
        { length: count },
        (_, k) =>
          spots[Math.floor((k * (spots.length - (isClosed(spots) ? 2 : 1))) / (count - 1))] as Spot,
      );

const isClosed = (spots: readonly Spot[]): boolean => spots[0] === spots.at(-1);

/** The largest step around from one spot to the next, radians. */
function stepOf(conic: Conic, spots: readonly Spot[]): number {
  let most = 0;
  for (let i = 1; i < spots.length; i++) {
    const step = Math.abs(paramOf(conic, spots[i] as Spot) - paramOf(conic, spots[i - 1] as Spot));
    most = Math.max(most, Math.min(step, 2 * Math.PI - step));
  }
  return most;
}

/** How far a spot lies from a curve, about, mm. */
function awayFrom(conic: Conic, spot: Spot): number {
  const { x, y, major, minor, turn } = conic;
  const [dx, dy] = [spot[0] - x, spot[1] - y];
  const u = (dx * Math.cos(turn) + dy * Math.sin(turn)) / major;
  const v = (dy * Math.cos(turn) - dx * Math.sin(turn)) / minor;
  return Math.abs(Math.hypot(u, v) - 1) * minor;
}

function circleThrough(spots: readonly Spot[]): Conic | undefined {
  const [a, b, c] = [spots[0], spots[Math.floor(spots.length / 2)], spots.at(-1)];
  if (a === undefined || b === undefined || c === undefined) return undefined;
  const [bx, by, cx, cy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
  const twice = 2 * (bx * cy - by * cx);
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  if (Math.abs(twice) < 1e-9 * Math.max(bb, cc)) return undefined;
  const x = (cy * bb - by * cc) / twice;
  const y = (bx * cc - cx * bb) / twice;
  const radius = Math.hypot(x, y);
  return { x: a[0] + x, y: a[1] + y, major: radius, minor: radius, turn: 0 };
}

/** An edge rounded over along a curve is a hair wider than high, as its facets are chords; mm. */
const ROUND = 0.01;

/** What is as good as a circle as one, its angles from the right. */
function rounded(curve: Curve): Curve {
  const { major, minor, turn, from, to } = curve;
  if (major - minor > ROUND) return curve;
  const radius = (major + minor) / 2;
  const isWhole = to - from >= 2 * Math.PI;
  const by = isWhole ? 0 : turn;
  return { ...curve, major: radius, minor: radius, turn: 0, from: from + by, to: to + by };
}

/** The part of a conic that spots in order run along. */
function curveAlong(conic: Conic, spots: readonly Spot[]): Curve {
  const params = spots.map((spot) => paramOf(conic, spot));
  let swept = 0;
  for (let i = 1; i < params.length; i++) {
    const step = (params[i] as number) - (params[i - 1] as number);
    swept += step - 2 * Math.PI * Math.round(step / (2 * Math.PI));
  }
  if (Math.abs(swept) > 2 * Math.PI - 1e-6) return { ...conic, from: 0, to: 2 * Math.PI };
  const [first, last] = [params[0] as number, params.at(-1) as number];
  return swept > 0
    ? { ...conic, from: first, to: first + swept }
    : { ...conic, from: last, to: last - swept };
}
