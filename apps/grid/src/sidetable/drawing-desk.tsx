import { bookFormat, drawDxf, drawViews, type View } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import { Picture } from '../pictures/picture.tsx';
import { seasonsOf } from '../shop/words.ts';
import { download } from '../storage/download.ts';

interface DrawingDeskProps {
  readonly book: OpenWorkbook;
  readonly onClose: () => void;
}

const VIEWS: readonly (readonly [view: View, says: string])[] = [
  ['plan', 'From above'],
  ['front', 'From the side'],
  ['end', 'From the end'],
];

/** One view at a time, large: nearer, farther, moved about, with the seasons' movement; and as files. */
export default function DrawingDesk({ book, onClose }: DrawingDeskProps) {
  const [view, setView] = useState<View>('plan');
  const [seasons, setSeasons] = useState(false);
  const movement = seasonsOf(book);
  const drawing = useMemo(
    () =>
      drawViews(book, {
        views: VIEWS.map(([one]) => one),
        format: bookFormat(book),
        panel: { width: 1000, height: 640 },
        ...(seasons && movement !== undefined ? { movement } : {}),
      }),
    [book, seasons, movement],
  );
  const svg = drawing.svg[view];
  const save = (ending: 'svg' | 'dxf'): void => {
    const options = { views: VIEWS.map(([one]) => one), format: bookFormat(book) };
    const text =
      ending === 'dxf'
        ? drawDxf(book, { ...options, whole: {} }).dxf
        : drawViews(book, { ...options, standalone: true }).svg[view];
    if (text !== undefined) download(`${fileStem(book.title)}.${ending}`, text);
  };
  return (
    <Dialog title="Drawing" onClose={onClose}>
      <p className="actions">
        {VIEWS.map(([one, says]) => (
          <button
            key={one}
            type="button"
            className="button"
            aria-pressed={view === one}
            onClick={() => setView(one)}
          >
            {says}
          </button>
        ))}
        {movement === undefined ? null : (
          <label className="desk-tick">
            <input
              type="checkbox"
              checked={seasons}
              onChange={(event) => setSeasons(event.target.checked)}
            />{' '}
            Movement over the seasons
          </label>
        )}
        <button type="button" className="button" onClick={() => save('svg')}>
          Save as SVG
        </button>
        <button type="button" className="button" onClick={() => save('dxf')}>
          Save as DXF
        </button>
      </p>
      {svg === undefined ? <p>{drawing.says}</p> : <NearAndFar key={view} svg={svg} />}
    </Dialog>
  );
}

const fileStem = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'drawing';

interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const NEAREST = 12;
const STEP = 1.25;
/** Pixels that an arrow moves the picture. */
const NUDGE = 40;

const NEARER: Readonly<Record<string, number>> = { '+': STEP, '=': STEP, '-': 1 / STEP };
const WAYS: Readonly<Record<string, readonly [across: number, down: number]>> = {
  ArrowLeft: [NUDGE, 0],
  ArrowRight: [-NUDGE, 0],
  ArrowUp: [0, NUDGE],
  ArrowDown: [0, -NUDGE],
};

/** A picture that is brought nearer with the wheel, two fingers or keys, and moved by dragging. */
function NearAndFar({ svg }: { readonly svg: string }) {
  const holder = useRef<HTMLDivElement>(null);
  const whole = useMemo(() => frameOf(svg), [svg]);
  const [frame, setFrame] = useState(whole);
  const fingers = useRef(new Map<number, { x: number; y: number }>());
  useLayoutEffect(() => {
    const { x, y, width, height } = frame;
    holder.current?.querySelector('svg')?.setAttribute('viewBox', `${x} ${y} ${width} ${height}`);
  });
  const zoom = (by: number, at?: { readonly clientX: number; readonly clientY: number }): void => {
    const box = holder.current?.getBoundingClientRect();
    const share =
      box === undefined || at === undefined
        ? { x: 0.5, y: 0.5 }
        : { x: (at.clientX - box.left) / box.width, y: (at.clientY - box.top) / box.height };
    setFrame((now) => {
      const width = Math.min(whole.width, Math.max(whole.width / NEAREST, now.width / by));
      const height = (width / whole.width) * whole.height;
      return {
        x: now.x + (now.width - width) * share.x,
        y: now.y + (now.height - height) * share.y,
        width,
        height,
      };
    });
  };
  const move = (across: number, down: number): void => {
    const box = holder.current?.getBoundingClientRect();
    if (box === undefined) return;
    setFrame((now) => ({
      ...now,
      x: now.x - (across / box.width) * now.width,
      y: now.y - (down / box.height) * now.height,
    }));
  };
  return (
    <>
      <div
        ref={holder}
        className="near-and-far"
        role="slider"
        tabIndex={0}
        aria-label="The drawing: plus and minus bring it nearer and farther, arrows move it"
        aria-valuemin={100}
        aria-valuemax={NEAREST * 100}
        aria-valuenow={Math.round((whole.width / frame.width) * 100)}
        onWheel={(event) => zoom(event.deltaY < 0 ? STEP : 1 / STEP, event)}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
        }}
        onPointerMove={(event) => {
          const was = fingers.current.get(event.pointerId);
          if (was === undefined) return;
          const now = { x: event.clientX, y: event.clientY };
          const [other] = [...fingers.current].filter(([id]) => id !== event.pointerId);
          fingers.current.set(event.pointerId, now);
          if (other === undefined) {
            move(now.x - was.x, now.y - was.y);
            return;
          }
          const [, still] = other;
          const [before, after] = [was, now].map(({ x, y }) =>
            Math.hypot(x - still.x, y - still.y),
          );
          if (before !== undefined && after !== undefined && before > 0)
            zoom(after / before, event);
        }}
        onPointerUp={(event) => fingers.current.delete(event.pointerId)}
        onPointerCancel={(event) => fingers.current.delete(event.pointerId)}
        onKeyDown={(event) => {
          const nearer = NEARER[event.key];
          const way = WAYS[event.key];
          if (nearer !== undefined) zoom(nearer);
          else if (way !== undefined) move(way[0], way[1]);
          else if (event.key === '0') setFrame(whole);
          else return;
          event.preventDefault();
        }}
      >
        <Picture svg={svg} />
      </div>
      <p className="actions">
        <button type="button" className="button" onClick={() => zoom(STEP)}>
          Nearer
        </button>
        <button type="button" className="button" onClick={() => zoom(1 / STEP)}>
          Farther
        </button>
        <button type="button" className="button" onClick={() => setFrame(whole)}>
          All of it
        </button>
      </p>
    </>
  );
}

function frameOf(svg: string): Frame {
  const [x = 0, y = 0, width = 1, height = 1] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '')
    .split(' ')
    .map(Number);
  return { x, y, width, height };
}
