import type { At } from '@kerfbook/workbook';
import {
  lazy,
  Suspense,
  useCallback,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from 'react';
import { BookFoot } from '../library/book-foot.tsx';
import { Notices } from '../library/notices.tsx';
import { useBookcase } from '../library/use-bookcase.ts';
import { SelectionLine } from '../selection/selection-line.tsx';
import { Session } from '../session.ts';
import { SheetGrid } from '../sheet/sheet-grid.tsx';
import { SideTable } from '../sidetable/side-table.tsx';
import type { Bookcase } from '../storage/bookcase.ts';
import { Boundary } from './boundary.tsx';
import { FormulaLine } from './formula-line.tsx';
import { SheetList } from './sheet-list.tsx';
import { useSessionBehind } from './use-session.ts';

/** Loaded when it is first asked for. */
const Functions = lazy(() => import('../reference/functions.tsx'));

/** The whole app on one workbook; another workbook is another session. */
export function App({ bookcase }: { readonly bookcase: Bookcase }) {
  const { current } = useBookcase(bookcase);
  const session = useMemo(
    () =>
      new Session({
        book: current.book,
        mayChange: current.access === 'write',
        record: (edit) => bookcase.record(edit),
      }),
    [current, bookcase],
  );
  const behind = useSessionBehind(session);
  const sheet = useSyncExternalStore(session.state.watch, () => session.state.value.at.sheet);
  const { at, changes, told } = behind;
  const { book } = session;
  // The open workbook changes within; a new object tells the side table to look again.
  const seen = useMemo(() => ({ book, changes }), [book, changes]);
  const { title } = book;
  useEffect(() => {
    document.title = `${title} · Kerfbook`;
  }, [title]);
  useKeys(session);
  useBench(session);
  // The function being looked up, or any; undefined while the reference is closed.
  const [lookUp, setLookUp] = useState<{ readonly start?: string | undefined }>();
  const readFunction = useCallback((start?: string) => setLookUp({ start }), []);
  const go = useCallback((to: At) => session.go(to), [session]);
  const goSheet = useCallback((sheet: string) => session.goSheet(sheet), [session]);
  const lift = useCallback(
    ({ sheet, row, column }: At) => session.apply({ do: 'lift', sheet, cells: [{ row, column }] }),
    [session],
  );
  return (
    <div className="table">
      <header className="table-side">
        <SheetList session={session} />
        <BookFoot bookcase={bookcase} apply={session.apply} onFunctions={() => readFunction()} />
      </header>
      <main className="table-main">
        <h1 className="visually-hidden">{title}</h1>
        <Notices bookcase={bookcase} />
        <FormulaLine key={session.id} session={session} />
        <Refused session={session} />
        <Boundary what="The grid">
          <SheetGrid key={`${session.id} ${sheet}`} session={session} sheet={sheet} />
        </Boundary>
        <SelectionLine session={session} state={behind} />
        <p className="visually-hidden" role="status" aria-live="polite">
          {told}
        </p>
      </main>
      <Boundary what="The side table">
        <SideTable
          seen={seen}
          at={at}
          mayChange={session.mayChange}
          store={bookcase.store}
          onGo={go}
          onGoSheet={goSheet}
          onLift={lift}
          onFunction={readFunction}
        />
      </Boundary>
      {lookUp === undefined ? null : (
        <Suspense fallback={null}>
          <Functions
            book={book}
            mayChange={session.mayChange}
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

/** Why the last entry was not taken. */
function Refused({ session }: { readonly session: Session }) {
  const says = useSyncExternalStore(session.state.watch, () => session.state.value.refused);
  if (says === undefined) return null;
  return (
    <p className="refused" role="alert">
      <span>{says}</span>
      <button type="button" className="button" onClick={() => session.hush()}>
        Put away
      </button>
    </p>
  );
}

/** Undo and redo anywhere but in a text field or a dialog, whose own they are. */
function useKeys(session: Session): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (
        event.target instanceof Element &&
        event.target.closest('input, textarea, select, dialog')
      ) {
        return;
      }
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) session.undo();
      else if (key === 'y' || (key === 'z' && event.shiftKey)) session.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [session]);
}

/** A benchmark reaches the session through the page; only where the address asks for it. */
function useBench(session: Session): void {
  useEffect(() => {
    if (!new URLSearchParams(window.location.search).has('bench')) return;
    Object.assign(window, { kerfbook: { session } });
  }, [session]);
}
