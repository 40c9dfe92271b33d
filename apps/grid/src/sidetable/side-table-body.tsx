import { CellFold } from './cell-fold.tsx';
import { ChecksFold } from './checks-fold.tsx';
import { DrawingFold } from './drawing-fold.tsx';
import { Fold } from './fold.tsx';
import { useFolds } from './folds.ts';
import type { SideTableProps } from './side-table.tsx';
import { checksSummary, StateIcon, worstState } from './state-icon.tsx';

/** The drawing, the explanation of the current cell, and the checks: all at once, so that none moves. */
export default function SideTableBody(props: SideTableProps) {
  const { seen, at, mayChange, store, onGo, onGoSheet, onRestore, onFunction, onCheck } = props;
  const [folds, fold] = useFolds(store);
  const checks = seen.book.checks();
  const worst = worstState(checks.map(({ state }) => state));
  return (
    <>
      <Fold part="drawing" title="Drawing" open={folds.drawing} onToggle={fold}>
        <DrawingFold seen={seen} at={at} onGo={onGo} />
      </Fold>
      <Fold part="cell" title="This cell" open={folds.cell} onToggle={fold}>
        <CellFold
          seen={seen}
          at={at}
          mayChange={mayChange}
          onGo={onGo}
          onRestore={onRestore}
          onFunction={onFunction}
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
        <ChecksFold seen={seen} onGoSheet={onGoSheet} onCheck={mayChange ? onCheck : undefined} />
      </Fold>
    </>
  );
}
