import { readdirSync } from 'node:fs';
import { pullOf, type Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { HereAsker } from './ask.ts';
import { type Axis, contextOf } from './inputs.ts';
import { runTable } from './table.ts';
import { template } from './testing/shelf.ts';

const names = readdirSync(new URL('../../../templates', import.meta.url))
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length));

/** The first two inputs with a range of their own, each at three places within it. */
function twoAxes(book: Workbook): readonly Axis[] {
  const axes = book.names().flatMap(({ name }): Axis[] => {
    const cell = book.named(name);
    if (cell === undefined || cell.formula !== undefined || cell.value.kind !== 'number') return [];
    const pull = pullOf(cell, contextOf(book, cell));
    if (pull?.low === undefined || pull.high === undefined) return [];
    const [low, high] = [pull.low, pull.high];
    const steps = Math.floor((high - low) / pull.step);
    if (steps < 4) return [];
    const at = (part: number): number => pull.own(low + Math.round(steps * part) * pull.step);
    return [{ cell, values: [at(0.25), at(0.5), at(0.75)] }];
  });
  return axes.slice(0, 2);
}

describe.each(names)('a study over two inputs of %s', (name) => {
  it('comes to what the engine comes to, cell by cell and check by check', async () => {
    const book = template(name);
    const axes = twoAxes(book);
    expect(axes).toHaveLength(2);
    const results = book.results.flatMap((one) => book.named(one) ?? []);
    expect(results.length).toBeGreaterThan(0);
    const asker = new HereAsker(book.document());
    const { rows } = await runTable(book, asker, axes, results);
    asker.destroy();
    expect(rows).toHaveLength(9);
    for (const { set, values, failing } of rows) {
      for (const [i, { cell }] of axes.entries()) {
        const { sheet, row, column } = cell.at;
        // By its value, as the study gives it: an entry would be read in the unit that the cell shows.
        const edit = {
          do: 'setCells',
          sheet,
          cells: [
            { row, column, cell: { ...book.copyOf(cell.at), name: cell.name, value: set[i] } },
          ],
        };
        const applied = book.apply(edit as Parameters<Workbook['apply']>[0]);
        if (!applied.ok) throw new Error(applied.says);
      }
      expect(values).toEqual(results.map(({ at }) => book.value(at)));
      const states = book.checks().filter(({ state }) => state !== 'pass');
      expect(failing).toEqual(states.map(({ name: called, state }) => ({ name: called, state })));
    }
  });
});
