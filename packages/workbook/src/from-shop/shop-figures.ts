import type { At, BookDocument } from '@kerfbook/document';
import type { CellView, OpenWorkbook, Refused } from '../api.ts';
import { unlocked } from '../catching-up/in-step.ts';
import { calledIn } from '../catching-up/listed.ts';
import { Workbook } from '../workbook.ts';
import {
  PRICE_HEADS,
  type RowKind,
  readShop,
  type ShopReading,
  type ShopRow,
} from './shop-reading.ts';

/** Something of the shop's that a workbook has otherwise, or has not. */
export interface ShopFigure {
  /** The same for the same thing, to keep a choice by. */
  readonly key: string;
  /** What the shop has, whatever units it is looked at in: it is offered again once this is another. */
  readonly sign: string;
  /** What kind of thing it is. */
  readonly kind: ShopKind;
  /** The name of the sheet it stands on; `''` where it is on none yet. */
  readonly sheet: string;
  /** What it is: `Hourly rate (B16)`. */
  readonly what: string;
  /** What the workbook has, with its unit; `''` for nothing. */
  readonly mine: string;
  /** What the shop has, in the workbook's units. */
  readonly shops: string;
  /** It tells now: the workbook has another figure, or uses what it lacks. What it has no use for yet is not. */
  readonly tells: boolean;
  /** What is done to take it. */
  readonly take: ShopTaking;
}

/** Kinds of what is the shop's, in the order in which they are shown. */
export const SHOP_KINDS = ['figure', 'price', 'own', 'rack', 'letterhead'] as const;

/** A kind of what is the shop's. */
export type ShopKind = (typeof SHOP_KINDS)[number];

/** How something of the shop's is taken. */
export type ShopTaking =
  | { readonly do: 'enter'; readonly at: At; readonly text: string }
  /** A row more of a list: what is entered under each head. */
  | {
      readonly do: 'add';
      readonly list: RowKind;
      readonly texts: readonly (readonly [head: string, text: string])[];
    }
  | { readonly do: 'head'; readonly set: Pick<BookDocument, 'letterhead' | 'terms'> };

/** The shop's figures beside those of a workbook. */
export interface ShopFigures {
  /** They could be compared. */
  readonly ok: true;
  /** What differs, in the order of sheets, then what is not there. */
  readonly figures: readonly ShopFigure[];
  /** How many of the shop's figures both have. */
  readonly shared: number;
  /** Both count in different money: amounts of money are not compared. */
  readonly otherMoney: boolean;
}

/**
 * What of the shop's a workbook has otherwise than the workbook of the shop (rule H11): inputs of the names in
 * `SHOP_NAMES`, prices of woods, own woods, screws and finishes, boards at hand, letterhead and terms. Nothing is
 * changed by it.
 */
export function shopFigures(book: OpenWorkbook, shop: BookDocument): ShopFigures | Refused {
  const asIs = Workbook.open(unlocked(shop));
  const signs = signsOf(readShop(asIs));
  const turned = inUnitsOf(asIs, book.units);
  if (!turned.ok) return turned;
  const otherMoney = turned.book.currency !== book.currency;
  const [mine, shops] = [readShop(book), readShop(turned.book)];
  const figures: ShopFigure[] = [];
  let shared = 0;
  const priced = new Map<string, ShopRow>(
    [...mine.rows.values()]
      .filter(({ kind }) => kind === 'prices')
      .flatMap((row) => [...row.cells.keys()].map((head) => [`${row.key} ${head}`, row] as const)),
  );
  for (const [key, cell] of mine.inputs) {
    const theirs = shops.inputs.get(key);
    if (theirs === undefined || (otherMoney && isMoney(cell))) continue;
    shared += 1;
    if (isSame(cell, theirs)) continue;
    const figure = cellFigure(book, cell.at, theirs, key);
    const what = withThickness(figure.what, priced.get(key));
    figures.push({ ...figure, what, sign: signs.get(key) ?? '' });
  }
  const uses = wordsIn(book, mine);
  for (const row of shops.rows.values()) {
    const here = mine.rows.get(row.key);
    if (here !== undefined) figures.push(...blanksOf(book, mine, here, row, signs));
    else if (!otherMoney || !hasPrice(row)) figures.push(...missing(row, mine, uses, signs));
  }
  figures.push(...headFigures(book.head, asIs.head));
  const order = (kind: ShopKind): number => SHOP_KINDS.indexOf(kind);
  return {
    ok: true,
    figures: figures.toSorted((one, other) => order(one.kind) - order(other.kind)),
    shared,
    otherMoney,
  };
}

