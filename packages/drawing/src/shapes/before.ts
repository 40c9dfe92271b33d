import type { Rectangle } from '../views.ts';
import { BOUNDS, type CellsSeen } from './cells-seen.ts';
import type { PreparedSolids } from './prepared.ts';
import { ON } from './stretches.ts';

/** Where something is drawn, and how far away it is. */
export interface Room extends Rectangle {
  /** Its farthest point, mm towards the eye. */
  readonly far: number;
}

/** Whether one of the cells gathered shares paper with a room and has something nearer. */
export const reaches = (
  bounds: Float64Array,
  index: number,
  left: number,
  right: number,
  bottom: number,
  top: number,
  far: number,
): boolean => {
  const at = index * BOUNDS;
  return (
    (bounds[at] as number) <= right &&
    (bounds[at + 1] as number) >= left &&
    (bounds[at + 2] as number) <= top &&
    (bounds[at + 3] as number) >= bottom &&
    (bounds[at + 4] as number) > far + ON
  );
};

/** Finds the cells that could hide something of what lies in a room, those of large solids first. */
export class Before {
  readonly #all: PreparedSolids;
  readonly #seen: CellsSeen;
  /** Around each solid: left, right, bottom, top and nearest point. */
  readonly #rooms: Float64Array;
  readonly #far: Float64Array;
  /** Large ones first: what they hide is soon gone, and the small ones find nothing left to cut. */
  readonly #largest: number[];
  /** All solids, those with the nearest points first. */
  readonly nearest: number[];
  /** How many cells were gathered. */
  count = 0;
  /** The cells gathered. */
  readonly cells: Int32Array;
  /** The solid of each. */
  readonly solids: Int32Array;
  /** Around each; see `reaches`. */
  readonly bounds: Float64Array;

  constructor(all: PreparedSolids, cells: CellsSeen) {
    this.#all = all;
    this.#seen = cells;
    const count = all.solids.length;
    const most = cells.floor.length;
    this.#rooms = new Float64Array(BOUNDS * count);
    this.#far = new Float64Array(count);
    this.cells = new Int32Array(most);
    this.solids = new Int32Array(most);
    this.bounds = new Float64Array(most * BOUNDS);
    this.#largest = all.solids.map((_, solid) => solid);
    this.nearest = [...this.#largest];
  }

  /** Looks at all solids as their cells are seen now. */
  look(): void {
    const rooms = this.#rooms;
    const sizes = this.#far.map((_, solid) => {
      this.#measure(solid);
      const at = BOUNDS * solid;
      const wide = (rooms[at + 1] as number) - (rooms[at] as number);
      return wide * ((rooms[at + 3] as number) - (rooms[at + 2] as number));
    });
    this.#largest.sort((a, b) => (sizes[b] as number) - (sizes[a] as number));
    this.nearest.sort(
      (a, b) => (rooms[BOUNDS * b + 4] as number) - (rooms[BOUNDS * a + 4] as number),
    );
  }

  #measure(solid: number): void {
    const { x, y, z } = this.#seen.seen;
    const { items, starts } = this.#all.cellPoints;
    const first = this.#all.cellsOf[solid] as number;
    const last = this.#all.cellsOf[solid + 1] as number;
    let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
    let [far, near] = [Infinity, -Infinity];
    for (let i = starts[first] as number; i < (starts[last] as number); i++) {
      const point = items[i] as number;
      const px = x[point] as number;
      const py = y[point] as number;
      const pz = z[point] as number;
      if (px < left) left = px;
      if (px > right) right = px;
      if (py < bottom) bottom = py;
      if (py > top) top = py;
      if (pz < far) far = pz;
      if (pz > near) near = pz;
    }
    const at = BOUNDS * solid;
    this.#rooms[at] = left;
    this.#rooms[at + 1] = right;
    this.#rooms[at + 2] = bottom;
    this.#rooms[at + 3] = top;
    this.#rooms[at + 4] = near;
    this.#far[solid] = far;
  }

  /** Around a solid. */
  roomOf(solid: number): Room {
    const at = BOUNDS * solid;
    return {
      left: this.#rooms[at] as number,
      right: this.#rooms[at + 1] as number,
      bottom: this.#rooms[at + 2] as number,
      top: this.#rooms[at + 3] as number,
      far: this.#far[solid] as number,
    };
  }

  /** Around all solids on the paper. */
  get around(): Rectangle {
    let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const solid of this.nearest) {
      const room = this.roomOf(solid);
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
    const rooms = this.#rooms;
    const ofCells = this.#seen.bounds;
    for (const solid of this.#largest) {
      const at = BOUNDS * solid;
      if (solid === without || (rooms[at + 4] as number) <= far + ON) continue;
      if ((rooms[at] as number) >= right || (rooms[at + 1] as number) <= left) continue;
      if ((rooms[at + 2] as number) >= top || (rooms[at + 3] as number) <= bottom) continue;
      const end = cellsOf[solid + 1] as number;
      for (let cell = cellsOf[solid] as number; cell < end; cell++) {
        if (reaches(ofCells, cell, left, right, bottom, top, far)) this.#take(cell, solid);
      }
    }
  }

  #take(cell: number, solid: number): void {
    const [from, to] = [cell * BOUNDS, this.count * BOUNDS];
    const ofCells = this.#seen.bounds;
    for (let k = 0; k < BOUNDS; k++) this.bounds[to + k] = ofCells[from + k] as number;
    this.cells[this.count] = cell;
    this.solids[this.count] = solid;
    this.count++;
  }
}
