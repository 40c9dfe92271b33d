import {
  type Cut,
  type Exact,
  type Length,
  type Placement,
  placed,
  problemSays,
  type Shape,
  ShapedPieces,
  type Solid,
} from '@kerfbook/solids';
import type { PlacedPart, ShapeColumn } from '@kerfbook/wood';
import { type EndSetting, shapeOf } from './shape-of.ts';
import { type FormedPart, isShaped, placementOf } from './standing.ts';

/** A piece that was made as far as it can be. */
export interface MadePiece {
  /** In its own frame. */
  readonly solid: Solid;
  /** What it was made from, less what cannot be. */
  readonly shape: Shape;
  /** By formula, where nothing is cut from its blank. */
  readonly exact: Exact | undefined;
  /** How its ends are sawn, as far as they are not square. */
  readonly ends: Readonly<Partial<Record<'start' | 'end', EndSetting>>>;
  /** What cannot be as it is said, each by its head; lengths as the workbook writes them. */
  readonly wrong: readonly { readonly column: ShapeColumn; readonly says: string }[];
}

/** As many different shapes as a large piece of furniture has. */
const MOST_SHAPES = 400;
const pieces = new ShapedPieces(MOST_SHAPES);

/**
 * Makes one piece of a part. What cannot be made is left away, and said.
 * @param format writes lengths given in mm
 * @returns undefined where not even its blank can be
 */
export function madePiece(
  part: FormedPart,
  placing: PlacedPart | undefined,
  copy: number,
  format: Length,
): MadePiece | undefined {
  const { shape, columns, ends, wrong } = shapeOf(part, placing, copy);
  const said = [...wrong];
  let [rest, heads] = [shape, columns];
  for (;;) {
    const answer = pieces.of(rest);
    if (answer.ok) {
      const { solid, exact } = answer;
      return { solid, exact, shape: rest, ends: endsLeft(ends, rest), wrong: said };
    }
    const { problem } = answer;
    const says = `${part.name}: ${problemSays(problem, format)}`;
    if (problem.cut === undefined) {
      if (rest.blank.kind === 'box') return undefined;
      said.push({ column: part.form?.outline?.kind === 'rounded' ? 'corner' : 'shape', says });
      const { length, width, thickness } = part;
      rest = { ...rest, blank: { kind: 'box', length, width, thickness } };
      continue;
    }
    // A cut that is said once and made in several places goes as a whole.
    const column = heads[problem.cut]!;
    said.push({ column, says });
    const isKept = (_: unknown, index: number): boolean => heads[index] !== column;
    rest = { ...rest, cuts: (rest.cuts ?? []).filter(isKept) };
    heads = heads.filter(isKept);
  }
}

/** Settings of ends that are sawn after all. */
const endsLeft = (ends: MadePiece['ends'], { cuts = [] }: Shape): MadePiece['ends'] =>
  cuts.some(({ kind }) => kind === 'end') ? ends : {};

const moved = new WeakMap<Solid, Map<string, Solid>>();
/** While a number is pulled, the same piece stands somewhere else each time. */
const MOST_PLACES = 64;

/** A piece where it stands; the same object for the same piece in the same place. */
export function standingPiece(solid: Solid, placement: Placement): Solid {
  const known = moved.get(solid) ?? new Map<string, Solid>();
  moved.set(solid, known);
  const key = JSON.stringify(placement);
  const before = known.get(key);
  if (before !== undefined) return before;
  if (known.size >= MOST_PLACES) known.clear();
  const there = placed(solid, placement);
  known.set(key, there);
  return there;
}

/** A piece with the cuts of its joints. */
export interface JoinedPiece {
  /** In its own frame. */
  readonly solid: Solid;
  /** Cuts that cannot be made, by their place among those given; lengths as the workbook writes them. */
  readonly wrong: readonly { readonly cut: number; readonly says: string }[];
}

/**
 * Makes one piece of a part with cuts for joints, in its own frame. What cannot be made is left away, and said.
 * @returns undefined where not even its blank can be
 */
export function joinedPiece(
  part: FormedPart,
  placing: PlacedPart,
  copy: number,
  cuts: readonly Cut[],
  format: Length,
): JoinedPiece | undefined {
  const made = madePiece(part, placing, copy, format);
  if (made === undefined) return undefined;
  const own = made.shape.cuts ?? [];
  const wrong: { cut: number; says: string }[] = [];
  let left = cuts.map((cut, index) => ({ cut, index }));
  while (left.length > 0) {
    const answer = pieces.of({ ...made.shape, cuts: [...own, ...left.map(({ cut }) => cut)] });
    if (answer.ok) return { solid: answer.solid, wrong };
    // Of cuts that take all together none is the one: the last goes.
    const { cut = own.length + left.length - 1 } = answer.problem;
    const bad = left[cut - own.length] ?? left.at(-1);
    if (bad !== undefined) {
      wrong.push({ cut: bad.index, says: problemSays(answer.problem, format) });
    }
    left = left.filter((one) => one !== bad);
  }
  return { solid: made.solid, wrong };
}

/** One piece of a part in its place, with the cuts of its joints; undefined where it is just a box. */
export function pieceStanding(
  part: FormedPart,
  placing: PlacedPart,
  copy: number,
  cuts: readonly Cut[] = [],
): Solid | undefined {
  if (!isShaped(part) && cuts.length === 0) return undefined;
  const made = joinedPiece(part, placing, copy, cuts, String);
  return made === undefined
    ? undefined
    : standingPiece(made.solid, placementOf(part, placing, copy));
}
