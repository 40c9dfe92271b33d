import { measured, sharedRooms } from '@kerfbook/solids';
import { describe, expect, it } from 'vitest';
import type { Fake } from '../testing/fake-book.ts';
import { type Joined, joined, joinedBook, saidOf } from '../testing/joined.ts';

const PARTS: Fake[] = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'];
const JOINTS: Fake[] = [
  'joint',
  'part',
  'into',
  'face',
  'thickness',
  'width',
  'length',
  'depth',
  'diameter',
  'from edge',
  'from end',
  'count',
];
const row = (
  joint: string,
  part: string,
  into: string | null,
  rest: Partial<Record<string, Fake>> = {},
) =>
  JOINTS.map((head) =>
    head === 'joint'
      ? joint
      : head === 'part'
        ? part
        : head === 'into'
          ? into
          : (rest[String(head)] ?? null),
  );

/** Parts in mm: name, thickness, width, length, where its low corner is, and how it is turned. */
type Box = readonly [string, number, number, number, readonly [number, number, number], string];
const box = ([name, t, w, l, [x, y, z], turn]: Box): Fake[] => [name, 1, t, w, l, x, y, z, turn];

const join = (boxes: readonly Box[], ...rows: Fake[][]): Joined =>
  joined(joinedBook([PARTS, ...boxes.map(box)], [JOINTS, ...rows], 'metric'));

/** Room that pieces share once they are cut, mm³. */
const clashing = ({ solids }: Joined): number =>
  solids.reduce(
    (sum, one, i) =>
      sum + solids.slice(i + 1).reduce((all, other) => all + sharedRooms(one, other).volume, 0),
    0,
  );
const volumes = ({ solids }: Joined): number[] =>
  solids.map((solid) => Math.round(measured(solid).volume));
const cutsOf = ({ work, scene }: Joined, name: string) =>
  scene.pieces.flatMap(({ part }, i) => (part.name === name ? (work.cuts.get(i) ?? []) : []));

/** A rail on edge, 30 by 90, that reaches 40 into a leg of 80 by 80. */
const LEG: Box = ['Leg', 80, 80, 700, [0, 0, 0], 'WTL'];
const RAIL: Box = ['Rail', 30, 90, 500, [40, 25, 600], 'LTW'];

