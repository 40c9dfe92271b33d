import type { Bookcase } from '@kerfbook/keeping';
import { Suspense, useSyncExternalStore } from 'react';
import { SavedWords } from '../library/saved-state.tsx';
import {
  ACTIVITIES,
  type Activity,
  activityOf,
  type PageName,
  type Showing,
  type Tool,
} from '../page/activity.ts';
import { afterGrid } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import { servedByClub } from '../page/served-by-club.ts';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import './top-line.css';

/** How much waits on the shelf; drawn from the start, so that it must not be loaded before the grid. */
const ShelfCount = later(async () => {
  await afterGrid;
  return import('../club/shelf-count.tsx');
});

/** How the workbook stands with the club, likewise. */
const BookState = later<{ readonly bookcase: Bookcase }>(async () => {
  await afterGrid;
  return import('../club/book-state.tsx');
});

interface TopLineProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  /** What is on: an activity, or paper, which none of them names. */
  readonly page: PageName | undefined;
  readonly onActivity: (activity: Activity) => void;
  readonly onTool: (tool: Tool) => void;
  readonly onShow: (showing: Showing) => void;
}

/** The one line on top: which workbook, whether it is safe, back and forth, what one is doing, the rest. */
export function TopLine({ session, bookcase, page, onActivity, onTool, onShow }: TopLineProps) {
  const title = useSyncExternalStore(session.state.watch, () => session.book.title);
  return (
    <header className="top-line">
      <div className="top-start">
        <div className="top-book">
          <button
            type="button"
            className="top-title"
            title={`${title}: what it is, and other workbooks`}
            aria-haspopup="dialog"
            onClick={() => onShow('title')}
          >
            <span className="top-title-words">{title}</span>
            <Down />
          </button>
          {servedByClub ? (
            <div className="top-states">
              <SavedWords bookcase={bookcase} />
              <Suspense fallback={null}>
                <BookState bookcase={bookcase} />
              </Suspense>
            </div>
          ) : (
            <SavedWords bookcase={bookcase} />
          )}
        </div>
        <BackAndForth session={session} />
      </div>
      <nav className="activities" aria-label="What you are doing">
        {ACTIVITIES.map(([activity, says]) => {
          const on = activity === activityOf(page);
          return (
            <button
              key={activity}
              type="button"
              className="activity"
              aria-current={on ? 'page' : undefined}
              onClick={() => onActivity(activity)}
            >
              <ActivityWords says={says} />
              {activity === 'shelf' ? (
                <Suspense fallback={null}>
                  <ShelfCount />
                </Suspense>
              ) : null}
            </button>
          );
        })}
      </nav>
      <div className="top-end">
        <button
          type="button"
          className="button top-find"
          aria-label="Find"
          title="Find a cell, a name, a sheet, a function or a command"
          onClick={() => onTool('find')}
        >
          <Glass />
          <span className="top-word">Find</span>
        </button>
        <button
          type="button"
          className="button top-menu"
          aria-label="Menu"
          aria-haspopup="dialog"
          title="Menu"
          onClick={() => onTool('menu')}
        >
          <Strokes />
          <span className="top-word">Menu</span>
        </button>
      </div>
    </header>
  );
}

/** What an activity is called; where the line is narrow its first word stands for it, and all of it is read out. */
function ActivityWords({ says }: { readonly says: string }) {
  const [first = '', ...more] = says.split(' ');
  return (
    <span>
      {first}
      {more.length === 0 ? null : <span className="activity-more"> {more.join(' ')}</span>}
    </span>
  );
}

/** Undo and redo, always in sight. */
function BackAndForth({ session }: { readonly session: Session }) {
  useSessionBehind(session);
  const { book, mayChange } = session;
  return (
    <div className="back-and-forth" role="toolbar" aria-label="Changes">
      <Turn session={session} which="undo" can={mayChange && book.canUndo} />
      <Turn session={session} which="redo" can={mayChange && book.canRedo} />
    </div>
  );
}

interface TurnProps {
  readonly session: Session;
  readonly which: 'undo' | 'redo';
  readonly can: boolean;
}

/** Said where there is no step: what was done before a workbook was opened stays done. */
const NOTHING = {
  undo: 'Nothing to undo since this workbook was opened',
  redo: 'Nothing to redo',
} as const;

/** One step back, or forth again; says on focus and hover which. */
function Turn({ session, which, can }: TurnProps) {
  const says = which === 'undo' ? 'Undo' : 'Redo';
  /** Said only when it is asked for: to put a change into words is more work than most changes. */
  const tell = ({ currentTarget: button }: { readonly currentTarget: HTMLElement }): void => {
    void import('./step-words.ts').then(({ stepWords }) => {
      button.title = stepWords(session, which);
    });
  };
  return (
    <button
      type="button"
      className="button"
      aria-label={says}
      disabled={!can}
      title={can ? undefined : NOTHING[which]}
      onPointerEnter={tell}
      onFocus={tell}
      onClick={(event) => {
        session[which]();
        // It would tell of the step that has just been taken.
        event.currentTarget.removeAttribute('title');
      }}
    >
      <Arrow forth={which === 'redo'} />
      <span className="top-word">{says}</span>
    </button>
  );
}

const ICON = { width: 18, height: 18, viewBox: '0 0 18 18' } as const;

/** Back along the way one came; mirrored, forth. */
function Arrow({ forth }: { readonly forth: boolean }) {
  return (
    <svg {...ICON} className="top-icon" aria-hidden data-mirrored={forth}>
      <path d="M7.5 3.5 3.5 7.5l4 4M4 7.5h6.2a4 4 0 0 1 0 8H8" />
    </svg>
  );
}

function Glass() {
  return (
    <svg {...ICON} className="top-icon" aria-hidden>
      <circle cx="7.8" cy="7.8" r="4.3" />
      <path d="m11 11 4 4" />
    </svg>
  );
}

function Strokes() {
  return (
    <svg {...ICON} className="top-icon" aria-hidden>
      <path d="M3.5 5h11M3.5 9h7M3.5 13h9" />
    </svg>
  );
}

function Down() {
  return (
    <svg width="10" height="10" viewBox="0 0 10 10" className="top-icon" aria-hidden>
      <path d="m2 3.5 3 3 3-3" />
    </svg>
  );
}
