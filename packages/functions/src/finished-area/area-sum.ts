import { Fault } from '@kerfbook/wood';
import { HOLE_TOLERANCE, ON_FROM_POCKET, usualCount, usualFromEnd } from '../joints/index.ts';
import { partsArea } from '../parts.ts';
import { type BoxCut, type Boxes, type BoxPiece, boxesOf } from './boxes.ts';
import {
  type Cover,
  FACES,
  type Face,
  flush,
  hides,
  liesWithin,
  type Rectangle,
  reaches,
  rectangleOf,
  SAME,
  shared,
  taken,
} from './covers.ts';
import {
  type Length,
  type Lengths,
  lengthNow,
  lengthsOf,
  numberIn,
  type TableCell,
  type Tables,
  withMore,
} from './lengths.ts';

/** A cell, and how often it is taken. */
export interface Share {
  /** A factor; below 0 where it is taken off. */
  readonly times: number;
  /** A number of the parts or the joints table. */
  readonly cell: TableCell;
}

/** From the highest of places to the lowest of others, each a sum of cells. */
export interface Stretch {
  /** Places of which the highest counts. */
  readonly from: readonly (readonly Share[])[];
  /** Places of which the lowest counts. */
  readonly to: readonly (readonly Share[])[];
}

/** What an area is made of. */
export type AreaKind =
  | { readonly kind: 'rectangle'; readonly sides: readonly [TableCell, TableCell] }
  /** What two rectangles share: along each axis from the highest of some places to the lowest of others. */
  | { readonly kind: 'shared'; readonly along: readonly [Stretch, Stretch] }
  /** A drilled hole, as flat facets have it. */
  | { readonly kind: 'round'; readonly diameter: TableCell }
  /** Mouths of pocket holes, each so many mm², in a row along a joint. */
  | { readonly kind: 'mouths'; readonly each: number; readonly along: readonly Share[] };

/** A part of an area: as often as `times` and all of `counts` multiplied. */
export type AreaTerm = AreaKind & {
  /** A factor; below 0 for what is hidden. */
  readonly times: number;
  /** Counts of parts that it is multiplied by. */
  readonly counts: readonly TableCell[];
};

/** The surface of the finished parts of a table as a sum over its cells. */
export interface AreaSum {
  /** What is added up. */
  readonly terms: readonly AreaTerm[];
  /** Counts with which the sum is another one, and typed places that are 0. */
  readonly fixed: readonly TableCell[];
  /** Lengths that must not become less. */
  readonly least: readonly TableCell[];
  /** Sums that must stay 0: what is flush with something else is so because of them. */
  readonly flush: readonly (readonly Share[])[];
}

const MM_PER_INCH = 25.4;
/** How near the sum comes to what the pieces have. */
const NEAR = 1e-9;
/** How far apart sides are that are flush, in. */
const FLUSH = 1e-4;
/**
 * How near to each other sides are that may change places when something is typed, mm: the nearer, the shorter is the
 * sum, and the fewer sizes it holds for.
 */
const ASIDE = [10, 3, 0.5];

/**
 * What PARTS_AREA comes to, as a sum over the cells of both tables; undefined where a part is no box, where joints cut
 * it otherwise than by rectangles and holes, or where the sum would not come to the same.
 * @param isShort whether terms are few enough for who asks; of several sums the first such one is answered
 */
