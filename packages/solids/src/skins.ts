import type { Face } from './faces.ts';

/** The surfaces of one piece: what each is called, and which of them run into each other without a crease. */
export class Skins {
  readonly #faces: (Face | undefined)[] = [];
  readonly #flowing = new Set<string>();

  /** A new surface; `face` where it is (part of) a face of the blank, so that cuts find it by name. */
  add(face?: Face): number {
    return this.#faces.push(face) - 1;
  }

  /** The face that a surface belongs to. */
  faceOf(surface: number): Face | undefined {
    return this.#faces[surface];
  }

  /** Notes that two surfaces have one tangent plane where they meet. */
  flow(one: number, other: number): void {
    this.#flowing.add(pair(one, other));
  }

  /** Whether two surfaces have one tangent plane where they meet. */
  areFlowing(one: number, other: number): boolean {
    return this.#flowing.has(pair(one, other));
  }
}

const pair = (one: number, other: number): string =>
  one < other ? `${one} ${other}` : `${other} ${one}`;
