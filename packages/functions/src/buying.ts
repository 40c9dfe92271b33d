import { CuttingFault, type LengthsJob, type LengthsPlan } from '@kerfbook/cutting';
import {
  type ArgumentDescription,
  Fault,
  type FunctionDescription,
  type Quantity,
  type RangeArgument,
} from '@kerfbook/wood';
import { planner } from './planner.ts';

const range = (name: string, quantity: Quantity, means: string): ArgumentDescription => ({
  name,
  means,
  takes: 'range',
  quantity,
});

const PARTS = range('part_lengths', 'length', 'finished lengths, a cell each');
const COUNTS = range('part_counts', 'count', 'how many of each, as many cells');
const STOCK = range('stock_lengths', 'length', 'lengths the store has, a cell each');
const PRICES = range('stock_prices', 'money', 'what one of each costs, as many cells');
/** The saw's cut, as every function that plans takes it. */
export const KERF: ArgumentDescription = {
  name: 'kerf',
  means: 'width of a saw cut',
  takes: 'number',
  quantity: 'length',
  missing: "How wide is your saw's kerf? Type it in the cell that the formula takes it from.",
};
/** Where another argument follows it, it cannot be left out. */
const NEEDED_TRIM: ArgumentDescription = {
  name: 'end_trim',
  means: 'cut off each end of each board; 0 for none',
  takes: 'number',
  quantity: 'length',
};
/** What is cut off the ends of boards, as every function that plans takes it. */
export const TRIM: ArgumentDescription = {
  ...NEEDED_TRIM,
  means: 'cut off each end of each board',
  optional: true,
  leftOut: '0',
};
const WIDTHS = range('widths', 'length', 'widths of the boards on the rack, a cell each');
const TARGET: ArgumentDescription = {
  name: 'target',
  means: 'width of the panel',
  takes: 'number',
  quantity: 'length',
};
const LOSS: ArgumentDescription = {
  name: 'joint_loss',
  means: 'what each glue joint takes off',
  takes: 'number',
  quantity: 'length',
  optional: true,
  leftOut: '0',
};

type BuyArguments = readonly [
  parts: RangeArgument,
  counts: RangeArgument,
  stock: RangeArgument,
  prices: RangeArgument,
  kerf: number,
  endTrim: number | undefined,
];

/** The planner keeps its last plans, so that four functions of one table make one plan. */
const planned = (args: BuyArguments): LengthsPlan => planner.planLengths(requestOf(args));

function requestOf([lengths, counts, stock, prices, kerf, endTrim]: BuyArguments): LengthsJob {
  const parts = paired(PARTS, lengths, COUNTS, counts).map(([length, count], i) => {
    checkPositive(PARTS, length);
    if (!(Number.isSafeInteger(count) && count >= 0))
      refuse(COUNTS, count, 'whole numbers, 0 or more');
    return { key: `part ${i + 1}`, length, count };
  });
  const boards = paired(STOCK, stock, PRICES, prices).map(([length, price]) => {
    checkPositive(STOCK, length);
    if (!(price >= 0)) refuse(PRICES, price, 'prices, 0 or more');
    return { length, price };
  });
  if (boards.length === 0) refuse(STOCK, undefined, 'at least one length');
  if (!(kerf >= 0)) refuse(KERF, kerf, '0 or more');
  if (endTrim !== undefined && !(endTrim >= 0)) refuse(TRIM, endTrim, '0 or more');
  // The trim comes off each end.
  const longest = Math.max(...boards.map(({ length }) => length)) - 2 * (endTrim ?? 0);
  for (const [i, { length, count }] of parts.entries()) {
    if (count > 0 && length > longest + 1e-4) {
      throw new Fault({
        class: 'range',
        argument: `${PARTS.name}, number ${i + 1},`,
        got: length,
        quantity: 'length',
        takes: 'up to {n}, what the longest board gives',
        bounds: [longest],
        hint: 'Add a longer board to stock_lengths, or make the part shorter.',
      });
    }
  }
  return { parts, stock: boards, kerf, endTrim: endTrim ?? 0, effort: 'cell' };
}

/** Two ranges cell by cell; where both are empty there is nothing. */
function paired(
  one: ArgumentDescription,
  ones: RangeArgument,
  other: ArgumentDescription,
  others: RangeArgument,
): (readonly [number, number])[] {
  if (ones.length !== others.length) {
    refuse(other, others.length, `as many cells as ${one.name}: ${ones.length}`, 'count');
  }
  return ones.flatMap((value, i) => {
    const beside = others[i];
    if (value === undefined && beside === undefined) return [];
    if (value === undefined) return refuse(one, undefined, `a number in cell ${i + 1}`);
    if (beside === undefined) return refuse(other, undefined, `a number in cell ${i + 1}`);
    return [[value, beside] as const];
  });
}

function checkPositive(argument: ArgumentDescription, value: number): void {
  if (!(value > 0)) refuse(argument, value, 'lengths above 0');
}

function refuse(
  argument: ArgumentDescription,
  got: number | undefined,
  takes: string,
  quantity = argument.quantity,
): never {
  const kind = got === undefined ? 'kind' : 'range';
  throw new Fault({ class: kind, argument: argument.name, got, quantity, takes });
}

/** How plans are found, and against what they are checked. */
export const BUY_SOURCE =
  'Cutting stock by column generation (Gilmore and Gomory 1961, value from memory) with a search; optima checked against public instances (BPPLIB).';
const BUY_ARGS = [PARTS, COUNTS, STOCK, PRICES, KERF, TRIM];
const NOTES =
  'A saw cut lies between neighboring parts, and behind the last where something remains.';

