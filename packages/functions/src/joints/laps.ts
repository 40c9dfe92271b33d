import { TOLERANCE } from '../shaped/tolerance.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import {
  AXIS_INDEXES,
  type AxisIndex,
  axesInFace,
  channelCut,
  extent,
  type Face,
  highOf,
  lowOf,
  type Meet,
  runOf,
  type Span,
  type Stand,
  sideOf,
  spanWith,
} from './stand.ts';
import { enteringOf } from './tenons.ts';
import { TAIL_SHARE, tailMark, usualPin, usualSlope, usualTails } from './usual.ts';
import type { Desk } from './work.ts';

/** The axis of the room along which neither piece is long: two that cross are halved along it. */
function halvedAlong({ a, b }: Meet): AxisIndex {
  const long = new Set([a.inRoom(0).room, b.inRoom(0).room]);
  // Of two in one line it is the thickness that is halved.
  if (long.size === 1) return a.inRoom(2).room;
  return AXIS_INDEXES.find((axis) => !long.has(axis)) ?? 2;
}

/** Half of each is cut away where they cross. */
export function halfLap(meet: Meet, joint: Joint, desk: Desk): void {
  const { a, b, room } = meet;
  const axis = halvedAlong(meet);
  const [low, high] = [lowOf(room, axis), highOf(room, axis)];
  const reaches = (span: Span, at: number, isHigh: boolean): boolean =>
    Math.abs((isHigh ? highOf(span, axis) : lowOf(span, axis)) - at) <= TOLERANCE;
  // One is open below and the other above; of two that are flush the part lies on top.
  const aBelow = reaches(a.room, low, false) && reaches(b.room, high, true);
  if (!aBelow && !(reaches(a.room, high, true) && reaches(b.room, low, false))) {
    desk.say(joint, JOINT_SAYS.noLap(a.name, b.name));
    return;
  }
  const whole = extent(room, axis);
  const depth = joint.depth ?? whole / 2;
  if (depth >= whole) {
    desk.say(joint, JOINT_SAYS.tooBig('depth', desk.format(depth), desk.format(whole)), 'depth');
    return;
  }
  const split = aBelow ? high - depth : low + depth;
  lap(desk, joint, a, b.name, spanWith(room, axis, aBelow ? low : split, aBelow ? split : high), [
    axis,
    !aBelow,
  ]);
  lap(desk, joint, b, a.name, spanWith(room, axis, aBelow ? split : low, aBelow ? high : split), [
    axis,
    aBelow,
  ]);
}

function lap(
  desk: Desk,
  joint: Joint,
  stand: Stand,
  other: string,
  room: Span,
  [axis, isUp]: readonly [AxisIndex, boolean],
): void {
  const face = stand.facing(axis, isUp);
  const box = stand.toOwn(room);
  const [first, second] = axesInFace(sideOf(face).axis);
  // A lap is cut across its piece, so that it runs along the axis that is not its length.
  const run = first === 0 ? second : first;
  const cut = channelCut(box, face, run, stand.size);
  desk.cut(stand, { cut, what: 'half lap', joint, face, box, other });
}

/** A corner that both pieces share, and which way fingers and tails follow each other along it. */
interface Corner {
  readonly along: AxisIndex;
  readonly own: Span;
  readonly inOther: Span;
  readonly end: 'start' | 'end';
  readonly face: Face;
  readonly reach: number;
}

function cornerOf(meet: Meet, joint: Joint, desk: Desk): Corner | undefined {
  const { a, b, room } = meet;
  const long = [a.inRoom(0).room, b.inRoom(0).room];
  const inOther = b.toOwn(room);
  const atEnd = lowOf(inOther, 0) <= TOLERANCE || highOf(inOther, 0) >= b.size[0] - TOLERANCE;
  if (long[0] === long[1] || !atEnd) {
    desk.say(joint, JOINT_SAYS.noCorner(joint.kind, a.name, b.name));
    return undefined;
  }
  const entering = enteringOf(meet, joint, desk);
  if (entering === undefined) return undefined;
  const along = AXIS_INDEXES.find((axis) => !long.includes(axis)) ?? 2;
  return { ...entering, along, reach: extent(entering.own, 0) };
}

