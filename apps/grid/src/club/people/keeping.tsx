import type { AnswerOf } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { Complaint, OnItsWay } from '../complaint.tsx';
import { askClub, lookHere } from '../here.ts';
import { useAsked, useDoes } from '../use-asked.ts';
import { Ends } from './ends.tsx';
import { LinkMade } from './link-made.tsx';
import { MailTo, mailedTo } from './mail-to.tsx';
import { Section } from './section.tsx';

type Role = 'member' | 'keeper';
type Invitation = AnswerOf<'invitations'>['invitations'][number];

const DAYS = [
  [1, 'one day'],
  [7, 'a week'],
  [30, '30 days'],
] as const;

/**
 * Invites somebody, and lists the links that are still good.
 * @param props.mail whether the club can send a link by e-mail
 */
export function Invitations({ mail }: { readonly mail: boolean }) {
  const open = useAsked(
    useCallback((signal: AbortSignal) => askClub('invitations', {}, signal), []),
  );
  const [made, setMade] = useState<AnswerOf<'invite'> & { readonly role: Role }>();
  const gone = (id: string): void => {
    if (made?.id === id) setMade(undefined);
    open.again();
  };
  return (
    <>
      <Section title="Invite somebody">
        <InviteForm
          mail={mail}
          onMade={(link) => {
            setMade(link);
            open.again();
          }}
        />
        {made === undefined ? null : (
          <LinkMade
            code={made.code}
            ends={made.ends}
            mail={made.mail}
            says={
              made.role === 'keeper'
                ? 'Whoever opens this link first comes in as a keeper of the shelf.'
                : 'Whoever opens this link first comes in as a member.'
            }
            onAway={() => setMade(undefined)}
          />
        )}
      </Section>
      <Section title="Links that are still good">
        {open.is === undefined ? (
          <OnItsWay says={open.says} what="Reading the links …" again={open.again} />
        ) : (
          <OpenLinks all={open.is.invitations} onGone={gone} />
        )}
      </Section>
    </>
  );
}

interface InviteFormProps {
  readonly mail: boolean;
  readonly onMade: (link: AnswerOf<'invite'> & { readonly role: Role }) => void;
}

function InviteForm({ mail, onMade }: InviteFormProps) {
  const [role, setRole] = useState<Role>('member');
  const [note, setNote] = useState('');
  const [to, setTo] = useState('');
  const [days, setDays] = useState<number>(DAYS[1][0]);
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const said = note.trim();
    const body = { role, days, ...(said === '' ? {} : { note: said }), ...mailedTo(to) };
    await run(async () => {
      const made = await askClub('invite', { body });
      onMade({ ...made, role });
      setNote('');
      // One that was not taken is there to be put right.
      if (made.mail?.sent !== false) setTo('');
    });
  };
  return (
    <form className="shelf-form" onSubmit={(event) => void submit(event)}>
      <label>
        Who it is for, so that you know the link again
        <input
          className="field"
          value={note}
          maxLength={80}
          autoComplete="off"
          onChange={(event) => setNote(event.target.value)}
        />
      </label>
      <label>
        Comes in as
        <select
          className="field"
          value={role}
          onChange={({ currentTarget }) => setRole(currentTarget.value as Role)}
        >
          <option value="member">a member</option>
          <option value="keeper">a keeper of the shelf</option>
        </select>
      </label>
      <label>
        The link is good for
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
      {mail ? <MailTo value={to} onChange={setTo} /> : null}
      <Complaint says={says} />
      <p className="actions">
        <button type="submit" className="button" disabled={busy}>
          Make a link
        </button>
      </p>
    </form>
  );
}

interface OpenLinksProps {
  readonly all: readonly Invitation[];
  readonly onGone: (id: string) => void;
}

function OpenLinks({ all, onGone }: OpenLinksProps) {
  if (all.length === 0) return <p>None.</p>;
  return (
    <ul className="shelf-list shelf-people" aria-label="Links that are still good">
      {all.map(({ id, kind, role, note, by, ends }) => {
        const called =
          note ??
          (kind === 'recover'
            ? 'Somebody back in'
            : role === 'keeper'
              ? 'A keeper of the shelf'
              : 'A member');
        return (
          <li key={id} className="shelf-person">
            <p>
              {called}{' '}
              <span className="quiet">
                {note === undefined ? '' : `${role === 'keeper' ? 'as a keeper' : 'as a member'}, `}
                by {by.name}, until {momentOf(ends)}
              </span>
            </p>
            <Ends
              does="Take back"
              what={`the link: ${called}, until ${momentOf(ends)}`}
              work={() => askClub('withdrawInvitation', { params: { invitation: id } })}
              onDone={() => onGone(id)}
            />
          </li>
        );
      })}
    </ul>
  );
}

/** What the club is called. */
export function ClubName({ name }: { readonly name: string }) {
  const [typed, setTyped] = useState(name);
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const body = { name: typed.trim() };
    if (await run(() => askClub('renameClub', { body }))) await lookHere('again');
  };
  return (
    <Section title="Name of the club">
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
        <label>
          What the club is called
          <input
            className="field"
            value={typed}
            required
            maxLength={80}
            autoComplete="off"
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>
        <Complaint says={says} />
        <p className="actions">
          <button
            type="submit"
            className="button"
            disabled={busy || typed.trim() === '' || typed.trim() === name}
          >
            Rename the club
          </button>
        </p>
      </form>
    </Section>
  );
}
