import {
  type ArgumentDescription,
  type Block,
  blockMeetings,
  Fault,
  type FunctionDescription,
  looseBlocks,
  shareRoom,
  type TableArgument,
  type TableRow,
} from '@kerfbook/wood';

const SIZES = ['thickness', 'width', 'length'] as const;
const PLACE = ['x', 'y', 'z'] as const;
const STEPS = ['step x', 'step y', 'step z'] as const;

const PARTS: ArgumentDescription = {
  name: 'parts_table',
  means: 'the parts table with its heads, x, y and z among them',
  takes: 'table',
  quantity: 'text',
  columns: [
    { heads: 'part', quantity: 'text', needed: true },
    { heads: 'count', quantity: 'count' },
    ...SIZES.map((heads) => ({ heads, quantity: 'length', needed: true }) as const),
    ...PLACE.map((heads) => ({ heads, quantity: 'length', needed: true }) as const),
    ...STEPS.map((heads) => ({ heads, quantity: 'length' }) as const),
    { heads: 'turn', quantity: 'text' },
  ],
};

/** A tenth of a millimetre, as in the drawing: finer than a saw is set. Common practice, no source. */
const TOLERANCE = 0.1;
const MM_PER_INCH = 25.4;
/** As many as are drawn. */
const MOST_PIECES = 1000;

/** Whole nanometres, so that faces that meet are equal however their places were worked out. */
const mm = (inches: number): number => Math.round(inches * MM_PER_INCH * 1e6) / 1e6;

function refuse(got: string | number, takes: string, hint?: string): never {
  throw new Fault({
    class: 'kind',
    argument: PARTS.name,
    got,
    quantity: typeof got === 'number' ? 'count' : 'text',
    takes,
    ...(hint === undefined ? {} : { hint }),
  });
}

/** A cell of a row in inches; `otherwise` where it is blank. */
function numberAt(row: TableRow, column: string, otherwise: number | undefined): number {
  const value = row[column] ?? otherwise;
  if (typeof value === 'number') return value;
  return refuse(value ?? String(row.part), `rows with a number under ${column}`);
}

const turned = /^(?=.*l)(?=.*w)(?=.*t)[lwt]{3}$/;

/** The sides of a part along x, y and z. */
function sidesOf(row: TableRow): readonly [number, number, number] {
  const sizes = SIZES.map((column) => {
    const size = numberAt(row, column, undefined);
    if (size > 0) return size;
    return refuse(`${size}`, `a ${column} above 0 for ${row.part}`);
  });
  const turn = String(row.turn ?? 'LWT').toLowerCase();
  if (!turned.test(turn)) refuse(turn, 'turns of L, W and T once each, such as LWT');
  const side = (letter: string | undefined): number => sizes['twl'.indexOf(letter ?? '')] ?? 0;
  return [side(turn[0]), side(turn[1]), side(turn[2])];
}

function countOf(row: TableRow, heads: readonly string[]): number {
  if (!heads.includes('count')) return 1;
  const count = numberAt(row, 'count', undefined);
  if (Number.isSafeInteger(count) && count >= 0) return count;
  return refuse(count, `whole numbers of pieces, 0 or more, for ${row.part}`);
}

/** The pieces of a table that have a place, mm. A name alone is a heading; a part without a place lies in no drawing. */
function blocksOf({ rows, heads }: TableArgument): Block[] {
  const blocks: Block[] = [];
  for (const row of rows) {
    if (row.part !== undefined && Object.keys(row).length === 1) continue;
    if (PLACE.every((column) => row[column] === undefined)) continue;
    const count = countOf(row, heads);
    if (count === 0) continue;
    if (blocks.length + count > MOST_PIECES) {
      refuse(blocks.length + count, `${MOST_PIECES} pieces or fewer`);
    }
    const sides = sidesOf(row);
    const from = PLACE.map((column) => numberAt(row, column, 0));
    const step = STEPS.map((column) => numberAt(row, column, 0));
    for (let copy = 0; copy < count; copy += 1) {
      const low = (axis: 0 | 1 | 2): number => mm((from[axis] ?? 0) + copy * (step[axis] ?? 0));
      const high = (axis: 0 | 1 | 2): number =>
        mm((from[axis] ?? 0) + copy * (step[axis] ?? 0) + sides[axis]);
      blocks.push({ low: [low(0), low(1), low(2)], high: [high(0), high(1), high(2)] });
    }
  }
  return blocks;
}

const SOURCE = 'geometry, no source';
/** Each pair that stands side by side is looked at. */
const LOOKED_AT = { steps: 2_000 } as const;
const NOTES =
  'Columns are known by their heads, as in the parts sheet. Up to 0.1 mm counts as touching; parts without x, y and z are passed over.';
const EXAMPLE = (name: string, last: string): string =>
  `=${name}({"part","count","thickness","width","length","x","y","z";"Shelf",1,1,10,30,0,0,10;"Side",1,1,10,20,${last})`;

/** Functions that hold the parts of a table against one another, as the drawing does. */
export const PARTS_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PARTS_OVERLAPS',
    task: 'Base',
    ...LOOKED_AT,
    answers: 'How many pairs of pieces of a parts table take up the same room.',
    args: [PARTS],
    result: { quantity: 'count', means: 'pairs; a tenon in its mortise is one' },
    source: SOURCE,
    example: EXAMPLE('PARTS_OVERLAPS', '5,0,10.5}'),
    notes: `${NOTES} Compare it with the joints that are let in.`,
    run: (parts: TableArgument) => {
      const meetings = blockMeetings(blocksOf(parts), 0);
      return meetings.filter((meeting) => shareRoom(meeting, TOLERANCE)).length;
    },
  },
  {
    name: 'PARTS_LOOSE',
    task: 'Base',
    ...LOOKED_AT,
    answers:
      'How many pieces of a parts table touch neither the floor nor anything that stands on it.',
    args: [PARTS],
    result: { quantity: 'count', means: 'pieces that nothing holds' },
    source: SOURCE,
    example: EXAMPLE('PARTS_LOOSE', '40,0,30}'),
    notes: `${NOTES} An edge or a corner in common holds nothing.`,
    run: (parts: TableArgument) => {
      const blocks = blocksOf(parts);
      const meetings = blockMeetings(blocks, TOLERANCE);
      return looseBlocks(blocks, meetings, TOLERANCE).reduce((sum, one) => sum + one.length, 0);
    },
  },
];
