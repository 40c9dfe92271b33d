import { TOLERANCE } from '../shaped/tolerance.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import {
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
import { SPARE, usualTenons, usualThickness, usualWidth } from './usual.ts';
import type { Desk } from './work.ts';

/** Which end of a piece lies in another, and through which face it comes in. */
export interface Entering {
  readonly end: 'start' | 'end';
  /** What lies in the other piece, in its own frame. */
  readonly own: Span;
  /** The same, in the other piece's frame. */
  readonly inOther: Span;
  /** The face of the other piece that it comes in through. */
  readonly face: Face;
  readonly isThrough: boolean;
  /** How far it stops short of the far face. */
  readonly short: number;
}

/** How the end of a piece lies in another; undefined where none does, which is said. */
export function enteringOf({ a, b, room }: Meet, joint: Joint, desk: Desk): Entering | undefined {
  const own = a.toOwn(room);
  const [length] = a.size;
  const [low, high] = [lowOf(own, 0), highOf(own, 0)];
  const atStart = low <= TOLERANCE;
  if (atStart === high >= length - TOLERANCE) {
    const beyond = Math.min(low, length - high);
    const passes = !atStart && beyond < extent(own, 0);
    desk.say(
      joint,
      passes
        ? JOINT_SAYS.beyond(a.name, b.name, desk.format(beyond))
        : JOINT_SAYS.noEnd(joint.kind, a.name, b.name),
    );
    return undefined;
  }
  const axis = a.inRoom(0);
  const goesUp = axis.sign > 0 !== atStart;
  const face = b.facing(axis.room, !goesUp);
  const inOther = b.toOwn(room);
  const side = sideOf(face);
  const whole = b.size[side.axis] ?? 0;
  const short = side.isHigh ? lowOf(inOther, side.axis) : whole - highOf(inOther, side.axis);
  const end = atStart ? 'start' : 'end';
  return { end, own, inOther, face, isThrough: short <= TOLERANCE, short: Math.max(0, short) };
}

/** Tenons on the end that goes in, and their mortises. */
export function tenons(meet: Meet, joint: Joint, desk: Desk): void {
  const entering = enteringOf(meet, joint, desk);
  if (entering === undefined) return;
  const { a, b } = meet;
  const { own, end } = entering;
  const isThroughWanted = joint.kind === 'through mortise and tenon';
  if (entering.isThrough && !isThroughWanted) desk.say(joint, JOINT_SAYS.through(a.name, b.name));
  if (!entering.isThrough && isThroughWanted) {
    desk.say(joint, JOINT_SAYS.notThrough(a.name, b.name, desk.format(entering.short)));
  }
  const [rail, thick] = [extent(own, 1), extent(own, 2)];
  const thinner = Math.min(thick, b.size[b.own(a.inRoom(2).room)] ?? thick);
  const thickness = joint.thickness ?? desk.usual(joint, () => usualThickness(thinner));
  const width = joint.width ?? desk.usual(joint, () => usualWidth(rail));
  if (thickness === undefined || width === undefined) return;
  if (!fits(joint, desk, 'thickness', thickness, thick)) return;
  if (!fits(joint, desk, 'width', width, rail)) return;
  const isHaunched = joint.kind === 'haunched mortise and tenon';
  const haunchHigh = isHaunched && haunchIsHigh(meet, own);
  const y = beginsAt(a, own, width, joint, isHaunched ? haunchHigh : undefined);
  if (y < lowOf(own, 1) - TOLERANCE || y + width > highOf(own, 1) + TOLERANCE) {
    const room = desk.format(rail - width);
    desk.say(
      joint,
      JOINT_SAYS.tooBig('distance from the edge', desk.format(joint.fromEdge ?? 0), room),
      'from edge',
    );
    return;
  }
  const z = (lowOf(own, 2) + highOf(own, 2) - thickness) / 2;
  const whole = spanWith(spanWith(own, 1, y, y + width), 2, z, z + thickness);
  const count = joint.count ?? desk.usual(joint, () => usualTenons(width, thickness)) ?? 1;
  const gap = thickness;
  const each = (width - (count - 1) * gap) / count;
  if (each < thickness / 2) {
    desk.say(
      joint,
      JOINT_SAYS.tooBig('number of tenons', `${count}`, `${desk.format(width)} for them`),
      'count',
    );
    return;
  }
  const reach = extent(own, 0);
  const haunch = isHaunched ? haunchSpan(own, whole, haunchHigh) : undefined;
  const left = haunch === undefined ? whole : joined(whole, haunch);
  desk.cut(a, {
    cut: {
      kind: 'tenon',
      end,
      length: reach,
      width: extent(left, 1),
      thickness,
      at: [lowOf(left, 1), z],
    },
    what: 'tenon',
    joint,
    face: end,
    box: whole,
    other: b.name,
  });
  if (haunch !== undefined && reach > thickness + TOLERANCE) {
    cutAway(desk, a, joint, end, haunch, reach - thickness, 'haunch', b.name);
  }
  const parts = Array.from({ length: count }, (_, i) => {
    const from = y + i * (each + gap);
    if (i > 0) {
      const between = spanWith(whole, 1, from - gap, from);
      cutAway(desk, a, joint, end, between, reach, 'gap between tenons', b.name);
    }
    return spanWith(whole, 1, from, from + each);
  });
  const depth = mortiseDepth(joint, desk, meet, entering, reach);
  for (const part of parts) mortise(desk, meet, joint, entering, part, depth, 'mortise');
  if (haunch !== undefined) {
    const short = shortened(haunch, end, thickness, a.size[0]);
    const deep = Math.min(depth, thickness + (depth - reach));
    mortise(desk, meet, joint, entering, short, deep, 'groove for the haunch');
  }
}

