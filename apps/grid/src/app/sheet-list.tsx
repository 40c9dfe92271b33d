import { useSyncExternalStore } from 'react';
import { useSessionBehind } from '../page/use-session.ts';
import { mayPoint } from '../session/pointing.ts';
import type { Session } from '../session/session.ts';
import { STATE_WORDS, StateIcon, worstState } from '../sidetable/state-icon.tsx';

/** The sheets, each with the worst state of its checks where that is not fine. */
export function SheetList({ session }: { readonly session: Session }) {
  const current = useSyncExternalStore(session.state.watch, () => session.state.value.at.sheet);
  useSessionBehind(session);
  const checks = session.book.checks();
  return (
    <nav className="sheet-list" aria-label="Sheets">
      <ul>
        {session.book.sheets().map(({ id, name }) => {
          const states = checks.filter(({ sheet }) => sheet === id).map(({ state }) => state);
          const worst = worstState(states);
          return (
            <li key={id}>
              <button
                type="button"
                aria-current={id === current ? 'page' : undefined}
                onMouseDown={(event) => {
                  // A formula being written keeps its focus: its maker points at another sheet.
                  if (mayPoint(session)) event.preventDefault();
                }}
                onClick={() => session.goSheet(id)}
              >
                <span className="sheet-name">{name}</span>
                {worst === undefined || worst === 'pass' ? null : (
                  <span className="sheet-state">
                    <StateIcon state={worst} /> {STATE_WORDS[worst]}
                  </span>
                )}
              </button>
            </li>
          );
        })}
      </ul>
    </nav>
  );
}
