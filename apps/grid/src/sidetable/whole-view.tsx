import {
  bookFormat,
  buildScene,
  DEFAULT_EYE,
  drawWhole,
  type Eye,
  type Part,
} from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { type PointerEvent, useEffect, useMemo, useRef, useState } from 'react';
import { Picture } from '../pictures/picture.tsx';
import { highlightCurrent, placeOfPiece } from './chosen-piece.ts';

interface WholeViewProps {
  readonly book: OpenWorkbook;
  readonly parts: readonly Part[];
  /** px */
  readonly width: number;
  /** The current cell: pieces of its row are highlighted. */
  readonly at: At | undefined;
  readonly onGo: (at: At) => void;
}

/** Degrees the furniture turns for each pixel the pointer is dragged, and for each press of an arrow. */
const PER_PIXEL = 0.5;
const PER_PRESS = 10;
/** Pixels a press may slip and still be a press. */
const SLIP = 4;
/** Degrees above the horizon: from level to straight down. */
const LOW = 0;
const HIGH = 90;

/** The whole in parallel projection, turned by dragging or with the arrows. */
export function WholeView({ book, parts, width, at, onGo }: WholeViewProps) {
  const [eye, setEye] = useState<Eye>(DEFAULT_EYE);
  const [apart, setApart] = useState(false);
  const from = useRef<{ readonly x: number; readonly y: number; readonly eye: Eye } | undefined>(
    undefined,
  );
  const dragged = useRef(false);
  const picture = useRef<HTMLDivElement>(null);
  const scene = useMemo(() => buildScene(parts), [parts]);
  const svg = useMemo(
    () =>
      drawWhole(scene, {
        format: bookFormat(book),
        eye,
        exploded: apart,
        steady: true,
        panel: { width, height: Math.round(width * 0.55) },
      }),
    [scene, book, eye, apart, width],
  );
  useEffect(() => {
    // The picture is looked at as well: a new one starts with nothing highlighted.
    if (svg !== undefined) highlightCurrent(picture.current, at);
  }, [svg, at]);
  if (svg === undefined) return null;
  const turn = (start: Eye, across: number, up: number): void => {
    const azimuth = (((start.azimuth + across) % 360) + 360) % 360;
    setEye({ azimuth, elevation: Math.max(LOW, Math.min(HIGH, start.elevation + up)) });
  };
  const drag = (event: PointerEvent): void => {
    const start = from.current;
    if (start === undefined) return;
    if (Math.hypot(event.clientX - start.x, event.clientY - start.y) > SLIP) dragged.current = true;
    const across = (event.clientX - start.x) * -PER_PIXEL;
    turn(start.eye, across, (event.clientY - start.y) * PER_PIXEL);
  };
  const steps: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [PER_PRESS, 0],
    ArrowRight: [-PER_PRESS, 0],
    ArrowUp: [0, PER_PRESS],
    ArrowDown: [0, -PER_PRESS],
  };
  return (
    <figure className="whole-view">
      <div
        className="whole-turn"
        ref={picture}
        role="slider"
        tabIndex={0}
        aria-label="The whole, turned by dragging or with the arrow keys"
        aria-valuemin={0}
        aria-valuemax={360}
        aria-valuenow={Math.round(eye.azimuth)}
        aria-valuetext={`turned ${Math.round(eye.azimuth)} degrees, seen from ${Math.round(eye.elevation)} degrees above`}
        onPointerDown={(event) => {
          dragged.current = false;
          from.current = { x: event.clientX, y: event.clientY, eye };
        }}
        onPointerMove={(event) => {
          drag(event);
          // Taken hold of only once it is dragged: a press goes to the piece under it.
          if (dragged.current) event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerUp={() => {
          from.current = undefined;
        }}
        onPointerLeave={() => {
          if (!dragged.current) from.current = undefined;
        }}
        onClick={(event) => {
          if (dragged.current) return;
          const place = placeOfPiece(event.target);
          if (place !== undefined) onGo(place);
        }}
        onPointerCancel={() => {
          from.current = undefined;
        }}
        onKeyDown={(event) => {
          const step = steps[event.key];
          if (step === undefined) return;
          event.preventDefault();
          turn(eye, step[0], step[1]);
        }}
      >
        <Picture svg={svg} />
      </div>
      <figcaption>
        <label>
          <input
            type="checkbox"
            checked={apart}
            onChange={(event) => setApart(event.target.checked)}
          />{' '}
          Moved apart
        </label>
        <button type="button" className="button-plain" onClick={() => setEye(DEFAULT_EYE)}>
          As it was
        </button>
      </figcaption>
    </figure>
  );
}
