import {
  type AxisIndex,
  axesInFace,
  extent,
  type JointCut,
  type Span,
  sharedSpan,
  sideOf,
} from '@kerfbook/functions/joints';
import { movedTo, type SectionPlane, type Triple } from '@kerfbook/solids';
import { type Bore, boreOf, longerInFace } from './bores.ts';
import { boxOf, type JointPlace, type Member, roomOf } from './joint-places.ts';
import { along, axisWay, cross, dot, minus, unitOf } from './ways.ts';

/** The plane in which a joint is shown, and how it lies on the paper. */
export interface PaperPlane extends SectionPlane {
  /** What is to the right on the paper, in the room. */
  readonly right: Triple;
  /** What is up on the paper. */
  readonly up: Triple;
  /** Which of the paper's axes the joint goes in along. */
  readonly depth: 'x' | 'y';
  /** 1 where it goes in to the right or up, else -1. */
  readonly sign: 1 | -1;
  /** The piece that the joint goes into there. */
  readonly host: 'a' | 'b';
}

/** A point of the room on the paper, mm at full size. */
export const onPaper = ({ right, up }: PaperPlane, point: Triple): readonly [number, number] => [
  dot(right, point),
  dot(up, point),
];

/** How a plane is chosen: through a point, along the way the joint goes in, square to another way. */
interface Aim {
  readonly at: Triple;
  readonly into: Triple;
  readonly normal: Triple;
  readonly host: 'a' | 'b';
}

/** The plane through the middle of a joint that shows how deep it goes; undefined where there is none. */
export function planeOf(place: JointPlace): PaperPlane | undefined {
  const aim = aimOf(place);
  return aim === undefined ? undefined : laid(aim);
}

/** Joints that are seen in what is cut from the part itself. */
const IN_PART = new Set<JointPlace['joint']['kind']>(['half lap', 'finger joint', 'dovetails']);

function aimOf(place: JointPlace): Aim | undefined {
  const { a, b, joint } = place;
  const tenon = a.cuts.find(({ cut }) => cut.kind === 'tenon');
  if (tenon !== undefined && b !== undefined) return aimOfTenon(a, b, tenon);
  const isInPart = b === undefined || b.cuts.length === 0 || IN_PART.has(joint.kind);
  const host = isInPart && a.cuts.length > 0 ? 'a' : 'b';
  const [own, other] = host === 'a' ? [a, b] : [b ?? a, a];
  const drilled = [a, b ?? a].find(({ stand, cuts }) =>
    cuts.some((cut) => boreOf(stand, cut) !== undefined),
  );
  if (drilled !== undefined) return aimOfHoles(drilled, drilled === a ? b : a, drilled === a);
  const [lead] = own.cuts;
  return lead === undefined ? undefined : aimOfChannel(own, other, lead, host);
}

function aimOfTenon(a: Member, b: Member, tenon: JointCut): Aim | undefined {
  const isHaunched = a.cuts.some(({ what }) => what === 'haunch');
  const [mortise] = b.cuts;
  if (mortise === undefined) return undefined;
  const isEnd = tenon.face === 'end';
  const into = along(axisWay(a.stand, 0), isEnd ? 1 : -1);
  const at = boreOf(b.stand, mortise)?.mouth ?? middleOf(b, mortise.box);
  return { at, into, normal: axisWay(a.stand, isHaunched ? 2 : 1), host: 'b' };
}

/** Grooves and what else runs: square to the way they run, in the middle of what both pieces share there. */
function aimOfChannel(
  own: Member,
  other: Member | undefined,
  lead: JointCut,
  host: 'a' | 'b',
): Aim | undefined {
  const { cut } = lead;
  const run = runOf(lead);
  if (run === undefined) return undefined;
  const face = cut.kind === 'rabbet' ? cut.edge[0] : lead.face;
  const { axis, isHigh } = sideOf(face);
  return {
    at: clearOf(own, other, lead.box, axisWay(own.stand, run)),
    into: along(axisWay(own.stand, axis), isHigh ? -1 : 1),
    normal: axisWay(own.stand, run),
    host,
  };
}

function runOf({ cut, face }: JointCut): AxisIndex | undefined {
  const [first, second] = axesInFace(sideOf(face).axis);
  switch (cut.kind) {
    case 'groove':
      return first;
    case 'dado':
      return second;
    case 'dovetail':
      return cut.run === 'along' ? first : second;
    case 'rabbet':
      return (3 - sideOf(cut.edge[0]).axis - sideOf(cut.edge[1]).axis) as AxisIndex;
    default:
      return undefined;
  }
}

/** Holes and mortises of fasteners: along the first one, square to the way to the next one. */
function aimOfHoles(own: Member, other: Member | undefined, isPart: boolean): Aim | undefined {
  const [lead, ...others] = own.cuts;
  const bore = lead === undefined ? undefined : boreOf(own.stand, lead);
  if (lead === undefined || bore === undefined) return undefined;
  const host = other === undefined ? 'a' : 'b';
  if (Math.abs(dot(bore.into, bore.out)) < STRAIGHT) {
    const normal = unitOf(cross(bore.into, bore.out));
    // A pocket goes in along the part, towards the piece that its screw holds.
    const flat = unitOf(minus(bore.into, along(bore.out, dot(bore.into, bore.out))));
    if (normal === undefined || flat === undefined) return undefined;
    return { at: bore.mouth, into: flat, normal, host };
  }
  const normal = normalOf(own, other, lead, bore, others);
  const isOut = isPart && other !== undefined;
  return { at: bore.mouth, into: along(bore.into, isOut ? -1 : 1), normal, host };
}

