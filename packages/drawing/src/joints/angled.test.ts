import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { measured, sharedRooms } from '@kerfbook/solids';
import { describe, expect, it } from 'vitest';
import { findClashes } from '../clashes.ts';
import { readParts } from '../parts.ts';
import { buildScene, type Piece } from '../scene.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';

const HEADS: Fake[] = [...JOINT_COLUMNS];
const PARTS: Fake[] = [
  'part',
  'count',
  'thickness',
  'width',
  'length',
  'place',
  'x',
  'y',
  'z',
  'turn',
  'splay along',
  'splay across',
  'ends',
  'shape',
];
const MM = 25.4;
const [ALONG, HEIGHT, SIDE] = [10, 18, 1.5];
const lean = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);

/** Two legs that lean outwards along, 12 apart at their upper ends, and a rail between them. */
function bench(
  rail: { readonly x: number; readonly length: number; readonly cells?: Fake[] },
  joints: Fake[][],
  across = 0,
) {
  const line = (cells: Fake[]): Fake[] => PARTS.map((_, i) => cells[i] ?? null);
  const leg = (name: string, x: number) =>
    line([
      name,
      1,
      SIDE,
      SIDE,
      HEIGHT / Math.cos((ALONG * Math.PI) / 180) + SIDE * lean(ALONG),
      null,
      x,
      0,
      0,
      'WTL',
      ALONG,
      across,
    ]);
  const { x, length, cells = [] } = rail;
  const rows = [
    PARTS,
    leg('Left leg', 0),
    leg('Right leg', 12),
    line(['Rail', 1, 0.75, 2, length, null, x, 0.4, 4, 'LTW', null, null, ...cells]),
  ];
  const reading = readParts(joinedBook(rows, [HEADS, ...joints], 'us'));
  const { pieces } = buildScene(reading.parts);
  return { reading, pieces, says: reading.problems.map(({ says }) => says) };
}

const volumeOf = ({ solid, from, to }: Piece): number =>
  (solid === undefined
    ? (to.x - from.x) * (to.y - from.y) * (to.z - from.z)
    : measured(solid).volume) /
  MM ** 3;

const row = (kind: string, into: string, cells: Record<string, Fake> = {}): Fake[] =>
  HEADS.map((head) => ({ joint: kind, part: 'Rail', into, ...cells })[String(head)] ?? null);

describe('a rail between legs that lean', () => {
  // The upper end of a leg is level, so that it is wider along than its wood; what is below it goes out.
  const top = SIDE / Math.cos((ALONG * Math.PI) / 180);

  it('has shoulders that lie against the leg, and a tenon along itself in a mortise at an angle', () => {
    const plain = bench({ x: -1.5, length: 15.5 }, []);
    const legs = plain.pieces.slice(0, 2);
    const high = Math.max(...legs.map(({ to }) => to.z)) / MM;
    const inner = top - lean(ALONG) * (high - 5);
    // So far the middle of the rail goes into the left leg.
    const reach = inner + 1.5;
    const made = bench({ x: -1.5, length: 15.5 }, [
      row('mortise and tenon', 'Left leg', { thickness: 0.25, width: 1.25 }),
    ]);
    expect(made.says).toEqual([]);
    const [left, , rail] = made.pieces;
    if (left === undefined || rail === undefined || legs[0] === undefined) throw new Error('lost');
    // The shoulder slants evenly about the middle: what goes is as long as it is there.
    expect(volumeOf(rail)).toBeCloseTo(15.5 * 0.75 * 2 - reach * (0.75 * 2 - 0.25 * 1.25), 6);
    const taken = volumeOf(legs[0]) - volumeOf(left);
    // As deep as the tenon, and 1/8 in of glue room.
    expect(taken).toBeCloseTo(0.25 * 1.25 * (reach + 0.125), 6);
    if (left.solid === undefined || rail.solid === undefined) throw new Error('lost');
    expect(sharedRooms(left.solid, rail.solid).volume).toBe(0);
    const [marked] = made.reading.joints?.marked.filter(({ part }) => part === 'Rail') ?? [];
    expect(marked?.cuts.map(({ what }) => what)).toEqual([
      'tenon for Left leg, shoulders off square by 10° across its width',
    ]);
  });

  it('says in one sentence what cannot be', () => {
    const through = bench({ x: -3, length: 17 }, [row('mortise and tenon', 'Left leg')]);
    expect(through.says).toHaveLength(1);
    expect(through.says[0]).toMatch(/^The tenon of Rail is longer than Left leg is thick/);
    const short = bench({ x: 6, length: 3 }, [row('mortise and tenon', 'Left leg')]);
    expect(short.says).toEqual([
      'Rail and Left leg do not touch, so there is nothing to join. Check their places, or name other parts.',
    ]);
    expect(bench({ x: -1.5, length: 15.5 }, [row('dovetails', 'Left leg')]).says).toEqual([
      'Rail and Left leg stand at an angle to each other, where mortise and tenon, dowels and screws are worked out and dovetails is not. Write one of these, or leave the row for the bench.',
    ]);
    const two = row('mortise and tenon', 'Left leg', { count: 2 });
    expect(bench({ x: -1.5, length: 15.5 }, [two]).says).toEqual([
      'Rail goes into Left leg at an angle, where one tenon is worked out. Clear the count, or make it 1.',
    ]);
    const through2 = bench({ x: -3, length: 17 }, [row('through mortise and tenon', 'Left leg')]);
    expect(through2.says).toEqual([]);
  });
});

