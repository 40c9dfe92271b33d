import { describe, expect, it } from 'vitest';
import { benchText, call } from './testing/fake-io.ts';

const LIST = `Side table
Walnut:
4 legs 1 1/2 x 1 1/2 x 23
2 aprons - 3/4 x 4 x 20
Glue 1 bottle`;
const files = { 'bench.json': benchText, 'list.txt': LIST };
const from = (...more: readonly string[]) =>
  call(['parts', 'bench.json', '--from', 'list.txt', ...more], files);

describe('parts from a text', () => {
  it('tells what each line came to, and what was not taken', async () => {
    const { out, err, code } = await from();
    expect(code).toBe(1);
    expect(out).toMatch(/^part +count +thickness +width +length +material$/m);
    expect(out).toMatch(/^legs +4 +1 1\/2 +1 1\/2 +23 +Walnut$/m);
    expect(err).toContain('Numbers without a unit are read in inches. The text has fractions.');
    expect(err).toContain('Line 5 is not taken: Glue 1 bottle');
    expect(err).toContain('Line 2 is not taken: Walnut: (A heading');
  });

  it('writes the workbook with them, and the cut list has them', async () => {
    const { written } = await from('--out', 'new.json');
    const { out } = await call(['parts', 'new.json', '--json'], {
      'new.json': written?.['new.json'] ?? '',
    });
    expect(JSON.parse(out).parts).toMatchObject([
      { part: 'legs', count: 4, thickness: 1.5, width: 1.5, length: 23, material: 'Walnut' },
      { part: 'aprons', count: 2, thickness: 0.75, width: 4, length: 20, material: 'Walnut' },
    ]);
  });

  it('reads boards for the stock table, and bare numbers as it is told', async () => {
    const stock = { 'bench.json': benchText, 'list.txt': 'Oak 2 x 15 x 200, 3 pcs, $20 each' };
    const ended = await call(
      ['parts', 'bench.json', '--from', 'list.txt', '--boards', '--unit', 'cm', '--json'],
      stock,
    );
    expect(ended.code).toBe(0);
    const { rows, bare } = JSON.parse(ended.out);
    expect(bare).toEqual({ unit: 'cm', why: 'As you chose.', asks: false });
    expect(rows[0].texts).toMatchObject({
      material: 'Oak',
      length: '200 cm',
      price: '20',
      'at hand': '3',
    });
  });

  it.each([
    [['--unit', 'ft'], '--unit takes in, mm or cm'],
    [['--from', 'none.txt'], 'none.txt'],
  ])('refuses %j in a sentence', async (more, says) => {
    const ended = await from(...more);
    expect(ended.code).toBe(2);
    expect(ended.err).toContain(says);
    expect(ended.written).toBeUndefined();
  });

  it('wants a list before it says what to do with it', async () => {
    const ended = await call(['parts', 'bench.json', '--out', 'x.json'], files);
    expect(ended).toMatchObject({ code: 2 });
    expect(ended.err).toContain('--out goes with --from');
  });
});
