import {
  bookFormat,
  buildScene,
  drawFlat,
  drawWhole,
  type Eye,
  type Part,
  type Scene,
  type View,
} from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { seasonsOf } from '../shop/words.ts';
import { type Arrangement, arrange, sizesFor } from './arrange.ts';
import { framed } from './frame.ts';
import { homeEye, type Shown } from './shown.ts';
import { Stage, type StageHandle } from './stage.tsx';
import './drawing.css';

/** A workbook's drawing as it is to be shown. */
export interface Pictures {
  /** SVG texts by what they show. */
  readonly svg: ReadonlyMap<string, string>;
  /** Where the 3D view is looked at from. */
  readonly eye: Eye;
}

interface PicturesOptions {
  readonly shown: Shown;
  readonly arranged: Arrangement;
  readonly standalone?: boolean;
}

const scenes = new WeakMap<readonly Part[], Scene>();

/** The pieces of parts, put in their places once for all steps of a turn. */
function sceneOf(parts: readonly Part[]): Scene {
  const scene = scenes.get(parts) ?? buildScene(parts);
  scenes.set(parts, scene);
  return scene;
}

/** Draws what is shown; the flat views at one scale. */
export function drawShown(
  book: OpenWorkbook,
  parts: readonly Part[],
  { shown, arranged, standalone = false }: PicturesOptions,
): Pictures {
  const format = bookFormat(book);
  const { exploded, seasons } = shown;
  const movement = seasons ? seasonsOf(book) : undefined;
  const views = arranged.pictures.filter((one): one is View => one !== '3d');
  const scene = sceneOf(parts);
  const flat = drawFlat(scene, book.units, {
    views,
    format,
    standalone,
    panel: arranged.flat,
    sizes: standalone ? 'all' : sizesFor(arranged),
    ...(movement === undefined ? {} : { movement }),
  });
  const texts = Object.values(flat);
  const inFrames = standalone ? texts : framed(texts, arranged.flat, arranged.name !== 'one');
  const svg = new Map<string, string>(
    Object.keys(flat).map((view, i) => [view, inFrames[i] ?? '']),
  );
  const eye = shown.eye ?? homeEye(book, scene, exploded);
  if (arranged.pictures.includes('3d')) {
    const panel = arranged.solid;
    const solid = drawWhole(scene, {
      format,
      eye,
      exploded,
      panel,
      standalone,
      steady: true,
      unseen: !standalone,
    });
    if (solid !== undefined) svg.set('3d', solid);
  }
  return { svg, eye };
}

interface ViewsProps {
  readonly book: OpenWorkbook;
  readonly parts: readonly Part[];
  readonly shown: Shown;
  readonly large: boolean;
  readonly at: At | undefined;
  readonly stages: Set<StageHandle>;
  readonly onShow: (next: Shown) => void;
  readonly onPress: (at: At) => void;
}

const FIRST = { width: 352, height: 300 };
/** Steps of the size, so that dragging a window's edge does not draw at every pixel. */
const STEP = 4;

const NAMES = { plan: 'Top', front: 'Front', end: 'End', '3d': '3D' } as const;

/** The pictures that were asked for, in the room there is. */
export function Views({ book, parts, shown, large, at, stages, onShow, onPress }: ViewsProps) {
  const holder = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState(FIRST);
  useDrawingStyle();
  useLayoutEffect(() => {
    const element = holder.current;
    if (element === null || typeof ResizeObserver === 'undefined') return undefined;
    const watch = new ResizeObserver(([entry]) => {
      const { width = 0, height = 0 } = entry?.contentRect ?? {};
      const whole = (px: number): number => Math.max(STEP, Math.floor(px / STEP) * STEP);
      if (width > 0 && height > 0) setRoom({ width: whole(width), height: whole(height) });
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  const arranged = useMemo(() => arrange(shown.choice, room, large), [shown.choice, room, large]);
  const { svg, eye } = useMemo(
    () => drawShown(book, parts, { shown, arranged }),
    [book, parts, shown, arranged],
  );
  return (
    <div ref={holder} className={`drawing drawing-${arranged.name}`}>
      {arranged.pictures.map((one) => {
        const text = svg.get(one);
        if (text === undefined) return null;
        const solid = one === '3d';
        return (
          <Stage
            key={one}
            name={NAMES[one]}
            svg={text}
            at={at}
            freeWheel={large}
            stages={stages}
            onPress={onPress}
            {...(solid
              ? { turning: { eye, onTurn: (next) => onShow({ ...shown, eye: next }) } }
              : {})}
          />
        );
      })}
    </div>
  );
}
