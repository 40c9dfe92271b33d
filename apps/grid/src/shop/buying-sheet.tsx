import {
  bookFormat,
  costSentence,
  isCountedByName,
  nearMisses,
  oldPrices,
  type PlanGroup,
  planedAway,
  readParts,
  roughAsTyped,
  type ShopPlan,
  sureSentence,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { Fragment, type ReactNode } from 'react';
import { moneyText } from '../page/money-text.ts';
import type { Block } from '../paper/blocks.tsx';
import { hardwareLines } from './hardware.ts';
import { hardwareRows } from './joint-sheet.tsx';
import { leftOutAgain } from './left-out.tsx';
import { cautionBlock, headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { addUp, lengthUnit } from './words.ts';

/** What no board is bought or cut for, framed. */
export const leftOutOf = (
  key: string,
  book: OpenWorkbook,
  { unread, unplanned }: ShopPlan,
): Block[] => leftOutAgain(key, 'Left out of the plan', book, [...unread, ...unplanned]);

/** Asks for the saw cut's width where the workbook does not say it. */
export const kerfBlocks = (key: string, { kerf }: ShopPlan): Block[] =>
  kerf.says === undefined ? [] : [cautionBlock(`${key} without kerf`, [kerf.says])];

/** What is to be known of the boards of a section before they are bought and cut. */
export const planNotes = (
  book: OpenWorkbook,
  group: PlanGroup,
  kerf: ShopPlan['kerf'],
  write: (mm: number) => string,
): readonly string[] => [
  ...roughAsTyped(book, group, write),
  ...planedAway(group, kerf, write),
  ...nearMisses(group, kerf, write),
];

/** The boards of a plan, of one job or several. */
interface BoardsToBuy {
  readonly groups: readonly PlanGroup[];
  /** It is bought by number, and said among what else is bought. */
  readonly isCounted: (material: string) => boolean;
  readonly write: (mm: number) => string;
  /** Of the sizes. */
  readonly unit: string;
  /** Writes amounts; left out where no prices are wanted. */
  readonly money: ((amount: number) => string) | undefined;
  /** A phone, where a board's size and wood stand under its name: in columns of their own sizes were broken. */
  readonly narrow?: boolean;
}

/** The boards to buy, a row for each kind, with what they cost where that is wanted. */
export function boardsToBuy({
  groups,
  isCounted,
  write,
  unit,
  money,
  narrow = false,
}: BoardsToBuy): readonly Block[] {
  const rows = groups.flatMap(({ buy, thickness, width }) =>
    buy
      .filter(({ stock }) => !(stock.price === 0 && isCounted(stock.material)))
      .map(({ stock, count }) => [
        count,
        ...boardCells(
          [
            stock.name,
            `${write(thickness)} × ${write(width)} × ${write(stock.length)}`,
            stock.material,
          ],
          narrow,
        ),
        ...(money === undefined
          ? [stock.price === 0 ? 'at hand' : '']
          : [
              stock.price === 0 ? 'at hand' : money(stock.price),
              stock.price === 0 ? '' : money(count * stock.price),
            ]),
      ]),
  );
  return tableBlocks(
    'buying boards',
    'Boards to buy',
    [
      { heads: 'Count', share: 9, end: true },
      ...(narrow
        ? [{ heads: `Board, ${unit}`, share: 64 }]
        : [
            { heads: 'Board', share: 24 },
            { heads: `Size, ${unit}`, share: 22 },
            { heads: 'Material', share: 18 },
          ]),
      ...(money === undefined
        ? [{ heads: 'Where', share: 20 }]
        : [
            { heads: 'Each', share: 9, end: true },
            { heads: 'Total', share: 11, end: true },
          ]),
    ],
    rows,
    true,
  );
}

/** What else a workbook counts to buy: fasteners, finish, glue, and what its joints take. */
export function alsoToBuy(key: string, says: string, book: OpenWorkbook): readonly Block[] {
  const { joints } = readParts(book);
  const lines = [
    ...hardwareLines(book),
    ...(joints === undefined ? [] : hardwareRows(book, joints.work.hardware)),
  ];
  if (lines.length === 0) return [];
  return [
    headingBlock(key, says),
    ...tableBlocks(
      `${key} table`,
      says,
      [
        { heads: 'What', share: 70 },
        { heads: 'How much', share: 23, end: true },
      ],
      lines,
      true,
    ),
  ];
}

/**
 * What to buy: boards, and what else the workbook counts; with what it costs where prices are wanted.
 * @param narrow a phone, where a board's size and wood stand under its name: in columns of their own sizes were broken
 * @param day today, as `2026-10-05`: beside prices it is told which are older than the maker wishes
 */
export function buyingSheet(
  book: OpenWorkbook,
  shop: ShopPlan,
  prices: boolean,
  narrow = false,
  day?: string,
): Block[] {
  const { groups = [] } = shop.plan ?? {};
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  const misses = new Set(groups.flatMap((group) => planNotes(book, group, shop.kerf, write)));
  return [
    titleBlock('buying', 'Buying list', prices ? costSentence(shop, money) : sureSentence(shop)),
    ...leftOutOf('buying', book, shop),
    ...kerfBlocks('buying', shop),
    ...boardsToBuy({
      groups,
      isCounted: (material) => isCountedByName(book, material),
      write,
      unit: lengthUnit(book),
      money: prices ? money : undefined,
      narrow,
    }),
    ...(prices && !isExact(book, shop)
      ? [
          sentenceBlock(
            'buying rounded',
            'Prices are rounded to be shown, and totals are not made from the rounded ones: a total may differ in its last digit.',
          ),
        ]
      : []),
    ...(prices && day !== undefined ? oldPrices(book, day) : []).map((says) =>
      sentenceBlock(`buying ${says}`, says),
    ),
    ...[...misses].map((says) => sentenceBlock(`buying ${says}`, says)),
    ...alsoToBuy('buying others', 'Also to buy', book),
  ];
}

/** Whether what is written can be added up again: each price times its count, and all of them to the cost. */
function isExact(book: OpenWorkbook, { plan }: ShopPlan): boolean {
  if (plan === undefined) return true;
  const money = (amount: number): string => moneyText(book, amount);
  const lines = plan.groups
    .flatMap(({ buy }) => buy)
    .map(({ stock, count }) => ({ count, each: stock.price, total: count * stock.price }));
  return (
    lines.every(({ count, each, total }) =>
      addUp(
        book,
        'money',
        Array.from({ length: count }, () => money(each)),
        money(total),
      ),
    ) &&
    addUp(
      book,
      'money',
      lines.map(({ total }) => money(total)),
      money(plan.cost),
    )
  );
}

type BoardWords = readonly [name: string, size: string, wood: string];

/** What a board is: a cell each, or one under the other. */
function boardCells(words: BoardWords, narrow: boolean): readonly ReactNode[] {
  if (!narrow) return words;
  const [name, size, wood] = words;
  return [
    <Fragment key="board">
      {name}
      <span className="cut-board-size">
        {size} {wood}
      </span>
    </Fragment>,
  ];
}
