import { clippedFacet, loopsOf, type Plane, type Rim, type Skin, SNAP } from './clip.ts';
import type { Convex, Facet } from './types.ts';

/** Least and most of x, y and z. */
const ROOM = 6;

/**
 * A convex body from which one plane after the other cuts. A rim takes thousands of planes, and each
 * comes near few of the facets: of the others only the room around them is looked at.
 */
export class Carving {
  #facets: Facet[];
  /** Around each facet. */
  #rooms: Float64Array;

  constructor({ facets }: Convex) {
    this.#facets = [...facets];
    this.#rooms = new Float64Array(2 * ROOM * (facets.length + 1));
    for (let index = 0; index < facets.length; index++) this.#measure(index);
  }

  /** What is left. */
  get body(): Convex {
    return { facets: [...this.#facets] };
  }

  /**
   * Keeps what lies inside a plane, and closes the cut by a facet with the given skin; the same as
   * `clipped`. False where nothing would be left: then the body stays as it was.
   */
  cut(plane: Plane, skin: Skin): boolean {
    const facets = this.#facets;
    const near = this.#near(plane);
    const [isInside, isOutside] = reach(facets, near, plane);
    if (!isInside && near.length === facets.length) return false;
    if (!isOutside) return true;
    const rim: Rim = [];
    const gone: number[] = [];
    for (const index of near) {
      const facet = facets[index]!;
      const points = clippedFacet(facet.points, plane, rim);
      if (points === undefined) gone.push(index);
      else if (points !== facet.points) this.#set(index, { ...facet, points });
    }
    this.#drop(gone);
    for (const points of loopsOf(rim)) {
      const closing = { points, normal: plane.normal, offset: plane.offset, ...skin };
      this.#set(this.#facets.length, closing);
    }
    return true;
  }

  /** The facets that do not lie inside a plane with all of the room around them. */
  #near({ normal: [a, b, c], offset }: Plane): number[] {
    const rooms = this.#rooms;
    const [x, y, z] = [a > 0 ? 3 : 0, b > 0 ? 4 : 1, c > 0 ? 5 : 2];
    const near: number[] = [];
    const count = this.#facets.length;
    for (let index = 0, at = 0; index < count; index++, at += ROOM) {
      if (a * rooms[at + x]! + b * rooms[at + y]! + c * rooms[at + z]! >= offset - SNAP) {
        near.push(index);
      }
    }
    return near;
  }

  #set(index: number, facet: Facet): void {
    if (ROOM * (index + 1) > this.#rooms.length) {
      const rooms = new Float64Array(2 * this.#rooms.length);
      rooms.set(this.#rooms);
      this.#rooms = rooms;
    }
    this.#facets[index] = facet;
    this.#measure(index);
  }

  #measure(index: number): void {
    const rooms = this.#rooms;
    const at = ROOM * index;
    const { points } = this.#facets[index]!;
    for (let k = 0; k < 3; k++) {
      let [low, high] = [Infinity, -Infinity];
      for (const point of points) {
        const value = point[k]!;
        if (value < low) low = value;
        if (value > high) high = value;
      }
      rooms[at + k] = low;
      rooms[at + k + 3] = high;
    }
  }

  /** Takes facets out; the others stay in order. */
  #drop(gone: readonly number[]): void {
    if (gone.length === 0) return;
    const facets = this.#facets;
    let to = gone[0]!;
    let next = 0;
    for (let from = to; from < facets.length; from++) {
      if (from === gone[next]) {
        next++;
        continue;
      }
      facets[to] = facets[from]!;
      this.#rooms.copyWithin(ROOM * to, ROOM * from, ROOM * (from + 1));
      to++;
    }
    facets.length = to;
  }
}

/** Whether some of the facets reach inside a plane, and outside. */
function reach(
  facets: readonly Facet[],
  near: readonly number[],
  { normal: [a, b, c], offset }: Plane,
): readonly [isInside: boolean, isOutside: boolean] {
  let [isInside, isOutside] = [false, false];
  for (const index of near) {
    for (const point of facets[index]!.points) {
      const away = a * point[0] + b * point[1] + c * point[2] - offset;
      if (away > SNAP) isOutside = true;
      else if (away < -SNAP) isInside = true;
    }
  }
  return [isInside, isOutside];
}