/** The mortise for what of a piece lies in the other one. */
function mortise(
  desk: Desk,
  { a, b }: Meet,
  joint: Joint,
  { face }: Entering,
  own: Span,
  depth: number,
  what: string,
): void {
  const box = sunkTo(b.toOwn(a.toRoom(own)), face, depth, b.size);
  desk.cut(b, { cut: mortiseCut(box, face, b.size), what, joint, face, box, other: a.name });
}

/** As deep as the row says, else a little deeper than the tenon is long; a through mortise goes through. */
function mortiseDepth(
  joint: Joint,
  desk: Desk,
  { a, b }: Meet,
  { isThrough, face, short }: Entering,
  reach: number,
): number {
  const whole = b.size[sideOf(face).axis] ?? 0;
  if (isThrough) return whole;
  // Glue room never lets a mortise out at the far side.
  if (joint.depth === undefined) return reach + Math.min(SPARE, short / 2);
  if (joint.depth >= reach - TOLERANCE && joint.depth < whole - TOLERANCE) return joint.depth;
  const depth = desk.format(joint.depth);
  desk.say(
    joint,
    joint.depth < whole - TOLERANCE
      ? JOINT_SAYS.shallow(a.name, b.name, depth, desk.format(reach))
      : JOINT_SAYS.tooBig('depth', depth, desk.format(whole)),
    'depth',
  );
  return reach + Math.min(SPARE, short / 2);
}

/** Whether a typed or usual size has room; said at its cell where it has none. */
export function fits(
  joint: Joint,
  desk: Desk,
  column: 'thickness' | 'width' | 'diameter',
  size: number,
  room: number,
): boolean {
  if (size <= room + TOLERANCE) return true;
  desk.say(joint, JOINT_SAYS.tooBig(column, desk.format(size), desk.format(room)), column);
  return false;
}

/** Where a tenon begins across its part: as the row says, away from its haunch, else in the middle. */
function beginsAt(
  a: Stand,
  own: Span,
  width: number,
  { fromEdge }: Joint,
  haunchHigh: boolean | undefined,
): number {
  if (fromEdge !== undefined) return a.fromLowEdge(1, fromEdge, width);
  if (haunchHigh === true) return lowOf(own, 1);
  if (haunchHigh === false) return highOf(own, 1) - width;
  return (lowOf(own, 1) + highOf(own, 1) - width) / 2;
}

/** The haunch lies towards the end of the other piece that is nearer: there the mortise would break out. */
function haunchIsHigh({ a, b, room }: Meet, own: Span): boolean {
  const across = a.inRoom(1);
  if (b.own(across.room) !== 0) return false;
  const up = highOf(b.room, across.room) - highOf(room, across.room);
  const down = lowOf(room, across.room) - lowOf(b.room, across.room);
  return extent(own, 1) > 0 && up <= down === across.sign > 0;
}

const haunchSpan = (own: Span, tenon: Span, isHigh: boolean): Span | undefined => {
  const [from, to] = isHigh ? [highOf(tenon, 1), highOf(own, 1)] : [lowOf(own, 1), lowOf(tenon, 1)];
  return to - from > TOLERANCE ? spanWith(tenon, 1, from, to) : undefined;
};

const joined = (one: Span, other: Span): Span =>
  spanWith(
    one,
    1,
    Math.min(lowOf(one, 1), lowOf(other, 1)),
    Math.max(highOf(one, 1), highOf(other, 1)),
  );

/** Takes a strip off the end of a tenon. */
function cutAway(
  desk: Desk,
  a: Stand,
  joint: Joint,
  end: 'start' | 'end',
  strip: Span,
  deep: number,
  what: string,
  other: string,
): void {
  const [length] = a.size;
  const box =
    end === 'start' ? spanWith(strip, 0, 0, deep) : spanWith(strip, 0, length - deep, length);
  desk.cut(a, {
    cut: { kind: 'dado', face: end, at: lowOf(box, 1), width: extent(box, 1), depth: deep },
    what,
    joint,
    face: end,
    box,
    other,
  });
}

/** What of a tenon's strip next to the shoulder is so long. */
function shortened(strip: Span, end: 'start' | 'end', long: number, length: number): Span {
  const inner = end === 'start' ? highOf(strip, 0) : lowOf(strip, 0);
  const span =
    end === 'start' ? [Math.max(0, inner - long), inner] : [inner, Math.min(length, inner + long)];
  return spanWith(strip, 0, span[0] ?? 0, span[1] ?? 0);
}
