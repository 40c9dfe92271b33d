import { useMemo, useState } from 'react';
import { type Block, Pages } from '../paper/blocks.tsx';
import type { Page } from '../paper/paper.ts';
import { PaperDesk, Tick, usePageRule } from '../paper/paper-view.tsx';
import type { Session } from '../session.ts';
import { useDrawingStyle } from '../sidetable/drawing-style.ts';
import { buyingSheet, cuttingSheet } from './buying-sheet.tsx';
import { cutListSheet } from './cut-list-sheet.tsx';
import { drawingSheet } from './drawing-sheet.tsx';
import { fastenerSheet } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';
import { glueSheet } from './glue-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';
import { planningOf } from './planning.ts';
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
  const { sheets, says } = useMemo(() => shopSheets(session), [session]);
  const blocks = useMemo(() => {
    const chosen = sheets.filter((sheet) => !without.has(sheet.says)).flatMap((one) => one.blocks);
    if (chosen.length > 0) return chosen;
    return [
      titleBlock('nothing', book.title, ''),
      sentenceBlock('nothing says', says ?? 'Choose at least one sheet.'),
    ];
  }, [sheets, without, says, book]);
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
          {says === undefined ? null : <p className="complaint">{says}</p>}
        </fieldset>
      }
    >
      <Pages page={page} blocks={blocks} foot={book.title} />
    </PaperDesk>
  );
}

/** Every sheet this workbook has something for. */
function shopSheets({ book }: Session): {
  readonly sheets: readonly ShopSheet[];
  readonly says?: string;
} {
  const planning = planningOf(book);
  const { parts, list, plan, problems } = planning;
  const sheets: ShopSheet[] = [];
  const add = (says: string, blocks: readonly Block[] | undefined): void => {
    if (blocks !== undefined) sheets.push({ says, blocks });
  };
  add('Drawing', drawingSheet(book));
  if (list.items.length > 0) add('Cut list', cutListSheet(book, list));
  if (plan !== undefined && plan.groups.length > 0) {
    add('Buying list', buyingSheet(book, plan));
    add('Cutting plan', cuttingSheet(book, plan, planning));
  }
  add('Staves from the rack', rackSheet(book, planning));
  add('Glue-up', glueSheet(book, parts));
  add('Fasteners', fastenerSheet(book));
  add('Finish', finishSheet(book));
  if (list.items.length > 0) add('Part labels', labelSheet(book, list));
  const [first] = problems;
  if (planning.says !== undefined) return { sheets, says: planning.says };
  if (first === undefined) return { sheets };
  const many = problems.length === 1 ? 'One thing' : `${problems.length} things`;
  return { sheets, says: `${many} could not be planned. ${first.says}` };
}
