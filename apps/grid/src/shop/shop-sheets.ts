import { type AskedPlan, plansAskedIn } from '@kerfbook/cutting';
import { type ShopPlan, shopPlan } from '@kerfbook/drawing';
import { useEffect, useMemo, useSyncExternalStore } from 'react';
import { today } from '../commands/usual.ts';
import type { Odds } from '../days/use-likelihood.ts';
import type { Block } from '../paper/blocks.tsx';
import { type Proving, provingOf } from '../proving/proving.ts';
import type { Session } from '../session/session.ts';
import { buyingSheet } from './buying-sheet.tsx';
import { cutListSheet } from './cut-list-sheet.tsx';
import { cuttingSheet } from './cutting-sheet.tsx';
import { daysSheet } from './days-sheet.tsx';
import { drawingSheet } from './drawing-sheet.tsx';
import { fastenerSheet } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';
import { glueSheet } from './glue-sheet.tsx';
import { jointSheet } from './joint-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';
import { rackSheet } from './rack-sheet.tsx';
import { templateSheet } from './template-sheet.tsx';

export interface ShopSheet {
  readonly says: string;
  readonly blocks: readonly Block[];
  /** How many pages it takes, of what is printed only where it is asked for. */
  readonly pages?: number;
}

/** Sheets that are not wanted of every table: a pattern at full size takes a page for each hand's breadth of it. */
export const ONLY_IF_ASKED: ReadonlySet<string> = new Set(['Full-size patterns']);

interface Planned {
  readonly shop: ShopPlan;
  readonly proving: Proving;
  /** Plans that are still being proven. */
  readonly open: number;
}

/**
 * The plan of the workbook at hand, made anew with every change, with every plan that is found, and when the
 * maker stops the proving. As long as it is shown, its proof is looked for.
 */
export function useShopPlan(session: Session, changes: number): Planned {
  const { book } = session;
  const proving = provingOf(session);
  const { found, open, stopped } = useSyncExternalStore(
    proving.state.watch,
    () => proving.state.value,
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within, and plans are found elsewhere.
  const { shop, asked } = useMemo(() => planNow(book, stopped), [book, changes, found, stopped]);
  useEffect(() => proving.want(asked), [proving, asked]);
  return { shop, proving, open };
}

function planNow(
  book: Session['book'],
  stopped: number,
): { readonly shop: ShopPlan; readonly asked: readonly AskedPlan[] } {
  let planned: ShopPlan | undefined;
  const asked = plansAskedIn(() => {
    planned = shopPlan(book, 'cell');
  });
  const isOpen = stopped === 0 && asked.some(({ state }) => state === 'open');
  const shop: ShopPlan = {
    ...(planned ?? shopPlan(book, 'cell')),
    ...(isOpen ? { proving: true } : {}),
  };
  return { shop, asked };
}

/**
 * Every sheet this workbook has something for.
 * @param field of the page, mm
 * @param odds how likely its days are, as far as that is known
 */
export function shopSheets(
  { book }: Pick<Session, 'book'>,
  shop: ShopPlan,
  prices: boolean,
  field: { readonly width: number; readonly height: number },
  odds: Odds = {},
): readonly ShopSheet[] {
  const sheets: ShopSheet[] = [];
  const add = (says: string, blocks: readonly Block[] | undefined): void => {
    if (blocks !== undefined) sheets.push({ says, blocks });
  };
  add('Drawing', drawingSheet(book));
  const cuts = shop.list.items.length > 0 || shop.unread.length > 0;
  if (cuts) add('Cut list', cutListSheet(book, shop));
  // A plan that left everything out is a page too: it says what to do.
  if (cuts && shop.plan !== undefined) {
    add('Buying list', buyingSheet(book, shop, prices, false, today()));
    add('Cutting plan', cuttingSheet(book, shop, prices, { field }));
  }
  add('Boards from the rack', rackSheet(book, shop));
  add('Joints', jointSheet(book, field));
  add('Glue-up', glueSheet(book, shop));
  add('Fasteners', fastenerSheet(book));
  add('Finish', finishSheet(book));
  add('Days', daysSheet(book, field, odds));
  if (cuts) add('Part labels', labelSheet(book, shop, field.width));
  const templates = templateSheet(book, field);
  // The first block is their title.
  if (templates !== undefined) {
    sheets.push({ says: 'Full-size patterns', blocks: templates, pages: templates.length - 1 });
  }
  return sheets;
}
