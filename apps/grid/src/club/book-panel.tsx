import { type Bookcase, type Done, notDone, writeTrouble } from '@kerfbook/keeping';
import { type AboutAtClub, standingSentence } from '@kerfbook/keeping/club';
import { useCallback, useEffect, useState } from 'react';
import { Question } from '../library/book-rows.tsx';
import { Dialog } from '../library/dialog.tsx';
import { momentOf } from '../library/moments.ts';
import { type Followed, useClubState, useStanding } from '../page/club-books.ts';
import { Complaint, OnItsWay } from './complaint.tsx';
import { nameDevice } from './device.ts';
import { lookingAtMeeting } from './following.ts';
import { askClub } from './here.ts';
import { useAsked } from './use-asked.ts';

interface BookPanelProps {
  readonly bookcase: Bookcase;
  readonly follows: Followed;
  readonly onClose: () => void;
}

type Run = (work: () => Promise<Done>) => Promise<boolean>;

/** How the workbook at hand stands with the club, who changed it last, and whom it is shared with. */
export default function BookPanel({ bookcase, follows, onClose }: BookPanelProps) {
  const { books } = follows;
  const { id, book } = bookcase.current;
  const standing = useStanding(id);
  const { signedOut } = useClubState();
  const [about, setAbout] = useState<AboutAtClub>();
  const [says, setSays] = useState<string>();
  const [busy, setBusy] = useState(false);
  const [asking, setAsking] = useState<'stop' | 'out'>();
  const read = useCallback(async () => setAbout((await books.about()).get(id)), [books, id]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew each time that it stands otherwise.
  useEffect(() => void read().catch(() => undefined), [read, standing]);
  const run: Run = async (work) => {
    setBusy(true);
    setSays(undefined);
    const done = await work().catch((error: unknown) => notDone(writeTrouble(error)));
    if (!done.ok) setSays(done.says);
    await books.look('all').catch(() => undefined);
    await read().catch(() => undefined);
    setBusy(false);
    return done.ok;
  };
  const answered = (work: () => Promise<Done>) => () => {
    setAsking(undefined);
    void run(work);
  };
  const keep = async (): Promise<Done> => (await books.bringIn([id]))[0]?.done ?? notDone('');
  const isHere = standing.kind === 'here';
  return (
    <Dialog title="This workbook and the club" onClose={onClose}>
      <div className="club-facts">
        <p role="status">
          {signedOut === true ? SIGN_IN : `${standingSentence(standing)}.`.replace(/\.\.$/, '.')}
        </p>
        <Facts about={about} me={follows.me.name} />
      </div>
      <Complaint says={says} />
      <p className="actions">
        {isHere ? (
          <button
            type="button"
            className="button button-main"
            disabled={busy}
            onClick={() => void run(keep)}
          >
            Keep this workbook at the club
          </button>
        ) : null}
        {standing.kind === 'meeting' ? (
          <button
            type="button"
            className="button button-main"
            onClick={() => {
              onClose();
              lookingAtMeeting.set(true);
            }}
          >
            Look at what both changed
          </button>
        ) : null}
        {standing.kind === 'away' ? (
          <button
            type="button"
            className="button"
            disabled={busy}
            onClick={() => void run(async () => ({ ok: true }))}
          >
            Try again
          </button>
        ) : null}
      </p>
      {isHere ? (
        <p className="quiet">
          Kept at the club, it is on every device on which you sign in, and what you change on one
          comes to the others. Nobody else sees it until you share it.
        </p>
      ) : null}
      {about === undefined || isHere || standing.kind === 'away' ? null : about.isOwn ? (
        <Sharing id={id} about={about} follows={follows} busy={busy} run={run} />
      ) : (
        <p className="club-part quiet">
          {about.listed?.owner.name ?? 'Another member'} shares it with you: what you change, both
          of you have.
        </p>
      )}
      {isHere || about === undefined ? null : (
        <section className="club-part" aria-label="Take it back">
          {asking === undefined ? (
            <p className="actions">
              <button type="button" className="button" onClick={() => setAsking('stop')}>
                Keep on this device only
              </button>
              {about.isOwn ? (
                <button type="button" className="button" onClick={() => setAsking('out')}>
                  Take it out of the club
                </button>
              ) : null}
            </p>
          ) : null}
          {asking === 'stop' ? (
            <Question
              says={`Keep "${book.title}" on this device only? What is changed here is not sent any more. The club and your other devices keep theirs.`}
              does="Keep on this device only"
              onYes={answered(() => books.stopFollowing(id))}
              onNo={() => setAsking(undefined)}
            />
          ) : null}
          {asking === 'out' ? (
            <Question
              says={`Take "${book.title}" out of the club? Each device that has it keeps it, and none hears of the others any more. Nobody has it through the club after that.`}
              does="Take it out"
              onYes={answered(() => books.letGo(id))}
              onNo={() => setAsking(undefined)}
            />
          ) : null}
        </section>
      )}
      <DeviceName bookcase={bookcase} device={follows.device} />
    </Dialog>
  );
}

const SIGN_IN = 'The club asks who you are: sign in again on the shelf. What is here stays here.';

function Facts({ about, me }: { readonly about: AboutAtClub | undefined; readonly me: string }) {
  if (about === undefined) return null;
  const { by, inStep } = about;
  const moment = inStep === undefined ? '' : momentOf(inStep);
  return (
    <>
      {moment === '' ? null : <p className="quiet">Last in step {moment}.</p>}
      {by === undefined ? null : (
        <p className="quiet">
          Last change from elsewhere: {by.name === me ? 'you' : by.name}, on "{by.device}",{' '}
          {momentOf(by.at)}.
        </p>
      )}
    </>
  );
}

interface SharingProps {
  readonly id: string;
  readonly about: AboutAtClub;
  readonly follows: Followed;
  readonly busy: boolean;
  readonly run: Run;
}

const askMembers = (signal: AbortSignal) => askClub('members', {}, signal);

/** Whom its owner shares it with. */
function Sharing({ id, about, follows, busy, run }: SharingProps) {
  const { books, me } = follows;
  const members = useAsked(askMembers);
  const [chosen, setChosen] = useState('');
  const shared = about.listed?.with ?? [];
  const others = (members.is?.members ?? []).filter(
    (one) => one.id !== me.id && !shared.some((other) => other.id === one.id),
  );
  return (
    <section className="club-part" aria-labelledby="shared-with">
      <h3 id="shared-with">Shared with</h3>
      {shared.length === 0 ? <p className="quiet">Nobody: only you see it.</p> : null}
      <ul>
        {shared.map((one) => (
          <li key={one.id}>
            {one.name}
            <button
              type="button"
              className="button"
              aria-label={`Stop sharing with ${one.name}`}
              disabled={busy}
              onClick={() => void run(() => books.unshare(id, one.id))}
            >
              Stop sharing
            </button>
          </li>
        ))}
      </ul>
      {members.is === undefined ? (
        <OnItsWay says={members.says} what="Reading who is in the club …" again={members.again} />
      ) : others.length === 0 ? (
        <p className="quiet">There is nobody else in the club to share it with.</p>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (chosen !== '') void run(() => books.share(id, chosen)).then(() => setChosen(''));
          }}
        >
          <label>
            Member
            <select
              className="field"
              value={chosen}
              onChange={(event) => setChosen(event.target.value)}
            >
              <option value="">Choose a member</option>
              {others.map((one) => (
                <option key={one.id} value={one.id}>
                  {one.name}
                </option>
              ))}
            </select>
          </label>
          <button type="submit" className="button" disabled={busy || chosen === ''}>
            Share
          </button>
        </form>
      )}
    </section>
  );
}

function DeviceName({
  bookcase,
  device,
}: {
  readonly bookcase: Bookcase;
  readonly device: string;
}) {
  const [typed, setTyped] = useState(device);
  const [says, setSays] = useState<string>();
  const save = async (): Promise<void> => {
    try {
      await nameDevice(bookcase.store, typed);
      setSays('Saved.');
    } catch (error) {
      setSays(`Not saved: ${writeTrouble(error)}`);
    }
  };
  return (
    <section className="club-part" aria-label="This device">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <label>
          Name of this device
          <input
            className="field"
            data-later
            value={typed}
            maxLength={60}
            size={14}
            autoComplete="off"
            onChange={(event) => {
              setTyped(event.target.value);
              setSays(undefined);
            }}
          />
        </label>
        <button type="submit" className="button" disabled={typed.trim() === device}>
          Save
        </button>
        <span className="quiet" role="status">
          {says}
        </span>
      </form>
    </section>
  );
}
