import type { Rectangle } from '../views.ts';
import type { CellsSeen, Seen } from './cells-seen.ts';
import type { PreparedSolids } from './prepared.ts';
import { ON } from './stretches.ts';

/** Where something is drawn, and how far away it is. */
export interface Room extends Rectangle {
  /** Its farthest point, mm towards the eye. */
  readonly far: number;
}

/** Left, right, bottom, top and nearest point of each cell. */
const BOUNDS = 5;

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
  readonly #ofCells: Float64Array;
  readonly #rooms: Room[] = [];
  readonly #near: Float64Array;
  /** Large ones first: what they hide is soon gone, and the small ones find nothing left to cut. */
  readonly #largest: readonly number[];
  /** All solids, those with the nearest points first. */
  readonly nearest: readonly number[];
  /** How many cells were gathered. */
  count = 0;
  /** The cells gathered. */
  readonly cells: Int32Array;
  /** The solid of each. */
  readonly solids: Int32Array;
  /** Around each; see `reaches`. */
  readonly bounds: Float64Array;

  constructor(all: PreparedSolids, seen: Seen, cells: CellsSeen) {
    this.#all = all;
    this.#ofCells = cells.bounds;
    const count = all.solids.length;
    const most = cells.floor.length;
    this.#near = new Float64Array(count);
    this.cells = new Int32Array(most);
    this.solids = new Int32Array(most);
    this.bounds = new Float64Array(most * BOUNDS);
    for (let solid = 0; solid < count; solid++) this.#measure(solid, seen);
    this.#largest = descending(this.#rooms.map((r) => (r.right - r.left) * (r.top - r.bottom)));
    this.nearest = descending([...this.#near]);
  }

  #measure(solid: number, { x, y, z }: Seen): void {
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
        if (reaches(this.#ofCells, cell, left, right, bottom, top, far)) this.#take(cell, solid);
      }
    }
  }

  #take(cell: number, solid: number): void {
    const [from, to] = [cell * BOUNDS, this.count * BOUNDS];
    for (let k = 0; k < BOUNDS; k++) this.bounds[to + k] = this.#ofCells[from + k] as number;
    this.cells[this.count] = cell;
    this.solids[this.count] = solid;
    this.count++;
  }
}

/** Places of numbers in a list, the largest first. */
const descending = (numbers: readonly number[]): number[] =>
  numbers.map((_, i) => i).sort((a, b) => (numbers[b] as number) - (numbers[a] as number));
