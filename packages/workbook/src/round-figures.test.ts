import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sketch } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import {
  type BookDocument,
  type CellDocument,
  loadText,
  roundFigures,
  saveText,
  Workbook,
} from './index.ts';
import { bookOf, place } from './testing/sample.ts';

/**
 * Round metric figures for a workbook written in inches (rule N10). What is round: marks of a metric rule. That 28, 34,
 * 27, 17 and 24 in are said as 710, 865, 685, 430 and 610 mm is how the 2010 ADA Standards themselves print them
 * (306.3, 902.3, 902.4.1), value from memory.
 */

const FOLDER = join(import.meta.dirname, '../../../templates');
const TEMPLATES = readdirSync(FOLDER).filter((file) => file.endsWith('.json'));

function shipped(file: string): BookDocument {
  const loaded = loadText(readFileSync(join(FOLDER, file), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

function turned(document: BookDocument): Workbook {
  const book = Workbook.open(document);
  const done = book.apply({ do: 'changeUnits', to: 'metric' });
  if (!done.ok) throw new Error(done.says);
  return book;
}

function rounded(book: Workbook): void {
  const edit = roundFigures(book.document());
  if (edit === undefined) throw new Error('nothing was rounded');
  const done = book.apply(edit);
  if (!done.ok) throw new Error(done.says);
}

const cellsOf = (document: BookDocument): readonly CellDocument[] =>
  document.sheets.flatMap(({ rows }) => rows.flatMap(({ cells = {} }) => Object.values(cells)));

const inputs = (document: BookDocument): readonly CellDocument[] =>
  cellsOf(document).filter(
    ({ role, quantity, value }) =>
      role === 'input' && quantity === 'length' && typeof value === 'number',
  );

/** On a whole multiple of a step, but for what a double cannot hold. */
const isOn = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-9;

describe('round metric figures', () => {
  it.each(TEMPLATES)('N10 of %s keep every check as it was, within their ranges', (file) => {
    const us = Workbook.open(shipped(file));
    const book = turned(shipped(file));
    const exact = saveText(book.document());
    const before = inputs(book.document());
    const edit = roundFigures(book.document());
    if (edit !== undefined) expect(book.apply(edit).ok).toBe(true);
    expect(book.checks().map(({ name, state }) => `${name}: ${state}`)).toEqual(
      us.checks().map(({ name, state }) => `${name}: ${state}`),
    );
    expect(book.problems()).toEqual([]);
    expect(book.clashes()).toEqual([]);
    const after = inputs(book.document());
    expect(after).toHaveLength(before.length);
    for (const [i, { name, value, allow }] of after.entries()) {
      const [now, was] = [Number(value), Number(before[i]?.value)];
      const step = was < 3 ? 0.5 : was < 40 ? 1 : 5;
      // Where a check would turn a size is a step off, or on a finer one.
      expect(isOn(now, 0.5), `${name} ${now}`).toBe(true);
      expect(Math.abs(now - was), `${name} ${was} to ${now}`).toBeLessThanOrEqual(step);
      expect(now, `${name}`).toBeGreaterThanOrEqual(allow?.min ?? now);
      expect(now, `${name}`).toBeLessThanOrEqual(allow?.max ?? now);
      const range = before[i]?.allow;
      expect(allow?.min ?? 0, `${name}`).toBeGreaterThanOrEqual(range?.min ?? 0);
      expect(allow?.max ?? 0, `${name}`).toBeLessThanOrEqual(range?.max ?? 0);
    }
    // Most are on the usual marks, and stock is of the thickness it is called by.
    const usual = after.filter(({ value }) => {
      const size = Number(value);
      return isOn(size, size < 3 ? 0.5 : size < 40 ? 1 : 5);
    });
    expect(after.length - usual.length).toBeLessThanOrEqual(Math.max(1, after.length / 20));
    // No sentence or note speaks of inches where it can say millimeters.
    const words = cellsOf(book.document()).flatMap(({ value }) =>
      typeof value === 'string' ? [value] : [],
    );
    const inInches = [...words, ...book.document().checks.map(({ says }) => says)].filter(
      // What stands in braces is said in the workbook's units.
      (says) =>
        /\d (in|ft)\b(?![²³/])/.test(says.replaceAll(/\{[^{}]*\}/g, '')) && !/\d mm\b/.test(says),
    );
    expect(inInches).toEqual([]);
    if (edit !== undefined) book.undo();
    expect(saveText(book.document())).toBe(exact);
  });

  it.each([
    [0.75, 19],
    [1, 25],
    [1.5, 38],
    [2, 50],
    [0.25, 6],
    [0.0625, 1.5],
    [3.5, 90],
    [24, 610],
    [84, 2135],
    [0, 0],
  ])('N10 has for %f in a size of %f mm', (inches, mm) => {
    const book = bookOf({
      sheets: { A: [[{ quantity: 'length', role: 'input', value: inches } as Sketch], ['1/4 in']] },
    });
    book.apply({ do: 'changeUnits', to: 'metric' });
    rounded(book);
    expect(book.cell(place(book, 'A1')).value).toEqual({ kind: 'number', number: mm });
  });

  it('N10 goes the other way where a range ends, and keeps the exact size where no round one is in it', () => {
    const size = (value: number, min: number, max: number): Sketch =>
      ({ quantity: 'length', role: 'input', value, allow: { min, max } }) as Sketch;
    // 24 in are 609.6 mm: up is 610, past the end at 609.7; down is 605.
    const book = bookOf({
      sheets: { A: [[size(24, 10, 609.7 / 25.4)], [size(24, 23.99, 24.01)]] },
    });
    book.apply({ do: 'changeUnits', to: 'metric' });
    rounded(book);
    expect(book.cell(place(book, 'A1')).value).toEqual({ kind: 'number', number: 605 });
    expect(book.cell(place(book, 'A2')).value).toMatchObject({ number: 609.6 });
  });

  it('N10 finds another figure nearby where a check would turn', () => {
    // 1 in is 25 mm, which a check takes for too short; 26 is not.
    const book = bookOf({
      sheets: { A: [[{ quantity: 'length', role: 'input', value: 1, name: 'screw' } as Sketch]] },
      checks: [
        {
          id: 'k',
          name: 'Long',
          severity: 'stop',
          formula: '=screw>=1',
          says: '{screw} is short.',
        },
      ],
    });
    book.apply({ do: 'changeUnits', to: 'metric' });
    rounded(book);
    expect(book.named('screw')?.value).toEqual({ kind: 'number', number: 26 });
    expect(book.checks()[0]?.state).toBe('pass');
  });

  it('N10 says lengths in words in millimeters, a limit to a tenth, and leaves what says both', () => {
    const words = [
      'Leave 1 1/2 in, or 3/32 to 1/8 in at the back.',
      '35 mm, or 1 3/8 in, nearly always.',
      'A sheet, 4 by 8 ft, covers 400 ft²/gal.',
      'Put 2 in the rack.',
    ];
    const book = bookOf({
      sheets: { A: [...words.map((one) => [one]), [{ formula: '=A1&" board, 6 in"' } as Sketch]] },
      checks: [
        { id: 'k', name: 'Wall', severity: 'care', formula: '=1>0', says: 'It needs 1/4 in.' },
      ],
    });
    book.apply({ do: 'changeUnits', to: 'metric' });
    rounded(book);
    expect(words.map((_, i) => book.cell(place(book, `A${i + 1}`)).entry)).toEqual([
      'Leave 38 mm, or 2.5 to 3 mm at the back.',
      words[1],
      'A sheet, 1220 by 2440 mm, covers 400 ft²/gal.',
      words[3],
    ]);
    expect(book.document().checks[0]?.says).toBe('It needs 6.4 mm.');
  });

  it('N10 has nothing to round in inches, or where all is round', () => {
    expect(roundFigures(bookOf({ sheets: { A: [['1/4 in']] } }).document())).toBeUndefined();
    const round = { quantity: 'length', role: 'input', value: 25 } as Sketch;
    const book = bookOf({ units: 'metric', sheets: { A: [[round]] } });
    expect(roundFigures(book.document())).toBeUndefined();
  });
});
