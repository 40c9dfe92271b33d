import { readParts } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { useMemo, useRef, useState } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { ChosenPart } from './chosen-part.tsx';
import { NoteList } from './note-list.tsx';
import { drawnOf, notesOf, partAt } from './notes.ts';
import { PieceTable } from './piece-list.tsx';
import { saveDrawing } from './save-drawing.ts';
import { useShown } from './shown.ts';
import type { StageHandle } from './stage.tsx';
import { ViewTools } from './view-tools.tsx';
import { Views } from './views.tsx';

interface DrawingPageProps {
  readonly session: Session;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
  /** Turns to the workbook once a table is started there. */
  readonly onStarted: () => void;
}

/** The drawing with the whole window to itself: a piece is chosen, named, and leads to its row. */
export default function DrawingPage({ session, onGo, onStarted }: DrawingPageProps) {
  const { at, changes } = useSessionBehind(session);
  const { book } = session;
  // The open workbook changes within: what it says is read anew at every change.
  const reading = useMemo(() => (changes < 0 ? undefined : readParts(book)), [book, changes]);
  const [shown, show] = useShown(book);
  const [chosen, setChosen] = useState<At>(at);
  const stages = useRef(new Set<StageHandle>());
  const notes = useMemo(
    () => (reading === undefined ? [] : notesOf(book, reading)),
    [book, reading],
  );
  const drawn = useMemo(() => (reading === undefined ? undefined : drawnOf(reading)), [reading]);
  if (reading === undefined || drawn === undefined) return null;
  const { parts } = reading;
  const { parts: drawnParts, says } = drawn;
  const save = (ending: 'svg' | 'dxf') => (): void => {
    if (drawnParts !== undefined) saveDrawing(book, drawnParts, shown, ending);
  };
  return (
    <section className="drawing-page" aria-label="Drawing">
      {drawnParts !== undefined ? (
        <>
          <div className="view-bar">
            <ViewTools book={book} shown={shown} stages={stages.current} onShow={show} large />
            <span className="actions drawing-saves">
              <span className="saves-as" aria-hidden="true">
                Save as
              </span>
              <button
                type="button"
                className="button"
                aria-label="Save as SVG"
                onClick={save('svg')}
              >
                <span className="save-as">Save as </span>SVG
              </button>
              <button
                type="button"
                className="button"
                aria-label="Save as DXF"
                onClick={save('dxf')}
              >
                <span className="save-as">Save as </span>DXF
              </button>
            </span>
          </div>
          <Views
            book={book}
            parts={drawnParts}
            shown={shown}
            large
            at={chosen}
            stages={stages.current}
            onShow={show}
            onPress={setChosen}
          />
        </>
      ) : (
        <div className="nothing-drawn">
          <p className="quiet">{says}</p>
          {reading.found ? null : (
            <StartTable session={session} kind="parts" onStarted={onStarted} />
          )}
        </div>
      )}
      <div className="drawing-aside">
        {drawnParts === undefined || says === undefined ? null : <p className="quiet">{says}</p>}
        {parts.length === 0 ? null : (
          <>
            <ChosenPart
              book={book}
              parts={drawnParts ?? parts}
              part={partAt(parts, chosen)}
              onGo={onGo}
            />
            <PieceTable book={book} parts={parts} chosen={chosen} onChoose={setChosen} />
          </>
        )}
        <NoteList book={book} notes={notes} onGo={onGo} />
      </div>
    </section>
  );
}
