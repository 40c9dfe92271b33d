import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const table = readFileSync(
  new URL('../../../templates/dining-table.json', import.meta.url),
  'utf8',
);
const files = { 'table.json': table };

interface Report {
  readonly parts: readonly {
    readonly part: string;
    readonly count: number;
    readonly length: number;
  }[];
  readonly materials: readonly { readonly material: string; readonly pieces: number }[];
  readonly problems: readonly { readonly cell: string; readonly says: string }[];
}

const parts = async (...args: string[]) => {
  const ended = await call(['parts', 'table.json', '--json', ...args], files);
  return { ...ended, report: JSON.parse(ended.out) as Report };
};

describe('parts', () => {
  it('follows the cells', async () => {
    const { report, code } = await parts('--set', 'top_length=96');
    expect(code).toBe(0);
    const apron = report.parts.find(({ part }) => part === 'Long apron');
    // 96 less two overhangs of 9 and two legs of 3 1/2.
    expect(apron).toMatchObject({ count: 2, length: 71 });
    expect(report.problems).toEqual([]);
  });

  it('prints a table with the sums of each material', async () => {
    const { out, code, err } = await call(['parts', 'table.json'], files);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^part +count +thick, in +wide, in +long, in +material$/m);
    expect(out).toMatch(/^Long apron +2 +1 1\/2 +3 1\/2 +59 +Walnut, black$/m);
    expect(out).toMatch(
      /^Walnut, black: \d+ pieces, \d+\.\d bd ft, \d+\.\d ft² of faces, \d+\.\d lb$/m,
    );
  });

  it('says what cannot be cut at its cell, and lists the rest', async () => {
    const { report, code } = await parts('--set', 'leg_size=0');
    expect(code).toBe(1);
    expect(report.problems.length).toBeGreaterThan(0);
    expect(report.problems.every(({ cell }) => /^\w+![A-Z]+\d+$/.test(cell))).toBe(true);
    expect(report.parts.some(({ part }) => part.startsWith('Top'))).toBe(true);
  });

  it('says that a workbook has no parts table', async () => {
    const bare = JSON.stringify({ ...JSON.parse(table), tables: [] });
    const { err, code } = await call(['parts', 'bare.json'], { 'bare.json': bare });
    expect({ err, code }).toEqual({ err: 'This workbook has no parts table.', code: 1 });
  });
});

describe('export', () => {
  it('writes the drawing with the sizes as they are set', async () => {
    const { code, err, written } = await call(
      ['export', 'table.json', '--to', 'svg', '--out', 'a.svg', '--set', 'top_length=96'],
      files,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(written?.['a.svg']).toMatch(/^<svg /);
    expect(written?.['a.svg']).toContain('>96<');
  });

  it('writes a workbook that comes back the same', async () => {
    const { written } = await call(
      ['export', 'table.json', '--to', 'json', '--out', 'b.json'],
      files,
    );
    expect(written?.['b.json']).toBe(table);
  });

  it.each([
    [['--out', 'a'], '--to takes'],
    [['--to', 'pictures', '--out', 'a'], 'it got "pictures"'],
    [['--to', 'svg'], '--out says where'],
    [['--to', 'svg', '--out', 'a', '--view', 'back'], 'it got "back"'],
  ])('refuses %j', async (args, says) => {
    const { code, err } = await call(['export', 'table.json', ...args], files);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });
});
