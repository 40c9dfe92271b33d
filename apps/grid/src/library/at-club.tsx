import type { BookHead, Done, Listing } from '@kerfbook/keeping';
import { type AboutAtClub, type ClubState, standingSentence } from '@kerfbook/keeping/club';
import { useCallback, useEffect, useRef, useState } from 'react';
import { type Followed, useClubState, useFollowed } from '../page/club-books.ts';
import { counted } from './kinds.ts';

/** How the workbooks of the list stand with the club. */
export interface AtClub {
  readonly follows: Followed;
  readonly state: ClubState;
  readonly about: ReadonlyMap<string, AboutAtClub>;
}

/**
 * How workbooks stand with the club that serves the page; nothing where none does. What the club has and this device
 * lacks is taken in once.
 * @param onOthers others follow now: some were taken in
 */
export function useAtClub(onOthers: () => Promise<void>): AtClub | undefined {
  const follows = useFollowed();
  const state = useClubState();
  const [about, setAbout] = useState<AtClub['about']>(new Map());
  const books = follows?.books;
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew each time that one stands otherwise.
  useEffect(() => {
    let here = true;
    books?.about().then(
      (found) => {
        if (here) setAbout(found);
      },
      () => undefined,
    );
    return () => {
      here = false;
    };
  }, [books, state]);
  useEffect(() => {
    // Without the club, each card says so.
    void books?.takeFromClub();
  }, [books]);
  const known = [...state.books.keys()].join();
  const before = useRef(known);
  useEffect(() => {
    if (before.current === known) return;
    before.current = known;
    void onOthers();
  }, [known, onOthers]);
  return follows === undefined ? undefined : { follows, state, about };
}

/** How one workbook stands with the club, as its card says it: `At the club, shared with Ben.` */
export function atClubSays(atClub: AtClub | undefined, id: string): string {
  if (atClub === undefined) return '';
  const standing = atClub.state.books.get(id);
  const about = atClub.about.get(id);
  if (standing === undefined || standing.kind === 'here' || about === undefined) {
    return ' Only on this device.';
  }
  const { listed, isOwn } = about;
  const shared = listed?.with.map(({ name }) => name) ?? [];
  const whose = shared.length === 0 ? '' : `, shared with ${shared.join(', ')}`;
  const where = isOwn ? `At the club${whose}` : 'Shared with you at the club';
  const stands = standing.kind === 'inStep' ? '' : ` ${standingSentence(standing)}`;
  return ` ${where}.${stands === '' || /[.…]$/.test(stands) ? stands : `${stands}.`}`;
}

/** Whose a workbook is that came from the club, in the place of how one begun on this device came about. */
export function whoseSays(
  atClub: AtClub | undefined,
  { id, origin }: BookHead,
): string | undefined {
  const about = atClub?.about.get(id);
  if (about?.by === undefined || origin.kind !== 'own' || origin.from !== '') return undefined;
  return about.isOwn ? 'Yours' : `From ${about.listed?.owner.name ?? 'another member'}`;
}

interface BringInProps {
  readonly atClub: AtClub;
  readonly own: Listing['own'];
}

/** What came of one workbook. */
interface Came {
  readonly id: string;
  readonly title: string;
  readonly done: Done;
}

/** Gives all workbooks that are only here to the club by one press, and says what came of each. */
export function BringIn({ atClub, own }: BringInProps) {
  const { books } = atClub.follows;
  const [came, setCame] = useState<readonly Came[]>([]);
  const [left, setLeft] = useState(0);
  const only = own.filter(({ id }) => (atClub.state.books.get(id)?.kind ?? 'here') === 'here');
  const bring = useCallback(async (): Promise<void> => {
    setCame([]);
    // One by one, so that each is seen as it is done.
    for (const [i, { id, title }] of only.entries()) {
      setLeft(only.length - i);
      const [one] = await books.bringIn([id]);
      if (one !== undefined) setCame((before) => [...before, { id, title, done: one.done }]);
    }
    setLeft(0);
  }, [books, only]);
  const notDone = came.filter(({ done }) => !done.ok);
  const isDone = came.length > 0 && left === 0;
  if (only.length === 0 && came.length === 0) return null;
  return (
    <div className="at-club">
      {left > 0 ? (
        <p role="status">Bringing {counted(left, 'workbook')} to the club …</p>
      ) : only.length === 0 ? null : (
        <p className="actions">
          <span>
            {counted(only.length, 'workbook')} of yours {only.length === 1 ? 'is' : 'are'} only on
            this device.
          </span>
          <button type="button" className="button" onClick={() => void bring()}>
            Bring {only.length === 1 ? 'it' : 'them'} to the club
          </button>
        </p>
      )}
      {isDone ? (
        <p role="status">
          {counted(came.length - notDone.length, 'workbook')} brought to the club.
          {notDone.length === 0 ? '' : ` ${counted(notDone.length, 'workbook')} not:`}
        </p>
      ) : null}
      {notDone.length === 0 ? null : (
        <ul>
          {notDone.map(({ id, title, done }) => (
            <li key={id}>
              "{title}": {done.ok ? '' : done.says}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** Where there is nothing of the maker's own yet: the way for what he has at another address of the app. */
export const FROM_ELSEWHERE =
  'Workbooks that you made at another address of Kerfbook stay there: open it there, press "Save all of mine as one file" in its list, then "Open a file" here.';
