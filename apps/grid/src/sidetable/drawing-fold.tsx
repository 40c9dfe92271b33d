import {
  bookFormat,
  buildScene,
  type Drawing,
  drawViews,
  findClashes,
  type Part,
  type PartProblem,
  readParts,
} from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import {
  type RefObject,
  Suspense,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';

import { later } from '../page/later.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { Picture } from '../pictures/picture.tsx';
import { highlightCurrent, placeOfPiece } from './chosen-piece.ts';
import { GoTo } from './go-to.tsx';
import type { Seen } from './seen.ts';
import { WholeView } from './whole-view.tsx';

const DrawingDesk = later(() => import('./drawing-desk.tsx'));

interface DrawingFoldProps {
  readonly seen: Seen;
  readonly at: At | undefined;
  readonly onGo: (at: At) => void;
}

const VIEWS = ['plan', 'front'] as const;

/** The furniture from above and from the side, to scale, as the parts table has it now. */
export function DrawingFold({ seen, at, onGo }: DrawingFoldProps) {
  const holder = useRef<HTMLDivElement>(null);
  const width = useWidth(holder);
  const drawing = useMemo(() => draw(seen.book, width), [seen, width]);
  const parts = useMemo(() => readParts(seen.book).parts, [seen]);
  const notes = useMemo(() => clashNotes(seen.book, parts), [seen, parts]);
  const [large, setLarge] = useState(false);
  useDrawingStyle();
  useChoosing(holder, onGo);
  useEffect(() => {
    // The drawing is looked at as well: a new one starts with nothing highlighted.
    if (drawing !== undefined) highlightCurrent(holder.current, at);
  }, [at, drawing]);

  return (
    <>
      <div ref={holder} className="drawing">
        {VIEWS.map((view) => {
          const svg = drawing.svg[view];
          return svg === undefined ? null : <Picture key={view} svg={svg} />;
        })}
      </div>
      {drawing.says === undefined ? (
        <>
          <WholeView book={seen.book} parts={parts} width={width} at={at} onGo={onGo} />
          <p className="actions">
            <button type="button" className="button" onClick={() => setLarge(true)}>
              Larger
            </button>
          </p>
        </>
      ) : null}
      {large ? (
        <Suspense fallback={null}>
          <DrawingDesk book={seen.book} onClose={() => setLarge(false)} />
        </Suspense>
      ) : null}
      {drawing.says === undefined ? null : <p className="quiet">{drawing.says}</p>}
      <ul className="sentences">
        {[...drawing.problems, ...notes].map(({ at: place, says }) => (
          <li key={`${place.sheet}:${place.row}:${place.column}:${says}`}>
            {says} <GoTo book={seen.book} at={place} onGo={onGo} />
          </li>
        ))}
      </ul>
    </>
  );
}

/** Parts that run into each other, and parts that touch nothing. */
function clashNotes(book: OpenWorkbook, parts: readonly Part[]): readonly PartProblem[] {
  const { overlaps, floating } = findClashes(buildScene(parts), { format: bookFormat(book) });
  return [...overlaps, ...floating];
}

/** Both views at one scale, each in the width it has. */
export function draw(book: OpenWorkbook, width: number): Drawing {
  const panel = { width, height: Math.round(width * 0.8) };
  return drawViews(book, { views: VIEWS, format: bookFormat(book), panel });
}

const FIRST_WIDTH = 340;
/** Steps of the width, so that dragging a window's edge does not draw at every pixel. */
const STEP = 20;

function useWidth(holder: RefObject<HTMLDivElement | null>): number {
  const [width, setWidth] = useState(FIRST_WIDTH);
  useLayoutEffect(() => {
    const element = holder.current;
    if (element === null || typeof ResizeObserver === 'undefined') return undefined;
    const watch = new ResizeObserver(([entry]) => {
      // Side by side on a tablet, one above the other beside the grid: the page's styles decide.
      const columns = getComputedStyle(element).gridTemplateColumns.split(' ').length;
      const room = (entry?.contentRect.width ?? 0) / columns;
      if (room > 0) setWidth(Math.max(200, Math.floor(room / STEP) * STEP));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, [holder]);
  return width;
}

/** A press on a piece goes to its row. A convenience of the pointer: keys have the grid itself. */
function useChoosing(holder: RefObject<HTMLDivElement | null>, onGo: (at: At) => void): void {
  useEffect(() => {
    const element = holder.current;
    const choose = (event: Event): void => {
      const place = placeOfPiece(event.target);
      if (place !== undefined) onGo(place);
    };
    element?.addEventListener('click', choose);
    return () => element?.removeEventListener('click', choose);
  }, [holder, onGo]);
}
