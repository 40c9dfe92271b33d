import { type BlockOrSolid, isShaped, roomOf, withMiddles } from '@kerfbook/functions/shaped';
import type { Cut } from '@kerfbook/solids';
import {
  alongAxes,
  type Lean,
  type PartForm,
  type PartToPlace,
  PLACE_SAYS,
  type PlacedPart,
  placeParts,
  readForm,
} from '@kerfbook/wood';
import type { At } from '@kerfbook/workbook';
import { readHeader } from './columns.ts';
import { type JointsOfBook, withJoints } from './joints/index.ts';
import { PartRow, trouble } from './part-row.ts';
import { shapeProblems } from './part-shapes.ts';
import {
  endBelow,
  type LeftOut,
  otherTables,
  type PartProblem,
  type PartsSource,
} from './parts-source.ts';
import { bookFormat, TOLERANCE } from './units.ts';

/** Where the pieces of a part are, mm from the left end, the near side and the floor. */
export type Placing = PlacedPart;

/** The boards a wide part is glued up of; mm, before jointing and trimming. */
interface PanelBoards {
  readonly count: number;
  readonly width: number;
  readonly length: number;
  /** As it is glued up, where that is said: what the panel is planed to stands with its own sizes. */
  readonly thickness?: number;
}

/** One row of the parts table; all sizes in mm. */
export interface Part {
  /** The cell that holds the part's name. */
  readonly at: At;
  /** The cell that holds its count, or the name's cell where there is no such column. */
  readonly countAt: At;
  /** As the row says it, without spaces around it. */
  readonly name: string;
  /** How many pieces alike, a whole number of 1 or more. */
  readonly count: number;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0; of a panel, the whole of it. */
  readonly width: number;
  /** Over 0. */
  readonly length: number;
  /** As the row says it; left out where it does not. */
  readonly material?: string;
  /** Boards it is glued up of, edge to edge; left out where it is one piece. */
  readonly panelBoards?: PanelBoards;
  /** The cell that takes how many these are; left out where there is no such column. */
  readonly boardsAt?: At;
  /** Layers it is laminated of, face to face, which share its thickness; left out where it is one. */
  readonly layers?: number;
  /** The side the grain runs along; left out where the row does not say. */
  readonly grain?: 'length' | 'width';
  /** Left out where the row says no place, or one that cannot be read. */
  readonly placing?: Placing;
  /** It is drawn beside the others, and where says nothing of where it goes. */
  readonly aside?: true;
  /** How it is shaped; left out where it is a box. */
  readonly form?: PartForm;
  /** How far it leans outwards, degrees; left out where it stands or lies straight. */
  readonly lean?: Lean;
  /** What its joints cut from each of its pieces, in the piece's own frame; left out where there are none. */
  readonly cuts?: readonly (readonly Cut[])[];
  /** What its pieces are joined to, as that stands before it is cut; left out where there is nothing. */
  readonly joinedTo?: readonly (readonly BlockOrSolid[])[];
  /** What it is cut from or how it lies cannot be read: it is drawn, and in no cut list. */
  readonly unread?: true;
}

/** What the parts table of a workbook says. */
export interface PartsReading {
  /** False: the workbook has no parts table. */
  readonly found: boolean;
  /** In the order of the rows that can be read. */
  readonly parts: readonly Part[];
  /** What could not be read, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** Rows that are in no cut list, each with the reason; their problems are among `problems`. */
  readonly leftOut: readonly LeftOut[];
  /** Names of the parts of which none are wanted: their count is 0. */
  readonly none: readonly string[];
  /** What the joints table comes to; left out where the workbook has none. */
  readonly joints?: JointsOfBook;
}

/**
 * The first parts table of a workbook with what its joints table cuts into the parts: what cannot be read of either
 * becomes a problem at its cell.
 */
export const readParts = (source: PartsSource): PartsReading =>
  withJoints(source, readTable(source));

/**
 * The first parts table of a workbook, sizes turned to mm. A cell that cannot be read becomes one
 * problem at that cell; every other row is still read. A row with a bad size or count gives no
 * part; one with a bad position or turn gives a part without a place. A row without a name that has
 * sizes, and one that lies below the table, are told as well: no row vanishes in silence.
 */
