import {
  clock,
  MAKER,
  type Moment,
  type Placed,
  type Schedule,
  sayDay,
  takesTime,
  written,
} from '@kerfbook/days';
import { knownTable } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { useId, useRef, useState } from 'react';
import { fieldEdit } from '../commands/table-fields.ts';
import type { Session } from '../session/session.ts';
import { hoursSaid } from './said.ts';
import { dayIn } from './shop-cells.ts';

interface DaysTableProps {
  readonly session: Session;
  readonly schedule: Schedule;
  readonly onGo: (at: At) => void;
}

const when = ({ day, hour }: Moment): string =>
  `${sayDay(day).replace(/ \d{4}$/, '')} ${clock(hour)}`;

/** The plan in numbers, and the way to begin one operation later. */
export function DaysTable({ session, schedule, onGo }: DaysTableProps) {
  const [chosen, setChosen] = useState<string>();
  const [says, setSays] = useState<string>();
  const before = useRef<Schedule>(undefined);
  const placed = schedule.placed.filter(({ operation }) => takesTime(operation));
  const rowOf = rowsById(session);
  const moved = before.current === undefined ? undefined : movedSaid(before.current, schedule);
  const later = (one: Placed, day: number | undefined): void => {
    const { book } = session;
    const table = knownTable(book, 'operations');
    const row = rowOf(one.operation.id);
    if (table === undefined || row === undefined) return;
    const text = day === undefined ? '' : written(day);
    const edit = fieldEdit(book, { kind: 'operations', table, row, head: 'not before' }, text);
    before.current = schedule;
    const done = session.apply(
      edit,
      day === undefined
        ? `${one.operation.name}: begins as soon as it can`
        : `${one.operation.name}: not before ${sayDay(day)}`,
    );
    if (!done.ok) session.hush();
    setSays(done.ok ? undefined : done.says);
  };
  return (
    <section className="days-part" aria-label="The operations">
      <h2>The operations</h2>
      {says === undefined ? null : (
        <p role="alert" className="complaint">
          {says}
        </p>
      )}
      <p role="status" className="days-moved">
        {moved ?? ''}
      </p>
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section className="days-scroll" aria-label="Operations in numbers" tabIndex={0}>
        <table className="days-table">
          <thead>
            <tr>
              {[
                'Operation',
                'Delay',
                'Hands-on',
                'Left alone',
                'Who and what',
                'Begins',
                'Work ends',
                'Over',
                'To spare',
              ].map((says) => (
                <th key={says} scope="col">
                  {says}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {placed.map((one) => (
              <OperationRow
                key={one.operation.id}
                one={one}
                isOpen={chosen === one.operation.id}
                mayChange={session.mayChange}
                onOpen={() => setChosen(chosen === one.operation.id ? undefined : one.operation.id)}
                onName={() => {
                  const row = rowOf(one.operation.id);
                  const table = knownTable(session.book, 'operations');
                  if (row !== undefined && table !== undefined)
                    onGo({ sheet: table.sheet, row, column: table.columns.get('operation') ?? 0 });
                }}
                onLater={(day) => later(one, day)}
                nextDay={(day) => schedule.inside.calendar.workday(day + 1)}
              />
            ))}
          </tbody>
        </table>
      </section>
      {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: as above. */}
    </section>
  );
}

/** Where an operation stands, by the id of its row. */
function rowsById({ book }: Session): (id: string) => number | undefined {
  const table = knownTable(book, 'operations');
  const rows = new Map<string, number>();
  if (table !== undefined) {
    for (let row = table.first; row < table.end; row += 1) {
      const id = book.idsAt({ sheet: table.sheet, row, column: 0 })?.row;
      if (id !== undefined) rows.set(id, row);
    }
  }
  return (id) => rows.get(id);
}

/** What moved since a delay was set: which operations begin on another day, and the end. */
function movedSaid(before: Schedule, now: Schedule): string | undefined {
  if (before === now) return undefined;
  const was = new Map(before.placed.map(({ operation, seconds }) => [operation.id, seconds.start]));
  const moved = now.placed.filter(
    ({ operation, seconds }) =>
      takesTime(operation) && was.has(operation.id) && was.get(operation.id) !== seconds.start,
  );
  if (moved.length === 0) return 'Nothing moves: it begins no earlier than that anyway.';
  const names = moved.map(({ operation }) => operation.name);
  const some =
    names.length > 3
      ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`
      : names.join(', ');
  const [old, next] = [before.jobs[0]?.promise ?? 0, now.jobs[0]?.promise ?? 0];
  const end =
    old === next
      ? `The day to promise stays ${sayDay(next)}.`
      : `Done by ${sayDay(next)} instead of ${sayDay(old)}.`;
  return `${some} ${names.length === 1 ? 'moves' : 'move'}. ${end}`;
}

interface OperationRowProps {
  readonly one: Placed;
  readonly isOpen: boolean;
  readonly mayChange: boolean;
  readonly onOpen: () => void;
  readonly onName: () => void;
  readonly onLater: (day: number | undefined) => void;
  readonly nextDay: (day: number) => number;
}

function OperationRow({
  one,
  isOpen,
  mayChange,
  onOpen,
  onName,
  onLater,
  nextDay,
}: OperationRowProps) {
  const { operation, start, worked, end, slack, critical } = one;
  const { handsOn, waiting, who, machines, notBefore } = operation;
  const id = useId();
  return (
    <>
      <tr data-critical={critical}>
        <th scope="row">
          <button type="button" className="button-plain" onClick={onName}>
            {operation.name}
          </button>
        </th>
        <td>
          <button
            type="button"
            className="button"
            aria-expanded={isOpen}
            aria-controls={id}
            aria-label={`Begin ${operation.name} later`}
            disabled={!mayChange}
            onClick={onOpen}
          >
            Later …
          </button>
        </td>
        <td>{handsOn === 0 ? '' : hoursSaid(handsOn)}</td>
        <td>{waiting === 0 ? '' : hoursSaid(waiting)}</td>
        <td className="days-words">
          {[...(handsOn === 0 ? [] : who.length === 0 ? [MAKER] : who), ...machines].join(', ')}
        </td>
        <td>{when(start)}</td>
        <td>{handsOn === 0 ? '' : when(worked)}</td>
        <td>{waiting === 0 ? '' : when(end)}</td>
        <td>{critical ? <b>none</b> : hoursSaid(slack)}</td>
      </tr>
      {isOpen ? (
        <tr id={id}>
          <td colSpan={9} className="days-later">
            <div>
              <label>
                Not before{' '}
                <input
                  type="date"
                  className="field"
                  aria-label={`${operation.name}: not before`}
                  value={notBefore === undefined ? '' : written(notBefore)}
                  onChange={({ target }) => {
                    const day = dayIn(target.value);
                    if (day !== undefined) onLater(day);
                  }}
                />
              </label>
              <button type="button" className="button" onClick={() => onLater(nextDay(start.day))}>
                A day later
              </button>
              {notBefore === undefined ? null : (
                <button type="button" className="button" onClick={() => onLater(undefined)}>
                  As soon as it can
                </button>
              )}
            </div>
          </td>
        </tr>
      ) : null}
    </>
  );
}
