/**
 * A library that functions need and the app loads after the first sheet is there. Everywhere else it is there
 * from the start.
 */
export interface Lazy<T> {
  /** It is there: `need` gives it. */
  readonly isLoaded: boolean;
  /** @throws {NotLoaded} while it is still on its way; who asked is worked out anew when it comes */
  need(): T;
  /** Loads it where that has not been done; rejects where it cannot be had. */
  bring(): Promise<void>;
}

/** Somebody needed a library that is still on its way. */
export class NotLoaded extends Error {
  constructor() {
    super('a library is still on its way');
    this.name = 'NotLoaded';
  }
}

/** A library that is there from the start. */
export function loaded<T>(value: T): Lazy<T> {
  return { isLoaded: true, need: () => value, bring: () => Promise.resolve() };
}

let missed = 0;

/** How often a formula had to be worked out without a library it needs; it only grows. */
export function timesMissed(): number {
  return missed;
}

/** A library that is loaded when it is first asked for. */
export function lazy<T>(load: () => Promise<T>): Lazy<T> {
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
    get isLoaded() {
      return value !== undefined;
    },
    need() {
      if (value !== undefined) return value.it;
      missed += 1;
      throw new NotLoaded();
    },
    bring() {
      coming ??= fetched();
      return coming;
    },
  };
}
