import { type BookPlan, clock, type DaysOff, sayDay, WEEKDAYS } from '@kerfbook/days';
import { useState } from 'react';
import { asRead } from '../session/decimal-mark.ts';
import type { Session } from '../session/session.ts';
import { dayIn, offSaid, offText, type ShopCell, shopCellEdit } from './shop-cells.ts';

interface ShopPartProps {
  readonly session: Session;
  readonly plan: BookPlan;
}

/** When the shop works: cells of the workbook. */
export function ShopPart({ session, plan: { hours } }: ShopPartProps) {
  const { shop } = hours;
  const [says, setSays] = useState<string>();
  const enter = (name: ShopCell, text: string, said: string): void => {
    const edit = shopCellEdit(session.book, name, text);
    if (edit === undefined) return;
    const done = session.apply(edit, said);
    if (!done.ok) session.hush();
    setSays(done.ok ? undefined : done.says);
  };
  return (
    <section className="days-part" aria-label="Working hours and days off">
      <h2>Working hours and days off</h2>
      {says === undefined ? null : (
        <p role="alert" className="complaint">
          {says}
        </p>
      )}
      <div className="days-fields">
        <Typed
          label="Hours in a working day"
          value={`${Math.round(shop.hoursADay * 100) / 100}`}
          off={!session.mayChange}
          onEnter={(text) =>
            enter(
              'hours_a_day',
              asRead(text, () => ({ quantity: 'duration' })),
              'Hours in a working day',
            )
          }
        />
        <label>
          The day begins at
          <input
            type="time"
            className="field"
            value={clock(shop.begins)}
            disabled={!session.mayChange}
            onChange={({ target }) => {
              const [hour = '', minute = ''] = target.value.split(':');
              const at = Number(hour) + Number(minute) / 60;
              if (target.value !== '') {
                enter(
                  'day_begins',
                  `${Math.round(at * 1e4) / 1e4}`,
                  `The day begins at ${target.value}`,
                );
              }
            }}
          />
        </label>
      </div>
      <fieldset className="days-week" disabled={!session.mayChange}>
        <legend>Days that are worked</legend>
        {WEEKDAYS.map((name, i) => (
          <label key={name}>
            <input
              type="checkbox"
              checked={shop.week[i] === true}
              onChange={({ target }) => {
                const week = shop.week.map((one, day) => (day === i ? target.checked : one));
                if (!week.includes(true)) {
                  setSays('At least one day of the week has to be worked.');
                  return;
                }
                const text = WEEKDAYS.filter((_, day) => week[day] === true).join(', ');
                enter('days_worked', text, `${text} are worked`);
              }}
            />
            {name}
          </label>
        ))}
      </fieldset>
      <OffDays
        off={shop.off}
        mayChange={session.mayChange}
        onOff={(off) => enter('days_off', offText(off), 'Days off')}
      />
    </section>
  );
}

interface TypedProps {
  readonly label: string;
  readonly value: string;
  readonly off: boolean;
  readonly onEnter: (text: string) => void;
}

/** A field that is written into its cell when it is left. */
function Typed({ label, value, off, onEnter }: TypedProps) {
  const [draft, setDraft] = useState<string>();
  const enter = (): void => {
    if (draft !== undefined && draft !== value) onEnter(draft);
    setDraft(undefined);
  };
  return (
    <label>
      {label}
      <input
        className="field"
        autoComplete="off"
        disabled={off}
        value={draft ?? value}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={enter}
        onKeyDown={({ key }) => {
          if (key === 'Enter') enter();
          else if (key === 'Escape') setDraft(undefined);
        }}
      />
    </label>
  );
}

interface OffDaysProps {
  readonly off: readonly DaysOff[];
  readonly mayChange: boolean;
  readonly onOff: (off: readonly DaysOff[]) => void;
}

function OffDays({ off, mayChange, onOff }: OffDaysProps) {
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [wrong, setWrong] = useState<string>();
  const add = (): void => {
    const first = dayIn(from);
    const last = to === '' ? first : dayIn(to);
    if (first === undefined || last === undefined) {
      setWrong('Choose the first day off, and the last one where there are several.');
    } else if (last < first) {
      setWrong(`${sayDay(last)} is before ${sayDay(first)}. Choose the earlier day first.`);
    } else {
      onOff([...off, { from: first, to: last }]);
      setFrom('');
      setTo('');
      setWrong(undefined);
    }
  };
  return (
    <div className="days-off">
      <h3>Days off</h3>
      {off.length === 0 ? <p className="quiet">None.</p> : null}
      <ul className="days-chips">
        {off.map((one) => (
          <li key={`${one.from} ${one.to}`}>
            {offSaid(one)}
            <button
              type="button"
              className="button"
              disabled={!mayChange}
              aria-label={`Work again: ${offSaid(one)}`}
              onClick={() => onOff(off.filter((other) => other !== one))}
            >
              Remove
            </button>
          </li>
        ))}
      </ul>
      <div className="days-fields">
        <label>
          First day off
          <input
            type="date"
            className="field"
            value={from}
            disabled={!mayChange}
            onChange={({ target }) => setFrom(target.value)}
          />
        </label>
        <label>
          Last day off
          <input
            type="date"
            className="field"
            value={to}
            disabled={!mayChange}
            onChange={({ target }) => setTo(target.value)}
          />
        </label>
        <button type="button" className="button" disabled={!mayChange} onClick={add}>
          Add days off
        </button>
      </div>
      {wrong === undefined ? null : (
        <p role="alert" className="complaint">
          {wrong}
        </p>
      )}
    </div>
  );
}
