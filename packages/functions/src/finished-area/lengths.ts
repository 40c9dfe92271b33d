import type { TableArgument } from '@kerfbook/wood';
import { JOINT_COLUMNS, JOINT_WORD_COLUMNS } from '../joints/columns.ts';
import { type BoxCut, type Boxes, boxesOf } from './boxes.ts';

/** A number of one of the two tables. */
export interface TableCell {
  /** Which of the two. */
  readonly table: 'parts' | 'joints';
  /** Its row, from 0, as the argument has it. */
  readonly row: number;
  /** The head of its column. */
  readonly head: string;
}

/** The two tables as formulas are given them. */
export interface Tables {
  /** Each kind of part a row, its heads first. */
  readonly parts: TableArgument;
  /** Each joint a row, its heads first. */
  readonly joints: TableArgument;
  /** Whether a cell holds what was typed into it; a 0 of such a one is taken for what stays. */
  isTyped?(cell: TableCell): boolean;
}

/** How often each cell is in a length, by the places of the cells in their list. */
export type Length = readonly number[];

/** Sides of all boxes as sums of the cells that they rest on. */
export interface Lengths {
  /** The lengths that the tables give. */
  readonly cells: readonly TableCell[];
  /** Those that are 0 and stay so. */
  readonly zeros: readonly TableCell[];
  /** What each of the cells is, mm. */
  readonly values: readonly number[];
  /** The sides of each piece: low along x, y and z, then high. */
  readonly pieces: readonly (readonly Length[])[];
  /** The same of the cuts of each piece; none of a hole, of which its size is enough. */
  readonly cuts: readonly (readonly (readonly Length[])[])[];
}

const MM_PER_INCH = 25.4;
const PARTS_LENGTHS = ['thickness', 'width', 'length', 'x', 'y', 'z', 'step x', 'step y', 'step z'];
const NO_LENGTHS: ReadonlySet<string> = new Set([...JOINT_WORD_COLUMNS, 'count']);
const JOINTS_LENGTHS = JOINT_COLUMNS.filter((head) => !NO_LENGTHS.has(head));

/** As many as a formula may rest on. */
const MOST_CELLS = 400;
/**
 * Where sides of two pieces lie in one plane, it cannot be told whose side a third one goes by. Each number is put off
 * by another little bit first, less than what counts as touching, mm.
 */
const OFF = 0.004;
/** How far one number is moved to see what moves with it, mm. */
const MOVED = 1e-2;
/** The same for cuts, whose sides are whole nanometers. */
const MOVED_LITTLE = 2e-4;
/** Sides nearer than this are one, mm. */
const ONE = 2e-6;

const isNumber = (value: unknown): value is number => typeof value === 'number';

/** The cells of both tables that hold a length; where it is a typed 0 they are told apart. */
export function lengthCells(tables: Tables) {
  const { parts, joints } = tables;
  const of = (table: 'parts' | 'joints', { rows }: TableArgument, heads: readonly string[]) =>
    rows.flatMap((one, row) =>
      heads.flatMap((head): TableCell[] => (isNumber(one[head]) ? [{ table, row, head }] : [])),
    );
  const all = [...of('parts', parts, PARTS_LENGTHS), ...of('joints', joints, JOINTS_LENGTHS)];
  const stays = (cell: TableCell): boolean =>
    numberIn(tables, cell) === 0 && tables.isTyped?.(cell) === true;
  return { cells: all.filter((cell) => !stays(cell)), zeros: all.filter(stays) };
}

/** The number in a cell, in inches or as a count. */
export function numberIn(tables: Tables, { table, row, head }: TableCell): number {
  const value = tables[table].rows[row]?.[head];
  return isNumber(value) ? value : Number.NaN;
}

/** The tables with some numbers more. */
export function withMore(
  tables: Tables,
  cells: readonly TableCell[],
  more: readonly number[],
): Tables {
  const changed = (table: 'parts' | 'joints'): TableArgument => {
    const rows = tables[table].rows.map((row) => ({ ...row }));
    for (const [at, cell] of cells.entries()) {
      const row = rows[cell.row];
      if (cell.table === table && row !== undefined) {
        row[cell.head] = numberIn(tables, cell) + (more[at] ?? 0);
      }
    }
    return { ...tables[table], rows };
  };
  return { ...tables, parts: changed('parts'), joints: changed('joints') };
}

const sidesOf = ({ low, high }: { low: readonly number[]; high: readonly number[] }): number[] => [
  ...low,
  ...high,
];

const cutSides = (cut: BoxCut): number[] => (cut.cut.kind === 'hole' ? [] : sidesOf(cut));

