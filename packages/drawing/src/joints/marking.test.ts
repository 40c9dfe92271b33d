import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { bookFormat } from '../units.ts';
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
    // As one faces the front: x runs to the right, y to the back.
    expect(marked.map(({ places }) => places?.join(' and '))).toEqual([
      'front left',
      'back left',
      'front right',
      'back right',
      'front and back',
    ]);
    const [leg] = marked;
    expect(leg?.cuts).toEqual([
      {
        what: 'mortise for Long apron',
        on: 'right face',
        depth: 45,
        marks: [
          { reference: 'top end', from: 15, to: 75 },
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
          { reference: 'top edge', from: 15, to: 75 },
          { reference: 'outside face', from: 10, to: 20 },
        ],
      },
      {
        what: 'tenon for Leg',
        on: 'right end',
        depth: 40,
        marks: [
          { reference: 'top edge', from: 15, to: 75 },
          { reference: 'outside face', from: 10, to: 20 },
        ],
      },
    ]);
  });

  it('of a tenon is measured from the edge that comes flush with the end its mortise is measured from', () => {
    const parts: Fake[][] = [
      ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'],
      ['Top', 1, 1, 36, 60, null, 0, 0, 28],
      ['Leg', 4, 2.5, 2.5, 28, 'four corners of Top', 3, 3, null],
      ['Apron', 2, 0.875, 3.55, 51.5, 'between Leg along, front and back, under Top', null, 0.5],
      ['Rail', 2, 0.875, 3.55, 27.5, 'between Leg across, left and right, under Top', 0.5, null, 9],
    ];
    const rows = ['Apron', 'Rail'].map((part): Fake[] => {
      const row: Fake[] = ['mortise and tenon', part, 'Leg', null, 0.3, 2.35];
      return [...row, ...[null, null, null, 0.61, null, 1]];
    });
    const { joints, problems } = readParts(joinedBook(parts, [[...JOINT_COLUMNS], ...rows]));
    expect(problems).toEqual([]);
    // Inches turned to mm differ in their last digits: what reads the same is told once all the same.
    const told = (joints?.marked ?? []).filter(({ part }) => part !== 'Leg');
    expect(told.map(({ part, copies }) => [part, copies.length])).toEqual([
      ['Apron', 2],
      ['Rail', 2],
    ]);
    const upright = (part: string, what: string) =>
      (joints?.marked ?? [])
        .filter((one) => one.part === part)
        .flatMap(({ cuts }) => cuts.filter((cut) => cut.what === what))
        .flatMap(({ marks }) => marks.filter(({ reference }) => /top|bottom/.test(reference)));
    const format = bookFormat({ units: 'us', currency: '' });
    const pairs = ['Apron', 'Rail'].map((part) => [
      ...upright(part, 'tenon for Leg'),
      ...upright('Leg', `mortise for ${part}`),
    ]);
    for (const [index, marks] of pairs.entries()) {
      expect(new Set(marks.map(({ reference }) => reference))).toEqual(
        new Set(['top edge', 'top end']),
      );
      // The apron's edge is flush with the end of the leg, the rail's lies 9 in below it.
      const down = (reference: string): number => (reference === 'top edge' ? 9 * 25.4 * index : 0);
      const said = marks.map(({ reference, from, to }) =>
        [from, to].map((mm) => format(mm + down(reference))).join(' to '),
      );
      expect(said.length).toBeGreaterThan(5);
      expect(new Set(said).size).toBe(1);
    }
  });

  it('is one rabbet where two rails lie in it: nobody cuts it twice', () => {
    const heads = [
      'part',
      'count',
      'thickness',
      'width',
      'length',
      'x',
      'y',
      'z',
      'step y',
      'turn',
    ];
    const book = joinedBook(
      [
        heads,
        ['Side', 1, 18, 560, 700, 0, 0, 0, null, 'TWL'],
        ['Rail', 2, 18, 100, 760, 9, 0, 682, 460, 'LWT'],
      ],
      [[...JOINT_COLUMNS], ['rabbet', 'Rail', 'Side']],
      'metric',
    );
    const { joints, problems } = readParts(book);
    expect(problems).toEqual([]);
    // Both rails cut it out of the side, one after the other; it is marked out once.
    expect(joints?.work.cuts.get(0)).toHaveLength(2);
    const side = joints?.marked.find(({ part }) => part === 'Side');
    expect(side?.cuts.map(({ what, depth }) => [what, depth])).toEqual([['rabbet for Rail', 9]]);
  });

  it('of a half pin ends at the edge: a cut that reaches beyond the wood is marked on the wood', () => {
    const heads = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'];
    const book = joinedBook(
      [heads, ['Front', 1, 12, 76, 500, 0, 0, 0, 'LTW'], ['Side', 1, 12, 76, 350, 0, 0, 0, 'TLW']],
      [[...JOINT_COLUMNS], ['dovetails', 'Side', 'Front']],
      'metric',
    );
    const { joints, problems } = readParts(book);
    expect(problems).toEqual([]);
    const marks = joints?.marked.flatMap(({ cuts }) => cuts.flatMap((cut) => cut.marks)) ?? [];
    expect(marks.length).toBeGreaterThan(10);
    for (const { from, to } of marks) {
      expect(from).toBeGreaterThanOrEqual(0);
      expect(to).toBeGreaterThan(from);
      expect(to).toBeLessThanOrEqual(500);
    }
    const side = joints?.marked.find(({ part }) => part === 'Side');
    const half = side?.cuts.filter(({ what }) => what.startsWith('half pin')) ?? [];
    expect(half.map(({ marks: [across] }) => [across?.from, across?.to].map((mm) => mm))).toEqual([
      [0, expect.closeTo(2 + 3.175, 6)],
      [expect.closeTo(76 - 2 - 3.175, 6), 76],
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
