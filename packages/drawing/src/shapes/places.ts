type Spot = readonly [number, number];

/** Nearer together than this, two places on the paper are one, mm. */
export const ON = 1e-3;

/** Places on the paper, to be found again by what lies there but for rounding. */
export class Places {
  readonly #cells = new Map<string, Spot[]>();

  constructor(spots: readonly Spot[]) {
    for (const spot of spots) this.add(spot);
  }

  /** Notes a place, and gives it as it was first noted. */
  add(spot: Spot): Spot {
    const known = this.find(spot);
    if (known !== undefined) return known;
    const key = keyOf(spot[0], spot[1]);
    const cell = this.#cells.get(key);
    if (cell === undefined) this.#cells.set(key, [spot]);
    else cell.push(spot);
    return spot;
  }

  /** Whether a place was noted. */
  has(spot: Spot): boolean {
    return this.find(spot) !== undefined;
  }

  /** A place as it was noted. */
  find([x, y]: Spot): Spot | undefined {
    for (const dx of [0, -ON, ON]) {
      for (const dy of [0, -ON, ON]) {
        const found = this.#cells
          .get(keyOf(x + dx, y + dy))
          ?.find(([px, py]) => Math.hypot(px - x, py - y) < ON);
        if (found !== undefined) return found;
      }
    }
    return undefined;
  }
}

const keyOf = (x: number, y: number): string => `${Math.floor(x / ON)} ${Math.floor(y / ON)}`;
