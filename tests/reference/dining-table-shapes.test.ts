import { buildScene, cutList, drawViews, readParts, shopPlan } from '@kerfbook/drawing';
import { measured } from '@kerfbook/solids';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { checkOf, enterAll, numberIn, tableWith } from './dining-table-book.ts';
import { WOODS } from './dining-table-by-hand.ts';

/**
 * Shapes of the dining table by inputs alone, each number that follows worked out here: areas and volumes from
 * geometry by other ways than the template's, weights by Wood Handbook chapter 4, tipping from statics.
 */

/** As the inputs say it; in. */
interface Shapes {
  readonly top: string;
  readonly leg: string;
}

const NUMBERS = [
  'top_length',
  'top_width',
  'top_thickness',
  'table_height',
  'corner_radius',
  'leg_size',
  'leg_foot',
  'taper_below',
  'overhang_end',
  'overhang_side',
  'apron_width',
  'apron_thickness',
  'apron_setback',
  'tenon_length',
  'support_width',
  'support_thickness',
  'support_count',
  'moisture_build',
  'per_seat',
  'climb_load',
  'climb_out',
  'hours_a_day',
] as const;
type Numbers = Readonly<Record<(typeof NUMBERS)[number], number>>;

const SLICES = 20_000;

/** The area under a curve from one end to the other by slices in their middles (Gauss's rule of two points each). */
function integral(of: (at: number) => number, from: number, to: number): number {
  const step = (to - from) / SLICES;
  let sum = 0;
  for (let slice = 0; slice < SLICES; slice += 1) {
    const middle = from + (slice + 0.5) * step;
    const off = step / (2 * Math.sqrt(3));
    sum += ((of(middle - off) + of(middle + off)) * step) / 2;
  }
  return sum;
}

/** Area and length all around of the top, and how far it reaches past the outer corner of a leg. */
function outlineOf(n: Numbers, { top }: Shapes) {
  const [a, b] = [n.top_length / 2, n.top_width / 2];
  const [x, y] = [a - n.overhang_end, b - n.overhang_side];
  if (top === 'round' || top === 'oval') {
    // By the angle of the corresponding circles, so that no slope is endless.
    const area = 4 * integral((t) => a * b * Math.sin(t) ** 2, 0, Math.PI / 2);
    const around =
      4 * integral((t) => Math.hypot(a * Math.sin(t), b * Math.cos(t)), 0, Math.PI / 2);
    // Along the line from the middle until the edge is met, by halving.
    let [inside, outside] = [0, 100];
    for (let step = 0; step < 100; step += 1) {
      const middle = (inside + outside) / 2;
      if (((x * middle) / a) ** 2 + ((y * middle) / b) ** 2 < 1) inside = middle;
      else outside = middle;
    }
    return { area, around, past: Math.hypot(x, y) * (inside - 1) };
  }
  const r = top === 'rounded corners' ? n.corner_radius : 0;
  const straight = 2 * (n.top_length - 2 * r) + 2 * (n.top_width - 2 * r);
  // A cross of two rectangles and a disk in quarters.
  const area =
    (n.top_length - 2 * r) * n.top_width + 2 * r * (n.top_width - 2 * r) + Math.PI * r ** 2;
  const isInCorner = n.overhang_end < r && n.overhang_side < r;
  const past = isInCorner
    ? r - Math.hypot(r - n.overhang_end, r - n.overhang_side)
    : Math.min(n.overhang_end, n.overhang_side);
  return { area, around: straight + 2 * Math.PI * r, past };
}

/** Wood and faces of one leg, slice by slice from the top, and how far in its foot stands. */
function legOf(n: Numbers, { leg }: Shapes) {
  const long = n.table_height - n.top_thickness;
  const from = n.apron_width + n.taper_below;
  const isAllAround = leg === 'tapered on four faces';
  const foot = leg === 'straight' ? n.leg_size : n.leg_foot;
  const side = (z: number): number =>
    z <= from || leg === 'straight'
      ? n.leg_size
      : n.leg_size + ((foot - n.leg_size) * (z - from)) / (long - from);
  // How far a face that tapers leans from one slice to the next.
  const lean = leg === 'straight' ? 0 : (n.leg_size - foot) / (isAllAround ? 2 : 1) / (long - from);
  const slanted = (z: number): number => (z <= from ? 1 : Math.sqrt(1 + lean ** 2));
  const faces = (z: number): number =>
    isAllAround ? 4 * side(z) * slanted(z) : 2 * side(z) * (1 + slanted(z));
  const pieces = (of: (z: number) => number): number =>
    leg === 'straight' ? integral(of, 0, long) : integral(of, 0, from) + integral(of, from, long);
  return {
    wood: pieces((z) => side(z) ** 2),
    faces: pieces(faces),
    angle: (Math.atan(lean) * 180) / Math.PI,
    in: isAllAround ? (n.leg_size - foot) / 2 : 0,
  };
}

