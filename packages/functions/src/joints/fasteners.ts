import { TOLERANCE } from '../shaped/tolerance.ts';
import { facesOf } from './facing.ts';
import { HOLE_TOLERANCE, holeCut, spread } from './holes.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import {
  type AxisIndex,
  axesInFace,
  extent,
  type Face,
  highOf,
  lowOf,
  type Meet,
  mortiseCut,
  type Span,
  type Stand,
  sideOf,
  spanWith,
  sunkTo,
} from './stand.ts';
import { fits } from './tenons.ts';
import {
  clearanceHole,
  POCKET,
  pilotHole,
  SPARE,
  USUAL_GAUGE,
  usualCount,
  usualDowel,
  usualDowelDepth,
  usualFromEnd,
  usualLength,
  usualPocketScrew,
  usualScrew,
  usualThickness,
  usualWidth,
} from './usual.ts';
import type { Desk } from './work.ts';

/** Where two pieces touch. */
interface Contact {
  readonly axis: AxisIndex;
  /** The faces that touch, of the part and of the other piece. */
  readonly faces: readonly [Face, Face];
  /** In the room: along which axis the fasteners follow each other, and which they lie in the middle of. */
  readonly run: AxisIndex;
  readonly thin: AxisIndex;
  /** Where the fasteners are along the run, in the room. */
  readonly along: readonly number[];
  /** Their middle across it, in the room. */
  readonly middle: number;
  /** How long and how thick the joint is. */
  readonly long: number;
  readonly thick: number;
}

/** @param mayRun whether fasteners may follow each other along an axis of the room; the longer one where both will do */
function contactOf(
  meet: Meet,
  joint: Joint,
  desk: Desk,
  usual: Usual,
  mayRun: (axis: AxisIndex) => boolean = () => true,
): Contact | undefined {
  const { a, b, room, touching: axis } = meet;
  if (axis === undefined) return undefined;
  const isUp =
    lowOf(a.room, axis) + highOf(a.room, axis) < lowOf(b.room, axis) + highOf(b.room, axis);
  const [one, two] = axesInFace(axis);
  const longer = extent(room, one) > extent(room, two) + TOLERANCE ? one : two;
  const shorter = longer === one ? two : one;
  const run = mayRun(longer) || !mayRun(shorter) ? longer : shorter;
  const thin = run === one ? two : one;
  const [long, thick] = [extent(room, run), extent(room, thin)];
  const fromEnd = joint.fromEnd ?? usualFromEnd(long);
  if (2 * fromEnd > long + TOLERANCE) {
    const [got, most] = [desk.format(fromEnd), `${desk.format(long)} for those from both ends`];
    desk.say(joint, JOINT_SAYS.tooBig('distance from the end', got, most), 'from end');
    return undefined;
  }
  const count = joint.count ?? desk.usual(joint, () => usual(long, fromEnd));
  if (count === undefined) return undefined;
  const edge = joint.fromEdge;
  if (edge !== undefined && edge > thick) {
    const [got, most] = [desk.format(edge), desk.format(thick)];
    desk.say(joint, JOINT_SAYS.tooBig('distance from the edge', got, most), 'from edge');
    return undefined;
  }
  return {
    axis,
    faces: [a.facing(axis, isUp), b.facing(axis, !isUp)],
    run,
    thin,
    along: spread(lowOf(room, run), long, count, fromEnd),
    middle: lowOf(room, thin) + (edge ?? thick / 2),
    long,
    thick,
  };
}

/** How many fasteners a joint of this length takes, the first so far from the end. */
export type Usual = (long: number, fromEnd: number) => number;

/** A box around a point of the contact, in the room, as deep as nothing. */
function boxAt(
  { run, thin, middle }: Contact,
  room: Span,
  at: number,
  long: number,
  wide: number,
): Span {
  return spanWith(
    spanWith(room, run, at - long / 2, at + long / 2),
    thin,
    middle - wide / 2,
    middle + wide / 2,
  );
}

/** How much wood a piece has behind a face. */
const woodBehind = (stand: Stand, face: Face): number => stand.size[sideOf(face).axis] ?? 0;

