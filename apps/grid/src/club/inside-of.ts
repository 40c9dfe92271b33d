import { bookFormat, readParts } from '@kerfbook/drawing';
import {
  type At,
  type BookDocument,
  type CellView,
  type OpenWorkbook,
  Workbook,
  withUnit,
} from '@kerfbook/workbook';
import { shownIn, whatItAllows } from '../beside/cell-words.ts';
import { called, wordsFor } from '../session/called.ts';

/** What stands in a template for whoever looks at it first. */
export interface InsideOf {
  readonly inputs: readonly {
    readonly key: string;
    readonly what: string;
    readonly sheet: string;
    readonly shown: string;
    readonly allowed: string;
  }[];
  readonly parts: readonly {
    readonly key: string;
    readonly name: string;
    readonly count: number;
    readonly size: string;
    readonly material: string;
  }[];
  readonly prices: Prices;
}

/** What a template costs in three sizes, or why that cannot be told. */
export type Prices =
  | { readonly is: 'none'; readonly says: string }
  | {
      readonly is: 'some';
      /** The input that is turned. */
      readonly by: string;
      /** What is told in each column. */
      readonly columns: readonly string[];
      readonly rows: readonly PriceRow[];
    };

interface PriceRow {
  readonly which: string;
  readonly at: string;
  readonly shown: readonly string[];
  /** How many of its checks are not OK in this size. */
  readonly not: string;
}

/** Works a template out, and once more in its smallest and its largest size. */
export function insideOf(document: BookDocument): InsideOf {
  const book = Workbook.open(document);
  const format = bookFormat(book);
  const unit = book.units === 'us' ? 'in' : 'mm';
  const all = inputsOf(book);
  // What nothing beside it calls by a word is no question to whoever makes it: a name in a list of woods.
  const asked = all.filter(
    ({ at, name }) => name !== undefined || wordsFor(at, book) !== undefined,
  );
  return {
    inputs: asked.map((cell) => ({
      key: `${cell.at.sheet} ${cell.address}`,
      what: called(cell.at, book),
      sheet: book.sheet(cell.at.sheet)?.name ?? '',
      shown: withUnit(cell.shown.text, cell.unit),
      allowed: whatItAllows(book, cell)?.replace(/^Allowed: |\.$/g, '') ?? 'Anything',
    })),
    parts: readParts(book).parts.map(({ at, name, count, thickness, width, length, material }) => ({
      key: `${at.sheet} ${at.row}`,
      name,
      count,
      size: `${[thickness, width, length].map(format).join(' × ')} ${unit}`,
      material: material ?? '',
    })),
    prices: pricesOf(document, book, all),
  };
}

/** Inputs that hold something and stand outside of the shop's tables, whose rows are counted as parts and stock. */
function inputsOf(book: OpenWorkbook): readonly CellView[] {
  const tables = book.tables();
  const found: CellView[] = [];
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      const inTable = tables.some(
        ({ sheet, header, last }) => sheet === id && row >= header && row <= last,
      );
      for (let column = 0; !inTable && column < columns; column += 1) {
        const cell = book.cell({ sheet: id, row, column });
        if (cell.role === 'input' && cell.value.kind !== 'empty') found.push(cell);
      }
    }
  }
  return found;
}

/** Words that the measure has which a piece is ordered by, the likeliest first. */
const LIKELY = [
  /\blength\b|_length$|^length/i,
  /\bwidth\b|_width$|^width/i,
  /\bheight\b|_height$/i,
];
/** So many of the results that count are told in each size. */
const FEW = 3;

function pricesOf(document: BookDocument, book: OpenWorkbook, inputs: readonly CellView[]): Prices {
  const price = moneyOf(book);
  if (price.length === 0) {
    return { is: 'none', says: 'It tells no price, so none is worked out in other sizes.' };
  }
  const by = lengthOf(book, inputs);
  if (by === undefined) {
    return {
      is: 'none',
      says: 'It has no length with a smallest and a largest size, so its price is told as it is alone.',
    };
  }
  const { min = 0, max = 0 } = by.allow ?? {};
  const rows = [
    row(book, price, 'as it is', withUnit(by.shown.text, by.unit)),
    inSize(document, by, price, 'smallest', min),
    inSize(document, by, price, 'largest', max),
  ];
  const [asIs, smallest, largest] = rows as [PriceRow, PriceRow, PriceRow];
  return {
    is: 'some',
    by: called(by.at, book),
    columns: price.map((at) => called(at, book)),
    rows: [smallest, asIs, largest],
  };
}

/** Where its price stands: by the names that the app itself reads it by, else among its main results. */
function moneyOf(book: OpenWorkbook): readonly At[] {
  const named = ['price', 'quote_shown', ...book.results]
    .map((name) => book.named(name))
    .filter((cell) => cell?.quantity === 'money' && cell.value.kind === 'number')
    .map((cell) => (cell as CellView).at);
  const key = (at: At): string => JSON.stringify(at);
  return named
    .filter((at, i) => named.findIndex((one) => key(one) === key(at)) === i)
    .slice(0, FEW);
}

function lengthOf(book: OpenWorkbook, inputs: readonly CellView[]): CellView | undefined {
  const bounded = inputs.filter(
    ({ quantity, allow, value, formula }) =>
      quantity === 'length' &&
      value.kind === 'number' &&
      formula === undefined &&
      allow?.min !== undefined &&
      allow.max !== undefined,
  );
  for (const likely of LIKELY) {
    const found = bounded.find(
      ({ at, name }) => likely.test(name ?? '') || likely.test(called(at, book)),
    );
    if (found !== undefined) return found;
  }
  return bounded[0];
}

/** The template in another size: in a workbook of its own, which is let go. */
function inSize(
  document: BookDocument,
  by: CellView,
  price: readonly At[],
  which: string,
  size: number,
): PriceRow {
  const book = Workbook.open(withValue(document, by.at, size));
  return row(book, price, which, shownIn(book, book.cell(by.at), size));
}

/** A workbook with another number in one of its cells, in its own units. */
function withValue(
  document: BookDocument,
  { sheet, row, column }: At,
  value: number,
): BookDocument {
  return {
    ...document,
    sheets: document.sheets.map((one) => {
      const id = one.columns[column]?.id;
      if (one.id !== sheet || id === undefined) return one;
      return {
        ...one,
        rows: one.rows.map((line, i) => {
          const old = line.cells?.[id];
          if (i !== row || old === undefined) return line;
          const { typed: _typed, other: _other, ...kept } = old;
          return { ...line, cells: { ...line.cells, [id]: { ...kept, value } } };
        }),
      };
    }),
  };
}

function row(book: OpenWorkbook, price: readonly At[], which: string, at: string): PriceRow {
  const failing = book.checks().filter(({ state }) => state !== 'pass').length;
  return {
    which,
    at,
    shown: price.map((one) => {
      const { value, shown, unit } = book.cell(one);
      return value.kind === 'error' ? "Can't tell" : withUnit(shown.text, unit);
    }),
    not: failing === 0 ? 'All OK' : `${failing} not OK`,
  };
}
