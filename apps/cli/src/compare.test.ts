import { loadText, saveText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bench, benchText, benchWith, call } from './testing/fake-io.ts';

const longer = benchWith(1, {
  value: 72,
  quantity: 'length',
  role: 'input',
  name: 'bench_length',
});
const compare = (one: string, other: string, ...more: string[]) =>
  call(['compare', 'a.json', 'b.json', ...more], { 'a.json': one, 'b.json': other });

function metric(text: string): string {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(loaded.document);
  book.apply({ do: 'changeUnits', to: 'metric' });
  return saveText(book.document());
}

describe('compare', () => {
  it('says that two workbooks do not differ', async () => {
    expect(await compare(benchText, benchText)).toEqual({
      code: 0,
      out: 'a.json and b.json do not differ.',
      err: '',
    });
  });

  it('tells what was typed otherwise and what comes of it', async () => {
    const { code, out, err } = await compare(benchText, longer);
    expect([code, err]).toEqual([1, '']);
    const [first, heading, ...results] = out.split('\n');
    expect(first).toMatch(/^Base, .*\(B1\): 60 in → 72 in$/);
    expect(heading).toBe('Results that differ:');
    expect(results).toContainEqual(expect.stringMatching(/: 49.* → 61/));
  });

  it('says the same as data', async () => {
    const { code, out } = await compare(benchText, longer, '--json');
    expect(code).toBe(1);
    const found = JSON.parse(out);
    expect(found).toMatchObject({ related: true, converted: false });
    expect(found.typed).toEqual([
      expect.objectContaining({ kind: 'cells', sheet: 'Base', before: '60 in', after: '72 in' }),
    ]);
    expect(found.results.length).toBeGreaterThan(0);
  });

  it('takes converting for no difference', async () => {
    const same = await compare(benchText, metric(benchText));
    expect(same).toMatchObject({ code: 0, err: '' });
    const { out } = await compare(benchText, metric(longer));
    expect(out).toContain('a.json counts in other units');
    expect(out).toMatch(/: 1524 mm → 1828.8 mm/);
  });

  it('compares two that are no relatives by the names of their cells', async () => {
    const other = structuredClone(bench) as { sheets: { id: string }[] };
    for (const sheet of other.sheets) sheet.id = `other${sheet.id}`;
    const text = JSON.stringify(other)
      .replaceAll('s1!', 'others1!')
      .replaceAll('"s1"', '"others1"');
    const { code, out } = await compare(longer, text);
    expect(code).toBe(1);
    expect(out).toContain('did not come of one workbook');
    expect(out).toMatch(/bench_length: 72 in → 60 in/);
  });

  it.each<[string, string[], string]>([
    ['one workbook', ['a.json'], 'It got 1.'],
    ['three', ['a.json', 'a.json', 'a.json'], 'It got 3.'],
    ['a file that is not there', ['a.json', 'none.json'], 'none.json'],
    ['a file that is no workbook', ['odd.json', 'a.json'], 'odd.json'],
  ])('complains of %s', async (_, words, says) => {
    const done = await call(['compare', ...words], { 'a.json': benchText, 'odd.json': '[]' });
    expect(done).toMatchObject({ code: 2, out: '' });
    expect(done.err).toContain(says);
  });
});
