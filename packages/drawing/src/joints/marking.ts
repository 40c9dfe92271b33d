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
  ON_FROM_POCKET,
  Stand,
  sideOf,
} from '@kerfbook/functions/joints';
import { pieceWords, roundedKey } from '../piece-words.ts';
import type { Piece } from '../scene.ts';
import type { Format } from '../units.ts';

/** From where to where something is marked, mm from a face or an end of the piece as it stands. */
export interface Marked {
  /** What it is measured from, such as `top end` or `front face`. */
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
  /** Where each of these stands, in their order: `front left`; left out where no words tell the part's pieces apart. */
  readonly places?: readonly string[];
  /** In the order of the joints table. */
  readonly cuts: readonly MarkedCut[];
}

/** What is marked out on each piece; pieces that are cut alike are told together. */
export function markedPieces(
  pieces: readonly Piece[],
  { cuts }: Pick<JointWork, 'cuts'>,
): readonly MarkedPieces[] {
  const middle = middleOf(pieces);
  const marked = alikePieces(pieces, (piece, index) => {
    const own = cuts.get(index);
    const stand = own === undefined ? undefined : Stand.of(index, piece);
    if (own === undefined || stand === undefined) return undefined;
    // What is drilled on from a pocket, with the same bit, is marked out with it.
    const all = own
      .filter(({ what }) => what !== ON_FROM_POCKET)
      .map((cut) => markedCut(stand, cut, middle, standOf(pieces, cut.other)));
    // Two rails in one rabbet are one rabbet to cut.
    return [...new Map(all.map((cut) => [roundedKey(cut), cut])).values()];
  });
  return marked.map(({ told, ...which }) => ({ ...which, cuts: told }));
}

/** Pieces of a part of which the same is told. */
export interface AlikePieces<Told> extends Omit<MarkedPieces, 'cuts'> {
  /** What is told of each of them. */
  readonly told: Told;
}

/** What is told of each piece; pieces of a part of which the same is told are put together. */
export function alikePieces<Told>(
  pieces: readonly Piece[],
  tellOf: (piece: Piece, index: number) => Told | undefined,
): readonly AlikePieces<Told>[] {
  type Group = AlikePieces<Told> & { readonly copies: number[]; readonly places?: string[] };
  const groups = new Map<string, Group>();
  const words = new Map<Piece['part'], readonly string[] | undefined>();
  pieces.forEach((piece, index) => {
    const told = tellOf(piece, index);
    if (told === undefined) return;
    const key = roundedKey([piece.part.at, told]);
    const known = groups.get(key);
    if (!words.has(piece.part)) words.set(piece.part, pieceWords(piece.part));
    const place = words.get(piece.part)?.[piece.copy];
    if (known === undefined) {
      const { name: part, count } = piece.part;
      const places = place === undefined ? {} : { places: [place] };
      groups.set(key, { part, count, copies: [piece.copy], told, ...places });
      return;
    }
    known.copies.push(piece.copy);
    if (place !== undefined) known.places?.push(place);
  });
  return [...groups.values()];
}

/** Where one of the pieces of a part stands; all of them stand the same way up. */
function standOf(pieces: readonly Piece[], name: string | undefined): Stand | undefined {
  const index = pieces.findIndex(({ part }) => part.name === name);
  const piece = pieces[index];
  return piece === undefined ? undefined : Stand.of(index, piece);
}

function markedCut(
  stand: Stand,
  { cut, what, face, box, other, note }: JointCut,
  middle: readonly number[],
  mate: Stand | undefined,
): MarkedCut {
  const { axis, isHigh } = sideOf(face);
  const lean = 'lean' in cut ? cut.lean : undefined;
  return {
    what: `${what}${other === undefined ? '' : ` for ${other}`}${note === undefined ? '' : `, ${note}`}`,
    on: sideWord(stand, axis, isHigh, middle),
    marks: axesInFace(axis).map((one) =>
      // All pockets from above, where the screws hold the top: some from below would be mistaken.
      lean !== undefined && one !== 0 && stand.inRoom(one).room === 2
        ? markFrom(stand, box, one, middle, stand.inRoom(one).sign > 0)
        : markAlong(stand, box, one, middle, mate),
    ),
    depth: extent(box, axis),
    ...('diameter' in cut ? { diameter: cut.diameter } : {}),
    ...(lean === undefined ? {} : { lean }),
  };
}

/** A face, edge or end that is marked on: of a piece with one outside face that and the one behind it are called so. */
export const sideWord = (
  stand: Stand,
  axis: AxisIndex,
  isHigh: boolean,
  middle: readonly number[],
): string =>
  isOutsideAlone(stand, axis, middle)
    ? `${outsideOf(stand, axis, middle) === isHigh ? 'outside' : 'inside'} face`
    : placeWord(stand, axis, isHigh);

/** The middle of all pieces along the room's axes, mm: what looks away from it is seen. */
export function middleOf(pieces: readonly Piece[]): readonly number[] {
  return (['x', 'y', 'z'] as const).map((axis) => {
    const low = Math.min(...pieces.map(({ from }) => from[axis]));
    const high = Math.max(...pieces.map(({ to }) => to[axis]));
    return (low + high) / 2;
  });
}

