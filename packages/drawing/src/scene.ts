import { pieceStanding, placementOf } from '@kerfbook/functions/shaped';
import { boundsOf, type Placement, type Solid } from '@kerfbook/solids';
import { alongAxes, cornerOf } from '@kerfbook/wood';
import type { Part, Placing } from './parts.ts';
import type { PartProblem } from './parts-source.ts';
import { axisOf } from './turn.ts';

/** mm; x along the furniture, y across it, z up from the floor. */
export interface Point {
  /** Along, from the left end. */
  readonly x: number;
  /** Across, from the near side. */
  readonly y: number;
  /** Up from the floor. */
  readonly z: number;
}

export type Axis = keyof Point;

/** In the order of a point's coordinates. */
export const AXES = ['x', 'y', 'z'] as const satisfies readonly Axis[];

/** A box between two opposite corners, mm. */
export interface Box {
  /** The corner with the least of each. */
  readonly from: Point;
  /** The corner with the most of each. */
  readonly to: Point;
}

/** One piece in its place. */
export interface Piece extends Box {
  /** The row it comes from. */
  readonly part: Part;
  /** Which of the row's pieces, from 0. */
  readonly copy: number;
  /** The axis its grain runs along; left out where its row does not say. */
  readonly grain?: Axis;
  /**
   * As it is shaped, where it stands, mm; left out where it is just the upright box. Of a shaped piece that box is
   * the one around it.
   */
  readonly solid?: Solid;
  /** From its own frame (x along its length, y its width, z its thickness) to the room, where it is shaped. */
  readonly stands?: Placement;
}

/** The pieces of all parts that have a position, in their places. */
export interface Scene {
  /** In the order of the parts, and of each part's copies. */
  readonly pieces: readonly Piece[];
  /** Around all pieces; left out when there is none. */
  readonly extents?: Box;
  /** Parts without a position: in the cut list, not in the drawing. */
  readonly unplaced: readonly Part[];
  /** Parts that cannot be placed as their rows say, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** Most pieces drawn; past it a drawing says nothing to the eye and costs a keystroke its pace. */
export const MOST_PIECES = 1000;

/** Parts to pieces in their places. */
export function buildScene(parts: readonly Part[]): Scene {
  const pieces: Piece[] = [];
  const unplaced: Part[] = [];
  const problems: PartProblem[] = [];
  let full = false;
  for (const part of parts) {
    if (part.placing === undefined) {
      unplaced.push(part);
      continue;
    }
    const room = MOST_PIECES - pieces.length;
    // Told once: a table of thousands of rows would otherwise say the same of each.
    if (part.count > room && !full) problems.push({ at: part.countAt, says: tooMany(part, room) });
    full ||= part.count > room;
    if (!full && part.count > 1 && standsStill(part.placing)) {
      problems.push({ at: part.countAt, says: stacked(part) });
    }
    placeCopies(part, part.placing, Math.min(part.count, room), pieces);
  }
  const extents = around(pieces);
  return { pieces, unplaced, problems, ...(extents === undefined ? {} : { extents }) };
}

function placeCopies(part: Part, placing: Placing, count: number, into: Piece[]): void {
  const [alongX, alongY, alongZ] = alongAxes(placing.turn, part);
  for (let copy = 0; copy < count; copy++) {
    const solid = pieceStanding(part, placing, copy, part.cuts?.[copy]);
    const [x, y, z] = cornerOf(placing, copy);
    into.push({
      part,
      copy,
      ...(solid === undefined
        ? { from: { x, y, z }, to: { x: x + alongX, y: y + alongY, z: z + alongZ } }
        : { ...boxAround(solid), solid, stands: placementOf(part, placing, copy) }),
      ...(part.grain === undefined ? {} : { grain: axisOf(placing.turn, part.grain) }),
    });
  }
}

function boxAround(solid: Solid): Box {
  const { low, high } = boundsOf(solid);
  return {
    from: { x: low[0], y: low[1], z: low[2] },
    to: { x: high[0], y: high[1], z: high[2] },
  };
}

/** The smallest box around all of them. */
export function around(boxes: readonly Box[]): Box | undefined {
  if (boxes.length === 0) return undefined;
  const low = { x: Infinity, y: Infinity, z: Infinity };
  const high = { x: -Infinity, y: -Infinity, z: -Infinity };
  for (const { from, to } of boxes) {
    for (const axis of AXES) {
      low[axis] = Math.min(low[axis], from[axis]);
      high[axis] = Math.max(high[axis], to[axis]);
    }
  }
  return { from: low, to: high };
}

const standsStill = ({ lines }: Placing): boolean =>
  lines.every(({ count, step }) => count === 1 || step === 0);

function stacked({ count, name, placing }: Part): string {
  const then =
    placing?.together === true
      ? 'give a step x, step y or step z from one to the next'
      : 'its place leaves no room between them, so make the numbers beside it smaller';
  return `The ${count} pieces of ${name} are drawn in one place; ${then}.`;
}

/** What a piece is called where it is read out: `Leg 2 of 4`, or its part's name where it is the only one. */
export const pieceName = ({ part, copy }: Pick<Piece, 'part' | 'copy'>): string =>
  part.count === 1 ? part.name : `${part.name} ${copy + 1} of ${part.count}`;

const tooMany = (part: Part, room: number): string =>
  `A drawing takes up to ${MOST_PIECES} pieces; ${room} of the ${part.count} pieces of ${part.name} are drawn and none of the rows below, so give it a smaller count or no position.`;
