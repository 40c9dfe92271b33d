import type { TableArgument, TableRow } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { partsArea } from '../parts.ts';
import { areaNow, areaSum } from './area-sum.ts';
import type { Tables } from './lengths.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'turn'];
const JOINT_HEADS = [
  'joint',
  'part',
  'into',
  'face',
  'width',
  'depth',
  'diameter',
  'from edge',
  'from end',
  'count',
];

/** Shelves between two sides that stand a foot apart from front to back, in inches. */
interface Case {
  readonly shelves: number;
  readonly deep: number;
  readonly high: number;
  readonly wide: number;
  readonly thick: number;
  /** How far shelves reach into the sides. */
  readonly dado: number;
  /** How far the back reaches into them. */
  readonly rabbet: number;
}

const CASE: Case = {
  shelves: 3,
  deep: 11,
  high: 40,
  wide: 30,
  thick: 0.75,
  dado: 0.375,
  rabbet: 0.375,
};
const BACK = 0.25;

function tablesOf(of: Case, joints: readonly TableRow[] = JOINTS): Tables {
  const { shelves, deep, high, wide, thick, dado, rabbet } = of;
  const rows: TableRow[] = [
    {
      part: 'Side',
      count: 2,
      thickness: thick,
      width: deep,
      length: high,
      turn: 'TWL',
      x: 0,
      y: 0,
      z: 0,
      'step x': wide - thick,
    },
    {
      part: 'Shelf',
      count: shelves,
      thickness: thick,
      width: deep - BACK,
      length: wide - 2 * thick + 2 * dado,
      x: thick - dado,
      y: 0,
      z: 5,
      turn: 'LWT',
      'step z': 9,
    },
    {
      part: 'Back',
      count: 1,
      thickness: BACK,
      width: wide - 2 * thick + 2 * rabbet,
      length: high,
      x: thick - rabbet,
      y: deep - BACK,
      z: 0,
      turn: 'WTL',
    },
  ];
  const parts: TableArgument = { heads: [...HEADS, 'step x', 'step z'], rows, units: 'us' };
  return { parts, joints: { heads: JOINT_HEADS, rows: joints, units: 'us' } };
}

const JOINTS: readonly TableRow[] = [
  { joint: 'dado', part: 'Shelf', into: 'Side' },
  { joint: 'rabbet', part: 'Back', into: 'Side' },
];

const box = (a: number, b: number, c: number): number => 2 * (a * b + a * c + b * c);

/**
 * By hand: what two bodies share is counted twice by their surfaces, and once by that of both as one. A dado goes on
 * to the back of its side, where the rabbet is: less deep than that it shows nothing more.
 */
function byHand({ shelves, deep, high, wide, thick, dado, rabbet }: Case): number {
  const all =
    2 * box(thick, deep, high) +
    shelves * box(thick, deep - BACK, wide - 2 * thick + 2 * dado) +
    box(BACK, wide - 2 * thick + 2 * rabbet, high);
  const shelf = 2 * shelves * box(thick, deep - BACK, dado);
  const back = 2 * box(BACK, high, rabbet);
  // Shelf and back touch between the sides: no joint of theirs hides it. A deeper dado is open behind the back.
  const open = 2 * shelves * thick * Math.max(0, dado - rabbet);
  return all - shelf - back - open;
}

describe('the surface of joined parts as a sum over cells', () => {
  const was = tablesOf(CASE);
  const sum = areaSum(was);

  it('comes to what is worked out by hand, where ours does, with other sizes and counts', () => {
    if (sum === undefined) throw new Error('there is no sum');
    const others: Partial<Case>[] = [
      {},
      { deep: 14 },
      { high: 55, wide: 41.5 },
      { thick: 1 },
      { dado: 0.25 },
      { dado: 0.5 },
      { rabbet: 0.25 },
      { rabbet: 0.5 },
      { shelves: 2 },
      { shelves: 4 },
      { shelves: 4, dado: 0.3, rabbet: 0.4, thick: 0.8125 },
    ];
    for (const other of others) {
      const one = { ...CASE, ...other };
      const now = tablesOf(one);
      expect(partsArea(now.parts, undefined, now.joints)).toBeCloseTo(byHand(one), 6);
      expect(areaNow(sum, was, now)).toBeCloseTo(byHand(one), 6);
    }
  });

  it('says of which counts it cannot tell', () => {
    const cells = sum?.fixed.map(({ row, head }) => `${row} ${head}`);
    // A third side would stand beyond the shelves, and a second back in the first.
    expect(cells).toContain('2 count');
    expect(cells).not.toContain('1 count');
    const now = tablesOf(CASE);
    const two = now.parts.rows.map((row) => (row.part === 'Back' ? { ...row, count: 2 } : row));
    const parts = { ...now.parts, rows: two };
    expect(sum && areaNow(sum, was, { ...now, parts })).toBeUndefined();
  });

  it('has drilled holes as they are cut, by their count and width', () => {
    const holes = (count: number, diameter: number): readonly TableRow[] => [
      ...JOINTS,
      {
        joint: 'hole',
        part: 'Side',
        face: 'inside',
        diameter,
        depth: 0.375,
        count,
        'from edge': 2,
        'from end': 1,
      },
    ];
    const own = tablesOf(CASE, holes(2, 0.25));
    const drilled = areaSum(own);
    if (drilled === undefined) throw new Error('there is no sum');
    for (const [count, diameter] of [
      [2, 0.25],
      [2, 0.375],
      [2, 1],
    ] as const) {
      const now = tablesOf(CASE, holes(count, diameter));
      const ours = partsArea(now.parts, undefined, now.joints);
      expect(areaNow(drilled, own, now)).toBeCloseTo(ours, 8);
      // Circles, but for the flat facets that stand for them.
      const rims = 2 * count * (Math.PI / 4) * diameter ** 2;
      const less = byHand(CASE) - ours;
      expect(less).toBeLessThan(rims);
      expect(less).toBeGreaterThan(0.95 * rims);
    }
  });

  it('is none where a part is shaped, a joint cuts otherwise, or cannot be made', () => {
    const round = tablesOf(CASE);
    const rows = round.parts.rows.map((row) =>
      row.part === 'Shelf' ? { ...row, shape: 'round' } : row,
    );
    const heads = [...round.parts.heads, 'shape'];
    expect(areaSum({ ...round, parts: { ...round.parts, heads, rows } })).toBeUndefined();
    const tenons = [{ joint: 'mortise and tenon', part: 'Shelf', into: 'Side' }];
    expect(areaSum(tablesOf(CASE, tenons))).toBeUndefined();
    expect(
      areaSum(tablesOf(CASE, [{ joint: 'dado', part: 'Shelf', into: 'Top' }])),
    ).toBeUndefined();
  });
});