/** Wood Handbook chapter 4, with G on the volume at that moisture. */
function pounds(gravity12: number, volume: number, moisture: number): number {
  const share = (m: number) => 0.265 * Math.max(0, (30 - m) / 30);
  const green = gravity12 / (1 + share(12) * gravity12);
  return (volume / 1728) * 62.4 * (green / (1 - share(moisture) * green)) * (1 + moisture / 100);
}

function expectedOf(book: Workbook, shapes: Shapes): Readonly<Record<string, number>> {
  const n = Object.fromEntries(NUMBERS.map((name) => [name, numberIn(book, name)])) as Numbers;
  const top = outlineOf(n, shapes);
  const leg = legOf(n, shapes);
  const { gravity } = WOODS['black walnut'] ?? { gravity: Number.NaN };
  const long = n.top_length - 2 * (n.overhang_end + n.leg_size - n.tenon_length);
  const short = n.top_width - 2 * (n.overhang_side + n.leg_size - n.tenon_length);
  const support = n.top_width - 2 * (n.overhang_side + n.apron_setback + n.apron_thickness);
  const supports = n.support_count * support;
  const wood =
    4 * leg.wood +
    2 * n.apron_thickness * n.apron_width * (long + short) +
    n.support_thickness * n.support_width * supports;
  const faces =
    4 * leg.faces +
    4 * (n.apron_thickness + n.apron_width) * (long + short) +
    2 * (n.support_thickness + n.support_width) * supports;
  const topWeight = pounds(gravity, top.area * n.top_thickness, n.moisture_build);
  const baseWeight = pounds(gravity, wood, n.moisture_build);
  const tips = ([over, size]: readonly [number, number]) => {
    const out = over + leg.in;
    const holds = (topWeight + baseWeight) * (size / 2 - out);
    return { load: holds / out, climb: (n.climb_load * (out + n.climb_out)) / holds };
  };
  const [end, side] = [tips([n.overhang_end, n.top_length]), tips([n.overhang_side, n.top_width])];
  const room = (along: number): number => Math.floor(along / n.per_seat + 1e-9);
  // Half of each arc belongs to each of the two sides that it joins.
  const less = shapes.top === 'rounded corners' ? n.corner_radius * (2 - Math.PI / 2) : 0;
  const seats =
    shapes.top === 'round' || shapes.top === 'oval'
      ? room(top.around)
      : 2 * room(n.top_length - less) + 2 * Math.min(1, room(n.top_width - less));
  return {
    top_face: top.area,
    top_around: top.around,
    corner_overhang: top.past,
    taper_angle: leg.angle,
    foot_in: leg.in,
    leg_volume: leg.wood,
    leg_area: leg.faces,
    seats,
    top_weight: topWeight,
    base_weight: baseWeight,
    area_top: 2 * top.area + n.top_thickness * top.around,
    area_base: faces,
    tip_load_end: end.load,
    tip_load_side: side.load,
    tip_climb: Math.max(end.climb, side.climb),
    hours_shape:
      (shapes.top === 'rectangular' ? 0 : numberIn(book, 'outline_each')) +
      (shapes.leg === 'straight' ? 0 : 4 * numberIn(book, 'taper_each')) +
      (n.tenon_length === 0 ? 0 : 8 * numberIn(book, 'joint_each')),
  };
}

