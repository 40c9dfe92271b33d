import { followedBy, movedBy, placed, type Triple } from '@kerfbook/solids';
import { type Meeting, meetingsOf, type Parting, partingOf } from './meetings.ts';
import type { Trace } from './parallel.ts';
import { AXES, type Axis, around, type Piece, type Point, type Scene } from './scene.ts';

/** A scene moved apart by {@link explode}. */
export interface Exploded {
  /** The pieces moved apart; everything else is the scene's own. */
  readonly scene: Scene;
  /** From where two pieces meet on the one to the same place on the other, along the axes. */
  readonly traces: readonly Trace[];
}

/** Pieces up to this far apart are taken to meet, mm: a hair's breadth. */
const GAP = 0.1;
/** How far two pieces that meet are moved apart, as a share of the longest side of the whole. */
const SHARE = 0.2;
/** Two pieces that meet, and how they come apart. */
type Joint = Meeting & Parting;
/** Rounds in which pieces that are free along an axis follow those they meet. */
const ROUNDS = 8;

/**
 * Moves the pieces of a scene apart from the middle along the axes. Two that meet are parted along
 * the axis on which they meet; along the others a piece goes with those that it meets, so that a
 * base stays together under its top. `apart` is in mm; a fifth of the longest side where left out.
 */
export function explode(scene: Scene, apart?: number): Exploded {
  const { pieces, extents } = scene;
  if (extents === undefined) return { scene, traces: [] };
  const longest = Math.max(...AXES.map((axis) => extents.to[axis] - extents.from[axis]));
  const step = apart ?? SHARE * longest;
  // Where two meet in a line or a point only, neither keeps the other in its place.
  const meetings = meetingsOf(pieces, GAP)
    .filter(({ reach }) => AXES.filter((axis) => reach[axis] > GAP).length >= 2)
    .map((meeting): Joint => ({ ...meeting, ...partingOf(meeting, pieces, GAP) }));
  const levels = {
    x: levelsAlong('x', pieces, meetings, scene),
    y: levelsAlong('y', pieces, meetings, scene),
    z: levelsAlong('z', pieces, meetings, scene),
  };
  const shifts = pieces.map(
    (_, index): Point => ({
      x: (levels.x[index] ?? 0) * step,
      y: (levels.y[index] ?? 0) * step,
      z: (levels.z[index] ?? 0) * step,
    }),
  );
  const moved = pieces.map(
    (piece, index): Piece => ({
      ...piece,
      from: plus(piece.from, shifts[index]),
      to: plus(piece.to, shifts[index]),
      ...shapeMoved(piece, shifts[index]),
    }),
  );
  const bounds = around(moved);
  return {
    scene: { ...scene, pieces: moved, ...(bounds === undefined ? {} : { extents: bounds }) },
    traces: meetings.flatMap((meeting) => tracesOf(meeting, shifts)),
  };
}

function shapeMoved({ solid, stands }: Piece, by: Point = { x: 0, y: 0, z: 0 }): Partial<Piece> {
  if (solid === undefined) return {};
  const shift: Triple = [by.x, by.y, by.z];
  return {
    solid: placed(solid, movedBy(shift)),
    ...(stands === undefined ? {} : { stands: followedBy(stands, movedBy(shift)) }),
  };
}

const plus = (a: Point, b: Point = { x: 0, y: 0, z: 0 }): Point => ({
  x: a.x + b.x,
  y: a.y + b.y,
  z: a.z + b.z,
});

/** How many steps each piece goes along an axis, the middle of everything staying where it is. */
function levelsAlong(
  axis: Axis,
  pieces: readonly Piece[],
  meetings: readonly Joint[],
  { extents }: Scene,
): number[] {
  const parted = meetings.filter((meeting) => meeting.axis === axis);
  const below = longestChains(pieces, axis, parted, 'below');
  const above = longestChains(pieces, axis, parted, 'above');
  const fixed = new Set(parted.flatMap(({ first, second }) => [first, second]));
  const levels = pieces.map((piece, index) => {
    if (fixed.has(index)) return ((below[index] ?? 0) - (above[index] ?? 0)) / 2;
    return alone(piece, axis, extents);
  });
  followNeighbours(levels, fixed, meetings);
  return levels;
}

