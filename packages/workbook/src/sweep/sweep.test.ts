import { readFileSync } from 'node:fs';
import { type At, type BookDocument, loadText, type Scalar } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../api.ts';
import { Workbook } from '../workbook.ts';
import { checkPlace } from './checks.ts';
import type { Line, WorkerLine } from './messages.ts';
import { AT_ONCE, serveSweeps } from './serve.ts';
import { Sweeper, SweepFailed } from './sweeper.ts';

/** Two ends of a line within one thread; what goes over it is copied as between threads. */
function lineAndEnd(): { readonly line: Line; readonly end: WorkerLine; heard: unknown[] } {
  const heard: unknown[] = [];
  let toWorker: (message: unknown) => void = () => undefined;
  let toAsker: (message: unknown) => void = () => undefined;
  return {
    heard,
    line: {
      send: (message) => {
        const copy = structuredClone(message);
        setImmediate(() => toWorker(copy));
      },
      hear: (listener) => {
        toAsker = listener;
      },
    },
    end: {
      send: (message) => {
        heard.push(message);
        const copy = structuredClone(message);
        setImmediate(() => toAsker(copy));
      },
      hear: (listener) => {
        toWorker = listener;
      },
      turn: () => new Promise((resolve) => setImmediate(resolve)),
    },
  };
}

function sweeperOf(document: BookDocument) {
  const { line, end, heard } = lineAndEnd();
  serveSweeps(end);
  const sweeper = new Sweeper(line);
  sweeper.open(document);
  return { sweeper, heard };
}

const cell = (row: number, column = 0): At => ({ sheet: 's1', row, column });

const SHELF = documentOf({
  sheets: { Shelf: [[30], [0.75], ['=A1*A2'], ['=IF(A1>40,NA(),"fits")'], ['=A1']] },
  checks: [
    { id: 'k1', name: 'Span', formula: '=Shelf!A1<=36', severity: 'care', says: 'It sags.' },
  ],
});

const number = (one: number): CellValue => ({ kind: 'number', number: one });

