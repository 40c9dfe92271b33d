import { useEffect, useSyncExternalStore } from 'react';
import { tellerOf } from '../did/teller.ts';
import type { Session } from '../session/session.ts';
import { type FirstVisitStore, firstVisitOf } from './first-visit.ts';
import './did.css';

export interface WelcomeProps {
  readonly session: Session;
  readonly store: FirstVisitStore;
}

/**
 * At a first visit, where what a change did is told as soon as there is one: that this is a copy, and where the others
 * are. The first change takes its place, and whoever turned to another workbook needs it no more.
 */
export function Welcome({ session, store }: WelcomeProps) {
  const visit = firstVisitOf(store);
  const first = useSyncExternalStore(visit.state.watch, () => visit.state.value);
  const teller = tellerOf(session);
  const told = useSyncExternalStore(teller.state.watch, () => teller.state.value);
  const past = told.last !== undefined || !visit.isOf(session.book);
  useEffect(() => {
    if (past) visit.over();
  }, [past, visit]);
  if (!first || past) return null;
  return (
    <p className="welcome">
      <span>
        Change what you like: this is your copy. For other workbooks, press its name, top left.
      </span>
      <button
        type="button"
        className="button"
        aria-label="Dismiss what this workbook is"
        onClick={() => {
          visit.over();
          session.focusGrid();
        }}
      >
        Dismiss
      </button>
    </p>
  );
}
