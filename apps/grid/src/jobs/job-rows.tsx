import type { EditMaker } from '@kerfbook/keeping/shelf';
import { JOB_STATES, type JobState, jobStateEdit, showValue } from '@kerfbook/workbook';
import { type FormEvent, useId, useState } from 'react';
import { today } from '../commands/usual.ts';
import {
  dueWords,
  isOverdue,
  type JobLine,
  type JobSum,
  type Order,
  openSums,
  type Shown,
  shownJobs,
  toCome,
} from './job-list.ts';

/** Changes a job by edits of its workbook; answers with why it could not be. */
export type ChangeJob = (
  id: string,
  makers: readonly EditMaker[],
  says: (title: string) => string,
) => Promise<string | undefined>;

interface JobRowsProps {
  readonly lines: readonly JobLine[];
  readonly onOpen: (id: string) => void;
  readonly onChange: ChangeJob;
}

const SHOWN: readonly (readonly [shown: Shown, says: string])[] = [
  ['open', 'Not paid yet'],
  ['all', 'All'],
  ...JOB_STATES.map((state) => [state, capital(state)] as const),
];

/** The jobs in a table, with what finds them and what they come to. */
export function JobRows({ lines, onOpen, onChange }: JobRowsProps) {
  const [shown, setShown] = useState<Shown>('open');
  const [order, setOrder] = useState<Order>('due');
  const [typed, setTyped] = useState('');
  const now = today();
  const some = shownJobs(lines, { shown, order, typed });
  const late = lines.filter((line) => isOverdue(line, now)).length;
  return (
    <>
      <Sums sums={openSums(lines)} />
      <div className="jobs-find">
        <label>
          Find
          <input
            className="field"
            type="search"
            value={typed}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>
        <label>
          Show
          <select
            className="field"
            value={shown}
            onChange={(event) => setShown(event.target.value as Shown)}
          >
            {SHOWN.map(([one, says]) => (
              <option key={one} value={one}>
                {says}
              </option>
            ))}
          </select>
        </label>
        <label>
          Sort by
          <select
            className="field"
            value={order}
            onChange={(event) => setOrder(event.target.value as Order)}
          >
            <option value="due">due date</option>
            <option value="state">state</option>
          </select>
        </label>
      </div>
      <p role="status" className="quiet">
        {some.length === lines.length
          ? counted(lines.length)
          : `${some.length} of ${counted(lines.length)}`}
        {late === 0 ? '' : `, ${late} overdue`}.
      </p>
      {some.length === 0 ? (
        <p className="quiet">None of them. Show all, or find other words.</p>
      ) : (
        <table className="jobs-table">
          <thead>
            <tr>
              <th scope="col">Job</th>
              <th scope="col">State</th>
              <th scope="col">Due</th>
              <th scope="col" className="jobs-money">
                Price
              </th>
              <th scope="col">
                <span className="visually-hidden">More</span>
              </th>
            </tr>
          </thead>
          {some.map((line) => (
            <JobRow key={line.id} line={line} now={now} onOpen={onOpen} onChange={onChange} />
          ))}
        </table>
      )}
    </>
  );
}

const counted = (many: number): string => `${many} ${many === 1 ? 'job' : 'jobs'}`;

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

interface JobRowProps {
  readonly line: JobLine;
  readonly now: string;
  readonly onOpen: (id: string) => void;
  readonly onChange: ChangeJob;
}

