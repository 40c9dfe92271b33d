import type { Fake } from './fake-book.ts';

/** An invented dining table: what its parts table would hold, worked out from a few sizes. */
export interface TableSizes {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly top: number;
  readonly overhangEnd: number;
  readonly overhangSide: number;
  readonly leg: number;
  readonly apronWidth: number;
  readonly apronThickness: number;
  readonly setback: number;
  readonly supports: number;
}

export const SAMPLE: TableSizes = {
  length: 84,
  width: 42,
  height: 30,
  top: 1.5,
  overhangEnd: 9,
  overhangSide: 4,
  leg: 2.5,
  apronWidth: 4.25,
  apronThickness: 0.75,
  setback: 0.25,
  supports: 3,
};

/** The same table in another unit. */
export function scaled(t: TableSizes, by: number): TableSizes {
  return {
    length: t.length * by,
    width: t.width * by,
    height: t.height * by,
    top: t.top * by,
    overhangEnd: t.overhangEnd * by,
    overhangSide: t.overhangSide * by,
    leg: t.leg * by,
    apronWidth: t.apronWidth * by,
    apronThickness: t.apronThickness * by,
    setback: t.setback * by,
    supports: t.supports,
  };
}

export const HEADER: readonly Fake[] = [
  'Part',
  'Count',
  'Thickness',
  'Width',
  'Length',
  'Material',
  'Grain',
  'X',
  'Y',
  'Z',
  'Step X',
  'Step Y',
  'Step Z',
  'Turn',
];

/** The parts table of a table: top, two pairs of legs, long and short aprons, cross supports. */
export function tableRows(t: TableSizes): Fake[][] {
  const wood = 'Maple, hard';
  const legLength = t.height - t.top;
  const underApron = legLength - t.apronWidth;
  const acrossLegs = t.width - 2 * t.overhangSide - t.leg;
  const longApron = t.length - 2 * t.overhangEnd - 2 * t.leg;
  const shortApron = t.width - 2 * t.overhangSide - 2 * t.leg;
  const inset = t.overhangSide + t.setback;
  const support = t.width - 2 * (inset + t.apronThickness);
  const rightLeg = t.length - t.overhangEnd - t.leg;
  const a = t.apronThickness;
  const supportStep = longApron / (t.supports + 1);
  return [
    ['Top', 1, t.top, t.width, t.length, wood, 'length', 0, 0, legLength, null, null, null, 'LWT'],
    [
      'Leg, left',
      2,
      t.leg,
      t.leg,
      legLength,
      wood,
      'length',
      t.overhangEnd,
      t.overhangSide,
      0,
      0,
      acrossLegs,
      0,
      'WTL',
    ],
    [
      'Leg, right',
      2,
      t.leg,
      t.leg,
      legLength,
      wood,
      'length',
      rightLeg,
      t.overhangSide,
      0,
      0,
      acrossLegs,
      0,
      'WTL',
    ],
    [
      'Apron, long',
      2,
      a,
      t.apronWidth,
      longApron,
      wood,
      'length',
      t.overhangEnd + t.leg,
      inset,
      underApron,
      0,
      t.width - 2 * inset - a,
      0,
      'LTW',
    ],
    [
      'Apron, short',
      2,
      a,
      t.apronWidth,
      shortApron,
      wood,
      'length',
      t.overhangEnd + t.setback,
      t.overhangSide + t.leg,
      underApron,
      t.length - 2 * t.overhangEnd - 2 * t.setback - a,
      0,
      0,
      'TLW',
    ],
    [
      'Cross support',
      t.supports,
      a,
      2.5 * a,
      support,
      wood,
      'length',
      t.overhangEnd + t.leg + supportStep - a / 2,
      inset + a,
      legLength - 2.5 * a,
      supportStep,
      0,
      0,
      'TLW',
    ],
  ];
}
