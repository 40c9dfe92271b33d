import { type CellsSeen, SIDE } from './cells-seen.ts';
import { PLANE } from './ready-solid.ts';
import type { SameLines } from './same-lines.ts';
import type { SolidSeen } from './solid-seen.ts';
import { NONE, StretchPool } from './stretch-pool.ts';

/** Nearer to an outline or to a facet than this is on it, mm. */
export const ON = 1e-5;

/**
 * Follows one straight line after the other past cells, and tells which stretches they hide, as
 * shares of the line from 0 to 1. What only touches a cell, or coincides with its outline, is not
 * hidden; but where two cells of one solid meet there is no outline, and what lies behind is.
 */
export class Stretches {
  readonly #cells: CellsSeen;
  readonly #pool = new StretchPool(64);
  #hidden = NONE;
  /**
   * Stretches on outlines of cells, where a cell covers only one of the line's two sides: of which
   * solid, to the left (1) or to the right (-1), from and to.
   */
  #besideOf: Int32Array = new Int32Array(64);
  #besideAt: Int8Array = new Int8Array(64);
  #besideFrom: Float64Array = new Float64Array(64);
  #besideTo: Float64Array = new Float64Array(64);
  #besides = 0;
  /** Of the line at hand; see `LINE_SEEN`. Numbers in a list are never put aside one by one. */
  readonly #ends = new Float64Array(6);

  constructor(cells: CellsSeen) {
    this.#cells = cells;
  }

  /** Makes room for going past so many cells. */
  makeRoom(cells: number): void {
    if (cells <= this.#besideOf.length) return;
    this.#besideOf = new Int32Array(cells);
    this.#besideAt = new Int8Array(cells);
    this.#besideFrom = new Float64Array(cells);
    this.#besideTo = new Float64Array(cells);
  }

  /** Begins with another line, by its ends on the paper and how near they are, as they lie in a list; see `LINE_SEEN`. */
  follow(ends: Float64Array, at: number): void {
    this.#pool.clear();
    this.#hidden = NONE;
    this.#besides = 0;
    for (let k = 0; k < 6; k++) this.#ends[k] = ends[at + k] as number;
  }

  /**
   * Goes past a cell, each once and those of one solid one after the other. True when the whole line
   * is hidden: then no other cell has to be asked. All in one, as it is what a view does most often.
   */
  pass(cell: number, solid: number): boolean {
    const { sides, sidesOf, sidesEnd, planes, planesOf, planesEnd, floor } = this.#cells;
    const ends = this.#ends;
    const x0 = ends[0] as number;
    const y0 = ends[1] as number;
    const z0 = ends[2] as number;
    const x1 = ends[3] as number;
    const y1 = ends[4] as number;
    const z1 = ends[5] as number;
    let from = 0;
    let to = 1;
    let side = 0;
    // What lies within the outline of the cell,
    const lastSide = sidesEnd[cell] as number;
    for (let at = sidesOf[cell] as number; at < lastSide; at += SIDE) {
      const mx = sides[at] as number;
      const my = sides[at + 1] as number;
      const c = sides[at + 2] as number;
      const v0 = mx * x0 + my * y0 - c;
      const v1 = mx * x1 + my * y1 - c;
      if (v0 >= -ON && v1 >= -ON) {
        if (v0 > ON || v1 > ON) return false;
        // On this side of the outline: the cell lies to the left or to the right of the line.
        const beside = mx * (y1 - y0) - my * (x1 - x0) > 0 ? 1 : -1;
        if (side === -beside) return false;
        side = beside;
      } else if (v0 > 0 || v1 > 0) {
        const share = v0 / (v0 - v1);
        if (v0 > 0) from = Math.max(from, share);
        else to = Math.min(to, share);
        if (from >= to) return false;
      }
    }
    // and behind its facets that look towards the eye.
    if (!(z0 < (floor[cell] as number) - ON && z1 < (floor[cell] as number) - ON)) {
      const lastPlane = planesEnd[cell] as number;
      for (let at = planesOf[cell] as number; at < lastPlane; at += PLANE) {
        const nx = planes[at] as number;
        const ny = planes[at + 1] as number;
        const nz = planes[at + 2] as number;
        const c = planes[at + 3] as number;
        const v0 = nx * x0 + ny * y0 + nz * z0 - c;
        const v1 = nx * x1 + ny * y1 + nz * z1 - c;
        if (v0 >= -ON && v1 >= -ON) return false;
        if (v0 > 0 || v1 > 0) {
          const share = v0 / (v0 - v1);
          if (v0 > 0) from = Math.max(from, share);
          else to = Math.min(to, share);
          if (from >= to) return false;
        }
      }
    }
    if (side !== 0) {
      const beside = this.#besides++;
      this.#besideOf[beside] = solid;
      this.#besideAt[beside] = side;
      this.#besideFrom[beside] = from;
      this.#besideTo[beside] = to;
      return false;
    }
    if (from === 0 && to === 1) return true;
    this.#hidden = this.#pool.add(this.#hidden, from, to, 0);
    return this.#pool.from[this.#hidden] === 0 && this.#pool.to[this.#hidden] === 1;
  }

  /** Tells the lines, and who else takes it down, what can be seen of this one. */
  tell(lines: SameLines, notes: SolidSeen | undefined): void {
    if (this.#besides > 1) this.#hideBetween();
    const { from, to, next } = this.#pool;
    let start = 0;
    for (let at = this.#hidden; at !== NONE; at = next[at] as number) {
      const gone = from[at] as number;
      if (gone > start) {
        lines.see(start, gone);
        notes?.see(start, gone);
      }
      start = to[at] as number;
    }
    if (start < 1) {
      lines.see(start, 1);
      notes?.see(start, 1);
    }
  }

  /** Hides what runs along an outline between two cells of one solid. */
  #hideBetween(): void {
    for (let i = 0; i < this.#besides; i++) {
      for (let k = i + 1; k < this.#besides; k++) {
        if (this.#besideOf[k] !== this.#besideOf[i]) break;
        if (this.#besideAt[k] === this.#besideAt[i]) continue;
        const from = Math.max(this.#besideFrom[i] as number, this.#besideFrom[k] as number);
        const to = Math.min(this.#besideTo[i] as number, this.#besideTo[k] as number);
        if (from < to) this.#hidden = this.#pool.add(this.#hidden, from, to, 0);
      }
    }
  }
}