const TOPS: readonly (readonly [word: string, entries: Readonly<Record<string, string>>])[] = [
  ['rectangular', {}],
  ['round', { top_length: '54', top_width: '54', overhang_end: '9', overhang_side: '9' }],
  ['oval', { overhang_end: '14', overhang_side: '7' }],
  ['rounded corners', { corner_radius: '12' }],
];
const LEGS = ['straight', 'tapered on two inside faces', 'tapered on four faces'] as const;
const CHOICES = TOPS.flatMap(([top, entries]) =>
  LEGS.map((leg) => [`${top}, ${leg}`, { top, leg }, entries] as const),
);

/** Exact by definition (NIST SP 811, appendix B). */
const MM = 25.4;

/** Wood and faces of all pieces of a part as they are drawn; in³ and in². */
function drawnOf(book: Workbook, name: string) {
  const pieces = buildScene(readParts(book).parts).pieces.filter(({ part }) => part.name === name);
  let [wood, faces] = [0, 0];
  for (const { solid, from, to } of pieces) {
    const [x, y, z] = [to.x - from.x, to.y - from.y, to.z - from.z];
    const box = { volume: x * y * z, area: 2 * (x * y + y * z + z * x) };
    const { volume, area } = solid === undefined ? box : measured(solid);
    wood += volume / MM ** 3;
    faces += area / MM ** 2;
  }
  return { wood, faces };
}

const shaped = ({ top, leg }: Shapes, entries: Readonly<Record<string, string>>): Workbook =>
  tableWith({ ...entries, top_shape: top, leg_shape: leg });

/**
 * Mortise and tenon by the rules of a woodworking school's handout (after Moxon): a third as thick as the apron, two
 * thirds as wide, the mortise 1/8 in deeper than the tenon is long. 1/4 in at the shoulders and 1/8 in between two
 * mortises are common practice, no source.
 */
function tenonsOf(book: Workbook) {
  const of = (name: string) => numberIn(book, name);
  const [apron, long] = [
    { wide: of('apron_width'), thick: of('apron_thickness') },
    of('tenon_length'),
  ];
  const thick = apron.thick / 3;
  // Marked out with a rule: each shoulder goes up to the next sixteenth.
  const wide = apron.wide - Math.ceil(Math.max(apron.wide / 3, 0.5) * 8 - 1e-6) / 8;
  const cheek = of('apron_setback') + (apron.thick + thick) / 2;
  return {
    thick,
    wide,
    deep: long + 1 / 8,
    longest: of('leg_size') - cheek - 1 / 8 - 1 / 8,
    fromLeg: 2 * thick * wide * (long + 1 / 8),
    fromApron: 2 * long * (apron.thick * apron.wide - thick * wide),
  };
}

const TENONS = ['1/2', '1 3/4'] as const;
/** Each outline but one, and each kind of leg. */
const JOINED = CHOICES.filter((_, index) => index % 4 === 0);

