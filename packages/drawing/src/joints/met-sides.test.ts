import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import { buildScene } from '../scene.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { metSides } from './met-sides.ts';

const HEADS = [
  ...['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'turn'],
  'step x',
];

/** An invented table: aprons 15 in from the legs' outsides, and two supports between the long ones. */
const TABLE: Fake[][] = [
  HEADS,
  ['Top', 1, 30, 800, 1600, null, 0, 0, 700, 'LWT'],
  ['Leg', 4, 80, 80, 700, 'four corners of Top', 100, 100, null, null],
  ['Long apron', 2, 30, 90, 1240, 'between Leg along, front and back, under Top', null, 15],
  ['Support', 2, 40, 60, 510, null, 567, 145, 640, 'TLW', 426],
];

/** Line by line, in whole millimetres: which pieces, on what, which part, and where. */
function told(parts: readonly (readonly Fake[])[], joints: readonly (readonly Fake[])[] = []) {
  const book = joinedBook(parts, [[...JOINT_COLUMNS], ...joints], 'metric');
  const read = readParts(book);
  expect(read.problems).toEqual([]);
  return metSides(buildScene(read.parts).pieces, read.joints?.work).flatMap((pieces) =>
    pieces.told.map(({ part, on, along, across }) => {
      const marks = [along, across].map((mark) =>
        mark === undefined
          ? 'whole'
          : `${Math.round(mark.from)} to ${Math.round(mark.to)} from the ${mark.reference}`,
      );
      return [`${pieces.part} ${pieces.copies.join(' ')}`, on, part, ...marks].join(', ');
    }),
  );
}

describe('where ends meet the sides of others', () => {
  it('is measured from one end and the outside of the piece that is met, and told once for pieces alike', () => {
    const lines = told(TABLE);
    expect(lines.slice(0, 2)).toEqual([
      'Leg 0, right face, Long apron, 0 to 90 from the top end, 15 to 45 from the front face',
      'Leg 1, right face, Long apron, 0 to 90 from the top end, 15 to 45 from the back face',
    ]);
    // The aprons begin at 180, and the supports at 567; both aprons are alike, and flush with them at their tops.
    expect(lines.filter((line) => line.startsWith('Long apron'))).toEqual([
      'Long apron 0 1, inside face, Support, 387 to 427 from the left end, 0 to 60 from the top edge',
      'Long apron 0 1, inside face, Support, 813 to 853 from the left end, 0 to 60 from the top edge',
    ]);
    expect(lines).toHaveLength(6);
  });

  it('is not told of what a joint marks out on that piece', () => {
    const tenon: Fake[] = ['mortise and tenon', 'Long apron', 'Leg', null, 10, 60, null, 45];
    const longer = TABLE.map((row) => (row[0] === 'Long apron' ? row.with(4, 1320) : row));
    const lines = told(longer, [tenon]);
    expect(lines.filter((line) => line.startsWith('Leg'))).toEqual([]);
    expect(lines.filter((line) => line.includes('Support'))).toHaveLength(2);
    // Pocket holes are drilled into the apron alone: its place on the leg stays to be marked.
    expect(told(TABLE, [['pocket holes', 'Long apron', 'Leg']])).toEqual(told(TABLE));
  });

  it('goes by the whole width where the end is as wide, and leaves out a corner and what lies under the top', () => {
    const box: Fake[][] = [
      HEADS,
      ['Side', 2, 20, 300, 700, null, 0, 0, 0, 'TWL', 580],
      ['Shelf', 1, 20, 300, 560, null, 20, 0, 300, 'LWT'],
      ['Bottom', 1, 20, 300, 560, null, 20, 0, 0, 'LWT'],
      ['Divider', 1, 20, 300, 280, null, 200, 0, 20, 'TWL'],
      ['Lid', 1, 20, 300, 600, null, 0, 0, 700, 'LWT'],
    ];
    expect(told(box)).toEqual([
      'Side 0 1, inside face, Shelf, 380 to 400 from the top end, whole',
      'Shelf 0, bottom face, Divider, 180 to 200 from the left end, whole',
      'Bottom 0, top face, Divider, 180 to 200 from the left end, whole',
    ]);
  });

  it('is not told of a panel that sits in a groove, nor of pieces that only stand beside each other', () => {
    const frame: Fake[][] = [
      HEADS,
      ['Rail', 1, 20, 60, 400, null, 0, 0, 0, 'LTW'],
      ['Panel', 1, 8, 380, 300, null, 10, 4, 52, 'WTL'],
    ];
    expect(told(frame)).toEqual([
      'Rail 0, top edge, Panel, 10 to 390 from the left end, 8 to 16 from the back face',
    ]);
    expect(told(frame, [['groove', 'Rail', null, 'top', 8, null, null, 8]])).toEqual([]);
    expect(told([...frame.slice(0, 2), ['Panel', 1, 8, 380, 300, null, 10, 4, 62, 'WTL']])).toEqual(
      [],
    );
  });
});
