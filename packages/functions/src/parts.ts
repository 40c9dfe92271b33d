import {
  type ArgumentDescription,
  alongAxes,
  type Block,
  blockMeetings,
  cornerOf,
  Fault,
  type FunctionDescription,
  looseBlocks,
  type PartToPlace,
  placeParts,
  readTurn,
  type Sides,
  shareRoom,
  type TableArgument,
  type TableRow,
  type Turn,
} from '@kerfbook/wood';

const SIZES = ['thickness', 'width', 'length'] as const;
const PLACE = ['x', 'y', 'z'] as const;
const STEPS = ['step x', 'step y', 'step z'] as const;

const PARTS: ArgumentDescription = {
  name: 'parts_table',
  means: 'the parts table with its heads, place or x, y and z among them',
  takes: 'table',
  quantity: 'text',
  columns: [
    { heads: 'part', quantity: 'text', needed: true },
    { heads: 'count', quantity: 'count' },
    ...SIZES.map((heads) => ({ heads, quantity: 'length', needed: true }) as const),
    { heads: 'place', quantity: 'text' },
    ...PLACE.map((heads) => ({ heads, quantity: 'length' }) as const),
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

function sidesOf(row: TableRow): Sides {
  const [thickness, width, length] = SIZES.map((column) => {
    const size = numberAt(row, column, undefined);
    if (size > 0) return size;
    return refuse(`${size}`, `a ${column} above 0 for ${row.part}`);
  });
  if (thickness === undefined || width === undefined || length === undefined) {
    throw new Error('a part has three sides');
  }
  return { thickness, width, length };
}

function turnOf({ turn }: TableRow): Turn | undefined {
  if (turn === undefined) return undefined;
  return readTurn(String(turn)) ?? refuse(turn, 'turns of L, W and T once each, such as LWT');
}

function countOf(row: TableRow, heads: readonly string[]): number {
  if (!heads.includes('count')) return 1;
  const count = numberAt(row, 'count', undefined);
  if (Number.isSafeInteger(count) && count >= 0) return count;
  return refuse(count, `whole numbers of pieces, 0 or more, for ${row.part}`);
}

/** A row with a place, in inches; the names of rows that have none stay known to the others. */
function partOf(row: TableRow, count: number): PartToPlace {
  const [x, y, z] = PLACE.map((column) =>
    row[column] === undefined ? undefined : numberAt(row, column, undefined),
  );
  const [stepX = 0, stepY = 0, stepZ = 0] = STEPS.map((column) => numberAt(row, column, 0));
  const turn = turnOf(row);
  const { part, place } = row;
  return {
    name: String(part ?? ''),
    count,
    ...sidesOf(row),
    ...(place === undefined ? {} : { words: String(place) }),
    numbers: [x, y, z],
    step: [stepX, stepY, stepZ],
    ...(turn === undefined ? {} : { turn }),
  };
}

/** The pieces of a table that have a place, mm. A name alone is a heading; a part without a place lies in no drawing. */
function blocksOf({ rows, heads }: TableArgument): Block[] {
  if (!['place', ...PLACE].some((head) => heads.includes(head))) {
    refuse(heads.join(', '), 'a table with a column headed place, or x, y and z');
  }
  const placed: PartToPlace[] = [];
  const none: string[] = [];
  const nowhere: string[] = [];
  let pieces = 0;
  for (const row of rows) {
    if (row.part !== undefined && Object.keys(row).length === 1) continue;
    if (row.place === undefined && PLACE.every((column) => row[column] === undefined)) {
      nowhere.push(String(row.part ?? ''));
      continue;
    }
    const count = countOf(row, heads);
    if (count === 0) {
      none.push(String(row.part ?? ''));
      continue;
    }
    pieces += count;
    if (pieces > MOST_PIECES) refuse(pieces, `${MOST_PIECES} pieces or fewer`);
    placed.push(partOf(row, count));
  }
  const places = placeParts(placed, { none, unread: [], nowhere });
  const wrong = placed.flatMap(({ words = '' }, index) => {
    const place = places[index];
    return typeof place === 'object' && 'says' in place ? [{ words, ...place }] : [];
  });
  // Where it began says more than what rests on that.
  const [first = wrong[0]] = wrong.filter(({ rests }) => rests !== true);
  if (first !== undefined) refuse(first.words, 'places that can be found', first.says);
  return placed.flatMap((part, index) => {
    const place = places[index];
    if (typeof place !== 'object' || 'says' in place) return [];
    const sides = alongAxes(place.turn, part);
    return Array.from({ length: part.count }, (_, copy): Block => {
      const [x, y, z] = cornerOf(place, copy);
      return {
        low: [mm(x), mm(y), mm(z)],
        high: [mm(x + sides[0]), mm(y + sides[1]), mm(z + sides[2])],
      };
    });
  });
}

const SOURCE = 'geometry, no source';
/** Each pair that stands side by side is looked at. */
const LOOKED_AT = { steps: 2_000 } as const;
const NOTES =
  'Columns are known by their heads, as in the parts sheet. Up to 0.1 mm counts as touching; parts without a place are passed over.';
const EXAMPLE = (name: string, last: string): string =>
  `=${name}({"part","count","thickness","width","length","x","y","z";"Shelf",1,1,10,30,0,0,10;"Side",1,1,10,20,${last})`;

/** Functions that hold the parts of a table against one another, as the drawing does. */
export const PARTS_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PARTS_OVERLAPS',
    task: 'Base',
    ...LOOKED_AT,
    answers: 'How many pairs of pieces in a parts table overlap.',
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
      'How many pieces in a parts table touch neither the floor nor anything that stands on it.',
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
