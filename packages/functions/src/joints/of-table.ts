import { boundsOf } from '@kerfbook/solids';
import { alongAxes, cornerOf, type PlacedPart, type TableArgument } from '@kerfbook/wood';
import { type FormedPart, pieceStanding } from '../shaped/index.ts';
import { JOINT_COLUMNS } from './columns.ts';
import { ontoParts } from './onto-parts.ts';
import type { JointProblem, Piece } from './piece.ts';
import { type JointCellValue, type JointNames, readJointsTable } from './read.ts';
import { resolveJoints } from './resolve.ts';
import type { JointWork } from './work.ts';

/** A part as a formula has it. */
export type TablePart = FormedPart & {
  /** Its wood or sheet, as the table has it; left out where it has none. */
  readonly material?: string;
  /** Where its pieces stand; left out where it has no place. */
  readonly placing?: PlacedPart;
};

/** Parts of a table with what their joints cut and hide. */
export interface JoinedTable {
  /** In the order in which they were given. */
  readonly parts: readonly TablePart[];
  /** What the first row says that cannot be read or made, and why; left out where all can be. */
  readonly wrong?: { readonly joint: string; readonly says: string };
}

const MM_PER_INCH = 25.4;

/** The joints of a joints table, worked out for parts as formulas are given both. */
export interface TableJoints {
  /** All pieces of the parts that have a place. */
  readonly pieces: readonly (Piece & { readonly part: TablePart })[];
  /** What the joints come to for them. */
  readonly work: JointWork;
  /** What of the table cannot be read, each at its cell. */
  readonly unread: readonly JointProblem[];
  /** How its lengths are written. */
  readonly write: (mm: number) => string;
}

/** What the joints of a joints table come to, before they are put on the parts. */
export function jointsOf(
  parts: readonly TablePart[],
  table: TableArgument,
  names: JointNames,
): TableJoints {
  const { joints, problems: unread } = readJointsTable(asTable(table), names);
  const write = writer(table.units);
  const pieces = parts.flatMap(piecesOf);
  const work = resolveJoints(pieces, joints, { format: write, units: table.units });
  return { pieces, work, unread, write };
}

/** The parts of a parts table with the joints of a joints table, both as formulas are given them. */
export function joinedTable(
  parts: readonly TablePart[],
  table: TableArgument,
  names: JointNames,
): JoinedTable {
  const { pieces, work, unread, write } = jointsOf(parts, table, names);
  const onto = ontoParts(parts, pieces, work, write);
  const unmade = new Set([...work.unmade].map(({ at }) => at.row));
  // What is a word of care only, such as too little wood beside a mortise, is told by the drawing.
  const [first] = [
    ...unread,
    ...work.problems.filter(({ at }) => unmade.has(at.row)),
    ...onto.problems,
  ];
  if (first === undefined) return { parts: onto.parts };
  const row = table.rows[first.at.row - 1];
  return { parts: onto.parts, wrong: { joint: String(row?.joint ?? ''), says: first.says } };
}

const writer =
  (units: TableArgument['units']) =>
  (mm: number): string =>
    units === 'us'
      ? `${Number((mm / MM_PER_INCH).toPrecision(6))} in`
      : `${Number(mm.toPrecision(6))} mm`;

/** The rows of an argument as cells below their heads. Lengths of arguments are in inches, whatever the workbook's. */
function asTable({ heads, rows, units }: TableArgument) {
  const columns = JOINT_COLUMNS.filter((head) => heads.includes(head));
  const isLength = (head: string): boolean => head !== 'count';
  return {
    sheet: '',
    header: 0,
    end: rows.length + 1,
    columns: columns.length,
    units,
    value: ({ row, column }: { row: number; column: number }): JointCellValue | undefined => {
      const head = columns[column];
      if (head === undefined) return undefined;
      if (row === 0) return { text: head, written: head };
      const value = rows[row - 1]?.[head];
      if (value === undefined) return undefined;
      if (typeof value === 'string') return { text: value, written: `"${value}"` };
      const own = units === 'metric' && isLength(head) ? value * MM_PER_INCH : value;
      const number = Number(own.toPrecision(12));
      return { number, written: String(Number(number.toPrecision(6))) };
    },
  };
}

function piecesOf(part: TablePart): readonly (Piece & { readonly part: TablePart })[] {
  const { placing } = part;
  if (placing === undefined) return [];
  const [along, across, up] = alongAxes(placing.turn, part);
  return Array.from({ length: part.count }, (_, copy) => {
    const solid = pieceStanding(part, placing, copy);
    if (solid !== undefined) {
      const { low, high } = boundsOf(solid);
      return { part, copy, from: point(low), to: point(high), solid };
    }
    const [x, y, z] = cornerOf(placing, copy);
    return { part, copy, from: { x, y, z }, to: { x: x + along, y: y + across, z: z + up } };
  });
}

const point = ([x, y, z]: readonly [number, number, number]): Piece['from'] => ({ x, y, z });
