import {
  axesInFace,
  extent,
  highOf,
  type JointCut,
  lowOf,
  type Stand,
  sideOf,
} from '@kerfbook/functions/joints';
import { movedTo, type Triple, turnedBy } from '@kerfbook/solids';
import { along, axisWay } from './ways.ts';

/** A hole or a mortise of a joint, in the room. */
export interface Bore {
  /** The middle of where it begins. */
  readonly mouth: Triple;
  /** The way it goes into the wood, of length 1. */
  readonly into: Triple;
  /** How far it goes that way, mm. */
  readonly depth: number;
  /** Out of the face that it is sunk into. */
  readonly out: Triple;
  /** Of a round one, mm. */
  readonly diameter?: number;
}

/** A cut as what is sunk into a face around a point; undefined where it is none. */
export function boreOf(stand: Stand, { cut, box }: JointCut): Bore | undefined {
  const { placement } = stand;
  if (cut.kind === 'angled hole' || cut.kind === 'angled mortise') {
    const into = turnedBy(placement, cut.into);
    return {
      mouth: movedTo(placement, cut.from),
      into,
      depth: cut.depth,
      out: along(into, -1),
      ...('diameter' in cut ? { diameter: cut.diameter } : {}),
    };
  }
  if (cut.kind !== 'hole' && cut.kind !== 'mortise' && cut.kind !== 'slot') return undefined;
  const { axis, isHigh } = sideOf(cut.face);
  const [first, second] = axesInFace(axis);
  const own: [number, number, number] = [0, 0, 0];
  own[axis] = isHigh ? (stand.size[axis] ?? 0) : 0;
  own[first] = cut.at[0];
  own[second] = cut.at[1];
  const out = along(axisWay(stand, axis), isHigh ? 1 : -1);
  const shared = {
    mouth: movedTo(placement, own),
    out,
    ...(cut.kind === 'hole' ? { diameter: cut.diameter } : {}),
  };
  if (cut.kind !== 'hole' || cut.lean === undefined) {
    return { ...shared, into: along(out, -1), depth: extent(box, axis) };
  }
  const [lean, turn] = [radians(cut.lean), radians(cut.turn ?? 0)];
  const flat = sum(
    along(axisWay(stand, first), Math.cos(turn)),
    along(axisWay(stand, second), Math.sin(turn)),
  );
  const into = sum(along(out, -Math.cos(lean)), along(flat, Math.sin(lean)));
  return { ...shared, into, depth: cut.depth ?? 0 };
}

/** The longer of the two axes in which a box lies in its face. */
export function longerInFace({
  box,
  face,
}: JointCut): readonly [longer: 0 | 1 | 2, other: 0 | 1 | 2] {
  const [first, second] = axesInFace(sideOf(face).axis);
  const [one, other] = [first, second].map((axis) => highOf(box, axis) - lowOf(box, axis));
  return (one ?? 0) >= (other ?? 0) ? [first, second] : [second, first];
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const sum = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
