import type { Rectangle } from '../views.ts';
import { BOUNDS, type CellsSeen, SIDE } from './cells-seen.ts';
import { NO_SOLIDS, type PreparedSolids } from './prepared.ts';
import { PLANE } from './ready-solid.ts';
import { ON } from './stretches.ts';

/** Where something is drawn, and how far away it is. */
export interface Room extends Rectangle {
  /** Its farthest point, mm towards the eye. */
  readonly far: number;
}

/**
 * Whether one of the cells gathered shares paper with a room and has something nearer. What is on its
 * outline does: a line in the border of two cells is hidden by both together, and rounding puts one aside.
 */
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
    (bounds[at] as number) <= right + ON &&
    (bounds[at + 1] as number) >= left - ON &&
    (bounds[at + 2] as number) <= top + ON &&
    (bounds[at + 3] as number) >= bottom - ON &&
    (bounds[at + 4] as number) > far + ON
  );
};

/** The solids that were found before something. */
export interface OthersBefore {
  /** Large ones first. */
  readonly others: Int32Array;
  /** How many. */
  readonly otherCount: number;
  /** Around a solid as numbers: left, right, bottom, top, nearest and farthest point. */
  readonly roomIn: (solid: number) => Float64Array;
}

/** Finds the cells that could hide something of what lies in a room, those of large solids first. */
export class Before implements OthersBefore {
  #all: PreparedSolids = NO_SOLIDS;
  readonly #seen: CellsSeen;
  /** Around each solid: left, right, bottom, top and nearest point. */
  #rooms: Float64Array = new Float64Array(0);
  #far: Float64Array = new Float64Array(0);
  /** Large ones first: what they hide is soon gone, and the small ones find nothing left to cut. */
  #largest: number[] = [];
  /** Around each of those, in this order. */
  #inOrder: Float64Array = new Float64Array(0);
  /** All solids, those with the nearest points first. */
  nearest: number[] = [];
  /** The solids that share paper with a room and have something nearer, the large ones first, */
  others: Int32Array = new Int32Array(0);
  /** and how many. */
  otherCount = 0;
  /** How many cells were gathered. */
  count = 0;
  /** The cells gathered. */
  cells: Int32Array = new Int32Array(0);
  /** The solid of each. */
  solids: Int32Array = new Int32Array(0);
  /** Around each; see `reaches`. */
  bounds: Float64Array = new Float64Array(0);

  constructor(cells: CellsSeen) {
    this.#seen = cells;
  }

  /**
   * Looks at all solids as their cells are seen now.
   * @param kept the rooms around solids that are known from this eye, as `roomIn` gives them
   */
  look(all: PreparedSolids, kept: (solid: number) => Float64Array | undefined): void {
    this.#all = all;
    const count = all.solids.length;
    this.#makeRoom(count, all.cellPoints.starts.length - 1);
    const rooms = this.#rooms;
    const sizes = new Float64Array(count);
    for (let solid = 0; solid < count; solid++) {
      const known = kept(solid);
      if (known === undefined) this.#measure(solid);
      else this.#setRoom(solid, known);
      const at = BOUNDS * solid;
      const wide = (rooms[at + 1] as number) - (rooms[at] as number);
      sizes[solid] = wide * ((rooms[at + 3] as number) - (rooms[at + 2] as number));
    }
    // Of equals the first one first, whatever was looked at before.
    this.#largest.sort((a, b) => (sizes[b] as number) - (sizes[a] as number) || a - b);
    for (let place = 0; place < count; place++) {
      const at = BOUNDS * (this.#largest[place] as number);
      for (let k = 0; k < BOUNDS; k++) this.#inOrder[BOUNDS * place + k] = rooms[at + k] as number;
    }
    this.nearest.sort(
      (a, b) => (rooms[BOUNDS * b + 4] as number) - (rooms[BOUNDS * a + 4] as number) || a - b,
    );
  }

  #makeRoom(count: number, cells: number): void {
    if (count !== this.nearest.length) {
      this.#largest = Array.from({ length: count }, (_, solid) => solid);
      this.nearest = [...this.#largest];
    }
    if (count > this.#far.length) {
      this.#rooms = new Float64Array(BOUNDS * count);
      this.#inOrder = new Float64Array(BOUNDS * count);
      this.#far = new Float64Array(count);
      this.others = new Int32Array(count);
    }
    if (cells > this.cells.length) {
      this.cells = new Int32Array(cells);
      this.solids = new Int32Array(cells);
      this.bounds = new Float64Array(cells * BOUNDS);
    }
  }

  #setRoom(solid: number, room: Float64Array): void {
    for (let k = 0; k < BOUNDS; k++) this.#rooms[BOUNDS * solid + k] = room[k] as number;
    this.#far[solid] = room[BOUNDS] as number;
  }

  /** Around a solid as numbers: left, right, bottom, top, nearest and farthest point. */
  readonly roomIn = (solid: number): Float64Array => {
    const room = new Float64Array(BOUNDS + 1);
    for (let k = 0; k < BOUNDS; k++) room[k] = this.#rooms[BOUNDS * solid + k] as number;
    room[BOUNDS] = this.#far[solid] as number;
    return room;
  };

