import { type At, CHECKS_SHEET, type Edit } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { otherEngine } from '../other-engine.ts';
import type { Engine, MakeEngine } from '../port.ts';
import { editOf, startBook } from '../testing/edits.ts';
import type { Workbook } from '../workbook.ts';
import { CompiledEngine } from './engine.ts';

/** The same edits in a workbook that is compiled and in one that HyperFormula works out. */
class Pair {
  readonly engines: Engine[] = [];
  readonly books: readonly [Workbook, Workbook];

  constructor() {
    const keep =
      (make: MakeEngine): MakeEngine =>
      (state) => {
        const engine = make(state);
        this.engines.push(engine);
        return engine;
      };
    this.books = [
      startBook(keep((state) => new CompiledEngine(state, otherEngine))),
      startBook(keep(otherEngine.need())),
    ];
  }

  get isWhole(): boolean {
    return (this.engines[0] as CompiledEngine).isWhole;
  }

  apply(edit: Edit): void {
    this.#both((book) => book.apply(edit));
  }

  turn(turn: 'undo' | 'redo'): void {
    this.#both((book) => book[turn]());
  }

  #both(carry: (book: Workbook) => ReturnType<Workbook['undo']>): void {
    const before = this.#shown();
    const [mine, judge] = this.books.map(carry);
    expect(mine?.ok).toBe(judge?.ok);
    if (!mine?.ok || !judge?.ok || mine.structure) return;
    // All that differs is told, and nothing that the judge has no reason to tell.
    const told = sorted(mine.changed);
    const now = this.#shown();
    const differs = [...now.keys()].filter((key) => now.get(key) !== before.get(key));
    expect(told).toEqual(expect.arrayContaining(differs));
    expect(new Set(told).size).toBe(told.length);
    if (judge.structure) return;
    expect(sorted(judge.changed)).toEqual(expect.arrayContaining([...told]));
    expect([...mine.checks].sort()).toEqual([...judge.checks].sort());
  }

  #shown(): Map<string, string> {
    const [book] = this.books;
    const cells = this.#places().filter(({ sheet }) => sheet !== CHECKS_SHEET);
    return new Map(cells.map((at) => [keyOf(at), JSON.stringify(book.value(at))]));
  }

  compare(asks: 'all' | 'values'): void {
    const [mine, judge] = this.engines as [Engine, Engine];
    for (const at of this.#places()) {
      const told = (engine: Engine) => ({
        at,
        value: engine.value(at),
        ...(asks === 'values'
          ? {}
          : {
              precedents: sorted(engine.precedents(at)),
              dependents: sorted(engine.dependents(at)),
            }),
      });
      expect(told(mine)).toEqual(told(judge));
    }
  }

  #places(): readonly At[] {
    const [book] = this.books;
    const sheets = book.sheets().flatMap(({ id, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) => ({
        sheet: id,
        row: Math.floor(i / columns),
        column: i % columns,
      })),
    );
    return [...sheets, ...book.checks().map((_, row) => ({ sheet: CHECKS_SHEET, row, column: 0 }))];
  }
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
const sorted = (cells: readonly At[]): readonly string[] => cells.map(keyOf).sort();

/** Formulas that are compiled, slips of a hand among them. */
const compiledText = fc.constantFrom(
  '=A1',
  '=B1',
  '=C2',
  '=top*2',
  '=low+1',
  '=One!B2+1',
  '=SUM(A1:A3)',
  '=SUM(Two!A1:B2)+MAX(A1:C2)',
  '=$A$1-B$2',
  '=1/0',
  '=IF(A1>2,B1,C1&"x")',
  '=IFERROR(B2,7)',
  '=ROW(A2)',
  '=FORMULATEXT(B1)',
  '=SHEETS()',
  '=ROWS(A1:B2)',
  '=SUM(B3:A1)',
  // So many cells that all who ask for their sum share it.
  '=SUM(A1:C30)',
  '=MAX(Two!A1:C30)+COUNT(A1:C30)',
  '=TODAY()',
  '=COUNTIF(A1:C9,">=2026-03-14")+COUNTIF(A1:C9,"1900-1-11")',
  '=IF(RAND()<2,7,0)&RANDBETWEEN(3,3)',
  '=VLOOKUP(2,A1:B3,2,FALSE)',
  '=SUM(A1:A3*2)+SUMPRODUCT((A1:A3>1)*B1:B3)',
  '=SPECIFIC_GRAVITY("plum")+SCREW_DIAMETER(8)',
  '=SUM(',
  '=1+',
  '=A1)',
  '="open',
  '={A1}',
  '=no_such_name+1',
  '=NO_SUCH(1)',
  '=C9',
  'plum',
  'gauge',
  '',
  '1 1/2',
  'oak',
  '12',
  '-3',
);