describe('the aprons of the dining table, tenoned by the length of their tenons alone', () => {
  it.each(TENONS)('%s long: mortises and tenons are cut as the handout has them', (tenon) => {
    for (const [, shapes, entries] of JOINED) {
      const book = enterAll(shaped(shapes, entries), { tenon_length: tenon });
      const own = tenonsOf(book);
      const of = (name: string) => numberIn(book, name);
      expect(of('tenon_thickness')).toBeCloseTo(own.thick, 9);
      expect(of('tenon_width')).toBeCloseTo(own.wide, 9);
      expect(of('mortise_depth')).toBeCloseTo(own.deep, 9);
      expect(of('tenon_longest')).toBeCloseTo(own.longest, 9);
      const near = (one: number, other: number) => expect(one / other).toBeCloseTo(1, 3);
      near(drawnOf(book, 'Leg').wood, 4 * (of('leg_volume') - own.fromLeg));
      const section = of('apron_thickness') * of('apron_width');
      near(drawnOf(book, 'Long apron').wood, 2 * (section * of('apron_long') - own.fromApron));
      near(drawnOf(book, 'Short apron').wood, 2 * (section * of('apron_short') - own.fromApron));
      const wood = ['Leg', 'Long apron', 'Short apron', 'Cross support']
        .map((part) => drawnOf(book, part).wood)
        .reduce((sum, one) => sum + one, 0);
      const { gravity } = WOODS['black walnut'] ?? { gravity: Number.NaN };
      near(of('base_weight'), pounds(gravity, wood, of('moisture_build')));
      // What lies in the legs gets no finish.
      const bare = shaped(shapes, entries);
      expect(of('area_base')).toBeCloseTo(numberIn(bare, 'area_base'), 9);
      expect(book.problems()).toEqual([]);
      expect(readParts(book).problems).toEqual([]);
      const { clashes } = drawViews(book, { views: [], format: String, clashes: true });
      expect(clashes).toEqual({ overlaps: [], floating: [] });
      for (const id of ['tenon', 'clash', 'legfit'])
        expect(checkOf(book, id)?.state, id).toBe('pass');
      // Eight joints: a row for the long aprons, and one for the short ones.
      const cuts = [...(readParts(book).joints?.work.cuts.values() ?? [])].flat();
      expect(cuts.filter(({ what }) => what === 'tenon')).toHaveLength(8);
      expect(cuts.filter(({ what }) => what === 'mortise')).toHaveLength(8);
    }
  });

  it('may be as long as the longest, and a hair more is told by check and drawing alike', () => {
    for (const entries of [
      {},
      { apron_thickness: '7/8', apron_setback: '1/8', groove_depth: '1/2', tongue_length: '1/2' },
      { leg_size: '2 1/2', apron_thickness: '1', apron_setback: '1/4' },
      { apron_width: '1', groove_edge: '1/8', groove_width: '1/8' },
      { apron_width: '8', table_height: '40' },
    ]) {
      const book = tableWith(entries);
      const longest = numberIn(book, 'tenon_longest');
      enterAll(book, { tenon_length: `${longest}` });
      expect(checkOf(book, 'tenon')?.state, JSON.stringify(entries)).toBe('pass');
      expect(readParts(book).problems).toEqual([]);
      // Corner to corner there is more between them than straight across: it is told a little later there.
      enterAll(book, { tenon_length: `${longest + 1 / 16}` });
      expect(checkOf(book, 'tenon')?.state).toBe('stop');
      expect(readParts(book).problems.map(({ says }) => says)).toEqual([
        expect.stringMatching(/^In Leg the mortises for Short apron and Long apron/),
      ]);
    }
  });

  it('are not joined so while the tenons have no length', () => {
    const { joints } = readParts(tableWith({}));
    expect(joints?.work.cuts.size).toBe(0);
    expect(joints?.problems).toEqual([]);
  });
});

