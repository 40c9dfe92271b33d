import { describe, expect, it } from 'vitest';
import { slowestFiles, tallyOf } from '../scripts/results.mjs';

const file = (status: string, ...tests: string[]) => ({
  name: 'some.test.ts',
  status,
  assertionResults: tests.map((one) => ({ status: one, fullName: one })),
});

describe('the count at the end of npm test', () => {
  it('counts passed and failed tests', () => {
    const tally = tallyOf('a', { testResults: [file('failed', 'passed', 'failed', 'passed')] });
    expect(tally).toMatchObject({ passed: 2, failed: 1, notes: [] });
  });

  it('names what failed, and what passed on a second try only', () => {
    const message = 'Error: no such cell\n    at some.ts:1';
    const tests = [
      { status: 'failed', fullName: 'a', failureMessages: [message, message] },
      { status: 'passed', fullName: 'b', failureMessages: [message] },
      { status: 'passed', fullName: 'c', failureMessages: [] },
    ];
    const tally = tallyOf('w', {
      testResults: [{ name: 'some.test.ts', status: 'failed', assertionResults: tests }],
    });
    expect(tally).toEqual({
      workspace: 'w',
      passed: 2,
      failed: 1,
      notes: [
        'failed: a (some.test.ts): Error: no such cell',
        'passed on a second try: b (some.test.ts): Error: no such cell',
      ],
      seconds: 0,
      files: [{ name: 'some.test.ts', seconds: 0 }],
    });
  });

  it('counts a file that could not run as failed', () => {
    const tally = tallyOf('a', { testResults: [file('passed', 'passed'), file('failed')] });
    expect(tally).toMatchObject({ passed: 1, failed: 1 });
    expect(tally.notes).toEqual(['could not run some.test.ts']);
  });

  it('counts a file whose tests passed but which failed around them', () => {
    expect(tallyOf('a', { testResults: [file('failed', 'passed')] })).toMatchObject({ failed: 1 });
  });

  it.each(['skipped', 'pending', 'todo'])('counts a %s test as failed', (status) => {
    const tally = tallyOf('a', { testResults: [file('passed', 'passed', status)] });
    expect(tally).toMatchObject({ passed: 1, failed: 1 });
  });

  it('takes no tests at all for a failure', () => {
    expect(tallyOf('a', { testResults: [] })).toMatchObject({ passed: 0, failed: 1 });
  });

  it('tells how long a workspace took, and its slowest files first, ten of them', () => {
    const testResults = Array.from({ length: 12 }, (_, i) => ({
      ...file('passed', 'passed'),
      name: `${i}.test.ts`,
      startTime: 1000 * i,
      endTime: 1000 * i + 500 * (i + 1),
    }));
    const tally = tallyOf('a', { testResults });
    expect(tally.seconds).toBe(17);
    const slowest = slowestFiles([tally, tallyOf('b', { testResults: [] })]);
    expect(slowest.map(({ name }) => name)).toEqual(
      [11, 10, 9, 8, 7, 6, 5, 4, 3, 2].map((i) => `${i}.test.ts`),
    );
    expect(slowest[0]?.seconds).toBe(6);
  });
});
