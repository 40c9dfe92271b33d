import type { Bookcase, BookcaseState } from '@kerfbook/keeping';
import { useSyncExternalStore } from 'react';

/** The bookcase as it stands; draws anew when it changes. */
export function useBookcase({ state }: Bookcase): BookcaseState {
  return useSyncExternalStore(state.watch, () => state.value);
}
