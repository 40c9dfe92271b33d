import { readFileSync } from 'node:fs';
import { type BookDocument, loadText } from '@kerfbook/document';
import { readParts } from '@kerfbook/drawing';
import { FIGURES, figureProblems, figuresOf, readPlan } from '@kerfbook/guide';
import { type Row, withSteps } from '@kerfbook/guide/testing';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { filledIn, isStopped } from './books/book-faults.ts';
import { textsIn } from './books/svg-texts.ts';
import { anyOf, type Chance, chanceOf, nearOf } from './tables/draws.ts';
import { inMetric } from './tables/metric.ts';
import { Trial, type Values } from './tables/trial.ts';
import { patience, times } from './times.ts';

/** Sizes that are drawn of each template and units. */
const DRAWS = 2;
const SEED = 20_261_129;

const TEMPLATES = [
  'base',
  'bench',
  'bookcase',
  'breadboard',
  'cabinet-door',
  'coffee-table',
  'desk',
  'dining-table',
  'movement',
  'plywood-cabinet',
  'round-table',
  'top',
  'trestle-table',
];

function documentOf(name: string): BookDocument {
  const loaded = loadText(
    readFileSync(new URL(`../../templates/${name}.json`, import.meta.url), 'utf8'),
  );
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

const seed = Number(
  process.env.KERFBOOK_SEED ?? (times(1) === 1 ? SEED : Math.floor(Math.random() * 2 ** 31)),
);

const CASES = TEMPLATES.flatMap((name) => [
  [name, 'us', documentOf(name)] as const,
  [name, 'metric', inMetric(documentOf(name))] as const,
]);

/** As it ships, then near it and from anywhere; only what can be built, as far as that is found. */
function sizesOf(trial: Trial, chance: Chance, draws: number): readonly Values[] {
  const found: Values[] = [trial.shipped];
  for (let tries = 0; tries < 40 * draws && found.length <= draws; tries += 1) {
    const values = trial.drawn.map(({ domain }, i) => {
      const was = trial.shipped[i] ?? null;
      if (tries % 3 === 0) return anyOf(domain, chance);
      return chance() < 0.3 ? nearOf(was, domain, chance) : was;
    });
    if (!isStopped(trial.outcome(values))) found.push(values);
  }
  return found;
}

/** The workbook with its own steps, and with one for each kind of figure. */
function booksAt(trial: Trial, values: Values): readonly Workbook[] {
  const document = filledIn(trial, values);
  const names = readParts(Workbook.open(document)).parts.map(({ name }) => name);
  const half = Math.ceil(names.length / 2);
  const rows: readonly Row[] = [
    { step: 'Look at it' },
    ...names.slice(0, half).map((name) => ({ step: `Make the ${name}`, builds: name })),
    { step: 'The rest', builds: names.slice(half).join(', ') },
    ...FIGURES.map((figure) => ({ step: figure, figure })),
    { step: 'Glue {round} of {rounds}', figure: 'glue-up', repeats: 3 },
  ];
  return [Workbook.open(document), Workbook.open(withSteps(document, rows))];
}

/** 9 pt where a figure is 170 mm wide. */
const LEAST = (360 * (9 / 72) * 25.4) / 170;

/** What is wrong with how a figure is written; nothing where it is right. */
function troublesOf(svg: string): readonly string[] {
  const [left = 0, top = 0, wide = 0, high = 0] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '')
    .split(' ')
    .map(Number);
  const texts = textsIn(svg);
  const out = texts.filter(
    (one) =>
      one.left < left - 0.5 ||
      one.right > left + wide + 0.5 ||
      one.top < top - 0.5 ||
      one.bottom > top + high + 0.5,
  );
  const over = texts.flatMap((one, i) =>
    texts
      .slice(i + 1)
      .filter(
        (other) =>
          Math.min(one.right, other.right) - Math.max(one.left, other.left) > 0.5 &&
          Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 0.5,
      )
      .map((other) => `"${one.text}" and "${other.text}" are over each other`),
  );
  return [
    ...out.map(({ text }) => `"${text}" runs out of the figure`),
    ...over,
    ...texts.filter(({ size }) => size < LEAST).map(({ text }) => `"${text}" is too small`),
    ...(/NaN|Infinity|undefined| style=/.exec(svg) === null ? [] : ['it holds what no SVG takes']),
    ...(/^<svg [^>]*role="img"[^>]*>\s*<title>[^<]+<\/title>/.test(svg) ? [] : ['it has no title']),
  ];
}

describe('figures of the steps of every template, at sizes from anywhere in its ranges', () => {
  it.each(CASES)(
    '%s, %s: no label over another or out of the picture',
    { timeout: patience(180_000) },
    (name, _units, document) => {
      const trial = new Trial(document);
      let drawn = 0;
      for (const values of sizesOf(trial, chanceOf(seed + name.length), times(DRAWS))) {
        for (const book of booksAt(trial, values)) {
          const plan = readPlan(book);
          for (const [key, { svg, says }] of figuresOf(book, plan)) {
            drawn += 1;
            const step = plan.steps.find((one) => one.key === key);
            const about = `seed ${seed}: step ${step?.number}, ${step?.figure.kind}: ${JSON.stringify(values)}`;
            expect(troublesOf(svg), about).toEqual([]);
            expect(says, about).not.toMatch(/NaN|undefined|^$/);
          }
          for (const { says } of figureProblems(book, plan)) {
            expect(says).toMatch(/^Step \d+: [^{}]*\.$/);
            expect(says).not.toMatch(/NaN|undefined/);
          }
        }
      }
      expect(drawn).toBeGreaterThan(0);
    },
  );

  it('are found wrong where they are', () => {
    const text = (x: number, y: number, words: string): string =>
      `<text x="${x}" y="${y}" font-size="11">${words}</text>`;
    const svg = (inside: string): string =>
      `<svg role="img" viewBox="0 0 360 100">\n<title>It</title>${inside}</svg>`;
    expect(troublesOf(svg(text(10, 20, 'Leg') + text(60, 20, 'Apron')))).toEqual([]);
    expect(troublesOf(svg(text(10, 20, 'Leg') + text(15, 24, 'Apron')))).toHaveLength(1);
    expect(troublesOf(svg(text(340, 20, 'Apron')))).toEqual(['"Apron" runs out of the figure']);
    expect(
      troublesOf(svg(`<g transform="translate(0 50) scale(0.5)">${text(10, 20, 'Leg')}</g>`)),
    ).toEqual(['"Leg" is too small']);
    expect(
      troublesOf(
        svg(
          `<svg x="0" y="0" width="180" height="50" viewBox="0 0 360 100">${text(340, 40, 'Le')}</svg>${text(168, 20, 'Leg')}`,
        ),
      ),
    ).toContain('"Le" and "Leg" are over each other');
  });
});
