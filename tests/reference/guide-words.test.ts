import { readdirSync } from 'node:fs';
import { shopPlan } from '@kerfbook/drawing';
import { guidePage, plainText, readPlan } from '@kerfbook/guide';
import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { documentOf } from './books.ts';

/**
 * What readers of a plan are told is in the units they chose: no sentence has a number in inches, feet or pounds written
 * into it, or one in millimeters or kilograms, but by cells and lengths in braces; a note says both.
 */
const TEMPLATES = readdirSync(new URL('../../templates', import.meta.url))
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length));

/** Feet also stand on floors, but there they are not counted in digits. */
const US =
  /\b(?:inch(?:es)?|pounds?|lbs?|psi|gallons?|ounces?)\b|\d ?(?:in(?! (?:a|an|the|all|each)\b)|ft|feet|foot|lb|oz)\b|\d["']/;
const METRIC =
  /\b(?:millimet(?:er|re)s?|kilograms?|lit(?:er|re)s?)\b|\d ?(?:mm|cm|m|kg|mL|L|N|kPa|MPa)\b/;

/** What yards sell wood by, wherever a maker works: a price in the price list is of that. */
const ALLOWED = ['In quarters of an inch, as the yard sells it.'];

const withoutBraces = (says: string): string => says.replaceAll(/\{[^{}]*\}/g, '…');

/** Whether a sentence would be read in units that are not the reader's. */
const isForeign = (says: string, units: RegExp): boolean =>
  !ALLOWED.includes(says) && units.test(says);

const isForEither = (note: string): boolean => US.test(note) === METRIC.test(note);

/** The words of a page, without its styles. */
const linesOf = (html: string): string[] =>
  html
    .replaceAll(/<(style|script)\b[\s\S]*?<\/\1>/g, '')
    .split(/<\/?(?:p|li|td|th|h\d|text|title|desc|dt|dd|span)\b[^>]*>/)
    .map((part) => part.replaceAll(/<[^>]*>/g, ' ').trim())
    .filter((line) => line !== '');

/** Notes beside all cells: readers see those too that they cannot change. */
const notesIn = ({ sheets }: BookDocument): string[] =>
  sheets.flatMap(({ rows }) =>
    rows.flatMap(({ cells = {} }) =>
      Object.values(cells).flatMap(({ role, value }) =>
        role === 'note' && typeof value === 'string' ? [value] : [],
      ),
    ),
  );

describe('a sentence in other units', () => {
  it.each(['It needs 1/4 in of wood.', 'Under an inch.', 'It takes 60 lb.', `It is 4' 6" long.`])(
    'is found: %s',
    (says) => {
      expect(isForeign(withoutBraces(says), US)).toBe(true);
    },
  );

  it('is none where a cell or the workbook says it, and a note says both', () => {
    const says = 'Let {tenon} in, {1/4 in} deep; put the foot in.';
    expect(isForeign(withoutBraces(says), US)).toBe(false);
    expect(isForeign(withoutBraces('{6 mm} or more'), METRIC)).toBe(false);
    expect(isForEither('10 to 12 in is usual.')).toBe(false);
    expect(isForEither('10 to 12 in (250 to 300 mm) is usual.')).toBe(true);
  });
});

describe.each(TEMPLATES)('%s', (name) => {
  const document = documentOf(name);

  it('says in checks what is so in any units', () => {
    const said = document.checks.flatMap((check) => [check.name, withoutBraces(check.says)]);
    expect(said.filter((one) => isForeign(one, US) || isForeign(one, METRIC))).toEqual([]);
  });

  it('says beside its cells what is so in any units', () => {
    const notes = notesIn(document).filter((note) => !ALLOWED.includes(note));
    expect(notes.length).toBeGreaterThan(10);
    expect(notes.filter((note) => !isForEither(note))).toEqual([]);
  });

  it.each([
    ['metric', US],
    ['us', METRIC],
  ] as const)('says its steps in %s units', (units, others) => {
    const book = Workbook.open(document);
    if (units === 'metric') book.apply({ do: 'changeUnits', to: units });
    const said = readPlan(book).steps.flatMap(({ title, text, hardware, caution = [] }) =>
      [title, ...text, ...hardware, caution].map(plainText),
    );
    const { before = '', after = '' } = document.guide ?? {};
    expect([...said, before, after].filter((one) => isForeign(one, others))).toEqual([]);
  });

  it.each([
    ['metric', US],
    ['us', METRIC],
  ] as const)('prints in %s units, the names of its stock too', (units, others) => {
    const book = Workbook.open(document);
    if (units === 'metric') book.apply({ do: 'changeUnits', to: units });
    const paper = units === 'us' ? 'letter' : 'a4';
    const page = guidePage(book, { paper, plan: shopPlan(book, 'cell') });
    expect(linesOf(page).filter((line) => isForeign(line, others))).toEqual([]);
  });
});
