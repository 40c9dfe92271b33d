import { figureProblems, type Plan, readPlan } from '@kerfbook/guide';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import type { Session } from '../session/session.ts';
import { HandOut } from './hand-out.tsx';
import { PhotosRoom } from './photos-room.tsx';
import { ProblemList } from './problem-list.tsx';
import { ReadersRoom } from './readers-room.tsx';
import { StepsRoom, type Wanted } from './steps-room.tsx';
import { stepsTable } from './steps-table.ts';
import './guide.css';

interface GuidePageProps {
  readonly session: Session;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
}

/** What is being done about the plan: one of these is on. */
type Room = 'steps' | 'readers' | 'photos' | 'preview';

const ROOMS: readonly (readonly [room: Room, says: string])[] = [
  ['steps', 'Steps'],
  ['readers', 'For readers'],
  ['photos', 'Photographs'],
  ['preview', 'Hand out'],
];

/** What the rooms of the page are given of the workbook as it stands. */
export interface Seen {
  readonly session: Session;
  readonly book: OpenWorkbook;
  readonly plan: Plan;
  /** Another number as soon as something of the workbook changed. */
  readonly changes: number;
}

/** The plan that others build from: its steps, what readers get of it, and handing it out. */
export default function GuidePage({ session, onGo }: GuidePageProps) {
  const { book } = session;
  useDrawingStyle();
  const { changes } = useSessionBehind(session);
  const read = useMemo(
    (): Seen => ({ session, book, plan: readPlan(book), changes }),
    [session, book, changes],
  );
  const undrawn = useUndrawn(read);
  const seen = useMemo((): Seen => {
    if (undrawn.length === 0) return read;
    // A plan reads what it is asked for: spread out, it would have nothing.
    const { found, steps, parts, problems, translation, inSecond } = read.plan;
    const told = [...problems, ...undrawn];
    return { ...read, plan: { found, steps, parts, problems: told, translation, inSecond } };
  }, [read, undrawn]);
  const table = useMemo(() => stepsTable(seen.book, seen.plan), [seen]);
  const [room, setRoom] = useState<Room>('steps');
  const [wanted, setWanted] = useState<Wanted>();
  const { plan } = seen;
  const toProblem = (at: At): void => {
    const isStep = table?.rows.some(({ row }) => row === at.row) === true;
    if (table === undefined || at.sheet !== table.sheet || !isStep) {
      onGo(at);
      return;
    }
    const head = [...table.columns].find(([, column]) => column === at.column)?.[0];
    setRoom('steps');
    setWanted({ row: at.row, head: head ?? 'step' });
  };
  return (
    <section className="plan-page" aria-label="Plan for others">
      <div className="plan-bar">
        <div className="plan-rooms" role="toolbar" aria-label="Parts of the plan">
          {ROOMS.map(([one, says]) => (
            <button
              key={one}
              type="button"
              className="button"
              aria-pressed={one === room}
              onClick={() => setRoom(one)}
            >
              {says}
            </button>
          ))}
        </div>
        {plan.found ? <ProblemList book={book} plan={plan} onGo={toProblem} /> : null}
      </div>
      <RefusedHere session={session} />
      {room === 'steps' ? (
        table === undefined ? (
          <div className="plan-nothing">
            <p className="quiet">
              This workbook has no steps yet. Written down, they become a plan that follows every
              size its readers choose.
            </p>
            <StartTable session={session} kind="steps" here />
          </div>
        ) : (
          <StepsRoom
            seen={seen}
            table={table}
            wanted={wanted}
            onWanted={setWanted}
            onGo={onGo}
            onPhotos={() => setRoom('photos')}
          />
        )
      ) : null}
      {room === 'readers' ? <ReadersRoom seen={seen} onGo={onGo} /> : null}
      {room === 'photos' ? <PhotosRoom seen={seen} table={table} /> : null}
      {room === 'preview' ? <HandOut seen={seen} onGo={onGo} /> : null}
    </section>
  );
}

/** A pause after which all figures are tried, ms: drawing hundreds of them is no part of an entry. */
const PAUSE = 500;

const NONE: Plan['problems'] = [];

/** Figures that steps ask for and that cannot be drawn at this size; told once nothing was changed for a moment. */
function useUndrawn({ book, plan }: Seen): Plan['problems'] {
  const [found, setFound] = useState(NONE);
  useEffect(() => {
    const later = setTimeout(() => {
      const now = figureProblems(book, plan);
      setFound(now.length === 0 ? NONE : now);
    }, PAUSE);
    return () => clearTimeout(later);
  }, [book, plan]);
  return found;
}

/** Why the last change was not taken: beside the grid nobody sees it from here. */
function RefusedHere({ session }: { readonly session: Session }) {
  const says = useSyncExternalStore(session.state.watch, () => session.state.value.refused);
  if (says === undefined) return null;
  return (
    <p className="plan-refused" role="alert">
      <span>{says}</span>
      <button type="button" className="button" onClick={() => session.hush()}>
        Dismiss
      </button>
    </p>
  );
}
