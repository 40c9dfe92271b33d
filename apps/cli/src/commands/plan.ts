import {
  type BuyingPlan,
  bookFormat,
  buyingPlan,
  cutList,
  mmFromOwn,
  type PlannedBoard,
  type PlannedPanel,
  readParts,
  readStock,
} from '@kerfbook/drawing';
import { showValue, type Workbook } from '@kerfbook/workbook';
import { readArguments } from '../arguments.ts';
import type { Io } from '../io.ts';
import { ownLength } from '../lengths.ts';
import { openAndSet } from '../open-set.ts';
import { cellOf } from '../values.ts';
import type { Command } from './command.ts';

/** What `plan --json` prints; lengths in the workbook's own unit, money in its currency. */
export interface PlanReport {
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly proven: boolean;
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

/** `plan`: what to buy, how to cut it, what that costs, and a cost that no plan can be under. */
export const planCommand: Command = {
  name: 'plan',
  usage: 'plan FILE [--set name=entry]… [--json]',
  does: 'prints the buying and cutting plan, its cost and the proven lower bound',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    });
    const opened = await openAndSet('plan', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const { plan, says } = planOf(book);
    const problems = [...refused.map(({ cell, says: why }) => ({ cell, says: why })), ...says];
    const report = reportOf(book, plan, problems);
    if (values.json === true) {
      io.out(JSON.stringify(report, null, 2));
      return problems.length > 0 ? 1 : 0;
    }
    print(book, plan, report, io);
    for (const { cell, says: why } of problems) io.err(cell === '' ? why : `${cell} ${why}`);
    return problems.length > 0 ? 1 : 0;
  },
};

interface Said {
  readonly cell: string;
  readonly says: string;
}

function planOf(book: Workbook): { readonly plan: BuyingPlan; readonly says: readonly Said[] } {
  const reading = readParts(book);
  const stock = readStock(book);
  const kerf = book.named('kerf')?.value;
  const plan = buyingPlan(cutList(reading.parts).items, stock.stock, {
    kerf: kerf?.kind === 'number' ? mmFromOwn(kerf.number, book.units) : 0,
    format: bookFormat(book),
  });
  const says = [
    ...(reading.found ? [] : [{ cell: '', says: 'This workbook has no parts table.' }]),
    ...(stock.found ? [] : [{ cell: '', says: 'This workbook has no stock table to buy from.' }]),
    ...(kerf?.kind === 'number'
      ? []
      : [{ cell: '', says: 'No cell is named kerf: the plan reckons with saw cuts of no width.' }]),
    ...[...reading.problems, ...stock.problems, ...(stock.found ? plan.problems : [])].map(
      ({ at, says: why }) => ({
        cell: cellOf(book, at),
        says: why,
      }),
    ),
  ];
  return { plan, says };
}

const cents = (money: number): number => Number(money.toFixed(4));

function reportOf(book: Workbook, plan: BuyingPlan, problems: readonly Said[]): PlanReport {
  const boards = plan.groups.flatMap((group) => group.boards);
  return {
    cost: cents(plan.cost),
    bound: cents(plan.bound),
    proven: plan.proven,
    buy: plan.groups.flatMap(({ buy }) =>
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
    sheets: plan.groups.flatMap(({ panels }) =>
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

function print(book: Workbook, plan: BuyingPlan, report: PlanReport, io: Io): void {
  const write = bookFormat(book);
  const money = (amount: number): string =>
    showValue(
      { kind: 'number', number: amount },
      { quantity: 'money', system: book.units, currency: book.currency },
    ).text;
  for (const { stock, count, price } of report.buy) {
    io.out(`${count} × ${stock === '' ? 'board' : stock}, ${money(price)} each`);
  }
  for (const group of plan.groups) {
    const name = group.material === '' ? 'Boards' : group.material;
    io.out(`${name}, ${write(group.thickness)} by ${write(group.width)}:`);
    for (const board of group.boards) io.out(`  ${boardText(board, write)}`);
    for (const panel of group.panels) io.out(`  ${panelText(panel, write)}`);
  }
  const gap = plan.cost === 0 ? 0 : ((plan.cost - plan.bound) / plan.cost) * 100;
  io.out(
    plan.proven
      ? `${money(plan.cost)} in all: proven, no plan of this stock costs less.`
      : `${money(plan.cost)} in all: at most ${gap.toFixed(1)} % above the cheapest possible, which costs ${money(plan.bound)} or more.`,
  );
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
