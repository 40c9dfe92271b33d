import { guidePage, plainText, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, documentOf, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { checkOf, numberIn } from './dining-table-book.ts';
import { up, wordOf } from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';

/**
 * lb/ft³ and psi along the face: Wood Handbook, table 12-1 (its middle gravity and least stiffness); hardwood plywood
 * by the Architectural Woodwork Standards (2009) for Douglas-fir veneer core, its weight from memory.
 */
const SHEETS: Readonly<Record<string, { density: number; stiffness: number; creep: number }>> = {
  'hardwood plywood': { density: 38, stiffness: 950_000, creep: 2 },
  MDF: { density: 47, stiffness: 520_000, creep: 3.25 },
  particleboard: { density: 44, stiffness: 400_000, creep: 3.25 },
};

const sheetOf = (kind: string): { density: number; stiffness: number; creep: number } => {
  const sheet = SHEETS[kind];
  if (sheet === undefined) throw new Error(`no figures for ${kind}`);
  return sheet;
};

/** Of a sheet of 3/4 in and of one of 1/4 in, as the price list of the template says them; they are invented. */
const PRICES: Readonly<Record<string, readonly [thick: number, back: number]>> = {
  'hardwood plywood': [88, 38],
  MDF: [48, 22],
  particleboard: [36, 18],
};

/** Length along the grain, width and how many. */
type Piece = readonly [length: number, width: number, count: number];

interface Cabinet {
  readonly results: Readonly<Record<string, number>>;
  /** What is cut from the thick sheet. */
  readonly pieces: readonly Piece[];
}

/** What a cabinet comes to by its inputs alone, in the units of the us. */
function cabinetOf(inputs: Inputs): Cabinet {
  const at = (name: string): number => numberOf(inputs, name);
  const isBase = wordOf(inputs, 'cabinet') === 'base';
  const thick = at('sheet_thickness');
  const [sheet, backSheet] = [wordOf(inputs, 'sheet'), wordOf(inputs, 'back_sheet')].map(sheetOf);
  const kick = isBase ? at('kick_height') : 0;
  const tall = at('case_height') - kick;
  const side = at('case_depth') - at('band_thickness');
  const clear = at('case_width') - 2 * thick;
  const deep = side - at('back_thickness');
  const long = clear + 2 * at('rabbet_depth');
  const back = clear + 2 * at('back_rabbet');
  const inside = tall - 2 * thick;
  const shelf = [clear - 2 * at('shelf_play'), deep - at('shelf_back')] as const;
  const kickEnd = deep - 2 * at('kick_back') - 2 * thick;
  const whole: readonly Piece[] = [
    [long, deep, isBase ? 1 : 2],
    [tall, side, 2],
    [clear, at('nailer_width'), isBase ? 1 : 2],
    [shelf[0], shelf[1], at('shelf_count')],
  ];
  const below: readonly Piece[] = isBase
    ? [
        [long, at('stretcher_width'), 2],
        [at('case_width'), at('kick_height'), 2],
        [kickEnd, at('kick_height'), 2],
      ]
    : [];
  const pieces = [...whole, ...below].filter(([, , count]) => count > 0);
  const area = pieces.reduce((sum, [length, width, count]) => sum + length * width * count, 0);
  const load = at('shelf_load');
  const { stiffness = Number.NaN, creep = Number.NaN, density = Number.NaN } = sheet ?? {};
  const sag = (5 * load * clear ** 4) / (384 * stiffness * ((shelf[1] * thick ** 3) / 12));
  // What is banded is seen: bottom, top and stretcher run out to the bottom of their rabbets.
  const band = 2 * tall + 2 * (clear + 2 * at('rabbet_depth')) + at('shelf_count') * shelf[0];
  const rolls = up((band * (1 + at('band_spare') / 100)) / at('band_roll'));
  const backWeight = back * tall * at('back_thickness') * (backSheet?.density ?? Number.NaN);
  return {
    pieces,
    results: {
      kick_used: kick,
      box_height: tall,
      side_width: side,
      clear_width: clear,
      bottom_depth: deep,
      bottom_length: long,
      back_width: back,
      inside_height: inside,
      kick_end: kickEnd,
      shelf_length: shelf[0],
      shelf_depth: shelf[1],
      shelf_space: (inside - at('shelf_count') * thick) / (at('shelf_count') + 1),
      pin_from_end: (tall - (at('pin_holes') - 1) * at('pin_spacing')) / 2,
      pin_count: 4 * at('shelf_count'),
      case_weight: (area * thick * density + backWeight) / 1728,
      sheet_weight: (at('sheet_length') * at('sheet_width') * thick * density) / 1728,
      band_length: band,
      band_rolls: at('band_thickness') > 0 ? rolls : 0,
      shelf_full: load * clear,
      // 5 w L⁴ / 384 E I, then as much more as sheets creep: NDS 3.5.2, Eurocode 5 from memory.
      sag_first: sag,
      sag_lasting: creep * sag,
      sag_allowed: clear / at('sag_share'),
    },
  };
}

/** Sheets by rows as a maker chalks them out: each row as high as its first piece, the widest first. */
function chalkedOut(pieces: readonly Piece[], length: number, width: number, kerf: number): number {
  const each = pieces.flatMap(([long, wide, count]) =>
    Array.from({ length: count }, () => [long, wide] as const),
  );
  const rows: { high: number; used: number }[] = [];
  for (const [long, wide] of each.sort((a, b) => b[1] - a[1])) {
    const row = rows.find(({ high, used }) => wide <= high && used + long <= length);
    if (row === undefined) rows.push({ high: wide, used: long + kerf });
    else row.used += long + kerf;
  }
  const sheets: number[] = [];
  for (const { high } of rows) {
    const i = sheets.findIndex((used) => used + high <= width);
    if (i < 0) sheets.push(high + kerf);
    else sheets[i] = (sheets[i] ?? 0) + high + kerf;
  }
  return sheets.length;
}

const CABINETS: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  [
    'a wall cabinet with three shelves',
    { cabinet: 'wall', case_depth: '12', case_height: '36', shelf_count: '3' },
  ],
  [
    'a wide base cabinet of MDF',
    { case_width: '42', sheet: 'MDF', sheet_thickness: '3/4', back_sheet: 'MDF', shelf_count: '2' },
  ],
  [
    'a tall narrow one from particleboard, without banding',
    {
      case_width: '15',
      case_height: '84',
      sheet: 'particleboard',
      sheet_thickness: '0.745',
      shelf_count: '5',
      band_thickness: '0',
      pin_holes: '20',
    },
  ],
  [
    'of a smaller sheet with more trimmed off',
    { sheet_length: '60', sheet_width: '60', edge_trim: '1/2', kerf: '3/32', shelf_play: '1/8' },
  ],
];