function readTable(source: PartsSource): PartsReading {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined) {
    return { found: false, parts: [], problems: [], leftOut: [], none: [] };
  }
  const header = readHeader(source, table);
  const others = otherTables(source, 'parts');
  const problems: PartProblem[] = [...header.problems, ...others];
  const rows: ReadRow[] = [];
  const open: OpenRow[] = [];
  const leftOut: LeftOut[] = [...others];
  const none: string[] = [];
  const standIns: ReadRow[] = [];
  const [first] = header.problems;
  if (!header.columns.has('part')) {
    if (first !== undefined) leftOut.push({ ...first, what: 'The parts table' });
    return { found: true, parts: [], problems, leftOut, none };
  }
  const end = endBelow(source, table);
  for (let row = table.header + 1; row < end; row++) {
    const own: PartProblem[] = [];
    const { columns } = header;
    const line = new PartRow({ source, sheet: table.sheet, row, columns, problems: own });
    const read: RowReading =
      row <= table.last ? readRow(line) : { lost: line.strayPart(table.last) };
    if (read.none !== undefined) {
      none.push(read.none);
      if (read.row !== undefined) standIns.push(read.row);
      // What is not made troubles nobody; who goes by it says so.
      continue;
    }
    problems.push(...own);
    if (read.row !== undefined) rows.push(read.row);
    if (read.open !== undefined) open.push({ row: read.open, problems: own, lost: leftOut.length });
    if (read.lost !== undefined) {
      const says = own.map((one) => one.says).join(' ') || (first?.says ?? '');
      leftOut.push({ at: own[0]?.at ?? line.firstAt(), what: read.lost, says });
    }
  }
  for (const one of open) {
    sayLength(one, rows, { none, standIns, leftOut, problems }, source);
  }
  const unread = leftOut.map(({ what }) => what);
  const parts = withMiddles(placed(rows, { none, standIns, unread }, problems), (part) => part);
  problems.push(...shortOf(rows, parts, source), ...onFloor(rows, parts), ...halfSaid(rows));
  for (const [index, part] of parts.entries()) {
    for (const { column, says } of shapeProblems(part, source.units)) {
      problems.push({ at: rows[index]?.line.cellOr(column) ?? part.at, says });
    }
  }
  return { found: true, parts, problems, leftOut, none };
}

/** What a row comes to: a part, the name of one of which none are wanted, or what was lost. */
interface RowReading {
  /** With `none`, what others may be placed from. */
  readonly row?: ReadRow;
  readonly none?: string;
  /** A part that lacks nothing but its length, and says between which others it lies. */
  readonly open?: ReadRow;
  /** What cannot be cut, as a maker calls it; why is among the problems. */
  readonly lost?: string | undefined;
}

/** A part before its place is known, which may depend on any other row. */
interface ReadRow {
  readonly line: PartRow;
  readonly part: Part;
  /** What it says of its place; its trouble has been noted. */
  readonly asks: PlaceAsked | typeof trouble;
}

type PlaceAsked = Pick<PartToPlace, 'words' | 'numbers' | 'step' | 'turn'>;

/** Rows that have no part, and what may still be placed from them. */
interface OtherRows {
  readonly none: readonly string[];
  /** Rows that count 0: where they would be, others are placed from. */
  readonly standIns: readonly ReadRow[];
  readonly unread: readonly string[];
}

/** The parts with their places; a place that cannot be found becomes a problem at its cell. */
function placed(
  rows: readonly ReadRow[],
  { none, standIns, unread }: OtherRows,
  problems: PartProblem[],
): readonly Part[] {
  const asking = [...rows, ...standIns].flatMap(({ part, asks }): PartToPlace[] =>
    asks === trouble ? [] : [{ ...part, ...asks, ...asShaped(part) }],
  );
  const lost = rows.flatMap(({ part, asks }) => (asks === trouble ? [part.name] : []));
  const places = placeParts(asking, { none, unread: [...unread, ...lost] });
  let next = 0;
  return rows.map(({ line, part, asks }) => {
    if (asks === trouble) return part;
    const place = places[next++];
    if (place === undefined || place === 'nowhere') return part;
    if (!('says' in place)) return { ...part, placing: place };
    problems.push({ at: line.at('place') ?? part.at, says: place.says });
    return part;
  });
}

/** What the place of a part has to know of its shape. */
function asShaped(part: Part): Pick<PartToPlace, 'room' | 'asksMiddle'> {
  if (!isShaped(part)) return {};
  return {
    asksMiddle: true,
    ...(part.lean === undefined ? {} : { room: (turn) => roomOf(part, turn) }),
  };
}

