import type { Node } from '@kerfbook/document';
import { ourFunction } from '@kerfbook/functions';
import {
  type AreaSum,
  type AreaTerm,
  areaSum,
  HOLE_TOLERANCE,
  type Share,
  type Stretch,
  type TableCell,
  USUAL_APART,
} from '@kerfbook/functions/finished-area';
import { type TableArgument, type UnitSystem, usFromOwn } from '@kerfbook/wood';
import { placedForm } from './standard-forms.ts';
import type { TableColumn, TableSource } from './table-forms.ts';

/** A table as the function is given it, and where its cells are. */
interface ReadTable {
  readonly argument: TableArgument;
  readonly columns: ReadonlyMap<string, TableColumn>;
  /** A cell by the row that the argument has, and the head of its column. */
  cell(row: number, head: string): Node | undefined;
  isTyped(row: number, head: string): boolean;
}

/** Columns whose words decide what meets what. */
const WORDS = {
  parts: ['part', 'place', 'turn'],
  joints: ['joint', 'part', 'into', 'face'],
} as const;
/** What decides nothing. */
const EITHER = 'material';

const MM_PER_INCH = 25.4;

/** How long the sum holds, for its remark. */
export const AREA_HOLDS =
  'It follows sizes. Once parts or joints in its tables are others it is #N/A: change those in the workbook, and export it again.';

/**
 * PARTS_AREA with its joints as a sum over the cells of both tables, so that other sizes are followed; undefined where
 * there is none. It holds for the words, and for the numbers that are filled in, of the moment it is written: with
 * others it is #N/A.
 */
export function areaForm(
  name: string,
  args: readonly Node[],
  system: UnitSystem,
  source: TableSource,
): Node | undefined {
  const [parts, part, joints, ...more] = args;
  if (name !== 'PARTS_AREA' || parts === undefined || joints === undefined) return undefined;
  if (part?.kind !== 'nothing' || joints.kind === 'nothing' || more.length > 0) return undefined;
  const tables = {
    parts: readTable(parts, 0, system, source),
    joints: readTable(joints, 2, system, source),
  };
  if (tables.parts === undefined || tables.joints === undefined) return undefined;
  const read = { parts: tables.parts, joints: tables.joints };
  const asked = {
    parts: read.parts.argument,
    joints: read.joints.argument,
    isTyped: ({ table, row, head }: TableCell) => read[table].isTyped(row, head),
  };
  const letters = (node: Node | undefined): number =>
    node === undefined ? 0 : source.lettersOf(node);
  const words = letters(othersThan({ fixed: [], least: [], flush: [] }, read, system));
  const sum = areaSum(
    asked,
    (terms) => words + letters(summed(terms, read, system)) <= MOST_LETTERS,
  );
  const whole = sum && summed(sum.terms, read, system);
  const other = sum && othersThan(sum, read, system);
  if (whole === undefined || other === undefined) return undefined;
  const isAsNow: Node = { kind: 'joined', sign: '=', left: other, right: number(0) };
  return call('IF', isAsNow, whole, call('NA'));
}

/** How far apart sides are that are flush. */
const FLUSH: Readonly<Record<UnitSystem, string>> = { us: '1E-4', metric: '2.54E-3' };
/** Other programs read 8,192 letters; there has to be room for what must stay as it is. */
const MOST_LETTERS = 7_600;

type Read = Readonly<Record<'parts' | 'joints', ReadTable>>;

/** Going through inches and back leaves noise in the last digits. */
const clean = (value: number): number => Number(value.toPrecision(14));
const number = (value: number): Node => ({ kind: 'number', value: clean(value) });
const call = (name: string, ...args: readonly Node[]): Node => ({ kind: 'call', name, args });
const joined = (left: Node, sign: '+' | '-' | '*' | '<>', right: Node): Node => ({
  kind: 'joined',
  sign,
  left,
  right,
});
const bracket = (of: Node): Node => ({ kind: 'bracket', of });
const product = (nodes: readonly Node[]): Node =>
  nodes.reduce((left, right) => joined(left, '*', right));

