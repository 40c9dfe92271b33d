import { Fault, listed, quartersPlaned } from '@kerfbook/wood';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Format } from '../units.ts';
import type { CutItem } from './cut-list.ts';
import type { Kerf } from './kerf.ts';
import type { PlanGroup } from './plan.ts';

const MM_PER_INCH = 25.4;
/**
 * What planing and flattening usually take off boards in all: stock as thick as a part and this is planed with no word.
 * 3/8 in; common practice, no source.
 */
const USUAL_PLANING = (3 / 8) * MM_PER_INCH;
/** Resawing for less than this gives nothing that is used, mm: 1/2 in; common practice, no source. */
const LEAST_RESAWN = MM_PER_INCH / 2;
/** Sizes that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;

const HELP = {
  maker: {
    resaw: 'Resaw the boards, or add thinner ones to the stock table.',
    thinner: 'Add thinner boards to the stock table if you can buy them.',
  },
  // A plan has no stock table: what it says to buy is printed.
  builder: {
    resaw: 'Resaw the boards, or buy thinner ones.',
    thinner: 'Buy thinner boards if you can.',
  },
} as const;

/** What a list of several can hold without reading as two: `Side (boards)`, where on the bench it is `Side, board`. */
function nameOf({ name, becomes, laminates }: CutItem): string {
  if (laminates !== undefined) return `${laminates.part} (layers)`;
  return becomes === undefined ? name : `${becomes.part} (boards)`;
}

/** How thick it ends: a board of a panel as the panel does. */
const endsAt = ({ becomes, thickness }: CutItem): number => becomes?.thickness ?? thickness;

/**
 * Parts that are planed out of boards far thicker than they are, a sentence for each thickness. Of sheets nothing is
 * said: they come as thick as the parts table takes them.
 * @param reader who reads it: whoever has the workbook and its stock table, or whoever builds from a plan
 */
export function planedAway(
  { boards, thickness: from }: Pick<PlanGroup, 'boards' | 'thickness'>,
  { mm: kerf }: Pick<Kerf, 'mm'>,
  format: Format,
  reader: 'maker' | 'builder' = 'maker',
): readonly string[] {
  const items = new Set<CutItem>(boards.flatMap(({ pieces }) => pieces.map(({ item }) => item)));
  const thin = new Map<string, CutItem[]>();
  for (const item of items) {
    if (from - endsAt(item) <= USUAL_PLANING + NEAR) continue;
    const key = format(endsAt(item));
    thin.set(key, [...(thin.get(key) ?? []), item]);
  }
  return [...thin].map(([to, all]) => {
    const names = [...new Set(all.map(nameOf))];
    const isOne = names.length === 1 && all.every((item) => nameOf(item) === item.name);
    const thickest = Math.max(...all.map(endsAt));
    const isResawn = from - thickest - kerf >= LEAST_RESAWN;
    const help = HELP[reader][isResawn ? 'resaw' : 'thinner'];
    return `${listed(names)} ${isOne ? 'is' : 'are'} planed from ${format(from)} to ${to}. ${help}`;
  });
}

/**
 * Stock of a plan whose thickness was typed as the yard calls rough boards: `8/4` is read as 2 in, and is less once
 * both faces are planed. A sentence for each line of stock.
 */
export function roughAsTyped(
  book: Pick<OpenWorkbook, 'cell' | 'units'>,
  { buy }: Pick<PlanGroup, 'buy'>,
  format: Format,
): readonly string[] {
  return buy.flatMap(({ stock: { name, thicknessAt, thickness } }) => {
    if (thicknessAt === undefined) return [];
    const typed = book.cell(thicknessAt).entry.replaceAll(/[\s"]|in$/g, '');
    const planed = /^\d+\/4$/.test(typed) ? planedOf(typed) : undefined;
    if (planed === undefined || planed >= thickness - NEAR) return [];
    const own = format(planed);
    return [
      `${name === '' ? 'A line of stock' : name}: ${typed} is read as ${format(thickness)}, the rough thickness. With both faces planed it is usually ${own}: type that, since parts are cut from planed boards.`,
    ];
  });
}

/** mm; undefined for quarters that no rough lumber is sold by. */
function planedOf(quarters: string): number | undefined {
  try {
    return quartersPlaned(quarters) * MM_PER_INCH;
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}
