import { type AskedPlan, plansAskedIn } from '@kerfbook/cutting';
import { type ShopPlan, shopPlan } from '@kerfbook/drawing';
import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { type Block, Pages } from '../paper/blocks.tsx';
import type { Page } from '../paper/paper.ts';
import { PaperDesk, Tick, usePageRule } from '../paper/paper-view.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { provingOf } from '../proving/proving.ts';
import type { Session } from '../session/session.ts';
import { buyingSheet, cuttingSheet } from './buying-sheet.tsx';
import { cutListSheet } from './cut-list-sheet.tsx';
import { drawingSheet } from './drawing-sheet.tsx';
import { fastenerSheet } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';
import { glueSheet } from './glue-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';
import { LeftOutBox, leftOutBlocks } from './left-out.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';
import { rackSheet } from './rack-sheet.tsx';
import './shop.css';

interface ShopViewProps {
  readonly session: Session;
  readonly onClose: () => void;
}

interface ShopSheet {
  readonly says: string;
  readonly blocks: readonly Block[];
}

/** The paper that goes to the bench: chosen, looked at page by page, and printed. */
export default function ShopView({ session, onClose }: ShopViewProps) {
  const { book } = session;
  const [page, setPage] = useState<Page>({
    paper: book.units === 'us' ? 'letter' : 'a4',
    lying: false,
  });
  const [without, setWithout] = useState<ReadonlySet<string>>(new Set());
  usePageRule(page);
  useDrawingStyle();
  const proving = provingOf(session);
  const { found, open, stopped } = useSyncExternalStore(
    proving.state.watch,
    () => proving.state.value,
  );
  const { sheets, shop, asked } = useMemo(
    () => shopSheets(session, found, stopped),
    [session, found, stopped],
  );
  useEffect(() => proving.want(asked), [proving, asked]);
  const says = [...shop.missing, ...(shop.kerf.says === undefined ? [] : [shop.kerf.says])];
  const blocks = useMemo(() => {
    const chosen = sheets.filter((sheet) => !without.has(sheet.says)).flatMap((one) => one.blocks);
    if (chosen.length > 0) return chosen;
    return [
      titleBlock('nothing', book.title, ''),
      sentenceBlock(
        'nothing says',
        sheets.length === 0 ? shop.missing.join(' ') : 'Choose at least one sheet.',
      ),
      ...leftOutBlocks('nothing', 'Left out', book, [...shop.unread, ...shop.unplanned]),
    ];
  }, [sheets, without, shop, book]);
  return (
    <PaperDesk
      title="Shop sheets"
      page={page}
      onPage={setPage}
      onClose={onClose}
      choices={
        <fieldset>
          <legend>Sheets</legend>
          {sheets.map((sheet) => (
            <Tick
              key={sheet.says}
              says={sheet.says}
              on={!without.has(sheet.says)}
              onTick={(on) => {
                const next = new Set(without);
                if (on) next.delete(sheet.says);
                else next.add(sheet.says);
                setWithout(next);
              }}
            />
          ))}
          {says.map((one) => (
            <p key={one} className="complaint">
              {one}
            </p>
          ))}
          {shop.proving !== true || open === 0 ? null : (
            <p className="complaint">
              The buying plan is still being proven; what you print now says so.{' '}
              <button type="button" className="button-plain" onClick={() => proving.stop()}>
                Stop proving
              </button>
            </p>
          )}
          <LeftOutBox heading="Left out" book={book} left={[...shop.unread, ...shop.unplanned]} />
        </fieldset>
      }
    >
      <Pages page={page} blocks={blocks} foot={book.title} />
    </PaperDesk>
  );
}

/**
 * Every sheet this workbook has something for. They are made anew with every plan that is found, and when
 * the maker stops the proving.
 */
function shopSheets(
  { book }: Session,
  _found: number,
  stopped: number,
): {
  readonly sheets: readonly ShopSheet[];
  readonly shop: ShopPlan;
  readonly asked: readonly AskedPlan[];
} {
  let planned: ShopPlan | undefined;
  const asked = plansAskedIn(() => {
    planned = shopPlan(book, 'cell');
  });
  const isOpen = stopped === 0 && asked.some(({ state }) => state === 'open');
  const shop: ShopPlan = {
    ...(planned ?? shopPlan(book, 'cell')),
    ...(isOpen ? { proving: true } : {}),
  };
  const { list, plan } = shop;
  const sheets: ShopSheet[] = [];
  const add = (says: string, blocks: readonly Block[] | undefined): void => {
    if (blocks !== undefined) sheets.push({ says, blocks });
  };
  add('Drawing', drawingSheet(book));
  const cuts = list.items.length > 0 || shop.unread.length > 0;
  if (cuts) add('Cut list', cutListSheet(book, shop));
  // A plan that left everything out is a page too: it says what to do.
  if (cuts && plan !== undefined) {
    add('Buying list', buyingSheet(book, shop));
    add('Cutting plan', cuttingSheet(book, shop));
  }
  add('Boards from the rack', rackSheet(book, shop));
  add('Glue-up', glueSheet(book, shop));
  add('Fasteners', fastenerSheet(book));
  add('Finish', finishSheet(book));
  if (cuts) add('Part labels', labelSheet(book, shop));
  return { sheets, shop, asked };
}