describe('a sweep', () => {
  it('A5 tells results set by set, in their order, with how many are done', async () => {
    const { sweeper } = sweeperOf(SHELF);
    const rows: (readonly CellValue[])[] = [];
    const counts: number[] = [];
    const sets = Array.from({ length: 2 * AT_ONCE + 3 }, (_, i) => [10 + i, 0.5] as const);
    const sweep = sweeper.sweep(
      { inputs: [cell(0), cell(1)], results: [cell(2), checkPlace(0)], sets },
      (more, done) => {
        rows.push(...more);
        counts.push(done);
      },
    );
    expect(await sweep.ended).toEqual({ stopped: false });
    expect(rows).toEqual(
      sets.map(([length, depth]) => [
        number(length * depth),
        { kind: 'logical', logical: length <= 36 },
      ]),
    );
    expect(counts).toEqual([AT_ONCE, 2 * AT_ONCE, sets.length]);
  });

  it('A5 comes to what the workbook comes to with these inputs, errors and sentences included', async () => {
    const template = new URL('../../../../templates/dining-table.json', import.meta.url);
    const loaded = loadText(readFileSync(template, 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    const { document } = loaded;
    const book = Workbook.open(document);
    const before = JSON.stringify(book.document());
    const at = (name: string): At => {
      const named = book.named(name);
      if (named === undefined) throw new Error(name);
      return named.at;
    };
    const inputs = [at('top_length'), at('species')];
    const results = book.names().map(({ name }) => at(name));
    const checks = document.checks.map((_, i) => checkPlace(i));
    const sets: Scalar[][] = [
      [60, 'Oak, white'],
      [96, 'Walnut'],
      [-3, 'no such wood'],
      [84, 7],
    ];
    const { sweeper } = sweeperOf(document);
    const told: (readonly CellValue[])[] = [];
    const ask = { inputs, results: [...results, ...checks], sets };
    await sweeper.sweep(ask, (rows) => told.push(...rows)).ended;
    for (const [i, set] of sets.entries()) {
      for (const [k, { sheet, row, column }] of inputs.entries()) {
        const kept = { ...book.copyOf(inputs[k] as At), name: ['top_length', 'species'][k] };
        const { typed: _typed, ...plain } = kept;
        const value = set[k] as Scalar;
        const result = book.apply({
          do: 'setCells',
          sheet,
          cells: [{ row, column, cell: { ...plain, value } as never }],
        });
        expect(result.ok).toBe(true);
      }
      expect(told[i]?.slice(0, results.length)).toEqual(results.map((one) => book.value(one)));
    }
    expect(told).toHaveLength(sets.length);
    while (book.canUndo) book.undo();
    expect(JSON.stringify(book.document())).toBe(before);
  });

  it('A5 may be asked for again with other cells, and for another workbook', async () => {
    const { sweeper } = sweeperOf(SHELF);
    const ask = async (input: At, result: At, value: Scalar | null) => {
      const told: CellValue[] = [];
      const sets = [[value]];
      await sweeper.sweep({ inputs: [input], results: [result], sets }, (rows) =>
        told.push(...rows.flat()),
      ).ended;
      return told[0];
    };
    expect(await ask(cell(0), cell(2), 40)).toEqual(number(30));
    // The workbook itself stays as it was: 30 by 3/4.
    expect(await ask(cell(1), cell(2), 2)).toEqual(number(60));
    expect(await ask(cell(0), cell(3), 41)).toMatchObject({ kind: 'error' });
    expect(await ask(cell(0), cell(4), null)).toEqual(number(0));
    sweeper.open(documentOf({ sheets: { Other: [[1], ['=A1+1']] } }));
    expect(await ask(cell(0), cell(1), 8)).toEqual(number(9));
  });

  it('A5 stops within a few sets, and says so', async () => {
    const { sweeper, heard } = sweeperOf(SHELF);
    const sets = Array.from({ length: 1_000 * AT_ONCE }, (_, i) => [i]);
    let told = 0;
    const sweep = sweeper.sweep({ inputs: [cell(0)], results: [cell(2)], sets }, (_, done) => {
      told = done;
      if (done >= 5 * AT_ONCE) sweep.stop();
    });
    expect(await sweep.ended).toEqual({ stopped: true });
    expect(told).toBe(5 * AT_ONCE);
    // What was under way when it was stopped, and not much more.
    expect(heard.length).toBeLessThan(15);
    // The next one is not stopped with it.
    const next = sweeper.sweep(
      { inputs: [cell(0)], results: [cell(2)], sets: [[4]] },
      () => undefined,
    );
    expect(await next.ended).toEqual({ stopped: false });
  });

  it('A5 that waits for another can be stopped before it begins', async () => {
    const { sweeper } = sweeperOf(SHELF);
    const ask = { inputs: [cell(0)], results: [cell(2)], sets: [[1], [2]] };
    const heard: number[] = [];
    const first = sweeper.sweep(ask, (rows) => heard.push(rows.length));
    const second = sweeper.sweep(ask, () => heard.push(-1));
    second.stop();
    expect(await Promise.all([first.ended, second.ended])).toEqual([
      { stopped: false },
      { stopped: true },
    ]);
    expect(heard).toEqual([2]);
  });

  it('A5 tells why it cannot be carried out, and the next one can', async () => {
    const { sweeper } = sweeperOf(SHELF);
    const failed = sweeper.sweep(
      { inputs: [cell(2)], results: [cell(0)], sets: [[1]] },
      () => undefined,
    );
    await expect(failed.ended).rejects.toThrow(/holds a formula.*Sweep cells that hold a value\.$/);
    await expect(failed.ended).rejects.toBeInstanceOf(SweepFailed);
    const heard: unknown[] = [];
    const next = sweeper.sweep({ inputs: [cell(0)], results: [cell(4)], sets: [[3]] }, (rows) =>
      heard.push(...rows),
    );
    await next.ended;
    expect(heard).toEqual([[number(3)]]);
  });

  it('A5 fails where the thread is gone or has no workbook', async () => {
    const { line } = lineAndEnd();
    const alone = new Sweeper(line);
    const asked = alone.sweep({ inputs: [], results: [], sets: [] }, () => undefined);
    alone.lost('no memory');
    await expect(asked.ended).rejects.toThrow(/is gone \(no memory\)\.$/);
    const { line: other, end } = lineAndEnd();
    serveSweeps(end);
    const none = new Sweeper(other).sweep({ inputs: [], results: [], sets: [[]] }, () => undefined);
    await expect(none.ended).rejects.toThrow(/no workbook was opened/);
  });
});
