import {
  keyOfCell,
  type PartsReading,
  partsPlaced,
  partTroubles,
  readParts,
} from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { NoteList } from '../drawing/note-list.tsx';
import { drawnOf, notesOf } from '../drawing/notes.ts';
import { PieceChoice } from '../drawing/piece-list.tsx';
import { oneOf, useShown } from '../drawing/shown.ts';
import type { StageHandle } from '../drawing/stage.tsx';
import { ViewTools } from '../drawing/view-tools.tsx';
import { Views } from '../drawing/views.tsx';
import { isPhone, onTurned } from '../session/on-screen.ts';
import { type Editing, type Session, same } from '../session/session.ts';
import type { DrawingPaneProps } from './beside.tsx';
import type { Seen } from './seen.ts';

/** The furniture as the parts table has it now, in 3D and to scale; a piece leads to its row and back. */
export function DrawingFold({ session, seen, at, writing, onGo }: DrawingPaneProps) {
  const { book } = seen;
  const { reading, stored } = useReading(session, seen, writing);
  useEffect(() => {
    const troubles = partTroubles(seen.book, stored);
    session.setPartTroubles(new Map(troubles.map((one) => [keyOfCell(one.at), one])));
  }, [session, seen, stored]);
  const notes = useMemo(() => notesOf(seen.book, reading), [seen, reading]);
  const [asked, show] = useShown(book);
  // A phone has no room for several: each would be too small to be read.
  const oneAtATime = useSyncExternalStore(onTurned, isPhone);
  const shown = oneAtATime ? oneOf(asked) : asked;
  const stages = useRef(new Set<StageHandle>());
  const { parts, says } = useMemo(() => drawnOf(reading), [reading]);
  return (
    <div className="drawing-fold">
      {parts !== undefined ? (
        <>
          <ViewTools
            book={book}
            shown={shown}
            stages={stages.current}
            onShow={show}
            oneAtATime={oneAtATime}
            large={false}
          >
            <PieceChoice parts={reading.parts} chosen={at} onChoose={onGo} />
          </ViewTools>
          <Views
            book={book}
            parts={parts}
            shown={shown}
            large={false}
            at={at}
            stages={stages.current}
            onShow={show}
            onPress={onGo}
          />
          {says === undefined ? null : <p className="quiet side-by-side">{says}</p>}
        </>
      ) : (
        <div className="nothing-drawn">
          <p className="quiet">{says}</p>
          {reading.found ? null : <StartTable session={session} kind="parts" />}
        </div>
      )}
      <NoteList book={book} notes={notes} onGo={onGo} />
    </div>
  );
}

/**
 * The parts as they stand, and with the place that is being written as far as it can be read: between two of its words the drawing
 * stays as it was last.
 */
function useReading(
  session: Session,
  seen: Seen,
  writing: Editing | undefined,
): { readonly reading: PartsReading; readonly stored: PartsReading } {
  const stored = useWhole(session, seen);
  const typed = useMemo(
    () => writing && partsPlaced(seen.book, writing.at, writing.text),
    [seen, writing],
  );
  const last = useRef<{ readonly at: At; readonly reading: PartsReading }>(undefined);
  if (writing === undefined) last.current = undefined;
  else if (typed !== undefined) last.current = { at: writing.at, reading: typed };
  else if (last.current !== undefined && !same(last.current.at, writing.at)) {
    last.current = undefined;
  }
  return { reading: last.current?.reading ?? stored, stored };
}

/**
 * The parts with all that follows from the last change. Halfway through it they would be of two tables, so that one
 * runs into the other: what was drawn before stands until then, unless rows or columns moved, or frames follow a pull.
 */
function useWhole(session: Session, seen: Seen): PartsReading {
  const drawn = useRef<{
    readonly book: Seen['book'];
    readonly structures: number;
    readonly reading: PartsReading;
  }>(undefined);
  return useMemo(() => {
    const { book } = seen;
    const { structures, pulling } = session.state.value;
    const last = drawn.current;
    const stands = last?.book === book && last.structures === structures;
    if (book.pending && pulling === undefined && stands) return last.reading;
    const reading = readParts(book);
    drawn.current = { book, structures, reading };
    return reading;
  }, [session, seen]);
}
