import { type BuyingPlan, boardSvg, bookFormat, type PlanGroup, panelSvg } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../sidetable/picture.tsx';
import { cautionBlock, headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { type Planning, proofSentence } from './planning.ts';
import { lengthUnit, moneyText, shownOf } from './words.ts';

/** Hardware and finish that named cells know of, beside the boards. */
const OTHERS = [
  ['fastener_count', 'Fasteners of the top, with screws'],
  ['finish_cans', 'Cans of finish'],
  ['glue_volume', 'Glue'],
] as const;

/** What to buy: boards, and what else the workbook counts. */
export function buyingSheet(book: OpenWorkbook, plan: BuyingPlan): Block[] {
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  const boards = plan.groups.flatMap(({ buy, thickness, width }) =>
    buy.map(({ stock, count }) => [
      count,
      stock.name,
      `${write(thickness)} × ${write(width)} × ${write(stock.length)}`,
      stock.material,
      stock.price === 0 ? 'at hand' : money(stock.price),
      stock.price === 0 ? '' : money(count * stock.price),
    ]),
  );
  const others = OTHERS.flatMap(([name, says]) => {
    const shown = shownOf(book, name);
    return shown === undefined ? [] : [[says, shown]];
  });
  return [
    titleBlock('buying', 'Buying list', proofSentence(plan, money)),
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
export function cuttingSheet(book: OpenWorkbook, plan: BuyingPlan, planning: Planning): Block[] {
  const { kerf, knowsKerf } = planning;
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  const longest = Math.max(
    ...plan.groups.flatMap(({ buy }) => buy.map(({ stock }) => stock.length)),
  );
  return [
    titleBlock(
      'cutting',
      'Cutting plan',
      `Pieces from the left end on, in ${lengthUnit(book)}; saw cuts ${write(kerf)} wide, black; offcuts hatched.`,
    ),
    ...(knowsKerf
      ? []
      : [
          sentenceBlock(
            'cutting without kerf',
            'No cell is named kerf: the plan reckons with saw cuts of no width.',
          ),
        ]),
    cautionBlock('cutting careful', [
      'Crosscut before you rip, so that boards are short enough to hold. Let no offcut bind between blade and fence.',
      'Look at each board before you cut: knots, checks and the grain decide, not the plan.',
    ]),
    ...plan.groups.flatMap((group, g) => [
      headingBlock(`cutting ${g}`, groupTitle(group, write)),
      sentenceBlock(
        `cutting ${g} proof`,
        `${proofSentence(group, money)} ${(group.waste * 100).toFixed(0)} % of the length is waste.`,
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
            <Picture svg={boardSvg(board, { format: write, kerf, longest })} />
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