  #measure(solid: number): void {
    this.#seen.look(solid);
    const { x, y, z } = this.#seen.seen;
    const { cellPoints, cellsOf } = this.#all;
    const { items, starts } = cellPoints;
    const first = cellsOf[solid] as number;
    const last = cellsOf[solid + 1] as number;
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

  /** Gathers the cells that share paper with a room and have something nearer. */
  gather(room: Room): void {
    this.#findOthers(room, -1);
    this.#gatherOf(room);
  }

  /** Finds the solids that could hide something of a solid. */
  findFor(solid: number): void {
    const { cellsOf } = this.#all;
    // Its own cells are none where it is convex: what of it looks towards the eye is then never behind the rest.
    const own = (cellsOf[solid + 1] as number) - (cellsOf[solid] as number) === 1 ? solid : -1;
    this.#findOthers(this.roomOf(solid), own);
  }

  #findOthers({ left, right, bottom, top, far }: Room, without: number): void {
    const rooms = this.#inOrder;
    const end = BOUNDS * this.nearest.length;
    let count = 0;
    for (let place = 0, at = 0; at < end; place++, at += BOUNDS) {
      if ((rooms[at + 4] as number) <= far + ON) continue;
      if ((rooms[at] as number) >= right || (rooms[at + 1] as number) <= left) continue;
      if ((rooms[at + 2] as number) >= top || (rooms[at + 3] as number) <= bottom) continue;
      const solid = this.#largest[place] as number;
      if (solid !== without) this.others[count++] = solid;
    }
    this.otherCount = count;
  }

  #gatherOf({ left, right, bottom, top, far }: Room): void {
    this.count = 0;
    const { cellsOf } = this.#all;
    const ofCells = this.#seen.bounds;
    for (let i = 0; i < this.otherCount; i++) {
      const solid = this.others[i] as number;
      this.#seen.look(solid);
      const end = cellsOf[solid + 1] as number;
      for (let cell = cellsOf[solid] as number; cell < end; cell++) {
        if (reaches(ofCells, cell, left, right, bottom, top, far)) this.#take(cell, solid);
      }
    }
  }

  /** Gathers the cells that could hide something of a solid, of those found for it. */
  gatherFor(solid: number): void {
    const room = this.roomOf(solid);
    this.#seen.look(solid);
    this.#gatherOf(room);
    let kept = 0;
    for (let i = 0; i < this.count; i++) {
      const cell = this.cells[i] as number;
      if (!this.#isBeside(cell, room) && !this.#isBehind(cell, solid)) this.#move(i, kept++);
    }
    this.count = kept;
  }

  /** Whether a room lies beyond a side of the outline of a cell. */
  #isBeside(cell: number, { left, right, bottom, top }: Room): boolean {
    const { sides, sidesOf, sidesEnd } = this.#seen;
    const end = sidesEnd[cell] as number;
    for (let at = sidesOf[cell] as number; at < end; at += SIDE) {
      const a = sides[at] as number;
      const b = sides[at + 1] as number;
      if (
        a * (a > 0 ? left : right) + b * (b > 0 ? bottom : top) - (sides[at + 2] as number) >
        ON
      ) {
        return true;
      }
    }
    return false;
  }

  /** Whether all of a solid lies before one facet of a cell that looks towards the eye. */
  #isBehind(cell: number, solid: number): boolean {
    const { planes, planesOf, planesEnd, seen } = this.#seen;
    const { x, y, z } = seen;
    const { cellPoints, cellsOf } = this.#all;
    const { items, starts } = cellPoints;
    const first = starts[cellsOf[solid] as number] as number;
    const last = starts[cellsOf[solid + 1] as number] as number;
    const end = planesEnd[cell] as number;
    for (let at = planesOf[cell] as number; at < end; at += PLANE) {
      const nx = planes[at] as number;
      const ny = planes[at + 1] as number;
      const nz = planes[at + 2] as number;
      const least = (planes[at + 3] as number) - ON;
      let i = first;
      while (i < last) {
        const point = items[i] as number;
        const height =
          nx * (x[point] as number) + ny * (y[point] as number) + nz * (z[point] as number);
        if (height < least) break;
        i++;
      }
      if (i === last) return true;
    }
    return false;
  }

  #move(from: number, to: number): void {
    if (from === to) return;
    this.cells[to] = this.cells[from] as number;
    this.solids[to] = this.solids[from] as number;
    this.bounds.copyWithin(BOUNDS * to, BOUNDS * from, BOUNDS * (from + 1));
  }

  #take(cell: number, solid: number): void {
    const from = cell * BOUNDS;
    const to = this.count * BOUNDS;
    const ofCells = this.#seen.bounds;
    for (let k = 0; k < BOUNDS; k++) this.bounds[to + k] = ofCells[from + k] as number;
    this.cells[this.count] = cell;
    this.solids[this.count] = solid;
    this.count++;
  }
}
