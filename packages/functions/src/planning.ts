import type { Board, Piece } from '@kerfbook/cutting';
import {
  type ArgumentDescription,
  Fault,
  type FunctionDescription,
  materialKind,
  type Quantity,
  type TableArgument,
  type TableColumn,
  type TableRow,
} from '@kerfbook/wood';
import { BUY_SOURCE, KERF, PLANNED, TRIM } from './buying.ts';
import { planner } from './planner.ts';

const column = (heads: string, quantity: Quantity, needed?: true): TableColumn =>
  needed === undefined ? { heads, quantity } : { heads, quantity, needed };

const PARTS: ArgumentDescription = {
  name: 'parts_table',
  means: 'the parts table with its heads',
  takes: 'table',
  quantity: 'text',
  columns: [
    column('part', 'text', true),
    column('count', 'count'),
    column('thickness', 'length', true),
    column('width', 'length', true),
    column('length', 'length', true),
    column('material', 'text'),
    column('grain', 'text'),
    column('boards', 'count'),
    column('board width', 'length'),
    column('board length', 'length'),
    column('board thickness', 'length'),
    column('layers', 'count'),
  ],
};

const STOCK: ArgumentDescription = {
  name: 'stock_table',
  means: 'the stock table with its heads',
  takes: 'table',
  quantity: 'text',
  columns: [
    column('material', 'text'),
    column('thickness', 'length', true),
    column('width', 'length', true),
    column('length', 'length', true),
    column('price', 'money', true),
    column('at hand', 'count'),
  ],
};

const ARGS = [PARTS, STOCK, KERF, TRIM];

type PlanArguments = readonly [
  parts: TableArgument,
  stock: TableArgument,
  kerf: number,
  endTrim: number | undefined,
];

/** Exact by definition (NIST SP 811, appendix B); the planner reckons in mm, as the cutting plan does. */
const MM_PER_INCH = 25.4;
/** Going to inches and back leaves noise in the last digits. */
const mm = (inches: number): number => Math.round(inches * MM_PER_INCH * 1e9) / 1e9;
/** Longest side taken, as in the cut list: 100 m. */
const LONGEST = 100_000;
/** Sizes that differ by less are the same, mm: what converting between units adds. */
const NEAR = 1e-3;

/** A row of the parts table: pieces, none, or some that cannot be read. */
type PartRow = Piece | 'none' | { readonly lost: number };

interface Planned {
  readonly cost: number;
  readonly bound: number;
  readonly leftOut: number;
}

function planned([parts, stock, kerf, endTrim = 0]: PlanArguments): Planned {
  checkCut(KERF.name, kerf);
  checkCut(TRIM.name, endTrim);
  const read = parts.rows.map((row) => readPart(row, parts.heads));
  const pieces = read.flatMap((one) => (one === 'none' || 'lost' in one ? [] : [one]));
  const lost = read.reduce(
    (sum, one) => (one === 'none' || !('lost' in one) ? sum : sum + one.lost),
    0,
  );
  const boards = stock.rows.flatMap(readBoard);
  const { cost, bound, homeless } = planner.planPieces(pieces, boards, {
    kerf: mm(kerf),
    endTrim: mm(endTrim),
    effort: 'cell',
    kindOf: materialKind,
  });
  const out = homeless.reduce((sum, { item }) => sum + item.count, 0);
  return { cost, bound, leftOut: lost + out };
}

function checkCut(argument: string, got: number): void {
  if (got >= 0) return;
  throw new Fault({ class: 'range', argument, got, quantity: 'length', takes: '0 or more' });
}

