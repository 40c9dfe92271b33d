import type {
  BookDocument,
  CellDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
  TableDocument,
} from '../format/schema.ts';
import { freshId, type MakeId } from '../state/ids.ts';
import type { Placed } from './refer.ts';

/** A table of known heads on its sheet. */
interface Standing {
  readonly table: TableDocument;
  readonly sheet: SheetDocument;
  readonly header: RowDocument;
  /** Under the header, the last one included. */
  readonly rows: readonly RowDocument[];
  /** Ids of its columns by their heads, in the order of the columns. */
  readonly heads: ReadonlyMap<string, string>;
}

/** How the rows of a table of one workbook go into the table of the same kind of another. */
export interface TableMove {
  /** Id of the sheet they leave, as the workbook that comes in has it. */
  readonly from: string;
  /** The sheet they go to, made ready for them: with the columns that it lacked. */
  readonly sheet: SheetDocument;
  /** The table they go into. */
  readonly into: TableDocument;
  /** Rows that come in, with their ids there; their cells as they were, by the columns there. */
  readonly coming: readonly RowDocument[];
  /** Rows there that one that comes in takes the place of: by the id there, the cells that come. */
  readonly taken: ReadonlyMap<string, Readonly<Record<string, CellDocument>>>;
  /** What stands over the columns that are new there, as it was. */
  readonly heads: Readonly<Record<string, CellDocument>>;
  /** Ids there by the ids of the rows that leave. */
  readonly rows: ReadonlyMap<string, string>;
  /** The same of columns. */
  readonly columns: ReadonlyMap<string, string>;
  /** Parts that both have. */
  readonly twice: readonly string[];
  /** Where a reference to the table that goes points from now on; nothing where it is to something else. */
  readonly moved: (reference: Placed) => Placed | undefined;
  /** A reference of the workbook there to its whole table, made as wide as that has become. */
  readonly widened: (reference: Placed) => Placed;
}

/**
 * Rows of the tables of `other` that go into tables of `book`: of each kind the first.
 * @param beside a workbook whose ids are taken too
 */
export function tableMoves(
  book: BookDocument,
  other: BookDocument,
  make: MakeId,
  beside: BookDocument,
): readonly TableMove[] {
  const kinds = new Set(other.tables.map(({ kind }) => kind));
  const sheets = new Map(book.sheets.map((sheet) => [sheet.id, sheet]));
  return [...kinds].flatMap((kind) => {
    const there = standing(book, kind, sheets);
    const leaves = standing(other, kind, new Map(other.sheets.map((one) => [one.id, one])));
    if (there === undefined || leaves === undefined) return [];
    const also = beside.sheets.find(({ id }) => id === there.sheet.id);
    const move = tableMove(there, leaves, make, also);
    // Two tables may stand on one sheet: the second is moved to what the first made of it.
    sheets.set(move.sheet.id, move.sheet);
    return [move];
  });
}

function standing(
  book: BookDocument,
  kind: TableDocument['kind'],
  sheets: ReadonlyMap<string, SheetDocument>,
): Standing | undefined {
  const table = book.tables.find((one) => one.kind === kind);
  const sheet = table && sheets.get(table.sheet);
  if (table === undefined || sheet === undefined) return undefined;
  const [first, last] = [table.header, table.last].map((id) =>
    sheet.rows.findIndex((row) => row.id === id),
  );
  const header = sheet.rows[first ?? -1];
  if (header === undefined || last === undefined) return undefined;
  const heads = new Map<string, string>();
  for (const { id } of sheet.columns) {
    const head = wordsOf(header.cells?.[id]);
    if (head !== '' && !heads.has(head)) heads.set(head, id);
  }
  return { table, sheet, header, heads, rows: sheet.rows.slice((first ?? 0) + 1, last + 1) };
}

const wordsOf = (cell: CellDocument | undefined): string =>
  typeof cell?.value === 'string' && cell.formula === undefined
    ? cell.value.trim().toLowerCase()
    : '';

