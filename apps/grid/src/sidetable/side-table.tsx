import type { At } from '@kerfbook/workbook';
import { lazy, memo, Suspense, useId, useState } from 'react';
import type { BookStore } from '../storage/book-store.ts';
import { CellPart } from './cell-part.tsx';
import { ChecksPart, checksSummary } from './checks-part.tsx';
import { Fold } from './fold.tsx';
import { useFolds } from './folds.ts';
import type { Seen } from './seen.ts';
import { StateMark, worstState } from './state-mark.tsx';
import './side-table.css';

// The grid is there first; the drawing comes a moment later.
const DrawingPart = lazy(() =>
  import('./drawing-part.tsx').then(({ DrawingPart: part }) => ({ default: part })),
);

export interface SideTableProps {
  readonly seen: Seen;
  /** The current cell. */
  readonly at: At | undefined;
  /** False where this tab only reads. */
  readonly mayChange: boolean;
  readonly store: Pick<BookStore, 'get' | 'set'>;
  /** Stable between renders: it takes the maker to a cell. */
  readonly onGo: (at: At) => void;
  readonly onGoSheet: (sheet: string) => void;
  readonly onLift: (at: At) => void;
  /** Shows what a woodworking function is about. */
  readonly onFunction: (name: string) => void;
  readonly onCheck: (id: string | undefined) => void;
}

/** The drawing, the explanation of the current cell, and the checks, beside the grid. */
export const SideTable = memo(function SideTable(props: SideTableProps) {
  const { seen, at, mayChange, store, onGo, onGoSheet, onLift, onFunction, onCheck } = props;
  const [folds, fold] = useFolds(store);
  const [raised, setRaised] = useState(false);
  const body = useId();
  const checks = seen.book.checks();
  const worst = worstState(checks.map(({ state }) => state));
  const summary = checksSummary(checks);
  return (
    <aside className="side-table" aria-label="Side table" data-raised={raised}>
      <button
        type="button"
        className="side-table-handle"
        aria-expanded={raised}
        aria-controls={body}
        onClick={() => setRaised(!raised)}
      >
        <span>Side table</span>
        {worst === undefined ? null : <StateMark state={worst} />}
        <span className="quiet">{summary}</span>
      </button>
      <div id={body} className="side-table-body">
        <Fold part="drawing" title="Drawing" open={folds.drawing} onToggle={fold}>
          <Suspense fallback={null}>
            <DrawingPart seen={seen} at={at} onGo={onGo} />
          </Suspense>
        </Fold>
        <Fold part="cell" title="This cell" open={folds.cell} onToggle={fold}>
          <CellPart
            seen={seen}
            at={at}
            mayChange={mayChange}
            onGo={onGo}
            onLift={onLift}
            onFunction={onFunction}
          />
        </Fold>
        <Fold
          part="checks"
          title="Checks"
          aside={
            <span className="fold-aside">
              {worst === undefined ? null : <StateMark state={worst} />} {summary}
            </span>
          }
          open={folds.checks}
          onToggle={fold}
        >
          <ChecksPart seen={seen} onGoSheet={onGoSheet} onCheck={mayChange ? onCheck : undefined} />
        </Fold>
      </div>
    </aside>
  );
});