describe('mortise and tenon', () => {
  it('takes the usual sizes: a third of the thickness, two thirds of the width, 1/8 in of room', () => {
    const all = join([LEG, RAIL], row('mortise and tenon', 'Rail', 'Leg'));
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Rail').map(({ cut }) => cut)).toEqual([
      { kind: 'tenon', end: 'start', length: 40, width: 60, thickness: 10, at: [15, 10] },
    ]);
    const [mortise] = cutsOf(all, 'Leg');
    expect(mortise?.cut).toMatchObject({ kind: 'mortise', depth: 43.175, length: 60, width: 10 });
    expect(clashing(all)).toBeLessThan(1);
    // What is taken by formula: shoulders of the rail, and the mortise.
    expect(volumes(all)).toEqual([
      Math.round(80 * 80 * 700 - 60 * 10 * 43.175),
      30 * 90 * 500 - 40 * (30 * 90 - 60 * 10),
    ]);
  });

  it('takes typed sizes before the usual ones, and says which will not do', () => {
    const all = join(
      [LEG, RAIL],
      row('tenon', 'Rail', 'Leg', { thickness: 12, width: 50, depth: 45, 'from edge': 10 }),
    );
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Rail')[0]?.cut).toMatchObject({ width: 50, thickness: 12, at: [10, 9] });
    expect(cutsOf(all, 'Leg')[0]?.cut).toMatchObject({ depth: 45 });
    expect(clashing(all)).toBeLessThan(1);
    const wrong = join([LEG, RAIL], row('tenon', 'Rail', 'Leg', { thickness: 40, depth: 45 }));
    expect(saidOf(wrong)).toEqual(['The thickness is 40 mm, and there is 30 mm. Make it smaller.']);
    const shallow = join([LEG, RAIL], row('tenon', 'Rail', 'Leg', { depth: 30 }));
    expect(saidOf(shallow)[0]).toMatch(
      /^Rail reaches 40 mm into Leg, and the cut for it is to be 30 mm/,
    );
  });

  it('gives four legs and four aprons eight tenons, none of which clash', () => {
    const leg = (name: string, x: number, y: number): Box => [name, 80, 80, 700, [x, y, 0], 'WTL'];
    const rows: Fake[][] = [
      PARTS,
      ['Top', 1, 30, 900, 1600, 0, 0, 700, 'LWT'],
      ...[
        [100, 50],
        [1420, 50],
        [100, 770],
        [1420, 770],
      ].map(([x, y]) => box(leg('Leg', x ?? 0, y ?? 0))),
      ...[60, 810].map((y) => box(['Long apron', 30, 90, 1300, [150, y, 610], 'LTW'])),
      ...[110, 1460].map((x) => box(['Short apron', 30, 90, 700, [x, 100, 610], 'TLW'])),
    ];
    const all = joined(
      joinedBook(
        rows,
        [
          JOINTS,
          row('mortise and tenon', 'Long apron', 'Leg'),
          row('mortise and tenon', 'Short apron', 'Leg'),
        ],
        'metric',
      ),
    );
    expect(cutsOf(all, 'Long apron')).toHaveLength(4);
    expect(cutsOf(all, 'Short apron')).toHaveLength(4);
    expect(cutsOf(all, 'Leg').map(({ what }) => what)).toEqual(Array(8).fill('mortise'));
    expect(clashing(all)).toBeLessThan(1);
    expect(saidOf(all)).toEqual([]);
  });

  it('haunched has a haunch towards the end of the leg, as long as the tenon is thick', () => {
    const all = join([LEG, RAIL], row('haunched tenon', 'Rail', 'Leg'));
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Rail').map(({ what }) => what)).toEqual(['tenon', 'haunch']);
    expect(clashing(all)).toBeLessThan(1);
    const tenon = 60 * 10 * 40 + 30 * 10 * 10;
    expect(volumes(all)[1]).toBe(30 * 90 * 460 + tenon);
  });

  it('of a wide rail is several side by side, none wider than 6 times its thickness', () => {
    const wide: Box = ['Rail', 30, 240, 500, [40, 25, 400], 'LTW'];
    const all = join([LEG, wide], row('mortise and tenon', 'Rail', 'Leg'));
    expect(cutsOf(all, 'Leg')).toHaveLength(3);
    expect(clashing(all)).toBeLessThan(1);
    expect(volumes(all)[1]).toBe(30 * 240 * 460 + 40 * 10 * (160 - 20));
  });

  it('through goes right through, and says where it does not', () => {
    const through: Box = ['Rail', 30, 90, 500, [0, 25, 600], 'LTW'];
    const all = join([LEG, through], row('through mortise and tenon', 'Rail', 'Leg'));
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Leg')[0]?.cut).not.toHaveProperty('depth');
    expect(clashing(all)).toBeLessThan(1);
    expect(saidOf(join([LEG, through], row('tenon', 'Rail', 'Leg')))).toEqual([
      'The tenon of Rail comes through Leg, so its mortise is not blind. Make Rail shorter, or write "through mortise and tenon".',
    ]);
    expect(saidOf(join([LEG, RAIL], row('through tenon', 'Rail', 'Leg')))[0]).toMatch(
      /ends 40 mm before the far face of Leg/,
    );
  });

  it('says where a tenon stands out, where parts only touch, and where they are apart', () => {
    const out: Box = ['Rail', 30, 90, 500, [-15, 25, 600], 'LTW'];
    expect(saidOf(join([LEG, out], row('tenon', 'Rail', 'Leg')))).toEqual([
      'The tenon of Rail is longer than Leg is thick and stands out by 15 mm. Make Rail shorter.',
    ]);
    const touching: Box = ['Rail', 30, 90, 500, [80, 25, 600], 'LTW'];
    expect(saidOf(join([LEG, touching], row('tenon', 'Rail', 'Leg')))[0]).toMatch(
      /^Rail only touches Leg, and a mortise and tenon takes a part that reaches in\. Make it longer by that, about 46.83 mm at each end,/,
    );
    const apart: Box = ['Rail', 30, 90, 500, [90, 25, 600], 'LTW'];
    expect(saidOf(join([LEG, apart], row('tenon', 'Rail', 'Leg')))).toEqual([
      'Rail and Leg do not touch, so there is nothing to join. Check their places, or name other parts.',
    ]);
  });

  it('says where two mortises meet or come near, and where one leaves too little', () => {
    const side: Box = ['Side rail', 30, 90, 500, [25, 40, 600], 'TLW'];
    const rows = [row('tenon', 'Rail', 'Leg'), row('tenon', 'Side rail', 'Leg')];
    const all = join([LEG, RAIL, side], ...rows);
    expect(saidOf(all)).toEqual([
      'In Leg the mortises for Side rail and Rail meet; leave 3.18 mm between them. Make the tenons shorter, or move one.',
    ]);
    const deep: Box = ['Rail', 30, 90, 500, [8, 25, 600], 'LTW'];
    expect(saidOf(join([LEG, deep], row('tenon', 'Rail', 'Leg')))).toEqual([
      'The mortise leaves 4.83 mm of wood in Leg; leave 6.35 mm or more. Make it shallower or narrower, or move it.',
    ]);
  });
});

