/**
 * A part of the engine that the app loads after the first sheet is there. Everywhere else it is there
 * from the start.
 */
export interface Part<T> {
  readonly isThere: boolean;
  /** @throws {PartMissing} while it is still on its way; who asked is worked out anew when it comes */
  need(): T;
  /** Loads it where that has not been done; rejects where it cannot be had. */
  bring(): Promise<void>;
}

export class PartMissing extends Error {
  constructor() {
    super('a part of the engine is still on its way');
    this.name = 'PartMissing';
  }
}

export function there<T>(value: T): Part<T> {
  return { isThere: true, need: () => value, bring: () => Promise.resolve() };
}

let missed = 0;

/** How often a formula had to be worked out without a part it needs; it only grows. */
export function timesMissed(): number {
  return missed;
}

export function late<T>(load: () => Promise<T>): Part<T> {
  let value: { readonly it: T } | undefined;
  let coming: Promise<void> | undefined;
  const fetched = async (): Promise<void> => {
    try {
      value = { it: await load() };
    } catch (error) {
      // The next who needs it tries again.
      coming = undefined;
      throw error;
    }
  };
  return {
    get isThere() {
      return value !== undefined;
    },
    need() {
      if (value !== undefined) return value.it;
      missed += 1;
      throw new PartMissing();
    },
    bring() {
      coming ??= fetched();
      return coming;
    },
  };
}
