import {
  BeyondCalendar,
  clock,
  type DayOfWork,
  LAST_DAY,
  type Placed,
  type Schedule,
  sayDay,
  workOn,
  written,
} from '@kerfbook/days';
import { hoursSaid } from './said.ts';
import { dayIn } from './shop-cells.ts';

interface DayPartProps {
  readonly schedule: Schedule;
  readonly day: number;
  readonly today: number;
  readonly onDay: (day: number) => void;
}

/** What there is to do on a day: on the next one, to lay things out the evening before. */
export function DayOfWorkPart({ schedule, day, today, onDay }: DayPartProps) {
  const work = workAt(schedule, day);
  const said = day === today ? ', today' : day === today + 1 ? ', tomorrow' : '';
  return (
    <section className="days-part" aria-label="What to do on a day">
      <h2>
        {sayDay(day)}
        {said}
      </h2>
      <p className="days-turn">
        <button
          type="button"
          className="button"
          disabled={day <= schedule.asked}
          onClick={() => onDay(day - 1)}
        >
          Day before
        </button>
        <button
          type="button"
          className="button"
          disabled={day >= LAST_DAY}
          onClick={() => onDay(day + 1)}
        >
          Day after
        </button>
        <label>
          <span className="visually-hidden">Another day</span>
          <input
            type="date"
            className="field"
            value={written(day)}
            min={written(schedule.asked)}
            onChange={({ target }) => {
              const next = dayIn(target.value);
              if (next !== undefined && next >= schedule.asked) onDay(next);
            }}
          />
        </label>
      </p>
      {work === undefined ? null : <DayList work={work} />}
    </section>
  );
}

/** Nothing for a day that the calendar does not come to. */
function workAt(schedule: Schedule, day: number): DayOfWork | undefined {
  try {
    return workOn(schedule, day);
  } catch (error) {
    if (error instanceof BeyondCalendar) return undefined;
    throw error;
  }
}

const needs = ({ operation: { who, machines } }: Placed): string => {
  const all = [...who, ...machines];
  return all.length === 0 ? '' : `needs ${all.join(', ')}`;
};

function DayList({
  work: { isWorked, inHand, waiting, couldBegin },
}: {
  readonly work: DayOfWork;
}) {
  const nothing = inHand.length + waiting.length + couldBegin.length === 0;
  return (
    <ul className="days-list">
      {isWorked ? null : <li>A day off: nobody works.</li>}
      {isWorked && nothing ? <li>Nothing to do for this job.</li> : null}
      {inHand.map(({ placed, hours, from, begins, ends }) => (
        <li key={placed.operation.id}>
          <b>{clock(from)}</b> {placed.operation.name}: {hoursSaid(hours)}
          {begins ? (ends ? '' : ', begun') : ends ? ', to its end' : ', gone on with'}{' '}
          <span className="quiet">{needs(placed)}</span>
        </li>
      ))}
      {waiting.map(({ operation, end }) => (
        <li key={`${operation.id} waits`}>
          {operation.name}: left alone until {sayDay(end.day)}, {clock(end.hour)}{' '}
          <span className="quiet">
            {operation.machines.length === 0 ? '' : `holds ${operation.machines.join(', ')}`}
          </span>
        </li>
      ))}
      {couldBegin.map(({ operation }) => (
        <li key={`${operation.id} could`} className="quiet">
          {operation.name} could be begun too, with more hands or machines.
        </li>
      ))}
    </ul>
  );
}
