import { TOLERANCE } from '../shaped/tolerance.ts';
import { rabbetCut } from './channels.ts';
import { facesOf } from './facing.ts';
import { holeCut, spread } from './holes.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import {
  type AxisIndex,
  axesInFace,
  channelCut,
  extent,
  type Face,
  type Span,
  type Stand,
  sideOf,
  spanWith,
  sunkTo,
} from './stand.ts';
import { fits } from './tenons.ts';
import { usualFromEnd, usualThickness } from './usual.ts';
import type { Desk } from './work.ts';

/** What is cut into one part alone. */
export function single(stand: Stand, joint: Joint, desk: Desk): void {
  const faces = facesOf(stand, joint.faces ?? [], joint, desk);
  const [face, edge] = faces ?? [];
  if (face === undefined) return;
  const whole: Span = { low: [0, 0, 0], high: stand.size };
  const { axis } = sideOf(face);
  const thick = stand.size[axis] ?? 0;
  if (joint.depth !== undefined && joint.depth > thick + TOLERANCE) {
    const [got, most] = [desk.format(joint.depth), desk.format(thick)];
    desk.say(joint, JOINT_SAYS.tooBig('depth', got, most), 'depth');
    return;
  }
  if (joint.kind === 'hole' || joint.kind === 'slot') openings(stand, joint, desk, face);
  else if (joint.kind === 'rabbet') edgeRabbet(stand, joint, desk, face, edge);
  else {
    const [first, second] = axesInFace(axis);
    const run = joint.kind.endsWith('dado') ? second : first;
    const across = run === first ? second : first;
    const width = joint.width ?? desk.usual(joint, () => usualThickness(thick));
    const depth = joint.depth ?? desk.usual(joint, () => usualThickness(thick));
    if (width === undefined || depth === undefined) return;
    if (!fits(joint, desk, 'width', width, extent(whole, across))) return;
    const from = startOf(stand, joint, desk, across, width);
    if (from === undefined) return;
    const box = sunkTo(spanWith(whole, across, from, from + width), face, depth, stand.size);
    const cut = channelCut(box, face, run, stand.size);
    desk.cut(stand, { cut, what: run === 0 ? 'groove' : 'dado', joint, face, box });
  }
}

/** Where what is so wide begins: as far from the lower, left or front edge as the row says, else in the middle. */
function startOf(
  stand: Stand,
  joint: Joint,
  desk: Desk,
  across: AxisIndex,
  width: number,
): number | undefined {
  const room = stand.size[across] ?? 0;
  if (joint.fromEdge === undefined) return (room - width) / 2;
  if (joint.fromEdge + width > room + TOLERANCE) {
    const [got, most] = [desk.format(joint.fromEdge), desk.format(Math.max(0, room - width))];
    desk.say(joint, JOINT_SAYS.tooBig('distance from the edge', got, most), 'from edge');
    return undefined;
  }
  return stand.fromLowEdge(across, joint.fromEdge, width);
}

function edgeRabbet(
  stand: Stand,
  joint: Joint,
  desk: Desk,
  face: Face,
  edge: Face | undefined,
): void {
  const [into, across] = [sideOf(face), sideOf(edge ?? face)];
  if (edge === undefined || into.axis === across.axis) {
    desk.say(joint, JOINT_SAYS.noFace(joint.kind, stand.name), 'face');
    return;
  }
  const [thick, room] = [stand.size[into.axis] ?? 0, stand.size[across.axis] ?? 0];
  const depth = joint.depth ?? thick / 2;
  const width = joint.width ?? depth;
  if (!fits(joint, desk, 'width', width, room)) return;
  const whole: Span = { low: [0, 0, 0], high: stand.size };
  const strip = spanWith(
    whole,
    across.axis,
    across.isHigh ? room - width : 0,
    across.isHigh ? room : width,
  );
  const box = sunkTo(strip, face, depth, stand.size);
  desk.cut(stand, {
    cut: rabbetCut(box, face, edge, stand.size),
    what: 'rabbet',
    joint,
    face,
    box,
  });
}

/** Holes and slots along a face. */
function openings(stand: Stand, joint: Joint, desk: Desk, face: Face): void {
  const { axis } = sideOf(face);
  const [run, across] = axesInFace(axis);
  const isSlot = joint.kind === 'slot';
  const wide = isSlot ? joint.width : (joint.diameter ?? joint.width);
  const long = isSlot ? joint.length : wide;
  if (wide === undefined || long === undefined) {
    const needs = isSlot ? 'a width and a length' : 'a diameter';
    desk.say(joint, `The ${joint.kind} in ${stand.name} has no size; give it ${needs}.`);
    return;
  }
  if (!fits(joint, desk, isSlot ? 'width' : 'diameter', wide, stand.size[across] ?? 0)) return;
  if (long < wide) {
    desk.say(
      joint,
      JOINT_SAYS.tooBig('width', desk.format(wide), `${desk.format(long)} of length`),
      'width',
    );
    return;
  }
  const room = stand.size[run] ?? 0;
  const count = joint.count ?? 1;
  const fromEnd = joint.fromEnd ?? usualFromEnd(room);
  if ((count === 1 ? fromEnd : 2 * fromEnd) > room + TOLERANCE) {
    const [got, most] = [
      desk.format(fromEnd),
      count === 1 ? desk.format(room) : `${desk.format(room)} for those from both ends`,
    ];
    desk.say(joint, JOINT_SAYS.tooBig('distance from the end', got, most), 'from end');
    return;
  }
  const begins = startOf(stand, joint, desk, across, wide);
  if (begins === undefined) return;
  const depth = joint.depth ?? stand.size[axis] ?? 0;
  const whole: Span = { low: [0, 0, 0], high: stand.size };
  // One alone is where the row says, else in the middle.
  const places =
    count === 1 && joint.fromEnd !== undefined
      ? [stand.inRoom(run).sign > 0 ? fromEnd : room - fromEnd]
      : spread(0, room, count, fromEnd);
  for (const at of places) {
    const spot = spanWith(
      spanWith(whole, run, at - long / 2, at + long / 2),
      across,
      begins,
      begins + wide,
    );
    const box = sunkTo(spot, face, depth, stand.size);
    const isThrough = depth >= (stand.size[axis] ?? 0) - TOLERANCE;
    const cut = isSlot
      ? ({
          kind: 'slot',
          face,
          at: [at, begins + wide / 2],
          length: long,
          width: wide,
          ...(isThrough ? {} : { depth }),
        } as const)
      : holeCut(box, face, wide, depth, stand.size);
    desk.cut(stand, { cut, what: joint.kind, joint, face, box });
  }
}