/** The cosine of the angle from which on a hole is drilled straight in. */
const STRAIGHT = 0.99;

function normalOf(
  a: Member,
  b: Member | undefined,
  lead: JointCut,
  { mouth, into }: Bore,
  others: readonly JointCut[],
): Triple {
  const [longer, shorter] = longerInFace(lead);
  if (lead.cut.kind === 'slot') return axisWay(a.stand, shorter);
  if (b === undefined) return axisWay(a.stand, longer);
  for (const other of others) {
    const next = boreOf(a.stand, other)?.mouth;
    if (next === undefined) continue;
    const way = minus(next, mouth);
    const flat = unitOf(minus(way, along(into, dot(way, into))));
    if (flat !== undefined) return flat;
  }
  if (lead.cut.kind === 'mortise') return axisWay(a.stand, longer);
  const own = a.stand.toOwn(sharedSpan(boxOf(a.piece), boxOf(b.piece)));
  const [first, second] = axesInFace(sideOf(lead.face).axis);
  return axisWay(a.stand, extent(own, first) >= extent(own, second) ? first : second);
}

/** The middle of a box of a piece, of what lies in the other piece where one does. */
function middleOf({ stand }: Member, box: Span, other?: Member): Triple {
  const own = roomOf(stand, box);
  const shared = other === undefined ? own : sharedSpan(own, boxOf(other.piece));
  const isShared = ([0, 1, 2] as const).every((axis) => extent(shared, axis) >= 0);
  if (!isShared) {
    const [x, y, z] = box.low.map((low, axis) => (low + (box.high[axis] ?? low)) / 2);
    return movedTo(stand.placement, [x ?? 0, y ?? 0, z ?? 0]);
  }
  const { low, high } = shared;
  return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
}

/** Where along a joint its section is looked for, as shares of its length. */
const SHARES = [1 / 2, 1 / 3, 2 / 3, 1 / 4, 3 / 4, 1 / 8, 7 / 8];

/** A section along the side of another cut would show either, mm. */
const CLEAR = 0.5;

/** The middle, or where another joint cuts the pieces there a place beside it. */
function clearOf(own: Member, other: Member | undefined, box: Span, run: Triple): Triple {
  const middle = middleOf(own, box, other);
  const room = roomOf(own.stand, box);
  const axis = run.findIndex((one) => Math.abs(one) > STRAIGHT);
  if (axis < 0) return middle;
  const shared = other === undefined ? room : sharedSpan(room, boxOf(other.piece));
  const [low, high] = [shared.low[axis] ?? 0, shared.high[axis] ?? 0];
  const taken = [own, ...(other === undefined ? [] : [other])].flatMap(({ stand, others }) =>
    others.map((cut) => roomOf(stand, cut.box)),
  );
  const places = SHARES.map((share) => low + (high - low) * share);
  const free = places.find((at) =>
    taken.every((one) => at < (one.low[axis] ?? 0) - CLEAR || at > (one.high[axis] ?? 0) + CLEAR),
  );
  const at = free ?? places[0] ?? 0;
  return middle.map((one, index) => (index === axis ? at : one)) as unknown as Triple;
}

/** From which side views look: from the right end, from the front and from above. */
const EYES: readonly Triple[] = [
  [1, 0, 0],
  [0, -1, 0],
  [0, 0, 1],
];

/** A way that points the usual way on the paper: the furniture's right, back and up are to the right and up. */
function upwards(way: Triple): Triple {
  const lead = way.reduce((best, one) => (Math.abs(one) > Math.abs(best) + 1e-9 ? one : best), 0);
  return lead < 0 ? along(way, -1) : way;
}

/**
 * The joint goes in along one of the paper's axes, also where pieces lean, so that sizes are true along both. What
 * stands up in the room stands up on the paper, and a level section is seen as from above.
 */
function laid({ at, into, normal, host }: Aim): PaperPlane | undefined {
  const other = unitOf(cross(normal, into));
  if (other === undefined) return undefined;
  const most = Math.max(...normal.map(Math.abs));
  const eye = EYES[normal.findIndex((one) => Math.abs(one) === most)] ?? [0, 0, 1];
  const towards = dot(eye, normal) > 0 ? normal : along(normal, -1);
  const isUp = eye[2] !== 1 && Math.abs(into[2]) > Math.abs(other[2]);
  // Across the paper there is room for sizes on both sides, so that is how a level section lies.
  const up = isUp || eye[2] !== 1 ? upwards(isUp ? into : other) : cross(towards, upwards(into));
  const right = cross(up, towards);
  const depth = isUp ? 'y' : 'x';
  const sign = dot(isUp ? up : right, into) > 0 ? 1 : -1;
  return { right, up, normal: towards, offset: dot(towards, at), depth, sign, host };
}
