import { sharedRooms } from '@kerfbook/solids';
import { alongAxes, listed, looseBlocks } from '@kerfbook/wood';
import { type Meeting, meetingsOf } from './meetings.ts';
import type { Part } from './parts.ts';
import type { PartProblem } from './parts-source.ts';
import { AXES, type Axis, type Piece, type Point, type Scene } from './scene.ts';
import { solidOf as shapeOf } from './shapes/scene-solids.ts';
import { solidOf } from './solid.ts';
import { type Format, TOLERANCE } from './units.ts';

/** How parts that run into each other or float are looked for. */
export interface ClashOptions {
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** Pieces that reach into each other, or stand apart, by no more than this touch, mm; 0.1 where left out. */
  readonly tolerance?: number;
}

/** Pieces of two parts that take up the same room. */
export interface Overlap extends PartProblem {
  /** The part that is told; its row comes later in the table than that of `other`. */
  readonly part: Part;
  /** The part it runs into; the same part where two of its own copies meet. */
  readonly other: Part;
  /** How many pairs of pieces do so. */
  readonly pairs: number;
  /** The room shared by the pair that shares most, along x, y and z, mm. */
  readonly size: Point;
}

/** Pieces that nothing holds. */
export interface Floating extends PartProblem {
  /** Every part of the group that hangs together and that nothing holds. */
  readonly parts: readonly Part[];
}

/** What {@link findClashes} found. */
export interface Clashes {
  /** Each pair of rows once. */
  readonly overlaps: readonly Overlap[];
  /** Each group of pieces that hangs together once; none where all is held. */
  readonly floating: readonly Floating[];
}

/**
 * Parts that run into each other and parts that float. Neither stops a drawing: a tenon runs into
 * the piece that holds its mortise, so an overlap is a note with its size. Each pair of rows is
 * told once, at the cell of the later one.
 */
export function findClashes(
  scene: Scene,
  { format, tolerance = TOLERANCE }: ClashOptions,
): Clashes {
  const meetings = meetingsOf(scene.pieces, tolerance);
  return {
    overlaps: overlapsOf(scene, meetings, tolerance, format),
    floating: floatingOf(scene, meetings, tolerance),
  };
}

interface Tally {
  readonly part: Part;
  readonly other: Part;
  pairs: number;
  size: Point;
}

function overlapsOf(
  { pieces }: Scene,
  meetings: readonly Meeting[],
  tolerance: number,
  format: Format,
): Overlap[] {
  const tallies = new Map<Part, Map<Part, Tally>>();
  for (const meeting of meetings) {
    const [one, two] = [pieces[meeting.first], pieces[meeting.second]];
    if (one === undefined || two === undefined || oneOnTop(one, two)) continue;
    const reach = meeting.shaped ? roomShared(one, two, tolerance) : meeting.reach;
    if (reach === undefined || AXES.some((axis) => reach[axis] <= tolerance)) continue;
    const [other, part] =
      one.part.at.row <= two.part.at.row ? [one.part, two.part] : [two.part, one.part];
    const known = tallies.get(part) ?? new Map<Part, Tally>();
    tallies.set(part, known);
    const tally = known.get(other) ?? { part, other, pairs: 0, size: reach };
    known.set(other, tally);
    tally.pairs += 1;
    if (volume(reach) > volume(tally.size)) tally.size = reach;
  }
  return [...tallies.values()].flatMap((byOther) =>
    [...byOther.values()].map((tally) => ({
      ...tally,
      at: tally.part.at,
      says: overlapSays(tally, format),
    })),
  );
}

/** What the largest room that two pieces share measures along the axes; undefined where they share none. */
function roomShared(one: Piece, two: Piece, tolerance: number): Point | undefined {
  const [room] = sharedRooms(shapeOf(one), shapeOf(two), tolerance).rooms;
  if (room === undefined) return undefined;
  const [x, y, z] = [0, 1, 2].map((k) => (room.bounds.high[k] ?? 0) - (room.bounds.low[k] ?? 0));
  return { x: x ?? 0, y: y ?? 0, z: z ?? 0 };
}

/** Copies without a step are all in one place; the scene itself says so. */
const oneOnTop = (one: Piece, two: Piece): boolean =>
  one.part === two.part && AXES.every((axis) => one.from[axis] === two.from[axis]);

const volume = ({ x, y, z }: Point): number => x * y * z;

function overlapSays(tally: Tally, format: Format): string {
  const { part, other, pairs, size } = tally;
  const room = AXES.map((axis: Axis) => size[axis])
    .sort((a, b) => a - b)
    .map(format)
    .join(' × ');
  const times = pairs === 1 ? '' : ` in ${pairs} places`;
  if (part === other) {
    return `Pieces of ${part.name} share ${room}${times}; make the step from one to the next larger.`;
  }
  const most = pairs === 1 ? '' : 'up to ';
  const shares = `${part.name} and ${other.name} share ${most}${room}${times}`;
  const fallen = onTheFloor(tally);
  if (fallen !== undefined) {
    const [low, legs] = fallen;
    return `${shares}. ${low.name} lies on the floor: write "on ${legs.name}" as its place, or its height under z.`;
  }
  return `${shares}; that is right for a joint such as a tenon in its mortise, otherwise move one of them.`;
}

/** The part that lies on the floor within four legs that stand at its corners, and those; undefined for any other pair. */
function onTheFloor({ part, other, pairs, size }: Tally): readonly [Part, Part] | undefined {
  const floor = (one: Part): boolean => one.placing?.lines[2].start === 0;
  if (pairs !== 4 || !floor(part) || !floor(other)) return undefined;
  return (
    [
      [part, other],
      [other, part],
    ] as const
  ).find(([low, legs]) => {
    const { turn, lines, together } = legs.placing ?? {};
    if (turn?.[2] !== 'L' || together || low.count !== 1) return false;
    const [along, across] = alongAxes(turn, legs);
    const isWithin = size.x > along - TOLERANCE && size.y > across - TOLERANCE;
    return isWithin && lines?.[0].count === 2 && lines[1].count === 2;
  });
}

/** Groups of pieces that hang together and reach neither the floor nor the largest group. */
function floatingOf(
  { pieces }: Scene,
  meetings: readonly Meeting[],
  tolerance: number,
): Floating[] {
  const met = meetings.map(({ first, second, reach: { x, y, z } }) => ({
    first,
    second,
    reach: [x, y, z] as const,
  }));
  return looseBlocks(pieces.map(solidOf), met, tolerance).map((indexes) =>
    floatingGroup(indexes.flatMap((index) => pieces[index] ?? [])),
  );
}

function floatingGroup(pieces: readonly Piece[]): Floating {
  const parts = [...new Set(pieces.map(({ part }) => part))].sort((a, b) => a.at.row - b.at.row);
  const [first] = parts;
  if (first === undefined) throw new Error('a group of pieces has a part');
  const names = parts.map(({ name }) => name);
  const says =
    pieces.length === 1
      ? `${first.name} touches neither the floor nor another part; check its x, y and z.`
      : `${namesOf(names)} touch neither the floor nor the rest; check x, y and z.`;
  return { parts, at: first.at, says };
}

const MOST_NAMED = 4;

function namesOf(names: readonly string[]): string {
  if (names.length === 1) return `Pieces of ${names[0]}`;
  if (names.length > MOST_NAMED) {
    return `${names.slice(0, MOST_NAMED - 1).join(', ')} and ${names.length - MOST_NAMED + 1} other parts`;
  }
  return listed(names);
}
