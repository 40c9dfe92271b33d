import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const template = (name: string): string =>
  readFileSync(join(import.meta.dirname, `../../../templates/${name}.json`), 'utf8');
const files = {
  'bench.json': template('bench'),
  'hall.json': template('bench'),
  'table.json': template('coffee-table'),
  'panel.json': template('movement'),
  'bare.json': JSON.stringify({
    kerfbook: 8,
    title: 'Bare',
    units: 'us',
    sheets: [{ id: 's1', name: 'One', columns: [], rows: [] }],
    checks: [],
    tables: [],
  }),
};

interface Report {
  readonly cost: number;
  readonly bound: number;
  readonly proven: boolean;
  readonly boardsBought: number;
  readonly apart: { readonly cost: number; readonly boards: number };
  readonly boards: readonly {
    readonly length: number;
    readonly offcut: number;
    readonly pieces: readonly {
      readonly job: string;
      readonly part: string;
      readonly strips: number;
      readonly length: number;
    }[];
  }[];
  readonly buy: readonly { readonly count: number; readonly price: number }[];
}

async function report(...paths: string[]): Promise<Report> {
  const ended = await call(['plan', ...paths, '--json'], files);
  expect(ended.err).toBe('');
  expect(ended.code).toBe(0);
  return JSON.parse(ended.out) as Report;
}

describe('plan of several workbooks', () => {
  it('has every piece of each, at no more than each by itself', async () => {
    const both = await report('bench.json', 'hall.json', 'table.json');
    const alone = await call(['plan', 'bench.json', '--json'], files);
    const one = JSON.parse(alone.out) as Report;
    const table = JSON.parse((await call(['plan', 'table.json', '--json'], files)).out) as Report;
    expect(both.apart.cost).toBeCloseTo(2 * one.cost + table.cost, 2);
    expect(both.cost).toBeLessThan(both.apart.cost);
    expect(both.bound).toBeLessThanOrEqual(both.cost);
    const priced = both.buy.reduce((all, { count, price }) => all + count * price, 0);
    expect(priced).toBeCloseTo(both.cost, 1);
    const parts = (plan: Report, job: string | undefined) =>
      plan.boards
        .flatMap(({ pieces }) => pieces)
        .filter((piece) => job === undefined || piece.job === job)
        .flatMap(({ part, length, strips }) =>
          Array.from({ length: strips }, () => `${part} ${length}`),
        )
        .toSorted();
    expect(parts(both, 'A')).toEqual(parts(one, undefined));
    expect(parts(both, 'B')).toEqual(parts(one, undefined));
    expect(parts(both, 'C')).toEqual(parts(table, undefined));
  });

  it('prints which job each piece is of and what that saves, or the buying list as rows', async () => {
    const { out, code } = await call(['plan', 'bench.json', 'hall.json'], files);
    expect(code).toBe(0);
    expect(out).toMatch(/^A: Bench\nB: Bench\n/);
    expect(out).toMatch(/\| B Leg 16 3\/4 \|/);
    expect(out).toMatch(/buying together saves \$\d+\.\d\d/);
    const csv = await call(['plan', 'bench.json', 'hall.json', '--csv'], files);
    const [head, ...rows] = csv.out.trim().split('\n');
    expect(head).toBe('count,stock,material,thickness,width,length,price,total');
    expect(rows.length).toBeGreaterThan(1);
    const single = await call(['plan', 'bench.json', '--csv'], files);
    expect(single.out.split('\n')[0]).toBe(head);
  });

  it('says what has nothing to cut, and takes --set for one workbook alone', async () => {
    const { err, code } = await call(['plan', 'bench.json', 'bare.json', 'panel.json'], files);
    expect(code).toBe(1);
    expect(err).toContain('B: It has no parts table: there is nothing to cut.');
    expect(err).toMatch(/^C Panel \(Parts!A4\): There is no stock of sugar maple for C Panel/m);
    expect(err).toMatch(/^B, C are without a kerf: planned with 1\/8, as the others\.$/m);
    const wrong = await call(['plan', 'bench.json', 'hall.json', '--set', 'kerf=1/4'], files);
    expect([wrong.code, wrong.err]).toEqual([
      2,
      expect.stringContaining('--set is of one workbook'),
    ]);
    const none = await call(['plan', 'bench.json', 'lost.json'], files);
    expect(none.code).toBe(2);
    const both = await call(['plan', 'bench.json', '--json', '--csv'], files);
    expect(both.code).toBe(2);
  });
});