describe('grooves, dados, rabbets and tongues', () => {
  const SIDE: Box = ['Side', 18, 300, 800, [0, 0, 0], 'TWL'];
  const SHELF: Box = ['Shelf', 18, 300, 600, [12, 0, 400], 'LWT'];

  it('a dado is as wide as the shelf is thick and as deep as it reaches in', () => {
    const all = join([SIDE, SHELF], row('dado', 'Shelf', 'Side'));
    expect(saidOf(all)).toEqual([]);
    expect(volumes(all)[0]).toBe(18 * 300 * 800 - 18 * 6 * 300);
    expect(clashing(all)).toBeLessThan(1);
    expect(cutsOf(all, 'Shelf')).toEqual([]);
  });

  it('a stopped dado ends where the shelf ends, another goes right through', () => {
    const narrow: Box = ['Shelf', 18, 250, 600, [12, 50, 400], 'LWT'];
    const stopped = join([SIDE, narrow], row('stopped dado', 'Shelf', 'Side'));
    expect(volumes(stopped)[0]).toBe(18 * 300 * 800 - 18 * 6 * 250);
    const through = join([SIDE, narrow], row('housing', 'Shelf', 'Side'));
    expect(volumes(through)[0]).toBe(18 * 300 * 800 - 18 * 6 * 300);
    expect(clashing(stopped) + clashing(through)).toBeLessThan(1);
  });

  it('a rabbet lies along the edge, and says where there is none', () => {
    const back: Box = ['Back', 6, 600, 790, [10, 294, 5], 'WTL'];
    const all = join([SIDE, back], row('rabbet', 'Back', 'Side'));
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Side').map(({ what }) => what)).toEqual(['rabbet']);
    expect(volumes(all)[0]).toBe(18 * 300 * 800 - 8 * 6 * 800);
    expect(clashing(all)).toBeLessThan(1);
    expect(saidOf(join([SIDE, SHELF], row('rebate', 'Shelf', 'Side')))[0]).toMatch(/no rabbet/);
  });

  it('a tongue is a third as thick as its board, and the groove fits it', () => {
    const one: Box = ['Board', 18, 100, 500, [0, 0, 0], 'LWT'];
    const other: Box = ['Next board', 18, 100, 500, [0, 94, 0], 'LWT'];
    const all = join([one, other], row('tongue and groove', 'Next board', 'Board'));
    expect(saidOf(all)).toEqual([]);
    expect(volumes(all)).toEqual([18 * 100 * 500 - 6 * 6 * 500, 18 * 100 * 500 - 2 * 6 * 6 * 500]);
    expect(clashing(all)).toBeLessThan(1);
  });
});