describe('the plywood cabinet, against the same cabinet worked out by hand', () => {
  it.each(CABINETS)('%s', (_, entries) => {
    const book = bookWith('plywood-cabinet', entries);
    const inputs = inputsOf(book);
    const { results, pieces } = cabinetOf(inputs);
    expectHeld(book, results);
    const at = (name: string): number => numberOf(inputs, name);
    const [length, width] = [at('sheet_length'), at('sheet_width')].map(
      (size) => size - 2 * at('edge_trim'),
    );
    const area = pieces.reduce((sum, [long, wide, count]) => sum + long * wide * count, 0);
    const sheets = numberIn(book, 'sheets_count');
    expect(sheets).toBeLessThanOrEqual(chalkedOut(pieces, length ?? 0, width ?? 0, at('kerf')));
    expect(sheets).toBeGreaterThanOrEqual(area / ((length ?? 0) * (width ?? 0)));
    expect(numberIn(book, 'sheets_bound')).toBeLessThanOrEqual(sheets);
    const bought = sheets * at('sheet_length') * at('sheet_width');
    expect(numberIn(book, 'sheets_waste')).toBeCloseTo(1 - area / bought, 9);
    // The plan buys those sheets and one for the back, which is thinner.
    const [thick = '', back = ''] = ['sheet', 'back_sheet'].map((name) => wordOf(inputs, name));
    expect(numberIn(book, 'plan_cost')).toBe(
      sheets * (PRICES[thick]?.[0] ?? Number.NaN) + (PRICES[back]?.[1] ?? Number.NaN),
    );
    expect(numberIn(book, 'parts_overlap')).toBe(0);
    expect(numberIn(book, 'parts_loose')).toBe(0);
  });

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith('plywood-cabinet', { case_width: '600', case_height: '720' }, 'metric');
    expectHeld(book, cabinetOf(inputsOf(book)).results);
    expect(book.problems()).toEqual([]);
  });
});

