import { BookState, formulaOf } from '@kerfbook/document';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Flattening } from './flatten.ts';
import { SUMMED_UP } from './table-forms.ts';
import { writeFormula } from './write-formula.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'shape'];

/** A shelf of two kinds of parts; `shape` says whether one of them is round. */
function bookWith(shape: string, units: 'us' | 'metric' = 'us', joints = ''): Workbook {
  const cells = (line: readonly (string | number)[]) =>
    Object.fromEntries(
      line.flatMap((value, at) => (value === '' ? [] : [[`c${at + 1}`, { value }]])),
    );
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Parts',
    units,
    sheets: [
      {
        id: 's1',
        name: 'Parts',
        columns: HEADS.map((_, at) => ({ id: `c${at + 1}` })),
        rows: [
          { id: 'r1', cells: cells(HEADS) },
          { id: 'r2', cells: cells(['Side', 2, 0.75, 10, 30, '']) },
          { id: 'r3', cells: cells(['Shelf', 3, 0.75, 10, 10, shape]) },
          ...SUMMED_UP.map((name, at) => ({
            id: `q${at + 1}`,
            cells: { c1: { formula: `=${name}([c1.r1]:[c6.r3]${joints})` } },
          })),
        ],
      },
    ],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

function outOf(book: Workbook): readonly string[] {
  const out = new Flattening(book);
  const state = BookState.of(book.document());
  return SUMMED_UP.map((_, at) => {
    const cell = state.sheet('s1')?.cell(3 + at, 0);
    const root = cell === undefined ? undefined : formulaOf(cell)?.root;
    const value = book.value({ sheet: 's1', row: 3 + at, column: 0 });
    const made = out.formulaOut(root, value, { sheet: 's1', evaluates: 's1' });
    return 'formula' in made ? writeFormula(made.formula.root, out.writing('s1')) : made.why;
  });
}

describe('what finished parts measure', () => {
  it.each(['us', 'metric'] as const)(
    'is written as sums over the columns of plain parts, in %s',
    (units) => {
      const book = bookWith('', units);
      const [volume = '', area = ''] = outOf(book);
      expect(volume).toBe('SUMPRODUCT(B2:B3,C2:C3,D2:D3,E2:E3)');
      // Two sides of 3/4 by 10 by 30 and three shelves of 3/4 by 10 by 10, by hand.
      expect(book.evaluate(`=${volume}`, 's1')).toEqual({ kind: 'number', number: 675 });
      expect(book.evaluate(`=${area}`, 's1')).toMatchObject({
        number: 2 * 2 * (300 + 22.5 + 7.5) + 3 * 2 * (100 + 7.5 + 7.5),
      });
    },
  );

  it('stands as its last value where parts are shaped or joined', () => {
    for (const book of [bookWith('round'), bookWith('', 'us', ',,{"joint","part","into"}')]) {
      for (const says of outOf(book)) expect(says).toContain('is a function of Kerfbook');
    }
  });
});