describe('laps, fingers and dovetails', () => {
  it('half of each is cut away where two cross, on edge as well as flat', () => {
    const flat = join(
      [
        ['One', 20, 60, 400, [0, 170, 0], 'LWT'],
        ['Other', 20, 60, 400, [170, 0, 0], 'WLT'],
      ],
      row('half lap', 'One', 'Other'),
    );
    expect(saidOf(flat)).toEqual([]);
    expect(volumes(flat)).toEqual([20 * 60 * 400 - 60 * 60 * 10, 20 * 60 * 400 - 60 * 60 * 10]);
    const edge = join(
      [
        ['One', 10, 100, 400, [0, 195, 0], 'LTW'],
        ['Other', 10, 100, 400, [195, 0, 0], 'TLW'],
      ],
      row('half lap', 'One', 'Other', { depth: 40 }),
    );
    expect(volumes(edge)).toEqual([10 * 100 * 400 - 10 * 10 * 60, 10 * 100 * 400 - 10 * 10 * 40]);
    expect(clashing(flat) + clashing(edge)).toBeLessThan(1);
  });

  const FRONT: Box = ['Front', 15, 100, 400, [0, 0, 0], 'LTW'];
  const SIDE: Box = ['Side', 12, 100, 300, [0, 0, 0], 'TLW'];

  it('fingers of both fill the corner', () => {
    const all = join([FRONT, SIDE], row('box joint', 'Side', 'Front'));
    expect(saidOf(all)).toEqual([]);
    // 100 / 12 is nearest to 9 fingers; the part has the outer ones.
    expect(cutsOf(all, 'Side')).toHaveLength(4);
    expect(cutsOf(all, 'Front')).toHaveLength(5);
    const [front = 0, side = 0] = volumes(all);
    expect(front + side).toBe(15 * 100 * 400 + 12 * 100 * 300 - 12 * 15 * 100);
    expect(clashing(all)).toBeLessThan(1);
  });

  it('tails of the part and pins of the other fill the corner, through and half-blind', () => {
    for (const [y, length] of [
      [0, 300],
      [4, 296],
    ] as const) {
      const side: Box = ['Side', 12, 100, length, [0, y, 0], 'TLW'];
      const all = join([FRONT, side], row('dovetails', 'Side', 'Front', { count: 3 }));
      expect(saidOf(all).filter((says) => !says.includes('comes through'))).toEqual([]);
      expect(clashing(all)).toBeLessThan(1);
      const [front = 0, tails = 0] = volumes(all);
      const corner = (15 - y) * 12 * 100;
      // What one has the other lacks: together they are both boards less the corner once.
      expect(front + tails).toBeCloseTo(15 * 100 * 400 + 12 * 100 * length - corner, -1);
      expect(cutsOf(all, 'Front').map(({ what }) => what)).toEqual(
        Array(3).fill('socket for a tail'),
      );
    }
  });
});

describe('pins between tails', () => {
  it('are as wide as a rule has a mark for, a third of the board as near as can be', () => {
    const wide = (units: 'us' | 'metric'): number => {
      const boards = joined(
        joinedBook(
          [
            PARTS,
            ['Front', 1, units === 'us' ? 0.5 : 13, 3, 20, 0, 0, 0, 'LTW'].map((one, i) =>
              units === 'metric' && (i === 3 || i === 4) ? Number(one) * 25.4 : one,
            ),
            ['Side', 1, units === 'us' ? 0.5 : 13, 3, 14, 0, 0, 0, 'TLW'].map((one, i) =>
              units === 'metric' && (i === 3 || i === 4) ? Number(one) * 25.4 : one,
            ),
          ],
          [JOINTS, row('dovetails', 'Side', 'Front')],
          units,
        ),
      );
      const gap = cutsOf(boards, 'Side').find(({ what }) => what === 'gap between tails');
      return gap?.cut.kind === 'dovetail' ? gap.cut.width : Number.NaN;
    };
    // 1/2 in over 3 is 0.1667 in, which no rule shows: 5/32. 13 mm over 3 is 4.33 mm: 4 1/2.
    expect(wide('us') / 25.4).toBeCloseTo(5 / 32, 6);
    expect(wide('metric')).toBeCloseTo(4.5, 6);
  });
});

