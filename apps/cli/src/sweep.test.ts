import { describe, expect, it } from 'vitest';
import { benchText, benchWith, call } from './testing/fake-io.ts';

const files = { 'bench.json': benchText };
const sweep = (...args: string[]) => call(['sweep', 'bench.json', ...args], files);

describe('sweep', () => {
  it('prints a table: the input step by step, results with their units', async () => {
    const { code, out, err } = await sweep(
      '--set',
      'bench_length=48..60/6',
      '--show',
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
    const { code, out } = await sweep(
      '--set',
      "bench_length=4'..6'/1'",
      '--set',
      'leg_size=1-1/2..2-1/2/1/2',
      '--set',
      'species=Oak, white',
      '--show',
      'apron_long,species',
      '--json',
    );
    expect(code).toBe(0);
    const rows = JSON.parse(out);
    expect(rows).toHaveLength(9);
    expect(rows[0]).toEqual({
      set: { bench_length: 48, leg_size: 1.5 },
      show: { apron_long: 41, species: 'Oak, white' },
      checks: [{ name: 'Legs', state: 'care' }],
      errors: [],
    });
    expect(rows.map(({ set }: { set: object }) => Object.values(set))).toEqual(
      [48, 60, 72].flatMap((length) => [1.5, 2, 2.5].map((leg) => [length, leg])),
    );
  });

  it('says of each row which checks it fails, and ends with 1 where one says stop', async () => {
    const { code, out } = await sweep('--set', 'bench_length=90..102/6', '--show', 'pair');
    expect(code).toBe(1);
    expect(out.split('\n').map((line) => line.split(/\s{2,}/).at(-1))).toEqual([
      'checks',
      expect.stringMatching(/^\d+$/),
      expect.stringMatching(/^\d+$/),
      'stop: Length',
    ]);
  });

  it('goes down where that is asked for, and tenths leave no noise', async () => {
    const { out } = await sweep('--set', 'leg_size=0.4..0.1/0.1', '--show', 'leg_size', '--json');
    expect(JSON.parse(out).map(({ show }: { show: object }) => show)).toEqual(
      [0.4, 0.3, 0.2, 0.1].map((leg_size) => ({ leg_size })),
    );
  });

  it('shows what fails as its error, with the sentence once', async () => {
    const odd = { 'bench.json': benchWith(5, { formula: '=1/(leg_size-3)', name: 'pair' }) };
    const args = ['--set', 'leg_size=2..3/1/2', '--show', 'pair'];
    const { code, out, err } = await call(['sweep', 'bench.json', ...args], odd);
    expect(code).toBe(1);
    expect(out.split('\n').at(-1)).toContain('#DIV/0!');
    expect(err).toMatch(/^pair #DIV\/0! This divides by zero.*\(1 of 3 rows\)$/);
  });

  it('stops when it is asked to, and prints what there is', async () => {
    const args = [
      'sweep',
      'bench.json',
      '--set',
      'bench_length=1..90/1/64',
      '--show',
      'pair',
      '--json',
    ];
    const { code, out, err } = await call(args, files, (stop) => stop());
    expect(code).toBe(1);
    expect(JSON.parse(out)).toEqual([]);
    expect(err).toBe('Stopped after 0 of 5697 sets.');
  });

  it.each([
    [['--show', 'pair'], 'Nothing is swept'],
    [['--set', 'bench_length=48..60/6'], '--show takes the names'],
    [['--set', 'bench_length=48..60/6', '--show', 'pair,'], '--show takes the names'],
    [['--set', 'bench_length=48..60/0', '--show', 'pair'], 'more than 0'],
    [['--set', 'bench_length=48..long/6', '--show', 'pair'], 'name=from..to/step'],
    [['--set', 'leg_size=0..7/8/2', '--show', 'pair'], 'more ways than one'],
    [['--set', 'leg_size=0..7/8/2/1', '--show', 'pair'], 'name=from..to/step'],
    [['--set', 'bench_lenth=48..60/6', '--show', 'pair'], 'Did you mean bench_length'],
    [['--set', 'apron_long=48..60/6', '--show', 'pair'], 'holds a formula'],
    [['--set', 'bench_length=0..90/1/1024', '--show', 'pair'], '10000 is the most'],
    [
      ['--set', 'bench_length=0..90/1/100', '--set', 'leg_size=0..9/1/10', '--show', 'pair'],
      '100000 is the most',
    ],
  ])('refuses %j with a sentence', async (args, says) => {
    const { code, out, err } = await sweep(...args);
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
    const args = ['--set', 'bench_length=60..84/12', '--show', 'pair'];
    const { code, err } = await call(['sweep', 'bench.json', ...args], tight);
    expect(code).toBe(2);
    expect(err).toMatch(/^bench_length: .*84 in.*72 in/);
  });

  it('leaves words with dots in them alone', async () => {
    const args = [
      '--set',
      'bench_length=48..54/6',
      '--set',
      "species='a..b/c",
      '--show',
      'species',
    ];
    const { out } = await sweep(...args, '--json');
    // Words that the cell does not take, and no numbers from a to b.
    expect(JSON.parse(out)).toHaveLength(2);
    expect(out).toContain('a..b/c');
  });
});
