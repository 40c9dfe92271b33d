import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { clampCount, fastenerCount, glueStages } from '@kerfbook/wood';
import { loadText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cuttingSheet } from './buying-sheet.tsx';
import { fastenerPlaces } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';
import { glueRounds } from './glue-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';
import { planningOf } from './planning.ts';

describe('rounds of gluing', () => {
  it('are as many as GLUE_STAGES says, and join everything', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 2, max: 6 }), (staves, at) => {
        const rounds = glueRounds(staves, at);
        expect(rounds).toHaveLength(glueStages(staves, at));
        expect(rounds.reduce((sum, { joints }) => sum + joints, 0)).toBe(staves - 1);
        expect(rounds.at(-1)?.after ?? 1).toBe(1);
      }),
    );
  });
});

describe('places of fasteners', () => {
  it('are as many as FASTENER_COUNT says, no farther apart than allowed, and the same from both ends', () => {
    const rail = fc.record({
      length: fc.integer({ min: 10, max: 200 }),
      spacing: fc.integer({ min: 2, max: 30 }),
      end: fc.integer({ min: 0, max: 5 }),
    });
    fc.assert(
      fc.property(rail, ({ length, spacing, end }) => {
        const places = fastenerPlaces(length, spacing, end);
        expect(places).toHaveLength(fastenerCount(length, spacing, end));
        expect(clampCount(length, spacing, end)).toBe(places.length);
        for (const [i, place] of places.entries()) {
          expect(place + (places.at(-1 - i) ?? 0)).toBeCloseTo(length, 9);
          expect(place - (places[i - 1] ?? place)).toBeLessThanOrEqual(spacing + 1e-9);
        }
      }),
    );
  });
});

describe('sheets of the dining table', () => {
  const open = (): Workbook => {
    const file = join(import.meta.dirname, '../../../../templates/dining-table.json');
    const loaded = loadText(readFileSync(file, 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    return Workbook.open(loaded.document);
  };
  const keys = (blocks: readonly { readonly key: string }[] | undefined) =>
    (blocks ?? []).map(({ key }) => key);

  it('say that saw cuts have no width where no cell is named kerf', () => {
    const planning = planningOf(open());
    const { plan } = planning;
    if (plan === undefined) throw new Error('the template has a stock table');
    expect(keys(cuttingSheet(open(), plan, planning))).not.toContain('cutting without kerf');
    expect(keys(cuttingSheet(open(), plan, { ...planning, knowsKerf: false }))).toContain(
      'cutting without kerf',
    );
  });

  it('say so instead of listing coats beyond reason', () => {
    const book = open();
    const at = book.find('coats');
    if (at === undefined) throw new Error('the template has coats');
    expect(keys(finishSheet(book))).not.toContain('finish coats');
    const { sheet, row, column } = at;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '40' }] });
    expect(keys(finishSheet(book))).toEqual(['finish', 'finish coats']);
  });

  it('say how many pieces get no label', () => {
    const { list } = planningOf(open());
    const many = { ...list, items: list.items.map((item) => ({ ...item, count: 400 })) };
    expect(keys(labelSheet(open(), list))).not.toContain('labels left out');
    const found = keys(labelSheet(open(), many));
    expect(found).toContain('labels left out');
    expect(found).toHaveLength(2 + 600 / 3);
  });
});
