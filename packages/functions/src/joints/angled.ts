import {
  boxSolid,
  type Crossing,
  cross,
  crossings,
  dot,
  flatContact,
  movedTo,
  opposite,
  plus,
  type Solid,
  sharedRooms,
  type Triple,
  times,
  turnedBack,
  turnedBy,
  undone,
} from '@kerfbook/solids';
import { TOLERANCE } from '../shaped/tolerance.ts';
import { planDowels, planScrew, type Usual, usualDowels } from './fasteners.ts';
import { HOLE_TOLERANCE, spread } from './holes.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import { type AxisIndex, faceAt, type Meet, type Span, type Stand } from './stand.ts';
import { fits } from './tenons.ts';
import {
  MOST_WIDE,
  SPARE,
  usualCount,
  usualFromEnd,
  usualTenons,
  usualThickness,
  usualWidth,
} from './usual.ts';
import type { Desk } from './work.ts';

/** Joints of pieces that stand at an angle to each other, by the pieces as they are. */

const solidOf = ({ piece: { solid, from, to } }: Stand): Solid =>
  solid ?? boxSolid([from.x, from.y, from.z], [to.x, to.y, to.z]);

/** From a point on, so far along a way. */
const farther = (from: Triple, way: Triple, by: number): Triple => plus(from, times(way, by));

/** A point of the room in a piece's own frame. */
const ownPoint = ({ placement }: Stand, point: Triple): Triple => movedTo(undone(placement), point);

/** How two pieces meet of which one leans; undefined where they stand apart. */
export function angledMeet(a: Stand, b: Stand): Meet | undefined {
  const [mine, its] = [solidOf(a), solidOf(b)];
  const [room] = sharedRooms(mine, its, TOLERANCE).rooms;
  if (room !== undefined) return { a, b, room: room.bounds };
  const contact = flatContact(mine, its, TOLERANCE);
  if (contact === undefined) return undefined;
  const most = contact.normal.map(Math.abs);
  const touching = most.indexOf(Math.max(...most)) as AxisIndex;
  return { a, b, room: around(contact.points), touching };
}

function around(points: readonly Triple[]): Span {
  const ends = ([0, 1, 2] as const).map((axis) => points.map((point) => point[axis]));
  return {
    low: ends.map((all) => Math.min(...all)) as never,
    high: ends.map((all) => Math.max(...all)) as never,
  };
}

/** Makes a joint of two pieces of which one leans; what is not worked out there is said. */
export function angled(meet: Meet, joint: Joint, desk: Desk): void {
  switch (joint.kind) {
    case 'mortise and tenon':
    case 'through mortise and tenon':
      tenon(meet, joint, desk);
      break;
    case 'dowels':
      angledDowels(meet, joint, desk);
      break;
    case 'screws':
      angledScrews(meet, joint, desk);
      break;
    default:
      desk.say(joint, JOINT_SAYS.leans(joint.kind, meet.a.name, meet.b.name));
  }
}

/** Corners are looked at so far inside the piece, mm: along a face that is flush a line goes neither in nor out. */
const INSIDE = 0.01;

/** The end of a piece that goes into another one. */
interface Entry {
  readonly end: 'start' | 'end';
  /** Out of the end, in the room. */
  readonly way: Triple;
  /** The face that it goes in through. */
  readonly face: Crossing;
}

type Corner = readonly [y: number, z: number];

/** Where a line along the piece begins, in its middle. */
const middleOf = ({ placement, size }: Stand, [y, z]: Corner): Triple =>
  movedTo(placement, [size[0] / 2, y, z]);

const insetCorners = (from: Corner, to: Corner): readonly Corner[] =>
  [0, 1].flatMap((y) =>
    [0, 1].map(
      (z): Corner => [
        y === 0 ? from[0] + INSIDE : to[0] - INSIDE,
        z === 0 ? from[1] + INSIDE : to[1] - INSIDE,
      ],
    ),
  );

const isSamePlane = (one: Crossing, other: Crossing): boolean =>
  dot(one.normal, other.normal) > 1 - 1e-9 && Math.abs(one.offset - other.offset) < 1e-3;

