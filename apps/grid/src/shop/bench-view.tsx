import { bookFormat, shopPlan } from '@kerfbook/drawing';
import { type Bookcase, type BookStore, writeTrouble } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import { Suspense, useEffect, useMemo, useState } from 'react';
import { BenchClock } from '../days/bench-clock.tsx';
import { BenchRooms } from '../days/bench-rooms.tsx';
import { later } from '../page/later.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { type BenchPiece, benchBoards } from './bench-boards.ts';
import { CutBefore } from './bench-cut-before.tsx';
import { BoardCard, PartLine, StepLines, type Ticking } from './bench-lines.tsx';
import { benchSteps } from './bench-steps.ts';
import { LeftOutBox, ToCell } from './left-out.tsx';
import { hasNothingToCut, NothingToCut } from './nothing-to-cut.tsx';
import { reckon } from './reckoned.ts';
import { cutOf, isCut, keepTicks, readTicks, type Ticks, ticked, tickKey } from './ticks.ts';
import { ticksKept } from './ticks-kept.ts';
import { lengthUnit } from './words.ts';
import './shop.css';
import './bench.css';

const RackOffcuts = later(() => import('./rack-offcuts.tsx'));

interface BenchViewProps {
  readonly session: Session;
  readonly store: BookStore;
  /** Where the shop's rack is kept. */
  readonly bookcase?: Bookcase;
  /** Whose ticks these are. */
  readonly bookId: string;
  /** Turns to the workbook once a table is started there. */
  readonly onStarted: () => void;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
  /** Turns to the days of the job. */
  readonly onDays?: () => void;
}

type By = 'board' | 'part';

const pieceKey = ({ item, piece }: BenchPiece): string => `${tickKey(item)} | ${piece}`;