describe('what joins parts that touch', () => {
  const RAIL80: Box = ['Rail', 30, 90, 500, [80, 25, 600], 'LTW'];

  it('dowels: as thick as half the part, four times that deep, two at the least', () => {
    const all = join([LEG, RAIL80], row('dowels', 'Rail', 'Leg'));
    expect(saidOf(all)).toEqual([]);
    expect(all.work.hardware).toEqual([
      { kind: 'dowel', diameter: 12, length: 48 + 48 - 3.175, count: 2 },
    ]);
    expect(cutsOf(all, 'Rail').map(({ cut }) => cut)).toMatchObject([
      { kind: 'hole', face: 'start', diameter: 12, depth: 48 },
      { kind: 'hole', face: 'start', diameter: 12, depth: 48 },
    ]);
    const inches = joined(
      joinedBook(
        [PARTS, ['Leg', 1, 3, 3, 28, 0, 0, 0, 'WTL'], ['Rail', 1, 0.75, 4, 20, 3, 1, 23, 'LTW']],
        [JOINTS, row('dowels', 'Rail', 'Leg', { length: 2, count: 3 })],
      ),
    );
    expect(inches.work.hardware).toEqual([
      { kind: 'dowel', diameter: 9.525, length: 50.8, count: 3 },
    ]);
  });

  it('a loose tenon has a mortise in both, and says its size to be made', () => {
    const all = join([LEG, RAIL80], row('loose tenon', 'Rail', 'Leg'));
    expect(saidOf(all)).toEqual([]);
    // Five times as deep as 10 is wide, less 1/8 in, on both sides.
    expect(all.work.hardware).toEqual([
      { kind: 'loose tenon', thickness: 10, width: 60, length: 2 * (50 - 3.175), count: 1 },
    ]);
    expect(cutsOf(all, 'Leg')[0]?.cut).toMatchObject({ round: true, length: 60, width: 10 });
  });

  it('pocket holes slant at 15 degrees to the middle of the end, from the inside', () => {
    const all = join(
      [
        LEG,
        ['Rail', 19, 90, 500, [80, 5, 600], 'LTW'],
        ['Far', 19, 90, 500, [80, 400, 600], 'LTW'],
      ],
      row('pocket holes', 'Rail', 'Leg'),
    );
    expect(saidOf(all)).toEqual([]);
    expect(all.work.hardware).toEqual([{ kind: 'pocket screw', length: 31.75, count: 2 }]);
    const [pocket] = cutsOf(all, 'Rail');
    // The far rail lies behind: the inside is the back of the near one, which is its bottom.
    expect(pocket?.cut).toMatchObject({ face: 'bottom', lean: 75, turn: -180 });
    expect(pocket?.cut).toHaveProperty(['at', 0], 19 / 2 / Math.tan(Math.PI / 12));
    expect(volumes(all)[1]).toBeLessThan(19 * 90 * 500);
  });

  it('pocket holes of a part thicker than wide come out where it touches the other one', () => {
    const post: Box = ['Post', 30, 18, 500, [80, 20, 600], 'LWT'];
    const all = join([LEG, post], row('pocket holes', 'Post', 'Leg', { face: 'top', count: 1 }));
    expect(saidOf(all)).toEqual([]);
    const cuts = cutsOf(all, 'Post');
    expect(cuts).toHaveLength(2);
    for (const { cut } of cuts) {
      // In the middle of its width of 18, and as far from the end as 15 degrees go down half of 30.
      expect(cut).toHaveProperty(['at', 1], 9);
      expect(cut).toHaveProperty(['at', 0], 30 / 2 / Math.tan(Math.PI / 12));
    }
    expect(volumes(all)[1]).toBeLessThan(30 * 18 * 500);
  });

  it('pocket holes that come out beside the other part are refused', () => {
    // The leg is 80 deep: so much of the thickness of 38 lies against it.
    const beside = (touching: number) => {
      const rail: Box = ['Rail', 38, 90, 500, [80, 80 - touching, 600], 'LTW'];
      return join([LEG, rail], row('pocket holes', 'Rail', 'Leg', { face: 'front' }));
    };
    for (const touching of [10, 20]) {
      expect(saidOf(beside(touching))).toEqual([
        'Pocket screws come out in the middle of the thickness of Rail, and Leg does not reach there. Move one of them, or use another joint.',
      ]);
      expect(cutsOf(beside(touching), 'Rail')).toEqual([]);
      expect(beside(touching).work.hardware).toEqual([]);
    }
    // Half of the hole of 5/32 in more than the middle.
    expect(saidOf(beside(22))).toEqual([]);
    expect(cutsOf(beside(22), 'Rail').length).toBeGreaterThan(0);
  });

  it('screws pass the thinner one and bite in the other, with the holes of the usual functions', () => {
    const top: Box = ['Cleat', 20, 40, 300, [0, 0, 700], 'LWT'];
    const leg: Box = ['Leg', 80, 80, 700, [0, 0, 0], 'WTL'];
    const parts = [PARTS, box(leg), box(top)];
    parts[0]?.push('material');
    parts[1]?.push('white oak');
    parts[2]?.push('white oak');
    const all = joined(joinedBook(parts, [JOINTS, row('screws No. 10', 'Cleat', 'Leg')], 'metric'));
    expect(saidOf(all)).toEqual([]);
    const holes = cutsOf(all, 'Cleat').map(({ cut }) => cut);
    expect(holes).toMatchObject([{ kind: 'hole', face: 'bottom' }, { kind: 'hole' }]);
    // Shank of a No. 10: 0.19 in, and the next 1/64 over it (ASME B18.6.1).
    expect(holes[0]).toHaveProperty('diameter', Math.round((13 / 64) * 25.4 * 1e6) / 1e6);
    expect(all.work.hardware).toMatchObject([{ kind: 'wood screw', gauge: 'No. 10', count: 2 }]);
  });

  it('says where the parts reach into each other', () => {
    expect(saidOf(join([LEG, RAIL], row('dowels', 'Rail', 'Leg')))).toEqual([
      'Rail reaches 30 mm into Leg, and dowels hold parts that only touch. Make it shorter by that, or use a mortise and tenon.',
    ]);
  });
});

