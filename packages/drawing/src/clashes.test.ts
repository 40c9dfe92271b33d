import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findClashes } from './clashes.ts';
import { drawViews } from './draw.ts';
import { readParts } from './parts.ts';
import { buildScene, type Piece } from './scene.ts';
import { type Numbers, sceneOf } from './testing/boxes.ts';
import { HEADER, SAMPLE, tableRows } from './testing/dining-table.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';

const format = (mm: number): string => String(Math.round(mm * 100) / 100);
const clashes = (boxes: readonly Numbers[], names: readonly string[] = []) =>
  findClashes(sceneOf(boxes, names), { format });

const LEG: Numbers = [0, 0, 0, 60, 60, 700];

describe('parts that run into each other', () => {
  it('names both and the room they share, smallest first, at the later row', () => {
    const { overlaps } = clashes([LEG, [35, 20, 500, 400, 20, 80]], ['Leg', 'Rail']);
    expect(overlaps).toMatchObject([
      {
        at: { sheet: 's1', row: 2, column: 0 },
        pairs: 1,
        size: { x: 25, y: 20, z: 80 },
        says: 'Rail and Leg share 20 × 25 × 80; that is right for a joint such as a tenon in its mortise, otherwise move one of them.',
      },
    ]);
  });

  it('lets faces touch, also to within a tenth of a millimetre', () => {
    expect(clashes([LEG, [60, 0, 0, 10, 10, 10]]).overlaps).toEqual([]);
    expect(clashes([LEG, [59.95, 0, 0, 10, 10, 10]]).overlaps).toEqual([]);
    expect(clashes([LEG, [59.5, 0, 0, 10, 10, 10]]).overlaps).toHaveLength(1);
    expect(
      findClashes(sceneOf([LEG, [59.5, 0, 0, 10, 10, 10]]), { format, tolerance: 1 }).overlaps,
    ).toEqual([]);
  });

  it('tells each pair of rows once, however many of their pieces meet', () => {
    const rows = [
      ['Post', 3, 50, 50, 700, null, null, 0, 0, 0, 300, 0, 0, 'TWL'],
      ['Shelf', 1, 20, 200, 650, null, null, 0, 0, 300, null, null, null, 'LWT'],
    ];
    const { parts } = readParts(fakeBook([HEADER, ...rows], 'metric'));
    const { overlaps } = findClashes(buildScene(parts), { format });
    expect(overlaps.map(({ says }) => says)).toEqual([
      'Shelf and Post share up to 20 × 50 × 50 in 3 places; that is right for a joint such as a tenon in its mortise, otherwise move one of them.',
    ]);
  });

  it('says that a step is too small, but nothing where copies lie in one place: the scene does', () => {
    const row = (step: number) => ['Slat', 3, 20, 50, 300, null, null, 0, 0, 0, 0, step, 0, 'LWT'];
    const of = (step: number) => {
      const { parts } = readParts(fakeBook([HEADER, row(step)], 'metric'));
      return findClashes(buildScene(parts), { format }).overlaps.map(({ says }) => says);
    };
    expect(of(40)).toEqual([
      'Pieces of Slat share 10 × 20 × 300 in 2 places; make the step from one to the next larger.',
    ]);
    expect(of(50)).toEqual([]);
    expect(of(0)).toEqual([]);
  });
});

describe('a top within legs that stand at its corners', () => {
  const NAMES = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Place', 'X', 'Y', 'Z'];
  const leg = ['Leg', 4, 50, 50, 400, 'four corners of Seat', 30, 20, null];
  const of = (seat: readonly (string | number | null)[], ...others: (typeof leg)[]) => {
    const { parts } = readParts(
      fakeBook([NAMES, ['Seat', 1, 30, 300, 1000, ...seat], leg, ...others], 'metric'),
    );
    return findClashes(buildScene(parts), { format });
  };

  it('is told that it lies on the floor, and stands on them once that is done', () => {
    expect(of([null, 0, 0, 0]).overlaps.map(({ says }) => says)).toEqual([
      'Leg and Seat share up to 30 × 50 × 50 in 4 places. Seat lies on the floor: write "on Leg" as its place, or its height under z.',
    ]);
    for (const done of [
      ['on Leg', 0, 0, 0],
      ['on Leg', null, null, null],
      [null, 0, 0, 400],
    ]) {
      expect(of(done)).toEqual({ overlaps: [], floating: [] });
    }
  });

  it('is not told of what else stands on the floor with them, such as a rail in its mortises', () => {
    const rail = ['Rail', 2, 20, 60, 850, 'between Leg along, front and back', null, 35, null];
    const { overlaps } = of(['on Leg', null, null, null], rail);
    expect(overlaps).toHaveLength(1);
    expect(overlaps[0]?.says).toContain('that is right for a joint such as a tenon');
  });
});

