import type { Cut, Placement, Triple } from '@kerfbook/solids';
import { placementOf } from '../shaped/index.ts';
import { TOLERANCE } from '../shaped/tolerance.ts';
import type { FaceWord } from './faces.ts';
import type { Piece } from './piece.ts';

/** A box by its corners: low and high along each of three axes, mm. */
export interface Span {
  /** The corner with the least of each. */
  readonly low: Triple;
  /** The corner with the most of each. */
  readonly high: Triple;
}

/** An axis of a piece or of the room: 0, 1 or 2. */
export type AxisIndex = 0 | 1 | 2;
export const AXIS_INDEXES: readonly AxisIndex[] = [0, 1, 2];

/** A face of a piece, as cuts call it. */
export type Face = Extract<Cut, { kind: 'groove' }>['face'];

const FACES: readonly (readonly [low: Face, high: Face])[] = [
  ['start', 'end'],
  ['front', 'back'],
  ['bottom', 'top'],
];

/** The face at one side of an axis of the piece. */
export const faceAt = (axis: AxisIndex, isHigh: boolean): Face =>
  FACES[axis]?.[isHigh ? 1 : 0] ?? 'top';

/** The axis that a face is square to, and whether it is at its far end. */
export function sideOf(face: Face): { readonly axis: AxisIndex; readonly isHigh: boolean } {
  const axis = FACES.findIndex((both) => both.includes(face)) as AxisIndex;
  return { axis, isHigh: FACES[axis]?.[1] === face };
}

/** The two axes that lie in the face square to an axis, as cuts count them. */
export const axesInFace = (axis: AxisIndex): readonly [AxisIndex, AxisIndex] =>
  AXIS_INDEXES.filter((one) => one !== axis) as [AxisIndex, AxisIndex];

/** Whole nanometres: what converting there and back adds is taken away. */
const snap = (mm: number): number => Math.round(mm * 1e6) / 1e6 + 0;

const ROOM_FACES: readonly (readonly [low: FaceWord, high: FaceWord])[] = [
  ['left', 'right'],
  ['front', 'back'],
  ['bottom', 'top'],
];

/** A piece where it stands, with the frame that cuts into it are told in. */
export class Stand {
  /** Which of the scene's pieces. */
  readonly index: number;
  /** The piece itself. */
  readonly piece: Piece;
  /** Length, width and thickness, mm. */
  readonly size: Triple;
  /** Where its blank is in the room. */
  readonly room: Span;
  /** From its own frame to the room. */
  readonly placement: Placement;
  readonly #axes: readonly { readonly room: AxisIndex; readonly sign: number }[];
  readonly #shift: Triple;

  private constructor(index: number, piece: Piece, placement: Placement) {
    const { axes, shift } = placement;
    const { length, width, thickness } = piece.part;
    this.placement = placement;
    this.index = index;
    this.piece = piece;
    this.size = [length, width, thickness];
    this.#shift = shift;
    this.#axes = axes.map((way) => {
      const most = Math.max(...way.map(Math.abs));
      const room = way.findIndex((one) => Math.abs(one) === most) as AxisIndex;
      return { room, sign: Math.sign(way[room] ?? 1) };
    });
    this.room = this.toRoom({ low: [0, 0, 0], high: this.size });
  }

  /** Undefined for a piece without a place. */
  static of(index: number, piece: Piece): Stand | undefined {
    const { placing } = piece.part;
    if (placing === undefined) return undefined;
    return new Stand(index, piece, placementOf(piece.part, placing, piece.copy));
  }

  /** Whether it stands square to the room. Boxes of the room are none in the frame of one that leans. */
  get isSquare(): boolean {
    return this.placement.axes.every((way) => way.every((one) => one === 0 || Math.abs(one) === 1));
  }

  /** What its part is called. */
  get name(): string {
    return this.piece.part.name;
  }

  /** The axis of the room that one of its own runs along, and 1 or -1 for which way. */
  inRoom(axis: AxisIndex): { readonly room: AxisIndex; readonly sign: number } {
    return this.#axes[axis] ?? { room: axis, sign: 1 };
  }

  /** Its own axis that runs along one of the room. */
  own(room: AxisIndex): AxisIndex {
    return Math.max(
      0,
      this.#axes.findIndex((one) => one.room === room),
    ) as AxisIndex;
  }

  /** Its face that looks along an axis of the room, up it or down it. */
  facing(room: AxisIndex, isUp: boolean): Face {
    const axis = this.own(room);
    return faceAt(axis, this.inRoom(axis).sign > 0 === isUp);
  }

  /** A face as the piece stands: top, bottom, front, back, left or right. */
  faceWord(face: Face): FaceWord {
    const { axis, isHigh } = sideOf(face);
    const { room, sign } = this.inRoom(axis);
    return ROOM_FACES[room]?.[sign > 0 === isHigh ? 1 : 0] ?? 'top';
  }

  /** A box of the room in its own frame. */
  toOwn({ low, high }: Span): Span {
    const ends = AXIS_INDEXES.map((axis) => {
      const { room, sign } = this.inRoom(axis);
      const shift = this.#shift[room] ?? 0;
      return [sign * ((low[room] ?? 0) - shift), sign * ((high[room] ?? 0) - shift)].sort(
        (a, b) => a - b,
      );
    });
    return spanFrom(ends);
  }

  /** A box of its own frame in the room. */
  toRoom({ low, high }: Span): Span {
    const ends = AXIS_INDEXES.map((room) => {
      const axis = this.own(room);
      const { sign } = this.inRoom(axis);
      const shift = this.#shift[room] ?? 0;
      return [shift + sign * (low[axis] ?? 0), shift + sign * (high[axis] ?? 0)].sort(
        (a, b) => a - b,
      );
    });
    return spanFrom(ends);
  }

  /** Where something begins that is so far in from the lower, left or front edge, along an axis. */
  fromLowEdge(axis: AxisIndex, distance: number, extent: number): number {
    const whole = this.size[axis] ?? 0;
    return this.inRoom(axis).sign > 0 ? distance : snap(whole - distance - extent);
  }
}

