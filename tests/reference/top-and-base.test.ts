import { readOperations, scheduleJobs, USUAL_SHOP } from '@kerfbook/days';
import { readParts } from '@kerfbook/drawing';
import { type BookDocument, joinBooks, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { inMetric } from '../hostile/tables/metric.ts';
import { bookWith, documentOf } from './books.ts';
import { checkOf, enterAll, numberIn } from './dining-table-book.ts';
import { up } from './solid-wood-by-hand.ts';

/**
 * A top and a base are workbooks of their own; put together they are one table. What is held here is worked
 * out from both as they stand apart, and from the sizes.
 */

function joined(into: BookDocument, from: BookDocument) {
  const result = joinBooks(into, from);
  if (!result.ok) throw new Error(result.says);
  return result;
}

const table = (
  entries: Readonly<Record<string, string>> = {},
  base = documentOf('base'),
): Workbook => enterAll(Workbook.open(joined(documentOf('top'), base).document), entries);

/** A base of the maker's own: what was typed into a copy of the one that ships. */
const baseWith = (entries: Readonly<Record<string, string>>): BookDocument =>
  bookWith('base', entries).document();

const NAMES = ['top_weight', 'movement_swing', 'seats', 'panel_boards', 'area_top'];

const numbersOf = (book: Workbook, names: readonly string[]): readonly number[] =>
  names.map((name) => numberIn(book, name));

describe('a top and a base put together', () => {
  it('are one table: every check passes, each part is there once and stands', () => {
    const book = table();
    expect(book.problems()).toEqual([]);
    expect(book.checks().filter(({ state }) => state !== 'pass')).toEqual([]);
    const { parts, problems, none } = readParts(book);
    expect(parts.map(({ name, count }) => `${count} ${name}`).sort()).toEqual([
      '1 Top',
      '2 Long apron',
      '2 Short apron',
      '4 Leg',
    ]);
    expect([problems, none]).toEqual([[], []]);
  });

  it('keep nothing apart: of every sum there is one, over both', () => {
    const { told } = joined(documentOf('top'), documentOf('base'));
    expect(told.map(({ code }) => code)).toEqual(['J1', 'J2']);
    const [top, base, both] = [bookWith('top', {}), bookWith('base', {}), table()];
    for (const name of ['area_finish', 'glue_volume']) {
      const sum = numberIn(top, name) + numberIn(base, name);
      expect(numberIn(both, name), name).toBeCloseTo(sum, 9);
    }
    // Finishing and delivery are done once.
    const once = numberIn(top, 'hours_finish') + numberIn(top, 'hours_deliver');
    const hours = numberIn(top, 'hours_top') + numberIn(base, 'hours_made_base') + once;
    expect(numberIn(both, 'hours_total')).toBeCloseTo(hours, 9);
    expect(numberIn(both, 'cost_labour')).toBeCloseTo(hours * numberIn(both, 'hourly_rate'), 9);
    const waits =
      numberIn(top, 'wait_glue') + numberIn(base, 'wait_base') + numberIn(top, 'wait_finish');
    expect(numberIn(both, 'days_elapsed')).toBe(up(hours / 6) + up(waits / 24));
    // The plan buys both from one rack: never more than each from its own.
    const planned = numberIn(top, 'plan_cost') + atPriceOfTop(base);
    expect(numberIn(both, 'plan_cost')).toBeLessThanOrEqual(planned + 1e-6);
    expect(numberIn(both, 'plan_cost')).toBeGreaterThan(numberIn(top, 'plan_cost'));
  });

  it.each([
    ['top', 'base'],
    ['base', 'top'],
    ['breadboard', 'base'],
  ])('have one plan of days, %s with %s: every operation once, and no hour twice', (into, from) => {
    const book = Workbook.open(joined(documentOf(into), documentOf(from)).document);
    const { operations, problems } = readOperations(book);
    expect(problems).toEqual([]);
    const names = operations.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const all = (of: 'handsOn' | 'waiting'): number =>
      operations.reduce((so, one) => so + one[of], 0);
    expect(all('handsOn')).toBeCloseTo(numberIn(book, 'hours_total'), 9);
    expect(all('waiting')).toBeCloseTo(numberIn(book, 'hours_waiting'), 9);
    // The top is fitted once both are made, and finished after that.
    const { placed } = scheduleJobs([{ name: '', operations }], USUAL_SHOP, 46_000);
    const of = (name: string) => placed.find(({ operation }) => operation.name === name)?.seconds;
    const fitted = of('Fit the top');
    for (const before of ['Glue up the base', 'Flatten and sand the top']) {
      expect(of(before)?.end, before).toBeLessThanOrEqual(fitted?.start ?? 0);
    }
    expect(fitted?.end).toBeLessThanOrEqual(of('Finish')?.start ?? 0);
  });

  /** What the plan of the base costs at the price of wood that the top has. */
  const atPriceOfTop = (base: Workbook): number =>
    (numberIn(base, 'plan_cost') * numberIn(bookWith('top', {}), 'wood_price')) /
    numberIn(base, 'wood_price');

  it('a thicker top changes the room for knees, the screws that stay inside, the weight and the price', () => {
    const [thin, thick] = [table(), table({ rough_quarters: '8/4', top_thickness: '1 3/4' })];
    expect(numberIn(thick, 'knee_room')).toBeCloseTo(numberIn(thin, 'knee_room') - 1 / 2, 9);
    expect(numberIn(thick, 'leg_length')).toBeCloseTo(numberIn(thin, 'leg_length') - 1 / 2, 9);
    // An eighth of an inch at least, to a length that is sold.
    expect(numberIn(thick, 'top_screw_longest')).toBe(1.5);
    expect(numberIn(thin, 'top_screw_longest')).toBe(1);
    const heavier = numberIn(thick, 'top_weight') / numberIn(thin, 'top_weight');
    expect(heavier).toBeCloseTo(1.75 / 1.25, 9);
    expect(numberIn(thick, 'price')).toBeGreaterThan(numberIn(thin, 'price'));
    const through = table({ top_thickness: '1' });
    expect(checkOf(through, 'through')?.says).toContain('the top is 1 in thick');
  });

  it('the movement that the fasteners allow follows the wood of the top and the seasons', () => {
    const walnut = table({ species: 'black walnut' });
    const dry = table({ dry_humidity: '10' });
    // Wood Handbook, table 13-5: 0.00274 for walnut, 0.00365 for white oak.
    const share = numberIn(walnut, 'fastener_need') / numberIn(table(), 'fastener_need');
    expect(share).toBeCloseTo(0.00274 / 0.00365, 9);
    expect(checkOf(dry, 'fasten')?.state).toBe('stop');
  });

  it('with another base the top keeps what was typed into it', () => {
    const entries = { top_length: '84', species: 'black cherry', dry_humidity: '30' };
    const first = table(entries);
    const other = table(
      entries,
      baseWith({ leg_size: '3 1/2', overhang_end: '10', apron_width: '3' }),
    );
    expect(numbersOf(other, NAMES)).toEqual(numbersOf(first, NAMES));
    expect(numberIn(first, 'clear_long')).toBeCloseTo(84 - 2 * (3 + 2.75), 9);
    expect(numberIn(other, 'clear_long')).toBeCloseTo(84 - 2 * (10 + 3.5), 9);
    expect(numberIn(other, 'knee_room')).toBeCloseTo(30 - 1.25 - 3, 9);
    expect(other.problems()).toEqual([]);
  });

  it('the other way around are the same table', () => {
    const other = Workbook.open(joined(documentOf('base'), documentOf('top')).document);
    const names = ['price', 'hours_total', 'knee_room', 'table_weight', 'plan_cost', 'seats'];
    const one = table();
    // Inputs that both have are those of the workbook that was there: a can of the base holds less.
    const alike = enterAll(other, { can_size: '32' });
    expect(numbersOf(alike, names)).toEqual(numbersOf(one, names));
    expect(other.checks().filter(({ state }) => state !== 'pass')).toEqual([]);
  });

  it('count in millimeters as in inches', () => {
    const [top, base] = [inMetric(documentOf('top')), inMetric(documentOf('base'))];
    const metric = Workbook.open(joined(top, base).document);
    expect(metric.problems()).toEqual([]);
    expect(numberIn(metric, 'knee_room') / 25.4).toBeCloseTo(numberIn(table(), 'knee_room'), 6);
    expect(numberIn(metric, 'hours_total')).toBeCloseTo(numberIn(table(), 'hours_total'), 6);
  });

  it('a whole table is no base: its top would stand twice, and that is told', () => {
    const { told } = joined(documentOf('top'), documentOf('trestle-table'));
    expect(told.find(({ code }) => code === 'J6')?.which).toEqual(['Top']);
  });
});
