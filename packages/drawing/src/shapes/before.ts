import type { Rectangle } from '../views.ts';
import type { CellsSeen, Seen } from './cells-seen.ts';
import type { PreparedSolids } from './prepared.ts';
import { ON } from './stretches.ts';

/** Where something is drawn, and how far away it is. */
export interface Room extends Rectangle {
  /** Its farthest point, mm towards the eye. */
  readonly far: number;
}

/** Finds the cells that could hide something of what lies in a room, those of large solids first. */
export class Before {
  readonly #all: PreparedSolids;
  readonly #cells: CellsSeen;
  readonly #rooms: Room[] = [];
  readonly #near: Float64Array;
  /** Large ones first: what they hide is soon gone, and the small ones find nothing left to cut. */
  readonly #largest: readonly number[];
  /** How many were gathered. */
  count = 0;
  /** The cells gathered. */
  readonly cells: Int32Array;
  /** The solid of each. */
  readonly solids: Int32Array;

  constructor(all: PreparedSolids, seen: Seen, cells: CellsSeen) {
    this.#all = all;
    this.#cells = cells;
    const count = all.solids.length;
    this.#near = new Float64Array(count);
    this.cells = new Int32Array(cells.near.length);
    this.solids = new Int32Array(cells.near.length);
    for (let solid = 0; solid < count; solid++) this.#measure(solid, seen);
    const sizes = this.#rooms.map((r) => (r.right - r.left) * (r.top - r.bottom));
    this.#largest = sizes
      .map((_, solid) => solid)
      .sort((a, b) => (sizes[b] as number) - (sizes[a] as number));
  }

  #measure(solid: number, { x, y, z }: Seen): void {
    const { items, starts } = this.#all.cellPoints;
    const first = this.#all.cellsOf[solid] as number;
    const last = this.#all.cellsOf[solid + 1] as number;
    let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
    let [far, near] = [Infinity, -Infinity];
    for (let i = starts[first] as number; i < (starts[last] as number); i++) {
      const point = items[i] as number;
      const [px, py, pz] = [x[point] as number, y[point] as number, z[point] as number];
      if (px < left) left = px;
      if (px > right) right = px;
      if (py < bottom) bottom = py;
      if (py > top) top = py;
      if (pz < far) far = pz;
      if (pz > near) near = pz;
    }
    this.#rooms.push({ left, right, bottom, top, far });
    this.#near[solid] = near;
  }

  /** Around a solid. */
  roomOf(solid: number): Room {
    return this.#rooms[solid] as Room;
  }

  /** Around all solids on the paper. */
  get around(): Rectangle {
    let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const room of this.#rooms) {
      left = Math.min(left, room.left);
      right = Math.max(right, room.right);
      bottom = Math.min(bottom, room.bottom);
      top = Math.max(top, room.top);
    }
    return { left, right, bottom, top };
  }

  /** Gathers the cells that share paper with a room and have something nearer, less those of one solid. */
  gather({ left, right, bottom, top, far }: Room, without: number): void {
    this.count = 0;
    const { cellsOf } = this.#all;
    for (const solid of this.#largest) {
      if (solid === without || (this.#near[solid] as number) <= far + ON) continue;
      const room = this.#rooms[solid] as Room;
      if (room.left >= right || room.right <= left) continue;
      if (room.bottom >= top || room.top <= bottom) continue;
      const end = cellsOf[solid + 1] as number;
      for (let cell = cellsOf[solid] as number; cell < end; cell++) {
        if (!this.reaches(cell, left, right, bottom, top, far)) continue;
        this.cells[this.count] = cell;
        this.solids[this.count] = solid;
        this.count++;
      }
    }
  }

  /** Whether a cell shares paper with a room and has something nearer. */
  reaches(
    cell: number,
    left: number,
    right: number,
    bottom: number,
    top: number,
    far: number,
  ): boolean {
    const cells = this.#cells;
    return (
      (cells.near[cell] as number) > far + ON &&
      (cells.left[cell] as number) <= right &&
      (cells.right[cell] as number) >= left &&
      (cells.bottom[cell] as number) <= top &&
      (cells.top[cell] as number) >= bottom
    );
  }
}
