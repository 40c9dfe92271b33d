import { boardSteps, type CutStep } from '@kerfbook/cutting';
import {
  type AlikeBoards,
  alikeBoards,
  boardSvg,
  bookFormat,
  type CutItem,
  groupSentence,
  groupSureSentence,
  type PlanGroup,
  type PlannedBoard,
  type PlannedPanel,
  panelSvg,
  type ShopPlan,
  secondRip,
  wayOfCutting,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { ReactNode } from 'react';
import { moneyText } from '../page/money-text.ts';
import type { Block } from '../paper/blocks.tsx';
import { Picture } from '../pictures/picture.tsx';
import { kerfBlocks, leftOutOf, planNotes } from './buying-sheet.tsx';
import {
  Boxes,
  cautionBlock,
  headingBlock,
  sentenceBlock,
  tableBlocks,
  titleBlock,
} from './pieces.tsx';
import { capital, lengthUnit } from './words.ts';

type Step = CutStep<CutItem>;

/** How sizes and money are written, and how long the longest board of the plan is. */
interface Writing {
  readonly write: (mm: number) => string;
  readonly kerf: number;
  readonly longest: number;
  readonly letters: number | undefined;
  /** What a picture has of a page, mm. */
  readonly room?: { readonly width: number; readonly height: number };
}

/** Where the plan is shown. */
interface Shown {
  /** Letters of the boards, where these are smaller than on paper, as in `BoardSvgOptions`. */
  readonly letters?: number | undefined;
  /** The field of the page, mm. */
  readonly field?: { readonly width: number; readonly height: number } | undefined;
}

/** What a picture has of a page at the most: as wide, mm, and of its height such a share; as `shop.css` has it. */
const WIDEST = 190;
const HIGHEST = 0.5;

/** Every board as it is cut, to scale, with its cuts in the order in which they can be made. */
export function cuttingSheet(
  book: OpenWorkbook,
  shop: ShopPlan,
  prices: boolean,
  { letters, field }: Shown = {},
): Block[] {
  const { kerf, endTrim } = shop;
  const { groups = [] } = shop.plan ?? {};
  const write = bookFormat(book);
  const money = (amount: number): string => moneyText(book, amount);
  return [
    titleBlock(
      'cutting',
      'Cutting plan',
      cuttingSays(
        { write, unit: lengthUnit(book), kerf, endTrim },
        shop.plan === undefined ? '' : ` Cut this way: ${wayOfCutting(shop.plan)}.`,
      ),
    ),
    ...leftOutOf('cutting', book, shop),
    ...kerfBlocks('cutting', shop),
    cautionBlock('cutting careful', carefulOf(groups)),
    ...sectionBlocks(groups, { write, kerf: kerf.mm, letters, field }, (group) => ({
      sure: prices
        ? groupSentence(group, kerf, money, shop.proving)
        : groupSureSentence(group, kerf, shop.proving),
      notes: planNotes(book, group, kerf, write),
    })),
  ];
}

/** What has to be known to read a cutting plan. */
export function cuttingSays(
  {
    write,
    unit,
    kerf,
    endTrim,
  }: Pick<ShopPlan, 'kerf' | 'endTrim'> & {
    readonly write: (mm: number) => string;
    readonly unit: string;
  },
  way: string,
): string {
  return `Sizes in ${unit}; ${
    kerf.says === undefined
      ? `saw cuts ${write(kerf.mm)} wide, drawn solid`
      : 'saw cuts of no width'
  };${endTrim.mm > 0 ? ` ${write(endTrim.mm)} trimmed off each end of boards you buy;` : ''} what is waste is crossed out. Numbers in a board are its cuts in order. Under it stands where to mark it, all measured from its left end.${way}`;
}

/** Every board and sheet of a plan, section by section, under what is said of each section. */
export function sectionBlocks(
  groups: readonly PlanGroup[],
  { write, kerf, letters, field }: Pick<Writing, 'write' | 'kerf'> & Shown,
  about: (group: PlanGroup) => { readonly sure: string; readonly notes: readonly string[] },
): Block[] {
  const writing: Writing = {
    write,
    kerf,
    longest: Math.max(...groups.flatMap(({ buy }) => buy.map(({ stock }) => stock.length))),
    letters,
    ...(field === undefined
      ? {}
      : { room: { width: Math.min(WIDEST, field.width), height: field.height * HIGHEST } }),
  };
  return groups.flatMap((group, g) => {
    const { sure, notes } = about(group);
    return [
      headingBlock(`cutting ${g}`, groupTitle(group, write)),
      // Where nothing is cut, there is no waste and no cheaper way.
      ...(isAllReady(group)
        ? []
        : [sentenceBlock(`cutting ${g} proof`, `${sure} ${wasteSays(group)}`.trim(), true)]),
      ...notes.map((says) => sentenceBlock(`cutting ${g} ${says}`, says, true)),
      ...alikeBoards(group.boards)
        .filter(({ boards: [board] }) => !isReady(board))
        .flatMap(({ first, boards }) =>
          boardBlocks(`cutting ${g} ${first}`, { first, boards, of: group.boards.length }, writing),
        ),
      ...readyBlocks(`cutting ${g} ready`, group.boards.filter(isReady), write),
      ...group.panels.flatMap((panel, p) =>
        panelBlocks(`cutting ${g} sheet ${p}`, panel, [p, group.panels.length], writing),
      ),
    ];
  });
}

/** Usual cautions at the saw: common practice, no source. */
const AT_BOARDS = [
  'Crosscut before you rip, so that boards are short enough to hold. Let no offcut bind between blade and fence.',
  'Look at each board before you cut: knots, checks and the grain decide, not the plan.',
];
const AT_SHEETS =
  'A full sheet takes two to carry, and support on both sides of the cut. Without them, break it down first with a hand-held saw along a straightedge.';

/** What to mind with these boards and sheets. */
export function carefulOf(
  groups: readonly Pick<PlanGroup, 'boards' | 'panels'>[],
): readonly string[] {
  const hasSheets = groups.some(({ panels }) => panels.length > 0);
  const hasBoards = groups.length === 0 || groups.some(({ boards }) => boards.length > 0);
  return [...(hasBoards ? AT_BOARDS : []), ...(hasSheets ? [AT_SHEETS] : [])];
}

/** What of the length bought, or of the faces of sheets, is left over. Its shares add up as they are written. */
export function wasteSays({ boards, waste }: Pick<PlanGroup, 'boards' | 'waste'>): string {
  if (boards.length === 0) {
    return `${(waste * 100).toFixed(0)} % of the face is left over: offcuts, saw cuts and edges.`;
  }
  const sum = (of: (board: PlannedBoard) => number): number =>
    boards.reduce((all, board) => all + of(board), 0);
  const all = sum(({ stock }) => stock.length);
  const share = (length: number): number => Math.round((length / all) * 100);
  const none = share(
    all - sum(({ pieces }) => pieces.reduce((total, { length }) => total + length, 0)),
  );
  const left = Math.min(none, share(sum(({ offcut }) => offcut)));
  return `${none} % of the length is left over: ${left} % as offcuts, ${none - left} % in saw cuts and trimmed ends.`;
}

const groupTitle = ({ material, thickness, width }: PlanGroup, write: (mm: number) => string) =>
  `${material === '' ? 'Boards' : capital(material)}, ${write(thickness)} by ${write(width)}`;

/** A hair, mm: sizes that differ by less are one size. */
const HAIR = 1e-3;

/** A board that is used as it is bought, such as a slide: nothing is cut off it. */
function isReady(board: PlannedBoard | undefined): boolean {
  const [piece, another] = board?.pieces ?? [];
  if (board === undefined || piece === undefined || another !== undefined) return false;
  const { item, strips } = piece;
  const { stock } = board;
  return (
    strips === 1 &&
    Math.abs(item.length - stock.length) < HAIR &&
    Math.abs(item.width - stock.width) < HAIR &&
    Math.abs(item.thickness - stock.thickness) < HAIR
  );
}

const isAllReady = ({ boards, panels }: PlanGroup): boolean =>
  panels.length === 0 && boards.length > 0 && boards.every(isReady);

/** What is used as it is bought has no cuts to draw: a line for each kind, with its count and what it becomes. */
function readyBlocks(
  key: string,
  boards: readonly PlannedBoard[],
  write: (mm: number) => string,
): Block[] {
  const kinds = alikeBy(boards, ({ stock }) =>
    JSON.stringify([stock.at, stock.name, stock.length, stock.price]),
  );
  return tableBlocks(
    key,
    'Used as bought',
    [
      { heads: 'Count', share: 9, end: true },
      { heads: 'Used as bought', share: 39 },
      { heads: 'Gives', share: 38 },
    ],
    kinds.map((alike) => {
      const { name, width, length } = (alike[0] as PlannedBoard).stock;
      const nameOf = ({ pieces }: PlannedBoard): string => pieces[0]?.item.name ?? '';
      return [
        alike.length,
        `${name === '' ? 'board' : name}, ${write(width)} × ${write(length)}`,
        alikeBy(alike, nameOf)
          .map(
            (ones) =>
              `${ones.length === 1 ? '' : `${ones.length} × `}${nameOf(ones[0] as PlannedBoard)}`,
          )
          .join(', '),
      ];
    }),
    kinds.map(({ length }) => length),
  );
}

/** Boards of which the same is so, in the order in which the first of each comes. */
function alikeBy(
  boards: readonly PlannedBoard[],
  keyOf: (board: PlannedBoard) => string,
): readonly (readonly PlannedBoard[])[] {
  const kinds = new Map<string, PlannedBoard[]>();
  for (const board of boards) {
    const key = keyOf(board);
    kinds.set(key, [...(kinds.get(key) ?? []), board]);
  }
  return [...kinds.values()];
}

const numbersOf = (first: number, count: number, of: number, what: string): string =>
  count === 1
    ? `${what} ${first + 1} of ${of}`
    : `${what}s ${first + 1} ${count === 2 ? 'and' : 'to'} ${first + count} of ${of}, cut the same way`;

function boardBlocks(
  key: string,
  { first, boards, of }: AlikeBoards & { readonly of: number },
  { write, kerf, longest, letters }: Writing,
): Block[] {
  const [board] = boards;
  if (board === undefined) return [];
  const { stock, offcut } = board;
  const lines = linesOf(board, kerf, write);
  return [
    pictureBlock(
      key,
      boards.length,
      numbersOf(first, boards.length, of, 'Board'),
      `${stock.name === '' ? 'board' : stock.name}, ${write(stock.width)} × ${write(stock.length)}${offcut > 0 ? `; ${write(offcut)} left` : ''}`,
      boardSvg(board, { format: write, kerf, longest, letters }),
    ),
    ...tableBlocks(
      `${key} steps`,
      'Cuts in order',
      [
        { heads: 'No.', share: 6 },
        { heads: 'Crosscut to', share: 15, end: true },
        { heads: 'Then rip to', share: 26, end: true },
        { heads: 'Gives', share: 39 },
      ],
      lines.map(({ cells }) => cells),
      lines.map(({ pieces }) => pieces * boards.length),
    ),
  ];
}

function pictureBlock(
  key: string,
  boxes: number,
  numbers: string,
  about: string,
  svg: string,
): Block {
  return {
    key,
    keep: true,
    node: (
      <div className="shop-board">
        <p className="shop-board-name">
          <span className="for-paper">
            <Boxes count={boxes} />
          </span>
          {numbers} <span>{about}</span>
        </p>
        <Picture svg={svg} />
      </div>
    ),
  };
}

interface Line {
  readonly cells: readonly ReactNode[];
  /** Finished pieces that come of it. */
  readonly pieces: number;
}

/** The cuts of a board as lines: a length that is crosscut off, and what is ripped from it. */
function linesOf(board: PlannedBoard, kerf: number, write: (mm: number) => string): Line[] {
  const steps = boardSteps(board, kerf);
  const trims = steps.filter(({ kind, from }) => kind === 'crosscut' && isTrim(board, from.x));
  return [
    ...trims.map(({ at }) => ({ cells: ['', write(at), '', 'Waste: the trimmed end'], pieces: 0 })),
    ...board.pieces.map(({ item, at, strips }, i): Line => {
      const own = steps.filter(({ from }) => Math.abs(from.x - at) < 1e-6);
      const crosscut = own.find(({ kind }) => kind === 'crosscut');
      return {
        pieces: strips,
        cells: [
          i + 1,
          crosscut === undefined ? 'full length' : write(crosscut.at),
          ripText(
            own.filter(({ kind }) => kind === 'rip'),
            write,
          ),
          givenText(item, strips, secondRip(item, board.stock.thickness, kerf, write)),
        ],
      };
    }),
  ];
}

/** What a cut gives, and what a square piece still takes: it is ripped to its width alone. */
const givenText = ({ name }: CutItem, strips: number, then: string | undefined): string =>
  `${strips === 1 ? name : `${strips} × ${name}`}${then === undefined ? '' : `; ${then}`}`;

/** A crosscut that begins where no piece does frees the board of its end. */
const isTrim = ({ pieces }: PlannedBoard, x: number): boolean =>
  pieces.every(({ at }) => Math.abs(at - x) >= 1e-6);

function ripText(rips: readonly Step[], write: (mm: number) => string): string {
  const [rip] = rips;
  if (rip === undefined) return 'full width';
  return rips.length === 1 ? write(rip.at) : `${write(rip.at)}, ${rips.length} times`;
}

function panelBlocks(
  key: string,
  panel: PlannedPanel,
  [at, of]: readonly [number, number],
  { write, longest, room }: Writing,
): Block[] {
  const { stock, steps } = panel;
  const given = ({ gives, leaves }: Step): readonly CutItem[] =>
    [gives, leaves].filter((one) => one !== undefined);
  return [
    pictureBlock(
      key,
      1,
      numbersOf(at, 1, of, 'Sheet'),
      `${stock.name === '' ? 'sheet' : stock.name}, ${write(stock.width)} × ${write(stock.length)}`,
      panelSvg(panel, { format: write, longest, room }),
    ),
    ...tableBlocks(
      `${key} steps`,
      'Cuts in order',
      [
        { heads: 'Cut', share: 6 },
        { heads: 'How', share: 13 },
        { heads: 'To', share: 12, end: true },
        { heads: 'Of the piece', share: 22, end: true },
        { heads: 'Gives', share: 33 },
      ],
      steps.map((step, i) => [
        i + 1,
        step.kind,
        write(step.at),
        `${write(step.from.width)} × ${write(step.from.length)}`,
        given(step)
          .map(({ name }) => name)
          .join(', '),
      ]),
      steps.map((step) => given(step).length),
    ),
  ];
}
