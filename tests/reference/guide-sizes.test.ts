import { readFileSync } from 'node:fs';
import {
  figureProblems,
  figuresOf,
  guideSections,
  numberWords,
  plainText,
  readPlan,
} from '@kerfbook/guide';
import { type Edit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { patience, times } from '../hostile/times.ts';
import { documentOf } from './books.ts';
import { faultsOf } from './support/step-faults.ts';

/**
 * The plan of every template at five sizes in each units: its own, the least and the most that no check stops with all
 * opened sizes drawn down or up, and one on the way to each, of other woods, joints and shapes. In `npm test` half of them:
 * own, least and most in us, the two between in metric; all of them in `npm run test:long`.
 */

type Entries = Readonly<Record<string, string>>;

const SIZES: Readonly<Record<string, Readonly<Record<'us' | 'metric', Record<string, Entries>>>>> =
  JSON.parse(readFileSync(new URL('data/guide-sizes.json', import.meta.url), 'utf8'));

const IN_SHORT = { us: ['own', 'least', 'most'], metric: ['lower', 'upper'] } as const;

const CASES = Object.entries(SIZES).flatMap(([name, byUnits]) =>
  (['us', 'metric'] as const).flatMap((units) =>
    Object.entries<Entries>({ own: {}, ...byUnits[units] })
      .filter(([size]) => times(1) > 1 || (IN_SHORT[units] as readonly string[]).includes(size))
      .map(([size, entries]) => [name, units, size, entries] as const),
  ),
);

/** A template in its own units, or turned to metric as a maker turns it, with all of the entries. */
function opened(name: string, units: 'us' | 'metric', entries: Entries): Workbook {
  const book = Workbook.open(documentOf(name));
  const done = (edit: Edit): void => {
    const result = book.apply(edit);
    if (!result.ok) throw new Error(result.says);
  };
  if (units === 'metric') done({ do: 'changeUnits', to: 'metric' });
  const edits = Object.entries(entries).map(([one, text]): Edit => {
    const at = book.named(one)?.at;
    if (at === undefined) throw new Error(`${name} has no ${one}`);
    const { sheet, row, column } = at;
    return { do: 'enter', sheet, cells: [{ row, column, text }] };
  });
  if (edits.length > 0) done({ do: 'batch', edits });
  return book;
}

/** How much finish is needed, in how large cans, and how many: as the plan says them. */
const cansOf = (book: Workbook): readonly number[] =>
  ['finish_volume', 'can_size', 'finish_cans'].flatMap((name) => {
    const cell = book.named(name);
    return cell === undefined ? [] : [Number.parseFloat(numberWords(cell).words.replace(',', ''))];
  });

/** Nothing of something. Sizes beside a figure may be, as an overhang may. */
const NOTHING = /(?<![\d/.,-])0 (?:in|mm|lb|kg|m|ft|ft²|m²|fl oz|mL)\b/;

/** What nobody would say: nothing of something, less than nothing, one of several, lists without an `and`. */
const NONSENSE: readonly RegExp[] = [
  NOTHING,
  /(?<![\d–/:.])-\d/,
  /(?<![\d/.,-] ?)\b1 (?!h\b|in\b|lb\b|person\b|less\b)[a-z]+s\b/,
  /\ball [12] (?!in\b|mm\b)/,
  /(?<![\d/])([\d ./]+ (?:in|mm)) thick now and ends at \1(?![\d /])/,
  /\b(?:legs|aprons|stiles), (?:legs|aprons|rails) (?:to|go|are)\b/,
  /\b(\w+) \1\b(?<!\bthat that|\bin in)/,
  /\btwo (\d[\d,.]*) (?:in|mm) and two \1 /,
  /\b[Ss]lots? \d*\.\d+ in\b/,
];

const WEIGHT = /[\d.,]+ (?:kg|lb)\b/;
const WEIGHT_ALL = new RegExp(WEIGHT, 'g');
const weightIn = (said: string): number => Number.parseFloat(said.replaceAll(',', ''));
/** Within two of a hundred: the same thing weighed twice. */
const isNearly = (one: string, other = ''): boolean =>
  Math.abs(weightIn(one) - weightIn(other)) < 0.02 * weightIn(other);

/** Millimeters finer than a shop says them: steps say 610 mm, and so does a check that speaks of the same. */
const FINER = /(?<![\d.])[1-9]\d*\.(?!5 )\d+ mm/g;

/** What a figure says, its lines one after the other. */
const wordsIn = (svg: string): string =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, line]) => line).join(' ');

const isNonsense = (one: string): boolean =>
  NONSENSE.some((nonsense) => nonsense.test(one.replaceAll(/\d+ \d+\/\d+|figure-8s?/g, 'some')));

