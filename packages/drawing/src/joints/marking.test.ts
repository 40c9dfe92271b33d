import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import { joinedBook } from '../testing/joined.ts';
import { hardwareSays } from './marking.ts';

const round = (mm: number): string => `${Math.round(mm * 10) / 10}`;
const PARTS = [
  ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'turn'],
  ['Top', 1, 30, 800, 1600, null, 0, 0, 700, 'LWT'],
  ['Leg', 4, 80, 80, 700, 'four corners of Top', 100, 100, null, null],
  [
    'Long apron',
    2,
    30,
    90,
    1320,
    'between Leg along, front and back, under Top',
    null,
    15,
    null,
    null,
  ],
];

describe('what is marked out', () => {
  it('is measured from one end and the face that shows of each piece, and told once for pieces that are alike', () => {
    const book = joinedBook(
      PARTS,
      [[...JOINT_COLUMNS], ['mortise and tenon', 'Long apron', 'Leg', null, 10, 60, null, 45]],
      'metric',
    );
    const { joints, problems } = readParts(book);
    const { marked = [] } = joints ?? {};
    expect(problems).toEqual([]);
    expect(marked.map(({ part, count, copies }) => [part, count, copies])).toEqual([
      ['Leg', 4, [0]],
      ['Leg', 4, [1]],
      ['Leg', 4, [2]],
      ['Leg', 4, [3]],
      ['Long apron', 2, [0, 1]],
    ]);
    const [leg] = marked;
    expect(leg?.cuts).toEqual([
      {
        what: 'mortise for Long apron',
        on: 'right face',
        depth: 45,
        marks: [
          { reference: 'upper end', from: 15, to: 75 },
          // The front is the outside of a front leg: 15 to the apron, and its tenon in the middle of 30.
          { reference: 'front face', from: 25, to: 35 },
        ],
      },
    ]);
    const apron = marked.at(-1);
    expect(apron?.cuts).toEqual([
      {
        what: 'tenon for Leg',
        on: 'left end',
        depth: 40,
        marks: [
          { reference: 'lower face', from: 15, to: 75 },
          { reference: 'outside face', from: 10, to: 20 },
        ],
      },
      {
        what: 'tenon for Leg',
        on: 'right end',
        depth: 40,
        marks: [
          { reference: 'lower face', from: 15, to: 75 },
          { reference: 'outside face', from: 10, to: 20 },
        ],
      },
    ]);
  });

  it('is nothing where there is no joints table', () => {
    const book = joinedBook(PARTS, [['x']], 'metric');
    const none = { ...book, tables: () => book.tables().slice(0, 1) };
    expect(readParts(none)).not.toHaveProperty('joints');
  });
});

describe('hardware', () => {
  it('is said with its sizes, thin to long', () => {
    const one = { count: 2, length: 50 } as const;
    expect(hardwareSays({ ...one, kind: 'dowel', diameter: 10 }, round)).toBe('Dowels, 10 × 50');
    expect(hardwareSays({ ...one, kind: 'wood screw', gauge: 'No. 8' }, round)).toBe(
      'Wood screws, No. 8 × 50',
    );
    expect(
      hardwareSays({ kind: 'loose tenon', thickness: 8, width: 30, length: 50, count: 1 }, round),
    ).toBe('Loose tenon, 8 × 30 × 50');
  });
});