interface Drilled {
  readonly stand: Stand;
  readonly face: Face;
  readonly diameter: number;
  readonly depth: number;
  readonly what: string;
  readonly other: string;
}

function drill(desk: Desk, joint: Joint, room: Span, hole: Drilled): void {
  const { stand, face, diameter, depth, what, other } = hole;
  const box = sunkTo(stand.toOwn(room), face, Math.min(depth, woodBehind(stand, face)), stand.size);
  const cut = holeCut(box, face, diameter, depth, stand.size);
  desk.cut(stand, { cut, what, joint, face, box, other });
}

/** Dowels as thick, long and deep as a joint takes them. */
export interface DowelPlan {
  readonly diameter: number;
  readonly length: number;
  /** How deep the holes are, in the part and in the other piece. */
  readonly depths: readonly [number, number];
}

/** Which dowels go into two pieces that have so much wood behind where they touch; what will not do is said. */
export function planDowels(
  [a, b]: readonly [Stand, Stand],
  thick: number,
  [mine, its]: readonly [number, number],
  joint: Joint,
  desk: Desk,
): DowelPlan | undefined {
  const diameter = joint.diameter ?? usualDowel(thick, desk.units);
  if (!fits(joint, desk, 'diameter', diameter, thick)) return undefined;
  const [inMine, inIts] = [usualDowelDepth(diameter, mine), usualDowelDepth(diameter, its)];
  const length = joint.length ?? inMine + inIts - SPARE;
  // A dowel of another length goes as much deeper or less deep into the end that has more wood.
  const holes = [
    Math.max(inMine, length + SPARE - inIts),
    Math.min(inIts, length + SPARE - inMine),
  ];
  const deep = mine >= its ? holes : reversed(inMine, inIts, length);
  const [first = 0, second = 0] =
    length + SPARE < inMine + inIts ? [(length + SPARE) / 2, (length + SPARE) / 2] : deep;
  for (const [stand, wood, depth] of [
    [a, mine, first],
    [b, its, second],
  ] as const) {
    if (depth < wood - TOLERANCE) continue;
    const [got, most] = [desk.format(length), desk.format(wood)];
    desk.say(
      joint,
      JOINT_SAYS.tooBig('length of the dowel', got, `${most} in ${stand.name}`),
      'length',
    );
    return undefined;
  }
  return { diameter, length, depths: [first, second] };
}

/** Holes for dowels in both. */
export function dowels(meet: Meet, joint: Joint, desk: Desk): void {
  const contact = contactOf(meet, joint, desk, usualDowels);
  if (contact === undefined) return;
  const { a, b, room } = meet;
  const [mine, its] = contact.faces;
  const wood = [woodBehind(a, mine), woodBehind(b, its)] as const;
  const plan = planDowels([a, b], contact.thick, wood, joint, desk);
  if (plan === undefined) return;
  const { diameter, length, depths } = plan;
  for (const [stand, face, depth, other] of [
    [a, mine, depths[0], b.name],
    [b, its, depths[1], a.name],
  ] as const) {
    for (const at of contact.along) {
      const spot = boxAt(contact, room, at, diameter, diameter);
      drill(desk, joint, spot, { stand, face, diameter, depth, what: 'dowel hole', other });
    }
  }
  desk.buy({ kind: 'dowel', diameter, length, count: contact.along.length });
}

/** One dowel alone would let the parts turn. */
export const usualDowels: Usual = (long, end) => Math.max(2, usualCount(long, end));

const reversed = (mine: number, its: number, length: number): readonly number[] => [
  Math.min(mine, length + SPARE - its),
  Math.max(its, length + SPARE - mine),
];