/** Whole columns and rows, whose empty cells behind the used ones are told of otherwise. */
const wholeText = fc.constantFrom(
  '=SUM(A:A)',
  '=COUNTIF(Two!B:B,">1")',
  '=SUMIF(A:A,">1",B:B)',
  '=COUNT(Two!1:2)+MATCH(2,Two!A:A,0)',
  '=C9',
  '4',
  '',
);

/** Formulas that HyperFormula works out. */
const leftText = fc.constantFrom('=SORT(A1:A3)', '=A1:B2', '=OFFSET(A1,1,0)', '=COUNTBLANK(A:A)');

const stepOf = (edit: fc.Arbitrary<Edit>) =>
  fc.oneof(
    { weight: 6, arbitrary: edit.map((one) => ({ edit: one })) },
    { weight: 1, arbitrary: fc.constantFrom({ turn: 'undo' } as const, { turn: 'redo' } as const) },
  );

function beside(
  edit: fc.Arbitrary<Edit>,
  numRuns: number,
  asks: 'all' | 'values' = 'all',
): { whole: number; handedOn: number } {
  const count = { whole: 0, handedOn: 0 };
  fc.assert(
    fc.property(fc.array(stepOf(edit), { maxLength: 12 }), (steps) => {
      const pair = new Pair();
      pair.compare(asks);
      for (const step of steps) {
        if ('turn' in step) pair.turn(step.turn);
        else pair.apply(step.edit);
        pair.compare(asks);
        count[pair.isWhole ? 'whole' : 'handedOn'] += 1;
      }
    }),
    { numRuns },
  );
  return count;
}

/** Found by chance, each with its fewest steps. */
const FOUND: readonly (readonly [string, readonly Edit[]])[] = [
  [
    'a sum of many cells, which formulas share',
    [
      { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 2, text: '=SUM(Two!A1:A90)' }] },
      { do: 'enter', sheet: 's2', cells: [{ row: 80, column: 0, text: '7' }] },
      { do: 'deleteRows', sheet: 's2', at: 0, count: 2 },
      { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 2, text: '=SUM(Two!A1:A88)+1' }] },
    ],
  ],
  [
    'a cell between braces that is gone later',
    [
      { do: 'enter', sheet: 's3', cells: [{ row: 2, column: 2, text: '={A1}' }] },
      { do: 'deleteRows', sheet: 's3', at: 0, count: 1 },
    ],
  ],
];

describe('a compiled workbook and HyperFormula beside each other', () => {
  it('A4 H5 agree after every edit on values, reasons, what changed and what uses what', () => {
    const { whole } = beside(editOf(compiledText), 150);
    expect(whole).toBeGreaterThan(300);
  });

  it.each(FOUND)('A4 H5 agree on %s', (_, edits) => {
    const pair = new Pair();
    for (const edit of edits) {
      pair.apply(edit);
      pair.compare('all');
    }
  });

  it('A4 H5 agree on values of whole columns and rows', () => {
    const { whole } = beside(editOf(fc.oneof(wholeText, compiledText)), 100, 'values');
    expect(whole).toBeGreaterThan(200);
  });

  it('A4 H5 agree where formulas are handed on and taken back', () => {
    const { whole, handedOn } = beside(editOf(fc.oneof(leftText, compiledText)), 100);
    expect(whole).toBeGreaterThan(30);
    expect(handedOn).toBeGreaterThan(30);
  });
});
