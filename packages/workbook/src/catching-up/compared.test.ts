import { describe, expect, it } from 'vitest';
import { Workbook } from '../index.ts';
import { shipped } from '../testdata/shipped.ts';
import { compared } from './compared.ts';

const bench = shipped('bench');

describe('comparing two workbooks', () => {
  it('H12 finds nothing between a workbook and itself in other units', () => {
    const book = Workbook.open(bench);
    book.apply({ do: 'changeUnits', to: 'metric' });
    const found = compared(bench, book.document());
    expect(found).toMatchObject({ kin: true, turned: true, results: [] });
    // What it counts in is a choice of its maker's.
    expect(found.typed.map(({ kind }) => kind).filter((kind) => kind !== 'workbook')).toEqual([]);
  });

  it('H12 tells what was typed, what is said of a cell, and what only comes to something else', () => {
    const book = Workbook.open(bench);
    const at = book.named('seat_length')?.at;
    if (at === undefined) throw new Error('no length');
    const { sheet, row, column } = at;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '50' }] });
    const traits = { remark: 'For the hall.' };
    const said = { do: 'describeCells', sheet, cells: [{ row, column, traits }] } as const;
    expect(book.apply(said).ok).toBe(true);
    const { typed, results } = compared(bench, book.document());
    expect(typed).toMatchObject([
      { kind: 'cells', after: '50 in' },
      { kind: 'remarks', trait: 'remark', after: 'For the hall.' },
    ]);
    expect(typed[0]).not.toHaveProperty('trait');
    const told = new Set(results.map(({ what }) => what));
    expect(told.size).toBeGreaterThan(5);
    expect(results.every(({ before, after }) => before !== after)).toBe(true);
    expect(told.has(typed[0]?.what ?? '')).toBe(false);
  });

  it('H12 goes by names where the two did not come of one workbook', () => {
    const found = compared(bench, shipped('bookcase'));
    expect(found.kin).toBe(false);
    expect(found.typed.some(({ what }) => what.includes('labor_rate'))).toBe(false);
    expect(
      found.typed.some(({ what, after }) => what.includes('seat_length') && after === ''),
    ).toBe(true);
  });
});