const picked = (widths: RangeArgument, target: number, loss: number | undefined) => {
  const boards = widths.flatMap((width) => (width === undefined ? [] : [width]));
  for (const width of boards) if (!(width > 0)) refuse(WIDTHS, width, 'widths above 0');
  if (!(target > 0)) refuse(TARGET, target, 'a width above 0');
  if (loss !== undefined && !(loss >= 0)) refuse(LOSS, loss, '0 or more');
  if (boards.length > 60) refuse(WIDTHS, boards.length, 'up to 60 boards', 'count');
  try {
    return planner.pickBoards(boards, target, loss ?? 0);
  } catch (error) {
    if (!(error instanceof CuttingFault) || error.code !== 'not-enough') throw error;
    return refuse(TARGET, target, 'what all boards glued together reach; add boards to the range');
  }
};

/** One small cut list and one small store, so that the examples of the buying functions can be compared. */
const EXAMPLE = (name: string, more = ''): string =>
  `=${name}({30;22;17},{6;4;5},{96;120},{8.5;11},1/8,0${more})`;

/** A plan costs more than most calls. */
const PICKED = { steps: 5_000 } as const;
/** The same for plans of boards, which may be looked for further. */
export const PLANNED = { ...PICKED, plans: true } as const;

/** The buying functions, described as all functions are; they take ranges. */
export const BUYING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'BUY_COST',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'Least cost of store lengths from which every part can be cut.',
    args: BUY_ARGS,
    result: { quantity: 'money', means: 'cost of the boards' },
    source: BUY_SOURCE,
    example: EXAMPLE('BUY_COST'),
    notes: NOTES,
    run: (...args: BuyArguments) => planned(args).cost,
  },
  {
    name: 'BUY_COUNT',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'How many boards of one store length the cheapest plan buys.',
    args: [
      ...BUY_ARGS.slice(0, 5),
      NEEDED_TRIM,
      { name: 'stock_length', means: 'which store length', takes: 'number', quantity: 'length' },
    ],
    result: { quantity: 'count', means: 'boards of that length' },
    source: BUY_SOURCE,
    example: EXAMPLE('BUY_COUNT', ',96'),
    notes: NOTES,
    run: (...[parts, counts, stock, prices, kerf, trim, wanted]: [...BuyArguments, number]) => {
      const { boards } = planned([parts, counts, stock, prices, kerf, trim]);
      const known = stock.some((one) => one !== undefined && Math.abs(one - wanted) < 1e-6);
      if (!known) {
        throw new Fault({
          class: 'range',
          argument: 'stock_length',
          got: wanted,
          quantity: 'length',
          takes: 'one of stock_lengths',
        });
      }
      return boards.filter(({ length }) => Math.abs(length - wanted) < 1e-6).length;
    },
  },
  {
    name: 'BUY_BOUND',
    task: 'Buying and cutting',
    ...PLANNED,
    answers:
      'A cost that no plan can be under: equal to BUY_COST where the plan is proven cheapest.',
    args: BUY_ARGS,
    result: { quantity: 'money', means: 'proven lower bound of the cost' },
    source: BUY_SOURCE,
    example: EXAMPLE('BUY_BOUND'),
    notes: NOTES,
    run: (...args: BuyArguments) => planned(args).bound,
  },
  {
    name: 'BUY_WASTE',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'Share of the length bought that is left over as offcuts.',
    args: BUY_ARGS,
    result: { quantity: 'ratio', means: '0 to 1' },
    source: BUY_SOURCE,
    example: EXAMPLE('BUY_WASTE'),
    notes: NOTES,
    run: (...args: BuyArguments) => planned(args).totals.offcutShare,
  },
  {
    name: 'BOARDS_PICK_WIDTH',
    formerly: 'STAVES_PICK_WIDTH',
    task: 'Panel glue-up',
    ...PICKED,
    answers: 'Width of the panel from the boards on the rack that leave the least over.',
    args: [WIDTHS, TARGET, LOSS],
    result: { quantity: 'length', means: 'width after jointing, at least the target' },
    source: 'Subset sum, solved exactly; checked against every choice for small racks.',
    example: '=BOARDS_PICK_WIDTH({5;6.5;4.25;7},15,1/16)',
    run: (widths: RangeArgument, target: number, loss: number | undefined) =>
      picked(widths, target, loss).width,
  },
  {
    name: 'BOARDS_PICK',
    formerly: 'STAVES_PICK',
    fills: 'column',
    task: 'Panel glue-up',
    ...PICKED,
    answers: 'Which boards on the rack to glue: 1 for each one used, 0 for the others.',
    args: [WIDTHS, TARGET, LOSS],
    result: { quantity: 'count', means: 'a column of 1s and 0s, a cell for each board' },
    source: 'Subset sum, solved exactly; checked against every choice for small racks.',
    example: '=BOARDS_PICK({5;6.5;4.25;7},15,1/16)',
    notes:
      'At least the target with the least left over, the fewest boards on a tie; up to 60 boards.',
    run: (widths: RangeArgument, target: number, loss: number | undefined) => {
      const { picked: taken } = picked(widths, target, loss);
      let next = 0;
      // Cells that hold no board stay in the column, so that it lies beside the range.
      return widths.map((width) => (width === undefined ? 0 : taken[next++] === true ? 1 : 0));
    },
  },
];

/** A fault of the planner that no argument's check foresaw, as a sentence. */
export const cuttingSentence = (error: unknown): string | undefined =>
  error instanceof CuttingFault ? error.message : undefined;
