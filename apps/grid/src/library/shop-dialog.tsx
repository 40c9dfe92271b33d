import { type Bookcase, breath, writeTrouble } from '@kerfbook/keeping';
import { leaveAsIs, makeShops, type ShopsBook, shopsBook } from '@kerfbook/keeping/shelf';
import {
  SHOP_KINDS,
  type ShopFigure,
  type ShopKind,
  ShopOffer,
  type Which,
} from '@kerfbook/workbook';
import { useCallback, useEffect, useMemo, useState } from 'react';
import type { Showing } from '../page/activity.ts';
import { shopLooked } from '../page/shop-seen.ts';
import { dayText } from '../paper/page-head.ts';
import type { Session } from '../session/session.ts';
import { useChoosing } from './choosing.tsx';
import { Dialog } from './dialog.tsx';
import { counted } from './kinds.ts';
import { type MetLine, MetList, type MetWords } from './met-list.tsx';
import { Outcome } from './outcome.tsx';
import { signed } from './shop-news.ts';

interface ShopDialogProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onShow: (showing: Showing) => void;
  readonly onClose: () => void;
}

/** How things stand between the workbook at hand and that of the shop. */
type Looked =
  | { readonly is: 'none' }
  | { readonly is: 'this' }
  | { readonly is: 'trouble'; readonly says: string }
  | { readonly is: 'another'; readonly shop: ShopsBook; readonly offer: ShopOffer };

/** What belongs to the shop: which workbook has it, and what of it the one at hand has otherwise. */
export default function ShopDialog(props: ShopDialogProps) {
  const { session, bookcase, onShow, onClose } = props;
  const [looked, setLooked] = useState<Looked>();
  const [says, setSays] = useState<string>();
  const look = useCallback(
    () => lookAt(session, bookcase).catch((error: unknown) => trouble(writeTrouble(error))),
    [session, bookcase],
  );
  useEffect(() => {
    let here = true;
    void look().then((found) => {
      if (here) setLooked(found);
    });
    return () => {
      here = false;
    };
  }, [look]);
  const make = async (id: string | undefined): Promise<void> => {
    await bookcase.fold();
    const done = await makeShops(bookcase, id);
    setSays(done.ok ? undefined : done.says);
    if (!done.ok) return;
    shopLooked();
    setLooked(await look());
  };
  return (
    <Dialog title="My shop" onClose={onClose}>
      {looked === undefined ? <p className="quiet">Looking at your shop’s workbook …</p> : null}
      {looked?.is === 'trouble' ? <p className="complaint">{looked.says}</p> : null}
      {looked?.is === 'none' ? (
        <>
          <p>
            What belongs to your shop and not to one piece of furniture is kept in one of your
            workbooks: your hourly rate and hours, your saw’s kerf and your machines, what your yard
            asks, your own woods, screws and finishes, the boards on your rack. You change it there,
            once.
          </p>
          <p>
            Every other workbook keeps the figures it has. Where your shop’s differ, it says so when
            you open it, and you see what each does before you take it.
          </p>
          <p className="actions">
            <button
              type="button"
              className="button button-main"
              onClick={() => void make(bookcase.current.id)}
            >
              Make this my shop’s workbook
            </button>
            <button type="button" className="button" onClick={() => onShow('workbooks')}>
              Choose another one
            </button>
          </p>
        </>
      ) : null}
      {looked?.is === 'this' ? (
        <>
          <p>
            This is your shop’s workbook. What you change here is offered to each of your other
            workbooks when you open it.
          </p>
          <p className="actions">
            <button type="button" className="button" onClick={() => void make(undefined)}>
              No longer my shop’s workbook
            </button>
          </p>
        </>
      ) : null}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {looked?.is === 'another' ? <Found {...props} {...looked} /> : null}
    </Dialog>
  );
}

const trouble = (says: string): Looked => ({ is: 'trouble', says });

async function lookAt(session: Session, bookcase: Bookcase): Promise<Looked> {
  const shop = await shopsBook(bookcase);
  if (shop === undefined) return { is: 'none' };
  if ('says' in shop) return trouble(shop.says);
  if (shop.id === bookcase.current.id) return { is: 'this' };
  // Two workbooks are worked out: the dialog is seen before that.
  await breath();
  const made = ShopOffer.of(session.settled().document(), shop.document);
  return made.ok ? { is: 'another', shop, offer: made.offer } : trouble(made.says);
}

interface FoundProps extends ShopDialogProps {
  readonly shop: ShopsBook;
  readonly offer: ShopOffer;
}

