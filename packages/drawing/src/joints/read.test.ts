import {
  JOINT_COLUMNS,
  JOINT_FORMS,
  type JointsReading,
  MOST_JOINTS,
  readJointWords,
  resolveJoints,
} from '@kerfbook/functions/joints';
import { SHOP_COLUMNS } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import type { PartsSource } from '../parts-source.ts';
import { buildScene } from '../scene.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joined, joinedBook, saidOf } from '../testing/joined.ts';
import { readJoints } from './read.ts';

const PARTS: Fake[][] = [
  ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'],
  ['Leg', 1, 3, 3, 28, 0, 0, 0, 'WTL'],
  ['Rail', 1, 1, 4, 20, 1.5, 1, 23, 'LTW'],
  ['Shelf', 0, 1, 4, 20, 0, 0, 0, 'LWT'],
  ['Panel', 1, 'thin', 4, 20, 0, 0, 0, 'LWT'],
  ['Loose', 1, 1, 4, 20, null, null, null, null],
];
const HEADS: Fake[] = [...JOINT_COLUMNS];
const line = (...cells: Fake[]): Fake[] => HEADS.map((_, i) => cells[i] ?? null);
const readingOf = (book: PartsSource): JointsReading => {
  const reading = readJoints(book, readParts(book));
  if (reading === undefined) throw new Error('no joints table');
  return reading;
};
const read = (...rows: Fake[][]) => {
  const book = joinedBook(PARTS, [HEADS, ...rows]);
  return readingOf(book);
};
const said = (...rows: Fake[][]) => saidOf(joined(joinedBook(PARTS, [HEADS, ...rows])));

describe('the heads of a joints table', () => {
  it('are those that a new one is begun with', () => {
    expect(SHOP_COLUMNS.joints.map(({ heads }) => heads)).toEqual(JOINT_COLUMNS);
  });

  it('are found wherever they stand, and told where one is missing or there twice', () => {
    const book = joinedBook(PARTS, [
      ['Part', 'INTO', ' joint ', 'part'],
      ['Rail', 'Leg', 'tenon', 'x'],
    ]);
    const { joints, problems } = readingOf(book);
    expect(joints).toMatchObject([{ kind: 'mortise and tenon', part: 'Rail', into: 'Leg' }]);
    expect(problems.map(({ says }) => says)).toEqual([
      'The joints table has two columns headed "part"; the first one is used, so rename this one.',
    ]);
    const none = joinedBook(PARTS, [['joint', 'into']]);
    expect(readingOf(none).problems[0]?.says).toMatch(/no column headed "part"/);
  });
});

describe('the words of a joint', () => {
  it.each([
    ['Mortise and Tenon', 'mortise and tenon'],
    ['mortice & tenon joint', 'mortise and tenon'],
    ['blind mortise and tenon', 'mortise and tenon'],
    ['through tenon', 'through mortise and tenon'],
    ['half-lap', 'half lap'],
    ['rebate', 'rabbet'],
    ['housing', 'dado'],
    ['grooves', 'groove'],
    ['dovetail', 'dovetails'],
    ['Pocket screws', 'pocket holes'],
    ['box joint', 'finger joint'],
  ])('%s is %s', (text, kind) => {
    expect(readJointWords(text)).toEqual({ kind });
  });

  it.each([...JOINT_FORMS.map(({ words }) => words)])('%s is read as it is offered', (words) => {
    expect(readJointWords(words)).toEqual({ kind: words });
  });

  it('name a screw behind them', () => {
    expect(readJointWords('screws No. 10')).toEqual({ kind: 'screws', screw: 'No. 10' });
    expect(readJointWords('Screw 4.5 mm')).toEqual({ kind: 'screws', screw: '4.5 mm' });
  });

  it('that are none are told at their cell with the nearest', () => {
    const { joints, problems } = read(line('mortis and tennon', 'Rail', 'Leg'));
    expect(joints).toEqual([]);
    expect(problems).toEqual([
      {
        at: { sheet: 's2', row: 1, column: 0 },
        says: '"mortis and tennon" is no joint. Nearest: "mortise and tenon".',
      },
    ]);
    expect(said(line('glue', 'Rail', 'Leg'))[0]).toMatch(
      /^"glue" is no joint\. It takes words such as/,
    );
  });
});

