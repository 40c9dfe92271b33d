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
  return `This browser blocks site data for this page (${nameOf(error)}): nothing you do here is kept once you close it. Allow site data for this address in the browser's settings and load the page again, or keep a copy as a file before you close it.`;
}
