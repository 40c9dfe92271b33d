import type { BookStore } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import { useEffect, useMemo, useState } from 'react';
import { StartTable } from '../commands/start-table.tsx';
import { useSessionBehind } from '../page/use-session.ts';
import { Pages } from '../paper/blocks.tsx';
import { pageHead, unitsText } from '../paper/page-head.ts';
import { fieldSize } from '../paper/paper.ts';
import { PaperDesk, Tick, usePaper } from '../paper/paper-desk.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import type { Session } from '../session/session.ts';
import {
  CUSTOMER_KEYS,
  CUSTOMER_PARTS,
  type CustomerChoice,
  FIRST_CHOICE,
  keepChoice,
  readChoice,
} from './customer-choice.ts';
import { customerSheet, missingNames } from './customer-sheet.tsx';
import { LeftOutBox, leftOutBlocks, ToCell } from './left-out.tsx';
import { hasNothingToCut, NothingToCut } from './nothing-to-cut.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';
import { ONLY_IF_ASKED, type ShopSheet, shopSheets, useShopPlan } from './shop-sheets.ts';
import './shop.css';

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
  const [choice, setChoice] = useCustomerChoice(store, bookId);
  useDrawingStyle();
  const { changes } = useSessionBehind(session);
  const { shop, proving, open } = useShopPlan(session, changes);
  const { width, height } = fieldSize(page);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const sheets = useMemo(
    () => shopSheets({ book }, shop, prices, { width, height }),
    [book, shop, prices, width, height, changes],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const blocks = useMemo(() => {
    if (forCustomer) return customerSheet(book, choice, { width, height });
    const chosen = sheets.filter((sheet) => !without.has(sheet.says)).flatMap((one) => one.blocks);
    if (chosen.length > 0) return chosen;
    return [
      titleBlock('nothing', book.title, ''),
      sentenceBlock('nothing says', 'Choose at least one sheet.'),
      ...leftOutBlocks('nothing', 'Left out', book, [...shop.unread, ...shop.unplanned]),
    ];
  }, [forCustomer, choice, sheets, without, shop, book, changes, width, height]);
  const left = [...shop.unread, ...shop.unplanned];
  const hasNothing = hasNothingToCut(shop);
  const nothing = <NothingToCut session={session} shop={shop} onStarted={onStarted} />;
  const isBare = !forCustomer && sheets.length === 0;
  const printed = sheets.filter(({ says }) => !without.has(says)).length;
  return (
    <PaperDesk
      title="Shop sheets"
      page={page}
      onPage={setPage}
      isBare={!forCustomer && printed === 0}
      chosen={
        forCustomer
          ? 'for the customer'
          : isBare
            ? 'for the shop'
            : `for the shop, ${printed} of ${sheets.length} sheets${prices ? ', with prices' : ''}`
      }
      notes={
        <ToCell value={onGo}>
          {forCustomer ? (
            <LeftOutBox
              heading="Look before you print: the price may lack the wood of these"
              book={book}
              left={choice.price || choice.perSeat || choice.deposit ? left : []}
            />
          ) : (
            <>
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
                  {shop.kerf.says === undefined ? null : (
                    <p className="complaint">{shop.kerf.says}</p>
                  )}
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
            </>
          )}
        </ToCell>
      }
      choices={
        <>
          <fieldset>
            <legend>For whom</legend>
            <Radio says="For the shop" on={!forCustomer} onChoose={() => setForCustomer(false)} />
            <Radio says="For the customer" on={forCustomer} onChoose={() => setForCustomer(true)} />
          </fieldset>
          {forCustomer ? (
            <CustomerChoices session={session} choice={choice} onChoice={setChoice} />
          ) : (
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
          )}
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

/** What a customer may see of this workbook, remembered on this device. */
function useCustomerChoice(
  store: BookStore,
  bookId: string,
): readonly [CustomerChoice, (choice: CustomerChoice) => void] {
  const [choice, setChoice] = useState(FIRST_CHOICE);
  useEffect(() => {
    // Where it cannot be read it is as at first, which shows nothing that was not meant to be seen.
    readChoice(store, bookId).then(setChoice, () => setChoice(FIRST_CHOICE));
  }, [store, bookId]);
  const choose = (next: CustomerChoice): void => {
    setChoice(next);
    // Where it cannot be kept it counts for this print all the same.
    keepChoice(store, bookId, next).catch(() => undefined);
  };
  return [choice, choose];
}

interface CustomerChoicesProps {
  readonly session: Session;
  readonly choice: CustomerChoice;
  readonly onChoice: (choice: CustomerChoice) => void;
}

function CustomerChoices({ session, choice, onChoice }: CustomerChoicesProps) {
  const { book } = session;
  const { due, terms, letterhead } = book.head;
  return (
    <fieldset>
      <legend>The customer sees</legend>
      {CUSTOMER_KEYS.map((key) => (
        <Tick
          key={key}
          says={CUSTOMER_PARTS[key]}
          on={choice[key]}
          onTick={(on) => onChoice({ ...choice, [key]: on })}
        />
      ))}
      {missingNames(book, choice).map(({ name, says }) => (
        <p key={name} className="quiet">
          {says}: name a cell {name} and it is printed.
        </p>
      ))}
      {choice.letterhead && letterhead === undefined ? (
        <p className="quiet">
          Letterhead: press the workbook's name, then "Name, customer, dates", and type your shop.
        </p>
      ) : null}
      {choice.due && due === undefined ? (
        <p className="quiet">
          Delivery date: press the workbook's name, then "Name, customer, dates", and type a due
          date.
        </p>
      ) : null}
      {choice.terms && terms === undefined ? (
        <p className="quiet">
          Terms: press the workbook's name, then "Name, customer, dates", and type them.
        </p>
      ) : null}
      {choice.care && book.named('care') === undefined ? (
        <p className="quiet">
          Care is common practice, no source. Name a cell care and its words are printed instead.
        </p>
      ) : null}
    </fieldset>
  );
}
