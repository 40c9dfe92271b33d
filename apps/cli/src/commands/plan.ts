import {
  bookFormat,
  costSentence,
  isWhole,
  type PlannedBoard,
  type PlannedPanel,
  type ShopPlan,
  shopPlan,
} from '@kerfbook/drawing';
import { csvText } from '@kerfbook/interchange';
import { showValue, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { Io } from '../io.ts';
import { ownLength } from '../lengths.ts';
import { openAndSet } from '../open-set.ts';
import { provePlans } from '../prove.ts';
import { cellOf } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';
import { buyingRows, planTogether, stockText } from './plan-together.ts';

/** What `plan --json` prints; lengths in the workbook's own unit, money in its currency. */
interface PlanReport {
  /** Of what is planned: all of it only where `complete`. */
  readonly cost: number;
  /** No plan of these pieces costs less. */
  readonly bound: number;
  /** Nothing is left out and no plan costs less. */
  readonly proven: boolean;
  /** Every part was read and gets a board, all stock was read, and the kerf is known. */
  readonly complete: boolean;
  /** Parts that get no board, rows that cannot be read, lines of stock that cannot be chosen. */
  readonly leftOut: readonly {
    readonly cell: string;
    readonly what: string;
    readonly says: string;
  }[];
  /** Parts of which none are wanted: their count is 0. */
  readonly none: readonly string[];
  readonly buy: readonly {
    readonly stock: string;
    readonly length: number;
    readonly count: number;
    readonly price: number;
  }[];
  readonly boards: readonly {
    readonly stock: string;
    readonly length: number;
    readonly pieces: readonly {
      readonly part: string;
      readonly length: number;
      readonly at: number;
      /** Ripped side by side from this length. */
      readonly strips: number;
    }[];
    readonly offcut: number;
  }[];
  /** Sheet goods: pieces from the sheet's corner, along its length and across. */
  readonly sheets: readonly {
    readonly stock: string;
    readonly length: number;
    readonly width: number;
    readonly pieces: readonly {
      readonly part: string;
      readonly x: number;
      readonly y: number;
      readonly length: number;
      readonly width: number;
    }[];
  }[];
  readonly problems: readonly { readonly cell: string; readonly says: string }[];
}

/** `plan`: what to buy, how to cut it, what that costs, and a cost that no plan can be under; of several files as one. */
export const planCommand: Command = {
  name: 'plan',
  usage: 'plan FILE… [--set name=entry]… [--json|--csv]',
  does: 'prints the buying and cutting plan, its cost and the proven lower bound; one plan over several workbooks, and what that saves',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
      csv: { type: 'boolean' },
    });
    const { json = false, csv = false } = values;
    if (json && csv) {
      throw new Misuse('--json and --csv are two ways to print the same: give one of them.');
    }
    if (positionals.length > 1) {
      if (values.set !== undefined) {
        throw new Misuse('--set is of one workbook: change each file before planning several.');
      }
      return planTogether(positionals, { json, csv }, io);
    }
    const opened = await openAndSet('plan', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    await provePlans(book, (one) => shopPlan(one, 'cell'));
    const shop = shopPlan(book, 'cell');
    const problems = [
      ...refused.map(({ cell, says }) => ({ cell, says })),
      ...problemsOf(book, shop),
    ];
    const report = reportOf(book, shop, problems);
    if (json) {
      printJson(io, report);
      return problems.length > 0 ? 1 : 0;
    }
    if (!csv) print(book, shop, report, io);
    else if (shop.plan !== undefined) {
      for (const line of csvText(buyingRows({ plan: shop.plan }, book))) io.out(line);
    }
    for (const { cell, says: why } of problems) io.err(cell === '' ? why : `${cell} ${why}`);
    return problems.length > 0 ? 1 : 0;
  },
};

interface Said {
  readonly cell: string;
  readonly says: string;
}

