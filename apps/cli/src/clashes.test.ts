import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const template = readFileSync(
  new URL('../../../templates/dining-table.json', import.meta.url),
  'utf8',
);

interface Saved {
  readonly sheets: readonly {
    readonly name: string;
    readonly rows: readonly { readonly cells?: Record<string, Record<string, unknown>> }[];
  }[];
  readonly checks: readonly Record<string, unknown>[];
}

/** The shipped template with another formula in a named cell, or in a check. */
function planted(where: string, formula: string): string {
  const book = JSON.parse(template) as Saved;
  const cells = book.sheets.flatMap(({ rows }) =>
    rows.flatMap((row) => Object.values(row.cells ?? {})),
  );
  const found =
    cells.find(({ name }) => name === where) ?? book.checks.find(({ name }) => name === where);
  if (found === undefined) throw new Error(`Nothing is called ${where}.`);
  found.formula = formula;
  return JSON.stringify(book);
}

const check = (text: string) => call(['check', 'table.json'], { 'table.json': text });

/** Slips that compute without an error and would be quoted to a customer. */
const MISTAKES: readonly (readonly [slip: string, where: string, formula: string, says: string])[] =
  [
    [
      'a length added to an area',
      'area_top',
      '=top_length*top_width+top_thickness',
      'adds a length to an area',
    ],
    [
      'the thickness forgotten in a volume',
      'top_weight',
      '=WOOD_WEIGHT(species,top_length*top_width,moisture_build)',
      'takes a volume as volume and is given an area',
    ],
    [
      'hours charged at the price of wood',
      'cost_labour',
      '=hours_total*wood_price',
      'is for money, and its formula gives',
    ],
    [
      'a percentage not divided by a hundred',
      'deposit',
      '=price*deposit_percent',
      'Write deposit_percent/100.',
    ],
    [
      'hours in a sum of money',
      'cost_material',
      '=cost_top_wood+cost_base_wood+hours_total',
      'adds a time to money',
    ],
    [
      'an area for a board’s thickness',
      'boardfeet_net',
      '=BOARDFEET(area_top,panel_board_width,top_length,panel_boards)',
      'takes a length as thickness and is given an area',
    ],
    [
      'width and moisture exchanged',
      'movement_swing',
      '=MOVEMENT_SWING(moisture_dry,species,top_width,moisture_humid,cut)',
      'takes a length as width and is given a moisture content',
    ],
    [
      'humidity where moisture is wanted',
      'moisture_dry',
      '=dry_humidity',
      'is for a moisture content, and its formula gives a humidity',
    ],
    [
      'the longer of a length and a price',
      'leg_length',
      '=MAX(table_height-top_thickness,price)',
      'mix a length with money',
    ],
    [
      'knee room held against a weight',
      'Knees fit under the apron',
      '=knee_room>=top_weight',
      'compares a length with a weight',
    ],
    [
      'a square taken for a side',
      'apron_long',
      '=leg_size^2',
      'is for a length, and its formula gives an area',
    ],
    [
      'two answers of two kinds',
      'clear_short',
      '=IF(apron_short>10,apron_short,apron_short*leg_size)',
      'mix a length with an area',
    ],
  ];

describe('check on quantities', () => {
  it('finds none in the shipped template', async () => {
    expect(await check(template)).toMatchObject({
      code: 0,
      out: 'table.json: nothing found.',
      err: '',
    });
  });

  it.each(MISTAKES)('finds %s', async (_slip, where, formula, says) => {
    const { code, out } = await check(planted(where, formula));
    expect(code).toBe(1);
    expect(out).toContain(says);
  });
});

describe('check on parts', () => {
  it('tells parts that hang loose, also where no check of the workbook looks for them', async () => {
    const { code, out } = await check(
      planted('leg_length', '=IN(20)').replace(/\{[^{}]*"id":"clash"[^{}]*(\{\w+\}[^{}]*)*\},/, ''),
    );
    expect(code).toBe(1);
    expect(out).not.toContain('check "No part overlaps another');
    expect(out).toMatch(
      /Parts!A\d+ Top, .*touch neither the floor nor the rest; check x, y and z\./,
    );
  });

  it('tells copies of a part that run into each other', async () => {
    const { out } = await check(planted('support_thickness', '=clear_long/2'));
    expect(out).toMatch(/Parts!A\d+ Pieces of Cross support share /);
  });
});