function entryOf({ a, b }: Meet, joint: Joint, desk: Desk): Entry | undefined {
  const [length, width, thickness] = a.size;
  const solid = solidOf(b);
  const found = (['start', 'end'] as const).flatMap((end) => {
    const along = turnedBy(a.placement, [1, 0, 0]);
    const way = end === 'end' ? along : opposite(along);
    const faces = insetCorners([0, 0], [width, thickness]).map((corner) =>
      crossings(solid, middleOf(a, corner), way).findLast(
        ({ at, isIn }) => isIn && at > 0 && at < length / 2 - TOLERANCE,
      ),
    );
    return faces.some((face) => face !== undefined) ? [{ end, way, faces }] : [];
  });
  const [first] = found;
  if (first === undefined || found.length > 1) {
    desk.say(joint, JOINT_SAYS.noEnd(joint.kind, a.name, b.name));
    return undefined;
  }
  const [face] = first.faces;
  const isFlat =
    face !== undefined &&
    !face.curved &&
    first.faces.every((one) => one !== undefined && isSamePlane(one, face));
  if (!isFlat) {
    desk.say(joint, JOINT_SAYS.noFlat(a.name, b.name));
    return undefined;
  }
  return { end: first.end, way: first.way, face };
}

/** One tenon along the piece, with shoulders that lie against the face it goes in through, and its mortise. */
function tenon(meet: Meet, joint: Joint, desk: Desk): void {
  const entry = entryOf(meet, joint, desk);
  if (entry === undefined) return;
  const { a, b } = meet;
  const { end, way, face } = entry;
  const [length, wide, thick] = a.size;
  const section = sectionOf(meet, joint, desk);
  if (section === undefined) return;
  const [y, z, width, thickness] = section;
  const corners = insetCorners([y, z], [y + width, z + thickness]);
  const lines = corners.map((corner) => middleOf(a, corner));
  const entries = lines.map(
    (from) => (face.offset - dot(face.normal, from)) / dot(face.normal, way),
  );
  const exits = lines.map((from, index) => {
    const at = entries[index] ?? 0;
    return crossings(solidOf(b), from, way).find((one) => !one.isIn && one.at > at)?.at ?? at;
  });
  const reach = length / 2;
  const [first, last] = [Math.min(...entries), Math.max(...exits)];
  const isThrough = exits.every((at) => at <= reach + TOLERANCE);
  const isThroughWanted = joint.kind === 'through mortise and tenon';
  const beyond = reach - Math.min(...exits);
  if (!isThroughWanted && beyond > TOLERANCE) {
    desk.say(joint, JOINT_SAYS.beyond(a.name, b.name, desk.format(beyond)));
    return;
  }
  if (isThroughWanted && !isThrough) {
    desk.say(joint, JOINT_SAYS.notThrough(a.name, b.name, desk.format(last - reach)));
  }
  if (joint.depth !== undefined && joint.depth < reach - first - TOLERANCE) {
    const [deep, by] = [desk.format(joint.depth), desk.format(reach - first)];
    desk.say(joint, JOINT_SAYS.shallow(a.name, b.name, deep, by), 'depth');
    return;
  }
  const spare = Math.min(SPARE, Math.max(0, 0 - beyond) / 2);
  const blind = Math.max(reach - first + spare, joint.depth ?? 0);
  const depth = isThrough ? last - first + OUTSIDE : blind;
  const [from, to] = end === 'end' ? [reach + first, length] : [0, reach - first];
  const shoulder = {
    normal: turnedBack(a.placement, opposite(face.normal)),
    offset: dot(face.normal, a.placement.shift) - face.offset,
  };
  desk.cut(a, {
    cut: {
      kind: 'tenon',
      end,
      length: reach - first,
      width,
      thickness,
      at: [y, z],
      shoulder,
    },
    what: 'tenon',
    joint,
    face: end,
    box: { low: [from, y, z], high: [to, y + width, z + thickness] },
    other: b.name,
    note: shoulderWords(shoulder.normal, wide, thick),
  });
  const middle = farther(middleOf(a, [y + width / 2, z + thickness / 2]), way, first);
  sink(desk, joint, b, a.name, {
    cut: {
      kind: 'angled mortise',
      from: ownPoint(b, middle),
      into: turnedBack(b.placement, way),
      along: turnedBack(b.placement, turnedBy(a.placement, [0, 1, 0])),
      length: width,
      width: thickness,
      depth,
    },
    normal: face.normal,
    what: 'mortise',
    sides: [width, thickness],
  });
}

/** A mortise right through goes on so far outside the wood, mm. */
const OUTSIDE = 1;

