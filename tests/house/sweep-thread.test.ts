import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';

/** The thread of the built command, as it runs. */

const root = join(import.meta.dirname, '../..');
const built = join(root, 'apps/cli/dist/sweep-thread.js');
const { startSweepThread } = (await import(built)) as typeof import('@kerfbook/cli');

const loaded = loadText(readFileSync(join(root, 'templates/dining-table.json'), 'utf8'));
if (!loaded.ok) throw new Error(loaded.says);
const { document } = loaded;
const book = Workbook.open(document);

function at(name: string) {
  const cell = book.named(name);
  if (cell === undefined) throw new Error(`the template has no ${name}`);
  return cell.at;
}

describe('the thread that sweeps', () => {
  it('works results out beside this one, and others when it is asked again', async () => {
    const { sweeper, end } = startSweepThread();
    sweeper.open(document);
    const rows: unknown[] = [];
    const [inputs, results] = [[at('top_length')], [at('top_length'), at('price')]];
    const ask = { inputs, results, sets: [[84], [60]] };
    await sweeper.sweep(ask, (more) => rows.push(...more)).ended;
    await sweeper.sweep({ ...ask, sets: [[84]] }, (more) => rows.push(...more)).ended;
    expect(rows).toHaveLength(3);
    expect(rows[0]).toEqual([{ kind: 'number', number: 84 }, book.value(at('price'))]);
    expect(rows[2]).toEqual(rows[0]);
    expect(rows[1]).not.toEqual(rows[0]);
    await end();
  });

  it('stops long before the end when it is asked to', async () => {
    const { sweeper, end } = startSweepThread();
    sweeper.open(document);
    const sets = Array.from({ length: 50_000 }, (_, i) => [48 + (i % 480) / 10]);
    let told = 0;
    const sweep = sweeper.sweep(
      { inputs: [at('top_length')], results: [at('price')], sets },
      (_, done) => {
        told = done;
        sweep.stop();
      },
    );
    expect(await sweep.ended).toEqual({ stopped: true });
    expect(told).toBeGreaterThan(0);
    expect(told).toBeLessThan(100);
    await end();
  });

  it('tells where the thread has gone', async () => {
    const { sweeper, end } = startSweepThread();
    sweeper.open(document);
    const sets = Array.from({ length: 50_000 }, () => [60]);
    const asked = sweeper.sweep({ inputs: [at('top_length')], results: [], sets }, () => undefined);
    const [outcome] = await Promise.allSettled([asked.ended, end()]);
    expect(outcome).toMatchObject({ status: 'rejected', reason: { name: 'SweepFailed' } });
  });
});