/** Mortises in both, and tenons of their own. */
export function looseTenons(meet: Meet, joint: Joint, desk: Desk): void {
  const { a, b, room } = meet;
  const isEnd = meet.touching !== undefined && a.own(meet.touching) === 0;
  const contact = contactOf(meet, joint, desk, (long, end) => (isEnd ? 1 : usualCount(long, end)));
  if (contact === undefined) return;
  const [mine, its] = contact.faces;
  const many = contact.along.length;
  const thickness = joint.thickness ?? desk.usual(joint, () => usualThickness(contact.thick));
  const width =
    joint.width ??
    (many === 1
      ? desk.usual(joint, () => usualWidth(contact.long))
      : Math.min(LOOSE_WIDE, contact.long / (2 * many)));
  if (thickness === undefined || width === undefined) return;
  if (!fits(joint, desk, 'thickness', thickness, contact.thick)) return;
  if (!fits(joint, desk, 'width', width, contact.long / many)) return;
  const wood = Math.min(woodBehind(a, mine), woodBehind(b, its));
  const half =
    joint.length === undefined
      ? desk.usual(joint, () => usualLength(thickness, wood))
      : joint.length / 2;
  if (half === undefined) return;
  const depth = half + SPARE / 2;
  if (depth >= wood - TOLERANCE) {
    const [got, most] = [desk.format(2 * half), desk.format(wood)];
    desk.say(
      joint,
      JOINT_SAYS.tooBig('length of the loose tenon', got, `${most} for each half`),
      'length',
    );
    return;
  }
  for (const [stand, face, other] of [
    [a, mine, b.name],
    [b, its, a.name],
  ] as const) {
    for (const at of contact.along) {
      const spot = stand.toOwn(boxAt(contact, room, at, width, thickness));
      const box = sunkTo(spot, face, depth, stand.size);
      const cut = mortiseCut(box, face, stand.size, width >= thickness);
      desk.cut(stand, { cut, what: 'mortise', joint, face, box, other });
    }
  }
  desk.buy({ kind: 'loose tenon', thickness, width, length: 2 * half, count: many });
}

/** One of several loose tenons along an edge is no wider, mm: common practice, no source. */
const LOOSE_WIDE = 50;

/** A screw through one piece into the other. */
export interface ScrewPlan {
  readonly gauge: string;
  readonly length: number;
  /** Whether it goes through the part and into the other piece. */
  readonly isThroughPart: boolean;
  readonly clear: number;
  readonly through: number;
  /** Left out where the wood has no usual hole; that is said. */
  readonly pilot: number | undefined;
  readonly bite: number;
}

/** Which screw goes through the thinner of two pieces into the other; what will not do is said. */
export function planScrew(
  [a, b]: readonly [Stand, Stand],
  [mine, its]: readonly [number, number],
  joint: Joint,
  desk: Desk,
): ScrewPlan | undefined {
  const isThroughPart = mine <= its + TOLERANCE;
  const [head, point] = isThroughPart ? [a, b] : [b, a];
  const [through, wood] = isThroughPart ? [mine, its] : [its, mine];
  const gauge = joint.screw ?? USUAL_GAUGE[desk.units];
  const length = joint.length ?? desk.usual(joint, () => usualScrew(through, wood));
  const clear = desk.usual(joint, () => clearanceHole(gauge));
  if (length === undefined || clear === undefined) return undefined;
  const bite = length - through;
  if (bite <= 0 || bite >= wood - TOLERANCE) {
    desk.say(joint, JOINT_SAYS.noScrew(head.name, point.name), 'length');
    return undefined;
  }
  const material = point.piece.part.material;
  const pilot = joint.diameter ?? desk.usual(joint, () => pilotHole(gauge, material ?? ''));
  return { gauge, length, isThroughPart, clear, through, pilot, bite };
}

/** Screws through the thinner one into the other. */
export function screws(meet: Meet, joint: Joint, desk: Desk): void {
  const contact = contactOf(meet, joint, desk, usualCount);
  if (contact === undefined) return;
  const { a, b, room } = meet;
  const [mine, its] = contact.faces;
  const plan = planScrew([a, b], [woodBehind(a, mine), woodBehind(b, its)], joint, desk);
  if (plan === undefined) return;
  const { gauge, length, isThroughPart, clear, through, pilot, bite } = plan;
  const both = [
    { stand: a, face: mine },
    { stand: b, face: its },
  ] as const;
  const [head, point] = isThroughPart ? both : ([both[1], both[0]] as const);
  for (const at of contact.along) {
    const spot = boxAt(contact, room, at, clear, clear);
    const passed = { ...head, diameter: clear, depth: through, other: point.stand.name };
    drill(desk, joint, spot, { ...passed, what: `hole for a ${gauge} screw` });
    if (pilot === undefined) continue;
    const lead = { ...point, diameter: pilot, depth: bite, other: head.stand.name };
    drill(desk, joint, spot, { ...lead, what: `pilot hole for a ${gauge} screw` });
  }
  desk.buy({ kind: 'wood screw', gauge, length, count: contact.along.length });
}

