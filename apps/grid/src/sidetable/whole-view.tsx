import {
  bookFormat,
  buildScene,
  DEFAULT_EYE,
  drawWhole,
  type Eye,
  type Part,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { type PointerEvent, useMemo, useRef, useState } from 'react';

import { Picture } from './picture.tsx';

interface WholeViewProps {
  readonly book: OpenWorkbook;
  readonly parts: readonly Part[];
  /** px */
  readonly width: number;
}

/** Degrees the furniture turns for each pixel the pointer is dragged, and for each press of an arrow. */
const PER_PIXEL = 0.5;
const PER_PRESS = 10;
/** Degrees above the horizon: from level to straight down. */
const LOW = 0;
const HIGH = 90;

/** The whole in parallel projection, turned by dragging or with the arrows. */
export function WholeView({ book, parts, width }: WholeViewProps) {
  const [eye, setEye] = useState<Eye>(DEFAULT_EYE);
  const [apart, setApart] = useState(false);
  const from = useRef<{ readonly x: number; readonly y: number; readonly eye: Eye } | undefined>(
    undefined,
  );
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
  if (svg === undefined) return null;
  const turn = (start: Eye, across: number, up: number): void => {
    const azimuth = (((start.azimuth + across) % 360) + 360) % 360;
    setEye({ azimuth, elevation: Math.max(LOW, Math.min(HIGH, start.elevation + up)) });
  };
  const drag = (event: PointerEvent): void => {
    const start = from.current;
    if (start === undefined) return;
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
        role="slider"
        tabIndex={0}
        aria-label="The whole, turned by dragging or with the arrow keys"
        aria-valuemin={0}
        aria-valuemax={360}
        aria-valuenow={Math.round(eye.azimuth)}
        aria-valuetext={`turned ${Math.round(eye.azimuth)} degrees, seen from ${Math.round(eye.elevation)} degrees above`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          from.current = { x: event.clientX, y: event.clientY, eye };
        }}
        onPointerMove={drag}
        onPointerUp={() => {
          from.current = undefined;
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
