import type { Bookcase } from '@kerfbook/keeping';
import { type At, loadLazy } from '@kerfbook/workbook';
import {
  Suspense,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { Beside, DrawingPane } from '../beside/beside.tsx';
import { BookDialogs } from '../library/book-dialogs.tsx';
import { useKeptDecimalMark } from '../library/decimal-mark-choice.tsx';
import { Notices } from '../library/notices.tsx';
import { SaveTrouble } from '../library/saved-state.tsx';
import { useKeptTheme } from '../library/theme-choice.tsx';
import { useBookcase } from '../library/use-bookcase.ts';
import { NewVersion } from '../offline/new-version.tsx';
import type { Activity, PageName, Showing, Tool } from '../page/activity.ts';
import { afterFrame } from '../page/after-frame.ts';
import { afterGrid, afterGridModule } from '../page/after-grid.ts';
import { allCommands, menuCommands, type Ways } from '../page/commands.ts';
import { keysToCells } from '../page/keeps-keys.ts';
import { useKeptPage } from '../page/kept-page.ts';
import { later } from '../page/later.tsx';
import { servedByClub } from '../page/served-by-club.ts';
import { useSession, useSessionBehind } from '../page/use-session.ts';
import { mayPlace } from '../session/pointing.ts';
import { Session } from '../session/session.ts';
import { SheetGrid } from '../sheet/sheet-grid.tsx';
import { KeysAhead, NOTHING_AHEAD } from '../tools/keys-ahead.tsx';
import { SheetTools } from '../tools/sheet-tools.tsx';
import { useBench, useJoinCode, useParts } from './app-hooks.ts';
import { Boundary } from './boundary.tsx';
import { FormulaLine } from './formula-line.tsx';
import { ShareBar } from './share-bar.tsx';
import { SheetList } from './sheet-list.tsx';
import { TopLine } from './top-line.tsx';

/** Loaded as soon as the grid is there: what a maker may ask for next. */
const FingerKeys = later<{ readonly session: Session }>(async () => {
  // It is drawn from the start, and must not be loaded before the grid.
  await afterGrid;
  return { default: (await import('../writing/finger-keys.tsx')).FingerKeys };
});
const RenewalLine = later(async () => {
  await afterGrid;
  return import('../library/renewal-line.tsx');
});
const AtHand = later<{ readonly session: Session; readonly bookcase: Bookcase }>(async () => {
  await afterGrid;
  return import('../club/at-hand.tsx');
});
const ProvingLine = later(async () => {
  await afterGrid;
  return import('../proving/proving-line.tsx');
});
const AtRisk = later(() => import('../library/at-risk.tsx'));
const Menu = later(afterGridModule(() => import('../menu/menu.tsx')));
const Asked = later(afterGridModule(() => import('../menu/asked.tsx')));
const SelectionLine = later(afterGridModule(() => import('../selection/selection-line.tsx')));
const RareMenu = later(afterGridModule(() => import('./rare-menu.tsx')));
const FindAnything = later(afterGridModule(() => import('../tools/find-anything.tsx')));
const Find = later(afterGridModule(() => import('../tools/find.tsx')));
/** Loaded when it is first asked for. */
const CheckForm = later(() => import('../checks/check-form.tsx'));
const Keys = later(() => import('../keys/keys.tsx'));
const Names = later(() => import('../tools/names.tsx'));
const DrawingPage = later(() => import('../drawing/drawing-page.tsx'));
const CutPage = later(() => import('../shop/cut-page.tsx'));
const ShopView = later(() => import('../shop/shop-view.tsx'));
const BenchView = later(() => import('../shop/bench-view.tsx'));
const DaysPage = later(() => import('../days/days-page.tsx'));
const WhatIfPage = later(() => import('../what-if/what-if-page.tsx'));
// It opens the workbooks of several jobs, with all of the engine.
const JobsPage = later(async () => {
  const [module] = await Promise.all([import('../jobs/jobs-page.tsx'), loadLazy()]);
  return module;
});
// What differs from the plan that was handed out is worked out, with all of the engine.
const GuidePage = later(async () => {
  const [module] = await Promise.all([import('../guide/guide-page.tsx'), loadLazy()]);
  return module;
});
// It works out what it shows of a template, and with all of the engine.
const ShelfPage = later(async () => {
  const [module] = await Promise.all([import('../club/shelf-page.tsx'), loadLazy()]);
  return module;
});
// What differs from the revision before is worked out.
const PublishDialog = later(async () => {
  const [module] = await Promise.all([import('../club/publish-dialog.tsx'), loadLazy()]);
  return module;
});
// It brings the reader of files of other programs, which nobody needs who has none.
const TakeFile = later(() => import('../office/take-file.tsx'));
const SaveOffice = later(() => import('../office/save-office.tsx'));
const PaperView = later(() => import('../paper/paper-view.tsx'));
// Its examples are worked out once, and with all of the engine.
const Functions = later(async () => {
  const [module] = await Promise.all([import('../reference/functions.tsx'), loadLazy()]);
  return module;
});

interface AppProps {
  readonly bookcase: Bookcase;
  /** What was on when this device last showed the workbook. */
  readonly startsAt: PageName | undefined;
}

/** The whole app on one workbook; another workbook is another session. */
export function App({ bookcase, startsAt }: AppProps) {
  const { current, keeping } = useBookcase(bookcase);
  // Told at an opening only: after the first save it would come under a finger that is about to press.
  const [cameAtRisk] = useState(keeping === 'atRisk');
  const session = useMemo(
    () =>
      new Session({
        book: current.book,
        mayChange: current.access === 'write',
        isOpen: () => bookcase.current === current,
        record: (edit) => bookcase.record(edit),
        afterFrame,
      }),
    [current, bookcase],
  );
  // What is still being put in belongs to the workbook that is left, not to the one that comes.
  useEffect(() => () => session.stop(), [session]);
  // What cells come to is looked at before the first change, so that none waits for it.
  useEffect(() => {
    void afterGrid.then(() => session.effects.warm());
  }, [session]);
  const behind = useSessionBehind(session);
  const sheet = useSyncExternalStore(session.state.watch, () => session.state.value.at.sheet);
  const { at, changes, announcement } = behind;
  const { book } = session;
  // The open workbook changes within; a new object tells what stands beside the grid to look again.
  const seen = useMemo(() => ({ book, changes }), [book, changes]);
  const { editing } = behind;
  const writing = editing !== undefined && mayPlace(book, editing) ? editing : undefined;
  const { title } = book;
  useEffect(() => {
    document.title = `${title} · Kerfbook`;
  }, [title]);
  const [page, setPage] = useKeptPage(bookcase, startsAt);
  const [tool, setTool] = useState<Tool>();
  const [showing, setShowing] = useState<Showing>();
  const openTool = useCallback(
    (next: Tool) => {
      // What is searched through is the whole of what follows from the last change.
      session.settled();
      setTool(next);
    },
    [session],
  );
  const openPage = useCallback(
    (next: PageName | undefined) => {
      // What is drawn, planned and printed is the whole of what follows from the last change.
      session.settled();
      setTool(undefined);
      setPage(next);
    },
    [session, setPage],
  );
  const toShelf = useCallback(() => openPage('shelf'), [openPage]);
  const toWorkbook = useCallback(() => {
    openPage(undefined);
    keysToCells({ current: session });
  }, [session, openPage]);
  const onActivity = useCallback(
    (activity: Activity) => {
      if (activity === 'workbook') toWorkbook();
      else openPage(activity);
    },
    [openPage, toWorkbook],
  );
  useJoinCode(toShelf);
  useKeptTheme(bookcase.store);
  useKeptDecimalMark(bookcase.store);
  useKeys(session, openTool, openPage, page === undefined);
  useBench(session);
  useParts(session);
  const noTool = useCallback(() => setTool(undefined), []);
  const ahead = useRef(NOTHING_AHEAD);
  // Once the dialog is gone that led to another workbook, its cells take the keys.
  const newest = useRef(session);
  newest.current = session;
  const toGrid = useCallback(() => {
    setPage(undefined);
    keysToCells(newest);
  }, [setPage]);
  // The function being looked up, or any; undefined while the reference is closed.
  const [lookUp, setLookUp] = useState<{ readonly start?: string | undefined }>();
  const readFunction = useCallback((start?: string) => setLookUp({ start }), []);
  const [check, setCheck] = useState<{ readonly id: string | undefined }>();
  const changeCheck = useCallback(
    (id: string | undefined) => {
      if (session.mayShape()) setCheck({ id });
    },
    [session],
  );
  const go = useCallback((to: At) => session.go(to), [session]);
  const goFromPage = useCallback(
    (to: At) => {
      session.go(to);
      toWorkbook();
    },
    [session, toWorkbook],
  );
  const restore = useCallback(
    ({ sheet, row, column }: At) =>
      session.apply({ do: 'restore', sheet, cells: [{ row, column }] }),
    [session],
  );
  // What these pages remember of a workbook is kept beside it.
  const kept = { session, store: bookcase.store, bookId: bookcase.current.id };
  const leads = { onGo: goFromPage, onStarted: toWorkbook };
  const onTheirs = { session, onGo: goFromPage };
  const ways: Ways = {
    session,
    onActivity,
    onPage: openPage,
    onTool: openTool,
    onShow: setShowing,
    onFunctions: () => readFunction(),
    isUnchanged: () =>
      current.origin.kind === 'template' && bookcase.revision === 0 && !session.book.canUndo,
  };
  return (
    <div className="app">
      <TopLine
        session={session}
        bookcase={bookcase}
        page={page}
        onActivity={onActivity}
        onTool={openTool}
        onShow={setShowing}
      />
      <div className="app-notices">
        <SaveTrouble bookcase={bookcase} />
        <Notices bookcase={bookcase} />
        <NewVersion />
      </div>
      <div className="app-below">
        <div className="table" inert={page !== undefined}>
          <div className="sheets-side">
            <SheetList session={session} />
            <SheetTools session={session} />
          </div>
          <main className="table-main">
            <h1 className="visually-hidden">{title}</h1>
            <Boundary what="The entry line">
              <FormulaLine key={session.id} session={session} />
            </Boundary>
            <Refused session={session} />
            <OfferLine session={session} />
            <BusyLine session={session} />
            <Boundary what="What is new in the template">
              <Suspense fallback={null}>
                <RenewalLine session={session} bookcase={bookcase} onShow={setShowing} />
              </Suspense>
            </Boundary>
            {servedByClub ? (
              <Boundary what="What came from the club">
                <Suspense fallback={null}>
                  <AtHand session={session} bookcase={bookcase} />
                </Suspense>
              </Boundary>
            ) : null}
            <Boundary what="The grid">
              <SheetGrid key={`${session.id} ${sheet}`} session={session} sheet={sheet} />
            </Boundary>
            <Suspense fallback={null}>
              <FingerKeys session={session} />
            </Suspense>
            {behind.working === true ? (
              <p className="working">Working out what follows from the last change.</p>
            ) : null}
            <Boundary what="The state of the buying plans">
              <Suspense fallback={null}>
                <ProvingLine key={session.id} session={session} />
              </Suspense>
            </Boundary>
            <Boundary what="The totals of the selection">
              {behind.selection === undefined ? null : (
                <Suspense fallback={null}>
                  <SelectionLine session={session} state={behind} />
                </Suspense>
              )}
              <AboutSelection session={session} />
            </Boundary>
            <p className="visually-hidden" role="status" aria-live="polite">
              {announcement}
            </p>
            <ShareBar store={bookcase.store} />
          </main>
          <Boundary what="The drawing">
            <DrawingPane session={session} seen={seen} at={at} writing={writing} onGo={go} />
          </Boundary>
          <Boundary what="What stands beside the grid">
            <Beside
              session={session}
              seen={seen}
              at={at}
              mayChange={session.mayChange}
              store={bookcase.store}
              onGo={go}
              onRestore={restore}
              onFunction={readFunction}
              onCheck={changeCheck}
            />
          </Boundary>
        </div>
        {page === undefined ? null : (
          <main className="app-page">
            <h1 className="visually-hidden">{title}</h1>
            <Boundary key={page} what="This page">
              <Suspense fallback={<p className="on-its-way quiet">On its way …</p>}>
                {page === 'drawing' ? <DrawingPage {...leads} session={session} /> : null}
                {page === 'cut' ? <CutPage {...leads} session={session} /> : null}
                {page === 'print' ? <PaperView session={session} onClose={toWorkbook} /> : null}
                {page === 'jobs' ? (
                  <JobsPage
                    session={session}
                    bookcase={bookcase}
                    onOpened={toGrid}
                    onClose={toWorkbook}
                  />
                ) : null}
                {page === 'shelf' ? <ShelfPage bookcase={bookcase} onOpened={toGrid} /> : null}
                {page === 'guide' ? <GuidePage key={session.id} {...onTheirs} /> : null}
                {page === 'what-if' || page === 'charts' ? (
                  <WhatIfPage key={session.id} {...onTheirs} charts={page === 'charts'} />
                ) : null}
                {page === 'shop' ? <ShopView {...leads} {...kept} /> : null}
                {page === 'bench' ? (
                  <BenchView
                    key={session.id}
                    {...leads}
                    {...kept}
                    bookcase={bookcase}
                    onDays={() => openPage('days')}
                  />
                ) : null}
                {page === 'days' ? (
                  <DaysPage
                    key={session.id}
                    {...onTheirs}
                    {...kept}
                    bookcase={bookcase}
                    onPieces={() => openPage('bench')}
                  />
                ) : null}
              </Suspense>
            </Boundary>
          </main>
        )}
      </div>
      {cameAtRisk ? (
        <Suspense fallback={null}>
          <AtRisk bookcase={bookcase} onDismiss={() => session.focusGrid()} />
        </Suspense>
      ) : null}
      <BookDialogs
        session={session}
        bookcase={bookcase}
        showing={showing}
        onShow={setShowing}
        onJobs={() => openPage('jobs')}
        onOpened={toGrid}
        ForeignFile={TakeFile}
      />
      {showing !== 'publish' ? null : (
        <Suspense fallback={null}>
          <PublishDialog
            session={session}
            bookcase={bookcase}
            onShow={setShowing}
            onShelf={toShelf}
            onClose={() => setShowing(undefined)}
          />
        </Suspense>
      )}
      {showing !== 'office' ? null : (
        <Suspense fallback={null}>
          <SaveOffice session={session} onClose={() => setShowing(undefined)} />
        </Suspense>
      )}
      {tool === undefined ? null : (
        <Suspense fallback={<KeysAhead ahead={ahead} onClose={noTool} />}>
          {tool === 'menu' ? (
            <RareMenu bookcase={bookcase} commands={menuCommands(ways)} onClose={noTool} />
          ) : null}
          {tool === 'find' ? (
            <FindAnything
              session={session}
              commands={allCommands(ways)}
              ahead={ahead}
              onFunction={readFunction}
              onReplace={() => openTool('replace')}
              onGo={toWorkbook}
              onClose={noTool}
            />
          ) : null}
          {tool === 'replace' ? <Find session={session} ahead={ahead} onClose={noTool} /> : null}
          {tool === 'names' ? <Names session={session} onClose={noTool} /> : null}
          {tool === 'keys' ? <Keys onClose={noTool} /> : null}
        </Suspense>
      )}
      {check === undefined ? null : (
        <Suspense fallback={null}>
          <CheckForm session={session} id={check.id} onClose={() => setCheck(undefined)} />
        </Suspense>
      )}
      {lookUp === undefined ? null : (
        <Suspense fallback={null}>
          <Functions
            book={book}
            mayChange={session.mayChange && !book.locked}
            start={lookUp.start}
            onOwnTable={(edit) => {
              setLookUp(undefined);
              session.apply(edit);
              const added = book.sheets().at(-1);
              if (added !== undefined) session.goSheet(added.id);
            }}
            onClose={() => setLookUp(undefined)}
          />
        </Suspense>
      )}
    </div>
  );
}

/** The menu of what is selected, and the dialogs it leads to. */
function AboutSelection({ session }: { readonly session: Session }) {
  const { menu, asked } = useSession(session);
  // The focus goes back to the cell first: a dialog that opens next hands it back there (G08).
  const close = useCallback(() => {
    session.closeMenu();
    session.focusGrid();
  }, [session]);
  // What was done may have drawn the cell anew: where the dialog would lead back to is gone then.
  const answered = useCallback(() => {
    session.answered();
    requestAnimationFrame(() => {
      // A menu that was asked for meanwhile keeps the keys.
      if (session.state.value.menu === undefined) session.focusGrid();
    });
  }, [session]);
  return (
    <>
      {menu === undefined ? null : (
        <Suspense fallback={null}>
          <Menu
            session={session}
            place={menu}
            onAsk={(what) => session.ask(what)}
            onClose={close}
          />
        </Suspense>
      )}
      {asked === undefined ? null : (
        <Suspense fallback={null}>
          <Asked session={session} what={asked} onClose={answered} />
        </Suspense>
      )}
    </>
  );
}

/** Why the last entry was not taken. */
function Refused({ session }: { readonly session: Session }) {
  const says = useSyncExternalStore(session.state.watch, () => session.state.value.refused);
  if (says === undefined) return null;
  return (
    <p className="refused" role="alert">
      <span>{says}</span>
      <button type="button" className="button" onClick={() => session.hush()}>
        Dismiss
      </button>
    </p>
  );
}

/** The places F6 leads through; each takes the focus where it was last, or at its first control. */
const REGIONS = [
  '.sheet-grid',
  '.formula-line',
  '.drawing-pane',
  '.beside',
  '.top-line',
  '.sheets-side',
] as const;

/** F6 goes on to the next part of the page, with Shift to the one before (G07). */
function turnRegion(session: Session, by: 1 | -1): void {
  const now = REGIONS.findIndex((one) => document.activeElement?.closest(one));
  const next = REGIONS[(Math.max(0, now) + by + REGIONS.length) % REGIONS.length];
  if (next === '.sheet-grid') {
    session.focusGrid();
    return;
  }
  const controls = document.querySelectorAll<HTMLElement>(
    `${next} :is(button, input, summary, a[href]):not(:disabled)`,
  );
  const control = [...controls].find((one) => one.checkVisibility());
  // While nothing stands there yet, the place itself.
  (control ?? document.querySelector<HTMLElement>(next ?? ''))?.focus();
}

/** A question about what was just done. */
function OfferLine({ session }: { readonly session: Session }) {
  const offer = useSyncExternalStore(session.state.watch, () => session.state.value.offer);
  if (offer === undefined || offer.atList === true) return null;
  const answer = (which?: number) => () => {
    session.answerOffer(which);
    session.focusGrid();
  };
  return (
    <p className="offer" role="status">
      <span>{offer.says}</span>
      <span className="actions">
        {offer.answers.map(({ says }, i) => (
          <button key={says} type="button" className="button" onClick={answer(i)}>
            {says}
          </button>
        ))}
        <button type="button" className="button" onClick={answer()}>
          {offer.putAway}
        </button>
      </span>
    </p>
  );
}

/** How far something long is, and the way to stop it. */
function BusyLine({ session }: { readonly session: Session }) {
  const busy = useSyncExternalStore(session.state.watch, () => session.state.value.busy);
  if (busy === undefined) return null;
  return (
    <p className="offer" role="status">
      <label className="busy">
        {busy.says} <progress value={busy.done} />
      </label>
      <button type="button" className="button" onClick={() => session.stop()}>
        Stop (Esc)
      </button>
    </p>
  );
}

/** Undo, redo and finding anywhere but in a text field or a dialog, whose own they are. */
function useKeys(
  session: Session,
  onTool: (tool: Tool) => void,
  onPage: (page: PageName) => void,
  inWorkbook: boolean,
): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const open = document.querySelector('dialog[open]') !== null;
      if (event.key === 'Escape' && session.state.value.busy !== undefined) {
        event.preventDefault();
        session.stop();
        return;
      }
      // Heard wherever the focus is: right after a turn it is on its way into the next sheet.
      if (event.altKey && !open && (event.key === 'PageDown' || event.key === 'PageUp')) {
        event.preventDefault();
        session.turnSheet(event.key === 'PageDown' ? 1 : -1);
        return;
      }
      if (event.key === 'F6' && !open) {
        event.preventDefault();
        turnRegion(session, event.shiftKey ? -1 : 1);
        return;
      }
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (
        event.target instanceof Element &&
        event.target.closest('input, textarea, select, dialog')
      ) {
        return;
      }
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) session.undo();
      else if (key === 'f') onTool('find');
      else if (key === 'h') onTool('replace');
      // Elsewhere the browser prints what is seen: pages of paper, the bench list, the drawing.
      else if (key === 'p' && inWorkbook) onPage('print');
      else if (key === 'y' || (key === 'z' && event.shiftKey)) session.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [session, onTool, onPage, inWorkbook]);
}
