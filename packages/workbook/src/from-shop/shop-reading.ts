import type { At } from '@kerfbook/document';
import { OWN_TABLES, type OwnKind } from '@kerfbook/wood';
import type { CellView, OpenWorkbook, TableView } from '../api.ts';
import { SHOP_NAMES } from './shop-names.ts';

/** A kind of row that a shop has and a workbook may lack. */
export type RowKind = OwnKind | 'price' | 'rack';

/** A row of a list that is the shop's: a wood with its figures or its price, a board on the rack. */
export interface ShopRow {
  /** The same for the same row in every workbook. */
  readonly key: string;
  /** Which list it is of. */
  readonly kind: RowKind;
  /** What it goes by: a wood, a gauge, what the board is called. */
  readonly name: string;
  /** The wood that the workbook has to be of for it to count. */
  readonly wood: string;
  /** Where its name stands. */
  readonly at: At;
  /** Its cells that hold something, by the words at their heads, the name first. */
  readonly cells: ReadonlyMap<string, CellView>;
}

/** A list of such rows as it stands in a workbook. */
export interface ShopList {
  readonly kind: RowKind;
  readonly sheet: string;
  /** Its first and last row, counted from 0. */
  readonly first: number;
  readonly last: number;
  /** Columns by the words at their heads. */
  readonly columns: ReadonlyMap<string, number>;
}

/** What a workbook has of what is the shop's. */
export interface ShopReading {
  /** Inputs that hold something readable, by what they are known by everywhere. */
  readonly inputs: ReadonlyMap<string, CellView>;
  readonly rows: ReadonlyMap<string, ShopRow>;
  readonly lists: ReadonlyMap<RowKind, ShopList>;
}

/** What a yard asks for a wood; a list of such prices has the woods at the left and no names. */
const WOOD_PRICE = 'money_per_boardfoot';

/** Heads of a price list, which has none on its sheet. */
export const PRICE_HEADS = { wood: 'wood', price: 'price' } as const;

const RACK_HEADS = ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'];
const RACK_SIZES = ['thickness', 'width', 'length'] as const;

/** Reads what is the shop's in a workbook: inputs by their names, woods in a price list, own tables, boards at hand. */
export function readShop(book: OpenWorkbook): ShopReading {
  const inputs = new Map<string, CellView>();
  const rows = new Map<string, ShopRow>();
  const lists = new Map<RowKind, ShopList>();
  const twice = new Set<string>();
  const note = (key: string, cell: CellView): void => {
    if (inputs.has(key)) twice.add(key);
    inputs.set(key, cell);
  };
  for (const { name } of book.names()) {
    const cell = SHOP_NAMES.has(name.toLowerCase()) ? book.named(name) : undefined;
    if (cell !== undefined && isTyped(cell)) note(name.toLowerCase(), cell);
  }
  for (const at of woodPrices(book)) notePrice(book, book.cell(at), { note, rows, lists });
  for (const { kind, columns } of OWN_TABLES) {
    const heads = columns.map((one) => one.heads);
    const list = listOf(book, kind, heads);
    if (list === undefined) continue;
    lists.set(kind, list);
    for (const row of rowsIn(book, list, heads)) {
      rows.set(row.key, row);
      for (const [head, cell] of row.cells) if (head !== heads[0]) note(`${row.key} ${head}`, cell);
    }
  }
  const rack = listOf(book, 'stock', RACK_HEADS);
  if (rack !== undefined && RACK_HEADS.every((head) => rack.columns.has(head))) {
    lists.set('rack', rack);
    for (const row of rowsIn(book, rack, RACK_HEADS)) {
      const key = rackKey(book, row);
      if (key === undefined) continue;
      rows.set(key, { ...row, key });
      const atHand = row.cells.get('at hand');
      if (atHand !== undefined) note(`${key} at hand`, atHand);
    }
  }
  for (const key of twice) inputs.delete(key);
  return { inputs, rows, lists };
}

/** A maker typed it, and it can be read. */
function isTyped({ role, formula, problem, value }: CellView): boolean {
  return (
    role === 'input' && formula === undefined && problem === undefined && value.kind !== 'empty'
  );
}

/** Cells for the price of a wood that have no name: read off the saved form, since a workbook may have many others. */
function woodPrices(book: OpenWorkbook): readonly At[] {
  return book.document().sheets.flatMap(({ id: sheet, columns, rows }) => {
    const places = new Map(columns.map(({ id }, column) => [id, column]));
    return rows.flatMap(({ cells = {} }, row) =>
      Object.entries(cells).flatMap(([id, { quantity, name }]) => {
        const column = places.get(id);
        const isPrice = quantity === WOOD_PRICE && name === undefined && column !== undefined;
        return isPrice ? [{ sheet, row, column }] : [];
      }),
    );
  });
}

interface Found {
  readonly note: (key: string, cell: CellView) => void;
  readonly rows: Map<string, ShopRow>;
  readonly lists: Map<RowKind, ShopList>;
}

function notePrice(book: OpenWorkbook, cell: CellView, { note, rows, lists }: Found): void {
  if (!isTyped(cell)) return;
  const { sheet, row, column } = cell.at;
  const label = labelLeftOf(book, cell.at);
  if (label === undefined) return;
  const name = label.shown.text;
  const key = `price ${name.toLowerCase()}`;
  note(key, cell);
  rows.set(key, {
    key,
    kind: 'price',
    name,
    wood: name,
    at: label.at,
    cells: new Map([
      [PRICE_HEADS.wood, label],
      [PRICE_HEADS.price, cell],
    ]),
  });
  const list = lists.get('price');
  if (list === undefined) {
    const columns = new Map<string, number>([
      [PRICE_HEADS.wood, label.at.column],
      [PRICE_HEADS.price, column],
    ]);
    lists.set('price', { kind: 'price', sheet, first: row, last: row, columns });
  } else if (list.sheet === sheet && list.last === row - 1) {
    lists.set('price', { ...list, last: row });
  }
}