type Turned = { readonly ok: true; readonly book: OpenWorkbook } | Refused;

function inUnitsOf(book: OpenWorkbook, units: BookDocument['units']): Turned {
  if (book.units === units) return { ok: true, book };
  // As they are: a blade that cuts 3/32 in does not cut 2 1/2 mm.
  const done = book.apply({ do: 'changeUnits', to: units });
  return done.ok ? { ok: true, book } : done;
}

/** What the shop has, in its own units. */
function signsOf({ inputs, rows }: ShopReading): ReadonlyMap<string, string> {
  const signs = new Map<string, string>();
  for (const [key, cell] of inputs) signs.set(key, withUnit(cell));
  for (const [key, row] of rows) if (!signs.has(key)) signs.set(key, rowText(row));
  return signs;
}

const isMoney = ({ quantity = 'number' }: CellView): boolean => quantity.startsWith('money');

const hasPrice = ({ cells }: ShopRow): boolean =>
  [...cells.values()].some(
    (cell) => isMoney(cell) && !(cell.value.kind === 'number' && cell.value.number === 0),
  );

const KINDS: Readonly<Record<RowKind, ShopKind>> = {
  price: 'price',
  rack: 'rack',
  woods: 'own',
  screws: 'own',
  finishes: 'own',
  prices: 'price',
};

function kindOf(key: string): ShopKind {
  const [word = ''] = key.split(' ');
  return key.includes(' ') && Object.hasOwn(KINDS, word) ? KINDS[word as RowKind] : 'figure';
}

/** A wood has a price for each thickness: which of them it is. */
const withThickness = (what: string, row: ShopRow | undefined): string =>
  row !== undefined && what.startsWith(row.wood) ? row.name + what.slice(row.wood.length) : what;

/** A cell that the workbook has, filled otherwise or blank. */
function cellFigure(
  book: OpenWorkbook,
  at: At,
  theirs: CellView,
  key: string,
): Omit<ShopFigure, 'sign'> {
  return {
    key,
    kind: kindOf(key),
    sheet: book.sheet(at.sheet)?.name ?? '',
    what: calledIn(book, at),
    mine: withUnit(book.cell(at)),
    shops: withUnit(theirs),
    tells: true,
    take: { do: 'enter', at, text: theirs.entry },
  };
}

/** Figures of a row that the workbook leaves blank and the shop does not. */
function blanksOf(
  book: OpenWorkbook,
  { lists }: ShopReading,
  here: ShopRow,
  row: ShopRow,
  signs: ReadonlyMap<string, string>,
): readonly ShopFigure[] {
  if (row.kind === 'rack' || row.kind === 'price') return [];
  return [...row.cells].flatMap(([head, theirs]) => {
    const column = lists.get(row.kind)?.columns.get(head);
    if (here.cells.has(head) || column === undefined) return [];
    const at = { ...here.at, column };
    // What is worked out there is none of the shop's.
    if (book.cell(at).entry !== '') return [];
    const key = `${row.key} ${head}`;
    return [{ ...cellFigure(book, at, theirs, key), sign: signs.get(key) ?? '' }];
  });
}

const ROW_WORDS: Readonly<Record<RowKind, string>> = {
  woods: 'own wood',
  screws: 'own screw',
  finishes: 'own finish',
  price: 'price of a wood',
  prices: 'price of a wood',
  rack: 'board on the rack',
};