/** As the cut list reads it: a name alone is a heading, sizes without a name are lost. */
function readPart(row: TableRow, heads: readonly string[]): PartRow {
  const sizes = [row.thickness, row.width, row.length];
  if (row.part === undefined) return sizes.every((size) => size === undefined) ? 'none' : lost(1);
  if (Object.keys(row).length === 1) return 'none';
  const count = heads.includes('count') ? row.count : 1;
  if (typeof count !== 'number' || !Number.isSafeInteger(count) || count < 0) return lost(1);
  if (count === 0) return 'none';
  const [whole, width, length] = sizes.map(side);
  const grain = grainOf(row.grain);
  const { boards = 1, layers = 1 } = row;
  if (whole === undefined || width === undefined || length === undefined) return lost(count);
  if (typeof boards !== 'number' || !Number.isSafeInteger(boards) || boards < 1) return lost(count);
  if (typeof layers !== 'number' || !Number.isSafeInteger(layers) || layers < 1) return lost(count);
  if (grain === 'unknown') return lost(count);
  const each = count * layers;
  const about = {
    thickness: whole / layers,
    material: String(row.material ?? ''),
    ...(grain === undefined ? {} : { grain }),
  };
  if (boards === 1) return { ...about, count: each, width, length };
  const boardWidth = row['board width'] === undefined ? width / boards : side(row['board width']);
  const boardLength = row['board length'] === undefined ? length : side(row['board length']);
  const thick = row['board thickness'];
  const thickness = thick === undefined ? about.thickness : side(thick);
  if (boardWidth === undefined || boardLength === undefined) return lost(each * boards);
  if (thickness === undefined || thickness < about.thickness - NEAR) return lost(each * boards);
  return { ...about, count: each * boards, width: boardWidth, length: boardLength, thickness };
}

const lost = (pieces: number): PartRow => ({ lost: pieces });

function side(value: number | string | undefined): number | undefined {
  if (typeof value !== 'number') return undefined;
  const long = mm(value);
  return long > 0 && long <= LONGEST ? long : undefined;
}

function grainOf(value: number | string | undefined): 'length' | 'width' | 'unknown' | undefined {
  if (value === undefined) return undefined;
  const word = String(value).toLowerCase();
  if (word === 'none') return undefined;
  return word === 'length' || word === 'width' ? word : 'unknown';
}

/** A line of stock that cannot be read is chosen from by no plan. */
function readBoard(row: TableRow): Board[] {
  const [thickness, width, length] = [row.thickness, row.width, row.length].map((size) =>
    typeof size === 'number' && size > 0 ? mm(size) : undefined,
  );
  const { price } = row;
  const hand = row['at hand'];
  if (thickness === undefined || width === undefined || length === undefined) return [];
  if (typeof price !== 'number' || price < 0) return [];
  if (hand !== undefined && !(typeof hand === 'number' && hand >= 0)) return [];
  const atHand = hand === undefined ? {} : { atHand: Math.floor(hand) };
  return [{ material: String(row.material ?? ''), thickness, width, length, price, ...atHand }];
}

const EXAMPLE_PARTS =
  '{"part","count","thickness","width","length";"Shelf",4,0.75,5,30;"Side",2,0.75,5,48}';
const EXAMPLE_STOCK =
  '{"stock","thickness","width","length","price";"8 ft",0.75,5.5,96,9;"10 ft",0.75,5.5,120,12}';
const example = (name: string): string => `=${name}(${EXAMPLE_PARTS},${EXAMPLE_STOCK},1/8)`;

const NOTES =
  'Columns are known by their heads, as in the parts and stock sheets, and pieces are planned as in the cutting plan. Blank rows and rows with a count of 0 ask for nothing.';

/** Functions that price the cutting plan of a parts table and a stock table. */
export const PLANNING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PLAN_COST',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'What the boards cost that the cutting plan of a parts table buys.',
    args: ARGS,
    result: { quantity: 'money', means: 'cost of the boards, without pieces that are left out' },
    source: BUY_SOURCE,
    example: example('PLAN_COST'),
    notes: `${NOTES} Check PLAN_LEFT_OUT too: wood for pieces that fit no board is not in the cost.`,
    run: (...args: PlanArguments) => planned(args).cost,
  },
  {
    name: 'PLAN_BOUND',
    task: 'Buying and cutting',
    ...PLANNED,
    answers:
      'A cost that no cutting plan of the table can be under: equal to PLAN_COST where that is proven cheapest.',
    args: ARGS,
    result: { quantity: 'money', means: 'proven lower bound of the cost' },
    source: BUY_SOURCE,
    example: example('PLAN_BOUND'),
    notes: NOTES,
    run: (...args: PlanArguments) => planned(args).bound,
  },
  {
    name: 'PLAN_LEFT_OUT',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'How many pieces of a parts table the cutting plan has to leave out; 0 for none.',
    args: ARGS,
    result: { quantity: 'count', means: 'pieces that fit no board, or cannot be read' },
    source: 'Counts what the cutting plan lists as left out.',
    example: example('PLAN_LEFT_OUT'),
    notes: NOTES,
    run: (...args: PlanArguments) => planned(args).leftOut,
  },
];
