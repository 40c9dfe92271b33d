import type { At, CellValue } from '@kerfbook/workbook';
import {
  endBelow,
  type LeftOut,
  otherTables,
  type PartProblem,
  type PartsSource,
} from '../parts-source.ts';
import { mmFromOwn } from '../units.ts';
import { isBlank, written } from '../value-words.ts';

/** Boards of one size, to be bought or at hand; mm. */
export interface StockItem {
  /** The cell that holds its name, or its length where it has none. */
  readonly at: At;
  /** As the row says it; empty where it does not. */
  readonly name: string;
  /** As the row says it; empty where any will do. */
  readonly material: string;
  /** The cell that holds its thickness. */
  readonly thicknessAt?: At;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0. */
  readonly width: number;
  /** Over 0. */
  readonly length: number;
  /** Of one board, in the workbook's money. */
  readonly price: number;
  /** Left out: as many as are needed. */
  readonly atHand?: number;
}

/** Boards of which everything is known but what they cost. */
export type Unpriced = Omit<StockItem, 'price'>;

/** What the stock table of a workbook says. */
export interface StockReading {
  /** False: the workbook has no stock table. */
  readonly found: boolean;
  /** In the order of the rows. */
  readonly stock: readonly StockItem[];
  /** Lines that lack nothing but a price: no plan chooses from them. */
  readonly unpriced: readonly Unpriced[];
  /** What could not be read, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** Lines no plan can choose from, each with the reason; their problems are among `problems`. */
  readonly leftOut: readonly LeftOut[];
}

const WORDS = ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'] as const;
type Word = (typeof WORDS)[number];
const NEEDED: readonly Word[] = ['thickness', 'width', 'length', 'price'];

/** The first stock table of a workbook; a row that cannot be read becomes one problem at its cell. */
export function readStock(source: PartsSource): StockReading {
  const table = source.tables().find(({ kind }) => kind === 'stock');
  if (table === undefined) {
    return { found: false, stock: [], unpriced: [], problems: [], leftOut: [] };
  }
  const { sheet, header } = table;
  const { columns = 0 } = source.sheet(sheet) ?? {};
  const places = new Map<string, number>();
  for (let column = 0; column < columns; column += 1) {
    const word = textOf(source.value({ sheet, row: header, column }))?.toLowerCase();
    if (word !== undefined && !places.has(word)) places.set(word, column);
  }
  const others = otherTables(source, 'stock');
  const heads: PartProblem[] = NEEDED.filter((word) => !places.has(word)).map((word) => ({
    at: { sheet, row: header, column: 0 },
    says: `The stock table has no column "${word}"; put that word at the head of the column that holds it.`,
  }));
  const problems: PartProblem[] = [...heads, ...others];
  const leftOut: LeftOut[] = [
    ...others,
    ...heads.map((problem) => ({ ...problem, what: 'The stock table' })),
  ];
  if (heads.length > 0) return { found: true, stock: [], unpriced: [], problems, leftOut };
  const stock: StockItem[] = [];
  const unpriced: Unpriced[] = [];
  const end = endBelow(source, table);
  for (let row = header + 1; row < end; row += 1) {
    const at = (word: Word): At => ({ sheet, row, column: places.get(word) ?? 0 });
    const value = (word: Word): CellValue =>
      places.has(word) ? source.value(at(word)) : { kind: 'empty' };
    const own: PartProblem[] = [];
    const line: Line = { source, at, value, problems: own };
    const item = row <= table.last ? readRow(line) : below(line, row, table.last);
    if (item !== undefined && isPriced(item)) stock.push(item);
    else if (item !== undefined) unpriced.push(item);
    problems.push(...own);
    const [first] = own;
    if (first === undefined) continue;
    const what = textOf(value('stock')) ?? `Row ${row + 1}`;
    leftOut.push({ at: first.at, what, says: own.map(({ says }) => says).join(' ') });
  }
  return { found: true, stock, unpriced, problems, leftOut };
}

const isPriced = (item: StockItem | Unpriced): item is StockItem => 'price' in item;

