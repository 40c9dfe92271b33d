/** No stretch, and none after it. */
export const NONE = -1;

/**
 * Lists of stretches of lines. Those of one list are in order and do not meet; a list is known by its
 * first stretch, and each stretch knows the next one. Thousands are made for each step of a turn, so
 * that all lie in three long lists of numbers, which are used again.
 */
export class StretchPool {
  /** Where each stretch begins. */
  from: Float64Array;
  /** Where it ends. */
  to: Float64Array;
  /** The one after it in its list. */
  next: Int32Array;
  #count = 0;

  constructor(room: number) {
    this.from = new Float64Array(room);
    this.to = new Float64Array(room);
    this.next = new Int32Array(room);
  }

  /** Forgets all lists. */
  clear(): void {
    this.#count = 0;
  }

  /**
   * Adds a stretch to a list; what it meets, or comes as near as `gap`, becomes one with it.
   * @param first the first of the list; NONE where it is empty
   * @returns the first of the list from now on
   */
  add(first: number, from: number, to: number, gap: number): number {
    let before = NONE;
    let at = first;
    while (at !== NONE && (this.to[at] as number) < from - gap) {
      before = at;
      at = this.next[at] as number;
    }
    if (at === NONE || (this.from[at] as number) > to + gap) {
      const added = this.#make(from, to, at);
      if (before === NONE) return added;
      this.next[before] = added;
      return first;
    }
    if (from < (this.from[at] as number)) this.from[at] = from;
    let end = Math.max(this.to[at] as number, to);
    let after = this.next[at] as number;
    while (after !== NONE && (this.from[after] as number) <= to + gap) {
      end = Math.max(end, this.to[after] as number);
      after = this.next[after] as number;
    }
    this.to[at] = end;
    this.next[at] = after;
    return first;
  }

  /** Whether one stretch of a list holds all from one place to another. */
  holds(first: number, from: number, to: number): boolean {
    for (let at = first; at !== NONE; at = this.next[at] as number) {
      if ((this.from[at] as number) <= from && (this.to[at] as number) >= to) return true;
    }
    return false;
  }

  #make(from: number, to: number, next: number): number {
    if (this.#count === this.next.length) this.#grow();
    const made = this.#count++;
    this.from[made] = from;
    this.to[made] = to;
    this.next[made] = next;
    return made;
  }

  #grow(): void {
    const [from, to, next] = [this.from, this.to, this.next];
    this.from = new Float64Array(2 * from.length);
    this.to = new Float64Array(2 * from.length);
    this.next = new Int32Array(2 * from.length);
    this.from.set(from);
    this.to.set(to);
    this.next.set(next);
  }
}
