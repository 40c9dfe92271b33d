import type { BookStore } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import { memo, Suspense, useId, useState } from 'react';
import { afterGrid } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import type { Seen } from './seen.ts';
import { checksSummary, StateIcon, worstState } from './state-icon.tsx';
import './side-table.css';

// Its place is kept from the start; what stands in it comes when the grid is there.
const SideTableBody = later<SideTableProps>(() =>
  afterGrid.then(() => import('./side-table-body.tsx')),
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
  readonly onRestore: (at: At) => void;
  /** Shows what a woodworking function is about. */
  readonly onFunction: (name: string) => void;
  readonly onCheck: (id: string | undefined) => void;
}

/** What stands beside the grid. On a narrow screen a handle slides it up. */
export const SideTable = memo(function SideTable(props: SideTableProps) {
  const [raised, setRaised] = useState(false);
  const body = useId();
  const checks = props.seen.book.checks();
  const worst = worstState(checks.map(({ state }) => state));
  return (
    <aside className="side-table" aria-label="Side table" tabIndex={-1} data-raised={raised}>
      <button
        type="button"
        className="side-table-handle"
        aria-expanded={raised}
        aria-controls={body}
        onClick={() => setRaised(!raised)}
      >
        <span>Side table</span>
        {worst === undefined ? null : <StateIcon state={worst} />}
        <span className="quiet">{checksSummary(checks)}</span>
      </button>
      <div id={body} className="side-table-body">
        <Suspense fallback={null}>
          <SideTableBody {...props} />
        </Suspense>
      </div>
    </aside>
  );
});