/** A seat on four legs that lean out along and across, with rails between them in front and behind. */
function stool(joints: Fake[][], rail?: { readonly x: number; readonly y: number }) {
  const rows: Fake[][] = [
    [...PARTS, 'step y'],
    ['Seat', 1, 1, 14, 18, 'on Leg'],
    ['Leg', 4, SIDE, SIDE, HEIGHT, 'four corners of Seat', 1, 1, null, null, 10, 7],
  ];
  if (rail !== undefined) {
    const { x, y } = rail;
    const across = 14 - 0.75 - 2 * y;
    rows.push([
      'Rail',
      2,
      0.75,
      1.5,
      18 - 2 * x,
      null,
      x,
      y,
      6,
      'LTW',
      null,
      null,
      null,
      null,
      across,
    ]);
  }
  const reading = readParts(joinedBook(rows, [HEADS, ...joints], 'us'));
  return {
    reading,
    pieces: buildScene(reading.parts).pieces,
    says: reading.problems.map(({ says }) => says),
  };
}

const round = (mm: number): string => `${mm.toFixed(2)} mm`;

describe('a stool whose legs lean both ways', () => {
  const high =
    Math.max(
      ...stool([])
        .pieces.filter(({ part }) => part.name === 'Leg')
        .map(({ to }) => to.z),
    ) / MM;
  const out = high - 6.75;
  const x = 1 + SIDE - lean(10) * out - 0.9;
  const y = 1 + SIDE / 2 - lean(7) * out - 0.375;

  it('has rails in all four legs: nothing clashes, and mortises take what tenons have', () => {
    const plain = stool([], { x, y });
    expect(
      findClashes({ ...buildScene(plain.reading.parts) }, { format: round }).overlaps,
    ).not.toEqual([]);
    const made = stool([row('mortise and tenon', 'Leg', { thickness: 0.25, width: 1 })], { x, y });
    expect(made.says).toEqual([]);
    expect(findClashes(buildScene(made.reading.parts), { format: round }).overlaps).toEqual([]);
    const taken = (name: string): number[] =>
      made.pieces.flatMap((piece, index) => {
        const before = plain.pieces[index];
        return piece.part.name === name && before !== undefined
          ? [volumeOf(before) - volumeOf(piece)]
          : [];
      });
    const legs = taken('Leg');
    const rails = taken('Rail');
    expect(legs).toHaveLength(4);
    // A slanted shoulder takes as much as a square one through its middle: so far in is each end, on average.
    const reach = (rails[0] ?? 0) / 2 / (0.75 * 1.5 - 0.25);
    for (const rail of rails) expect(rail).toBeCloseTo(rails[0] ?? 0, 6);
    for (const leg of legs) expect(leg).toBeCloseTo(0.25 * (reach + 0.125), 6);
    const [said] =
      made.reading.joints?.marked.flatMap(({ cuts }) => cuts.map(({ what }) => what)) ?? [];
    expect(said).toMatch(/^mortise for Rail/);
    expect(made.reading.joints?.marked.find(({ part }) => part === 'Rail')?.cuts[0]?.what).toMatch(
      /^tenon for Leg, shoulders off square by 9.9° across its width and 0.6° through its thickness$/,
    );
  });

  it('is screwed and doweled where its legs lie flat under the seat', () => {
    const line = (
      kind: string,
      part: string,
      into: string,
      cells: Record<string, Fake> = {},
    ): Fake[] => HEADS.map((head) => ({ joint: kind, part, into, ...cells })[String(head)] ?? null);
    const plain = stool([]);
    const dowels = stool([
      line('dowels', 'Leg', 'Seat', { diameter: 0.375, length: 1.5, count: 2 }),
    ]);
    expect(dowels.says).toEqual([]);
    expect(dowels.reading.joints?.work.hardware).toMatchObject([
      { kind: 'dowel', length: 1.5 * MM, count: 8 },
    ]);
    // Holes for eight dowels, with 1/8 in of glue room, in both: the circle is told by chords.
    const lost = (one: ReturnType<typeof stool>): number =>
      plain.pieces.reduce((sum, piece) => sum + volumeOf(piece), 0) -
      one.pieces.reduce((sum, piece) => sum + volumeOf(piece), 0);
    const holes = 8 * (Math.PI / 4) * 0.375 ** 2 * (1.5 + 0.125);
    expect(lost(dowels) / holes).toBeCloseTo(1, 1);
    const screws = stool([line('screws No. 8', 'Seat', 'Leg', { diameter: 0.125, count: 1 })]);
    expect(screws.says).toEqual([]);
    expect(screws.reading.joints?.work.hardware).toMatchObject([{ kind: 'wood screw', count: 4 }]);
    expect(lost(screws)).toBeGreaterThan(0);
  });
});
