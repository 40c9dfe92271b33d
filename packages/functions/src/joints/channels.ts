import type { Cut } from '@kerfbook/solids';
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
  faceAt,
  highOf,
  lowOf,
  type Meet,
  runOf,
  type Span,
  sideOf,
  spanWith,
  sunkTo,
} from './stand.ts';
import { fits } from './tenons.ts';
import { usualThickness } from './usual.ts';
import type { Desk } from './work.ts';

/** How an edge of one piece lies in another. */
interface Seat {
  /** The axis of the room along which it goes in. */
  readonly axis: AxisIndex;
  /** The face of the other piece that it goes into. */
  readonly face: Face;
  /** What lies in the other piece, in that one's frame. */
  readonly box: Span;
  /** How far it reaches in. */
  readonly reach: number;
  /** Which of the other piece's axes the cut runs along, and which it is wide along. */
  readonly run: AxisIndex;
  readonly across: AxisIndex;
}

/** Grooves, dados and rabbets in which an edge of the part sits, and the tongue it has there. */
export function channels(meet: Meet, joint: Joint, desk: Desk): void {
  const { a, b } = meet;
  const seat = seatOf(meet);
  if (seat === undefined) {
    desk.say(joint, JOINT_SAYS.within(a.name, b.name));
    return;
  }
  const depth = joint.depth ?? seat.reach;
  const whole = b.size[sideOf(seat.face).axis] ?? 0;
  if (depth < seat.reach - TOLERANCE) {
    const [deep, by] = [desk.format(depth), desk.format(seat.reach)];
    desk.say(joint, JOINT_SAYS.shallow(a.name, b.name, deep, by), 'depth');
    return;
  }
  if (depth > whole + TOLERANCE) {
    desk.say(joint, JOINT_SAYS.tooBig('depth', desk.format(depth), desk.format(whole)), 'depth');
    return;
  }
  const deep = sunkTo(seat.box, seat.face, depth, b.size);
  if (joint.kind === 'tongue and groove') tongue(meet, joint, desk, seat, deep);
  else if (joint.kind === 'rabbet') rabbet(meet, joint, desk, seat, deep);
  else channel(meet, joint, desk, seat, wide(joint, seat, deep, b.size));
}

/** The axis along which a piece comes out of the other one on one side alone: the one it reaches in least by. */
function seatOf({ a, b, room }: Meet): Seat | undefined {
  const ways = AXIS_INDEXES.flatMap((axis) => {
    const [below, above] = [
      lowOf(b.room, axis) - lowOf(a.room, axis) > TOLERANCE,
      highOf(a.room, axis) - highOf(b.room, axis) > TOLERANCE,
    ];
    return below === above ? [] : [{ axis, above, reach: extent(room, axis) }];
  }).sort((one, other) => one.reach - other.reach);
  const [way] = ways;
  if (way === undefined) return undefined;
  const face = b.facing(way.axis, way.above);
  const box = b.toOwn(room);
  const [first, second] = axesInFace(sideOf(face).axis);
  const thin = b.own(a.inRoom(2).room);
  const shorter = extent(box, first) < extent(box, second) ? first : second;
  const across = thin === first || thin === second ? thin : shorter;
  return { ...way, face, box, run: across === first ? second : first, across };
}

/** As wide as the row says around the part, and right through where it does not stop. */
function wide(joint: Joint, { run, across }: Seat, box: Span, size: Span['low']): Span {
  const middle = (lowOf(box, across) + highOf(box, across)) / 2;
  const { width } = joint;
  const wider =
    width === undefined ? box : spanWith(box, across, middle - width / 2, middle + width / 2);
  return joint.kind.startsWith('stopped') ? wider : spanWith(wider, run, 0, size[run] ?? 0);
}

function channel({ a, b }: Meet, joint: Joint, desk: Desk, seat: Seat, box: Span): void {
  const part = extent(seat.box, seat.across);
  if (joint.width !== undefined && joint.width < part - TOLERANCE) {
    const [got, room] = [desk.format(part), desk.format(joint.width)];
    desk.say(joint, JOINT_SAYS.tooBig(`part that sits in it`, got, room), 'width');
    return;
  }
  desk.cut(b, {
    cut: channelCut(box, seat.face, seat.run, b.size),
    what: seat.run === 0 ? 'groove' : 'dado',
    joint,
    face: seat.face,
    box,
    other: a.name,
  });
}

function rabbet({ a, b }: Meet, joint: Joint, desk: Desk, seat: Seat, deep: Span): void {
  const { face, run, across } = seat;
  const whole = b.size[across] ?? 0;
  const atLow = lowOf(deep, across) <= TOLERANCE;
  if (!atLow && highOf(deep, across) < whole - TOLERANCE) {
    desk.say(joint, JOINT_SAYS.noEdge(a.name, b.name));
    return;
  }
  const width = joint.width ?? extent(deep, across);
  if (!fits(joint, desk, 'width', width, whole)) return;
  const box = spanWith(
    spanWith(deep, across, atLow ? 0 : whole - width, atLow ? width : whole),
    run,
    0,
    b.size[run] ?? 0,
  );
  const edge = faceAt(across, !atLow);
  desk.cut(b, {
    cut: rabbetCut(box, face, edge, b.size),
    what: 'rabbet',
    joint,
    face,
    box,
    other: a.name,
  });
}

/** A box along the edge of two faces, told from the first. */
export function rabbetCut(box: Span, face: Face, edge: Face, size: Span['low']): Cut {
  const [into, across] = [sideOf(face).axis, sideOf(edge).axis];
  const run = (3 - into - across) as AxisIndex;
  return {
    kind: 'rabbet',
    edge: [face, edge],
    width: extent(box, across),
    depth: extent(box, into),
    ...runOf(box, run, size),
  };
}

/** A tongue along the edge of the part, in the middle of its thickness, and the groove for it. */
function tongue(meet: Meet, joint: Joint, desk: Desk, seat: Seat, deep: Span): void {
  const { a, b, room } = meet;
  const own = a.toOwn(room);
  const into = a.own(seat.axis);
  const thin: AxisIndex = into === 2 ? 1 : 2;
  const thick = a.size[thin] ?? 0;
  const thickness = joint.thickness ?? desk.usual(joint, () => usualThickness(thick));
  if (thickness === undefined || !fits(joint, desk, 'thickness', thickness, thick)) return;
  const shoulder = (thick - thickness) / 2;
  const edge = faceAt(into, lowOf(own, into) > TOLERANCE);
  for (const isHigh of shoulder > TOLERANCE ? [false, true] : []) {
    const face = faceAt(thin, isHigh);
    const from = isHigh ? thick - shoulder : 0;
    const strip = spanWith(own, thin, from, from + shoulder);
    const run = (3 - into - thin) as AxisIndex;
    const box = spanWith(strip, run, 0, a.size[run] ?? 0);
    const cut = rabbetCut(box, face, edge, a.size);
    desk.cut(a, { cut, what: 'rabbet beside the tongue', joint, face, box, other: b.name });
  }
  const inOther = b.toOwn(a.toRoom(spanWith(own, thin, shoulder, shoulder + thickness)));
  const across = b.own(a.inRoom(thin).room);
  const narrow = spanWith(deep, across, lowOf(inOther, across), highOf(inOther, across));
  const run = (3 - sideOf(seat.face).axis - across) as AxisIndex;
  const box = spanWith(narrow, run, 0, b.size[run] ?? 0);
  desk.cut(b, {
    cut: channelCut(box, seat.face, run, b.size),
    what: 'groove',
    joint,
    face: seat.face,
    box,
    other: a.name,
  });
}