function tableMove(
  there: Standing,
  leaves: Standing,
  make: MakeId,
  also: SheetDocument | undefined,
): TableMove {
  const { columns, sheet, heads } = withColumns(there, leaves, make, also);
  const taken = new Map<string, Readonly<Record<string, CellDocument>>>();
  const rows = new Map([[leaves.table.header, there.table.header]]);
  const coming: RowDocument[] = [];
  const twice: string[] = [];
  const ids = new Set([...sheet.rows, ...(also?.rows ?? [])].map(({ id }) => id));
  const known = new Map(there.rows.map((row) => [nameIn(row, there), row]));
  for (const row of leaves.rows) {
    if (Object.keys(row.cells ?? {}).length === 0) continue;
    const cells = byColumns(row.cells ?? {}, columns);
    const name = nameIn(row, leaves);
    const same = name === '' ? undefined : known.get(name);
    const fate = same === undefined ? 'comes' : fateOf(row, same, leaves, there);
    if (same !== undefined && fate !== 'comes') {
      rows.set(row.id, same.id);
      if (fate === 'takes') taken.set(same.id, cells);
      continue;
    }
    if (same !== undefined && leaves.table.kind === 'parts') twice.push(shownName(row, leaves));
    const id = ids.has(row.id) ? freshId(make, 'r', (one) => ids.has(one)) : row.id;
    ids.add(id);
    rows.set(row.id, id);
    coming.push({ ...row, id, cells });
  }
  const end = headedLast(sheet, { ...there.header.cells, ...heads });
  // The last row stands for the end of the table, whatever it holds.
  if (!rows.has(leaves.table.last)) rows.set(leaves.table.last, there.table.last);
  return {
    from: leaves.sheet.id,
    sheet,
    into: there.table,
    coming,
    taken,
    heads,
    rows,
    columns,
    twice,
    moved: (reference) => movedReference(reference, { there, leaves, end, rows, columns }),
    widened: (reference) => widenedReference(reference, there, end),
  };
}

/** The sheet with the columns that the table lacked, and where each column of the one that leaves is there. */
function withColumns(
  there: Standing,
  leaves: Standing,
  make: MakeId,
  also: SheetDocument | undefined,
) {
  const columns = new Map<string, string>();
  const added: ColumnDocument[] = [];
  const heads: Record<string, CellDocument> = {};
  const ids = new Set([...there.sheet.columns, ...(also?.columns ?? [])].map(({ id }) => id));
  const headOf = new Map([...leaves.heads].map(([head, id]) => [id, head]));
  for (const column of leaves.sheet.columns) {
    const head = headOf.get(column.id);
    const known = head === undefined ? undefined : there.heads.get(head);
    if (known !== undefined) {
      columns.set(column.id, known);
      continue;
    }
    const cell = leaves.header.cells?.[column.id];
    if (head === undefined && !leaves.rows.some((row) => row.cells?.[column.id])) continue;
    const id = ids.has(column.id) ? freshId(make, 'c', (one) => ids.has(one)) : column.id;
    ids.add(id);
    columns.set(column.id, id);
    added.push({ ...column, id });
    if (cell !== undefined) heads[id] = cell;
  }
  const sheet: SheetDocument =
    added.length === 0
      ? there.sheet
      : { ...there.sheet, columns: [...there.sheet.columns, ...added] };
  return { columns, sheet, heads };
}

const byColumns = (
  cells: Readonly<Record<string, CellDocument>>,
  columns: ReadonlyMap<string, string>,
): Record<string, CellDocument> =>
  Object.fromEntries(Object.entries(cells).map(([id, cell]) => [columns.get(id) ?? id, cell]));

/** What a row is of: its first headed column, joints have none since two of a kind are two. */
function nameIn(row: RowDocument, { table, heads }: Standing): string {
  if (table.kind === 'joints') return '';
  const [first] = heads.values();
  const name = first === undefined ? '' : wordsOf(row.cells?.[first]);
  if (table.kind === 'prices') return name === '' ? '' : pricedIn(row, name, heads);
  if (table.kind !== 'stock') return name;
  if (name === '') return first === undefined ? '' : saidIn(row, first, heads);
  // One name of stock may be sold in several woods.
  const wood = row.cells?.[heads.get('material') ?? ''];
  return `${name}\n${wood?.formula ?? wordsOf(wood)}`;
}

