import type { BookStore } from '@kerfbook/keeping';
import { type PointerEvent, useEffect, useRef, useState } from 'react';

const KEY = 'drawing-share';
/** The drawing's share of the width in percent: least, most, at first, and for each press of an arrow. */
const LEAST = 25;
const MOST = 70;
const FIRST = 32;
const STEP = 4;

const within = (share: number): number => Math.round(Math.min(MOST, Math.max(LEAST, share)));

/** Between the grid and the drawing on a tablet: dragged, or moved with the arrows; kept on this device. */
export function ShareBar({ store }: { readonly store: Pick<BookStore, 'get' | 'set'> }) {
  const bar = useRef<HTMLDivElement>(null);
  const [share, setShare] = useState(FIRST);
  useEffect(() => {
    store.get(KEY).then(
      (kept) => {
        if (typeof kept === 'number') setShare(within(kept));
      },
      () => undefined,
    );
  }, [store]);
  useEffect(() => {
    bar.current?.closest<HTMLElement>('.table')?.style.setProperty('--drawing-share', `${share}%`);
  }, [share]);
  const keep = (next: number): void => {
    const chosen = within(next);
    setShare(chosen);
    // A convenience: where it cannot be kept, nothing is lost worth a sentence.
    store.set(KEY, chosen).catch(() => undefined);
  };
  const drag = (event: PointerEvent): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = bar.current?.closest('.table')?.getBoundingClientRect();
    if (box !== undefined) keep(((box.right - event.clientX) / box.width) * 100);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a separator that is moved has no element of its own.
    <div
      ref={bar}
      className="share-bar"
      role="separator"
      tabIndex={0}
      aria-label="Width of the drawing"
      aria-orientation="vertical"
      aria-valuemin={LEAST}
      aria-valuemax={MOST}
      aria-valuenow={share}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={drag}
      onKeyDown={(event) => {
        const by = { ArrowLeft: STEP, ArrowRight: -STEP }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        keep(share + by);
      }}
    />
  );
}
