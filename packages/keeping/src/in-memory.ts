import { MemoryStore } from './memory-store.ts';
import { nameOf } from './trouble.ts';

/** What a page goes on with where the browser lets it keep nothing, and what its maker is told. */
export function inMemory(error: unknown): {
  readonly store: MemoryStore;
  readonly trouble: string;
} {
  return { store: new MemoryStore(), trouble: blockedSentence(error) };
}

/** What is blocked where the store of this browser cannot be opened, what that means and what to do. */
function blockedSentence(error: unknown): string {
  switch (nameOf(error)) {
    case 'VersionError':
      return 'A newer Kerfbook keeps the workbooks of this browser, and this page is an older one: nothing you do here is kept. Load the page again to get the newer one, or keep a copy as a file before you close it.';
    case 'HeldByOlder':
      return 'Another tab with an older Kerfbook does not let go of what is kept. Close that tab and load this page again: until then nothing you do here is kept.';
  }
  return `This browser blocks site data for this page (${nameOf(error)}): nothing you do here is kept once you close it. Allow site data for this address in the browser's settings and load the page again, or keep a copy as a file before you close it.`;
}
