import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const template = (name: string, more: object): string => {
  const file = join(import.meta.dirname, `../../../templates/${name}.json`);
  const book = JSON.parse(readFileSync(file, 'utf8')) as object;
  return JSON.stringify({ ...book, ...more });
};
const files = {
  'bench.json': template('bench', { title: 'Hall bench', due: '2027-03-31' }),
  'table.json': template('coffee-table', { title: 'Low table', due: '2026-12-02' }),
};

interface Report {
  readonly jobs: readonly {
    readonly job: string;
    readonly promise: string;
    readonly due: string | null;
    readonly late: boolean;
    readonly handsOn: number;
  }[];
  readonly operations: readonly {
    readonly job: string;
    readonly operation: string;
    readonly handsOn: number;
    readonly begins: { readonly day: string; readonly hour: number };
    readonly workEnds: { readonly day: string; readonly hour: number };
  }[];
}

const FROM = ['--from', '2026-11-30'] as const;
const report = async (...paths: string[]): Promise<Report> => {
  const ended = await call(['days', ...paths, ...FROM, '--json'], files);
  expect(ended.err).toBe('');
  return JSON.parse(ended.out) as Report;
};

describe('days of several workbooks', () => {
  it('does what is due first first, and gives the maker one thing at a time', async () => {
    const { jobs, operations } = await report('bench.json', 'table.json');
    expect(jobs.map(({ job }) => job)).toEqual(['Low table', 'Hall bench']);
    expect(jobs.map(({ late }) => late)).toEqual([true, false]);
    const at = ({ day, hour }: { readonly day: string; readonly hour: number }): number =>
      Date.parse(`${day}T00:00:00Z`) / 3_600_000 + hour;
    const hands = operations
      .filter(({ handsOn }) => handsOn > 0)
      .map(({ begins, workEnds }) => [at(begins), at(workEnds)] as const)
      .toSorted(([one], [other]) => one - other);
    for (const [i, [begins]] of hands.entries()) {
      expect(begins).toBeGreaterThanOrEqual(hands[i - 1]?.[1] ?? 0);
    }
    expect(new Set(operations.map(({ job }) => job)).size).toBe(2);
    // The one that goes first is done as soon as it is alone; the other waits for its hands.
    const alone = await call(['days', 'table.json', ...FROM, '--json'], files);
    expect(jobs[0]?.promise).toBe((JSON.parse(alone.out) as { promise: string }).promise);
    const other = await call(['days', 'bench.json', ...FROM, '--json'], files);
    const bench = (JSON.parse(other.out) as { promise: string }).promise;
    expect((jobs[1]?.promise ?? '') > bench).toBe(true);
  });

  it('prints the jobs with the days to promise, and rows for a sheet', async () => {
    const { out, code } = await call(['days', 'bench.json', 'table.json', ...FROM], files);
    expect(code).toBe(0);
    expect(out).toMatch(/^Low table .* Wed 2 Dec 2026 +\d+ days late$/m);
    expect(out).toMatch(/^On Mon 30 Nov 2026:\n {2}08:00 Low table, /m);
    const csv = await call(['days', 'bench.json', 'table.json', ...FROM, '--csv'], files);
    expect(csv.out.split('\n')[0]).toMatch(/^job,operation,hands-on,waiting,begins day/);
    const wrong = await call(['days', 'bench.json', 'table.json', '--ics', 'x.ics'], files);
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('one workbook')]);
  });
});
