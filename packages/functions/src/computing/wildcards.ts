/** A letter, or what stands for others: any number of them, or one at the most. */
type Part = { readonly letter: string } | 'any' | 'one';

/** Letters compared in one step of the budget. */
const IN_A_STEP = 20;

/**
 * Words with `*` and `?` as formulas have them, found in a time that grows with the text. Patterns of the
 * language go back over the text for each `*`: `*a*a*a*a*b` in a long text would not end.
 */
export class Wildcards {
  readonly #parts: readonly Part[];
  readonly #whole: boolean;
  readonly #spend: (steps: number) => void;

  /** A `~` before a sign means the sign itself; `whole`: the text holds nothing else. */
  constructor(pattern: string, whole: boolean, spend: (steps: number) => void) {
    const parts: Part[] = [];
    for (let i = 0; i < pattern.length; i += 1) {
      const sign = pattern[i] ?? '';
      if (sign === '~' && i + 1 < pattern.length) parts.push({ letter: pattern[++i] ?? '' });
      else if (sign === '*' && parts.at(-1) === 'any') continue;
      else parts.push(sign === '*' ? 'any' : sign === '?' ? 'one' : { letter: sign });
    }
    this.#parts = parts;
    this.#whole = whole;
    this.#spend = spend;
  }

  /** Whether it is found at all. */
  test(text: string): boolean {
    return this.exec(text) !== null;
  }

  /** Where it is first found. */
  exec(text: string): { readonly index: number } | null {
    const last = this.#whole || this.#parts[0] === 'any' ? 0 : text.length;
    for (let start = 0; start <= last; start += 1) {
      if (this.#fits(text, start)) return { index: start };
    }
    return null;
  }

  /** Follows all ways to read the pattern at once, letter by letter. */
  #fits(text: string, start: number): boolean {
    const end = this.#parts.length;
    let at = this.#reach([0]);
    for (let i = start; i < text.length; i += 1) {
      if (!this.#whole && at.includes(end)) return true;
      if (at.length === 0) return false;
      this.#spend(at.length / IN_A_STEP);
      const letter = text[i];
      at = this.#reach(
        at.flatMap((place) => {
          const part = this.#parts[place];
          if (part === undefined) return [];
          if (part === 'any') return place;
          return part === 'one' || part.letter === letter ? place + 1 : [];
        }),
      );
    }
    return at.includes(end);
  }

  /** The places one can be at without another letter. */
  #reach(places: readonly number[]): number[] {
    const all = new Set<number>();
    for (let place of places) {
      while (!all.has(place)) {
        all.add(place);
        if (typeof this.#parts[place] === 'string') place += 1;
      }
    }
    return [...all];
  }
}
