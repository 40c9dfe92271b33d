import { readFileSync } from 'node:fs';
import { ownFromUs } from '@kerfbook/wood';
import {
  type BookDocument,
  type CellDocument,
  type Edit,
  loadText,
  type Scalar,
  saveText,
  Workbook,
} from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { type Table, tableOf, WOODS } from './dining-table-by-hand.ts';

const text = readFileSync(new URL('../../templates/dining-table.json', import.meta.url), 'utf8');

function shipped(): BookDocument {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** The same workbook in metric: inputs converted, formulas untouched. */
function metric(): BookDocument {
  const document = structuredClone(shipped());
  const convert = (cell: CellDocument): CellDocument => {
    const { typed: _typed, ...kept } = cell;
    if (typeof cell.value !== 'number' || cell.quantity === undefined) return cell;
    const own = (value: number) => ownFromUs(cell.quantity ?? 'number', value, 'metric');
    const allow =
      cell.allow === undefined
        ? {}
        : {
            allow: {
              ...cell.allow,
              ...(cell.allow.min === undefined ? {} : { min: own(cell.allow.min) }),
              ...(cell.allow.max === undefined ? {} : { max: own(cell.allow.max) }),
            },
          };
    return { ...kept, value: own(cell.value), ...allow };
  };
  const sheets = document.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => ({
      ...row,
      ...(row.cells === undefined
        ? {}
        : {
            cells: Object.fromEntries(
              Object.entries(row.cells).map(([id, cell]) => [id, convert(cell)]),
            ),
          }),
    })),
  }));
  return { ...document, units: 'metric', sheets };
}

const enter = (book: Workbook, name: string, entry: string): void => {
  const at = book.find(name);
  if (at === undefined) throw new Error(`no cell ${name}`);
  const { sheet, row, column } = at;
  const edit: Edit = { do: 'enter', sheet, cells: [{ row, column, text: entry }] };
  const result = book.apply(edit);
  if (!result.ok) throw new Error(result.says);
};

function held(book: Workbook, name: string): Scalar {
  const cell = book.named(name);
  if (cell === undefined) throw new Error(`no cell ${name}`);
  const { value } = cell;
  if (value.kind === 'number') return value.number;
  if (value.kind === 'text') return value.text;
  throw new Error(`${name} is ${value.kind === 'error' ? value.error.says : value.kind}`);
}

/** Inputs as the workbook holds them, in us units, for the sum done by hand. */
function inputsOf(book: Workbook): Table {
  const names = Object.keys(tableInputs) as (keyof typeof tableInputs)[];
  return Object.fromEntries(names.map((name) => [name, held(book, name)])) as unknown as Table;
}

const tableInputs = {
  top_length: 'length',
  trim_length: 'length',
  top_width: 'length',
  top_thickness: 'length',
  table_height: 'length',
  species: 'text',
  cut: 'text',
  overhang_end: 'length',
  overhang_side: 'length',
  leg_size: 'length',
  apron_width: 'length',
  apron_thickness: 'length',
  apron_setback: 'length',
  tenon_length: 'length',
  joint_loss: 'length',
  widest_board: 'length',
  support_width: 'length',
  at_once: 'count',
  clamp_spacing: 'length',
  clamp_end: 'length',
  clamp_pressure: 'pressure',
  clamp_rating: 'force',
  moisture_build: 'moisture',
  dry_temperature: 'temperature',
  dry_humidity: 'humidity',
  humid_temperature: 'temperature',
  humid_humidity: 'humidity',
  rough_quarters: 'text',
  waste_percent: 'percent',
  hourly_rate: 'money_per_hour',
  overhead_percent: 'percent',
  profit_percent: 'percent',
  per_seat: 'length',
  kerf: 'length',
} as const;

const TABLES: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  ['eight feet, in white oak', { top_length: '96', species: 'white oak' }],
  ['a small square one', { top_length: '36', top_width: '36', overhang_end: '3', per_seat: '22' }],
  [
    'a long one with tenons, quarter-sawn',
    {
      top_length: `10' 6"`,
      top_width: '44 1/2',
      tenon_length: '1 1/4',
      cut: 'quarter',
      species: 'sugar maple',
      leg_size: '4',
    },
  ],
  [
    'in a desert winter and a wet summer, rift-sawn cherry',
    {
      species: 'black cherry',
      cut: 'rift',
      dry_temperature: '65F',
      dry_humidity: '12%',
      humid_temperature: '88',
      humid_humidity: '85',
      moisture_build: '11',
    },
  ],
  [
    'of thick ash with narrow boards and thin margins',
    {
      species: 'white ash',
      rough_quarters: '10/4',
      top_thickness: '2 1/8',
      widest_board: '3',
      at_once: '3',
      waste_percent: '45',
      hourly_rate: '62.5',
      overhead_percent: '0',
      profit_percent: '33 1/3',
      joint_loss: '1/8',
    },
  ],
];

describe('the dining table, against the same table worked out by hand', () => {
  it.each(TABLES)('%s', (_, changes) => {
    const book = Workbook.open(shipped());
    for (const [name, entry] of Object.entries(changes)) enter(book, name, entry);
    const expected = tableOf({ ...inputsOf(book), ...restOf(book), mark_on_rule: 1 / 16 });
    for (const [name, value] of Object.entries(expected)) {
      expect(held(book, name), name).toBeCloseToRelative(value);
    }
  });

  it('in metric, with lengths typed in millimetres', () => {
    const book = Workbook.open(metric());
    enter(book, 'top_length', '2.4 m');
    enter(book, 'top_width', '1050');
    const us = Workbook.open(shipped());
    enter(us, 'top_length', '2.4 m');
    enter(us, 'top_width', '1050 mm');
    const expected = tableOf({ ...inputsOf(us), ...restOf(us), mark_on_rule: 1 / 25.4 });
    for (const [name, value] of Object.entries(expected)) {
      const { quantity } = us.named(name) ?? {};
      const own = ownFromUs(quantity ?? 'number', value, 'metric');
      expect(held(book, name), name).toBeCloseToRelative(own);
    }
    expect(book.problems()).toEqual([]);
  });
});

