import {
  type AllTaken,
  type Average,
  averageFor,
  averagesOf,
  hoursKept,
  type Operation,
  type Taken,
  type Worked,
  written,
} from '@kerfbook/days';
import { knownTable } from '@kerfbook/drawing';
import { type Bookcase, writeTrouble } from '@kerfbook/keeping';
import { otherBooksWith } from '@kerfbook/keeping/shelf';
import type { Edit } from '@kerfbook/workbook';
import { type FormEvent, useEffect, useMemo, useState } from 'react';
import { fieldEdit } from '../commands/table-fields.ts';
import { moneyText } from '../page/money-text.ts';
import { asRead } from '../session/decimal-mark.ts';
import type { Session } from '../session/session.ts';
import { workEdit } from './hours-edits.ts';
import { differenceSaid, hoursSaid } from './said.ts';
import { dayIn } from './shop-cells.ts';
import { hoursTyped } from './typed.ts';

interface TookPartProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly taken: AllTaken;
  /** The rows of hours that this is of. */
  readonly worked: readonly Worked[];
  readonly operations: readonly Operation[];
  readonly today: number;
}

/** What each operation took beside what was thought, and what it took in the shop's other workbooks. */
export function TookPart(props: TookPartProps) {
  const { session, bookcase, taken, worked, operations, today } = props;
  const { averages, says } = useAverages(bookcase, worked);
  const { book } = session;
  const [refused, setRefused] = useState<string>();
  const take = (operation: Operation, average: Average): void => {
    const edit = averageEdit(session, operation, average);
    if (edit === undefined) return;
    const done = session.apply(edit, `${operation.name}: ${averageSaid(average)}`);
    if (!done.ok) session.hush();
    setRefused(done.ok ? undefined : done.says);
  };
  const money = taken.spent > 0;
  // What an option leaves out takes no time and was not worked at.
  const shown = taken.operations.filter(
    ({ estimate, times, spent, isDone }) => estimate !== 0 || times > 0 || spent > 0 || isDone,
  );
  return (
    <section className="days-part" aria-label="What it really took">
      <h2>What it really took</h2>
      {says === undefined ? null : <p className="complaint">{says}</p>}
      {refused === undefined ? null : (
        <p role="alert" className="complaint">
          {refused}
        </p>
      )}
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section className="days-scroll" aria-label="Hours in numbers" tabIndex={0}>
        <table className="days-table">
          <thead>
            <tr>
              <th scope="col">Operation</th>
              <th scope="col">Estimate</th>
              <th scope="col">So far</th>
              <th scope="col">Differs by</th>
              {money ? <th scope="col">Spent</th> : null}
              <th scope="col">State</th>
              <th scope="col">In your other jobs</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((one, i) => {
              const operation = operations.find(({ id }) => id === one.id);
              const average = averageFor(averages, one.name);
              return (
                <tr key={one.id ?? `beside ${i}`}>
                  <th scope="row">{one.name}</th>
                  <td>{one.estimate === undefined ? 'not planned' : hoursSaid(one.estimate)}</td>
                  <td>{one.times === 0 ? '' : hoursSaid(one.worked)}</td>
                  <td>{differs(one)}</td>
                  {money ? <td>{one.spent === 0 ? '' : moneyText(book, one.spent)}</td> : null}
                  <td>{one.isDone ? 'done' : one.times > 0 ? 'begun' : ''}</td>
                  <td className="days-words">
                    {average === undefined ? null : (
                      <AverageOffer
                        average={average}
                        operation={operation}
                        mayChange={session.mayChange}
                        onTake={take}
                      />
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">In all</th>
              <td>{hoursSaid(taken.estimate)}</td>
              <td>{hoursSaid(taken.worked)}</td>
              <td>
                {taken.done.count === 0
                  ? ''
                  : `${differenceSaid(taken.done.worked - taken.done.estimate)} in what is done`}
              </td>
              {money ? <td>{moneyText(book, taken.spent)}</td> : null}
              <td />
              <td />
            </tr>
          </tfoot>
        </table>
      </section>
      {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: as above. */}
      <Material session={session} spent={taken.spent} />
      <HoursForm session={session} operations={operations} today={today} />
    </section>
  );
}

/** How far what is done took more or less; of what is not done only that it took more is known. */
const differs = ({ estimate, worked, times, isDone }: Taken): string => {
  if (estimate === undefined || times === 0) return '';
  return isDone || worked > estimate ? differenceSaid(worked - estimate) : '';
};

/** What receipts say beside what the materials were reckoned at. */
function Material({
  session: { book },
  spent,
}: {
  readonly session: Session;
  readonly spent: number;
}) {
  const cell = book.named('cost_materials') ?? book.named('material_cost');
  if (spent === 0 || cell?.value.kind !== 'number') return null;
  return (
    <p>
      Receipts say {moneyText(book, spent)}; the materials were reckoned at{' '}
      {moneyText(book, cell.value.number)}.
    </p>
  );
}

const rounded = (hours: number): number => Math.round(hours * 100) / 100;

/** `5.2 h, 4 h to 7 h`. */
const averageSaid = ({ mean, least, most, count }: Average): string =>
  count === 1 || least === most
    ? hoursSaid(mean)
    : `${hoursSaid(mean)}, ${hoursSaid(least)} to ${hoursSaid(most)}`;

function AverageOffer({
  average,
  operation,
  mayChange,
  onTake,
}: {
  readonly average: Average;
  readonly operation: Operation | undefined;
  readonly mayChange: boolean;
  readonly onTake: (operation: Operation, average: Average) => void;
}) {
  const { mean, least, most, count, begun } = average;
  const spread = count === 1 || least === most ? '' : `, ${hoursSaid(least)} to ${hoursSaid(most)}`;
  const isTaken = operation !== undefined && rounded(operation.handsOn) === rounded(mean);
  return (
    <>
      You took {hoursSaid(mean)}
      {count === 1 ? ' in 1 job' : ` on average over ${count} jobs`}
      {spread}.{begun === 0 ? '' : ` ${begun} more ${begun === 1 ? 'is' : 'are'} not done.`}{' '}
      {operation === undefined || isTaken ? null : (
        <button
          type="button"
          className="button"
          disabled={!mayChange}
          aria-label={`Take ${averageSaid(average)} for ${operation.name}`}
          onClick={() => onTake(operation, average)}
        >
          Take it
        </button>
      )}
    </>
  );
}

/** The edit that gives an operation its average, and its spread where there is one. */
function averageEdit(
  { book }: Session,
  { id }: Operation,
  { mean, least, most, count }: Average,
): Edit | undefined {
  const table = knownTable(book, 'operations');
  if (table === undefined) return undefined;
  let row = table.first;
  while (row < table.end && book.idsAt({ sheet: table.sheet, row, column: 0 })?.row !== id)
    row += 1;
  if (row >= table.end) return undefined;
  const edit = (head: string, hours: number): Edit =>
    fieldEdit(book, { kind: 'operations', table, row, head }, `${rounded(hours)}`);
  const edits = [edit('hands-on', mean)];
  // One column that is missing comes along; two in one step would be reckoned from the same place.
  const hasSpread = table.columns.has('least') && table.columns.has('most');
  if (count > 1 && least < most && hasSpread) {
    edits.push(
      edit('least', Math.min(least, rounded(mean))),
      edit('most', Math.max(most, rounded(mean))),
    );
  }
  return { do: 'batch', edits };
}

const NONE: readonly (readonly Worked[])[] = [];

/** What operations took in the shop's other workbooks, read of them once the page is there. */
function useAverages(
  bookcase: Bookcase,
  besides: readonly Worked[],
): {
  readonly averages: ReadonlyMap<string, Average>;
  readonly says: string | undefined;
} {
  const [books, setBooks] = useState(NONE);
  const [says, setSays] = useState<string>();
  useEffect(() => {
    let here = true;
    otherBooksWith(bookcase, 'hours').then(
      ({ books: found, unread }) => {
        if (!here) return;
        setBooks(found.map(({ document }) => hoursKept(document)));
        if (unread > 0) {
          setSays(
            `${unread === 1 ? '1 workbook' : `${unread} workbooks`} could not be read: the averages are without ${unread === 1 ? 'its' : 'their'} hours.`,
          );
        }
      },
      (error: unknown) => {
        if (here) setSays(`What your other jobs took could not be read: ${writeTrouble(error)}`);
      },
    );
    return () => {
      here = false;
    };
  }, [bookcase]);
  const averages = useMemo(() => averagesOf(books, besides), [books, besides]);
  return { averages, says };
}

interface HoursFormProps {
  readonly session: Session;
  readonly operations: readonly Operation[];
  readonly today: number;
}

/** Hours and receipts that are typed. */
function HoursForm({ session, operations, today }: HoursFormProps) {
  const [operation, setOperation] = useState('');
  const [day, setDay] = useState(() => written(today));
  const [hours, setHours] = useState('');
  const [spent, setSpent] = useState('');
  const [note, setNote] = useState('');
  const [isDone, setDone] = useState(false);
  const [says, setSays] = useState<string>();
  const [wrong, setWrong] = useState<string>();
  const name = operation === '' ? (operations[0]?.name ?? '') : operation;
  const enter = (event: FormEvent): void => {
    event.preventDefault();
    setSays(undefined);
    const on = dayIn(day);
    const read = hours.trim() === '' ? undefined : hoursTyped(hours);
    const money = asRead(spent.trim(), () => ({ quantity: 'money' }));
    if (on === undefined) {
      setWrong('Choose the day on which it was done.');
      return;
    }
    if (typeof read === 'string') {
      setWrong(read);
      return;
    }
    if (read === undefined && money === '' && !isDone) {
      setWrong('Type how long it took, or what was paid for it.');
      return;
    }
    const work = {
      operation: name,
      day: on,
      isDone,
      ...(read === undefined ? {} : { hours: read }),
      ...(money === '' ? {} : { spent: money }),
      ...(note.trim() === '' ? {} : { note: note.trim() }),
    };
    const done = session.apply(workEdit(session.book, work), `Hours of ${name}`);
    if (!done.ok) {
      session.hush();
      setWrong(done.says);
      return;
    }
    setWrong(undefined);
    setSays(`Written down for ${name}.`);
    setHours('');
    setSpent('');
    setNote('');
    setDone(false);
  };
  return (
    <form className="days-fields days-hours" aria-label="Write down hours" onSubmit={enter}>
      <label>
        Operation
        <select
          className="field"
          value={name}
          onChange={({ target }) => setOperation(target.value)}
        >
          {operations.map(({ id, name: one }) => (
            <option key={id} value={one}>
              {one}
            </option>
          ))}
        </select>
      </label>
      <label>
        Day
        <input
          type="date"
          className="field"
          value={day}
          onChange={({ target }) => setDay(target.value)}
        />
      </label>
      <Field label="Hours" hint="1 h 30 min" value={hours} onText={setHours} />
      <Field label="Spent, as receipts say" hint="" value={spent} onText={setSpent} />
      <Field label="Note" hint="" value={note} onText={setNote} />
      <label className="days-tick">
        <input
          type="checkbox"
          checked={isDone}
          onChange={({ target }) => setDone(target.checked)}
        />
        It is done
      </label>
      <button type="submit" className="button" disabled={!session.mayChange || name === ''}>
        Write it down
      </button>
      <p role="status">{says ?? ''}</p>
      {wrong === undefined ? null : (
        <p role="alert" className="complaint">
          {wrong}
        </p>
      )}
    </form>
  );
}

function Field({
  label,
  hint,
  value,
  onText,
}: {
  readonly label: string;
  readonly hint: string;
  readonly value: string;
  readonly onText: (text: string) => void;
}) {
  return (
    <label>
      {label}
      <input
        className="field"
        autoComplete="off"
        value={value}
        placeholder={hint}
        onChange={({ target }) => onText(target.value)}
      />
    </label>
  );
}
