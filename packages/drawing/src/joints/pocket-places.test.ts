import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import { buildScene } from '../scene.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { clearOfGroove, type PocketScrews, pocketPlaces } from './pocket-places.ts';

/** An invented table: two aprons between legs, and two supports between the aprons. */
const TABLE: Fake[][] = [
  ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'turn', 'step x'],
  ['Top', 1, 30, 800, 1600, null, 0, 0, 700, 'LWT'],
  ['Leg', 4, 80, 80, 700, 'four corners of Top', 100, 100, null, null],
  ['Long apron', 2, 30, 90, 1240, 'between Leg along, front and back, under Top', null, 15],
  ['Support', 2, 40, 60, 510, null, 567, 145, 640, 'TLW', 426],
];

const LENGTH = 50;

function placesOf(
  joints: readonly (readonly Fake[])[],
  parts = TABLE,
  fromEdge?: PocketScrews['fromEdge'],
) {
  const read = readParts(joinedBook(parts, [[...JOINT_COLUMNS], ...joints], 'metric'));
  expect(read.problems).toEqual([]);
  const { count, marked } = pocketPlaces(buildScene(read.parts).pieces, read.joints?.work, {
    each: 2,
    length: LENGTH,
    format: String,
    units: 'metric',
    ...(fromEdge === undefined ? {} : { fromEdge }),
  });
  const lines = marked.flatMap(({ part, copies, cuts }) =>
    cuts.map(({ what, on, marks: [along, across] }) =>
      [
        `${part} ${copies.join(' ')}`,
        what,
        on,
        `${along?.from === 0 ? 'near' : 'far'} from the ${along?.reference}`,
        `${((across?.from ?? 0) + (across?.to ?? 0)) / 2} from the ${across?.reference}`,
      ].join(', '),
    ),
  );
  return { count, lines };
}

describe('places of pocket screws', () => {
  it('are set out over every end that stands against a side, as rows of the joints table are', () => {
    const { count, lines } = placesOf([]);
    // Two in both ends of two aprons and of two supports.
    expect(count).toBe(16);
    // A quarter of the width from either edge: of 90 that is 22.5, of 60 it is 15.
    expect(lines.filter((line) => line.startsWith('Long apron 0'))).toEqual([
      'Long apron 0 1, pocket hole for Leg, inside face, near from the left end, 67.5 from the top edge',
      'Long apron 0 1, pocket hole for Leg, inside face, near from the left end, 22.5 from the top edge',
      'Long apron 0 1, pocket hole for Leg, inside face, far from the left end, 67.5 from the top edge',
      'Long apron 0 1, pocket hole for Leg, inside face, far from the left end, 22.5 from the top edge',
    ]);
    const supports = lines.filter((line) => line.startsWith('Support'));
    expect(supports).toHaveLength(4);
    // From above, like those of the aprons, although no part that stands up tells where they are measured from.
    for (const line of supports) {
      expect(line).toMatch(/hole for Long apron, inside face, .*, (15|45) from the top edge$/);
    }
    // The same as the rows that say so.
    const rows: Fake[][] = [
      ['pocket holes', 'Long apron', 'Leg', null, null, null, LENGTH],
      ['pocket holes', 'Support', 'Long apron', null, null, null, LENGTH],
    ];
    for (const row of rows) row[11] = 2;
    expect(placesOf(rows)).toEqual({ count: 16, lines });
  });

  it('are not of ends that a joint holds', () => {
    const longer = TABLE.map((row) => (row[0] === 'Long apron' ? row.with(4, 1320) : row));
    const tenon: Fake[] = ['mortise and tenon', 'Long apron', 'Leg', null, 10, 60, null, 45];
    const { count, lines } = placesOf([tenon], longer);
    expect(count).toBe(8);
    expect(lines.every((line) => line.startsWith('Support'))).toBe(true);
  });

  it('stay clear of the groove that buttons slide in, where the apron has room', () => {
    const book = (kind: string, edge: number) =>
      clearOfGroove({
        units: 'metric',
        named: (name) => {
          const numbers: Record<string, number> = { groove_edge: edge, groove_width: 10 };
          const number = numbers[name];
          const value =
            number === undefined ? { kind: 'text', text: kind } : { kind: 'number', number };
          return { value } as ReturnType<Parameters<typeof clearOfGroove>[0]['named']>;
        },
      });
    const middles = (kind: string, edge: number, name: string) =>
      placesOf([], TABLE, book(kind, edge)).lines.flatMap((line) =>
        line.startsWith(name) ? [Number(/([\d.]+) from the top edge/.exec(line)?.[1])] : [],
      );
    // The groove ends 23 from the edge: a pocket of 9.5 has its middle 4.8 and a little wood further in.
    const apron = middles('button', 13, 'Long apron 0');
    expect(Math.min(...apron)).toBeCloseTo(23 + 9.525 / 2 + 1.5, 6);
    expect(Math.max(...apron)).toBeCloseTo(90 - 23 - 9.525 / 2 - 1.5, 6);
    // Without a groove, or where one leaves no room, they stand as is usual; supports have none.
    expect(Math.min(...middles('figure-8', 13, 'Long apron 0'))).toBe(22.5);
    expect(Math.min(...middles('button', 40, 'Long apron 0'))).toBe(22.5);
    expect(Math.min(...middles('button', 13, 'Support 0'))).toBe(15);
  });

  it('hold a single support in the very middle too, of which no face looks inward', () => {
    const [head, top, leg, apron] = TABLE;
    const alone = ['Support', 1, 40, 60, 510, null, 780, 145, 640, 'TLW', null];
    const parts = [head, top, leg, apron, alone].flatMap((row) => (row === undefined ? [] : [row]));
    const { count, lines } = placesOf([], parts);
    // Two in both ends of two aprons and of the support.
    expect(count).toBe(12);
    expect(lines.filter((line) => line.startsWith('Support'))).toHaveLength(4);
  });
});
