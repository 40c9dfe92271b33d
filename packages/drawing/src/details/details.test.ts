import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { SCALES } from '../scales.ts';
import { buildScene } from '../scene.ts';
import {
  type Box,
  type CutOpen,
  cutOpen,
  jointRow,
  opened,
  ROOMS,
  tenths,
} from '../testing/cut-open.ts';
import { joinedBook } from '../testing/joined.ts';
import type { Segment } from '../views.ts';
import type { CutFace } from './cut-faces.ts';
import type { JointDetail } from './detail.ts';
import { detailSvg } from './detail-svg.ts';
import { detailNote, detailTitle } from './detail-words.ts';
import { detailPictures } from './index.ts';

/** Area of a cut face by the shoelace formula, mm². */
const areaOf = (face: CutFace | undefined): number =>
  (face?.areas ?? []).reduce(
    (sum, points) =>
      sum +
      points.reduce((all, [x, y], i) => {
        const [nx, ny] = points[(i + 1) % points.length] ?? [x, y];
        return all + (x * ny - nx * y) / 2;
      }, 0),
    0,
  );

const areas = ({ crosses }: CutOpen): readonly number[] =>
  crosses.flatMap(({ a, b }) => [a, b].filter((one) => one !== undefined).map(areaOf));

/** Sizes of the first detail by what they are of, as they are written. */
const sizes = ({ details: [detail] }: CutOpen): Record<string, string> =>
  Object.fromEntries((detail?.layout.labels ?? []).map(({ key, text }) => [key, text]));

const first = ({ details: [detail] }: CutOpen): JointDetail => {
  if (detail === undefined) throw new Error('there is no detail');
  return detail;
};

/** A rail on edge, 30 by 90, that reaches 40 into a leg of 80 by 80, 25 from its face. */
const LEG: Box = ['Leg', 80, 80, 700, [0, 0, 0], 'WTL'];
const RAIL: Box = ['Rail', 30, 90, 500, [40, 25, 600], 'LTW'];
const joint = (kind: string, part: string, into: string, more = {}) =>
  jointRow({ joint: kind, part, into, ...more });
const TENON = joint('mortise and tenon', 'Rail', 'Leg');

