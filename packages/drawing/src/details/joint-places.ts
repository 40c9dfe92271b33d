import type { Joint, JointCut, JointWork, Span } from '@kerfbook/functions/joints';
import { extent, Stand, sharedSpan } from '@kerfbook/functions/joints';
import { movedTo, type Triple } from '@kerfbook/solids';
import type { Piece } from '../scene.ts';

/** A piece at a joint, with what the joint cuts from it there. */
export interface Member {
  /** Where it stands, and its own frame. */
  readonly stand: Stand;
  /** The piece itself, cut. */
  readonly piece: Piece;
  /** In the order in which they are cut; none of a shelf that sits in a dado. */
  readonly cuts: readonly JointCut[];
  /** What other joints cut from it. */
  readonly others: readonly JointCut[];
}

/** One place in which a row of the joints table is made; pieces alike are told by one. */
export interface JointPlace {
  /** The row. */
  readonly joint: Joint;
  /** The piece of the part. */
  readonly a: Member;
  /** The piece that it goes into; left out for a cut in one part. */
  readonly b?: Member;
}

/** Cuts that come nearer to a piece than this are at that piece, mm. */
const NEAR = 0.01;

/** The first place of each joint that is made, in the order of the rows. */
export function jointPlaces(
  pieces: readonly Piece[],
  { cuts, joined }: Pick<JointWork, 'cuts' | 'joined'>,
): readonly JointPlace[] {
  const joints = new Set([...cuts.values()].flatMap((own) => own.map(({ joint }) => joint)));
  const stands = pieces.map((piece, index) => Stand.of(index, piece));
  const member = (index: number, chosen: (cut: JointCut, stand: Stand) => boolean) => {
    const [piece, stand] = [pieces[index], stands[index]];
    if (piece === undefined || stand === undefined) return undefined;
    const all = cuts.get(index) ?? [];
    const own = all.filter((cut) => chosen(cut, stand));
    return { piece, stand, cuts: own, others: all.filter((cut) => !own.includes(cut)) };
  };
  const placeOf = (joint: Joint, index: number): JointPlace | undefined => {
    if (joint.into === undefined) {
      const a = member(index, (cut) => cut.joint === joint);
      return a === undefined || a.cuts.length === 0 || !isMade(a) ? undefined : { joint, a };
    }
    for (const other of joined.get(index) ?? []) {
      const [mine, its] = [pieces[index], pieces[other]];
      if (mine === undefined || its === undefined || its.part.name !== joint.into) continue;
      const at = (place: Piece) => (cut: JointCut, stand: Stand) =>
        cut.joint === joint && isNear(roomOf(stand, cut.box), place);
      const [a, b] = [member(index, at(its)), member(other, at(mine))];
      if (a === undefined || b === undefined || a.cuts.length + b.cuts.length === 0) continue;
      if (isMade(a) && isMade(b)) return { joint, a, b };
    }
    return undefined;
  };
  return [...joints]
    .sort((one, other) => one.at.row - other.at.row)
    .flatMap((joint) => {
      for (const [index, { part }] of pieces.entries()) {
        const place = part.name === joint.part ? placeOf(joint, index) : undefined;
        if (place !== undefined) return [place];
      }
      return [];
    });
}

/** Whether all that the joint cuts is cut: what cannot be made is told at its row, and shown nowhere. */
const isMade = ({ piece: { part, copy }, cuts }: Member): boolean =>
  cuts.every(({ cut }) => part.cuts?.[copy]?.includes(cut) === true);

/** The box of the room around one of a piece's own frame. */
export function roomOf({ placement }: Stand, { low, high }: Span): Span {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((corner): Triple => {
    const side = (axis: 0 | 1 | 2): number => ((corner >> axis) & 1 ? high[axis] : low[axis]);
    return movedTo(placement, [side(0), side(1), side(2)]);
  });
  const ends = (pick: (...all: number[]) => number): Triple => [
    pick(...corners.map(([x]) => x)),
    pick(...corners.map(([, y]) => y)),
    pick(...corners.map(([, , z]) => z)),
  ];
  return { low: ends(Math.min), high: ends(Math.max) };
}

/** Where a piece is in the room. */
export const boxOf = ({ from, to }: Pick<Piece, 'from' | 'to'>): Span => ({
  low: [from.x, from.y, from.z],
  high: [to.x, to.y, to.z],
});

function isNear(box: Span, piece: Piece): boolean {
  const shared = sharedSpan(box, boxOf(piece));
  return ([0, 1, 2] as const).every((axis) => extent(shared, axis) >= -NEAR);
}
