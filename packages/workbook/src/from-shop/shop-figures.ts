import type { At, BookDocument, Edit } from '@kerfbook/document';
import type { CellView, OpenWorkbook, Refused } from '../api.ts';
import { calledIn } from '../catching-up/listed.ts';
import { Workbook } from '../workbook.ts';
import { SHOP_NAMES } from './shop-names.ts';

/** One of the shop's figures that a workbook has otherwise. */
export interface ShopFigure {
  /** The same for the same cell, to keep a choice by. */
  readonly key: string;
  /** Where it stands in the workbook. */
  readonly at: At;
  /** The name of its sheet. */
  readonly sheet: string;
  /** What it is: `Hourly rate (B16)`. */
  readonly what: string;
  /** What the workbook has, with its unit. */
  readonly mine: string;
  /** What the shop has, in the workbook's units. */
  readonly shops: string;
  /** What is entered to take the shop's. */
  readonly text: string;
}

/** The shop's figures beside those of a workbook. */
export interface ShopFigures {
  /** They could be compared. */
  readonly ok: true;
  /** Inputs that differ, in the order of sheets. */
  readonly figures: readonly ShopFigure[];
  /** How many of the shop's figures both have. */
  readonly shared: number;
  /** Both count in different money: amounts of money are not compared. */
  readonly otherMoney: boolean;
}

/** What a yard asks for a wood; a list of such prices has the woods at the left and no names. */
const WOOD_PRICE = 'money_per_boardfoot';

/**
 * Which of the shop's figures a workbook has otherwise than the workbook of the shop (rule H11): inputs of the names in
 * {@link SHOP_NAMES}, and the prices of woods in a list. Nothing is changed by it.
 */
export function shopFigures(book: OpenWorkbook, shop: BookDocument): ShopFigures | Refused {
  const turned = inUnitsOf(shop, book.units);
  if (!turned.ok) return turned;
  const otherMoney = turned.book.currency !== book.currency;
  const shops = inputsOf(turned.book);
  const figures: ShopFigure[] = [];
  let shared = 0;
  for (const [key, cell] of inputsOf(book)) {
    const theirs = shops.get(key);
    if (theirs === undefined || (otherMoney && isMoney(cell))) continue;
    shared += 1;
    if (isSame(cell, theirs)) continue;
    figures.push({
      key,
      at: cell.at,
      sheet: book.sheet(cell.at.sheet)?.name ?? '',
      what: calledIn(book, cell.at),
      mine: withUnit(cell),
      shops: withUnit(theirs),
      text: theirs.entry,
    });
  }
  return { ok: true, figures, shared, otherMoney };
}

/** Takes figures of the shop into a workbook, all of them as one step of undo. */
export function takeFigures(figures: readonly ShopFigure[]): Edit {
  const sheets = new Map<string, { row: number; column: number; text: string }[]>();
  for (const { at, text } of figures) {
    const { sheet, row, column } = at;
    sheets.set(sheet, [...(sheets.get(sheet) ?? []), { row, column, text }]);
  }
  const edits = [...sheets].map(([sheet, cells]): Edit => ({ do: 'enter', sheet, cells }));
  return { do: 'batch', edits };
}

type Turned = { readonly ok: true; readonly book: OpenWorkbook } | Refused;

function inUnitsOf({ locked: _lock, ...shop }: BookDocument, units: BookDocument['units']): Turned {
  const book = Workbook.open(shop);
  if (shop.units === units) return { ok: true, book };
  // As they are: a blade that cuts 3/32 in does not cut 2 1/2 mm.
  const done = book.apply({ do: 'changeUnits', to: units });
  return done.ok ? { ok: true, book } : done;
}

const isMoney = ({ quantity = 'number' }: CellView): boolean => quantity.startsWith('money');

/** The shop's inputs that hold something readable, by what they are known by; what is called the same twice is none of them. */
function inputsOf(book: OpenWorkbook): ReadonlyMap<string, CellView> {
  const found = new Map<string, CellView>();
  const twice = new Set<string>();
  for (const { id: sheet, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const cell = book.cell({ sheet, row, column });
        const key = keyOf(book, cell);
        if (key === undefined) continue;
        if (found.has(key)) twice.add(key);
        found.set(key, cell);
      }
    }
  }
  for (const key of twice) found.delete(key);
  return found;
}

function keyOf(book: OpenWorkbook, cell: CellView): string | undefined {
  const { role, formula, name, problem, at, quantity, value } = cell;
  if (role !== 'input' || formula !== undefined || problem !== undefined) return undefined;
  if (value.kind === 'empty') return undefined;
  const known = name?.toLowerCase();
  if (known !== undefined) return SHOP_NAMES.has(known) ? known : undefined;
  if (quantity !== WOOD_PRICE) return undefined;
  const wood = book.labelOf(at);
  return wood === book.addressOf(at) ? undefined : `wood ${wood.toLowerCase()}`;
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