const spanFrom = (ends: readonly (readonly number[])[]): Span => {
  const at = (axis: number, side: number): number => snap(ends[axis]?.[side] ?? 0);
  return { low: [at(0, 0), at(1, 0), at(2, 0)], high: [at(0, 1), at(1, 1), at(2, 1)] };
};

/** What a box measures along an axis. */
export const extent = ({ low, high }: Span, axis: AxisIndex): number =>
  snap((high[axis] ?? 0) - (low[axis] ?? 0));

/** Where a box begins along an axis. */
export const lowOf = ({ low }: Span, axis: AxisIndex): number => low[axis] ?? 0;
/** Where a box ends along an axis. */
export const highOf = ({ high }: Span, axis: AxisIndex): number => high[axis] ?? 0;

/** The same box from and to somewhere else along one axis. */
export function spanWith(span: Span, axis: AxisIndex, from: number, to: number): Span {
  const put = (triple: Triple, value: number): Triple =>
    triple.map((one, i) => (i === axis ? snap(value) : one)) as unknown as Triple;
  return { low: put(span.low, from), high: put(span.high, to) };
}

/** What two boxes share; extents below 0 are gaps. */
export const sharedSpan = (one: Span, other: Span): Span => ({
  low: AXIS_INDEXES.map((axis) => Math.max(lowOf(one, axis), lowOf(other, axis))) as never,
  high: AXIS_INDEXES.map((axis) => Math.min(highOf(one, axis), highOf(other, axis))) as never,
});

/** How two pieces meet: reaching into each other, or touching across one axis of the room. */
export interface Meet {
  /** The piece of the part that goes in. */
  readonly a: Stand;
  /** The piece that it goes into. */
  readonly b: Stand;
  /** What they share, in the room. */
  readonly room: Span;
  /** The axis across which they only touch; left out where they reach into each other. */
  readonly touching?: AxisIndex;
}

/** How two pieces meet; undefined where they stand apart or meet in an edge alone. */
export function meetOf(a: Stand, b: Stand): Meet | undefined {
  const room = sharedSpan(a.room, b.room);
  const flat = AXIS_INDEXES.filter((axis) => extent(room, axis) <= TOLERANCE);
  if (flat.some((axis) => extent(room, axis) < -TOLERANCE) || flat.length > 1) return undefined;
  const [touching] = flat;
  return { a, b, room, ...(touching === undefined ? {} : { touching }) };
}

/** A box sunk into a face, as a mortise. */
export function mortiseCut(box: Span, face: Face, size: Triple, round = false): Cut {
  const { axis } = sideOf(face);
  const [first, second] = axesInFace(axis);
  const [length, width] = [extent(box, first), extent(box, second)];
  const depth = depthFrom(box, face, size);
  const isTurned = round && width > length;
  return {
    kind: 'mortise',
    face,
    at: [snap(lowOf(box, first) + length / 2), snap(lowOf(box, second) + width / 2)],
    length: isTurned ? width : length,
    width: isTurned ? length : width,
    ...(depth === undefined ? {} : { depth }),
    ...(round ? { round } : {}),
    ...(isTurned ? { turn: 90 } : {}),
  };
}

/** A box sunk into a face as a channel that runs along one of the face's axes. */
export function channelCut(box: Span, face: Face, run: AxisIndex, size: Triple): Cut {
  const { axis } = sideOf(face);
  const [first, second] = axesInFace(axis);
  const across = run === first ? second : first;
  return {
    kind: run === first ? 'groove' : 'dado',
    face,
    at: lowOf(box, across),
    width: extent(box, across),
    depth: depthFrom(box, face, size) ?? size[axis] ?? 0,
    ...runOf(box, run, size),
  };
}

/** From where to where something runs; nothing where it goes out at that end. */
export function runOf(
  box: Span,
  run: AxisIndex,
  size: Triple,
): { readonly from?: number; readonly to?: number } {
  const [low, high] = [lowOf(box, run), highOf(box, run)];
  return {
    ...(low > TOLERANCE ? { from: low } : {}),
    ...(high < (size[run] ?? 0) - TOLERANCE ? { to: high } : {}),
  };
}

/** How deep a box is sunk below a face; undefined right through. */
function depthFrom(box: Span, face: Face, size: Triple): number | undefined {
  const { axis, isHigh } = sideOf(face);
  const whole = size[axis] ?? 0;
  const depth = isHigh ? whole - lowOf(box, axis) : highOf(box, axis);
  return depth >= whole - TOLERANCE ? undefined : snap(depth);
}

/** A box as deep as this below a face of a piece. */
export function sunkTo(box: Span, face: Face, depth: number, size: Triple): Span {
  const { axis, isHigh } = sideOf(face);
  const whole = size[axis] ?? 0;
  return isHigh ? spanWith(box, axis, whole - depth, whole) : spanWith(box, axis, 0, depth);
}