/** A line below the table that is filled in like stock: told, and not chosen from. */
function below({ at, value, problems }: Line, row: number, last: number): undefined {
  if (NEEDED.some((word) => value(word).kind !== 'number')) return undefined;
  const name = textOf(value('stock')) ?? 'This stock';
  problems.push({
    at: at('stock'),
    says: `${name} stands in row ${row + 1}, below the stock table, which ends at row ${last + 1}, so it is left out. Insert a row within the table and move it there.`,
  });
  return undefined;
}

interface Line {
  readonly source: PartsSource;
  readonly at: (word: Word) => At;
  readonly value: (word: Word) => CellValue;
  readonly problems: PartProblem[];
}

function readRow({ source, at, value, problems }: Line): StockItem | Unpriced | undefined {
  if (WORDS.every((word) => isBlank(value(word)))) return undefined;
  const name = textOf(value('stock')) ?? '';
  const label = name === '' ? 'this stock' : name;
  const complain = (word: Word, takes: string): undefined => {
    const found = value(word);
    const is = isBlank(found) ? 'is empty' : `is ${written(found)}`;
    problems.push({ at: at(word), says: `The ${word} of ${label} ${is}; it takes ${takes}.` });
    return undefined;
  };
  const unit = source.units === 'us' ? 'inches' : 'millimeters';
  const size = (word: 'thickness' | 'width' | 'length'): number | undefined => {
    const found = value(word);
    const mm = found.kind === 'number' ? mmFromOwn(found.number, source.units) : 0;
    return mm > 0 ? mm : complain(word, `a size in ${unit} above 0`);
  };
  const amount = (word: 'price' | 'at hand', takes: string): number | undefined => {
    const found = value(word);
    const good = found.kind === 'number' && found.number >= 0;
    return good ? found.number : complain(word, takes);
  };
  const priced = (): number | undefined => {
    const found = value('price');
    const price = amount('price', 'what one board costs, 0 or more');
    const last = problems.at(-1);
    if (price !== undefined || last === undefined) return price;
    const why = found.kind === 'error' ? [found.error.says] : [];
    const sizes = (['thickness', 'width', 'length'] as const).map((word) => value(word));
    problems[problems.length - 1] = {
      ...last,
      says: [last.says, ...why, ...byVolume(source.units, sizes)].join(' '),
    };
    return undefined;
  };
  const sizes = [size('thickness'), size('width'), size('length')] as const;
  const price = priced();
  const kind = value('material');
  if (kind.kind === 'error') return complain('material', 'words');
  const blank = isBlank(value('at hand'));
  const atHand = blank
    ? undefined
    : amount('at hand', 'how many there are, or blank for as many as needed');
  const [thickness, width, length] = sizes;
  if (thickness === undefined || width === undefined || length === undefined) return undefined;
  if (!blank && atHand === undefined) return undefined;
  return {
    at: at(name === '' ? 'length' : 'stock'),
    name,
    material: textOf(value('material')) ?? '',
    thicknessAt: at('thickness'),
    thickness,
    width,
    length,
    ...(price === undefined ? {} : { price }),
    ...(atHand === undefined ? {} : { atHand: Math.floor(atHand) }),
  };
}

/** How the price of one board is typed where wood is sold by its volume; nothing where its sizes are not known. */
function byVolume(units: PartsSource['units'], sizes: readonly CellValue[]): readonly string[] {
  if (sizes.some(({ kind }) => kind !== 'number')) return [];
  const typed = sizes.map(written);
  // A bare price times board feet would be told as board feet in a cell for money.
  return units === 'us'
    ? [
        `Sold by the board foot? Type your price, such as $12.50/bd ft, into a cell beside the table and here =BOARDFEET(${typed.join(',')})*H1 where that cell is H1; the first number is the thickness you pay for.`,
      ]
    : [
        `Sold by the cubic meter? Type =${typed.join('*')}/1000000000*900 with your price last; the first number is the thickness you pay for.`,
      ];
}

function textOf(value: CellValue): string | undefined {
  if (value.kind === 'number') return String(value.number);
  if (value.kind !== 'text') return undefined;
  const text = value.text.trim().replaceAll(/\s+/g, ' ');
  return text === '' ? undefined : text;
}
