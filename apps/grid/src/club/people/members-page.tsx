import type { AnswerOf } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { Complaint, OnItsWay } from '../complaint.tsx';
import { askClub, type Here, lookHere, type Me } from '../here.ts';
import { useAsked, useDoes } from '../use-asked.ts';
import { counted } from '../words.ts';
import { Ends } from './ends.tsx';
import { ClubName, Invitations } from './keeping.tsx';
import { LinkMade } from './link-made.tsx';
import { MailTo, mailedTo } from './mail-to.tsx';
import { Reports } from './reports.tsx';
import { Section } from './section.tsx';
import './people.css';

type Member = AnswerOf<'members'>['members'][number];

/** As many as are drawn at once: a large club is looked through by name. */
const MOST_SHOWN = 100;

interface MembersPageProps {
  readonly here: Here;
  readonly me: Me;
  readonly onTemplate: (id: string) => void;
}

/** Who is in the club; keepers let people in and out here, and look at what was reported. */
export default function MembersPage({ here, me, onTemplate }: MembersPageProps) {
  const isKeeper = me.role === 'keeper';
  const mail = here.mail === true;
  return (
    <>
      <h2 className="visually-hidden">Members</h2>
      <div className="shelf-columns">
        <Members me={me} mail={mail} />
        {isKeeper ? (
          <div>
            <Invitations mail={mail} />
            <Reports onTemplate={onTemplate} />
            <ClubName name={here.club.name} />
          </div>
        ) : null}
      </div>
    </>
  );
}

function Members({ me, mail }: { readonly me: Me; readonly mail: boolean }) {
  const read = useAsked(useCallback((signal: AbortSignal) => askClub('members', {}, signal), []));
  const [find, setFind] = useState('');
  if (read.is === undefined) {
    return <OnItsWay says={read.says} what="Reading who is in the club …" again={read.again} />;
  }
  const all = read.is.members;
  const words = find.trim().toLowerCase();
  const found = all.filter(({ name }) => name.toLowerCase().includes(words));
  const shown = found.slice(0, MOST_SHOWN);
  return (
    <Section title={counted(all.length, 'member')}>
      {all.length <= 12 ? null : (
        <label className="shelf-find-words">
          Find a member
          <input
            className="field"
            type="search"
            value={find}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => setFind(event.target.value)}
          />
        </label>
      )}
      <ul className="shelf-list shelf-people" aria-label="Members">
        {shown.map((one) => (
          <MemberRow key={one.id} one={one} me={me} mail={mail} onChange={read.again} />
        ))}
      </ul>
      {found.length === 0 ? <p>No member is called that.</p> : null}
      {shown.length === found.length ? null : (
        <p className="quiet">
          And {counted(found.length - shown.length, 'more', 'more')}. Find them by name.
        </p>
      )}
    </Section>
  );
}

interface MemberRowProps {
  readonly one: Member;
  readonly me: Me;
  readonly mail: boolean;
  readonly onChange: () => void;
}

function MemberRow({ one, me, mail, onChange }: MemberRowProps) {
  const { id, name, role, joined } = one;
  const isMe = id === me.id;
  const isKeeper = role === 'keeper';
  return (
    <li>
      <p>
        {name}
        {isMe ? ', you' : ''}{' '}
        <span className="quiet">
          {isKeeper ? 'keeper of the shelf' : 'member'} since {momentOf(joined)}
        </span>
      </p>
      {me.role === 'keeper' ? (
        <details className="shelf-fold">
          <summary aria-label={`More: ${name}`}>More</summary>
          <KeepersActs one={one} isMe={isMe} mail={mail} onChange={onChange} />
        </details>
      ) : null}
    </li>
  );
}

interface KeepersActsProps {
  readonly one: Member;
  readonly isMe: boolean;
  readonly mail: boolean;
  readonly onChange: () => void;
}

function KeepersActs({ one, isMe, mail, onChange }: KeepersActsProps) {
  const { id, name, role } = one;
  const [back, setBack] = useState<AnswerOf<'recover'>>();
  const [to, setTo] = useState('');
  const { busy, says, run } = useDoes();
  const params = { member: id };
  const toRole = role === 'keeper' ? 'member' : 'keeper';
  const changed = (): void => {
    onChange();
    // Who is no keeper any more sees what members see.
    if (isMe) void lookHere('again');
  };
  const letBack = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const address = mailedTo(to);
    const body = address.to === undefined ? {} : { body: address };
    await run(async () => {
      const made = await askClub('recover', { params, ...body });
      setBack(made);
      if (made.mail?.sent !== false) setTo('');
    });
  };
  return (
    <>
      <Ends
        does={role === 'keeper' ? 'Make a member again' : 'Make a keeper of the shelf'}
        what={`: ${name}`}
        {...(isMe
          ? {
              asks: 'Be a member like the others from now on? Only another keeper makes you a keeper again.',
            }
          : {})}
        work={() => askClub('setRole', { params, body: { role: toRole } })}
        onDone={changed}
      />
      {isMe ? null : (
        <>
          {back === undefined ? (
            <form className="shelf-form" onSubmit={(event) => void letBack(event)}>
              {mail ? <MailTo of={name} value={to} onChange={setTo} /> : null}
              <p className="actions">
                <button
                  type="submit"
                  className="button"
                  disabled={busy}
                  aria-label={`Let back in: ${name}`}
                >
                  Let back in
                </button>
              </p>
            </form>
          ) : (
            <LinkMade
              of={name}
              code={back.code}
              ends={back.ends}
              mail={back.mail}
              says={`${name} opens this link, chooses a new password, and is back in.`}
              onAway={() => setBack(undefined)}
            />
          )}
          <Complaint says={says} />
          <Ends
            does="Remove"
            what={`${name} from the club`}
            asks={`Remove ${name} from the club? ${name} is signed out everywhere, and the workbooks that the club keeps for ${name} go from it. What ${name} published stays on the shelf, as of a former member.`}
            work={() => askClub('removeMember', { params })}
            onDone={onChange}
          />
        </>
      )}
    </>
  );
}
