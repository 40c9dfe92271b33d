import { loadText, saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bench, benchText, benchWith, call } from './testing/fake-io.ts';

const merge = (mine: string, theirs: string, ...more: string[]) =>
  call(['merge', 'base.json', 'ann.json', 'bea.json', ...more], {
    'base.json': benchText,
    'ann.json': mine,
    'bea.json': theirs,
  });
const length = (value: number) =>
  benchWith(1, { value, quantity: 'length', role: 'input', name: 'bench_length' });
const price = benchWith(6, { value: 260, quantity: 'money', name: 'price' });
const out = ['--out', 'both.json'];

describe('merge', () => {
  it('puts together what two changed at different places, and says that nothing met', async () => {
    const done = await merge(length(72), price, ...out);
    expect(done).toMatchObject({
      code: 0,
      out: 'both.json: nothing was changed in both.',
      err: '',
    });
    const loaded = loadText(done.written?.['both.json'] ?? '');
    if (!loaded.ok) throw new Error(loaded.says);
    const rows = loaded.document.sheets[0]?.rows;
    expect(rows?.[0]?.cells?.c2?.value).toBe(72);
    expect(rows?.[5]?.cells?.c2?.value).toBe(260);
    expect(saveText(loaded.document)).toBe(done.written?.['both.json']);
  });

  it('tells in a sentence what both set otherwise, and writes the same whoever merges', async () => {
    const one = await merge(length(72), length(84), ...out);
    expect(one).toMatchObject({ code: 1, err: '' });
    expect(one.out).toBe(
      'Base!B1 (bench_length) is 72 in ann.json and 84 in bea.json. It is 84 now.',
    );
    const other = await call(['merge', 'base.json', 'bea.json', 'ann.json', ...out], {
      'base.json': benchText,
      'ann.json': length(72),
      'bea.json': length(84),
    });
    expect(other).toEqual(one);
  });

  it('takes what one changed where the other changed nothing', async () => {
    const done = await merge(benchText, price, ...out);
    expect(done.code).toBe(0);
    const loaded = loadText(price);
    expect(loaded.ok && saveText(loaded.document)).toBe(done.written?.['both.json']);
  });

  it('tells of a row that one removed and the other changed', async () => {
    const fewer = structuredClone(bench);
    fewer.sheets[0]?.rows.splice(5, 1);
    const done = await merge(JSON.stringify(fewer), price, ...out);
    expect(done).toMatchObject({
      code: 1,
      out: 'Row 6 of Base was removed in ann.json and changed in bea.json. It is removed.',
    });
  });

  it.each<[string, string[], string]>([
    ['two workbooks', ['base.json', 'ann.json', ...out], 'It got 2.'],
    ['no place to write to', ['base.json', 'ann.json', 'bea.json'], '--out says'],
    ['a file that is not there', ['base.json', 'ann.json', 'none.json', ...out], 'none.json'],
    ['a file that is no workbook', ['base.json', 'odd.json', 'bea.json', ...out], 'odd.json'],
    ['a place where something is', ['base.json', 'ann.json', 'bea.json', '--out', 'old'], 'old'],
  ])('complains of %s and writes nothing', async (_, words, says) => {
    const files = { 'base.json': benchText, 'ann.json': price, 'bea.json': length(72) };
    const done = await call(['merge', ...words], { ...files, 'odd.json': '[]', old: 'x' });
    expect(done).toMatchObject({ code: 2, out: '' });
    expect(done.err).toContain(says);
    expect(done.written).toBeUndefined();
  });
});
