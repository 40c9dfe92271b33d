import { type KeyboardEvent, useRef } from 'react';
import { StateIcon } from '../beside/state-icon.tsx';
import type { Seen } from './guide-page.tsx';
import type { StepHands } from './steps-room.tsx';
import type { StepRow, StepsTable } from './steps-table.ts';

interface StepListProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly chosen: StepRow | undefined;
  readonly hands: StepHands;
  readonly onChoose: (step: StepRow) => void;
}

/** Every step as the table has it; arrows go through them, with Alt they move the chosen one. */
export function StepList({ seen, table, chosen, hands, onChoose }: StepListProps) {
  const { plan, session } = seen;
  const list = useRef<HTMLOListElement>(null);
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : undefined;
    if (by !== undefined) {
      event.preventDefault();
      if (event.altKey) hands.move(by);
      else {
        const next = table.rows[table.rows.findIndex(({ id }) => id === chosen?.id) + by];
        if (next !== undefined) onChoose(next);
      }
      // The chosen one keeps the keys, wherever it went.
      setTimeout(
        () => list.current?.querySelector<HTMLElement>('[aria-current="true"]')?.focus(),
        60,
      );
    } else if (event.key === 'Delete') {
      event.preventDefault();
      hands.remove();
      setTimeout(
        () => list.current?.querySelector<HTMLElement>('[aria-current="true"]')?.focus(),
        60,
      );
    }
  };
  return (
    <nav className="plan-list" aria-label="Steps">
      {table.rows.length === 0 ? null : (
        <ol ref={list} onKeyDown={onKeyDown}>
          {table.rows.map((step) => {
            const wrong = plan.problems.some(
              ({ at }) => at.sheet === table.sheet && at.row === step.row,
            );
            const isOn = step.id === chosen?.id;
            return (
              <li key={step.id}>
                <button
                  type="button"
                  aria-current={isOn ? 'true' : undefined}
                  onClick={() => onChoose(step)}
                >
                  <span className="plan-number">{step.numbers ?? '–'}</span>
                  <span className="plan-title">
                    {step.title}
                    {step.numbers === undefined ? (
                      <span className="quiet">not at this size</span>
                    ) : null}
                  </span>
                  {wrong ? <StateIcon state="care" label="Something to look at" /> : null}
                </button>
              </li>
            );
          })}
        </ol>
      )}
      {session.mayChange ? (
        <button type="button" className="button" onClick={hands.add}>
          New step
        </button>
      ) : null}
    </nav>
  );
}
