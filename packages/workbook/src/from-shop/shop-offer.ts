import type { BookDocument, Edit } from '@kerfbook/document';
import type { Refused } from '../api.ts';
import { unlocked } from '../catching-up/in-step.ts';
import type { Choices } from '../catching-up/renewal.ts';
import { type PartRows, partRows, type Weighed, weighed } from '../catching-up/weighed.ts';
import { Workbook } from '../workbook.ts';
import { type ShopFigure, shopFigures } from './shop-figures.ts';
import { takeFigures } from './take-figures.ts';

/**
 * What a workbook is offered of the shop's, and what taking it does (rules H11, H13). Nothing is changed by it: what
 * each choice would do is read off a copy that the engine works out.
 */
export class ShopOffer {
  /** What is offered. */
  readonly figures: readonly ShopFigure[];
  /** What is not offered, since it would change a price that was agreed on. */
  readonly withheld: readonly ShopFigure[];
  /** Amounts of money are in another currency, and not compared. */
  readonly otherMoney: boolean;
  readonly #copy: Workbook;
  readonly #parts: PartRows;
  readonly #agreed: Amounts | undefined;

  private constructor(mine: BookDocument, copy: Workbook, found: Found) {
    this.#copy = copy;
    this.#parts = partRows(copy);
    this.#agreed = mine.agreed === undefined ? undefined : amountsIn(copy);
    this.otherMoney = found.otherMoney;
    const stays = found.figures.filter((figure) => !this.#changesPrice([figure]));
    this.figures = stays;
    this.withheld = found.figures.filter((figure) => !stays.includes(figure));
  }

  /** Refused in a sentence where the two cannot be compared. */
  static of(
    mine: BookDocument,
    shop: BookDocument,
  ): { readonly ok: true; readonly offer: ShopOffer } | Refused {
    const copy = Workbook.open(unlocked(mine));
    const found = shopFigures(copy, shop);
    return found.ok ? { ok: true, offer: new ShopOffer(mine, copy, found) } : found;
  }

  /** What takes the figures that were chosen, as one step; a sentence where an agreed price would change by it. */
  take(
    choices: Choices,
  ): { readonly ok: true; readonly edit: Edit } | { readonly ok: false; readonly says: string } {
    const chosen = this.#chosen(choices);
    if (this.#changesPrice(chosen)) return { ok: false, says: PRICE_STANDS };
    return { ok: true, edit: takeFigures(this.#copy, chosen) };
  }

  /** What the workbook comes to with these choices. */
  weigh(choices: Choices): Weighed | { readonly says: string } {
    return this.#tried(this.#chosen(choices), () => weighed(this.#copy, this.#parts));
  }

  /** The workbook as it is, weighed alike. */
  now(): Weighed {
    return weighed(this.#copy, this.#parts);
  }

  #chosen(choices: Choices): readonly ShopFigure[] {
    return this.figures.filter(({ key }) => choices.get(key) === 'theirs');
  }

  #changesPrice(figures: readonly ShopFigure[]): boolean {
    if (this.#agreed === undefined) return false;
    // Terms are agreed on with the price.
    if (figures.some(({ key }) => key === 'terms')) return true;
    const then = this.#tried(figures, () => amountsIn(this.#copy));
    return 'says' in then || !stand(this.#agreed, then);
  }

  /** Carries figures out on the copy, looks at it, and takes them back. */
  #tried<T>(figures: readonly ShopFigure[], look: () => T): T | { readonly says: string } {
    if (figures.length === 0) return look();
    const done = this.#copy.apply(takeFigures(this.#copy, figures));
    if (!done.ok) return { says: done.says };
    try {
      return look();
    } finally {
      this.#copy.undo();
    }
  }
}

interface Found {
  readonly figures: readonly ShopFigure[];
  readonly otherMoney: boolean;
}

const PRICE_STANDS =
  'The price was agreed on, and these together would change it. Take fewer of them, or clear the day under "Price agreed on" first.';

/** Amounts of money by ids of their cells. */
type Amounts = ReadonlyMap<string, number | string>;

/** Every amount of money of a workbook, its rates and prices too. */
function amountsIn(book: Workbook): Amounts {
  const amounts = new Map<string, number | string>();
  for (const { id: sheet, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const { quantity, formula, value } = book.cell({ sheet, row, column });
        // Of a formula of which nothing was said it may be the price that it comes to.
        const mayBe = quantity === undefined ? formula !== undefined : quantity.startsWith('money');
        if (!mayBe) continue;
        const ids = book.idsAt({ sheet, row, column });
        const is = value.kind === 'number' ? value.number : value.kind;
        amounts.set(`${sheet} ${ids?.row} ${ids?.column}`, is);
      }
    }
  }
  return amounts;
}

/** Every amount that was there stands; a board of the rack that comes with its price changes none. */
const stand = (before: Amounts, after: Amounts): boolean =>
  [...before].every(([ids, amount]) => after.get(ids) === amount);
