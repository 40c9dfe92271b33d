import { TOLERANCE } from '../shaped/tolerance.ts';
import { JOINT_SAYS } from './says.ts';
import { AXIS_INDEXES, axesInFace, highOf, lowOf, type Span, type Stand, sideOf } from './stand.ts';
import { APART, LEAVE } from './usual.ts';
import type { Desk, JointCut } from './work.ts';

const isMortise = ({ what }: JointCut): boolean => what === 'mortise';
const CHANNELS: ReadonlySet<string> = new Set(['groove', 'dado', 'rabbet']);

/**
 * Says where cuts leave too little wood: 1/4 in beyond a mortise and beside it, 1/8 in between two mortises and under
 * a groove, dado or rabbet: common practice, no source. What goes out at a face leaves nothing there on purpose.
 */
export function thinWalls(desk: Desk, stands: readonly (Stand | undefined)[]): void {
  for (const [index, cuts] of desk.cuts) {
    const stand = stands[index];
    if (stand === undefined || !stand.isSquare) continue;
    const mortises = cuts.filter(isMortise);
    for (const cut of mortises) aroundMortise(desk, stand, cut);
    for (const cut of cuts) if (CHANNELS.has(cut.what)) underChannel(desk, stand, cut);
    mortises.forEach((one, place) => {
      for (const other of mortises.slice(place + 1)) apart(desk, stand, one, other);
    });
  }
}

function aroundMortise(desk: Desk, stand: Stand, cut: JointCut): void {
  const { axis, isHigh } = sideOf(cut.face);
  const whole = stand.size[axis] ?? 0;
  const beyond = isHigh ? lowOf(cut.box, axis) : whole - highOf(cut.box, axis);
  const beside = axesInFace(axis).flatMap((one) => [
    lowOf(cut.box, one),
    (stand.size[one] ?? 0) - highOf(cut.box, one),
  ]);
  told(desk, stand, cut, [beyond, ...beside], LEAVE);
}

function underChannel(desk: Desk, stand: Stand, cut: JointCut): void {
  const { axis, isHigh } = sideOf(cut.face);
  const whole = stand.size[axis] ?? 0;
  told(desk, stand, cut, [isHigh ? lowOf(cut.box, axis) : whole - highOf(cut.box, axis)], APART);
}

/** The thinnest that is left, where it is too thin; 0 is cut through on purpose, and said elsewhere where it is not. */
function told(
  desk: Desk,
  stand: Stand,
  { joint, what }: JointCut,
  left: readonly number[],
  least: number,
): void {
  const thin = left.filter((one) => one > TOLERANCE && one < least - TOLERANCE);
  if (thin.length === 0) return;
  const says = JOINT_SAYS.little(
    what,
    stand.name,
    desk.format(Math.min(...thin)),
    desk.format(least),
  );
  desk.say(joint, says);
}

/** Of two mortises from different rows or faces; those of one tenon beside another are laid out together. */
function apart(desk: Desk, stand: Stand, one: JointCut, other: JointCut): void {
  if (one.joint === other.joint && one.face === other.face) return;
  const gap = Math.hypot(
    ...AXIS_INDEXES.map((axis) => Math.max(0, gapAlong(one.box, other.box, axis))),
  );
  if (gap >= APART - TOLERANCE) return;
  const words = gap <= TOLERANCE ? 'meet' : `are ${desk.format(gap)} apart`;
  const later = one.joint.at.row > other.joint.at.row ? one : other;
  const earlier = later === one ? other : one;
  const [first, second] = [later.other ?? '', earlier.other ?? ''];
  desk.say(later.joint, JOINT_SAYS.meets(first, second, stand.name, words, desk.format(APART)));
}

const gapAlong = (one: Span, other: Span, axis: 0 | 1 | 2): number =>
  Math.max(lowOf(one, axis) - highOf(other, axis), lowOf(other, axis) - highOf(one, axis));