/** All there is to say of a plan; what concerns one cell with the cell. */
function problemsOf(book: Workbook, { missing, kerf, problems }: ShopPlan): readonly Said[] {
  const general = [
    ...missing.map(({ says }) => says),
    ...(kerf.says === undefined ? [] : [kerf.says]),
  ];
  return [
    ...general.map((says) => ({ cell: '', says })),
    ...problems.map(({ at, says }) => ({ cell: cellOf(book, at), says })),
  ];
}

const cents = (money: number): number => Number(money.toFixed(4));

function reportOf(book: Workbook, shop: ShopPlan, problems: readonly Said[]): PlanReport {
  const { groups = [], cost = 0, bound = 0, proven = false } = shop.plan ?? {};
  const boards = groups.flatMap((group) => group.boards);
  const complete = isWhole(shop);
  return {
    cost: cents(cost),
    bound: cents(bound),
    proven: proven && complete,
    complete,
    leftOut: [...shop.unread, ...shop.unplanned].map(({ at, what, says }) => ({
      cell: cellOf(book, at),
      what,
      says,
    })),
    none: shop.none,
    buy: groups.flatMap(({ buy }) =>
      buy.map(({ stock, count }) => ({
        stock: stock.name,
        length: ownLength(stock.length, book),
        count,
        price: cents(stock.price),
      })),
    ),
    boards: boards.map(({ stock, pieces, offcut }) => ({
      stock: stock.name,
      length: ownLength(stock.length, book),
      pieces: pieces.map(({ item, length, at, strips }) => ({
        part: item.name,
        length: ownLength(length, book),
        at: ownLength(at, book),
        strips,
      })),
      offcut: ownLength(offcut, book),
    })),
    sheets: groups.flatMap(({ panels }) =>
      panels.map(({ stock, pieces }) => ({
        stock: stock.name,
        length: ownLength(stock.length, book),
        width: ownLength(stock.width, book),
        pieces: pieces.map(({ item, x, y, length, width }) => ({
          part: item.name,
          x: ownLength(x, book),
          y: ownLength(y, book),
          length: ownLength(length, book),
          width: ownLength(width, book),
        })),
      })),
    ),
    problems,
  };
}

function print(book: Workbook, shop: ShopPlan, report: PlanReport, io: Io): void {
  const write = bookFormat(book);
  const money = (amount: number): string =>
    showValue(
      { kind: 'number', number: amount },
      { quantity: 'money', system: book.units, currency: book.currency },
    ).text;
  for (const { buy } of shop.plan?.groups ?? []) {
    for (const { stock, count } of buy) {
      io.out(`${count} × ${stockText(stock, write)}, ${money(stock.price)} each`);
    }
  }
  for (const group of shop.plan?.groups ?? []) {
    const name = group.material === '' ? 'Boards' : group.material;
    io.out(`${name}, ${write(group.thickness)} by ${write(group.width)}:`);
    for (const board of group.boards) io.out(`  ${boardText(board, write)}`);
    for (const panel of group.panels) io.out(`  ${panelText(panel, write)}`);
  }
  if (shop.none.length > 0) io.out(`None wanted (count 0): ${shop.none.join(', ')}.`);
  io.out(costSentence(shop, money));
  const { leftOut } = report;
  if (leftOut.length === 0) return;
  io.out(`Left out: ${leftOut.map(({ what }) => what).join('; ')}.`);
}

function panelText({ stock, pieces }: PlannedPanel, write: (mm: number) => string): string {
  const cuts = pieces.map(
    ({ item, length, width }) => `${item.name} ${write(length)} by ${write(width)}`,
  );
  return `${write(stock.length)} by ${write(stock.width)}: ${cuts.join(' | ')}`;
}

function boardText({ stock, pieces, offcut }: PlannedBoard, write: (mm: number) => string): string {
  const cuts = pieces.map(
    ({ item, length, strips }) =>
      `${strips > 1 ? `${strips} × ` : ''}${item.name} ${write(length)}`,
  );
  return `${write(stock.length)}: ${cuts.join(' | ')} | ${write(offcut)} left`;
}
