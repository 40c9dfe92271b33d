import { bookFormat, readParts } from '@kerfbook/drawing';
import { breath } from '@kerfbook/keeping';
import {
  type At,
  type BookDocument,
  type CellDocument,
  type CellView,
  type OpenWorkbook,
  Workbook,
  withUnit,
} from '@kerfbook/workbook';
import { whatItAllows } from '../beside/cell-words.ts';
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

/** What a template costs in up to three sizes, or why that cannot be told. */
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

/** Works a template out, and once more in its smallest and its largest size; with a breath in between for keys and frames. */
export async function insideOf(document: BookDocument): Promise<InsideOf> {
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
    prices: await pricesOf(document, book, all),
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

/** So many sizes are tried between a bound and the size that it has, from the bound on. */
const TRIES = 8;
/** Sizes that are tried are multiples of this, in the workbook's own units: as a maker would order a piece. */
const STEP = { us: 1, metric: 10 } as const;

async function pricesOf(
  document: BookDocument,
  book: OpenWorkbook,
  inputs: readonly CellView[],
): Promise<Prices> {
  const price = moneyOf(book);
  if (price.length === 0) {
    return { is: 'none', says: 'It tells no price, so none is worked out in other sizes.' };
  }
  const by = lengthOf(book, inputs);
  const { min, max } = by?.allow ?? {};
  if (by === undefined || by.value.kind !== 'number' || min === undefined || max === undefined) {
    return {
      is: 'none',
      says: 'It has no length with a smallest and a largest size, so its price is told as it is alone.',
    };
  }
  const now = by.value.number;
  const trial = Workbook.open(unlocked(document));
  const size = sizes(trial, by, savedCell(document, by.at));
  const smallest = await furthest(size, price, [min, now], book);
  const largest = await furthest(size, price, [max, now], book);
  return {
    is: 'some',
    by: called(by.at, book),
    columns: price.map((at) => called(at, book)),
    rows: [
      ...(smallest === undefined ? [] : [{ which: 'smallest that works', ...smallest }]),
      { which: 'as it is', ...row(book, price, by) },
      ...(largest === undefined ? [] : [{ which: 'largest that works', ...largest }]),
    ],
  };
}

const unlocked = ({ locked: _lock, ...document }: BookDocument): BookDocument => document;

/** A workbook of its own in another size; nothing where it does not take that. */
type InSize = (size: number) => { readonly book: OpenWorkbook; readonly by: CellView } | undefined;

function sizes(trial: OpenWorkbook, by: CellView, saved: CellDocument): InSize {
  const { sheet, ...place } = by.at;
  return (size) => {
    const cell = { ...saved, value: size };
    const done = trial.apply({ do: 'setCells', sheet, cells: [{ ...place, cell }] });
    return done.ok ? { book: trial, by: trial.cell(by.at) } : undefined;
  };
}

/** A cell as it is saved, to be given another number: what was typed and what it is in other units go. */
function savedCell({ sheets }: BookDocument, { sheet, row, column }: At): CellDocument {
  const home = sheets.find(({ id }) => id === sheet);
  const {
    typed: _typed,
    other: _other,
    ...kept
  } = home?.rows[row]?.cells?.[home.columns[column]?.id ?? ''] ?? {};
  return kept;
}

/**
 * The size nearest to a bound in which it can be built: its price is a number, and no more checks stop it than as it
 * is. Nothing where that is the size it has already.
 */
async function furthest(
  inSize: InSize,
  price: readonly At[],
  [bound, now]: readonly [number, number],
  asIs: OpenWorkbook,
): Promise<Omit<PriceRow, 'which'> | undefined> {
  const step = STEP[asIs.units];
  const tried = new Set([now]);
  for (let i = 0; i < TRIES; i += 1) {
    const between = bound + ((now - bound) * i) / TRIES;
    const size = i === 0 ? bound : Math.round(between / step) * step;
    if (tried.has(size)) continue;
    tried.add(size);
    await breath();
    const there = inSize(size);
    if (there === undefined) continue;
    const costs = price.every((at) => there.book.value(at).kind === 'number');
    if (costs && stops(there.book) <= stops(asIs)) return row(there.book, price, there.by);
  }
  return undefined;
}

const stops = (book: OpenWorkbook): number =>
  book.checks().filter(({ state }) => state === 'stop' || state === 'unknown').length;

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

function row(book: OpenWorkbook, price: readonly At[], by: CellView): Omit<PriceRow, 'which'> {
  const failing = book.checks().filter(({ state }) => state !== 'pass').length;
  return {
    at: withUnit(by.shown.text, by.unit),
    shown: price.map((one) => {
      const { value, shown, unit } = book.cell(one);
      return value.kind === 'error' ? "Can't tell" : withUnit(shown.text, unit);
    }),
    not: failing === 0 ? 'All OK' : `${failing} not OK`,
  };
}
