import { type Bookcase, timeOfDay } from '@kerfbook/keeping';
import type { ClubState, Standing } from '@kerfbook/keeping/club';
import { loadLazy } from '@kerfbook/workbook';
import { Suspense, useState, useSyncExternalStore } from 'react';
import { useBookcase } from '../library/use-bookcase.ts';
import { afterGridModule } from '../page/after-grid.ts';
import { useClubState, useFollowed, useStanding } from '../page/club-books.ts';
import { later } from '../page/later.tsx';
import { lookingAtMeeting } from './following.ts';
import './book-state.css';

// It works out several workbooks, with all of the engine.
const MeetingDialog = later(async () => {
  const [module] = await Promise.all([import('./meeting-dialog.tsx'), loadLazy()]);
  return module;
});
// Asked for where the club is not reached as well: then it has to be there.
const BookPanel = later(afterGridModule(() => import('./book-panel.tsx')));

/** How the workbook at hand stands with the club, in a word or two; a press tells more. */
export default function BookState({ bookcase }: { readonly bookcase: Bookcase }) {
  const { current, save } = useBookcase(bookcase);
  const follows = useFollowed();
  const state = useClubState();
  const standing = useStanding(current.id);
  const [open, setOpen] = useState(false);
  const isLooking = useSyncExternalStore(lookingAtMeeting.watch, () => lookingAtMeeting.value);
  if (follows === undefined) return null;
  // A built-in template as it came is on every device: there is nothing yet that could follow.
  const isAsItCame = save.kind === 'untouched' && current.origin.kind === 'template';
  if (isAsItCame && standing.kind === 'here') return null;
  const says = stateWords(standing, state);
  return (
    <>
      <button
        type="button"
        className="button top-club"
        data-kind={state.signedOut === true ? 'refused' : standing.kind}
        aria-haspopup="dialog"
        aria-label={`Club: ${says}`}
        title={`Club: ${says}. Press for more, and to share it`}
        onClick={() => setOpen(true)}
      >
        <Sign kind={standing.kind} />
        <span className="top-club-words">{says.replace(/,.*/, '')}</span>
      </button>
      <span className="visually-hidden" role="status">
        {isTold(standing) ? `Club: ${says}` : ''}
      </span>
      {isLooking ? (
        <Suspense fallback={null}>
          <MeetingDialog
            bookcase={bookcase}
            books={follows.books}
            me={follows.me.id}
            onClose={() => lookingAtMeeting.set(false)}
          />
        </Suspense>
      ) : null}
      {open ? (
        <Suspense fallback={null}>
          <BookPanel
            key={current.id}
            bookcase={bookcase}
            follows={follows}
            onClose={() => setOpen(false)}
          />
        </Suspense>
      ) : null}
    </>
  );
}

/** What a maker has to know of at once is read aloud; that a change is on its way is not. */
const isTold = ({ kind }: Standing): boolean =>
  kind === 'meeting' || kind === 'away' || kind === 'refused';

function stateWords(standing: Standing, { signedOut }: ClubState): string {
  if (signedOut === true && standing.kind !== 'here') return 'sign in again';
  switch (standing.kind) {
    case 'here':
      return 'only on this device';
    case 'inStep':
      return 'also at the club';
    case 'unsent':
      return `${changes(standing.changes)} not sent yet`;
    case 'sending':
      return 'sending';
    case 'meeting':
      return 'both changed: look';
    case 'away':
      return `club not reached since ${timeOfDay(standing.since)}${standing.changes === 0 ? '' : `, ${changes(standing.changes)} not sent`}`;
    case 'refused':
      return 'not in step: look';
  }
}

const changes = (many: number): string => (many === 1 ? '1 change' : `${many} changes`);

/** Two sheets, one behind the other: here and there. Where they differ the one behind is only an outline. */
function Sign({ kind }: { readonly kind: Standing['kind'] }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" className="top-icon" aria-hidden>
      {kind === 'here' ? null : (
        <path d="M7.5 3.5h7v8" strokeDasharray={kind === 'inStep' ? undefined : '2 2.4'} />
      )}
      <path d="M3.5 6.5h7v8h-7z" />
      {kind === 'meeting' || kind === 'refused' ? <path d="M7 8.6v2.4M7 12.6v.2" /> : null}
    </svg>
  );
}