describe('a mortise and tenon cut open', () => {
  const all = cutOpen([LEG, RAIL], TENON);

  it('is cut through its middle, along the tenon: the cut faces are as large as formulas have them', () => {
    const [rail, leg] = areas(all);
    expect(rail).toBeCloseTo(30 * 460 + 10 * 40, 6);
    // The mortise is 1/8 in deeper than the tenon is long.
    expect(leg).toBeCloseTo(80 * 80 - 10 * (40 + 25.4 / 8), 6);
  });

  it('marks the faces that are measured from, as carpenters mark them, and names them', () => {
    // An apron that stands back 15 from the front of its legs.
    const book = joinedBook(
      [
        ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'],
        ['Top', 1, 30, 800, 1600, null, 0, 0, 700],
        ['Leg', 4, 80, 80, 700, 'four corners of Top', 100, 100],
        ['Apron', 2, 30, 90, 1320, 'between Leg along, front and back, under Top', null, 15],
      ],
      [[...JOINT_COLUMNS], jointRow({ joint: 'mortise and tenon', part: 'Apron', into: 'Leg' })],
      'metric',
    );
    const { marks, ...detail } = first(opened(book));
    expect(detailNote({ marks, ...detail }, tenths)).toBe(
      'Seen from the top, at the front left leg. Tenon 60 wide. Loops mark the faces to measure from: outside face of the apron, front face of the leg.',
    );
    // From the top the front is at the foot of the paper: the leg's lies at 100, the apron's at 115.
    const foot = marks.map(({ mark, lines }) => [
      mark.part,
      Math.min(...lines.flatMap(({ y1, y2 }) => [y1, y2])),
      Math.max(...lines.flatMap(({ y1, y2 }) => [y1, y2])),
    ]);
    const reach = 11 * detail.unit;
    expect(foot.map(([part]) => part)).toEqual(['Apron', 'Leg']);
    for (const [[, low = 0, high = 0], face] of [
      [foot[0] ?? [], 115],
      [foot[1] ?? [], 100],
    ] as const) {
      // One tail stands on the face; the loop lies outside the wood.
      expect(Number(high)).toBeCloseTo(face, 6);
      expect(Number(low)).toBeCloseTo(face - reach, 6);
    }
    const svg = detailSvg({ marks, ...detail }, { units: 'metric', format: tenths });
    expect(svg).toContain('class="kb-face-mark"');
  });

  it('has the sizes of the tenon, its shoulders, its mortise, and of the wood that is left', () => {
    expect(sizes(all)).toEqual({
      'tenon length': '40',
      'tenon thickness': '10',
      shoulder: '10',
      'mortise depth': '43.2',
      'wood left in Leg': '36.8',
      'wood beside in Leg': '35',
    });
    expect(detailTitle(first(all), 'metric')).toBe('Leg and rail: mortise and tenon, 1 : 2');
    expect(detailTitle(first(all), 'us')).toBe('Leg and rail: mortise and tenon, half size');
    expect(detailNote(first(all), tenths)).toBe(
      'Seen from the top. Tenon 60 wide. Loops mark the faces to measure from: back face of the rail, back face of the leg.',
    );
  });

  it('of one with a haunch shows the haunch, and one right through leaves nothing', () => {
    const haunched = cutOpen([LEG, RAIL], joint('haunched tenon', 'Rail', 'Leg'));
    const [rail] = areas(haunched);
    // 60 of the 90 is the tenon, 30 the haunch, as long as the tenon is thick.
    expect(rail).toBeCloseTo(90 * 460 + 60 * 40 + 30 * 10, 6);
    expect(sizes(haunched)).toMatchObject({
      'tenon length': '40',
      'tenon width': '60',
      'haunch length': '10',
      'haunch width': '30',
      'mortise depth': '43.2',
    });
    const through = cutOpen(
      [LEG, ['Rail', 30, 90, 500, [0, 25, 600], 'LTW']],
      joint('through tenon', 'Rail', 'Leg'),
    );
    expect(areas(through)[1]).toBeCloseTo(80 * 70, 6);
    expect(sizes(through)).not.toHaveProperty('wood left in Leg');
    // ISO 129-1: tenon and mortise are as long as one another, so that is told once.
    expect(sizes(through)).not.toHaveProperty('mortise depth');
  });

  it('tells what is left to a mortise on the other side of the leg, which lies in the same plane', () => {
    const side: Box = ['Side rail', 30, 90, 500, [25, 50, 600], 'TLW'];
    const two = cutOpen([LEG, RAIL, side], TENON, joint('tenon', 'Side rail', 'Leg'));
    const [one, other] = two.details;
    expect(two.details).toHaveLength(2);
    // The mortise of the side rail ends 80 - 33.175 from the front, that of the rail at 45.
    const left = other?.layout.labels.find(({ key }) => key === 'wood left in Leg');
    expect(left?.text).toBe(tenths(80 - 30 - 25.4 / 8 - 45));
    // The tenon of the other one is drawn as what is adjacent.
    expect(one?.adjacent.length).toBeGreaterThan(0);
    expect(first(all).adjacent).toEqual([]);
  });
});

