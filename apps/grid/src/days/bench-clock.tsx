import { dayOfClock, planBook, readHours, takenOf } from '@kerfbook/days';
import type { BookStore } from '@kerfbook/keeping';
import { useMemo } from 'react';
import type { Session } from '../session/session.ts';
import { ClockBar } from './clock-bar.tsx';
import { useClock } from './use-clock.ts';
import './days.css';

interface BenchClockProps {
  readonly session: Session;
  readonly store: BookStore;
  readonly bookId: string;
  readonly changes: number;
}

/** The clock over the list of pieces; nothing where the workbook has no operations. */
export function BenchClock({ session, store, bookId, changes }: BenchClockProps) {
  const { book } = session;
  const today = dayOfClock(new Date());
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within
  const { plan, done } = useMemo(() => {
    const found = planBook(book, { otherwise: today + 1 });
    const { operations } = takenOf(found.reading.operations, readHours(book).rows);
    return {
      plan: found,
      done: new Set(operations.flatMap(({ id, isDone }) => (isDone && id ? [id] : []))),
    };
  }, [book, changes, today]);
  const names = new Map(plan.reading.operations.map(({ id, name }) => [id, name]));
  const running = useClock(session, { store, bookId }, (id) => names.get(id));
  return (
    <ClockBar
      running={running}
      schedule={plan.schedule}
      done={done}
      mayChange={session.mayChange}
    />
  );
}
