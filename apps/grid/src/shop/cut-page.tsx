import type { At } from '@kerfbook/workbook';
import { type MouseEvent, type ReactNode, useMemo, useState, useSyncExternalStore } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { today } from '../commands/usual.ts';
import { useSessionBehind } from '../page/use-session.ts';
import { Flow } from '../paper/blocks.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { isPhone, onTurned } from '../session/on-screen.ts';
import type { Session } from '../session/session.ts';
import { buyingSheet } from './buying-sheet.tsx';
import { cuttingSheet } from './cutting-sheet.tsx';
import { ToCell } from './left-out.tsx';
import { rackSheet } from './rack-sheet.tsx';
import { useShopPlan } from './shop-sheets.ts';
import '../paper/paper.css';
import './shop.css';
import './cut-page.css';

/** Of the boards on a phone, where they are a third as wide as on paper. */
const PHONE_LETTERS = 32;

interface CutPageProps {
  readonly session: Session;
  /** Turns to the workbook once a table is started there. */
  readonly onStarted: () => void;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
}

/** What to buy and how to cut it, on the screen: the same as on the shop sheets, with prices. */
export default function CutPage({ session, onStarted, onGo }: CutPageProps) {
  const { book } = session;
  useDrawingStyle();
  const { changes } = useSessionBehind(session);
  const { shop, proving, open } = useShopPlan(session, changes);
  const letters = useSyncExternalStore(onTurned, isPhone) ? PHONE_LETTERS : undefined;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const parts = useMemo(() => {
    const planned = shop.plan !== undefined;
    return {
      buying: planned ? buyingSheet(book, shop, true, letters !== undefined, today()) : [],
      cutting: planned ? cuttingSheet(book, shop, true, { letters }) : [],
      rack: rackSheet(book, shop) ?? [],
    };
  }, [book, shop, changes, letters]);
  const [told, setTold] = useState<string>();
  /** A finger has no hover: what is pressed in a board is told at the foot of the page. */
  const tell = ({ target }: MouseEvent): void => {
    const cut = target instanceof Element ? target.closest('.kb-cut') : null;
    setTold(cut?.querySelector('title')?.textContent ?? undefined);
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: with keys and read out it is the list under each board.
    <section
      className="cut-page"
      aria-label="Cut and buy"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys.
      tabIndex={0}
      onClick={tell}
    >
      {shop.missing.map(({ kind, says }) => (
        <p key={kind} className="cut-says">
          {says} <StartTable session={session} kind={kind} onStarted={onStarted} />
        </p>
      ))}
      {shop.proving !== true || open === 0 ? null : (
        <p className="cut-says">
          The plan is still being proven. Use it as it is, or wait: a cheaper one may be found.{' '}
          <button type="button" className="button" onClick={() => proving.stop()}>
            Stop proving
          </button>
        </p>
      )}
      <ToCell value={onGo}>
        <Part>{parts.buying.length === 0 ? null : <Flow blocks={parts.buying} />}</Part>
        <Part>{parts.cutting.length === 0 ? null : <Flow blocks={parts.cutting} />}</Part>
        <Part>{parts.rack.length === 0 ? null : <Flow blocks={parts.rack} />}</Part>
      </ToCell>
      {told === undefined ? null : (
        <p className="cut-told" role="status">
          {told}
        </p>
      )}
    </section>
  );
}

function Part({ children }: { readonly children: ReactNode }) {
  return children === null ? null : <div className="cut-part">{children}</div>;
}