/** The cut list on a tablet at the bench: large, by board or by part, ticked off piece by piece. */
export default function BenchView(props: BenchViewProps) {
  const { session, store, bookcase, bookId, onStarted, onGo, onDays } = props;
  const { book } = session;
  const { changes } = useSessionBehind(session);
  const { kept, says, keep } = useTicks(store, bookId);
  const [by, setBy] = useState<By>('board');
  // What was cut when one asked for the rest: what is ticked after stays in sight, so that it can be taken back.
  const [hidden, setHidden] = useState<ReadonlySet<string>>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const shop = useMemo(() => shopPlan(book, 'cell'), [book, changes]);
  const write = bookFormat(book);
  const { pieces } = shop.list;
  const rowOf = (at: At): string | undefined => {
    const ids = book.idsAt(at);
    return ids === undefined ? undefined : `${ids.sheet} ${ids.row}`;
  };
  const { items, boards, without } = benchBoards(shop, write, rowOf);
  const steps = benchSteps(items, shop, write);
  const reckoned = reckon(kept ?? {}, [...items, ...steps], write);
  const { ticks, wrong } = reckoned;
  const done = items.reduce((sum, item) => sum + cutOf(ticks, item), 0);
  const isDone = (one: BenchPiece): boolean => isCut(ticks, one.item, one.piece);
  const allCut = (): ReadonlySet<string> =>
    new Set([
      ...[...items, ...steps].filter((one) => cutOf(ticks, one) >= one.count).map(tickKey),
      ...boards.filter((board) => board.pieces.every(isDone)).map(({ key }) => key),
      ...boards.flatMap((board) => board.pieces.filter(isDone).map(pieceKey)),
    ]);
  const isSeen = (key: string, whole: boolean): boolean => !(whole && hidden?.has(key) === true);
  const ticking: Ticking = {
    write,
    isDone,
    isHidden: (one) => isDone(one) && hidden?.has(pieceKey(one)) === true,
    wrong,
    tick: ({ item, piece }, cut) => keep(ticked(ticks, item, piece, cut)),
  };
  const hasBoards = boards.length > 0;
  const nothing = hasNothingToCut(shop);
  const parts = items.filter((item) => isSeen(tickKey(item), cutOf(ticks, item) >= item.count));
  const shown = boards.filter(({ key, pieces: on }) => isSeen(key, on.every(isDone)));
  // A tick made before what was ticked is known would be all that is kept.
  if (kept === undefined) return <section className="bench-view" aria-label="Bench list" />;
  return (
    <section className="bench-view" aria-label="Bench list">
      <p className="print-only">
        <strong>{book.title}</strong>
      </p>
      {onDays === undefined ? null : (
        <BenchRooms at="pieces" onPieces={() => undefined} onDays={onDays} />
      )}
      <BenchClock session={session} store={store} bookId={bookId} changes={changes} />
      {nothing ? null : (
        <header className="bench-head">
          <p className="bench-sum" aria-live="polite">
            <b>
              {done} of {pieces}
            </b>{' '}
            pieces cut, sizes in {lengthUnit(book)}
          </p>
          <div className="bench-choices">
            {hasBoards ? (
              <fieldset className="bench-by">
                <legend className="visually-hidden">Order</legend>
                {(['board', 'part'] as const).map((one) => (
                  <label key={one}>
                    <input
                      type="radio"
                      name="bench by"
                      checked={by === one}
                      onChange={() => setBy(one)}
                    />
                    {one === 'board' ? 'By board' : 'By part'}
                  </label>
                ))}
              </fieldset>
            ) : null}
            <label>
              <input
                type="checkbox"
                checked={hidden !== undefined}
                onChange={(event) => setHidden(event.target.checked ? allCut() : undefined)}
              />
              Still to cut
            </label>
          </div>
        </header>
      )}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {nothing ? null : (
        <p className="bench-caution">
          ▲ Guard and riving knife on, push sticks for narrow pieces, dust collection running.
          Measure the board before you cut it.
        </p>
      )}
      <CutBefore reckoned={reckoned} onKeep={keep} />
      <ToCell value={onGo}>
        <LeftOutBox heading="Left out: not on this list" book={book} left={shop.unread} />
        <LeftOutBox
          heading="The cutting plan has no board for it"
          book={book}
          left={shop.plan === undefined ? [] : shop.unplanned}
        />
      </ToCell>
      {nothing ? <NothingToCut session={session} shop={shop} onStarted={onStarted} /> : null}
      {pieces > 0 && done === pieces ? (
        <p className="bench-all">All {pieces} pieces are cut.</p>
      ) : null}
      {pieces > 0 && done === pieces && bookcase !== undefined && shop.plan !== undefined ? (
        <Suspense fallback={null}>
          <RackOffcuts session={session} bookcase={bookcase} plan={shop.plan} />
        </Suspense>
      ) : null}
      {hasBoards && by === 'board' ? (
        <>
          {shown.map((board) => (
            <BoardCard key={board.key} board={board} {...ticking} />
          ))}
          {without.length === 0 ? null : (
            <BoardCard
              board={{ key: 'none', says: 'No board yet', about: '', pieces: without }}
              {...ticking}
            />
          )}
        </>
      ) : (
        <ul className="bench-list">
          {parts.map((item) => (
            <PartLine
              key={tickKey(item)}
              item={item}
              hasTwin={items.some((one) => one !== item && one.name === item.name)}
              cut={cutOf(ticks, item)}
              {...ticking}
            />
          ))}
        </ul>
      )}
      <StepLines
        steps={steps.filter((one) => isSeen(tickKey(one), cutOf(ticks, one) >= one.count))}
        cutOf={(one) => cutOf(ticks, one)}
        {...ticking}
      />
      {shop.none.length === 0 ? null : (
        <p className="quiet">None wanted (count 0): {shop.none.join(', ')}.</p>
      )}
    </section>
  );
}

const NOT_LASTING =
  'Ticks are gone when this page closes: this browser does not let it store anything. Allow site data for this address and reload the page.';

/** What is ticked off, as this device keeps it; undefined until it is read. */
function useTicks(store: BookStore, bookId: string) {
  const [kept, setKept] = useState<Ticks>();
  const [says, setSays] = useState<string>();
  useEffect(() => {
    readTicks(store, bookId).then(
      (found) => {
        setKept(found);
        if (Object.keys(found).length > 0 && ticksKept.value?.book !== bookId) {
          ticksKept.set({ book: bookId });
        }
      },
      (error: unknown) => {
        setKept({});
        setSays(`What was ticked before could not be read: ${writeTrouble(error)}`);
      },
    );
  }, [store, bookId]);
  const keep = (next: Ticks): void => {
    setKept(next);
    keepTicks(store, bookId, next).then(
      () => {
        setSays(store.lasting ? undefined : NOT_LASTING);
        if (store.lasting) ticksKept.set({ book: bookId, at: Date.now() });
      },
      (error: unknown) => {
        setSays(`Not kept on this device: ${writeTrouble(error)}`);
        ticksKept.set(undefined);
      },
    );
  };
  return { kept, says, keep };
}