/** Fingers of both pieces in turn; those at the edges are the part's. */
export function fingers(meet: Meet, joint: Joint, desk: Desk): void {
  const corner = cornerOf(meet, joint, desk);
  if (corner === undefined) return;
  const { a, b, room } = meet;
  const high = extent(room, corner.along);
  const width = joint.width ?? a.piece.part.thickness;
  const count = joint.count ?? oddNear(high / width);
  const each = high / count;
  for (let i = 0; i < count; i++) {
    const from = lowOf(room, corner.along) + i * each;
    const slice = spanWith(room, corner.along, from, from + each);
    const isOfPart = i % 2 === 0;
    const stand = isOfPart ? b : a;
    const face = isOfPart ? corner.face : corner.end;
    const box = stand.toOwn(slice);
    const across = stand.own(corner.along);
    const run = (3 - sideOf(face).axis - across) as AxisIndex;
    desk.cut(stand, {
      cut: channelCut(box, face, run, stand.size),
      what: 'gap between fingers',
      joint,
      face,
      box,
      other: isOfPart ? a.name : b.name,
    });
  }
}

/** The odd number nearest to one, 3 at the least. */
const oddNear = (number: number): number => Math.max(3, 2 * Math.round((number - 1) / 2) + 1);

/** Tails on the part, pins on the other piece; a thickness in the table is that of a pin where it is narrowest. */
export function dovetails(meet: Meet, joint: Joint, desk: Desk): void {
  const corner = cornerOf(meet, joint, desk);
  if (corner === undefined) return;
  const { a, b, room } = meet;
  const { along, own, reach, end, face } = corner;
  const high = extent(room, along);
  const thick = a.piece.part.thickness;
  const pin = joint.thickness ?? usualPin(thick, desk.units);
  const slope = usualSlope(a.piece.part.material ?? '');
  const lean = reach * Math.tan((slope * Math.PI) / 180);
  const tails =
    joint.count ??
    desk.usual(joint, () => usualTails(high, pin, joint.width ?? thick * TAIL_SHARE));
  if (tails === undefined) return;
  const marks: number[] = [];
  for (let mark = 1; mark <= 2 * tails; mark++) {
    const at = desk.usual(joint, () => tailMark(high, tails, pin, mark));
    if (at === undefined) return;
    marks.push(at);
  }
  const widest = (marks[1] ?? 0) - (marks[0] ?? 0);
  if (widest <= 2 * lean) {
    const [got, most] = [`${tails}`, `${desk.format(high)} for tails that slope so`];
    desk.say(joint, JOINT_SAYS.tooBig('number of tails', got, most), 'count');
    return;
  }
  const at = (distance: number): number => lowOf(room, along) + distance;
  // Between the tails, and beside the outer ones: narrow at the end of the board, wider at the base line.
  for (let gap = 0; gap <= tails; gap++) {
    const [first, last] = [marks[2 * gap - 1], marks[2 * gap]];
    const inner = first ?? -(last ?? 0);
    const outer = last ?? 2 * high - (first ?? 0);
    socket(
      desk,
      joint,
      a,
      end,
      { along, from: at(inner), to: at(outer), slope, depth: reach },
      own,
      {
        what: first === undefined || last === undefined ? 'half pin' : 'gap between tails',
        other: b.name,
      },
    );
  }
  for (let tail = 0; tail < tails; tail++) {
    const [from, to] = [at((marks[2 * tail] ?? 0) + lean), at((marks[2 * tail + 1] ?? 0) - lean)];
    socket(desk, joint, b, face, { along, from, to, slope, depth: reach }, corner.inOther, {
      what: 'socket for a tail',
      other: a.name,
    });
  }
}

interface Wedge {
  readonly along: AxisIndex;
  readonly from: number;
  readonly to: number;
  readonly slope: number;
  readonly depth: number;
}

/** What is taken out with sides that slope, wider inside. */
function socket(
  desk: Desk,
  joint: Joint,
  stand: Stand,
  face: Face,
  { along, from, to, slope, depth }: Wedge,
  within: Span,
  { what, other }: { readonly what: string; readonly other: string },
): void {
  const across = stand.own(along);
  const roomBox = spanWith(stand.toRoom(within), along, from, to);
  const box = stand.toOwn(roomBox);
  const { axis } = sideOf(face);
  const run = (3 - axis - across) as AxisIndex;
  const [first] = axesInFace(axis);
  desk.cut(stand, {
    cut: {
      kind: 'dovetail',
      face,
      run: run === first ? 'along' : 'across',
      at: (lowOf(box, across) + highOf(box, across)) / 2,
      width: extent(box, across),
      depth,
      angle: slope,
      ...runOf(box, run, stand.size),
    },
    what,
    joint,
    face,
    box,
    other,
  });
}