/** 80, 120 and 180: from the coarsest to the finest grit of the template (common practice, no source). */
const GRITS = 3;

/** Inputs of this template beyond those every resizing needs, that its results rest on. */
function restOf(
  book: Workbook,
): Pick<
  Table,
  | 'support_gap'
  | 'hours_total'
  | 'days_elapsed'
  | 'wood_price'
  | 'plan_cost'
  | 'spare_percent'
  | 'material_but_wood'
  | 'deposit_percent'
> {
  const number = (name: string) => Number(held(book, name));
  const other = [
    number('fastener_count') * number('fastener_price'),
    // In both ends of the supports, and of the four aprons where no tenons hold those.
    2 *
      ((number('tenon_length') > 0 ? 0 : 4) + number('support_count')) *
      number('pocket_screws_each') *
      number('pocket_screw_price'),
    number('finish_cans') * number('can_price'),
    (number('glue_volume') / number('glue_bottle')) * number('glue_price'),
    number('cost_consumables'),
  ];
  return {
    support_gap: number('support_gap'),
    hours_total: [
      number('hours_boards'),
      number('panel_boards') * number('mill_each'),
      number('glue_stages') * number('glue_each'),
      (number('area_top') / number('sand_rate')) * GRITS,
      number('hours_base'),
      number('hours_shape'),
      number('hours_fit'),
      number('coats') * number('coat_each'),
      number('hours_deliver'),
    ].reduce((sum, hours) => sum + hours, 0),
    days_elapsed:
      Math.ceil(number('hours_total') / number('hours_a_day')) +
      Math.ceil(
        (number('glue_stages') * number('glue_wait') + number('coats') * number('recoat_hours')) /
          24,
      ),
    wood_price: number('wood_price'),
    // What the plan buys is added up board by board in dining-table-wood.test.ts.
    plan_cost: number('plan_cost'),
    spare_percent: number('spare_percent'),
    material_but_wood: other.reduce((sum, cost) => sum + cost, 0),
    deposit_percent: number('deposit_percent'),
  };
}

describe('the template itself', () => {
  it('says that its scenario is invented', () => {
    expect(shipped().about).toContain('invented');
    expect(text).toContain('An invented commission');
  });

  it('is kept in the form that saving gives', () => {
    expect(saveText(shipped())).toBe(text);
  });

  it('opens without an error and with every check passing', () => {
    const book = Workbook.open(shipped());
    expect(book.problems()).toEqual([]);
    expect(book.checks().filter((check) => check.state !== 'pass')).toEqual([]);
  });

  it('has every input that it promises as an input of its quantity', () => {
    const book = Workbook.open(shipped());
    for (const [name, quantity] of Object.entries(tableInputs)) {
      expect(book.named(name), name).toMatchObject({ role: 'input', quantity });
    }
  });

  it('has every result as a calculated cell that says what it is', () => {
    const book = Workbook.open(shipped());
    const results = tableOf({ ...inputsOf(book), ...restOf(book), mark_on_rule: 1 / 16 });
    for (const name of Object.keys(results)) {
      const cell = book.named(name);
      expect(cell, name).toMatchObject({ role: 'calculated' });
      expect(cell?.quantity, name).toBeDefined();
    }
  });

  it('writes no length into a formula: every size is a cell that can be changed', () => {
    for (const sheet of shipped().sheets) {
      for (const row of sheet.rows) {
        for (const { formula = '' } of Object.values(row.cells ?? {})) {
          const bare = formula
            .replaceAll(/IN\([\d.]+\)/g, '')
            .match(/[+-]\s*\d*\.\d+|[+-]\s*\d{2,}/g);
          expect(bare, formula).toBeNull();
        }
      }
    }
  });

  it.each([
    ['seatknee', { table_height: '26' }, '21 in'],
    ['lift', { people_lifting: '1' }, '115.8 lb'],
    ['season', { moisture_build: '14' }, '14 %'],
    ['planed', { top_thickness: '1 7/8' }, '1 3/4 in'],
    ['jointer', { jointer_width: '4' }, '5 5/16 in'],
    ['sag', { apron_width: '2' }, '250 lb'],
    ['tip', { overhang_end: '29' }, '250 lb'],
    ['order', { dry_humidity: '80' }, '10.9 %'],
    ['fastenshort', { swivel_swing: '5' }, '1/16 in'],
    ['through', { top_screw: '2 1/2' }, '2 1/2 in'],
    ['quote', { quoted_price: '3387.34' }, '$3,387.34'],
  ])('check %s fires with its numbers and clears again', (id, changes, number) => {
    const book = Workbook.open(shipped());
    const state = () => book.checks().find((check) => check.id === id);
    expect(state()?.state).toBe('pass');
    for (const [name, entry] of Object.entries(changes)) enter(book, name, entry);
    expect(state()?.state).toMatch(/stop|care/);
    expect(state()?.says).toContain(number);
    while (book.canUndo) book.undo();
    expect(state()?.state).toBe('pass');
  });

  it('offers only species that every function it uses knows', () => {
    const book = Workbook.open(shipped());
    const list = book.named('species')?.allow?.list ?? [];
    expect(list.length).toBeGreaterThan(10);
    for (const species of list) {
      enter(book, 'species', species);
      expect(book.problems(), species).toEqual([]);
    }
    expect(list).toEqual(expect.arrayContaining(Object.keys(WOODS)));
  });
});