function Found({ session, bookcase, shop, offer, onClose }: FoundProps) {
  const { figures } = offer;
  const lines = useMemo(() => figures.map(lineOf), [figures]);
  const { choices, choose, many, showAll, weighings, now } = useChoosing(offer, lines);
  const [says, setSays] = useState<string>();
  const taken = figures.filter(({ key }) => choices.get(key) === 'theirs');
  const refused = session.mayChange ? undefined : VIEW_ONLY;
  const leave = async (left: readonly ShopFigure[]): Promise<void> => {
    await leaveAsIs(bookcase, left.map(signed)).catch(() => undefined);
    shopLooked();
    onClose();
  };
  const take = async (): Promise<void> => {
    const done = offer.take(choices);
    if (!done.ok) return setSays(done.says);
    const said = `Took ${counted(taken.length, 'figure')} from your shop’s workbook "${shop.title}".`;
    const result = session.apply(done.edit, said);
    if (!result.ok) return setSays(result.says);
    await leave(figures.filter((one) => !taken.includes(one)));
  };
  const all = (which: Which) => () =>
    choose(
      figures.map(({ key }) => key),
      which,
    );
  const kinds = new Set(figures.map(({ kind }) => kind));
  return (
    <>
      <p>{summary(figures.length, shop.title)}</p>
      <Aside session={session} shop={shop} offer={offer} />
      {refused === undefined ? null : <p className="complaint">{refused}</p>}
      {figures.length === 0 ? null : (
        <>
          {kinds.size < 2 ? null : (
            <p className="actions">
              <button type="button" className="button" onClick={all('theirs')}>
                Choose all {figures.length} of your shop’s
              </button>
              <button type="button" className="button" onClick={all('mine')}>
                Choose none
              </button>
            </p>
          )}
          <section className="renewal-part" aria-label="What differs">
            <MetList
              met={lines}
              words={WORDS}
              choices={choices}
              onChoose={choose}
              each={weighings.each}
              many={many}
              onMore={showAll}
            />
          </section>
          <Outcome now={now} weighings={weighings} />
        </>
      )}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="actions renewal-end">
        {refused === undefined && figures.length > 0 ? (
          <>
            <button
              type="button"
              className="button button-main"
              disabled={taken.length === 0}
              onClick={() => void take()}
            >
              Take {counted(taken.length, 'figure')}
            </button>
            <button type="button" className="button" onClick={() => void leave(figures)}>
              Keep all as they are here
            </button>
          </>
        ) : null}
        <button type="button" className="button" onClick={onClose}>
          {figures.length > 0 ? 'Cancel' : 'Close'}
        </button>
      </p>
    </>
  );
}

function summary(many: number, title: string): string {
  if (many === 0)
    return `This workbook has nothing otherwise than your shop’s workbook "${title}".`;
  return `Your shop’s workbook "${title}" has ${counted(many, 'figure')} that this one has otherwise or lacks. Nothing changes until you take it. What you leave as it is here is not offered again until your shop has something else.`;
}

/** What is not compared, or not offered, and why. */
function Aside({ session, shop, offer }: Pick<FoundProps, 'session' | 'shop' | 'offer'>) {
  const { agreed } = session.book.head;
  const held = offer.withheld.length;
  const { currency = 'USD' } = shop.document;
  return (
    <>
      {agreed === undefined || held === 0 ? null : (
        <p>
          {`The price was agreed on ${dayText(new Date(`${agreed}T00:00:00`))}: ${
            held === 1
              ? '1 figure that would change an amount is'
              : `${held} figures that would change an amount are`
          } not offered.`}
        </p>
      )}
      {offer.otherMoney ? (
        <p>{`Your shop’s workbook counts in ${currency} and this one in ${session.book.currency}: amounts of money are not compared.`}</p>
      ) : null}
    </>
  );
}

const VIEW_ONLY = 'View only: this workbook is open elsewhere. Close it there to change it here.';

const HEADS: Readonly<Record<ShopKind, string>> = {
  figure: 'Rates, machines and times',
  price: 'Prices of woods',
  own: 'Own woods, screws and finishes',
  rack: 'Boards on the rack',
  letterhead: 'Letterhead and terms',
};

const WORDS: MetWords = {
  kinds: SHOP_KINDS.map((kind) => [kind, HEADS[kind]]),
  mine: 'This workbook',
  theirs: 'Your shop',
  keepAll: (many) => `Keep all ${many} as they are`,
  takeAll: (many) => `Take all ${many} of your shop’s`,
};

function lineOf({ key, kind, sheet, what, mine, shops, take }: ShopFigure): MetLine {
  const none = take.do === 'add' ? 'not here' : '';
  const side = (entry: string) => ({ entry, comes: '' });
  return { key, kind, sheet, what, mine: side(mine === '' ? none : mine), theirs: side(shops) };
}
