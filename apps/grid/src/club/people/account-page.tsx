import type { AnswerOf } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { Complaint, OnItsWay } from '../complaint.tsx';
import { askClub, type Here } from '../here.ts';
import { useAsked, useDoes } from '../use-asked.ts';
import { AddressNote } from './address-note.tsx';
import { browserOf } from './agent.ts';
import { Ends } from './ends.tsx';
import { Leave } from './leave.tsx';
import { NewPassword } from './new-password.tsx';
import { Section } from './section.tsx';
import { Tokens } from './tokens.tsx';
import './people.css';

/** All that an account has to sign in with. */
export type Account = AnswerOf<'account'>;

interface PartProps {
  readonly account: Account;
  /** Something changed: the account is read anew. */
  readonly onChange: () => void;
}

/** What one's own account has to sign in with, where it is signed in, and the way out of the club. */
export default function AccountPage({ here }: { readonly here: Here }) {
  const read = useAsked(useCallback((signal: AbortSignal) => askClub('account', {}, signal), []));
  if (read.is === undefined) {
    return <OnItsWay says={read.says} what="Reading your account …" again={read.again} />;
  }
  const part: PartProps = { account: read.is, onChange: read.again };
  return (
    <>
      <h2 className="visually-hidden">Your account</h2>
      <AddressNote here={here} />
      <div className="shelf-account">
        <Passkeys {...part} can={here.passkeys} />
        <Password {...part} />
        <Sessions {...part} />
        <Tokens {...part} />
        <Leave club={here.club.name} />
      </div>
    </>
  );
}

function Passkeys({ account, onChange, can }: PartProps & { readonly can: boolean }) {
  const [label, setLabel] = useState(() => browserOf(navigator.userAgent));
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const done = await run(async () => (await import('./passkey.ts')).addPasskey(label.trim()));
    if (done) onChange();
  };
  return (
    <Section title="Passkeys">
      <p className="quiet">
        With a passkey a device signs you in by its PIN, a fingerprint or a face, and nobody can get
        it out of you by a page that only looks like the club.
      </p>
      {account.passkeys.length === 0 ? <p>You have none yet.</p> : null}
      <ul className="shelf-list shelf-people">
        {account.passkeys.map(({ id, label: called, made, used }) => (
          <li key={id} className="shelf-person">
            <p>
              {called}{' '}
              <span className="quiet">
                since {momentOf(made)}
                {used === undefined ? '' : `, used ${momentOf(used)}`}
              </span>
            </p>
            <Ends
              does="Remove"
              what={`the passkey "${called}"`}
              asks={`Remove the passkey "${called}"? It signs you in no more. Take it off the device too.`}
              work={() => askClub('removePasskey', { params: { passkey: id } })}
              onDone={onChange}
            />
          </li>
        ))}
      </ul>
      {can ? (
        <form className="shelf-form" onSubmit={(event) => void submit(event)}>
          <label>
            What to call the new one
            <input
              className="field"
              value={label}
              required
              maxLength={60}
              autoComplete="off"
              onChange={(event) => setLabel(event.target.value)}
            />
          </label>
          <Complaint says={says} />
          <p className="actions">
            <button type="submit" className="button" disabled={busy || label.trim() === ''}>
              Add a passkey
            </button>
          </p>
        </form>
      ) : null}
    </Section>
  );
}

function Password({ account, onChange }: PartProps) {
  const [now, setNow] = useState('');
  const [next, setNext] = useState('');
  const [done, setDone] = useState(false);
  const { busy, says, run } = useDoes();
  const { hasPassword, me } = account;
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setDone(false);
    const body = { next, ...(hasPassword ? { now } : {}) };
    if (!(await run(() => askClub('setPassword', { body })))) return;
    setNow('');
    setNext('');
    setDone(true);
    onChange();
  };
  return (
    <Section title="Password">
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
        {/* So that a browser that keeps passwords knows whose it is. */}
        <input type="text" autoComplete="username" value={me.name} readOnly hidden />
        {hasPassword ? (
          <label>
            Password as it is now
            <input
              className="field"
              type="password"
              value={now}
              required
              autoComplete="current-password"
              onChange={(event) => setNow(event.target.value)}
            />
          </label>
        ) : null}
        <NewPassword value={next} onChange={setNext}>
          New password
        </NewPassword>
        <p className="quiet">Wherever else you are signed in, you are not any more.</p>
        <Complaint says={says} />
        <p className="actions">
          <button type="submit" className="button" disabled={busy}>
            {hasPassword ? 'Change the password' : 'Set the password'}
          </button>
          <span role="status">{done ? 'The new password holds.' : null}</span>
        </p>
      </form>
    </Section>
  );
}

function Sessions({ account, onChange }: PartProps) {
  const others = account.sessions.filter(({ here }) => !here).length;
  const all = [...account.sessions].sort((one, other) => Number(other.here) - Number(one.here));
  return (
    <Section title="Where you are signed in">
      <ul className="shelf-list shelf-people">
        {all.map(({ id, on, made, seen, here }) => {
          const called = browserOf(on);
          return (
            <li key={id} className="shelf-person">
              <p>
                {called}
                {here ? ', this one' : ''}{' '}
                <span className="quiet">
                  since {momentOf(made)}
                  {here ? '' : `, last seen ${momentOf(seen)}`}
                </span>
              </p>
              {here ? null : (
                <Ends
                  does="End"
                  what={`being signed in on ${called} since ${momentOf(made)}`}
                  work={() => askClub('endSession', { params: { session: id } })}
                  onDone={onChange}
                />
              )}
            </li>
          );
        })}
      </ul>
      {others < 2 ? null : (
        <Ends
          does="End all others"
          what="of the places where you are signed in"
          work={() => askClub('endOtherSessions', {})}
          onDone={onChange}
        />
      )}
    </Section>
  );
}
