import { readFileSync } from 'node:fs';
import { loadText } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { MakeEngine } from './port.ts';
import { LEFT_TO_OTHER } from './testing/left.ts';

const { formula, number } = LEFT_TO_OTHER;

async function start() {
  const { Workbook } = await import('./workbook.ts');
  const { loadLazy, openWhole } = await import('./late.ts');
  const { workOut } = await import('./reference/alone.ts');
  return { Workbook, loadLazy, openWhole, workOut };
}

const SHELF = documentOf({ sheets: { Shelf: [[30, 0.75], ['=A1*B1'], [formula], ['=A3+1']] } });
const cell = (row: number) => ({ sheet: 's1', row, column: 0 });
const is = (value: number) => ({ kind: 'number', number: value });
const WAITS = {
  kind: 'error',
  error: { word: '#ERROR!', says: expect.stringMatching(/still loading/) },
};

// As in the app: HyperFormula comes when it is asked for. Each test is a start of its own.
beforeEach(() => {
  vi.resetModules();
  vi.doMock('#other-engine', () => import('./other-engine-lazy.ts'));
  vi.doUnmock('./follow/hyperformula.ts');
});

describe('the engine for what is not compiled', () => {
  it('V3 is waited for by the formulas that need it and by no other', async () => {
    const { Workbook, loadLazy } = await start();
    const book = Workbook.open(SHELF);
    expect(book.value(cell(1))).toEqual(is(22.5));
    expect(book.value(cell(2))).toMatchObject(WAITS);
    expect(book.value(cell(3))).toMatchObject({ kind: 'error', error: { from: cell(2) } });
    expect(book.lacks).toBe(true);
    await loadLazy();
    book.recalculate();
    expect([1, 2, 3].map((row) => book.value(cell(row)))).toEqual([is(22.5), is(number), is(6)]);
    expect(book.lacks).toBe(false);
    expect(book.canUndo).toBe(false);
  });

  it('V3 is waited for by a formula that is typed before it came, and by a question', async () => {
    const { Workbook, loadLazy } = await start();
    const book = Workbook.open(documentOf({ sheets: { Shelf: [[30, 0.75], [null]] } }));
    expect(book.lacks).toBe(false);
    const cells = [{ row: 1, column: 0, text: formula }];
    expect(book.apply({ do: 'enter', sheet: 's1', cells })).toMatchObject({ ok: true });
    expect(book.value(cell(1))).toMatchObject(WAITS);
    expect(book.evaluate(`${formula}+A1`)).toMatchObject(WAITS);
    expect(book.evaluate('=A1+1')).toEqual(is(31));
    expect(book.lacks).toBe(true);
    await loadLazy();
    book.recalculate();
    expect(book.value(cell(1))).toEqual(is(number));
    expect(book.evaluate(`${formula}+A1`)).toEqual(is(35));
    book.undo();
    expect(book.value(cell(1))).toEqual({ kind: 'empty' });
    book.redo();
    expect(book.value(cell(1))).toEqual(is(number));
  });

  it('V3 is waited for by who uses cells on which results may lie', async () => {
    const { Workbook, loadLazy } = await start();
    const fills = `${formula}*{1;2;3}`;
    const book = Workbook.open(
      documentOf({
        sheets: { Shelf: [[1, '=A3*2'], [null, '=SUM(A2:A4)'], [null], [4, '=A4+A1']] },
      }),
    );
    const b = (row: number) => book.value({ sheet: 's1', row, column: 1 });
    const enter = (row: number, text: string): void => {
      const cells = [{ row, column: 0, text }];
      expect(book.apply({ do: 'enter', sheet: 's1', cells })).toMatchObject({ ok: true });
    };
    const leadsBack = { error: { word: '#ERROR!', from: { sheet: 's1', row: 1, column: 0 } } };
    expect([0, 1, 3].map(b)).toEqual([is(0), is(4), is(5)]);
    enter(1, fills);
    expect(book.value({ sheet: 's1', row: 1, column: 0 })).toMatchObject(WAITS);
    expect([b(0), b(1)]).toMatchObject([leadsBack, leadsBack]);
    expect(b(3)).toEqual(is(5));
    // What is written there is known, and what is above it does not matter.
    enter(2, '9');
    expect(b(0)).toEqual(is(18));
    book.undo();
    expect(b(0)).toMatchObject(leadsBack);
    book.undo();
    expect([0, 1, 3].map(b)).toEqual([is(0), is(4), is(5)]);
    book.redo();
    enter(3, '');
    await loadLazy();
    book.recalculate();
    expect([0, 1, 3].map(b)).toEqual([is(20), is(30), is(16)]);
  });

  it('V3 is there before a workbook that needs it is shown, and not loaded for another', async () => {
    const { openWhole } = await start();
    const { otherEngine } = await import('#other-engine');
    await openWhole(documentOf({ sheets: { Shelf: [[30], ['=A1*2']] } }));
    expect(otherEngine.isLoaded).toBe(false);
    const book = await openWhole(SHELF);
    expect(otherEngine.isLoaded).toBe(true);
    expect(book.value(cell(2))).toEqual(is(number));
    expect(book.lacks).toBe(false);
  });

  it('V3 leaves its cells in error where it cannot be had, and is tried for again', async () => {
    const loads = vi.fn(() => {
      throw new TypeError('no network');
    });
    vi.doMock('./follow/hyperformula.ts', loads);
    const { openWhole, loadLazy } = await start();
    const book = await openWhole(SHELF);
    expect(loads).toHaveBeenCalledOnce();
    expect(book.value(cell(1))).toEqual(is(22.5));
    expect(book.value(cell(2))).toMatchObject(WAITS);
    expect(book.lacks).toBe(true);
    vi.doUnmock('./follow/hyperformula.ts');
    await loadLazy();
    book.recalculate();
    expect(book.value(cell(2))).toEqual(is(number));
  });

  it('V3 is needed by no formula of its own that is compiled', async () => {
    const { workOut, loadLazy } = await start();
    const values = () => workOut(['=1+1', formula], 'us').map(({ rows }) => rows[0]?.[0]);
    expect(values()).toEqual([is(2), expect.objectContaining(WAITS)]);
    await loadLazy();
    expect(values()).toEqual([is(2), is(number)]);
  });

  it('V3 is HyperFormula, as it is everywhere else from the start', async () => {
    const { otherEngine: late } = await import('./other-engine-lazy.ts');
    const { otherEngine } = await import('./other-engine.ts');
    const { BookState } = await import('@kerfbook/document');
    await late.bring();
    const made = (make: MakeEngine) => make(BookState.of(SHELF)).constructor.name;
    expect([made(late.need()), made(otherEngine.need())]).toEqual([
      'HyperFormulaEngine',
      'HyperFormulaEngine',
    ]);
  });
});

describe('the workbook that opens first', () => {
  it('is shown before anything that comes late', async () => {
    const lateLibraries = () => import('@kerfbook/functions/libraries-lazy');
    vi.doMock('@kerfbook/functions/libraries', lateLibraries);
    const { Workbook } = await start();
    // Others are opened once what they need is there (openWhole): a shaped part may.
    const first = new URL('../../../templates/dining-table.json', import.meta.url);
    const loaded = loadText(readFileSync(first, 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    expect(Workbook.open(loaded.document).lacks).toBe(false);
    const { shapedParts } = await lateLibraries();
    expect(shapedParts.isLoaded).toBe(false);
    vi.doUnmock('@kerfbook/functions/libraries');
  });
});