describe('cuts in one part', () => {
  it('are on the face that the row names as the part stands, inside by where the middle is', () => {
    const near: Box = ['Apron', 20, 90, 500, [0, 0, 600], 'LTW'];
    const far: Box = ['Apron', 20, 90, 500, [0, 400, 600], 'LTW'];
    const all = join(
      [near, far],
      row('groove', 'Apron', null, { face: 'inside', width: 10, depth: 8, 'from edge': 70 }),
    );
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Apron').map(({ cut }) => cut)).toEqual([
      { kind: 'groove', face: 'bottom', at: 70, width: 10, depth: 8 },
      { kind: 'groove', face: 'top', at: 70, width: 10, depth: 8 },
    ]);
  });

  it('holes follow each other along the part, slots have round ends, rabbets two faces', () => {
    const board: Box = ['Board', 20, 100, 600, [0, 0, 0], 'LWT'];
    const all = join(
      [board],
      row('hole', 'Board', null, { face: 'top', diameter: 8, count: 3, 'from end': 50 }),
      row('slot', 'Board', null, {
        face: 'top',
        width: 6,
        length: 20,
        'from edge': 10,
        'from end': 30,
      }),
      row('rabbet', 'Board', null, { face: 'top back', width: 10, depth: 5 }),
    );
    expect(saidOf(all)).toEqual([]);
    expect(cutsOf(all, 'Board').map(({ cut }) => cut)).toEqual([
      { kind: 'hole', face: 'top', at: [50, 50], diameter: 8, tolerance: 0.2 },
      { kind: 'hole', face: 'top', at: [300, 50], diameter: 8, tolerance: 0.2 },
      { kind: 'hole', face: 'top', at: [550, 50], diameter: 8, tolerance: 0.2 },
      { kind: 'slot', face: 'top', at: [30, 13], length: 20, width: 6 },
      { kind: 'rabbet', edge: ['top', 'back'], width: 10, depth: 5 },
    ]);
  });
});