describe('a tenon in a leg that leans', () => {
  it('is as long in the plane as the rail goes in there, and its mortise 1/8 in deeper', () => {
    const [lean, mm] = [(10 * Math.PI) / 180, 25.4];
    const heads = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'];
    const leg = 18 / Math.cos(lean) + 1.5 * Math.tan(lean);
    const book = joinedBook(
      [
        [...heads, 'splay along', 'splay across'],
        ['Left leg', 1, 1.5, 1.5, leg, 0, 0, 0, 'WTL', 10, 0],
        ['Right leg', 1, 1.5, 1.5, leg, 12, 0, 0, 'WTL', 10, 0],
        ['Rail', 1, 0.75, 2, 15.5, -1.5, 0.4, 4, 'LTW', null, null],
      ],
      [
        [...JOINT_COLUMNS],
        joint('mortise and tenon', 'Rail', 'Left leg', { thickness: 0.25, width: 1.25 }),
      ],
    );
    const all = opened(book);
    expect(all.says).toEqual([]);
    const { pieces } = buildScene(all.reading.parts);
    const high = Math.max(...pieces.slice(0, 2).map(({ to }) => to.z)) / mm;
    // The inner face of the leg at the middle of the rail, 5 in up, from the rail's end.
    const reach = 1.5 / Math.cos(lean) - Math.tan(lean) * (high - 5) + 1.5;
    expect(sizes(all)).toMatchObject({
      'tenon length': tenths(reach * mm),
      'mortise depth': tenths((reach + 1 / 8) * mm),
      'tenon thickness': tenths(mm / 4),
    });
    expect(detailNote(first(all), tenths)).toMatch(/shoulders off square by 10° across its width/);
  });
});