describe('the dining table, shaped by inputs alone', () => {
  it.each(CHOICES)('%s: every number that follows is what geometry has', (_, shapes, entries) => {
    const book = shaped(shapes, entries);
    for (const [name, value] of Object.entries(expectedOf(book, shapes))) {
      const scale = Math.max(1, Math.abs(value));
      expect(numberIn(book, name) / scale, name).toBeCloseTo(value / scale, 7);
    }
  });

  it.each(CHOICES)('%s: measures what the drawn parts measure', (_, shapes, entries) => {
    const book = shaped(shapes, entries);
    const of = (name: string) => numberIn(book, name);
    const [top, legs] = [drawnOf(book, 'Top'), drawnOf(book, 'Leg')];
    // Facets within a curve are a little less than it.
    const near = (own: number, drawn: number) => expect(own / drawn).toBeCloseTo(1, 3);
    near(of('top_face') * of('top_thickness'), top.wood);
    near(of('area_top'), top.faces);
    near(4 * of('leg_volume'), legs.wood);
    const foot = shapes.leg === 'straight' ? of('leg_size') : of('leg_foot');
    near(4 * (of('leg_area') + of('leg_size') ** 2 + foot ** 2), legs.faces);
  });

  it.each(CHOICES)('%s: is whole in drawing, cut list and plan', (_, shapes, entries) => {
    const book = shaped(shapes, entries);
    expect(book.problems()).toEqual([]);
    expect(book.checks().filter(({ state }) => state === 'stop')).toEqual([]);
    expect(readParts(book).problems).toEqual([]);
    const { clashes } = drawViews(book, { views: [], format: String, clashes: true });
    expect(clashes).toEqual({ overlaps: [], floating: [] });
    expect(shopPlan(book, 'cell').plan?.problems).toEqual([]);
    // Blanks are those of the straight table of that size: shapes are sawn from them.
    const blanks = (of: Workbook) =>
      cutList(readParts(of).parts).items.map(({ name, count, thickness, width, length }) => [
        name,
        count,
        thickness,
        width,
        length,
      ]);
    const plain = tableWith(entries);
    expect(blanks(book)).toEqual(blanks(plain));
    expect(numberIn(book, 'plan_cost')).toBe(numberIn(plain, 'plan_cost'));
  });

  it('stays as it was where nothing is chosen', () => {
    const book = tableWith({});
    expect(readParts(book).parts.filter(({ form }) => form !== undefined)).toEqual([]);
    const other = { corner_radius: '9', leg_foot: '1 1/2', taper_below: '4', outline_each: '5' };
    const price = numberIn(book, 'price');
    enterAll(book, other);
    expect(numberIn(book, 'price')).toBe(price);
    expect(book.checks().filter(({ state }) => state !== 'pass')).toEqual([]);
  });

  it.each([
    ['roundtop', { top_shape: 'round', top_width: '41 3/4' }, '84 in by 41 3/4 in'],
    ['cornerfit', { top_shape: 'rounded corners', corner_radius: '22' }, '22 in radius'],
    ['legsunder', { top_shape: 'oval' }, 'legs stand 5 1/4 in outside the edge of the top'],
    ['legsunder', { top_shape: 'rounded corners', corner_radius: '20' }, '0.248 in outside'],
    ['legsunder', { top_shape: 'rounded corners', corner_radius: '19' }, '0.132 in inside'],
    ['foot', { leg_shape: 'tapered on four faces', leg_foot: '1 1/8' }, 'taper to 1 1/8 in'],
    ['foot', { leg_shape: 'tapered on two inside faces', leg_foot: '3 1/2' }, '3 1/2 in taper'],
    [
      'taper',
      { leg_shape: 'tapered on four faces', table_height: '26', taper_below: '18' },
      '21 1/2 in below the top and is 3 in long',
    ],
  ])('check %s fires with its numbers and clears again: %o', (id, entries, says) => {
    const book = tableWith(entries);
    expect(checkOf(book, id)).toMatchObject({ state: 'stop' });
    expect(checkOf(book, id)?.says).toContain(says);
    while (book.canUndo) book.undo();
    expect(checkOf(book, id)?.state).toBe('pass');
  });

  /** Near the edge, at it, far outside, and with one overhang past the arc of the corner or none. */
  const OUT: readonly Readonly<Record<string, string>>[] = [
    { top_shape: 'oval' },
    { top_shape: 'oval', top_length: '168', top_width: '60' },
    { top_shape: 'oval', overhang_end: '0', overhang_side: '0' },
    { top_shape: 'round', top_length: '54', top_width: '54' },
    {
      top_shape: 'round',
      top_length: '54',
      top_width: '54',
      overhang_end: '8',
      overhang_side: '8',
    },
    { top_shape: 'rounded corners', corner_radius: '20' },
    { top_shape: 'rounded corners', corner_radius: '6', overhang_end: '0', overhang_side: '5' },
    { top_shape: 'rounded corners', corner_radius: '6', overhang_end: '0', overhang_side: '9' },
    { top_shape: 'rounded corners', corner_radius: '1/4', overhang_end: '0', overhang_side: '1/8' },
  ];

  it.each(OUT)('says overhangs that bring the legs under the top: %o', (entries) => {
    const book = tableWith(entries);
    const told = checkOf(book, 'legsunder');
    expect(told?.state).toBe('stop');
    expect(told?.says).not.toMatch(/-\d/);
    // As they are read there, not as the cells hold them.
    const [, end, side] =
      /an overhang of (.*?) in or more at the ends and of (.*?) in or more at/.exec(
        told?.says ?? '',
      ) ?? [];
    const before = numberIn(book, 'overhang_end') + numberIn(book, 'overhang_side');
    enterAll(book, { overhang_end: end ?? '', overhang_side: side ?? '' });
    expect(checkOf(book, 'legsunder')?.state, `${end} and ${side}`).toBe('pass');
    expect(numberIn(book, 'corner_overhang')).toBeGreaterThanOrEqual(1 / 2);
    // Rounded up to 1/8 in, each, but not much further in than needed.
    expect(numberIn(book, 'corner_overhang')).toBeLessThan(1);
    expect(numberIn(book, 'overhang_end') + numberIn(book, 'overhang_side')).toBeGreaterThan(
      before,
    );
  });
});
