import { readdirSync } from 'node:fs';
import { figureProblems, figuresOf, plainText, readPlan } from '@kerfbook/guide';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { filledIn, isStopped } from '../hostile/books/book-faults.ts';
import { drawAny, drawNear } from '../hostile/books/sweep-books.ts';
import { chanceOf } from '../hostile/tables/draws.ts';
import { inMetric } from '../hostile/tables/metric.ts';
import { cellsOf } from '../hostile/tables/stated.ts';
import { Trial, type Values } from '../hostile/tables/trial.ts';
import { patience, times } from '../hostile/times.ts';
import { bookWith, documentOf } from './books.ts';
import { columnsOf, faultsOf } from './support/step-faults.ts';

/** In `npm test`, of each template and units; a hundred times as many in `npm run test:long`. */
const DRAWS = 12;
const SEED = 20_261_129;

/** One draw in this many is from anywhere in all ranges: few of those can be built. */
const ANYWHERE = 4;

const seed = Number(
  process.env.KERFBOOK_SEED ?? (times(1) === 1 ? SEED : Math.floor(Math.random() * 2 ** 31)),
);

const names = readdirSync(new URL('../../templates/', import.meta.url))
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length))
  .sort()
  .filter((name) => documentOf(name).tables.some(({ kind }) => kind === 'steps'));

const CASES = names.flatMap((name) => [
  [name, 'us', documentOf(name)] as const,
  [name, 'metric', inMetric(documentOf(name))] as const,
]);

/**
 * A size that is written out. Another size makes it wrong, and so do other units: it belongs in a cell. Trade sizes
 * (a No. 8 screw, 4/4 boards) are no lengths.
 */
const WRITTEN_OUT =
  /\d\s*(?:in|inch|inches|ft|feet|foot|mm|cm|m|lb|kg|oz|psi|gal|qt)\b|\d\s*["”″'′]/i;

describe('the steps of every template', () => {
  it.each(CASES)(
    '%s, %s: are true at whatever size no check stops',
    { timeout: patience(120_000) },
    (_name, _units, document) => {
      const trial = new Trial(document);
      const chance = chanceOf(seed);
      const finds: string[] = [];
      let passed = 0;
      for (let draw = 0; draw < times(DRAWS) && finds.length < 12; draw += 1) {
        const values =
          draw === 0 ? trial.shipped : (draw % ANYWHERE === 0 ? drawAny : drawNear)(trial, chance);
        const outcome = trial.outcome(values);
        // A check that can't tell stops too: what it asks about is in error, and so is the price.
        if (isStopped(outcome) || outcome.standings.includes('unknown')) continue;
        passed += 1;
        const faults = faultsOf(Workbook.open(filledIn(trial, values)));
        if (faults.length > 0) finds.push(`with ${changesOf(trial, values)}`, ...faults);
      }
      expect(finds, `seed ${seed}`).toEqual([]);
      expect(passed).toBeGreaterThanOrEqual(times(DRAWS) / 10);
    },
  );

  it.each(CASES)('%s, %s: have a figure each, which can be drawn', (_name, _units, document) => {
    const book = Workbook.open(document);
    const plan = readPlan(book);
    const figures = figuresOf(book, plan);
    expect(figureProblems(book, plan)).toEqual([]);
    expect(
      plan.steps.filter(({ key }) => !figures.has(key)).map(({ title }) => plainText(title)),
    ).toEqual([]);
  });

  it.each(names)('%s: write no size out that another would make wrong', (name) => {
    const document = documentOf(name);
    const [table] = document.tables.filter(({ kind }) => kind === 'steps');
    const found = cellsOf(document)
      .filter(({ at }) => at.sheet === table?.sheet)
      .flatMap(({ cell: { value, formula } }) => [
        ...(typeof value === 'string' ? [value] : []),
        ...[...(formula ?? '').matchAll(/"((?:[^"]|"")*)"/g)].map(([, words = '']) => words),
      ])
      .filter((words) => WRITTEN_OUT.test(words));
    expect(found).toEqual([]);
  });

  it.each(names)('%s: open inputs that are there and say what may be entered', (name) => {
    const { guide = {} } = documentOf(name);
    const cells = new Map(cellsOf(documentOf(name)).map(({ cell }) => [cell.name, cell]));
    const { inputs = [], before, after, credits, tone } = guide;
    expect(inputs.length).toBeGreaterThanOrEqual(6);
    expect(inputs.length).toBeLessThanOrEqual(16);
    expect(new Set(inputs).size).toBe(inputs.length);
    for (const one of inputs) {
      const { role, allow } = cells.get(one) ?? {};
      const isBound =
        allow?.list !== undefined || (allow?.min !== undefined && allow.max !== undefined);
      expect([one, role, isBound]).toEqual([one, 'input', true]);
    }
    for (const words of [before, after, credits, tone]) expect(words).toBeTruthy();
    expect(`${before} ${credits}`).toMatch(/invented/i);
    for (const words of [before, after, credits]) expect(words).not.toMatch(WRITTEN_OUT);
  });

  it('are found wrong where a number is lost, a part is forgotten or a size is written out', () => {
    const book = bookWith('dining-table', {});
    const [table] = book.tables().filter(({ kind }) => kind === 'steps');
    if (table === undefined) throw new Error('no steps');
    const enter = (column: number, text: string): void => {
      const cells = [{ row: table.header + 1, column, text }];
      const done = book.apply({ do: 'enter', sheet: table.sheet, cells });
      if (!done.ok) throw new Error(done.says);
    };
    const columns = columnsOf(book);
    enter(columns.get('text') ?? -1, 'As long as {no_such_size}.');
    enter(columns.get('builds') ?? -1, 'Leg');
    const faults = faultsOf(book).join('\n');
    expect(faults).toContain('No cell is named "no_such_size"');
    expect(faults).toContain('Leg is built in step 1 and again');
    expect(WRITTEN_OUT.test('Set the fence 1/2 in from the blade.')).toBe(true);
    expect(WRITTEN_OUT.test('A No. 8 screw in each of 4 holes, with 80 grit.')).toBe(false);
  });
});

const changesOf = (trial: Trial, values: Values): string =>
  JSON.stringify(
    Object.fromEntries(
      values.flatMap((value, i) =>
        value === trial.shipped[i] ? [] : [[trial.nameOf(i), value] as const],
      ),
    ),
  );
