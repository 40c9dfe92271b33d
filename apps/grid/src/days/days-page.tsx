import {
  type BookPlan,
  dayOfClock,
  planBook,
  readHours,
  type Schedule,
  takenOf,
} from '@kerfbook/days';
import type { Bookcase, BookStore } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import { useMemo, useState } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { BenchRooms } from './bench-rooms.tsx';
import { CalendarKey } from './calendar-key.tsx';
import { ClockBar } from './clock-bar.tsx';
import { DayOfWorkPart } from './day-part.tsx';
import { DaysChart } from './days-chart.tsx';
import { DaysTable } from './days-table.tsx';
import { PromisePart } from './promise-part.tsx';
import { ShopPart } from './shop-part.tsx';
import { TookPart } from './took-part.tsx';
import { useClock } from './use-clock.ts';
import './days.css';

interface DaysPageProps {
  readonly session: Session;
  readonly store: BookStore;
  readonly bookcase: Bookcase;
  readonly bookId: string;
  /** Turns to the pieces of the bench list. */
  readonly onPieces: () => void;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
}

/** When each operation is done, which day to promise, what to do tomorrow, and what it really took. */
export default function DaysPage(props: DaysPageProps) {
  const { session, store, bookcase, bookId, onPieces, onGo } = props;
  const { book } = session;
  const { changes } = useSessionBehind(session);
  const today = dayOfClock(new Date());
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within
  const plan = useMemo(() => planBook(book, { otherwise: today + 1 }), [book, changes, today]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within
  const worked = useMemo(() => readHours(book), [book, changes]);
  const taken = useMemo(
    () => takenOf(plan.reading.operations, worked.rows),
    [plan.reading, worked.rows],
  );
  const names = new Map(plan.reading.operations.map(({ id, name }) => [id, name]));
  const running = useClock(session, { store, bookId }, (id) => names.get(id));
  const done = new Set(taken.operations.flatMap(({ id, isDone }) => (isDone && id ? [id] : [])));
  return (
    <section className="days-page" aria-label="Days">
      <BenchRooms at="days" onPieces={onPieces} onDays={() => undefined} />
      {plan.reading.found ? (
        <>
          <Problems plan={plan} more={worked.problems} onGo={onGo} />
          <ClockBar
            running={running}
            schedule={plan.schedule}
            done={done}
            mayChange={session.mayChange}
          />
          {plan.schedule === undefined ? null : (
            <Planned {...props} plan={plan} schedule={plan.schedule} today={today} />
          )}
          <ShopPart session={session} plan={plan} />
          <TookPart
            session={session}
            bookcase={bookcase}
            taken={taken}
            worked={worked.rows}
            today={today}
            operations={plan.reading.operations}
          />
        </>
      ) : (
        <div className="days-nothing">
          <p className="quiet">
            This workbook has no operations yet. Write down what is done, how long one works on it
            and how long it is then left alone: from that come the days, the day to promise, and
            what to do tomorrow.
          </p>
          <StartTable
            session={session}
            kind="operations"
            onStarted={() => onGo(firstRow(session))}
          />
        </div>
      )}
    </section>
  );
}

function firstRow({ book, at }: Session): At {
  const table = book.tables().find(({ kind }) => kind === 'operations');
  return table === undefined ? at : { sheet: table.sheet, row: table.header + 1, column: 0 };
}

interface PlannedProps extends DaysPageProps {
  readonly plan: BookPlan;
  readonly schedule: Schedule;
  readonly today: number;
}

function Planned({ session, store, bookId, onGo, plan, schedule, today }: PlannedProps) {
  const { book } = session;
  const [asked, setAsked] = useState<number>();
  const day = asked ?? Math.max(today + 1, schedule.begins);
  return (
    <>
      <PromisePart plan={plan} schedule={schedule} session={session} />
      <DaysChart book={book} schedule={schedule} today={today} />
      <DaysTable session={session} schedule={schedule} onGo={onGo} />
      <DayOfWorkPart schedule={schedule} day={day} today={today} onDay={setAsked} />
      <CalendarKey
        schedule={schedule}
        store={store}
        bookIds={[bookId]}
        name={schedule.jobs[0]?.name ?? 'Days'}
      />
    </>
  );
}

/** What cannot be read, each with the way to its cell. */
function Problems({
  plan: { problems, hours, says, schedule },
  more,
  onGo,
}: {
  readonly plan: BookPlan;
  readonly more: BookPlan['problems'];
  readonly onGo: (at: At) => void;
}) {
  return (
    <>
      {[...problems, ...more].map(({ at, says: what }) => (
        <p key={`${at.sheet} ${at.row} ${at.column} ${what}`} role="alert" className="complaint">
          {what}{' '}
          <button type="button" className="button-plain" onClick={() => onGo(at)}>
            To its cell
          </button>
        </p>
      ))}
      {hours.problems.map(({ name, says: what }) => (
        <p key={name} role="alert" className="complaint">
          {what}
        </p>
      ))}
      {says === undefined ? null : (
        <p role="alert" className="complaint">
          {says}
        </p>
      )}
      {schedule === undefined && says === undefined && problems.length === 0 ? (
        <p className="quiet">Nothing can be planned yet.</p>
      ) : null}
    </>
  );
}
