import { useEffect, useSyncExternalStore } from 'react';
import type { Session } from '../session/session.ts';
import { endProving, provingOf } from './proving.ts';

/** Under the grid: that a plan is still being proven, with the way to stop it. */
export default function ProvingLine({ session }: { readonly session: Session }) {
  const proving = provingOf(session);
  useEffect(() => () => endProving(session), [session]);
  const { open, stopped } = useSyncExternalStore(proving.state.watch, () => proving.state.value);
  if (open > 0) {
    return (
      <p className="proving-line quiet">
        {open === 1 ? 'A buying plan is' : `${open} buying plans are`} still being proven: cells
        with … rest on {open === 1 ? 'it' : 'them'} and may yet cost less.{' '}
        <button type="button" className="button-plain" onClick={() => proving.stop()}>
          Stop proving
        </button>
      </p>
    );
  }
  if (stopped === 0) return null;
  return (
    <p className="proving-line quiet">
      {stopped === 1 ? 'A buying plan was' : `${stopped} buying plans were`} left unproven: cells
      with … rest on {stopped === 1 ? 'it' : 'them'}.{' '}
      <button type="button" className="button-plain" onClick={() => proving.goOn()}>
        Go on proving
      </button>
    </p>
  );
}
