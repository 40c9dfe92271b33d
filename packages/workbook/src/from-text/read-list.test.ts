import { describe, expect, it } from 'vitest';
import { readEntry } from '../quantities/read.ts';
import { readList } from './read-list.ts';
import type { ListContext, ListKind, ListRow } from './types.ts';

// Lines as makers write them: invented, after common practice, no source. What each means was worked out by hand.

const context = (kind: ListKind, units: 'us' | 'metric'): ListContext => ({
  kind,
  units,
  money: '$',
  woods: [],
});

const SIZES = ['thickness', 'width', 'length'] as const;

/** What a row says, its sizes as the numbers that its entries come to. */
function said({ texts }: ListRow, kind: ListKind, units: 'us' | 'metric'): string {
  const sizes = SIZES.map((side) => {
    const read = readEntry(texts[side] ?? '', {
      quantity: 'length',
      system: units,
      currency: 'USD',
    });
    return read.kind === 'value'
      ? String(Number(Number(read.value).toPrecision(9)))
      : read.kind === 'empty'
        ? '?'
        : 'unread';
  }).join(' ');
  const words =
    kind === 'parts'
      ? [texts.count, texts.part, sizes, texts.material, texts.grain]
      : [texts['at hand'] ?? 'any', texts.stock, sizes, texts.material, texts.price];
  return words.filter((word) => word !== undefined).join(' | ');
}

const readOf = (text: string, kind: ListKind, units: 'us' | 'metric') => {
  const { rows, unread } = readList(text, context(kind, units));
  return [
    ...rows.map((row) => said(row, kind, units)),
    ...unread.filter(({ expected }) => !expected).map(({ says }) => `- ${says}`),
  ];
};

