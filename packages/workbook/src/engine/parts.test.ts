import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';

type Row = readonly (string | number | null)[];

const HEADS: Row = 'part,count,thickness,width,length,x,y,z,step x,step y,step z,turn'.split(',');

/** What a function of ours says of these rows under the usual heads. */
function ask(name: string, rows: readonly Row[], units: 'us' | 'metric' = 'us') {
  const book = bookOf({ units, sheets: { Parts: [HEADS, ...rows] } });
  const result = book.evaluate(`=${name}(A1:L${rows.length + 1})`, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
}

const box = (name: string, at: readonly number[], size: readonly number[]): Row => {
  const [x = 0, y = 0, z = 0] = at;
  const [alongX = 0, alongY = 0, alongZ = 0] = size;
  // LWT: length along x, width along y, thickness along z
  return [name, 1, alongZ, alongY, alongX, x, y, z, null, null, null, null];
};

const LEG = box('Leg', [0, 0, 0], [2, 2, 28]);

describe('PARTS_OVERLAPS', () => {
  it('counts pairs that take up the same room, not those that touch', () => {
    expect(ask('PARTS_OVERLAPS', [LEG, box('Rail', [2, 0, 20], [30, 1, 4])])).toBe(0);
    expect(ask('PARTS_OVERLAPS', [LEG, box('Rail', [1, 0, 20], [30, 1, 4])])).toBe(1);
  });

  it('counts every copy, and copies that lie in one place', () => {
    const legs: Row = ['Leg', 4, 2, 2, 28, 0, 0, 0, 10, 0, 0, 'WTL'];
    expect(ask('PARTS_OVERLAPS', [legs])).toBe(0);
    expect(ask('PARTS_OVERLAPS', [legs, box('Rail', [0, 0, 10], [32, 1, 2])])).toBe(4);
    expect(ask('PARTS_OVERLAPS', [['Leg', 3, 2, 2, 28, 0, 0, 0, 0, 0, 0, 'WTL']])).toBe(3);
  });

  it('turns pieces as their rows say', () => {
    // A rail 30 long along y meets a post at y = 29; along x it does not.
    const post = box('Post', [0, 29, 0], [1, 1, 9]);
    const rail = (turn: string): Row => ['Rail', 1, 1, 2, 30, 0, 0, 3, 0, 0, 0, turn];
    expect(ask('PARTS_OVERLAPS', [post, rail('TLW')])).toBe(1);
    expect(ask('PARTS_OVERLAPS', [post, rail('LTW')])).toBe(0);
  });

  it('passes over headings, parts without a place and rows of which none are wanted', () => {
    const rows: readonly Row[] = [
      ['Legs', ...Array.from({ length: 11 }, () => null)],
      LEG,
      ['Screw', 8, 1, 1, 2, null, null, null, null, null, null, null],
      ['Spare', 0, 2, 2, 28, 0, 0, 0, null, null, null, null],
    ];
    expect(ask('PARTS_OVERLAPS', rows)).toBe(0);
  });

  it('J7 places others by a row that counts 0, which takes up no room itself', () => {
    const heads: Row = [...HEADS.slice(0, 5), 'place'];
    const count = (top: number, length: number | string | null, leg: number): unknown => {
      const rows: Row[] = [
        ['Top', top, 2, 40, length, 'flat'],
        ['Plate', 1, 1, 40, 80, null],
        ['Leg', leg, 3, 3, 28, 'four corners of Top'],
      ];
      const placed: Row[] = [
        [...heads, 'x', 'y', 'z'],
        ...rows.map((one, i): Row => [...one, ...(i === 2 ? [null, null, null] : [0, 0, 10])]),
      ];
      const book = bookOf({ sheets: { Parts: placed } });
      const result = book.evaluate('=PARTS_OVERLAPS(A1:I4)', 's1');
      return result.kind === 'number' ? result.number : result.kind;
    };
    // Four legs go through a plate that lies at 10; a top there would take up the plate's own room.
    expect([count(0, 80, 4), count(1, 80, 4)]).toEqual([4, 9]);
    // A row that is not made and says too little troubles nobody who does not go by it.
    expect([count(0, null, 0), count(0, null, 4)]).toEqual([0, 'error']);
  });

  it('finds the same in millimetres', () => {
    const rows = (by: number): readonly Row[] => [
      box(
        'A',
        [0, 0, 0],
        [10, 10, 10].map((side) => side * by),
      ),
      box(
        'B',
        [9 * by, 0, 0],
        [10, 10, 10].map((side) => side * by),
      ),
    ];
    expect(ask('PARTS_OVERLAPS', rows(1))).toBe(1);
    expect(ask('PARTS_OVERLAPS', rows(25.4), 'metric')).toBe(1);
  });

  it('says which row it cannot read', () => {
    expect(ask('PARTS_OVERLAPS', [['Leg', 1, 0, 2, 28, 0, 0, 0, 0, 0, 0, 'WTL']])).toMatch(
      /^#VALUE! parts_table .*a thickness above 0 for Leg/,
    );
    expect(ask('PARTS_OVERLAPS', [['Leg', 1, 2, 2, 28, 0, 0, 0, 0, 0, 0, 'WTX']])).toMatch(
      /^#VALUE! parts_table .*L, W and T once each/,
    );
    expect(ask('PARTS_OVERLAPS', [['Leg', 2.5, 2, 2, 28, 0, 0, 0, 0, 0, 0, 'WTL']])).toMatch(
      /^#VALUE! parts_table .*whole numbers of pieces/,
    );
    expect(ask('PARTS_OVERLAPS', [['Leg', 5000, 2, 2, 28, 0, 0, 0, 1, 0, 0, 'WTL']])).toMatch(
      /^#VALUE! parts_table .*1000 pieces or fewer/,
    );
  });

  it('says where a place that cannot be found began, and not what rests on it', () => {
    const heads = HEADS.map((head) => (head === 'turn' ? 'place' : head));
    const nowhere = Array.from({ length: 6 }, () => null);
    const rows: readonly Row[] = [
      heads,
      ['Rail', 1, 1, 1, 30, ...nowhere, 'on Post'],
      ['Post', 1, 2, 2, 28, ...nowhere, 'four corners of Foot'],
      ['Foot', 1, 2, 9, 40, 0, 0, 0, null, null, null, null],
    ];
    const book = bookOf({ sheets: { Parts: rows } });
    expect(book.evaluate('=PARTS_OVERLAPS(A1:L4)', 's1')).toMatchObject({
      kind: 'error',
      error: { says: expect.stringContaining('The place of Post is for 4 pieces') },
    });
  });

  it('finds what asking every pair finds, for random boxes', () => {
    const spot = fc.integer({ min: 0, max: 9 });
    const side = fc.integer({ min: 1, max: 5 });
    const boxes = fc.array(fc.tuple(spot, spot, spot, side, side, side), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(boxes, (numbers) => {
        let pairs = 0;
        for (const [i, a] of numbers.entries()) {
          for (const b of numbers.slice(i + 1)) {
            const apart = [0, 1, 2].some((axis) => {
              const [lowA = 0, lowB = 0] = [a[axis], b[axis]];
              return lowA + (a[axis + 3] ?? 0) <= lowB || lowB + (b[axis + 3] ?? 0) <= lowA;
            });
            if (!apart) pairs += 1;
          }
        }
        const rows = numbers.map((one) => box('Box', one.slice(0, 3), one.slice(3)));
        expect(ask('PARTS_OVERLAPS', rows)).toBe(pairs);
      }),
      { numRuns: 40 },
    );
  });
});

describe('PARTS_LOOSE', () => {
  it('counts pieces that touch neither the floor nor what stands on it', () => {
    const top = box('Top', [0, 0, 28], [30, 20, 1]);
    expect(ask('PARTS_LOOSE', [LEG, top])).toBe(0);
    expect(ask('PARTS_LOOSE', [LEG, box('Top', [0, 0, 29], [30, 20, 1])])).toBe(1);
    const shelf = box('Shelf', [20, 0, 10], [5, 5, 1]);
    expect(ask('PARTS_LOOSE', [LEG, top, shelf, box('Cleat', [20, 0, 11], [5, 1, 1])])).toBe(2);
  });

  it('takes a face to hold', () => {
    const block = box('A', [0, 0, 0], [10, 10, 10]);
    expect(ask('PARTS_LOOSE', [block, box('B', [10, 0, 5], [5, 5, 5])])).toBe(0);
    expect(ask('PARTS_LOOSE', [block, box('B', [10, 0, 10], [5, 5, 5])])).toBe(1);
  });
});