describe('a row of a joints table', () => {
  it('gives sizes in mm and leaves out what is blank', () => {
    const [joint] = read(line('tenon', 'rail', 'LEG', null, 0.375, 2.5)).joints;
    expect(joint).toMatchObject({ part: 'Rail', into: 'Leg', thickness: expect.closeTo(9.525, 9) });
    expect(joint?.width).toBe(63.5);
    expect(joint).not.toHaveProperty('depth');
  });

  it('says one thing at each cell that cannot be read', () => {
    const { problems } = read(
      line('tenon', 'Rail', 'Leg', null, -1, 'wide', null, null, null, -0.5, null, 2.5),
    );
    expect(problems.map(({ at, says }) => [at.column, says])).toEqual([
      [4, 'The thickness of this mortise and tenon is -1; it takes a size in inches above 0.'],
      [5, 'The width of this mortise and tenon is "wide"; it takes a size in inches above 0.'],
      [
        9,
        'The from edge of this mortise and tenon is -0.5; it takes a distance in inches, 0 or more.',
      ],
      [11, 'The count of this mortise and tenon is 2.5; it takes a whole number from 1 to 200.'],
    ]);
  });

  it('says what is wrong with the parts it names', () => {
    const rows: [Fake[], RegExp | undefined][] = [
      [line('tenon', 'Rial', 'Leg'), /^No part is called "Rial"\. Nearest: "Rail"\.$/],
      [line('tenon', 'Rail', 'Zebra'), /^No part is called "Zebra"\. Type a part as it stands/],
      [
        line('tenon', 'Rail', null),
        /^The mortise and tenon of Rail names no part that it goes into/,
      ],
      [line('tenon', null, 'Leg'), /^The mortise and tenon names no part/],
      [line(null, 'Rail', 'Leg'), /^Row 2 of the joints table names a part and no joint/],
      [line('tenon', 'Rail', 'rail'), /^Rail is joined to itself/],
      [line('tenon', 'Shelf', 'Leg'), /^Of Shelf none are wanted/],
      [line('tenon', 'Loose', 'Leg'), /^Loose has no place yet/],
      // Its own row says what is wrong with it.
      [line('tenon', 'Panel', 'Leg'), undefined],
      [line('hole', 'Rail', 'Leg', 'top'), /^A hole is cut into one part\. Name Rail alone/],
      [line('groove', 'Rail', null), /^The groove in Rail does not say where/],
      [line('rabbet', 'Rail', null, 'top'), /two faces that meet/],
      [line('groove', 'Rail', null, 'upstairs'), /^"upstairs" is no face/],
      [line('hole', 'Rail', null, 'top'), /^The hole in Rail has no size; give it a diameter\.$/],
    ];
    for (const [row, says] of rows) {
      const all = said(row);
      if (says === undefined) expect(all).toEqual([]);
      else expect(all).toEqual([expect.stringMatching(says)]);
    }
  });

  it('with a name and nothing else is a heading, and an empty one is passed over', () => {
    expect(said(line('Base'), line())).toEqual([]);
  });

  it('in error or too many is told, and the rows above it hold', () => {
    expect(said(line({ word: '#DIV/0!' }, 'Rail', 'Leg'))).toEqual([
      'The joint shows #DIV/0!; it takes words.',
    ]);
    const holes = Array.from({ length: 9_999 }, () =>
      line('hole', 'Rail', null, 'top', null, null, null, null, 0.25),
    );
    const book = joinedBook(PARTS, [HEADS, line('tenon', 'Rail', 'Leg'), ...holes]);
    const parts = readParts(book);
    const joints = readJoints(book, parts)?.joints ?? [];
    expect(joints).toHaveLength(10_000);
    const { pieces } = buildScene(parts.parts);
    const { cuts, problems } = resolveJoints(pieces, joints, { format: String, units: 'us' });
    const made = [...cuts.values()].flat().filter(({ what }) => what === 'hole');
    expect(made).toHaveLength(MOST_JOINTS - 1);
    expect(problems).toEqual([
      {
        at: { sheet: 's2', row: MOST_JOINTS + 1, column: 0 },
        says: 'Joints are worked out for up to 2000 places where parts meet; the rows from here on are left out. Name fewer parts in them.',
      },
    ]);
  });
});
