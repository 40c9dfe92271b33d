import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** Shown smaller than this, the letters of a page are to be guessed at: it can be shown larger. */
const SMALL = 0.7;
/** Shown so large, all of a page can be read at arm's length. */
const READABLE = 0.85;
/** Steps of the size, so that a page is never a hair wider than its room. */
const STEPS = 200;
const PX_PER_MM = 96 / 25.4;

/** How large pages are shown; what is printed stays as it is. */
export interface Fit {
  /** Of what the pages lie on. */
  readonly desk: RefObject<HTMLElement | null>;
  readonly zoom: number;
  /** Shown larger than the room is wide; undefined where a whole page across can be read. */
  readonly near?: boolean;
  readonly turn: () => void;
}

/**
 * Shows a whole page across, whatever the screen. Where that makes it too small to be read, it can be shown larger,
 * and stays at the place that was looked at.
 * @param width of a page, mm
 */
export function useFit(width: number): Fit {
  const desk = useRef<HTMLElement>(null);
  const [whole, setWhole] = useState(1);
  const [near, setNear] = useState(false);
  const seen = useRef<number>(undefined);
  useLayoutEffect(() => {
    const element = desk.current;
    if (element === null || typeof ResizeObserver === 'undefined') return undefined;
    const measure = (): void => {
      const { paddingLeft, paddingRight } = getComputedStyle(element);
      const room =
        element.clientWidth - Number.parseFloat(paddingLeft) - Number.parseFloat(paddingRight);
      if (room <= 0) return;
      setWhole(Math.min(1, Math.floor((room / (width * PX_PER_MM)) * STEPS) / STEPS));
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, [width]);
  const small = whole < SMALL;
  const zoom = small && near ? READABLE : whole;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the size that moves the pages.
  useLayoutEffect(() => {
    const element = desk.current;
    if (element === null || seen.current === undefined) return;
    element.scrollTop = seen.current * element.scrollHeight;
    seen.current = undefined;
  }, [zoom]);
  return {
    desk,
    zoom,
    ...(small ? { near } : {}),
    turn: () => {
      const { scrollTop = 0, scrollHeight = 1 } = desk.current ?? {};
      seen.current = scrollTop / scrollHeight;
      setNear(!near);
    },
  };
}