function JobRow({ line, now, onOpen, onChange }: JobRowProps) {
  const { id, title, facts, price, isOld, here } = line;
  const [changing, setChanging] = useState(false);
  const { customer, number, state } = facts;
  const about = [customer, number].filter((one) => one !== undefined).join(', ');
  return (
    <tbody>
      <tr>
        <th scope="row">
          <button type="button" className="button-plain" onClick={() => onOpen(id)}>
            {title}
          </button>
          {here ? <span className="quiet"> open now</span> : null}
          <p className="quiet">{about === '' ? 'no customer yet' : about}</p>
          {facts.says === undefined ? null : <p className="complaint">{facts.says}</p>}
        </th>
        <td data-heads="State">
          <select
            className="field"
            aria-label={`State of ${title}`}
            value={state ?? ''}
            onChange={(event) => {
              const next = event.target.value as JobState;
              void onChange(
                id,
                [(book) => jobStateEdit(book, next)],
                (called) => `"${called}" is ${next} now.`,
              );
            }}
          >
            {state === undefined ? <option value="">choose</option> : null}
            {JOB_STATES.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </td>
        <td data-heads="Due" className={isOverdue(line, now) ? 'jobs-late' : undefined}>
          {dueWords(line, now)}
        </td>
        <td data-heads="Price" className="jobs-money">
          {price === undefined ? (
            <span className="quiet">not worked out yet</span>
          ) : 'says' in price ? (
            <span className="quiet" title={price.says}>
              no price
            </span>
          ) : (
            <>
              {price.text}
              {isOld ? <p className="quiet">before the last change</p> : null}
              {line.paid === undefined ? null : (
                <p className="quiet">{paidSaid(line, line.paid, price.currency)}</p>
              )}
            </>
          )}
        </td>
        <td>
          {changing ? null : (
            <button
              type="button"
              className="button"
              aria-label={`Change customer and date: ${title}`}
              onClick={() => setChanging(true)}
            >
              Change
            </button>
          )}
        </td>
      </tr>
      {changing ? (
        <tr>
          <td colSpan={5}>
            <JobForm line={line} onChange={onChange} onClose={() => setChanging(false)} />
          </td>
        </tr>
      ) : null}
    </tbody>
  );
}

interface JobFormProps {
  readonly line: JobLine;
  readonly onChange: ChangeJob;
  readonly onClose: () => void;
}

const FIELDS = [
  ['customer', 'Customer', 'text'],
  ['job', 'Job number', 'text'],
  ['due', 'Due date', 'date'],
] as const;

/** Whom a job is for, its number and its day: what stands at the head of its pages. */
function JobForm({ line, onChange, onClose }: JobFormProps) {
  const { id, facts } = line;
  const [start] = useState({
    customer: facts.customer ?? '',
    job: facts.number ?? '',
    due: facts.due ?? '',
  });
  const [wanted, setWanted] = useState(start);
  const [says, setSays] = useState<string>();
  const field = useId();
  const submit = async (event: FormEvent<HTMLFormElement>): Promise<void> => {
    event.preventDefault();
    // A day that is half typed has no value: it must not be taken for none.
    const isHalf = [...event.currentTarget.elements].some(
      (one) => one instanceof HTMLInputElement && one.validity.badInput,
    );
    if (isHalf) {
      setSays('The due date is not whole. Type month, day and year, or clear it.');
      return;
    }
    const set = Object.fromEntries(
      FIELDS.flatMap(([key]) => {
        const text = wanted[key].trim();
        return text === start[key].trim() ? [] : [[key, text === '' ? null : text]];
      }),
    );
    const failed =
      Object.keys(set).length === 0
        ? undefined
        : await onChange(id, [() => ({ do: 'setBook', set })], (title) => `"${title}" is changed.`);
    if (failed === undefined) onClose();
    else setSays(failed);
  };
  return (
    <form className="jobs-form" noValidate onSubmit={(event) => void submit(event)}>
      {FIELDS.map(([key, label, type], i) => (
        <label key={key} htmlFor={`${field}${key}`}>
          {label}
          <input
            id={`${field}${key}`}
            className="field"
            type={type}
            value={wanted[key]}
            maxLength={type === 'date' ? undefined : 200}
            autoComplete="off"
            ref={i === 0 ? focusOnce : null}
            onChange={(event) => setWanted({ ...wanted, [key]: event.target.value })}
          />
        </label>
      ))}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="actions">
        <button type="submit" className="button button-main">
          Save
        </button>
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}

/** It is there because the maker asked for it: it takes the keys. */
function focusOnce(field: HTMLInputElement | null): void {
  field?.focus();
}

const moneySaid = (amount: number, currency: string): string =>
  showValue({ kind: 'number', number: amount }, { quantity: 'money', system: 'us', currency }).text;

/** What was paid by receipts, and what is still to come in. */
function paidSaid(line: JobLine, paid: number, currency: string): string {
  const rest = toCome(line) ?? 0;
  const said = `${moneySaid(paid, currency)} paid`;
  if (rest === 0) return `${said}, all of it`;
  return rest > 0
    ? `${said}, ${moneySaid(rest, currency)} to come`
    : `${said}, ${moneySaid(-rest, currency)} more than its price`;
}

/** What is still to come in of the jobs that are not paid, by how far they are. */
function Sums({ sums }: { readonly sums: readonly JobSum[] }) {
  if (sums.length === 0) return null;
  return (
    <dl className="jobs-sums">
      {sums.map((sum) => (
        <div key={sum.says}>
          <dt>{sum.says}</dt>
          <dd>
            {sum.amounts.length === 0
              ? 'no price yet'
              : sum.amounts
                  .map(({ currency, amount, paid }) =>
                    paid > 0
                      ? `${moneySaid(amount, currency)} to come, ${moneySaid(paid, currency)} paid`
                      : moneySaid(amount, currency),
                  )
                  .join(' and ')}
            <span className="quiet">{remarkOf(sum)}</span>
          </dd>
        </div>
      ))}
    </dl>
  );
}

function remarkOf({ count, without, hasOld, amounts }: JobSum): string {
  const notes = [
    counted(count),
    ...(without === 0 || amounts.length === 0 ? [] : [`${without} without a price`]),
    ...(hasOld ? ['some prices are of before the last change'] : []),
  ];
  return ` ${notes.join(', ')}`;
}