/** Where a tenon begins across its piece, and how wide and thick it is. */
function sectionOf(
  { a, b }: Meet,
  joint: Joint,
  desk: Desk,
): readonly [y: number, z: number, width: number, thickness: number] | undefined {
  const [, wide, thick] = a.size;
  const thinner = Math.min(thick, b.size[b.own(a.inRoom(2).room)] ?? thick);
  const thickness = joint.thickness ?? desk.usual(joint, () => usualThickness(thinner));
  const usual = joint.width ?? desk.usual(joint, () => usualWidth(wide));
  if (thickness === undefined || usual === undefined) return undefined;
  if (!fits(joint, desk, 'thickness', thickness, thick)) return undefined;
  const count = joint.count ?? 1;
  if (count > 1) {
    desk.say(joint, JOINT_SAYS.oneTenon(a.name, b.name), 'count');
    return undefined;
  }
  const isTooWide = (desk.usual(joint, () => usualTenons(usual, thickness)) ?? 1) > 1;
  const width = joint.width === undefined && isTooWide ? MOST_WIDE * thickness : usual;
  if (!fits(joint, desk, 'width', width, wide)) return undefined;
  const y =
    joint.fromEdge === undefined ? (wide - width) / 2 : a.fromLowEdge(1, joint.fromEdge, width);
  if (y < -TOLERANCE || y + width > wide + TOLERANCE) {
    const [got, room] = [desk.format(joint.fromEdge ?? 0), desk.format(wide - width)];
    desk.say(joint, JOINT_SAYS.tooBig('distance from the edge', got, room), 'from edge');
    return undefined;
  }
  return [y, (thick - thickness) / 2, width, thickness];
}

/** The angles at which shoulders are sawn, told as a maker sets them. */
function shoulderWords([x, y, z]: Triple, wide: number, thick: number): string {
  const [across, through] = [y, z].map((part) => tenths(Math.abs(Math.atan2(part, Math.abs(x)))));
  const told = [
    ...(across === '0' ? [] : [`${across}° ${wide >= thick ? 'across its width' : 'across'}`]),
    ...(through === '0' ? [] : [`${through}° through its thickness`]),
  ];
  return told.length === 0 ? 'shoulders square' : `shoulders off square by ${told.join(' and ')}`;
}

const tenths = (radians: number): string => String(Math.round((radians * 1800) / Math.PI) / 10 + 0);

interface Sunk {
  readonly cut: Extract<
    Parameters<Desk['cut']>[1]['cut'],
    { kind: 'angled mortise' | 'angled hole' }
  >;
  /** Of the face it is sunk into, in the room. */
  readonly normal: Triple;
  readonly what: string;
  /** What it measures across the way it goes. */
  readonly sides: readonly [number, number];
}

/** Sinks a cut into a piece, with the box around it. */
function sink(desk: Desk, joint: Joint, stand: Stand, other: string, sunk: Sunk): void {
  const { cut, normal, what, sides } = sunk;
  const along = cut.kind === 'angled mortise' ? cut.along : acrossOf(cut.into);
  const across = cross(cut.into, along);
  const points = [cut.from, farther(cut.from, cut.into, cut.depth)].flatMap((middle) =>
    [-0.5, 0.5].flatMap((i) =>
      [-0.5, 0.5].map((j) => farther(farther(middle, along, i * sides[0]), across, j * sides[1])),
    ),
  );
  const box = around(points);
  const own = turnedBack(stand.placement, normal);
  const most = own.map(Math.abs);
  const axis = most.indexOf(Math.max(...most)) as AxisIndex;
  const face = faceAt(axis, (own[axis] ?? 0) > 0);
  const inWood: Span = {
    low: box.low.map((one) => Math.max(0, one)) as never,
    high: box.high.map((one, i) => Math.min(stand.size[i] ?? one, one)) as never,
  };
  desk.cut(stand, { cut, what, joint, face, box: inWood, other });
}

