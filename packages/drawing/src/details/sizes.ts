import type { JointCut } from '@kerfbook/functions/joints';
import { movedTo, type Triple } from '@kerfbook/solids';
import type { Dimension } from '../dimensions.ts';
import type { Span } from '../spans.ts';
import type { Rectangle } from '../views.ts';
import { boreOf } from './bores.ts';
import { boundsOf, type CutFace, woodOn } from './cut-faces.ts';
import type { JointPlace, Member } from './joint-places.ts';
import { onPaper, type PaperPlane } from './section-plane.ts';
import { along, cross, dot } from './ways.ts';

/** A joint as its plane shows it. */
export interface Cross {
  /** Where it is made. */
  readonly place: JointPlace;
  /** How it lies on the paper. */
  readonly plane: PaperPlane;
  /** The cut face of the part. */
  readonly a: CutFace;
  /** That of the piece it goes into. */
  readonly b?: CutFace;
}

/** A cut of a joint on the paper. */
export interface Shown {
  /** The cut. */
  readonly of: JointCut;
  /** What it takes, or of a tenon what it leaves. */
  readonly room: Rectangle;
}

/** Places nearer to each other than this are one, mm. */
const SAME = 0.01;
/** Facets of a round hole lie so near to its wall, mm. */
const NEAR_WALL = 0.25;

/** The cuts of one of the pieces on the paper; of holes in a row those that the plane goes through. */
export function shownCuts({ stand, cuts }: Member, plane: PaperPlane): readonly Shown[] {
  return cuts.flatMap((of): Shown[] => {
    const bore = boreOf(stand, of);
    if (bore === undefined) {
      const { low, high } = of.box;
      const corners = [low[0], high[0]].flatMap((x) =>
        [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Triple => [x, y, z])),
      );
      const points = corners.map((corner) => onPaper(plane, movedTo(stand.placement, corner)));
      return [{ of, room: boundsOf(points) }];
    }
    const { mouth, into, depth } = bore;
    const away = Math.abs(dot(plane.normal, mouth) - plane.offset);
    const half = reachAcross(stand, of, plane.normal);
    if (away > half + SAME) return [];
    const side = cross(plane.normal, into);
    const beside = reachAcross(stand, of, side);
    const bottom: Triple = [
      mouth[0] + into[0] * depth,
      mouth[1] + into[1] * depth,
      mouth[2] + into[2] * depth,
    ];
    const points = [mouth, bottom].flatMap((point) =>
      [-beside, beside].map((by) => {
        const shift = along(side, by);
        return onPaper(plane, [point[0] + shift[0], point[1] + shift[1], point[2] + shift[2]]);
      }),
    );
    return [{ of, room: boundsOf(points) }];
  });
}

/** How far a hole or a mortise reaches from its middle along a way square to it, mm. */
function reachAcross(stand: Member['stand'], { cut, box }: JointCut, way: Triple): number {
  if ('diameter' in cut) return cut.diameter / 2;
  const { axes } = stand.placement;
  if (cut.kind === 'angled mortise') {
    const run = [0, 1, 2].map((k) =>
      axes.reduce((sum, axis, own) => sum + (axis[k] ?? 0) * (cut.along[own] ?? 0), 0),
    ) as unknown as Triple;
    return (Math.abs(dot(run, way)) > 0.5 ? cut.length : cut.width) / 2;
  }
  const most = axes.map((axis) => Math.abs(dot(axis, way)));
  const own = most.indexOf(Math.max(...most));
  return ((box.high[own] ?? 0) - (box.low[own] ?? 0)) / 2;
}

/** Collects the sizes of a joint. */
export class Sizes {
  readonly #cross: Cross;
  readonly #all: Dimension[] = [];

  constructor(cross: Cross) {
    this.#cross = cross;
  }

  get all(): readonly Dimension[] {
    return this.#all;
  }

  /** The axis along which the joint goes in. */
  get depth(): 'x' | 'y' {
    return this.#cross.plane.depth;
  }

  /** The axis across it. */
  get across(): 'x' | 'y' {
    return this.depth === 'x' ? 'y' : 'x';
  }

  /** How deep something goes. */
  deep(key: string, span: Span, room: Rectangle, isInHost: boolean): void {
    this.#add(key, this.depth, span, room, isInHost);
  }

  /** How wide or thick something is, across the way it goes in. */
  wide(key: string, span: Span, room: Rectangle, isInHost: boolean, isRound = false): void {
    this.#add(key, this.across, span, room, isInHost, isRound);
  }

  /** What is left of the wood behind a cut. */
  behind(name: string, face: CutFace, room: Rectangle, isInHost: boolean): void {
    const [low, high] = spanOf(room, this.depth);
    const [from, to] = spanOf(room, this.across);
    const goesUp = isInHost === this.#cross.plane.sign > 0;
    const wood = woodOn(face.areas, this.depth, (from + to) / 2);
    const left = wood.find((span) => (goesUp ? isAt(span[0], high) : isAt(span[1], low)));
    if (left === undefined) return;
    const span: Span = goesUp ? [high, left[1]] : [left[0], low];
    this.deep(`wood left in ${name}`, span, room, isInHost);
  }

  /** What is left of it beside a cut, on the side where that is less. */
  beside(name: string, face: CutFace, room: Rectangle, isInHost: boolean): void {
    const [low, high] = spanOf(room, this.depth);
    const [from, to] = spanOf(room, this.across);
    const sides = woodOn(face.areas, this.across, (low + high) / 2).flatMap((span): Span[] => {
      if (isAt(span[1], from)) return [[span[0], from]];
      return isAt(span[0], to) ? [[to, span[1]]] : [];
    });
    const [thinner] = sides.sort((one, other) => one[1] - one[0] - (other[1] - other[0]));
    if (thinner !== undefined) this.wide(`wood beside in ${name}`, thinner, room, isInHost);
  }

  /** On the outer side of what it belongs to, so that its lines pass over as little as may be. */
  #add(
    key: string,
    axis: 'x' | 'y',
    [from, to]: Span,
    room: Rectangle,
    isInHost: boolean,
    isRound = false,
  ): void {
    const isTold = this.#all.some(
      (one) =>
        (one.side === 'below') === (axis === 'x') &&
        Math.abs(one.from - from) <= SAME &&
        Math.abs(one.to - to) <= SAME,
    );
    // ISO 129-1: no size twice.
    if (to - from <= SAME || isTold) return;
    const { depth, sign } = this.#cross.plane;
    const isRight = depth === 'x' ? isInHost === sign > 0 : !isInHost;
    const side = axis === 'x' ? 'below' : isRight ? 'right' : 'left';
    const anchor = axis === 'x' ? room.bottom : isRight ? room.right : room.left;
    this.#all.push({
      key,
      side,
      from,
      to,
      fromAnchor: anchor,
      toAnchor: anchor,
      must: false,
      ...(isRound ? { sign: 'Ø' as const } : {}),
    });
  }
}

const isAt = (one: number, other: number): boolean => Math.abs(one - other) <= NEAR_WALL;

/** A rectangle along one of the paper's axes. */
export const spanOf = ({ left, right, bottom, top }: Rectangle, axis: 'x' | 'y'): Span =>
  axis === 'x' ? [left, right] : [bottom, top];
