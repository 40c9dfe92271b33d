import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Session, SessionState } from '../session/session.ts';

/** The session as it stands; draws anew at once when it changes. */
export function useSession({ state }: Session): SessionState {
  return useSyncExternalStore(state.watch, () => state.value);
}

/**
 * The session as it stood when the cells were last painted. What is beside the grid looks at this: a
 * key pressed waits for the cells, and for nothing else.
 */
export function useSessionBehind(session: Session): SessionState {
  const [seen, setSeen] = useState({ session, state: session.state.value });
  useEffect(() => {
    let frame = 0;
    const show = (): void => {
      frame = 0;
      // A frame's callbacks run before it is painted; the next task after it.
      setTimeout(() => setSeen({ session, state: session.state.value }));
    };
    const end = session.state.watch(() => {
      if (frame === 0) frame = requestAnimationFrame(show);
    });
    setSeen({ session, state: session.state.value });
    return () => {
      end();
      cancelAnimationFrame(frame);
    };
  }, [session]);
  return seen.session === session ? seen.state : session.state.value;
}
