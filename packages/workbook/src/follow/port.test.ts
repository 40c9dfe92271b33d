import { readdirSync, readFileSync } from 'node:fs';
import type { At, BookState, Edit, Step } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../api.ts';
import type { Differing, Engine, Evaluated, Recalculated } from '../port.ts';
import { Workbook } from '../workbook.ts';
import { HyperFormulaEngine } from './hyperformula.ts';

/** HyperFormula built anew for every change: slow, and never out of step. */
class Fresh implements Engine {
  readonly pending = false;
  readonly followed: (readonly Step[])[] = [];
  /** The next change is thrown at. */
  fails = false;
  #engine: HyperFormulaEngine;

  constructor(state: BookState) {
    this.#engine = new HyperFormulaEngine(state);
  }

  follow(steps: readonly Step[]): Recalculated {
    this.followed.push(steps);
    if (this.fails) throw new Error('this engine lost count');
    const last = steps.at(-1);
    if (last !== undefined) this.#engine.restart(last.after);
    return { cells: [], checks: [], anew: true };
  }

  goOn(): Differing {
    return { cells: [], checks: [] };
  }

  restart(state: BookState): void {
    this.#engine.restart(state);
  }

  value(at: At): CellValue {
    return this.#engine.value(at);
  }

  precedents(at: At): readonly At[] {
    return this.#engine.precedents(at);
  }

  dependents(at: At): readonly At[] {
    return this.#engine.dependents(at);
  }

  evaluate(formula: string, sheet: string): Evaluated {
    return this.#engine.evaluate(formula, sheet);
  }

  destroy(): void {
    this.#engine.destroy();
  }
}

const SKETCH = {
  sheets: {
    Base: [
      [84, '=[c1.r1]/2', '=SUM([c1.r1]:[c1.r3])'],
      [3, '=[s2!c1.r1]+1', null],
      ['oak', '=SPECIFIC_GRAVITY("plum")', '=SEQUENCE(2,1)'],
    ],
    Woods: [
      ['species', 'gravity'],
      ['plum', 0.7],
    ],
  },
  checks: [
    {
      id: 'k1',
      name: 'Long',
      formula: '=[s1!c1.r1]>80',
      severity: 'care',
      says: 'Short.',
    } as const,
  ],
  tables: [{ id: 't1', kind: 'woods', sheet: 's2', header: 'r1', last: 'r2' } as const],
};

const EDITS: readonly Edit[] = [
  { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text: '70' }] },
  { do: 'nameCell', at: { sheet: 's1', row: 0, column: 0 }, name: 'top' },
  { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 2, text: '=top*Woods!B2' }] },
  { do: 'insertRows', sheet: 's1', at: 1, rows: [{ id: 'n1' }] },
  { do: 'enter', sheet: 's2', cells: [{ row: 1, column: 1, text: '0.65' }] },
  { do: 'renameSheet', sheet: 's2', name: 'Own woods' },
  { do: 'deleteRows', sheet: 's1', at: 0, count: 1 },
  { do: 'insertColumns', sheet: 's2', at: 0, columns: [{ id: 'n2' }] },
  { do: 'setTables', tables: [] },
];

const open = (engine?: (state: BookState) => Engine): Workbook =>
  Workbook.open(documentOf(SKETCH), engine === undefined ? {} : { engine });

function openFresh(): { readonly book: Workbook; readonly engine: Fresh } {
  const made: Fresh[] = [];
  const book = open((state) => {
    const engine = new Fresh(state);
    made.push(engine);
    return engine;
  });
  const [engine] = made;
  if (engine === undefined || made.length > 1) throw new Error('one engine was to be made');
  return { book, engine };
}

const valuesOf = (book: Workbook) => ({
  cells: book
    .sheets()
    .flatMap(({ id, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) =>
        book.value({ sheet: id, row: Math.floor(i / columns), column: i % columns }),
      ),
    ),
  checks: book.checks().map(({ state, says }) => ({ state, says })),
  plum: book.evaluate('=SPECIFIC_GRAVITY("plum")'),
});

describe('an engine behind the port', () => {
  it('H5 comes to the same values as another, after every edit and all the way back', () => {
    const [book, other] = [open(), openFresh().book];
    expect(valuesOf(other)).toEqual(valuesOf(book));
    for (const edit of EDITS) {
      expect(book.apply(edit), edit.do).toMatchObject({ ok: true });
      expect(other.apply(edit).ok).toBe(true);
      expect(valuesOf(other), edit.do).toEqual(valuesOf(book));
    }
    while (book.undo()?.ok) {
      expect(other.undo()?.ok).toBe(true);
      expect(valuesOf(other)).toEqual(valuesOf(book));
    }
    expect(valuesOf(book)).toEqual(valuesOf(open()));
  });

  it('H5 hears of changes alone, each with the workbook before and after it', () => {
    const { book, engine } = openFresh();
    for (const edit of EDITS) {
      const result = book.apply(edit);
      const steps = engine.followed.at(-1) ?? [];
      expect(result.ok && result.edit.changes).toEqual(steps.map(({ change }) => change));
    }
    const all = engine.followed.flat();
    expect(all.length).toBeGreaterThanOrEqual(EDITS.length);
    for (const [i, { before }] of all.entries()) {
      if (i > 0) expect(before).toBe(all[i - 1]?.after);
    }
  });

  it('E1 hears nothing of an edit that is refused', () => {
    const { book, engine } = openFresh();
    const wrong: Edit = { do: 'deleteRows', sheet: 's1', at: 7, count: 1 };
    expect(book.apply(wrong).ok).toBe(false);
    expect(engine.followed).toEqual([]);
  });

  it('A3 may throw: the workbook is as it was, and the engine begins anew with it', () => {
    const { book, engine } = openFresh();
    const before = valuesOf(book);
    const saved = JSON.stringify(book.document());
    engine.fails = true;
    const [edit] = EDITS;
    expect(edit && book.apply(edit)).toMatchObject({ ok: false, code: 'W19' });
    expect(JSON.stringify(book.document())).toBe(saved);
    expect(valuesOf(book)).toEqual(before);
    engine.fails = false;
    expect(edit && book.apply(edit)).toMatchObject({ ok: true });
  });
});

describe('the source', () => {
  it('H5 has one place that tells HyperFormula of a workbook', () => {
    const source = new URL('..', import.meta.url);
    const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).map((file) =>
      file.replaceAll('\\', '/'),
    );
    const modules = files.filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'));
    const telling = modules.filter(
      (file) =>
        !file.startsWith('engine/') &&
        /from '[./]+engine\/calculator\.ts'/.test(readFileSync(new URL(file, source), 'utf8')),
    );
    // Tests and benchmarks ask for it by the package's name.
    const outside = telling.filter(
      (file) => !/^(?:follow\/|compiled\/|hyperformula\.ts)/.test(file),
    );
    expect(outside).toEqual([]);
    expect(telling.length).toBeGreaterThan(0);
  });
});
