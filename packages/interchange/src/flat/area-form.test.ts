import { BookState, formulaOf } from '@kerfbook/document';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { AREA_HOLDS } from './area-form.ts';
import { Flattening } from './flatten.ts';
import { writeFormula } from './write-formula.ts';

type Line = readonly (string | number)[];

const PARTS = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn', 'step x'];
const JOINTS = ['joint', 'part', 'into'];

/** Two sides and a shelf in dados of 3/8 in, or of ten millimeters. */
function shelf(units: 'us' | 'metric', asked = ''): Workbook {
  const [thick, deep] = units === 'us' ? [0.75, 0.375] : [20, 10];
  const [wide, long] = units === 'us' ? [10, 30] : [250, 800];
  const parts: readonly Line[] = [
    PARTS,
    ['Side', 2, thick, wide, long, 0, 0, 0, 'TWL', long - thick],
    ['Shelf', 1, thick, wide, long - 2 * thick + 2 * deep, thick - deep, 0, long / 2, 'LWT'],
  ];
  const joints: readonly Line[] = [JOINTS, ['dado', 'Shelf', 'Side']];
  const sheet = (id: string, name: string, lines: readonly Line[], more: object[] = []) => ({
    id,
    name,
    columns: PARTS.map((_, at) => ({ id: `c${at + 1}` })),
    rows: [
      ...lines.map((line, row) => ({
        id: `r${row + 1}`,
        cells: Object.fromEntries(line.map((value, at) => [`c${at + 1}`, { value }])),
      })),
      ...more,
    ],
  });
  const formula = `=PARTS_AREA([s1!c1.r1]:[c10.r3],${asked},[s2!c1.r1]:[c3.r2])`;
  const loaded = loadValue({
    kerfbook: 8,
    title: 'A shelf',
    units,
    sheets: [
      sheet('s1', 'Parts', parts, [{ id: 'q', cells: { c1: { formula } } }]),
      sheet('s2', 'Joints', joints),
    ],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const AT = { sheet: 's1', row: 3, column: 0 };

function out(book: Workbook) {
  const flat = new Flattening(book);
  const cell = BookState.of(book.document()).sheet('s1')?.cell(AT.row, AT.column);
  const root = cell && formulaOf(cell)?.root;
  const made = flat.formulaOut(root, book.value(AT), { sheet: 's1', evaluates: 's1' });
  if (!('formula' in made)) return made.why;
  expect(made.formula.holds).toBe(AREA_HOLDS);
  return `=${writeFormula(made.formula.root, flat.writing('s1'))}`;
}

function type(book: Workbook, sheet: string, row: number, column: number, text: string): void {
  const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!done.ok) throw new Error(done.says);
}

describe('the surface of joined parts, written out', () => {
  it.each(['us', 'metric'] as const)('follows other sizes as ours does, in %s', (units) => {
    const book = shelf(units);
    const formula = out(book);
    const area = (): number => {
      const [comes, ours] = [book.evaluate(formula, 's1'), book.value(AT)];
      if (comes.kind !== 'number' || ours.kind !== 'number') throw new Error(JSON.stringify(comes));
      expect(comes.number).toBeCloseTo(ours.number, 6);
      return ours.number;
    };
    const first = area();
    // What two bodies share is counted twice by their surfaces.
    const box = (a: number, b: number, c: number): number => 2 * (a * b + a * c + b * c);
    const byHand =
      units === 'us'
        ? 2 * box(0.75, 10, 30) + box(0.75, 10, 29.25) - 2 * box(0.75, 10, 0.375)
        : 2 * box(20, 250, 800) + box(20, 250, 780) - 2 * box(20, 250, 10);
    expect(first).toBeCloseTo(byHand, 6);
    type(book, 's1', 1, 4, units === 'us' ? '36' : '900');
    expect(area()).toBeGreaterThan(first);
    for (const row of [1, 2]) type(book, 's1', row, 3, units === 'us' ? '8.5' : '200');
    area();
  });

  it('is #N/A once other words stand in its tables, or a number where none was', () => {
    const book = shelf('us');
    const formula = out(book);
    for (const [sheet, row, column, text] of [
      ['s2', 1, 0, 'rabbet'],
      ['s1', 2, 0, 'Board'],
      ['s1', 2, 8, 'WLT'],
      ['s1', 2, 9, '1'],
      ['s1', 1, 1, '3'],
      // A shelf that is narrower than its sides is no longer flush with them behind.
      ['s1', 2, 3, '8.5'],
    ] as const) {
      type(book, sheet, row, column, text);
      const comes = book.evaluate(formula, 's1');
      expect(comes, `${text} in ${sheet}`).toMatchObject({ error: { word: '#N/A' } });
      book.undo();
    }
    expect(book.evaluate(formula, 's1').kind).toBe('number');
  });

  it('stands as its last value where one part is asked of', () => {
    expect(out(shelf('us', '"Side"'))).toContain('is a function of Kerfbook');
  });
});
