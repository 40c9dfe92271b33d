import type { Solid } from '@kerfbook/solids';
import {
  type ArgumentDescription,
  alongAxes,
  type Block,
  type BlockMeeting,
  blockMeetings,
  cornerOf,
  Fault,
  type FunctionDescription,
  looseBlocks,
  nearHint,
  nearNames,
  type PartToPlace,
  type PlacedPart,
  placeParts,
  readTurn,
  SHAPE_COLUMNS,
  type ShapeCells,
  type ShapeColumn,
  type Sides,
  shareRoom,
  type TableArgument,
  type TableRow,
  type Turn,
} from '@kerfbook/wood';
import { shapedParts } from '#libraries';
import { JOINT_COLUMNS, JOINT_WORD_COLUMNS, type JointColumn } from './joints/columns.ts';
import type { JointNames } from './joints/read.ts';
import type { FormedPart } from './shaped/standing.ts';
import { TOLERANCE } from './shaped/tolerance.ts';

const SIZES = ['thickness', 'width', 'length'] as const;
const PLACE = ['x', 'y', 'z'] as const;
const STEPS = ['step x', 'step y', 'step z'] as const;

const SHAPE_WORDS: readonly ShapeColumn[] = ['shape', 'taper', 'ends', 'edge'];

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
    { heads: 'material', quantity: 'text' },
    ...SHAPE_COLUMNS.map((heads) => ({ heads, quantity: quantityOf(heads) }) as const),
  ],
};

const JOINTS: ArgumentDescription = {
  name: 'joints_table',
  means: 'the joints table with its heads, for what joints cut and hide',
  takes: 'table',
  quantity: 'text',
  optional: true,
  leftOut: 'parts before their joints are cut',
  columns: JOINT_COLUMNS.map((heads) => ({
    heads,
    quantity: quantityOfJoint(heads),
    ...(heads === 'joint' || heads === 'part' ? { needed: true } : {}),
  })),
};

function quantityOfJoint(column: JointColumn): 'text' | 'count' | 'length' {
  if (column === 'count') return 'count';
  return (JOINT_WORD_COLUMNS as readonly string[]).includes(column) ? 'text' : 'length';
}

function quantityOf(column: ShapeColumn): 'text' | 'angle' | 'length' {
  if (column === 'splay along' || column === 'splay across') return 'angle';
  return SHAPE_WORDS.includes(column) ? 'text' : 'length';
}

const MM_PER_INCH = 25.4;
/** As many as are drawn. */
const MOST_PIECES = 1000;

/** Whole nanometres, so that faces that meet are equal however their places were worked out. */
const nano = (length: number): number => Math.round(length * 1e6) / 1e6;
/** Going to inches and back leaves noise in the last digits. */
const mm = (inches: number): number => Math.round(inches * MM_PER_INCH * 1e9) / 1e9;

