import { describe, expect, it } from 'vitest';
import type { Run, Step } from './edit-steps.ts';
import { smallest, smallestRun } from './smallest.ts';

const enter = (...texts: string[]): Step => ({
  edit: { do: 'enter', sheet: 's1', cells: texts.map((text, row) => ({ row, column: 0, text })) },
});

describe('what is left of a failing run', () => {
  it('is what it fails by, wherever that stands', () => {
    const all = Array.from({ length: 40 }, (_, i) => i);
    for (const wanted of [[0], [39], [0, 39], [7, 8, 31], []]) {
      const fails = (some: readonly number[]) => wanted.every((one) => some.includes(one));
      expect(smallest(all, fails)).toEqual(wanted);
    }
  });

  it('has one cell where one is enough, no part around it, no pace, nothing undone', () => {
    const bad = '=1/0';
    const run: Run = {
      steps: [
        enter('1'),
        { turn: 'undo', pace: 2 },
        {
          edit: {
            do: 'batch',
            edits: [enter('2'), enter('3', bad, '4')].map((step) => editOf(step)),
          },
          pace: 1,
        },
        { goOn: 1 },
      ],
      rows: 60,
      look: 2,
      undo: true,
    };
    const fails = (one: Run) => JSON.stringify(one).includes(bad);
    expect(smallestRun(run, fails)).toEqual({
      steps: [{ edit: { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 0, text: bad }] } }],
    });
  });
});

function editOf(step: Step) {
  if (!('edit' in step)) throw new Error('a step without an edit');
  return step.edit;
}
