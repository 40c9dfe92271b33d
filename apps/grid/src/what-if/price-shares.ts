import { readOperations } from '@kerfbook/days';
import { amountsOf, figuresSaid } from '@kerfbook/guide';
import type { CellView, OpenWorkbook } from '@kerfbook/workbook';

/** What a part of a price is paid for. */
export type ShareGroup = 'Material' | 'Labor' | 'Overhead' | 'Delivery' | 'Profit';

/** A part of a price. */
export interface PriceShare {
  readonly group: ShareGroup;
  /** What it is paid for: what stands beside its cell, or the operation. */
  readonly says: string;
  /** In the workbook's currency; a profit may be less than nothing. */
  readonly amount: number;
}

/** A price and all it is made of; the shares come to it. */
export interface PriceShares {
  /** Before tax, as a quote has it. */
  readonly price: number;
  readonly shares: readonly PriceShare[];
}

/** What is read of an open workbook. */
export type SharesSource = Parameters<typeof readOperations>[0] &
  Parameters<typeof figuresSaid>[0] &
  Pick<OpenWorkbook, 'named' | 'explain' | 'cell' | 'labelOf'>;

/** A cost workbook takes in the material of another one under its own total, so its names come first. */
const COSTS = {
  material: ['price_material', 'cost_material'],
  labor: ['price_labour', 'cost_labour'],
  overhead: ['price_overhead', 'cost_overhead'],
  delivery: ['cost_delivery'],
} as const;

/** Amounts are told to the cent: less than half of one is nothing. */
const HALF_A_CENT = 0.005;

/**
 * What a price is made of: lines of material, labor by operation, overhead, delivery, and what is left of the price as
 * profit. A sum that its lines do not come to is told as one amount; undefined where there is no price, or no cost.
 */
export function priceShares(source: SharesSource): PriceShares | undefined {
  const asked = amountsOf(figuresSaid(source));
  if (!asked.ok) return undefined;
  const material = firstOf(source, COSTS.material);
  const labor = firstOf(source, COSTS.labor);
  const overhead = firstOf(source, COSTS.overhead);
  if (material === undefined || labor === undefined || overhead === undefined) return undefined;
  const delivery = firstOf(source, COSTS.delivery);
  const one = (group: ShareGroup, cell: CellView | undefined): readonly PriceShare[] =>
    cell === undefined ? [] : [{ group, says: calledIn(source, cell), amount: amountIn(cell) }];
  const paid = [
    ...materialLines(source, material),
    ...laborLines(source, labor),
    ...one('Overhead', overhead),
    ...one('Delivery', delivery),
  ];
  const price = asked.amounts.price.amount;
  const profit = price - paid.reduce((sum, { amount }) => sum + amount, 0);
  return {
    price,
    shares: [
      ...paid.filter(({ amount }) => Math.abs(amount) >= HALF_A_CENT),
      { group: 'Profit', says: 'Profit', amount: profit },
    ],
  };
}

/** The first of some names whose cell is a number. */
function firstOf(source: SharesSource, names: readonly string[]): CellView | undefined {
  return names.map((name) => source.named(name)).find((cell) => cell?.value.kind === 'number');
}

const amountIn = ({ value }: CellView): number => (value.kind === 'number' ? value.number : 0);

const calledIn = (source: SharesSource, cell: CellView): string =>
  source.labelOf(cell.at) || (cell.name ?? cell.address);

/** The amounts that a sum of material is added up from, where they do come to it. */
function materialLines(source: SharesSource, total: CellView): readonly PriceShare[] {
  const whole = {
    group: 'Material',
    says: calledIn(source, total),
    amount: amountIn(total),
  } as const;
  const lines = source
    .explain(total.at)
    .uses.map(({ at }) => source.cell(at))
    .filter(({ quantity, value }) => quantity === 'money' && value.kind === 'number')
    .map(
      (cell) =>
        ({ group: 'Material', says: calledIn(source, cell), amount: amountIn(cell) }) as const,
    );
  return comesTo(lines, whole.amount) ? lines : [whole];
}

/** Labor by operation, at the hourly rate; what of it stands in no operation is a line of its own. */
function laborLines(source: SharesSource, total: CellView): readonly PriceShare[] {
  const whole = { group: 'Labor', says: calledIn(source, total), amount: amountIn(total) } as const;
  const rate = firstOf(source, ['hourly_rate']);
  if (rate === undefined) return [whole];
  const lines = readOperations(source).operations.map(
    ({ name, handsOn }) =>
      ({ group: 'Labor', says: name, amount: handsOn * amountIn(rate) }) as const,
  );
  const rest = whole.amount - sumOf(lines);
  if (lines.length === 0 || rest < -HALF_A_CENT) return [whole];
  return [...lines, { group: 'Labor', says: 'Other labor', amount: rest }];
}

const sumOf = (lines: readonly PriceShare[]): number =>
  lines.reduce((sum, { amount }) => sum + amount, 0);

const comesTo = (lines: readonly PriceShare[], amount: number): boolean =>
  lines.length > 0 && Math.abs(sumOf(lines) - amount) < HALF_A_CENT;
