import type { ShopPlan } from '@kerfbook/drawing';
import { StartTable } from '../commands/start-table.tsx';
import type { Session } from '../session/session.ts';
import './shop.css';

/** Whether a workbook has no piece to cut, nor one that only cannot be read. */
export const hasNothingToCut = ({ list, unread }: Pick<ShopPlan, 'list' | 'unread'>): boolean =>
  list.items.length === 0 && unread.length === 0;

interface NothingToCutProps {
  readonly session: Session;
  readonly shop: Pick<ShopPlan, 'missing'>;
  /** Turns to the workbook once a table is started there. */
  readonly onStarted: () => void;
}

/** Said where there is nothing to cut yet, with what begins it: what else is missing is asked for later. */
export function NothingToCut({ session, shop, onStarted }: NothingToCutProps) {
  const lacksParts = shop.missing.some(({ kind }) => kind === 'parts');
  return (
    <p className="shop-nothing">
      There is no parts table with anything to cut yet.{' '}
      {lacksParts ? <StartTable session={session} kind="parts" onStarted={onStarted} /> : null}
    </p>
  );
}
