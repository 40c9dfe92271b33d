import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { offeredAt } from './offered.ts';

const NAMED = ['top_length', 'top_width', 'leg_top', 'price'];

/** An invented workbook with named cells. */
const BOOK = Workbook.open({
  kerfbook: 8,
  title: 'Made up',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Sizes',
      columns: [{ id: 'c1' }],
      rows: NAMED.map((name, i) => ({
        id: `r${i + 1}`,
        cells: { c1: { value: 30 + i, quantity: 'length', name } },
      })),
    },
  ],
  checks: [],
  tables: [],
});

/** What is offered at the bar in a text, and what comes of taking the first. */
function at(written: string, isList = false) {
  const caret = written.indexOf('|');
  const text = written.replace('|', '');
  const found = offeredAt(BOOK, text, caret, isList);
  const [first] = found?.options ?? [];
  return {
    offers: found?.options.map((one) => one.text),
    taken:
      found === undefined || first === undefined
        ? undefined
        : text.slice(0, found.start) + first.text + text.slice(found.end),
  };
}

describe('names that are offered while a text is written', () => {
  it('stand behind a brace, those that begin so first, and close it', () => {
    expect(at('Cut it {top| long')).toEqual({
      offers: ['top_length}', 'top_width}', 'leg_top}'],
      taken: 'Cut it {top_length} long',
    });
  });

  it('take the place of the whole name, its brace too', () => {
    expect(at('Cut it {top|_w} long').taken).toBe('Cut it {top_length} long');
  });

  it('are the counters of a repeated step too', () => {
    expect(at('Glue {rou|').offers).toEqual(['round}', 'rounds}']);
  });

  it('are none outside of braces, and none once the name is whole', () => {
    expect(at('Cut top|').offers).toBeUndefined();
    expect(at('Cut {price|}').offers).toBeUndefined();
  });

  it('stand between commas in a list of names', () => {
    expect(at('price, top|', true).taken).toBe('price, top_length');
    expect(at('price, |', true).offers).toBeUndefined();
  });

  it('stand in a formula as in its own line', () => {
    expect(at('=top_l|').taken).toBe('=top_length');
    expect(at('=ROUNDU|').taken).toBe('=ROUNDUP(');
  });
});
