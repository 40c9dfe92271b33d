/** One tab writes a workbook; others read it. */
export interface Hold {
  readonly access: 'write' | 'read';
  /** For a reader: settles when the writer has gone and this tab holds the workbook instead. */
  readonly free: Promise<void>;
  release(): void;
}

export interface Locks {
  request(
    name: string,
    options: { readonly ifAvailable?: boolean; readonly signal?: AbortSignal },
    use: (lock: unknown) => Promise<void>,
  ): Promise<unknown>;
}

const lockName = (book: string) => `kerfbook:book:${book}`;
const never = new Promise<void>(() => undefined);

/**
 * Takes a workbook for writing, or queues for it behind the tab that has it.
 * A browser without locks (a page that is not on https or localhost) writes: it cannot know better.
 */
export async function holdBook(book: string, locks: Locks | undefined): Promise<Hold> {
  if (locks === undefined) return { access: 'write', free: never, release: () => undefined };
  const now = await take(locks, book, { ifAvailable: true });
  if (now !== undefined) return { access: 'write', free: never, release: now };
  return queue(locks, book);
}

function queue(locks: Locks, book: string): Hold {
  const leave = new AbortController();
  let letGo: (() => void) | undefined;
  const free = new Promise<void>((resolve) => {
    take(locks, book, { signal: leave.signal }).then(
      (release) => {
        letGo = release;
        resolve();
      },
      // Only our own `release` ends the waiting, and then nobody is left to tell.
      () => undefined,
    );
  });
  return {
    access: 'read',
    free,
    release() {
      leave.abort();
      letGo?.();
    },
  };
}

/** Resolves with the way to let go, or with nothing where `ifAvailable` found it taken. */
function take(
  locks: Locks,
  book: string,
  options: { readonly ifAvailable?: boolean; readonly signal?: AbortSignal },
): Promise<(() => void) | undefined> {
  return new Promise((resolve, reject) => {
    locks
      .request(lockName(book), options, (lock) => {
        if (lock === null) {
          resolve(undefined);
          return Promise.resolve();
        }
        return new Promise<void>((release) => resolve(release));
      })
      .catch(reject);
  });
}