/** Pieces that do not reach across the gap they lie in, told at the cell of the place. */
function shortOf(
  rows: readonly ReadRow[],
  parts: readonly Part[],
  { units }: PartsSource,
): readonly PartProblem[] {
  // No money is written.
  const write = bookFormat({ units, currency: '' });
  return parts.flatMap(({ at, name, length, placing }, i) => {
    const { between, room = 0 } = placing?.gap ?? {};
    if (between === undefined || length >= room - TOLERANCE) return [];
    const says = PLACE_SAYS.short(name, write(length), between, write(room));
    return [{ at: rows[i]?.line.at('place') ?? at, says }];
  });
}

/** Pieces between others that stand upright beside them, left on the floor since nothing says how high. */
function onFloor(rows: readonly ReadRow[], parts: readonly Part[]): readonly PartProblem[] {
  return parts.flatMap(({ at, name, placing, ...sizes }, i) => {
    const { between, onFloor } = placing?.gap ?? {};
    if (placing === undefined || between === undefined || onFloor !== true) return [];
    const tall = alongAxes(placing.turn, sizes)[2];
    const beside = parts.filter((one) => between.includes(one.name));
    if (beside.length === 0) return [];
    const stand = ({ placing: other, length }: Part): boolean =>
      other?.turn[2] === 'L' && Math.abs(other.lines[2].start) < TOLERANCE && length > tall;
    if (!beside.every(stand)) return [];
    const { line, asks } = rows[i] ?? {};
    const words = asks === undefined || asks === trouble ? '' : (asks.words ?? '');
    const says = PLACE_SAYS.floor(name, words, between, lyingOver(parts, tall)?.name);
    return [{ at: line?.at('place') ?? at, says }];
  });
}

/**
 * Parts of which numbers alone say the place, and not all of them: where nothing is typed, 0 is a guess. Not so
 * of the first that has a place, since from it the others are counted, nor of the floor, where things stand.
 */
function halfSaid(rows: readonly ReadRow[]): readonly PartProblem[] {
  const first = rows.findIndex(
    ({ asks }) =>
      asks !== trouble &&
      (asks?.words !== undefined || asks?.numbers.some((number) => number !== undefined) === true),
  );
  return rows.flatMap(({ line, part: { at, name }, asks }, i) => {
    if (i === first || asks === trouble || asks === undefined || asks.words !== undefined)
      return [];
    const isOpen = (axis: number): boolean => asks.numbers[axis] === undefined;
    const said = NUMBERS.filter((_, axis) => !isOpen(axis));
    const open = NUMBERS.filter((number, axis) => number !== 'z' && isOpen(axis));
    if (said.length === 0 || open.length === 0) return [];
    return [{ at: line.at(open[0]!) ?? at, says: PLACE_SAYS.unsaid(name, said, open) }];
  });
}

const NUMBERS = ['x', 'y', 'z'] as const;

/** The largest part that lies at least so high: what others hang under. */
function lyingOver(parts: readonly Part[], height: number): Part | undefined {
  const over = parts.filter(
    ({ placing }) =>
      placing !== undefined && placing.turn[2] !== 'L' && placing.lines[2].start >= height,
  );
  const face = ({ width, length }: Part): number => width * length;
  return over.toSorted((a, b) => face(b) - face(a))[0];
}

function readRow(line: PartRow): RowReading {
  const name = line.name();
  const at = line.at('part');
  if (at === undefined) return {};
  if (name === undefined) return { lost: line.namelessPart() };
  if (line.isHeading()) return {};
  if (line.isUnfinished()) return { lost: name };
  const count = line.count();
  if (count === trouble) return { lost: name };
  const sizes = readSizes(line);
  const grain = line.grain();
  const asks = readPlace(line);
  const shape = readForm(name, line.shape());
  for (const { column, says } of shape.wrong) line.note(column, says);
  if (count === 0 && (sizes === undefined || asks === trouble)) return { none: name };
  if (sizes === undefined) {
    const open = openRow(line, { at, countAt: line.at('count') ?? at, name, count }, asks);
    return { lost: name, ...(open === undefined ? {} : { open }) };
  }
  const material = line.text('material');
  const boardsAt = line.at('boards');
  const layers = line.gluedOf('layers');
  const panelBoards = readPanelBoards(line, sizes, typeof layers === 'number' ? layers : 1);
  const isGlueUnread = panelBoards === trouble || layers === trouble;
  const unread = line.isInError('material') || grain === trouble || isGlueUnread;
  const part: Part = {
    at,
    countAt: line.at('count') ?? at,
    name,
    count,
    ...sizes,
    ...(material === undefined ? {} : { material }),
    ...(panelBoards === undefined || panelBoards === trouble ? {} : { panelBoards }),
    ...(boardsAt === undefined ? {} : { boardsAt }),
    ...(layers === undefined || layers === trouble ? {} : { layers }),
    ...(grain === undefined || grain === trouble ? {} : { grain }),
    ...(shape.form === undefined ? {} : { form: shape.form }),
    ...(shape.lean === undefined ? {} : { lean: shape.lean }),
    ...(unread ? { unread } : {}),
  };
  const row: ReadRow = { line, part, asks };
  if (count === 0) return { row, none: name };
  return unread ? { row, lost: name } : { row };
}

