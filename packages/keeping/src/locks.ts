/** One tab writes a workbook; others read it. */
export interface Hold {
  readonly access: 'write' | 'read';
  /** For a reader: settles when the writer has gone and this tab holds the workbook instead. */
  readonly free: Promise<void>;
  /** Resolves when the workbook can be taken by whoever wants it next. */
  release(): Promise<void>;
}

/** What of a browser's `LockManager` is needed. */
export interface Locks {
  /** Takes a lock and holds it until `use` settles; with `ifAvailable`, `use` gets `null` where it is taken. */
  request(
    name: string,
    options: { readonly ifAvailable?: boolean; readonly signal?: AbortSignal },
    use: (lock: unknown) => Promise<void>,
  ): Promise<unknown>;
}

type LetGo = () => Promise<void>;

const lockName = (book: string) => `kerfbook:book:${book}`;
const never = new Promise<void>(() => undefined);
const nothingHeld: LetGo = () => Promise.resolve();

/**
 * Takes a workbook for writing, or queues for it behind the tab that has it.
 * A browser without locks (a page that is not on https or localhost), or one that denies them where it
 * blocks site data, writes: it cannot know better.
 */
export async function holdBook(book: string, locks: Locks | undefined): Promise<Hold> {
  if (locks === undefined) return writing(nothingHeld);
  let now: LetGo | undefined;
  try {
    now = await take(locks, book, { ifAvailable: true });
  } catch {
    return writing(nothingHeld);
  }
  return now === undefined ? queue(locks, book) : writing(now);
}

/** The hold of a tab that writes. */
export function writing(release: LetGo): Hold {
  return { access: 'write', free: never, release };
}

function queue(locks: Locks, book: string): Hold {
  const leave = new AbortController();
  let letGo = nothingHeld;
  const free = new Promise<void>((resolve) => {
    take(locks, book, { signal: leave.signal }).then(
      (release) => {
        letGo = release ?? nothingHeld;
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
      return letGo();
    },
  };
}

/** Resolves with the way to let go, or with nothing where `ifAvailable` found it taken. */
function take(
  locks: Locks,
  book: string,
  options: { readonly ifAvailable?: boolean; readonly signal?: AbortSignal },
): Promise<LetGo | undefined> {
  return new Promise((resolve, reject) => {
    const over = locks.request(lockName(book), options, (lock) => {
      if (lock === null) {
        resolve(undefined);
        return Promise.resolve();
      }
      return new Promise<void>((release) =>
        resolve(async () => {
          release();
          await over.catch(() => undefined);
        }),
      );
    });
    over.catch(reject);
  });
}