describe('other joints cut open', () => {
  const SIDE: Box = ['Side', 18, 300, 800, [0, 0, 0], 'TWL'];
  const SHELF: Box = ['Shelf', 18, 300, 600, [12, 0, 400], 'LWT'];
  const FRONT: Box = ['Front', 15, 100, 400, [0, 0, 0], 'LTW'];
  const DRAWER: Box = ['Drawer side', 12, 100, 300, [0, 0, 0], 'TLW'];
  const BESIDE: Box = ['Rail', 30, 90, 500, [80, 25, 600], 'LTW'];

  it('a dado and a rabbet have their width, their depth and what is left behind', () => {
    const dado = cutOpen([SIDE, SHELF], joint('dado', 'Shelf', 'Side'));
    expect(areas(dado)).toEqual([600 * 18, expect.closeTo(18 * 800 - 18 * 6, 6)]);
    expect(sizes(dado)).toEqual({
      'dado width': '18',
      'dado depth': '6',
      'wood left in Side': '12',
    });
    const back: Box = ['Back', 6, 600, 790, [10, 294, 5], 'WTL'];
    const rabbet = cutOpen([SIDE, back], joint('rabbet', 'Back', 'Side'));
    expect(areas(rabbet)[1]).toBeCloseTo(18 * 300 - 8 * 6, 6);
    expect(sizes(rabbet)).toMatchObject({ 'rabbet width': '6', 'rabbet depth': '8' });
  });

  it('a tongue and its groove are told once where they are alike', () => {
    const one: Box = ['Board', 18, 100, 500, [0, 0, 0], 'LWT'];
    const other: Box = ['Next board', 18, 100, 500, [0, 94, 0], 'LWT'];
    const tongue = cutOpen([one, other], joint('tongue and groove', 'Next board', 'Board'));
    expect(areas(tongue)).toEqual([
      expect.closeTo(18 * 94 + 6 * 6, 6),
      expect.closeTo(18 * 100 - 6 * 6, 6),
    ]);
    expect(sizes(tongue)).toEqual({
      'groove width': '6',
      'groove depth': '6',
      'wood beside in Board': '6',
    });
  });

  it('a half lap is half of each', () => {
    const lap = cutOpen(
      [
        ['One', 20, 60, 400, [0, 170, 0], 'LWT'],
        ['Other', 20, 60, 400, [170, 0, 0], 'WLT'],
      ],
      joint('half lap', 'One', 'Other'),
    );
    expect(areas(lap)).toEqual([expect.closeTo(400 * 20 - 60 * 10, 6), expect.closeTo(60 * 10, 6)]);
    expect(sizes(lap)).toEqual({
      'half lap width': '60',
      'half lap depth': '10',
      'wood left in One': '10',
    });
  });

  it('fingers and tails show the end of the board, and both together fill the corner', () => {
    for (const kind of ['finger joint', 'dovetails']) {
      const corner = cutOpen([FRONT, DRAWER], joint(kind, 'Drawer side', 'Front'));
      const [side = 0, front = 0] = areas(corner);
      // In that plane the side is 300 by 100, and of the front there is a strip 15 thick.
      expect(side + front).toBeCloseTo(300 * 100, 3);
      expect(front).toBeGreaterThan(0);
      expect(sizes(corner)).toMatchObject({
        [kind === 'dovetails' ? 'tail length' : 'finger length']: '15',
      });
    }
    const fingers = sizes(cutOpen([FRONT, DRAWER], joint('finger joint', 'Drawer side', 'Front')));
    // 9 fingers of 100.
    expect(fingers).toMatchObject({ 'finger width': '11.1', 'gap between fingers': '11.1' });
    const tails = cutOpen([FRONT, DRAWER], joint('dovetails', 'Drawer side', 'Front'));
    // 1 : 8 in hardwoods.
    expect(detailNote(first(tails), tenths)).toBe(
      'Seen from the right end. Tails slope 1 : 8. Loops mark the faces to measure from: bottom edge of the drawer side, bottom edge of the front.',
    );
  });

  it('dowels and loose tenons lie between both holes, with room for glue at their ends', () => {
    const dowels = cutOpen(
      [LEG, BESIDE],
      joint('dowels', 'Rail', 'Leg', { diameter: 10, length: 60, count: 2 }),
    );
    const { 'dowel hole depth in Rail': mine, 'dowel hole depth in Leg': its } = sizes(dowels);
    expect([mine, its]).toEqual([tenths((60 + 25.4 / 8) / 2), tenths((60 + 25.4 / 8) / 2)]);
    expect(sizes(dowels)).toMatchObject({
      'dowel hole across in Rail': 'Ø10',
      'from the face of Rail': '15',
      'from the face of Leg': '40',
    });
    // What no line has room for is said in words, and what it is of.
    const unplaced: JointDetail['unplaced'] = (
      [
        ['dowel hole across in Rail', 10],
        ['from the face of Rail', 15],
        ['half pin', 6.5],
      ] as const
    ).map(([key, to]) => ({
      key,
      to,
      from: 0,
      fromAnchor: 0,
      toAnchor: 0,
      side: 'below',
      must: false,
    }));
    expect(detailNote({ ...first(dowels), unplaced }, tenths)).toContain(
      ' No room in the drawing for: dowel hole in Rail 10 across, 15 from the face of Rail, half pin 6.5.',
    );
    const { loose } = first(dowels);
    const [xs, ys] = [
      loose.flatMap(({ x1, x2 }) => [x1, x2]),
      loose.flatMap(({ y1, y2 }) => [y1, y2]),
    ];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(60, 9);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(10, 9);
    const tenon = cutOpen([LEG, BESIDE], joint('loose tenon', 'Rail', 'Leg', { length: 70 }));
    expect(sizes(tenon)).toMatchObject({
      'mortise thickness in Rail': '10',
      'mortise depth in Rail': tenths(35 + 25.4 / 16),
    });
    // It is wood of its own, so it is hatched as well.
    expect(first(tenon).faces).toHaveLength(3);
    expect(first(dowels).faces).toHaveLength(2);
  });

  it('screws, pocket holes and what is cut into one part have their sizes too', () => {
    const shelf: Box = ['Shelf', 18, 300, 600, [18, 0, 400], 'LWT'];
    const screws = cutOpen([SIDE, shelf], joint('screws', 'Shelf', 'Side', { diameter: 3 }));
    expect(Object.values(sizes(screws))).toEqual(expect.arrayContaining(['Ø3', '18']));
    const far: Box = ['Far', 20, 90, 500, [80, 500, 600], 'LTW'];
    const thin: Box = ['Rail', 20, 90, 500, [80, 25, 600], 'LTW'];
    const pocket = cutOpen([LEG, thin, far], joint('pocket holes', 'Rail', 'Leg'));
    // At 15° the middle of the wood's thickness comes out half of it further on.
    const back = 10 / Math.tan((15 * Math.PI) / 180);
    expect(sizes(pocket)['pocket from the end']).toBe(tenths(back));
    const groove = cutOpen(
      [LEG, RAIL],
      jointRow({
        joint: 'groove',
        part: 'Rail',
        face: 'front',
        width: 6,
        depth: 8,
        'from edge': 10,
      }),
    );
    expect(sizes(groove)).toEqual({
      'groove width': '6',
      'groove depth': '8',
      'wood left in Rail': '22',
      'wood beside in Rail': '10',
    });
    const hole = cutOpen(
      [LEG, RAIL],
      jointRow({ joint: 'hole', part: 'Rail', face: 'front', diameter: 10, depth: 12, count: 3 }),
    );
    expect(sizes(hole)).toMatchObject({
      'hole across in Rail': 'Ø10',
      'hole depth in Rail': '12',
      'wood left in Rail': '18',
    });
  });
});