/** The thinner hole that goes on from a pocket to the end: one bit drills both. */
export const ON_FROM_POCKET = 'hole on from the pocket';

/** Slanted holes in the face of the part, near the end that touches the other piece. */
export function pocketHoles(meet: Meet, joint: Joint, desk: Desk): void {
  const { a, b, room } = meet;
  // They come out in the middle of the thickness: of a part thicker than wide as well, they follow each other beside it.
  const contact = contactOf(meet, joint, desk, usualCount, (axis) => a.own(axis) !== 2);
  if (contact === undefined) return;
  const [edge, its] = contact.faces;
  const side = sideOf(edge);
  const thick = a.piece.part.thickness;
  const screw = joint.length ?? desk.usual(joint, () => usualPocketScrew(thick));
  const [face] = facesOf(a, joint.faces ?? ['inside'], joint, desk) ?? [];
  if (screw === undefined || face === undefined) return;
  if (side.axis === 2 || sideOf(face).axis !== 2) {
    desk.say(joint, JOINT_SAYS.noEnd(joint.kind, a.name, b.name));
    return;
  }
  const turn = (POCKET.degrees * Math.PI) / 180;
  const far = screw / 2;
  if (far * Math.cos(turn) >= woodBehind(b, its) - TOLERANCE) {
    desk.say(joint, JOINT_SAYS.noScrew(a.name, b.name));
    return;
  }
  const [first] = axesInFace(2);
  const across = a.own(contact.run);
  const met = a.toOwn(room);
  const out = (low: number): number => thick / 2 - low - POCKET.on / 2;
  if (out(lowOf(met, 2)) < -TOLERANCE || out(thick - highOf(met, 2)) < -TOLERANCE) {
    desk.say(joint, JOINT_SAYS.pocketsMiss(a.name, b.name));
    return;
  }
  const [deep, back] = [thick / 2 / Math.sin(turn), thick / 2 / Math.tan(turn)];
  const whole = a.size[side.axis] ?? 0;
  const leans = 90 - POCKET.degrees;
  const along = side.axis === first ? 0 : 90;
  const shared = {
    kind: 'hole',
    tolerance: HOLE_TOLERANCE,
    face,
    lean: leans,
    turn: side.isHigh ? along : along - 180,
  } as const;
  for (const at of contact.along) {
    const spot = a.toOwn(boxAt(contact, room, at, POCKET.drill, POCKET.drill));
    const y = (lowOf(spot, across) + highOf(spot, across)) / 2;
    const x = side.isHigh ? whole - back : back;
    const point = side.axis === first ? ([x, y] as const) : ([y, x] as const);
    const box = spanWith(
      spot,
      side.axis,
      Math.min(x, side.isHigh ? whole : 0),
      Math.max(x, side.isHigh ? whole : 0),
    );
    // Out at the edge all around: half its diameter further than where its middle comes out.
    const on = deep + POCKET.on / 2 / Math.tan(turn);
    const drilled = { what: 'pocket hole', joint, face, box, other: b.name };
    const pocket = Math.max(POCKET.drill / 2, deep - far);
    desk.cut(a, {
      ...drilled,
      cut: { ...shared, at: point, diameter: POCKET.drill, depth: pocket },
    });
    desk.cut(a, {
      ...drilled,
      what: ON_FROM_POCKET,
      cut: { ...shared, at: point, diameter: POCKET.on, depth: on },
    });
  }
  desk.buy({ kind: 'pocket screw', length: screw, count: contact.along.length });
}
