import {
  bookFormat,
  type Offcut,
  offcutsOf,
  SHORTEST_KEPT,
  type ShopPlan,
} from '@kerfbook/drawing';
import { type Bookcase, writeTrouble } from '@kerfbook/keeping';
import { changeShops, keepRacked, racked, shopsBook } from '@kerfbook/keeping/shelf';
import { beginRack, type Edit, type RackBoards, rackEdit } from '@kerfbook/workbook';
import { useEffect, useState } from 'react';
import { shopLooked } from '../page/shop-seen.ts';
import type { Session } from '../session/session.ts';

interface RackOffcutsProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly plan: NonNullable<ShopPlan['plan']>;
}

/** Whose rack it is, as far as the workbook at hand has one to put offcuts on. */
type Rack =
  | { readonly is: 'none' }
  | { readonly is: 'this' }
  | { readonly is: 'trouble'; readonly says: string }
  | { readonly is: 'there'; readonly title: string };

/** Once all is cut: what remains goes on the shop's rack by a press, and what was taken from it comes off. */
export default function RackOffcuts({ session, bookcase, plan }: RackOffcutsProps) {
  const [rack, setRack] = useState<Rack>();
  const [was, setWas] = useState<string>();
  const [back, setBack] = useState<readonly Edit[]>();
  const [says, setSays] = useState<string>();
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    let here = true;
    const look = async (): Promise<void> => {
      const [found, before] = await Promise.all([rackOf(bookcase), racked(bookcase)]);
      if (!here) return;
      setRack(found);
      setWas(typeof before === 'string' ? before : undefined);
    };
    look().catch((error: unknown) => {
      if (here) setRack({ is: 'trouble', says: writeTrouble(error) });
    });
    return () => {
      here = false;
    };
  }, [bookcase]);
  const offcuts = offcutsOf(plan);
  if (rack === undefined || offcuts.length === 0) return null;
  const { book } = session;
  const sign = JSON.stringify(offcuts);
  const many = offcuts.reduce((sum, { count }) => sum + count, 0);
  const isThere = was === sign;
  const change = async (
    makers: Parameters<typeof changeShops>[1],
    then: string | undefined,
  ): Promise<void> => {
    setBusy(true);
    const done = await changeShops(bookcase, makers);
    setBusy(false);
    if (!done.ok) return setSays(done.says);
    setSays(undefined);
    setBack(then === undefined ? undefined : done.back);
    setWas(then);
    await keepRacked(bookcase, then).catch(() => undefined);
    shopLooked();
  };
  const put = () =>
    change(
      [
        beginRack,
        (shop) => rackEdit(shop, { comes: offcuts.map(called(book.title)), goes: takenOff(plan) }),
      ],
      sign,
    );
  return (
    <section className="bench-rack" aria-label="Offcuts">
      <p>{remain(offcuts, many, bookFormat(book))}</p>
      {rack.is === 'none' || rack.is === 'this' ? <p className="quiet">{WHY[rack.is]}</p> : null}
      {rack.is === 'trouble' ? <p className="complaint">{rack.says}</p> : null}
      {rack.is === 'there' && !isThere ? (
        <p className="actions">
          <button type="button" className="button" disabled={busy} onClick={() => void put()}>
            {many === 1 ? 'Put the offcut on the rack' : 'Put the offcuts on the rack'}
          </button>
        </p>
      ) : null}
      {rack.is === 'there' && isThere ? (
        <p className="actions" role="status">
          {`On the rack of "${rack.title}".`}{' '}
          {back === undefined ? null : (
            <button
              type="button"
              className="button"
              disabled={busy}
              onClick={() =>
                void change(
                  back.map((edit) => () => edit),
                  undefined,
                )
              }
            >
              Undo
            </button>
          )}
        </p>
      ) : null}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
    </section>
  );
}

async function rackOf(bookcase: Bookcase): Promise<Rack> {
  const shop = await shopsBook(bookcase);
  if (shop === undefined) return { is: 'none' };
  if ('says' in shop) return { is: 'trouble', says: shop.says };
  return shop.id === bookcase.current.id ? { is: 'this' } : { is: 'there', title: shop.title };
}

const WHY = {
  none: 'The rack is kept in your shop’s workbook (menu, My shop). In this one they would count as boards for the same job and change its price.',
  this: 'This is your shop’s workbook: type them into its stock table, with price 0 and how many are at hand.',
} as const;

function remain(offcuts: readonly Offcut[], many: number, write: (mm: number) => string): string {
  const [longest] = offcuts;
  const from = write(SHORTEST_KEPT);
  if (longest === undefined) return '';
  const sizes = `${write(longest.thickness)} × ${write(longest.width)} × ${write(longest.length)}`;
  return many === 1
    ? `1 offcut of ${from} and longer remains: ${sizes}.`
    : `${many} offcuts of ${from} and longer remain, the longest ${sizes}.`;
}

const called =
  (title: string) =>
  (offcut: Offcut): RackBoards => ({ ...offcut, name: `Offcut of ${title}` });

/** Boards of the plan that were at hand: where they lay on the rack, they are cut up now. */
function takenOff({ groups }: RackOffcutsProps['plan']): readonly RackBoards[] {
  return groups.flatMap(({ buy }) =>
    buy.flatMap(({ stock: { name, material, thickness, width, length, atHand }, count }) =>
      atHand === undefined ? [] : [{ name, material, thickness, width, length, count }],
    ),
  );
}
