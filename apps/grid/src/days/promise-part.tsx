import {
  type BookPlan,
  isUncertain,
  type Likelihood,
  type Schedule,
  sayDay,
  written,
} from '@kerfbook/days';
import { useState } from 'react';
import type { Session } from '../session/session.ts';
import { oddsSaid, triesSaid } from './said.ts';
import { dayIn, shopCellEdit } from './shop-cells.ts';
import { useLikelihood } from './use-likelihood.ts';

interface PromisePartProps {
  readonly session: Session;
  readonly plan: BookPlan;
  readonly schedule: Schedule;
}

/** Which day to promise, and how likely it is kept. */
export function PromisePart({ session, plan, schedule }: PromisePartProps) {
  const odds = useLikelihood(schedule);
  const [known] = odds.likelihood ?? [];
  const promise = schedule.jobs[0]?.promise ?? schedule.begins;
  return (
    <section className="days-promise" aria-label="The day to promise">
      <h2>Done by {sayDay(promise)}</h2>
      {known === undefined ? (
        isUncertain(schedule) ? null : (
          <p>
            If every operation takes just as long as it says. How likely that is cannot be told:
            give operations a least and a most.
          </p>
        )
      ) : (
        <OddsSaid odds={known} />
      )}
      {odds.stop === undefined ? null : (
        <p role="status">
          Trying it many times over …{' '}
          <button type="button" className="button" onClick={odds.stop}>
            Stop
          </button>
        </p>
      )}
      {odds.again === undefined ? null : (
        <p role="status">
          Stopped: how likely that is is not known.{' '}
          <button type="button" className="button" onClick={odds.again}>
            Try it again
          </button>
        </p>
      )}
      {odds.failed === undefined ? null : (
        <p role="alert" className="complaint">
          {odds.failed}
        </p>
      )}
      <BeginPart session={session} plan={plan} schedule={schedule} />
    </section>
  );
}

function OddsSaid({ odds }: { readonly odds: Likelihood }) {
  return (
    <>
      <p>{oddsSaid(odds)}</p>
      <details>
        <summary>Each day</summary>
        <table className="days-table days-odds">
          <thead>
            <tr>
              <th scope="col">Done on</th>
              <th scope="col">of all tries</th>
              <th scope="col">by then</th>
            </tr>
          </thead>
          <tbody>
            {odds.days.map(({ day, on, by }) => (
              <tr key={day}>
                <th scope="row">{sayDay(day)}</th>
                <td>{triesSaid(on)}</td>
                <td>{triesSaid(by)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}

/** The day it begins: asked for, and said where it is another one than was asked for. */
function BeginPart({ session, plan, schedule }: PromisePartProps) {
  const [says, setSays] = useState<string>();
  const { asked, begins } = schedule;
  const set = (day: number): void => {
    const edit = shopCellEdit(session.book, 'start_day', written(day));
    if (edit === undefined) return;
    const done = session.apply(edit, `The work begins on ${sayDay(day)}`);
    if (!done.ok) session.hush();
    setSays(done.ok ? undefined : done.says);
  };
  const take = (
    <button
      type="button"
      className="button"
      disabled={!session.mayChange}
      onClick={() => set(begins)}
    >
      Begin on {sayDay(begins)}
    </button>
  );
  return (
    <div className="days-begin">
      <div className="days-turn">
        <label>
          The work begins on{' '}
          <input
            type="date"
            className="field"
            value={plan.isFromSaid ? written(plan.from) : ''}
            disabled={!session.mayChange}
            onChange={({ target }) => {
              const day = dayIn(target.value);
              if (day !== undefined) set(day);
            }}
          />
        </label>
        {plan.isFromSaid ? null : take}
      </div>
      {plan.isFromSaid ? null : (
        <p className="quiet">
          Until you say so, this is how it is if the work begins on {sayDay(begins)}.
        </p>
      )}
      {plan.isFromSaid && asked !== begins ? (
        <p role="alert" className="complaint">
          {sayDay(asked)} is a day off: the work cannot begin before {sayDay(begins)}. {take}
        </p>
      ) : null}
      {says === undefined ? null : (
        <p role="alert" className="complaint">
          {says}
        </p>
      )}
    </div>
  );
}
