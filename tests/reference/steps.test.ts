import { readdirSync } from 'node:fs';
import {
  type BuiltStep,
  figureProblems,
  figuresOf,
  type Plan,
  plainText,
  readPlan,
} from '@kerfbook/guide';
import { SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { filledIn, isStopped } from '../hostile/books/book-faults.ts';
import { drawAny, drawNear } from '../hostile/books/sweep-books.ts';
import { chanceOf } from '../hostile/tables/draws.ts';
import { inMetric } from '../hostile/tables/metric.ts';
import { cellsOf } from '../hostile/tables/stated.ts';
import { Trial, type Values } from '../hostile/tables/trial.ts';
import { patience, times } from '../hostile/times.ts';
import { bookWith, documentOf } from './books.ts';

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

/** What is never read in a plan: a hole where a number or a word should be, or an error. */
const HOLE = /[{}#…]|NaN|undefined|null|Infinity|\bTRUE\b|\bFALSE\b/;

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

/** What is wrong with a plan at one size. */
function faultsOf(book: Workbook): readonly string[] {
  const plan = readPlan(book);
  return [
    ...plan.problems.map(({ at, says }) => `row ${at.row + 1}: ${says}`),
    ...plan.steps.flatMap((step) => holesIn(step)),
    ...plan.steps.flatMap((step) => numbersOff(book, step)),
    ...partsOff(plan),
  ];
}

const sentencesOf = ({ title, text, hardware, caution, tools, measures }: BuiltStep) => [
  plainText(title),
  ...text.map(plainText),
  ...hardware.map(plainText),
  ...(caution === undefined ? [] : [plainText(caution)]),
  ...tools,
  ...measures.flatMap(({ label, words }) => [label, words]),
];

function holesIn(step: BuiltStep): readonly string[] {
  const words = sentencesOf(step);
  const untold = step.text.length === 0 ? ['no text'] : [];
  const unended = step.text
    .map(plainText)
    .filter(
      (paragraph) => !/[.:!?]$/.test(paragraph) || /\s\s|\s[.,]|\.\.|^\s|\bin in\b/.test(paragraph),
    );
  return [
    ...untold,
    ...unended.map((paragraph) => `badly ended: ${paragraph}`),
    ...words.filter((one) => HOLE.test(one) || one.trim() === ''),
  ].map((says) => `step ${step.number}: ${says}`);
}

/** Which column each head of the steps table is over. */
function columnsOf(book: Workbook): ReadonlyMap<string, number> {
  const [table] = book.tables().filter(({ kind }) => kind === 'steps');
  if (table === undefined) throw new Error('no steps');
  const { sheet, header } = table;
  const wide = book.sheet(sheet)?.columns ?? 0;
  const heads = Array.from({ length: wide }, (_, column): [string, number] => {
    const value = book.value({ sheet, row: header, column });
    return [value.kind === 'text' ? value.text : '', column];
  });
  const known = new Set(SHOP_COLUMNS.steps.map(({ heads: one }) => one));
  return new Map(heads.filter(([head]) => known.has(head)));
}

/** Sentences that are not the words of their cell with each number as the cell of its name shows it. */
function numbersOff(book: Workbook, step: BuiltStep): readonly string[] {
  const columns = columnsOf(book);
  const { sheet, row } = step.at;
  const raw = (head: string): string => {
    const column = columns.get(head);
    const value = column === undefined ? undefined : book.value({ sheet, row, column });
    return value?.kind === 'text' ? value.text : '';
  };
  const put = (words: string): string =>
    words.replaceAll(/\{([^{}]+)\}/g, (_, name: string) => {
      if (name === 'round') return String(step.round?.is ?? 1);
      if (name === 'rounds') return String(step.round?.of ?? 1);
      return shownOf(book, name);
    });
  const isAlike = (is: readonly string[], from: readonly string[]): boolean =>
    JSON.stringify(is) === JSON.stringify(from.map((one) => put(one).trim()).filter(Boolean));
  const paragraphs = raw('text').split('\n');
  const pairs: readonly (readonly [string, readonly string[], readonly string[]])[] = [
    ['step', [plainText(step.title)], [raw('step')]],
    ['text', step.text.map((one) => plainText(one).trim()), paragraphs],
    ['hardware', step.hardware.map(plainText), raw('hardware').split(',')],
    ['caution', step.caution === undefined ? [] : [plainText(step.caution)], [raw('caution')]],
    [
      'measure',
      step.measures.map(({ words }) => words),
      raw('measure')
        .split(',')
        .flatMap((one) => (one.trim() === '' ? [] : [shownOf(book, one.trim())])),
    ],
  ];
  return pairs.flatMap(([head, is, from]) =>
    isAlike(is, from)
      ? []
      : [`step ${step.number}, ${head}: ${JSON.stringify(is)} is not ${JSON.stringify(from)}`],
  );
}

/**
 * A named cell as a sentence has it: thousands apart, a space before its unit but for degrees and prices, loads as weights.
 * Millimeters are told to the half and from 20 on to the whole, but for what was typed in halves; weights from 10 on in
 * whole units, surfaces with three digits.
 */
function shownOf(book: Workbook, name: string): string {
  const cell = book.named(name);
  if (cell === undefined) return `(no ${name})`;
  const { text } = cell.shown;
  if (cell.value.kind !== 'number') return text;
  if (cell.unit === 'N') {
    const kg = cell.value.number / 9.80665;
    return `${(kg < 10 ? Math.round(kg * 10) / 10 : Math.round(kg)).toLocaleString('en-US')} kg`;
  }
  const told = toldOf(text, cell.unit, cell.value.number);
  const digits = /^(\D*)(\d{4,})(?=$|[ .])(.*)$/.exec(told);
  const apart =
    digits === null
      ? told
      : `${digits[1]}${Number(digits[2]).toLocaleString('en-US')}${digits[3] ?? ''}`;
  if (cell.unit === '') return apart;
  return `${apart}${cell.unit === '°' || cell.unit.startsWith('/') ? '' : ' '}${cell.unit}`;
}

function toldOf(text: string, unit: string, own: number): string {
  const shown = Number(text);
  if (text === '' || Number.isNaN(shown)) return text;
  if (unit === 'mm') {
    const mm = Math.abs(own - shown) < 0.06 ? own : shown;
    const isHalf = Math.abs(mm * 2 - Math.round(mm * 2)) < 2e-6;
    if (Math.abs(mm) < 1 || isHalf) return text;
    return String(Math.abs(mm) >= 20 ? Math.round(mm) : Math.round(mm * 2) / 2);
  }
  if (unit === 'kg' || unit === 'lb')
    return Math.abs(shown) < 10 ? text : String(Math.round(shown));
  if (unit !== 'm²' && unit !== 'ft²') return text;
  const places = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(shown) || 1)));
  return String(Number(shown.toFixed(places)));
}

/** Parts that are not built exactly once, counted over the steps and not asked of the plan. */
function partsOff({ steps, parts }: Plan): readonly string[] {
  const built = steps.flatMap((step) => step.parts);
  return [
    ...parts.parts.flatMap((part) => {
      const often = built.filter((one) => one === part).length;
      return often === 1 ? [] : [`${part.name} is built ${often} times`];
    }),
    ...steps.flatMap(({ number, parts: of, builds }) =>
      builds.length > 0 && of.length === 0 && parts.parts.length === 0
        ? [`step ${number} builds nothing`]
        : [],
    ),
  ];
}
