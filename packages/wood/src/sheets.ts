import { lengthOf, numberOf, optional, textOf } from './arguments.ts';
import { SHEET_GOODS, SHEET_SOURCE, type SheetGood } from './data/sheet-goods.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { leftOver, notNegative, oneOf, positive, upTo, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { MM_PER_INCH, usFromOwn } from './quantity.ts';
import { rests } from './rests.ts';

const LISTED = SHEET_GOODS.map(({ names: [first] }) => first);
const SHEET = textOf('sheet', `kind of board: ${LISTED.map((name) => `"${name}"`).join(', ')}`);
const AREA = numberOf('area', 'area', 'area of the piece, or of all pieces together');
const THICKNESS = lengthOf('thickness', 'thickness of the board as it is');
const NOMINAL = lengthOf('nominal', 'thickness it is sold as');
const DIRECTION = optional(
  textOf('direction', 'along or across the grain of its face: "along", "across"'),
  '"along"',
);
const BIRCH_THICKNESS = optional(
  lengthOf('thickness', 'thickness, on which that of birch plywood depends'),
  '18 mm',
);

const CUBIC_INCHES_PER_CUBIC_FOOT = 1728;
const THICKEST = 10;

function sheetOf(name: string): SheetGood {
  const takes = 'a kind of board of the list';
  const asked = words(SHEET, name, takes);
  const wanted = asked.toLowerCase();
  const found = SHEET_GOODS.find(({ names }) => names.some((one) => one.toLowerCase() === wanted));
  if (found !== undefined) return found;
  const known = SHEET_GOODS.flatMap(({ names }) => names);
  const kin = known.filter((one) => one.toLowerCase().includes(wanted));
  if (kin.length === 0) throw notKnown(SHEET, asked, takes, known);
  throw new Fault({
    class: 'unknown',
    argument: SHEET.name,
    got: asked,
    quantity: 'text',
    takes,
    problem: 'names more than one kind of board',
    hint: `It could be ${kin.map((one) => `"${one}"`).join(', ')}.`,
  });
}

/**
 * Weight of sheet goods as they come.
 * @param sheet a kind of board
 * @param area in²
 * @param thickness in, up to 10
 * @returns lb
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook table 12-1 (middle of its ranges of gravity, about a tenth of water on top where
 * the board takes it); birch plywood from memory.
 */
export function sheetWeight(sheet: string, area: number, thickness: number): number {
  const { names, density, densityHow, source, note } = sheetOf(sheet);
  rests({
    of: `${names[0]}: density in lb/ft³`,
    value: density,
    quantity: 'number',
    how: densityHow,
    source,
    ...(note === undefined ? {} : { note }),
  });
  const thick = upTo(THICKNESS, thickness, THICKEST);
  return (notNegative(AREA, area) * thick * density) / CUBIC_INCHES_PER_CUBIC_FOOT;
}

/** Between the rows of a list; the first and the last go on beyond it. */
function betweenRows(
  rows: NonNullable<SheetGood['byThickness']>,
  thick: number,
  column: 1 | 2,
): number {
  const next = rows.findIndex(([at]) => at >= thick);
  const upper = rows[next === -1 ? rows.length - 1 : next];
  const lower = rows[next === -1 ? rows.length - 1 : Math.max(0, next - 1)];
  if (upper === undefined || lower === undefined) return 0;
  if (upper === lower) return upper[column];
  const share = (thick - lower[0]) / (upper[0] - lower[0]);
  return lower[column] + share * (upper[column] - lower[column]);
}

function stiffnessOf(good: SheetGood, way: 'along' | 'across', thick: number): number | undefined {
  const figure = good[way];
  if (good.byThickness === undefined) return figure === undefined ? undefined : figure * 1e6;
  const metric = betweenRows(good.byThickness, thick * MM_PER_INCH, way === 'along' ? 1 : 2);
  return usFromOwn('pressure', metric, 'metric');
}

const USUAL_BIRCH = 18 / MM_PER_INCH;

