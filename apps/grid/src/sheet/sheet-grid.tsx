import { memo, useLayoutEffect, useRef, useSyncExternalStore } from 'react';
import { isPhone, onTurned } from '../session/on-screen.ts';
import type { Session } from '../session/session.ts';
import { Board } from './board.ts';
import './sheet.css';
import './words.css';
import './hands.css';

interface SheetGridProps {
  readonly session: Session;
  readonly sheet: string;
}

/** The cells of one sheet, in a grid that React leaves alone. */
export const SheetGrid = memo(function SheetGrid({ session, sheet }: SheetGridProps) {
  const host = useRef<HTMLDivElement>(null);
  const phone = useSyncExternalStore(onTurned, isPhone);
  // On a screen that was turned other columns are pinned.
  useLayoutEffect(() => {
    if (host.current === null) return undefined;
    const board = new Board(host.current, session, sheet);
    return () => {
      // Turning the screen takes the cell's editor away, and no half of an entry is taken: the line goes on writing.
      if (isPhone() !== phone && session.editing?.from === 'cell') session.toLine();
      board.destroy();
    };
  }, [session, sheet, phone]);
  return <div className="sheet-grid" ref={host} />;
});
