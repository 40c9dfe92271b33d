import { type FormEvent, useCallback, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { joinCode } from '../../page/join-code.ts';
import { Complaint, OnItsWay } from '../complaint.tsx';
import { askClub, type ClubState, lookHere, Told } from '../here.ts';
import { useAsked, useDoes } from '../use-asked.ts';
import { AddressNote } from './address-note.tsx';
import { NewPassword } from './new-password.tsx';
import '../shelf.css';
import './people.css';

interface JoinPageProps {
  readonly code: string;
  readonly state: ClubState;
}

/** Comes into the club by a link, or back in. */
export default function JoinPage({ code, state }: JoinPageProps) {
  const looked = useAsked(
    useCallback(
      async (signal: AbortSignal) => {
        if (!/^[A-Za-z0-9_-]{22,86}$/.test(code)) throw notWhole();
        return askClub('lookAtInvitation', { body: { code } }, signal);
      },
      [code],
    ),
  );
  const here = state.is === 'here' ? state.here : undefined;
  return (
    <section className="shelf-sign-in" aria-label="A link into the club">
      {looked.is === undefined ? (
        <>
          <OnItsWay says={looked.says} what="Looking at the link …" again={looked.again} />
          {looked.says === undefined ? null : (
            <p className="actions">
              <button type="button" className="button" onClick={() => joinCode.set(undefined)}>
                Leave the link
              </button>
            </p>
          )}
        </>
      ) : (
        <>
          <Invited {...looked.is} />
          {here?.me === undefined || here.me.name === looked.is.name ? null : (
            <p className="shelf-note">
              You are signed in as {here.me.name}.{' '}
              {looked.is.kind === 'join'
                ? 'Joining makes somebody else of the club, who is signed in here instead.'
                : `Going on signs ${looked.is.name} in here instead.`}
            </p>
          )}
          <JoinForm code={code} back={looked.is.name} />
        </>
      )}
      {here === undefined ? null : <AddressNote here={here} />}
    </section>
  );
}

const notWhole = (): Told =>
  new Told(
    'This link is not whole. Open it once more from where it came, or ask a keeper of the shelf for a new one.',
  );

interface InvitedProps {
  readonly club: string;
  readonly kind: 'join' | 'recover';
  readonly name?: string | undefined;
  readonly role: 'member' | 'keeper';
  readonly ends: number;
}

function Invited({ club, kind, name, role, ends }: InvitedProps) {
  const until = `The link is good once, until ${momentOf(ends)}.`;
  if (kind === 'recover') {
    return (
      <>
        <h2>Back into {club}</h2>
        <p>
          This link is for {name}. Choose a new password, and you are signed in here; wherever else
          you were signed in, you are not any more. {until}
        </p>
      </>
    );
  }
  return (
    <>
      <h2>Join {club}</h2>
      <p>
        You are invited {role === 'keeper' ? 'as a keeper of the shelf' : 'as a member'}. {until}
      </p>
      <p className="quiet">
        Members publish templates for each other on the shelf
        {role === 'keeper'
          ? ', and keepers invite them, help them back in, and look at what was reported'
          : ''}
        . Your own workbooks stay on this device.
      </p>
    </>
  );
}

interface JoinFormProps {
  readonly code: string;
  /** Who comes back in; a new member says who he is. */
  readonly back: string | undefined;
}

function JoinForm({ code, back }: JoinFormProps) {
  const [name, setName] = useState(back ?? '');
  const [password, setPassword] = useState('');
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const body = { code, name: name.trim(), password };
    if (!(await run(() => askClub('join', { body })))) return;
    await lookHere('again');
    joinCode.set(undefined);
  };
  return (
    <form className="shelf-form" onSubmit={(event) => void submit(event)}>
      <label>
        {back === undefined ? 'Your name, as members know you' : 'Name'}
        <input
          className="field"
          value={name}
          required
          readOnly={back !== undefined}
          maxLength={60}
          autoComplete="username"
          spellCheck={false}
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <NewPassword value={password} onChange={setPassword}>
        {back === undefined ? 'Password' : 'New password'}
      </NewPassword>
      <Complaint says={says} />
      <p className="actions">
        <button type="submit" className="button button-main" disabled={busy}>
          {back === undefined ? 'Join' : 'Set the password and come in'}
        </button>
        <button type="button" className="button" onClick={() => joinCode.set(undefined)}>
          Not now
        </button>
      </p>
    </form>
  );
}