/** A way square to another one. */
function acrossOf(way: Triple): Triple {
  const least: Triple = Math.abs(way[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const out = cross(least, way);
  const long = Math.hypot(...out);
  return [out[0] / long, out[1] / long, out[2] / long];
}

/** Where fasteners go in where two pieces lie flat against each other. */
interface Places {
  /** In the room. */
  readonly points: readonly Triple[];
  /** Away from the part. */
  readonly normal: Triple;
  readonly thick: number;
  /** How much wood each has behind the thinnest of these places. */
  readonly wood: readonly [number, number];
}

function placesOf({ a, b }: Meet, joint: Joint, desk: Desk, usual: Usual): Places | undefined {
  const [mine, its] = [solidOf(a), solidOf(b)];
  const contact = flatContact(mine, its, TOLERANCE);
  if (contact === undefined) return undefined;
  const { normal, points } = contact;
  const ways = ([0, 1, 2] as const).flatMap((axis) => {
    const way = turnedBy(a.placement, [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0]);
    const flat = farther(way, normal, 0 - dot(way, normal));
    const long = Math.hypot(...flat);
    if (long < 0.5) return [];
    const run: Triple = [flat[0] / long, flat[1] / long, flat[2] / long];
    const [low, high] = spanAlong(points, run);
    return [{ run, low, long: high - low }];
  });
  const [longest] = ways.sort((one, other) => other.long - one.long);
  if (longest === undefined) return undefined;
  const { run, low, long } = longest;
  const thin = cross(normal, run);
  const [near, far] = spanAlong(points, thin);
  const fromEnd = joint.fromEnd ?? usualFromEnd(long);
  const edge = joint.fromEdge ?? (far - near) / 2;
  const count = joint.count ?? desk.usual(joint, () => usual(long, fromEnd));
  if (count === undefined) return undefined;
  const offset = dot(normal, points[0] ?? [0, 0, 0]);
  const spots = spread(low, long, count, fromEnd).map((at): Triple => {
    const flat = farther(times(run, at), thin, near + edge);
    return farther(flat, normal, offset);
  });
  const wood = [
    Math.min(...spots.map((spot) => woodBehind(mine, spot, opposite(normal)))),
    Math.min(...spots.map((spot) => woodBehind(its, spot, normal))),
  ] as const;
  if (2 * fromEnd > long + TOLERANCE || Math.min(...wood) <= TOLERANCE) {
    desk.say(joint, JOINT_SAYS.besideWood(a.name, b.name));
    return undefined;
  }
  return { points: spots, normal, thick: far - near, wood };
}

function spanAlong(points: readonly Triple[], way: Triple): readonly [number, number] {
  const along = points.map((point) => dot(point, way));
  return [Math.min(...along), Math.max(...along)];
}

/** How much wood there is from a point of a face on; 0 where there is none. */
function woodBehind(solid: Solid, point: Triple, way: Triple): number {
  const [first, second] = crossings(solid, farther(point, way, 0 - TOLERANCE), way);
  if (first === undefined || !first.isIn || first.at > 2 * TOLERANCE) return 0;
  return second === undefined ? 0 : second.at - first.at;
}

function angledDowels(meet: Meet, joint: Joint, desk: Desk): void {
  const places = placesOf(meet, joint, desk, usualDowels);
  if (places === undefined) return;
  const { a, b } = meet;
  const plan = planDowels([a, b], places.thick, places.wood, joint, desk);
  if (plan === undefined) return;
  const { diameter, length, depths } = plan;
  for (const [stand, way, depth, other] of [
    [a, opposite(places.normal), depths[0], b.name],
    [b, places.normal, depths[1], a.name],
  ] as const) {
    drillAll(desk, joint, stand, other, places.points, {
      way,
      diameter,
      depth,
      what: 'dowel hole',
    });
  }
  desk.buy({ kind: 'dowel', diameter, length, count: places.points.length });
}

function angledScrews(meet: Meet, joint: Joint, desk: Desk): void {
  const places = placesOf(meet, joint, desk, usualCount);
  if (places === undefined) return;
  const { a, b } = meet;
  const plan = planScrew([a, b], places.wood, joint, desk);
  if (plan === undefined) return;
  const { gauge, length, isThroughPart, clear, through, pilot, bite } = plan;
  const [head, point] = isThroughPart ? [a, b] : [b, a];
  const on = isThroughPart ? places.normal : opposite(places.normal);
  drillAll(desk, joint, head, point.name, places.points, {
    way: opposite(on),
    diameter: clear,
    depth: through + OUTSIDE,
    what: `hole for a ${gauge} screw`,
  });
  if (pilot !== undefined) {
    drillAll(desk, joint, point, head.name, places.points, {
      way: on,
      diameter: pilot,
      depth: bite,
      what: `pilot hole for a ${gauge} screw`,
    });
  }
  desk.buy({ kind: 'wood screw', gauge, length, count: places.points.length });
}

interface Drilled {
  /** Into the wood, in the room. */
  readonly way: Triple;
  readonly diameter: number;
  readonly depth: number;
  readonly what: string;
}

function drillAll(
  desk: Desk,
  joint: Joint,
  stand: Stand,
  other: string,
  points: readonly Triple[],
  { way, diameter, depth, what }: Drilled,
): void {
  for (const point of points) {
    sink(desk, joint, stand, other, {
      cut: {
        kind: 'angled hole',
        from: ownPoint(stand, point),
        into: turnedBack(stand.placement, way),
        diameter,
        tolerance: HOLE_TOLERANCE,
        depth,
      },
      normal: opposite(way),
      what,
      sides: [diameter, diameter],
    });
  }
}
