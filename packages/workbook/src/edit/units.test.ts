import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sketch } from '@kerfbook/document/testing';
import { ownFromUs, type Quantity } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { loadText, saveText, Workbook } from '../index.ts';
import { bookOf, place, shows, type } from '../testing/sample.ts';

/**
 * A workbook in other units (rule N7). Conversion factors: NIST SP 811 (2008), appendix B: 1 in = 25.4 mm,
 * 1 lb = 0.45359237 kg, 1 lbf = 4.4482216152605 N, t/°C = (t/°F - 32)/1.8, all exact; 1 gal = 231 in³.
 */

const TABLE = readFileSync(
  join(import.meta.dirname, '../../../../templates/dining-table.json'),
  'utf8',
);

function open(text: string): Workbook {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

function change(book: Workbook, to: 'us' | 'metric'): void {
  const result = book.apply({ do: 'changeUnits', to });
  if (!result.ok) throw new Error(result.says);
}

const length = (cell: Omit<Sketch & object, 'quantity'>): Sketch =>
  ({ quantity: 'length', ...cell }) as Sketch;

describe('a workbook in other units', () => {
  it('N7 keeps what a cell held in other units when the same is typed once more', () => {
    const book = bookOf({ sheets: { A: [[{ formula: '=SCREW_DIAMETER(8)' } as Sketch]] } });
    const before = saveText(book.document());
    change(book, 'metric');
    const { formula = '' } = book.cell({ sheet: 's1', row: 0, column: 0 });
    type(book, 'A1', formula);
    change(book, 'us');
    expect(saveText(book.document())).toBe(before);
  });

  it('N7 turns what is typed, and back is the same to the byte, by undo and the other way', () => {
    const book = bookOf({
      sheets: {
        A: [
          [length({ value: 84, typed: `7' 0"`, name: 'top', allow: { min: 24, max: 120 } }), 'in'],
          [length({ value: 0.75, typed: '3/4' }), 'in'],
          [length({ value: 66.375, show: { as: 'fraction', denominator: 32 } })],
          [{ quantity: 'temperature', value: 70, allow: { min: -20 } }, '°F'],
          [{ quantity: 'area', value: 3456 }, 'ft²'],
          [{ quantity: 'money_per_boardfoot', value: 9 }],
          [length({ formula: '=top+3/4' })],
          [length({ formula: '=IF(top>72,CEILING(top,1/8),1)' })],
          [{ quantity: 'boardfeet', formula: '=top*2.5*[c1.r2]/144' } as Sketch],
          [{ quantity: 'count', formula: '=ROUNDUP(top/(24-1),0)' } as Sketch],
          [{ quantity: 'temperature', formula: '=[c1.r4]+9' } as Sketch],
          ['a size of 3/4 in', 5],
        ],
      },
      checks: [{ id: 'k', name: 'Long', severity: 'care', formula: '=top<=96', says: 'Too long.' }],
    });
    const before = saveText(book.document());
    change(book, 'metric');
    expect(book.units).toBe('metric');
    const entries = Array.from({ length: 12 }, (_, row) =>
      book.cell({ sheet: 's1', row, column: 0 }),
    );
    expect(entries.map(({ entry }) => entry)).toEqual([
      `7' 0"`,
      '19.05',
      '1685.925',
      '21.1111111111111',
      '2.22967296',
      '9',
      '=top+76.2/4',
      '=IF(top>1828.8,CEILING(top,25.4/8),25.4)',
      '=top*2.5*A2/92903.04',
      '=ROUNDUP(top/(609.6-25.4),0)',
      '=A4+5',
      'a size of 3/4 in',
    ]);
    expect(entries[0]?.value).toEqual({ kind: 'number', number: 2133.6 });
    expect(entries[0]?.allow).toEqual({ min: 609.6, max: 3048 });
    expect(entries[2]?.shown.text).toBe('1685.9');
    expect(['B1', 'B2', 'B4', 'B5', 'B12'].map((at) => shows(book, at))).toEqual([
      'mm',
      'mm',
      '°C',
      'm²',
      '5',
    ]);
    const metric = saveText(book.document());
    expect(saveText(open(metric).document())).toBe(metric);
    change(book, 'us');
    expect(saveText(book.document())).toBe(before);
    book.undo();
    expect(saveText(book.document())).toBe(metric);
    book.undo();
    expect(saveText(book.document())).toBe(before);
  });

  it('N7 keeps what was changed meanwhile, and all else to the letter', () => {
    const book = bookOf({
      sheets: {
        A: [[length({ value: 0.75, typed: '3/4' }), length({ value: 0.5, typed: '1/2' })]],
      },
    });
    change(book, 'metric');
    type(book, 'A1', '25.4');
    change(book, 'us');
    expect(book.cell(place(book, 'A1')).entry).toBe('1');
    expect(book.cell(place(book, 'B1')).entry).toBe('1/2');
  });

  it('N7 says a gauge in words, which a metric workbook reads as no size of its own', () => {
    const book = bookOf({
      sheets: { A: [[{ quantity: 'length', formula: '=SCREW_DIAMETER(8)' }]] },
    });
    const before = saveText(book.document());
    change(book, 'metric');
    expect(book.cell(place(book, 'A1'))).toMatchObject({
      entry: '=SCREW_DIAMETER("No. 8")',
      value: { number: 4.1656 },
    });
    change(book, 'us');
    expect(saveText(book.document())).toBe(before);
    // Compiled formulas of numbers took the bare number all the same: found by random edits, seed 20261127.
    const bare = bookOf({ units: 'metric', sheets: { A: [['=SCREW_DIAMETER(8)']] } });
    expect(bare.value(place(bare, 'A1'))).toMatchObject({ error: { word: '#VALUE!' } });
  });

  it('N7 refuses the units it has', () => {
    const book = bookOf({ sheets: { A: [[1]] } });
    expect(book.apply({ do: 'changeUnits', to: 'us' })).toMatchObject({ ok: false, code: 'W29' });
  });

  it('N7 the dining table comes to the same in both, and back is the same to the byte', () => {
    const [us, metric] = [open(TABLE), open(TABLE)];
    change(metric, 'metric');
    expect(metric.problems()).toEqual([]);
    expect(metric.clashes()).toEqual([]);
    expect(metric.checks().map(({ state }) => state)).toEqual(
      us.checks().map(({ state }) => state),
    );
    const off: string[] = [];
    // A tenon and a board are as wide, and a tongue as long, as a rule of these units can mark.
    const marked = new Set([
      ...['mark_step', 'tenon_shoulder', 'tenon_width'],
      ...['tongue_gap_needed', 'tongue_needed', 'panel_board_width'],
    ]);
    for (const { name, at } of us.names()) {
      const [a, b] = [us.cell(at), metric.cell(at)];
      if (marked.delete(name)) continue;
      if (a.value.kind !== 'number' || b.value.kind !== 'number') {
        if (JSON.stringify(a.value) !== JSON.stringify(b.value)) off.push(`${name}: another kind`);
        continue;
      }
      const wanted = ownFromUs((a.quantity ?? 'number') as Quantity, a.value.number, 'metric');
      if (Math.abs(b.value.number - wanted) > 1e-9 * Math.max(1, Math.abs(wanted))) {
        off.push(`${name}: ${wanted} in us, ${b.value.number} in metric`);
      }
    }
    expect(off).toEqual([]);
    expect(marked.size).toBe(0);
    const steps = (book: Workbook, step: number): readonly number[] =>
      ['mark_step', 'tenon_shoulder'].map((name) => {
        const value = book.named(name)?.value;
        return value?.kind === 'number' ? value.number / step : Number.NaN;
      });
    expect(steps(us, 1 / 16)).toEqual([1, 10]);
    expect(steps(metric, 1)).toEqual([1, 15]);
    change(metric, 'us');
    expect(saveText(metric.document())).toBe(saveText(us.document()));
    expect(saveText(metric.document())).toBe(TABLE);
  });
});