/** What a row of a price list is for: a wood has a price for each thickness and grade. */
const pricedIn = (row: RowDocument, name: string, heads: Standing['heads']): string =>
  [
    name,
    ...['thickness', 'grade', 'per'].map((head) =>
      String(row.cells?.[heads.get(head) ?? '']?.value ?? '')
        .trim()
        .toLowerCase(),
    ),
  ].join('\n');

/** Stock whose name is worked out is the same where all that is said of it is. */
function saidIn(row: RowDocument, first: string, heads: Standing['heads']): string {
  if (row.cells?.[first]?.formula === undefined) return '';
  const said = [...heads].map(([head, id]) => {
    const { formula, value } = row.cells?.[id] ?? {};
    return `${head} ${formula ?? value ?? ''}`.trim().toLowerCase();
  });
  return said.sort().join('\n');
}

function shownName(row: RowDocument, { heads }: Standing): string {
  const [first] = heads.values();
  return String(row.cells?.[first ?? '']?.value ?? '');
}

/**
 * What becomes of a row whose name is there already. A part counted 0 stands in for one of another workbook,
 * so that others find their places by it, and gives way to the true one; of stock and of the maker's own
 * woods, screws, finishes and prices that of the workbook they come into counts.
 */
function fateOf(
  row: RowDocument,
  same: RowDocument,
  leaves: Standing,
  there: Standing,
): 'comes' | 'stays' | 'takes' {
  // A cell with a name may be used elsewhere: its row is not let go.
  if (leaves.table.kind !== 'parts') return isNamed(row) ? 'comes' : 'stays';
  if (standsIn(row, leaves)) return 'stays';
  return standsIn(same, there) ? 'takes' : 'comes';
}

function standsIn(row: RowDocument, { heads }: Standing): boolean {
  const count = row.cells?.[heads.get('count') ?? ''];
  return count?.value === 0 && count.formula === undefined && !isNamed(row);
}

const isNamed = ({ cells = {} }: RowDocument): boolean =>
  Object.values(cells).some(({ name }) => name !== undefined);

interface Moving {
  readonly there: Standing;
  readonly leaves: Standing;
  /** The last column with a head there. */
  readonly end: string | undefined;
  readonly rows: ReadonlyMap<string, string>;
  readonly columns: ReadonlyMap<string, string>;
}

const headedLast = (
  { columns }: SheetDocument,
  heads: Readonly<Record<string, CellDocument>>,
): string | undefined => columns.findLast(({ id }) => wordsOf(heads[id]) !== '')?.id;

const endOf = ({ sheet, header }: Standing): string | undefined =>
  headedLast(sheet, header.cells ?? {});

const isWhole = ({ from, to }: Placed, { table }: Standing): boolean =>
  from.row === table.header && to?.row === table.last;

function movedReference(reference: Placed, moving: Moving): Placed | undefined {
  const { there, leaves, end, rows, columns } = moving;
  const { from, to } = reference;
  if (reference.sheet !== leaves.sheet.id) return undefined;
  const row = (id: string | undefined): string | null | undefined =>
    id === undefined ? undefined : (rows.get(id) ?? null);
  const column = (id: string | undefined): string | null | undefined =>
    id === undefined ? undefined : (columns.get(id) ?? null);
  const whole = isWhole(reference, leaves);
  const next = {
    fromRow: row(from.row),
    fromColumn: column(from.column),
    toRow: whole ? there.table.last : row(to?.row),
    toColumn: whole && to?.column === endOf(leaves) ? end : column(to?.column),
  };
  if (Object.values(next).includes(null)) return undefined;
  return {
    sheet: there.sheet.id,
    from: withIds(from, next.fromRow, next.fromColumn),
    ...(to === undefined ? {} : { to: withIds(to, next.toRow, next.toColumn) }),
  };
}

type Corner = Placed['from'];

const withIds = (
  corner: Corner,
  row: string | null | undefined,
  column: string | null | undefined,
): Corner => ({
  ...corner,
  ...(row == null ? {} : { row }),
  ...(column == null ? {} : { column }),
});

function widenedReference(reference: Placed, there: Standing, end: string | undefined): Placed {
  const { to } = reference;
  if (to === undefined || end === undefined || reference.sheet !== there.sheet.id) return reference;
  if (!isWhole(reference, there) || to.column !== endOf(there)) return reference;
  return { ...reference, to: { ...to, column: end } };
}
