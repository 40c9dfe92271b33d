import type { Bookcase } from '@kerfbook/keeping';
import { leaveAsIs, leftAsIs } from '@kerfbook/keeping/shelf';
import type { ShopFigure } from '@kerfbook/workbook';
import { useEffect, useState, useSyncExternalStore } from 'react';
import { shopSeen } from '../page/shop-seen.ts';
import type { Session } from '../session/session.ts';
import { shopNews, signed } from './shop-news.ts';

interface ShopLineProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onLook: () => void;
}

/** Over the grid, when a workbook was opened: that it has figures otherwise than the shop. */
export function ShopLine({ session, bookcase, onLook }: ShopLineProps) {
  const [told, setTold] = useState<{
    readonly session: Session;
    readonly figures: readonly ShopFigure[];
  }>();
  const seen = useSyncExternalStore(shopSeen.watch, () => shopSeen.value);
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at again once something of it was taken or left
  useEffect(() => {
    let here = true;
    setTold(undefined);
    // What cannot be read is said where one asks for it.
    shopNews(session, bookcase).then(
      (figures) => {
        if (here && session.mayChange && figures.length > 0) setTold({ session, figures });
      },
      () => undefined,
    );
    return () => {
      here = false;
    };
  }, [session, bookcase, seen]);
  if (told?.session !== session) return null;
  const { figures } = told;
  const keep = async (): Promise<void> => {
    setTold(undefined);
    session.focusGrid();
    const left = await leftAsIs(bookcase);
    await leaveAsIs(bookcase, [...left, ...figures.map(signed)]);
  };
  const one = figures.length === 1;
  return (
    <p className="offer" role="status">
      <span>
        {one
          ? '1 of your shop’s figures differs here.'
          : `${figures.length} of your shop’s figures differ here.`}
      </span>
      <span className="actions">
        <button
          type="button"
          className="button"
          onClick={() => {
            setTold(undefined);
            onLook();
          }}
        >
          {one ? 'Look at it' : 'Look at them'}
        </button>
        <button type="button" className="button" onClick={() => void keep().catch(() => undefined)}>
          {one ? 'Keep mine' : 'Keep these'}
        </button>
      </span>
    </p>
  );
}