describe('what nobody would say', () => {
  it.each([
    'Set it 0 in from the end.',
    'From the seat to the top it is -2 in.',
    'You work 1 weeks.',
    'All in all 1 boards are glued.',
    'Lay all 2 boards out.',
    'Sand legs, aprons to 180 grit.',
    'Set the the base on it.',
    'Cut two 630 mm and two 630 mm long.',
    'Slot 0.235 in',
    'The top is 44 mm thick now and ends at 44 mm.',
  ])('is found: %s', (one) => {
    expect(isNonsense(one)).toBe(true);
  });

  it.each([
    'It is 10 in by 1 1/2 in, or 0.5 mm, between 3–6 pins; 1 board stays.',
    'Let in 6 figure-8s, 1/8 in deep.',
    'Cut two 630 mm and two 631 mm long, with a slot 1/4 in long.',
    'The top is 1 3/4 in thick now and ends at 3/4 in.',
  ])('is not: %s', (one) => {
    expect(isNonsense(one)).toBe(false);
  });
});

describe.each(CASES)('the plan of %s, %s, %s', (name, units, _size, entries) => {
  it('is whole, true and told as one tells it, with a figure for each step', {
    timeout: patience(60_000),
  }, () => {
    const book = opened(name, units, entries);
    const firing = book.checks().filter(({ state }) => state === 'stop' || state === 'unknown');
    expect(firing.map(({ says }) => says)).toEqual([]);
    expect(faultsOf(book)).toEqual([]);
    const plan = readPlan(book);
    expect(figureProblems(book, plan).map(({ says }) => says)).toEqual([]);
    const figures = figuresOf(book, plan);
    const drawnNothing = [...figuresOf(book, plan, { sizes: 'beside' }).values()].flatMap(
      ({ svg }) =>
        [...svg.matchAll(/<text[^>]*>([^<]*)</g)]
          .map(([, text = '']) => text)
          .filter((text) => NOTHING.test(text)),
    );
    expect(drawnNothing).toEqual([]);
    const bare = plan.steps.filter(
      ({ key, figure }) => !figures.has(key) && figure.kind !== 'none',
    );
    expect(bare.map(({ title }) => plainText(title))).toEqual([]);
    const writtenIn = (key: string): string =>
      [...(figures.get(key)?.svg ?? '').matchAll(/<text[^>]*>([^<]*)</g)]
        .map(([, words = '']) => words)
        .join(' ');
    // Parts of the same sizes are drawn once; each of them has its name there, or in a line beneath.
    const unnamed = plan.steps.flatMap(({ key, figure }) => {
      const asked = figure.kind === 'sizes' ? (figure.of ?? '').split(',') : [];
      return asked
        .map((one) => one.trim())
        .filter((one) => plan.parts.parts.some((part) => part.name === one))
        .filter((one) => !writtenIn(key).includes(one));
    });
    expect(unnamed).toEqual([]);
    const clampless = plan.steps.filter(({ key }) => /joint: 0\b/.test(writtenIn(key)));
    expect(clampless.map(({ title }) => plainText(title))).toEqual([]);
    for (const { svg } of figures.values()) {
      const words = wordsIn(svg);
      // Nothing comes off what is as thick as it is to be.
      expect(/Now ([\d ./]+ (?:in|mm)) .*Ends at (?:\1)(?![\d /])/.exec(words)?.[0]).toBe(
        undefined,
      );
      // A screw goes to a sixteenth, or a millimeter.
      const places = /apron; ([\d, /.and]+) (?:in|mm) from the left leg/g;
      const finer = [...words.matchAll(places)].filter(([, all = '']) =>
        /\/(?:32|64)|\.\d/.test(all),
      );
      expect(finer.map(([all]) => all)).toEqual([]);
    }
    const without = plan.steps.filter(({ figure }) => figure.kind === 'none');
    // Bars of an hour that is to bring nothing would be none.
    expect(without.map(({ title }) => plainText(title))).toEqual(
      name === 'cost' && entries.year_wages === '0' ? ['Know your hour'] : [],
    );
    const said = plan.steps.flatMap(({ title, text, hardware, caution = [] }) =>
      [title, ...text, ...hardware, caution].map(plainText),
    );
    const wrong = said.filter(isNonsense);
    expect(wrong).toEqual([]);
    const written = [...figures.values()].flatMap(({ svg }) =>
      [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text = '']) => text),
    );
    expect(written.filter((one) => /^Slot .*\.\d+ in\b/.test(one))).toEqual([]);
    const [needed = 0, holds = 1, cans = 0] = cansOf(book);
    expect(cans).toBe(Math.ceil(needed / holds));
    expect(guideSections(book, { plan: 'later', parts: ['lost'] })).toEqual([]);
    // What is said to weigh so much before one begins weighs the same in the steps, and not a pound more.
    const [cautions] = guideSections(book, { plan: 'later', parts: ['cautions'] });
    const before = WEIGHT.exec(/It weighs about .*/.exec(cautions?.html ?? '')?.[0] ?? '')?.[0];
    const inSteps = plan.steps.flatMap(({ text, measures }) =>
      [...text.map(plainText), ...measures.map(({ words }) => words)].flatMap(
        (one) => one.match(WEIGHT_ALL) ?? [],
      ),
    );
    const nearly = inSteps.filter((one) => before !== one && isNearly(one, before));
    expect(nearly.map((one) => `${one}, and ${before} before`)).toEqual([]);
    if (units === 'metric') {
      const warned = guideSections(book, { plan: 'later', parts: ['checks'] });
      expect(warned.flatMap(({ html }) => html.match(FINER) ?? [])).toEqual([]);
    }
  });
});