/** Between -1 and 1 by where a piece is: for pieces that meet no other. */
function alone({ from, to }: Piece, axis: Axis, extents: Scene['extents']): number {
  if (extents === undefined) return 0;
  const middle = (extents.from[axis] + extents.to[axis]) / 2;
  const half = (extents.to[axis] - extents.from[axis]) / 2;
  return ((from[axis] + to[axis]) / 2 - middle) / half;
}

function followNeighbours(
  levels: number[],
  fixed: ReadonlySet<number>,
  meetings: readonly Joint[],
): void {
  const neighbours = new Map<number, number[]>();
  for (const { first, second } of meetings) {
    neighbours.set(first, [...(neighbours.get(first) ?? []), second]);
    neighbours.set(second, [...(neighbours.get(second) ?? []), first]);
  }
  const free = [...neighbours].filter(([index]) => !fixed.has(index));
  const told = new Set(fixed);
  // Nothing is parted along this axis: all that hang together stay where they are.
  if (fixed.size === 0) for (const [index] of free) levels[index] = 0;
  for (let round = 0; round < ROUNDS; round++) {
    for (const [index, all] of free) {
      // Those that are parted along the axis lead; the others only pass on what they were told.
      const leading = all.filter((other) => fixed.has(other));
      const known = leading.length > 0 ? leading : all.filter((other) => told.has(other));
      if (known.length === 0) continue;
      const sum = known.reduce((total, other) => total + (levels[other] ?? 0), 0);
      levels[index] = sum / known.length;
      told.add(index);
    }
  }
}

/** The most pieces that have to come one after the other before (or behind) each piece. */
function longestChains(
  pieces: readonly Piece[],
  axis: Axis,
  parted: readonly Joint[],
  side: 'below' | 'above',
): number[] {
  const chain = pieces.map(() => 0);
  const sign = side === 'below' ? 1 : -1;
  const middle = (index: number): number => {
    const piece = pieces[index];
    return piece === undefined ? 0 : sign * (piece.from[axis] + piece.to[axis]);
  };
  // By middles, and by numbers where those are equal, no piece comes before itself: so each meeting
  // is looked at after those it needs.
  const ordered = parted
    .map(({ first, second, lower }) => {
      const higher = lower === first ? second : first;
      return side === 'below' ? ([lower, higher] as const) : ([higher, lower] as const);
    })
    .sort((a, b) => middle(a[0]) - middle(b[0]) || sign * (a[0] - b[0]));
  for (const [before, after] of ordered) {
    chain[after] = Math.max(chain[after] ?? 0, (chain[before] ?? 0) + 1);
  }
  return chain;
}

/**
 * One line from the piece that went farther, with a bend where the two did not go together: last
 * along the axis on which they meet, as the piece is put in its place.
 */
function tracesOf({ first, second, axis, middle }: Joint, shifts: readonly Point[]): Trace[] {
  const [far, near] = way(shifts[first]) >= way(shifts[second]) ? [first, second] : [second, first];
  const target = plus(middle, shifts[near]);
  let place = plus(middle, shifts[far]);
  const traces: Trace[] = [];
  for (const along of [...AXES.filter((name) => name !== axis), axis]) {
    if (Math.abs(target[along] - place[along]) > GAP) {
      traces.push({ axis: along, from: place, to: target[along] });
    }
    place = { ...place, [along]: target[along] };
  }
  return traces;
}

const way = (shift: Point = { x: 0, y: 0, z: 0 }): number => Math.hypot(shift.x, shift.y, shift.z);
