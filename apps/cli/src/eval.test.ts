import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const evalJson = async (...args: string[]) => {
  const { code, out } = await call(['eval', ...args, '--json']);
  return { code, answers: JSON.parse(out) };
};

describe('eval', () => {
  it('prints a formula on a line, with the unit of its function', async () => {
    expect(await call(['eval', '=APRON_LENGTH(84, 6, 3.5)', '=2*3'])).toEqual({
      code: 0,
      out: '65 in\n6',
      err: '',
    });
  });

  it('gives one entry a formula, in order', async () => {
    const { code, answers } = await evalJson('=APRON_LENGTH(84.25, 6, 3.5)', '="a"&"b"', '=2>1');
    expect(code).toBe(0);
    expect(answers).toEqual([
      { value: 65.25, text: '65 1/4' },
      { value: 'ab', text: 'ab' },
      { value: true, text: 'TRUE' },
    ]);
  });

  it('gives an array as rows of columns', async () => {
    const { answers } = await evalJson('=SEQUENCE(2, 3)');
    expect(answers).toEqual([
      {
        value: [
          [1, 2, 3],
          [4, 5, 6],
        ],
        text: '1\t2\t3\n4\t5\t6',
      },
    ]);
  });

  it('reads numbers in the units asked for', async () => {
    const { answers } = await evalJson('=APRON_LENGTH(2134, 150, 90)', '--units', 'metric');
    expect(answers).toEqual([{ value: 1654, text: '1654' }]);
  });

  it('says what is wrong with each formula, and that something was', async () => {
    const { code, answers } = await evalJson('=APRON_LENGTH(84, 60, 3.5)', '=1', '=1+', '=nobody');
    expect(code).toBe(1);
    expect(answers).toEqual([
      { error: '#NUM!', says: expect.stringContaining('overhang of APRON_LENGTH is 60 in') },
      { value: 1, text: '1' },
      { error: '#ERROR!', says: expect.stringMatching(/\.$/) },
      { error: '#NAME?', says: expect.stringContaining('nobody') },
    ]);
  });

  it('prints the error as the result and the sentence as a complaint', async () => {
    const { code, out, err } = await call(['eval', '=1/0', '=4']);
    expect({ code, out }).toEqual({ code: 1, out: '#DIV/0!\n4' });
    expect(err).toMatch(/^=1\/0: This divides by zero/);
  });

  it('keeps formulas apart: none sees what another did', async () => {
    const { answers } = await evalJson('=A1', '=SUM(A1:A9)');
    expect(answers[1]).toEqual({ value: 0, text: '0' });
  });

  it.each([
    [['eval'], 'no formula'],
    [['eval', '1+1'], 'begins with ='],
    [['eval', '=1', '--units', 'cubits'], 'us or metric'],
    [['eval', '=1', '--units'], '--units needs a value'],
    [['eval', '=1', '--json=yes'], '--json takes no value'],
    [['eval', '=1', '--jsno'], 'no option --jsno'],
  ])('%j is bad usage', async (argv, says) => {
    const { code, out, err } = await call(argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
  });
});