/** The words of the step with this title. */
function stepOf(book: Workbook, called: RegExp): string {
  const step = readPlan(book).steps.find(({ title }) => called.test(plainText(title)));
  return (step?.text ?? []).map(plainText).join(' ');
}

describe('pin holes', () => {
  it.each([
    // Sides of 44 1/8 in: the lowest of five shelves lies at 7 1/4 in, and 10 holes 2 in apart begin at 13 1/16 in.
    [{ case_height: '48 1/8', shelf_count: '5', pin_holes: '10' }, 'care'],
    [{ case_height: '48 1/8', shelf_count: '5', pin_holes: '18' }, 'pass'],
    [{ case_height: '48 1/8', shelf_count: '5', pin_holes: '10', pin_spacing: '3 1/2' }, 'pass'],
    [{ case_height: '48 1/8', shelf_count: '1', pin_holes: '10' }, 'pass'],
    [{ case_height: '48 1/8', shelf_count: '0', pin_holes: '1' }, 'pass'],
  ])('are warned of where they do not reach the shelves: %j', (entries, state) => {
    expect(checkOf(bookWith('plywood-cabinet', entries), 'pinreach')?.state).toBe(state);
  });

  it.each([12, 13])('%d in a line are marked as the step says', (holes) => {
    const book = bookWith('plywood-cabinet', { case_height: '60', pin_holes: String(holes) });
    const figure = /Side, inside face, measured from the bottom end: [^<]*?\. /.exec(
      guidePage(book, { paper: 'letter' }),
    );
    const drawn = figure?.[0].match(/Hole: [\d /]+ in/g)?.length ?? 0;
    const told = stepOf(book, /^Drill for the pins/);
    expect(drawn).toBeGreaterThan(0);
    expect(/as in the figure/.test(told)).toBe(drawn === holes);
    expect(/in equal spaces/.test(told)).toBe(drawn < holes);
  });
});

it('tells what to load on shelves only where there are some', () => {
  expect(documentOf('plywood-cabinet').guide?.after).toContain('if it has shelves, load none');
});

describeBookItself('plywood-cabinet', 'the plywood cabinet', [
  ['space', { shelf_count: '8' }, '3 in is the least'],
  ['lift', { lift_alone: '20' }, 'people to carry it'],
  ['measure', { sheet_thickness: '0.65' }, 'Measure it again'],
  ['rabbets', { rabbet_depth: '1/2' }, '1/2 in deep at the corners'],
  ['stretch', { stretcher_width: '10', case_depth: '20' }, '10 in wide'],
  ['kick', { kick_back: '6', case_depth: '16' }, 'set back 6 in'],
  ['shelfnail', { shelf_count: '6' }, 'meets the nailer'],
  ['pinreach', { shelf_count: '4' }, 'use fewer shelves'],
  ['pins', { pin_edge: '1/2' }, '1/2 in from the edge'],
  ['sag', { case_width: '60', sheet: 'particleboard', case_depth: '12' }, 'stiffen the front'],
  ['heavy', { case_width: '60', shelf_load: '60 lb/ft' }, '200 lb'],
  ['planwhole', { case_height: '96', kick_height: '2', sheet_length: '48' }, 'fit no sheet'],
]);
