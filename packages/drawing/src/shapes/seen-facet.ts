import { type CellsSeen, SIDE } from './cells-seen.ts';
import { PLANE } from './ready-solid.ts';

/** Slivers thinner than this are rounding, mm. */
const SLIVER = 1e-5;

/** A convex outline as x, y, x, y, …, mm. */
type Corners = readonly number[];

/**
 * Takes from one facet after the other what cells before it hide. Over a facet, the depth of its
 * plane and of any other is linear in the place on the paper, so that whatever bounds what a cell
 * hides is a straight line there, and the rest falls into convex outlines.
 */
export class FacetCutter {
  readonly #cells: CellsSeen;
  #corners: Corners = [];
  #depths: readonly number[] = [];
  #farthest = 0;
  #nearest = 0;
  /** Of the facet's plane: how the depth changes to the right and upwards, and at the origin. */
  #slopeX = 0;
  #slopeY = 0;
  #depth = 0;
  #pieces: Corners[] = [];
  /** Lines that bound what the cell at hand hides, each a·x + b·y <= c, less those beyond the facet. */
  readonly #lines: number[] = [];

  constructor(cells: CellsSeen) {
    this.#cells = cells;
  }

  /**
   * Begins with another facet that looks towards the eye.
   * @param corners on the paper
   * @param depths of its corners
   * @param plane its normal to the right, up and towards the eye, and its offset
   */
  begin(
    corners: Corners,
    depths: readonly number[],
    plane: readonly [number, number, number, number],
  ): void {
    const [nx, ny, nz, offset] = plane;
    this.#corners = corners;
    this.#depths = depths;
    this.#farthest = Math.min(...depths);
    this.#nearest = Math.max(...depths);
    this.#slopeX = -nx / nz;
    this.#slopeY = -ny / nz;
    this.#depth = offset / nz;
    this.#pieces = [corners];
  }

  /** What is left of it, as convex outlines on the paper. */
  get pieces(): readonly Corners[] {
    return this.#pieces;
  }

  /** Takes away what a cell hides. True when nothing is left. */
  take(cell: number): boolean {
    if (this.#cells.near(cell) <= this.#farthest + SLIVER) return false;
    this.#lines.length = 0;
    if (!this.#addSides(cell) || !this.#addPlanes(cell)) return false;
    const left: Corners[] = [];
    for (const piece of this.#pieces) without(piece, this.#lines, left);
    this.#pieces = left;
    return left.length === 0;
  }

  /** False when the facet lies beside the cell on the paper. */
  #addSides(cell: number): boolean {
    const { sides, sidesOf } = this.#cells;
    const corners = this.#corners;
    const end = sidesOf[cell + 1] as number;
    for (let at = sidesOf[cell] as number; at < end; at += SIDE) {
      const a = sides[at] as number;
      const b = sides[at + 1] as number;
      const c = sides[at + 2] as number;
      let [least, most] = [Infinity, -Infinity];
      for (let i = 0; i < corners.length; i += 2) {
        const beyond = a * (corners[i] as number) + b * (corners[i + 1] as number) - c;
        if (beyond < least) least = beyond;
        if (beyond > most) most = beyond;
      }
      if (least >= -SLIVER) return false;
      if (most > SLIVER) this.#lines.push(a, b, c);
    }
    return true;
  }

  /** False when the facet lies before one of the cell's own, or on it. */
  #addPlanes(cell: number): boolean {
    if (this.#nearest < (this.#cells.floor[cell] as number) - SLIVER) return true;
    const { planes, planesOf } = this.#cells;
    const corners = this.#corners;
    const end = planesOf[cell + 1] as number;
    for (let at = planesOf[cell] as number; at < end; at += PLANE) {
      const nx = planes[at] as number;
      const ny = planes[at + 1] as number;
      const nz = planes[at + 2] as number;
      const c = planes[at + 3] as number;
      let [least, most] = [Infinity, -Infinity];
      for (let i = 0; i < corners.length; i += 2) {
        const before =
          nx * (corners[i] as number) +
          ny * (corners[i + 1] as number) +
          nz * (this.#depths[i >> 1] as number) -
          c;
        if (before < least) least = before;
        if (before > most) most = before;
      }
      if (least >= -SLIVER) return false;
      if (most > SLIVER) {
        this.#lines.push(nx + nz * this.#slopeX, ny + nz * this.#slopeY, c - nz * this.#depth);
      }
    }
    return true;
  }
}

/** A convex outline less a convex hole: what lies outside each side of the hole in turn. */
function without(piece: Corners, lines: readonly number[], into: Corners[]): void {
  if (!reaches(piece, lines)) {
    into.push(piece);
    return;
  }
  let rest = piece;
  for (let at = 0; at < lines.length; at += SIDE) {
    const a = lines[at] as number;
    const b = lines[at + 1] as number;
    const c = lines[at + 2] as number;
    const outside = cut(rest, -a, -b, -c);
    if (outside === undefined) continue;
    into.push(outside);
    const inside = cut(rest, a, b, c);
    if (inside === undefined) return;
    rest = inside;
  }
}

/** False only when a side of the hole has the whole outline outside: most, cheaply. */
function reaches(piece: Corners, lines: readonly number[]): boolean {
  for (let at = 0; at < lines.length; at += SIDE) {
    const [a, b, c] = [lines[at] as number, lines[at + 1] as number, lines[at + 2] as number];
    if (!touches(piece, a, b, c)) return false;
  }
  return true;
}

function touches(piece: Corners, a: number, b: number, c: number): boolean {
  for (let i = 0; i < piece.length; i += 2) {
    if (a * (piece[i] as number) + b * (piece[i + 1] as number) < c - SLIVER) return true;
  }
  return false;
}

/** The part of a convex outline where a·x + b·y <= c; undefined when it is no more than a sliver. */
function cut(piece: Corners, a: number, b: number, c: number): Corners | undefined {
  if (!touches(piece, a, b, c)) return undefined;
  if (!touches(piece, -a, -b, -c)) return piece;
  const kept: number[] = [];
  let x0 = piece[piece.length - 2] as number;
  let y0 = piece[piece.length - 1] as number;
  let was = a * x0 + b * y0 - c;
  for (let i = 0; i < piece.length; i += 2) {
    const x = piece[i] as number;
    const y = piece[i + 1] as number;
    const is = a * x + b * y - c;
    if ((was < 0 && is > 0) || (was > 0 && is < 0)) {
      const share = was / (was - is);
      kept.push(x0 + share * (x - x0), y0 + share * (y - y0));
    }
    if (is <= 0) kept.push(x, y);
    x0 = x;
    y0 = y;
    was = is;
  }
  return kept.length < 6 ? undefined : kept;
}
