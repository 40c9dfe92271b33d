import type { Bookcase } from '@kerfbook/keeping';
import {
  type ReactNode,
  Suspense,
  useCallback,
  useEffect,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { joinCode } from '../page/join-code.ts';
import { later } from '../page/later.tsx';
import { Browse, EVERYTHING, type Wanted } from './browse.tsx';
import { Complaint } from './complaint.tsx';
import { askClub, type Here, lookHere, type Me, toAnswer, useClub } from './here.ts';
import SignIn from './sign-in.tsx';
import { Suggestions } from './suggestions.tsx';
import { TemplatePage } from './template-page.tsx';
import { useDoes } from './use-asked.ts';
import { wantedPlace } from './wanted-place.ts';
import './shelf.css';

/** Few come by these. */
const AccountPage = later(() => import('./people/account-page.tsx'));
const JoinPage = later(() => import('./people/join-page.tsx'));
const MembersPage = later(() => import('./people/members-page.tsx'));

/** What is looked at on the shelf. */
export type Place =
  | { readonly at: 'templates' }
  | { readonly at: 'template'; readonly id: string }
  | { readonly at: 'suggestions' }
  | { readonly at: 'members' }
  | { readonly at: 'account' };

interface ShelfPageProps {
  readonly bookcase: Bookcase;
  /** A copy of a template is open now. */
  readonly onOpened: () => void;
}

/** The shelf of the club that serves the page. */
export default function ShelfPage(props: ShelfPageProps) {
  const state = useClub();
  const code = useSyncExternalStore(joinCode.watch, () => joinCode.value);
  if (code !== undefined) {
    return (
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys.
      <section className="shelf-page" aria-label="Shelf" tabIndex={0}>
        <Suspense fallback={<OnItsWayPage />}>
          <JoinPage key={code} code={code} state={state} />
        </Suspense>
      </section>
    );
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys.
    <section className="shelf-page" aria-label="Shelf" tabIndex={0}>
      {state.is === 'asking' ? <p className="quiet">Asking the club …</p> : null}
      {state.is === 'away' ? <Away says={state.says} /> : null}
      {state.is === 'here' ? <Shelf {...props} here={state.here} /> : null}
    </section>
  );
}

const OnItsWayPage = () => <p className="quiet">On its way …</p>;

function Away({ says }: { readonly says: string }) {
  return (
    <div className="shelf-away">
      <p role="alert">{says}</p>
      <p className="quiet">What is on this device works as before.</p>
      <p className="actions">
        <button type="button" className="button button-main" onClick={() => void lookHere('again')}>
          Try again
        </button>
      </p>
    </div>
  );
}

function Shelf({ here, ...props }: ShelfPageProps & { readonly here: Here }) {
  if (here.me === undefined) return <SignIn here={here} />;
  return <SignedIn {...props} here={here} me={here.me} />;
}

function SignedIn({
  bookcase,
  onOpened,
  here,
  me,
}: ShelfPageProps & { readonly here: Here; readonly me: Me }) {
  const [place, setPlace] = useState<Place>(() => wantedPlace.take() ?? { at: 'templates' });
  useEffect(
    () =>
      wantedPlace.watch(() => {
        const next = wantedPlace.take();
        if (next !== undefined) setPlace(next);
      }),
    [],
  );
  // Who comes back from a template finds the list as he left it.
  const [wanted, setWanted] = useState<Wanted>(EVERYTHING);
  const many = useSyncExternalStore(toAnswer.watch, () => toAnswer.value);
  const body = useRef<HTMLDivElement>(null);
  const first = useRef(true);
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each place that is come to.
  useEffect(() => {
    if (first.current) {
      first.current = false;
      return;
    }
    body.current?.focus();
    body.current?.closest('.shelf-page')?.scrollTo(0, 0);
  }, [place]);
  const toTemplate = useCallback((id: string) => setPlace({ at: 'template', id }), []);
  const toTemplates = useCallback(() => setPlace({ at: 'templates' }), []);
  return (
    <>
      <header className="shelf-head">
        <h2>{here.club.name}</h2>
        <nav className="shelf-places" aria-label="On the shelf">
          <PlaceButton on={place.at === 'templates' || place.at === 'template'} onGo={toTemplates}>
            Templates
          </PlaceButton>
          <PlaceButton on={place.at === 'suggestions'} onGo={() => setPlace({ at: 'suggestions' })}>
            Suggestions{many === 0 ? '' : ` (${many})`}
          </PlaceButton>
          <PlaceButton on={place.at === 'members'} onGo={() => setPlace({ at: 'members' })}>
            Members
          </PlaceButton>
          <PlaceButton on={place.at === 'account'} onGo={() => setPlace({ at: 'account' })}>
            Your account
          </PlaceButton>
        </nav>
        <SignedInAs me={me} />
      </header>
      <div ref={body} className="shelf-body" tabIndex={-1}>
        {place.at === 'templates' ? (
          <Browse
            inches={bookcase.current.book.units === 'us'}
            wanted={wanted}
            onWant={setWanted}
            onTemplate={toTemplate}
          />
        ) : null}
        {place.at === 'template' ? (
          <TemplatePage
            key={place.id}
            id={place.id}
            me={me}
            bookcase={bookcase}
            onTemplate={toTemplate}
            onBack={toTemplates}
            onOpened={onOpened}
          />
        ) : null}
        <Suspense fallback={<OnItsWayPage />}>
          {place.at === 'members' ? (
            <MembersPage here={here} me={me} onTemplate={toTemplate} />
          ) : null}
          {place.at === 'account' ? <AccountPage here={here} /> : null}
        </Suspense>
        {place.at === 'suggestions' ? <Suggestions onTemplate={toTemplate} /> : null}
      </div>
    </>
  );
}

interface PlaceButtonProps {
  readonly on: boolean;
  readonly onGo: () => void;
  readonly children: ReactNode;
}

function PlaceButton({ on, onGo, children }: PlaceButtonProps) {
  return (
    <button type="button" className="button" aria-current={on ? 'page' : undefined} onClick={onGo}>
      {children}
    </button>
  );
}

/** Whose session it is, and the way out of it. */
function SignedInAs({ me }: { readonly me: Me }) {
  const { busy, says, run } = useDoes();
  const out = async (): Promise<void> => {
    if (await run(() => askClub('signOut', {}))) await lookHere('again');
  };
  return (
    <div className="shelf-me">
      <span className="quiet">Signed in as {me.name}</span>
      <button type="button" className="button" disabled={busy} onClick={() => void out()}>
        Sign out
      </button>
      <Complaint says={says} />
    </div>
  );
}
