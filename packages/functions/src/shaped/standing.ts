import {
  type Cut,
  followedBy,
  leaningBy,
  type Placement,
  type Solid,
  type Triple,
  turnedBy,
} from '@kerfbook/solids';
import {
  alongAxes,
  type Corner,
  cornerOf,
  type Lean,
  leanRoom,
  leansBy,
  type PartForm,
  type PlacedPart,
  type Side,
  type Sides,
} from '@kerfbook/wood';
import { TURNED } from './turned.ts';

/** A part as its shape and its place need it, mm. */
export interface FormedPart extends Sides {
  /** As its row says it. */
  readonly name: string;
  /** How many pieces alike. */
  readonly count: number;
  /** Left out where it is a box. */
  readonly form?: PartForm;
  /** Left out where it does not lean. */
  readonly lean?: Lean;
  /** What its joints cut from each of its pieces, in the piece's own frame; left out where there are none. */
  readonly cuts?: readonly (readonly Cut[])[];
  /** What each of its pieces is joined to, as it stands before its joints are cut; left out where there is nothing. */
  readonly joinedTo?: readonly (readonly BlockOrSolid[])[];
}

/** A piece as the box around it, and as it is shaped where it is no box, mm. */
export interface BlockOrSolid {
  /** The corner with the least of each. */
  readonly low: Corner;
  /** The corner with the most of each. */
  readonly high: Corner;
  /** Where it is no upright box. */
  readonly solid?: Solid | undefined;
}

/** Whether a part is anything but an upright box. */
export const isShaped = ({ form, lean }: Pick<FormedPart, 'form' | 'lean'>): boolean =>
  form !== undefined || lean !== undefined;

/** What a piece takes up at its upper end along x and y, and how high it is. */
export const roomOf = (part: FormedPart, turn: PlacedPart['turn']): Corner =>
  part.lean === undefined
    ? alongAxes(turn, part)
    : leanRoom(part, turn, part.lean, part.form?.ends?.lie);

/** Nearer to the middle than this, a piece stands in it, mm. */
const MIDDLE = 1e-6;

/**
 * To which sides a piece stands from the middle of what it is placed by, along and across: -1, 1, or 0 in it. The
 * pieces of one row have their own middle where there is more than one along an axis.
 */
export function outwardOf(
  part: FormedPart,
  placing: PlacedPart,
  copy: number,
): readonly [along: number, across: number] {
  const room = roomOf(part, placing.turn);
  const own = cornerOf(placing, copy);
  const [along, across] = ([0, 1] as const).map((axis) => {
    const { start, step, count } = placing.lines[axis];
    const last = start + step * ((placing.together ? part.count : count) - 1);
    const [low, high] = [Math.min(start, last), Math.max(start, last)];
    const isSpread = high - low > MIDDLE;
    const middle = isSpread ? (low + high + room[axis]) / 2 : placing.middle?.[axis];
    const away = middle === undefined ? 0 : own[axis] + room[axis] / 2 - middle;
    return Math.abs(away) <= MIDDLE ? 0 : Math.sign(away);
  }) as [number, number];
  return [along, across];
}

/**
 * Shaped parts that go by nothing in words, and so know no middle, with that of all parts: their inside is where
 * the furniture is.
 */
export function withMiddles<T extends { readonly placing?: PlacedPart | undefined }>(
  all: readonly T[],
  partOf: (one: T) => FormedPart,
): readonly T[] {
  const lacks = (one: T): boolean =>
    one.placing !== undefined && one.placing.middle === undefined && isShaped(partOf(one));
  if (!all.some(lacks)) return all;
  const middle = wholeMiddle(all.map((one) => ({ part: partOf(one), placing: one.placing })));
  return all.map((one) => (lacks(one) ? { ...one, placing: { ...one.placing, middle } } : one));
}

/** The middle of all that has a place, along and across: where the inside of what goes by nothing is. */
function wholeMiddle(
  parts: readonly { readonly part: FormedPart; readonly placing?: PlacedPart | undefined }[],
): readonly [number, number] {
  const spans = parts.flatMap(({ part, placing }) => {
    if (placing === undefined) return [];
    const room = roomOf(part, placing.turn);
    return [0, part.count - 1].map((copy) => ({ low: cornerOf(placing, copy), room }));
  });
  const [along, across] = ([0, 1] as const).map((axis) => {
    const low = Math.min(...spans.map((span) => span.low[axis]));
    const high = Math.max(...spans.map((span) => span.low[axis] + span.room[axis]));
    return (low + high) / 2;
  }) as [number, number];
  return [along, across];
}

/** The sides to which a piece looks outwards: none along an axis in whose middle it stands. */
export function outerSides([along, across]: readonly [number, number]): readonly Side[] {
  return [
    ...(along === 0 ? [] : [along < 0 ? ('left' as const) : ('right' as const)]),
    ...(across === 0 ? [] : [across < 0 ? ('front' as const) : ('back' as const)]),
  ];
}

/** From the frame of a piece to the room: how it is turned, leans, and where its corner 0, 0, 0 comes to, mm. */
export function placementOf(part: FormedPart, placing: PlacedPart, copy: number): Placement {
  const upright: Placement = { axes: TURNED[placing.turn], shift: [0, 0, 0] };
  const turned = followedBy(upright, tipOf(part, placing, copy));
  const points = upperEnd(part, placing, turned).map((point) => turnedBy(turned, point));
  const low = cornerOf(placing, copy);
  const room = roomOf(part, placing.turn);
  return {
    axes: turned.axes,
    shift: [
      low[0] - Math.min(...points.map(([x]) => x)),
      low[1] - Math.min(...points.map(([, y]) => y)),
      low[2] + room[2] - Math.max(...points.map(([, , z]) => z)),
    ],
  };
}

/** How a piece is tipped: its upper end stays where it is placed, and its foot goes out. */
function tipOf(part: FormedPart, placing: PlacedPart, copy: number): Placement {
  const { along, across } = leansBy(placing.turn, part.lean ?? { along: 0, across: 0 });
  const [x, y] = along === 0 && across === 0 ? [0, 0] : outwardOf(part, placing, copy);
  return leaningBy(0 - x * along, 0 - y * across);
}

/** The corners of the face that looks up, in the piece's own frame. */
function upperEnd(part: FormedPart, { turn }: PlacedPart, { axes }: Placement): readonly Triple[] {
  const { length, width, thickness } = part;
  const corners = [0, 1].flatMap((y) => [0, 1].map((z): Triple => [0, y * width, z * thickness]));
  if (turn[2] !== 'L') {
    return [0, 1].flatMap((x) => corners.map(([, y, z]): Triple => [x * length, y, z]));
  }
  if (part.form?.ends?.lie === 'square') return corners;
  // The level cut at its start goes through the corner at which the piece is longest.
  const [up, y, z] = [axes[0][2], axes[1][2], axes[2][2]];
  const offset = Math.min(0, y * width) + Math.min(0, z * thickness);
  return corners.map(
    (corner): Triple => [(offset - y * corner[1] - z * corner[2]) / up, corner[1], corner[2]],
  );
}