const PARTS_US: readonly (readonly [text: string, means: string])[] = [
  ['4 @ 3-1/2 x 3-1/2 x 28-1/2', '4 | Part 1 | 3.5 3.5 28.5'],
  ['(4) legs 3 1/2" x 3 1/2" x 28 1/2"', '4 | legs | 3.5 3.5 28.5'],
  ['Apron, long – 2 pcs – 7/8 × 4 × 62 – walnut', '2 | Apron, long | 0.875 4 62 | walnut'],
  ['2x Stretcher 1 1/4 by 2 by 40', '2 | Stretcher | 1.25 2 40'],
  ['2 x Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['x2 Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher x2 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher (x2): 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher, 1 1/4 x 2 x 40, x2', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40 (2)', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40 [2]', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40 = 2', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40 - 2', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40 qty 2', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher qty. 2 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Qty: 2 Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['2 ea. Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40, 2 ea.', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 1 1/4 x 2 x 40, 2 req’d', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher, 2 off, 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['2 no. Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['two Stretchers 1 1/4 x 2 x 40', '2 | Stretchers | 1.25 2 40'],
  ['Pair of Stretchers 1 1/4 x 2 x 40', '2 | Stretchers | 1.25 2 40'],
  ['a dozen slats 3/8 x 1 3/4 x 20', '12 | slats | 0.375 1.75 20'],
  ['2 pieces of Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['2 - Stretcher - 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['2 Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher 2 1.25 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['Stretcher: 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['• Stretcher 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['- Stretcher 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['* 2 Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['[ ] Stretcher 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['[x] 2 Stretcher 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['☐ Stretcher 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['1. Stretcher 1 1/4 x 2 x 40', '1 | Stretcher | 1.25 2 40'],
  ['1) Stretcher, 2 pcs, 1 1/4 x 2 x 40', '2 | Stretcher | 1.25 2 40'],
  ['4) Stretcher 1 1/4 x 2 x 40', '4 | Stretcher | 1.25 2 40'],
  ['Rail 2 pcs 3/4"T x 3"W x 28"L oak', '2 | Rail | 0.75 3 28 | oak'],
  ['Rail qty 2 3/4"T x 3"W x 28"L oak', '2 | Rail | 0.75 3 28 | oak'],
  ['Rail 3/4 T x 3 W x 28 L', '1 | Rail | 0.75 3 28'],
  ['Rail T 3/4 x W 3 x L 28', '1 | Rail | 0.75 3 28'],
  ['Rail: L=28, W=3, T=3/4', '1 | Rail | 0.75 3 28'],
  ['Rail 28 long x 3 wide x 3/4 thick', '1 | Rail | 0.75 3 28'],
  ['Rail, 3/4" thick, 3" wide, 28" long', '1 | Rail | 0.75 3 28'],
  ['Door panel 1/4 thick x 24 wide x 18 long', '1 | Door panel | 0.25 24 18'],
  ['3/4 x 3 x 28 Long rail', '1 | Long rail | 0.75 3 28'],
  ['3/4 thick x 3 wide x 28 long oak rail', '1 | rail | 0.75 3 28 | oak'],
  ['Rail 28 x 3 x 3/4', '1 | Rail | 0.75 3 28'],
  ['Rail 3 x 28 x 3/4', '1 | Rail | 0.75 3 28'],
  ['Rail 3/4 x 28 x 3', '1 | Rail | 0.75 3 28'],
  ['Top 1 x 3’ x 5’ 6"', '1 | Top | 1 36 66'],
  ['Top 1" x 36" x 5\' 6-3/8"', '1 | Top | 1 36 66.375'],
  ['Top 7/8 in x 36 in. x 6 ft', '1 | Top | 0.875 36 72'],
  ['Top 1 x 36 inches x 66 inches', '1 | Top | 1 36 66'],
  [
    'Top 1 1800 x 900 x 30 mm',
    `1 | Top | ${[30, 900, 1800].map((mm) => Number((mm / 25.4).toPrecision(9))).join(' ')}`,
  ],
  ['Top ⅞ × 36½ × 66¼', '1 | Top | 0.875 36.5 66.25'],
  ['Top 3/4x24x48', '1 | Top | 0.75 24 48'],
  ['Top 3/4X24X48', '1 | Top | 0.75 24 48'],
  ['Top 3/4 * 24 * 48', '1 | Top | 0.75 24 48'],
  ['Top .75 x 24.5 x 48', '1 | Top | 0.75 24.5 48'],
  ['Leg 4/4 x 3 x 28', '1 | Leg | 0.8125 3 28'],
  ['Slab 8/4 x 8" x 6\'', '1 | Slab | 1.75 8 72'],
  ['white oak apron 3/4 x 4 x 48', '1 | apron | 0.75 4 48 | white oak'],
  ['apron 3/4 x 4 x 48 (white oak)', '1 | apron | 0.75 4 48 | white oak'],
  ['apron, white oak, 3/4 x 4 x 48', '1 | apron | 0.75 4 48 | white oak'],
  ['apron; 3/4 x 4 x 48; white oak; 2', '2 | apron | 0.75 4 48 | white oak'],
  ['Door 1/4 x 12 x 18 plywood, grain length', '1 | Door | 0.25 12 18 | plywood | length'],
  ['Door 1/4 x 12 x 18, grain: width', '1 | Door | 0.25 12 18 | width'],
  ['Dowel ø 3/8 x 36', '1 | Dowel | 0.375 0.375 36'],
  ['Dowel 3/8 dia x 36, 6 pcs', '6 | Dowel | 0.375 0.375 36'],
  ['Leg 4 3.5 3.5 28.5', '4 | Leg | 3.5 3.5 28.5'],
  ['Leg\t4\t3.5\t3.5\t28.5\twalnut', '4 | Leg | 3.5 3.5 28.5 | walnut'],
  ['4\tLeg\t3 1/2\t3 1/2\t28 1/2', '4 | Leg | 3.5 3.5 28.5'],
  ['Leg;3 1/2;3 1/2;28 1/2;4', '4 | Leg | 3.5 3.5 28.5'],
  ['Leg,4,3.5,3.5,28.5,walnut', '4 | Leg | 3.5 3.5 28.5 | walnut'],
  ['Leg      4    3 1/2   3 1/2   28 1/2', '4 | Leg | 3.5 3.5 28.5'],
  ['| Leg | 4 | 3.5 | 3.5 | 28.5 |', '4 | Leg | 3.5 3.5 28.5'],
  ['4 x 3 1/2 x 3 1/2 x 28 1/2 legs', '4 | legs | 3.5 3.5 28.5'],
  ['Rail 3 x 28', '1 | Rail | ? 3 28'],
  ['Leg 3 1/2 square', '- It has one number; a piece needs a thickness, a width and a length.'],
  ['Leg 0 x 3 x 28', '- A size is 0; it takes one above 0.'],
  ['Leg 1 x 2 x 3 x 4 x 5', '- It has 5 sizes in a row; a piece has three.'],
  ['Leg 1 5/4 x 3 x 28', '1 | Leg | 1.0625 3 28'],
];

const PARTS_METRIC: typeof PARTS_US = [
  ['Top 1 1800 x 900 x 30 mm', '1 | Top | 30 900 1800'],
  ['Top 1800x900x30', '1 | Top | 30 900 1800'],
  ['Top 1800mmx900mmx30mm', '1 | Top | 30 900 1800'],
  ['Top 1800 × 900 × 19,5', '1 | Top | 19.5 900 1800'],
  ['Top 1.800 × 900 × 19,5 mm', '1 | Top | 19.5 900 1800'],
  ['Top 180 cm x 90 cm x 3 cm', '1 | Top | 30 900 1800'],
  ['Top 1,8 m x 90 cm x 30 mm', '1 | Top | 30 900 1800'],
  ['4 Leg 70 x 70 x 720', '4 | Leg | 70 70 720'],
  ['Panel;600;400;18;2', '2 | Panel | 18 400 600'],
  ['Leg; 4; 70,5; 70,5; 720', '4 | Leg | 70.5 70.5 720'],
  ['Leg 2 3/4 x 2 3/4 x 28 in, 4 pcs', '4 | Leg | 69.85 69.85 711.2'],
  ['Leg 2 3/4" x 2 3/4" x 28"', '1 | Leg | 69.85 69.85 711.2'],
];

const STOCK_US: typeof PARTS_US = [
  ['5 @ 8/4 x 8" x 10\'', '5 | 8/4 x 8" x 10\' | 1.75 8 120'],
  ['2 sheets 3/4 ply 4x8', '2 | 3/4 × 4x8 | 0.75 48 96 | ply'],
  ['2 sheets 3/4 ply 4x8 $65 each', '2 | 3/4 × 4x8 | 0.75 48 96 | ply | 65'],
  ['Baltic birch ply 1/2 x 5 x 5, $85', 'any | 1/2 x 5 x 5 | 0.5 60 60 | Baltic birch ply | 85'],
  // 2 in rough by 8 in by 10 ft: 2 × 8 × 120 / 144 = 13 1/3 bd ft, times 9.50.
  [
    '8/4 walnut 8" x 10\' - 5 boards $9.50/bf',
    '5 | 8/4 × 8" x 10\' | 1.75 8 120 | walnut | 126.67',
  ],
  ['1x6x8 pine, 10 pcs $8 each', '10 | 1x6x8 | 1 6 96 | pine | 8'],
  // 8 ft at 2.25.
  ['Poplar 3/4 x 5 1/2 x 96 @ $2.25/lf', 'any | 3/4 x 5 1/2 x 96 | 0.75 5.5 96 | Poplar | 18'],
  ['Offcut, cherry 3/4 x 6 x 40, $0', 'any | Offcut | 0.75 6 40 | cherry | 0'],
  ['Oak 3/4 x 6 x 40, €12', 'any | 3/4 x 6 x 40 | 0.75 6 40 | Oak'],
];

describe('lines of parts and boards', () => {
  it.each(PARTS_US)('in inches: %j', (text, means) => {
    expect(readOf(text, 'parts', 'us')).toEqual([means]);
  });
  it.each(PARTS_METRIC)('in millimeters: %j', (text, means) => {
    expect(readOf(text, 'parts', 'metric')).toEqual([means]);
  });
  it.each(STOCK_US)('of boards: %j', (text, means) => {
    expect(readOf(text, 'stock', 'us')).toEqual([means]);
  });
});

describe('a whole text', () => {
  const TEXT = `Side table – cut list
all sizes in inches

Walnut:
4 legs 1 1/2 x 1 1/2 x 23
2 aprons, long, 3/4 x 4 x 20

# ask about the drawer
Maple
Drawer side 2 pcs 1/2 x 3 1/2 x 14
Screws #8
Glue 1 bottle
Total 8 pieces`;

  it('has each line that holds anything among its rows or among those that were not read', () => {
    const { rows, unread } = readList(TEXT, context('parts', 'us'));
    const lines = TEXT.split('\n').flatMap((line, i) => (line === '' ? [] : [i + 1]));
    expect([...rows, ...unread].map(({ line }) => line).sort((a, b) => a - b)).toEqual(lines);
    expect(rows.map((row) => said(row, 'parts', 'us'))).toEqual([
      '4 | legs | 1.5 1.5 23 | Walnut',
      '2 | aprons, long | 0.75 4 20 | Walnut',
      '2 | Drawer side | 0.5 3.5 14 | Maple',
    ]);
    expect(unread.filter(({ expected }) => !expected).map(({ text }) => text)).toEqual([
      'Screws #8',
      'Glue 1 bottle',
    ]);
  });

  it.each([
    [
      'Part,Qty,Thickness,Width,Length,Material\nLeg,4,1.5,1.5,23,oak',
      '4 | Leg | 1.5 1.5 23 | oak',
    ],
    ['L\tW\tT\tQty\tName\n12\t18\t3/4\t2\tDoor', '2 | Door | 0.75 18 12'],
    ['Qty;Part;T (mm);W (mm);L (mm)\n2;Leg;38,1;38,1;584,2', '2 | Leg | 1.5 1.5 23'],
    [
      'Part | # | Size (T x W x L)\n--- | --- | ---\nDoor | 2 | 3/4 x 18 x 12',
      '2 | Door | 0.75 18 12',
    ],
    ['Part (L x W x T)\nDoor 12 x 18 x 3/4', '1 | Door | 0.75 18 12'],
    ['Qty Part T W L\n2 Door 3/4 x 18 x 12', '2 | Door | 0.75 18 12'],
  ])('goes by its heads: %j', (text, means) => {
    expect(readOf(text, 'parts', 'us')).toEqual([means]);
  });

  it.each([
    ['Leg 70 x 70 x 720', 'us', 'mm', false],
    ['Leg 7 x 7 x 72', 'metric', 'mm', true],
    ['Leg 7 x 7 x 72', 'us', 'in', false],
    ['Leg 7 x 7 x 172', 'us', 'in', true],
    ['Leg 70 x 70 x 720', 'metric', 'mm', false],
    ['Leg 2 3/4 x 3 x 28', 'metric', 'in', false],
    ['Sizes in cm\nLeg 7 x 7 x 72', 'us', 'cm', false],
    ['Leg 7 x 7 x 72\nTop 90 cm x 40 cm x 2 cm', 'us', 'cm', true],
  ] as const)(
    'says what bare numbers are read in: %j in a workbook in %s',
    (text, units, unit, asks) => {
      const { bare } = readList(text, context('parts', units));
      expect(bare).toMatchObject({ unit, asks });
      expect(bare?.why).toMatch(/^[A-Z\d].+\.$/);
    },
  );

  it('reads bare numbers in what a maker chose, and asks nothing where each size says its unit', () => {
    const chosen = readList('Leg 7 x 7 x 72', { ...context('parts', 'us'), unit: 'cm' });
    expect(chosen.rows[0]?.texts.length).toBe('72 cm');
    expect(readList('Leg 7" x 7" x 72"', context('parts', 'us')).bare).toBeUndefined();
  });

  it('says what it guessed, and is sure of the rest', () => {
    const says = (text: string, kind: ListKind = 'parts') =>
      readList(text, context(kind, 'us')).rows[0];
    expect(says('4 legs 3 x 3 x 28')).toMatchObject({ sure: true, says: [] });
    expect(says('4 @ 3 x 3 x 28')?.says).toEqual(['It has no name: Part 1.']);
    expect(says('Door 3/4 x 24 x 18')?.says).toEqual([
      '24 is taken as the length, since it is the longest.',
    ]);
    expect(says('Door 3 x 28')?.says).toEqual(['Its thickness is not said.']);
    expect(says('Rail 4 3/4 x 5 x 28')?.says).toEqual([
      '4 3/4 is read as one size, not as 4 of 3/4.',
    ]);
    expect(says('Leg 4/4 x 3 x 28')?.says).toEqual(['4/4 is 13/16 in once planed.']);
    expect(says('Leg 3 x 3 x 28 - tapered')?.says).toEqual(['Not understood: "tapered".']);
    expect(says('Leg\t18\t3/8\t14\t17')?.says).toEqual([
      '18 is read as how many: no head says so.',
    ]);
    expect(says('Leg 3 x 3 x 28 $12')?.says).toEqual(['Left out: "$12".']);
    expect(says('2x4x8 fir $4 each', 'stock')?.says).toContain(
      'Read as 2 × 4; a dressed 2x4 measures 1 1/2 × 3 1/2 in.',
    );
  });

  it('takes places along that stand under heads, in the unit of the list', () => {
    const text = 'part\tqty\tT\tW\tL\tplace\tx\nleg\t4\t38\t38\t560\tfour corners of Top\t25';
    const texts = (units: 'us' | 'metric') =>
      readList(text, context('parts', units)).rows[0]?.texts;
    expect(texts('metric')).toMatchObject({ place: 'four corners of Top', x: '25', length: '560' });
    expect(texts('us')).toMatchObject({
      place: 'four corners of Top',
      x: '25 mm',
      length: '560 mm',
    });
  });

  it('calls a wood as the workbook does, where it has one of that name', () => {
    const woods = (own: readonly string[]) =>
      readList('Leg 3 x 3 x 28 oak', { ...context('parts', 'us'), woods: own }).rows[0]?.texts
        .material;
    expect(woods(['black walnut', 'white oak'])).toBe('white oak');
    expect(woods(['Oak'])).toBe('Oak');
    expect(woods(['red oak', 'white oak'])).toBe('oak');
  });
});
