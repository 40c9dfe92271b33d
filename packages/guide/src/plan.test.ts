import { describe, expect, it } from 'vitest';
import { readPlan } from './plan.ts';
import { MOST_STEPS } from './steps/read-steps.ts';
import { stepBook } from './testing/step-book.ts';
import { plainText } from './text/runs.ts';

const CAUTION = 'Keep the guard on.';
const whole = [
  { step: 'Cut the legs', text: 'Cut them {seat_length} long.', builds: 'Leg', caution: CAUTION },
  { step: 'Make the seat', builds: 'Seat, Rail, long' },
];

describe('the steps of a workbook', () => {
  it('are those of its table, with the numbers its cells show', () => {
    const { steps, problems, found } = readPlan(stepBook({ steps: whole }));
    expect([found, problems]).toEqual([true, []]);
    expect(steps.map(({ number, title }) => [number, plainText(title)])).toEqual([
      [1, 'Cut the legs'],
      [2, 'Make the seat'],
    ]);
    expect(steps[0]?.text.map(plainText)).toEqual(['Cut them 33 3/16 in long.']);
    const number = steps[0]?.text[0]?.find(({ kind }) => kind === 'number');
    expect(number).toMatchObject({ name: 'seat_length', aloud: '33 and 3/16 inches' });
    expect(steps[1]?.parts.map(({ name }) => name)).toEqual(['Seat', 'Rail, long']);
  });

  it('follow a change of size', () => {
    const book = stepBook({ steps: whole });
    book.apply({ do: 'enter', sheet: 'sizes', cells: [{ row: 0, column: 1, text: '45 1/2' }] });
    expect(readPlan(book).steps[0]?.text.map(plainText)).toEqual(['Cut them 45 1/2 in long.']);
  });

  it('follow a cell that gets another name', () => {
    const book = stepBook({
      steps: whole,
      words: [{ words: 'Cut them {seat_length} long.', translated: 'Auf {seat_length} ablängen.' }],
    });
    book.apply({ do: 'renameName', from: 'seat_length', to: 'top_length' });
    expect(readPlan(book).problems).toEqual([]);
    expect(readPlan(book, true).steps[0]?.text.map(plainText)).toEqual([
      'Auf 33 3/16 in ablängen.',
    ]);
    book.undo();
    expect(readPlan(book).problems).toEqual([]);
  });

  it('are left out where their condition does not hold', () => {
    const steps = [...whole, { step: 'Cut tenons', when: '=seat_length>40' }];
    const book = stepBook({ steps });
    expect(readPlan(book).steps).toHaveLength(2);
    book.apply({ do: 'enter', sheet: 'sizes', cells: [{ row: 0, column: 1, text: '45' }] });
    expect(readPlan(book).steps).toHaveLength(3);
  });

  it('are repeated, counted, and build in the last round', () => {
    const { steps, problems } = readPlan(
      stepBook({
        steps: [
          { step: 'Glue, {round} of {rounds}', builds: 'Seat', repeats: '=rounds_needed' },
          { step: 'Rest', builds: 'Leg, Rail, long' },
        ],
      }),
    );
    expect(problems).toEqual([]);
    expect(steps.map(({ title }) => plainText(title))).toEqual([
      'Glue, 1 of 3',
      'Glue, 2 of 3',
      'Glue, 3 of 3',
      'Rest',
    ]);
    expect(steps.map(({ parts }) => parts.length)).toEqual([0, 0, 1, 2]);
  });

  it.each([
    ['a name that is gone', { text: 'As long as {gone_now}.' }, 'No cell is named "gone_now"'],
    ['a number in error', { text: 'As long as {broken}.' }, 'broken is #DIV/0!'],
    ['a blank number', { text: 'As long as {nothing_yet}.' }, 'nothing_yet is blank'],
    ['a size that is gone', { measure: 'gone_now' }, 'No cell is named "gone_now"'],
    ['a photograph that is gone', { photo: 'clamps' }, 'no photograph named "clamps"'],
    ['a figure that is none', { figure: 'sunset' }, 'A figure shows one of these'],
    ['a condition that is none', { when: 'maybe' }, 'yes or no'],
    ['half a round', { repeats: 1.5 }, 'a whole number of times'],
    ['a part that is not there', { builds: 'Drawer' }, 'the parts table has no such part'],
    ['a part built twice', { builds: 'Leg' }, 'Leg is built in step 1 and again in step 3'],
    ['a saw without a caution', { tools: 'table saw' }, 'speaks of "table saw"'],
    ['a step without a title', { step: '', text: 'Something.' }, 'no title'],
  ])('say of %s what is wrong, once, and the rest stands', (_, row, says) => {
    const { steps, problems } = readPlan(
      stepBook({ steps: [...whole, { step: 'Another', ...row }] }),
    );
    expect(problems).toEqual([expect.objectContaining({ says: expect.stringContaining(says) })]);
    expect(steps).toHaveLength(3);
  });

  it('keep of a size that is lost why it is', () => {
    const { steps } = readPlan(
      stepBook({ steps: [{ step: 'Look', measure: 'seat_length, broken, gone_now' }] }),
    );
    expect(steps[0]?.measures.map(({ label }) => label)).toEqual(['Length of the seat']);
    expect(steps[0]?.lost.map(({ label, run }) => [label, run.says])).toEqual([
      ['Broken', expect.stringContaining('broken is #DIV/0!')],
      ['gone_now', expect.stringContaining('No cell is named "gone_now"')],
    ]);
  });

  it('say which part is built in no step', () => {
    const { problems } = readPlan(stepBook({ steps: whole.slice(1) }));
    expect(problems.map(({ says }) => says)).toEqual([
      'Leg is built in no step. Add it to "builds" of the step in which it is made or put on.',
    ]);
  });

  it('are at most as many as one can read, and say so', () => {
    const many = Array.from({ length: 8 }, (_, i) => ({ step: `Round ${i}`, repeats: 50 }));
    const { steps, problems } = readPlan(stepBook({ steps: [...whole, ...many] }));
    expect(steps).toHaveLength(MOST_STEPS);
    expect(problems.some(({ says }) => says.includes(`at most ${MOST_STEPS}`))).toBe(true);
  });

  it('are none where there is no such table', () => {
    const book = stepBook({ steps: [], head: { tables: [] } });
    expect(readPlan(book)).toMatchObject({ found: false, steps: [], problems: [] });
  });
});

describe('a second language', () => {
  const words = [
    { words: 'Cut the legs', translated: 'Die Beine zuschneiden' },
    { words: 'Cut them {seat_length} long.', translated: 'Auf {seat_length} ablängen.' },
    { words: 'Make the seat' },
  ];

  it('takes the place of the first, and lists what has no words yet', () => {
    const plan = readPlan(
      stepBook({ steps: whole, words, head: { guide: { second: 'de' } } }),
      true,
    );
    expect(plan.steps.map(({ title }) => plainText(title))).toEqual([
      'Die Beine zuschneiden',
      'Make the seat',
    ]);
    expect(plan.steps[0]?.text.map(plainText)).toEqual(['Auf 33 3/16 in ablängen.']);
    expect(plan.translation?.language).toBe('de');
    expect(plan.translation?.missing()).toEqual([CAUTION, 'Make the seat']);
  });

  it('leaves the first as it is where that is asked for', () => {
    const plan = readPlan(stepBook({ steps: whole, words }));
    expect(plan.steps.map(({ title }) => plainText(title))[0]).toBe('Cut the legs');
  });
});
