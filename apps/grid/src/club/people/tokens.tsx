import { type FormEvent, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { Complaint } from '../complaint.tsx';
import { askClub } from '../here.ts';
import { useDoes } from '../use-asked.ts';
import type { Account } from './account-page.tsx';
import { Ends } from './ends.tsx';
import { Section } from './section.tsx';
import { ShownOnce } from './shown-once.tsx';

const DAYS = [
  [30, '30 days'],
  [90, '90 days'],
  [366, 'a year'],
] as const;

interface TokensProps {
  readonly account: Account;
  readonly onChange: () => void;
}

/** Tokens by which the command line does things in a member's name. */
export function Tokens({ account, onChange }: TokensProps) {
  const [label, setLabel] = useState('');
  const [days, setDays] = useState<number>(DAYS[1][0]);
  const [made, setMade] = useState<{ readonly label: string; readonly token: string }>();
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const body = { label: label.trim(), days };
    const done = await run(async () => {
      const { token } = await askClub('makeToken', { body });
      setMade({ label: body.label, token });
    });
    if (!done) return;
    setLabel('');
    onChange();
  };
  return (
    <Section title="Tokens for the command line">
      <p className="quiet">
        With a token, "kerfbook" on the command line reads and publishes in your name. Give it to
        nobody.
      </p>
      <ul className="shelf-list shelf-people">
        {account.tokens.map(({ id, label: called, used, ends }) => (
          <li key={id} className="shelf-person">
            <p>
              {called}{' '}
              <span className="quiet">
                until {momentOf(ends)}
                {used === undefined ? ', not used yet' : `, used ${momentOf(used)}`}
              </span>
            </p>
            <Ends
              does="End"
              what={`the token "${called}"`}
              work={() => askClub('endToken', { params: { token: id } })}
              onDone={onChange}
            />
          </li>
        ))}
      </ul>
      {made === undefined ? null : (
        <div className="shelf-link">
          <p role="status">The token "{made.label}". It is shown this once: copy it now.</p>
          <ShownOnce what="Token" value={made.token} does="Copy the token" />
          <button type="button" className="button" onClick={() => setMade(undefined)}>
            Put it away
          </button>
        </div>
      )}
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
        <label>
          What it is for
          <input
            className="field"
            value={label}
            required
            maxLength={60}
            autoComplete="off"
            onChange={(event) => setLabel(event.target.value)}
          />
        </label>
        <label>
          Holds for
          <select
            className="field"
            value={days}
            onChange={({ currentTarget }) => setDays(Number(currentTarget.value))}
          >
            {DAYS.map(([many, called]) => (
              <option key={many} value={many}>
                {called}
              </option>
            ))}
          </select>
        </label>
        <Complaint says={says} />
        <p className="actions">
          <button type="submit" className="button" disabled={busy || label.trim() === ''}>
            Make a token
          </button>
        </p>
      </form>
    </Section>
  );
}
