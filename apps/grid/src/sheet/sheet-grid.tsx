import { memo, useLayoutEffect, useRef } from 'react';
import type { Session } from '../session/session.ts';
import { Board } from './board.ts';
import './sheet.css';

interface SheetGridProps {
  readonly session: Session;
  readonly sheet: string;
}

/** The cells of one sheet, in a grid that React leaves alone. */
export const SheetGrid = memo(function SheetGrid({ session, sheet }: SheetGridProps) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (host.current === null) return undefined;
    const board = new Board(host.current, session, sheet);
    return () => board.destroy();
  }, [session, sheet]);
  return <div className="sheet-grid" ref={host} />;
});
