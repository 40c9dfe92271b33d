export interface Noted {
  /** Whether there is anything to take back. */
  readonly noted: boolean;
  readonly back: () => void;
}

/**
 * How to take back what was done to a state since it was begun: every change notes its own way back.
 * Nothing is copied, so that an edit of one cell in 50,000 costs one note.
 */
export class Journal {
  #ways: (() => void)[] | undefined;

  /** Notes from here on; what was noted before is forgotten. */
  begin(): void {
    this.#ways = [];
  }

  note(back: () => void): void {
    this.#ways?.push(back);
  }

  /** Stops noting and hands out what takes back all that was noted, for later. */
  end(): Noted {
    const ways = this.#ways ?? [];
    this.#ways = undefined;
    const back = (): void => {
      for (let way = ways.pop(); way !== undefined; way = ways.pop()) way();
    };
    return { noted: ways.length > 0, back };
  }
}
