import { JOINT_COLUMNS, JOINT_FORMS, MOST_CUTS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { findClashes } from '../clashes.ts';
import { readParts } from '../parts.ts';
import { buildScene } from '../scene.ts';
import { cutList } from '../shop/cut-list.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { jointCell } from './cell.ts';

const PARTS: Fake[][] = [
  ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'taper', 'taper to'],
  ['Top', 1, 1, 36, 60, null, 0, 0, 28, null, null],
  ['Leg', 4, 2.5, 2.5, 28, 'four corners of Top', 3, 3, null, 'two inside faces', 1.25],
  [
    'Apron',
    2,
    0.875,
    4,
    51.5,
    'between Leg along, front and back, under Top',
    null,
    0.5,
    null,
    null,
    null,
  ],
];
const HEADS: Fake[] = [...JOINT_COLUMNS];
const TENON: Fake[] = ['mortise and tenon', 'Apron', 'Leg'];
const format = (mm: number): string => `${Math.round(mm * 10) / 10} mm`;
const clashesOf = (...rows: Fake[][]) => {
  const reading = readParts(joinedBook(PARTS, [HEADS, ...rows]));
  return { reading, ...findClashes(buildScene(reading.parts), { format }) };
};

describe('what is left of joined parts', () => {
  const wood = (joint: string) => {
    const parts: Fake[][] = [
      ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn', 'material'],
      ['One', 1, 20, 60, 400, 0, 170, 0, 'LWT', 'white oak'],
      ['Other', 1, 20, 60, 400, 170, 0, 0, 'WLT', 'white oak'],
    ];
    const rows: Fake[][] = [HEADS, [joint, 'One', 'Other']];
    return cutList(readParts(joinedBook(parts, rows, 'metric')).parts).materials[0];
  };

  it('is what is weighed and finished: two that are halved where they cross', () => {
    const [lapped, whole] = [wood('half lap'), wood('')];
    const both = 2 * 20 * 60 * 400;
    expect(whole?.volume).toBeCloseTo(both, 6);
    expect(lapped?.volume).toBeCloseTo(both - 20 * 60 * 60, 6);
    expect((lapped?.mass ?? 0) / (whole?.mass ?? 1)).toBeCloseTo((both - 72_000) / both, 9);
    // Of each the face that is cut, and both edges, which lie in the other one; what is flush is still seen.
    const faces = 2 * 2 * (20 * 60 + 20 * 400 + 60 * 400);
    expect(lapped?.area).toBeCloseTo(faces - 2 * (60 * 60 + 2 * 60 * 20), 6);
  });
});

describe('parts with their joints', () => {
  it('do not clash where a tenon lies in its mortise, tapered legs among them', () => {
    const without = clashesOf();
    expect(without.overlaps.map(({ pairs }) => pairs)).toEqual([4]);
    const joined = clashesOf(TENON);
    expect(joined.reading.problems).toEqual([]);
    expect([joined.overlaps, joined.floating]).toEqual([[], []]);
    const apron = joined.reading.parts.find(({ name }) => name === 'Apron');
    // Twice as wide as one tenon may be: two side by side at each end.
    expect(apron?.cuts?.map((cuts) => cuts.length)).toEqual([4, 4]);
    const leg = joined.reading.parts.find(({ name }) => name === 'Leg');
    expect(leg?.cuts?.map((cuts) => cuts.length)).toEqual([2, 2, 2, 2]);
  });

  it('are as they were where a row is wrong, and its sentence stands at the row', () => {
    const { reading, overlaps } = clashesOf(['mortise and tenon', 'Apron', 'Lag']);
    expect(reading.problems).toEqual([
      { at: { sheet: 's2', row: 1, column: 2 }, says: 'No part is called "Lag". Nearest: "Leg".' },
    ]);
    expect(overlaps).toHaveLength(1);
    expect(reading.parts.some(({ cuts }) => cuts !== undefined)).toBe(false);
  });

  it('say a cut that cannot be made, and are made without it', () => {
    const { reading } = clashesOf(TENON, [
      ...['hole', 'Leg', null, 'left', null, null, null, null, 0.5, 0, 27.5],
      1,
    ] as Fake[]);
    // Where the taper has taken the wood away there is nothing to drill.
    const says = reading.problems.map((one) => one.says);
    expect(says.every((one) => one.startsWith('Leg: '))).toBe(true);
    expect(new Set(says).size).toBe(says.length);
    expect(reading.parts.find(({ name }) => name === 'Leg')?.cuts).toHaveLength(4);
  });
});

describe('a piece with very many cuts', () => {
  it('is drawn with some of them, says so, and has all of them to be marked out', () => {
    const rows = Array.from({ length: MOST_CUTS + 5 }, (_, i): Fake[] => [
      ...['dado', 'Top', null, 'top', null, 0.25, null, 0.25, null, 0.5 * i, null],
      null,
    ]);
    const { reading } = clashesOf(...rows);
    const top = reading.parts.find(({ name }) => name === 'Top');
    expect(top?.cuts?.[0]).toHaveLength(MOST_CUTS);
    expect(reading.joints?.marked[0]?.cuts).toHaveLength(MOST_CUTS + 5);
    expect(reading.problems).toEqual([
      {
        at: { sheet: 's2', row: MOST_CUTS + 1, column: 0 },
        says: 'Top is cut in more than 60 places. The drawing shows 60 of them; the shop sheet lists all.',
      },
    ]);
  });
});

describe('what a cell of the joints table may say', () => {
  const book = joinedBook(PARTS, [HEADS, TENON]);
  const offered = (column: number, row = 1) =>
    jointCell(book, { sheet: 's2', row, column })?.choices.map(({ words }) => words);

  it('is a joint, the name of a part or a face, by its head', () => {
    expect(offered(0)).toEqual(JOINT_FORMS.map(({ words }) => words));
    expect(offered(1)).toEqual(['Top', 'Leg', 'Apron']);
    expect(offered(2)).toEqual(['Top', 'Leg', 'Apron']);
    expect(offered(3)).toContain('inside');
  });

  it('is nothing under other heads, at the heads and outside the table', () => {
    expect([offered(4), offered(0, 0), offered(0, 9)]).toEqual([undefined, undefined, undefined]);
    expect(jointCell(book, { sheet: 's1', row: 1, column: 0 })).toBeUndefined();
  });
});