/** A row whose length is still to be typed, and where it is among what is left out. */
interface OpenRow {
  readonly row: ReadRow;
  readonly problems: readonly PartProblem[];
  readonly lost: number;
}

/** Shorter than any gap: where a part begins depends on it, and not how long the gap is. */
const NO_LENGTH = 1;

/** A row with a place and all sizes but its length, which stays blank. */
function openRow(
  line: PartRow,
  part: Pick<Part, 'at' | 'countAt' | 'name' | 'count'>,
  asks: PlaceAsked | typeof trouble,
): ReadRow | undefined {
  if (asks === trouble || asks.words === undefined || !line.isBlank('length')) return undefined;
  // Both have been complained of already where they cannot be read.
  const [thickness, width] = [line.sizeIfGood('thickness'), line.sizeIfGood('width')];
  if (thickness === undefined || width === undefined) return undefined;
  return { line, part: { ...part, thickness, width, length: NO_LENGTH }, asks };
}

/** Says at the blank length of a part that lies between others how long the gap is. */
function sayLength(
  { row, problems: own, lost }: OpenRow,
  rows: readonly ReadRow[],
  said: Omit<OtherRows, 'unread'> & { leftOut: LeftOut[]; problems: PartProblem[] },
  { units }: PartsSource,
): void {
  const { name } = row.part;
  const { leftOut, problems } = said;
  const unread = leftOut.flatMap(({ what }) => (what === name ? [] : what));
  const { placing } = placed([...rows, row], { ...said, unread }, []).at(-1) ?? {};
  const { between, room = 0 } = placing?.gap ?? {};
  const at = row.line.at('length');
  const known = own.find((one) => one.at.column === at?.column);
  const left = leftOut[lost];
  if (between === undefined || room <= 0 || known === undefined || left === undefined) return;
  const says = PLACE_SAYS.noLength(name, between, bookFormat({ units, currency: '' })(room));
  problems[problems.indexOf(known)] = { ...known, says };
  leftOut[lost] = { ...left, says: left.says.replace(known.says, () => says) };
}

function readSizes(line: PartRow): Pick<Part, 'thickness' | 'width' | 'length'> | undefined {
  const thickness = line.size('thickness');
  const width = line.size('width');
  const length = line.size('length');
  if (thickness === trouble || width === trouble || length === trouble) return undefined;
  return { thickness, width, length };
}

/** Undefined for a part that is one piece. */
function readPanelBoards(
  line: PartRow,
  sizes: Pick<Part, 'thickness' | 'width' | 'length'>,
  layers: number,
): PanelBoards | undefined | typeof trouble {
  const count = line.gluedOf('boards');
  if (count === undefined || count === trouble) return count;
  const width = line.sizeOr('board width', sizes.width / count);
  const length = line.sizeOr('board length', sizes.length);
  const thickness = line.boardThickness(sizes.thickness / layers);
  if (width === trouble || length === trouble || thickness === trouble) return trouble;
  return { count, width, length, ...(thickness === undefined ? {} : { thickness }) };
}

/** What the row says of its place; trouble where something in it cannot be read. */
function readPlace(line: PartRow): PlaceAsked | typeof trouble {
  const words = line.place();
  const numbers = [line.distance('x'), line.distance('y'), line.distance('z')] as const;
  const steps = [
    line.distance('step x'),
    line.distance('step y'),
    line.distance('step z'),
  ] as const;
  const turn = line.turn();
  const [x, y, z] = numbers;
  const [stepX, stepY, stepZ] = steps;
  if (words === trouble || turn === trouble) return trouble;
  if (x === trouble || y === trouble || z === trouble) return trouble;
  if (stepX === trouble || stepY === trouble || stepZ === trouble) return trouble;
  return {
    numbers: [x, y, z],
    step: [stepX ?? 0, stepY ?? 0, stepZ ?? 0],
    ...(words === undefined ? {} : { words }),
    ...(turn === undefined ? {} : { turn }),
  };
}
