import {
  type AxisIndex,
  axesInFace,
  extent,
  faceAt,
  type Hardware,
  highOf,
  type JointCut,
  type JointWork,
  lowOf,
  Stand,
  sideOf,
} from '@kerfbook/functions/joints';
import type { Piece } from '../scene.ts';
import type { Format } from '../units.ts';

/** From where to where something is marked, mm from a face or an end of the piece as it stands. */
export interface Marked {
  /** What it is measured from, such as `upper end` or `front face`. */
  readonly reference: string;
  /** mm from there. */
  readonly from: number;
  /** mm from there, further than `from`. */
  readonly to: number;
}

/** One cut as it is marked out on a piece. */
export interface MarkedCut {
  /** What it is, and for which part: `mortise for Rail`. */
  readonly what: string;
  /** The face or end that it is marked on, as the piece stands. */
  readonly on: string;
  /** Along the piece, and across it; on an end, across it both ways. */
  readonly marks: readonly Marked[];
  /** How deep it is; of a tenon how long. */
  readonly depth: number;
  /** Of a hole. */
  readonly diameter?: number;
  /** Degrees from square to the face. */
  readonly lean?: number;
}

/** Pieces that are cut alike. */
export interface MarkedPieces {
  /** The part's name. */
  readonly part: string;
  /** How many pieces the part has in all. */
  readonly count: number;
  /** Which of these they are, from 0. */
  readonly copies: readonly number[];
  /** In the order of the joints table. */
  readonly cuts: readonly MarkedCut[];
}

const SAID: Readonly<Record<string, string>> = { top: 'upper', bottom: 'lower' };

/** What is marked out on each piece; pieces that are cut alike are told together. */
export function markedPieces(
  pieces: readonly Piece[],
  { cuts }: Pick<JointWork, 'cuts'>,
): readonly MarkedPieces[] {
  const groups = new Map<string, MarkedPieces & { readonly copies: number[] }>();
  pieces.forEach((piece, index) => {
    const own = cuts.get(index);
    const stand = own === undefined ? undefined : Stand.of(index, piece);
    if (own === undefined || stand === undefined) return;
    const marked = own.map((cut) => markedCut(stand, cut));
    const key = JSON.stringify([piece.part.at, marked]);
    const known = groups.get(key);
    if (known === undefined) {
      const { name: part, count } = piece.part;
      groups.set(key, { part, count, copies: [piece.copy], cuts: marked });
    } else known.copies.push(piece.copy);
  });
  return [...groups.values()];
}

function markedCut(stand: Stand, { cut, what, face, box, other, note }: JointCut): MarkedCut {
  const { axis } = sideOf(face);
  return {
    what: `${what}${other === undefined ? '' : ` for ${other}`}${note === undefined ? '' : `, ${note}`}`,
    on: placeWord(stand, axis, sideOf(face).isHigh),
    marks: axesInFace(axis).map((one) => markAlong(stand, box, one)),
    depth: extent(box, axis),
    ...('diameter' in cut ? { diameter: cut.diameter } : {}),
    ...('lean' in cut && cut.lean !== undefined ? { lean: cut.lean } : {}),
  };
}

/** From the start of the piece's own axis: one face for all marks along it. */
const markAlong = (stand: Stand, box: JointCut['box'], axis: AxisIndex): Marked => ({
  reference: placeWord(stand, axis, false),
  from: lowOf(box, axis),
  to: highOf(box, axis),
});

function placeWord(stand: Stand, axis: AxisIndex, isHigh: boolean): string {
  const word = stand.faceWord(faceAt(axis, isHigh));
  return `${SAID[word] ?? word} ${axis === 0 ? 'end' : 'face'}`;
}

/** A piece of hardware as a list calls it: `Dowels, 3/8 × 2`. */
export function hardwareSays(
  { kind, gauge, length, diameter, width, thickness, count }: Hardware,
  format: Format,
): string {
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)}${count === 1 ? '' : 's'}`;
  const sizes = [thickness, diameter, width, length].flatMap((mm) =>
    mm === undefined ? [] : [format(mm)],
  );
  return `${name}, ${gauge === undefined ? '' : `${gauge} × `}${sizes.join(' × ')}`;
}