/** The sides of all boxes as sums of cells; undefined where one is no such sum. */
export function lengthsOf(tables: Tables, boxes: Boxes): Lengths | undefined {
  const { cells, zeros } = lengthCells(tables);
  if (cells.length > MOST_CELLS) return undefined;
  const off = cells.map((_, at) => (OFF * (1 + ((at * 0.618033988749895) % 1))) / 2);
  const inches = (mm: number): number => mm / MM_PER_INCH;
  const put = (more: readonly number[]) => withMore(tables, cells, more.map(inches));
  const moved = (at: number, by: number) => put(off.map((one, i) => (i === at ? one + by : one)));
  const there = put(off);
  const near = boxesOf(there.parts, there.joints);
  const alone = boxesOf(there.parts);
  if (near === undefined || alone === undefined || !isAlike(near, boxes)) return undefined;
  const pieceSides = alone.pieces.map(sidesOf);
  const pieces = pieceSides.map((sides) => sides.map(() => cells.map(() => 0)));
  for (const [at, { table }] of cells.entries()) {
    if (table === 'joints') continue;
    const then = boxesOf(moved(at, MOVED).parts);
    if (then?.pieces.length !== alone.pieces.length) return undefined;
    for (const [index, piece] of then.pieces.entries()) {
      for (const [side, value] of sidesOf(piece).entries()) {
        const own = pieces[index]?.[side];
        if (own !== undefined) own[at] = share((value - pieceSides[index]![side]!) / MOVED);
      }
    }
  }
  const cuts = near.pieces.map(({ cuts: own, joined }, index) =>
    own.map((cut) =>
      cutSides(cut).map((value, side): Length | undefined => {
        const axis = side % 3;
        for (const one of [index, ...joined]) {
          for (const which of [axis, axis + 3]) {
            if (Math.abs(pieceSides[one]![which]! - value) < ONE) return pieces[one]![which]!;
          }
        }
        return undefined;
      }),
    ),
  );
  if (cuts.some((own) => own.some((cut) => cut.includes(undefined)))) {
    const steps = cells.map((_, at) => {
      const then = moved(at, MOVED_LITTLE);
      return boxesOf(then.parts, then.joints);
    });
    for (const [index, own] of cuts.entries()) {
      for (const [which, cut] of own.entries()) {
        for (const [side, form] of cut.entries()) {
          if (form !== undefined) continue;
          const before = sidesOf(near.pieces[index]!.cuts[which]!)[side]!;
          const found = steps.map((one) => {
            const then = one?.pieces[index]?.cuts[which];
            return then === undefined
              ? Number.NaN
              : halves((sidesOf(then)[side]! - before) / MOVED_LITTLE);
          });
          cut[side] = found;
        }
      }
    }
  }
  const values = cells.map((cell) => numberIn(tables, cell) * MM_PER_INCH);
  const found = { cells, zeros, values, pieces, cuts: cuts as Length[][][] };
  return isRight(found, boxes) ? found : undefined;
}

const isAlike = (one: Boxes, other: Boxes): boolean =>
  one.pieces.length === other.pieces.length &&
  one.pieces.every(
    ({ cuts, joined }, index) =>
      cuts.length === other.pieces[index]?.cuts.length &&
      joined.join() === other.pieces[index]?.joined.join(),
  );

/** What a length comes to, mm. */
export const lengthNow = (length: Length, values: readonly number[]): number =>
  length.reduce((sum, times, at) => (times === 0 ? sum : sum + times * values[at]!), 0);

/** Sums that do not come to what they stand for are none. */
function isRight({ values, pieces, cuts }: Lengths, boxes: Boxes): boolean {
  const isSame = (forms: readonly Length[], sides: readonly number[]): boolean =>
    forms.every((form, side) => Math.abs(lengthNow(form, values) - sides[side]!) < 1e-5);
  return boxes.pieces.every(
    (piece, index) =>
      isSame(pieces[index]!, sidesOf(piece)) &&
      piece.cuts.every((cut, which) => isSame(cuts[index]![which]!, cutSides(cut))),
  );
}

/** A share such as 1/2 or 2/5, which equal spaces give. */
function share(value: number): number {
  for (let parts = 1; parts <= 60; parts += 1) {
    const whole = Math.round(value * parts);
    if (Math.abs(value - whole / parts) < 1e-6) return whole / parts;
  }
  return value;
}

const halves = (value: number): number => {
  const nearest = Math.round(value * 2) / 2;
  return Math.abs(nearest - value) < 0.05 ? nearest + 0 : Number.NaN;
};