function readTable(
  node: Node,
  at: number,
  system: UnitSystem,
  source: TableSource,
): ReadTable | undefined {
  const columns = source.columnsOf(node);
  const described = ourFunction('PARTS_AREA')?.args[at]?.columns ?? [];
  if (columns === undefined) return undefined;
  const cells = new Map([...columns].map(([head, column]) => [head, column.cells()]));
  const many = Math.max(0, ...[...cells.values()].map(({ length }) => length));
  const rows: Record<string, number | string>[] = [];
  const places: number[] = [];
  for (let line = 0; line < many; line += 1) {
    const row: Record<string, number | string> = {};
    for (const { heads, quantity } of described) {
      const value = cells.get(heads)?.[line]?.value;
      if (value === undefined || value.kind === 'empty') continue;
      if (value.kind === 'number') row[heads] = usFromOwn(quantity, value.number, system);
      else if (value.kind !== 'text') return undefined;
      else if (value.text.trim() !== '') row[heads] = value.text.trim();
    }
    if (Object.keys(row).length === 0) continue;
    rows.push(row);
    places.push(line);
  }
  const heads = described.flatMap((one) => (columns.has(one.heads) ? [one.heads] : []));
  return {
    argument: { heads, rows, units: system },
    columns,
    cell: (row, head) => cells.get(head)?.[places[row] ?? -1]?.cell,
    isTyped: (row, head) => cells.get(head)?.[places[row] ?? -1]?.isTyped === true,
  };
}

/** The cells of a term, each in its place; undefined where one is not there. */
const cellIn = (read: Read, { table, row, head }: TableCell): Node | undefined =>
  read[table].cell(row, head);

/** Something that is taken so often. */
interface Some {
  readonly times: number;
  readonly of: Node;
}

/** All of them added up. */
function addedUp(all: readonly Some[]): Node {
  let whole: Node | undefined;
  for (const { times, of } of all) {
    const many = Math.abs(times);
    const one = many === 1 ? of : joined(number(many), '*', of);
    if (whole !== undefined) whole = joined(whole, times < 0 ? '-' : '+', one);
    else whole = times < 0 ? { kind: 'sign', sign: '-', of: one } : one;
  }
  return whole ?? number(0);
}

/** All terms, those of the same counts together. */
function summed(terms: readonly AreaTerm[], read: Read, system: UnitSystem): Node | undefined {
  const groups = new Map<string, AreaTerm[]>();
  for (const term of terms) {
    const key = term.counts.map(({ table, row }) => `${table} ${row}`).join();
    groups.set(key, [...(groups.get(key) ?? []), term]);
  }
  const found: Some[] = [];
  for (const group of groups.values()) {
    const counts = (group[0]?.counts ?? []).map((cell) => cellIn(read, cell));
    const others = group.flatMap((term) => {
      const of = term.kind === 'rectangle' ? undefined : termNode(term, read, system);
      return term.kind === 'rectangle' ? [] : [{ times: term.times, of }];
    });
    const rectangles = group.filter((term) => term.kind === 'rectangle');
    const all = [...factored(rectangles, read), ...others];
    const known = all.flatMap(({ times, of }): Some[] => (of === undefined ? [] : [{ times, of }]));
    if (known.length < all.length || !isWhole(counts)) return undefined;
    found.push({ times: 1, of: product([...counts, bracket(addedUp(known))]) });
  }
  return addedUp(found);
}

type RectangleTerm = Extract<AreaTerm, { readonly kind: 'rectangle' }>;

const keyOf = ({ table, row, head }: TableCell): string => `${table} ${row} ${head}`;

/** Rectangles with a side in common, as that side times the others: it is shorter, and easier to read. */
function factored(rectangles: readonly RectangleTerm[], read: Read) {
  const found: { readonly times: number; readonly of: Node | undefined }[] = [];
  let left = rectangles;
  while (left.length > 0) {
    const often = new Map<string, { many: number; readonly cell: TableCell }>();
    for (const { sides } of left) {
      for (const cell of new Map(sides.map((one) => [keyOf(one), one])).values()) {
        const known = often.get(keyOf(cell)) ?? { many: 0, cell };
        known.many += 1;
        often.set(keyOf(cell), known);
      }
    }
    const [most] = [...often.values()].sort((one, other) => other.many - one.many);
    const key = most === undefined ? '' : keyOf(most.cell);
    const own = left.filter(({ sides }) => sides.some((cell) => keyOf(cell) === key));
    left = left.filter((one) => !own.includes(one));
    const side = most && cellIn(read, most.cell);
    const across = own.map(({ times, sides: [one, other] }) => ({
      times,
      of: cellIn(read, keyOf(one) === key ? other : one),
    }));
    const [only] = across;
    const known = across.flatMap(({ times, of }) => (of === undefined ? [] : [{ times, of }]));
    if (side === undefined || known.length < across.length) return [{ times: 1, of: undefined }];
    if (across.length === 1 && only?.of !== undefined) {
      found.push({ times: only.times, of: product([side, only.of]) });
    } else found.push({ times: 1, of: product([side, bracket(addedUp(known))]) });
  }
  return found;
}