export function areaSum(
  tables: Tables,
  isShort: (terms: readonly AreaTerm[]) => boolean = () => true,
): AreaSum | undefined {
  try {
    const boxes = boxesOf(tables.parts, tables.joints);
    const lengths = boxes && lengthsOf(tables, boxes);
    if (boxes === undefined || lengths === undefined) return undefined;
    const area = areaOf(tables);
    for (const aside of ASIDE) {
      const items = new Summing(tables, boxes, lengths, aside).whole();
      const counted = items && countedOut(items, tables);
      if (counted === undefined || !isNear(comesTo(counted.terms, tables), area)) return undefined;
      if (!isShort(counted.terms)) continue;
      const { fixed, least } = boundsOf(counted, tables, boxes);
      const flush = items?.flush ?? [];
      return { terms: counted.terms, fixed: [...fixed, ...lengths.zeros], least, flush };
    }
    return undefined;
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}

/** Something of which there are so many, and the rows of the parts table it rests on. */
interface Item {
  many: number;
  readonly rows: readonly number[];
  readonly extra: readonly TableCell[];
  readonly of: AreaKind | Product;
}

/** Two lengths multiplied: pairs of cells by their places in the list, and how often. */
interface Product {
  readonly kind: 'product';
  readonly of: readonly (readonly [number, number, number])[];
}

class Summing {
  readonly #tables: Tables;
  readonly #boxes: Boxes;
  readonly #lengths: Lengths;
  readonly #aside: number;
  readonly #items = new Map<string, Item>();
  readonly #flush = new Map<string, readonly Share[]>();
  #isWhole = true;

  constructor(tables: Tables, boxes: Boxes, lengths: Lengths, aside: number) {
    this.#aside = aside;
    this.#tables = tables;
    this.#boxes = boxes;
    this.#lengths = lengths;
  }

  whole() {
    for (const [index, piece] of this.#boxes.pieces.entries()) this.#piece(index, piece);
    return this.#isWhole
      ? {
          items: [...this.#items.values()],
          cells: this.#lengths.cells,
          flush: [...this.#flush.values()],
        }
      : undefined;
  }

  #piece(index: number, piece: BoxPiece): void {
    if (piece.cuts.length === 0 && piece.joined.length === 0) return;
    const own = this.#lengths.pieces[index] ?? [];
    for (const face of FACES) {
      const covers = this.#covers(index, piece, face);
      const whole = rectangleOf(piece, own, face.axis);
      for (const cover of covers) {
        if (shared(whole, cover, 0) === undefined) continue;
        for (const [one, other] of flush(whole, cover)) this.#isFlush(one, other);
      }
      const parts = taken(whole, covers, this.#aside);
      if (parts === undefined) this.#isWhole = false;
      for (const { sign, of, rows } of parts ?? [])
        this.#rectangle(-sign, of, [...new Set([piece.row, ...rows])]);
      this.#holes(index, piece, face, covers);
    }
  }

  #covers(index: number, piece: BoxPiece, face: Face): readonly Cover[] {
    const { pieces, cuts } = this.#lengths;
    const hidden = piece.joined.flatMap((at): Cover[] => {
      const other = this.#boxes.pieces[at];
      if (other === undefined) return [];
      const [own, its] = [pieces[index] ?? [], pieces[at] ?? []];
      const rectangle = rectangleOf(other, its, face.axis);
      if (shared(rectangleOf(piece, own, face.axis), rectangle, 0) !== undefined) {
        const side = face.axis + (face.isHigh ? 3 : 0);
        const place = [...piece.low, ...piece.high][side] ?? 0;
        for (const one of [face.axis, face.axis + 3]) {
          const isThere = Math.abs(([...other.low, ...other.high][one] ?? 0) - place) < SAME;
          if (isThere) this.#isFlush(own[side] ?? [], its[one] ?? []);
        }
      }
      return hides(other, piece, face) ? [{ ...rectangle, rows: [other.row] }] : [];
    });
    const cut = piece.cuts.flatMap((one, which): Cover[] => {
      if (one.cut.kind === 'hole') return [];
      if (!['groove', 'dado', 'rabbet'].includes(one.cut.kind)) this.#isWhole = false;
      if (!reaches(one, piece, face)) return [];
      const rectangle = rectangleOf(one, cuts[index]?.[which] ?? [], face.axis);
      return [{ ...rectangle, rows: this.#rowsOf(piece, one) }];
    });
    return [...hidden, ...cut];
  }

  /** Notes that two sides lie in one place. */
  #isFlush(one: Length, other: Length): void {
    const apart = one.map((times, cell) => clean(times - (other[cell] ?? 0)));
    const first = apart.find((times) => times !== 0);
    if (first === undefined) return;
    const own = apart.map((times) => (first < 0 ? clean(-times) : times));
    this.#flush.set(keyOf([own]), this.#shares(own));
  }

  /** The rows of what a cut was made for. */
  #rowsOf(piece: BoxPiece, { other }: BoxCut): readonly number[] {
    const rows = piece.joined.flatMap((at) => {
      const one = this.#boxes.pieces[at];
      return one?.name === other ? [one?.row ?? 0] : [];
    });
    return [...new Set(rows)];
  }

  #holes(index: number, piece: BoxPiece, face: Face, covers: readonly Cover[]): void {
    for (const hole of piece.cuts) {
      if (hole.cut.kind !== 'hole' || hole.rim === undefined || hole.axis !== face.axis) continue;
      const isThrough = hole.cut.depth === undefined;
      if (hole.isHigh !== face.isHigh && !isThrough) continue;
      // One bit drills both, and the thinner one is within the other.
      if (hole.what === ON_FROM_POCKET) continue;
      const rim = rectangleOf(hole.rim, [], face.axis);
      if (covers.some((one) => liesWithin(rim, one))) continue;
      if (covers.some((one) => shared(rim, one, 0) !== undefined)) this.#isWhole = false;
      else if ((hole.cut.lean ?? 0) === 0) this.#round(piece, hole);
      else this.#mouth(index, piece, hole);
    }
  }

  #round(piece: BoxPiece, hole: BoxCut): void {
    const diameter: TableCell = { table: 'joints', row: hole.row, head: 'diameter' };
    const count: TableCell = { table: 'joints', row: hole.row, head: 'count' };
    const many = numberIn(this.#tables, count);
    if (Number.isNaN(numberIn(this.#tables, diameter))) this.#isWhole = false;
    const extra = Number.isNaN(many) ? [] : [count];
    this.#add(`round ${hole.row}`, -1, [piece.row], extra, { kind: 'round', diameter });
  }

  /** The mouth of a pocket hole: of all along one joint, once for each. */
  #mouth(index: number, piece: BoxPiece, hole: BoxCut): void {
    const { cut } = hole;
    if (cut.kind !== 'hole') return;
    const touching = piece.joined.filter((at) => this.#boxes.pieces[at]?.name === hole.other);
    const all = piece.cuts.filter(
      (one) => one.row === hole.row && one.what === hole.what && one.other === hole.other,
    );
    if (all[0] !== hole) return;
    const has = (head: string): boolean =>
      !Number.isNaN(numberIn(this.#tables, { table: 'joints', row: hole.row, head }));
    if (has('count') || has('from end')) this.#isWhole = false;
    let drilled = 0;
    for (const at of touching) {
      const other = this.#boxes.pieces[at];
      if (other === undefined) continue;
      const [low, high] = [0, 1, 2]
        .map((axis) => axis)
        .reduce<readonly number[][]>(
          (ends, axis) => {
            ends[0]?.push(Math.max(piece.low[axis] ?? 0, other.low[axis] ?? 0));
            ends[1]?.push(Math.min(piece.high[axis] ?? 0, other.high[axis] ?? 0));
            return ends;
          },
          [[], []],
        );
      const flat = [0, 1, 2].find((axis) => (high?.[axis] ?? 0) - (low?.[axis] ?? 0) < SAME);
      const run = [0, 1, 2].find((axis) => axis !== flat && axis !== piece.thin);
      if (flat === undefined || run === undefined || flat === piece.thin) {
        this.#isWhole = false;
        continue;
      }
      const [own, its] = [this.#lengths.pieces[index] ?? [], this.#lengths.pieces[at] ?? []];
      const begins = (other.low[run] ?? 0) > (piece.low[run] ?? 0) + SAME ? its[run] : own[run];
      const ends =
        (other.high[run] ?? 0) < (piece.high[run] ?? 0) - SAME ? its[run + 3] : own[run + 3];
      const along = (ends ?? []).map((one, cell) => one - (begins?.[cell] ?? 0));
      const long = lengthNow(along, this.#lengths.values);
      drilled += usualCount(long, usualFromEnd(long));
      const each = roundArea(cut.diameter) / Math.cos(((cut.lean ?? 0) * Math.PI) / 180);
      const shares = this.#shares(along);
      const key = `mouths ${hole.row} ${along.join()}`;
      this.#add(key, -1, [piece.row, other.row], [], { kind: 'mouths', each, along: shares });
    }
    if (drilled !== all.length) this.#isWhole = false;
  }

  #rectangle(sign: number, { low, high }: Rectangle, rows: readonly number[]): void {
    const sides = [low[0], high[0], low[1], high[1]];
    if (sides.some(({ lengths }) => lengths.length > 1)) {
      // Counted from one of them, most cells go out.
      const stretch = (axis: 0 | 1) => {
        const [first = []] = low[axis].lengths;
        const on = (one: Length): Length =>
          one.map((times, cell) => clean(times - (first[cell] ?? 0)));
        return { from: low[axis].lengths.map(on), to: high[axis].lengths.map(on) };
      };
      const both = [stretch(0), stretch(1)] as const;
      const key = both.map(({ from, to }) => `${keyOf(from)} to ${keyOf(to)}`).join(' by ');
      const along = both.map(
        ({ from, to }): Stretch => ({
          from: from.map((one) => this.#shares(one)),
          to: to.map((one) => this.#shares(one)),
        }),
      );
      const [one = NOWHERE, other = NOWHERE] = along;
      this.#add(`shared ${key}`, sign, rows, [], { kind: 'shared', along: [one, other] });
      return;
    }
    const long = (axis: 0 | 1): Length =>
      (high[axis].lengths[0] ?? []).map((one, cell) =>
        clean(one - (low[axis].lengths[0]?.[cell] ?? 0)),
      );
    const product = multiplied(long(0), long(1));
    const key = product.map((one) => one.map((number) => number.toFixed(6)).join()).join(' ');
    this.#add(key, sign, rows, [], { kind: 'product', of: product });
  }

  #shares(length: Length): readonly Share[] {
    return length.flatMap((times, cell): Share[] => {
      const of = this.#lengths.cells[cell];
      return clean(times) === 0 || of === undefined ? [] : [{ times, cell: of }];
    });
  }

  #add(
    key: string,
    many: number,
    rows: readonly number[],
    extra: readonly TableCell[],
    of: Item['of'],
  ): void {
    const own = [...rows].sort((a, b) => a - b);
    const whole = `${key} of ${own.join()}`;
    const known = this.#items.get(whole);
    if (known === undefined) this.#items.set(whole, { many, rows: own, extra, of });
    else known.many += many;
  }
}

const NOWHERE: Stretch = { from: [], to: [] };

const keyOf = (lengths: readonly Length[]): string =>
  lengths.map((one) => one.map((times) => times.toFixed(6)).join()).join(' or ');

/** What is left of 0 by rounding is none. */
const clean = (value: number): number => (Math.abs(value) < 1e-9 ? 0 : value);

/** Two sums of cells multiplied: each pair of cells once. */
function multiplied(u: Length, v: Length): readonly (readonly [number, number, number])[] {
  const found = new Map<string, [number, number, number]>();
  for (const [i, a] of u.entries()) {
    if (a === 0) continue;
    for (const [j, b] of v.entries()) {
      if (b === 0) continue;
      const [one, other] = i < j ? [i, j] : [j, i];
      const known = found.get(`${one} ${other}`);
      if (known === undefined) found.set(`${one} ${other}`, [one, other, a * b]);
      else known[2] += a * b;
    }
  }
  return [...found.values()].filter(([, , times]) => clean(times) !== 0);
}

/** The area of a drilled hole, mm², by the flat facets that it is told by. */
function roundArea(diameter: number): number {
  const sides = 4 * quarterFacets(diameter);
  return ((diameter / 2) ** 2 / 2) * sides * Math.sin((2 * Math.PI) / sides);
}

const quarterFacets = (diameter: number): number => {
  const radius = diameter / 2;
  const step = HOLE_TOLERANCE >= radius ? Math.PI : 2 * Math.acos(1 - HOLE_TOLERANCE / radius);
  return Math.max(3, Math.ceil(Math.PI / 2 / step - 1e-9));
};

interface CountedOut {
  readonly terms: readonly AreaTerm[];
  /** Counts that terms rest on without saying so. */
  readonly asNow: readonly TableCell[];
}

const counted = (counts: readonly TableCell[], tables: Tables): number =>
  counts.reduce((product, cell) => product * numberIn(tables, cell), 1);

const countCells = (rows: readonly number[], tables: Tables): readonly TableCell[] =>
  rows
    .map((row): TableCell => ({ table: 'parts', row, head: 'count' }))
    .filter((cell) => !Number.isNaN(numberIn(tables, cell)));

/** All items as terms: how many there are follows from how many pieces of its rows there are. */
function countedOut(
  { items, cells }: { readonly items: readonly Item[]; readonly cells: readonly TableCell[] },
  tables: Tables,
): CountedOut | undefined {
  const terms: AreaTerm[] = [...boxTerms(tables)];
  const asNow: TableCell[] = [];
  for (const { many, rows, extra, of } of items) {
    if (many === 0) continue;
    const counts = countsOf(many, rows, extra, tables);
    // Of pieces of one row one meets another in its own way.
    if (counts === undefined) asNow.push(...countCells(rows, tables), ...extra);
    const times = many / counted(counts ?? [], tables);
    if (of.kind !== 'product') {
      terms.push({ ...of, times, counts: counts ?? [] });
      continue;
    }
    for (const [one, other, share] of of.of) {
      const sides = [cells[one], cells[other]] as const;
      if (sides[0] === undefined || sides[1] === undefined) return undefined;
      terms.push({
        kind: 'rectangle',
        times: times * share,
        counts: counts ?? [],
        sides: [sides[0], sides[1]],
      });
    }
  }
  return { terms: together(terms), asNow };
}

/** Of the counts of rows those that go into so many: of several the ones that come to most. */
function countsOf(
  many: number,
  rows: readonly number[],
  extra: readonly TableCell[],
  tables: Tables,
): readonly TableCell[] | undefined {
  let some: readonly (readonly TableCell[])[] = [[]];
  for (const cell of countCells(rows, tables)) {
    some = some.concat(some.map((set) => [...set, cell]));
  }
  return some
    .filter((set) => set.length > 0 || extra.length > 0 || rows.length === 0)
    .map((set) => ({ set: [...set, ...extra], product: counted([...set, ...extra], tables) }))
    .sort((a, b) => b.product - a.product || b.set.length - a.set.length)
    .find(({ product }) => product > 0 && Number.isInteger(many / product))?.set;
}

/** All six faces of every piece, also of rows that count none. */
function boxTerms({ parts }: Tables): readonly AreaTerm[] {
  return parts.rows.flatMap((one, row): AreaTerm[] => {
    const sizes = ['thickness', 'width', 'length'].filter((head) => typeof one[head] === 'number');
    if (sizes.length < 3) return [];
    const cell = (head: string): TableCell => ({ table: 'parts', row, head });
    const counts = typeof one.count === 'number' ? [cell('count')] : [];
    const term = (a: string, b: string): AreaTerm => ({
      kind: 'rectangle',
      times: 2,
      counts,
      sides: [cell(a), cell(b)],
    });
    return [term('width', 'length'), term('thickness', 'length'), term('thickness', 'width')];
  });
}

const nameOf = ({ table, row, head }: TableCell): string => `${table} ${row} ${head}`;

function whatOf(term: AreaTerm): string {
  if (term.kind === 'rectangle') return term.sides.map(nameOf).sort().join();
  if (term.kind === 'round') return nameOf(term.diameter);
  const said = (shares: readonly Share[]): string =>
    shares.map(({ times, cell }) => `${times} ${nameOf(cell)}`).join();
  if (term.kind === 'mouths') return said(term.along);
  return term.along
    .map(({ from, to }) => `${from.map(said).join(' or ')} to ${to.map(said).join(' or ')}`)
    .join(' by ');
}

/** Terms of the same cells as one. */
function together(terms: readonly AreaTerm[]): readonly AreaTerm[] {
  const found = new Map<string, AreaTerm>();
  for (const term of terms) {
    const key = `${term.kind} ${term.counts.map(nameOf).sort().join()} ${whatOf(term)}`;
    const known = found.get(key);
    found.set(key, known === undefined ? term : { ...known, times: known.times + term.times });
  }
  return [...found.values()].filter(({ times }) => clean(times) !== 0);
}

/** What a sum comes to with other numbers in both tables, in²; undefined where it is not about those. */
export function areaNow(sum: AreaSum, was: Tables, now: Tables): number | undefined {
  const isOther = sum.fixed.some((cell) => numberIn(now, cell) !== numberIn(was, cell));
  const isLess = sum.least.some((cell) => numberIn(now, cell) < numberIn(was, cell) - 1e-6);
  const isApart = sum.flush.some((shares) => {
    const inches = shares.reduce((all, { times, cell }) => all + times * numberIn(now, cell), 0);
    return Math.abs(inches) > FLUSH;
  });
  return isOther || isLess || isApart ? undefined : comesTo(sum.terms, now);
}

/** What terms come to, in². */
function comesTo(terms: readonly AreaTerm[], tables: Tables): number {
  let mm2 = 0;
  const length = (cell: TableCell): number => numberIn(tables, cell) * MM_PER_INCH;
  const added = (shares: readonly Share[]): number =>
    shares.reduce((sum, { times, cell }) => sum + times * length(cell), 0);
  const stretch = ({ from, to }: Stretch): number =>
    Math.max(0, Math.min(...to.map(added)) - Math.max(...from.map(added)));
  const one = (term: AreaTerm): number => {
    switch (term.kind) {
      case 'rectangle':
        return length(term.sides[0]) * length(term.sides[1]);
      case 'shared':
        return stretch(term.along[0]) * stretch(term.along[1]);
      case 'round':
        return roundArea(length(term.diameter));
      case 'mouths': {
        const long = added(term.along);
        return term.each * usualCount(long, usualFromEnd(long));
      }
    }
  };
  for (const term of terms) mm2 += term.times * counted(term.counts, tables) * one(term);
  return mm2 / MM_PER_INCH ** 2;
}

const areaOf = ({ parts, joints }: Tables): number => partsArea(parts, undefined, joints);

const isNear = (one: number, area: number): boolean => Math.abs(one - area) <= NEAR * area;

/** What must stay as it is: counts with one more of which the sum does not come to the same, or that cannot be tried. */
function boundsOf(
  { terms, asNow }: CountedOut,
  tables: Tables,
  { pieces }: Boxes,
): Pick<AreaSum, 'fixed' | 'least'> {
  const joined = new Set(
    pieces.filter(({ cuts, joined: to }) => cuts.length + to.length > 0).map(({ row }) => row),
  );
  const named = (cells: readonly TableCell[]) => new Map(cells.map((cell) => [nameOf(cell), cell]));
  const certain = named(asNow);
  const fixed = [...named(terms.flatMap(({ counts }) => counts)).values()].filter((cell) => {
    if (certain.has(nameOf(cell)) || (cell.table === 'parts' && !joined.has(cell.row)))
      return false;
    try {
      const more = withMore(tables, [cell], [1]);
      return !isNear(comesTo(terms, more), areaOf(more));
    } catch (error) {
      if (error instanceof Fault) return true;
      throw error;
    }
  });
  const mouths = terms.filter(({ kind }) => kind === 'mouths').flatMap(({ counts }) => counts);
  const least = named(mouths.map(({ row }) => ({ table: 'parts', row, head: 'thickness' })));
  return { fixed: [...certain.values(), ...fixed], least: [...least.values()] };
}
