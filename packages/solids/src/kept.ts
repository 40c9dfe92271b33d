import { type NotShaped, type Shape, type Shaped, shaped } from './shape.ts';

/** Makes pieces, and remembers the last ones by their shapes: most pieces of a change are those of before. */
export class ShapedPieces {
  readonly #most: number;
  readonly #known = new Map<string, Shaped | NotShaped>();

  /** Remembers as many shapes as this. */
  constructor(most: number) {
    this.#most = most;
  }

  /** What {@link shaped} answers; the same object for an equal shape. */
  of(shape: Shape): Shaped | NotShaped {
    const key = JSON.stringify(shape, (_, value) => ordered(value));
    const before = this.#known.get(key);
    const answer = before ?? shaped(shape);
    // Set anew, it is the last to be forgotten.
    this.#known.delete(key);
    this.#known.set(key, answer);
    if (this.#known.size > this.#most) this.#known.delete(this.#known.keys().next().value!);
    return answer;
  }
}

/** Shapes are equal however their properties are ordered. What is no number is told from what is left out. */
function ordered(value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) return `${value}`;
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
