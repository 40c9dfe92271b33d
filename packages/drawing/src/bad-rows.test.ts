import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from './parts.ts';
import { buildScene } from './scene.ts';
import { cutList } from './shop/cut-list.ts';
import type { Fake } from './testing/fake-book.ts';
import { joinedBook } from './testing/joined.ts';

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
  'taper',
  'taper to',
  'arch',
];
const line = (cells: Readonly<Record<string, Fake>>): Fake[] =>
  PARTS.map((head) => cells[String(head)] ?? null);
const joint = (kind: string, part: string, into: string): Fake[] =>
  HEADS.map((head) => ({ joint: kind, part, into })[String(head)] ?? null);
const sized = (part: string, [thickness, width, length]: readonly number[]) => ({
  part,
  count: 1,
  thickness: thickness ?? 0,
  width: width ?? 0,
  length: length ?? 0,
});

/** Each row is wrong in a way of its own, but for the leg and the rail. */
const ROWS: Fake[][] = [
  PARTS,
  line({ ...sized('Leg', [3, 3, 28]), x: 0, y: 0, z: 0, turn: 'WTL' }),
  line({ ...sized('Rail', [1, 4, 20]), x: 1.5, y: 1, z: 23, turn: 'LTW' }),
  line({
    ...sized('Thick taper', [2, 2, 28]),
    x: 50,
    y: 0,
    z: 0,
    turn: 'WTL',
    taper: 'four faces',
    'taper to': 3,
  }),
  line({ ...sized('Steep arch', [1, 4, 20]), x: 60, y: 0, z: 0, turn: 'LTW', arch: 12 }),
  line({ ...sized('One', [1, 4, 20]), place: 'on Other' }),
  line({ ...sized('Other', [1, 4, 20]), place: 'on One' }),
  line({ ...sized('Twice', [1, 4, 20]), place: 'on Leg, under Leg' }),
  line({ ...sized('Longer', [1, 4, 20]), x: -2, y: 1, z: 5, turn: 'LTW' }),
];
const JOINTS: Fake[][] = [
  HEADS,
  joint('mortise and tenon', 'Rail', 'Leg'),
  joint('mortise and tenon', 'Longer', 'Leg'),
  joint('dowels', 'Leg', 'Leg'),
  joint('dowels', 'Rail', 'Thick taper'),
];

describe('rows that cannot be', () => {
  const reading = readParts(joinedBook(ROWS, JOINTS, 'us'));
  const said = (sheet: string, row: number): readonly string[] =>
    reading.problems
      .filter(({ at }) => at.sheet === sheet && at.row === row)
      .map(({ says }) => says);

  it.each([
    [3, /^Thick taper: The taper ends at 3, more than the width of 2; let it end at less\.$/],
    [4, /^Steep arch: The arch rises 12/],
    [5, /^One and Other/],
    [7, /^The place of Twice says twice where it goes up\. Keep one of the two\.$/],
  ] as const)('are told in one sentence each: part in row %d', (row, says) => {
    expect(said('s1', row)).toHaveLength(1);
    expect(said('s1', row)[0]).toMatch(says);
  });

  it.each([
    [2, /^The tenon of Longer is longer than Leg is thick and stands out by 2/],
    [3, /^Leg is joined to itself\./],
    [4, /^Rail and Thick taper do not touch/],
  ] as const)('are told in one sentence each: joint in row %d', (row, says) => {
    expect(said('s2', row)).toHaveLength(1);
    expect(said('s2', row)[0]).toMatch(says);
  });

  it('leave all others as they are: drawn, cut out and joined', () => {
    expect(said('s1', 1).concat(said('s1', 2), said('s2', 1))).toEqual([]);
    const names = buildScene(reading.parts).pieces.map(({ part }) => part.name);
    expect(names).toEqual(['Leg', 'Rail', 'Thick taper', 'Steep arch', 'Longer']);
    expect(cutList(reading.parts).items.map(({ name }) => name)).toEqual(
      ROWS.slice(1).map(([name]) => name),
    );
    const rail = reading.parts.find(({ name }) => name === 'Rail');
    // Of a rail 4 in wide two side by side: a tenon, and the gap between them.
    expect(rail?.cuts?.[0]?.map(({ kind }) => kind)).toEqual(['tenon', 'dado']);
  });
});
