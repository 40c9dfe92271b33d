import { useSyncExternalStore } from 'react';
import type { Session, SessionState } from '../session.ts';

/** The session as it stands; draws anew when it changes. */
export function useSession({ state }: Session): SessionState {
  return useSyncExternalStore(state.watch, () => state.value);
}
