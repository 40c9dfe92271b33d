import { csvText } from '@kerfbook/interchange';
import { describe, expect, it } from 'vitest';
import { benchText, benchWith, call } from './testing/fake-io.ts';

const files = { 'bench.json': benchText };
const study = (...args: string[]) => call(['study', 'bench.json', ...args], files);

describe('study', () => {
  it('prints a table: the input step by step, results with their units', async () => {
    const { code, out, err } = await study(
      '--over',
      'bench_length=48..60/6',
      '--get',
      'apron_long, price',
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.split('\n')).toEqual([
      'bench_length (in)  apron_long (in)    price',
      '               48               37  $240.00',
      '               54               43  $240.00',
      '               60               49  $240.00',
    ]);
  });

  it('goes through every set of several inputs, with entries that stay', async () => {
    const { code, out } = await study(
      '--over',
      "bench_length=4'..6'/1'",
      '--over',
      'leg_size=1-1/2..2-1/2/1/2',
      '--set',
      'species=Oak, white',
      '--get',
      'apron_long,species',
      '--json',
    );
    expect(code).toBe(0);
    const { rows, failing, errors } = JSON.parse(out);
    expect(rows).toHaveLength(9);
    expect(rows[0]).toEqual({
      bench_length: 48,
      leg_size: 1.5,
      apron_long: 41,
      species: 'Oak, white',
    });
    expect(failing[0]).toEqual({ row: 0, name: 'Legs', state: 'care' });
    expect(errors).toEqual([]);
    expect(rows.map((row: Record<string, number>) => [row.bench_length, row.leg_size])).toEqual(
      [48, 60, 72].flatMap((length) => [1.5, 2, 2.5].map((leg) => [length, leg])),
    );
  });

  it('says of each row which checks it fails, and ends with 1 where one says stop', async () => {
    const { code, out } = await study('--over', 'bench_length=90..102/6', '--get', 'pair');
    expect(code).toBe(1);
    expect(out.split('\n').map((line) => line.split(/\s{2,}/).at(-1))).toEqual([
      'checks',
      expect.stringMatching(/^\d+$/),
      expect.stringMatching(/^\d+$/),
      'stop: Length',
    ]);
  });

  it('goes down where that is asked for, and tenths leave no noise', async () => {
    const { out } = await study('--over', 'leg_size=0.4..0.1/0.1', '--get', 'leg_size', '--json');
    expect(JSON.parse(out).rows).toEqual([0.4, 0.3, 0.2, 0.1].map((leg_size) => ({ leg_size })));
  });

  it('shows what fails as its error, with the sentence once', async () => {
    const odd = { 'bench.json': benchWith(5, { formula: '=1/(leg_size-3)', name: 'pair' }) };
    const args = ['--over', 'leg_size=2..3/1/2', '--get', 'pair'];
    const { code, out, err } = await call(['study', 'bench.json', ...args], odd);
    expect(code).toBe(1);
    expect(out.split('\n').at(-1)).toContain('#DIV/0!');
    expect(err).toMatch(/^pair #DIV\/0! This divides by zero.*\(1 of 3 rows\)$/);
  });

  it('stops when it is asked to, and prints what there is', async () => {
    const args = [
      'study',
      'bench.json',
      '--over',
      'bench_length=1..90/1/64',
      '--get',
      'pair',
      '--json',
    ];
    const { code, out, err } = await call(args, files, (stop) => stop());
    expect(code).toBe(1);
    expect(JSON.parse(out).rows).toEqual([]);
    expect(err).toBe('Stopped after 0 of 5697 sets.');
  });

  it.each([
    [['--get', 'pair'], 'Nothing is studied'],
    [['--over', 'bench_length=48..60/6'], 'shows nothing'],
    [['--over', 'bench_length=48..60/6', '--get', ','], 'shows nothing'],
    [['--over', 'bench_length=48..60/6;leg_size 1', '--get', 'pair'], 'takes one input'],
    [
      ['--over', 'bench_length=48..60/6', '--get', 'pair', '--spread', '--best', 'pair'],
      '--best or --spread',
    ],
    [['--over', 'leg_size=1,2,3', '--get', 'pair', '--spread', '--draws', 'many'], 'whole number'],
    [['--over', 'leg_size=1,2', '--get', 'pair', '--spread'], 'three numbers'],
    [['--named', 'Anything'], 'has no studies'],
    [['--over', 'bench_length=48..60/0', '--get', 'pair'], 'more than 0'],
    [['--over', 'bench_length=48..long/6', '--get', 'pair'], 'Write it as from..to/step'],
    [['--over', 'leg_size=0..7/8/2', '--get', 'pair'], 'more ways than one'],
    [['--over', 'leg_size=0..7/8/2/1', '--get', 'pair'], 'Write it as from..to/step'],
    [['--over', 'bench_lenth=48..60/6', '--get', 'pair'], 'Did you mean bench_length'],
    [['--over', 'apron_long=48..60/6', '--get', 'pair'], 'is calculated'],
    [['--over', 'bench_length=0..90/1/1024', '--get', 'pair'], '10000 is the most'],
    [
      ['--over', 'bench_length=0..90/1/100', '--over', 'leg_size=0..9/1/10', '--get', 'pair'],
      '100,000 is the most',
    ],
  ])('refuses %j with a sentence', async (args, says) => {
    const { code, out, err } = await study(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
  });

  it('refuses numbers that the cell does not take', async () => {
    const tight = {
      'bench.json': benchWith(1, {
        value: 60,
        quantity: 'length',
        name: 'bench_length',
        allow: { max: 72 },
      }),
    };
    const args = ['--over', 'bench_length=60..84/12', '--get', 'pair'];
    const { code, err } = await call(['study', 'bench.json', ...args], tight);
    expect(code).toBe(2);
    expect(err).toMatch(/^bench_length: .*84 in.*72 in/);
  });

  it('writes comma-separated values, words that look like formulas as words', async () => {
    const { out } = await study('--over', 'bench_length=48,60', '--get', 'apron_long', '--csv');
    expect(out.split('\n')).toEqual(['bench_length,apron_long,checks', '48,37,', '60,49,']);
    expect(csvText([['=1+1', '-2 in', -2, null, 'so "far"', true]])).toEqual([
      `'=1+1,'-2 in,-2,,"so ""far""",true`,
    ]);
  });

  it('takes a range with colons and a list, and finds the best of all', async () => {
    const { code, out } = await study(
      '--over',
      'bench_length=90:102:6',
      '--best',
      'most apron_long',
      '--json',
    );
    expect(code).toBe(0);
    // 102 breaks a check that says stop.
    expect(JSON.parse(out)).toMatchObject({
      tried: 3,
      of: 3,
      kept: 2,
      whole: true,
      front: [{ bench_length: 96 }],
    });
  });

  it('spreads what is not known for sure, the same again for a seed', async () => {
    const args = [
      '--over',
      'bench_length=48,60,84',
      '--spread',
      '--get',
      'apron_long',
      '--draws',
      '400',
      '--seed',
      '4',
      '--json',
    ];
    const [one, again] = [await study(...args), await study(...args)];
    expect(one.code).toBe(0);
    expect(again.out).toBe(one.out);
    const { draws, results } = JSON.parse(one.out);
    expect(draws).toBe(400);
    const [{ least, p10, p50, p90, most, matters }] = results;
    expect([least, p10, p50, p90, most].toSorted((a, b) => a - b)).toEqual([
      least,
      p10,
      p50,
      p90,
      most,
    ]);
    expect(matters).toEqual([{ name: 'bench_length', rank: 1 }]);
  });
});

describe('seek', () => {
  const seek = (...args: string[]) => call(['seek', 'bench.json', ...args], files);

  it('finds the input that makes a result come to something', async () => {
    const { code, out } = await seek(
      '--make',
      'apron_long=49',
      '--by',
      'bench_length=24..96/1/2',
      '--json',
    );
    expect(code).toBe(0);
    expect(JSON.parse(out).answers).toMatchObject([{ at: 60, comes: 49 }]);
  });

  it('says in sentences how far it goes, and where nothing does it', async () => {
    const far = await seek('--make', 'apron_long at most 49', '--by', 'bench_length 24..96/1/2');
    expect(far.out.split('\n')[0]).toMatch(
      /^bench_length from 24 in to 60 in: apron_long .* to 49 in/,
    );
    const none = await seek('--make', 'apron_long=490', '--by', 'bench_length 24..96/1/2');
    expect(none.code).toBe(1);
    expect(none.out).toMatch(
      /^No bench_length between 24 in and 96 in does it: apron_long comes to /,
    );
  });

  it.each([
    [['--by', 'bench_length'], 'Nothing is sought'],
    [['--make', 'apron_long=49'], 'Give --by'],
    [['--make', 'apron_long=49', '--by', 'apron_long'], 'is calculated'],
    [['--make', 'apron_lon=49', '--by', 'bench_length 1..2'], 'Did you mean apron_long'],
    [['--make', 'apron_long', '--by', 'bench_length 1..2'], 'no goal'],
  ])('refuses %j with a sentence', async (args, says) => {
    const { code, err } = await seek(...args);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });
});
