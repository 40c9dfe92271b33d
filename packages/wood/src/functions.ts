import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';

const length = (name: string) =>
  ({ name, means: name, takes: 'number', quantity: 'length' }) as const;

export const FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'APRON_LENGTH',
    task: 'Base',
    answers: 'The length of an apron between two legs.',
    args: [
      length('table_size'),
      length('overhang'),
      length('leg'),
      { ...length('tenon'), optional: true },
    ],
    result: { quantity: 'length', means: 'length of the apron' },
    source: 'common practice, no source',
    example: '=APRON_LENGTH(84, 6, 3.5)',
    run: (size: number, overhang: number, leg: number, tenon = 0) => {
      const result = size - 2 * overhang - 2 * leg + 2 * tenon;
      if (result <= 0)
        throw new Fault({
          class: 'range',
          argument: 'overhang',
          got: overhang,
          quantity: 'length',
          takes: 'less than half of table_size',
        });
      return result;
    },
  },
];
