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
      return 'A newer Kerfbook is in use in this browser, and this page is the older one: nothing you do here is saved. Reload the page to get the newer one, or save a copy as a file before you close it.';
    case 'HeldByOlder':
      return 'A tab with an older Kerfbook is still open. Close that tab and reload this page; until then nothing you do here is saved.';
  }
  return `This browser blocks site data for this page (${nameOf(error)}): nothing you do here is kept once you close it. Allow site data for this address in the browser's settings and reload the page, or save a copy as a file before you close it.`;
}
