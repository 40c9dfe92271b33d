import type { BookStore } from '../book-store.ts';

const WRITES = new Set(['put', 'relabel', 'append', 'snapshot', 'destroy', 'set', 'setAll']);

/** A device's storage as one page reaches it: once the page is killed, nothing of it arrives there any more. */
export interface Killable {
  readonly store: BookStore;
  /** Kills the page before its write of this number from now on, counted from 1. */
  killBefore(write: number): void;
  /** Whether it was killed. */
  readonly isDead: boolean;
}

/** Such a page's way to a storage that outlives it. */
export function killable(store: BookStore): Killable {
  let left = Number.POSITIVE_INFINITY;
  let isDead = false;
  const way = new Proxy(store, {
    get(target, key) {
      const value: unknown = Reflect.get(target, key, target);
      if (typeof value !== 'function') return value;
      return async (...given: unknown[]) => {
        if (WRITES.has(String(key))) left -= 1;
        if (left <= 0) isDead = true;
        if (isDead) throw new DOMException('the page is gone', 'AbortError');
        return Reflect.apply(value, target, given);
      };
    },
  });
  return {
    store: way,
    killBefore: (write) => {
      left = write;
    },
    get isDead() {
      return isDead;
    },
  };
}
