import type { Plan } from '@kerfbook/guide';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { useEffect, useRef } from 'react';
import { StateIcon } from '../beside/state-icon.tsx';

interface ProblemListProps {
  readonly book: OpenWorkbook;
  readonly plan: Plan;
  /** Takes the maker to the step, or to the cell of the workbook, that it is about. */
  readonly onGo: (at: At) => void;
}

/** What is wrong with the plan, folded behind how much it is; each leads to its place. */
export function ProblemList({ book, plan, onGo }: ProblemListProps) {
  const { problems } = plan;
  const fold = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const close = (event: Event): void => {
      const at = event.target;
      if (fold.current === null || (at instanceof Node && fold.current.contains(at))) return;
      fold.current.open = false;
    };
    document.addEventListener('pointerdown', close);
    return () => document.removeEventListener('pointerdown', close);
  }, []);
  if (problems.length === 0) {
    return plan.steps.length === 0 ? null : (
      <p className="plan-right">
        <StateIcon state="pass" /> Nothing to look at
      </p>
    );
  }
  return (
    <details
      ref={fold}
      className="plan-problems"
      onKeyDown={({ key, currentTarget }) => {
        if (key !== 'Escape' || !currentTarget.open) return;
        currentTarget.open = false;
        currentTarget.querySelector('summary')?.focus();
      }}
    >
      <summary className="button">
        <StateIcon state="care" />{' '}
        {problems.length === 1 ? '1 thing to look at' : `${problems.length} things to look at`}
      </summary>
      <ul>
        {problems.map(({ at, says }) => (
          <li key={`${at.sheet} ${at.row} ${at.column} ${says}`}>
            <button
              type="button"
              className="plan-problem"
              onClick={() => {
                if (fold.current !== null) fold.current.open = false;
                onGo(at);
              }}
            >
              {says}
              <span className="quiet">
                {' '}
                {book.sheet(at.sheet)?.name} {book.addressOf(at)}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
