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
import { type FormedPart, placementOf } from './standing.ts';

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

/** Whether a part is anything but an upright box. */
export const isShaped = ({ form, lean }: FormedPart): boolean =>
  form !== undefined || lean !== undefined;

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

/**
 * One piece of a part in its place; undefined where it is just a box.
 * @param joints what joints cut from it besides, in its own frame; left away as a whole where it cannot be cut
 */
export function pieceStanding(
  part: FormedPart,
  placing: PlacedPart,
  copy: number,
  joints: readonly Cut[] = [],
): Solid | undefined {
  if (!isShaped(part) && joints.length === 0) return undefined;
  const made = madePiece(part, placing, copy, String);
  if (made === undefined) return undefined;
  const joined = { ...made.shape, cuts: [...(made.shape.cuts ?? []), ...joints] };
  const answer = joints.length === 0 ? undefined : pieces.of(joined);
  const solid = answer?.ok === true ? answer.solid : made.solid;
  return standingPiece(solid, placementOf(part, placing, copy));
}