/**
 * Stiffness of sheet goods in bending.
 * @param sheet a kind of board
 * @param direction "along" or "across" the grain of its face; along when left out
 * @param thickness in, which counts for birch plywood; 18 mm when left out
 * @returns psi
 * @throws Fault `kind`, `range`; `unknown`, also where no stiffness across is published
 * Source: see `SHEET_SOURCE`; the least of published ranges.
 */
export function sheetStiffness(
  sheet: string,
  direction = 'along',
  thickness: number = USUAL_BIRCH,
): number {
  const good = sheetOf(sheet);
  const thick = upTo(BIRCH_THICKNESS, thickness, THICKEST);
  const way = oneOf(DIRECTION, direction, ['along', 'across']);
  const stiffness = stiffnessOf(good, way, thick);
  if (stiffness !== undefined) {
    const { names, how, source, note } = good;
    rests({
      of: `${names[0]}: stiffness ${way} the face grain`,
      value: stiffness,
      quantity: 'pressure',
      how,
      source,
      ...(note === undefined ? {} : { note }),
    });
    return stiffness;
  }
  throw new Fault({
    class: 'unknown',
    argument: SHEET.name,
    got: good.names[0],
    quantity: 'text',
    takes: 'a board whose stiffness across is published',
    problem: 'has no published stiffness across its face grain',
    hint: 'It is a third of that along it, or less: lay the grain along the span.',
  });
}

/**
 * Thickness of a sheet by the name it is sold under.
 * @param sheet a kind of board
 * @param nominal in
 * @returns in: sanded plywood is 1/32 under its name in inches; other boards are what they say
 * @throws Fault `kind`, `unknown`; `range` for a sheet thinner than that
 * Source: pages of the trade, read.
 */
export function sheetThickness(sheet: string, nominal: number): number {
  const { under = 0 } = sheetOf(sheet);
  const taken = [{ argument: NOMINAL, value: under, times: 1 }];
  return leftOver(positive(NOMINAL, nominal), taken, 'a sheet is left');
}

export const SHEET_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SHEET_WEIGHT',
    task: 'Sheet goods',
    answers: 'What sheet goods weigh.',
    args: [SHEET, AREA, THICKNESS],
    result: { quantity: 'mass', means: 'weight' },
    source: SHEET_SOURCE,
    example: '=SHEET_WEIGHT("MDF", 48*96, 3/4)',
    notes:
      'Expect a tenth more or less. A sheet of MDF takes two to carry; its edges are sharp and its dust harms lungs.',
    run: sheetWeight,
  },
  {
    name: 'SHEET_STIFFNESS',
    task: 'Sheet goods',
    answers: 'How stiff sheet goods are in bending (modulus of elasticity).',
    args: [SHEET, DIRECTION, BIRCH_THICKNESS],
    result: {
      quantity: 'pressure',
      means: 'modulus of elasticity, the low end of what is published',
    },
    source: SHEET_SOURCE,
    example: '=SHEET_STIFFNESS("particleboard")',
    notes:
      'Use it where SAG_UNIFORM, SAG_POINT and SPAN_FOR_SAG ask for a species. The Architectural Woodwork Standards count 1,800,000 psi for plywood with hardwood faces; that is its face wood, and twice what is used here. Boards creep: see SAG_LASTING.',
    run: sheetStiffness,
  },
  {
    name: 'SHEET_THICKNESS',
    task: 'Sheet goods',
    answers: 'How thick a sheet sold as a nominal thickness really is.',
    args: [SHEET, NOMINAL],
    result: { quantity: 'length', means: 'thickness to expect' },
    source: 'pages of the trade, read: sanded plywood 1/32 in under its name, MDF within 0.005 in',
    example: '=SHEET_THICKNESS("hardwood plywood", 3/4)',
    notes:
      'Measure the sheet before you cut a groove for it. Birch plywood sold in millimeters is up to 0.9 mm under at 18 mm.',
    run: sheetThickness,
  },
];