describe('on the page', () => {
  const all = cutOpen([LEG, RAIL], TENON);
  const svg = detailSvg(first(all), { units: 'metric', format: tenths });

  it('wood of both parts is hatched at 45°, in opposite directions (ISO 128-44)', () => {
    const ways = first(all).faces.map(({ hatch }) =>
      hatch.map(({ x1, y1, x2, y2 }) => (y2 - y1) / (x2 - x1)),
    );
    expect(ways).toHaveLength(2);
    for (const way of ways[0] ?? []) expect(way).toBeCloseTo(1, 6);
    for (const way of ways[1] ?? []) expect(way).toBeCloseTo(-1, 6);
    // Lines lie evenly: their length times what is between them is the area, but for the rims.
    const { unit } = first(all);
    const long = (lines: readonly Segment[]): number =>
      lines.reduce((sum, { x1, y1, x2, y2 }) => sum + Math.hypot(x2 - x1, y2 - y1), 0);
    const leg = long(first(all).faces[1]?.hatch ?? []) * 6 * unit;
    expect(leg / (80 * 80 - 10 * 43.175)).toBeCloseTo(1, 1);
  });

  it('letters are 9 pt or larger, and it is as large as its scale says and no larger than its room', () => {
    const [, wide = '', tall = ''] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
    const [, size = ''] = /font-size="([\d.]+)"/.exec(svg) ?? [];
    const { frame, scale } = first(all);
    expect(Number(size) / scale).toBeGreaterThanOrEqual((9 * 25.4) / 72);
    expect(Number(wide)).toBeCloseTo((frame.right - frame.left) / scale, 2);
    expect(Number(wide)).toBeLessThanOrEqual(ROOMS.room.width);
    expect(Number(tall)).toBeLessThanOrEqual(ROOMS.room.height);
    expect(SCALES.metric).toContain(scale);
    expect(svg).toContain('tenon length 40');
  });

  it('there is one for each row, in their order, and none of what is not made', () => {
    const legs: Box[] = [0, 1].map((i) => ['Leg', 80, 80, 700, [i * 1000, 0, 0], 'WTL']);
    const rail: Box = ['Rail', 30, 90, 1000, [40, 25, 600], 'LTW'];
    const book = cutOpen(
      [...legs, rail],
      joint('dado', 'Rail', 'Leg'),
      joint('mortise and tenon', 'Rail', 'Leg', { thickness: 50 }),
      TENON,
      jointRow({ joint: 'groove', part: 'Rail', face: 'front', width: 6, depth: 8 }),
    );
    const pictures = detailPictures(book.reading, { ...ROOMS, units: 'metric', format: tenths });
    expect(pictures.map(({ title }) => title.replace(/,.*/, ''))).toEqual([
      'Leg and rail: dado',
      'Leg and rail: mortise and tenon',
      'Rail: groove',
    ]);
    expect(pictures.map(({ row }) => row)).toEqual([1, 3, 4]);
    expect(detailPictures({ parts: [] }, { ...ROOMS, units: 'us', format: tenths })).toEqual([]);
  });
});
