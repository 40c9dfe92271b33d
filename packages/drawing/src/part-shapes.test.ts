import { measured } from '@kerfbook/solids';
import { splayAngle, splayLength } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { readParts } from './parts.ts';
import { buildScene, type Scene } from './scene.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';

const SIZES = ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'] as const;
type Row = Readonly<Record<string, Fake>>;
/** A table with the heads that its rows use, mm. */
const table = (rows: readonly Row[], units: 'us' | 'metric' = 'metric') => {
  const heads = [...new Set([...SIZES, ...rows.flatMap((row) => Object.keys(row))])];
  const cells = rows.map((row) => heads.map((head) => row[head] ?? null));
  return { heads, reading: readParts(fakeBook([heads, ...cells], units)) };
};
const sized = (
  part: string,
  count: number,
  [thickness, width, length]: readonly number[],
): Row => ({
  part,
  count,
  thickness: thickness ?? 0,
  width: width ?? 0,
  length: length ?? 0,
});
const sceneOf = (rows: readonly Row[]): Scene => {
  const { reading } = table(rows);
  expect(reading.problems).toEqual([]);
  return buildScene(reading.parts);
};
const pieces = (scene: Scene, name: string) =>
  scene.pieces.filter(({ part }) => part.name === name);

const SEAT = { ...sized('Seat', 1, [30, 300, 400]), place: 'on Leg' };
const LEGS = {
  ...sized('Leg', 4, [40, 40, 450]),
  place: 'four corners of Seat',
  x: 30,
  y: 30,
  'splay along': 10,
  'splay across': 7,
};

describe('a parts table with shapes', () => {
  it('stands a stool on splayed legs: level on the floor, the seat on their upper ends', () => {
    const scene = sceneOf([SEAT, LEGS]);
    const [seat] = pieces(scene, 'Seat');
    const legs = pieces(scene, 'Leg');
    expect(legs).toHaveLength(4);
    for (const leg of legs) {
      expect(leg.from.z).toBeCloseTo(0, 6);
      expect(leg.to.z).toBeCloseTo(seat?.from.z ?? Number.NaN, 6);
    }
    // The foot goes out from the corner, by tan 10° of the height from its upper end 30 mm in.
    const height = seat?.from.z ?? 0;
    const out = Math.tan((10 * Math.PI) / 180) * height;
    expect(Math.min(...legs.map(({ from }) => from.x))).toBeCloseTo(30 - out, 6);
    // Geometry of a line in space: the corner lines of a leg that is cut level are as long as its middle.
    const lost = 450 - splayLength(height, 10, 7);
    expect(lost).toBeGreaterThan(0);
    expect(lost).toBeLessThan(2 * 40 * Math.tan((splayAngle(10, 7) * Math.PI) / 180));
  });

  it('turns a taper on two inside faces with each leg', () => {
    const scene = sceneOf([
      { ...sized('Top', 1, [25, 600, 900]), place: 'on Leg' },
      {
        ...sized('Leg', 4, [60, 60, 700]),
        place: 'four corners of Top',
        taper: 'two inside faces',
        'taper to': 30,
        'taper from': 100,
      },
    ]);
    const feet = pieces(scene, 'Leg').map(({ solid }) => {
      const there = (solid?.facets ?? [])
        .flatMap(({ points }) => points)
        .filter((point) => Math.abs(point[2]) < 1e-6);
      const span = (axis: 0 | 1) =>
        [Math.min, Math.max].map((of) => Math.round(of(...there.map((point) => point[axis]))));
      return [span(0), span(1)];
    });
    expect(feet).toEqual([
      [
        [0, 30],
        [0, 30],
      ],
      [
        [0, 30],
        [570, 600],
      ],
      [
        [870, 900],
        [0, 30],
      ],
      [
        [870, 900],
        [570, 600],
      ],
    ]);
  });

  it('knows the inside of a single row by the whole where no words say it', () => {
    const { reading } = table([
      { ...sized('Top', 1, [25, 600, 900]), x: 0, y: 0, z: 700 },
      {
        ...sized('Left leg', 1, [60, 60, 700]),
        x: 0,
        y: 0,
        turn: 'WTL',
        taper: 'inside',
        'taper to': 30,
      },
    ]);
    expect(reading.problems).toEqual([]);
    const [leg] = pieces(buildScene(reading.parts), 'Left leg');
    expect(leg?.solid && measured(leg.solid).centroid[0]).toBeLessThan(30);
  });

  it('leaves boxes as they are, without a solid', () => {
    const [plain] = sceneOf([{ ...SEAT, place: null, x: 0, shape: 'box' }]).pieces;
    expect(plain).not.toHaveProperty('solid');
  });

  it('draws a round pedestal table: a round top and foot on a rod', () => {
    const scene = sceneOf([
      {
        ...sized('Top', 1, [25, 900, 900]),
        place: 'on Column',
        shape: 'round',
        edge: 'round-over top',
        'edge size': 6,
      },
      {
        ...sized('Column', 1, [80, 80, 650]),
        place: 'centered on Top, on Foot, upright',
        shape: 'rod',
      },
      { ...sized('Foot', 1, [40, 500, 500]), place: 'centered on Top', shape: 'round' },
    ]);
    expect(scene.extents).toEqual({
      from: { x: 0, y: 0, z: 0 },
      to: { x: 900, y: 900, z: 715 },
    });
    const [column] = pieces(scene, 'Column');
    const volume = column?.solid === undefined ? 0 : measured(column.solid).volume;
    expect(volume / (Math.PI * 40 ** 2 * 650)).toBeCloseTo(1, 2);
  });

  it('says each trouble at its cell, in the units of the workbook, and draws the rest', () => {
    const { heads, reading } = table(
      [
        { ...sized('Top', 1, [1, 20, 30]), x: 0, shape: 'rund', corner: 2 },
        {
          ...sized('Leg', 4, [2, 2, 28]),
          place: 'four corners of Top',
          taper: 'inside',
          'taper to': 2.5,
        },
        {
          ...sized('Rail', 1, [1, 3, 20]),
          place: 'front of Top, on edge along',
          arch: 0,
          edge: 'chamfer',
          'edge size': 4,
        },
        { ...sized('Disk', 1, [1, 20, 30]), x: 0, y: 0, shape: 'round', 'splay along': '10°' },
        { ...sized('Slat', 1, [1, 2, 30]), x: 0, y: 0, ends: 45, 'taper from': 3 },
      ],
      'us',
    );
    const found = reading.problems.map(({ at, says }) => `${at.row} ${heads[at.column]}: ${says}`);
    expect(found).toEqual([
      '1 shape: The shape of Top says "rund", which shapes nothing. Nearest: "round".',
      '3 arch: The rise of the arch of Rail is 0; it takes a size in inches above 0.',
      '4 splay along: The splay along of Disk is "10°"; it takes an angle in degrees.',
      '5 ends: The ends of Slat are 45. It takes level, square, or an angle such as mitered 45 or beveled 10 left.',
      '5 taper from: Slat has a taper from and no taper. Write which faces lean under taper, such as "two inside faces".',
      '2 taper to: Leg: The taper ends at 2 1/2, more than the width of 2; let it end at less.',
      '3 edge size: Rail: The chamfer takes 4 of a face that is only 1 wide there; make it smaller.',
      '4 shape: Disk is round and its width and length differ. Make both alike, or write oval.',
    ]);
    expect(buildScene(reading.parts).pieces).toHaveLength(8);
  });
});
