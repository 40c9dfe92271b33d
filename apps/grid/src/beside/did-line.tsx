import { useSyncExternalStore } from 'react';
import { turnedSays } from '../did/state-words.ts';
import { tellerOf } from '../did/teller.ts';
import type { Session } from '../session/session.ts';
import { StateIcon } from './state-icon.tsx';
import './did.css';

export interface DidLineProps {
  readonly session: Session;
  /** Brings the whole list into sight. */
  readonly onOpen: () => void;
}

/** So many results stand in one line. */
const FEW = 3;

/** What the last change did in one line, where the list of it is not in sight; nothing before the first. */
export function DidLine({ session, onOpen }: DidLineProps) {
  const teller = tellerOf(session);
  const told = useSyncExternalStore(teller.state.watch, () => teller.state.value);
  const last = told.trying ?? told.last;
  if (last === undefined) return null;
  const [worst] = last.turned;
  const [first, ...others] = last.lines.slice(0, FEW).map(({ label, is, by, title }) => (
    <span key={title}>
      {label} {by ?? `→ ${is}`}
    </span>
  ));
  return (
    <button type="button" className="did-line" onClick={onOpen} title="What the last change did">
      <strong>{last.says}</strong>
      {first}
      {worst === undefined ? null : (
        <span>
          <StateIcon state={worst.is.state} /> {turnedSays(worst, session.book)}
        </span>
      )}
      {others}
    </button>
  );
}
