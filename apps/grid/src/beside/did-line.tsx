import { Fragment, useSyncExternalStore } from 'react';
import { turnedSays, typedOver } from '../did/state-words.ts';
import { tellerOf } from '../did/teller.ts';
import { isPhone, onTurned } from '../session/on-screen.ts';
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
  const phone = useSyncExternalStore(onTurned, isPhone);
  const last = told.trying ?? told.last;
  if (last === undefined) return null;
  const [worst] = last.turned;
  const check =
    worst === undefined ? null : (
      <span className="did-line-check">
        <StateIcon state={worst.is.state} /> {turnedSays(worst, session.book)}
      </span>
    );
  // On a phone no cell that shows it is in sight: what it came to is told before by how much it moved.
  const [first, ...others] = last.lines
    .slice(0, FEW)
    .map(({ label, is, by, without, title }, i) => {
      const whole = `→ ${is}${without === undefined ? '' : `, ${without}`}`;
      const isWhole = by === undefined || (phone && i === 0);
      return (
        <Fragment key={title}>
          <span>
            {label} {isWhole ? whole : by}
          </span>
          {isWhole && by !== undefined ? <span>{by}</span> : null}
        </Fragment>
      );
    });
  const says = (
    <>
      <strong>{last.says}</strong>
      {last.overridden.length === 0 ? null : <span>{typedOver(last)}</span>}
    </>
  );
  return (
    <button type="button" className="did-line" onClick={onOpen} title="What the last change did">
      {worst?.is.state === 'stop' ? (
        // What cannot be built has no price to speak of: a lower one would read as a saving.
        <>
          {check}
          {says}
        </>
      ) : (
        <>
          {says}
          {first}
          {check}
          {others}
        </>
      )}
    </button>
  );
}
