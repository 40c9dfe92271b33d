import { lengthOf, optional, textOf } from './arguments.ts';
import type { ArgumentDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { namesSameWood } from './find-species.ts';
import { type Guarded, positive, words } from './guards.ts';
import { listed } from './listed.ts';
import { nearHint, nearNames } from './nearest.ts';
import { type OwnRow, ownRowsOf } from './own.ts';
import { MM_PER_INCH } from './quantity.ts';
import { rests } from './rests.ts';

const WOOD = textOf('wood', 'as the price list has it, or by another name of the same wood');
const THICKNESS = lengthOf('thickness', 'rough thickness, as it is bought');
const ANY_THICKNESS = optional(
  lengthOf('thickness', 'as it is bought'),
  'the only one that has a price',
);
const GRADE = optional(textOf('grade', 'as the price list has it: "FAS"'), 'the row without one');

/** What the prices are asked for by, as every function that reads a price list takes it. */
export const PRICE_ARGUMENTS: Readonly<
  Record<'wood' | 'thickness' | 'anyThickness' | 'grade', ArgumentDescription>
> = { wood: WOOD, thickness: THICKNESS, anyThickness: ANY_THICKNESS, grade: GRADE };

/** Thicknesses that differ by no more are one: 2 in is sold as 50 mm. Common practice, no source. */
const SAME_THICKNESS = 2 / MM_PER_INCH;
/** Exact: 1 m³ in cubic inches, over the 144 of a board foot. */
const BOARD_FEET_IN_A_CUBIC_METER = (1000 / MM_PER_INCH) ** 3 / 144;

type Per = 'board foot' | 'cubic meter' | 'piece';

const PER: ReadonlyMap<string, Per> = new Map([
  ...['', 'board foot', 'board feet', 'bd ft', 'bf'].map((word) => [word, 'board foot'] as const),
  ...['cubic meter', 'm³', 'm3'].map((word) => [word, 'cubic meter'] as const),
  ...['piece', 'board', 'sheet', 'each'].map((word) => [word, 'piece'] as const),
]);

/** Rows of a price list by the words at its heads, in us units. */
export type PriceList = readonly OwnRow[];

/** A row of the price list that says a price. */
interface Priced {
  readonly wood: string;
  readonly per: Per;
  /** in; left out for every thickness that no other row is thick enough for. */
  readonly thickness: number | undefined;
  /** `''` for every grade. */
  readonly grade: string;
  readonly price: number;
  /** Days as a date counts them; left out where it is not said. */
  readonly day: number | undefined;
}

/**
 * What a board foot of a wood costs by the workbook's price list.
 * @param wood as the list has it, or another name of the same wood
 * @param thickness in, rough
 * @param grade as the list has it; the row without one when left out
 * @param list rows by the heads of a price list, us units; the workbook's own when left out
 * @returns money per board foot, from a price per board foot or per cubic meter
 * @throws Fault `unknown` where the list has no such wood, thickness or grade, `kind`, `range`
 * Source: common practice, no source. Of rows for the wood the one of that thickness counts (to within 2 mm), else the
 * next thicker that has a price, since a thicker board can be planed down and a thinner one not, else one without a
 * thickness. Of several rows alike the one with the latest day counts, of one day the lowest in the list.
 */
export function woodPrice(
  wood: string,
  thickness: number,
  grade?: string,
  list?: PriceList,
): number {
  const asked = { wood, thickness: positive(THICKNESS, thickness), grade, list };
  const row = pick(asked, (per) => per !== 'piece', PIECES_ONLY);
  const price = row.per === 'cubic meter' ? row.price / BOARD_FEET_IN_A_CUBIC_METER : row.price;
  return said(row, price, 'money_per_boardfoot');
}

/**
 * What a piece costs by the workbook's price list: a sheet, a blank, a board that is sold by the piece.
 * @param wood as the list has it, or another name of the same wood
 * @param thickness in; the only one that has a price when left out
 * @param grade as the list has it; the row without one when left out
 * @param list as {@link woodPrice} takes it
 * @returns money
 * @throws Fault as {@link woodPrice}
 * Source: common practice, no source; rows count as in {@link woodPrice}.
 */
export function piecePrice(
  wood: string,
  thickness?: number,
  grade?: string,
  list?: PriceList,
): number {
  const thick = thickness === undefined ? undefined : positive(ANY_THICKNESS, thickness);
  const row = pick({ wood, thickness: thick, grade, list }, (per) => per === 'piece', NO_PIECES);
  return said(row, row.price, 'money');
}

interface Asked {
  readonly wood: string;
  readonly thickness: number | undefined;
  readonly grade: string | undefined;
  readonly list: PriceList | undefined;
}

const PIECES_ONLY: readonly [string, string] = [
  'has prices by the piece alone in the price list',
  'PIECE_PRICE reads those.',
];
const NO_PIECES: readonly [string, string] = [
  'has no price by the piece in the price list',
  'WOOD_PRICE reads prices by the board foot or the cubic meter.',
];

function pick(
  { wood, thickness, grade, list }: Asked,
  isMeant: (per: Per) => boolean,
  [problem, hint]: readonly [string, string],
): Priced {
  const name = words(WOOD, wood, A_WOOD);
  const all = pricesOf(name, list ?? ownRowsOf('prices'));
  const rows = all.filter(({ per }) => isMeant(per));
  if (rows.length === 0) throw unknown(WOOD, wood.trim(), A_WOOD, hint, problem);
  if (grade === undefined || grade.trim() === '')
    return oneGrade(ofThickness(rows, thickness), wood);
  const wanted = plain(grade);
  const graded = rows.filter((row) => plain(row.grade) === wanted);
  const others = rows.filter((row) => row.grade === '');
  if (graded.length + others.length === 0) {
    const known = unique(rows.map((row) => row.grade));
    const which = `one that ${woodOf(rows)} has in the price list`;
    throw unknown(GRADE, grade.trim(), which, nearHint(nearNames(grade, known), known));
  }
  // A grade that is priced in another thickness alone leaves it to the row for every grade.
  return latest(
    graded.length > 0 && (others.length === 0 || isThere(graded, thickness))
      ? ofThickness(graded, thickness)
      : ofThickness(others, thickness),
  );
}

const GRADES_SAID = 6;
const A_WOOD = 'a wood of the price list';
const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ');
const unique = (texts: readonly string[]): readonly string[] => [...new Set(texts)];
const woodOf = ([row]: readonly Priced[]): string => row?.wood ?? 'the wood';

function unknown(
  { name, quantity }: Guarded,
  got: unknown,
  takes: string,
  hint: string,
  problem?: string,
): Fault {
  const more = problem === undefined ? {} : { problem };
  return new Fault({ class: 'unknown', argument: name, got, quantity, takes, hint, ...more });
}

/** The rows of a wood that say a price. */
function pricesOf(name: string, rows: PriceList | undefined): readonly Priced[] {
  if (rows === undefined) {
    const hint = 'Start a price list on a sheet of its own, or type the price.';
    throw unknown(WOOD, name, A_WOOD, hint, 'has no price: this workbook has no price list');
  }
  const isMeant = namesSameWood(name);
  const found = rows.filter(({ wood }) => typeof wood === 'string' && isMeant(wood));
  if (found.length === 0) {
    const names = unique(
      rows.flatMap(({ wood }) => (typeof wood === 'string' ? [wood.trim()] : [])),
    );
    const hint =
      names.length === 0
        ? 'The list is empty: add a row for it.'
        : `${nearHint(nearNames(name, names), names)} Add a row for it, or type the price.`;
    throw unknown(WOOD, name, A_WOOD, hint, 'is not in the price list');
  }
  const priced = found.flatMap((row) => (typeof row.price === 'number' ? [readRow(row)] : []));
  if (priced.length === 0) {
    const hint = 'Ask your yard, and type it into its row.';
    throw unknown(WOOD, name, A_WOOD, hint, 'has a row in the price list, and no price in it');
  }
  return priced;
}

function readRow(row: OwnRow): Priced {
  const text = (head: string): string => String(row[head] ?? '').trim();
  const number = (head: string): number | undefined => {
    const value = row[head];
    return typeof value === 'number' ? value : undefined;
  };
  const wood = text('wood');
  // Written as in Britain too.
  const per = PER.get(plain(text('per')).replace(/metre$/, 'meter'));
  if (per === undefined) {
    const name = `per of ${wood} in the price list`;
    const takes = 'board foot, cubic meter or piece';
    throw new Fault({ class: 'kind', argument: name, got: text('per'), quantity: 'text', takes });
  }
  const price = number('price') ?? 0;
  if (price < 0) {
    const name = `price of ${wood} in the price list`;
    const detail = { got: price, quantity: 'money', takes: '{n} or more', bounds: [0] } as const;
    throw new Fault({ class: 'range', argument: name, ...detail });
  }
  const [thickness, day] = [number('thickness'), number('day')];
  return { wood, per, thickness, grade: text('grade'), price, day };
}

const isSame = (row: Priced, thickness: number): boolean =>
  row.thickness !== undefined && Math.abs(row.thickness - thickness) <= SAME_THICKNESS + 1e-9;

/** The rows that count for a thickness, none where none does. */
function forThickness(rows: readonly Priced[], thickness: number): readonly Priced[] {
  const near = rows.filter((row) => isSame(row, thickness));
  const away = (row: Priced): number => Math.abs((row.thickness ?? 0) - thickness);
  const least = Math.min(...near.map(away));
  if (near.length > 0) return near.filter((row) => away(row) <= least + 1e-9);
  const thicker = rows.filter((row) => (row.thickness ?? 0) > thickness);
  const next = Math.min(...thicker.map((row) => row.thickness ?? 0));
  if (thicker.length > 0) return thicker.filter((row) => (row.thickness ?? 0) <= next + 1e-9);
  return rows.filter((row) => row.thickness === undefined);
}

const isThere = (rows: readonly Priced[], thickness: number | undefined): boolean =>
  thickness === undefined || forThickness(rows, thickness).length > 0;

function ofThickness(rows: readonly Priced[], thickness: number | undefined): readonly Priced[] {
  const sizes = [...new Set(rows.flatMap((row) => row.thickness ?? []))].sort((a, b) => a - b);
  if (thickness === undefined) {
    const every = rows.filter((row) => row.thickness === undefined);
    if (every.length > 0) return every;
    if (sizes.length === 1) return rows;
    throw new Fault({
      class: 'kind',
      argument: ANY_THICKNESS.name,
      got: undefined,
      quantity: 'length',
      takes: `one that ${woodOf(rows)} has in the price list: ${listed(sizes.map(() => '{n}'))}`,
      bounds: sizes,
    });
  }
  const found = forThickness(rows, thickness);
  if (found.length > 0) return found;
  throw new Fault({
    class: 'unknown',
    argument: THICKNESS.name,
    got: thickness,
    quantity: 'length',
    takes: `up to {n}, the thickest ${woodOf(rows)} in it`,
    bounds: [sizes.at(-1) ?? 0],
    problem: 'is not in the price list',
    hint: 'Add a row for it, or one without a thickness.',
  });
}

/** Of rows of several grades the one for every grade. */
function oneGrade(rows: readonly Priced[], wood: string): Priced {
  const every = rows.filter(({ grade }) => grade === '');
  const grades = unique(rows.map(({ grade }) => plain(grade)));
  if (every.length > 0 || grades.length === 1) return latest(every.length > 0 ? every : rows);
  throw new Fault({
    class: 'kind',
    argument: GRADE.name,
    got: undefined,
    quantity: 'text',
    takes: `one that ${wood.trim()} has in the price list: ${listed(unique(rows.map(({ grade }) => grade)).slice(0, GRADES_SAID))}`,
  });
}

/** What was asked for last; of one day what stands lowest. */
function latest(rows: readonly Priced[]): Priced {
  const asked = (row: Priced): number => row.day ?? Number.NEGATIVE_INFINITY;
  return rows.reduce((one, other) => (asked(other) >= asked(one) ? other : one));
}

function said(row: Priced, value: number, quantity: 'money' | 'money_per_boardfoot'): number {
  const grade = row.grade === '' ? '' : `, ${row.grade}`;
  const of = `${row.wood.charAt(0).toUpperCase()}${row.wood.slice(1)}${grade}: price`;
  rests({ of, value, quantity, how: 'own', source: 'the price list of this workbook' });
  return value;
}
