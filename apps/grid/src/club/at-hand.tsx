import type { Bookcase } from '@kerfbook/keeping';
import type { ClubBooks } from '@kerfbook/keeping/club';
import { useEffect } from 'react';
import { useFollowed, useStanding } from '../page/club-books.ts';
import type { Session } from '../session/session.ts';
import { atHand, lookingAtMeeting, startFollowing } from './following.ts';

type Met = ReturnType<ClubBooks['metBy']>;

interface AtHandProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
}

/** Has the workbook at hand follow its member; over the grid it says where both changed the same. */
export default function AtHand({ session, bookcase }: AtHandProps) {
  useEffect(() => {
    atHand.session = session;
    return () => {
      atHand.session = undefined;
    };
  }, [session]);
  useEffect(() => startFollowing(bookcase), [bookcase]);
  const { books, me } = useFollowed() ?? {};
  const { id } = bookcase.current;
  const standing = useStanding(id);
  // What was looked at belongs to the workbook that is left.
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each workbook that is shown.
  useEffect(() => () => lookingAtMeeting.set(false), [session]);
  if (books === undefined || me === undefined || standing.kind !== 'meeting') return null;
  return (
    <p className="offer" role="status">
      <span>{meetingSays(books.metBy(id), me.id, standing.places)}</span>
      <span className="actions">
        <button type="button" className="button" onClick={() => lookingAtMeeting.set(true)}>
          {standing.places === 1 ? 'Look at it' : 'Look at them'}
        </button>
      </span>
    </p>
  );
}

/** `You and Ada changed 2 of the same places.` */
function meetingSays(met: Met, me: string, places: number): string {
  const same = places === 1 ? 'the same place' : `${places} of the same places`;
  const waits = 'Until you choose, nothing is sent and nothing comes in.';
  if (met === undefined || met.by.id === me) {
    const there = met === undefined ? 'at the club' : `on "${met.device}"`;
    return `You changed ${same} here and ${there}. ${waits}`;
  }
  return `You and ${met.by.name} changed ${same}. ${waits}`;
}
