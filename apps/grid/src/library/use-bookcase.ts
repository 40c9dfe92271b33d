import { useSyncExternalStore } from 'react';
import type { Bookcase } from '../storage/bookcase.ts';
import type { BookcaseState } from '../storage/bookcase-state.ts';

/** The bookcase as it stands; draws anew when it changes. */
export function useBookcase({ state }: Bookcase): BookcaseState {
  return useSyncExternalStore(state.watch, () => state.value);
}
