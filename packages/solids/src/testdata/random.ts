/** Whole numbers from a seed, the same in every run. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 to less than 1. */
  share(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  /** A whole number, both ends included. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.share() * (most - least + 1));
  }

  pick<T>(things: readonly T[]): T {
    return things[this.whole(0, things.length - 1)]!;
  }

  chance(share: number): boolean {
    return this.share() < share;
  }
}
