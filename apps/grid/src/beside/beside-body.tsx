import { keyOfCell } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { useEffect, useSyncExternalStore } from 'react';
import type { Session } from '../session/session.ts';
import { CellFold } from './cell-fold.tsx';
import { ChecksFold } from './checks-fold.tsx';
import { DidFold } from './did-fold.tsx';
import { DidOver } from './did-over.tsx';
import type { FirstVisitStore } from './first-visit.ts';
import { Fold } from './fold.tsx';
import { useFolds } from './folds.ts';
import { bringIntoSight } from './into-sight.ts';
import type { Seen } from './seen.ts';
import { checksSummary, StateIcon, worstState } from './state-icon.tsx';
import { Welcome } from './welcome.tsx';

export interface BesideProps {
  readonly session: Session;
  readonly seen: Seen;
  /** The current cell. */
  readonly at: At | undefined;
  /** False where this tab only reads. */
  readonly mayChange: boolean;
  readonly store: FirstVisitStore;
  /** Stable between renders: it takes the maker to a cell. */
  readonly onGo: (at: At) => void;
  readonly onRestore: (at: At) => void;
  /** Shows what a woodworking function is about. */
  readonly onFunction: (name: string) => void;
  readonly onCheck: (id: string | undefined) => void;
}

/** What the last change did, the explanation of the current cell, and the checks; one scroller for all of it. */
export default function BesideBody(props: BesideProps) {
  const { session, seen, at, mayChange, store, onGo, onRestore, onFunction, onCheck } = props;
  const [folds, fold] = useFolds(store);
  const troubles = useSyncExternalStore(
    session.state.watch,
    () => session.state.value.partTroubles,
  );
  const proving = useSyncExternalStore(session.state.watch, () => session.state.value.proving);
  const asked = useSyncExternalStore(session.state.watch, () => session.state.value.check);
  useEffect(() => {
    if (asked !== undefined) fold('checks', true);
  }, [asked, fold]);
  const checks = seen.book.checks();
  const worst = worstState(checks.map(({ state }) => state));
  // What the number gone to is stands over the checks, and may be beyond what is seen of it.
  const goFromCheck = (to: At): void => {
    onGo(to);
    requestAnimationFrame(() => bringIntoSight(document.querySelector('.beside-body .fold-cell')));
  };
  return (
    <>
      <DidOver key={session.id} session={session} open={folds.did} />
      <Fold part="did" title="What the last change did" open={folds.did} onToggle={fold}>
        <Welcome session={session} store={store} />
        <DidFold key={session.id} session={session} onGo={onGo} />
      </Fold>
      <Fold part="cell" title="This cell" open={folds.cell} onToggle={fold}>
        <CellFold
          seen={seen}
          at={at}
          mayChange={mayChange}
          onGo={onGo}
          onRestore={onRestore}
          onFunction={onFunction}
          trouble={at === undefined ? undefined : troubles?.get(keyOfCell(at))}
          unproven={at !== undefined && proving?.has(keyOfCell(at)) === true}
        />
      </Fold>
      <Fold
        part="checks"
        title="Checks"
        aside={
          <span className="fold-aside">
            {worst === undefined ? null : <StateIcon state={worst} />} {checksSummary(checks)}
          </span>
        }
        open={folds.checks}
        onToggle={fold}
      >
        <ChecksFold
          seen={seen}
          asked={asked}
          onGo={goFromCheck}
          onCheck={mayChange ? onCheck : undefined}
        />
      </Fold>
    </>
  );
}