function refuse(
  got: string | number,
  takes: string,
  hint?: string,
  argument: string = PARTS.name,
): never {
  throw new Fault({
    class: 'kind',
    argument,
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

/** A part of the table, mm. */
interface PartHere extends FormedPart {
  readonly material?: string;
}

/** A row of the table as a part. */
function partOf(row: TableRow, count: number): PartHere {
  const { thickness, width, length } = sidesOf(row);
  const part = {
    name: String(row.part ?? ''),
    count,
    ...(row.material === undefined ? {} : { material: String(row.material) }),
    thickness: mm(thickness),
    width: mm(width),
    length: mm(length),
  };
  if (SHAPE_COLUMNS.every((column) => row[column] === undefined)) return part;
  const { form, lean, wrong } = shapedParts.need().readForm(part.name, shapeCells(row));
  for (const { says } of wrong) refuse(part.name, 'shapes that can be read', says);
  return {
    ...part,
    ...(form === undefined ? {} : { form }),
    ...(lean === undefined ? {} : { lean }),
  };
}

function shapeCells(row: TableRow): ShapeCells {
  const cells = SHAPE_COLUMNS.flatMap((column): (readonly [ShapeColumn, string | number])[] => {
    if (row[column] === undefined) return [];
    if (SHAPE_WORDS.includes(column)) return [[column, String(row[column])]];
    const number = numberAt(row, column, undefined);
    return [[column, quantityOf(column) === 'angle' ? number : mm(number)]];
  });
  return Object.fromEntries(cells) as ShapeCells;
}

const isBox = ({ form, lean }: FormedPart): boolean => form === undefined && lean === undefined;

/** What a row says of its place, mm. */
function placeOf(row: TableRow, part: FormedPart): PartToPlace {
  const [x, y, z] = PLACE.map((column) =>
    row[column] === undefined ? undefined : mm(numberAt(row, column, undefined)),
  );
  const [stepX = 0, stepY = 0, stepZ = 0] = STEPS.map((column) => mm(numberAt(row, column, 0)));
  const turn = turnOf(row);
  const { place } = row;
  return {
    ...part,
    ...(place === undefined ? {} : { words: String(place) }),
    numbers: [x, y, z],
    step: [stepX, stepY, stepZ],
    ...(turn === undefined ? {} : { turn }),
    ...(isBox(part) ? {} : { asksMiddle: true }),
    ...(part.lean === undefined ? {} : { room: (one) => shapedParts.need().roomOf(part, one) }),
  };
}

const nameIn = ({ part }: TableRow): string => String(part ?? '');

const isNowhere = (row: TableRow): boolean =>
  row.place === undefined && PLACE.every((column) => row[column] === undefined);

/** The rows that say a part that is wanted. A name alone is a heading. */
function wantedRows(
  { rows, heads }: TableArgument,
  none: TableRow[],
  isPassedOver: (row: TableRow) => boolean,
): readonly (readonly [row: TableRow, count: number])[] {
  return rows.flatMap((row) => {
    const isHeading = row.part !== undefined && Object.keys(row).length === 1;
    if (isHeading || isPassedOver(row)) return [];
    const count = countOf(row, heads);
    if (count === 0) none.push(row);
    return count === 0 ? [] : [[row, count] as const];
  });
}

/** A row that counts 0, for others to be placed from; undefined where it does not say enough. */
function standInOf(row: TableRow): PartToPlace | undefined {
  try {
    return placeOf(row, partOf(row, 0));
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}

/** A part of the table, and where its pieces are. */
interface PartAt {
  readonly part: PartHere;
  readonly placing: PlacedPart;
}

/** The parts of a table that have a place. A part without one lies in no drawing. */
function placedParts(table: TableArgument): readonly PartAt[] {
  if (!['place', ...PLACE].some((head) => table.heads.includes(head))) {
    refuse(table.heads.join(', '), 'a table with a column headed place, or x, y and z');
  }
  const none: TableRow[] = [];
  const nowhere: string[] = [];
  let pieces = 0;
  const asking = wantedRows(table, none, (row) => {
    if (isNowhere(row)) nowhere.push(nameIn(row));
    return isNowhere(row);
  }).map(([row, count]) => {
    pieces += count;
    if (pieces > MOST_PIECES) refuse(pieces, `${MOST_PIECES} pieces or fewer`);
    const part = partOf(row, count);
    return { part, place: placeOf(row, part) };
  });
  const standIns = none.flatMap((row) => standInOf(row) ?? []);
  const places = placeParts([...asking.map(({ place }) => place), ...standIns], {
    none: none.map(nameIn),
    unread: [],
    nowhere,
  });
  const wrong = asking.flatMap(({ place: { words = '' } }, index) => {
    const place = places[index];
    return typeof place === 'object' && 'says' in place ? [{ words, ...place }] : [];
  });
  // Where it began says more than what rests on that.
  const [first = wrong[0]] = wrong.filter(({ rests }) => rests !== true);
  if (first !== undefined) refuse(first.words, 'places that can be found', first.says);
  return withShapes(
    asking.flatMap(({ part }, index) => {
      const placing = places[index];
      return typeof placing !== 'object' || 'says' in placing ? [] : [{ part, placing }];
    }),
  );
}

/** A parts table as its joints need it. */
export interface PlacedTable {
  /** Parts that are boxes and have a place, each with its row, from 0. */
  readonly placed: readonly {
    readonly row: number;
    readonly part: PartHere & { placing: PlacedPart };
  }[];
  /** Sizes of all rows that say a part, also of those of which none are wanted or that have no place. */
  readonly rows: readonly { readonly row: number; readonly count: number }[];
  /** The names that joints may go by. */
  readonly names: JointNames;
}

/** The rows of a table of boxes; undefined where a part is shaped. */
export function tableOfBoxes(table: TableArgument): PlacedTable | undefined {
  const none: TableRow[] = [];
  const wanted = wantedRows(table, none, () => false);
  if (
    [...wanted.map(([row]) => row), ...none].some((row) =>
      SHAPE_COLUMNS.some((head) => row[head] !== undefined),
    )
  )
    return undefined;
  const at = new Map(table.rows.map((row, index) => [row, index]));
  const asking = wanted.filter(([row]) => !isNowhere(row));
  const placed = placedParts(table);
  return {
    placed: placed.map(({ part, placing }, index) => ({
      row: at.get(asking[index]?.[0] ?? {}) ?? 0,
      part: { ...part, placing },
    })),
    rows: [
      ...wanted.map(([row, count]) => ({ row, count })),
      ...none.map((row) => ({ row, count: 0 })),
    ].map(({ row, count }) => ({ row: at.get(row) ?? 0, count })),
    names: {
      parts: wanted.map(([row]) => ({ name: nameIn(row) })),
      none: none.map(nameIn),
      leftOut: [],
    },
  };
}

/**
 * The parts of a table with what their joints cut and hide, those without a place among them where they are asked for.
 * @param isAsked whether a part is one that is measured
 */
function partsWith(
  table: TableArgument,
  joints: TableArgument | undefined,
  isPlaced: boolean,
  isAsked: (part: FormedPart) => boolean = () => true,
): readonly { readonly part: PartHere; readonly placing?: PlacedPart }[] {
  const none: TableRow[] = [];
  const wanted = wantedRows(table, none, () => false).map(([row, count]) => ({ row, count }));
  const isJoined = joints !== undefined && !joinsNothing(joints);
  if (!isJoined && isPlaced) return placedParts(table);
  if (!isJoined) {
    const alone = wanted.map(({ row, count }) => ({ row, part: partOf(row, count) }));
    // Which faces are inside, only its place tells.
    const asksPlace = ({ row, part }: (typeof alone)[number]): boolean =>
      !isNowhere(row) && isAsked(part) && notMade(part, undefined) !== undefined;
    if (!alone.some(asksPlace)) return alone.map(({ part }) => ({ part }));
  }
  const placed = placedParts(table);
  const loose = wanted.flatMap(({ row, count }) =>
    !isPlaced && isNowhere(row) ? [{ part: partOf(row, count) }] : [],
  );
  if (!isJoined) return [...placed, ...loose];
  const parts = placed.map(({ part, placing }) => ({ ...part, placing }));
  const names = wanted.map(({ row }) => ({ name: nameIn(row) }));
  const { parts: joined, wrong } = shapedParts
    .need()
    .joinedTable(parts, joints, { parts: names, none: none.map(nameIn), leftOut: [] });
  if (wrong !== undefined) {
    refuse(wrong.joint, 'joints that can be made', wrong.says, JOINTS.name);
  }
  return [...joined.map((part) => ({ part, ...placingOf(part) })), ...loose];
}

/** Without a filled row nothing is joined, and what joints take of parts need not have come. */
const joinsNothing = ({ rows }: TableArgument): boolean =>
  rows.every((row) => Object.values(row).every((value) => value === undefined));

const placingOf = ({ placing }: { readonly placing?: PlacedPart }) =>
  placing === undefined ? {} : { placing };

/** Shaped parts know where their inside is; one that cannot be made is refused. */
function withShapes(parts: readonly PartAt[]): readonly PartAt[] {
  if (parts.every(({ part }) => isBox(part))) return parts;
  const all = shapedParts.need().withMiddles(parts, ({ part }) => part);
  for (const { part, placing } of all) checkMade(part, placing);
  return all;
}

/** What cannot be made as it is said is no shape to reckon with. */
function checkMade(part: FormedPart, placing: PlacedPart | undefined): void {
  const says = notMade(part, placing);
  if (says !== undefined) refuse(part.name, 'shapes that can be made', says);
}

/** Why a part cannot be made as it is said; undefined where it can. */
function notMade(part: FormedPart, placing: PlacedPart | undefined): string | undefined {
  if (isBox(part)) return undefined;
  const inches = (length: number): string => `${Number((length / MM_PER_INCH).toPrecision(6))} in`;
  return shapedParts.need().madePiece(part, placing, 0, inches)?.wrong[0]?.says;
}

/** A piece as the box around it, and as it is shaped where it is no box, mm. */
interface PieceAt extends Block {
  readonly solid?: Solid | undefined;
}

function piecesOf(table: TableArgument, joints?: TableArgument): readonly PieceAt[] {
  return partsWith(table, joints, true).flatMap(({ part, placing }) => {
    if (placing === undefined) return [];
    const sides = alongAxes(placing.turn, part);
    return Array.from({ length: part.count }, (_, copy): PieceAt => {
      const cuts = part.cuts?.[copy] ?? [];
      if (!isBox(part) || cuts.length > 0) {
        const { pieceStanding, boundsOf } = shapedParts.need();
        const solid = pieceStanding(part, placing, copy, cuts);
        if (solid !== undefined) return { ...rounded(boundsOf(solid)), solid };
      }
      const [x, y, z] = cornerOf(placing, copy);
      return rounded({ low: [x, y, z], high: [x + sides[0], y + sides[1], z + sides[2]] });
    });
  });
}

const rounded = ({ low, high }: Block): Block => ({
  low: [nano(low[0]), nano(low[1]), nano(low[2])],
  high: [nano(high[0]), nano(high[1]), nano(high[2])],
});

/** Meetings of pieces, of shaped ones as they really meet. */
function meetingsOf(pieces: readonly PieceAt[], gap: number): readonly BlockMeeting[] {
  const meetings = blockMeetings(pieces, gap);
  if (pieces.every(({ solid }) => solid === undefined)) return meetings;
  return shapedParts.need().exactMeetings(pieces, meetings, TOLERANCE);
}

/** What all parts of a table measure, placed or not; of one of them where it is named. */
function wholeOf(
  table: TableArgument,
  joints: TableArgument | undefined,
  name: string | undefined,
  isPlaced: boolean,
) {
  const wanted = name?.trim().toLowerCase();
  const isAsked = (part: FormedPart): boolean =>
    wanted === undefined || part.name.trim().toLowerCase() === wanted;
  const parts = partsWith(table, joints, isPlaced, isAsked);
  const own = parts.filter(({ part }) => isAsked(part));
  if (own.length === 0 && wanted !== undefined) {
    const names = [...new Set(parts.map(({ part }) => part.name))];
    throw new Fault({
      class: 'unknown',
      argument: ONE_PART.name,
      got: name,
      quantity: 'text',
      takes: 'the name of a part of the table',
      hint: nearHint(nearNames(name ?? '', names), names),
    });
  }
  for (const { part, placing } of own) if (placing === undefined) checkMade(part, placing);
  return shapedParts.need().finishedWhole(own);
}

/** The surface of the finished parts of a table, in². */
export const partsArea = (
  parts: TableArgument,
  name: string | undefined,
  joints: TableArgument | undefined,
): number => wholeOf(parts, joints, name, false).area / MM_PER_INCH ** 2;

const ONE_PART: ArgumentDescription = {
  name: 'part',
  means: 'the name of one part',
  takes: 'text',
  quantity: 'text',
  optional: true,
  leftOut: 'all parts',
};
const WAY: ArgumentDescription = {
  name: 'way',
  means: '"along" from the left end, "across" from the front or "up" from the floor',
  takes: 'text',
  quantity: 'text',
};

const SOURCE = 'geometry, no source';
const MEASURED =
  'closed formulas for uncut outlines, else the divergence theorem over flat facets within 0.05 mm of the curve';
/** Shapes are worked out, and by what the app loads after the first sheet. */
const LATE = { late: true, steps: 5_000 } as const;
const SHAPED_NOTES =
  'Columns are known by their heads, as in the parts sheet, those of shapes among them. With the joints table, what joints cut is taken off.';
const ROUND_TOP =
  '{"part","count","thickness","width","length","x","y","z","shape";"Top",1,1,36,36,0,0,28,"round"}';
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
    args: [PARTS, JOINTS],
    result: { quantity: 'count', means: 'pairs; without the joints table a tenon is one' },
    source: SOURCE,
    example: EXAMPLE('PARTS_OVERLAPS', '5,0,10.5}'),
    notes: `${NOTES} With the joints table a tenon in its mortise does not count; without it, compare with the joints that are let in.`,
    run: (parts: TableArgument, joints: TableArgument | undefined) => {
      const meetings = meetingsOf(piecesOf(parts, joints), 0);
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
      const blocks = piecesOf(parts);
      const meetings = meetingsOf(blocks, TOLERANCE);
      return looseBlocks(blocks, meetings, TOLERANCE).reduce((sum, one) => sum + one.length, 0);
    },
  },
  {
    name: 'PARTS_VOLUME',
    task: 'Base',
    ...LATE,
    answers: 'How much wood is in the finished parts of a table, shaped as they are.',
    args: [PARTS, ONE_PART, JOINTS],
    result: { quantity: 'volume', means: 'of all pieces, finished' },
    source: MEASURED,
    example: `=PARTS_VOLUME(${ROUND_TOP})`,
    notes: `${SHAPED_NOTES} The functions of wood tell what it weighs.`,
    run: (parts: TableArgument, name: string | undefined, joints: TableArgument | undefined) =>
      wholeOf(parts, joints, name, false).volume / MM_PER_INCH ** 3,
  },
  {
    name: 'PARTS_AREA',
    task: 'Finish',
    ...LATE,
    answers: 'How much surface the finished parts of a table have, shaped as they are.',
    args: [PARTS, ONE_PART, JOINTS],
    result: { quantity: 'area', means: 'all faces of all pieces, less what joints hide' },
    source: MEASURED,
    example: `=PARTS_AREA(${ROUND_TOP})`,
    notes: `${SHAPED_NOTES} Tenons, mortises and faces that lie against each other in a joint get no finish; without the table all faces count.`,
    run: partsArea,
  },
  {
    name: 'PARTS_CENTER',
    task: 'Strength and stability',
    ...LATE,
    answers: 'Where the center of gravity of the parts of a table is, shaped as they are.',
    args: [PARTS, WAY, JOINTS],
    result: { quantity: 'length', means: 'from the left end, the front or the floor' },
    source: MEASURED,
    example: `=PARTS_CENTER(${ROUND_TOP}, "up")`,
    notes: `${SHAPED_NOTES} As if all were of one wood; parts without a place are passed over. The functions of tipping take it.`,
    run: (parts: TableArgument, way: string, joints: TableArgument | undefined) => {
      const axis = ['along', 'across', 'up'].indexOf(way.trim().toLowerCase());
      if (axis < 0) {
        throw new Fault({
          class: 'unknown',
          argument: WAY.name,
          got: way,
          quantity: 'text',
          takes: '"along", "across" or "up"',
        });
      }
      const { center } = wholeOf(parts, joints, undefined, true);
      if (center === undefined) return refuse('no part', 'a table of which a part has a place');
      return center[axis]! / MM_PER_INCH;
    },
  },
];