/** A row that the workbook has not: of a list that it has, or of one that can be begun. */
function missing(
  row: ShopRow,
  { lists }: ShopReading,
  uses: ReadonlySet<string>,
  signs: ReadonlyMap<string, string>,
): readonly ShopFigure[] {
  const { key, kind, name, wood, cells } = row;
  // A list that nothing looks in is not begun for it.
  if ((kind === 'rack' || kind === 'price' || kind === 'prices') && !lists.has(kind)) return [];
  const used = uses.has(wood.toLowerCase());
  if (kind === 'rack') {
    const atHand = cells.get('at hand')?.value;
    // An empty place on the rack is nothing to take, nor is a wood that is not used.
    if (!used || atHand?.kind !== 'number' || atHand.number < 1) return [];
  }
  return [
    {
      key,
      sign: signs.get(key) ?? '',
      kind: KINDS[kind],
      sheet: '',
      what: `${name}, ${ROW_WORDS[kind]}`,
      mine: '',
      shops: rowText(row),
      tells: used && kind !== 'rack',
      take: { do: 'add', list: kind, texts: [...cells].map(([head, cell]) => [head, cell.entry]) },
    },
  ];
}

/** `tangential 0.0035 /%, gravity 0.6`; what the row goes by stands before it. */
function rowText({ cells, kind }: ShopRow): string {
  const said = (head: string): string => {
    const cell = cells.get(head);
    return cell === undefined ? '' : withUnit(cell);
  };
  if (kind === 'price') return said(PRICE_HEADS.price);
  if (kind === 'rack') {
    const sizes = ['thickness', 'width', 'length'].map(said).join(' × ');
    return [said('material'), sizes, `${said('at hand')} at hand`].join(', ');
  }
  const [, ...figures] = [...cells.keys()];
  return figures.map((head) => `${head} ${said(head)}`).join(', ');
}

/** All words that stand in cells by themselves, lists of the shop's aside: what the workbook is of is among them. */
function wordsIn(book: OpenWorkbook, { rows: listed }: ShopReading): ReadonlySet<string> {
  const lists = new Set([...listed.values()].map(({ at }) => `${at.sheet} ${at.row}`));
  const words = new Set<string>();
  for (const { id: sheet, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      if (lists.has(`${sheet} ${row}`)) continue;
      for (let column = 0; column < columns; column += 1) {
        const value = book.value({ sheet, row, column });
        if (value.kind === 'text') words.add(value.text.trim().toLowerCase());
      }
    }
  }
  return words;
}

type Head = OpenWorkbook['head'];

function headFigures(mine: Head, shops: Head): readonly ShopFigure[] {
  const found: ShopFigure[] = [];
  const put = (
    key: 'letterhead' | 'terms',
    what: string,
    texts: readonly [string, string],
  ): void => {
    const [is, theirs] = texts;
    const value = shops[key];
    if (value === undefined || JSON.stringify(value) === JSON.stringify(mine[key])) return;
    found.push({
      key,
      sign: JSON.stringify(value),
      kind: 'letterhead',
      sheet: '',
      what,
      mine: is,
      shops: theirs,
      // Terms that were written for a job are meant so.
      tells: key === 'letterhead' || is === '',
      take: { do: 'head', set: { [key]: value } },
    });
  };
  put('letterhead', 'Letterhead', [letterheadText(mine), letterheadText(shops)]);
  put('terms', 'Terms', [mine.terms ?? '', shops.terms ?? '']);
  return found;
}

function letterheadText({ letterhead }: Head): string {
  if (letterhead === undefined) return '';
  const { name, address, tax, logo } = letterhead;
  const lines = [
    name,
    address?.replaceAll('\n', ', '),
    tax,
    logo === undefined ? undefined : 'logo',
  ];
  return lines.filter((one) => one !== undefined).join(', ');
}

function isSame({ value: one }: CellView, { value: other }: CellView): boolean {
  if (one.kind === 'number' && other.kind === 'number') {
    const far = Math.max(Math.abs(one.number), Math.abs(other.number));
    return Math.abs(one.number - other.number) <= far * 1e-9;
  }
  if (one.kind === 'text' && other.kind === 'text') {
    return one.text.toLowerCase() === other.text.toLowerCase();
  }
  return one.kind === 'logical' && other.kind === 'logical' && one.logical === other.logical;
}

function withUnit({ shown, unit }: CellView): string {
  return unit === '' || shown.text === '' ? shown.text : `${shown.text} ${unit}`;
}
