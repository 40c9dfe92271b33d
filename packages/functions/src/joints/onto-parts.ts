import type { Cut, Length } from '@kerfbook/solids';
import { type BlockOrSolid, type FormedPart, joinedPiece } from '../shaped/index.ts';
import type { JointProblem, Piece } from './piece.ts';
import { JOINT_SAYS } from './says.ts';
import type { JointCut, JointWork } from './work.ts';

/** Cuts that are made in one piece: past it a change would cost its pace. */
export const MOST_CUTS = 60;

/** Parts with what their joints cut and hide, and what could not be made. */
export interface JoinedParts<T> {
  /** In the order in which they were given; those that joints do not touch are the same objects. */
  readonly parts: readonly T[];
  /** Cuts that cannot be made, each once at its row. */
  readonly problems: readonly JointProblem[];
}

/**
 * Puts what joints come to on the parts whose pieces they cut.
 * @param pieces those that the joints were worked out for, each with its part among `parts`
 */
export function ontoParts<T extends FormedPart>(
  parts: readonly T[],
  pieces: readonly (Piece & { readonly part: T })[],
  work: Pick<JointWork, 'cuts' | 'joined'>,
  format: Length,
): JoinedParts<T> {
  const problems: JointProblem[] = [];
  const cuts = new Map<T, (readonly Cut[])[]>();
  for (const [index, own] of work.cuts) {
    const piece = pieces[index];
    if (piece !== undefined) {
      listOf(cuts, piece.part)[piece.copy] = makeable(piece, own, format, problems);
    }
  }
  const joinedTo = new Map<T, (readonly BlockOrSolid[])[]>();
  for (const [index, others] of work.joined) {
    const piece = pieces[index];
    if (piece === undefined || others.size === 0) continue;
    listOf(joinedTo, piece.part)[piece.copy] = [...others].flatMap((other) => {
      const one = pieces[other];
      return one === undefined ? [] : [blockOf(one)];
    });
  }
  return {
    parts: parts.map((part) => {
      const [own, others] = [cuts.get(part), joinedTo.get(part)];
      if (own === undefined && others === undefined) return part;
      return {
        ...part,
        ...(own === undefined ? {} : { cuts: own }),
        ...(others === undefined ? {} : { joinedTo: others }),
      };
    }),
    problems,
  };
}

/** What is kept for each piece of a part. */
function listOf<T extends FormedPart, V>(all: Map<T, (readonly V[])[]>, part: T): (readonly V[])[] {
  const known = all.get(part) ?? Array.from({ length: part.count }, () => []);
  all.set(part, known);
  return known;
}

const blockOf = ({ from, to, solid }: Piece): BlockOrSolid => ({
  low: [from.x, from.y, from.z],
  high: [to.x, to.y, to.z],
  ...(solid === undefined ? {} : { solid }),
});

/** Cuts of a piece that can be made; the others are said once at their rows. */
function makeable(
  { part, copy }: Piece,
  own: readonly JointCut[],
  format: Length,
  problems: JointProblem[],
): readonly Cut[] {
  const say = (at: JointProblem['at'], says: string): void => {
    const isTold = problems.some((one) => one.at.row === at.row && one.says === says);
    if (!isTold) problems.push({ at, says });
  };
  const beyond = own[MOST_CUTS]?.joint.at;
  if (beyond !== undefined) say(beyond, JOINT_SAYS.manyCuts(part.name, MOST_CUTS));
  const all = own.slice(0, MOST_CUTS).map(({ cut }) => cut);
  if (part.placing === undefined) return [];
  const { wrong = [] } = joinedPiece(part, part.placing, copy, all, format) ?? {};
  for (const { cut, says } of wrong) {
    const at = own[cut]?.joint.at;
    if (at !== undefined) say(at, `${part.name}: ${says}`);
  }
  const bad = new Set(wrong.map(({ cut }) => cut));
  return all.filter((_, index) => !bad.has(index));
}
