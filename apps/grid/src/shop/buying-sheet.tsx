import {
  boardSvg,
  bookFormat,
  costSentence,
  groupSentence,
  type PlanGroup,
  panelSvg,
  type ShopPlan,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../pictures/picture.tsx';
import { factsOf } from './facts.ts';
import { leftOutBlocks } from './left-out.tsx';
import { cautionBlock, headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { lengthUnit, moneyText, shownOf } from './words.ts';

const leftOutOf = (key: string, book: OpenWorkbook, { unread, unplanned }: ShopPlan): Block[] =>
  leftOutBlocks(key, 'Left out: no board is bought or cut for', book, [...unread, ...unplanned]);

/** Asks for the saw cut's width where the workbook does not say it. */
const kerfBlocks = (key: string, { kerf }: ShopPlan): Block[] =>
  kerf.says === undefined ? [] : [cautionBlock(`${key} without kerf`, [kerf.says])];

/** What to buy: boards, and what else the workbook counts. */
export function buyingSheet(book: OpenWorkbook, shop: ShopPlan): Block[] {
  const { groups = [] } = shop.plan ?? {};
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  const boards = groups.flatMap(({ buy, thickness, width }) =>
    buy.map(({ stock, count }) => [
      count,
      stock.name,
      `${write(thickness)} × ${write(width)} × ${write(stock.length)}`,
      stock.material,
      stock.price === 0 ? 'at hand' : money(stock.price),
      stock.price === 0 ? '' : money(count * stock.price),
    ]),
  );
  const others = factsOf('buying-list').flatMap(([name, says]) => {
    const shown = shownOf(book, name);
    return shown === undefined ? [] : [[says, shown]];
  });
  return [
    titleBlock('buying', 'Buying list', costSentence(shop, money)),
    ...leftOutOf('buying', book, shop),
    ...kerfBlocks('buying', shop),
    ...tableBlocks(
      'buying boards',
      'Boards to buy',
      [
        { heads: 'Count', share: 9, end: true },
        { heads: 'Board', share: 27 },
        { heads: `Size, ${lengthUnit(book)}`, share: 23 },
        { heads: 'Material', share: 14 },
        { heads: 'Each', share: 9, end: true },
        { heads: 'Together', share: 11, end: true },
      ],
      boards,
      true,
    ),
    ...(others.length === 0
      ? []
      : [
          headingBlock('buying others', 'Beside the boards'),
          ...tableBlocks(
            'buying others table',
            'Beside the boards',
            [
              { heads: 'What', share: 70 },
              { heads: 'How much', share: 23, end: true },
            ],
            others,
            true,
          ),
        ]),
  ];
}

/** Every board as it is cut, to scale, in the order in which it is cut. */
export function cuttingSheet(book: OpenWorkbook, shop: ShopPlan): Block[] {
  const { kerf } = shop;
  const { groups = [] } = shop.plan ?? {};
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  const longest = Math.max(...groups.flatMap(({ buy }) => buy.map(({ stock }) => stock.length)));
  return [
    titleBlock(
      'cutting',
      'Cutting plan',
      `Pieces from the left end on, in ${lengthUnit(book)}; ${
        kerf.says === undefined ? `saw cuts ${write(kerf.mm)} wide, black` : 'saw cuts of no width'
      }; offcuts hatched.`,
    ),
    ...leftOutOf('cutting', book, shop),
    ...kerfBlocks('cutting', shop),
    cautionBlock('cutting careful', [
      'Crosscut before you rip, so that boards are short enough to hold. Let no offcut bind between blade and fence.',
      'Look at each board before you cut: knots, checks and the grain decide, not the plan.',
    ]),
    ...groups.flatMap((group, g) => [
      headingBlock(`cutting ${g}`, groupTitle(group, write)),
      sentenceBlock(
        `cutting ${g} proof`,
        `${groupSentence(group, kerf, money, shop.proving)} ${(group.waste * 100).toFixed(0)} % of the length is waste.`,
      ),
      ...group.boards.map((board, b) => ({
        key: `cutting ${g} ${b}`,
        node: (
          <div className="shop-board">
            <span className="check-box" />
            <span className="shop-board-name">
              {b + 1}. {board.stock.name === '' ? 'Board' : board.stock.name}
              {board.offcut > 0 ? `, ${write(board.offcut)} left` : ''}
            </span>
            <Picture svg={boardSvg(board, { format: write, kerf: kerf.mm, longest })} />
          </div>
        ),
      })),
      ...group.panels.map((panel, p) => ({
        key: `cutting ${g} sheet ${p}`,
        node: (
          <div className="shop-board">
            <span className="check-box" />
            <span className="shop-board-name">
              {p + 1}. {panel.stock.name === '' ? 'Sheet' : panel.stock.name}, saw cuts in order:{' '}
              {panel.cuts
                .map(({ along, at }) => `${along ? 'rip' : 'crosscut'} at ${write(at)}`)
                .join(', ')}
            </span>
            <Picture svg={panelSvg(panel, { format: write, longest })} />
          </div>
        ),
      })),
    ]),
  ];
}

const groupTitle = ({ material, thickness, width }: PlanGroup, write: (mm: number) => string) =>
  `${material === '' ? 'Boards' : material}, ${write(thickness)} by ${write(width)}`;
