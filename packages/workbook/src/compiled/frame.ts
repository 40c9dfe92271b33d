import type { Value } from './values.ts';

/** The values of nodes: numbers in one array, everything else beside it. */
export class Frame {
  /** Not a number where a node holds something else; another array once there are more nodes. */
  numbers: Float64Array;
  readonly #others: (Value | undefined)[];

  private constructor(numbers: Float64Array, others: (Value | undefined)[]) {
    this.numbers = numbers;
    this.#others = others;
  }

  static of(values: readonly Value[]): Frame {
    const frame = new Frame(
      new Float64Array(values.length).fill(Number.NaN),
      new Array(values.length).fill(undefined),
    );
    for (const [slot, value] of values.entries()) frame.put(slot, value);
    return frame;
  }

  copy(): Frame {
    return new Frame(this.numbers.slice(), [...this.#others]);
  }

  /** There are so many nodes now; new ones hold nothing. */
  reach(nodes: number): void {
    const had = this.#others.length;
    if (nodes <= had) return;
    if (nodes > this.numbers.length) {
      const room = new Float64Array(Math.ceil(nodes * 1.5)).fill(Number.NaN);
      room.set(this.numbers);
      this.numbers = room;
    }
    for (let node = had; node < nodes; node += 1) {
      this.numbers[node] = Number.NaN;
      this.#others.push(null);
    }
  }

  get(slot: number): Value {
    const other = this.#others[slot];
    return other === undefined ? (this.numbers[slot] as number) : other;
  }

  putNumber(slot: number, value: number): void {
    if (Number.isNaN(this.numbers[slot])) this.#others[slot] = undefined;
    this.numbers[slot] = value;
  }

  put(slot: number, value: Value): void {
    if (typeof value === 'number') {
      this.numbers[slot] = value;
      this.#others[slot] = undefined;
    } else {
      this.numbers[slot] = Number.NaN;
      this.#others[slot] = value;
    }
  }
}
