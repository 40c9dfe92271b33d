import type { Eye } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { type PointerEvent, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { Picture } from '../pictures/picture.tsx';
import { highlightCurrent, placeOfPiece } from './chosen-piece.ts';
import { FIT, moved, STEP, viewBoxOf, type Zoom, zoomed } from './zoom.ts';

/** What the buttons beside the pictures do to each of them. */
export interface StageHandle {
  zoom(by: number): void;
  fit(): void;
}

interface StageProps {
  /** As its caption says it: "Top", "3D". */
  readonly name: string;
  readonly svg: string;
  /** Pieces of this cell's row are marked. */
  readonly at: At | undefined;
  /** True: the wheel zooms by itself; else only with Ctrl or Command, as the column scrolls. */
  readonly freeWheel: boolean;
  readonly stages: Set<StageHandle>;
  readonly onPress: (at: At) => void;
  /** Left out for flat views, which are moved where the 3D view is turned. */
  readonly turning?: { readonly eye: Eye; readonly onTurn: (eye: Eye) => void };
}

/** Degrees for each pixel the pointer is dragged, and for each press of an arrow. */
const PER_PIXEL = 0.5;
const PER_PRESS = 10;
/** Pixels a press may slip and still be a press. */
const SLIP = 4;
/** Degrees above level: down to the feet, and straight down. */
const LOW = 0;
const HIGH = 90;
/** Share of what is in sight that an arrow moves. */
const NUDGE = 0.1;

const BY_KEY: Readonly<Record<string, number>> = { '+': STEP, '=': STEP, '-': 1 / STEP };
const WAYS: Readonly<Record<string, readonly [across: number, up: number]>> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

interface Finger {
  readonly x: number;
  readonly y: number;
}

/** One picture: zoomed with the wheel, two fingers or keys; dragged to turn or move; pieces pressed. */
export function Stage(props: StageProps) {
  const { name, svg, at, freeWheel, stages, onPress, turning } = props;
  const holder = useRef<HTMLDivElement>(null);
  const [zoom, setZoom] = useState(FIT);
  const fingers = useRef(new Map<number, Finger>());
  const start = useRef<{ readonly at: Finger; readonly eye: Eye | undefined } | undefined>(
    undefined,
  );
  const dragged = useRef(false);
  useLayoutEffect(() => {
    holder.current?.querySelector('svg')?.setAttribute('viewBox', viewBoxOf(svg, zoom));
  }, [svg, zoom]);
  useEffect(() => {
    // The picture is looked at as well: a new one starts with nothing marked.
    if (svg !== '') highlightCurrent(holder.current, at);
  }, [svg, at]);
  useEffect(() => {
    const handle: StageHandle = {
      zoom: (by) => setZoom((now) => zoomed(now, by)),
      fit: () => setZoom(FIT),
    };
    stages.add(handle);
    return () => {
      stages.delete(handle);
    };
  }, [stages]);
  useEffect(() => {
    // React hears the wheel too late to keep the page from scrolling.
    const element = holder.current;
    const turnWheel = (event: WheelEvent): void => {
      if (!freeWheel && !event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const spot = spotIn(element, event);
      setZoom((now) => zoomed(now, event.deltaY < 0 ? STEP : 1 / STEP, spot));
    };
    element?.addEventListener('wheel', turnWheel, { passive: false });
    return () => element?.removeEventListener('wheel', turnWheel);
  }, [freeWheel]);

  const turn = (eye: Eye, across: number, up: number): void =>
    turning?.onTurn({
      azimuth: (((eye.azimuth + across) % 360) + 360) % 360,
      elevation: Math.max(LOW, Math.min(HIGH, eye.elevation + up)),
    });
  const move = (across: number, down: number): void => {
    const box = holder.current?.getBoundingClientRect();
    if (box === undefined || box.width === 0 || box.height === 0) return;
    setZoom((now) => moved(now, across / box.width, down / box.height));
  };
  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    const was = fingers.current.get(event.pointerId);
    const from = start.current;
    if (was === undefined || from === undefined) return;
    const now = { x: event.clientX, y: event.clientY };
    const [still] = [...fingers.current].filter(([id]) => id !== event.pointerId);
    if (!dragged.current && far(now, from.at) <= SLIP) return;
    // Taken hold of only once it is dragged: a press goes to the piece under it.
    if (!dragged.current) event.currentTarget.setPointerCapture(event.pointerId);
    dragged.current = true;
    fingers.current.set(event.pointerId, now);
    if (still !== undefined) {
      const [before, after] = [far(was, still[1]), far(now, still[1])];
      const spot = spotIn(holder.current, event);
      if (before > 0) setZoom((old) => zoomed(old, after / before, spot));
      move((now.x - was.x) / 2, (now.y - was.y) / 2);
    } else if (from.eye === undefined || event.shiftKey) move(now.x - was.x, now.y - was.y);
    else turn(from.eye, (from.at.x - now.x) * PER_PIXEL, (now.y - from.at.y) * PER_PIXEL);
  };
  const lift = (event: PointerEvent<HTMLDivElement>): void => {
    fingers.current.delete(event.pointerId);
    // What the other finger does from here on begins here.
    const [rest] = fingers.current.values();
    start.current = rest === undefined ? undefined : { at: rest, eye: turning?.eye };
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: it is no set of fields, and has keys of its own.
    <div
      ref={holder}
      className="stage"
      role="group"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: keys zoom, move and turn it.
      tabIndex={0}
      aria-label={`${name}: ${turning === undefined ? 'arrows move it' : 'arrows turn it, with Shift they move it'}, plus and minus zoom, 0 fits`}
      data-turns={turning !== undefined}
      data-zoomed={zoom.times > 1}
      onPointerDown={(event) => {
        const finger = { x: event.clientX, y: event.clientY };
        if (fingers.current.size === 0) dragged.current = false;
        fingers.current.set(event.pointerId, finger);
        start.current = { at: finger, eye: turning?.eye };
      }}
      onPointerMove={drag}
      onPointerUp={lift}
      onPointerCancel={lift}
      onPointerLeave={(event) => {
        if (!dragged.current) lift(event);
      }}
      onClick={(event) => {
        const place = dragged.current ? undefined : placeOfPiece(event.target);
        if (place !== undefined) onPress(place);
      }}
      onKeyDown={(event) => {
        const by = BY_KEY[event.key];
        const way = WAYS[event.key];
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        if (by !== undefined) setZoom((now) => zoomed(now, by));
        else if (event.key === '0') setZoom(FIT);
        else if (way !== undefined && turning !== undefined && !event.shiftKey)
          turn(turning.eye, way[0] * PER_PRESS, way[1] * PER_PRESS);
        else if (way !== undefined)
          setZoom((now: Zoom) => moved(now, way[0] * NUDGE, way[1] * NUDGE));
        else return;
        event.preventDefault();
      }}
    >
      <Picture svg={svg} />
    </div>
  );
}

const far = (one: Finger, other: Finger): number => Math.hypot(one.x - other.x, one.y - other.y);

/** Where a pointer is in a picture, as shares of it. */
function spotIn(
  element: HTMLElement | null,
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
): { x: number; y: number } {
  const box = element?.getBoundingClientRect();
  if (box === undefined || box.width === 0 || box.height === 0) return { x: 0.5, y: 0.5 };
  return { x: (clientX - box.left) / box.width, y: (clientY - box.top) / box.height };
}
