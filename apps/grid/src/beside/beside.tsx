import type { At, OpenWorkbook } from '@kerfbook/workbook';
import {
  memo,
  Suspense,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { afterGrid } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import { wordsFor } from '../session/called.ts';
import type { Editing, Session } from '../session/session.ts';
import type { BesideProps } from './beside-body.tsx';
import type { DidLineProps } from './did-line.tsx';
import type { Seen } from './seen.ts';
import { checksSummary, StateIcon, worstState } from './state-icon.tsx';
import type { WelcomeProps } from './welcome.tsx';
import './beside.css';

// Their places are kept from the start; what stands in them comes when the grid is there.
const BesideBody = later<BesideProps>(() => afterGrid.then(() => import('./beside-body.tsx')));
const DidLine = later<DidLineProps>(() =>
  afterGrid.then(async () => ({ default: (await import('./did-line.tsx')).DidLine })),
);
const Welcome = later<WelcomeProps>(() =>
  afterGrid.then(async () => ({ default: (await import('./welcome.tsx')).Welcome })),
);
const DrawingFold = later<DrawingPaneProps>(() =>
  afterGrid.then(async () => ({ default: (await import('./drawing-fold.tsx')).DrawingFold })),
);

export interface DrawingPaneProps {
  readonly session: Session;
  readonly seen: Seen;
  /** The current cell. */
  readonly at: At | undefined;
  /** What is being written, where it may be the place of a part. */
  readonly writing: Editing | undefined;
  /** Stable between renders: it takes the maker to a cell. */
  readonly onGo: (at: At) => void;
}

/** The drawing, in sight together with the numbers at any size of the screen. */
export const DrawingPane = memo(function DrawingPane(props: DrawingPaneProps) {
  return (
    <section className="drawing-pane" aria-label="Drawing" tabIndex={-1}>
      <Suspense fallback={<p className="drawing-coming quiet">Loading the drawing …</p>}>
        <DrawingFold {...props} />
      </Suspense>
    </section>
  );
});

/** What a change did, the current cell and the checks. On a narrow screen a handle slides them up. */
export const Beside = memo(function Beside(props: BesideProps) {
  const [raised, setRaised] = useState(false);
  const body = useId();
  const scroller = useRef<HTMLDivElement>(null);
  const { state, id } = props.session;
  const asked = useSyncExternalStore(state.watch, () => state.value.check);
  useEffect(() => {
    if (asked !== undefined) setRaised(true);
  }, [asked]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another workbook is told of from its top.
  useLayoutEffect(() => {
    if (scroller.current !== null) scroller.current.scrollTop = 0;
  }, [id]);
  const checks = props.seen.book.checks();
  const result = firstResult(props.seen.book);
  const worst = worstState(checks.map(({ state }) => state));
  return (
    <aside className="beside" aria-label="Beside the grid" tabIndex={-1} data-raised={raised}>
      {raised ? null : (
        <Suspense fallback={null}>
          <Welcome session={props.session} store={props.store} />
          <DidLine session={props.session} onOpen={() => setRaised(true)} />
        </Suspense>
      )}
      <button
        type="button"
        className="beside-handle"
        aria-expanded={raised}
        aria-controls={body}
        onClick={() => setRaised(!raised)}
      >
        <span className="beside-handle-words">Changes, this cell, checks</span>
        {result === undefined ? null : <span className="beside-result">{result}</span>}
        {worst === undefined ? null : <StateIcon state={worst} />}
        <span className="quiet">{checksSummary(checks)}</span>
      </button>
      <div ref={scroller} id={body} className="beside-body">
        <Suspense fallback={null}>
          <BesideBody {...props} />
        </Suspense>
      </div>
    </aside>
  );
});

/** The result that matters most, with what it is called: on a small screen its cell is seldom in sight. */
function firstResult(book: OpenWorkbook): string | undefined {
  const [name = ''] = book.results;
  const at = book.find(name);
  if (at === undefined) return undefined;
  return `${wordsFor(at, book) ?? name} ${book.cell(at).shown.text}`;
}