/** Nearer to the middle than this neither side of a piece is the outside, mm. */
const IN_THE_MIDDLE = 1e-3;

/**
 * Along the piece from the start of its own axis, across it from the face that shows: wood that is not quite as
 * thick as it should be then shifts nothing that is seen.
 */
function markAlong(
  stand: Stand,
  box: JointCut['box'],
  axis: AxisIndex,
  middle: readonly number[],
  mate: Stand | undefined,
): Marked {
  return markFrom(stand, box, axis, middle, isFromFar(stand, axis, middle, mate));
}

/** From where to where a box goes along one axis of a piece, measured from the end or face at one side of that. */
export function markFrom(
  stand: Stand,
  box: JointCut['box'],
  axis: AxisIndex,
  middle: readonly number[],
  isHigh: boolean,
): Marked {
  const size = stand.size[axis] ?? 0;
  // A cut may reach beyond the wood, as a half pin does; nobody marks anything there.
  const [low, high] = [Math.max(0, lowOf(box, axis)), Math.min(size, highOf(box, axis))];
  return {
    reference: referenceOf(stand, axis, isHigh, middle),
    from: isHigh ? size - high : low,
    to: isHigh ? size - low : high,
  };
}

const isFromFar = (
  stand: Stand,
  axis: AxisIndex,
  middle: readonly number[],
  mate: Stand | undefined,
): boolean => outsideOf(stand, axis, middle) ?? startOf(mate, stand, axis) ?? false;

/** A face that what is cut is measured from. */
export interface MeasuringFace {
  readonly axis: AxisIndex;
  /** Whether it is the one at the far side of that axis. */
  readonly isHigh: boolean;
  /** As a mark names it: `front face`, `outside face`. */
  readonly word: string;
}

/** The faces and edges, not the ends, that cuts of a piece are measured from, each once. */
export function measuringFaces(
  pieces: readonly Piece[],
  stand: Stand,
  cuts: readonly JointCut[],
): readonly MeasuringFace[] {
  const middle = middleOf(pieces);
  const found = new Map<string, MeasuringFace>();
  for (const { face, other } of cuts) {
    for (const axis of axesInFace(sideOf(face).axis)) {
      if (axis === 0) continue;
      const isHigh = isFromFar(stand, axis, middle, standOf(pieces, other));
      const word = referenceOf(stand, axis, isHigh, middle);
      found.set(`${axis} ${isHigh}`, { axis, isHigh, word });
    }
  }
  return [...found.values()];
}

/** Whether the far face across a piece is the one that looks outside; undefined where neither does. */
export function outsideOf(
  stand: Stand,
  axis: AxisIndex,
  middle: readonly number[],
): boolean | undefined {
  const { room, sign } = stand.inRoom(axis);
  // What is high up shows its top no more than its sides.
  if (axis === 0 || room === 2) return undefined;
  const own = ((stand.room.low[room] ?? 0) + (stand.room.high[room] ?? 0)) / 2;
  const away = own - (middle[room] ?? 0);
  return Math.abs(away) <= IN_THE_MIDDLE ? undefined : away > 0 === sign > 0;
}

/**
 * Whether the far side across a piece is the one that the piece it is joined to is measured from, along that: from
 * elsewhere a tenon and its mortise, each rounded by itself, would not bring flush what is flush.
 */
export function startOf(
  mate: Stand | undefined,
  stand: Stand,
  axis: AxisIndex,
): boolean | undefined {
  const [own, along] = [stand.inRoom(axis), mate?.inRoom(0)];
  if (axis === 0 || along?.room !== own.room) return undefined;
  return along.sign !== own.sign;
}

/** Of two outside faces, as those of a leg, each is named; one alone is called that, so that a pair is told once. */
function referenceOf(
  stand: Stand,
  axis: AxisIndex,
  isHigh: boolean,
  middle: readonly number[],
): string {
  return isOutsideAlone(stand, axis, middle) ? 'outside face' : placeWord(stand, axis, isHigh);
}

/**
 * Whether a piece has one outside face and it is across this axis. What the middle goes through has none: a door is seen
 * from both sides.
 */
export function isOutsideAlone(stand: Stand, axis: AxisIndex, middle: readonly number[]): boolean {
  const { room } = stand.inRoom(axis);
  const [low = 0, high = 0, at = 0] = [stand.room.low[room], stand.room.high[room], middle[room]];
  if (low < at && at < high) return false;
  const outside = ([1, 2] as const).filter((one) => outsideOf(stand, one, middle) !== undefined);
  return outside.length === 1 && outside[0] === axis;
}

/** A face, edge or end of a piece as it stands: `front face`, `top edge`, `left end`. */
export function placeWord(stand: Stand, axis: AxisIndex, isHigh: boolean): string {
  const word = stand.faceWord(faceAt(axis, isHigh));
  if (axis === 0) return `${word} end`;
  const [, width, thickness] = stand.size;
  const isEdge = axis === 1 && width > thickness && (word === 'top' || word === 'bottom');
  return `${word} ${isEdge ? 'edge' : 'face'}`;
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