describe('parts that float', () => {
  it('are those that reach neither the floor nor anything that stands on it', () => {
    const { floating } = clashes(
      [LEG, [0, 0, 700, 300, 300, 20], [500, 0, 300, 10, 10, 10]],
      ['Leg', 'Top', 'Shelf'],
    );
    expect(floating.map(({ at, says }) => [at.row, says])).toEqual([
      [3, 'Shelf touches neither the floor nor another part; check its x, y and z.'],
    ]);
  });

  it('are told together when they hang together', () => {
    const up: Numbers[] = [
      [0, 0, 750, 300, 300, 20],
      [0, 0, 770, 20, 300, 20],
    ];
    expect(clashes([LEG, ...up], ['Leg', 'Top', 'Cleat']).floating.map(({ says }) => says)).toEqual(
      ['Top and Cleat touch neither the floor nor the rest; check x, y and z.'],
    );
  });

  it('take a face to hold: an edge or a corner is not enough', () => {
    const block: Numbers = [0, 0, 0, 10, 10, 10];
    expect(clashes([block, [10, 0, 5, 10, 10, 10]]).floating).toEqual([]);
    expect(clashes([block, [10, 0, 10, 10, 10, 10]]).floating).toHaveLength(1);
    expect(clashes([block, [10, 10, 10, 10, 10, 10]]).floating).toHaveLength(1);
  });

  it('stand on the lowest place there is, as a cabinet on a wall has no floor', () => {
    expect(clashes([[0, 0, 1500, 10, 10, 10]]).floating).toEqual([]);
  });
});

describe('a whole table', () => {
  it('has nothing that clashes, until one part is moved', () => {
    const rows = tableRows(SAMPLE).map((cells) => [...cells]);
    const options = { views: [], format, clashes: true } as const;
    expect(drawViews(fakeBook([HEADER, ...rows]), options).clashes).toEqual({
      overlaps: [],
      floating: [],
    });
    const top = rows[0] ?? [];
    top[9] = 40;
    const { floating } = drawViews(fakeBook([HEADER, ...rows]), options).clashes ?? {};
    expect(floating?.map(({ at }) => at.row)).toEqual([1]);
  });

  it('is checked against asking every pair, for random boxes', () => {
    const spot = fc.integer({ min: 0, max: 15 });
    const side = fc.integer({ min: 1, max: 6 });
    fc.assert(
      fc.property(fc.array(fc.tuple(spot, spot, spot, side, side, side)), (numbers) => {
        const { pieces } = sceneOf(numbers);
        const expected: string[] = [];
        pieces.forEach((a, i) => {
          pieces.slice(i + 1).forEach((b) => {
            if (AXES.every((k) => sharedAlong(a, b, k) > 0) && !same(a, b)) {
              expected.push(`${a.part.at.row} ${b.part.at.row}`);
            }
          });
        });
        const found = clashes(numbers).overlaps;
        expect(found.map(({ part, other }) => `${other.at.row} ${part.at.row}`).sort()).toEqual(
          expected.sort(),
        );
      }),
    );
  });
});

const AXES = ['x', 'y', 'z'] as const;
const sharedAlong = (a: Piece, b: Piece, axis: 'x' | 'y' | 'z'): number =>
  Math.min(a.to[axis], b.to[axis]) - Math.max(a.from[axis], b.from[axis]);
const same = (a: Piece, b: Piece): boolean => a.part === b.part;

describe('shaped pieces', () => {
  const disc = (part: string, at: number): Fake[] => [part, 1, 1, 36, 36, at, at, 0, 'round'];
  const clashesOf = (...rows: Fake[][]) => {
    const heads = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'shape'];
    const { parts, problems } = readParts(fakeBook([heads, ...rows]));
    expect(problems).toEqual([]);
    return findClashes(buildScene(parts), { format: (mm) => `${Math.round(mm / 2.54) / 10}` });
  };

  it('run into each other by what they are, not by the boxes around them', () => {
    // Disks of 36 in whose middles are 50 and 35 apart.
    expect(clashesOf(disc('A', 0), disc('B', 50 / Math.SQRT2)).overlaps).toEqual([]);
    const [overlap] = clashesOf(disc('A', 0), disc('B', 35 / Math.SQRT2)).overlaps;
    expect(overlap?.says).toMatch(/^B and A share 1 × /);
  });
});
