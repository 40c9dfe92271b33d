import { type BookStore, Watched } from '@kerfbook/keeping';

/** What of the device is asked: whether it was said before, and which workbooks there are. */
export type FirstVisitStore = Pick<BookStore, 'get' | 'set' | 'list'>;

const KEY = 'welcomed';

/** Whether to say what one sees at a first visit. Nothing is shown while that is not known. */
export class FirstVisit {
  readonly state = new Watched(false);
  readonly #store: FirstVisitStore;
  #book: object | undefined;
  #isOver = false;

  constructor(store: FirstVisitStore) {
    this.#store = store;
    void this.#ask();
  }

  /** Whether it is said of this workbook, the first that the page shows: whoever turned to another has found them. */
  isOf(book: object): boolean {
    this.#book ??= book;
    return this.#book === book;
  }

  /** It was put away, or something was changed: it never comes back. */
  over(): void {
    if (this.#isOver) return;
    this.#isOver = true;
    this.state.set(false);
    // Where it cannot be kept it is said once more, which costs nothing.
    this.#store.set(KEY, true).catch(() => undefined);
  }

  async #ask(): Promise<void> {
    const store = this.#store;
    try {
      if ((await store.get(KEY)) === true) return;
      const heads = await store.list();
      // Templates that were only looked at are nothing of one's own.
      const hasOwn = heads.some(
        ({ origin, revision, deleted }) =>
          origin.kind !== 'template' || revision > 0 || deleted !== undefined,
      );
      if (hasOwn) this.over();
      else if (!this.#isOver) this.state.set(true);
    } catch {
      // A device that cannot be read says enough by itself.
    }
  }
}

const visits = new WeakMap<FirstVisitStore, FirstVisit>();

/** The one of this device. */
export function firstVisitOf(store: FirstVisitStore): FirstVisit {
  const visit = visits.get(store) ?? new FirstVisit(store);
  visits.set(store, visit);
  return visit;
}
