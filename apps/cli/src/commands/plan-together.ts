import { keepFurther, plansAskedIn } from '@kerfbook/cutting';
import { provePlan } from '@kerfbook/cutting/proof';
import {
  bookFormat,
  type JointItem,
  type JointJob,
  type JointPlan,
  jointPlan,
  markOf,
  type StockItem,
  savedSentence,
} from '@kerfbook/drawing';
import { csvText } from '@kerfbook/interchange';
import { showValue, type Workbook } from '@kerfbook/workbook';
import type { ExitCode, Io } from '../io.ts';
import { ownLength } from '../lengths.ts';
import { openBooks } from '../open.ts';
import { cellOf, type Plain } from '../values.ts';
import { printJson } from '../visible.ts';

interface Printed {
  readonly json: boolean;
  readonly csv: boolean;
}

/** `plan` of several files: one buying list and one cutting plan over all of them. */
export async function planTogether(
  paths: readonly string[],
  how: Printed,
  io: Io,
): Promise<ExitCode> {
  const books = await openBooks(paths, io);
  if (books === undefined) return 2;
  const jobs = books.map(
    (source, i): JointJob => ({ mark: markOf(i), title: source.title, source }),
  );
  for (const { job, plan, state } of plansAskedIn(() => jointPlan(jobs, 'cell'))) {
    if (state === 'open') keepFurther(job, await provePlan(job), plan);
  }
  const joint = jointPlan(jobs, 'cell');
  if (!joint.ok) {
    io.err(joint.says);
    return 1;
  }
  const [first] = books as [Workbook];
  if (how.json) printJson(io, jsonOf(books, joint, first));
  else if (how.csv) for (const line of csvText(buyingRows(joint, first))) io.out(line);
  else print(jobs, joint, first, io);
  for (const note of [joint.kerf.says, ...joint.notes, ...joint.priceNotes])
    if (note !== undefined) io.err(note);
  for (const { job, what, says, at } of joint.leftOut) {
    const book = books[job];
    const cell = at === undefined || book === undefined ? '' : ` (${cellOf(book, at)})`;
    // What is left out begins with the mark of its job.
    io.err(`${what}${cell}: ${says}`);
  }
  return joint.leftOut.length > 0 || joint.kerf.says !== undefined ? 1 : 0;
}

const cents = (money: number): number => Number(money.toFixed(4));

/** The buying list as rows under heads; lengths in the unit of the first workbook. */
export function buyingRows(
  { plan }: Pick<JointPlan, 'plan'>,
  book: Workbook,
): readonly (readonly Plain[])[] {
  const own = (mm: number): number => ownLength(mm, book);
  return [
    ['count', 'stock', 'material', 'thickness', 'width', 'length', 'price', 'total'],
    ...plan.groups.flatMap(({ buy }) =>
      buy.map(({ stock, count }) => [
        count,
        stock.name,
        stock.material,
        own(stock.thickness),
        own(stock.width),
        own(stock.length),
        cents(stock.price),
        cents(count * stock.price),
      ]),
    ),
  ];
}

function jsonOf(books: readonly Workbook[], joint: JointPlan, first: Workbook) {
  const { plan, boards, apart, isApart, kerf, endTrim, notes, priceNotes, leftOut } = joint;
  const own = (mm: number): number => ownLength(mm, first);
  const titleOf = (job: number): string => books[job]?.title ?? '';
  const piece = (item: JointItem) => ({
    job: markOf(item.job),
    part: item.name.replace(/^\S+ /, ''),
  });
  return {
    jobs: books.map(({ title }, i) => ({
      job: markOf(i),
      title,
      costApart: cents(apart.costs[i] ?? 0),
    })),
    cost: cents(plan.cost),
    bound: cents(plan.bound),
    proven: plan.proven && leftOut.length === 0 && kerf.says === undefined,
    complete: leftOut.length === 0 && kerf.says === undefined,
    boardsBought: boards,
    apart: { cost: cents(apart.cost), boards: apart.boards },
    together: !isApart,
    kerf: own(kerf.mm),
    endTrim: own(endTrim.mm),
    notes: [...notes, ...priceNotes],
    leftOut: leftOut.map(({ job, what, says, at }) => ({
      job: markOf(job),
      title: titleOf(job),
      ...(at === undefined || books[job] === undefined ? {} : { cell: cellOf(books[job], at) }),
      what,
      says,
    })),
    buy: plan.groups.flatMap(({ buy }) =>
      buy.map(({ stock, count }) => ({
        stock: stock.name,
        material: stock.material,
        thickness: own(stock.thickness),
        width: own(stock.width),
        length: own(stock.length),
        count,
        price: cents(stock.price),
      })),
    ),
    boards: plan.groups.flatMap((group) =>
      group.boards.map(({ stock, pieces, offcut }) => ({
        stock: stock.name,
        length: own(stock.length),
        pieces: pieces.map(({ item, length, at, strips }) => ({
          ...piece(item as JointItem),
          length: own(length),
          at: own(at),
          strips,
        })),
        offcut: own(offcut),
      })),
    ),
    sheets: plan.groups.flatMap(({ panels }) =>
      panels.map(({ stock, pieces }) => ({
        stock: stock.name,
        length: own(stock.length),
        width: own(stock.width),
        pieces: pieces.map(({ item, x, y, length, width }) => ({
          ...piece(item as JointItem),
          x: own(x),
          y: own(y),
          length: own(length),
          width: own(width),
        })),
      })),
    ),
  };
}

/** A line of stock as it is asked for: its name need not say its size. */
export const stockText = (
  { name, thickness, width, length }: StockItem,
  write: (mm: number) => string,
): string =>
  `${name === '' ? 'board' : name}, ${[thickness, width, length].map(write).join(' × ')}`;

function print(jobs: readonly JointJob[], joint: JointPlan, first: Workbook, io: Io): void {
  const write = bookFormat(first);
  const money = (amount: number): string =>
    showValue(
      { kind: 'number', number: amount },
      { quantity: 'money', system: first.units, currency: first.currency },
    ).text;
  for (const { mark, title } of jobs) io.out(`${mark}: ${title}`);
  for (const { buy } of joint.plan.groups) {
    for (const { stock, count } of buy) {
      const price = stock.price === 0 ? 'at hand' : `${money(stock.price)} each`;
      io.out(`${count} × ${stockText(stock, write)}, ${price}`);
    }
  }
  for (const { material, thickness, width, boards, panels } of joint.plan.groups) {
    io.out(`${material === '' ? 'Boards' : material}, ${write(thickness)} by ${write(width)}:`);
    for (const { stock, pieces, offcut } of boards) {
      const cuts = pieces.map(
        ({ item, length, strips }) =>
          `${strips > 1 ? `${strips} × ` : ''}${item.name} ${write(length)}`,
      );
      io.out(`  ${write(stock.length)}: ${cuts.join(' | ')} | ${write(offcut)} left`);
    }
    for (const { stock, pieces } of panels) {
      const cuts = pieces.map(
        ({ item, length, width: wide }) => `${item.name} ${write(length)} by ${write(wide)}`,
      );
      io.out(`  ${write(stock.length)} by ${write(stock.width)}: ${cuts.join(' | ')}`);
    }
  }
  const sure = joint.plan.proven ? ', proven cheapest cut this way' : '';
  io.out(`${money(joint.plan.cost)} for all of them${sure}.`);
  io.out(savedSentence(joint, money));
}
