/** Whether the browser promised not to clear this page's data when space runs short. */
export type Keeping = 'unknown' | 'promised' | 'atRisk';

/** What of a browser's `StorageManager` is needed. */
export interface StorageManagerLike {
  /** Whether the promise was given. */
  persisted?(): Promise<boolean>;
  /** Asks for it; whether it was given. */
  persist?(): Promise<boolean>;
}

/** Whether it was promised before, without asking for it. */
export async function promisedSoFar(storage: StorageManagerLike | undefined): Promise<Keeping> {
  try {
    if (storage?.persisted === undefined) return 'unknown';
    return (await storage.persisted()) ? 'promised' : 'atRisk';
  } catch {
    return 'unknown';
  }
}

/** Asks the browser for that promise. Some ask the maker first, so call it after a first save. */
export async function askToKeep(storage: StorageManagerLike | undefined): Promise<Keeping> {
  if (storage?.persisted === undefined || storage.persist === undefined) return 'unknown';
  try {
    if (await storage.persisted()) return 'promised';
    return (await storage.persist()) ? 'promised' : 'atRisk';
  } catch {
    // A browser that blocks site data refuses the question too.
    return 'unknown';
  }
}
