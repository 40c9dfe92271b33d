import { type FormEvent, useState } from 'react';
import { Complaint } from './complaint.tsx';
import { askClub, type Here, lookHere } from './here.ts';
import { useDoes } from './use-asked.ts';

/** Signs a member in by name and password. */
export default function SignIn({ here }: { readonly here: Here }) {
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const done = await run(() => askClub('signIn', { body: { name: name.trim(), password } }));
    if (done) await lookHere('again');
  };
  return (
    <section className="shelf-sign-in" aria-labelledby="sign-in">
      <h2 id="sign-in">Sign in to the shelf of {here.club.name}</h2>
      <p className="quiet">
        The shelf holds templates that members of the club publish for each other. Your own
        workbooks stay on this device.
      </p>
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
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
        </p>
      </form>
    </section>
  );
}