function termNode(term: AreaTerm, read: Read, system: UnitSystem): Node | undefined {
  const own = system === 'us' ? 1 / MM_PER_INCH : 1;
  if (term.kind === 'rectangle') {
    const sides = term.sides.map((cell) => cellIn(read, cell));
    return isWhole(sides) ? product(sides) : undefined;
  }
  if (term.kind === 'round') {
    // As many flat facets to a quarter as keep within the tolerance of a drilled hole.
    const facets = `MAX(3,ROUNDUP(PI()/4/ACOS(1-${clean(2 * HOLE_TOLERANCE * own)}/a)-1E-9,0))`;
    const cell = cellIn(read, term.diameter);
    return placedForm(`a^2/2*${facets}*SIN(PI()/2/${facets})`, [cell]);
  }
  if (term.kind === 'shared') {
    const stretches = term.along.map((one) => stretchNode(one, read));
    return isWhole(stretches) ? product(stretches) : undefined;
  }
  const along = addedNode(term.along, read);
  const { most, fromEnd, share } = USUAL_APART;
  const spared = `2*MIN(${clean(fromEnd * own)},a*${share})`;
  const each = clean(term.each * own ** 2);
  return placedForm(`${each}*(ROUNDUP(ROUND(MAX(0,a-${spared})/${clean(most * own)},9),0)+1)`, [
    along,
  ]);
}

/** Cells added up. */
function addedNode(shares: readonly Share[], read: Read): Node | undefined {
  const all = shares.flatMap(({ times, cell }): Some[] => {
    const of = cellIn(read, cell);
    return of === undefined ? [] : [{ times, of }];
  });
  return all.length < shares.length ? undefined : addedUp(all);
}

/** From the highest of places to the lowest of others, and never less than nothing. */
function stretchNode({ from, to }: Stretch, read: Read): Node | undefined {
  const places = (all: Stretch['from'], name: string): Node | undefined => {
    const nodes = all.map((shares) => addedNode(shares, read));
    if (!isWhole(nodes)) return undefined;
    const [only] = nodes;
    return nodes.length === 1 && only !== undefined ? bracket(only) : call(name, ...nodes);
  };
  const [high, low] = [places(to, 'MIN'), places(from, 'MAX')];
  if (high === undefined || low === undefined) return undefined;
  return call('MAX', number(0), joined(high, '-', low));
}

/** How many things are otherwise than at the moment: words, cells with a number, counts, and lengths that are less. */
function othersThan(
  sum: Pick<AreaSum, 'fixed' | 'least' | 'flush'>,
  read: Read,
  system: UnitSystem,
): Node | undefined {
  const found: (Node | undefined)[] = [];
  for (const table of ['parts', 'joints'] as const) {
    const { columns } = read[table];
    for (const head of WORDS[table]) {
      const column = columns.get(head);
      if (column === undefined) continue;
      const words = column
        .cells()
        .map(({ value }) => [
          { kind: 'text' as const, value: value.kind === 'text' ? value.text : '' },
        ]);
      const differs = bracket(joined(column.range, '<>', { kind: 'array', rows: words }));
      found.push(call('SUMPRODUCT', joined(number(1), '*', differs)));
    }
    for (const head of read[table].argument.heads) {
      const column = columns.get(head);
      const isWords = head === EITHER || (WORDS[table] as readonly string[]).includes(head);
      if (column === undefined || isWords) continue;
      const filled = column.cells().filter(({ value }) => value.kind === 'number').length;
      found.push(bracket(joined(call('COUNT', column.range), '<>', number(filled))));
    }
  }
  for (const cell of sum.fixed) {
    const now = read[cell.table].argument.rows[cell.row]?.[cell.head];
    const node = cellIn(read, cell);
    found.push(
      node === undefined || typeof now !== 'number'
        ? undefined
        : bracket(joined(node, '<>', number(now))),
    );
  }
  for (const cell of sum.least) {
    const now = read[cell.table].argument.rows[cell.row]?.[cell.head];
    const own = typeof now === 'number' ? now * (system === 'us' ? 1 : MM_PER_INCH) : undefined;
    found.push(placedForm(`(ROUND(a-${clean(own ?? 0)},6)<0)`, [cellIn(read, cell)]));
  }
  for (const shares of sum.flush) {
    const apart = addedNode(shares, read);
    found.push(placedForm(`(ABS(a)>${FLUSH[system]})`, [apart]));
  }
  const all: readonly (Node | undefined)[] = found;
  return isWhole(all) ? all.reduce((left, right) => joined(left, '+', right)) : undefined;
}

const isWhole = (nodes: readonly (Node | undefined)[]): nodes is readonly Node[] =>
  !nodes.includes(undefined);
