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

  it.each([
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
