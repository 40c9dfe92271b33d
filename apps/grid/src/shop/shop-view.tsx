import type { BookStore } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import { Suspense, useMemo, useState } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { later } from '../page/later.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import { Pages } from '../paper/blocks.tsx';
import { pageHead, unitsText } from '../paper/page-head.ts';
import { fieldSize } from '../paper/paper.ts';
import { PaperDesk, Tick, usePaper } from '../paper/paper-desk.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import type { Session } from '../session/session.ts';
import { useDaysOdds } from './days-sheet.tsx';
import { LeftOutBox, leftOutBlocks, ToCell } from './left-out.tsx';
import { hasNothingToCut, NothingToCut } from './nothing-to-cut.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';
import { ONLY_IF_ASKED, type ShopSheet, shopSheets, useShopPlan } from './shop-sheets.ts';
import './shop.css';

const CustomerDesk = later(() => import('./customer-desk.tsx'));

interface ShopViewProps {
  readonly session: Session;
  /** Where it is remembered what the customer may see. */
  readonly store: BookStore;
  readonly bookId: string;
  /** Turns to the workbook once a table is started there. */
  readonly onStarted: () => void;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
}

/** Paper for the bench and for the customer: chosen, looked at page by page, and printed. */
export default function ShopView({ session, store, bookId, onStarted, onGo }: ShopViewProps) {
  const { book } = session;
  const [page, setPage] = usePaper(book.units);
  const [forCustomer, setForCustomer] = useState(false);
  const [without, setWithout] = useState<ReadonlySet<string>>(ONLY_IF_ASKED);
  const [prices, setPrices] = useState(false);
  useDrawingStyle();
  const { changes } = useSessionBehind(session);
  const { shop, proving, open } = useShopPlan(session, changes);
  const { width, height } = fieldSize(page);
  const odds = useDaysOdds(book, changes, !forCustomer && !without.has('Days'));
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const sheets = useMemo(
    () => shopSheets({ book }, shop, prices, { width, height }, odds),
    [book, shop, prices, width, height, odds, changes],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const blocks = useMemo(() => {
    const chosen = sheets.filter((sheet) => !without.has(sheet.says)).flatMap((one) => one.blocks);
    if (chosen.length > 0) return chosen;
    return [
      titleBlock('nothing', book.title, ''),
      sentenceBlock('nothing says', 'Choose at least one sheet.'),
      ...leftOutBlocks('nothing', 'Left out', book, [...shop.unread, ...shop.unplanned]),
    ];
  }, [sheets, without, shop, book, changes]);
  const left = [...shop.unread, ...shop.unplanned];
  const hasNothing = hasNothingToCut(shop);
  const nothing = <NothingToCut session={session} shop={shop} onStarted={onStarted} />;
  const isBare = sheets.length === 0;
  const printed = sheets.filter(({ says }) => !without.has(says)).length;
  const forWhom = (
    <fieldset>
      <legend>For whom</legend>
      <Radio says="For the shop" on={!forCustomer} onChoose={() => setForCustomer(false)} />
      <Radio says="For the customer" on={forCustomer} onChoose={() => setForCustomer(true)} />
    </fieldset>
  );
  if (forCustomer) {
    return (
      <Suspense fallback={<p className="on-its-way quiet">On its way …</p>}>
        <CustomerDesk
          session={session}
          store={store}
          bookId={bookId}
          changes={changes}
          page={page}
          onPage={setPage}
          forWhom={forWhom}
          left={
            <ToCell value={onGo}>
              <LeftOutBox
                heading="Look before you print: the price may lack the wood of these"
                book={book}
                left={left}
              />
            </ToCell>
          }
          onGo={onGo}
        />
      </Suspense>
    );
  }
  return (
    <PaperDesk
      title="Shop sheets"
      page={page}
      onPage={setPage}
      isBare={printed === 0}
      chosen={
        isBare
          ? 'for the shop'
          : `for the shop, ${printed} of ${sheets.length} sheets${prices ? ', with prices' : ''}`
      }
      notes={
        <ToCell value={onGo}>
          {hasNothing ? (
            isBare ? null : (
              nothing
            )
          ) : (
            <>
              {shop.missing.map(({ kind, says }) => (
                <p key={kind} className="complaint">
                  {says} <StartTable session={session} kind={kind} onStarted={onStarted} />
                </p>
              ))}
              {shop.kerf.says === undefined ? null : <p className="complaint">{shop.kerf.says}</p>}
            </>
          )}
          {shop.proving !== true || open === 0 ? null : (
            <p className="complaint">
              The buying plan is still being proven; what you print now says so.{' '}
              <button type="button" className="button-plain" onClick={() => proving.stop()}>
                Stop proving
              </button>
            </p>
          )}
          <LeftOutBox heading="Left out" book={book} left={left} />
        </ToCell>
      }
      choices={
        <>
          {forWhom}
          <fieldset>
            {sheets.length === 0 ? null : <legend>Sheets</legend>}
            {sheets.map((sheet) => (
              <Tick
                key={sheet.says}
                says={tickSays(sheet)}
                on={!without.has(sheet.says)}
                onTick={(on) => {
                  const next = new Set(without);
                  if (on) next.delete(sheet.says);
                  else next.add(sheet.says);
                  setWithout(next);
                }}
              />
            ))}
            {sheets.length === 0 ? null : (
              <Tick says="With prices" on={prices} onTick={setPrices} />
            )}
          </fieldset>
        </>
      }
    >
      {isBare ? (
        nothing
      ) : (
        <Pages
          page={page}
          blocks={blocks}
          head={pageHead(book, new Date())}
          foot={unitsText(book)}
        />
      )}
    </PaperDesk>
  );
}

interface RadioProps {
  readonly says: string;
  readonly on: boolean;
  readonly onChoose: () => void;
}

/** What stands at the box of a sheet, with how many pages it takes where that may be many. */
const tickSays = ({ says, pages }: ShopSheet): string =>
  pages === undefined ? says : `${says}, ${pages} ${pages === 1 ? 'page' : 'pages'}`;

function Radio({ says, on, onChoose }: RadioProps) {
  return (
    <label>
      <input type="radio" name="for whom" checked={on} onChange={onChoose} />
      {says}
    </label>
  );
}
