import {
  type CellView,
  type OpenWorkbook,
  type ShowContext,
  showWithUnit,
} from '@kerfbook/workbook';
import { type Area, cellsOf, within } from '../session/area.ts';

/** What a selection comes to, in the words of its cells' quantity (G15). */
interface Summary {
  /** Cells that hold something. */
  readonly filled: number;
  readonly numbers: number;
  /** Sum, mean, least and most; undefined where the numbers are of different kinds. */
  readonly totals?: Readonly<Record<'sum' | 'mean' | 'least' | 'most', string>>;
}

/** Cells looked at, at the most: a whole sheet is summed up in a frame or two. */
const MOST = 200_000;

/** Sums of these mean nothing. */
const NOT_SUMMED: ReadonlySet<string> = new Set(['date', 'text', 'logical']);

export function summaryOf(
  book: OpenWorkbook,
  sheet: string,
  areas: readonly Area[],
): Summary | undefined {
  const { rows = 0, columns = 0 } = book.sheet(sheet) ?? {};
  const clipped = areas.flatMap((area) => within(area, rows, columns) ?? []);
  if (clipped.reduce((sum, area) => sum + cellsOf(area), 0) > MOST) return undefined;
  const seen = new Set<number>();
  let filled = 0;
  const numbers: number[] = [];
  let first: CellView | undefined;
  let alike = true;
  for (const { top, left, bottom, right } of clipped) {
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        const key = row * columns + column;
        if (clipped.length > 1 && seen.has(key)) continue;
        seen.add(key);
        const value = book.value({ sheet, row, column });
        if (value.kind === 'empty') continue;
        filled += 1;
        if (value.kind !== 'number') continue;
        numbers.push(value.number);
        const cell = book.cell({ sheet, row, column });
        first ??= cell;
        alike &&= cell.quantity === first.quantity;
      }
    }
  }
  if (first === undefined || !alike || NOT_SUMMED.has(first.quantity ?? '')) {
    return { filled, numbers: numbers.length };
  }
  return { filled, numbers: numbers.length, totals: totalsOf(numbers, contextOf(book, first)) };
}

function contextOf(book: OpenWorkbook, { quantity, show }: CellView): ShowContext {
  return {
    system: book.units,
    currency: book.currency,
    ...(quantity === undefined ? {} : { quantity }),
    ...(show === undefined ? {} : { show }),
  };
}

function totalsOf(numbers: readonly number[], context: ShowContext) {
  const told = (number: number): string => showWithUnit({ kind: 'number', number }, context);
  const sum = numbers.reduce((a, b) => a + b, 0);
  return {
    sum: told(sum),
    mean: told(sum / numbers.length),
    least: told(numbers.reduce((a, b) => Math.min(a, b))),
    most: told(numbers.reduce((a, b) => Math.max(a, b))),
  };
}
