import { loadText, roundFigures, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { benchText, call } from './testing/fake-io.ts';

const files = { 'bench.json': benchText };

describe('units', () => {
  it('writes a workbook in millimetres, and back to the letter', async () => {
    const there = await call(['units', 'bench.json', '--to', 'metric', '--out', 'mm.json'], files);
    expect(there).toMatchObject({ code: 0, out: '', err: '' });
    const metric = there.written?.['mm.json'] ?? '';
    const { out } = await call(['run', 'mm.json', '--json'], { 'mm.json': metric });
    expect(JSON.parse(out).names).toMatchObject({
      bench_length: { value: 1524, text: '1524' },
      apron_long: { value: 49 * 25.4 },
      price: { value: 240 },
    });
    const back = await call(['units', 'mm.json', '--to', 'us', '--out', 'in.json'], {
      'mm.json': metric,
    });
    const again = await call(['units', 'in.json', '--to', 'metric', '--out', 'mm.json'], {
      'in.json': back.written?.['in.json'] ?? '',
    });
    expect(again.written?.['mm.json']).toBe(metric);
    expect(JSON.parse(back.written?.['in.json'] ?? '')).toEqual(JSON.parse(benchText));
  });

  it('rounds sizes to marks of a metric rule as the app does, and not where nobody asks', async () => {
    const exact = await call(['units', 'bench.json', '--to', 'metric', '--out', 'mm.json'], files);
    const round = await call(
      ['units', 'bench.json', '--to', 'metric', '--round', '--out', 'mm.json'],
      files,
    );
    expect(round).toMatchObject({ code: 0, out: '', err: '' });
    const written = (ended: typeof round) => {
      const loaded = loadText(ended.written?.['mm.json'] ?? '');
      if (!loaded.ok) throw new Error(loaded.says);
      return loaded.document;
    };
    const book = Workbook.open(written(exact));
    const edit = roundFigures(book.document());
    if (edit === undefined || !book.apply(edit).ok) throw new Error('nothing to round');
    expect(written(round)).toEqual(book.document());
    expect(written(round)).not.toEqual(written(exact));
    expect(Workbook.open(written(round)).named('bench_length')?.value).toMatchObject({
      number: 1525,
    });
  });

  it.each([
    [
      ['units', 'bench.json', '--to', 'us', '--round', '--out', 'x.json'],
      2,
      '--round goes with --to metric',
    ],
    [['units', 'bench.json', '--out', 'x.json'], 2, '--to takes us or metric; it is missing.'],
    [['units', 'bench.json', '--to', 'feet', '--out', 'x.json'], 2, 'it got "feet"'],
    [['units', 'bench.json', '--to', 'metric'], 2, '--out says where the file goes'],
    [['units', 'bench.json', '--to', 'us', '--out', 'x.json'], 1, 'already in inches and pounds'],
  ] as const)('refuses %j with a sentence', async (argv, code, says) => {
    const ended = await call(argv, files);
    expect(ended).toMatchObject({ code, out: '' });
    expect(ended.err).toContain(says);
    expect(ended.written).toBeUndefined();
  });
});