/** The words that stand at the left of a cell. */
function labelLeftOf(book: OpenWorkbook, { sheet, row, column }: At): CellView | undefined {
  for (let left = column - 1; left >= 0; left -= 1) {
    const cell = book.cell({ sheet, row, column: left });
    if (cell.value.kind === 'text') return cell;
    if (cell.value.kind !== 'empty') return undefined;
  }
  return undefined;
}

/** The first table of a kind, with its columns where their heads are. */
function listOf(
  book: OpenWorkbook,
  kind: TableView['kind'],
  heads: readonly string[],
): ShopList | undefined {
  const table = book.tables().find((one) => one.kind === kind);
  if (table === undefined) return undefined;
  const { sheet, header, last } = table;
  const columns = new Map<string, number>();
  for (let column = 0; column < (book.sheet(sheet)?.columns ?? 0); column += 1) {
    const word = book.cell({ sheet, row: header, column }).shown.text.trim().toLowerCase();
    if (heads.includes(word) && !columns.has(word)) columns.set(word, column);
  }
  return {
    kind: kind === 'stock' ? 'rack' : (kind as OwnKind),
    sheet,
    first: header + 1,
    last,
    columns,
  };
}

function rowsIn(book: OpenWorkbook, list: ShopList, heads: readonly string[]): readonly ShopRow[] {
  const { kind, sheet, first, last, columns } = list;
  const [named = ''] = heads;
  const home = columns.get(named);
  const found = new Map<string, ShopRow>();
  for (let row = first; home !== undefined && row <= last; row += 1) {
    const cells = new Map<string, CellView>();
    for (const head of heads) {
      const column = columns.get(head);
      if (column === undefined) continue;
      const cell = book.cell({ sheet, row, column });
      if (cell.formula === undefined && cell.problem === undefined && cell.value.kind !== 'empty') {
        cells.set(head, cell);
      }
    }
    const name = cells.get(named)?.shown.text.trim() ?? '';
    const key = kind === 'prices' ? priceKey(book, name, cells) : `${kind} ${name.toLowerCase()}`;
    const before = kind === 'rack' ? undefined : found.get(key);
    if (name === '' || (before !== undefined && !isLater(cells, before.cells))) continue;
    const wood = kind === 'rack' ? (cells.get('material')?.shown.text ?? '') : name;
    const at = { sheet, row, column: home };
    const called = kind === 'prices' ? pricedName(name, cells) : name;
    const one = { key, kind, name: called, wood, at, cells };
    found.set(kind === 'rack' ? `${key} ${row}` : key, one);
  }
  return [...found.values()];
}

type Cells = ReadonlyMap<string, CellView>;

const shownIn = (cells: Cells, head: string): string => cells.get(head)?.shown.text.trim() ?? '';

/** What a price is of: a wood of a thickness and a grade. */
const pricedName = (name: string, cells: Cells): string =>
  [name, shownIn(cells, 'thickness'), shownIn(cells, 'grade')]
    .filter((one) => one !== '')
    .join(' ');

function priceKey({ units }: OpenWorkbook, name: string, cells: Cells): string {
  const value = cells.get('thickness')?.value;
  const mm = value?.kind === 'number' ? value.number * (units === 'us' ? 25.4 : 1) : 0;
  const rest = ['grade', 'per'].map((head) => shownIn(cells, head));
  return ['prices', name, Math.round(mm), ...rest].join(' ').toLowerCase();
}

/** Of two rows of one name functions look in the first; of two prices in the one asked for last. */
function isLater(cells: Cells, before: Cells): boolean {
  const [is, was] = [cells, before].map((row) => row.get('day')?.value);
  if (was === undefined) return is !== undefined || cells.has('price');
  return is?.kind === 'number' && was.kind === 'number' && is.number >= was.number;
}

/** What a board at hand is known by: what it is called, its wood and its sizes; undefined where it is bought as needed. */
function rackKey({ units }: OpenWorkbook, { name, wood, cells }: ShopRow): string | undefined {
  if (cells.get('at hand')?.value.kind !== 'number' || cells.get('price') === undefined) {
    return undefined;
  }
  const [thickness = 0, width = 0, length = 0] = RACK_SIZES.map((head) => {
    const value = cells.get(head)?.value;
    return value?.kind === 'number' ? value.number * (units === 'us' ? 25.4 : 1) : 0;
  });
  if (Math.min(thickness, width, length) <= 0) return undefined;
  return rackKeyOf({ name, material: wood, thickness, width, length });
}

/** The same of what is known of a board; mm. */
export function rackKeyOf(board: {
  readonly name: string;
  readonly material: string;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
}): string {
  const sizes = RACK_SIZES.map((size) => Math.round(board[size] * 10) / 10);
  return ['rack', board.name.toLowerCase(), board.material.toLowerCase(), ...sizes].join(' ');
}

/** Where nothing stands from the first row of a list to its last: room for rows that come. */
export function blankRows(
  book: OpenWorkbook,
  list: Pick<ShopList, 'sheet' | 'first' | 'last'>,
): readonly number[] {
  const { sheet, first, last } = list;
  const columns = book.sheet(sheet)?.columns ?? 0;
  return Array.from({ length: last - first + 1 }, (_, i) => first + i).filter((row) =>
    Array.from({ length: columns }, (_, column) => book.cell({ sheet, row, column })).every(
      ({ entry }) => entry === '',
    ),
  );
}
