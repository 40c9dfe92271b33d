import { type FormEvent, useState } from 'react';
import { Complaint } from './complaint.tsx';
import { askClub, type Here, lookHere } from './here.ts';
import { AddressNote } from './people/address-note.tsx';
import { useDoes } from './use-asked.ts';
import './people/people.css';

/** Signs a member in: by name and password, or by a passkey where the address can do them. */
export default function SignIn({ here }: { readonly here: Here }) {
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const { busy, says, run } = useDoes();
  const signIn = async (work: () => Promise<unknown>): Promise<void> => {
    if (await run(work)) await lookHere('again');
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    void signIn(() => askClub('signIn', { body: { name: name.trim(), password } }));
  };
  const byPasskey = (): void => {
    void signIn(async () => (await import('./people/passkey.ts')).signInByPasskey());
  };
  return (
    <section className="shelf-sign-in" aria-labelledby="sign-in">
      <h2 id="sign-in">Sign in to the shelf of {here.club.name}</h2>
      <p className="quiet">
        The shelf holds templates that members of the club publish for each other. Your own
        workbooks stay on this device.
      </p>
      <form className="shelf-form" onSubmit={submit}>
        <label>
          Name
          <input
            className="field"
            value={name}
            required
            autoComplete="username"
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        <label>
          Password
          <input
            className="field"
            type="password"
            value={password}
            required
            autoComplete="current-password"
            onChange={(event) => setPassword(event.target.value)}
          />
        </label>
        <Complaint says={says} />
        <p className="actions">
          <button type="submit" className="button button-main" disabled={busy}>
            Sign in
          </button>
          {here.passkeys ? (
            <button type="button" className="button" disabled={busy} onClick={byPasskey}>
              Sign in with a passkey
            </button>
          ) : null}
        </p>
      </form>
      <AddressNote here={here} />
      <p className="quiet">
        A keeper of the shelf lets new members in, and members who lost their password back in: ask
        for a link.
      </p>
    </section>
  );
}
