import { loadLazy } from '@kerfbook/workbook';
import { useEffect } from 'react';
import { afterGrid } from '../page/after-grid.ts';
import { takeJoinCode } from '../page/join-code.ts';
import { servedByClub } from '../page/served-by-club.ts';
import type { Session } from '../session/session.ts';

/** The parts of the engine that come after the grid; formulas that waited for them are shown anew. */
export function useParts(session: Session): void {
  useEffect(() => {
    let here = true;
    const bring = (): void => {
      loadLazy().then(
        () => {
          if (here && session.book.lacks) session.recalculate('parts');
        },
        // Cells that need them say so; they are tried for again as soon as there is a network.
        () => window.addEventListener('online', bring, { once: true }),
      );
    };
    void afterGrid.then(bring);
    return () => {
      here = false;
      window.removeEventListener('online', bring);
    };
  }, [session]);
}

/** Turns to the shelf where a link into the club is put into the address of a page that is open. */
export function useJoinCode(onShelf: () => void): void {
  useEffect(() => {
    if (!servedByClub) return;
    const look = (): void => {
      if (takeJoinCode()) onShelf();
    };
    addEventListener('hashchange', look);
    return () => removeEventListener('hashchange', look);
  }, [onShelf]);
}

/** A benchmark reaches the session through the page; only where the address asks for it. */
export function useBench(session: Session): void {
  useEffect(() => {
    if (!new URLSearchParams(window.location.search).has('bench')) return;
    Object.assign(window, { kerfbook: { session } });
  }, [session]);
}
