import type { SheetPart, SheetsPlan } from '@kerfbook/cutting';
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
const length = (name: string, means: string): ArgumentDescription => ({
  name,
  means,
  takes: 'number',
  quantity: 'length',
});

const LENGTHS = range('part_lengths', 'length', 'finished lengths, along the grain, a cell each');
const WIDTHS = range('part_widths', 'length', 'finished widths, as many cells');
const COUNTS = range('part_counts', 'count', 'how many of each, as many cells');
const SHEET_LENGTH = length('sheet_length', 'length of a sheet, along its grain');
const SHEET_WIDTH = length('sheet_width', 'width of a sheet');
const KERF: ArgumentDescription = {
  ...length('kerf', 'width of a saw cut'),
  missing: "How wide is your saw's kerf? Type it in the cell that the formula takes it from.",
};
const TRIM: ArgumentDescription = {
  ...length('edge_trim', 'cut off each of the four edges of each sheet'),
  optional: true,
  leftOut: '0',
};
const TURNS: ArgumentDescription = {
  name: 'grain',
  means: '"kept" where the parts follow the grain of the sheet, "free" where they may lie across',
  takes: 'text',
  quantity: 'text',
  optional: true,
  leftOut: '"kept"',
};

type SheetArguments = readonly [
  lengths: RangeArgument,
  widths: RangeArgument,
  counts: RangeArgument,
  sheetLength: number,
  sheetWidth: number,
  kerf: number,
  trim: number | undefined,
  grain: string | undefined,
];

function planned(args: SheetArguments): SheetsPlan {
  const [lengths, widths, counts, sheetLength, sheetWidth, kerf, trim = 0, grain = 'kept'] = args;
  const word = grain.trim().toLowerCase();
  if (word !== 'kept' && word !== 'free') refuse(TURNS, grain, '"kept" or "free"');
  for (const [argument, value] of [
    [SHEET_LENGTH, sheetLength],
    [SHEET_WIDTH, sheetWidth],
  ] as const)
    if (!(value > 0)) refuse(argument, value, 'a length above 0');
  if (!(kerf >= 0)) refuse(KERF, kerf, '0 or more');
  if (!(trim >= 0)) refuse(TRIM, trim, '0 or more');
  const parts = partsOf(lengths, widths, counts, word === 'free');
  for (const part of parts) checkFits(part, sheetLength - 2 * trim, sheetWidth - 2 * trim);
  return planner.planSheets({
    parts,
    sheets: [{ length: sheetLength, width: sheetWidth, price: 1 }],
    kerf,
    edgeTrim: trim,
    effort: 'cell',
  });
}

function partsOf(
  lengths: RangeArgument,
  widths: RangeArgument,
  counts: RangeArgument,
  mayTurn: boolean,
) {
  for (const [argument, cells] of [
    [WIDTHS, widths],
    [COUNTS, counts],
  ] as const) {
    if (cells.length !== lengths.length)
      refuse(argument, cells.length, `as many cells as part_lengths: ${lengths.length}`, 'count');
  }
  return lengths.flatMap((value, i) => {
    const given = [value, widths[i], counts[i]] as const;
    if (given.every((one) => one === undefined)) return [];
    const [long, wide, count] = [LENGTHS, WIDTHS, COUNTS].map((argument, at) => {
      const one = given[at];
      if (one === undefined) return refuse(argument, undefined, `a number in cell ${i + 1}`);
      if (argument === COUNTS ? !(Number.isSafeInteger(one) && one >= 0) : !(one > 0))
        return refuse(
          argument,
          one,
          argument === COUNTS ? 'whole numbers, 0 or more' : 'sizes above 0',
        );
      return one;
    }) as [number, number, number];
    return [{ key: `part ${i + 1}`, length: long, width: wide, count, mayTurn }];
  });
}

/** A part that no sheet gives is said in the workbook's unit, which the planner does not know. */
function checkFits({ key, length, width, count, mayTurn }: SheetPart, long: number, wide: number) {
  const lies = (a: number, b: number): boolean => a <= long + 1e-4 && b <= wide + 1e-4;
  if (count === 0 || lies(length, width) || (mayTurn === true && lies(width, length))) return;
  const tooLong = length > long && !(mayTurn === true && length <= wide);
  const argument = tooLong ? LENGTHS : WIDTHS;
  throw new Fault({
    class: 'range',
    argument: `${argument.name}, number ${key.replace('part ', '')},`,
    got: tooLong ? length : width,
    quantity: 'length',
    takes: 'up to {n}, what a sheet gives that way',
    bounds: [Math.max(0, tooLong ? long : wide)],
    hint: 'Take a larger sheet, or make the part smaller.',
  });
}

function refuse(
  argument: ArgumentDescription,
  got: number | string | undefined,
  takes: string,
  quantity = argument.quantity,
): never {
  const kind = got === undefined ? 'kind' : typeof got === 'string' ? 'unknown' : 'range';
  throw new Fault({ class: kind, argument: argument.name, got, quantity, takes });
}

const ARGS = [LENGTHS, WIDTHS, COUNTS, SHEET_LENGTH, SHEET_WIDTH, KERF, TRIM, TURNS];
const SOURCE =
  'cutting from edge to edge, in several hundred orders; a search, with a bound by area and by pieces; checked against public instances';
const NOTES =
  'Every cut goes from edge to edge, as on a panel saw. A sheet is heavy and wide: have help, or cut it down on the floor first.';
const EXAMPLE = (name: string): string => `=${name}({30;23.25;30},{15;15;11.25},{4;6;4},96,48,1/8)`;
/** A plan costs more than most calls. */
const PLANNED = { steps: 20_000 } as const;

/** What sheets a job takes, in a cell. */
export const SHEET_BUYING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SHEETS_COUNT',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'How many sheets of one size every rectangular part can be cut from.',
    args: ARGS,
    result: { quantity: 'count', means: 'sheets' },
    source: SOURCE,
    example: EXAMPLE('SHEETS_COUNT'),
    notes: `SHEETS_BOUND says what no plan can be under: where the two are the same, none is better. ${NOTES}`,
    run: (...args: SheetArguments) => planned(args).sheets.length,
  },
  {
    name: 'SHEETS_BOUND',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'How many sheets no plan can be under.',
    args: ARGS,
    result: { quantity: 'count', means: 'proven lower bound of the sheets' },
    source: SOURCE,
    example: EXAMPLE('SHEETS_BOUND'),
    run: (...args: SheetArguments) => planned(args).bound,
  },
  {
    name: 'SHEETS_WASTE',
    task: 'Buying and cutting',
    ...PLANNED,
    answers: 'What share of the sheets bought is not in a part.',
    args: ARGS,
    result: { quantity: 'ratio', means: '0 to 1: offcuts, saw cuts and trim' },
    source: SOURCE,
    example: EXAMPLE('SHEETS_WASTE'),
    notes: NOTES,
    run: (...args: SheetArguments) => {
      const { sheets } = planned(args);
      const area = (of: readonly { readonly length: number; readonly width: number }[]): number =>
        of.reduce((sum, one) => sum + one.length * one.width, 0);
      const bought = area(sheets);
      return bought > 0 ? 1 - area(sheets.flatMap(({ parts }) => parts)) / bought : 0;
    },
  },
];
