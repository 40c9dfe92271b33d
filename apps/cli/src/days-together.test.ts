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
    const wrong = await call(['days', 'bench.json', 'table.json', '--set', 'coats=2'], files);
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('one workbook')]);
  });

  it('tells how likely each job is done by its promise and by the day it is due', async () => {
    const asked = [...FROM, '--draws', '1500', '--seed', '3'] as const;
    const { out } = await call(['days', 'bench.json', 'table.json', ...asked], files);
    expect(out).toContain('How likely, in 1500 tries (seed 3):');
    expect(out).toMatch(/^Hall bench +\d+ % .* 2026 +100 %$/m);
    const json = JSON.parse(
      (await call(['days', 'bench.json', 'table.json', ...asked, '--json'], files)).out,
    );
    const [table, bench] = json.jobs;
    expect(table.likelihood).toMatchObject({ draws: 1500, seed: 3, byDue: 0 });
    expect(bench.likelihood.byDue).toBe(1);
    for (const { p10, p50, p90 } of [table.likelihood, bench.likelihood]) {
      expect([p10, p50, p90]).toEqual([p10, p50, p90].toSorted());
    }
    // The job that goes first has its hands to itself: it is as likely as alone.
    const alone = JSON.parse((await call(['days', 'table.json', ...asked, '--json'], files)).out);
    expect(Math.abs(table.likelihood.byPromise - alone.likelihood.byPromise)).toBeLessThan(0.06);
  });

  it('writes one calendar of all, and moves what came with the calendar of one', async () => {
    const uids = (text: string) => (text.match(/^UID:.*$/gm) ?? []).map((line) => line.trim());
    const single = await call(['days', 'bench.json', ...FROM, '--ics', 'one.ics'], files);
    const one = single.written?.['one.ics'] ?? '';
    const both = ['days', 'bench.json', 'table.json', ...FROM, '--ics', 'all.ics'];
    const first = await call([...both, '--since', 'one.ics'], { ...files, 'one.ics': one });
    expect(first.code).toBe(0);
    const all = first.written?.['all.ics'] ?? '';
    expect(uids(all)).toEqual(expect.arrayContaining(uids(one)));
    expect(new Set(uids(all)).size).toBe(uids(all).length);
    expect(uids(all).length).toBeGreaterThan(uids(one).length);
    expect(all.match(/^SEQUENCE:1\r$/gm)).toHaveLength(uids(all).length);
    // Alone again, the days of the other job stay as they are.
    const again = await call(
      ['days', 'bench.json', ...FROM, '--ics', 'next.ics', '--since', 'all.ics'],
      { ...files, 'all.ics': all },
    );
    const next = again.written?.['next.ics'] ?? '';
    expect(uids(next)).toEqual(uids(one));
    expect(next).not.toContain('CANCELLED');
    expect(next.match(/^SEQUENCE:2\r$/gm)).toHaveLength(uids(one).length);
    // Two jobs of one title are two jobs.
    const twins = { 'a/job.json': files['bench.json'], 'b/job.json': files['bench.json'] };
    const two = await call(['days', 'a/job.json', 'b/job.json', ...FROM, '--ics', 't.ics'], twins);
    const ids = uids(two.written?.['t.ics'] ?? '');
    expect(ids.length).toBe(2 * uids(one).length);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
